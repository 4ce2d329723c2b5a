/* Groups of a solution's set-ups, which are taken out to be replaced. */
#ifndef QCI_PACK_GROUP_H
#define QCI_PACK_GROUP_H

#include "pack/solution.h"

/* Sorts the uses, those of few strips first. Groups are places among them, in
 * rising order; begins with the first `count`. */
void qci_group_begin(qci_solution *solution, size_t *group, size_t count);
/* The next choice of `count` out of n; false after the last. */
bool qci_group_next(size_t *group, size_t count, size_t n);
/* `others` receives the uses that stay, left[row] what they leave to cut. False
 * when memory is out. */
bool qci_group_take_out(const qci_model *model, const qci_solution *solution,
                        const size_t *group, size_t count, qci_solution *others,
                        int64_t *left);

#endif
