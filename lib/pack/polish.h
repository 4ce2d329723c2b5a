/* The goals after length: fewer set-ups, fewer cuts, a larger leftover. */
#ifndef QCI_PACK_POLISH_H
#define QCI_PACK_POLISH_H

#include "pack/master.h"
#include "pack/pack.h"

/* The total height (scaled) that packings may take without losing a length goal
 * that comes before the first other goal, when `height` is what those reached.
 */
int64_t qci_free_height(const qci_demand *demand, const qci_model *model,
                        int64_t height);

/* Is any goal beside the lengths asked for? */
bool qci_polish_wanted(const qci_demand *demand);

/* Builds the packing of `best` and improves it, goal by goal in the demand's
 * order; no change makes an earlier goal worse. `first` is another solution to
 * choose from, if it is short enough. Both are changed. *setups receives a
 * number of set-ups that no packing is below. */
qc_status qci_polish(qci_master *master, const qci_demand *demand,
                     qci_solution *first, qci_solution *best,
                     qci_packing *packing, int64_t *setups, qc_error *err);

#endif
