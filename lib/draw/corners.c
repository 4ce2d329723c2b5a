/* Convex polygons on the page: boxes, straight cuts, room for a text.
 *
 * All of it is for the eye, so floating point is good enough. Cost: linear in
 * the corners; a place for a box takes a fixed number of tries. */
#include "draw/corners.h"

#include <math.h>

/* Heights that are tried on either side of the middle. */
#define TRIES 24

void qci_corners_box(const qci_corner *corners, size_t count, double *x,
                     double *y, double *w, double *h)
{
    double right = corners[0].x, bottom = corners[0].y;

    *x = right;
    *y = bottom;
    for (size_t i = 1; i < count; i++) {
        *x = fmin(*x, corners[i].x);
        *y = fmin(*y, corners[i].y);
        right = fmax(right, corners[i].x);
        bottom = fmax(bottom, corners[i].y);
    }
    *w = right - *x;
    *h = bottom - *y;
}

double qci_corners_area(const qci_corner *corners, size_t count)
{
    double twice = 0;

    for (size_t i = 0; i < count; i++) {
        const qci_corner *a = &corners[i], *b = &corners[(i + 1) % count];

        twice += a->x * b->y - b->x * a->y;
    }
    return fabs(twice) / 2;
}

/* How far `p` lies to the left of the way from `a` to `b`; y grows downwards.
 */
static double leftness(qci_corner a, qci_corner b, qci_corner p)
{
    return (b.y - a.y) * (p.x - a.x) - (b.x - a.x) * (p.y - a.y);
}

size_t qci_corners_cut(const qci_corner *corners, size_t count, qci_corner a,
                       qci_corner b, qci_corner near, bool same,
                       qci_corner *out)
{
    int side = (leftness(a, b, near) > 0) == same ? 1 : -1;
    size_t kept = 0;

    for (size_t i = 0; i < count; i++) {
        qci_corner p = corners[i], q = corners[(i + 1) % count];
        double at_p = side * leftness(a, b, p), at_q = side * leftness(a, b, q);

        if (at_p >= 0)
            out[kept++] = p;
        if ((at_p < 0 && at_q > 0) || (at_p > 0 && at_q < 0)) {
            double t = at_p / (at_p - at_q);

            out[kept++] =
                (qci_corner){p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)};
        }
    }
    return kept >= 3 ? kept : 0;
}

void qci_corners_span(const qci_corner *corners, size_t count, double y,
                      double *from, double *to)
{
    *from = INFINITY;
    *to = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        qci_corner p = corners[i], q = corners[(i + 1) % count];
        double t, x;

        if ((p.y < y && q.y < y) || (p.y > y && q.y > y))
            continue;
        t = p.y == q.y ? 0 : (y - p.y) / (q.y - p.y);
        x = p.x + t * (q.x - p.x);
        *from = fmin(*from, p.y == q.y ? fmin(p.x, q.x) : x);
        *to = fmax(*to, p.y == q.y ? fmax(p.x, q.x) : x);
    }
}

/* Is there room for a width of `w` from `top` down to `top` + h? */
static bool band_holds(const qci_corner *corners, size_t count, double w,
                       double top, double h, double *x)
{
    double from, to, low_from, low_to;

    qci_corners_span(corners, count, top, &from, &to);
    qci_corners_span(corners, count, top + h, &low_from, &low_to);
    from = fmax(from, low_from);
    to = fmin(to, low_to);
    *x = (from + to - w) / 2;
    return to - from >= w;
}

bool qci_corners_place(const qci_corner *corners, size_t count, double w,
                       double h, double *x, double *y)
{
    double left, top, width, height, slack;

    qci_corners_box(corners, count, &left, &top, &width, &height);
    slack = (height - h) / 2;
    if (slack < 0 || w > width)
        return false;
    for (int i = 0; i < 2 * TRIES; i++) {
        int step = (i + 1) / 2;
        double aside = slack * step / TRIES;

        *y = top + slack + (i % 2 ? aside : -aside);
        if (band_holds(corners, count, w, *y, h, x))
            return true;
    }
    return false;
}
