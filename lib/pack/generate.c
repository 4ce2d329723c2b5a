/* Column generation: the master program is solved, patterns that improve it are
 * priced, and so on, until none does or the bound is past the cap. */
#include "pack/master.h"

#include <string.h>

#include "base/error.h"
#include "pack/price.h"
#include "pack/spare.h"

double qci_master_use(const qci_master *master, size_t j)
{
    double x;

    if (master->columns.at[j] < 0)
        return 0.0;
    x = qci_lp_column_value(master->lp, master->listed + (int)j);
    return x > 1e-9 ? x : 0.0;
}

static bool is_helper(const qci_master *master, int column)
{
    return column < master->helpers ||
           (column >= master->listed &&
            master->columns.at[column - master->listed] < 0);
}

double qci_master_shortfall(const qci_master *master)
{
    int columns = qci_lp_column_count(master->lp);
    double sum = 0.0;

    for (int j = 0; j < columns; j++)
        if (is_helper(master, j))
            sum += qci_lp_column_value(master->lp, j);
    return sum;
}

static qc_status raise_helpers(qci_master *master, qc_error *err)
{
    int columns = qci_lp_column_count(master->lp);
    qc_status status = QC_STATUS_OK;

    master->helper_cost *= 8.0;
    for (int j = 0; j < columns && !status; j++)
        if (is_helper(master, j))
            status = qci_lp_set_cost(master->lp, j, master->helper_cost, err);
    return status;
}

/* Helpers dearer than this (in highest strips) prove nothing more, and spoil
 * the duals. */
#define HELPER_LIMIT 2e3

static bool helpers_spent(const qci_master *master)
{
    const qci_model *model = master->model;

    return master->helper_cost >
           HELPER_LIMIT * (double)model->height[model->class_count - 1];
}

qc_status qci_master_solve(qci_master *master, bool *solved, qc_error *err)
{
    qci_mip_stop stop = {master->watch->deadline_ms, master->watch->cancelled,
                         master->watch->user};
    qci_lp_state state;
    qc_status status = qci_lp_solve(master->lp, &stop, &state, err);

    *solved = !status && state == QCI_LP_OPTIMAL;
    return status;
}

/* The duals in hand give the best bound so far. */
static bool note_duals(qci_master *master)
{
    const qci_model *model = master->model;
    qci_noted *noted = &master->noted;

    memcpy(noted->value, master->value,
           (size_t)model->row_count * sizeof(int64_t));
    memcpy(noted->gain, master->gain,
           (size_t)model->class_count * sizeof(int64_t));
    noted->bonus.count = 0;
    for (int32_t i = 0; i < master->bonus_count; i++)
        if (!qci_vec_push(&noted->bonus, master->bonus[i]))
            return false;
    return true;
}

qc_status qci_master_generate(qci_master *master, int64_t cap, int32_t rounds,
                              int64_t *bound, qci_cg_end *end, qc_error *err)
{
    for (int32_t round = 1;; round++) {
        int64_t now;
        bool solved;
        qc_status status = qci_master_solve(master, &solved, err);

        master->rounds++;
        *end = QCI_CG_STOPPED;
        if (status || !solved)
            return status;
        if (round == 1)
            status = qci_spare_out(master, err);
        if (status)
            return status;
        *end = QCI_CG_LIMIT;
        if (round > rounds)
            return QC_STATUS_OK;
        status = qci_price_round(master, &now, err);
        if (status)
            return status;
        if (now > *bound) {
            *bound = now;
            if (!note_duals(master))
                return qci_no_memory(err);
        }
        *end = QCI_CG_PRUNED;
        if (*bound > cap)
            return QC_STATUS_OK;
        if (master->found)
            continue;
        *end = QCI_CG_CONVERGED;
        if (qci_master_shortfall(master) < 1e-6 || helpers_spent(master))
            return QC_STATUS_OK;
        status = raise_helpers(master, err);
        if (status)
            return status;
    }
}
