/* What tests ask of the text plan. */
#ifndef QC_TEST_TEXT_EXPECT_H
#define QC_TEST_TEXT_EXPECT_H

#include "plan/plan.h"

/* The text, to be freed. */
char *text_of(const qc_plan *plan);
/* The words occur, or do not, wherever lines are broken. */
void expect(const char *text, const char *part);
void expect_none(const char *text, const char *part);
/* No line is too wide or ends in a space. */
void check_lines(const char *text);
/* Every allocation of the report may fail; ends the plan. */
void check_text_out_of_memory(qc_plan *plan);

#endif
