/* The cut order of plans built by hand: rulers, fabrics, large numbers, units,
 * memory. What is expected was worked out on paper. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/order.h"
#include "order_expect.h"

/* The ruler is set anew only where it must be: not for a second run as wide as
 * the first, nor for the height of a piece as high as its section is wide. */
static void settings_that_serve_again(void **state)
{
    static const char *const texts[] = {
        "Fold sand selvage to selvage; straighten its cut end, taking off 5 in "
        "at most.",
        "Cut 2 strips 5 in x width of fabric (strip 1).",
        "Strip 1: open the 2 strips out flat, lay them in one pile and square "
        "the left ends, cutting off the selvage.",
        "Strip 1: set the ruler to 4 in and, from the squared end, cut 3 "
        "pieces A, 4 x 5 in, from each of the 2 strips (6 in all).",
        "Strip 1: keep the ruler at 4 in and, going on to the right, cut 2 "
        "sections 4 in wide from each of the 2 strips (section 1a, 4 in all).",
        "Section 1a: leave the sections piled; keep the ruler at 4 in and, "
        "from the lower edge up, cut 1 piece B, 4 x 4 in, from each of the 4 "
        "sections (4 in all).",
    };
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(40), INCHES(5));
    hand_piece(plan, "A", INCHES(4), INCHES(5));
    hand_piece(plan, "B", INCHES(4), INCHES(4));
    hand_strip(plan, INCHES(5), 2);
    hand_row(plan, 3, 0, QC_TURN_NONE);
    hand_row(plan, 2, 1, QC_TURN_NONE);
    order_plan(plan, INCHES(30));
    assert_int_equal(qc_plan_step_count(plan), sizeof texts / sizeof *texts);
    order_expect_texts(plan, texts);
    qc_plan_destroy(plan);
}

/* No ruler is 25 in long: what is longer is measured, each time anew. */
static void lengths_beyond_any_ruler(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    hand_fabric(plan, "sand", INCHES(60), 0);
    hand_piece(plan, "A", INCHES(24), INCHES(25));
    hand_piece(plan, "B", INCHES(25), INCHES(24));
    hand_strip(plan, INCHES(25), 1);
    hand_row(plan, 1, 0, QC_TURN_NONE);
    hand_row(plan, 1, 1, QC_TURN_NONE);
    hand_strip(plan, INCHES(25), 1);
    hand_row(plan, 2, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(30));
    assert_string_equal(qc_plan_step_at(plan, 1)->text,
                        "Cut 1 strip 25 in x width of fabric (strip 2).");
    assert_non_null(
        strstr(qc_plan_step_at(plan, 3)->text, "set the ruler to 24 in and"));
    assert_non_null(strstr(qc_plan_step_at(plan, 4)->text,
                           "Strip 1: measure 25 in and, going on"));
    assert_non_null(strstr(qc_plan_step_at(plan, 5)->text,
                           "Section 1a: set the ruler to 24 in and, from"));
    qc_plan_destroy(plan);
}

/* The middle fabric is not needed: no step, no cut. Totals and part numbers
 * are each fabric's own, step numbers run through. */
static void several_fabrics(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    for (int i = 0; i < 3; i++) {
        hand_fabric(plan, "cloth", INCHES(40), EIGHTHS(4));
        hand_piece(plan, "A", INCHES(3), INCHES(3));
        if (i == 1)
            continue;
        hand_strip(plan, INCHES(3), 1);
        hand_row(plan, 2 + (uint32_t)i, (uint32_t)i, QC_TURN_NONE);
    }
    order_plan(plan, INCHES(38));
    assert_int_equal(qc_plan_step_count(plan), 8);
    for (size_t i = 0; i < 8; i++) {
        assert_int_equal(qc_plan_step_at(plan, i)->number, i + 1);
        assert_int_equal(qc_plan_step_at(plan, i)->fabric, i < 4 ? 0 : 2);
    }
    assert_int_equal(qc_plan_step_at(plan, 4)->kind, QC_STEP_SQUARE_UP);
    assert_non_null(strstr(qc_plan_step_at(plan, 4)->text, "Fold cloth"));
    assert_int_equal(qc_plan_step_at(plan, 5)->part_out, 1);
    assert_int_equal(qc_plan_step_at(plan, 7)->total, 4);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->cuts, 1 + 1 + 1 + 2);
    assert_int_equal(qc_plan_fabric_at(plan, 1)->cuts, 0);
    assert_int_equal(qc_plan_fabric_at(plan, 2)->cuts, 1 + 1 + 1 + 4);
    qc_plan_destroy(plan);
}

static void a_plan_without_fabrics(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    order_plan(plan, INCHES(1));
    assert_int_equal(qc_plan_step_count(plan), 0);
    qc_plan_destroy(plan);
}

/* Nineteen thousand million pieces take as many steps as ten; counts beyond 32
 * bits are right. */
static void huge_counts(void **state)
{
    uint32_t across = 1574; /* quarter inches in 10 m */
    qc_plan *plan = hand_plan();
    const qc_step *step;

    (void)state;
    hand_fabric(plan, "sheet", 10 * QC_M, 0);
    hand_piece(plan, "A", EIGHTHS(2), EIGHTHS(2));
    hand_strip(plan, EIGHTHS(6), 4000000);
    hand_subcut(plan, across);
    hand_stack(plan, 0, 3, QC_TURN_NONE);
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_step_count(plan), 4);
    step = qc_plan_step_at(plan, 3);
    assert_int_equal(step->copies, INT64_C(4000000) * 1574);
    assert_int_equal(step->total, INT64_C(4000000) * 1574 * 3);
    assert_int_equal(step->cuts, INT64_C(1000000) * 1574 * 2);
    assert_non_null(strstr(step->text, "(18888000000 in all)"));
    qc_plan_destroy(plan);
}

/* Sections beyond the 26th go on with two letters. */
static void many_sections(void **state)
{
    qc_plan *plan = hand_plan();
    static const char *const names[] = {"section 1z", "section 1aa",
                                        "section 1ab"};

    (void)state;
    hand_fabric(plan, "sand", INCHES(42), 0);
    hand_piece(plan, "A", INCHES(1), INCHES(1));
    hand_strip(plan, INCHES(2), 1);
    for (int i = 0; i < 28; i++)
        hand_row(plan, 1, 0, QC_TURN_NONE);
    order_plan(plan, INCHES(20));
    for (size_t i = 0; i < 3; i++)
        assert_string_equal(qc_plan_step_at(plan, 2 + 28 + 25 + i)->source,
                            names[i]);
    qc_plan_destroy(plan);
}

static void metric_readings(void **state)
{
    qc_plan *plan = hand_plan();

    (void)state;
    plan->units = QC_UNITS_CM;
    hand_fabric(plan, "sand", 110 * QC_CM, 12 * QC_MM);
    hand_piece(plan, "A", 115 * QC_MM, 65 * QC_MM);
    hand_strip(plan, 65 * QC_MM, 1);
    hand_row(plan, 9, 0, QC_TURN_NONE);
    order_plan(plan, QC_M);
    assert_string_equal(qc_plan_step_at(plan, 0)->text,
                        "Fold sand selvage to selvage; straighten its cut end, "
                        "taking off 1.2 cm at most.");
    assert_string_equal(qc_plan_step_at(plan, 3)->text,
                        "Strip 1: set the ruler to 11.5 cm and, from the "
                        "squared end, cut 9 pieces A, 11.5 x 6.5 cm, from the "
                        "strip (9 in all).");
    plan->units = QC_UNITS_MM;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_string_equal(qc_plan_step_at(plan, 1)->text,
                        "Cut 1 strip 65 mm x width of fabric (strip 1).");
    qc_plan_destroy(plan);
}

/* Every kind of step, to be made with failing memory. */
static qc_plan *varied_plan(void)
{
    qc_plan *plan = hand_plan();

    hand_fabric(plan, "sand", INCHES(42), EIGHTHS(4));
    hand_piece(plan, "A", INCHES(5), INCHES(2));
    hand_piece(plan, "B", INCHES(4), EIGHTHS(12));
    hand_strip(plan, INCHES(5), 6);
    hand_subcut(plan, 3);
    hand_stack(plan, 0, 1, QC_TURN_NONE);
    hand_stack(plan, 1, 2, QC_TURN_NONE);
    hand_strip(plan, INCHES(2), 1);
    hand_row(plan, 4, 0, QC_TURN_NONE);
    hand_finish(plan, EIGHTHS(8));
    return plan;
}

/* Whichever allocation fails, the old steps and cuts are left as they were. */
static void memory_may_run_out_anywhere(void **state)
{
    qc_plan *plan = varied_plan();
    long before;
    qc_error err;
    long n = 0;
    qc_status status;

    (void)state;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    plan->fabrics[0].info.cuts = 12345;
    before = qci_alloc_live();
    do {
        const qc_step *old = plan->steps;

        qc_error_init(&err);
        qci_alloc_fail_at(++n, 0);
        status = qci_order_make(plan, &err);
        qci_alloc_fail_at(0, 0);
        if (status == QC_STATUS_OK)
            break;
        assert_int_equal(status, QC_STATUS_NO_MEMORY);
        assert_int_equal(err.code, QC_STATUS_NO_MEMORY);
        assert_ptr_equal(plan->steps, old);
        assert_int_equal(plan->fabrics[0].info.cuts, 12345);
        assert_int_equal(qci_alloc_live(), before);
    } while (n < 10000);
    assert_int_equal(status, QC_STATUS_OK);
    /* Two texts a step at the least were made to fail. */
    assert_true(n > 2 * (long)plan->step_count);
    assert_int_not_equal(plan->fabrics[0].info.cuts, 12345);
    assert_int_equal(qci_alloc_live(), before);
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(settings_that_serve_again),
        cmocka_unit_test(lengths_beyond_any_ruler),
        cmocka_unit_test(several_fabrics),
        cmocka_unit_test(a_plan_without_fabrics),
        cmocka_unit_test(huge_counts),
        cmocka_unit_test(many_sections),
        cmocka_unit_test(metric_readings),
        cmocka_unit_test(memory_may_run_out_anywhere),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
