/* A draft of a job of strip sets, for the tests of the job room. */
#ifndef TESTS_UNIT_SET_DRAFT_H
#define TESTS_UNIT_SET_DRAFT_H

#include "job/job.h"
#include "job_draft.h"

#define EIGHTH (QC_INCH / 8)
#define DEGREE QC_DEGREE

/* A job of one strip set, and one that may follow it; no pieces. */
typedef struct sets {
    draft d;
    qc_strip_set_spec set[2];
    qc_set_strip_spec strips[QC_MAX_SET_STRIPS + 1];
} sets;

/* Equal strips of two fabrics, 42 in wide, crosscut at 45 degrees; every
 * default open. The sets are called S and T. */
void sets_init(sets *s, size_t count, qc_length width, int64_t segments);

/* The one set that is made, without its names; or fails the test. */
qc_plan_set sets_only(sets *s);

/* Fails the test unless each of two sets is the mirror image of the other. */
void sets_mirrored(const qci_set *right, const qci_set *left);

#endif
