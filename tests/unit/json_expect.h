/* What tests ask of a plan as JSON. */
#ifndef QC_TEST_JSON_EXPECT_H
#define QC_TEST_JSON_EXPECT_H

#include <jansson.h>

#include "plan/plan.h"

/* The plan, written and read back. */
json_t *written_of(const qc_plan *plan);
/* The value at a path of keys ("a") and list places ("[0]"), ended by NULL. */
const json_t *at(const json_t *value, ...);
void expect_text(const json_t *object, const char *key, const char *text);
/* Exactly: numbers that are sums of powers of two, or given to the last
 * decimal. */
void expect_number(const json_t *object, const char *key, double number);
void expect_near(double got, double number);
/* Every allocation of the writing may fail. */
void check_json_out_of_memory(const qc_plan *plan);

#endif
