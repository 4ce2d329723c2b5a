/* Dealing merged rows back: which piece type each place in a strip is for. */
#ifndef QCI_PACK_DEAL_H
#define QCI_PACK_DEAL_H

#include "base/vec.h"
#include "pack/model.h"
#include "pack/pack.h"

typedef struct qci_deal {
    const qci_demand *demand;
    const qci_model *model;
    int64_t *left; /* per demand row: pieces not dealt yet */
    QCI_VEC(qci_strip) strips;
} qci_deal;

qc_status qci_deal_begin(qci_deal *deal, const qci_demand *demand,
                         const qci_model *model, qc_error *err);
/* Adds `times` strips of this sequence of lays; none for an empty sequence.
 * `part`: a single strip may be the last of the call before, cut short. */
qc_status qci_deal_strips(qci_deal *deal, int64_t height,
                          const int32_t *sequence, int32_t length,
                          int64_t times, bool part, qc_error *err);
/* Hands the strips to `packing`, or ends them when it is NULL. */
void qci_deal_end(qci_deal *deal, qci_packing *packing);

#endif
