/* From a shape's exact sides to an outline with whole even corners.
 *
 * Where the base, two sides and perhaps a side along the top make up the shape
 * (diamonds, trapezoids, triangles; their tips aside), these sides are first
 * laid through even points of the strip's edges: parallel ones with one lean,
 * the sides of a triangle so that they meet in its apex. The hexagon is laid so
 * that left and right, above and below stay alike. All others keep their sides.
 * Then every corner goes to an even point near by that lies outside both its
 * sides, so that the outline holds the whole shape; those on the strip's edges
 * along the edge. What this adds is a few units, thousandths of a millimetre.
 */
#include "shape/sides.h"

/* Leans and widths that differ by less are meant to be equal. */
#define ALIKE (QCI_FINE >> 10)
/* How far round a corner an even point is looked for; and how many times worse
 * it is to leave a side than to leave the cut through a tip. */
#define SEARCHED 16
#define SIDE_WEIGHT 4

typedef struct rounding {
    qci_sides sides;
    qc_length height;
} rounding;

static qci_fine size_of(qci_fine n)
{
    return n < 0 ? -n : n;
}

/* How far the line of a side runs over the whole height. */
static qci_fine lean_of(const rounding *r, const qci_side *side)
{
    return qci_fine_scaled(qci_fine_of(r->height), side->dir.x, side->dir.y);
}

static qc_length away(qci_fine lean)
{
    return lean < 0 ? -qci_fine_up_to(-lean, 2) : qci_fine_up_to(lean, 2);
}

/* A side through even points; both within the fabric's greatest width. */
static void lay(qci_side *side, qc_point from, qc_point to)
{
    bool tip = side->tip;

    *side = (qci_side){qci_dir_along(to.x - from.x, to.y - from.y),
                       qci_fine_of(from.x), qci_fine_of(from.y), 0, tip};
}

static void shift(rounding *r, qci_fine x, qci_fine y)
{
    for (int i = 0; i < r->sides.count; i++) {
        r->sides.at[i].x += x;
        r->sides.at[i].y += y;
    }
}

typedef struct frame {
    int left, right;
    qci_fine base, lean[2]; /* exact */
    bool angled;            /* the lean is that of an angle, as others have */
} frame;

/* The three numbers of the frame on the lattice: leans, and length of the
 * base. */
typedef struct laid {
    qc_length left, right, base;
} laid;

/* Parallel sides. They lean by as much or more, so the base grows by as much;
 * and by no less than qci_pitch_of() says. */
static laid lay_parallel(const frame *f)
{
    qc_length lean = away(f->lean[0]);
    qci_fine more = size_of(qci_fine_of(lean) - f->lean[0]);
    qc_length base = qci_fine_up_to(f->base + more, 2);
    qc_length pitch =
        qci_fine_up_to(f->base, 2) + (qci_fine_whole(f->base) ? 0 : 2);

    return (laid){lean, lean, base > pitch ? base : pitch};
}

/* Sides that meet above: the apex is where both leans say. */
static laid lay_apex(const frame *f)
{
    laid l = {qci_fine_up_to(f->lean[0], 2), qci_fine_even_down(f->lean[1]), 0};

    l.base = l.left - l.right;
    return l;
}

/* Other sides lean outwards rather than inwards, and the base keeps its
 * length. */
static laid lay_apart(const frame *f)
{
    return (laid){qci_fine_even_down(f->lean[0]), qci_fine_up_to(f->lean[1], 2),
                  qci_fine_up_to(f->base, 2)};
}

/* As lay_apart(), with the leans that all shapes of this angle have. */
static laid lay_angled(const frame *f)
{
    laid l = {away(f->lean[0]), away(f->lean[1]), 0};
    qci_fine in = qci_fine_max(0, qci_fine_of(l.left) - f->lean[0]);
    qci_fine upper = f->lean[1] - qci_fine_of(l.right);

    l.base = qci_fine_up_to(in + f->base + qci_fine_max(0, upper), 2);
    return l;
}

static bool has_apex(const rounding *r, const frame *f)
{
    return (f->right + 1) % r->sides.count == f->left;
}

static void lay_frame(rounding *r, const frame *f)
{
    bool parallel = size_of(f->lean[0] - f->lean[1]) <= ALIKE;
    laid l = parallel         ? lay_parallel(f)
             : has_apex(r, f) ? lay_apex(f)
             : f->angled      ? lay_angled(f)
                              : lay_apart(f);
    qci_fine in = qci_fine_max(0, qci_fine_of(l.left) - f->lean[0]);
    qci_fine_point start =
        qci_sides_meet(&r->sides.at[f->left], &r->sides.at[0]);

    shift(r, in - start.x, 0);
    lay(&r->sides.at[f->left], (qc_point){l.left, r->height}, (qc_point){0, 0});
    lay(&r->sides.at[f->right], (qc_point){l.base, 0},
        (qc_point){l.base + l.right, r->height});
}

/* Does the shape stand between two sides alone? */
static bool find_frame(const rounding *r, frame *f)
{
    const qci_sides *s = &r->sides;
    int above;

    f->right = qci_sides_next(s, 0, 1);
    f->left = qci_sides_next(s, 0, -1);
    above = qci_sides_next(s, f->right, 1);
    if (above != f->left &&
        (s->at[above].dir.y || qci_sides_next(s, above, 1) != f->left))
        return false;
    f->lean[0] = lean_of(r, &s->at[f->left]);
    f->lean[1] = lean_of(r, &s->at[f->right]);
    f->base = qci_sides_meet(&s->at[0], &s->at[f->right]).x -
              qci_sides_meet(&s->at[f->left], &s->at[0]).x;
    return true;
}

/* Its height is a multiple of 4. A quarter of the width is half a side. */
static void lay_hexagon(rounding *r)
{
    qc_length side = qci_fine_up_to(lean_of(r, &r->sides.at[1]), 4);
    qc_length half = r->height / 2;
    const qc_point corners[] = {
        {0, 0},
        {side, 0},
        {side + side / 2, half},
        {side, r->height},
        {0, r->height},
        {-side / 2, half},
    };

    for (int i = 0; i < 6; i++)
        lay(&r->sides.at[i], corners[i], corners[(i + 1) % 6]);
}

/* The highest corner; -1: a whole side lies highest. */
static int find_apex(const qci_sides *sides, const qci_fine_point *corners)
{
    int apex = 0;

    for (int i = 0; i < sides->count; i++)
        apex = corners[i].y > corners[apex].y ? i : apex;
    for (int i = 1; i < sides->count; i++)
        if (!sides->at[i].dir.y)
            return -1;
    return apex;
}

/* So that the highest corner, which must keep its height, lies on an even
 * point. */
static void shift_apex(rounding *r)
{
    qci_fine_point corners[QCI_CORNERS_MAX];
    int apex;

    qci_sides_corners(&r->sides, corners);
    apex = find_apex(&r->sides, corners);
    if (apex >= 0)
        shift(r,
              qci_fine_of(qci_fine_up_to(corners[apex].x, 2)) - corners[apex].x,
              0);
}

static qci_fine outside(const qci_side *side, qc_point p)
{
    return qci_side_far(&(qci_side){side->dir, qci_fine_of(p.x),
                                    qci_fine_of(p.y), 0, false}) -
           qci_side_far(side);
}

/* What it costs to leave a side for p. */
static qci_fine cost_of(const qci_side *side, qc_point p)
{
    return outside(side, p) * (side->tip ? 1 : SIDE_WEIGHT);
}

/* Straight away from the corner, far enough that going to the next even point
 * cannot lead back in. */
static qc_point far_point(const qci_side *a, const qci_side *b,
                          qci_fine_point corner)
{
    qci_dir across = qci_dir_along(a->dir.x + b->dir.x, a->dir.y + b->dir.y);
    qci_fine far =
        qci_fine_scaled(qci_fine_of(2), QCI_ONE, qci_dir_dot(a->dir, across));
    qci_fine x = corner.x + qci_fine_times(far, across.y);
    qci_fine y = corner.y - qci_fine_times(far, across.x);

    return (qc_point){qci_fine_up_to(x - QCI_FINE, 2),
                      qci_fine_up_to(y - QCI_FINE, 2)};
}

/* The even point that leaves two sides least. */
static qc_point near_point(const qci_side *a, const qci_side *b,
                           qci_fine_point corner)
{
    const qc_point middle = {qci_fine_up_to(corner.x, 2),
                             qci_fine_up_to(corner.y, 2)};
    qc_point best = far_point(a, b, corner);
    qci_fine least = QCI_FINE_MAX;

    for (qc_length x = -SEARCHED; x <= SEARCHED; x += 2) {
        for (qc_length y = -SEARCHED; y <= SEARCHED; y += 2) {
            qc_point p = {middle.x + x, middle.y + y};
            qci_fine cost = cost_of(a, p) + cost_of(b, p);

            if (outside(a, p) < -QCI_FINE_NEAR ||
                outside(b, p) < -QCI_FINE_NEAR || cost >= least)
                continue;
            least = cost;
            best = p;
        }
    }
    return best;
}

/* Where a side reaches the upper edge. */
static qc_point edge_point(const rounding *r, const qci_side *side)
{
    const qci_side edge = {{-QCI_ONE, 0}, 0, qci_fine_of(r->height), 0, false};
    qci_fine x = qci_sides_meet(&edge, side).x;

    return (qc_point){qci_fine_up_to(x - QCI_FINE, 2), r->height};
}

/* The highest corner stays on the side that may least be left; but a side that
 * is nearly flat reaches the edge far beyond the other one. */
static qc_point apex_point(const rounding *r, const qci_side *a,
                           const qci_side *b)
{
    const qci_side *kept = a->tip ? b : a, *left = a->tip ? a : b;
    qc_point on_kept = edge_point(r, kept), on_left = edge_point(r, left);

    return cost_of(left, on_kept) <= cost_of(kept, on_left) ? on_kept : on_left;
}

/* Corner i, where side i starts. The base is side 0. */
static qc_point round_corner(const rounding *r, int i, qci_fine_point corner,
                             bool apex)
{
    const qci_sides *s = &r->sides;
    const qci_side *a = &s->at[(i + s->count - 1) % s->count];
    const qci_side *b = &s->at[i];

    if (i == 0)
        return (qc_point){qci_fine_even_down(corner.x), 0};
    if (i == 1)
        return (qc_point){qci_fine_up_to(corner.x, 2), 0};
    if (!b->dir.y)
        return (qc_point){qci_fine_up_to(corner.x, 2), r->height};
    if (!a->dir.y)
        return (qc_point){qci_fine_even_down(corner.x), r->height};
    return apex ? apex_point(r, a, b) : near_point(a, b, corner);
}

/* Rounding one half as the other keeps what is its own mirror image so, or what
 * looks the same when it is turned by half: its leans must be equal on both
 * sides. */
static void match_halves(const rounding *r, qc_shape shape, qc_point *out)
{
    const qci_sides *s = &r->sides;
    int count = s->count;
    int right = qci_sides_next(s, 0, 1), left = qci_sides_next(s, 0, -1);
    qc_length base =
        qci_fine_up_to(qci_sides_meet(&s->at[0], &s->at[right]).x, 2);
    bool turns = shape == QC_SHAPE_DIAMOND || shape == QC_SHAPE_PARALLELOGRAM;
    bool mirrors =
        shape == QC_SHAPE_EQUILATERAL_TRIANGLE || shape == QC_SHAPE_TRAPEZOID;
    qc_length over =
        qci_fine_up_to(lean_of(r, &s->at[right]) - QCI_FINE, 2) + base;

    for (int i = 0; turns && i < count / 2; i++)
        out[i + count / 2] = (qc_point){over - out[i].x, r->height - out[i].y};
    if (s->at[left].dir.x != s->at[right].dir.x)
        return;
    for (int i = 1; mirrors && i <= count / 2; i++)
        out[(count + 1 - i) % count] = (qc_point){base - out[i].x, out[i].y};
}

static bool is_outline(const qc_point *p, int count, qc_length height)
{
    size_t at;

    for (int i = 0; i < count; i++)
        if (p[i].y < 0 || p[i].y > height)
            return false;
    return qci_convex_check(p, (size_t)count, &at) == QCI_PATCH_FINE;
}

bool qci_sides_round(const qci_sides *turned, qc_shape shape, qc_length height,
                     qc_point *out)
{
    rounding r = {*turned, height};
    qci_fine_point corners[QCI_CORNERS_MAX];
    frame f = {.angled = shape == QC_SHAPE_EQUILATERAL_TRIANGLE};
    qc_length from;
    int apex;

    shift(&r, 0, turned->at[0].out);
    if (shape == QC_SHAPE_HEXAGON)
        lay_hexagon(&r);
    else if (find_frame(&r, &f))
        lay_frame(&r, &f);
    else
        shift_apex(&r);
    qci_sides_corners(&r.sides, corners);
    apex = find_apex(&r.sides, corners);
    for (int i = 0; i < r.sides.count; i++)
        out[i] = round_corner(&r, i, corners[i], i == apex);
    match_halves(&r, shape, out);
    from = out[0].x;
    for (int i = 0; i < r.sides.count; i++)
        out[i].x -= from;
    return is_outline(out, r.sides.count, height);
}
