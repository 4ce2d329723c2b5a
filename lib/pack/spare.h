/* Patterns that are known but stand outside the program. Parts of master.c. */
#ifndef QCI_PACK_SPARE_H
#define QCI_PACK_SPARE_H

#include "pack/master.h"

/* Takes the patterns that are farthest from improving the program out of it,
 * where there are many; the last LP must have been solved. They stay in the
 * pool. */
qc_status qci_spare_out(qci_master *master, qc_error *err);

/* Puts those back that improve the program at the integer duals in hand, the
 * best ones first; counted in master->found. */
qc_status qci_spare_in(qci_master *master, qc_error *err);

#endif
