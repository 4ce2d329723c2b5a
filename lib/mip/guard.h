/* The thread's session with GLPK, and the one way to call GLPK. Inner to the
 * room. */
#ifndef QCI_MIP_GUARD_H
#define QCI_MIP_GUARD_H

#include <setjmp.h>
#include <stdbool.h>
#include <stdint.h>

#include <quiltcut/status.h>

/* A session lies in thread-local storage, so it outlives every object made in
 * it that is destroyed on the same thread. */
typedef struct qci_session {
    uint64_t number; /* unique in the process; 0 = none is open */
    qc_status dead;  /* OK, or what every call answers since the fatal error */
    bool locked;     /* this session holds the process lock */
    bool inside;     /* a guarded body is running: `jump` is valid */
    jmp_buf jump;
    char text[160]; /* what GLPK said before it gave up */
} qci_session;

/* The calling thread's own. */
qci_session *qci_session_here(void);

/* OK when the calling thread's session is open, alive, and the one numbered
 * `number` (0: any). */
qc_status qci_session_check(uint64_t number, qc_error *err);

/* Runs body(arg), which may call GLPK, with a way back from fatal errors: they
 * free the environment, kill the session and make this return QC_STATUS_SOLVER
 * or QC_STATUS_NO_MEMORY. The body must own no memory of ours while it calls
 * GLPK, since a jump passes over it. */
typedef qc_status (*qci_guard_body)(void *arg, qc_error *err);
qc_status qci_guard(qci_guard_body body, void *arg, qc_error *err);

/* The hooks of a session, for glp_error_hook() and glp_term_hook(). */
void qci_guard_on_error(void *session);
int qci_guard_on_text(void *session, const char *text);

#ifdef QCI_TESTING
/* Settings of the tests: the memory cap of sessions opened from now on (0: the
 * usual one), and whether to act as if GLPK had one environment per process. */
void qci_mip_test_memory_cap(int megabytes);
void qci_mip_test_one_environment(bool yes);
/* How many rungs of the simplex ladder act as if they stalled. */
void qci_mip_test_stalls(int rungs);
/* Solves that had to go on to the second rung or further, so far. */
int qci_mip_test_climbs(void);
/* Commits a fatal error on purpose. */
qc_status qci_mip_test_fatal(qc_error *err);
#endif

#endif
