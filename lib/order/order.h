/* The cut order: from a plan's strips and strip sets to steps in working order.
 */
#ifndef QCI_ORDER_ORDER_H
#define QCI_ORDER_ORDER_H

#include "plan/plan.h"

/* Fills plan->steps and, per fabric, info.cuts. The plan's pieces, strips,
 * leftovers, widths, strip sets, units, layers and hand must be there; strips
 * come tallest first and subcuts and stacks as the packing gives them, and the
 * steps keep that order. On failure the plan is as it was.
 *
 * Strip entry i of a fabric is part i + 1, called "strip i + 1"; its subcuts
 * that hold stacks, or sections that are trimmed to an outline, are sections
 * "1a", "1b", ... from the worked end on, and runs of a stack that are still
 * too wide are slices "1a1", "1a2", ... going up. The squares that triangle B
 * is cut from are "squares for B". Full strip sets are part 0 of their set, the
 * last, shorter one is part 1: both the part_out of their SEW.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_order_make(qc_plan *plan, qc_error *err);

#endif
