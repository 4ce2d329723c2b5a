/* After rounding, a strip may be as high as it is for the sake of pieces that
 * are no longer needed. Without them it is lower. */
#include "base/alloc.h"
#include "base/error.h"
#include "pack/dive.h"

static int64_t surplus(const qci_model *model, const qci_solution *solution,
                       int32_t row)
{
    int64_t left = -model->demand[row];

    for (size_t i = 0; i < solution->uses.count; i++)
        left += solution->uses.at[i].times *
                qci_pattern_yield(solution->uses.at[i].pattern, row);
    return left;
}

/* Leaves a piece out; false when it is needed. */
static bool leave(const qci_lay *lay, int64_t *left)
{
    left[lay->row] -= lay->yield;
    return left[lay->row] >= 0;
}

/* Takes the highest sections out of a pattern; false when their pieces are
 * needed. `left` is the surplus per row, `sequence` the result. */
static bool without_highest(const qci_model *model, const qci_pattern *pattern,
                            int64_t *left, int32_t *sequence, int32_t *length)
{
    int32_t n = 0;
    bool enough = true;

    for (int32_t from = 0, to; from < pattern->length; from = to) {
        int64_t height = 0;

        for (to = from; to == from || (to < pattern->length &&
                                       !(pattern->sequence[to] & QCI_OPEN));
             to++)
            height += model->lays[QCI_LAY(pattern->sequence[to])].height;
        for (int32_t i = from; i < to; i++) {
            if (height < pattern->height)
                sequence[n++] = pattern->sequence[i];
            else if (!leave(&model->lays[QCI_LAY(pattern->sequence[i])], left))
                enough = false;
        }
    }
    *length = n;
    return enough;
}

/* One strip of use `at` lowered, if it can be. */
static qc_status lower_one(qci_master *master, qci_solution *solution,
                           size_t at, bool *done, qc_error *err)
{
    const qci_model *model = master->model;
    const qci_pattern *pattern = solution->uses.at[at].pattern, *kept = NULL;
    int64_t *left = qci_calloc((size_t)model->row_count, sizeof *left);
    int32_t *sequence = qci_calloc((size_t)pattern->length, sizeof *sequence);
    qc_status status = QC_STATUS_OK;
    int32_t length;

    *done = false;
    if (!left || !sequence) {
        status = qci_no_memory(err);
        goto done;
    }
    for (int32_t i = 0; i < pattern->row_count; i++)
        left[pattern->rows[i].row] =
            surplus(model, solution, pattern->rows[i].row);
    if (!without_highest(model, pattern, left, sequence, &length))
        goto done;
    *done = true;
    if (length) {
        qci_pattern *fresh = qci_pattern_create(model, 0, sequence, length);

        if (!fresh) {
            status = qci_no_memory(err);
            goto done;
        }
        fresh->cls = qci_model_class(model, fresh->height);
        status = qci_master_add(master, fresh, &kept, err);
        if (status)
            goto done;
    }
    solution->uses.at[at].times--;
    solution->height -= pattern->height;
    if (kept && !qci_solution_add(solution, kept, 1))
        status = qci_no_memory(err);
done:
    qci_free(left);
    qci_free(sequence);
    return status;
}

static void drop_unused(qci_solution *solution)
{
    size_t n = 0;

    for (size_t i = 0; i < solution->uses.count; i++)
        if (solution->uses.at[i].times > 0)
            solution->uses.at[n++] = solution->uses.at[i];
    solution->uses.count = n;
}

qc_status qci_lower(qci_master *master, qci_solution *solution, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    if (!master->model->trim)
        return QC_STATUS_OK;
    for (size_t i = 0; i < solution->uses.count && !status; i++) {
        bool done = true;

        while (done && solution->uses.at[i].times > 0 && !status)
            status = lower_one(master, solution, i, &done, err);
    }
    drop_unused(solution);
    return status;
}
