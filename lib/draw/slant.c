/* Sections with slanted sides, and sections that are trimmed to an outline.
 *
 * A section lies between two straight cuts across its strip; what lies between
 * facing cuts of unequal leans is a wedge of scrap. The piece is laid against
 * the section's first side as the plan says it lies, and every side of its
 * outline cuts off what is beyond it, straight through, as the steps do: that
 * is drawn as scrap, so the picture shows these cuts as well.
 *
 * Cost: linear in the sections that can be told apart. */
#include "draw/sheet.h"

#include <math.h>

#include "draw/corners.h"

/* More than any outline of a plan has. */
#define MOST_CORNERS 40

static const qc_plan_piece *outlined(const qci_sheet *sheet,
                                     const qc_subcut *subcut)
{
    const qc_plan_piece *piece;

    if (!subcut->stack_count || subcut->stacks[0].yields > 1)
        return NULL;
    piece = qc_plan_piece_at(sheet->plan, subcut->stacks[0].piece);
    return piece->outline_count && piece->outline_count <= MOST_CORNERS ? piece
                                                                        : NULL;
}

bool qci_slant_wants(const qci_sheet *sheet, const qc_subcut *subcut)
{
    return subcut->lean[0] || subcut->lean[1] || outlined(sheet, subcut);
}

static void between(qci_edge left, qci_edge right, double y, double h,
                    qci_corner out[4])
{
    out[0] = (qci_corner){left.low, y + h};
    out[1] = (qci_corner){right.low, y + h};
    out[2] = (qci_corner){right.up, y};
    out[3] = (qci_corner){left.up, y};
}

/* Drawn unless it is thinner than a line. */
static void lay_scrap(qci_sheet *sheet, const qci_corner *corners, size_t count)
{
    double x, y, w, h;

    if (!count)
        return;
    qci_corners_box(corners, count, &x, &y, &w, &h);
    if (qci_corners_area(corners, count) >= QCI_LEAST_SCRAP * fmax(w, h))
        qci_scene_polygon(sheet->scene, QCI_ROLE_SCRAP, corners, count, 0);
}

void qci_slant_scrap(qci_sheet *sheet, qci_edge from, qci_edge to, double y,
                     double h)
{
    qci_corner corners[4];

    if (from.low == from.up && to.low == to.up) {
        if (to.low - from.low >= QCI_LEAST_SCRAP && h >= QCI_LEAST_SCRAP)
            qci_scene_box(sheet->scene, QCI_ROLE_SCRAP, from.low, y,
                          to.low - from.low, h, 0);
        return;
    }
    between(from, to, y, h, corners);
    lay_scrap(sheet, corners, 4);
}

/* The cut with the lean `lean` whose middle is at `middle`. */
static qci_edge cut_at(double middle, double lean)
{
    return (qci_edge){middle - lean / 2, middle + lean / 2};
}

static double middle_of(qci_edge edge)
{
    return (edge.low + edge.up) / 2;
}

/* The first cut beyond `edge` that has that lean. */
static qci_edge next_cut(qci_edge edge, double lean)
{
    double turn = fabs(lean - (edge.up - edge.low));

    return cut_at(middle_of(edge) + turn / 2, lean);
}

qci_edge qci_slant_wedge(qci_sheet *sheet, qci_edge edge, double lean, double y,
                         double h)
{
    qci_edge next = next_cut(edge, lean);

    if (edge.low != edge.up || lean != 0)
        qci_slant_scrap(sheet, edge, next, y, h);
    return next;
}

static qci_corner turn_corner(qci_corner c, qc_turn turn)
{
    switch (turn) {
    case QC_TURN_QUARTER:
        return (qci_corner){-c.y, c.x};
    case QC_TURN_HALF:
        return (qci_corner){-c.x, -c.y};
    case QC_TURN_THREE_QUARTERS:
        return (qci_corner){c.y, -c.x};
    default:
        return c;
    }
}

size_t qci_slant_outline(const qc_plan_piece *piece, uint32_t base,
                         qc_turn turn, bool mirrored, qci_corner *out)
{
    const qc_point *corners = piece->outline;
    size_t count = piece->outline_count;
    double x, y, w, h;

    if (base < piece->base_count)
        corners += base * count;
    for (size_t i = 0; i < count; i++) {
        out[i] = (qci_corner){(double)corners[i].x, (double)corners[i].y};
        if (mirrored)
            out[i].x = -out[i].x;
        out[i] = turn_corner(out[i], turn);
    }
    qci_corners_box(out, count, &x, &y, &w, &h);
    for (size_t i = 0; i < count; i++) {
        out[i].x -= x;
        out[i].y -= y;
    }
    return count;
}

/* Moves an outline, in qc_length, onto the page: its lowest corner on the
 * strip's lower edge `bottom`, its left side against the cut `left`. */
static void put_outline(const qci_sheet *sheet, qci_corner *at, size_t count,
                        qci_edge left, double bottom, double h)
{
    double shift = INFINITY;

    for (size_t i = 0; i < count; i++) {
        double up = at[i].y * sheet->scale;

        at[i] = (qci_corner){at[i].x * sheet->scale, bottom - up};
        shift = fmin(shift, at[i].x - left.low - (left.up - left.low) * up / h);
    }
    for (size_t i = 0; i < count; i++)
        at[i].x -= shift;
}

static qci_corner centre_of(const qci_corner *at, size_t count)
{
    qci_corner sum = {0, 0};

    for (size_t i = 0; i < count; i++) {
        sum.x += at[i].x / (double)count;
        sum.y += at[i].y / (double)count;
    }
    return sum;
}

/* Cuts off what the section has beyond the piece, side by side. */
static void lay_trimmings(qci_sheet *sheet, const qci_corner section[4],
                          const qci_corner *piece, size_t count)
{
    qci_corner rest[QCI_CORNERS_ROOM], off[QCI_CORNERS_ROOM];
    qci_corner centre = centre_of(piece, count);
    size_t rest_count = 4;

    for (size_t i = 0; i < 4; i++)
        rest[i] = section[i];
    for (size_t i = 0; i < count && rest_count; i++) {
        qci_corner a = piece[i], b = piece[(i + 1) % count];
        size_t n = qci_corners_cut(rest, rest_count, a, b, centre, false, off);

        lay_scrap(sheet, off, n);
        rest_count = qci_corners_cut(rest, rest_count, a, b, centre, true, off);
        for (size_t k = 0; k < rest_count; k++)
            rest[k] = off[k];
    }
}

/* One section between two cuts, or, where they are too narrow to be told
 * apart, `together` of them. */
typedef struct section {
    qci_edge left, right;
    double y, h;
    uint64_t together;
    bool turned; /* by half, against what the plan describes */
} section;

/* A label's choice, once it has been made. */
typedef struct choice {
    bool made;
    qci_fit fit;
} choice;

/* The piece's outline on the page, as it lies in the section. The plan says how
 * a piece lies as it is seen, and measures leans away from the worked end: in a
 * left-handed plan that is still to be turned left for right. */
static size_t outline_in(const qci_sheet *sheet, const qc_stack *stack,
                         const qc_plan_piece *piece, const section *s,
                         qci_corner *corners)
{
    qc_turn turn = (qc_turn)((stack->turn + 2 * s->turned) % 4);
    size_t count =
        qci_slant_outline(piece, stack->base, turn, stack->mirrored, corners);

    if (qc_plan_left_handed(sheet->plan))
        for (size_t i = 0; i < count; i++)
            corners[i].x = -corners[i].x;
    put_outline(sheet, corners, count, s->left, s->y + s->h, s->h);
    return count;
}

static void lay_section(qci_sheet *sheet, const qc_stack *stack, bool paired,
                        const qc_plan_piece *piece, const section *s,
                        choice *label)
{
    qci_corner quad[4], corners[MOST_CORNERS];
    size_t count = 4, owner;

    between(s->left, s->right, s->y, s->h, quad);
    for (size_t i = 0; i < 4; i++)
        corners[i] = quad[i];
    if (piece && s->together == 1) {
        count = outline_in(sheet, stack, piece, s, corners);
        lay_trimmings(sheet, quad, corners, count);
    }
    if (!label->made)
        qci_name_fit(sheet, stack, paired, s->together,
                     (qci_room){.corners = corners, .count = count},
                     &label->fit);
    label->made = true;
    owner = qci_scene_polygon(sheet->scene, QCI_ROLE_PIECE, corners, count,
                              sheet->kinds[stack->piece].number - 1);
    qci_label_place(sheet->scene, &label->fit, owner);
}

/* Lays the whole run as one block. */
static qci_edge lay_block(qci_sheet *sheet, const qc_strip *strip,
                          const qc_subcut *subcut, const double lean[2],
                          double w, section s)
{
    qci_edge edge = s.left = qci_slant_wedge(sheet, s.left, lean[0], s.y, s.h);
    choice label = {.made = false};

    for (uint32_t i = 0; i < subcut->count; i++) {
        bool turned = subcut->alternate && i % 2;

        edge = next_cut(edge, lean[turned]);
        edge = cut_at(middle_of(edge) + w, lean[!turned]);
    }
    s.right = edge;
    s.together = subcut->count;
    lay_section(sheet, subcut->stacks, strip->paired, NULL, &s, &label);
    return edge;
}

qci_edge qci_slant_lay(qci_sheet *sheet, const qc_strip *strip,
                       const qc_subcut *subcut, qci_edge edge, double y,
                       double h)
{
    const qc_plan_piece *piece = outlined(sheet, subcut);
    double w = (double)subcut->width * sheet->scale;
    const double lean[] = {(double)subcut->lean[0] * sheet->scale,
                           (double)subcut->lean[1] * sheet->scale};
    choice labels[2] = {{.made = false}, {.made = false}};
    section s = {.left = edge, .y = y, .h = h, .together = 1};

    if (w < QCI_LEAST_PIECE)
        return lay_block(sheet, strip, subcut, lean, w, s);
    for (uint32_t i = 0; i < subcut->count; i++) {
        s.turned = subcut->alternate && i % 2;
        s.left = qci_slant_wedge(sheet, edge, lean[s.turned], y, h);
        edge = s.right = cut_at(middle_of(s.left) + w, lean[!s.turned]);
        lay_section(sheet, subcut->stacks, strip->paired, piece, &s,
                    &labels[s.turned]);
    }
    return edge;
}
