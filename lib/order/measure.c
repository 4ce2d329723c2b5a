/* Lengths along slanted edges, from Pythagoras' rule, and where the sides of an
 * outline meet the edges of its section, from signed areas.
 *
 * The numbers here are exact to a unit of 1/8 micrometre; only a spacing is
 * ever more than read by people, and it is rounded down, so that the pieces
 * that it is measured for fit. Products of two lengths, and of one more length
 * with those, stay within 128 bits. */
#include "order/measure.h"

#include "base/wide.h"

/* A few units: a hundredth of what is seen. */
#define NEAR 8

bool qci_is_near(qc_length a, qc_length b)
{
    return a - b <= NEAR && b - a <= NEAR;
}

/* The greatest whole number whose square is at most n, bit by bit. */
static qci_wide root_down(qci_wide n)
{
    qci_wide root = 0;

    for (int bit = 62; bit >= 0; bit--) {
        qci_wide tried = root + ((qci_wide)1 << bit);

        if (tried * tried <= n)
            root = tried;
    }
    return root;
}

/* The slope in units of 2^-FINE, so that what is divided by it keeps its last
 * digit. */
#define FINE 20

static qci_wide fine_slope(qc_length run, qc_length rise)
{
    qci_wide square = (qci_wide)run * run + (qci_wide)rise * rise;

    return root_down(square << (2 * FINE));
}

static qc_length divided(qci_wide top, qci_wide bottom)
{
    qci_wide half = bottom / 2;

    return (qc_length)(top < 0 ? (top - half) / bottom : (top + half) / bottom);
}

qc_length qci_slope(qc_length run, qc_length rise)
{
    return divided(fine_slope(run, rise), (qci_wide)1 << FINE);
}

qc_length qci_spacing_of(qc_length along, qc_length height, qc_length lean)
{
    return (qc_length)((((qci_wide)along * height) << FINE) /
                       (fine_slope(lean, height) + 1));
}

/* The nearest mark of that ruler. */
static qc_length mark_near(qc_length length, qc_length grid)
{
    return (length + grid / 2) / grid * grid;
}

qci_told qci_told_as(qc_length length, qc_length ruler, qc_units units)
{
    qc_length grid = units == QC_UNITS_IN ? QC_INCH / 16 : QC_MM;
    qc_length mark = mark_near(length, grid), own = mark_near(length, ruler);

    if (qci_is_near(length, own))
        mark = own;
    return (qci_told){mark, !qci_is_near(length, mark)};
}

qc_length qci_scaled(qc_length length, qc_length top, qc_length bottom)
{
    qci_wide product = (qci_wide)length * top;

    return bottom < 0 ? divided(-product, -(qci_wide)bottom)
                      : divided(product, bottom);
}

/* Beside half an equilateral triangle the slope is twice the shorter side. */
int qci_ruler_angle(qc_length height, qc_length lean)
{
    qc_length run = lean < 0 ? -lean : lean;
    qc_length slope = qci_slope(run, height);

    return qci_is_near(run, height)         ? 45
           : qci_is_near(slope, 2 * run)    ? 60
           : qci_is_near(slope, 2 * height) ? 30
                                            : 0;
}

/* Twice the area of the triangle p, q, x: above 0 when x lies to the left of
 * the line from p to q, below 0 to its right. */
static qci_wide turn_at(qc_point p, qc_point q, qc_point x)
{
    return (qci_wide)(q.x - p.x) * (x.y - p.y) -
           (qci_wide)(q.y - p.y) * (x.x - p.x);
}

/* The outline's leftmost reach, where a line of that lean that touches it meets
 * the lower edge. */
static qc_length reach(const qci_section_shape *section, const qc_point *lying,
                       size_t count)
{
    qci_wide least = 0;

    for (size_t i = 0; i < count; i++) {
        qci_wide at = (qci_wide)lying[i].x * section->height -
                      (qci_wide)section->lean[0] * lying[i].y;

        if (i == 0 || at < least)
            least = at;
    }
    return divided(least, section->height);
}

/* The section's corners: [upper][far]. */
static void find_corners(const qci_section_shape *section, qc_length from,
                         qc_point corners[2][2])
{
    qc_length lower =
        section->width - (section->lean[1] - section->lean[0]) / 2;

    corners[0][0] = (qc_point){from, 0};
    corners[0][1] = (qc_point){from + lower, 0};
    for (int far = 0; far < 2; far++)
        corners[1][far] =
            (qc_point){corners[0][far].x + section->lean[far], section->height};
}

/* Where the line p, q meets the edge from a to b, measured from a. */
static qc_length meets(qc_point p, qc_point q, qc_point a, qc_point b)
{
    qci_wide at_a = turn_at(p, q, a), at_b = turn_at(p, q, b);
    qci_wide length = qci_slope(b.x - a.x, b.y - a.y);

    if (at_a == at_b)
        return 0;
    return at_a < at_b ? divided(-at_a * length, at_b - at_a)
                       : divided(at_a * length, at_a - at_b);
}

/* Does a side of the outline lie on the edge from a to b? */
static bool lies_on(qc_point p, qc_point q, qc_point a, qc_point b)
{
    qci_wide most = (qci_wide)NEAR * qci_slope(b.x - a.x, b.y - a.y);
    qci_wide at_p = turn_at(a, b, p), at_q = turn_at(a, b, q);

    return at_p <= most && at_p >= -most && at_q <= most && at_q >= -most;
}

static bool needs_no_cut(qc_point p, qc_point q, qc_point corners[2][2])
{
    return lies_on(p, q, corners[0][0], corners[0][1]) ||
           lies_on(p, q, corners[1][0], corners[1][1]) ||
           lies_on(p, q, corners[0][0], corners[1][0]) ||
           lies_on(p, q, corners[0][1], corners[1][1]);
}

/* The point that lies so far from a on the way to b. */
static qc_point on_edge(qc_point a, qc_point b, qc_length far)
{
    qc_length length = qci_slope(b.x - a.x, b.y - a.y);

    return (qc_point){a.x + qci_scaled(far, b.x - a.x, length),
                      a.y + qci_scaled(far, b.y - a.y, length)};
}

/* The outline runs counter-clockwise: what lies to the right of a side goes.
 * Its other sides hold on to both edges of the strip, so that at most one end
 * of each edge goes. */
static qci_corner_cut cut_along(qc_point p, qc_point q, qc_point corners[2][2])
{
    qci_corner_cut cut = {0};
    bool gone[2][2];
    qc_point from, end;
    int up, to;

    for (int i = 0; i < 4; i++)
        gone[i / 2][i % 2] = turn_at(p, q, corners[i / 2][i % 2]) < 0;
    cut.upper = !gone[0][0] && !gone[0][1];
    cut.far = gone[0][1] || gone[1][1];
    up = cut.upper ? 1 : 0;
    to = cut.far ? 1 : 0;
    cut.across = gone[0][to] && gone[1][to];
    cut.along = meets(p, q, corners[up][to], corners[up][1 - to]);
    cut.up = cut.across ? meets(p, q, corners[1][to], corners[1][1 - to])
                        : meets(p, q, corners[up][to], corners[1 - up][to]);
    from = on_edge(corners[up][to], corners[up][1 - to], cut.along);
    end = cut.across ? on_edge(corners[1][to], corners[1][1 - to], cut.up)
                     : on_edge(corners[up][to], corners[1 - up][to], cut.up);
    cut.length = qci_slope(end.x - from.x, end.y - from.y);
    return cut;
}

size_t qci_corner_cuts(const qci_section_shape *section, const qc_point *lying,
                       size_t count, qci_corner_cut *out)
{
    qc_point corners[2][2];
    size_t cuts = 0;

    find_corners(section, reach(section, lying, count), corners);
    for (size_t i = 0; i < count; i++) {
        qc_point p = lying[i], q = lying[(i + 1) % count];

        if (!needs_no_cut(p, q, corners))
            out[cuts++] = cut_along(p, q, corners);
    }
    return cuts;
}
