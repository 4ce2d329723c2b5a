/* Small integer programs by GLPK's branch and bound.
 *
 * Its effort is limited by nodes, which are counted as GLPK begins them, so
 * that a result does not depend on the clock; the time limit is a guard. GLPK's
 * presolver and its first linear program hear no callback, so models too large
 * to get through them at once are not presolved, and have their first linear
 * program solved in slices (simplex.c) before the tree is entered.
 *
 * What comes back is rounded and put into the rows again: a solution that has
 * become infeasible by the rounding is not handed out. */
#include <limits.h>
#include <math.h>
#include <stddef.h>

#include <glpk.h>

#include "base/alloc.h"
#include "base/error.h"
#include "mip/guard.h"
#include "mip/mip.h"
#include "mip/simplex.h"

/* rows x columns up to which a model is presolved. */
#define PRESOLVE_AREA 200000
/* A guard for callers that set none: a node's own simplex may cycle. */
#define LONGEST_MS 600000
#define MOST_LINES 100000000

typedef struct run {
    const qci_mip_model *model;
    const qci_mip_limits *limits;
    double *x;
    qci_mip_state state;
    double bound;
    /* From 1, for GLPK. */
    int *index;
    double *value;
    int nodes;
    bool ended; /* the callback asked to stop */
} run;

static qc_status refuse(qc_error *err, const char *field, const char *problem)
{
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){field, NULL}, NULL,
                    "%s", problem);
}

static qc_status check_column(const qci_mip_model *m, int j, int *mark,
                              qc_error *err)
{
    if (!qci_bounds_fine(m->lo[j], m->hi[j]))
        return refuse(err, "bounds", "not a range");
    if (m->integer[j] && ((isfinite(m->lo[j]) && m->lo[j] != floor(m->lo[j])) ||
                          (isfinite(m->hi[j]) && m->hi[j] != floor(m->hi[j]))))
        return refuse(err, "bounds", "a fraction on an integer column");
    if (!isfinite(m->cost[j]))
        return refuse(err, "cost", "not a finite number");
    if (m->start[j] < 0 || m->start[j + 1] < m->start[j])
        return refuse(err, "start", "a column ends before it begins");
    for (int k = m->start[j]; k < m->start[j + 1]; k++) {
        if (m->row[k] < 0 || m->row[k] >= m->row_count)
            return refuse(err, "row", "no such row");
        if (mark[m->row[k]] == j + 1)
            return refuse(err, "row", "a row is named twice");
        if (!isfinite(m->value[k]))
            return refuse(err, "value", "not a finite number");
        mark[m->row[k]] = j + 1;
    }
    return QC_STATUS_OK;
}

/* `mark` has row_count zeros. */
static qc_status check_model(const qci_mip_model *m, int *mark, qc_error *err)
{
    qc_status st = QC_STATUS_OK;

    for (int i = 0; i < m->row_count && !st; i++)
        if (!qci_bounds_fine(m->row_lo[i], m->row_hi[i]))
            st = refuse(err, "row bounds", "not a range");
    for (int j = 0; j < m->column_count && !st; j++)
        st = check_column(m, j, mark, err);
    return st;
}

static glp_prob *build(const run *r)
{
    const qci_mip_model *m = r->model;
    glp_prob *prob = glp_create_prob();

    glp_set_obj_dir(prob, GLP_MIN);
    if (m->row_count)
        glp_add_rows(prob, m->row_count);
    for (int i = 0; i < m->row_count; i++)
        glp_set_row_bnds(prob, i + 1,
                         qci_bound_kind(m->row_lo[i], m->row_hi[i]),
                         m->row_lo[i], m->row_hi[i]);
    if (m->column_count)
        glp_add_cols(prob, m->column_count);
    for (int j = 0; j < m->column_count; j++) {
        int n = m->start[j + 1] - m->start[j];

        glp_set_col_kind(prob, j + 1, m->integer[j] ? GLP_IV : GLP_CV);
        glp_set_col_bnds(prob, j + 1, qci_bound_kind(m->lo[j], m->hi[j]),
                         m->lo[j], m->hi[j]);
        glp_set_obj_coef(prob, j + 1, m->cost[j]);
        for (int k = 1; k <= n; k++) {
            r->index[k] = m->row[m->start[j] + k - 1] + 1;
            r->value[k] = m->value[m->start[j] + k - 1];
        }
        glp_set_mat_col(prob, j + 1, n, r->index, r->value);
    }
    return prob;
}

static void listen(glp_tree *tree, void *info)
{
    run *r = info;
    int best = glp_ios_best_node(tree);

    if (best)
        r->bound = glp_ios_node_bound(tree, best);
    if (glp_ios_reason(tree) == GLP_IPREPRO)
        r->nodes++;
    if (r->nodes > r->limits->nodes || qci_stop_asked(&r->limits->stop)) {
        r->ended = true;
        glp_ios_terminate(tree);
    }
}

static int time_limit(const qci_mip_limits *limits)
{
    int left = qci_stop_time_left(&limits->stop);
    int most = limits->time_ms > 0 ? limits->time_ms : LONGEST_MS;

    return left < most ? left : most;
}

/* Rounds the solution, and says whether it holds. */
static bool take_solution(const run *r, glp_prob *prob)
{
    const qci_mip_model *m = r->model;
    double *sum = r->value, *size = r->value + m->row_count;

    for (int i = 0; i < m->row_count; i++)
        sum[i] = size[i] = 0;
    for (int j = 0; j < m->column_count; j++) {
        double x = glp_mip_col_val(prob, j + 1);

        if (m->integer[j])
            x = round(x);
        if (!(x >= m->lo[j] - 1e-6 && x <= m->hi[j] + 1e-6))
            return false;
        r->x[j] = x;
        for (int k = m->start[j]; k < m->start[j + 1]; k++) {
            sum[m->row[k]] += m->value[k] * x;
            size[m->row[k]] += fabs(m->value[k] * x);
        }
    }
    for (int i = 0; i < m->row_count; i++)
        if (!(sum[i] >= m->row_lo[i] - 1e-6 * (1 + size[i]) &&
              sum[i] <= m->row_hi[i] + 1e-6 * (1 + size[i])))
            return false;
    return true;
}

static void read_result(run *r, glp_prob *prob, int rc)
{
    int status = glp_mip_status(prob);

    if (rc == GLP_ENOPFS || (rc == 0 && status == GLP_NOFEAS)) {
        r->state = QCI_MIP_INFEASIBLE;
        r->bound = INFINITY;
    } else if ((status == GLP_OPT || status == GLP_FEAS) &&
               take_solution(r, prob)) {
        r->state = rc == 0 && status == GLP_OPT && !r->ended ? QCI_MIP_OPTIMAL
                                                             : QCI_MIP_FEASIBLE;
        if (r->state == QCI_MIP_OPTIMAL)
            r->bound = glp_mip_obj_val(prob);
    }
}

static qc_status solve_body(void *arg, qc_error *err)
{
    run *r = arg;
    glp_prob *prob = build(r);
    glp_iocp how;
    double area = (double)r->model->row_count * r->model->column_count;
    qci_lp_state first = QCI_LP_OPTIMAL;

    (void)err;
    glp_init_iocp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.br_tech = GLP_BR_PCH;
    how.bt_tech = GLP_BT_BLB;
    how.gmi_cuts = GLP_ON;
    how.mir_cuts = GLP_ON;
    how.presolve = area <= PRESOLVE_AREA ? GLP_ON : GLP_OFF;
    how.cb_func = listen;
    how.cb_info = r;
    if (!how.presolve)
        first = qci_simplex_solve(prob, false, &r->limits->stop);
    if (first == QCI_LP_INFEASIBLE) {
        r->state = QCI_MIP_INFEASIBLE;
        r->bound = INFINITY;
    } else if (first == QCI_LP_OPTIMAL && !qci_stop_asked(&r->limits->stop)) {
        how.tm_lim = time_limit(r->limits);
        read_result(r, prob, glp_intopt(prob, &how));
    }
    glp_delete_prob(prob);
    return QC_STATUS_OK;
}

qc_status qci_mip_solve(const qci_mip_model *model,
                        const qci_mip_limits *limits, double *x, double *bound,
                        qci_mip_state *state, qc_error *err)
{
    run r = {.model = model,
             .limits = limits,
             .x = x,
             .state = QCI_MIP_UNKNOWN,
             .bound = -INFINITY};
    int *mark = NULL;
    size_t room;
    qc_status st = qci_session_check(0, err);

    *state = QCI_MIP_UNKNOWN;
    if (bound)
        *bound = -INFINITY;
    if (st)
        return st;
    if (model->row_count < 0 || model->row_count > MOST_LINES ||
        model->column_count < 0 || model->column_count > MOST_LINES)
        return refuse(err, "model", "too many rows or columns");
    /* index and value hold a column; value also two sums a row. */
    room = 2 * (size_t)model->row_count + 1;
    r.index = qci_calloc(room, sizeof *r.index);
    r.value = qci_calloc(room, sizeof *r.value);
    mark = qci_calloc((size_t)model->row_count, sizeof *mark);
    if (!r.index || !r.value || !mark) {
        st = qci_no_memory(err);
        goto done;
    }
    st = check_model(model, mark, err);
    if (!st)
        st = qci_guard(solve_body, &r, err);
    if (st)
        goto done;
    *state = r.state;
    if (bound)
        *bound = r.bound;
done:
    qci_free(mark);
    qci_free(r.value);
    qci_free(r.index);
    return st;
}
