/* Dealing merged rows back: which piece type each place in a strip is for. */
#ifndef QCI_PACK_DEAL_H
#define QCI_PACK_DEAL_H

#include "base/vec.h"
#include "pack/model.h"
#include "pack/pack.h"

typedef struct qci_deal {
    const qci_demand *demand;
    const qci_model *model;
    int64_t *left;  /* per demand row: pieces not dealt yet */
    bool hands;     /* strips may be paired: none is noted as cut alike */
    int32_t *whole; /* sequence of the set-up in hand */
    int32_t whole_length;
    bool has_short; /* a strip of it is cut short already */
    QCI_VEC(qci_strip) strips;
} qci_deal;

qc_status qci_deal_begin(qci_deal *deal, const qci_demand *demand,
                         const qci_model *model, qc_error *err);
/* Adds `times` strips of this sequence of lays; none for an empty sequence.
 * They are a set-up, unless they are one strip, the first that is the set-up
 * before it with sections, or pieces above the first of a section, left out.
 * `fresh`: they are one in any case. */
qc_status qci_deal_strips(qci_deal *deal, int64_t height,
                          const int32_t *sequence, int32_t length,
                          int64_t times, bool fresh, qc_error *err);
/* Hands the strips to `packing`, or ends them when it is NULL. */
void qci_deal_end(qci_deal *deal, qci_packing *packing);

#endif
