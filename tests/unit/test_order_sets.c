/* The cut order of strip sets. They are worked out on paper in the comments;
 * their strips need no plan of their own here. */
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

static void *copied(const void *from, size_t count, size_t size)
{
    void *copy = qci_copy(from, count, size);

    assert_non_null(copy);
    return copy;
}

/* A plan with a fabric and the strips' pieces. */
static qc_plan *strips_plan(void)
{
    static const char *const ids[] = {"S1 night", "S1 sand", "S1 night end",
                                      "S1 sand end", "S1 fog"};
    qc_plan *plan = hand_plan();

    hand_fabric(plan, "night", INCHES(42), 0);
    for (uint32_t i = 0; i < 5; i++)
        hand_piece(plan, ids[i], INCHES(40), INCHES(i % 2 ? 2 : 3));
    hand_fabric(plan, "sand", INCHES(40), 0);
    return plan;
}

static qci_plan_set *add_set(qc_plan *plan, const char *id,
                             const qc_set_strip *strips, size_t count)
{
    qci_plan_set *set;

    plan->sets =
        qci_realloc(plan->sets, plan->set_count + 1, sizeof *plan->sets);
    assert_non_null(plan->sets);
    set = &plan->sets[plan->set_count++];
    *set = (qci_plan_set){.info = {.id = copied(id, strlen(id) + 1, 1),
                                   .job_id = copied("S1", 3, 1),
                                   .strip_count = count}};
    set->strips = copied(strips, count, sizeof *strips);
    return set;
}

/* 3 and 2 in wide, sewn 4 1/2 in high, cut at 45 degrees, 2 in apart: a pitch
 * of 2 sqrt2 in. The upper strip is stepped along by the lower one's finished 2
 * 1/2 in. A cut that leans to the left must begin where it still crosses all
 * that shows of the lower strip, 2 3/4 in from its end. */
static void fill_pair(qci_plan_set *set, qc_hand hand, bool left_lean)
{
    int side = left_lean ? -1 : 1;

    set->info.hand = hand;
    set->info.height = EIGHTHS(36);
    set->info.angle = 45 * QC_DEGREE;
    set->info.lean = side * EIGHTHS(36);
    set->info.spacing = INCHES(2);
    set->info.pitch = 574740;
    set->info.first = left_lean ? EIGHTHS(22) : 0;
    set->info.usable = INCHES(40);
    set->info.segments = 2 * 13 + 7;
    set->info.sets = 2;
    set->info.per_set = 13;
    set->info.full_length = INCHES(40);
    set->info.part_segments = 7;
    set->info.part_length = EIGHTHS(181);
    set->strips[1].offset = side * EIGHTHS(20);
}

static qc_plan *pair_plan(bool left_handed)
{
    static const qc_set_strip strips[] = {{0, INCHES(3), 0, 0, 2},
                                          {1, INCHES(2), 0, 1, 3}};
    qc_plan *plan = strips_plan();

    fill_pair(add_set(plan, "S1 right", strips, 2), QC_HAND_RIGHT, left_handed);
    fill_pair(add_set(plan, "S1 left", strips, 2), QC_HAND_LEFT, !left_handed);
    plan->left_handed = left_handed;
    order_plan(plan, INCHES(1));
    return plan;
}

/* No pile: two sets take 2 x (13 + 1) cuts. */
static void expect_pair_numbers(const qc_plan *plan, size_t from, uint32_t set)
{
    const qc_plan_set *info = qc_plan_set_at(plan, set);
    const order_expected steps[] = {
        {QC_STEP_SEW, N, 0, N, INCHES(40), 0, 0, 2, 1, 0, 0, 2, 0},
        {QC_STEP_CROSSCUT, 0, N, N, INCHES(2), info->lean, info->first, 2, 1,
         13, 28, 26, 26},
        {QC_STEP_SEW, N, 1, N, EIGHTHS(181), 0, 0, 1, 1, 0, 0, 1, 0},
        {QC_STEP_CROSSCUT, 1, N, N, INCHES(2), info->lean, info->first, 1, 1, 7,
         8, 7, 33},
    };

    for (size_t i = 0; i < 4; i++) {
        const qc_step *step = qc_plan_step_at(plan, from + i);

        assert_int_equal(step->number, from + i + 1);
        assert_int_equal(step->fabric, N);
        assert_int_equal(step->set, set);
        order_expect_step(step, &steps[i]);
    }
}

/* A sentence may come with left and right exchanged. */
static void expect_mirrored(const qc_plan *plan, size_t step, const char *text,
                            bool mirrored)
{
    char *other = order_mirrored(text);

    assert_string_equal(order_text(plan, step), mirrored ? other : text);
    free(other);
}

/* The words of the two hands; for a left-handed reader the set of the right
 * hand is as that of the left hand seen in a mirror. */
static void expect_pair_words(const qc_plan *plan, size_t up_right,
                              size_t up_left, bool mirrored)
{
    expect_mirrored(
        plan, up_right,
        mirrored
            ? "Set S1 right: sew 2 sets 40 in long, from the bottom up S1 "
              "night (night, 3 in wide), S1 sand (sand, 2 in wide), with seams "
              "of 1/4 in. Begin each strip but the lowest 2 1/2 in further to "
              "the right than the one below (mark the upper edge of the one "
              "below that far from its left end, and begin there). Press all "
              "seams up, those of set S1 left down, so that they nest where "
              "the two hands meet."
            : "Set S1 right: sew 2 sets 40 in long, from the bottom up S1 "
              "night (night, 3 in wide), S1 sand (sand, 2 in wide), with seams "
              "of 1/4 in. Begin each strip but the lowest 2 1/2 in further to "
              "the right than the one below (mark the upper edge of the one "
              "below that far from its left end, and begin there). Press all "
              "seams down, those of set S1 left up, so that they nest where "
              "the two hands meet.",
        mirrored);
    expect_mirrored(
        plan, up_right + 1,
        "Set S1 right: one set at a time, lay the ruler's 45-degree line along "
        "the lower edge, its edge leaning to the right, through the lower left "
        "corner, and cut the ends off; then set the ruler to 2 in, measured "
        "square to that cut (along the strips that is about 2 13/16 in), and, "
        "going on to the right, cut 13 segments from each of the 2 sets (26 of "
        "33 so far). After every third cut true the angle again.",
        mirrored);
    expect_mirrored(
        plan, up_left + 1,
        "Set S1 left: one set at a time, lay the ruler's 45-degree line along "
        "the lower edge, its edge leaning to the left, through the point 2 3/4 "
        "in from the left end on the lower edge, and cut the ends off; then "
        "set the ruler to 2 in, measured square to that cut (along the strips "
        "that is about 2 13/16 in), and, going on to the right, cut 13 "
        "segments from each of the 2 sets (26 of 33 so far). After every third "
        "cut true the angle again.",
        mirrored);
    expect_mirrored(
        plan, up_left + 2,
        "Set S1 left: sew one more, shorter set 22 5/8 in long in the same "
        "way, from the bottom up S1 night end (night, 3 in wide), S1 sand end "
        "(sand, 2 in wide).",
        mirrored);
    expect_mirrored(
        plan, up_left + 3,
        "Set S1 left: lay the ruler's 45-degree line along the lower edge, its "
        "edge leaning to the left, through the point 2 3/4 in from the left "
        "end on the lower edge, and cut the ends off; then set the ruler to 2 "
        "in, measured square to that cut (along the strips that is about 2 "
        "13/16 in), and, going on to the right, cut 7 segments from the set (7 "
        "now, which makes all 33). After every third cut true the angle "
        "again.",
        mirrored);
}

static void both_hands(void **state)
{
    qc_plan *plan = pair_plan(false);

    (void)state;
    assert_int_equal(qc_plan_step_count(plan), 8);
    expect_pair_numbers(plan, 0, 0);
    expect_pair_numbers(plan, 4, 1);
    expect_pair_words(plan, 0, 4, false);
    assert_string_equal(
        order_text(plan, 4),
        "Set S1 left: sew 2 sets 40 in long, from the bottom up S1 night "
        "(night, 3 in wide), S1 sand (sand, 2 in wide), with seams of 1/4 in. "
        "Begin each strip but the lowest 2 1/2 in further to the left than the "
        "one below (mark its lower edge that far from its left end: there the "
        "one below begins). Press all seams up, those of set S1 right down, so "
        "that they nest where the two hands meet.");
    assert_string_equal(qc_plan_step_at(plan, 4)->source, "set S1 left");
    qc_plan_destroy(plan);
}

/* In the mirror the set called left stands where the right one was. */
static void both_hands_left_handed(void **state)
{
    qc_plan *plan = pair_plan(true);

    (void)state;
    expect_pair_numbers(plan, 0, 0);
    expect_pair_numbers(plan, 4, 1);
    expect_pair_words(plan, 4, 0, true);
    qc_plan_destroy(plan);
}

/* Three strips at 60 degrees, ends stepped along by what wastes least: finished
 * 2 1/2 and 1 1/2 in of the lower neighbours times cot 60 = 0.57735. Only a
 * short set is needed. */
static void three_strips(void **state)
{
    static const qc_set_strip strips[] = {
        {0, INCHES(3), 0, N, 2},
        {1, INCHES(2), 293296, N, 3},
        {0, INCHES(3), 293296 + 175978, N, 4}};
    qc_plan *plan = strips_plan();
    qci_plan_set *set = add_set(plan, "S1", strips, 3);

    (void)state;
    set->info.hand = QC_HAND_RIGHT;
    set->info.height = INCHES(7);
    set->info.angle = 60 * QC_DEGREE;
    set->info.lean = 821226;
    set->info.spacing = INCHES(3);
    set->info.pitch = 703910;
    set->info.segments = set->info.part_segments = 1;
    set->info.part_length = INCHES(8);
    order_plan(plan, INCHES(1));
    assert_int_equal(qc_plan_step_count(plan), 2);
    assert_string_equal(
        order_text(plan, 0),
        "Set S1: sew 1 set 8 in long, from the bottom up S1 night end (night, "
        "3 in wide), S1 sand end (sand, 2 in wide), S1 fog (night, 3 in wide), "
        "with seams of 1/4 in. Begin S1 sand end about 1 7/16 in further to "
        "the right than the one below (mark the upper edge of the one below "
        "that far from its left end, and begin there); S1 fog about 7/8 in "
        "further to the right than the one below (mark the upper edge of the "
        "one below that far from its left end, and begin there). Press all "
        "seams the same way.");
    assert_string_equal(
        order_text(plan, 1),
        "Set S1: lay the ruler's 60-degree line along the lower edge, its edge "
        "leaning to the right, through the lower left corner, and cut the ends "
        "off; then set the ruler to 3 in, measured square to that cut (along "
        "the strips that is about 3 7/16 in), and, going on to the right, cut "
        "1 segment from the set (1 in all).");
    qc_plan_destroy(plan);
}

/* Square across, ends even; and at an angle for which no ruler has a line: the
 * cut runs 1 in over 4 1/2 in, with the ends even. */
static void square_and_odd_angles(void **state)
{
    static const qc_set_strip strips[] = {{0, INCHES(3), 0, 0, N},
                                          {1, INCHES(2), 0, 1, N}};
    qc_plan *plan = strips_plan();
    qci_plan_set *set = add_set(plan, "S1", strips, 2);

    (void)state;
    set->info.height = EIGHTHS(36);
    set->info.angle = 90 * QC_DEGREE;
    set->info.spacing = set->info.pitch = INCHES(2);
    set->info.segments = set->info.per_set = 20;
    set->info.sets = 1;
    set->info.full_length = INCHES(40);
    order_plan(plan, INCHES(1));
    order_expect_text(
        plan, 0,
        "Set S1: sew 1 set 40 in long, from the bottom up S1 night (night, 3 "
        "in wide), S1 sand (sand, 2 in wide), with seams of 1/4 in. Begin each "
        "strip but the lowest even with the left end of the one below. Press "
        "all seams the same way.");
    order_expect_text(
        plan, 1,
        "Set S1: lay the ruler square across, through the lower left corner, "
        "and cut the ends off; then set the ruler to 2 in and, going on to the "
        "right, cut 20 segments from the set (20 in all).");
    set = &plan->sets[0];
    set->info.hand = QC_HAND_RIGHT;
    set->info.lean = INCHES(1);
    set->info.pitch = 416310;
    set->info.segments = set->info.per_set = 3;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    order_expect_text(
        plan, 1,
        "Set S1: lay the ruler's edge from the lower left corner to the point "
        "1 in from the left end on the upper edge, and cut the ends off; then "
        "set the ruler to 2 in, measured square to that cut (along the strips "
        "that is about 2 1/16 in), and, going on to the right, cut 3 segments "
        "from the set (3 in all).");
    qc_plan_destroy(plan);
}

/* Segments of both hands, 4 1/2 in high and 6.364 in along their sides, with a
 * pitch of 2 sqrt2 in; each case worked out by where two lines meet.
 *   30 degrees from the lower end: the cut gains 4 1/2 (cot 30 - cot 45)
 * = 3.294 in sideways over the height, so it is 3.864 in up when it has crossed
 * the pitch, which is 5.464 in of the side. 135 degrees from 4 in, 2.828 in up:
 * it loses as much height again as the sides gain, half a pitch: 1.414 in up, 2
 * in of the side. Square to the strips from 3 sqrt2 in, 3 in up: it loses the
 * pitch, 0.172 in up, 0.243 in of the side. Back from the upper end, square: 4
 * 1/2 - 2.828 = 1.672 in, 2.364 in. */
static void segments_in_two(void **state)
{
    static const struct {
        qc_length at;
        int32_t degrees;
        const char *right, *left;
    } cases[] = {
        {0, 30,
         "from the lower left corner to the point about 5 7/16 in up its right "
         "side, its 30-degree line on a seam (66 pieces).",
         "from the lower right corner to the point about 5 7/16 in up its left "
         "side, its 30-degree line on a seam (66 pieces)."},
        {INCHES(4), 135,
         "from the point 4 in up its left side to the point 2 in up its right "
         "side, its 45-degree line on a seam (66 pieces).",
         "from the point 4 in up its right side to the point 2 in up its left "
         "side, its 45-degree line on a seam (66 pieces)."},
        {862104, 90,
         "from the point about 4 1/4 in up its left side to the point about "
         "1/4 in up its right side, square to the seams (66 pieces).",
         "from the point about 4 1/4 in up its right side to the point about "
         "1/4 in up its left side, square to the seams (66 pieces)."},
        {1293158, 90,
         "from the upper left corner to the point about 2 3/8 in up its right "
         "side, square to the seams (66 pieces).",
         "from the upper right corner to the point about 2 3/8 in up its left "
         "side, square to the seams (66 pieces)."},
    };

    (void)state;
    for (size_t n = 0; n < 2 * sizeof cases / sizeof *cases; n++) {
        bool left_handed = n % 2 != 0;
        qc_plan *plan = pair_plan(left_handed);

        for (size_t i = 0; i < 2; i++) {
            plan->sets[i].info.second_at = cases[n / 2].at;
            plan->sets[i].info.second_angle = cases[n / 2].degrees * QC_DEGREE;
        }
        assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
        /* A segment is what it is, whoever cuts it. */
        assert_non_null(strstr(order_text(plan, 4), cases[n / 2].right));
        assert_non_null(strstr(order_text(plan, 9), cases[n / 2].left));
        qc_plan_destroy(plan);
    }
}

/* The whole of such a step. */
static void a_halving_step(void **state)
{
    qc_plan *plan = pair_plan(false);
    const qc_step *step;

    (void)state;
    plan->sets[0].info.second_angle = 40 * QC_DEGREE;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_step_count(plan), 9);
    step = qc_plan_step_at(plan, 4);
    order_expect_step(step, &(order_expected){QC_STEP_HALVE, N, N, N, 0, 0, 0,
                                              33, 1, 1, 33, 66, 0});
    assert_int_equal(step->set, 0);
    assert_string_equal(step->source, "segments S1 right");
    assert_non_null(strstr(step->text,
                           "Segments S1 right: one at a time, each lying as it "
                           "was cut, cut each of the 33 segments in two: lay "
                           "the ruler's edge from the lower left corner to "));
    assert_non_null(strstr(step->text, " up its right side (66 pieces)."));
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(both_hands),
        cmocka_unit_test(both_hands_left_handed),
        cmocka_unit_test(three_strips),
        cmocka_unit_test(square_and_odd_angles),
        cmocka_unit_test(segments_in_two),
        cmocka_unit_test(a_halving_step),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
