/* The replay's answer to a plan, and its sentence. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "replay/replay.h"
#include "replay_lies.h"

void replay_accept(const qc_plan *plan)
{
    qc_error err;
    char line[512];

    qc_error_init(&err);
    if (qci_replay_plan(plan, &err) != QC_STATUS_OK) {
        qc_error_format(&err, NULL, line, sizeof line);
        fail_msg("rejected: %s", line);
    }
}

void replay_reject(const qc_plan *plan, const char *name, const char *field,
                   const char *problem)
{
    qc_error err;

    qc_error_init(&err);
    if (qci_replay_plan(plan, &err) != QC_STATUS_REJECTED)
        fail_msg("%s: not rejected", name);
    if (strcmp(err.field, field) != 0 || !strstr(err.problem, problem))
        fail_msg("%s: said at %s: %s", name, err.field, err.problem);
    assert_int_equal(err.code, QC_STATUS_REJECTED);
}

void replay_without_memory(const qc_plan *plan)
{
    long before = qci_alloc_live();
    long calls;

    qci_alloc_fail_at(0, 0);
    replay_accept(plan);
    calls = qci_alloc_count();
    assert_true(calls > 3);
    for (long n = 1; n <= calls; n++) {
        qci_alloc_fail_at(n, 0);
        assert_int_equal(qci_replay_plan(plan, NULL), QC_STATUS_NO_MEMORY);
    }
    qci_alloc_fail_at(0, 0);
    assert_int_equal(qci_alloc_live(), before);
}
