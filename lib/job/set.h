/* Strip sets of a job. */
#ifndef QCI_JOB_SET_H
#define QCI_JOB_SET_H

#include "job/check.h"

/* Checks the spec's strip sets and fills job->sets; their strips become pieces
 * of the job. */
qc_status qci_check_sets(const qci_check *check);

#endif
