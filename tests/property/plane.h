/* Plane geometry for tests that sew: cloth as polygons on a table, in inches
 * and floating point. Nothing of the library's own geometry is used. */
#ifndef QCT_PLANE_H
#define QCT_PLANE_H

#include <stdbool.h>

#define MOST 64
#define NEAR 1e-4 /* inches */
#define PI 3.14159265358979323846

typedef struct vec {
    double x, y;
} vec;

typedef struct poly {
    int role; /* of the fabric, an index of the block's */
    int count;
    vec at[MOST];
} poly;

/* What lies on the table: no two overlap, but for what lies under others. */
typedef struct cloth {
    int count;
    poly at[MOST];
} cloth;

/* a x + b y >= c */
typedef struct half {
    double a, b, c;
} half;

half opposite(half h);
/* Left of the line from p to q, and `by` farther in. */
half left_of(vec p, vec q, double by);

poly box(int role, double x, double y, double w, double h);
double area(const poly *p);
/* Without corners that are twice there, or lie in a line. */
poly tidy(const poly *p);
/* What lies in h. */
poly clipped(const poly *p, half h);
void clip_all(cloth *c, half h);

/* Sews what lies right sides together on the cloth, along the edge of h, and
 * opens it: below stays what lies in h, the upper one is turned over. All that
 * does not lie in h goes. */
void sew(cloth *c, const poly *upper, half h);

/* Moved and turned, but not turned over. */
bool are_same(const cloth *a, const cloth *b);

#endif
