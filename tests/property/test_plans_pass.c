/* Every plan that the library writes passes the check when its JSON is fed back
 * as instructions: of random jobs that mix everything a piece can be, for
 * either hand. Wider cloth is enough as well, and cloth that is narrower than
 * what is proved the narrowest is not. And a plan of which one number was
 * changed does not pass.
 *
 * The first seed is printed; QC_SEED sets it, QC_JOBS how many jobs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "mixed_job.h"

#define LIMIT_MS 300

static uint64_t first_seed = 20261128;
static uint64_t jobs = 60;

static char text[6000];

/* The plan of a random job, and as JSON; NULL when it is no job. */
static char *plan_of(uint64_t seed, bool left_handed, qc_plan **out)
{
    static mixed_job mixed;
    qc_solve_options options;
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    char *json = NULL;
    qc_error err;

    mixed_make(&mixed, seed, 1);
    mixed_write(&mixed, 0, text, sizeof text);
    qc_error_init(&err);
    if (qc_job_parse(text, strlen(text), &job, &err))
        return NULL;
    qc_solve_options_init(&options);
    options.time_limit_ms = LIMIT_MS;
    options.left_handed = left_handed;
    if (qc_job_solve(job, &options, &plan, &err) ||
        qc_plan_json(plan, &json, &err))
        fail_msg("seed %llu: %s: %s\n%s", (unsigned long long)seed, err.field,
                 err.problem, text);
    if (out)
        *out = plan;
    else
        qc_plan_destroy(plan);
    qc_job_destroy(job);
    return json;
}

/* What the check says of it: "" when it passes. */
static const char *checked(const char *json)
{
    static char said[1024];
    qc_instructions *made = NULL;
    qc_check *check = NULL;
    qc_error err;

    said[0] = '\0';
    qc_error_init(&err);
    if (qc_instructions_parse(json, strlen(json), &made, &err) ||
        qc_instructions_check(made, NULL, &check, &err)) {
        qc_error_format(&err, NULL, said, sizeof said);
    } else if (qc_check_finding_count(check)) {
        const qc_finding *finding = qc_check_finding_at(check, 0);

        assert_false(qc_check_is_clean(check));
        snprintf(said, sizeof said, "step %u: %s", (unsigned)finding->step,
                 finding->text);
    }
    qc_check_destroy(check);
    qc_instructions_destroy(made);
    return said;
}

/* How often each shape was among the pieces of a plan that passed. */
static int shapes[QC_SHAPE_STRIP + 1];
static int wider, narrower;

static void check_widths(const char *json, const qc_plan *plan)
{
    qc_instructions *made = NULL;
    qc_check *check = NULL;

    assert_int_equal(qc_instructions_parse(json, strlen(json), &made, NULL),
                     QC_STATUS_OK);
    assert_int_equal(qc_instructions_check(made, NULL, &check, NULL),
                     QC_STATUS_OK);
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++) {
        const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, i);
        const qc_check_width *at;

        assert_true(qc_check_fabric_at(check, i)->of_plan);
        for (size_t k = 0; (at = qc_check_width_at(check, i, k)); k++) {
            bool is_short = fabric->used &&
                            fabric->narrowest_outcome == QC_OUTCOME_OPTIMAL &&
                            at->width < fabric->narrowest_width;

            if (at->width >= fabric->usable_width && at->missing)
                fail_msg("%lld is %lld wider: %s\n%s", (long long)at->width,
                         (long long)(at->width - fabric->usable_width),
                         at->text, text);
            if (is_short && !at->missing)
                fail_msg("%lld is enough, %lld the narrowest\n%s",
                         (long long)at->width,
                         (long long)fabric->narrowest_width, text);
            assert_int_equal(at->bought,
                             at->missing ? QC_DEFAULT : fabric->bought);
            assert_int_equal(!at->missing, !at->text[0]);
            wider += at->width > fabric->usable_width;
            narrower += is_short;
        }
    }
    qc_check_destroy(check);
    qc_instructions_destroy(made);
}

/* A plan that has passed counts for its shapes, and is tried on other cloth. */
static void count_plan(const char *json, const qc_plan *plan)
{
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        shapes[qc_plan_piece_at(plan, i)->shape]++;
    check_widths(json, plan);
}

static void every_plan_passes(void **state)
{
    int passed = 0;

    (void)state;
    for (uint64_t i = 0; i < 2 * jobs; i++) {
        qc_plan *plan = NULL;
        char *json = plan_of(first_seed + i / 2, i % 2, &plan);
        const char *said;

        if (!json)
            continue;
        said = checked(json);
        if (said[0])
            fail_msg("seed %llu, %s hand: %s\n%s",
                     (unsigned long long)(first_seed + i / 2),
                     i % 2 ? "left" : "right", said, text);
        passed++;
        count_plan(json, plan);
        qc_text_destroy(json);
        qc_plan_destroy(plan);
    }
    print_message("%d plans passed, on %d wider cloths too, not on %d narrower "
                  "ones\n",
                  passed, wider, narrower);
    assert_true(passed > (int)jobs && wider > (int)jobs && narrower > 0);
    /* A strip is cut as rectangles. */
    for (int shape = 0; shape < QC_SHAPE_STRIP; shape++)
        if (!shapes[shape])
            fail_msg("no plan has a piece of shape %d", shape);
}

/* The text with 1 added to the number behind the n-th `key` from the steps on;
 * "" when that is 0, NULL when there is none. */
static char *changed(const char *json, const char *key, int n)
{
    const char *at = strstr(json, "\"steps\": [");
    char *copy;
    int64_t number;
    int used;

    for (; at && n >= 0; n--) {
        at = strstr(at + 1, key);
    }
    if (!at)
        return NULL;
    at += strlen(key);
    number = strtoll(at, NULL, 10);
    /* An end may be squared by more, where the other end is scrap. */
    if (!number)
        return strdup("");
    used = (int)strspn(at, "-0123456789");
    copy = malloc(strlen(json) + 32);
    assert_non_null(copy);
    sprintf(copy, "%.*s%lld%s", (int)(at - json), json, (long long)number + 1,
            at + used);
    return copy;
}

static void a_changed_plan_does_not(void **state)
{
    static const char *const keys[] = {
        "\"distance\": ", "\"copies\": ", "\"repeat\": ", "\"yield\": ",
        "\"total\": ",    "\"cuts\": ",   "\"along\": ",  "\"n\": "};
    int caught = 0;

    (void)state;
    for (uint64_t i = 0; i < jobs; i++) {
        const char *key = keys[i % (sizeof keys / sizeof *keys)];
        char *json = plan_of(first_seed + i, false, NULL);

        for (int n = 0; json && n < 40; n += 3) {
            char *lie = changed(json, key, n);

            if (!lie)
                break;
            if (!lie[0]) {
                free(lie);
                continue;
            }
            if (!checked(lie)[0])
                fail_msg("seed %llu: %s number %d may be one more\n%s",
                         (unsigned long long)(first_seed + i), key, n, text);
            caught++;
            free(lie);
        }
        qc_text_destroy(json);
    }
    print_message("%d changed plans caught\n", caught);
    assert_true(caught > (int)jobs);
}

/* Strips of left and of right pieces are cut as pairs; a piece that lies in one
 * of them and has no mirror image must not be lost by it. */
static void pairs_lose_no_piece(void **state)
{
    static const char one[] =
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"cloth\", \"width\": "
        "\"39.625\"}], \"pieces\": [{\"id\": \"P0\", \"fabric\": \"cloth\", "
        "\"shape\": \"parallelogram\", \"cut\": [\"3.875\", \"2.750\"], "
        "\"angle\": 98.3, \"count\": {\"left\": 4, \"right\": 4}}, {\"id\": "
        "\"P2\", \"fabric\": \"cloth\", \"shape\": \"polygon\", \"finished\": "
        "[[0, 1.5], [0.875, 0], [2.125, 0], [2.125, 3.875], [0.25, 3.875], "
        "[0, 3.125]], \"count\": 5, \"grain\": \"any\", \"trim\": "
        "\"0.125\"}]}";
    qc_job *job = NULL;
    qc_plan *plan = NULL;

    (void)state;
    assert_int_equal(qc_job_parse(one, sizeof one - 1, &job, NULL),
                     QC_STATUS_OK);
    assert_int_equal(qc_job_solve(job, NULL, &plan, NULL), QC_STATUS_OK);
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        assert_true(qc_plan_piece_at(plan, i)->spares >= 0);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

/* The tips that are cut off a blunt piece must not hide to which side it leans.
 */
static void blunt_pieces_keep_their_hand(void **state)
{
    static const char one[] =
        "{\"quiltcut\": 1, \"ruler\": \"0.250\", \"fabrics\": [{\"id\": "
        "\"cloth\", \"width\": \"40.625\"}], \"pieces\": [{\"id\": \"P0\", "
        "\"fabric\": \"cloth\", \"shape\": \"parallelogram\", \"finished\": "
        "[\"1.875\", \"1.000\"], \"angle\": 98.3, \"tips\": \"blunt\", "
        "\"count\": "
        "{\"left\": 10, \"right\": 10}}]}";
    qc_job *job = NULL;
    qc_plan *plan = NULL;

    (void)state;
    assert_int_equal(qc_job_parse(one, sizeof one - 1, &job, NULL),
                     QC_STATUS_OK);
    assert_int_equal(qc_job_solve(job, NULL, &plan, NULL), QC_STATUS_OK);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pairs_lose_no_piece),
        cmocka_unit_test(blunt_pieces_keep_their_hand),
        cmocka_unit_test(every_plan_passes),
        cmocka_unit_test(a_changed_plan_does_not),
    };
    const char *seed = getenv("QC_SEED"), *count = getenv("QC_JOBS");

    if (seed)
        first_seed = strtoull(seed, NULL, 10);
    if (count)
        jobs = strtoull(count, NULL, 10);
    print_message("seed %llu (QC_SEED sets it)\n",
                  (unsigned long long)first_seed);
    return cmocka_run_group_tests_name("plans_pass", tests, NULL, NULL);
}
