/* Duals to integers, pricing, and the safe bound; parts of master.c. */
#ifndef QCI_PACK_PRICE_H
#define QCI_PACK_PRICE_H

#include "pack/master.h"

/* Reads the duals of the last LP, prices the classes, adds the patterns that
 * improve the program (counted in master->found), and gives the safe bound: 0
 * where enough patterns were found before every class was priced. */
qc_status qci_price_round(qci_master *master, int64_t *bound, qc_error *err);

#endif
