/* A linear program that grows.
 *
 * A thin case round a glp_prob: checks what GLPK would not (NaN, crossing
 * sides) or would die of (indices), counts from 0, and remembers what changed
 * since the last solve, since that decides the method: new columns or costs
 * leave the basis primal feasible, new bounds or rows leave it dual feasible.
 *
 * The case is ours and lives until it is destroyed; the glp_prob belongs to the
 * session, and is not touched once that is over. The scratch list grows, so
 * that adding a column allocates nothing in the long run. */
#include <math.h>

#include <glpk.h>

#include "base/alloc.h"
#include "base/error.h"
#include "mip/basis.h"
#include "mip/guard.h"
#include "mip/list.h"
#include "mip/mip.h"
#include "mip/simplex.h"

#define MOST_LINES 100000000 /* GLPK's own limit of rows and of columns */

struct qci_lp {
    glp_prob *prob;
    uint64_t session;
    int row_count, column_count;
    bool priced;   /* costs or columns are new since the last solve */
    bool solved;   /* there are values to read */
    qci_list list; /* scratch */
};

static qc_status create_body(void *arg, qc_error *err)
{
    qci_lp *lp = arg;

    (void)err;
    lp->prob = glp_create_prob();
    glp_set_obj_dir(lp->prob, GLP_MIN);
    return QC_STATUS_OK;
}

qc_status qci_lp_create(qci_lp **out, qc_error *err)
{
    qci_lp *lp;
    qc_status st;

    *out = NULL;
    st = qci_session_check(0, err);
    if (st)
        return st;
    lp = qci_calloc(1, sizeof *lp);
    if (!lp)
        return qci_no_memory(err);
    lp->session = qci_session_here()->number;
    st = qci_guard(create_body, lp, err);
    if (st) {
        qci_free(lp);
        return st;
    }
    *out = lp;
    return QC_STATUS_OK;
}

static qc_status destroy_body(void *arg, qc_error *err)
{
    qci_lp *lp = arg;

    (void)err;
    glp_delete_prob(lp->prob);
    return QC_STATUS_OK;
}

void qci_lp_destroy(qci_lp *lp)
{
    if (!lp)
        return;
    if (qci_session_check(lp->session, NULL) == QC_STATUS_OK)
        qci_guard(destroy_body, lp, NULL);
    qci_list_clear(&lp->list);
    qci_free(lp);
}

/* What a body needs to know; one struct serves all of them. */
typedef struct change {
    qci_lp *lp;
    int at, n;
    double lo, hi, cost;
    const bool *flags;
    const qci_mip_stop *stop;
    qci_lp_state *state;
} change;

static qc_status check(const change *c, qc_error *err)
{
    qc_status st = qci_session_check(c->lp->session, err);

    if (st)
        return st;
    if (!qci_sides_fine(c->lo, c->hi))
        return qci_mip_refuse(err, "bounds", "not a range");
    if (!isfinite(c->cost))
        return qci_mip_refuse(err, "cost", "not a finite number");
    return QC_STATUS_OK;
}

static qc_status add_row_body(void *arg, qc_error *err)
{
    change *c = arg;
    int row = glp_add_rows(c->lp->prob, 1);

    (void)err;
    glp_set_row_bnds(c->lp->prob, row, qci_sides_kind(c->lo, c->hi), c->lo,
                     c->hi);
    glp_set_mat_row(c->lp->prob, row, c->n, c->lp->list.index,
                    c->lp->list.value);
    c->lp->row_count = row;
    return QC_STATUS_OK;
}

qc_status qci_lp_add_row(qci_lp *lp, double lo, double hi, int n,
                         const int *columns, const double *values,
                         qc_error *err)
{
    change c = {.lp = lp, .n = n, .lo = lo, .hi = hi};
    qc_status st = check(&c, err);

    if (!st && lp->row_count == MOST_LINES)
        st = qci_mip_refuse(err, "row", "too many rows");
    if (!st)
        st =
            qci_list_take(&lp->list, lp->column_count, n, columns, values, err);
    return st ? st : qci_guard(add_row_body, &c, err);
}

static qc_status add_column_body(void *arg, qc_error *err)
{
    change *c = arg;
    int column = glp_add_cols(c->lp->prob, 1);

    (void)err;
    glp_set_col_bnds(c->lp->prob, column, qci_sides_kind(c->lo, c->hi), c->lo,
                     c->hi);
    glp_set_obj_coef(c->lp->prob, column, c->cost);
    glp_set_mat_col(c->lp->prob, column, c->n, c->lp->list.index,
                    c->lp->list.value);
    c->lp->column_count = column;
    c->lp->priced = true;
    return QC_STATUS_OK;
}

qc_status qci_lp_add_column(qci_lp *lp, double cost, double lo, double hi,
                            int n, const int *rows, const double *values,
                            qc_error *err)
{
    change c = {.lp = lp, .n = n, .lo = lo, .hi = hi, .cost = cost};
    qc_status st = check(&c, err);

    if (!st && lp->column_count == MOST_LINES)
        st = qci_mip_refuse(err, "column", "too many columns");
    if (!st)
        st = qci_list_take(&lp->list, lp->row_count, n, rows, values, err);
    return st ? st : qci_guard(add_column_body, &c, err);
}

static qc_status bound_row_body(void *arg, qc_error *err)
{
    change *c = arg;

    (void)err;
    glp_set_row_bnds(c->lp->prob, c->at + 1, qci_sides_kind(c->lo, c->hi),
                     c->lo, c->hi);
    return QC_STATUS_OK;
}

static qc_status bound_column_body(void *arg, qc_error *err)
{
    change *c = arg;

    (void)err;
    glp_set_col_bnds(c->lp->prob, c->at + 1, qci_sides_kind(c->lo, c->hi),
                     c->lo, c->hi);
    return QC_STATUS_OK;
}

static qc_status set_cost_body(void *arg, qc_error *err)
{
    change *c = arg;

    (void)err;
    glp_set_obj_coef(c->lp->prob, c->at + 1, c->cost);
    c->lp->priced = true;
    return QC_STATUS_OK;
}

/* A change of line `at` of `count`. */
static qc_status change_line(change c, int count, qci_guard_body body,
                             qc_error *err)
{
    qc_status st = check(&c, err);

    if (!st && (c.at < 0 || c.at >= count))
        st = qci_mip_refuse(err, "index", "no such line");
    return st ? st : qci_guard(body, &c, err);
}

qc_status qci_lp_bound_row(qci_lp *lp, int row, double lo, double hi,
                           qc_error *err)
{
    return change_line((change){.lp = lp, .at = row, .lo = lo, .hi = hi},
                       lp->row_count, bound_row_body, err);
}

qc_status qci_lp_bound_column(qci_lp *lp, int column, double lo, double hi,
                              qc_error *err)
{
    return change_line((change){.lp = lp, .at = column, .lo = lo, .hi = hi},
                       lp->column_count, bound_column_body, err);
}

qc_status qci_lp_set_cost(qci_lp *lp, int column, double cost, qc_error *err)
{
    return change_line((change){.lp = lp, .at = column, .cost = cost},
                       lp->column_count, set_cost_body, err);
}

static qc_status delete_columns_body(void *arg, qc_error *err)
{
    change *c = arg;

    qci_lp *lp = c->lp;
    int n = 0;

    (void)err;
    qci_basis_release_columns(lp->prob, c->flags, lp->list.index,
                              lp->list.value);
    for (int j = 0; j < lp->column_count; j++)
        if (c->flags[j])
            lp->list.index[++n] = j + 1;
    if (n)
        glp_del_cols(lp->prob, n, lp->list.index);
    lp->column_count -= n;
    return QC_STATUS_OK;
}

qc_status qci_lp_delete_columns(qci_lp *lp, const bool *flags, qc_error *err)
{
    change c = {.lp = lp, .flags = flags};
    qc_status st = check(&c, err);

    if (st)
        return st;
    if (!qci_list_reserve(&lp->list, lp->row_count + lp->column_count))
        return qci_no_memory(err);
    return qci_guard(delete_columns_body, &c, err);
}

int qci_lp_row_count(const qci_lp *lp)
{
    return lp->row_count;
}

int qci_lp_column_count(const qci_lp *lp)
{
    return lp->column_count;
}

static qc_status solve_body(void *arg, qc_error *err)
{
    change *c = arg;

    (void)err;
    *c->state = qci_simplex_solve(c->lp->prob, !c->lp->priced, c->stop);
    c->lp->solved = *c->state == QCI_LP_OPTIMAL;
    c->lp->priced = c->lp->priced && !c->lp->solved;
    return QC_STATUS_OK;
}

qc_status qci_lp_solve(qci_lp *lp, const qci_mip_stop *stop,
                       qci_lp_state *state, qc_error *err)
{
    change c = {.lp = lp, .stop = stop, .state = state};
    qc_status st = check(&c, err);

    *state = QCI_LP_STUCK;
    return st ? st : qci_guard(solve_body, &c, err);
}

/* The getters cannot fail in GLPK once the index is checked. */
static bool readable(const qci_lp *lp, int at, int count)
{
    return lp->solved && at >= 0 && at < count &&
           qci_session_check(lp->session, NULL) == QC_STATUS_OK;
}

double qci_lp_objective(const qci_lp *lp)
{
    return readable(lp, 0, 1) ? glp_get_obj_val(lp->prob) : 0;
}

double qci_lp_row_dual(const qci_lp *lp, int row)
{
    return readable(lp, row, lp->row_count)
               ? glp_get_row_dual(lp->prob, row + 1)
               : 0;
}

double qci_lp_column_value(const qci_lp *lp, int column)
{
    return readable(lp, column, lp->column_count)
               ? glp_get_col_prim(lp->prob, column + 1)
               : 0;
}

double qci_lp_reduced_cost(const qci_lp *lp, int column)
{
    return readable(lp, column, lp->column_count)
               ? glp_get_col_dual(lp->prob, column + 1)
               : 0;
}
