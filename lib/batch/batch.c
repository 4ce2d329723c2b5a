/* Jobs on a pool of threads, handed out in the order of the list.
 *
 * The budget of threads is shared before anything begins, so that no job's
 * share depends on chance: with more jobs than threads each job has one and so
 * many jobs run at once; with fewer, all run at once and share the threads out.
 * A thread that drew a job only waits while the job's own threads work.
 *
 * Whoever ends a job hands out all that are next and ended, under the lock that
 * progress is told under too. Cost: one error record and one pointer for a job.
 */
#include <quiltcut/batch.h>

#include <pthread.h>

#include "base/alloc.h"
#include "base/error.h"
#include "solve/cancel.h"
#include "solve/options.h"
#include "solve/pool.h"

typedef struct batch {
    const qc_job *const *jobs;
    size_t count;
    qc_solve_options options;
    qc_batch_fn each;
    void *user;
    pthread_mutex_t telling; /* guards what follows */
    struct entry *entries;
    size_t next; /* all before it were handed out */
} batch;

/* A job of the batch. */
typedef struct entry {
    batch *all;
    bool ended;
    qc_plan *plan;
    qc_error err;
} entry;

/* How many threads a job may have. */
static int32_t share_of(const batch *all, size_t index)
{
    size_t threads = (size_t)all->options.threads;

    if (all->count >= threads)
        return 1;
    return (int32_t)(threads / all->count + (index < threads % all->count));
}

static void tell(const qc_progress *progress, void *user)
{
    const entry *one = user;
    batch *all = one->all;
    qc_progress told = *progress;

    told.job = (size_t)(one - all->entries);
    pthread_mutex_lock(&all->telling);
    all->options.progress(&told, all->options.user);
    pthread_mutex_unlock(&all->telling);
}

static void solve_entry(entry *one)
{
    batch *all = one->all;
    size_t index = (size_t)(one - all->entries);
    qc_solve_options options = all->options;

    if (qci_cancel_raised(options.cancel)) {
        qci_fail(&one->err, QC_STATUS_CANCELLED, (qci_place){NULL, NULL}, NULL,
                 "stopped before this job was begun");
        return;
    }
    options.threads = share_of(all, index);
    options.progress = options.progress ? tell : NULL;
    options.user = one;
    qc_job_solve(all->jobs[index], &options, &one->plan, &one->err);
}

static void do_job(size_t index, void *user)
{
    batch *all = user;

    solve_entry(&all->entries[index]);
    pthread_mutex_lock(&all->telling);
    all->entries[index].ended = true;
    for (; all->next < all->count && all->entries[all->next].ended;
         all->next++) {
        const entry *one = &all->entries[all->next];

        all->each(all->next, one->plan, &one->err, all->user);
    }
    pthread_mutex_unlock(&all->telling);
}

static entry *make_entries(batch *all)
{
    entry *entries = qci_calloc(all->count, sizeof *entries);

    for (size_t i = 0; entries && i < all->count; i++) {
        entries[i].all = all;
        qc_error_init(&entries[i].err);
    }
    return entries;
}

qc_status qc_batch_solve(const qc_job *const *jobs, size_t count,
                         const qc_solve_options *options, qc_batch_fn each,
                         void *user, qc_error *err)
{
    batch all = {.jobs = jobs,
                 .count = count,
                 .each = each,
                 .user = user,
                 .telling = PTHREAD_MUTEX_INITIALIZER};
    qc_status status = qci_solve_options_take(options, &all.options, err);

    if (status)
        return status;
    all.entries = make_entries(&all);
    if (!all.entries)
        return qci_no_memory(err);
    status =
        qci_pool_run(count, (size_t)all.options.threads, do_job, &all, err);
    qci_free(all.entries);
    pthread_mutex_destroy(&all.telling);
    return status;
}
