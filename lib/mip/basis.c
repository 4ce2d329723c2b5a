/* Keeping a basis whole when rows or columns are deleted.
 *
 * A basis has one basic variable a row. Deleting a row whose auxiliary variable
 * is not basic leaves one too many, deleting a basic column one too few, and
 * the next solve would start from nothing. So the line is first pivoted to the
 * side where it does no harm. For a row that is a step of the primal simplex
 * method with the row let free, which keeps the basis primal feasible; for a
 * column, the largest entry of its row of the tableau. Values and duals of the
 * last solve stay as they are and may be read on. Cost: a factorisation for
 * each line that must move; most need not. Where a pivot cannot be had the
 * basis is left as it is, and the ladder of simplex.c builds one anew. */
#include "mip/basis.h"

#include <math.h>

#define LEAST_PIVOT 1e-6

/* GLPK numbers variables through: the auxiliary 1..m, then the structural. For
 * one that is not basic it takes GLP_NL as "at its only bound" too. */
static void set_stat(glp_prob *prob, int variable, int stat)
{
    int rows = glp_get_num_rows(prob);

    if (variable <= rows)
        glp_set_row_stat(prob, variable, stat);
    else
        glp_set_col_stat(prob, variable - rows, stat);
}

/* How far a variable may go up (down) from its value in the last solve. */
static double room_left(glp_prob *prob, int variable, bool up)
{
    int rows = glp_get_num_rows(prob), column = variable - rows;
    double at, end;

    if (column <= 0) {
        at = glp_get_row_prim(prob, variable);
        end = up ? glp_get_row_ub(prob, variable)
                 : glp_get_row_lb(prob, variable);
    } else {
        at = glp_get_col_prim(prob, column);
        end = up ? glp_get_col_ub(prob, column) : glp_get_col_lb(prob, column);
    }
    return fmax(up ? end - at : at - end, 0);
}

static bool factorised(glp_prob *prob)
{
    return glp_bf_exists(prob) || glp_factorize(prob) == 0;
}

/* Makes the row's variable basic in place of one that will not be deleted;
 * false if there is none. */
static bool pull_in(glp_prob *prob, int row, int first, int *index,
                    double *value)
{
    int rows = glp_get_num_rows(prob), best = 0;
    int count = glp_eval_tab_col(prob, row, index, value);
    double dual = glp_get_row_dual(prob, row), shortest = INFINITY;
    bool rise =
        dual < 0 || (dual == 0 && glp_get_row_stat(prob, row) == GLP_NU);

    for (int k = 1; k <= count; k++) {
        double size = fabs(value[k]), step;

        if (size <= LEAST_PIVOT || (index[k] >= first && index[k] <= rows))
            continue;
        step = room_left(prob, index[k], (value[k] > 0) == rise) / size;
        if (!best || step < shortest ||
            (step == shortest && size > fabs(value[best]))) {
            shortest = step;
            best = k;
        }
    }
    if (!best)
        return false;
    set_stat(prob, row, GLP_BS);
    set_stat(prob, index[best], (value[best] > 0) == rise ? GLP_NU : GLP_NL);
    return true;
}

bool qci_basis_release_rows(glp_prob *prob, int first, int *index,
                            double *value)
{
    bool moved = false;

    for (int row = glp_get_num_rows(prob); row >= first; row--) {
        if (glp_get_row_stat(prob, row) == GLP_BS)
            continue;
        if (!factorised(prob) || !pull_in(prob, row, first, index, value))
            break;
        moved = true;
    }
    return moved;
}

void qci_basis_release_columns(glp_prob *prob, const bool *flags, int *index,
                               double *value)
{
    int rows = glp_get_num_rows(prob), columns = glp_get_num_cols(prob);

    for (int column = 1; column <= columns; column++) {
        int count, best = 0;
        double most = LEAST_PIVOT;

        if (!flags[column - 1] || glp_get_col_stat(prob, column) != GLP_BS)
            continue;
        if (!factorised(prob))
            return;
        count = glp_eval_tab_row(prob, rows + column, index, value);
        for (int k = 1; k <= count; k++)
            if (fabs(value[k]) > most &&
                (index[k] <= rows || !flags[index[k] - rows - 1])) {
                most = fabs(value[k]);
                best = k;
            }
        if (!best)
            return;
        set_stat(prob, column + rows, GLP_NL);
        set_stat(prob, index[best], GLP_BS);
    }
}
