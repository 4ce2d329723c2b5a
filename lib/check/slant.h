/* Taking slanted sections off a strip. */
#ifndef QCI_CHECK_SLANT_H
#define QCI_CHECK_SLANT_H

#include "check/instructions.h"
#include "replay/polygon.h"

/* Cuts at the step's angle across a strip of a height. */
typedef struct qci_slant {
    qc_length lean;  /* from the lower to the upper edge; left below 0 */
    qc_length pitch; /* from cut to cut, at half the height */
    bool alternate;  /* every second cut leans the other way */
} qci_slant;

qci_slant qci_slant_of(const qci_instruction *step, const qci_polygon *cloth);

/* How many sections come off the cloth, once its left end has that lean; 0 also
 * when the step's long side is shorter than the slant needs. */
int64_t qci_slant_fits(qci_slant slant, const qci_polygon *cloth);

/* Cuts `count` of them off, 1 to as many as fit; `freed` receives the first.
 * What is left has a slanted left edge. False when a corner would not be whole.
 */
bool qci_slant_cut(qci_slant slant, int64_t count, qci_polygon *cloth,
                   qci_polygon *freed);

#endif
