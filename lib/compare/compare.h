/* A comparison while it is made. */
#ifndef QCI_COMPARE_COMPARE_H
#define QCI_COMPARE_COMPARE_H

#include <quiltcut/block.h>
#include <quiltcut/compare.h>

/* One size. */
typedef struct qci_trial {
    qc_compare_row row;
    qc_job *job;
    qc_plan *plan;
    qc_error err;
    int64_t wanted; /* area that is to be covered */
} qci_trial;

/* Checks what is compared. */
qc_status qci_sizes_check(const qc_job_spec *spec,
                          const qc_compare_options *options, qc_error *err);

/* Makes the job of one size, with its number of blocks and what they cover;
 * `trial` has its index. A job that cannot be made leaves its error there.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY, with `err` filled. */
qc_status qci_sizes_make(const qc_job_spec *spec,
                         const qc_compare_options *options, qci_trial *trial,
                         qc_error *err);

/* Adds up what a plan takes. */
void qci_rank_sum(qci_trial *trial);

/* Ranks the trials; with `work` it marks the efficient ones too. */
void qci_rank_all(qci_trial *trials, size_t count, bool work);

#endif
