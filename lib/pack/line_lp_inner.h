/* What the files of the linear program with one class share. */
#ifndef QCI_PACK_LINE_LP_INNER_H
#define QCI_PACK_LINE_LP_INNER_H

#include "pack/line_lp.h"

#define QCI_LEAST_PIVOT 1e-5

static inline const qci_count *qci_line_begin(const qci_line_lp *lp,
                                              int32_t column)
{
    return lp->entries.at + lp->first.at[column];
}

static inline const qci_count *qci_line_end(const qci_line_lp *lp,
                                            int32_t column)
{
    return lp->entries.at + lp->first.at[column + 1];
}

/* --- line_basis.c -------------------------------------------------------- */

/* A shut column in the basis costs more than strips of its single pieces. */
double qci_line_cost(const qci_line_lp *lp, int32_t column);
/* The duals of the basis, from nothing. */
void qci_line_fill_duals(qci_line_lp *lp);
void qci_line_fill_x(qci_line_lp *lp);
/* The inverse times a column (or what a row gets beyond its need). */
void qci_line_fill_change(qci_line_lp *lp, int32_t column);
/* A column of this reduced cost takes a place; its change is filled. */
void qci_line_pivot(qci_line_lp *lp, int32_t place, int32_t column,
                    double reduced);
/* Inverse, x and duals from nothing. */
void qci_line_renew(qci_line_lp *lp);

#endif
