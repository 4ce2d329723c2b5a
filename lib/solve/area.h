/* Where the bought area goes, and what is worth keeping of it. */
#ifndef QCI_SOLVE_AREA_H
#define QCI_SOLVE_AREA_H

#include "job/job.h"
#include "plan/plan.h"

/* Fills the leftovers of a fabric: the uncut end of the bolt and the ends of
 * its strips, where both sides are at least `keep`.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_leftovers_find(qci_plan_fabric *fabric, qc_length keep,
                             qc_error *err);

/* The four areas of fabric `fabric`, whose leftovers are there; `job` is what
 * the plan was made from. */
qc_area qci_area_account(const qc_plan *plan, const qc_job *job,
                         uint32_t fabric);

#endif
