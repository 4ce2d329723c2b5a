/* Any bytes as the JSON form of a job: a job, or one clear message that has a
 * place in the text, and nothing left behind. */
#include "fuzz.h"

#include "base/alloc.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    long live = qci_alloc_live();
    qc_job *job;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    status = qc_job_parse((const char *)data, size, &job, &err);
    if (status) {
        FUZZ_EXPECT(!job);
        FUZZ_EXPECT(status == QC_STATUS_INVALID ||
                    status == QC_STATUS_IMPOSSIBLE);
        fuzz_expect_error(&err, status);
        fuzz_expect_place(&err, (const char *)data, size);
        FUZZ_EXPECT(qc_job_parse((const char *)data, size, &job, NULL) ==
                    status);
    }
    qc_job_destroy(job);
    FUZZ_EXPECT(qci_alloc_live() == live);
    return 0;
}
