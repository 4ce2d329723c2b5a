/* What strips are worth, goal by goal, counted on paper. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "pack/result.h"
#include "pack_every.h"

/* Forms for the strips below: 0: 4 x 5; 1: 4 x 3; 2: 3 x 2; 3: 4 x 2. */
static void hand_forms(tiny *t)
{
    tiny_init(t, 40, true, true);
    tiny_add(t, 4, 5, 1, false);
    tiny_add(t, 4, 3, 1, false);
    tiny_add(t, 3, 2, 1, false);
    tiny_add(t, 4, 2, 1, false);
}

static void test_strip_cuts(void **state)
{
    qci_stack full[] = {{0, 1}}, low[] = {{1, 1}}, two[] = {{1, 1}, {3, 1}};
    qci_stack narrow[] = {{1, 1}, {2, 1}}, thin[] = {{2, 1}}, pair[] = {{3, 2}};
    /* Counted on paper, a strip 5 high. Every strip is cut off the bolt; a pile
     * is squared; then a section takes one cut that frees it, and: */
    const struct {
        qci_section section;
        int32_t repeat;
        int64_t cuts;
    } rows[] = {
        {{1, false, 1, full}, 1, 1 + 1 + 1},     /* nothing more */
        {{3, false, 1, full}, 1, 1 + 1 + 3},     /* nothing more, three times */
        {{1, false, 1, low}, 1, 1 + 1 + 1 + 1},  /* the trim above it */
        {{1, false, 1, thin}, 1, 1 + 1 + 1 + 1}, /* the same */
        {{1, false, 2, two}, 1, 1 + 1 + 1 + 1},  /* the split */
        {{1, false, 2, narrow},
         1,
         1 + 1 + 1 + 2}, /* the split, the upper's side */
        {{2, false, 1, pair},
         1,
         1 + 1 + 2 * 3}, /* the split, the trim; twice */
        {{2, false, 1, pair}, 4, 4 + 1 + 2 * 3},       /* in one pile of four */
        {{2, false, 1, pair}, 5, 5 + 2 * (1 + 2 * 3)}, /* in two piles */
        {{9, false, 2, two}, 13, 13 + 4 * (1 + 9 * 2)},
    };
    tiny t;

    (void)state;
    hand_forms(&t);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        qci_section section = rows[i].section;
        qci_strip strip = {5, rows[i].repeat, false, false, false, 1, &section};

        assert_int_equal(qci_strip_cuts(&t.demand, &strip), rows[i].cuts);
    }
}

static void test_values(void **state)
{
    qci_stack full[] = {{0, 1}}, low[] = {{1, 1}}, low2[] = {{3, 1}};
    qci_section a = {9, false, 1, full}, b = {7, false, 1, low},
                c = {5, false, 1, low}, d = {2, false, 1, low2};
    qci_strip strips[] = {{5, 2, false, false, false, 1, &a},
                          {3, 1, false, false, false, 1, &b},
                          {3, 1, false, true, false, 1, &c},
                          {2, 1, false, false, false, 1, &d}};
    qci_packing p = {
        .strips = strips, .strip_count = 4, .used = 20, .bought = 36};
    tiny t;

    (void)state;
    hand_forms(&t);
    t.demand.square_up = 2;
    t.demand.purchase = (qci_purchase){12, 2500};
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_BOUGHT), 36);
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_MONEY), 36);
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_USED), 20);
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_SETUPS), 3);
    /* The squaring of the bolt, and what the strips take. */
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_CUTS),
                     1 + (2 + 1 + 9) + (1 + 1 + 7) + (1 + 1 + 5) + (1 + 1 + 2));
    /* 36 shrink to 27, of which 7 are left over at the end of the bolt. */
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_LEFTOVER), 7 * 40);
    t.demand.keep = 8; /* the end is not worth keeping, nor is any strip's */
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_LEFTOVER), 0);
    p.used = 27;
    t.demand.keep =
        2; /* beside two 4s in 40, 2 high, and beside five, 3 high */
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_LEFTOVER), 2 * 32);
    t.demand.keep = 3;
    assert_int_equal(qci_result_value(&t.demand, &p, QC_GOAL_LEFTOVER), 3 * 20);
    assert_int_equal(
        qci_result_used(&t.demand, &(qci_model){.height_unit = 3}, 5), 17);
    assert_int_equal(
        qci_result_used(&t.demand, &(qci_model){.height_unit = 3}, 0), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strip_cuts),
        cmocka_unit_test(test_values),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
