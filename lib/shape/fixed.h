/* Numbers between the whole ones: what the geometry of shapes reckons with
 * before it is rounded, once, to lengths. */
#ifndef QCI_SHAPE_FIXED_H
#define QCI_SHAPE_FIXED_H

#include <stdbool.h>

#include <quiltcut/job.h>

#include "base/wide.h"

/* A length in units of 2^-32 of a qc_length. */
typedef int64_t qci_fine;
#define QCI_FINE_BITS 32
#define QCI_FINE ((qci_fine)1 << QCI_FINE_BITS)
/* The largest that is reckoned with; products of it and a direction fit. */
#define QCI_FINE_MAX ((qci_fine)1 << 61)

typedef struct qci_fine_point {
    qci_fine x, y;
} qci_fine_point;

/* Sines and cosines in units of 2^-60. */
#define QCI_ONE_BITS 60
#define QCI_ONE ((int64_t)1 << QCI_ONE_BITS)

typedef struct qci_dir {
    int64_t x, y;
} qci_dir;

/* A value so near to a whole number counts as that number: irrational ones
 * carry the errors of their last digits, and what is exact must stay so. This
 * is the one place that says how near; 2^-16 unit is 2 millionths of a
 * micrometre. */
#define QCI_FINE_NEAR (QCI_FINE >> 16)

/* The least whole number, even number, or multiple of `step` that is not below
 * it; the greatest even number that is not above it. */
qc_length qci_fine_up(qci_fine value);
qc_length qci_fine_up_to(qci_fine value, qc_length step);
qc_length qci_fine_even_down(qci_fine value);
/* Is it a whole number, but for its last digits? */
bool qci_fine_whole(qci_fine value);

static inline qci_fine qci_fine_of(qc_length length)
{
    return length * QCI_FINE;
}

static inline qci_fine qci_fine_min(qci_fine a, qci_fine b)
{
    return a < b ? a : b;
}

static inline qci_fine qci_fine_max(qci_fine a, qci_fine b)
{
    return a > b ? a : b;
}

/* value x part, rounded to the nearest. */
static inline qci_fine qci_fine_times(qci_fine value, int64_t part)
{
    qci_wide product = (qci_wide)value * part;

    return (qci_fine)((product + QCI_ONE / 2) >> QCI_ONE_BITS);
}

/* value x top / bottom, cut to +-QCI_FINE_MAX; bottom is not 0. */
qci_fine qci_fine_scaled(qci_fine value, int64_t top, int64_t bottom);

/* The greatest whole number whose square is at most n, bit by bit. */
static inline int64_t qci_root(qci_wide n)
{
    qci_wide root = 0;

    for (int bit = 62; bit >= 0; bit--) {
        qci_wide tried = root + ((qci_wide)1 << bit);

        if (tried * tried <= n)
            root = tried;
    }
    return (int64_t)root;
}

/* Where an angle of 0 to 180 degrees points, in millionths of a degree against
 * the x axis. */
qci_dir qci_dir_at(int32_t angle);

/* Where (x, y) points; not both are 0, neither beyond 2^61. */
qci_dir qci_dir_along(int64_t x, int64_t y);

static inline int64_t qci_dir_cross(qci_dir a, qci_dir b)
{
    return (
        int64_t)(((qci_wide)a.x * b.y - (qci_wide)a.y * b.x + QCI_ONE / 2) >>
                 QCI_ONE_BITS);
}

static inline int64_t qci_dir_dot(qci_dir a, qci_dir b)
{
    return (
        int64_t)(((qci_wide)a.x * b.x + (qci_wide)a.y * b.y + QCI_ONE / 2) >>
                 QCI_ONE_BITS);
}

#endif
