/* The plan from inside: what the accessors of quiltcut/plan.h read. Filled by
 * the solve room, then given its steps by the order room; read only after. */
#ifndef QCI_PLAN_PLAN_H
#define QCI_PLAN_PLAN_H

#include <quiltcut/plan.h>

#include "certify/proof.h"

typedef struct qci_plan_fabric {
    qc_plan_fabric info; /* texts owned */
    qc_level *levels;
    qc_strip *strips; /* with their subcuts and stacks, owned */
    qc_leftover *leftovers;
    qci_proof *proof; /* that no plan buys less, owned; NULL: there is none */
} qci_plan_fabric;

typedef struct qci_plan_set {
    qc_plan_set info; /* texts owned */
    qc_set_strip *strips;
} qci_plan_set;

/* A plan is allocated zeroed and filled from the top; all it points to is its
 * own, made through base/alloc.h. qc_plan_destroy() accepts it at any point on
 * the way, as long as arrays are zeroed when made and counts never exceed them
 * (a count whose array is still NULL is fine). */
struct qc_plan {
    char *title;
    bool left_handed;
    qc_units units;
    qc_length ruler;
    qc_length seam;
    int32_t layers;
    qci_plan_fabric *fabrics;
    size_t fabric_count;
    qc_plan_piece *pieces;
    size_t piece_count;    /* ids, job ids, roles and outlines owned */
    qc_plan_block *blocks; /* texts owned */
    size_t block_count;
    qc_plan_unit *made; /* ids owned */
    size_t made_count;
    qci_plan_set *sets;
    size_t set_count;
    qc_step *steps; /* texts owned */
    size_t step_count;
    char **defaults;
    size_t default_count;
};

/* Falls a piece out of the strip of which only one hand is wanted? On cloth
 * without a right side pieces have no hand. */
bool qci_strip_has_hand(const qc_plan *plan, const qc_strip *strip);

/* The first entry of the set-up that entry `index` belongs to. */
size_t qci_strip_setup(const qc_strip *strips, size_t index);

/* Ends the steps alone. */
void qci_plan_clear_steps(qc_plan *plan);

#endif
