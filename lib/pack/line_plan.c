#include "pack/line_plan.h"

bool qci_line_plan_add(qci_line_plan *plan, const qci_count *entries,
                       int32_t count, int64_t times)
{
    size_t before = plan->entries.count;

    for (int32_t i = 0; i < count; i++)
        if (!qci_vec_push(&plan->entries, entries[i]))
            return false;
    if (!qci_vec_reserve(&plan->first) || !qci_vec_push(&plan->times, times))
        return false;
    qci_vec_push(&plan->first, (int32_t)before);
    plan->strips += times;
    return true;
}

const qci_count *qci_line_plan_at(const qci_line_plan *plan, size_t i,
                                  int32_t *count)
{
    int32_t from = plan->first.at[i];
    int32_t to = i + 1 < plan->first.count ? plan->first.at[i + 1]
                                           : (int32_t)plan->entries.count;

    *count = to - from;
    return plan->entries.at + from;
}

bool qci_line_plan_copy(qci_line_plan *to, const qci_line_plan *from)
{
    qci_line_plan_cut(to, 0);
    for (size_t i = 0; i < from->times.count; i++) {
        int32_t count;
        const qci_count *entries = qci_line_plan_at(from, i, &count);

        if (!qci_line_plan_add(to, entries, count, from->times.at[i]))
            return false;
    }
    return true;
}

void qci_line_plan_cut(qci_line_plan *plan, size_t count)
{
    if (count < plan->first.count)
        plan->entries.count = (size_t)plan->first.at[count];
    while (plan->times.count > count)
        plan->strips -= plan->times.at[--plan->times.count];
    plan->first.count = plan->times.count;
}

void qci_line_plan_clear(qci_line_plan *plan)
{
    qci_vec_clear(&plan->entries);
    qci_vec_clear(&plan->first);
    qci_vec_clear(&plan->times);
    plan->strips = 0;
}
