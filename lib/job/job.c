/* Making and ending a job.
 *
 * The spec is read through a copy of what this library knows of it. The job is
 * filled part by part, options first (units and ruler decide the rest), and is
 * handed out only when every check has passed; a job that fails is ended half
 * built, which qc_job_destroy() accepts. */
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "job/check.h"

/* The first spec there was ended here. */
#define FIRST_SIZE                                                             \
    (offsetof(qc_job_spec, time_limit_ms) +                                    \
     sizeof(((qc_job_spec *)0)->time_limit_ms))

/* Takes over a spec of another version: what is missing at the end would be 0,
 * what is there beyond must be. */
static qc_status read_spec(const qc_job_spec *from, qc_job_spec *spec,
                           qc_error *err)
{
    static const qci_place place = {"struct_size", NULL};
    const unsigned char *bytes = (const unsigned char *)from;

    if (!from)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, NULL,
                        "no spec was given");
    if (from->struct_size < FIRST_SIZE)
        return qci_fail(err, QC_STATUS_INVALID, place,
                        "what qc_job_spec_init() sets", "is too small: %u",
                        from->struct_size);
    for (size_t i = sizeof *spec; i < from->struct_size; i++)
        if (bytes[i])
            return qci_fail(err, QC_STATUS_INVALID, place, NULL,
                            "the spec asks for what this version of the "
                            "library does not know");
    memset(spec, 0, sizeof *spec);
    memcpy(spec, from,
           from->struct_size < sizeof *spec ? from->struct_size : sizeof *spec);
    return QC_STATUS_OK;
}

qc_status qc_job_create(const qc_job_spec *spec, qc_job **out_job,
                        qc_error *err)
{
    qc_job_spec known;
    qci_check check = {&known, NULL, err};
    qc_job *job = NULL;
    qc_status status;

    if (!out_job)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, NULL,
                        "there is nowhere to put the job");
    *out_job = NULL;
    status = read_spec(spec, &known, err);
    if (status)
        return status;
    job = qci_calloc(1, sizeof *job);
    if (!job)
        return qci_no_memory(err);
    check.job = job;
    if ((status = qci_check_options(&check)) ||
        (status = qci_check_fabrics(&check)) ||
        (status = qci_check_pieces(&check)) ||
        (status = qci_check_fit(&check)) ||
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
        qci_free(job->pieces[i].id);
    for (size_t i = 0; i < job->default_count; i++)
        qci_free(job->defaults[i]);
    qci_free(job->fabrics);
    qci_free(job->pieces);
    qci_free(job->defaults);
    qci_free(job->title);
    qci_free(job);
}
