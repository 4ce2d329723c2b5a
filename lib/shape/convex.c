/* Is a list of points a convex polygon, counter-clockwise?
 *
 * Every check is a sign of a cross product, exact in 128 bits for points whose
 * distances stay below 2^62. Faults are looked for from the one that makes the
 * others meaningless to the one that is left when all is well: points that
 * coincide, sides that cross, then the winding, then corners. Pairs of at most
 * 12 sides. */
#include "shape/sides.h"

static qci_wide cross(qc_point a, qc_point b, qc_point c)
{
    return (qci_wide)(b.x - a.x) * (c.y - a.y) -
           (qci_wide)(b.y - a.y) * (c.x - a.x);
}

static int sign(qci_wide n)
{
    return (n > 0) - (n < 0);
}

/* *at is the corner that is none. */
static bool is_degenerate(const qc_point *p, size_t count, size_t *at)
{
    for (size_t i = 0; i < count; i++)
        for (*at = i + 1; *at < count; ++*at)
            if (p[i].x == p[*at].x && p[i].y == p[*at].y)
                return true;
    for (size_t i = 0; i < count; i++) {
        *at = (i + 1) % count;
        if (!cross(p[i], p[*at], p[(i + 2) % count]))
            return true;
    }
    *at = 0;
    return false;
}

static bool between(qc_length a, qc_length b, qc_length x)
{
    return a < b ? a <= x && x <= b : b <= x && x <= a;
}

static bool lies_on(qc_point a, qc_point b, qc_point p)
{
    return !cross(a, b, p) && between(a.x, b.x, p.x) && between(a.y, b.y, p.y);
}

static bool do_cross(qc_point a, qc_point b, qc_point c, qc_point d)
{
    if (lies_on(a, b, c) || lies_on(a, b, d) || lies_on(c, d, a) ||
        lies_on(c, d, b))
        return true;
    return sign(cross(a, b, c)) * sign(cross(a, b, d)) < 0 &&
           sign(cross(c, d, a)) * sign(cross(c, d, b)) < 0;
}

/* Sides that are no neighbours; a polygon without such does not wind twice. */
static bool is_crossing(const qc_point *p, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 2; k < count; k++)
            if ((k + 1) % count != i &&
                do_cross(p[i], p[i + 1], p[k], p[(k + 1) % count]))
                return true;
    return false;
}

static bool is_clockwise(const qc_point *p, size_t count)
{
    qci_wide doubled = 0;

    for (size_t i = 1; i + 1 < count; i++)
        doubled += cross(p[0], p[i], p[i + 1]);
    return doubled < 0;
}

qci_patch_fault qci_convex_check(const qc_point *points, size_t count,
                                 size_t *at)
{
    if (is_degenerate(points, count, at))
        return QCI_PATCH_DEGENERATE;
    if (is_crossing(points, count))
        return QCI_PATCH_CROSSING;
    if (is_clockwise(points, count))
        return QCI_PATCH_CLOCKWISE;
    for (size_t i = 0; i < count; i++) {
        if (cross(points[(i + count - 1) % count], points[i],
                  points[(i + 1) % count]) < 0) {
            *at = i;
            return QCI_PATCH_NOT_CONVEX;
        }
    }
    return QCI_PATCH_FINE;
}
