/* The linear program of a job with one class of strips: the fewest strips, in
 * fractions, that give every row what it needs. */
#ifndef QCI_PACK_LINE_LP_H
#define QCI_PACK_LINE_LP_H

#include "base/vec.h"
#include "pack/pattern.h"

/* Of one basis: what changes when a program is solved. */
typedef struct qci_line_basis {
    int32_t *column; /* per place: a column, or -1 - row for what the row gets
                        beyond its need */
    double *inverse; /* place by row */
    double *x;       /* per place: how much of it */
    double *need;    /* per row, with a trifle added so that no two tie */
} qci_line_basis;

typedef struct qci_line_lp {
    int32_t rows;
    QCI_VEC(qci_count) entries;
    QCI_VEC(int32_t) first; /* column j has entries first[j]..first[j + 1] */
    QCI_VEC(bool) shut;     /* per column: holds more than is needed */
    QCI_VEC(int32_t) place; /* per column: in the basis, or -1 */
    qci_line_basis now;
    double *dual;    /* per row */
    double *change;  /* per place: scratch */
    int32_t updates; /* of the inverse since it was made anew */
} qci_line_lp;

bool qci_line_lp_init(qci_line_lp *lp, int32_t rows);
void qci_line_lp_clear(qci_line_lp *lp);

int32_t qci_line_lp_columns(const qci_line_lp *lp);
/* The new column's number; -1 when memory is out. */
int32_t qci_line_lp_add(qci_line_lp *lp, const qci_count *entries,
                        int32_t count);
/* One less what the column's pieces are worth. */
double qci_line_lp_reduced(const qci_line_lp *lp, int32_t column);

/* Begins with strips that hold pieces of one row each: one column a row, as
 * they were added first. */
void qci_line_lp_begin(qci_line_lp *lp, const int64_t *need);
/* Goes on with another need; columns that hold more than it are shut: they are
 * left as soon as something else serves. */
void qci_line_lp_change(qci_line_lp *lp, const int64_t *need);
/* Solves over the columns that there are; false if it got stuck. */
bool qci_line_lp_solve(qci_line_lp *lp);
/* Strips, by the duals. */
double qci_line_lp_value(const qci_line_lp *lp, const int64_t *need);

bool qci_line_basis_init(qci_line_basis *basis, int32_t rows);
void qci_line_basis_clear(qci_line_basis *basis);
void qci_line_basis_copy(qci_line_basis *to, const qci_line_basis *from,
                         int32_t rows);
/* Makes a basis that was kept the present one. */
void qci_line_lp_return(qci_line_lp *lp, const qci_line_basis *basis,
                        const int64_t *need);

#endif
