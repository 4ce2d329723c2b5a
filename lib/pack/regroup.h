/* Fewer set-ups, group by group. */
#ifndef QCI_PACK_REGROUP_H
#define QCI_PACK_REGROUP_H

#include "pack/master.h"

/* Replaces groups of set-ups by one less, as long as that works; the total
 * height stays at or below `cap`. The linear program must be solved, without
 * bounds on its classes. Ends by counts. */
qc_status qci_regroup(qci_master *master, int64_t cap, qci_solution *solution,
                      qc_error *err);

#endif
