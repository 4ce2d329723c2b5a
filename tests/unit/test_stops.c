/* A search that is ended from outside, by the clock or by a flag: an honest
 * answer, and soon. What is soon is measured in processor time, which other
 * programs on the machine do not change. */
#include <dirent.h>
#include <inttypes.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#include "hard_job.h"

#define EXAMPLES QC_SOURCE_DIR "/bindings/cli/examples"

/* A plan whose figures agree, or the plain word that there is none. */
static void check_answer(const char *name, qc_status status,
                         const qc_plan *plan, const qc_error *err)
{
    if (status) {
        print_message("%s: %s\n", name, err->problem);
        assert_int_equal(status, QC_STATUS_CANCELLED);
        assert_int_equal(err->code, status);
        assert_int_not_equal(err->problem[0], 0);
        assert_null(plan);
        return;
    }
    assert_int_equal(err->code, QC_STATUS_OK);
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++) {
        const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, i);

        assert_true(fabric->bound <= fabric->bought);
        assert_true(fabric->used <= fabric->bought);
        assert_true(fabric->outcome == QC_OUTCOME_OPTIMAL ||
                    fabric->outcome == QC_OUTCOME_FEASIBLE);
    }
    assert_true(qc_plan_step_count(plan) > 0);
}

static void solve_in_a_millisecond(const char *name, qc_job *job)
{
    qc_solve_options options;
    qc_plan *plan;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.time_limit_ms = 1;
    status = qc_job_solve(job, &options, &plan, &err);
    check_answer(name, status, plan, &err);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

static void a_millisecond_gives_an_answer(void **state)
{
    DIR *examples = opendir(EXAMPLES);
    struct dirent *entry;
    int tried = 0;

    (void)state;
    assert_non_null(examples);
    while ((entry = readdir(examples))) {
        if (!strstr(entry->d_name, ".json"))
            continue;
        solve_in_a_millisecond(entry->d_name, qct_example_job(entry->d_name));
        tried++;
    }
    closedir(examples);
    assert_true(tried >= 8);
    solve_in_a_millisecond("25 sizes", qct_hard_job(1, 25, 400));
    solve_in_a_millisecond("3 x 60 sizes", qct_hard_job(3, 60, 500));
}

/* Did it end before all was proved? */
static bool was_stopped(const qc_plan *plan)
{
    return !plan || qc_plan_fabric_at(plan, 0)->outcome != QC_OUTCOME_OPTIMAL;
}

typedef struct raiser {
    qc_cancel *cancel;
    long after_ms;
    clock_t raised;
} raiser;

static void *raise_later(void *arg)
{
    raiser *r = arg;
    struct timespec t = {r->after_ms / 1000, r->after_ms % 1000 * 1000000};

    nanosleep(&t, NULL);
    r->raised = clock();
    qc_cancel_raise(r->cancel);
    return NULL;
}

/* Milliseconds of processor time from the flag to the answer. */
static long stop_after(const char *name, const qc_job *job, long after_ms,
                       int *stopped)
{
    raiser r = {qc_cancel_create(), after_ms, 0};
    qc_solve_options options;
    pthread_t thread;
    qc_plan *plan;
    qc_error err;
    qc_status status;
    clock_t end;

    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.time_limit_ms = 600000;
    options.threads = 1;
    options.cancel = r.cancel;
    assert_int_equal(pthread_create(&thread, NULL, raise_later, &r), 0);
    status = qc_job_solve(job, &options, &plan, &err);
    end = clock();
    pthread_join(thread, NULL);
    *stopped += was_stopped(plan);
    check_answer(name, status, plan, &err);
    qc_plan_destroy(plan);
    qc_cancel_destroy(r.cancel);
    return end > r.raised ? (long)((end - r.raised) / (CLOCKS_PER_SEC / 1000))
                          : 0;
}

/* QUILTCUT_TEST_CANCEL_MS sets the limit; the default leaves room for
 * sanitizers. */
static void a_flag_ends_the_search_soon(void **state)
{
    static const long moments[] = {1, 20, 100, 400, 1500};
    const char *set = getenv("QUILTCUT_TEST_CANCEL_MS");
    long limit = set ? atol(set) : 10000, worst = 0;
    int stopped = 0;

    (void)state;
    for (int k = 0; k < 4; k++) {
        static const char *const name[] = {"25 sizes", "60 sizes", "77 sizes",
                                           "slanted"};
        qc_job *job = k == 0   ? qct_hard_job(1, 25, 400)
                      : k == 1 ? qct_hard_job(1, 60, 500)
                      : k == 2 ? qct_hard_job(1, 77, 40)
                               : qct_example_job("reed-pinwheel.json");

        for (size_t i = 0; i < sizeof moments / sizeof *moments; i++) {
            long took = stop_after(name[k], job, moments[i], &stopped);

            print_message("%s, stopped after %ld ms: %ld ms more\n", name[k],
                          moments[i], took);
            worst = took > worst ? took : worst;
        }
        qc_job_destroy(job);
    }
    print_message("%d were stopped\n", stopped);
    assert_true(stopped > 0);
    assert_true(worst <= limit);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_millisecond_gives_an_answer),
        cmocka_unit_test(a_flag_ends_the_search_soon),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
