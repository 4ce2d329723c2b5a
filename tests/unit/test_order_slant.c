/* The cut order of slanted sections that are pieces as they fall. What is
 * expected was worked out on paper from the rules of plan.h; counts are those
 * of the trade facts' section C. */
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

/* 42 in wide: floor((42 - 3) / 3 sqrt2) = 9 diamonds (strip count of the trade
 * facts' section C), from each of 4 strips in one pile. 4 strip cuts, then the
 * end, the wedge and 9 more. */
static void diamonds(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(3), 0, 0, 1, 2, 4, 4, 4, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 4, 4, 1, 1, 0, 0},
        {QC_STEP_SLANT, 1, N, N, 0, INCHES(3), 0, 4, 4, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, INCHES(3), INCHES(3), PITCH_45, 4, 4, 9, 9,
         36, 36},
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), 0);
    order_rhomb(plan, "D", QC_HAND_NONE);
    hand_strip(plan, INCHES(3), 4);
    hand_slanted(plan, 9, 0, PITCH_45, INCHES(3), INCHES(3), false);
    order_plan(plan, INCHES(9));
    EXPECT_STEPS(plan, steps);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 4 + 1 + 1 + 9);
    order_expect_text(
        plan, 1,
        "Strip 1: open the 4 strips out flat, lay them in one pile and "
        "square the left ends, cutting off the selvage.");
    order_expect_text(
        plan, 2,
        "Strip 1: lay the ruler's 45-degree line along the lower edge, "
        "its edge leaning to the right, through the lower left corner, "
        "and cut a wedge off each of the 4 strips: it wastes 3 in of "
        "the upper edge.");
    order_expect_text(
        plan, 3,
        "Strip 1: set the ruler to 3 in, measured square to the "
        "slanted edge (along the strip that is about 4 1/4 in), and, "
        "from the slanted end, cut 9 diamonds D from each of the 4 "
        "strips (36 in all). After every third cut true the angle "
        "again.");
    assert_string_equal(qc_plan_step_at(plan, 2)->source, "strip 1");
    qc_plan_destroy(plan);
}

/* A triangle on its base leans inwards on both sides and fills its section, m =
 * half the side. At a width of 40 in floor((40 - side) / (side / 2)) + 1 = 22
 * fit, side = 1.1547 x 3 in (trade facts, section C). */
static void triangles_by_turns(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(3), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SLANT, 1, N, N, 0, LEAN_60, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, 0, -LEAN_60, 2 * LEAN_60, 1, 1, 22, 22, 22,
         22},
    };
    const qc_point corners[] = {{0, 0}, {2 * LEAN_60, 0}, {LEAN_60, INCHES(3)}};
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_shape(plan, "T", QC_SHAPE_EQUILATERAL_TRIANGLE, corners, 3);
    hand_strip(plan, INCHES(3), 1);
    hand_slanted(plan, 22, 0, LEAN_60, LEAN_60, -LEAN_60, true);
    order_plan(plan, INCHES(9));
    EXPECT_STEPS(plan, steps);
    assert_true(qc_plan_step_at(plan, 3)->alternate);
    assert_true(plan->fabrics[0].strips[0].used_width <= INCHES(40));
    /* 3 / sqrt3 = 1.732 in */
    order_expect_text(
        plan, 2,
        "Strip 1: lay the ruler's 60-degree line along the lower edge, "
        "its edge leaning to the right, through the lower left corner, "
        "and cut a wedge off the strip: it wastes about 1 3/4 in of "
        "the upper edge.");
    order_expect_text(
        plan, 3,
        "Strip 1: lay the ruler's 60-degree line along the lower edge, "
        "its edge leaning to the left, through the upper end of the "
        "last cut, and cut; then lay it leaning to the right, through "
        "the lower end of the last cut, and cut; and so on by turns: "
        "22 triangles T, every second one turned halfway round, from "
        "the strip (22 in all).");
    qc_plan_destroy(plan);
}

/* 5 in below, 2 1/2 in above and 2 1/2 in high, its sides running 1 1/4 in
 * inwards: no angle of a ruler. Two, the first turned by half; after them,
 * where the edge leans outwards again, a single one needs no wedge. */
static void trapezoids_by_points(void **state)
{
    const qc_length in = EIGHTHS(10), m = EIGHTHS(30);
    const qc_point corners[] = {{0, 0},
                                {EIGHTHS(40), 0},
                                {EIGHTHS(30), EIGHTHS(20)},
                                {EIGHTHS(10), EIGHTHS(20)}};
    const order_expected steps[] = {
        {QC_STEP_SLANT, 1, N, N, 0, -in, in, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, 0, in, EIGHTHS(20), 1, 1, 2, 2, 2, 2},
        {QC_STEP_SUBCUT, 1, N, 0, 0, in, EIGHTHS(20), 1, 1, 1, 1, 1, 3},
        {QC_STEP_SLANT, 1, N, N, 0, 0, in, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 1, INCHES(4), 0, INCHES(4), 1, 1, 1, 1, 1, 1},
    };
    qc_plan *plan = hand_plan();
    qc_subcut *subcut;

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_shape(plan, "T", QC_SHAPE_TRAPEZOID, corners, 4);
    hand_piece(plan, "R", INCHES(4), EIGHTHS(20));
    hand_strip(plan, EIGHTHS(20), 1);
    subcut = hand_slanted(plan, 2, 0, m, -in, in, true);
    ((qc_stack *)subcut->stacks)->turn = QC_TURN_HALF;
    subcut = hand_slanted(plan, 1, 0, m, -in, in, false);
    ((qc_stack *)subcut->stacks)->turn = QC_TURN_HALF;
    hand_slanted(plan, 1, 1, INCHES(4), 0, 0, false);
    order_plan(plan, INCHES(30));
    for (size_t i = 0; i < 5; i++)
        order_expect_step(qc_plan_step_at(plan, i + 2), &steps[i]);
    order_expect_text(
        plan, 2,
        "Strip 1: lay the ruler's edge from the point 1 1/4 in from "
        "the left end on the lower edge to the upper left corner, and "
        "cut a wedge off the strip.");
    order_expect_text(
        plan, 3,
        "Strip 1: lay the ruler's edge from the point 2 1/2 in beyond "
        "the last cut on the lower edge to the point 5 in beyond the "
        "last cut on the upper edge, and cut; then lay the ruler's "
        "edge from the point 5 in beyond the last cut on the lower "
        "edge to the point 2 1/2 in beyond the last cut on the upper "
        "edge, and cut: 2 trapezoids T, the first, third and so on "
        "turned halfway round, from the strip (2 of 3 so far).");
    order_expect_text(
        plan, 4,
        "Strip 1: lay the ruler's edge from the point 2 1/2 in beyond "
        "the last cut on the lower edge to the point 5 in beyond the "
        "last cut on the upper edge, and cut: 1 trapezoid T, lying "
        "turned halfway round, from the strip (1 now, which makes all "
        "3).");
    order_expect_text(
        plan, 5,
        "Strip 1: lay the ruler square across, through the upper end "
        "of the last cut, and cut a wedge off the strip: it wastes 1 "
        "1/4 in of the lower edge.");
    order_expect_text(
        plan, 6,
        "Strip 1: set the ruler to 4 in and, going on to the right, "
        "cut 1 piece R, 4 x 2 1/2 in, from the strip (1 in all).");
    qc_plan_destroy(plan);
}

/* On a print with an up direction every half-square triangle lies the same way,
 * its long side to the right: after each the end is squared again, which wastes
 * as much as the triangle takes. The third and fourth are told in short. */
static void all_one_way(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_SUBCUT, 1, N, 0, 0, -INCHES(3), INCHES(3), 2, 2, 1, 1, 2, 2},
        {QC_STEP_SLANT, 1, N, N, 0, 0, 0, 2, 2, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, 0, -INCHES(3), INCHES(3), 2, 2, 1, 1, 2, 4},
        {QC_STEP_SLANT, 1, N, N, 0, 0, 0, 2, 2, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, 0, -INCHES(3), INCHES(3), 2, 2, 1, 1, 2, 6},
        {QC_STEP_SLANT, 1, N, N, 0, 0, 0, 2, 2, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, 0, -INCHES(3), INCHES(3), 2, 2, 1, 1, 2, 8},
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    plan->fabrics[0].info.print = QC_PRINT_ONE_WAY;
    order_half_square(plan, "T");
    hand_strip(plan, INCHES(3), 2);
    hand_slanted(plan, 4, 0, EIGHTHS(12), 0, -INCHES(3), false);
    /* 4 triangles, 3 wedges between them and one at the end */
    assert_int_equal(plan->fabrics[0].strips[0].used_width, INCHES(12));
    order_plan(plan, INCHES(30));
    assert_int_equal(qc_plan_step_count(plan), 9);
    for (size_t i = 0; i < 7; i++)
        order_expect_step(qc_plan_step_at(plan, i + 2), &steps[i]);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 2 + 1 + 4 + 3);
    order_expect_text(
        plan, 2,
        "Strip 1: lay the ruler's 45-degree line along the lower edge, "
        "its edge leaning to the left, through the upper left corner, "
        "and cut: 1 triangle T from each of the 2 strips (2 of 8 so "
        "far).");
    order_expect_text(
        plan, 3,
        "Strip 1: lay the ruler square across, through the lower end "
        "of the last cut, and cut a wedge off each of the 2 strips: it "
        "wastes 3 in of the upper edge.");
    order_expect_text(
        plan, 4,
        "Strip 1: as in step 3, cut 1 triangle T from each of the 2 "
        "strips (2 now, 4 of 8 so far).");
    order_expect_text(
        plan, 5,
        "Strip 1: as in step 4, cut a wedge off each of the 2 strips.");
    order_expect_text(
        plan, 8,
        "Strip 1: as in step 3, cut 1 triangle T from each of the 2 "
        "strips (2 now, which makes all 8).");
    qc_plan_destroy(plan);
}

/* Half of the triangles come from squares; the two kinds are counted apart and
 * add up in the end. By turns they end square, here at the selvage. */
static void triangles_from_squares_and_strips(void **state)
{
    qc_plan *plan = hand_plan();
    const qc_subcut *subcut;

    (void)state;
    hand_fabric(plan, "sand", INCHES(21), 0);
    order_half_square(plan, "T");
    hand_strip(plan, INCHES(3), 1);
    hand_row(plan, 3, 0, QC_TURN_NONE);
    subcut = &plan->fabrics[0].strips[0].subcuts[0];
    assert_int_equal(subcut->stacks[0].yields, 2);
    hand_slanted(plan, 8, 0, EIGHTHS(12), 0, -INCHES(3), true);
    plan->pieces[0].extra = 1;
    order_plan(plan, INCHES(30));
    assert_int_equal(plan->fabrics[0].strips[0].used_width, INCHES(21));
    assert_int_equal(qc_plan_step_at(plan, 2)->total, 3);
    assert_int_equal(qc_plan_step_at(plan, 3)->total, 8);
    assert_int_equal(qc_plan_step_at(plan, 4)->total, 14);
    assert_int_equal(qc_plan_step_at(plan, 4)->yield, 6);
    order_expect_text(
        plan, 2,
        "Strip 1: set the ruler to 3 in and, from the squared end, cut "
        "3 squares for T, 3 x 3 in, from the strip (3 in all).");
    order_expect_text(
        plan, 3,
        "Strip 1: lay the ruler's 45-degree line along the lower edge, "
        "its edge leaning to the left, through the upper end of the "
        "last cut, and cut; then lay the ruler square across, through "
        "the lower end of the last cut, and cut; and so on by turns: 8 "
        "triangles T, every second one turned halfway round, from the "
        "strip, the last cut taking off the right selvage (8 in all).");
    order_expect_text(
        plan, 4,
        "Squares for T: pile the 3 squares edge to edge, straight "
        "before you; lay the ruler corner to corner, from lower left "
        "to upper right, and cut: 6 triangles T, 1 more than needed; "
        "with those from strips that makes 14. Do not pull at the new "
        "edges: they lie on the bias and stretch.");
    qc_plan_destroy(plan);
}

/* Metric, with a spacing on the ruler's own grid of half a millimetre. */
static void metric(void **state)
{
    const qc_length h = 505 * QC_MM / 10; /* 50.5 mm */
    const qc_point corners[] = {{0, 0}, {571342, 0}, {975342, h}, {h, h}};
    qc_plan *plan = hand_plan();

    (void)state;
    plan->units = QC_UNITS_MM;
    plan->ruler = QC_MM / 2;
    hand_fabric(plan, "sand", QC_M, 0);
    hand_shape(plan, "D", QC_SHAPE_DIAMOND, corners, 4);
    plan->pieces[0].cut[0] = h;
    hand_strip(plan, h, 1);
    hand_slanted(plan, 2, 0, 571342, h, h, false);
    order_plan(plan, QC_M);
    order_expect_text(
        plan, 2,
        "Strip 1: lay the ruler's 45-degree line along the lower edge, "
        "its edge leaning to the right, through the lower left corner, "
        "and cut a wedge off the strip: it wastes 50.5 mm of the upper "
        "edge.");
    /* 50.5 sqrt2 = 71.418 mm */
    order_expect_text(
        plan, 3,
        "Strip 1: set the ruler to 50.5 mm, measured square to the "
        "slanted edge (along the strip that is about 71 mm), and, from "
        "the slanted end, cut 2 diamonds D from the strip (2 in all).");
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(diamonds),
        cmocka_unit_test(triangles_by_turns),
        cmocka_unit_test(trapezoids_by_points),
        cmocka_unit_test(all_one_way),
        cmocka_unit_test(triangles_from_squares_and_strips),
        cmocka_unit_test(metric),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
