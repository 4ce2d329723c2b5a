/* The narrowest usable width at which a bought length still suffices. */
#ifndef QCI_PACK_NARROW_H
#define QCI_PACK_NARROW_H

#include "pack/pack.h"

/* Searches the ruler grid below the fabric's width, which is known to suffice
 * for `bought`. *outcome is OPTIMAL when one grid step less is proved not to
 * suffice; FEASIBLE when that stayed open. */
qc_status qci_narrowest(const qci_demand *demand, const qci_watch *watch,
                        qc_length bought, qc_length *width, qc_outcome *outcome,
                        qc_error *err);

#endif
