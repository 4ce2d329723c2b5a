/* Strips of one piece type that lies alone: each next piece lies so that it and
 * the wedge before it take least, which turns every second triangle and leaves
 * all parallelograms as they are. */
#include "pack/greedy.h"

#include "base/alloc.h"
#include "base/error.h"

/* Of the row's lays of this height, the one that takes least beside the edge;
 * -1 when none fits. */
static int32_t next_lay(const qci_model *model, int32_t row, int64_t height,
                        int64_t lean, int64_t width)
{
    int64_t least = width + 1;
    int32_t best = -1;

    for (int32_t i = qci_square_count(model); i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];
        int64_t takes = lay->width + qci_wedge(lean, lay->left);

        if (lay->row != row || lay->height != height || takes >= least ||
            takes + qci_wedge(lay->right, 0) > width)
            continue;
        least = takes;
        best = i;
    }
    return best;
}

int32_t qci_alone_row(const qci_model *model, int32_t row, int64_t height,
                      int32_t *sequence)
{
    int64_t width = model->width, lean = 0;
    int32_t n = 0, lay;

    while ((lay = next_lay(model, row, height, lean, width)) >= 0) {
        width -=
            model->lays[lay].width + qci_wedge(lean, model->lays[lay].left);
        lean = model->lays[lay].right;
        if (sequence)
            sequence[n] = lay | QCI_OPEN;
        n++;
    }
    return n;
}

/* A pattern of the first `length` of the sequence, and as often as `times` in
 * `out`. */
static qc_status take(qci_master *master, int64_t height,
                      const int32_t *sequence, int64_t length, int64_t times,
                      qci_solution *out, qc_error *err)
{
    const qci_model *model = master->model;
    const qci_pattern *kept;
    qci_pattern *pattern = qci_pattern_create(
        model, qci_model_class(model, height), sequence, (int32_t)length);
    qc_status status;

    if (!pattern)
        return qci_no_memory(err);
    status = qci_master_add(master, pattern, &kept, err);
    if (!status && times && !qci_solution_add(out, kept, times))
        status = qci_no_memory(err);
    return status;
}

/* Full strips of a row at a height; with `out` as many as it needs, the last
 * one in part. */
static qc_status fill_strips(qci_master *master, int32_t row, int64_t height,
                             qci_solution *out, qc_error *err)
{
    const qci_model *model = master->model;
    int32_t n = qci_alone_row(model, row, height, NULL);
    int32_t *sequence = qci_calloc((size_t)n, sizeof *sequence);
    int64_t need = model->demand[row], each;
    qc_status status = QC_STATUS_OK;

    if (!sequence)
        return qci_no_memory(err);
    qci_alone_row(model, row, height, sequence);
    each = need < n ? need : n;
    if (each)
        status = take(master, height, sequence, each, out ? need / each : 0,
                      out, err);
    if (!status && out && each && need % each)
        status = take(master, height, sequence, need % each, 1, out, err);
    qci_free(sequence);
    return status;
}

/* Is this the first lay of its row and height? */
static bool is_first(const qci_model *model, int32_t lay)
{
    for (int32_t i = qci_square_count(model); i < lay; i++)
        if (model->lays[i].row == model->lays[lay].row &&
            model->lays[i].height == model->lays[lay].height)
            return false;
    return true;
}

static bool lies_only_alone(const qci_model *model, int32_t row)
{
    for (int32_t i = 0; i < qci_square_count(model); i++)
        if (model->lays[i].row == row)
            return false;
    return true;
}

qc_status qci_greedy_alone(qci_master *master, qci_solution *out, qc_error *err)
{
    const qci_model *model = master->model;
    qc_status status = QC_STATUS_OK;

    for (int32_t row = 0; row < model->row_count && !status; row++) {
        /* Its first height serves. */
        qci_solution *into = lies_only_alone(model, row) ? out : NULL;

        for (int32_t i = qci_square_count(model);
             i < model->lay_count && !status; i++) {
            if (model->lays[i].row != row || !is_first(model, i))
                continue;
            status = fill_strips(master, row, model->lays[i].height, into, err);
            into = NULL;
        }
    }
    return status;
}
