/* What no packing can beat, per goal. */
#ifndef QCI_PACK_BOUNDS_H
#define QCI_PACK_BOUNDS_H

#include "pack/model.h"
#include "pack/pack.h"

/* The least total height (scaled) by area alone; at least 1. */
int64_t qci_bound_area(const qci_model *model);

/* A bound on the value of `goal` over all packings that buy what `packing`
 * buys, given that no packing's strips are lower together than `height`
 * (scaled); never on the wrong side of the packing's own value. */
int64_t qci_bound_goal(const qci_demand *demand, const qci_model *model,
                       const qci_packing *packing, int64_t height,
                       qc_goal goal);

#endif
