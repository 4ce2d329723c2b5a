/* Angles without floating point. */
#ifndef QCI_REPLAY_ANGLE_H
#define QCI_REPLAY_ANGLE_H

#include <stdint.h>

#include "base/wide.h"

/* Sine and cosine are given in this part of one. */
#define QCI_ANGLE_BITS 40

typedef struct qci_direction {
    int64_t sine, cosine;
} qci_direction;

/* Of an angle of 0 to 180 degrees, in millionths of a degree; right to a few of
 * the last bits. */
qci_direction qci_direction_of(int32_t angle);

/* The greatest whole number whose square is at most n, which is >= 0 and below
 * 2^80. */
int64_t qci_root_down(qci_wide n);

#endif
