/* Lines of a shape's sides: where they meet, turned onto another base, blunted,
 * moved inwards.
 *
 * A side's line is all points p with p . n = far, n being its outer normal and
 * far a length; moving a side out only adds to far. Two such lines meet in
 * (far2 u1 - far1 u2) / (u1 x u2), for unit directions u, which takes one
 * division. Products of a fine length below 2^61 and a direction stay below
 * 2^122. */
#include "shape/sides.h"

/* A tip that its cut would shorten by less, 8 micrometres, is left alone. */
#define LEAST_TIP qci_fine_of(64)
/* Directions that differ by less are one: their last digits are not exact. */
#define SAME_DIR 32

qci_fine qci_side_far(const qci_side *side)
{
    qci_wide far = (qci_wide)side->dir.y * side->x -
                   (qci_wide)side->dir.x * side->y + QCI_ONE / 2;

    return (qci_fine)(far >> QCI_ONE_BITS) + side->out;
}

static qci_fine limited(qci_wide value)
{
    return value > QCI_FINE_MAX    ? QCI_FINE_MAX
           : value < -QCI_FINE_MAX ? -QCI_FINE_MAX
                                   : (qci_fine)value;
}

qci_fine_point qci_sides_meet(const qci_side *a, const qci_side *b)
{
    qci_fine fa = qci_side_far(a), fb = qci_side_far(b);
    int64_t cross = qci_dir_cross(a->dir, b->dir);

    return (qci_fine_point){
        limited(((qci_wide)fb * a->dir.x - (qci_wide)fa * b->dir.x) / cross),
        limited(((qci_wide)fb * a->dir.y - (qci_wide)fa * b->dir.y) / cross)};
}

void qci_sides_corners(const qci_sides *sides, qci_fine_point *out)
{
    for (int i = 0; i < sides->count; i++)
        out[i] = qci_sides_meet(
            &sides->at[(i + sides->count - 1) % sides->count], &sides->at[i]);
}

/* Level and upright sides exactly so. */
static qci_dir settled(qci_dir d)
{
    if (d.y <= SAME_DIR && d.y >= -SAME_DIR)
        return (qci_dir){d.x > 0 ? QCI_ONE : -QCI_ONE, 0};
    if (d.x <= SAME_DIR && d.x >= -SAME_DIR)
        return (qci_dir){0, d.y > 0 ? QCI_ONE : -QCI_ONE};
    return d;
}

void qci_sides_turn(const qci_sides *sides, int base, qci_sides *out)
{
    const qci_side *from = &sides->at[base];
    qci_dir u = from->dir;
    qci_dir back = {u.x, -u.y};

    out->count = sides->count;
    for (int i = 0; i < sides->count; i++) {
        const qci_side *side = &sides->at[(base + i) % sides->count];
        qci_fine x = side->x - from->x, y = side->y - from->y;
        qci_dir d = {qci_dir_dot(u, side->dir), qci_dir_cross(u, side->dir)};

        out->at[i] = (qci_side){
            settled(d), qci_fine_times(x, back.x) - qci_fine_times(y, back.y),
            qci_fine_times(x, back.y) + qci_fine_times(y, back.x), side->out,
            side->tip};
    }
}

qci_fine qci_sides_height(const qci_sides *turned)
{
    qci_fine_point corners[QCI_CORNERS_MAX];
    qci_fine top = -QCI_FINE_MAX;

    qci_sides_corners(turned, corners);
    for (int i = 0; i < turned->count; i++)
        top = qci_fine_max(top, corners[i].y);
    return top + turned->at[0].out;
}

qci_fine qci_sides_width(const qci_sides *turned)
{
    qci_fine_point corners[QCI_CORNERS_MAX];
    qci_fine least = QCI_FINE_MAX, most = -QCI_FINE_MAX;

    qci_sides_corners(turned, corners);
    for (int i = 0; i < turned->count; i++) {
        least = qci_fine_min(least, corners[i].x);
        most = qci_fine_max(most, corners[i].x);
    }
    return most - least;
}

int qci_sides_next(const qci_sides *sides, int from, int step)
{
    do {
        from = (from + step + sides->count) % sides->count;
    } while (sides->at[from].tip);
    return from;
}

/* What of a polygon lies within a line; returns how many corners are left. */
static int clip(const qci_fine_point *from, int count, const qci_side *line,
                qci_fine_point *out)
{
    qci_fine far = qci_side_far(line);
    int n = 0;

    for (int i = 0; i < count; i++) {
        qci_fine_point p = from[i], q = from[(i + 1) % count];
        qci_fine at_p = qci_side_far(&(qci_side){line->dir, p.x, p.y, 0, 0});
        qci_fine at_q = qci_side_far(&(qci_side){line->dir, q.x, q.y, 0, 0});

        at_p -= far;
        at_q -= far;
        if (at_p <= 0)
            out[n++] = p;
        if ((at_p < 0 && at_q > 0) || (at_p > 0 && at_q < 0))
            out[n++] = (qci_fine_point){
                p.x + qci_fine_scaled(q.x - p.x, at_p, at_p - at_q),
                p.y + qci_fine_scaled(q.y - p.y, at_p, at_p - at_q)};
    }
    return n;
}

static int64_t area_of(const qci_fine_point *p, int count)
{
    qci_wide doubled = 0;

    for (int i = 1; i + 1 < count; i++)
        doubled += (qci_wide)(p[i].x - p[0].x) * (p[i + 1].y - p[0].y) -
                   (qci_wide)(p[i].y - p[0].y) * (p[i + 1].x - p[0].x);
    doubled = doubled < 0 ? 0 : doubled >> (2 * QCI_FINE_BITS + 1);
    return doubled > INT64_MAX ? INT64_MAX : (int64_t)doubled;
}

int64_t qci_sides_area(const qci_sides *patch, qci_fine in)
{
    qci_fine_point now[2 * QCI_CORNERS_MAX], next[2 * QCI_CORNERS_MAX];
    int count = patch->count;

    for (int i = 0; i < count; i++)
        now[i] = (qci_fine_point){patch->at[i].x, patch->at[i].y};
    for (int i = 0; in > 0 && i < patch->count; i++) {
        qci_side line = patch->at[i];

        line.out = -in;
        count = clip(now, count, &line, next);
        for (int k = 0; k < count; k++)
            now[k] = next[k];
    }
    return area_of(now, count);
}

/* The side that cuts off the corner between two sides; false: it is none that
 * is cut off. The corner of the patch as it finishes is that of the lines; that
 * of a cut patch lies further in, by what it would reach out from there. */
static bool tip_side(const qci_side *a, const qci_side *b, qci_fine reach,
                     bool is_cut, qci_side *out)
{
    qci_dir across;
    qci_fine loss;

    if (qci_dir_dot(a->dir, b->dir) >= -SAME_DIR)
        return false;
    across = qci_dir_along(a->dir.x + b->dir.x, a->dir.y + b->dir.y);
    loss = qci_fine_scaled(reach, QCI_ONE, qci_dir_dot(a->dir, across)) - reach;
    if (loss < LEAST_TIP)
        return false;
    *out = (qci_side){across, b->x, b->y, is_cut ? -loss : reach, true};
    return true;
}

void qci_sides_blunt(qci_sides *sides, qci_fine reach, bool is_cut)
{
    qci_sides from = *sides;

    sides->count = 0;
    for (int i = 0; i < from.count; i++) {
        sides->at[sides->count++] = from.at[i];
        if (tip_side(&from.at[i], &from.at[(i + 1) % from.count], reach, is_cut,
                     &sides->at[sides->count]))
            sides->count++;
    }
}
