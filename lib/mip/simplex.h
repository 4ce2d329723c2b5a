/* One linear program to its end, for lp.c and intopt.c. Inner to the room. */
#ifndef QCI_MIP_SIMPLEX_H
#define QCI_MIP_SIMPLEX_H

#include <stdbool.h>
#include <stdint.h>

#include <glpk.h>

#include "mip/mip.h"

/* Only inside a guarded body. `dual`: begin with the dual simplex. */
qci_lp_state qci_simplex_solve(glp_prob *prob, bool dual,
                               const qci_mip_stop *stop);

bool qci_stop_asked(const qci_mip_stop *stop);
/* Milliseconds to the deadline, from 1 to INT_MAX. */
int qci_stop_time_left(const qci_mip_stop *stop);

#endif
