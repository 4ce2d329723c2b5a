/* A solution of the program: patterns and how often each is cut. */
#ifndef QCI_PACK_SOLUTION_H
#define QCI_PACK_SOLUTION_H

#include "base/vec.h"
#include "pack/pattern.h"

typedef struct qci_use {
    const qci_pattern *pattern; /* of the pool, which outlives it */
    int64_t times;
} qci_use;

typedef struct qci_solution {
    QCI_VEC(qci_use) uses;
    int64_t height; /* all strips together, scaled; 0 = no solution */
} qci_solution;

/* Adds `times` strips; joined to an entry of the same pattern. False when
 * memory is out. */
bool qci_solution_add(qci_solution *solution, const qci_pattern *pattern,
                      int64_t times);
/* Replaces `to` by a copy of `from`; false (and `to` empty) without memory. */
bool qci_solution_copy(qci_solution *to, const qci_solution *from);
void qci_solution_clear(qci_solution *solution);
/* Are all demands met (exactly, where the model says so)? */
bool qci_solution_covers(const qci_solution *solution, const qci_model *model);

#endif
