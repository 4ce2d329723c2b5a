/* The thread's own GLPK environment, from first call to last.
 *
 * GLPK keeps its state in an environment block, one per thread where it was
 * built so (glp_config("TLS")). Freeing it after a fatal error destroys all
 * problems of its thread, so it must be a thread that the host never uses GLPK
 * on. Where there is one environment for the whole process, sessions exclude
 * one another by a lock, and a host that has begun to use GLPK is left alone:
 * opening a session then fails. */
#include <pthread.h>
#include <stdatomic.h>
#include <stddef.h>
#include <string.h>

#include <glpk.h>

#include "base/error.h"
#include "mip/guard.h"
#include "mip/mip.h"

/* Far above need (a model of a large job takes some 10 MB): it is there to keep
 * a runaway from taking the host's memory. */
#define MEMORY_CAP_MB 1024

static _Thread_local qci_session session;
static atomic_uint_fast64_t last_number;
static pthread_mutex_t process_lock = PTHREAD_MUTEX_INITIALIZER;

#ifdef QCI_TESTING
static atomic_int test_cap;
static atomic_bool test_one_environment;

void qci_mip_test_memory_cap(int megabytes)
{
    atomic_store(&test_cap, megabytes);
}

void qci_mip_test_one_environment(bool yes)
{
    atomic_store(&test_one_environment, yes);
}

static int memory_cap(void)
{
    int cap = atomic_load(&test_cap);

    return cap ? cap : MEMORY_CAP_MB;
}

static bool one_environment(void)
{
    return atomic_load(&test_one_environment) || !glp_config("TLS");
}
#else
static int memory_cap(void)
{
    return MEMORY_CAP_MB;
}

static bool one_environment(void)
{
    return !glp_config("TLS");
}
#endif

qci_session *qci_session_here(void)
{
    return &session;
}

static void unlock(void)
{
    if (session.locked)
        pthread_mutex_unlock(&process_lock);
    session.locked = false;
}

/* The cap can fail only through a fatal error, so it is set under the guard. */
static qc_status settle(void *arg, qc_error *err)
{
    (void)arg, (void)err;
    glp_term_out(GLP_OFF);
    glp_mem_limit(memory_cap());
    return QC_STATUS_OK;
}

qc_status qci_mip_thread_begin(qc_error *err)
{
    qc_status st;
    int rc;

    if (session.number)
        return qci_fail(err, QC_STATUS_SOLVER, (qci_place){NULL, NULL}, NULL,
                        "%s", "the solver is open on this thread already");
    session.locked = one_environment();
    if (session.locked)
        pthread_mutex_lock(&process_lock);
    rc = glp_init_env();
    if (rc) {
        unlock();
        if (rc == 2)
            return qci_no_memory(err);
        return qci_fail(err, QC_STATUS_SOLVER, (qci_place){NULL, NULL}, NULL,
                        "%s", "GLPK is in use outside the library here");
    }
    session.number = atomic_fetch_add(&last_number, 1) + 1;
    session.dead = QC_STATUS_OK;
    session.inside = false;
    glp_error_hook(qci_guard_on_error, &session);
    glp_term_hook(qci_guard_on_text, &session);
    st = qci_guard(settle, NULL, err);
    if (st)
        qci_mip_thread_end();
    return st;
}

void qci_mip_thread_end(void)
{
    if (!session.number)
        return;
    if (!session.dead)
        glp_free_env();
    session.number = 0;
    unlock();
}
