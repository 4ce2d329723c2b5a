/* The words of a step: what its part is called, and the instruction. */
#ifndef QCI_ORDER_WORDS_H
#define QCI_ORDER_WORDS_H

#include "plan/plan.h"

/* Which element of the plan a step comes from; what its kind does not need is
 * not read. */
typedef struct qci_origin {
    const qc_plan *plan;
    bool first;      /* step of its fabric */
    qc_length ruler; /* what the step before has left it set to; 0 = nothing */
    size_t strip;
    size_t subcut;
    size_t section; /* the subcut's place among those that hold stacks */
    size_t stack;
    size_t
        slice; /* the run's place among those of its stack that are trimmed */
    size_t leftover;
} qci_origin;

/* Gives a step, filled otherwise, its `source` and `text`.
 * @return false, with neither set, when memory is out. */
bool qci_step_word(qc_step *step, const qci_origin *origin);

#endif
