/* Outlines as they lie, and whether one is its own mirror image. */
#include "base/wide.h"
#include "shape/shape.h"

/* A side and the corner at its end: two polygons whose lists of these agree are
 * congruent. */
typedef struct mark {
    qci_wide length, dot;
} mark;

static mark mark_at(const qc_point *p, size_t count, size_t i)
{
    qc_point a = p[i % count], b = p[(i + 1) % count], c = p[(i + 2) % count];
    qc_length ux = b.x - a.x, uy = b.y - a.y;
    qc_length vx = c.x - b.x, vy = c.y - b.y;

    return (mark){(qci_wide)ux * ux + (qci_wide)uy * uy,
                  (qci_wide)ux * vx + (qci_wide)uy * vy};
}

/* Seen in a mirror the sides follow each other backwards, and the corner at a
 * side's end is the one at its start. Convex corners need no sign. */
static bool agrees(const qc_point *p, size_t count, size_t shift)
{
    for (size_t i = 0; i < count; i++) {
        size_t back = shift + 2 * count - i;
        mark a = mark_at(p, count, i), b = mark_at(p, count, back);

        if (a.length != b.length || a.dot != mark_at(p, count, back - 1).dot)
            return false;
    }
    return true;
}

bool qci_outline_is_symmetric(const qc_point *outline, size_t count)
{
    for (size_t shift = 0; shift < count; shift++)
        if (agrees(outline, count, shift))
            return true;
    return false;
}

bool qci_outline_stands_even(const qc_point *outline, size_t count)
{
    return agrees(outline, count, 0);
}

bool qci_shape_is_symmetric(const qci_patch *patch)
{
    switch (patch->shape) {
    case QC_SHAPE_PARALLELOGRAM:
        return patch->size[0] == patch->size[1] ||
               patch->angle == 90 * QC_DEGREE;
    case QC_SHAPE_POLYGON:
        return qci_outline_is_symmetric(patch->points, patch->point_count);
    default:
        return true;
    }
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
