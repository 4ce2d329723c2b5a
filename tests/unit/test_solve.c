/* How a solve is run: threads, time, cancel, progress and errors. The rooms it
 * calls (demand, mip, pack, order, replay) are played by the test, which says
 * what each fabric does and writes down what it was given. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <time.h>

#include <pthread.h>

#include <cmocka.h>

#include <quiltcut/solve.h>

#include "base/alloc.h"
#include "base/clock.h"
#include "base/error.h"
#include "demand/demand.h"
#include "job/job.h"
#include "mip/mip.h"
#include "order/order.h"
#include "pack/narrow.h"
#include "replay/replay.h"

#define FABRICS 5

/* What a fabric does when it is packed, and what it saw. */
static struct act {
    int sleep_ms;
    bool until_told; /* work until the watch ends it */
    int tell;        /* progress calls */
    qc_status status;
    qc_status width_status;
    /* seen */
    atomic_int packed, narrowed;
    int64_t allowed_ms, width_ms;
    bool on_caller, in_mip, width_in_mip;
} acts[FABRICS];

static qci_fabric fabrics[FABRICS];
static char names[FABRICS][8];
static qc_job job;
static pthread_t caller;
static _Thread_local bool in_mip;
static atomic_int begun, running, most_running;
static qc_status order_status, replay_status;
static int ordered, replayed;

static void sleep_ms(int ms)
{
    struct timespec span = {ms / 1000, ms % 1000 * 1000000L};

    nanosleep(&span, NULL);
}

qc_status qci_mip_thread_begin(qc_error *err)
{
    (void)err;
    in_mip = true;
    atomic_fetch_add(&begun, 1);
    return QC_STATUS_OK;
}

void qci_mip_thread_end(void)
{
    in_mip = false;
    atomic_fetch_sub(&begun, 1);
}

/* The demand carries no more than the number of its fabric. */
qc_status qci_demand_create(const qc_job *asked, uint32_t fabric,
                            qci_demand **out, qc_error *err)
{
    qci_demand *demand = qci_calloc(1, sizeof *demand);

    if (!demand)
        return qci_no_memory(err);
    demand->width = (qc_length)fabric;
    demand->goals = asked->goals;
    demand->goal_count = asked->goal_count;
    *out = demand;
    return QC_STATUS_OK;
}

void qci_demand_destroy(qci_demand *demand)
{
    qci_free(demand);
}

qc_status qci_pack(const qci_demand *demand, const qci_watch *watch,
                   qci_packing **out, qc_error *err)
{
    struct act *act = &acts[demand->width];
    int now = atomic_fetch_add(&running, 1) + 1;
    qci_packing *packing;

    if (now > atomic_load(&most_running))
        atomic_store(&most_running, now);
    act->allowed_ms = watch->deadline_ms - qci_clock_ms();
    act->on_caller = pthread_equal(pthread_self(), caller);
    act->in_mip = in_mip;
    atomic_fetch_add(&act->packed, 1);
    sleep_ms(act->sleep_ms);
    while (act->until_told && !watch->cancelled(watch->user))
        sleep_ms(1);
    for (int i = 0; i < act->tell; i++)
        watch->progress(90 - i, i, watch->user);
    atomic_fetch_sub(&running, 1);
    if (act->status)
        return qci_fail(err, act->status, (qci_place){NULL, NULL}, NULL,
                        "fabric %d failed", (int)demand->width);
    packing = qci_calloc(1, sizeof *packing);
    if (!packing)
        return qci_no_memory(err);
    packing->bought = 100 + demand->width;
    *out = packing;
    return QC_STATUS_OK;
}

/* Not before every fabric has its packing. */
qc_status qci_narrowest(const qci_demand *demand, const qci_watch *watch,
                        qci_packing *packing, qc_error *err)
{
    struct act *act = &acts[demand->width];

    for (size_t i = 0; i < job.fabric_count; i++)
        assert_true(atomic_load(&acts[i].packed) > atomic_load(&act->narrowed));
    act->width_ms = watch->deadline_ms - qci_clock_ms();
    act->width_in_mip = in_mip;
    atomic_fetch_add(&act->narrowed, 1);
    if (act->width_status)
        return qci_fail(err, act->width_status, (qci_place){NULL, NULL}, NULL,
                        "width %d failed", (int)demand->width);
    packing->narrowest_width = 1 + demand->width;
    return QC_STATUS_OK;
}

void qci_packing_destroy(qci_packing *packing)
{
    qci_free(packing);
}

qc_status qci_order_make(qc_plan *plan, qc_error *err)
{
    (void)plan;
    ordered++;
    return order_status ? qci_fail(err, order_status, (qci_place){NULL, NULL},
                                   NULL, "order failed")
                        : QC_STATUS_OK;
}

qc_status qci_replay_plan(const qc_plan *plan, qc_error *err)
{
    (void)plan;
    replayed++;
    return replay_status ? qci_fail(err, replay_status, (qci_place){NULL, NULL},
                                    NULL, "not accepted")
                         : QC_STATUS_OK;
}

static qc_solve_options options;
static qc_error err;
static qc_plan *plan;

static int set_up(void **state)
{
    (void)state;
    memset(acts, 0, sizeof acts);
    order_status = replay_status = QC_STATUS_OK;
    ordered = replayed = 0;
    atomic_store(&most_running, 0);
    for (int i = 0; i < FABRICS; i++) {
        names[i][0] = (char)('a' + i);
        fabrics[i] = (qci_fabric){.id = names[i],
                                  .name = names[i],
                                  .width = 50,
                                  .step = 1,
                                  .price = QC_DEFAULT};
    }
    job = (qc_job){.title = (char *)"",
                   .fabrics = fabrics,
                   .fabric_count = FABRICS,
                   .goals = {QC_GOAL_BOUGHT},
                   .goal_count = 1,
                   .keep = 1000,
                   .time_limit_ms = 60000};
    qc_solve_options_init(&options);
    qc_error_init(&err);
    caller = pthread_self();
    plan = NULL;
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    qc_plan_destroy(plan);
    assert_int_equal(atomic_load(&begun), 0);
    return 0;
}

static qc_status solve(int threads)
{
    options.threads = threads;
    return qc_job_solve(&job, &options, &plan, &err);
}

static void each_fabric_once_off_the_callers_thread(void **state)
{
    static const int threads[] = {QC_DEFAULT, 1, 2, 4, 64};

    (void)state;
    for (size_t t = 0; t < sizeof threads / sizeof threads[0]; t++) {
        memset(acts, 0, sizeof acts);
        assert_int_equal(solve(threads[t]), QC_STATUS_OK);
        assert_int_equal(qc_plan_fabric_count(plan), FABRICS);
        for (size_t i = 0; i < FABRICS; i++) {
            assert_int_equal(acts[i].packed, 1);
            assert_false(acts[i].on_caller);
            assert_true(acts[i].in_mip);
            assert_int_equal(acts[i].narrowed, 1);
            assert_true(acts[i].width_in_mip);
            assert_int_equal(qc_plan_fabric_at(plan, i)->bought, 100 + i);
            assert_int_equal(qc_plan_fabric_at(plan, i)->narrowest_width,
                             1 + i);
        }
        qc_plan_destroy(plan);
        plan = NULL;
    }
    assert_int_equal(ordered, 5);
    assert_int_equal(replayed, 5);
}

static void one_fabric_too_leaves_the_callers_thread(void **state)
{
    (void)state;
    job.fabric_count = 1;
    assert_int_equal(solve(1), QC_STATUS_OK);
    assert_false(acts[0].on_caller);
}

static void threads_bound_what_runs_at_once(void **state)
{
    (void)state;
    for (size_t i = 0; i < FABRICS; i++)
        acts[i].sleep_ms = 20;
    assert_int_equal(solve(2), QC_STATUS_OK);
    assert_int_equal(atomic_load(&most_running), 2);
}

/* Nine tenths are for the packings. Alone, a fabric has them all; of five on
 * one thread the first has a fifth, and what it leaves over is shared by the
 * rest; on two threads the first two share with one more round of two and one
 * of one. Widths share what is left then. */
static void time_is_shared(void **state)
{
    (void)state;
    options.time_limit_ms = 100000; /* nothing here waits for it */
    job.fabric_count = 1;
    assert_int_equal(solve(4), QC_STATUS_OK);
    assert_in_range(acts[0].allowed_ms, 85000, 90000);
    assert_in_range(acts[0].width_ms, 95000, 100000);
    qc_plan_destroy(plan);
    memset(acts, 0, sizeof acts);

    job.fabric_count = FABRICS;
    assert_int_equal(solve(1), QC_STATUS_OK);
    assert_in_range(acts[0].allowed_ms, 17000, 18000);
    assert_in_range(acts[1].allowed_ms, 20500, 22500);
    assert_in_range(acts[4].allowed_ms, 85000, 90000);
    assert_in_range(acts[0].width_ms, 19000, 20000);
    assert_in_range(acts[4].width_ms, 95000, 100000);
    qc_plan_destroy(plan);
    memset(acts, 0, sizeof acts);

    assert_int_equal(solve(2), QC_STATUS_OK);
    assert_in_range(acts[0].allowed_ms, 29000, 30000);
    assert_in_range(acts[1].allowed_ms, 42500, 45000);
}

static void the_job_sets_the_time_by_default(void **state)
{
    (void)state;
    job.fabric_count = 1;
    assert_int_equal(qc_job_solve(&job, NULL, &plan, &err), QC_STATUS_OK);
    assert_in_range(acts[0].allowed_ms, 50000, 54000);
}

static void no_time_is_no_error(void **state)
{
    (void)state;
    options.time_limit_ms = 0;
    assert_int_equal(solve(1), QC_STATUS_OK);
    assert_true(acts[FABRICS - 1].allowed_ms <= 0);
}

static void one_error_stops_the_others(void **state)
{
    (void)state;
    acts[0].until_told = true; /* would wait for ever */
    acts[1].sleep_ms = 20;
    acts[1].status = QC_STATUS_SOLVER;
    assert_int_equal(solve(2), QC_STATUS_SOLVER);
    assert_null(plan);
    assert_int_equal(err.code, QC_STATUS_SOLVER);
    assert_string_equal(err.problem, "fabric 1 failed");
    assert_string_equal(err.field, "fabrics[1]");
    assert_int_equal(acts[4].packed, 0);
    assert_int_equal(ordered, 0);
}

static void a_width_that_fails_ends_the_solve(void **state)
{
    (void)state;
    acts[2].width_status = QC_STATUS_SOLVER;
    assert_int_equal(solve(1), QC_STATUS_SOLVER);
    assert_null(plan);
    assert_string_equal(err.problem, "width 2 failed");
    assert_string_equal(err.field, "fabrics[2]");
    assert_int_equal(acts[4].packed, 1);
    assert_int_equal(acts[4].narrowed, 0);
    assert_int_equal(ordered, 0);
}

/* Those stopped for its sake come back as cancelled, which is not the news. */
static void the_true_error_is_told(void **state)
{
    (void)state;
    acts[0].until_told = true;
    acts[0].status = QC_STATUS_CANCELLED;
    acts[3].status = QC_STATUS_NO_MEMORY;
    assert_int_equal(solve(2), QC_STATUS_NO_MEMORY);
    assert_string_equal(err.field, "fabrics[3]");
}

static void *raise_soon(void *cancel)
{
    sleep_ms(20);
    qc_cancel_raise(cancel);
    return NULL;
}

static void cancel_ends_every_fabric(void **state)
{
    pthread_t other;

    (void)state;
    for (size_t i = 0; i < FABRICS; i++)
        acts[i].until_told = true;
    options.cancel = qc_cancel_create();
    assert_non_null(options.cancel);
    pthread_create(&other, NULL, raise_soon, options.cancel);
    assert_int_equal(solve(2), QC_STATUS_OK); /* each had a packing */
    pthread_join(other, NULL);
    qc_plan_destroy(plan);

    acts[2].status = QC_STATUS_CANCELLED; /* this one has none */
    assert_int_equal(solve(2), QC_STATUS_CANCELLED);
    assert_null(plan);
    qc_cancel_destroy(options.cancel);
    qc_cancel_raise(NULL);
    qc_cancel_destroy(NULL);
}

static atomic_int inside, told;
static bool overlapped, told_caller;
static qc_length last_bought[FABRICS];

static void listen_in(const qc_progress *progress, void *user)
{
    if (atomic_fetch_add(&inside, 1))
        overlapped = true;
    if (pthread_equal(pthread_self(), caller))
        told_caller = true;
    assert_ptr_equal(user, &told);
    assert_string_equal(progress->fabric, names[progress->fabric_index]);
    assert_true(progress->elapsed_ms >= 0);
    last_bought[progress->fabric_index] = progress->bought;
    sleep_ms(1);
    atomic_fetch_add(&told, 1);
    atomic_fetch_sub(&inside, 1);
}

static void progress_is_told_one_at_a_time(void **state)
{
    (void)state;
    for (size_t i = 0; i < FABRICS; i++)
        acts[i].tell = 5;
    options.progress = listen_in;
    options.user = &told;
    assert_int_equal(solve(4), QC_STATUS_OK);
    assert_int_equal(atomic_load(&told), 5 * FABRICS);
    assert_false(overlapped);
    assert_false(told_caller);
    for (size_t i = 0; i < FABRICS; i++)
        assert_int_equal(last_bought[i], 86);
}

static void a_rejected_plan_is_not_returned(void **state)
{
    (void)state;
    replay_status = QC_STATUS_REJECTED;
    assert_int_equal(solve(1), QC_STATUS_REJECTED);
    assert_null(plan);
    assert_string_equal(err.problem, "not accepted");
}

static void wrong_options_are_refused(void **state)
{
    (void)state;
    options.time_limit_ms = -7;
    assert_int_equal(solve(1), QC_STATUS_INVALID);
    assert_string_equal(err.field, "options.time_limit_ms");
    qc_solve_options_init(&options);
    qc_error_init(&err);
    assert_int_equal(solve(0), QC_STATUS_INVALID);
    assert_string_equal(err.field, "options.threads");
    memset(&options, 0, sizeof options);
    qc_error_init(&err);
    assert_int_equal(solve(1), QC_STATUS_INVALID);
    assert_string_equal(err.field, "options.struct_size");
}

/* A program built with an older header knows fewer options, one built with a
 * newer header more; those it does not use are zero. */
static void other_versions_of_the_options(void **state)
{
    struct {
        qc_solve_options known;
        int64_t newer;
    } grown;

    (void)state;
    options.struct_size = offsetof(qc_solve_options, threads);
    options.threads = -99; /* beyond what the older header had */
    assert_int_equal(qc_job_solve(&job, &options, &plan, &err), QC_STATUS_OK);
    qc_plan_destroy(plan);

    memset(&grown, 0, sizeof grown);
    qc_solve_options_init(&grown.known);
    grown.known.struct_size = sizeof grown;
    assert_int_equal(qc_job_solve(&job, &grown.known, &plan, &err),
                     QC_STATUS_OK);
    qc_plan_destroy(plan);
    grown.newer = 1;
    assert_int_equal(qc_job_solve(&job, &grown.known, &plan, &err),
                     QC_STATUS_INVALID);
    assert_null(plan);
    assert_string_equal(err.field, "options.struct_size");
}

static void every_failed_allocation_is_survived(void **state)
{
    qc_status status = QC_STATUS_NO_MEMORY;
    long live = qci_alloc_live();
    long n = 0;

    (void)state;
    while (status == QC_STATUS_NO_MEMORY) {
        qc_error_init(&err);
        qci_alloc_fail_at(++n, 0);
        status = solve(1);
        qci_alloc_fail_at(0, 0);
        if (status)
            assert_int_equal(qci_alloc_live(), live);
    }
    assert_int_equal(status, QC_STATUS_OK);
    assert_true(n > 3 * FABRICS);
}

#define EACH(test) cmocka_unit_test_setup_teardown(test, set_up, tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        EACH(each_fabric_once_off_the_callers_thread),
        EACH(one_fabric_too_leaves_the_callers_thread),
        EACH(threads_bound_what_runs_at_once),
        EACH(time_is_shared),
        EACH(the_job_sets_the_time_by_default),
        EACH(no_time_is_no_error),
        EACH(one_error_stops_the_others),
        EACH(a_width_that_fails_ends_the_solve),
        EACH(the_true_error_is_told),
        EACH(cancel_ends_every_fabric),
        EACH(progress_is_told_one_at_a_time),
        EACH(a_rejected_plan_is_not_returned),
        EACH(wrong_options_are_refused),
        EACH(other_versions_of_the_options),
        EACH(every_failed_allocation_is_survived),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
