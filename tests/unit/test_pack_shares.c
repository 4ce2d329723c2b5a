/* How the time of a fabric is shared out. The clock stands still here; the
 * search for the length may take all that is left of a limit, or its share
 * where goals come after it, also where that is less than a tenth of a second,
 * as it is in tops of many fabrics. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/clock.h"
#include "pack/search.h"
#include "pack_every.h"

#define NOW 5000

static int64_t deadline; /* of the search for the length */

int64_t __wrap_qci_clock_ms(void);
qc_status __real_qci_search(qci_master *master, const qci_aim *aim,
                            qci_solution *best, int64_t *bound, qc_error *err);
qc_status __wrap_qci_search(qci_master *master, const qci_aim *aim,
                            qci_solution *best, int64_t *bound, qc_error *err);

int64_t __wrap_qci_clock_ms(void)
{
    return NOW;
}

qc_status __wrap_qci_search(qci_master *master, const qci_aim *aim,
                            qci_solution *best, int64_t *bound, qc_error *err)
{
    if (!deadline)
        deadline = master->watch->deadline_ms;
    return __real_qci_search(master, aim, best, bound, err);
}

/* Milliseconds that the search for the length has, of so many. */
static int64_t share_of(int64_t limit, const qc_goal *goals, size_t count)
{
    qci_watch watch = {.deadline_ms = NOW + limit, .fabrics = 1};
    qci_packing *packing = NULL;
    tiny t;

    tiny_init(&t, 20, true, true);
    t.demand.goals = goals;
    t.demand.goal_count = count;
    tiny_add(&t, 7, 3, 5, true);
    tiny_add(&t, 4, 2, 9, true);
    deadline = 0;
    assert_int_equal(qci_pack(&t.demand, &watch, &packing, NULL), 0);
    qci_packing_destroy(packing);
    return deadline - NOW;
}

static void test_shares(void **state)
{
    static const qc_goal goals[] = {QC_GOAL_BOUGHT, QC_GOAL_SETUPS};

    (void)state;
    assert_int_equal(share_of(10000, goals, 1), 10000);
    assert_int_equal(share_of(10000, goals, 2), 7000);
    assert_int_equal(share_of(190, goals, 2), 133);
    assert_int_equal(share_of(50, goals, 2), 35);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_shares)};

    return cmocka_run_group_tests(tests, every_begin, every_end);
}
