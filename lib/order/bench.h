/* The work as it goes on: the steps taken so far and what has fallen out. */
#ifndef QCI_ORDER_BENCH_H
#define QCI_ORDER_BENCH_H

#include "base/vec.h"
#include "order/words.h"
#include "plan/plan.h"

/* What has fallen out of one piece type so far, and what will. */
typedef struct qci_heap {
    int64_t pieces;         /* as they fall out of strips */
    int64_t squares;        /* that become triangles */
    int64_t squares_needed; /* in the whole plan */
} qci_heap;

typedef struct qci_bench {
    qc_plan *plan;
    QCI_VEC(qc_step) steps;
    qci_heap *heaps;    /* per piece */
    int64_t *cuts;      /* per fabric */
    int64_t *blade;     /* per fabric */
    int64_t *set_blade; /* per strip set */
    uint32_t fabric;    /* QC_NONE: at the strip sets */
    uint32_t set;       /* there; else QC_NONE */
    uint32_t like[2];   /* by number, even or odd: which step the last one, and
                           the one before, repeats; its own number if none */
    uint32_t next_part;
} qci_bench;

/* Equal cloths and the piles they lie in. */
typedef struct qci_lot {
    uint32_t part;
    int64_t copies;
    int64_t piles;
    uint32_t layers;
    bool paired;
} qci_lot;

/* A step on every cloth of a lot, that frees nothing yet. */
qc_step qci_step_on(const qci_bench *bench, qc_step_kind kind, qci_lot on);

/* Completes a step by what follows from the rest of it, words it and takes it
 * up. `origin` says what its words need; its texts' tallies follow from the
 * bench. @return false when memory is out. */
bool qci_take_up(qci_bench *bench, qc_step step, int64_t piles,
                 qci_origin origin);

/* Where `freed` of each cloth become cloths to be cut on: a lot of them. */
qci_lot qci_lot_of(qci_bench *bench, qci_lot from, uint32_t freed);

/* `copies` cloths of a part, piled as high as the plan allows. */
qci_lot qci_lot_piled(const qci_bench *bench, uint32_t part, int64_t copies,
                      bool paired);

/* Squares its strips' ends, cuts sections and pieces: all of one strip entry.
 */
bool qci_order_strip(qci_bench *bench, size_t strip);

/* Sews the strip set that the bench is at, and cuts it across. */
bool qci_order_set(qci_bench *bench);

#endif
