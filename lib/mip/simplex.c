/* The simplex method on a lead.
 *
 * GLPK's simplex can cycle on degenerate masters, and hears nothing while it
 * runs. So it gets at most `rung_limit` iterations on each rung of a ladder of
 * ever plainer methods, in slices between which stops are asked for; a slice
 * goes on from the basis the last one left. Slices and limits are counted in
 * iterations, so that results do not depend on the clock. */
#include "mip/simplex.h"

#include <limits.h>
#include <stddef.h>

#include "base/clock.h"
#ifdef QCI_TESTING
#include <stdatomic.h>

#include "mip/guard.h"
#endif

/* Iterations between two looks at the stop: so many that they take some 50 ms,
 * but not so few that the start of each slice tells. (Measured: an iteration of
 * 200 rows by 2000 columns takes 0.2 to 0.4 ms, and in proportion.) */
static int slice_length(glp_prob *prob)
{
    double area = (double)glp_get_num_rows(prob) * glp_get_num_cols(prob);
    double length = 6e7 / (area + 1);

    return length > 200 ? 200 : length < 20 ? 20 : (int)length;
}

/* About ten times what an honest solve of a master needs. */
static int rung_limit(int rows)
{
    return rows < 1000000 ? 50 * rows + 1000 : 50000000;
}

bool qci_stop_asked(const qci_mip_stop *stop)
{
    if (!stop)
        return false;
    if (stop->cancelled && stop->cancelled(stop->user))
        return true;
    return stop->deadline_ms != INT64_MAX &&
           qci_clock_ms() >= stop->deadline_ms;
}

int qci_stop_time_left(const qci_mip_stop *stop)
{
    int64_t left;

    if (!stop || stop->deadline_ms == INT64_MAX)
        return INT_MAX;
    left = stop->deadline_ms - qci_clock_ms();
    return left < 1 ? 1 : left > INT_MAX ? INT_MAX : (int)left;
}

typedef enum rung_end {
    RUNG_OPTIMAL,
    RUNG_INFEASIBLE,
    RUNG_STOPPED,
    RUNG_FAILED
} rung_end;

static rung_end read_result(glp_prob *prob)
{
    int primal = glp_get_prim_stat(prob);

    if (primal == GLP_FEAS && glp_get_dual_stat(prob) == GLP_FEAS)
        return RUNG_OPTIMAL;
    return primal == GLP_NOFEAS ? RUNG_INFEASIBLE : RUNG_FAILED;
}

#ifdef QCI_TESTING
static atomic_int test_stalls, climbs;

void qci_mip_test_stalls(int rungs)
{
    atomic_store(&test_stalls, rungs);
}

int qci_mip_test_climbs(void)
{
    return atomic_load(&climbs);
}

static bool acts_stalled(int rung)
{
    if (rung == 1)
        atomic_fetch_add(&climbs, 1);
    return rung < atomic_load(&test_stalls);
}
#else
static bool acts_stalled(int rung)
{
    (void)rung;
    return false;
}
#endif

static rung_end climb(glp_prob *prob, int rung, glp_smcp *how,
                      const qci_mip_stop *stop)
{
    int left = acts_stalled(rung) ? 0 : rung_limit(glp_get_num_rows(prob));
    int slice = slice_length(prob);

    while (left > 0) {
        int rc;

        if (qci_stop_asked(stop))
            return RUNG_STOPPED;
        how->it_lim = left < slice ? left : slice;
        how->tm_lim = qci_stop_time_left(stop);
        rc = glp_simplex(prob, how);
        left -= how->it_lim;
        if (rc == 0)
            return read_result(prob);
        if (rc == GLP_ETMLIM)
            return RUNG_STOPPED;
        if (rc != GLP_EITLIM)
            return RUNG_FAILED;
    }
    return RUNG_FAILED;
}

qci_lp_state qci_simplex_solve(glp_prob *prob, bool dual,
                               const qci_mip_stop *stop)
{
    static const qci_lp_state states[] = {
        [RUNG_OPTIMAL] = QCI_LP_OPTIMAL,
        [RUNG_INFEASIBLE] = QCI_LP_INFEASIBLE,
        [RUNG_STOPPED] = QCI_LP_STOPPED,
        [RUNG_FAILED] = QCI_LP_STUCK,
    };
    rung_end end = RUNG_FAILED;
    glp_smcp how;

    glp_init_smcp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.meth = dual ? GLP_DUALP : GLP_PRIMAL;
    for (int rung = 0; rung < 4 && end == RUNG_FAILED; rung++) {
        if (rung == 1) {
            how.meth = GLP_PRIMAL;
            how.r_test = GLP_RT_STD;
        } else if (rung == 2) {
            glp_adv_basis(prob, 0);
        } else if (rung == 3) {
            glp_std_basis(prob);
            how.pricing = GLP_PT_STD;
        }
        end = climb(prob, rung, &how, stop);
    }
    return states[end];
}
