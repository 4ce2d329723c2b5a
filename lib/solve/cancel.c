/* The cancel flag: one atomic that only ever goes from down to up.
 *
 * It is raised from any thread and from signal handlers, so it must be lock
 * free; nothing is waited for or woken, the solve looks at it often enough.
 */
#include "solve/cancel.h"

#include <stdatomic.h>

#include "base/alloc.h"

_Static_assert(ATOMIC_BOOL_LOCK_FREE == 2,
               "a signal handler may only touch lock-free atomics");

struct qc_cancel {
    atomic_bool raised;
};

qc_cancel *qc_cancel_create(void)
{
    qc_cancel *cancel = qci_calloc(1, sizeof *cancel);

    if (cancel)
        atomic_init(&cancel->raised, false);
    return cancel;
}

void qc_cancel_raise(qc_cancel *cancel)
{
    if (cancel)
        atomic_store(&cancel->raised, true);
}

bool qci_cancel_raised(qc_cancel *cancel)
{
    return cancel && atomic_load(&cancel->raised);
}

void qc_cancel_destroy(qc_cancel *cancel)
{
    qci_free(cancel);
}
