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
#include <float.h>
#include <math.h>

#include <glpk.h>

#include "base/error.h"
#include "mip/guard.h"
#include "mip/list.h"
#include "mip/mip.h"
#include "mip/simplex.h"

/* rows x columns up to which a model is presolved. Measured: GLPK is deaf for
 * about 1 ms a thousand, so for a tenth of a second at most. */
#define PRESOLVE_AREA 100000
/* A guard for callers that set none: a node's own simplex may cycle. */
#define LONGEST_MS 600000
#define MOST_LINES 100000000

typedef struct run {
    const qci_mip_model *model;
    const qci_mip_limits *limits;
    double *x;
    qci_mip_state state;
    double bound;
    qci_list list; /* scratch, with room for twice the rows */
    int nodes;
    bool ended; /* the callback asked to stop */
} run;

static bool is_fraction(double side)
{
    return isfinite(side) && side != floor(side);
}

/* Takes column `j` into the scratch list. */
static qc_status take_column(run *r, int j, qc_error *err)
{
    const qci_mip_model *m = r->model;
    int start = m->start[j];

    return qci_list_take(&r->list, m->row_count, m->start[j + 1] - start,
                         m->row + start, m->value + start, err);
}

static qc_status check_model(run *r, qc_error *err)
{
    const qci_mip_model *m = r->model;

    for (int i = 0; i < m->row_count; i++)
        if (!qci_sides_fine(m->row_lo[i], m->row_hi[i]))
            return qci_mip_refuse(err, "row bounds", "not a range");
    if (m->column_count && m->start[0] < 0)
        return qci_mip_refuse(err, "start", "before the first entry");
    for (int j = 0; j < m->column_count; j++) {
        qc_status st;

        if (!qci_sides_fine(m->lo[j], m->hi[j]))
            return qci_mip_refuse(err, "bounds", "not a range");
        if (m->integer[j] && (is_fraction(m->lo[j]) || is_fraction(m->hi[j])))
            return qci_mip_refuse(err, "bounds", "a fraction, for an integer");
        if (!isfinite(m->cost[j]))
            return qci_mip_refuse(err, "cost", "not a finite number");
        st = take_column(r, j, err);
        if (st)
            return st;
    }
    return QC_STATUS_OK;
}

static glp_prob *build(run *r)
{
    const qci_mip_model *m = r->model;
    glp_prob *prob = glp_create_prob();

    glp_set_obj_dir(prob, GLP_MIN);
    if (m->row_count)
        glp_add_rows(prob, m->row_count);
    for (int i = 0; i < m->row_count; i++)
        glp_set_row_bnds(prob, i + 1,
                         qci_sides_kind(m->row_lo[i], m->row_hi[i]),
                         m->row_lo[i], m->row_hi[i]);
    if (m->column_count)
        glp_add_cols(prob, m->column_count);
    for (int j = 0; j < m->column_count; j++) {
        glp_set_col_kind(prob, j + 1, m->integer[j] ? GLP_IV : GLP_CV);
        glp_set_col_bnds(prob, j + 1, qci_sides_kind(m->lo[j], m->hi[j]),
                         m->lo[j], m->hi[j]);
        glp_set_obj_coef(prob, j + 1, m->cost[j]);
        take_column(r, j, NULL); /* cannot fail: it was checked */
        glp_set_mat_col(prob, j + 1, m->start[j + 1] - m->start[j],
                        r->list.index, r->list.value);
    }
    return prob;
}

static void listen(glp_tree *tree, void *info)
{
    run *r = info;
    int best = glp_ios_best_node(tree);

    if (best && glp_ios_node_bound(tree, best) > -DBL_MAX)
        r->bound = glp_ios_node_bound(tree, best);
    if (glp_ios_reason(tree) == GLP_IPREPRO)
        r->nodes++;
    if (r->nodes > r->limits->nodes || qci_stop_asked(&r->limits->stop) ||
        (r->limits->first && glp_ios_reason(tree) == GLP_IBINGO)) {
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
    double *sum = r->list.value, *size = sum + m->row_count;

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
    /* Measured on restricted programs: trial branching (pseudocosts) and
     * Gomory's cuts cost more than they save, rounding cuts do not. */
    how.br_tech = GLP_BR_DTH;
    how.bt_tech = GLP_BT_BLB;
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
    qc_status st = qci_session_check(0, err);

    *state = QCI_MIP_UNKNOWN;
    if (bound)
        *bound = -INFINITY;
    if (st)
        return st;
    if (model->row_count < 0 || model->row_count > MOST_LINES ||
        model->column_count < 0 || model->column_count > MOST_LINES)
        return qci_mip_refuse(err, "model", "too many rows or columns");
    if (!qci_list_reserve(&r.list, 2 * model->row_count))
        st = qci_no_memory(err);
    if (!st)
        st = check_model(&r, err);
    if (!st)
        st = qci_guard(solve_body, &r, err);
    if (!st) {
        *state = r.state;
        if (bound)
            *bound = r.bound;
    }
    qci_list_clear(&r.list);
    return st;
}
