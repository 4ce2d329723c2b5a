/* Plans as JSON: what slants, the hands, strip sets. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "hand_plan.h"
#include "json_expect.h"
#include "slanted_plan.h"

static void shapes_and_hands_are_written(void **state)
{
    qc_plan *slanted = slanted_plan();
    json_t *all = written_of(slanted);
    const json_t *blade = at(all, "pieces", "[1]", NULL);
    const json_t *star = at(all, "pieces", "[4]", NULL);

    (void)state;
    expect_text(blade, "id", "Blade left");
    expect_text(blade, "job_id", "Blade");
    expect_text(blade, "shape", "parallelogram");
    expect_text(blade, "hand", "left");
    expect_text(blade, "twin", "Blade right");
    expect_number(blade, "angle", 45);
    assert_int_equal(json_array_size(at(blade, "finished", NULL)), 2);
    assert_int_equal(json_array_size(at(blade, "outlines", "[0]", NULL)), 4);
    expect_number(at(blade, "outlines", "[0]", "[3]", NULL), "[0]", -2.5);
    expect_text(at(all, "pieces", "[2]", NULL), "shape", "trapezoid");
    assert_int_equal(
        json_array_size(at(all, "pieces", "[2]", "finished", NULL)), 3);
    assert_null(json_object_get(at(all, "pieces", "[2]", NULL), "hand"));
    assert_null(json_object_get(at(all, "pieces", "[2]", NULL), "twin"));
    assert_null(json_object_get(at(all, "pieces", "[2]", NULL), "angle"));
    assert_true(json_is_true(at(star, "blunt", NULL)));
    expect_number(at(star, "trim_to", NULL), "[1]", 1.625);
    assert_int_equal(json_array_size(at(star, "finished", NULL)), 1);
    expect_text(at(all, "pieces", "[5]", NULL), "strip_set", "S1");
    assert_null(json_object_get(at(all, "pieces", "[5]", NULL), "outlines"));
    assert_true(json_is_false(at(all, "left_handed", NULL)));
    json_decref(all);
    slanted->left_handed = slanted->pieces[SKY].facing_kept = true;
    all = written_of(slanted);
    assert_true(json_is_true(at(all, "left_handed", NULL)));
    expect_text(at(all, "pieces", "[9]", NULL), "facing", "kept");
    json_decref(all);
    qc_plan_destroy(slanted);
}

static void slanted_sections_are_written(void **state)
{
    qc_plan *slanted = slanted_plan();
    json_t *all = written_of(slanted);
    const json_t *strips = at(all, "fabrics", "[0]", "strips", NULL);
    const json_t *pair = at(strips, "[5]", NULL);
    const json_t *blades = at(pair, "subcuts", "[0]", NULL);
    const json_t *banks = at(pair, "subcuts", "[1]", NULL);
    const json_t *squares =
        at(all, "fabrics", "[1]", "strips", "[0]", "subcuts", "[0]", NULL);

    (void)state;
    assert_true(json_is_true(at(pair, "paired", NULL)));
    assert_true(json_is_false(at(strips, "[0]", "paired", NULL)));
    expect_text(blades, "piece", "Blade right");
    expect_text(blades, "hand", "right");
    expect_number(at(blades, "leans", NULL), "[0]", 2.5);
    expect_number(at(blades, "leans", NULL), "[1]", 2.5);
    assert_true(json_is_false(at(blades, "turned", NULL)));
    expect_number(blades, "base", 0);
    assert_null(json_object_get(blades, "corners"));
    expect_text(banks, "turned", "alternate");
    expect_number(at(banks, "leans", NULL), "[1]", -1.25);
    assert_null(json_object_get(banks, "hand"));
    expect_number(at(strips, "[0]", "subcuts", "[0]", NULL), "corners", 2);
    assert_true(
        json_is_true(at(strips, "[6]", "subcuts", "[1]", "turned", NULL)));
    /* Squares for triangles lie as squares. */
    expect_number(squares, "yields", 4);
    assert_null(json_object_get(squares, "base"));
    json_decref(all);
    qc_plan_destroy(slanted);
}

/* Of the plan's sections by turns and of its step, how the first lies. */
static void expect_first(const qc_plan *plan, bool turned)
{
    json_t *all = written_of(plan);
    const json_t *where[] = {
        at(all, "fabrics", "[0]", "strips", "[5]", "subcuts", "[1]", NULL),
        at(all, "steps", "[2]", NULL)};

    for (int i = 0; i < 2; i++) {
        const json_t *first = json_object_get(where[i], "first_turned");

        expect_text(where[i], "turned", "alternate");
        assert_true(turned ? json_is_true(first) : !first);
    }
    json_decref(all);
}

static void by_turns_says_how_the_first_lies(void **state)
{
    qc_plan *slanted = slanted_plan();
    qc_strip *pair = &slanted->fabrics[0].strips[5];
    const qc_subcut *owned = pair->subcuts;
    qc_subcut subcuts[] = {owned[0], owned[1]};
    qc_stack banks = *owned[1].stacks;

    (void)state;
    expect_first(slanted, false);
    assert_int_equal(pair->subcut_count, 2);
    banks.turn = slanted->steps[2].turn = QC_TURN_HALF;
    subcuts[1].stacks = &banks;
    pair->subcuts = subcuts;
    expect_first(slanted, true);
    pair->subcuts = owned;
    qc_plan_destroy(slanted);
}

static void strip_sets_are_written(void **state)
{
    qc_plan *slanted = slanted_plan();
    json_t *all = written_of(slanted);
    const json_t *left = at(all, "strip_sets", "[1]", NULL);
    const json_t *steps = at(all, "steps", NULL);

    (void)state;
    assert_int_equal(json_array_size(at(all, "strip_sets", NULL)), 2);
    expect_text(left, "id", "S1 left");
    expect_text(left, "hand", "left");
    expect_number(left, "height", 4.5);
    expect_number(left, "lean", -4.5);
    expect_number(left, "sets", 1);
    expect_number(left, "segments_of_each", 13);
    expect_number(at(all, "strip_sets", "[0]", NULL), "blade", 90);
    expect_text(left, "part_length_text", "22 7/8 in");
    expect_number(left, "second_angle", 135);
    expect_number(at(left, "strips", "[1]", NULL), "offset", -2.5);
    expect_text(at(left, "strips", "[1]", NULL), "fabric", "Sand");
    expect_text(at(left, "strips", "[0]", NULL), "part_piece",
                "S1 left Reed end");
    assert_null(
        json_object_get(at(all, "strip_sets", "[0]", NULL), "second_angle"));
    expect_text(at(steps, "[0]", NULL), "do", "slant");
    expect_number(at(steps, "[1]", NULL), "lean", 2.5);
    assert_true(json_is_true(at(steps, "[1]", "paired", NULL)));
    expect_text(at(steps, "[1]", NULL), "hand", "right");
    expect_text(at(steps, "[2]", NULL), "turned", "alternate");
    expect_number(at(steps, "[2]", NULL), "along", 5);
    expect_text(at(steps, "[3]", NULL), "do", "outline");
    assert_true(json_is_true(at(steps, "[3]", "mirrored", NULL)));
    assert_null(json_object_get(at(steps, "[3]", NULL), "lean"));
    expect_text(at(steps, "[4]", NULL), "do", "sew");
    expect_text(at(steps, "[4]", NULL), "strip_set", "S1 right");
    assert_null(json_object_get(at(steps, "[4]", NULL), "fabric"));
    expect_text(at(steps, "[5]", NULL), "do", "crosscut");
    expect_number(at(steps, "[5]", NULL), "lean", 4.5);
    expect_text(at(steps, "[7]", NULL), "do", "halve");
    json_decref(all);
    qc_plan_destroy(slanted);
}

static void every_allocation_may_fail(void **state)
{
    qc_plan *slanted = slanted_plan();

    (void)state;
    check_json_out_of_memory(slanted);
    qc_plan_destroy(slanted);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shapes_and_hands_are_written),
        cmocka_unit_test(slanted_sections_are_written),
        cmocka_unit_test(by_turns_says_how_the_first_lies),
        cmocka_unit_test(strip_sets_are_written),
        cmocka_unit_test(every_allocation_may_fail),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
