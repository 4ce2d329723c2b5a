/* Jobs with one class of strips: a strip costs 1, and nearly always as few
 * strips are enough as the program needs, rounded up. So all is turned to
 * finding such a plan: filling strips one by one, then dives from the program's
 * solution, each seeing it a little differently. Numbers of rounds bound all of
 * it; what is left open is for the branch and bound. */
#include "pack/line.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/wide.h"
#include "pack/line_inner.h"

/* The program keeps rows x rows numbers. */
#define MOST_ROWS 1000
#define MOST_WIDTH (1 << 29)
/* Dives that may end where the program cannot be solved again from. */
#define LOST 5

bool qci_line_fits(const qci_model *model)
{
    return model->class_count == 1 && !model->stacks && !model->mixed &&
           !model->exact && model->lay_count == model->row_count &&
           model->row_count <= MOST_ROWS && model->width <= MOST_WIDTH;
}

static void clear(qci_line *l)
{
    qci_free(l->row);
    qci_free(l->width);
    qci_free(l->demand);
    qci_free(l->need);
    qci_free(l->scratch);
    qci_line_lp_clear(&l->lp);
    qci_line_pricer_clear(&l->pricer);
    qci_line_filler_clear(&l->filler);
    qci_free(l->value);
    qci_free(l->centre);
    qci_free(l->noted);
    qci_line_plan_clear(&l->best);
    qci_line_plan_clear(&l->now);
    qci_line_basis_clear(&l->root);
}

static bool make_room(qci_line *l)
{
    size_t n = (size_t)l->rows;
    int32_t width = (int32_t)l->model->width;

    l->row = qci_calloc(n, sizeof *l->row);
    l->width = qci_calloc(n, sizeof *l->width);
    l->demand = qci_calloc(n, sizeof *l->demand);
    l->need = qci_calloc(n, sizeof *l->need);
    l->scratch = qci_calloc(n, sizeof *l->scratch);
    l->value = qci_calloc(n, sizeof *l->value);
    l->centre = qci_calloc(n, sizeof *l->centre);
    l->noted = qci_calloc(n, sizeof *l->noted);
    return l->row && l->width && l->demand && l->need && l->scratch &&
           l->value && l->centre && l->noted &&
           qci_line_filler_init(&l->filler, l->rows, width, l->width);
}

/* Lays are sorted by width falling, and there is one for each row. */
static void list_rows(qci_line *l)
{
    for (int32_t i = 0; i < l->rows; i++) {
        l->row[i] = l->model->lays[i].row;
        l->width[i] = l->model->lays[i].width;
        l->demand[i] = l->model->demand[l->row[i]];
        l->need[i] = l->demand[i];
    }
}

/* By area: every piece is worth its width. */
static void bound_by_area(qci_line *l)
{
    qci_wide sum = 0;

    for (int32_t i = 0; i < l->rows; i++) {
        l->noted[i] = l->width[i];
        l->centre[i] = (double)l->width[i] / (double)l->model->width;
        sum += (qci_wide)l->width[i] * l->demand[i];
    }
    l->lower = (int64_t)((sum + l->model->width - 1) / l->model->width);
}

/* What is known already, as far as it goes. */
static bool begin_with(qci_line *l, const qci_solution *best)
{
    int32_t *at = qci_calloc((size_t)l->rows, sizeof *at);
    qci_count *entries = qci_calloc((size_t)l->rows, sizeof *entries);
    bool done = at && entries;

    for (int32_t i = 0; i < l->rows && done; i++)
        at[l->row[i]] = i;
    for (size_t u = 0; u < best->uses.count && done; u++) {
        const qci_pattern *p = best->uses.at[u].pattern;

        for (int32_t i = 0; i < p->row_count; i++)
            entries[i] = (qci_count){at[p->rows[i].row], p->rows[i].count};
        done = qci_line_plan_add(&l->best, entries, p->row_count,
                                 best->uses.at[u].times);
    }
    qci_free(at);
    qci_free(entries);
    return done;
}

/* A plan of lines as the master's patterns. */
static qc_status give_plan(const qci_line *l, qci_solution *best, qc_error *err)
{
    int32_t most = (int32_t)(l->model->width / l->width[l->rows - 1]);
    int32_t *sequence = qci_calloc((size_t)most, sizeof *sequence);
    qc_status status = sequence ? QC_STATUS_OK : qci_no_memory(err);

    if (!status)
        qci_solution_clear(best);
    for (size_t i = 0; i < l->best.times.count && !status; i++) {
        int32_t count, n = 0;
        const qci_count *entries = qci_line_plan_at(&l->best, i, &count);
        qci_pattern *pattern;
        const qci_pattern *kept;

        /* Lays from the widest on. */
        for (int32_t row = 0; row < l->rows; row++)
            for (int32_t e = 0; e < count; e++)
                for (int32_t k = 0;
                     entries[e].row == row && k < entries[e].count; k++)
                    sequence[n++] = row | QCI_OPEN;
        pattern = qci_pattern_create(l->model, 0, sequence, n);
        status = pattern ? qci_master_add(l->master, pattern, &kept, err)
                         : qci_no_memory(err);
        if (!status && !qci_solution_add(best, kept, l->best.times.at[i]))
            status = qci_no_memory(err);
    }
    qci_free(sequence);
    return status;
}

/* Full strips of one row, then single pieces, so that any need can be met. */
static bool add_first_columns(qci_line *l)
{
    for (int32_t full = 1; full >= 0; full--)
        for (int32_t i = 0; i < l->rows; i++) {
            int64_t each = l->model->width / l->width[i];

            if (each > l->demand[i])
                each = l->demand[i];
            if (qci_line_lp_add(
                    &l->lp, &(qci_count){i, full ? (int32_t)each : 1}, 1) < 0)
                return false;
        }
    return true;
}

/* Most strips that would be better than what is known. */
static int64_t cap_now(const qci_line *l)
{
    int64_t height = l->model->height[0];

    return l->aim->cap(l->best.strips * height, l->aim->user) / height;
}

/* The program over the whole demand; raises lower. */
static qc_status solve_root(qci_line *l, qci_line_end *end, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    memcpy(l->need, l->demand, (size_t)l->rows * sizeof *l->need);
    qci_line_lp_begin(&l->lp, l->need);
    do {
        int64_t bound = l->lower;

        l->centre_bound = 0.0;
        status = qci_line_generate(l, l->lower, &bound, end, err);
        if (bound > l->lower) {
            l->lower = bound;
            for (int32_t i = 0; i < l->rows; i++)
                l->noted[i] = l->value[i];
        }
    } while (!status && *end == QCI_LINE_PROVED && l->lower <= cap_now(l));
    return status;
}

static bool may_dive(const qci_line *l)
{
    return l->lower <= cap_now(l) && l->master->rounds < l->end_round &&
           !qci_master_stopped(l->master);
}

/* The program over the whole demand once more, from where the last dive ended:
 * another basis ends in another solution. Where that leads nowhere the first
 * solution has to do. */
static qc_status solve_again(qci_line *l, int32_t *lost, qc_error *err)
{
    qci_line_end end;
    int64_t bound = 0;
    qc_status status;

    memcpy(l->need, l->demand, (size_t)l->rows * sizeof *l->need);
    if (*lost < LOST) {
        qci_line_lp_change(&l->lp, l->need);
        l->centre_bound = 0.0;
        status = qci_line_generate(l, l->lower, &bound, &end, err);
        if (status || end == QCI_LINE_FITS)
            return status;
        ++*lost;
    }
    qci_line_lp_return(&l->lp, &l->root, l->need);
    return QC_STATUS_OK;
}

static qc_status search_program(qci_line *l, qc_error *err)
{
    qci_line_end end;
    int32_t lost = 0;
    qc_status status = QC_STATUS_OK;

    if (!qci_line_lp_init(&l->lp, l->rows) ||
        !qci_line_pricer_init(&l->pricer, l->rows, (int32_t)l->model->width,
                              l->width) ||
        !qci_line_basis_init(&l->root, l->rows) || !add_first_columns(l))
        return qci_no_memory(err);
    status = solve_root(l, &end, err);
    if (status || end == QCI_LINE_STOPPED || end == QCI_LINE_PROVED)
        return status;
    qci_line_basis_copy(&l->root, &l->lp.now, l->rows);
    for (int32_t turn = l->turns.from;
         turn < l->turns.to && !status && may_dive(l); turn++) {
        if (turn > l->turns.from)
            status = solve_again(l, &lost, err);
        if (!status)
            status = qci_line_dive(l, l->lower, turn, err);
    }
    return status;
}

/* The duals that prove the bound, for whoever writes a proof. */
static void note_duals(const qci_line *l)
{
    qci_noted *noted = &l->master->noted;

    for (int32_t i = 0; i < l->rows; i++)
        noted->value[l->row[i]] = l->noted[i];
    noted->gain[0] = 0;
    noted->bonus.count = 0;
}

qc_status qci_line_search(qci_master *master, const qci_aim *aim,
                          qci_line_turns turns, qci_solution *best,
                          int64_t *bound, qc_error *err)
{
    qci_line line = {.master = master,
                     .model = master->model,
                     .rows = master->model->row_count,
                     .aim = aim,
                     .turns = turns,
                     .end_round = master->rounds + aim->rounds};
    qci_line *l = &line;
    int64_t height = master->model->height[0];
    int64_t before;
    qc_status status = QC_STATUS_OK;

    if (!make_room(l)) {
        status = qci_no_memory(err);
        goto done;
    }
    list_rows(l);
    bound_by_area(l);
    if (!begin_with(l, best)) {
        status = qci_no_memory(err);
        goto done;
    }
    before = l->best.strips;
    if (l->lower <= cap_now(l))
        status = qci_line_try_fill(l, err);
    if (!status && l->lower <= cap_now(l))
        status = search_program(l, err);
    if (status)
        goto done;
    if (l->best.strips < before)
        status = give_plan(l, best, err);
    *bound = l->lower * height;
    note_duals(l);
done:
    clear(l);
    return status;
}
