/* Fewer different patterns within a height. */
#ifndef QCI_PACK_SETUPS_H
#define QCI_PACK_SETUPS_H

#include "pack/master.h"

/* Replaces groups of patterns by smaller groups as long as that works; the
 * total height stays at or below `cap`. `calls` pricings are spent at most
 * (the deterministic limit). */
qc_status qci_setups_reduce(qci_master *master, int64_t cap, int32_t calls,
                            qci_solution *solution, qc_error *err);

/* Is it proved that one pattern alone cannot meet the demand within `cap`? */
qc_status qci_setups_need_two(qci_master *master, int64_t cap, bool *proved,
                              qc_error *err);

#endif
