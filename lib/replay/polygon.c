/* Cutting a convex polygon by a line.
 *
 * A corner is left of the line, on it, or right of it, by the sign of a cross
 * product. Walking round the polygon, a corner on the line belongs to both
 * halves; where an edge crosses the line a new corner is computed as an exact
 * quotient. If that quotient is not whole the cut is refused: moving a corner
 * even by one unit would make cloth appear or vanish. Halves of a strictly
 * convex polygon are strictly convex, so comparing two polygons is comparing
 * their corners up to where the walk begins.
 *
 * Sizes: |coordinates| <= 2^36, so a cross product is below 2^75 and the
 * numerator of a new corner below 2^113. */
#include "replay/polygon.h"

qci_polygon qci_polygon_rectangle(qc_length width, qc_length length)
{
    return (qci_polygon){4, {{0, 0}, {width, 0}, {width, length}, {0, length}}};
}

qci_wide qci_polygon_cross(qci_point a, qci_point b, qci_point p)
{
    return (qci_wide)(b.x - a.x) * (p.y - a.y) -
           (qci_wide)(b.y - a.y) * (p.x - a.x);
}

/* Where the edge p -> q crosses the line, `side` being the distances of its
 * ends from it, of opposite signs. False when that point is not whole. */
static bool crossing(qci_point p, qci_point q, qci_wide side_p, qci_wide side_q,
                     qci_point *out)
{
    qci_wide whole = side_p - side_q;
    qci_wide x = side_p * (q.x - p.x);
    qci_wide y = side_p * (q.y - p.y);

    if (x % whole || y % whole)
        return false;
    *out =
        (qci_point){p.x + (qc_length)(x / whole), p.y + (qc_length)(y / whole)};
    return true;
}

static bool add_corner(qci_polygon *to, qci_point corner)
{
    if (to->count == QCI_POLYGON_MAX)
        return false;
    to->at[to->count++] = corner;
    return true;
}

/* Adds corner p to the halves it belongs to, and the crossing of the edge
 * p -> q to both. */
static bool walk_edge(qci_point p, qci_point q, qci_wide side_p,
                      qci_wide side_q, qci_polygon *left, qci_polygon *right)
{
    qci_point corner;

    if (side_p >= 0 && !add_corner(left, p))
        return false;
    if (side_p <= 0 && !add_corner(right, p))
        return false;
    if ((side_p >= 0 || side_q <= 0) && (side_p <= 0 || side_q >= 0))
        return true;
    return crossing(p, q, side_p, side_q, &corner) &&
           add_corner(left, corner) && add_corner(right, corner);
}

qci_cut qci_polygon_cut(const qci_polygon *cloth, qci_point a, qci_point b,
                        qci_polygon *left, qci_polygon *right)
{
    qci_wide side[QCI_POLYGON_MAX];
    qci_polygon on_left = {0}, on_right = {0};
    bool any_left = false, any_right = false;

    for (int i = 0; i < cloth->count; i++) {
        side[i] = qci_polygon_cross(a, b, cloth->at[i]);
        any_left |= side[i] > 0;
        any_right |= side[i] < 0;
    }
    if (!any_left || !any_right)
        return QCI_CUT_MISSES;
    for (int i = 0; i < cloth->count; i++) {
        int j = (i + 1) % cloth->count;

        if (!walk_edge(cloth->at[i], cloth->at[j], side[i], side[j], &on_left,
                       &on_right))
            return QCI_CUT_OFF_LATTICE;
    }
    *left = on_left;
    *right = on_right;
    return QCI_CUT_DONE;
}

qci_wide qci_polygon_doubled_area(const qci_polygon *cloth)
{
    qci_wide area = 0;

    for (int i = 2; i < cloth->count; i++)
        area += qci_polygon_cross(cloth->at[0], cloth->at[i - 1], cloth->at[i]);
    return area;
}

void qci_polygon_box(const qci_polygon *cloth, qci_point *low, qci_point *high)
{
    *low = *high = cloth->at[0];
    for (int i = 1; i < cloth->count; i++) {
        qci_point p = cloth->at[i];

        low->x = p.x < low->x ? p.x : low->x;
        low->y = p.y < low->y ? p.y : low->y;
        high->x = p.x > high->x ? p.x : high->x;
        high->y = p.y > high->y ? p.y : high->y;
    }
}

bool qci_polygon_is_moved(const qci_polygon *a, const qci_polygon *b,
                          qc_length x, qc_length y)
{
    if (a->count != b->count)
        return false;
    for (int start = 0; start < b->count; start++) {
        int same = 0;

        while (same < a->count) {
            qci_point p = a->at[same];
            qci_point q = b->at[(start + same) % b->count];

            if (q.x != p.x + x || q.y != p.y + y)
                break;
            same++;
        }
        if (same == a->count)
            return true;
    }
    return false;
}

bool qci_polygon_is_same(const qci_polygon *a, const qci_polygon *b)
{
    qci_point from, to, high;

    qci_polygon_box(a, &from, &high);
    qci_polygon_box(b, &to, &high);
    return qci_polygon_is_moved(a, b, to.x - from.x, to.y - from.y);
}

/* With every corner turning left, a walk that goes round more than once climbs
 * more than once. */
bool qci_polygon_is_convex(const qci_polygon *cloth)
{
    int climbs = 0;

    for (int i = 0; i < cloth->count; i++) {
        qci_point p = cloth->at[i];
        qci_point q = cloth->at[(i + 1) % cloth->count];
        qci_point r = cloth->at[(i + 2) % cloth->count];

        if (qci_polygon_cross(p, q, r) <= 0)
            return false;
        climbs += q.y <= p.y && r.y > q.y;
    }
    return cloth->count >= 3 && climbs == 1;
}

qci_polygon qci_polygon_mirrored(const qci_polygon *cloth)
{
    qci_polygon out = {cloth->count, {{0}}};

    for (int i = 0; i < out.count; i++) {
        qci_point p = cloth->at[out.count - 1 - i];

        out.at[i] = (qci_point){-p.x, p.y};
    }
    return out;
}

qci_polygon qci_polygon_turned(const qci_polygon *cloth, int quarters)
{
    qci_polygon out = *cloth;

    for (int n = 0; n < quarters; n++) {
        for (int i = 0; i < out.count; i++)
            out.at[i] = (qci_point){-out.at[i].y, out.at[i].x};
    }
    return out;
}
