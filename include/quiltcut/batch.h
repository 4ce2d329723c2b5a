/**
 * Many jobs at once.
 */
#ifndef QUILTCUT_BATCH_H
#define QUILTCUT_BATCH_H

#include <stddef.h>

#include <quiltcut/export.h>
#include <quiltcut/job.h>
#include <quiltcut/plan.h>
#include <quiltcut/solve.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/**
 * Takes what became of one job.
 *
 * @param index Which job of the list, from 0.
 * @param plan  The callback's own, to be ended with qc_plan_destroy(); NULL
 *              where the job failed.
 * @param err   Its code is QC_STATUS_OK where there is a plan; else what
 *              qc_job_solve() would say. Valid during the call.
 */
typedef void (*qc_batch_fn)(size_t index, qc_plan *plan, const qc_error *err,
                            void *user);

/**
 * Computes the plans of many jobs on one set of threads.
 *
 * `each` is called exactly once for every job, in the order of the list, as
 * soon as that job and all before it have ended; from threads of the library,
 * never from two at once, nor beside options->progress. A job that fails does
 * not disturb the others. Plans that wait for an earlier job are kept in
 * memory.
 *
 * A plan is the same, to the byte of its JSON, as qc_job_solve() finds for the
 * job alone, whatever the number of threads and whatever runs beside it, unless
 * the time limit or the cancel flag ended one of its searches: what could be
 * looked at by then differs from run to run, even where the length to buy is
 * proved.
 *
 * @param jobs    `count` jobs; none is NULL, and one may stand there twice.
 * @param options NULL for defaults. `threads` is shared: never more than so
 *                many fabrics, of all jobs together, are being solved. The
 *                time limit is that of each job and begins with it. Once the
 *                flag is raised, running jobs end with their best plans, and
 *                those not begun yet fail with QC_STATUS_CANCELLED.
 * @param user    Handed to `each`; options->user is for options->progress.
 * @param err     Filled when nothing was solved; may be NULL.
 * @return QC_STATUS_OK once `each` was called for all jobs, however they ended;
 *         QC_STATUS_INVALID (options), QC_STATUS_NO_MEMORY: it was never
 *         called.
 */
QC_API qc_status qc_batch_solve(const qc_job *const *jobs, size_t count,
                                const qc_solve_options *options,
                                qc_batch_fn each, void *user, qc_error *err);

#ifdef __cplusplus
}
#endif

#endif
