/* Convex polygons with integer corners, and the straight cuts that a rotary
 * cutter makes through them. */
#ifndef QCI_REPLAY_POLYGON_H
#define QCI_REPLAY_POLYGON_H

#include <stdbool.h>

#include <quiltcut/length.h>

#include "base/wide.h"

/* The outline of a piece has 24 corners at most; each cut adds at most one to a
 * half. */
#define QCI_POLYGON_MAX 32
/* Coordinates stay within +-QCI_POLYGON_REACH, so that the products of the
 * intersection fit into 128 bits. */
#define QCI_POLYGON_REACH (INT64_C(1) << 36)

/* x across the fabric from its left edge, y along its length from its lower
 * end. */
typedef struct qci_point {
    qc_length x, y;
} qci_point;

/* Corners counter-clockwise; strictly convex. */
typedef struct qci_polygon {
    int count;
    qci_point at[QCI_POLYGON_MAX];
} qci_polygon;

typedef enum qci_cut {
    QCI_CUT_DONE,
    QCI_CUT_MISSES,     /* the line leaves all cloth on one side */
    QCI_CUT_OFF_LATTICE /* a new corner would not be a whole number, or there
                           would be too many corners */
} qci_cut;

/* The cloth 0 <= x <= width, 0 <= y <= length; both > 0. */
qci_polygon qci_polygon_rectangle(qc_length width, qc_length length);

/* Cuts along the line from a through b (two different points). Nothing is
 * rounded: the halves together are exactly the whole. They are written only on
 * QCI_CUT_DONE; either may be the same variable as `cloth`. */
qci_cut qci_polygon_cut(const qci_polygon *cloth, qci_point a, qci_point b,
                        qci_polygon *left, qci_polygon *right);

/* Twice the area. */
qci_wide qci_polygon_doubled_area(const qci_polygon *cloth);

/* The corners of the box round the cloth. */
void qci_polygon_box(const qci_polygon *cloth, qci_point *low, qci_point *high);

/* `b` is `a` moved by (x, y). */
bool qci_polygon_is_moved(const qci_polygon *a, const qci_polygon *b,
                          qc_length x, qc_length y);

/* `b` is `a` moved anywhere. */
bool qci_polygon_is_same(const qci_polygon *a, const qci_polygon *b);

/* Twice the area of the triangle a, b, p: > 0 when p is left of a -> b. */
qci_wide qci_polygon_cross(qci_point a, qci_point b, qci_point p);

/* Three corners or more, each of which turns left, and once round in all. */
bool qci_polygon_is_convex(const qci_polygon *cloth);

/* Left for right. */
qci_polygon qci_polygon_mirrored(const qci_polygon *cloth);

/* Turned counter-clockwise by so many quarters, 0 to 3. */
qci_polygon qci_polygon_turned(const qci_polygon *cloth, int quarters);

#endif
