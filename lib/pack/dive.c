/* Diving. Every fixing shrinks the need, and patterns are then priced within
 * what is left, so that the end of a dive is not filled with surplus. */
#include "pack/dive.h"

#include <math.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

/* Rounds of column generation after each fixing. */
#define DIVE_ROUNDS 12
#define WHOLE 1e-6

typedef struct dive {
    qci_master *master;
    qci_solution *out;
    int64_t *need, *limit, *lo, *hi; /* the master's, to be put back */
    int64_t hold;
    int32_t turn;
    bool dead_end;
} dive;

static bool save(dive *d)
{
    const qci_master *m = d->master;
    size_t rows = (size_t)m->model->row_count;
    size_t classes = (size_t)m->model->class_count;

    d->need = qci_copy(m->need, rows, sizeof(int64_t));
    d->limit = qci_copy(m->limit, rows, sizeof(int64_t));
    d->lo = qci_copy(m->class_lo, classes, sizeof(int64_t));
    d->hi = qci_copy(m->class_hi, classes, sizeof(int64_t));
    return d->need && d->limit && d->lo && d->hi;
}

static void put_back(dive *d)
{
    qci_master *m = d->master;
    size_t rows = (size_t)m->model->row_count;
    size_t classes = (size_t)m->model->class_count;

    if (d->need && d->limit && d->lo && d->hi) {
        memcpy(m->need, d->need, rows * sizeof(int64_t));
        memcpy(m->limit, d->limit, rows * sizeof(int64_t));
        memcpy(m->class_lo, d->lo, classes * sizeof(int64_t));
        memcpy(m->class_hi, d->hi, classes * sizeof(int64_t));
    }
    qci_free(d->need);
    qci_free(d->limit);
    qci_free(d->lo);
    qci_free(d->hi);
}

/* How many strips of a pattern are of any use. */
static int64_t useful(const qci_master *master, const qci_pattern *pattern)
{
    int64_t most = 0;

    for (int32_t i = 0; i < pattern->row_count; i++) {
        int64_t need = master->need[pattern->rows[i].row];
        int64_t each = pattern->rows[i].count;

        if ((need + each - 1) / each > most)
            most = (need + each - 1) / each;
    }
    return most;
}

static int64_t at_least_zero(int64_t n)
{
    return n > 0 ? n : 0;
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
    for (int32_t i = 0; i < pattern->row_count; i++) {
        int32_t row = pattern->rows[i].row;

        m->need[row] =
            at_least_zero(m->need[row] - times * pattern->rows[i].count);
        m->limit[row] = m->need[row];
    }
    for (int32_t k = 0; k <= pattern->cls; k++) {
        m->class_lo[k] = at_least_zero(m->class_lo[k] - times);
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

/* The column nearest to a whole strip from below, of the higher class where
 * two are equal; the second nearest when `second`. */
static ptrdiff_t nearest(const qci_master *m, bool second)
{
    ptrdiff_t best = -1, next = -1;

    for (size_t j = 0; j < m->columns.count; j++) {
        double x = qci_master_use(m, j);
        const qci_pattern *p = qci_master_pattern(m, j);

        if (x <= 0.0 || !useful(m, p))
            continue;
        if (best < 0 || x > qci_master_use(m, (size_t)best) + 1e-7 ||
            (x > qci_master_use(m, (size_t)best) - 1e-7 &&
             p->cls > qci_master_pattern(m, (size_t)best)->cls)) {
            next = best;
            best = (ptrdiff_t)j;
        } else if (next < 0 || x > qci_master_use(m, (size_t)next)) {
            next = (ptrdiff_t)j;
        }
    }
    return second && next >= 0 ? next : best;
}

static bool all_cut(const qci_master *m)
{
    for (int32_t row = 0; row < m->model->row_count; row++)
        if (m->need[row] > 0)
            return false;
    return true;
}

static qc_status one_fixing(dive *d, qc_error *err)
{
    bool any;
    ptrdiff_t j;
    qc_status status = fix_whole(d, &any, err);

    if (status || any || d->dead_end)
        return status;
    d->turn--;
    j = nearest(d->master, d->turn == 0);
    if (j < 0) {
        d->dead_end = true;
        return QC_STATUS_OK;
    }
    return fix(d, qci_master_pattern(d->master, (size_t)j), 1, err);
}

static qc_status descend(dive *d, int64_t cap, qc_error *err)
{
    qci_master *m = d->master;

    while (!d->dead_end && !all_cut(m)) {
        int64_t bound = 0;
        qci_cg_end end;
        qc_status status = qci_master_apply(m, err);

        if (!status)
            status = qci_master_generate(m, cap - d->out->height, DIVE_ROUNDS,
                                         &bound, &end, err);
        if (status)
            return status;
        if (end == QCI_CG_PRUNED || end == QCI_CG_STOPPED)
            d->dead_end = true;
        else
            status = one_fixing(d, err);
        if (status)
            return status;
    }
    return QC_STATUS_OK;
}

qc_status qci_dive(qci_master *master, int64_t cap, int64_t hold, int32_t turn,
                   qci_solution *out, qc_error *err)
{
    dive d = {.master = master, .out = out, .hold = hold, .turn = turn};
    qc_status status = QC_STATUS_OK;

    qci_solution_clear(out);
    if (!save(&d))
        status = qci_no_memory(err);
    else
        status = descend(&d, cap, err);
    if (!status && !d.dead_end)
        status = qci_lower(master, out, err);
    if (status || d.dead_end || out->height > cap)
        qci_solution_clear(out);
    put_back(&d);
    if (!status)
        status = qci_master_apply(master, err);
    return status;
}
