/* Many jobs on one set of threads: the same plans as alone, in order, whatever
 * the number of threads; failures, a raised flag, and the budget. */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#include "base/alloc.h"

#define JOBS 6

/* Small enough that every search ends of itself, long before the limit. */
static qc_job *make_job(int number, int fabrics, int64_t count)
{
    static const char *const ids[] = {"a", "b", "c"};
    qc_fabric_spec fabric[3];
    qc_piece_spec piece[6];
    qc_job_spec spec;
    qc_job *job;

    qc_job_spec_init(&spec, QC_UNITS_IN);
    for (int i = 0; i < 2 * fabrics; i++) {
        static const char *const names[] = {"A", "B", "C", "D", "E", "F"};

        qc_fabric_spec_init(&fabric[i / 2]);
        fabric[i / 2].id = ids[i / 2];
        fabric[i / 2].width = (20 + i) * QC_INCH;
        qc_piece_spec_init(&piece[i]);
        piece[i].id = names[i];
        piece[i].fabric = ids[i / 2];
        piece[i].shape = QC_SHAPE_RECTANGLE;
        piece[i].size[0] = (2 + (number + i) % 4) * QC_INCH;
        piece[i].size[1] = (3 + (number + 3 * i) % 5) * QC_INCH;
        piece[i].count = count + number + i;
    }
    spec.fabrics = fabric;
    spec.fabric_count = (size_t)fabrics;
    spec.pieces = piece;
    spec.piece_count = 2 * (size_t)fabrics;
    spec.time_limit_ms = 300000;
    assert_int_equal(qc_job_create(&spec, &job, NULL), QC_STATUS_OK);
    return job;
}

typedef struct fixture {
    const qc_job *jobs[JOBS];
    char *alone[JOBS]; /* the JSON of each job's plan, solved by itself */
} fixture;

static fixture fix;

static int make_fixture(void **state)
{
    (void)state;
    for (int i = 0; i < JOBS; i++) {
        qc_plan *plan = NULL;

        fix.jobs[i] = make_job(i, 1 + i % 3, 4);
        if (qc_job_solve(fix.jobs[i], NULL, &plan, NULL) ||
            qc_plan_json(plan, &fix.alone[i], NULL))
            return 1;
        qc_plan_destroy(plan);
    }
    return 0;
}

static int end_fixture(void **state)
{
    (void)state;
    for (int i = 0; i < JOBS; i++) {
        qc_job_destroy((qc_job *)fix.jobs[i]);
        qc_text_destroy(fix.alone[i]);
    }
    return 0;
}

/* What the callback was told. cmocka's asserts are for the main thread, so it
 * keeps what it got. */
typedef struct heard {
    size_t calls;
    size_t index[JOBS];
    qc_status status[JOBS];
    char problem[JOBS][224];
    char *json[JOBS];
    qc_cancel *raise; /* after the first call */
    bool inside, overlapped;
    size_t threads; /* the most that were seen */
    bool told[JOBS];
} heard;

static void hear(size_t index, qc_plan *plan, const qc_error *err, void *user)
{
    heard *all = user;
    size_t n = all->calls++;

    all->overlapped = all->overlapped || all->inside || n >= JOBS;
    if (n >= JOBS)
        return;
    all->inside = true;
    all->index[n] = index;
    all->status[n] = err->code;
    memcpy(all->problem[n], err->problem, sizeof err->problem);
    if (plan && qc_plan_json(plan, &all->json[n], NULL))
        all->overlapped = true;
    qc_plan_destroy(plan);
    if (all->raise)
        qc_cancel_raise(all->raise);
    all->inside = false;
}

static void forget(heard *all)
{
    for (size_t i = 0; i < JOBS; i++)
        qc_text_destroy(all->json[i]);
}

static void check_order(const heard *all, size_t count)
{
    assert_int_equal(all->calls, count);
    assert_false(all->overlapped);
    for (size_t i = 0; i < count; i++)
        assert_int_equal(all->index[i], i);
}

static void plans_are_those_found_alone(void **state)
{
    static const int32_t threads[] = {1, 2, 3, 4, 7, 20, QC_DEFAULT};

    (void)state;
    for (size_t t = 0; t < sizeof threads / sizeof *threads; t++) {
        qc_solve_options options;
        heard all = {0};

        qc_solve_options_init(&options);
        options.threads = threads[t];
        assert_int_equal(
            qc_batch_solve(fix.jobs, JOBS, &options, hear, &all, NULL),
            QC_STATUS_OK);
        check_order(&all, JOBS);
        for (size_t i = 0; i < JOBS; i++) {
            assert_int_equal(all.status[i], QC_STATUS_OK);
            assert_string_equal(all.json[i], fix.alone[i]);
        }
        forget(&all);
    }
}

static void the_hand_is_that_of_the_options(void **state)
{
    qc_solve_options options;
    heard all = {0};
    qc_plan *plan;
    char *json;

    (void)state;
    qc_solve_options_init(&options);
    options.left_handed = true;
    assert_int_equal(qc_batch_solve(fix.jobs, 2, &options, hear, &all, NULL),
                     QC_STATUS_OK);
    assert_int_equal(qc_job_solve(fix.jobs[1], &options, &plan, NULL),
                     QC_STATUS_OK);
    assert_int_equal(qc_plan_json(plan, &json, NULL), QC_STATUS_OK);
    assert_string_equal(all.json[1], json);
    assert_string_not_equal(all.json[1], fix.alone[1]);
    qc_text_destroy(json);
    qc_plan_destroy(plan);
    forget(&all);
}

/* One allocation fails, long before the first job ends; which job has it is
 * left to chance where there are several threads. */
static void one_fails_beside_others(void **state)
{
    (void)state;
    for (int32_t threads = 1; threads < 6; threads++) {
        size_t failed = 0;
        qc_solve_options options;
        heard all = {0};
        qc_status status;

        qc_solve_options_init(&options);
        options.threads = threads;
        qci_alloc_fail_at(50, 0);
        status = qc_batch_solve(fix.jobs, JOBS, &options, hear, &all, NULL);
        qci_alloc_fail_at(0, 0);
        assert_int_equal(status, QC_STATUS_OK);
        check_order(&all, JOBS);
        for (size_t i = 0; i < JOBS; i++) {
            if (all.json[i]) {
                assert_string_equal(all.json[i], fix.alone[i]);
                continue;
            }
            assert_int_equal(all.status[i], QC_STATUS_NO_MEMORY);
            assert_string_equal(all.problem[i], "out of memory");
            failed++;
        }
        assert_int_equal(failed, 1);
        forget(&all);
    }
}

/* With one thread the second job is begun after the first was handed out. */
static void those_not_begun_are_cancelled(void **state)
{
    qc_solve_options options;
    heard all = {0};

    (void)state;
    qc_solve_options_init(&options);
    options.threads = 1;
    options.cancel = all.raise = qc_cancel_create();
    assert_non_null(all.raise);
    assert_int_equal(qc_batch_solve(fix.jobs, JOBS, &options, hear, &all, NULL),
                     QC_STATUS_OK);
    check_order(&all, JOBS);
    assert_string_equal(all.json[0], fix.alone[0]);
    for (size_t i = 1; i < JOBS; i++) {
        assert_int_equal(all.status[i], QC_STATUS_CANCELLED);
        assert_non_null(strstr(all.problem[i], "before this job was begun"));
        assert_null(all.json[i]);
    }
    qc_cancel_destroy(all.raise);
    forget(&all);
}

/* Threads of this process; 0 where the system does not tell. */
static size_t count_threads(void)
{
    DIR *folder = opendir("/proc/self/task");
    size_t n = 0;

    while (folder && readdir(folder))
        n++;
    if (folder)
        closedir(folder);
    return n > 2 ? n - 2 : 0;
}

static void count_progress(const qc_progress *progress, void *user)
{
    heard *all = user;
    size_t threads = count_threads();

    all->overlapped = all->overlapped || all->inside || progress->job >= JOBS;
    if (progress->job < JOBS)
        all->told[progress->job] = true;
    if (threads > all->threads)
        all->threads = threads;
}

/* Never more fabrics at once than threads were allowed, over all jobs: beside
 * this thread there are as many that draw jobs and as many that solve. */
static void threads_are_one_budget(void **state)
{
    const qc_job *jobs[] = {fix.jobs[2], fix.jobs[5], fix.jobs[2], fix.jobs[5]};
    size_t before = count_threads();

    (void)state;
    for (int32_t threads = 1; threads < 6; threads++) {
        qc_solve_options options;
        heard all = {0};

        qc_solve_options_init(&options);
        options.threads = threads;
        options.progress = count_progress;
        options.user = &all;
        assert_int_equal(qc_batch_solve(jobs, 4, &options, hear, &all, NULL),
                         QC_STATUS_OK);
        check_order(&all, 4);
        assert_true(all.told[0] && all.told[1] && all.told[2] && all.told[3]);
        if (before)
            assert_in_range(all.threads, before + 2,
                            before + 2 * (size_t)threads);
        forget(&all);
    }
}

static void wrong_options_are_refused(void **state)
{
    qc_solve_options options;
    heard all = {0};
    qc_error err;

    (void)state;
    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.threads = 0;
    assert_int_equal(qc_batch_solve(fix.jobs, JOBS, &options, hear, &all, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, "options.threads");
    assert_int_equal(all.calls, 0);
}

static void no_job_is_no_work(void **state)
{
    heard all = {0};

    (void)state;
    assert_int_equal(qc_batch_solve(NULL, 0, NULL, hear, &all, NULL),
                     QC_STATUS_OK);
    assert_int_equal(all.calls, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plans_are_those_found_alone),
        cmocka_unit_test(the_hand_is_that_of_the_options),
        cmocka_unit_test(one_fails_beside_others),
        cmocka_unit_test(those_not_begun_are_cancelled),
        cmocka_unit_test(threads_are_one_budget),
        cmocka_unit_test(wrong_options_are_refused),
        cmocka_unit_test(no_job_is_no_work),
    };

    return cmocka_run_group_tests(tests, make_fixture, end_fixture);
}
