/* From patterns to the strips of a packing, and what they are worth. */
#ifndef QCI_PACK_RESULT_H
#define QCI_PACK_RESULT_H

#include "pack/pack.h"
#include "pack/solution.h"

/* Fills packing->strips (and used, bought): surplus pieces are left out of the
 * last strips of a pattern, merged rows dealt back to the demand's rows. */
qc_status qci_result_build(const qci_demand *demand, const qci_model *model,
                           const qci_solution *solution, qci_packing *packing,
                           qc_error *err);
void qci_result_clear(qci_packing *packing);

/* The value of a goal for a packing whose strips are built. */
int64_t qci_result_value(const qci_demand *demand, const qci_packing *packing,
                         qc_goal goal);

/* Length used by strips of this total height (scaled); 0 for none. */
qc_length qci_result_used(const qci_demand *demand, const qci_model *model,
                          int64_t height);

/* The total height of strips (scaled) that `bought` covers; -1 when it does not
 * even cover the squaring-up. */
int64_t qci_result_room(const qci_demand *demand, const qci_model *model,
                        qc_length bought);

#endif
