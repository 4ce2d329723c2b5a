/* A draft of a job for the tests of the job room. */
#ifndef TESTS_UNIT_JOB_DRAFT_H
#define TESTS_UNIT_JOB_DRAFT_H

#include "job/job.h"

/* A job that is right, to be changed in one place. */
typedef struct draft {
    qc_job_spec spec;
    qc_fabric_spec fabrics[3];
    qc_piece_spec pieces[3];
} draft;

/* Three fabrics and three 2 x 4 in pieces, every default open. */
void draft_init(draft *d, qc_units units);

/* Makes the job, or fails the test. */
qc_job *draft_make(const draft *d);

/* Fails the test unless the draft is refused for that reason at that place,
 * with nothing left allocated. */
void draft_refuse(const draft *d, qc_status status, const char *field,
                  const char *problem);

/* A draft that is right but for this change is refused as wrong. */
#define REFUSE(change, field, problem)                                         \
    do {                                                                       \
        draft d;                                                               \
        draft_init(&d, QC_UNITS_IN);                                           \
        change;                                                                \
        draft_refuse(&d, QC_STATUS_INVALID, field, problem);                   \
    } while (0)

/* A piece of the job that is cut for the draft's piece "B". */
typedef struct draft_cut {
    const char *id;
    qc_hand hand;
    uint32_t twin;
    int64_t count;
} draft_cut;

void draft_assert_cut(const qc_job *job, size_t index, draft_cut expected);

#endif
