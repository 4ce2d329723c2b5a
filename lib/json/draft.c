/* A job as it was read, for those who change it before it is made: the draft
 * that qc_job_parse() also works on, kept. Its texts are the JSON values'. */
#include <quiltcut/job.h>

#include "base/alloc.h"
#include "base/error.h"
#include "json/draft.h"
#include "json/items.h"

struct qc_job_draft {
    qci_draft draft;
    qci_job_text read;
};

qc_status qc_job_draft_parse(const char *text, size_t size,
                             qc_job_draft **out_draft, qc_error *err)
{
    qc_job_draft *made = qci_calloc(1, sizeof *made);
    qc_status status;

    *out_draft = NULL;
    if (!made)
        return qci_no_memory(err);
    status = qci_job_text_load(&made->read, text, size);
    if (!status)
        status = qci_job_text_read(&made->read, NULL, 0, &made->draft);
    if (status) {
        qci_job_text_end(&made->read, &made->draft, status, err);
        qci_free(made);
        return status;
    }
    *out_draft = made;
    return QC_STATUS_OK;
}

const qc_job_spec *qc_job_draft_spec(const qc_job_draft *draft)
{
    return &draft->draft.spec;
}

void qc_job_draft_destroy(qc_job_draft *draft)
{
    if (!draft)
        return;
    qci_job_text_end(&draft->read, &draft->draft, QC_STATUS_OK, NULL);
    qci_free(draft);
}
