/* How far the blade runs, against Pythagoras' rule on each kind of cut, in
 * floating point; and that fabrics and sets have the sums of their steps. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#define IN ((double)QC_INCH)

static qc_plan *solve(const char *text)
{
    qc_plan *plan = NULL;
    qc_error err;
    qc_job *job;

    qc_error_init(&err);
    if (qc_job_parse(text, strlen(text), &job, &err))
        fail_msg("%s: %s", err.field, err.problem);
    assert_int_equal(qc_job_solve(job, NULL, &plan, &err), QC_STATUS_OK);
    qc_job_destroy(job);
    return plan;
}

/* A fabric 40 in wide, and what stands for pieces and more. */
#define JOB(options, rest)                                                     \
    "{\"quiltcut\": 1, \"options\": {" options "}, \"fabrics\": [{\"id\": "    \
    "\"f\", \"width\": 40}], " rest "}"

/* The sums hold; each step of a kind, of which there must be one, takes
 * `each` inches for every cut, to within what is rounded. */
static void expect(const qc_plan *plan, qc_step_kind kind, double each)
{
    int64_t fabric = 0, set = 0;
    size_t seen = 0;

    for (size_t i = 0; i < qc_plan_step_count(plan); i++) {
        const qc_step *step = qc_plan_step_at(plan, i);

        fabric += step->set == QC_NONE ? step->blade : 0;
        set += step->set == QC_NONE ? 0 : step->blade;
        if (step->kind != kind)
            continue;
        seen++;
        assert_true(step->cuts == 0 || step->blade > 0);
        if (fabs((double)step->blade - (double)step->cuts * each * IN) >
            4.0 * (double)step->cuts)
            fail_msg("step %u: %f in for %d cuts, not %f each", step->number,
                     (double)step->blade / IN, (int)step->cuts, each);
    }
    assert_true(seen > 0);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->blade, fabric);
    for (size_t i = 0; i < qc_plan_set_count(plan); i++)
        set -= qc_plan_set_at(plan, i)->blade;
    assert_int_equal(set, 0);
}

/* Squares of 4 in from one strip, and from its end a stack of two rectangles of
 * 2 in, the upper one cut down from the section's 4 in to 3 in. */
static void square_cuts(void **state)
{
    qc_plan *plan = solve(
        JOB("", "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": "
                "\"square\", \"cut\": 4, \"count\": 9}, {\"id\": \"B\", "
                "\"fabric\": \"f\", \"shape\": \"rectangle\", \"cut\": [4, 2], "
                "\"grain\": \"crosswise\", \"count\": 1}, {\"id\": \"C\", "
                "\"fabric\": \"f\", \"shape\": \"rectangle\", \"cut\": [3, 2], "
                "\"grain\": \"crosswise\", \"count\": 1}]"));

    (void)state;
    expect(plan, QC_STEP_SQUARE_UP, 20); /* the bolt lies folded */
    expect(plan, QC_STEP_STRIP, 20);
    expect(plan, QC_STEP_SQUARE_END, 4);
    expect(plan, QC_STEP_SUBCUT, 4);
    expect(plan, QC_STEP_SPLIT, 4);
    expect(plan, QC_STEP_TRIM, 2);
    qc_plan_destroy(plan);
}

static void one_layer(void **state)
{
    qc_plan *plan = solve(JOB("\"layers\": 1",
                              "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", "
                              "\"shape\": \"square\", \"cut\": 3, \"count\": "
                              "9}]"));

    (void)state;
    expect(plan, QC_STEP_SQUARE_UP, 40);
    expect(plan, QC_STEP_STRIP, 40);
    expect(plan, QC_STEP_KEEP, 0);
    qc_plan_destroy(plan);
}

static void corner_to_corner(void **state)
{
    qc_plan *plan = solve(
        JOB("", "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": "
                "\"quarter-square triangle\", \"cut\": 5, \"count\": 24}]"));

    (void)state;
    expect(plan, QC_STEP_DIAGONAL, 5 * sqrt(2));
    qc_plan_destroy(plan);
}

static void slanted_cuts(void **state)
{
    qc_plan *plan = solve(
        JOB("", "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": "
                "\"diamond\", \"angle\": 45, \"cut\": 2, \"count\": 30}]"));

    (void)state;
    expect(plan, QC_STEP_SLANT, 2 * sqrt(2));
    expect(plan, QC_STEP_SUBCUT, 2 * sqrt(2));
    qc_plan_destroy(plan);
}

/* Both sides of an equilateral triangle are height x 2 / sqrt 3 long; those of
 * a right-angled one differ, and its strip is cut along each by turns. */
static void cuts_by_turns(void **state)
{
    qc_plan *even = solve(
        JOB("", "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": "
                "\"equilateral triangle\", \"cut\": 3, \"count\": 30}]"));
    qc_plan *uneven = solve(
        JOB("", "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": "
                "\"polygon\", \"cut\": [[0, 0], [4, 0], [4, 3]], \"count\": "
                "7}]"));
    const qc_step *step;
    size_t i = 0;

    (void)state;
    expect(even, QC_STEP_SUBCUT, 3 * 2 / sqrt(3));
    expect(uneven, QC_STEP_SQUARE_END, 3);
    while ((step = qc_plan_step_at(uneven, i))->kind != QC_STEP_SUBCUT)
        i++;
    assert_true(step->alternate && step->cuts >= 6);
    /* hypotenuse 5, upright side 3; the first piece has either first */
    assert_in_range(step->blade, (int64_t)((double)(step->cuts - 1) * 4 * IN),
                    (int64_t)((double)(step->cuts + 1) * 4 * IN));
    assert_int_equal((step->blade + QC_INCH / 2) / QC_INCH,
                     step->cuts * 4 + (step->cuts % 2 == 0 ? 0
                                       : step->lean == 0   ? -1
                                                           : 1));
    qc_plan_destroy(even);
    qc_plan_destroy(uneven);
}

/* Two corners of a hexagon's section are cut off, each along a side of the
 * hexagon: height / sqrt 3. */
static void round_an_outline(void **state)
{
    qc_plan *plan = solve(
        JOB("", "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": "
                "\"hexagon\", \"cut\": 3, \"count\": 10}]"));

    (void)state;
    expect(plan, QC_STEP_OUTLINE, 3 / sqrt(3));
    qc_plan_destroy(plan);
}

/* Two strips of 2 1/2 in sewn with 1/4 in seams: 4 1/2 in from raw edge to raw
 * edge; at 45 degrees that is 4 1/2 sqrt 2 along the cut. The second cut runs
 * square to the strips through segments whose cuts lie 3 in apart. */
static void through_sets(void **state)
{
    qc_plan *plan = solve(
        JOB("", "\"pieces\": [], \"strip_sets\": [{\"id\": \"S\", \"angle\": "
                "45, \"segments\": 7, \"spacing\": 3, \"second\": {\"at\": 4, "
                "\"angle\": 135}, \"strips\": [{\"fabric\": \"f\", \"cut\": "
                "2.5}, {\"fabric\": \"f\", \"cut\": 2.5}]}]"));

    (void)state;
    expect(plan, QC_STEP_SEW, 0);
    expect(plan, QC_STEP_CROSSCUT, 4.5 * sqrt(2));
    expect(plan, QC_STEP_HALVE, 3);
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(square_cuts),      cmocka_unit_test(one_layer),
        cmocka_unit_test(corner_to_corner), cmocka_unit_test(slanted_cuts),
        cmocka_unit_test(cuts_by_turns),    cmocka_unit_test(round_an_outline),
        cmocka_unit_test(through_sets),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
