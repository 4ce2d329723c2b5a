/* A bound on the set-ups that holds for every packing. */
#ifndef QCI_PACK_COVERS_H
#define QCI_PACK_COVERS_H

#include "pack/master.h"

/* Raises *bound to a number of set-ups that no packing within `room` (scaled
 * height) is below, as far as a fixed amount of work tells. `known` is any
 * solution within it: the work ends when that is proved best. */
qc_status qci_covers_bound(qci_master *master, int64_t room,
                           const qci_solution *known, int64_t *bound,
                           qc_error *err);

#endif
