/* The fewest set-ups, and the proof that they are. */
#ifndef QCI_PACK_FEWEST_H
#define QCI_PACK_FEWEST_H

#include "pack/master.h"

/* Raises *bound, which no solution within `cap` has fewer set-ups than, until
 * as many are enough, or `known` has no more, or work or time run out. Those
 * that are enough are written to `out`, which stays empty otherwise. The linear
 * program must be solved, without bounds on its classes. */
qc_status qci_fewest(qci_master *master, int64_t cap, const qci_solution *known,
                     int64_t *bound, qci_solution *out, qc_error *err);

#endif
