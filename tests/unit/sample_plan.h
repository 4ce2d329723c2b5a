/* A plan built by hand in which every kind of member occurs: two fabrics, a
 * stack, a quarter and a half turn, a trimmed piece, spares, prices, a gap, all
 * goals. Its numbers need not make sense together; only their writing is
 * tested. */
#ifndef QC_TEST_SAMPLE_PLAN_H
#define QC_TEST_SAMPLE_PLAN_H

#include "plan/plan.h"

qc_plan *sample_plan(void);

#endif
