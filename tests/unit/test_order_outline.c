/* The cut order of sections that are trimmed to an outline, and the measures
 * that it takes. Worked out on paper from the rules of plan.h. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/measure.h"
#include "order/order.h"
#include "order_expect.h"

/* 4 in from flat to flat: the sides measure 4 / sqrt3 in. */
#define HEX_SIDE 469272
#define HEX_HALF (HEX_SIDE / 2)

static uint32_t hexagon(qc_plan *plan)
{
    const qc_point corners[] = {{0, 0},
                                {HEX_SIDE, 0},
                                {HEX_SIDE + HEX_HALF, INCHES(2)},
                                {HEX_SIDE, INCHES(4)},
                                {0, INCHES(4)},
                                {-HEX_HALF, INCHES(2)}};

    return hand_shape(plan, "H", QC_SHAPE_HEXAGON, corners, 6);
}

/* Between slanted cuts only two corners are left to trim; the ruler is set to
 * what the cuts lie apart: 4 in, as the flat sides. Two strips in a pile: 8
 * sections from 4 piles, 2 cuts each. */
static void hexagons_between_slanted_cuts(void **state)
{
    const qc_length wide = 2 * HEX_SIDE;
    qc_plan *plan = hand_plan();
    const qc_step *step;

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hexagon(plan);
    hand_strip(plan, INCHES(4), 2);
    hand_slanted(plan, 4, 0, wide, HEX_SIDE, HEX_SIDE, false)->corners = 2;
    order_plan(plan, INCHES(40));
    step = qc_plan_step_at(plan, 3);
    assert_int_equal(step->part_out, 2);
    assert_int_equal(step->piece, N);
    assert_int_equal(step->along, wide);
    assert_true(qci_is_near(step->distance, INCHES(4)));
    assert_true(step->distance >= INCHES(4)); /* sides are 2 sqrt3 / 3 up */
    order_expect_text(
        plan, 3,
        "Strip 1: set the ruler to 4 in, measured square to the "
        "slanted edge (along the strip that is about 4 5/8 in), and, "
        "from the slanted end, cut 4 sections from each of the 2 "
        "strips (section 1a, 8 in all). After every third cut true the "
        "angle again.");
    order_expect_step(
        qc_plan_step_at(plan, 4),
        &(order_expected){QC_STEP_OUTLINE, 2, N, 0, 0, 0, 0, 8, 2, 2, 8, 8, 8});
    /* 4 / sqrt3 = 2.309 in, on the edge as on the side */
    order_expect_text(
        plan, 4,
        "Section 1a: leave the sections piled; trim each of the 8 "
        "sections, taking off the upper right and the lower left "
        "corner, each from the point about 2 5/16 in along the edge to "
        "the point about 2 5/16 in along the side, all measured from "
        "the corners and marked before the first cut: a hexagon H (8 "
        "in all).");
    assert_string_equal(qc_plan_step_at(plan, 4)->source, "section 1a");
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 2 + 1 + 1 + 4 + 4 * 2);
    qc_plan_destroy(plan);
}

/* Between square cuts it is all four: 2 / sqrt3 = 1.155 in along the edge. */
static void hexagons_between_square_cuts(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hexagon(plan);
    hand_strip(plan, INCHES(4), 1);
    hand_slanted(plan, 1, 0, 2 * HEX_SIDE, 0, 0, false)->corners = 4;
    order_plan(plan, INCHES(40));
    assert_int_equal(qc_plan_step_count(plan), 4);
    assert_int_equal(qc_plan_step_at(plan, 2)->distance, 2 * HEX_SIDE);
    order_expect_text(
        plan, 3,
        "Section 1a: trim the section, taking off all four corners, "
        "each from the point about 1 1/8 in along the edge to the "
        "point 2 in along the side, all measured from the corners and "
        "marked before the first cut: a hexagon H (1 in all).");
    qc_plan_destroy(plan);
}

/* A house with one lower eave: one corner of each, and in pairs those of the
 * mirror image. Sizes in inches: 4 wide, 3 high, from (4, 1) to (2, 3). */
static void one_corner_of_both_hands(void **state)
{
    const qc_point right[] = {{0, 0},
                              {INCHES(4), 0},
                              {INCHES(4), INCHES(1)},
                              {INCHES(2), INCHES(3)},
                              {0, INCHES(3)}};
    const qc_point left[] = {{0, 0},
                             {INCHES(4), 0},
                             {INCHES(4), INCHES(3)},
                             {INCHES(2), INCHES(3)},
                             {0, INCHES(1)}};
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_shape(plan, "P right", QC_SHAPE_POLYGON, right, 5);
    hand_shape(plan, "P left", QC_SHAPE_POLYGON, left, 5);
    for (uint32_t i = 0; i < 2; i++) {
        plan->pieces[i].hand = i ? QC_HAND_LEFT : QC_HAND_RIGHT;
        plan->pieces[i].twin = 1 - i;
    }
    hand_strip(plan, INCHES(3), 2)->paired = true;
    hand_slanted(plan, 3, 0, INCHES(4), 0, 0, false)->corners = 1;
    order_plan(plan, INCHES(40));
    assert_string_equal(
        order_text(plan, 3),
        "Section 1a: leave the sections piled; trim each of the 6 sections, "
        "taking off the upper right corner, from the point 2 in along the "
        "upper edge to the point 2 in down the right side, both measured from "
        "the corner: a piece: P right (3 in all) and P left (3 in all).");
    assert_int_equal(qc_plan_step_at(plan, 3)->yield, 6);
    assert_int_equal(qc_plan_step_at(plan, 3)->total, 3);
    /* The piece itself is not mirrored: the left-handed reader, who cuts from
     * the other end, trims the same corner. */
    plan->left_handed = true;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_non_null(strstr(order_text(plan, 3),
                           "taking off the upper right corner, from the point "
                           "2 in along the upper edge to the point 2 in down "
                           "the right side, both"));
    plan->left_handed = false;
    /* Turned by half it is the opposite one. */
    ((qc_stack *)plan->fabrics[0].strips[0].subcuts[0].stacks)->turn =
        QC_TURN_HALF;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_non_null(strstr(order_text(plan, 3),
                           "taking off the lower left corner, from the point 2 "
                           "in along the lower edge to the point 2 in up the "
                           "left side, both"));
    qc_plan_destroy(plan);
}

/* A kite in sections that are turned by turns: 4 in on its base, its sharp end
 * at the right, and corners at both sides of the upper edge that differ. */
static void sections_by_turns(void **state)
{
    const qc_point corners[] = {{0, 0},
                                {INCHES(4), 0},
                                {INCHES(3), INCHES(2)},
                                {INCHES(1), INCHES(3)},
                                {0, INCHES(2)}};
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_shape(plan, "K", QC_SHAPE_POLYGON, corners, 5);
    hand_strip(plan, INCHES(3), 1);
    /* From (0, 0) upwards, and from (4, 0) through (3, 2) to (2 1/2, 3). */
    hand_slanted(plan, 3, 0, EIGHTHS(26), 0, -EIGHTHS(12), true)->corners = 2;
    order_plan(plan, INCHES(40));
    assert_int_equal(qc_plan_step_at(plan, 2)->along, INCHES(4));
    assert_int_equal(qc_plan_step_at(plan, 2)->piece, N);
    assert_string_equal(
        order_text(plan, 2),
        "Strip 1: lay the ruler's edge from the point 4 in beyond the last cut "
        "on the lower edge to the point 2 1/2 in beyond the last cut on the "
        "upper edge, and cut; then lay the ruler square across, through the "
        "point 2 1/2 in beyond the last cut on the lower edge, and cut; and so "
        "on by turns: 3 sections from the strip (section 1a, 3 in all).");
    /* Upper right: 1 1/2 in of the edge; 3.354 x 1/3 = 1.118 in of the side. */
    assert_string_equal(
        order_text(plan, 3),
        "Section 1a: turn every second one halfway round, so that all lie "
        "alike; trim each of the 3 sections, taking off the upper right "
        "corner, from the point 1 1/2 in along the upper edge to the point "
        "about 1 1/8 in down the right side; the upper left corner, from the "
        "point 1 in along the upper edge to the point 1 in down the left side, "
        "all measured from the corners and marked before the first cut: a "
        "piece K (3 in all).");
    qc_plan_destroy(plan);
}

/* Sections that must all lie one way are parts of their own; their trimming is
 * told once. */
static void sections_one_way(void **state)
{
    const qc_point corners[] = {{0, 0},
                                {INCHES(4), 0},
                                {INCHES(3), INCHES(2)},
                                {INCHES(1), INCHES(3)},
                                {0, INCHES(2)}};
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_shape(plan, "K", QC_SHAPE_POLYGON, corners, 5);
    hand_strip(plan, INCHES(3), 1);
    hand_slanted(plan, 3, 0, EIGHTHS(26), 0, -EIGHTHS(12), false)->corners = 2;
    order_plan(plan, INCHES(40));
    assert_int_equal(qc_plan_step_count(plan), 2 + 3 + 2 + 3);
    for (uint32_t i = 0; i < 3; i++) {
        assert_int_equal(qc_plan_step_at(plan, 2 + 2 * i)->part_out, 2 + i);
        assert_int_equal(qc_plan_step_at(plan, 7 + i)->part_in, 2 + i);
    }
    assert_string_equal(order_text(plan, 6),
                        "Strip 1: as in step 3, cut 1 section from the strip "
                        "(section 1c, 1 in all).");
    assert_string_equal(order_text(plan, 9),
                        "Section 1c: as in step 8, trim the "
                        "section: a piece K (1 now, which "
                        "makes all 3).");
    qc_plan_destroy(plan);
}

/* A cut from edge to edge takes a whole side off; one through the end of a side
 * still takes a corner. */
static void cuts_across(void **state)
{
    const qci_section_shape section = {.height = INCHES(3), .width = INCHES(5)};
    qc_point lying[] = {
        {0, 0}, {INCHES(4), 0}, {INCHES(3), INCHES(3)}, {0, INCHES(3)}};
    qci_corner_cut cuts[4];

    (void)state;
    assert_int_equal(qci_corner_cuts(&section, lying, 4, cuts), 1);
    assert_true(cuts[0].across);
    assert_true(cuts[0].far);
    assert_int_equal(cuts[0].along, INCHES(1));
    assert_int_equal(cuts[0].up, INCHES(2));
    lying[1].x = INCHES(5);
    assert_int_equal(qci_corner_cuts(&section, lying, 4, cuts), 1);
    assert_false(cuts[0].across);
    assert_true(cuts[0].upper && cuts[0].far);
    assert_int_equal(cuts[0].along, INCHES(2));
    assert_int_equal(cuts[0].up, INCHES(3));
}

/* 3, 4, 5; and the sides of half an equilateral triangle. */
static void measures(void **state)
{
    (void)state;
    assert_int_equal(qci_slope(INCHES(3), INCHES(4)), INCHES(5));
    assert_int_equal(qci_slope(-INCHES(3), INCHES(4)), INCHES(5));
    assert_int_equal(qci_slope(QC_LENGTH_MAX, 0), QC_LENGTH_MAX);
    /* 5 in along, the cut runs 3 in on 4 in: 4 in apart. Rounded down. */
    assert_in_range(qci_spacing_of(INCHES(5), INCHES(4), INCHES(3)),
                    INCHES(4) - 1, INCHES(4));
    assert_in_range(qci_spacing_of(PITCH_45, INCHES(3), -INCHES(3)), INCHES(3),
                    INCHES(3) + 3);
    assert_int_equal(qci_ruler_angle(INCHES(3), INCHES(3)), 45);
    assert_int_equal(qci_ruler_angle(INCHES(3), -LEAN_60), 60);
    assert_int_equal(qci_ruler_angle(LEAN_60, INCHES(3)), 30);
    assert_int_equal(qci_ruler_angle(INCHES(3), INCHES(2)), 0);
    assert_int_equal(qci_ruler_angle(INCHES(3), INCHES(3) + 100), 0);
    assert_int_equal(qci_scaled(INCHES(3), -2, 3), -INCHES(2));
    assert_int_equal(qci_scaled(5, 1, -2), -3);
}

/* Whichever allocation fails, the old steps are left as they were. */
static void memory_may_run_out_anywhere(void **state)
{
    qc_plan *plan = hand_plan();
    long before, n = 0;
    qc_status status;

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hexagon(plan);
    order_half_square(plan, "T");
    hand_strip(plan, INCHES(4), 2);
    hand_slanted(plan, 4, 0, 2 * HEX_SIDE, HEX_SIDE, HEX_SIDE, false)->corners =
        2;
    hand_strip(plan, INCHES(3), 2);
    hand_slanted(plan, 3, 1, EIGHTHS(12), 0, -INCHES(3), false);
    order_plan(plan, INCHES(40));
    before = qci_alloc_live();
    do {
        const qc_step *old = plan->steps;

        qci_alloc_fail_at(++n, 0);
        status = qci_order_make(plan, NULL);
        qci_alloc_fail_at(0, 0);
        if (status == QC_STATUS_OK)
            break;
        assert_int_equal(status, QC_STATUS_NO_MEMORY);
        assert_ptr_equal(plan->steps, old);
        assert_int_equal(qci_alloc_live(), before);
    } while (n < 10000);
    assert_int_equal(status, QC_STATUS_OK);
    assert_true(n > 2 * (long)plan->step_count);
    assert_int_equal(qci_alloc_live(), before);
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hexagons_between_slanted_cuts),
        cmocka_unit_test(hexagons_between_square_cuts),
        cmocka_unit_test(one_corner_of_both_hands),
        cmocka_unit_test(sections_by_turns),
        cmocka_unit_test(sections_one_way),
        cmocka_unit_test(cuts_across),
        cmocka_unit_test(measures),
        cmocka_unit_test(memory_may_run_out_anywhere),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
