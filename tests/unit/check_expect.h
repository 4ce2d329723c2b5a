/* What a check says of instructions in JSON; the least to buy is not computed.
 */
#ifndef CHECK_EXPECT_H
#define CHECK_EXPECT_H

#include <quiltcut/quiltcut.h>

qc_status check_try(const char *text, qc_check **check, qc_error *err);
/* Fails where they cannot be carried out. */
qc_check *check_of(const char *text);
/* Nothing is found. */
void check_clean(const char *text);
/* One thing is found, of that kind, at that step (QC_NONE: any), with such
 * words. */
void check_found(const char *text, qc_finding_kind kind, uint32_t step,
                 const char *words);
/* They make no sense: in that field, with such words. */
void check_refused(const char *text, const char *field, const char *problem);

#endif
