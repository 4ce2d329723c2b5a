/* The caller's options, checked. */
#ifndef QCI_SOLVE_OPTIONS_H
#define QCI_SOLVE_OPTIONS_H

#include <quiltcut/solve.h>

/* Takes `given` (NULL: defaults) into `out`, with the number of threads put in
 * where it was left to the library.
 * @return QC_STATUS_OK or QC_STATUS_INVALID. */
qc_status qci_solve_options_take(const qc_solve_options *given,
                                 qc_solve_options *out, qc_error *err);

#endif
