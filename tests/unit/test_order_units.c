/* The cut order of what is trimmed back once it is sewn, and the words of the
 * left hand. Worked out on paper from the rules of plan.h. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/order.h"
#include "order_expect.h"

/* Units that were cut 1/8 in too large each way. */
static void trimmed_back(void **state)
{
    static const struct {
        qc_shape shape;
        const char *text;
    } cases[] = {
        {QC_SHAPE_HALF_SQUARE_TRIANGLE,
         "Units with A: once sewn, trim each unit to 3 1/2 x 3 1/2 in: lay the "
         "ruler's 45-degree line on the seam, trim two sides, turn the unit "
         "halfway round, lay these two on the ruler's lines for the size and "
         "trim the other two (6 triangles A)."},
        {QC_SHAPE_QUARTER_SQUARE_TRIANGLE,
         "Units with A: once sewn, trim each unit to 3 1/2 x 3 1/2 in: lay the "
         "ruler's 45-degree line on one seam, the point where the seams cross "
         "1 3/4 in from both edges, trim two sides, turn the unit halfway "
         "round, lay these two on the ruler's lines for the size and trim the "
         "other two (12 triangles A)."},
        {QC_SHAPE_SQUARE,
         "Units with A: once sewn, trim each unit to 3 1/2 x 3 1/2 in: lay the "
         "ruler so that the middle is 1 3/4 in from both edges, trim two "
         "sides, turn the unit halfway round, lay these two on the ruler's "
         "lines for the size and trim the other two (3 pieces A)."},
        {QC_SHAPE_DIAMOND,
         "Units with A: once sewn, trim each unit to 3 1/2 in high and 3 1/2 "
         "in between the slanted sides, square to them: keep its angles, and "
         "take as much off every side (3 diamonds A)."},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qc_plan *plan = hand_plan();
        const qc_step *step;

        hand_fabric(plan, "sand", INCHES(40), 0);
        hand_triangle(plan, "A", EIGHTHS(36), cases[i].shape);
        plan->pieces[0].trim_to[0] = plan->pieces[0].trim_to[1] = EIGHTHS(28);
        hand_strip(plan, EIGHTHS(36), 1);
        hand_row(plan, 3, 0, QC_TURN_NONE);
        order_plan(plan, INCHES(4));
        /* It comes after the leftover. */
        step = qc_plan_step_at(plan, qc_plan_step_count(plan) - 1);
        assert_int_equal(step[-1].kind, QC_STEP_KEEP);
        order_expect_step(
            step, &(order_expected){QC_STEP_TRIM_BACK, N, N, 0, EIGHTHS(28), 0,
                                    0, plan->pieces[0].count, 1, 0, 0, 0, 0});
        assert_string_equal(step->source, "units with A");
        order_expect_text(plan, step->number - 1, cases[i].text);
        qc_plan_destroy(plan);
    }
}

static void a_rectangle_trimmed_back(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", EIGHTHS(36), EIGHTHS(20));
    plan->pieces[0].trim_to[0] = EIGHTHS(35);
    plan->pieces[0].trim_to[1] = EIGHTHS(19);
    hand_strip(plan, EIGHTHS(20), 1);
    hand_row(plan, 3, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(40));
    assert_non_null(strstr(order_text(plan, 3),
                           "trim each unit to 4 3/8 x 2 3/8 in: lay the ruler "
                           "so that the middle is 2 3/16 in across and 1 3/16 "
                           "in along from the edges, trim"));
    qc_plan_destroy(plan);
}

/* Every word for a side of the ordinary steps. */
static void the_left_hand(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), EIGHTHS(4));
    hand_piece(plan, "A", INCHES(5), INCHES(2));
    hand_piece(plan, "B", INCHES(4), EIGHTHS(12));
    hand_triangle(plan, "C", INCHES(5), QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    hand_strip(plan, INCHES(5), 2);
    hand_row(plan, 1, 2, QC_TURN_NONE);
    hand_subcut(plan, 3);
    hand_stack(plan, 0, 1, QC_TURN_NONE);
    hand_stack(plan, 1, 2, QC_TURN_NONE);
    hand_strip(plan, INCHES(2), 1);
    hand_row(plan, 8, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(2));
    assert_int_equal(qc_plan_step_count(plan), 14);
    for (size_t i = 0; i < 14; i++) {
        char *text = qci_strdup(order_text(plan, i));

        order_expect_text(plan, i, text);
        qci_free(text);
    }
    plan->left_handed = true;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_string_equal(order_text(plan, 3),
                        "Strip 1: open the 2 strips out flat, lay them in one "
                        "pile and square the right ends, cutting off the "
                        "selvage.");
    assert_non_null(strstr(order_text(plan, 5), "going on to the left, cut"));
    assert_non_null(strstr(order_text(plan, 8), "from the right edge, cut"));
    assert_non_null(strstr(order_text(plan, 11), "from lower right to upper "
                                                 "left, and cut; move nothing, "
                                                 "and cut the other way, from "
                                                 "lower left to upper right"));
    assert_non_null(strstr(order_text(plan, 12), "Keep the left ends of strip "
                                                 "1"));
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(trimmed_back),
        cmocka_unit_test(a_rectangle_trimmed_back),
        cmocka_unit_test(the_left_hand),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
