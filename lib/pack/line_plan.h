/* A plan of strips of one class, while it is looked for. */
#ifndef QCI_PACK_LINE_PLAN_H
#define QCI_PACK_LINE_PLAN_H

#include "base/vec.h"
#include "pack/pattern.h"

typedef struct qci_line_plan {
    QCI_VEC(qci_count) entries;
    QCI_VEC(int32_t)
    first; /* pattern i has entries first[i]..first[i + 1],
              the last one all that are left */
    QCI_VEC(int64_t) times;
    int64_t strips;
} qci_line_plan;

bool qci_line_plan_add(qci_line_plan *plan, const qci_count *entries,
                       int32_t count, int64_t times);
bool qci_line_plan_copy(qci_line_plan *to, const qci_line_plan *from);
/* Takes off all but the first `count` patterns. */
void qci_line_plan_cut(qci_line_plan *plan, size_t count);
void qci_line_plan_clear(qci_line_plan *plan);
/* Entries of pattern i. */
const qci_count *qci_line_plan_at(const qci_line_plan *plan, size_t i,
                                  int32_t *count);

#endif
