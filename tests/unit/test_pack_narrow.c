/* The narrowest width that suffices, where many fabrics share the work on it:
 * seeded fabrics as in a top, each asked for as one of 40. Together their
 * widths were 7,988 eighths of an inch when this was written, 7,942 with the
 * work that a single fabric is given, and 8,003 when the first widths asked for
 * took all the work, though they left too little room. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pack/narrow.h"
#include "pack_every.h"

#define FABRICS 24
/* In eighths of an inch: cloth of 42 in, bought by the eighth of a yard. */
#define WIDTH 336
#define STEP 36
#define MOST 7995
#define FIRST_SEED 9101

static qc_length narrowest(const qci_demand *demand, int64_t fabrics)
{
    qci_watch watch = {.deadline_ms = INT64_MAX, .fabrics = fabrics};
    qci_packing *packing = NULL;
    qc_length width;

    assert_int_equal(qci_pack(demand, &watch, &packing, NULL), 0);
    assert_int_equal(packing->narrowest_width, 0);
    assert_int_equal(qci_narrowest(demand, &watch, packing, NULL), 0);
    width = packing->narrowest_width;
    qci_packing_destroy(packing);
    assert_true(width > 0 && width <= WIDTH);
    return width;
}

static void draw(tiny *t, mini_random *r)
{
    static const qc_goal bought = QC_GOAL_BOUGHT;

    tiny_init(t, WIDTH, true, true);
    t->demand.goals = &bought;
    t->demand.goal_count = 1;
    t->demand.purchase.step = STEP;
    for (int row = 0; row < TINY_ROWS; row++)
        tiny_add(t, mini_between(r, 16, 68), mini_between(r, 16, 68),
                 mini_between(r, 4, 20), true);
}

static void test_many_fabrics(void **state)
{
    int64_t sum = 0;

    (void)state;
    for (uint64_t i = 0; i < FABRICS; i++) {
        mini_random r = {FIRST_SEED + i};
        tiny t;

        draw(&t, &r);
        sum += narrowest(&t.demand, 40);
    }
    print_message("%lld eighths\n", (long long)sum);
    assert_true(sum <= MOST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_many_fabrics)};

    return cmocka_run_group_tests(tests, every_begin, every_end);
}
