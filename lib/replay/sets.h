/* Strip sets: what the plan says of them, for the steps that cut them. */
#ifndef QCI_REPLAY_SETS_H
#define QCI_REPLAY_SETS_H

#include "replay/state.h"

/* Where the raw edges of a strip lie in a sewn set. */
typedef struct qci_edges {
    qc_length low, high;
} qci_edges;

/* Those of strip `index`; the seam is the plan's. */
qci_edges qci_edges_of(const qc_plan *plan, const qci_plan_set *set,
                       size_t index);

/* Full sets or the last, shorter one. */
typedef enum qci_which { QCI_SET_FULL, QCI_SET_PART } qci_which;

/* How many are sewn, how long, and the segments of each. */
typedef struct qci_run {
    int64_t copies;
    qc_length length;
    int64_t segments;
} qci_run;

qci_run qci_run_of(const qc_plan_set *set, qci_which which);

/* The piece that strips of such sets are. */
uint32_t qci_set_piece(const qc_set_strip *strip, qci_which which);

#endif
