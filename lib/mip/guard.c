/* Getting out of GLPK's fatal errors alive.
 *
 * GLPK answers misuse, failed allocations and broken invariants by calling an
 * error hook, and ends the process if the hook returns. Ours jumps to
 * qci_guard(), which still stands on the stack, since the body is a function of
 * its own below it. After the jump only the session is read, never a local of
 * the body. GLPK's environment stays flagged as failed until it is freed, and
 * with it go all problems of the thread: hence the session is dead from there.
 *
 * Guarded calls do not nest: an inner fatal error would free what the outer
 * call is still running on. Cost: one setjmp (some 20 ns) a call. */
#include "mip/guard.h"

#include <string.h>

#include <glpk.h>

#include "base/error.h"

void qci_guard_on_error(void *session)
{
    qci_session *here = session;

    if (here->inside)
        longjmp(here->jump, 1);
}

/* GLPK's ordinary talk is turned off, so what comes is the text of a fatal
 * error, line by line. */
int qci_guard_on_text(void *session, const char *text)
{
    qci_session *here = session;
    size_t used = strlen(here->text);

    for (; glp_at_error() && *text && used + 1 < sizeof here->text; text++)
        here->text[used++] = *text == '\n' ? ' ' : *text;
    here->text[used] = '\0';
    return 1;
}

/* GLPK has no error codes here; its allocator's texts all hold one of these. */
static bool says_no_memory(const char *text)
{
    return strstr(text, "memory") || strstr(text, "block too large");
}

static void bury(qci_session *here)
{
    size_t size;

    here->inside = false;
    here->dead =
        says_no_memory(here->text) ? QC_STATUS_NO_MEMORY : QC_STATUS_SOLVER;
    glp_free_env();
    for (size = strlen(here->text); size && here->text[size - 1] == ' ';)
        here->text[--size] = '\0';
}

qc_status qci_session_check(uint64_t number, qc_error *err)
{
    const qci_session *here = qci_session_here();

    if (!here->number || (number && number != here->number))
        return qci_fail(err, QC_STATUS_SOLVER, (qci_place){NULL, NULL}, NULL,
                        "%s", "the solver is not open on this thread");
    if (here->dead)
        return qci_fail(err, here->dead, (qci_place){NULL, NULL}, NULL,
                        "the solver failed: %s", here->text);
    if (here->inside)
        return qci_fail(err, QC_STATUS_SOLVER, (qci_place){NULL, NULL}, NULL,
                        "%s", "the solver was called from its own callback");
    return QC_STATUS_OK;
}

qc_status qci_guard(qci_guard_body body, void *arg, qc_error *err)
{
    qci_session *here = qci_session_here();
    qc_status st = qci_session_check(0, err);

    if (st)
        return st;
    here->text[0] = '\0';
    if (setjmp(here->jump)) {
        bury(here);
        return qci_session_check(0, err);
    }
    here->inside = true;
    st = body(arg, err);
    here->inside = false;
    return st;
}

#ifdef QCI_TESTING
static qc_status commit_fatal(void *arg, qc_error *err)
{
    (void)arg, (void)err;
    glp_add_rows(glp_create_prob(), -1);
    return QC_STATUS_OK;
}

qc_status qci_mip_test_fatal(qc_error *err)
{
    return qci_guard(commit_fatal, NULL, err);
}
#endif
