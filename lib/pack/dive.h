/* From a fractional solution of the program to whole strips. */
#ifndef QCI_PACK_DIVE_H
#define QCI_PACK_DIVE_H

#include "pack/master.h"

typedef struct qci_dive_plan {
    int64_t cap;  /* only solutions up to this height count */
    int64_t hold; /* strips of each pattern held back from the first rounding */
    int32_t turn; /* the choice, from 1, at which the second nearest strip is
                     tried first; 0: none */
    int32_t rounds; /* linear programs after which it does not back out again */
    const qci_solution *kept; /* part of the solution beforehand; or NULL */
} qci_dive_plan;

/* Rounds down what is whole, solves again for what is left, and where nothing
 * is whole takes the strip that is nearest to it; until all is cut. Backs out
 * of what cannot end within the cap. Starts from the master's present need and
 * class bounds, and leaves them as they were. `out` stays empty when nothing is
 * found. */
qc_status qci_dive(qci_master *master, qci_dive_plan plan, qci_solution *out,
                   qc_error *err);

typedef struct qci_restrict_plan {
    int64_t cap;     /* only solutions up to this height count */
    int64_t hold;    /* strips of each pattern held back from the whole part */
    int32_t columns; /* most patterns to choose from */
    int32_t nodes;   /* of GLPK's */
} qci_restrict_plan;

/* A whole solution of patterns of the pool, by GLPK, for what is left of the
 * LP's whole part: the first within the cap. */
qc_status qci_restrict(qci_master *master, qci_restrict_plan plan,
                       qci_solution *out, qc_error *err);

/* Lowers strips whose highest pieces are more than are needed. */
qc_status qci_lower(qci_master *master, qci_solution *solution, qc_error *err);

#endif
