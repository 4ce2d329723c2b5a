/* The fewest set-ups, and the proof that they are. */
#ifndef QCI_PACK_FEWEST_H
#define QCI_PACK_FEWEST_H

#include "pack/exhaust.h"

/* Raises *bound, which no solution within `cap` has fewer set-ups than, until
 * as many are enough, or it is `most`, or work or time run out. Those
 * that are enough are written to `out`, which stays empty otherwise. The linear
 * program must be solved, without bounds on its classes. */
qc_status qci_fewest(qci_master *master, int64_t cap, int64_t most,
                     int64_t *bound, qci_solution *out, qc_error *err);

/* Adds set-ups of the list to a solution. */
qc_status qci_take_setups(qci_master *master, const qci_every *every,
                          const qci_setup *setups, int64_t count,
                          qci_solution *out, qc_error *err);

#endif
