/* All groups of a size come in one order, so that a search over them is the
 * same every time. */
#include "pack/group.h"

#include <stdlib.h>
#include <string.h>

static int compare_uses(const void *a, const void *b)
{
    const qci_use *p = a, *q = b;

    return (p->times > q->times) - (p->times < q->times);
}

void qci_group_begin(qci_solution *solution, size_t *group, size_t count)
{
    if (solution->uses.count)
        qsort(solution->uses.at, solution->uses.count,
              sizeof *solution->uses.at, compare_uses);
    for (size_t i = 0; i < count; i++)
        group[i] = i;
}

bool qci_group_next(size_t *group, size_t count, size_t n)
{
    size_t at = count;

    while (at > 0 && group[at - 1] == n - count + at - 1)
        at--;
    if (!at)
        return false;
    group[at - 1]++;
    for (size_t i = at; i < count; i++)
        group[i] = group[i - 1] + 1;
    return true;
}

bool qci_group_take_out(const qci_model *model, const qci_solution *solution,
                        const size_t *group, size_t count, qci_solution *others,
                        int64_t *left)
{
    size_t next = 0;

    qci_solution_clear(others);
    memcpy(left, model->demand, (size_t)model->row_count * sizeof *left);
    for (size_t i = 0; i < solution->uses.count; i++) {
        const qci_use *use = &solution->uses.at[i];

        if (next < count && group[next] == i) {
            next++;
            continue;
        }
        if (!qci_solution_add(others, use->pattern, use->times))
            return false;
        qci_pattern_take(use->pattern, use->times, left);
    }
    return true;
}
