/* The restricted integer program: only patterns already found, what the LP
 * leaves after its whole part is taken, solved by GLPK within few nodes. Class
 * counts stand as integer columns of their own, so that it can branch on them
 * and cut with them. Patterns whose reduced cost alone would pass the cap are
 * left out, a row holds all to the cap, and the first solution is enough. Its
 * answer is only a solution, never a proof. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/dive.h"

typedef struct choice {
    int32_t pool; /* its place in the pool */
    double cost;  /* reduced */
} choice;

typedef struct restricted {
    qci_master *master;
    qci_restrict_plan plan;
    int64_t *need;
    QCI_VEC(choice) chosen;
    QCI_VEC(int) start;
    QCI_VEC(int) row;
    QCI_VEC(double) value;
    double *row_lo, *row_hi, *cost, *lo, *hi, *x;
    bool *integer;
} restricted;

static int compare_choices(const void *a, const void *b)
{
    const choice *p = a, *q = b;

    if (p->cost != q->cost)
        return p->cost < q->cost ? -1 : 1;
    return (p->pool > q->pool) - (p->pool < q->pool);
}

static bool is_useful(const restricted *r, const qci_pattern *pattern)
{
    for (int32_t i = 0; i < pattern->row_count; i++)
        if (r->need[pattern->rows[i].row] > 0)
            return true;
    return false;
}

/* Of any pattern, whether it is a column now or not. */
static double reduced_cost(const qci_master *m, const qci_pattern *pattern)
{
    int rows = m->model->row_count, classes = m->model->class_count;
    double cost = (double)m->model->cost[pattern->cls] -
                  qci_lp_row_dual(m->lp, rows + pattern->cls);

    for (int32_t i = 0; i < pattern->row_count; i++)
        cost -= qci_lp_row_dual(m->lp, pattern->rows[i].row) *
                pattern->rows[i].count;
    for (size_t i = 0; i < m->counts.count; i++)
        if (qci_pattern_yield(pattern, m->counts.at[i].row) >=
            m->counts.at[i].at)
            cost -= qci_lp_row_dual(m->lp, rows + classes + (int)i);
    return cost;
}

/* The patterns of smallest reduced cost, at most `slack`, that still cut
 * something: of all that are known, since one that the program does without may
 * be what fits a whole number of strips. */
static qc_status choose(restricted *r, double slack, qc_error *err)
{
    const qci_master *m = r->master;

    for (size_t i = 0; i < m->pool.count; i++) {
        choice c = {(int32_t)i, reduced_cost(m, m->pool.at[i])};

        if (c.cost > slack + 1e-6 || !is_useful(r, m->pool.at[i]))
            continue;
        if (!qci_vec_push(&r->chosen, c))
            return qci_no_memory(err);
    }
    if (r->chosen.count)
        qsort(r->chosen.at, r->chosen.count, sizeof *r->chosen.at,
              compare_choices);
    if (r->chosen.count > (size_t)r->plan.columns)
        r->chosen.count = (size_t)r->plan.columns;
    return QC_STATUS_OK;
}

static bool entry(restricted *r, int row, double value)
{
    return qci_vec_push(&r->row, row) && qci_vec_push(&r->value, value);
}

/* Columns: the chosen patterns, then one count per class. */
static bool fill_columns(restricted *r)
{
    const qci_model *model = r->master->model;
    bool ok = true;

    for (size_t c = 0; c < r->chosen.count && ok; c++) {
        const qci_pattern *p = r->master->pool.at[r->chosen.at[c].pool];

        ok = qci_vec_push(&r->start, (int)r->row.count);
        for (int32_t i = 0; i < p->row_count && ok; i++)
            ok = entry(r, p->rows[i].row, p->rows[i].count);
        ok = ok && entry(r, model->row_count + p->cls, 1.0) &&
             entry(r, model->row_count + model->class_count, (double)p->height);
        r->cost[c] = (double)p->height;
    }
    for (int32_t k = 0; k < model->class_count && ok; k++)
        ok = qci_vec_push(&r->start, (int)r->row.count) &&
             entry(r, model->row_count + k, -1.0);
    return ok && qci_vec_push(&r->start, (int)r->row.count);
}

static bool make_room(restricted *r, size_t rows, size_t columns)
{
    r->row_lo = qci_calloc(rows, sizeof(double));
    r->row_hi = qci_calloc(rows, sizeof(double));
    r->cost = qci_calloc(columns, sizeof(double));
    r->lo = qci_calloc(columns, sizeof(double));
    r->hi = qci_calloc(columns, sizeof(double));
    r->x = qci_calloc(columns, sizeof(double));
    r->integer = qci_calloc(columns, sizeof(bool));
    return r->row_lo && r->row_hi && r->cost && r->lo && r->hi && r->x &&
           r->integer;
}

/* Rows: the need of each row, that class counts are what they say, the cap. */
static qc_status build(restricted *r, int64_t cap, qc_error *err)
{
    const qci_model *model = r->master->model;
    size_t rows = (size_t)model->row_count,
           classes = (size_t)model->class_count;
    size_t columns = r->chosen.count + classes, total = rows + classes;
    int64_t most = cap / model->cost[0] + 1;

    if (!make_room(r, total + 1, columns))
        return qci_no_memory(err);
    for (size_t i = 0; i < rows; i++) {
        r->row_lo[i] = (double)r->need[i];
        r->row_hi[i] = model->exact ? (double)r->need[i] : INFINITY;
    }
    r->row_lo[total] = -INFINITY;
    r->row_hi[total] = (double)cap;
    for (size_t j = 0; j < columns; j++) {
        r->integer[j] = true;
        r->hi[j] = (double)most;
    }
    return fill_columns(r) ? QC_STATUS_OK : qci_no_memory(err);
}

/* Fixes what is whole in the LP's solution, but for what is held back. */
static qc_status take_whole(restricted *r, qci_solution *out, qc_error *err)
{
    const qci_master *m = r->master;

    for (size_t j = 0; j < m->columns.count; j++) {
        int64_t times =
            (int64_t)floor(qci_master_use(m, j) + 1e-6) - r->plan.hold;
        const qci_pattern *p = qci_master_pattern(m, j);

        if (times <= 0)
            continue;
        qci_pattern_take(p, times, r->need);
        if (!qci_solution_add(out, p, times))
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

static qc_status solve(restricted *r, qci_mip_state *state, qc_error *err)
{
    const qci_model *model = r->master->model;
    const qci_watch *watch = r->master->watch;
    qci_mip_model mip = {
        .row_count = model->row_count + model->class_count + 1,
        .column_count = (int)r->chosen.count + model->class_count,
        .row_lo = r->row_lo,
        .row_hi = r->row_hi,
        .cost = r->cost,
        .lo = r->lo,
        .hi = r->hi,
        .integer = r->integer,
        .start = r->start.at,
        .row = r->row.at,
        .value = r->value.at,
    };
    qci_mip_limits limits = {
        .nodes = r->plan.nodes,
        .first = true,
        .stop = {watch->deadline_ms, watch->cancelled, watch->user}};

    return qci_mip_solve(&mip, &limits, r->x, NULL, state, err);
}

static void clear(restricted *r)
{
    qci_free(r->need);
    qci_vec_clear(&r->chosen);
    qci_vec_clear(&r->start);
    qci_vec_clear(&r->row);
    qci_vec_clear(&r->value);
    qci_free(r->row_lo);
    qci_free(r->row_hi);
    qci_free(r->cost);
    qci_free(r->lo);
    qci_free(r->hi);
    qci_free(r->x);
    qci_free(r->integer);
}

static qc_status take_answer(const restricted *r, qci_solution *out,
                             qc_error *err)
{
    for (size_t c = 0; c < r->chosen.count; c++) {
        int64_t times = (int64_t)llround(r->x[c]);
        const qci_pattern *p = r->master->pool.at[r->chosen.at[c].pool];

        if (times > 0 && !qci_solution_add(out, p, times))
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

/* Adds strips for what the whole part leaves, where the cap has room for any.
 */
static qc_status complete(restricted *r, qci_solution *out, qc_error *err)
{
    int64_t cap = r->plan.cap;
    double slack = (double)cap - qci_lp_objective(r->master->lp);
    qci_mip_state state = QCI_MIP_UNKNOWN;
    qc_status status;

    if (out->height > cap)
        return QC_STATUS_OK;
    status = choose(r, slack, err);
    if (!status)
        status = build(r, cap - out->height, err);
    if (!status)
        status = solve(r, &state, err);
    if (!status && (state == QCI_MIP_OPTIMAL || state == QCI_MIP_FEASIBLE))
        status = take_answer(r, out, err);
    return status;
}

qc_status qci_restrict(qci_master *master, qci_restrict_plan plan,
                       qci_solution *out, qc_error *err)
{
    restricted r = {.master = master, .plan = plan};
    qc_status status;

    qci_solution_clear(out);
    r.need = qci_copy(master->need, (size_t)master->model->row_count,
                      sizeof(int64_t));
    status = r.need ? take_whole(&r, out, err) : qci_no_memory(err);
    if (!status)
        status = complete(&r, out, err);
    if (!status && !qci_solution_covers(out, master->model))
        qci_solution_clear(out);
    else if (!status)
        status = qci_lower(master, out, err);
    if (status || out->height > plan.cap)
        qci_solution_clear(out);
    clear(&r);
    return status;
}
