/* Keeping a basis whole when columns are deleted. Inner to the room;
 * only inside a guarded body. `index` and `value` have room for as many numbers
 * as the model has rows and columns, and one more. */
#ifndef QCI_MIP_BASIS_H
#define QCI_MIP_BASIS_H

#include <stdbool.h>

#include <glpk.h>

/* Before the columns whose flag (from 0) is set are deleted. */
void qci_basis_release_columns(glp_prob *prob, const bool *flags, int *index,
                               double *value);

#endif
