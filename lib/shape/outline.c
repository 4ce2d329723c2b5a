/* Outlines as they lie, and whether one is its own mirror image. */
#include "base/wide.h"
#include "shape/shape.h"

/* A side and the corner at its end: two polygons whose lists of these agree are
 * congruent. */
typedef struct mark {
    qci_wide length, dot;
} mark;

static qci_fine_point corner_at(const qci_patch *p, size_t i)
{
    size_t at = i % p->point_count;

    if (p->fine)
        return p->fine[at];
    return (qci_fine_point){p->points[at].x, p->points[at].y};
}

static mark mark_at(const qci_patch *p, size_t i)
{
    qci_fine_point a = corner_at(p, i), b = corner_at(p, i + 1);
    qci_fine_point c = corner_at(p, i + 2);
    qci_fine ux = b.x - a.x, uy = b.y - a.y;
    qci_fine vx = c.x - b.x, vy = c.y - b.y;

    return (mark){(qci_wide)ux * ux + (qci_wide)uy * uy,
                  (qci_wide)ux * vx + (qci_wide)uy * vy};
}

/* Corners between whole lengths are known to 2^-31; they agree to 1 in 2^36 of
 * the squares of their sides. */
static bool is_same(const qci_patch *p, qci_wide a, qci_wide b, qci_wide square)
{
    qci_wide apart = a > b ? a - b : b - a;

    return apart <= (p->fine ? square >> 36 : 0);
}

/* Seen in a mirror the sides follow each other backwards, and the corner at a
 * side's end is the one at its start. Convex corners need no sign. */
static bool agrees(const qci_patch *p, size_t shift)
{
    for (size_t i = 0; i < p->point_count; i++) {
        size_t back = shift + 2 * p->point_count - i;
        mark a = mark_at(p, i), b = mark_at(p, back);

        if (!is_same(p, a.length, b.length, a.length) ||
            !is_same(p, a.dot, mark_at(p, back - 1).dot, a.length))
            return false;
    }
    return true;
}

bool qci_shape_stands_even(const qci_patch *polygon)
{
    return agrees(polygon, 0);
}

bool qci_shape_is_symmetric(const qci_patch *patch)
{
    if (patch->shape == QC_SHAPE_PARALLELOGRAM)
        return patch->size[0] == patch->size[1] ||
               patch->angle == 90 * QC_DEGREE;
    if (patch->shape != QC_SHAPE_POLYGON)
        return true;
    for (size_t shift = 0; shift < patch->point_count; shift++)
        if (agrees(patch, shift))
            return true;
    return false;
}

static qc_point turned(qc_point p, qc_turn turn)
{
    switch (turn) {
    case QC_TURN_QUARTER:
        return (qc_point){-p.y, p.x};
    case QC_TURN_HALF:
        return (qc_point){-p.x, -p.y};
    case QC_TURN_THREE_QUARTERS:
        return (qc_point){p.y, -p.x};
    default:
        return p;
    }
}

static void reverse(qc_point *p, size_t count)
{
    for (size_t i = 0; i < count / 2; i++) {
        qc_point kept = p[i];

        p[i] = p[count - 1 - i];
        p[count - 1 - i] = kept;
    }
}

/* The mirror image runs the other way round; the base stays the first side. */
static void mirror(qc_point *p, size_t count)
{
    for (size_t i = 0; i < count; i++)
        p[i].x = -p[i].x;
    reverse(p, 2);
    reverse(p + 2, count - 2);
}

void qci_outline_lay(const qc_point *outline, size_t count, qc_turn turn,
                     bool mirrored, qc_point *out)
{
    qc_length low = INT64_MAX;

    for (size_t i = 0; i < count; i++)
        out[i] = outline[i];
    if (mirrored)
        mirror(out, count);
    for (size_t i = 0; i < count; i++) {
        out[i] = turned(out[i], turn);
        low = out[i].y < low ? out[i].y : low;
    }
    for (size_t i = 0; i < count; i++)
        out[i].y -= low;
}
