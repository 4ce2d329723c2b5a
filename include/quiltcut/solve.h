/**
 * Solving: from a job to a plan.
 */
#ifndef QUILTCUT_SOLVE_H
#define QUILTCUT_SOLVE_H

#include <quiltcut/export.h>
#include <quiltcut/job.h>
#include <quiltcut/plan.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What is known so far about one fabric, for a progress display. */
typedef struct qc_progress {
    const char *fabric; /**< its id, valid during the call */
    uint32_t fabric_index;
    qc_length bought; /**< best plan so far; 0 = none yet */
    qc_length bound;  /**< no plan buys less */
    int32_t elapsed_ms;
    size_t job; /**< of a batch: its place in the list; else 0 */
} qc_progress;

/** A flag that stops a solve from another thread or a signal handler. */
typedef struct qc_cancel qc_cancel;

/** Makes a flag that is not raised; NULL when memory is out. */
QC_API qc_cancel *qc_cancel_create(void);
/** Raises it. Safe from any thread and inside a signal handler. */
QC_API void qc_cancel_raise(qc_cancel *cancel);
QC_API void qc_cancel_destroy(qc_cancel *cancel);

typedef struct qc_solve_options {
    uint32_t struct_size;  /**< set by qc_solve_options_init() */
    int32_t time_limit_ms; /**< QC_DEFAULT = the job's own */
    int32_t threads;   /**< fabrics solved at once; QC_DEFAULT = all cores */
    qc_cancel *cancel; /**< NULL: cannot be stopped */
    /** Called now and then from a thread of the library, never from two at
     *  once; NULL: none. */
    void (*progress)(const qc_progress *progress, void *user);
    void *user;
    bool left_handed; /**< write the cut order for the left hand */
} qc_solve_options;

QC_API void qc_solve_options_init(qc_solve_options *options);

/**
 * Computes the cutting plan of a job, one fabric at a time or several at once.
 *
 * Blocks until every goal is proved, the time limit is up or the cancel flag
 * is raised; in the latter two cases the best plan so far is returned with its
 * honest bounds. Every plan has been carried out by the replay on bare fabric
 * before it is returned. GLPK runs only on threads of the library's own, so
 * the host's GLPK objects are not touched.
 *
 * @param options  NULL for defaults.
 * @param out_plan Receives a plan that the caller ends with qc_plan_destroy();
 *                 NULL on failure. The plan does not refer to the job.
 * @param err      Filled on failure; may be NULL.
 * @return QC_STATUS_OK, also for a plan that is not proved minimal;
 *         QC_STATUS_CANCELLED only when stopped before any plan was found;
 *         QC_STATUS_INVALID, QC_STATUS_NO_MEMORY, QC_STATUS_SOLVER,
 *         QC_STATUS_REJECTED.
 */
QC_API qc_status qc_job_solve(const qc_job *job,
                              const qc_solve_options *options,
                              qc_plan **out_plan, qc_error *err);

#ifdef __cplusplus
}
#endif

#endif
