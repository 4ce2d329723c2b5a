#include "fail_each.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>
#include <jansson.h>

#include "base/alloc.h"

static long json_calls, json_fail_at, json_live;

static void *json_test_malloc(size_t size)
{
    void *block = ++json_calls == json_fail_at ? NULL : malloc(size);

    json_live += block != NULL;
    return block;
}

static void json_test_free(void *block)
{
    json_live -= block != NULL;
    free(block);
}

void take_json_allocations(void)
{
    json_set_alloc_funcs(json_test_malloc, json_test_free);
}

bool nothing_is_live(void)
{
    return qci_alloc_live() == 0 && json_live == 0;
}

void fail_at(bool json, long n, bool onwards)
{
    json_calls = 0;
    json_fail_at = json ? n : 0;
    qci_alloc_fail_at(json ? 0 : n, onwards);
}

static long calls_made(bool json)
{
    return json ? json_calls : qci_alloc_count();
}

long fail_each(call make, void (*destroy)(void *), bool json, bool onwards,
               long stride)
{
    long live = qci_alloc_live(), live_json = json_live, failed = 0;

    for (long n = 1;; n += stride) {
        static char before[] = "untouched";
        void *made = before;
        qc_status st;
        qc_error err;
        long calls;

        qc_error_init(&err);
        fail_at(json, n, onwards);
        st = make(&made, &err);
        calls = calls_made(json);
        fail_at(false, 0, false);
        if (calls < n) { /* it got through before the n-th */
            assert_int_equal(st, QC_STATUS_OK);
            assert_non_null(made);
            destroy(made);
        } else if (st != QC_STATUS_NO_MEMORY || made ||
                   err.code != QC_STATUS_NO_MEMORY) {
            fail_msg("allocation %ld%s failed: status %d, record %d (%s), "
                     "result %p",
                     n, json ? " of the JSON library" : "", (int)st,
                     (int)err.code, err.problem, made);
        }
        if (qci_alloc_live() != live || json_live != live_json)
            fail_msg("allocation %ld%s failed: %ld and %ld blocks left", n,
                     json ? " of the JSON library" : "",
                     qci_alloc_live() - live, json_live - live_json);
        if (calls < n)
            return failed;
        failed++;
    }
}
