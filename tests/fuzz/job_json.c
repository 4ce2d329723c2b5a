/* Any bytes as the JSON form of a job: a job, or one clear message that has a
 * place in the text, and nothing left behind. */
#include "fuzz.h"

#include <string.h>

#include "base/alloc.h"

/* The place is in the text: its lines are counted, its columns are bytes. */
static void expect_place(const qc_error *err, const char *text, size_t size)
{
    const char *line = text, *end = text + size, *next;

    if (!err->line) /* of the text as a whole */
        return;
    for (uint32_t n = 1; n < err->line; n++) {
        next = memchr(line, '\n', (size_t)(end - line));
        FUZZ_EXPECT(next);
        line = next + 1;
    }
    next = memchr(line, '\n', (size_t)(end - line));
    FUZZ_EXPECT(err->column >= 1);
    FUZZ_EXPECT(err->column <= (size_t)((next ? next : end) - line) + 1);
}

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
        expect_place(&err, (const char *)data, size);
        FUZZ_EXPECT(qc_job_parse((const char *)data, size, &job, NULL) ==
                    status);
    }
    qc_job_destroy(job);
    FUZZ_EXPECT(qci_alloc_live() == live);
    return 0;
}
