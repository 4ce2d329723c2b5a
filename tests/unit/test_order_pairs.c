/* The cut order of pieces that have hands: strips that lie right sides up, and
 * strips in pairs, right sides together. Worked out on paper from the rules of
 * plan.h. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "hand_plan.h"
#include "order/order.h"
#include "order_expect.h"

/* Left-leaning ones, of which only this hand is wanted: the wedge is wasted of
 * the lower edge, and the strips lie right sides up. What is left beside the
 * slant is kept: 42 - 3 x pitch - 3 in. */
static void one_hand(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(3), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SLANT, 1, N, N, 0, -INCHES(3), INCHES(3), 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, INCHES(3), -INCHES(3), PITCH_45, 1, 1, 3, 3,
         3, 3},
        {QC_STEP_KEEP, 1, N, N, INCHES(39) - 3 * PITCH_45, 0, 0, 1, 1, 0, 0, 1,
         0},
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), 0);
    order_rhomb(plan, "D", QC_HAND_LEFT);
    hand_strip(plan, INCHES(3), 1);
    hand_slanted(plan, 3, 0, PITCH_45, -INCHES(3), -INCHES(3), false);
    order_plan(plan, INCHES(2));
    EXPECT_STEPS(plan, steps);
    order_expect_text(
        plan, 1,
        "Strip 1: open the strip out flat, right side up, and square "
        "the left end, cutting off the selvage.");
    order_expect_text(
        plan, 2,
        "Strip 1: lay the ruler's 45-degree line along the lower edge, "
        "its edge leaning to the left, through the upper left corner, "
        "and cut a wedge off the strip: it wastes 3 in of the lower "
        "edge.");
    /* Three cuts: nothing to true. */
    order_expect_text(
        plan, 3,
        "Strip 1: set the ruler to 3 in, measured square to the "
        "slanted edge (along the strip that is about 4 1/4 in), and, "
        "from the slanted end, cut 3 diamonds D from the strip (3 in "
        "all).");
    assert_non_null(strstr(order_text(plan, 4),
                           "Keep the right end of strip 1: 1 "
                           "rectangle, "));
    assert_non_null(
        strstr(order_text(plan, 4), ", beside the slant (leftover 1)."));
    qc_plan_destroy(plan);
}

/* The same of several strips, in piles and one at a time. */
static void right_sides_up(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), 0);
    order_rhomb(plan, "D", QC_HAND_RIGHT);
    hand_strip(plan, INCHES(3), 6);
    hand_slanted(plan, 9, 0, PITCH_45, INCHES(3), INCHES(3), false);
    order_plan(plan, INCHES(9));
    order_expect_text(
        plan, 1,
        "Strip 1: open the 6 strips out flat, all right sides up, pile "
        "them up to 4 deep and square the left ends, cutting off the "
        "selvage.");
    plan->layers = 1;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    order_expect_text(
        plan, 1,
        "Strip 1: lay the 6 strips out flat, all right sides up, and, "
        "one at a time, square the left ends, cutting off the "
        "selvage.");
    plan->layers = 8;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    order_expect_text(
        plan, 1,
        "Strip 1: open the 6 strips out flat, all right sides up, lay "
        "them in one pile and square the left ends, cutting off the "
        "selvage.");
    qc_plan_destroy(plan);
}

/* Both hands from `strips` strips in pairs, and one more strip of right ones.
 */
static qc_plan *pairs(uint32_t strips, int32_t layers)
{
    qc_plan *plan = hand_plan();

    plan->layers = layers;
    hand_fabric(plan, "sand", INCHES(42), 0);
    order_rhomb(plan, "D right", QC_HAND_RIGHT);
    order_rhomb(plan, "D left", QC_HAND_LEFT);
    plan->pieces[0].twin = 1;
    plan->pieces[1].twin = 0;
    hand_strip(plan, INCHES(3), strips)->paired = true;
    hand_slanted(plan, 8, 0, PITCH_45, INCHES(3), INCHES(3), false);
    hand_strip(plan, INCHES(3), 1);
    hand_slanted(plan, 2, 0, PITCH_45, INCHES(3), INCHES(3), false);
    order_plan(plan, INCHES(40));
    return plan;
}

/* Six strips in piles of 4 layers: two piles. 48 pieces, half of each hand. */
static void pairs_give_both_hands(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(3), 0, 0, 1, 2, 6, 6, 6, 0},
        {QC_STEP_STRIP, 0, 2, N, INCHES(3), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 6, 4, 1, 2, 0, 0},
        {QC_STEP_SLANT, 1, N, N, 0, INCHES(3), 0, 6, 4, 1, 2, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, INCHES(3), INCHES(3), PITCH_45, 6, 4, 8, 16,
         48, 24},
        {QC_STEP_SQUARE_END, 2, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SLANT, 2, N, N, 0, INCHES(3), 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 2, N, 0, INCHES(3), INCHES(3), PITCH_45, 1, 1, 2, 2, 2,
         26},
    };
    qc_plan *plan = pairs(6, 5);

    (void)state;
    EXPECT_STEPS(plan, steps);
    for (size_t i = 0; i < 8; i++)
        assert_int_equal(qc_plan_step_at(plan, i)->paired, i >= 2 && i <= 4);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts,
                     7 + 2 * (1 + 1 + 8) + 1 + 1 + 2);
    assert_string_equal(
        order_text(plan, 2),
        "Strip 1: open the 6 strips out flat, lay them in twos, right sides "
        "together: each cut gives a left and a right piece; pile the pairs up "
        "to 4 deep and square the left ends, cutting off the selvage.");
    assert_string_equal(
        order_text(plan, 4),
        "Strip 1: set the ruler to 3 in, measured square to the slanted edge "
        "(along the strip that is about 4 1/4 in), and, from the slanted end, "
        "cut 8 diamonds from each of the 6 strips: D right (24 of 26 so far) "
        "and D left (24 in all). After every third cut true the angle again.");
    assert_string_equal(
        order_text(plan, 7),
        "Strip 2: set the ruler to 3 in, measured square to the slanted edge "
        "(along the strip that is about 4 1/4 in), and, from the slanted end, "
        "cut 2 diamonds D right from the strip (2 now, which makes all 26).");
    assert_non_null(strstr(order_text(plan, 5), "right side up, and square"));
    qc_plan_destroy(plan);
}

static void how_pairs_are_piled(void **state)
{
    static const struct {
        uint32_t strips;
        int32_t layers;
        uint32_t high;
        int64_t piles;
        const char *text;
    } cases[] = {
        {2, 4, 2, 1,
         "open the 2 strips out flat and lay them one on the other, right "
         "sides together: each cut gives a left and a right piece; square "},
        {4, 4, 4, 1,
         "open the 4 strips out flat, lay them in twos, right sides together: "
         "each cut gives a left and a right piece; lay the pairs in one pile "
         "and square "},
        {4, 3, 2, 2,
         "open the 4 strips out flat, lay them in twos, right sides together: "
         "each cut gives a left and a right piece; pair by pair, square "},
        /* Two layers at least, or there are no pairs. */
        {4, 1, 2, 2,
         "lay the 4 strips out flat, lay them in twos, right sides together: "
         "each cut gives a left and a right piece; pair by pair, square "},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qc_plan *plan = pairs(cases[i].strips, cases[i].layers);
        const qc_step *step = qc_plan_step_at(plan, 2);

        assert_int_equal(step->layers, cases[i].high);
        assert_int_equal(step->cuts, cases[i].piles);
        assert_non_null(strstr(step->text, cases[i].text));
        qc_plan_destroy(plan);
    }
}

/* What has no hand falls out of both strips of a pair alike. */
static void a_square_beside_pairs(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), 0);
    order_rhomb(plan, "D right", QC_HAND_RIGHT);
    order_rhomb(plan, "D left", QC_HAND_LEFT);
    plan->pieces[0].twin = 1;
    plan->pieces[1].twin = 0;
    hand_piece(plan, "E", INCHES(3), INCHES(3));
    hand_strip(plan, INCHES(3), 2)->paired = true;
    hand_row(plan, 2, 2, QC_TURN_NONE);
    hand_slanted(plan, 5, 1, PITCH_45, -INCHES(3), -INCHES(3), false);
    order_plan(plan, INCHES(40));
    assert_int_equal(qc_plan_step_at(plan, 2)->total, 4);
    assert_true(qc_plan_step_at(plan, 2)->paired);
    assert_string_equal(order_text(plan, 2),
                        "Strip 1: set the ruler to 3 in and, from the squared "
                        "end, cut 2 pieces E, 3 x 3 in, from each of the 2 "
                        "strips (4 in all).");
    assert_int_equal(qc_plan_step_at(plan, 4)->yield, 10);
    assert_int_equal(qc_plan_step_at(plan, 4)->total, 5);
    assert_non_null(strstr(order_text(plan, 4),
                           "and, going on to the right, cut 5 diamonds from "
                           "each of the 2 strips: D left (5 in all) and D "
                           "right (5 in all). After"));
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_hand),
        cmocka_unit_test(right_sides_up),
        cmocka_unit_test(pairs_give_both_hands),
        cmocka_unit_test(how_pairs_are_piled),
        cmocka_unit_test(a_square_beside_pairs),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
