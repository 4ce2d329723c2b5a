#include "pack/solution.h"

bool qci_solution_add(qci_solution *solution, const qci_pattern *pattern,
                      int64_t times)
{
    solution->height += pattern->height * times;
    for (size_t i = 0; i < solution->uses.count; i++)
        if (solution->uses.at[i].pattern == pattern) {
            solution->uses.at[i].times += times;
            return true;
        }
    return qci_vec_push(&solution->uses, (qci_use){pattern, times});
}

bool qci_solution_copy(qci_solution *to, const qci_solution *from)
{
    qci_solution_clear(to);
    for (size_t i = 0; i < from->uses.count; i++)
        if (!qci_solution_add(to, from->uses.at[i].pattern,
                              from->uses.at[i].times)) {
            qci_solution_clear(to);
            return false;
        }
    return true;
}

void qci_solution_clear(qci_solution *solution)
{
    qci_vec_clear(&solution->uses);
    solution->height = 0;
}

bool qci_solution_covers(const qci_solution *solution, const qci_model *model)
{
    for (int32_t row = 0; row < model->row_count; row++) {
        int64_t left = model->demand[row];

        for (size_t i = 0; i < solution->uses.count; i++)
            left -= solution->uses.at[i].times *
                    qci_pattern_yield(solution->uses.at[i].pattern, row);
        if (left > 0 || (model->exact && left < 0))
            return false;
    }
    return true;
}
