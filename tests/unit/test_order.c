/* The cut order of plans built by hand. What is expected was worked out on
 * paper from the rules of plan.h and from how strips are piled and cut; no line
 * of it was copied from the library's output. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "hand_plan.h"
#include "order/order.h"
#include "order_expect.h"

/* Of step `only` alone, or of none for N, the last part is what is left. */
static void expect_rest(const qc_plan *plan, size_t only)
{
    for (size_t i = 0; i < qc_plan_step_count(plan); i++)
        assert_int_equal(qc_plan_step_at(plan, i)->rest_is_piece, i == only);
}

/* 12 strips of 2 1/2 in from 42 in, 9 pieces from each, in piles of 4:
 * 9 x 4 1/2 = 40 1/2, so 1 1/2 in is left of each. 3 piles x (1 + 9) cuts. */
static void one_size_in_many_strips(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_SQUARE_UP, 0, N, N, EIGHTHS(4), 0, 0, 1, 2, 1, 1, 0, 0},
        {QC_STEP_STRIP, 0, 1, N, EIGHTHS(20), 0, 0, 1, 2, 12, 12, 12, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 12, 4, 1, 3, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, EIGHTHS(36), 0, EIGHTHS(36), 12, 4, 9, 27,
         108, 108},
        {QC_STEP_KEEP, 1, N, N, EIGHTHS(12), 0, 0, 12, 1, 0, 0, 12, 0},
        {QC_STEP_KEEP, 0, N, N, EIGHTHS(8), 0, 0, 1, 1, 0, 0, 1, 0},
    };
    static const char *const texts[] = {
        "Fold night selvage to selvage; straighten its cut end, taking off "
        "1/2 in at most.",
        "Cut 12 strips 2 1/2 in x width of fabric (strip 1).",
        "Strip 1: open the 12 strips out flat, pile them up to 4 deep and "
        "square the left ends, cutting off the selvage.",
        "Strip 1: set the ruler to 4 1/2 in and, from the squared end, cut 9 "
        "pieces A, 4 1/2 x 2 1/2 in, from each of the 12 strips (108 in all).",
        "Keep the right ends of strip 1: 12 rectangles, 1 1/2 x 2 1/2 in "
        "(leftover 1).",
        "Keep the uncut end of the bolt: 1 in x width of fabric (leftover 2).",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "night", INCHES(42), EIGHTHS(4));
    hand_piece(plan, "A", EIGHTHS(36), EIGHTHS(20));
    hand_strip(plan, EIGHTHS(20), 12);
    hand_row(plan, 9, 0, QC_TURN_NONE);
    order_plan(plan, EIGHTHS(8));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, N);
    order_expect_texts(plan, texts);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 1 + 12 + 3 + 27);
    assert_string_equal(qc_plan_step_at(plan, 1)->source, "bolt");
    assert_string_equal(qc_plan_step_at(plan, 3)->source, "strip 1");
    assert_string_equal(qc_plan_step_at(plan, 4)->source, "strip 1");
    assert_string_equal(qc_plan_step_at(plan, 5)->source, "bolt");
    qc_plan_destroy(plan);
}

/* Seven squares of 4 for halves, from two kinds of strips, and three for
 * quarters; in piles of 4. 2 piles for the halves, and 1 for the quarters, cut
 * twice: 2 + 2 cuts. */
static void squares_are_cut_corner_to_corner(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(5), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_STRIP, 0, 2, N, INCHES(4), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 1, INCHES(5), 0, INCHES(5), 1, 1, 3, 3, 3, 3},
        {QC_STEP_SUBCUT, 1, 3, N, INCHES(4), 0, INCHES(4), 1, 1, 1, 1, 1, 0},
        {QC_STEP_SPLIT, 3, N, 0, INCHES(4), 0, 0, 1, 1, 1, 1, 1, 1},
        {QC_STEP_SQUARE_END, 2, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 2, N, 0, INCHES(4), 0, INCHES(4), 1, 1, 6, 6, 6, 7},
        {QC_STEP_DIAGONAL, N, N, 0, 0, 0, 0, 7, 4, 1, 2, 14, 14},
        {QC_STEP_DIAGONAL, N, N, 1, 0, 0, 0, 3, 3, 2, 2, 12, 12},
    };
    static const char *const texts[] = {
        "Fold sand selvage to selvage; cut 1 strip 5 in x width of fabric "
        "(strip 1).",
        "Cut 1 strip 4 in x width of fabric (strip 2).",
        "Strip 1: open the strip out flat and square the left end, cutting off "
        "the selvage.",
        "Strip 1: set the ruler to 5 in and, from the squared end, cut 3 "
        "squares for B, 5 x 5 in, from the strip (3 in all).",
        "Strip 1: set the ruler to 4 in and, going on to the right, cut 1 "
        "section 4 in wide from the strip (section 1a, 1 in all).",
        "Section 1a: keep the ruler at 4 in and, from the lower edge up, cut 1 "
        "square for A, 4 x 4 in, from the section (1 of 7 so far).",
        "Strip 2: open the strip out flat and square the left end, cutting off "
        "the selvage.",
        "Strip 2: set the ruler to 4 in and, from the squared end, cut 6 "
        "squares for A, 4 x 4 in, from the strip (6 now, which makes all 7).",
        "Squares for A: pile the 7 squares edge to edge, up to 4 deep, "
        "straight before you, all the same way up; lay the ruler corner to "
        "corner, from lower left to upper right, and cut: 14 triangles A, in "
        "which the print faces two ways, 1 more than needed. Do not pull at "
        "the new edges: they lie on the bias and stretch.",
        "Squares for B: pile the 3 squares edge to edge, straight before you, "
        "all the same way up; lay the ruler corner to corner, from lower left "
        "to upper right, and cut; move nothing, and cut the other way, from "
        "lower right to upper left: 12 triangles B, in which the print faces "
        "four ways. Do not pull at the new edges: they lie on the bias and "
        "stretch.",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    plan->fabrics[0].info.print = QC_PRINT_ONE_WAY;
    hand_triangle(plan, "A", INCHES(4), QC_SHAPE_HALF_SQUARE_TRIANGLE);
    hand_triangle(plan, "B", INCHES(5), QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    plan->pieces[0].extra = 1;
    hand_strip(plan, INCHES(5), 1);
    hand_row(plan, 3, 1, QC_TURN_NONE);
    hand_row(plan, 1, 0, QC_TURN_NONE);
    hand_strip(plan, INCHES(4), 1);
    hand_row(plan, 6, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(40));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, N);
    order_expect_texts(plan, texts);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts,
                     2 + (1 + 3 + 1 + 1) + (1 + 6) + 2 + 2);
    assert_string_equal(qc_plan_step_at(plan, 8)->source, "squares for A");
    qc_plan_destroy(plan);
}

/* Piles of one, one square, a stripe that half a turn forgives. */
static void squares_one_at_a_time(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    plan->layers = 1;
    hand_fabric(plan, "sand", INCHES(40), 0);
    plan->fabrics[0].info.print = QC_PRINT_TWO_WAY;
    hand_triangle(plan, "A", INCHES(4), QC_SHAPE_HALF_SQUARE_TRIANGLE);
    hand_triangle(plan, "B", INCHES(4), QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    hand_strip(plan, INCHES(4), 1);
    hand_row(plan, 2, 0, QC_TURN_NONE);
    hand_row(plan, 1, 1, QC_TURN_NONE);
    order_plan(plan, INCHES(40));
    assert_string_equal(
        qc_plan_step_at(plan, 4)->text,
        "Squares for A: take the 2 squares one at a time, each straight before "
        "you, all the same way up; lay the ruler corner to corner, from lower "
        "left to upper right, and cut: 4 triangles A. Do not pull at the new "
        "edges: they lie on the bias and stretch.");
    assert_string_equal(
        qc_plan_step_at(plan, 5)->text,
        "Squares for B: lay the square straight before you; lay the ruler "
        "corner to corner, from lower left to upper right, and cut; move "
        "nothing, and cut the other way, from lower right to upper left: 4 "
        "triangles B, in which the print faces two ways. Do not pull at the "
        "new edges: they lie on the bias and stretch.");
    qc_plan_destroy(plan);
}

/* 10 x 4 in fill 40 in: the tenth is cut free of the selvage. Nothing to square
 * up. */
static void flush_last_section(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(4), 0, 0, 1, 2, 3, 3, 3, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 3, 3, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, INCHES(4), 0, INCHES(4), 3, 3, 10, 10, 30,
         30},
    };
    static const char *const texts[] = {
        "Fold sand selvage to selvage; cut 3 strips 4 in x width of fabric "
        "(strip 1).",
        "Strip 1: open the 3 strips out flat, lay them in one pile and square "
        "the left ends, cutting off the selvage.",
        "Strip 1: set the ruler to 4 in and, from the squared end, cut 10 "
        "pieces A, 4 x 4 in, from each of the 3 strips, the last cut taking "
        "off "
        "the right selvage (30 in all).",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", INCHES(4), INCHES(4));
    hand_strip(plan, INCHES(4), 3);
    hand_row(plan, 10, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(2));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, N);
    order_expect_texts(plan, texts);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 3 + 1 + 10);
    qc_plan_destroy(plan);
}

/* A strip that is one piece, and one that is one section with a stack. */
static void a_section_as_wide_as_the_fabric(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(6), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_STRIP, 0, 2, N, INCHES(3), 0, 0, 1, 2, 2, 2, 2, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, 3, N, INCHES(40), 0, INCHES(40), 1, 1, 1, 1, 1, 0},
        {QC_STEP_SPLIT, 3, N, 0, INCHES(3), 0, 0, 1, 1, 1, 1, 2, 2},
        {QC_STEP_SQUARE_END, 2, N, N, 0, 0, 0, 2, 2, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 2, N, 0, INCHES(40), 0, INCHES(40), 2, 2, 1, 1, 2, 4},
    };
    static const char *const texts[] = {
        "Fold sand selvage to selvage; cut 1 strip 6 in x width of fabric "
        "(strip 1).",
        "Cut 2 strips 3 in x width of fabric (strip 2).",
        "Strip 1: open the strip out flat and square the left end, cutting off "
        "the selvage.",
        "Strip 1: measure 40 in and, from the squared end, cut 1 section 40 in "
        "wide from the strip, the last cut taking off the right selvage "
        "(section 1a, 1 in all).",
        "Section 1a: set the ruler to 3 in and, from the lower edge up, cut 2 "
        "pieces A, 40 x 3 in, from the section, the last being what is left "
        "(2 of 4 so far).",
        "Strip 2: open the 2 strips out flat, lay them in one pile and square "
        "the left ends, cutting off the selvage.",
        "Strip 2: measure 40 in and, from the squared end, cut 1 piece A, 40 x "
        "3 in, from each of the 2 strips, the last cut taking off the right "
        "selvage (2 now, which makes all 4).",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", INCHES(40), INCHES(3));
    hand_strip(plan, INCHES(6), 1);
    hand_subcut(plan, 1);
    hand_stack(plan, 0, 2, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 2);
    hand_row(plan, 1, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(9));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, 4);
    order_expect_texts(plan, texts);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 3 + 2 + 2 + 1);
    qc_plan_destroy(plan);
}

/* Six strips in two piles. Each has 3 sections of 5 in, with a piece of 5 x 2
 * below and two of 4 x 1 1/2 above that fill the 5 in: 2 splits and 2 trims in
 * each section; and 2 sections of 6 in with one lower piece: 1 split each. */
static void stacks_with_trims(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(5), 0, 0, 1, 2, 6, 6, 6, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 6, 4, 1, 2, 0, 0},
        {QC_STEP_SUBCUT, 1, 2, N, INCHES(6), 0, INCHES(6), 6, 4, 2, 4, 12, 0},
        {QC_STEP_SUBCUT, 1, 3, N, INCHES(5), 0, INCHES(5), 6, 4, 3, 6, 18, 0},
        {QC_STEP_SPLIT, 2, N, 2, INCHES(4), 0, 0, 12, 4, 1, 4, 12, 12},
        {QC_STEP_SPLIT, 3, N, 0, INCHES(2), 0, 0, 18, 4, 1, 6, 18, 18},
        {QC_STEP_SPLIT, 3, 4, N, EIGHTHS(12), 0, 0, 18, 4, 1, 6, 36, 0},
        {QC_STEP_TRIM, 4, N, 1, INCHES(4), 0, 0, 36, 4, 1, 12, 36, 36},
    };
    static const char *const texts[] = {
        "Fold sand selvage to selvage; cut 6 strips 5 in x width of fabric "
        "(strip 1).",
        "Strip 1: open the 6 strips out flat, pile them up to 4 deep and "
        "square the left ends, cutting off the selvage.",
        "Strip 1: set the ruler to 6 in and, from the squared end, cut 2 "
        "sections 6 in wide from each of the 6 strips (section 1a, 12 in all).",
        "Strip 1: set the ruler to 5 in and, going on to the right, cut 3 "
        "sections 5 in wide from each of the 6 strips (section 1b, 18 in all).",
        "Section 1a: leave the sections piled; set the ruler to 4 in and, from "
        "the lower edge up, cut 1 piece C, 4 x 6 in, lying turned a quarter, "
        "from each of the 12 sections (12 in all).",
        "Section 1b: leave the sections piled; set the ruler to 2 in and, from "
        "the lower edge up, cut 1 piece A, 5 x 2 in, from each of the 18 "
        "sections (18 in all).",
        "Section 1b: set the ruler to 1 1/2 in and, going on upwards, cut 2 "
        "slices 1 1/2 in high from each of the 18 sections, the last being "
        "what is left (slice 1b1, 36 in all).",
        "Slice 1b1: set the ruler to 4 in and, from the left edge, cut 1 piece "
        "B, 4 x 1 1/2 in, from each of the 36 slices (36 in all).",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), 0);
    hand_piece(plan, "A", INCHES(5), INCHES(2));
    hand_piece(plan, "B", INCHES(4), EIGHTHS(12));
    hand_piece(plan, "C", INCHES(4), INCHES(6));
    hand_strip(plan, INCHES(5), 6);
    hand_subcut(plan, 2);
    hand_stack(plan, 2, 1, QC_TURN_QUARTER);
    hand_subcut(plan, 3);
    hand_stack(plan, 0, 1, QC_TURN_NONE);
    hand_stack(plan, 1, 2, QC_TURN_NONE);
    order_plan(plan, INCHES(40));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, 6);
    order_expect_texts(plan, texts);
    assert_int_equal(qc_plan_step_at(plan, 4)->turn, QC_TURN_QUARTER);
    assert_int_equal(qc_plan_step_at(plan, 5)->turn, QC_TURN_NONE);
    assert_string_equal(qc_plan_step_at(plan, 4)->source, "section 1a");
    assert_string_equal(qc_plan_step_at(plan, 7)->source, "slice 1b1");
    /* strips; per pile 1 end, 5 sections, 2 x 1 and 3 x 2 splits, 6 trims */
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts,
                     6 + 2 * (1 + 5 + 2 + 6 + 6));
    qc_plan_destroy(plan);
}

/* A stack whose last run is one piece that fills it: it is what is left. */
static void what_is_left_of_a_stack(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(6), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 1, 2, N, INCHES(10), 0, INCHES(10), 1, 1, 2, 2, 2, 0},
        {QC_STEP_SPLIT, 2, N, 0, INCHES(4), 0, 0, 2, 1, 1, 2, 2, 2},
        {QC_STEP_SPLIT, 2, 3, N, INCHES(2), 0, 0, 2, 1, 0, 0, 2, 0},
        {QC_STEP_TRIM, 3, N, 1, INCHES(7), 0, 0, 2, 1, 1, 2, 2, 2},
    };
    static const char *const texts[] = {
        "Fold sand selvage to selvage; cut 1 strip 6 in x width of fabric "
        "(strip 1).",
        "Strip 1: open the strip out flat and square the left end, cutting off "
        "the selvage.",
        "Strip 1: set the ruler to 10 in and, from the squared end, cut 2 "
        "sections 10 in wide from the strip (section 1a, 2 in all).",
        "Section 1a: set the ruler to 4 in and, from the lower edge up, cut 1 "
        "piece A, 10 x 4 in, from each of the 2 sections (2 in all).",
        "Section 1a: what is left of each of the 2 sections is a slice 2 in "
        "high (slice 1a1, 2 in all).",
        "Slice 1a1: set the ruler to 7 in and, from the left edge, cut 1 piece "
        "B, 7 x 2 in, from each of the 2 slices (2 in all).",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", INCHES(10), INCHES(4));
    hand_piece(plan, "B", INCHES(7), INCHES(2));
    hand_strip(plan, INCHES(6), 1);
    hand_subcut(plan, 2);
    hand_stack(plan, 0, 1, QC_TURN_NONE);
    hand_stack(plan, 1, 1, QC_TURN_NONE);
    order_plan(plan, INCHES(30));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, 4);
    order_expect_texts(plan, texts);
    qc_plan_destroy(plan);
}

/* Two runs that fill the strip together: only the last cut frees a selvage. */
static void the_last_run_reaches_the_selvage(void **state)
{
    qc_plan *plan = hand_plan();
    const qc_step *step;

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", INCHES(15), INCHES(4));
    hand_piece(plan, "B", INCHES(10), INCHES(4));
    hand_strip(plan, INCHES(4), 2);
    hand_row(plan, 2, 0, QC_TURN_NONE);
    hand_row(plan, 1, 1, QC_TURN_HALF);
    order_plan(plan, INCHES(9));
    assert_int_equal(qc_plan_step_count(plan), 4);
    step = qc_plan_step_at(plan, 2);
    assert_null(strstr(step->text, "selvage"));
    step = qc_plan_step_at(plan, 3);
    assert_false(step->rest_is_piece);
    assert_int_equal(step->repeat, 1);
    assert_int_equal(step->yield, 2);
    assert_string_equal(step->text,
                        "Strip 1: set the ruler to 10 in and, going on to the "
                        "right, cut 1 piece B, 10 x 4 in, lying turned halfway "
                        "round, from each of the 2 strips, the last cut taking "
                        "off the right selvage (2 in all).");
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 2 + 1 + 2 + 1);
    qc_plan_destroy(plan);
}

/* Five strips of 13 pieces; the same twice more with sections left out: two
 * strips of 7 pieces and one of 2; and a strip as high that is cut otherwise.
 */
static qc_plan *cut_short_plan(void)
{
    qc_plan *plan = hand_plan();

    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", INCHES(3), INCHES(3));
    hand_piece(plan, "B", INCHES(5), INCHES(3));
    hand_strip(plan, INCHES(3), 5);
    hand_row(plan, 13, 0, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 2)->cut_short = true;
    hand_row(plan, 7, 0, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 1)->cut_short = true;
    hand_row(plan, 2, 0, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 1);
    hand_row(plan, 7, 1, QC_TURN_NONE);
    return plan;
}

/* Equal strips are cut with one setting of the ruler, but piled entry by entry:
 * 5 in piles of 4, then 2, then 1. */
static void strips_cut_short(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_STRIP, 0, 1, N, INCHES(3), 0, 0, 1, 2, 5, 5, 5, 0},
        {QC_STEP_STRIP, 0, 2, N, INCHES(3), 0, 0, 1, 2, 2, 2, 2, 0},
        {QC_STEP_STRIP, 0, 3, N, INCHES(3), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_STRIP, 0, 4, N, INCHES(3), 0, 0, 1, 2, 1, 1, 1, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 5, 4, 1, 2, 0, 0},
        {QC_STEP_SUBCUT, 1, N, 0, INCHES(3), 0, INCHES(3), 5, 4, 13, 26, 65,
         65},
        {QC_STEP_SQUARE_END, 2, N, N, 0, 0, 0, 2, 2, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 2, N, 0, INCHES(3), 0, INCHES(3), 2, 2, 7, 7, 14, 79},
        {QC_STEP_SQUARE_END, 3, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 3, N, 0, INCHES(3), 0, INCHES(3), 1, 1, 2, 2, 2, 81},
        {QC_STEP_SQUARE_END, 4, N, N, 0, 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_SUBCUT, 4, N, 1, INCHES(5), 0, INCHES(5), 1, 1, 7, 7, 7, 7},
        {QC_STEP_KEEP, 2, N, N, INCHES(19), 0, 0, 2, 1, 0, 0, 2, 0},
        {QC_STEP_KEEP, 3, N, N, INCHES(34), 0, 0, 1, 1, 0, 0, 1, 0},
        {QC_STEP_KEEP, 4, N, N, INCHES(5), 0, 0, 1, 1, 0, 0, 1, 0},
    };
    static const char *const texts[] = {
        "Fold sand selvage to selvage; cut 5 strips 3 in x width of fabric "
        "(strip 1).",
        "With the ruler still at 3 in, cut 2 more strips (strip 2).",
        "With the ruler still at 3 in, cut 1 more strip (strip 3).",
        "With the ruler still at 3 in, cut 1 more strip (strip 4).",
        "Strip 1: open the 5 strips out flat, pile them up to 4 deep and "
        "square the left ends, cutting off the selvage.",
        "Strip 1: set the ruler to 3 in and, from the squared end, cut 13 "
        "pieces A, 3 x 3 in, from each of the 5 strips (65 of 81 so far).",
        "Strip 2 (as strip 1, but only in part): open the 2 strips out flat, "
        "lay them in one pile and square the left ends, cutting off the "
        "selvage.",
        "Strip 2: set the ruler to 3 in and, from the squared end, cut 7 "
        "pieces A, 3 x 3 in, from each of the 2 strips (14 now, 79 of 81 so "
        "far).",
        "Strip 3 (as strip 1, but only in part): open the strip out flat and "
        "square the left end, cutting off the selvage.",
        "Strip 3: set the ruler to 3 in and, from the squared end, cut 2 "
        "pieces A, 3 x 3 in, from the strip (2 now, which makes all 81).",
        "Strip 4: open the strip out flat and square the left end, cutting off "
        "the selvage.",
        "Strip 4: set the ruler to 5 in and, from the squared end, cut 7 "
        "pieces B, 5 x 3 in, from the strip (7 in all).",
        "Keep the right ends of strip 2: 2 rectangles, 19 x 3 in (leftover "
        "1).",
        "Keep the right end of strip 3: 1 rectangle, 34 x 3 in (leftover 2).",
        "Keep the right end of strip 4: 1 rectangle, 5 x 3 in (leftover 3).",
    };
    qc_plan *plan = cut_short_plan();

    (void)state;
    order_plan(plan, INCHES(2));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, N);
    order_expect_texts(plan, texts);
    qc_plan_destroy(plan);
}

/* Some step's text begins so. */
static void expect_text_begins(const qc_plan *plan, const char *words)
{
    for (size_t i = 0; i < qc_plan_step_count(plan); i++)
        if (!strncmp(qc_plan_step_at(plan, i)->text, words, strlen(words)))
            return;
    fail_msg("no step begins with \"%s\"", words);
}

/* Twelve places a strip, for 30 pieces of one name and 25 of another that are
 * as large: one set-up, whichever pieces a strip gives. */
static void strips_cut_alike(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), 0);
    hand_piece(plan, "A", INCHES(3), INCHES(3));
    hand_piece(plan, "B", INCHES(3), INCHES(3));
    hand_strip(plan, INCHES(3), 2);
    hand_row(plan, 12, 0, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 1)->alike = true;
    hand_row(plan, 6, 0, QC_TURN_NONE);
    hand_row(plan, 6, 1, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 1)->alike = true;
    hand_row(plan, 12, 1, QC_TURN_NONE);
    hand_strip(plan, INCHES(3), 1)->cut_short = true;
    hand_row(plan, 7, 1, QC_TURN_NONE);
    order_plan(plan, INCHES(2));
    assert_int_equal(qc_plan_fabric_at(plan, 0)->setups, 1);
    expect_text_begins(plan, "Strip 2 (cut as strip 1): open");
    expect_text_begins(plan, "Strip 3 (cut as strip 1): open");
    expect_text_begins(plan, "Strip 4 (as strip 1, but only in part): open");
    qc_plan_destroy(plan);
}

/* One layer at a time: the bolt is not folded, and each strip is cut alone. */
static void single_layers(void **state)
{
    static const order_expected steps[] = {
        {QC_STEP_SQUARE_UP, 0, N, N, EIGHTHS(4), 0, 0, 1, 1, 1, 1, 0, 0},
        {QC_STEP_STRIP, 0, 1, N, INCHES(3), 0, 0, 1, 1, 3, 3, 3, 0},
        {QC_STEP_SQUARE_END, 1, N, N, 0, 0, 0, 3, 1, 1, 3, 0, 0},
        {QC_STEP_SUBCUT, 1, 2, N, INCHES(2), 0, INCHES(2), 3, 1, 19, 57, 57, 0},
        {QC_STEP_SPLIT, 2, N, 0, INCHES(1), 0, 0, 57, 1, 2, 114, 171, 171},
    };
    qc_plan *plan = hand_plan();

    (void)state;
    plan->layers = 1;
    hand_fabric(plan, "sand", INCHES(39), EIGHTHS(4));
    hand_piece(plan, "A", INCHES(2), INCHES(1));
    hand_strip(plan, INCHES(3), 3);
    hand_subcut(plan, 19);
    hand_stack(plan, 0, 3, QC_TURN_NONE);
    order_plan(plan, INCHES(9));
    EXPECT_STEPS(plan, steps);
    expect_rest(plan, 4);
    assert_string_equal(qc_plan_step_at(plan, 0)->text,
                        "Lay sand out in a single layer; straighten its cut "
                        "end, taking off 1/2 in at most.");
    assert_string_equal(qc_plan_step_at(plan, 2)->text,
                        "Strip 1: lay the 3 strips out flat and, one at a "
                        "time, square the left ends, cutting off the selvage.");
    assert_null(strstr(qc_plan_step_at(plan, 4)->text, "piled"));
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_size_in_many_strips),
        cmocka_unit_test(squares_are_cut_corner_to_corner),
        cmocka_unit_test(squares_one_at_a_time),
        cmocka_unit_test(flush_last_section),
        cmocka_unit_test(a_section_as_wide_as_the_fabric),
        cmocka_unit_test(stacks_with_trims),
        cmocka_unit_test(what_is_left_of_a_stack),
        cmocka_unit_test(the_last_run_reaches_the_selvage),
        cmocka_unit_test(strips_cut_short),
        cmocka_unit_test(strips_cut_alike),
        cmocka_unit_test(single_layers),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
