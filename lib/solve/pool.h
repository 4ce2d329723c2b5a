/* A few threads that share a list of tasks. */
#ifndef QCI_SOLVE_POOL_H
#define QCI_SOLVE_POOL_H

#include <stddef.h>

#include <quiltcut/status.h>

/* Cores that are online, at least 1. */
size_t qci_pool_cores(void);

/* Calls work(0) .. work(count - 1), each once and begun in this order, on
 * `threads` threads of the pool's own (at least one, even for one task), and
 * waits for all of them. Fewer threads are used where the system gives no more.
 * @return QC_STATUS_OK, or QC_STATUS_NO_MEMORY when no thread could be started
 *         and no task was begun. */
qc_status qci_pool_run(size_t count, size_t threads,
                       void (*work)(size_t task, void *user), void *user,
                       qc_error *err);

#endif
