/* Some set-ups are taken out, and whether one less can cut what they cut, in
 * the height that is then free, is answered by trying all (exhaust.c), from a
 * list of patterns that waste little (every.c): as much as leaves few enough.
 * Small groups come first, and of those the ones of few strips; after a success
 * all is tried anew. */
#include "pack/regroup.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/fewest.h"
#include "pack/group.h"

#define LIST_LIMIT 3000
#define HALVINGS 12
#define SMALLEST 3
#define LARGEST 5
/* Work for one group, and for all. */
#define GROUP_WORK (INT64_C(1) << 22)
#define ALL_WORK (INT64_C(1) << 29)

typedef struct regrouping {
    qci_master *master;
    const qci_model *model;
    qci_every every;
    int64_t cap, work;
    int64_t *left, *whole; /* per row: see qci_task */
    qci_solution *solution;
    qci_solution others; /* those that stay */
} regrouping;

/* The list that wastes most and is no longer than it may be. */
static qc_status list_patterns(regrouping *g, qc_error *err)
{
    int64_t waste = g->cap * QCI_PARTS;

    for (int i = 0; i < HALVINGS; i++, waste /= 2) {
        qc_status status = qci_every_create(&g->every, g->master, g->cap, waste,
                                            LIST_LIMIT, err);

        if (status || g->every.whole)
            return status;
    }
    return QC_STATUS_OK;
}

/* What set-ups may cut without their last strips, when the others stay. */
static void bound_whole(regrouping *g)
{
    memcpy(g->whole, g->model->demand,
           (size_t)g->model->row_count * sizeof *g->whole);
    for (size_t i = 0; i < g->others.uses.count; i++) {
        const qci_use *use = &g->others.uses.at[i];

        for (int32_t k = 0; k < use->pattern->row_count; k++)
            g->whole[use->pattern->rows[k].row] -=
                (use->times - 1) * use->pattern->rows[k].count;
    }
}

static qc_status try_group(regrouping *g, const size_t *group, size_t count,
                           bool *better, qc_error *err)
{
    qci_setup setups[LARGEST];
    qci_task task = {
        .left = g->left, .whole = g->whole, .count = (int32_t)count - 1};
    qci_answer answer;
    int64_t work = GROUP_WORK;
    qc_status status;

    if (!qci_group_take_out(g->model, g->solution, group, count, &g->others,
                            g->left))
        return qci_no_memory(err);
    bound_whole(g);
    task.spare = (g->cap - g->others.height) * QCI_PARTS;
    for (int32_t row = 0; row < g->model->row_count; row++)
        task.spare -= g->left[row] * g->every.price[row];
    if (task.spare < 0)
        return QC_STATUS_OK;
    status =
        qci_exhaust(&g->every, g->master, &task, &work, setups, &answer, err);
    g->work -= GROUP_WORK - work;
    if (status || answer != QCI_ANSWER_YES)
        return status;
    status = qci_take_setups(g->master, &g->every, setups, task.count,
                             &g->others, err);
    *better = !status && g->others.uses.count < g->solution->uses.count &&
              g->others.height <= g->cap &&
              qci_solution_covers(&g->others, g->model);
    if (*better && !qci_solution_copy(g->solution, &g->others))
        status = qci_no_memory(err);
    return status;
}

static qc_status try_groups(regrouping *g, size_t count, bool *better,
                            qc_error *err)
{
    size_t n = g->solution->uses.count, group[LARGEST];
    qc_status status = QC_STATUS_OK;

    *better = false;
    if (count > n)
        return QC_STATUS_OK;
    qci_group_begin(g->solution, group, count);
    do
        status = try_group(g, group, count, better, err);
    while (!status && !*better && g->work > 0 &&
           !qci_master_stopped(g->master) && qci_group_next(group, count, n));
    return status;
}

qc_status qci_regroup(qci_master *master, int64_t cap, qci_solution *solution,
                      qc_error *err)
{
    regrouping g = {.master = master,
                    .model = master->model,
                    .cap = cap,
                    .work = ALL_WORK,
                    .solution = solution};
    size_t rows = (size_t)master->model->row_count;
    qc_status status;
    bool better;

    g.left = qci_calloc(rows, sizeof *g.left);
    g.whole = qci_calloc(rows, sizeof *g.whole);
    status = g.left && g.whole ? list_patterns(&g, err) : qci_no_memory(err);
    for (size_t count = SMALLEST;
         !status && g.every.whole && count <= LARGEST && g.work > 0 &&
         !qci_master_stopped(master);
         count = better ? SMALLEST : count + 1)
        status = try_groups(&g, count, &better, err);
    qci_every_clear(&g.every);
    qci_solution_clear(&g.others);
    qci_free(g.left);
    qci_free(g.whole);
    return status;
}
