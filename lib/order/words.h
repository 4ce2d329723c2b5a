/* The words of a step: what its part is called, and the instruction. */
#ifndef QCI_ORDER_WORDS_H
#define QCI_ORDER_WORDS_H

#include "plan/plan.h"

/* How many of a kind have fallen out, this step's included, and will. */
typedef struct qci_tally {
    int64_t now;
    int64_t total;
    int64_t needed;
} qci_tally;

/* Which element of the plan a step comes from; what its kind does not need is
 * not read. */
typedef struct qci_origin {
    const qc_plan *plan;
    bool first;      /* step of its fabric, or of all strip sets */
    qc_length ruler; /* what the step before has left it set to; 0 = nothing */
    size_t strip;
    size_t subcut;
    size_t section; /* the subcut's place among those that hold stacks */
    size_t stack;
    size_t
        slice; /* the run's place among those of its stack that are trimmed */
    size_t leftover;
    uint32_t yields;  /* what falls out becomes so many pieces: 1, 2 or 4 */
    qc_length edge;   /* lean of the edge that the cut before has left */
    bool selvage;     /* the last cut ends where the usable width ends */
    uint32_t like;    /* number of a step that this one repeats; 0: none */
    qci_tally tally;  /* of what falls out */
    qci_tally mirror; /* of its twin, that falls out of paired strips; 0 needed:
                         there is none */
} qci_origin;

/* Gives a step, filled otherwise, its `source` and `text`.
 * @return false, with neither set, when memory is out. */
bool qci_step_word(qc_step *step, const qci_origin *origin);

#endif
