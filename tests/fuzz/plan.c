/* From any bytes to a job, and on to its plan, text, JSON and pictures, within
 * a small time limit. */
#include "fuzz.h"

#include "base/alloc.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_bytes from = {data, size};
    long live = qci_alloc_live();
    int32_t limits[] = {20, 50, 1, 200};
    int32_t limit = limits[fuzz_choice(&from, 4)];
    bool left_handed = fuzz_choice(&from, 2);
    fuzz_spec spec;
    qc_job *job;
    qc_error err;
    qc_status status;

    fuzz_fill_spec(&from, &spec);
    qc_error_init(&err);
    status = qc_job_create(&spec.spec, &job, &err);
    if (status) {
        FUZZ_EXPECT(!job);
        FUZZ_EXPECT(status == QC_STATUS_INVALID ||
                    status == QC_STATUS_IMPOSSIBLE);
        fuzz_expect_error(&err, status);
    } else {
        fuzz_plan(job, limit, left_handed);
    }
    qc_job_destroy(job);
    FUZZ_EXPECT(qci_alloc_live() == live);
    return 0;
}
