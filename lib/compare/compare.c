/* A job at many sizes: make all jobs, plan them as one batch, add up, rank, and
 * hand the rows out.
 *
 * Ranks need all rows, so none is handed out before the last is planned. A size
 * whose job cannot be made, or planned, keeps its error and its place. */
#include "compare/compare.h"

#include <string.h>

#include <quiltcut/batch.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/known.h"

typedef struct comparison {
    const qc_job_spec *spec;
    qc_compare_options options;
    qci_trial *trials;
    size_t count;
    const qc_job **jobs; /* those that could be made, and whose they are */
    qci_trial **owners;
    size_t job_count;
} comparison;

void qc_compare_options_init(qc_compare_options *options)
{
    memset(options, 0, sizeof *options);
    options->struct_size = (uint32_t)sizeof *options;
}

static qc_status make_room(comparison *c, qc_error *err)
{
    c->trials = qci_calloc(c->count, sizeof *c->trials);
    c->jobs = qci_calloc(c->count, sizeof *c->jobs);
    c->owners = qci_calloc(c->count, sizeof *c->owners);
    return c->trials && c->jobs && c->owners ? QC_STATUS_OK
                                             : qci_no_memory(err);
}

static qc_status make_jobs(comparison *c, qc_error *err)
{
    qc_status status = make_room(c, err);

    for (size_t i = 0; i < c->count && !status; i++) {
        qci_trial *trial = &c->trials[i];

        trial->row.index = i;
        trial->row.err = &trial->err;
        qc_error_init(&trial->err);
        status = qci_sizes_make(c->spec, &c->options, trial, err);
        if (!trial->job)
            continue;
        c->jobs[c->job_count] = trial->job;
        c->owners[c->job_count++] = trial;
    }
    return status;
}

static void take_plan(size_t index, qc_plan *plan, const qc_error *err,
                      void *user)
{
    comparison *c = user;
    qci_trial *trial = c->owners[index];

    trial->row.plan = trial->plan = plan;
    trial->err = *err;
    if (plan)
        qci_rank_sum(trial);
}

/* The first row that memory was too short for makes all of it so. */
static qc_status find_no_memory(const comparison *c, qc_error *err)
{
    for (size_t i = 0; i < c->count; i++)
        if (c->trials[i].err.code == QC_STATUS_NO_MEMORY)
            return qci_no_memory(err);
    return QC_STATUS_OK;
}

static void end(comparison *c)
{
    for (size_t i = 0; c->trials && i < c->count; i++) {
        qc_plan_destroy(c->trials[i].plan);
        qc_job_destroy(c->trials[i].job);
    }
    qci_free(c->trials);
    qci_free(c->jobs);
    qci_free(c->owners);
}

/* The job must be sound as it is given; that it may not fit its fabric at the
 * size that it has does not matter here. */
static qc_status check_spec(const qc_job_spec *spec, qc_error *err)
{
    qc_error own;
    qc_job *job;
    qc_status status;

    qc_error_init(&own);
    status = qc_job_create(spec, &job, &own);
    qc_job_destroy(job);
    if (status == QC_STATUS_OK || status == QC_STATUS_IMPOSSIBLE)
        return QC_STATUS_OK;
    if (err && err->code == QC_STATUS_OK)
        *err = own;
    return status;
}

qc_status qc_compare(const qc_job_spec *spec, const qc_compare_options *options,
                     qc_compare_fn each, void *user, qc_error *err)
{
    comparison c = {.spec = spec};
    qc_status status;

    qc_compare_options_init(&c.options);
    status = qci_take_known(options, sizeof options->struct_size, &c.options,
                            sizeof c.options, "options.struct_size", err);
    if (!status)
        status = qci_sizes_check(spec, &c.options, err);
    if (!status)
        status = check_spec(spec, err);
    if (status)
        return status;
    c.count = c.options.block_size_count + c.options.quilt_count;
    status = make_jobs(&c, err);
    if (!status)
        status = qc_batch_solve(c.jobs, c.job_count, c.options.solve, take_plan,
                                &c, err);
    if (!status)
        status = find_no_memory(&c, err);
    if (!status)
        qci_rank_all(c.trials, c.count, c.options.block_size_count > 0);
    for (size_t i = 0; !status && i < c.count; i++)
        each(&c.trials[i].row, user);
    end(&c);
    return status;
}
