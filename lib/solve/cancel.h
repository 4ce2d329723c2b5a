/* Reading the caller's cancel flag. */
#ifndef QCI_SOLVE_CANCEL_H
#define QCI_SOLVE_CANCEL_H

#include <stdbool.h>

#include <quiltcut/solve.h>

/* False also for NULL. */
bool qci_cancel_raised(qc_cancel *cancel);

#endif
