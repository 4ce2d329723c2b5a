/* What must hold for jobs that mix everything a piece can be.
 *
 * A plan that comes back was carried out on bare cloth by the replay; here the
 * answers of related jobs are set against each other: the same job for the left
 * hand, with all lengths doubled, with its pieces in another order. What was
 * not proved is compared by its bounds.
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

#define LIMIT_MS 1500

static uint64_t first_seed = 20251125;
static uint64_t jobs = 40;

static char text[6000];

/* Pieces that do not fit their cloth, and shapes that happen to be their own
 * mirror images, are not what is tested here. */
static bool is_no_job(qc_status status, const qc_error *err)
{
    return status == QC_STATUS_IMPOSSIBLE ||
           strstr(err->problem, "its own mirror image");
}

static qc_job *parse(const mixed_job *mixed, size_t first, uint64_t seed)
{
    qc_job *job = NULL;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    mixed_write(mixed, first, text, sizeof text);
    status = qc_job_parse(text, strlen(text), &job, &err);
    if (status && !is_no_job(status, &err))
        fail_msg("seed %llu: %s: %s\n%s", (unsigned long long)seed, err.field,
                 err.problem, text);
    return job;
}

static qc_plan *solve(const mixed_job *mixed, size_t first, bool left_handed,
                      uint64_t seed)
{
    qc_job *job = parse(mixed, first, seed);
    qc_solve_options options;
    qc_plan *plan = NULL;
    const char *wrong;
    qc_error err;

    if (!job)
        return NULL;
    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.left_handed = left_handed;
    options.time_limit_ms = LIMIT_MS;
    if (qc_job_solve(job, &options, &plan, &err))
        fail_msg("seed %llu: %s: %s\n%s", (unsigned long long)seed, err.field,
                 err.problem, text);
    qc_job_destroy(job);
    wrong = mixed_check(mixed, plan);
    if (wrong)
        fail_msg("seed %llu: %s\n%s", (unsigned long long)seed, wrong, text);
    return plan;
}

/* `times` the bought length of `a` is that of `b`; where one is not proved, at
 * least possible. @return whether both were proved */
static bool same_bought(const qc_plan *a, const qc_plan *b, int64_t times,
                        uint64_t seed)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(a, 0);
    const qc_plan_fabric *g = qc_plan_fabric_at(b, 0);

    if (times * f->bound > g->bought || g->bound > times * f->bought)
        fail_msg("seed %llu: bought %lld, at least %lld; then %lld, at least "
                 "%lld\n%s",
                 (unsigned long long)seed, (long long)f->bought,
                 (long long)f->bound, (long long)g->bought, (long long)g->bound,
                 text);
    return f->bound == f->bought && g->bound == g->bought;
}

static void check_related(uint64_t seed, int *proved, int *compared)
{
    static mixed_job once, twice;
    qc_plan *plan, *other[3];
    int64_t times[3] = {1, 2, 1};

    mixed_make(&once, seed, 1);
    mixed_make(&twice, seed, 2);
    plan = solve(&once, 0, false, seed);
    if (!plan)
        return;
    other[0] = solve(&once, 0, true, seed);
    other[1] = solve(&twice, 0, false, seed);
    other[2] = solve(&once, 1, false, seed);
    for (int i = 0; i < 3; i++) {
        if (!other[i])
            fail_msg("seed %llu: a plan once, none then",
                     (unsigned long long)seed);
        *proved += same_bought(plan, other[i], times[i], seed);
        *compared += 1;
        qc_plan_destroy(other[i]);
    }
    qc_plan_destroy(plan);
}

static void related_jobs_have_related_answers(void **state)
{
    int proved = 0, compared = 0;

    (void)state;
    for (uint64_t i = 0; i < jobs; i++)
        check_related(first_seed + i, &proved, &compared);
    print_message("%d comparisons, %d of proved lengths\n", compared, proved);
    assert_true(compared > (int)jobs);
    assert_true(proved > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(related_jobs_have_related_answers),
    };
    const char *seed = getenv("QC_SEED"), *count = getenv("QC_JOBS");

    if (seed)
        first_seed = strtoull(seed, NULL, 10);
    if (count)
        jobs = strtoull(count, NULL, 10);
    print_message("seed %llu (QC_SEED sets it)\n",
                  (unsigned long long)first_seed);
    return cmocka_run_group_tests_name("mixed", tests, NULL, NULL);
}
