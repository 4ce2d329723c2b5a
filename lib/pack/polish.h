/* The goals after length: fewer set-ups, fewer cuts, a larger leftover. */
#ifndef QCI_PACK_POLISH_H
#define QCI_PACK_POLISH_H

#include "pack/master.h"
#include "pack/pack.h"

/* Builds the packing of `best` and improves it, goal by goal in the demand's
 * order; no change makes an earlier goal worse. */
qc_status qci_polish(qci_master *master, const qci_demand *demand,
                     qci_solution *best, qci_packing *packing, qc_error *err);

#endif
