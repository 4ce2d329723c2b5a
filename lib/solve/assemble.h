/* From what the packing found to a plan that says it in the job's words. */
#ifndef QCI_SOLVE_ASSEMBLE_H
#define QCI_SOLVE_ASSEMBLE_H

#include "demand/demand.h"
#include "pack/pack.h"
#include "plan/plan.h"

/* What was found for one fabric. */
typedef struct qci_found {
    const qci_demand *demand;
    const qci_packing *packing;
} qci_found;

/* A plan without steps, from one qci_found for each fabric of the job; for the
 * left hand or for the right.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_plan_assemble(const qc_job *job, const qci_found *found,
                            bool left_handed, qc_plan **out, qc_error *err);

#endif
