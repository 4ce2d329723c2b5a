/* What the branch and bound has proved so far, kept for a certificate: the tree
 * of its nodes, and with each the values that gave its best bound. */
#ifndef QCI_PACK_TRACE_H
#define QCI_PACK_TRACE_H

#include "certify/proof.h"
#include "pack/master.h"

typedef struct qci_trace_node {
    int32_t parent; /* -1: none */
    int32_t below, above;
    bool by_class;
    qci_count_row split; /* row and at, or at alone; hi is the most below */
    int64_t bound;       /* proved by these, for any aim */
    int64_t *values;     /* per row of the model; NULL: none of its own */
    int64_t *weights;    /* per node above it, from the root down */
} qci_trace_node;

typedef struct qci_trace {
    QCI_VEC(qci_trace_node) nodes;
} qci_trace;

/* A node behind `parent` (-1: the root); its index, or -1 without memory. */
int32_t qci_trace_add(qci_trace *trace, int32_t parent);
/* The node's strips of a class or higher, or with so many pieces, are counted:
 * its two nodes are `below` and `above`. */
void qci_trace_split(qci_trace *trace, int32_t node, bool by_class,
                     qci_count_row split, int32_t below, int32_t above);
/* Keeps what master's last bound rests on; false when memory is out. */
bool qci_trace_bound(qci_trace *trace, int32_t node, const qci_master *master,
                     int64_t bound);
/* The node's own questions exclude each other. */
bool qci_trace_empty(qci_trace *trace, int32_t node, int32_t row_count);
void qci_trace_clear(qci_trace *trace);

/* A proof that no strips of `cap` height (scaled; -1: of any) together are
 * enough; *out is NULL where the tree does not show it. */
qc_status qci_trace_proof(const qci_trace *trace, const qci_demand *demand,
                          const qci_model *model, int64_t cap, qci_proof **out,
                          qc_error *err);
/* One that argues with area alone, which may show too little. */
qc_status qci_area_proof(const qci_demand *demand, const qci_model *model,
                         qci_proof **out, qc_error *err);

#endif
