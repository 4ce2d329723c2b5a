/* The cut order: from a plan's strips to steps in working order. */
#ifndef QCI_ORDER_ORDER_H
#define QCI_ORDER_ORDER_H

#include "plan/plan.h"

/* Fills plan->steps and, per fabric, cuts. The plan's strips, leftovers and
 * pieces must be there.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_order_make(qc_plan *plan, qc_error *err);

#endif
