/* The plan's accessors, and its end at every stage of its making. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "slanted_plan.h"

/* Two fabrics, three pieces, every list of at least one element. */
static qc_plan *full_plan(void)
{
    qc_plan *plan = hand_plan();
    uint32_t a, b, c;
    qci_plan_fabric *first;

    hand_fabric(plan, "night", INCHES(42), EIGHTHS(4));
    a = hand_piece(plan, "A", EIGHTHS(20), EIGHTHS(36));
    b = hand_piece(plan, "B", EIGHTHS(20), EIGHTHS(20));
    hand_strip(plan, EIGHTHS(36), 2);
    hand_row(plan, 16, a, QC_TURN_NONE);
    hand_strip(plan, EIGHTHS(20), 3);
    hand_row(plan, 16, b, QC_TURN_NONE);
    hand_fabric(plan, "sand", INCHES(40), 0);
    c = hand_piece(plan, "C", INCHES(3), INCHES(3));
    hand_strip(plan, INCHES(6), 1);
    hand_subcut(plan, 12);
    hand_stack(plan, c, 2, QC_TURN_NONE);
    hand_finish(plan, EIGHTHS(12));

    first = &plan->fabrics[0];
    first->levels = qci_calloc(2, sizeof *first->levels);
    first->info.level_count = 2;
    first->levels[1].goal = QC_GOAL_SETUPS;
    plan->defaults = qci_calloc(1, sizeof *plan->defaults);
    plan->default_count = 1;
    plan->defaults[0] = qci_strdup("seam 1/4 in");
    plan->steps = qci_calloc(1, sizeof *plan->steps);
    plan->step_count = 1;
    plan->steps[0].number = 1;
    plan->steps[0].source = qci_strdup("bolt");
    plan->steps[0].text = qci_strdup("Cut.");
    return plan;
}

static void accessors_reach_every_element(void **state)
{
    qc_plan *plan = full_plan();

    (void)state;
    assert_int_equal(qc_plan_fabric_count(plan), 2);
    assert_string_equal(qc_plan_fabric_at(plan, 1)->id, "sand");
    assert_int_equal(qc_plan_level_at(plan, 0, 1)->goal, QC_GOAL_SETUPS);
    assert_int_equal(qc_plan_strip_at(plan, 0, 1)->repeat, 3);
    assert_int_equal(qc_plan_strip_at(plan, 1, 0)->subcuts[0].stacks[0].count,
                     2);
    /* Two ends of 2 in, three likewise; bought 18 in, used 17. */
    assert_int_equal(qc_plan_fabric_at(plan, 0)->leftover_count, 2);
    assert_int_equal(qc_plan_leftover_at(plan, 0, 1)->width, INCHES(2));
    assert_int_equal(qc_plan_piece_count(plan), 3);
    assert_string_equal(qc_plan_piece_at(plan, 2)->id, "C");
    assert_int_equal(qc_plan_piece_at(plan, 2)->count, 24);
    assert_int_equal(qc_plan_step_count(plan), 1);
    assert_string_equal(qc_plan_step_at(plan, 0)->text, "Cut.");
    assert_int_equal(qc_plan_default_count(plan), 1);
    assert_string_equal(qc_plan_default_at(plan, 0), "seam 1/4 in");
    assert_int_equal(qc_plan_units(plan), QC_UNITS_IN);
    qc_plan_destroy(plan);
}

static void one_past_the_end_is_null(void **state)
{
    qc_plan *plan = full_plan();

    (void)state;
    assert_null(qc_plan_fabric_at(plan, 2));
    assert_null(qc_plan_level_at(plan, 0, 2));
    assert_null(qc_plan_level_at(plan, 1, 0));
    assert_null(qc_plan_level_at(plan, 2, 0));
    assert_null(qc_plan_strip_at(plan, 0, 2));
    assert_null(qc_plan_strip_at(plan, SIZE_MAX, 0));
    assert_null(qc_plan_leftover_at(plan, 0, 2));
    assert_null(qc_plan_leftover_at(plan, 2, 0));
    assert_null(qc_plan_piece_at(plan, 3));
    assert_null(qc_plan_step_at(plan, 1));
    assert_null(qc_plan_default_at(plan, 1));
    qc_plan_destroy(plan);
}

static void strip_sets_are_reached(void **state)
{
    qc_plan *plan = slanted_plan();

    (void)state;
    assert_false(qc_plan_left_handed(plan));
    plan->left_handed = true;
    assert_true(qc_plan_left_handed(plan));
    assert_int_equal(qc_plan_set_count(plan), 2);
    assert_string_equal(qc_plan_set_at(plan, 1)->id, "S1 left");
    assert_int_equal(qc_plan_set_at(plan, 1)->hand, QC_HAND_LEFT);
    assert_int_equal(qc_plan_set_strip_at(plan, 0, 1)->width, INCHES(2));
    assert_null(qc_plan_set_at(plan, 2));
    assert_null(qc_plan_set_strip_at(plan, 0, 2));
    assert_null(qc_plan_set_strip_at(plan, 2, 0));
    assert_null(qc_plan_set_strip_at(plan, SIZE_MAX, 0));
    qc_plan_destroy(plan);
}

static void an_empty_plan_has_nothing(void **state)
{
    qc_plan *plan = qci_calloc(1, sizeof *plan);

    (void)state;
    assert_string_equal(qc_plan_title(plan), "");
    assert_int_equal(qc_plan_outcome(plan), QC_OUTCOME_OPTIMAL);
    assert_null(qc_plan_fabric_at(plan, 0));
    assert_null(qc_plan_piece_at(plan, 0));
    assert_null(qc_plan_set_at(plan, 0));
    assert_null(qc_plan_step_at(plan, 0));
    qc_plan_destroy(plan);
}

static void the_weakest_outcome_is_the_plans(void **state)
{
    qc_plan *plan = full_plan();

    (void)state;
    assert_int_equal(qc_plan_outcome(plan), QC_OUTCOME_OPTIMAL);
    plan->fabrics[1].info.outcome = QC_OUTCOME_FEASIBLE;
    assert_int_equal(qc_plan_outcome(plan), QC_OUTCOME_FEASIBLE);
    qc_plan_destroy(plan);
}

static void nothing_outlives_a_plan(void **state)
{
    long before = qci_alloc_live();

    (void)state;
    qc_plan_destroy(full_plan());
    qc_plan_destroy(slanted_plan());
    qc_plan_destroy(NULL);
    assert_int_equal(qci_alloc_live(), before);
}

/* Counts whose lists were never made, and elements never filled. */
static void a_half_built_plan_ends_cleanly(void **state)
{
    long before = qci_alloc_live();
    qc_plan *plan = qci_calloc(1, sizeof *plan);
    qci_plan_fabric *fabric;

    (void)state;
    plan->piece_count = plan->step_count = plan->default_count = 7;
    plan->fabric_count = plan->set_count = 7;
    qc_plan_destroy(plan);

    plan = qci_calloc(1, sizeof *plan);
    plan->fabric_count = 3;
    plan->fabrics = qci_calloc(3, sizeof *plan->fabrics);
    plan->piece_count = 2;
    plan->pieces = qci_calloc(2, sizeof *plan->pieces);
    plan->pieces[0].outline_count = plan->pieces[0].base_count = 5;
    plan->set_count = 2;
    plan->sets = qci_calloc(2, sizeof *plan->sets);
    plan->sets[1].info.strip_count = 3;
    plan->default_count = 2;
    plan->defaults = qci_calloc(2, sizeof *plan->defaults);
    fabric = &plan->fabrics[1];
    fabric->info.level_count = fabric->info.leftover_count = 4;
    fabric->info.strip_count = 4;
    fabric->strips = qci_calloc(4, sizeof *fabric->strips);
    fabric->strips[0].subcut_count = 5;
    fabric->strips[1].subcut_count = 2;
    fabric->strips[1].subcuts = qci_calloc(2, sizeof(qc_subcut));
    ((qc_subcut *)fabric->strips[1].subcuts)[0].stack_count = 9;
    plan->fabrics[2].info.strip_count = 8;
    qc_plan_destroy(plan);
    assert_int_equal(qci_alloc_live(), before);
}

static void steps_can_be_ended_alone(void **state)
{
    qc_plan *plan = full_plan();

    (void)state;
    qci_plan_clear_steps(plan);
    assert_int_equal(qc_plan_step_count(plan), 0);
    assert_null(qc_plan_step_at(plan, 0));
    qci_plan_clear_steps(plan);
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(accessors_reach_every_element),
        cmocka_unit_test(one_past_the_end_is_null),
        cmocka_unit_test(strip_sets_are_reached),
        cmocka_unit_test(an_empty_plan_has_nothing),
        cmocka_unit_test(the_weakest_outcome_is_the_plans),
        cmocka_unit_test(nothing_outlives_a_plan),
        cmocka_unit_test(a_half_built_plan_ends_cleanly),
        cmocka_unit_test(steps_can_be_ended_alone),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
