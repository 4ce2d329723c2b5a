/* Angles without floating point. */
#ifndef QCI_REPLAY_ANGLE_H
#define QCI_REPLAY_ANGLE_H

#include <stdint.h>

#include "base/wide.h"

/* Sine and cosine are given in this part of one. */
#define QCI_ANGLE_BITS 40

typedef struct qci_replay_way {
    int64_t sine, cosine;
} qci_replay_way;

/* Of an angle of 0 to 180 degrees, in millionths of a degree; right to a few of
 * the last bits. */
qci_replay_way qci_replay_direction(int32_t angle);

/* The greatest whole number whose square is at most n, which is >= 0 and below
 * 2^80. */
int64_t qci_replay_root(qci_wide n);

#endif
