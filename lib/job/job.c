/* Making and ending a job.
 *
 * The spec is read through a copy of what this library knows of it. The job is
 * filled part by part, options first (units and ruler decide the rest), and is
 * handed out only when every check has passed; a job that fails is ended half
 * built, which qc_job_destroy() accepts. */
#include <stddef.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/known.h"
#include "job/check.h"
#include "job/set.h"

/* The first spec there was ended here. */
#define FIRST_SIZE                                                             \
    (offsetof(qc_job_spec, time_limit_ms) +                                    \
     sizeof(((qc_job_spec *)0)->time_limit_ms))

qc_status qc_job_create(const qc_job_spec *spec, qc_job **out_job,
                        qc_error *err)
{
    qc_job_spec known = {0}; /* what an older spec lacks */
    qci_check check = {&known, NULL, err};
    qc_job *job = NULL;
    qc_status status;

    if (!out_job)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, NULL,
                        "there is nowhere to put the job");
    *out_job = NULL;
    if (!spec)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, NULL,
                        "no spec was given");
    status = qci_take_known(spec, FIRST_SIZE, &known, sizeof known,
                            "struct_size", err);
    if (status)
        return status;
    job = qci_calloc(1, sizeof *job);
    if (!job)
        return qci_no_memory(err);
    check.job = job;
    if ((status = qci_check_options(&check)) ||
        (status = qci_check_fabrics(&check)) ||
        (status = qci_check_pieces(&check)) ||
        (status = qci_check_blocks(&check)) ||
        (status = qci_check_sets(&check)) || (status = qci_check_fit(&check)) ||
        (status = qci_note_defaults(&check)))
        goto done;
    *out_job = job;
    job = NULL;
done:
    qc_job_destroy(job);
    return status;
}

void qc_job_destroy(qc_job *job)
{
    if (!job)
        return;
    for (size_t i = 0; i < job->fabric_count; i++) {
        qci_free(job->fabrics[i].id);
        qci_free(job->fabrics[i].name);
    }
    for (size_t i = 0; i < job->piece_count; i++)
        qci_piece_clear(&job->pieces[i]);
    for (size_t i = 0; i < job->block_count; i++) {
        qci_free((void *)job->blocks[i].id);
        qci_free((void *)job->blocks[i].name);
    }
    qci_free(job->blocks);
    for (size_t i = 0; i < job->made_count; i++)
        qci_free((void *)job->made[i].id);
    qci_free(job->made);
    for (size_t i = 0; i < job->set_count; i++) {
        qci_free((void *)job->sets[i].info.id);
        qci_free((void *)job->sets[i].info.job_id);
        qci_free(job->sets[i].strips);
        qci_free(job->sets[i].finished);
    }
    qci_free(job->sets);
    for (size_t i = 0; i < job->default_count; i++)
        qci_free(job->defaults[i]);
    qci_free(job->fabrics);
    qci_free(job->pieces);
    qci_free(job->defaults);
    qci_free(job->title);
    qci_free(job);
}
