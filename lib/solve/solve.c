/* From a job to a plan: demand, packing, assembly, cut order, replay.
 *
 * Fabrics do not depend on each other, so each is one task of the pool, and
 * what it finds depends only on its demand and on how many fabrics the job has
 * (they share the work on the narrowest widths), never on which thread took it
 * or what ran beside it; only the clock and the cancel flag end a task early.
 *
 * The time limit is shared so that no fabric starves: a task that begins with
 * `waiting` fabrics still to do (itself included) on `threads` threads takes
 * the remaining time divided by the rounds that are left, waiting / threads
 * rounded up. What it leaves over goes to those after it, and a fabric that is
 * alone has all of it. A tenth of the time is kept for the narrowest widths,
 * which are looked for when every fabric has its packing: an extra must not
 * take the time that a fabric further on needs for its length.
 *
 * The first error stops the other fabrics through the same question that asks
 * for the cancel flag.
 */
#include <quiltcut/solve.h>

#include <pthread.h>
#include <stdatomic.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/clock.h"
#include "base/error.h"
#include "demand/demand.h"
#include "job/job.h"
#include "mip/mip.h"
#include "order/order.h"
#include "pack/narrow.h"
#include "pack/pack.h"
#include "replay/replay.h"
#include "solve/assemble.h"
#include "solve/cancel.h"
#include "solve/options.h"
#include "solve/pool.h"

/* Per cent of the time in which all packings must be made. */
#define PACKING_SHARE 90

typedef struct task task;

/* What all tasks share. */
typedef struct run {
    const qc_job *job;
    qc_solve_options options;
    int64_t start_ms;
    int64_t end_ms; /* of the present part */
    /* The present part of every task's work. */
    qc_status (*part)(task *mine, const qci_watch *watch);
    atomic_bool stop; /* a fabric has failed */
    pthread_mutex_t telling;
    task *tasks;
} run;

struct task {
    run *run;
    uint32_t fabric;
    qci_demand *demand;
    qci_packing *packing;
    qc_status status;
    qc_error err;
};

static bool must_end(void *user)
{
    task *mine = user;

    return atomic_load(&mine->run->stop) ||
           qci_cancel_raised(mine->run->options.cancel);
}

static void tell(qc_length bought, qc_length bound, void *user)
{
    task *mine = user;
    run *all = mine->run;
    qc_progress progress = {
        .fabric = all->job->fabrics[mine->fabric].id,
        .fabric_index = mine->fabric,
        .bought = bought,
        .bound = bound,
    };

    if (!all->options.progress)
        return;
    pthread_mutex_lock(&all->telling);
    progress.elapsed_ms = (int32_t)(qci_clock_ms() - all->start_ms);
    all->options.progress(&progress, all->options.user);
    pthread_mutex_unlock(&all->telling);
}

/* When the fabric that begins now must end. */
static int64_t deadline_of(const run *all, size_t fabric)
{
    int64_t now = qci_clock_ms();
    int64_t left = all->end_ms > now ? all->end_ms - now : 0;
    size_t waiting = all->job->fabric_count - fabric;
    size_t threads = (size_t)all->options.threads;

    return now + left / (int64_t)((waiting + threads - 1) / threads);
}

static qc_status make_packing(task *mine, const qci_watch *watch)
{
    qc_status status = qci_demand_create(mine->run->job, mine->fabric,
                                         &mine->demand, &mine->err);

    if (status)
        return status;
    return qci_pack(mine->demand, watch, &mine->packing, &mine->err);
}

static qc_status find_width(task *mine, const qci_watch *watch)
{
    return qci_narrowest(mine->demand, watch, mine->packing, &mine->err);
}

static qc_status do_part(task *mine)
{
    qci_watch watch = {.deadline_ms = deadline_of(mine->run, mine->fabric),
                       .cancelled = must_end,
                       .progress = tell,
                       .user = mine,
                       .fabrics = (int64_t)mine->run->job->fabric_count};
    qc_status status = qci_mip_thread_begin(&mine->err);

    if (status)
        return status;
    status = mine->run->part(mine, &watch);
    qci_mip_thread_end();
    return status;
}

static void do_task(size_t index, void *user)
{
    run *all = user;
    task *mine = &all->tasks[index];

    if (atomic_load(&all->stop)) {
        mine->status = QC_STATUS_CANCELLED;
        return;
    }
    mine->status = do_part(mine);
    if (mine->status)
        atomic_store(&all->stop, true);
}

/* The error to hand on: that of the first fabric that failed of itself; those
 * that were stopped for its sake only say that they were cancelled. */
static qc_status first_failure(const run *all, qc_error *err)
{
    const task *failed = NULL;
    char place[32];

    for (size_t i = 0; i < all->job->fabric_count; i++) {
        const task *one = &all->tasks[i];

        if (one->status && (!failed || (failed->status == QC_STATUS_CANCELLED &&
                                        one->status != QC_STATUS_CANCELLED)))
            failed = one;
    }
    if (!failed)
        return QC_STATUS_OK;
    if (failed->status == QC_STATUS_CANCELLED)
        return qci_fail(err, QC_STATUS_CANCELLED, (qci_place){NULL, NULL}, NULL,
                        "stopped before every fabric had a plan");
    snprintf(place, sizeof place, "fabrics[%u]", (unsigned)failed->fabric);
    return qci_fail(
        err, failed->status,
        (qci_place){failed->err.field[0] ? failed->err.field : place,
                    failed->err.value},
        failed->err.allowed, "%s",
        failed->err.problem[0] ? failed->err.problem
                               : qc_status_text(failed->status));
}

/* Hands a fabric's proof over to the plan, with the job's names in it. */
static qc_status hand_over_proof(const qc_job *job, const task *from,
                                 qci_plan_fabric *to, qc_error *err)
{
    qci_proof *proof = from->packing->proof;

    from->packing->proof = NULL;
    to->proof = proof;
    if (!proof)
        return QC_STATUS_OK;
    proof->fabric = qci_strdup(job->fabrics[from->fabric].id);
    for (size_t i = 0; i < proof->pieces.count; i++) {
        qci_proof_piece *piece = &proof->pieces.at[i];

        piece->id = qci_strdup(job->pieces[piece->piece].id);
        if (!piece->id)
            return qci_no_memory(err);
    }
    return proof->fabric ? QC_STATUS_OK : qci_no_memory(err);
}

static qc_status finish_plan(const run *all, qc_plan **out, qc_error *err)
{
    size_t count = all->job->fabric_count;
    qci_found *found = qci_calloc(count, sizeof *found);
    qc_plan *plan = NULL;
    qc_status status;

    if (!found)
        return qci_no_memory(err);
    for (size_t i = 0; i < count; i++)
        found[i] = (qci_found){all->tasks[i].demand, all->tasks[i].packing};
    status = qci_plan_assemble(all->job, found, all->options.left_handed, &plan,
                               err);
    for (size_t i = 0; i < count && !status; i++)
        status =
            hand_over_proof(all->job, &all->tasks[i], &plan->fabrics[i], err);
    if (!status)
        status = qci_order_make(plan, err);
    if (!status)
        status = qci_replay_plan(plan, err);
    if (status)
        goto done;
    *out = plan;
    plan = NULL;
done:
    qci_free(found);
    qc_plan_destroy(plan);
    return status;
}

static qc_status make_tasks(run *all, qc_error *err)
{
    size_t count = all->job->fabric_count;

    all->tasks = qci_calloc(count, sizeof *all->tasks);
    if (!all->tasks)
        return qci_no_memory(err);
    for (size_t i = 0; i < count; i++) {
        all->tasks[i].run = all;
        all->tasks[i].fabric = (uint32_t)i;
        qc_error_init(&all->tasks[i].err);
    }
    return QC_STATUS_OK;
}

static void end_tasks(run *all)
{
    for (size_t i = 0; all->tasks && i < all->job->fabric_count; i++) {
        qci_demand_destroy(all->tasks[i].demand);
        qci_packing_destroy(all->tasks[i].packing);
    }
    qci_free(all->tasks);
}

/* One part of the work on every fabric, to be done by `end_ms`. */
static qc_status do_all(run *all,
                        qc_status (*part)(task *mine, const qci_watch *watch),
                        int64_t end_ms, qc_error *err)
{
    qc_status status;

    all->part = part;
    all->end_ms = end_ms;
    status = qci_pool_run(all->job->fabric_count, (size_t)all->options.threads,
                          do_task, all, err);
    return status ? status : first_failure(all, err);
}

qc_status qc_job_solve(const qc_job *job, const qc_solve_options *options,
                       qc_plan **out_plan, qc_error *err)
{
    run all = {.job = job, .telling = PTHREAD_MUTEX_INITIALIZER};
    int64_t limit;
    qc_status status;

    *out_plan = NULL;
    status = qci_solve_options_take(options, &all.options, err);
    if (status)
        return status;
    limit = all.options.time_limit_ms == QC_DEFAULT ? job->time_limit_ms
                                                    : all.options.time_limit_ms;
    all.start_ms = qci_clock_ms();
    atomic_init(&all.stop, false);
    status = make_tasks(&all, err);
    if (!status)
        status = do_all(&all, make_packing,
                        all.start_ms + limit * PACKING_SHARE / 100, err);
    if (!status)
        status = do_all(&all, find_width, all.start_ms + limit, err);
    if (!status)
        status = finish_plan(&all, out_plan, err);
    end_tasks(&all);
    pthread_mutex_destroy(&all.telling);
    return status;
}
