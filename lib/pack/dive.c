/* Diving. Every fixing shrinks the need, and patterns are then priced within
 * what is left, so that the end of a dive is not filled with surplus. The bound
 * tells as soon as a dive cannot end within the cap; it then backs out and
 * takes the next nearest strip, as long as its rounds last. */
#include "pack/dive.h"

#include <math.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

/* Rounds of column generation after each fixing. */
#define DIVE_ROUNDS 40
#define WHOLE 1e-6

/* Strips tried at one place. */
#define WIDTH 3

typedef struct dive {
    qci_master *master;
    qci_solution *out;
    int64_t cap;
    int64_t hold;
    int32_t turn;
    int64_t end_round;
    bool dead_end;
} dive;

/* What a fixing changes. */
typedef struct state {
    int64_t *need, *limit, *lo, *hi;
    qci_solution out;
} state;

static void clear_state(state *s)
{
    qci_free(s->need);
    qci_free(s->limit);
    qci_free(s->lo);
    qci_free(s->hi);
    qci_solution_clear(&s->out);
}

static bool save(const dive *d, state *s)
{
    const qci_master *m = d->master;
    size_t rows = (size_t)m->model->row_count;
    size_t classes = (size_t)m->model->class_count;

    *s = (state){0};
    s->need = qci_copy(m->need, rows, sizeof(int64_t));
    s->limit = qci_copy(m->limit, rows, sizeof(int64_t));
    s->lo = qci_copy(m->class_lo, classes, sizeof(int64_t));
    s->hi = qci_copy(m->class_hi, classes, sizeof(int64_t));
    if (s->need && s->limit && s->lo && s->hi &&
        qci_solution_copy(&s->out, d->out))
        return true;
    clear_state(s);
    return false;
}

static void put_back(const dive *d, const state *s)
{
    qci_master *m = d->master;
    size_t rows = (size_t)m->model->row_count;
    size_t classes = (size_t)m->model->class_count;

    memcpy(m->need, s->need, rows * sizeof(int64_t));
    memcpy(m->limit, s->limit, rows * sizeof(int64_t));
    memcpy(m->class_lo, s->lo, classes * sizeof(int64_t));
    memcpy(m->class_hi, s->hi, classes * sizeof(int64_t));
}

/* How many strips of a pattern are of any use: as long as it cuts something
 * that is needed, or, where nothing may be surplus, nothing that is not. */
static int64_t useful(const qci_master *master, const qci_pattern *pattern)
{
    int64_t most = INT64_MAX;

    if (!master->model->exact)
        return qci_pattern_needed(pattern, master->need);
    for (int32_t i = 0; i < pattern->row_count; i++) {
        int64_t n = master->need[pattern->rows[i].row] / pattern->rows[i].count;

        if (n < most)
            most = n;
    }
    return most;
}

/* Cuts `times` strips: need and class bounds shrink. */
static qc_status fix(dive *d, const qci_pattern *pattern, int64_t times,
                     qc_error *err)
{
    qci_master *m = d->master;

    for (int32_t k = 0; k <= pattern->cls; k++)
        if (m->class_hi[k] < times) {
            d->dead_end = true;
            return QC_STATUS_OK;
        }
    qci_pattern_take(pattern, times, m->need);
    for (int32_t i = 0; i < pattern->row_count; i++)
        m->limit[pattern->rows[i].row] = m->need[pattern->rows[i].row];
    for (int32_t k = 0; k <= pattern->cls; k++) {
        m->class_lo[k] = m->class_lo[k] > times ? m->class_lo[k] - times : 0;
        if (m->class_hi[k] < QCI_MANY)
            m->class_hi[k] -= times;
    }
    return qci_solution_add(d->out, pattern, times) ? QC_STATUS_OK
                                                    : qci_no_memory(err);
}

/* Fixes the whole part of every column; says whether there was any. Values are
 * read before the first fixing changes anything. */
static qc_status fix_whole(dive *d, bool *any, qc_error *err)
{
    qci_master *m = d->master;
    size_t columns = m->columns.count;
    qc_status status = QC_STATUS_OK;

    *any = false;
    for (size_t j = 0; j < columns && !status && !d->dead_end; j++) {
        int64_t times = (int64_t)floor(qci_master_use(m, j) + WHOLE) - d->hold;
        int64_t most;

        if (times <= 0)
            continue;
        most = useful(m, qci_master_pattern(m, j));
        if (times > most)
            times = most;
        if (times <= 0)
            continue;
        *any = true;
        status = fix(d, qci_master_pattern(m, j), times, err);
    }
    d->hold = 0;
    return status;
}

/* Is column a the better one to take: nearer to a whole strip from below, or of
 * the higher class where two are equal? */
static bool nearer(const qci_master *m, size_t a, size_t b)
{
    double xa = qci_master_use(m, a), xb = qci_master_use(m, b);

    if (fabs(xa - xb) > 1e-7)
        return xa > xb;
    return qci_master_pattern(m, a)->cls > qci_master_pattern(m, b)->cls;
}

/* The nearest columns, at most WIDTH, best first. */
static int32_t list_nearest(const qci_master *m, const qci_pattern **list)
{
    size_t column[WIDTH] = {0};
    int32_t n = 0;

    for (size_t j = 0; j < m->columns.count; j++) {
        int32_t at;

        if (qci_master_use(m, j) <= 0.0 || !useful(m, qci_master_pattern(m, j)))
            continue;
        if (n == WIDTH && !nearer(m, j, column[n - 1]))
            continue;
        at = n < WIDTH ? n++ : n - 1;
        for (; at > 0 && nearer(m, j, column[at - 1]); at--)
            column[at] = column[at - 1];
        column[at] = j;
    }
    for (int32_t i = 0; i < n; i++)
        list[i] = qci_master_pattern(m, column[i]);
    return n;
}

static bool all_cut(const qci_master *m)
{
    for (int32_t row = 0; row < m->model->row_count; row++)
        if (m->need[row] > 0)
            return false;
    return true;
}

static qc_status descend(dive *d, qc_error *err);

/* One strip of each of the nearest patterns in turn, until one leads to an end;
 * dead_end when none does. */
static qc_status try_each(dive *d, qc_error *err)
{
    const qci_pattern *list[WIDTH];
    int32_t n = list_nearest(d->master, list);
    qc_status status = QC_STATUS_OK;
    state s;

    d->dead_end = true;
    if (--d->turn == 0 && n > 1) {
        const qci_pattern *first = list[0];

        list[0] = list[1];
        list[1] = first;
    }
    if (!save(d, &s))
        return qci_no_memory(err);
    for (int32_t i = 0; i < n && d->dead_end && !status; i++) {
        if (i && d->master->rounds >= d->end_round)
            break;
        d->dead_end = false;
        status = fix(d, list[i], 1, err);
        if (!status && !d->dead_end)
            status = descend(d, err);
        if (!status && d->dead_end) {
            put_back(d, &s);
            if (!qci_solution_copy(d->out, &s.out))
                status = qci_no_memory(err);
        }
    }
    clear_state(&s);
    return status;
}

/* From the present need to its end, or to dead_end. */
static qc_status descend(dive *d, qc_error *err)
{
    qci_master *m = d->master;

    while (!all_cut(m)) {
        int64_t bound = 0;
        bool any;
        qci_cg_end end;
        qc_status status = qci_master_apply(m, err);

        if (!status)
            status = qci_master_generate(m, d->cap - d->out->height,
                                         DIVE_ROUNDS, &bound, &end, err);
        if (status)
            return status;
        d->dead_end = end == QCI_CG_PRUNED || end == QCI_CG_STOPPED;
        if (d->dead_end)
            return QC_STATUS_OK;
        status = fix_whole(d, &any, err);
        if (status || d->dead_end)
            return status;
        if (!any)
            return try_each(d, err);
    }
    return QC_STATUS_OK;
}

/* Class bounds are for all strips, those kept among them. */
static qc_status begin_with(dive *d, const qci_solution *kept, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < kept->uses.count && !status && !d->dead_end; i++)
        status = fix(d, kept->uses.at[i].pattern, kept->uses.at[i].times, err);
    return status;
}

qc_status qci_dive(qci_master *master, qci_dive_plan plan, qci_solution *out,
                   qc_error *err)
{
    dive d = {.master = master,
              .out = out,
              .cap = plan.cap,
              .hold = plan.hold,
              .turn = plan.turn,
              .end_round = master->rounds + plan.rounds};
    qc_status status;
    state s;

    qci_solution_clear(out);
    if (!save(&d, &s))
        return qci_no_memory(err);
    status = plan.kept ? begin_with(&d, plan.kept, err) : QC_STATUS_OK;
    master->longest_walk = QCI_DIVE_WALK;
    if (!status && !d.dead_end)
        status = descend(&d, err);
    master->longest_walk = QCI_LONG_WALK;
    if (!status && !d.dead_end)
        status = qci_lower(master, out, err);
    if (status || d.dead_end || out->height > plan.cap ||
        !qci_solution_covers(out, master->model))
        qci_solution_clear(out);
    put_back(&d, &s);
    clear_state(&s);
    if (!status)
        status = qci_master_apply(master, err);
    return status;
}
