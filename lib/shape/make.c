/* The cut shape of a patch.
 *
 * All sides move outwards by the seam allowance and half the trim; tips that
 * are to be blunted get a side more. Then the dimensions that a ruler measures
 * go up to its grid, by moving sides further out and never by turning them: the
 * base for the height of the strip, a slanted side for the spacing of cuts,
 * both legs for a trapezoid's long side, all sides of a hexagon. Marks that are
 * no even number of units are passed over, since corners lie on even points.
 * What was cut as it is only goes up to even numbers. Squares, and triangles
 * from squares, have their own short way. */
#include "base/wide.h"
#include "length/ruler.h"
#include "shape/sides.h"

/* Cuts through tips lie so much further out, 1 micrometre, that the rounding of
 * the sides that they meet can take nothing from them. */
#define LOOSE qci_fine_of(8)

typedef struct maker {
    const qci_patch *patch;
    qci_cut_shape *out;
    qci_sides sides; /* moved out, blunted */
} maker;

/* Half of the trim on top of the seam. */
static qci_fine reach_of(const qci_patch *patch)
{
    return qci_fine_of(patch->seam) + patch->trim * (QCI_FINE / 2);
}

/* Up to what a dimension goes: a multiple of `step`, for finished sizes on the
 * ruler. */
static qc_length mark(const maker *m, qci_fine size, qc_length step)
{
    const qci_patch *patch = m->patch;
    qc_length up;

    if (patch->is_cut)
        return qci_fine_up_to(size, step);
    up = qci_ruler_up(qci_fine_up(size), patch->ruler);
    while (up % step)
        up += patch->ruler;
    m->out->rounded |= qci_fine_of(up) - size > QCI_FINE_NEAR;
    return up;
}

/* A base on the x axis, and the cuts through tips that are not level loosened.
 */
static void lay_on(const qci_sides *sides, int base, qci_sides *turned)
{
    qci_sides_turn(sides, base, turned);
    for (int i = 0; i < turned->count; i++)
        if (turned->at[i].tip && turned->at[i].dir.y)
            turned->at[i].out += LOOSE;
}

static bool is_too_large(qci_fine size)
{
    return size > qci_fine_of(QC_MAX_WIDTH);
}

/* Moves a base out until the height on it is one that can be cut; returns that
 * height; 0: too large. */
static qc_length raise(const maker *m, qci_sides *sides, int base)
{
    qci_sides turned;
    qci_fine height;
    qc_length up;

    lay_on(sides, base, &turned);
    height = qci_sides_height(&turned);
    if (is_too_large(height) || is_too_large(qci_sides_width(&turned)))
        return 0;
    up = mark(m, height, m->patch->shape == QC_SHAPE_HEXAGON ? 4 : 2);
    sides->at[base].out += qci_fine_of(up) - height;
    return up;
}

/* The long side is the base, so a leg that moves out by d makes it longer by
 * d / sine of its angle. */
static void widen_trapezoid(maker *m)
{
    qci_sides *s = &m->sides;
    qci_side *right = &s->at[qci_sides_next(s, 0, 1)];
    qci_side *left = &s->at[qci_sides_next(s, 0, -1)];
    qci_fine base =
        qci_sides_meet(&s->at[0], right).x - qci_sides_meet(left, &s->at[0]).x;
    qci_fine more = (qci_fine_of(mark(m, base, 2)) - base) / 2;

    right->out += qci_fine_times(more, right->dir.y);
    left->out -= qci_fine_times(more, left->dir.y);
}

/* Dimensions that go up whatever the base is; false: too large. */
static bool raise_all(maker *m)
{
    qci_sides *s = &m->sides;
    qci_sides tried = *s;
    qci_fine more;

    switch (m->patch->shape) {
    case QC_SHAPE_DIAMOND:
    case QC_SHAPE_PARALLELOGRAM:
        return raise(m, s, 0) && raise(m, s, qci_sides_next(s, 0, 1));
    case QC_SHAPE_TRAPEZOID:
        if (!raise(m, s, 0))
            return false;
        widen_trapezoid(m);
        return true;
    case QC_SHAPE_HEXAGON:
        if (!raise(m, &tried, 0))
            return false;
        more = tried.at[0].out - s->at[0].out;
        for (int i = 0; i < s->count; i++)
            s->at[i].out += more / 2;
        return true;
    default:
        return true;
    }
}

/* Width of an outline at half its height. */
static qci_fine middle_width(const qc_point *p, size_t count, qc_length height)
{
    qci_fine least = QCI_FINE_MAX, most = -QCI_FINE_MAX;

    for (size_t i = 0; i < count; i++) {
        qc_point a = p[i], b = p[(i + 1) % count];
        qci_fine x;

        if (a.y == b.y || (2 * a.y - height > 0) == (2 * b.y - height > 0))
            continue;
        x = qci_fine_of(a.x) + qci_fine_scaled(qci_fine_of(b.x - a.x),
                                               height - 2 * a.y,
                                               2 * (b.y - a.y));
        least = qci_fine_min(least, x);
        most = qci_fine_max(most, x);
    }
    return most - least;
}

static qci_patch_fault add_outline(const maker *m, int base)
{
    qci_cut_shape *out = m->out;
    qc_point *to = out->outline + out->base_count * out->outline_count;
    qci_sides sides = m->sides, turned;
    qc_length height = raise(m, &sides, base);

    if (!height)
        return QCI_PATCH_TOO_LARGE;
    lay_on(&sides, base, &turned);
    if (!qci_sides_round(&turned, m->patch->shape, height, to) ||
        middle_width(to, out->outline_count, height) <
            qci_fine_of(QCI_NARROWEST))
        return QCI_PATCH_TOO_NARROW;
    out->base_count++;
    return QCI_PATCH_FINE;
}

static qci_patch_fault add_outlines(const maker *m)
{
    m->out->outline_count = (size_t)m->sides.count;
    for (int base = 0; base < m->sides.count; base++) {
        qci_patch_fault fault = QCI_PATCH_FINE;

        if (!m->sides.at[base].tip && (!base || m->patch->any_base))
            fault = add_outline(m, base);
        if (fault)
            return fault;
    }
    return QCI_PATCH_FINE;
}

static bool is_parallelogram(qc_shape shape)
{
    return shape == QC_SHAPE_DIAMOND || shape == QC_SHAPE_PARALLELOGRAM;
}

/* As qc_plan_piece.cut, of what is not yet on the lattice; rounded up. */
static void measure(const qci_sides *sides, qc_shape shape, qc_length size[2])
{
    qci_sides turned;

    qci_sides_turn(sides, 0, &turned);
    size[1] = qci_fine_up(qci_sides_height(&turned));
    size[0] = qci_fine_up(qci_sides_width(&turned));
    if (!is_parallelogram(shape))
        return;
    qci_sides_turn(sides, qci_sides_next(sides, 0, 1), &turned);
    size[0] = qci_fine_up(qci_sides_height(&turned));
}

static void set_cut(const maker *m)
{
    qci_cut_shape *out = m->out;
    qc_length least = 0, most = 0;

    measure(&m->sides, m->patch->shape, out->cut);
    out->cut[1] = 0;
    for (size_t i = 0; i < out->outline_count; i++) {
        qc_point p = out->outline[i];

        least = p.x < least ? p.x : least;
        most = p.x > most ? p.x : most;
        out->cut[1] = p.y > out->cut[1] ? p.y : out->cut[1];
    }
    if (!is_parallelogram(m->patch->shape))
        out->cut[0] = most - least;
    else if (m->patch->is_cut)
        out->cut[0] = m->patch->size[0];
}

/* What is left after trimming back: all sides half the trim further in. */
static void set_trim(const maker *m)
{
    qci_sides sides = m->sides;

    if (!m->patch->trim)
        return;
    for (int i = 0; i < sides.count; i++)
        sides.at[i].out -= m->patch->trim * (QCI_FINE / 2);
    measure(&sides, m->patch->shape, m->out->trim_to);
}

static qci_patch_fault make_angled(maker *m, size_t *at)
{
    const qci_patch *patch = m->patch;
    qci_fine reach = reach_of(patch);
    qci_patch_fault fault = qci_patch_sides(patch, &m->sides, at);

    if (fault)
        return fault;
    m->out->finished_area =
        qci_sides_area(&m->sides, patch->is_cut ? reach : 0);
    /* Without a finished patch within it, a cut one has no point to be trimmed
     * to; nor may the trim alone use it up. */
    if (patch->is_cut &&
        ((patch->blunt && !m->out->finished_area) ||
         (patch->trim &&
          !qci_sides_area(&m->sides, patch->trim * (QCI_FINE / 2)))))
        return QCI_PATCH_TRIM;
    for (int i = 0; i < m->sides.count; i++)
        m->sides.at[i].out = patch->is_cut ? 0 : reach;
    if (patch->blunt)
        qci_sides_blunt(&m->sides, reach, patch->is_cut);
    set_trim(m);
    if (!patch->is_cut && !raise_all(m))
        return QCI_PATCH_TOO_LARGE;
    fault = add_outlines(m);
    if (!fault)
        set_cut(m);
    return fault;
}

/* Of a side that is cut as it is, what its seams leave; where they leave
 * nothing, the side. */
static qc_length shown(const qci_patch *patch, qc_length side, qc_length seams)
{
    qc_length taken = seams + patch->trim;

    if (!patch->is_cut)
        return side;
    return side > taken ? side - taken : side;
}

/* Sides of a square or rectangle; of a triangle, its square. */
static void set_square(const maker *m)
{
    const qci_patch *patch = m->patch;
    qci_cut_shape *out = m->out;
    qc_length seams = qci_shape_cut_up(patch->shape, 0, patch->seam);
    int32_t yields = qci_shape_yields(patch->shape);
    qci_wide area = 1;

    for (int i = 0; i < 2; i++) {
        bool oblong = patch->shape == QC_SHAPE_RECTANGLE ||
                      patch->shape == QC_SHAPE_STRIP;
        qc_length size = patch->size[oblong ? i : 0];
        qc_length exact =
            qci_shape_cut_up(patch->shape, size, patch->seam) + patch->trim;
        bool on_ruler =
            !patch->is_cut && (patch->shape != QC_SHAPE_STRIP || i == 0);

        area *= shown(patch, size, seams);
        out->cut[i] = patch->is_cut ? size
                      : on_ruler    ? qci_ruler_up(exact, patch->ruler)
                                    : exact;
        /* A triangle's seams are irrational. */
        out->rounded |= !patch->is_cut &&
                        (out->cut[i] != exact || (yields > 1 && patch->seam));
        if (patch->trim)
            out->trim_to[i] = yields == 1 && patch->is_cut
                                  ? size - patch->trim
                                  : shown(patch, size, seams) + 2 * patch->seam;
    }
    area /= yields;
    out->finished_area = area > INT64_MAX ? INT64_MAX : (int64_t)area;
}

/* A triangle from strips: one of a square's two or four, if that has corners on
 * even points and a strip of its height can be cut; else, where it cannot come
 * from squares, the next larger one of which that is true. */
static void set_triangle(const maker *m)
{
    const qci_patch *patch = m->patch;
    qci_cut_shape *out = m->out;
    bool half = patch->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE;
    qc_length side = out->cut[0];
    qci_fine exact = half ? qci_fine_of(side) : side * (QCI_FINE / 2);
    bool rounded = out->rounded;
    qc_length height = mark(m, exact, 2);
    qc_point *to = out->outline;

    if (!patch->singly) {
        out->rounded = rounded;
        if (qci_fine_of(height) != exact)
            return;
    }
    to[0] = (qc_point){0, 0};
    to[1] = (qc_point){half ? height : 2 * height, 0};
    to[2] = (qc_point){half ? 0 : height, height};
    out->outline_count = 3;
    out->base_count = 1;
}

static qci_patch_fault make_square(const maker *m)
{
    const qci_patch *patch = m->patch;
    qc_length side;

    set_square(m);
    for (int i = 0; i < 2; i++)
        if (patch->is_cut && patch->trim &&
            (m->out->cut[i] <= patch->trim || m->out->trim_to[i] <= 0))
            return QCI_PATCH_TRIM;
    if (qci_shape_yields(patch->shape) == 1)
        return QCI_PATCH_FINE;
    /* At half its height a triangle is half as wide as its square. */
    side = m->out->cut[0];
    if (side >= 2 * QCI_NARROWEST && side <= QC_MAX_WIDTH)
        set_triangle(m);
    else if (patch->singly)
        return side > QC_MAX_WIDTH ? QCI_PATCH_TOO_LARGE : QCI_PATCH_TOO_NARROW;
    return QCI_PATCH_FINE;
}

qci_patch_fault qci_shape_make(const qci_patch *patch, qci_cut_shape *out,
                               size_t *at)
{
    maker m = {patch, out, {0}};

    *at = 0;
    out->cut[0] = out->cut[1] = 0;
    out->trim_to[0] = out->trim_to[1] = 0;
    out->rounded = false;
    out->finished_area = 0;
    out->outline_count = out->base_count = 0;
    switch (patch->shape) {
    case QC_SHAPE_SQUARE:
    case QC_SHAPE_RECTANGLE:
    case QC_SHAPE_STRIP:
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
        return make_square(&m);
    default:
        return make_angled(&m, at);
    }
}
