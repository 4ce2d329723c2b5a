/* A strip as someone works it who cuts with the left hand. */
#ifndef QCI_SOLVE_LEFT_H
#define QCI_SOLVE_LEFT_H

#include "pack/pack.h"

/* The sections of `strip` from its right end on: their forms lie as they are
 * seen from the fabric's right side, so that in a left-handed plan, which
 * measures from the right end, their leans are mirrored. NULL when memory is
 * out; else ended by qci_sections_destroy(). */
qci_section *qci_left_sections(const qci_demand *demand,
                               const qci_strip *strip);

#endif
