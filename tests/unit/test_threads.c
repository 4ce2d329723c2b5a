/* Many solves at once, stopped from outside, one failing beside others. Made to
 * be run under the thread sanitizer (-DQUILTCUT_SANITIZE=thread) as well. */
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#include "base/clock.h"
#include "hard_job.h"
#include "mip/guard.h"

#define SOLVES 4

/* cmocka's asserts are for the main thread, so a thread keeps what it got. */
typedef struct solve {
    const qc_job *job;
    qc_solve_options options;
    pthread_t thread;
    qc_status status;
    qc_error err;
    char *json; /* of the plan */
} solve;

static void *run_solve(void *arg)
{
    solve *s = arg;
    qc_plan *plan;

    qc_error_init(&s->err);
    s->status = qc_job_solve(s->job, &s->options, &plan, &s->err);
    s->json = NULL;
    if (!s->status)
        s->status = qc_plan_json(plan, &s->json, &s->err);
    qc_plan_destroy(plan);
    return NULL;
}

static void start(solve *s, const qc_job *job)
{
    s->job = job;
    assert_int_equal(pthread_create(&s->thread, NULL, run_solve, s), 0);
}

static void wait_ms(long ms)
{
    struct timespec t = {ms / 1000, ms % 1000 * 1000000};

    nanosleep(&t, NULL);
}

static void init(solve *s, int threads)
{
    qc_solve_options_init(&s->options);
    s->options.threads = threads;
    s->options.time_limit_ms = 300000;
}

/* One job, read by several solves with different numbers of threads at once:
 * the same plan each time. */
static void one_job_is_read_by_many(void **state)
{
    qc_job *job = qct_hard_job(3, 2, 5);
    solve solves[SOLVES];

    (void)state;
    for (int i = 0; i < SOLVES; i++) {
        init(&solves[i], 1 + i % 3);
        start(&solves[i], job);
    }
    for (int i = 0; i < SOLVES; i++) {
        pthread_join(solves[i].thread, NULL);
        assert_int_equal(solves[i].status, QC_STATUS_OK);
        assert_string_equal(solves[i].json, solves[0].json);
    }
    for (int i = 0; i < SOLVES; i++)
        qc_text_destroy(solves[i].json);
    qc_job_destroy(job);
}

static atomic_int told;

/* Counts, and checks that no second call is under way. */
static void count_progress(const qc_progress *progress, void *user)
{
    atomic_int *inside = user;

    if (atomic_fetch_add(inside, 1) == 0 && progress->fabric[0] == 'F' &&
        progress->bound >= 0)
        atomic_fetch_add(&told, 1);
    else
        atomic_store(&told, -1000000);
    atomic_fetch_sub(inside, 1);
}

/* A large job is stopped by a flag raised on this thread; a small one beside it
 * is not disturbed. */
static void one_is_cancelled_beside_another(void **state)
{
    qc_job *large = qct_hard_job(3, 25, 400), *small = qct_hard_job(1, 2, 5);
    qc_cancel *cancel = qc_cancel_create();
    solve stopped, sound;
    atomic_int inside;
    int64_t begin;

    (void)state;
    atomic_init(&inside, 0);
    atomic_store(&told, 0);
    init(&stopped, 3);
    stopped.options.cancel = cancel;
    stopped.options.progress = count_progress;
    stopped.options.user = &inside;
    init(&sound, 1);
    start(&stopped, large);
    start(&sound, small);
    wait_ms(300);
    begin = qci_clock_ms();
    qc_cancel_raise(cancel);
    pthread_join(stopped.thread, NULL);
    /* Generous, for sanitizers and busy machines. */
    assert_true(qci_clock_ms() - begin < 20000);
    pthread_join(sound.thread, NULL);
    assert_true(atomic_load(&told) >= 0);
    assert_int_equal(sound.status, QC_STATUS_OK);
    assert_non_null(strstr(sound.json, "\"optimal\""));
    if (stopped.status)
        assert_int_equal(stopped.status, QC_STATUS_CANCELLED);
    else
        assert_non_null(strstr(stopped.json, "\"feasible\""));
    qc_text_destroy(stopped.json);
    qc_text_destroy(sound.json);
    qc_cancel_destroy(cancel);
    qc_job_destroy(large);
    qc_job_destroy(small);
}

/* A flag that is up already: at once, and with an honest answer. */
static void cancelled_before_it_begins(void **state)
{
    qc_job *job = qct_hard_job(2, 12, 100);
    qc_cancel *cancel = qc_cancel_create();
    solve s;
    int64_t begin = qci_clock_ms();

    (void)state;
    qc_cancel_raise(cancel);
    init(&s, 2);
    s.options.cancel = cancel;
    start(&s, job);
    pthread_join(s.thread, NULL);
    assert_true(qci_clock_ms() - begin < 20000);
    assert_true(s.status == QC_STATUS_OK || s.status == QC_STATUS_CANCELLED);
    assert_int_equal(s.err.code, s.status);
    qc_text_destroy(s.json);
    qc_cancel_destroy(cancel);
    qc_job_destroy(job);
}

typedef struct bad_call {
    pthread_t thread;
    const char *text;
    int wrong; /* answers other than the expected */
} bad_call;

/* Parses the same wrong text again and again. */
static void *fail_often(void *arg)
{
    bad_call *bad = arg;

    for (int i = 0; i < 200; i++) {
        qc_error err;
        qc_job *job;

        qc_error_init(&err);
        if (qc_job_parse(bad->text, strlen(bad->text), &job, &err) !=
                QC_STATUS_INVALID ||
            job || err.code != QC_STATUS_INVALID)
            bad->wrong++;
        /* The record is this thread's own. */
        if (!strstr(err.value, strstr(bad->text, "aaa") ? "aaa" : "bbb"))
            bad->wrong++;
    }
    return NULL;
}

static void failures_beside_solves(void **state)
{
    qc_job *job = qct_hard_job(2, 2, 5);
    bad_call bad[2] = {
        {.text = "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"width\": "
                 "\"aaa\"}], \"pieces\": []}"},
        {.text = "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"width\": "
                 "\"bbb\"}], \"pieces\": []}"}};
    solve solves[2];

    (void)state;
    for (int i = 0; i < 2; i++) {
        init(&solves[i], 2);
        start(&solves[i], job);
        assert_int_equal(
            pthread_create(&bad[i].thread, NULL, fail_often, &bad[i]), 0);
    }
    for (int i = 0; i < 2; i++) {
        pthread_join(bad[i].thread, NULL);
        pthread_join(solves[i].thread, NULL);
        assert_int_equal(bad[i].wrong, 0);
        assert_int_equal(solves[i].status, QC_STATUS_OK);
    }
    assert_string_equal(solves[0].json, solves[1].json);
    qc_text_destroy(solves[0].json);
    qc_text_destroy(solves[1].json);
    qc_job_destroy(job);
}

/* GLPK runs out of memory in one solve and dies there; the solve beside it, in
 * the same process, ends as it does alone. */
static void one_dies_beside_another(void **state)
{
    qc_job *large = qct_hard_job(1, 25, 400), *small = qct_hard_job(1, 4, 9);
    solve alone, sound, dying;
    atomic_int inside;

    (void)state;
    init(&alone, 1);
    start(&alone, small);
    pthread_join(alone.thread, NULL);
    atomic_init(&inside, 0);
    atomic_store(&told, 0);
    init(&sound, 1);
    sound.options.progress = count_progress;
    sound.options.user = &inside;
    start(&sound, small);
    while (!atomic_load(&told))
        wait_ms(1);
    /* Its session is open, so the cap is for the next one only. */
    qci_mip_test_memory_cap(1);
    init(&dying, 1);
    start(&dying, large);
    pthread_join(dying.thread, NULL);
    qci_mip_test_memory_cap(0);
    pthread_join(sound.thread, NULL);
    assert_int_equal(dying.status, QC_STATUS_NO_MEMORY);
    assert_int_equal(dying.err.code, QC_STATUS_NO_MEMORY);
    assert_int_equal(sound.status, QC_STATUS_OK);
    assert_string_equal(sound.json, alone.json);
    qc_text_destroy(alone.json);
    qc_text_destroy(sound.json);
    qc_job_destroy(large);
    qc_job_destroy(small);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_job_is_read_by_many),
        cmocka_unit_test(one_is_cancelled_beside_another),
        cmocka_unit_test(cancelled_before_it_begins),
        cmocka_unit_test(failures_beside_solves),
        cmocka_unit_test(one_dies_beside_another),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
