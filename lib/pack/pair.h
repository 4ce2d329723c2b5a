/* Strips that are cut right sides together. */
#ifndef QCI_PACK_PAIR_H
#define QCI_PACK_PAIR_H

#include "pack/pack.h"

/* Could two strips of this demand be cut as a pair? */
bool qci_pair_possible(const qci_demand *demand);
/* Makes one entry of every two whose patterns are mirror images, where layers
 * allow it. On failure the packing is as it was. */
qc_status qci_pair_strips(const qci_demand *demand, qci_packing *packing,
                          qc_error *err);

#endif
