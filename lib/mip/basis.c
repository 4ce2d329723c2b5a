/* Keeping a basis whole when columns are deleted.
 *
 * A basis has one basic variable a row. Deleting a basic column leaves one too
 * few, and the next solve would start from nothing. So the column is first
 * pivoted out by the largest entry of its row of the tableau. Values and duals
 * of the last solve stay as they are and may be read on. Cost: a factorisation
 * for each column that must move; most need not. Where a pivot cannot be had
 * the basis is left as it is, and the ladder of simplex.c builds one anew. */
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

static bool factorised(glp_prob *prob)
{
    return glp_bf_exists(prob) || glp_factorize(prob) == 0;
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
