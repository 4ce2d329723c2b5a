/* Random valid plans with their cut order. */
#ifndef QC_TEST_RANDOM_PLAN_H
#define QC_TEST_RANDOM_PLAN_H

#include "plan/plan.h"

extern uint64_t random_plan_seed;

qc_plan *random_plan(uint64_t number);

#endif
