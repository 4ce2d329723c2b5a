/* Keeping a basis whole when rows or columns are deleted. Inner to the room;
 * only inside a guarded body. `index` and `value` have room for as many numbers
 * as the model has rows and columns, and one more. */
#ifndef QCI_MIP_BASIS_H
#define QCI_MIP_BASIS_H

#include <stdbool.h>

#include <glpk.h>

/* Before the rows from `first` (from 1) on are deleted. True if the basis is
 * another one now. */
bool qci_basis_release_rows(glp_prob *prob, int first, int *index,
                            double *value);
/* Before the columns whose flag (from 0) is set are deleted. */
void qci_basis_release_columns(glp_prob *prob, const bool *flags, int *index,
                               double *value);

#endif
