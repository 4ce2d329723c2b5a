/* A pool that lives for one call: threads draw the number of the next task from
 * a shared counter until none is left.
 *
 * The caller's own thread only waits. GLPK keeps its state per thread, and the
 * caller's thread may hold problems of the host's own, so no task may run there
 * even when there is but one.
 */
#include "solve/pool.h"

#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

#include "base/alloc.h"
#include "base/error.h"

typedef struct pool {
    atomic_size_t next;
    size_t count;
    void (*work)(size_t task, void *user);
    void *user;
} pool;

size_t qci_pool_cores(void)
{
    long cores = sysconf(_SC_NPROCESSORS_ONLN);

    return cores > 0 ? (size_t)cores : 1;
}

static void *draw_tasks(void *user)
{
    pool *shared = user;
    size_t task;

    while ((task = atomic_fetch_add(&shared->next, 1)) < shared->count)
        shared->work(task, shared->user);
    return NULL;
}

qc_status qci_pool_run(size_t count, size_t threads,
                       void (*work)(size_t task, void *user), void *user,
                       qc_error *err)
{
    pool shared = {.count = count, .work = work, .user = user};
    pthread_t *started = NULL;
    size_t running = 0;

    if (!count)
        return QC_STATUS_OK;
    if (threads > count)
        threads = count;
    started = qci_calloc(threads, sizeof *started);
    if (!started)
        return qci_no_memory(err);
    atomic_init(&shared.next, 0);
    while (running < threads &&
           !pthread_create(&started[running], NULL, draw_tasks, &shared))
        running++;
    for (size_t i = 0; i < running; i++)
        pthread_join(started[i], NULL);
    qci_free(started);
    if (!running)
        return qci_fail(err, QC_STATUS_NO_MEMORY, (qci_place){NULL, NULL}, NULL,
                        "the system gave no thread to solve on");
    return QC_STATUS_OK;
}
