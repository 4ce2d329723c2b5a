/* The narrowest usable width at which a bought length still suffices. */
#ifndef QCI_PACK_NARROW_H
#define QCI_PACK_NARROW_H

#include "pack/pack.h"

/* Searches the ruler grid below the packing's widest strip; sets the packing's
 * narrowest_width and narrowest_outcome, which is OPTIMAL when one grid step
 * less is proved not to suffice, FEASIBLE when that stayed open. Leaves both as
 * they are where nothing is cut. Must run between qci_mip_thread_begin() and
 * _end().
 * @return QC_STATUS_OK (also when ended early), QC_STATUS_NO_MEMORY,
 *         QC_STATUS_SOLVER. */
qc_status qci_narrowest(const qci_demand *demand, const qci_watch *watch,
                        qci_packing *packing, qc_error *err);

#endif
