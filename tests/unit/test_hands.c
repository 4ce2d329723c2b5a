/* Examples planned for either hand: the same to buy and the same pieces, cut
 * from the other end; and what a plan says of the blocks its pieces are for,
 * which does not change with the hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#include "hard_job.h"

static qc_plan *solve(const qc_job *job, bool left_handed)
{
    qc_solve_options options;
    qc_plan *plan = NULL;

    qc_solve_options_init(&options);
    options.left_handed = left_handed;
    options.time_limit_ms = 60000;
    assert_int_equal(qc_job_solve(job, &options, &plan, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_left_handed(plan), left_handed);
    return plan;
}

static size_t count_of(const char *text, const char *word)
{
    size_t n = 0;

    for (; (text = strstr(text, word)); text += strlen(word))
        n++;
    return n;
}

/* Words of the steps: every strip is squared at its working end. */
static void check_ends(const qc_plan *right, const qc_plan *left)
{
    size_t steps = qc_plan_step_count(right), right_ends = 0, left_ends = 0;

    assert_int_equal(qc_plan_step_count(left), steps);
    for (size_t i = 0; i < steps; i++) {
        right_ends +=
            count_of(qc_plan_step_at(right, i)->text, "square the left end");
        left_ends +=
            count_of(qc_plan_step_at(left, i)->text, "square the right end");
        assert_null(
            strstr(qc_plan_step_at(left, i)->text, "square the left end"));
    }
    assert_true(right_ends > 0);
    assert_int_equal(left_ends, right_ends);
}

static void check_example(const char *name)
{
    qc_job *job = qct_example_job(name);
    qc_plan *right = solve(job, false), *left = solve(job, true);

    for (size_t i = 0; i < qc_plan_fabric_count(right); i++) {
        const qc_plan_fabric *a = qc_plan_fabric_at(right, i);
        const qc_plan_fabric *b = qc_plan_fabric_at(left, i);

        assert_int_equal(a->bound, a->bought);
        assert_int_equal(a->bought, b->bought);
        assert_int_equal(a->used, b->used);
    }
    assert_int_equal(qc_plan_piece_count(right), qc_plan_piece_count(left));
    for (size_t i = 0; i < qc_plan_piece_count(right); i++)
        assert_int_equal(qc_plan_piece_at(right, i)->count,
                         qc_plan_piece_at(left, i)->count);
    check_ends(right, left);
    qc_plan_destroy(right);
    qc_plan_destroy(left);
    qc_job_destroy(job);
}

static void either_hand_buys_and_cuts_the_same(void **state)
{
    (void)state;
    check_example("tidal-star.json");
    check_example("reed-pinwheel.json");
    check_example("herring-bands.json");
}

/* An eight-pointed star has eight rays, four corners and four sides; a nine
 * patch five dark squares and four light (common practice, no source). */
static void blocks_are_told(void **state)
{
    qc_job *job = qct_example_job("skerry-lights.json");
    qc_plan *plan = solve(job, false);
    char *text, *at, *end;

    (void)state;
    assert_int_equal(qc_plan_text(plan, &text, NULL), QC_STATUS_OK);
    at = strstr(text, "\nBLOCKS\n");
    assert_non_null(at);
    end = strstr(at, "\nPIECES TO CUT\n");
    assert_non_null(end);
    *end = '\0';
    assert_non_null(strstr(at, "nine patch: 20 blocks, 6 x 6 in finished"));
    assert_int_equal(count_of(at, "  8  star "), 1);
    assert_int_equal(count_of(at, "  4  background "), 2);
    assert_int_equal(count_of(at, "  5  dark "), 1);
    assert_int_equal(count_of(at, "  4  light "), 1);
    assert_int_equal(count_of(at, "Coral"), 1);
    assert_int_equal(count_of(at, "Night blue"), 3);
    qc_text_destroy(text);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(either_hand_buys_and_cuts_the_same),
        cmocka_unit_test(blocks_are_told),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
