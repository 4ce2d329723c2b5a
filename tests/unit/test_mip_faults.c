/* GLPK dies, runs out of memory, is stopped, is used by the host beside us: the
 * library answers with a status, and the host notices nothing. */
#include <malloc.h>
#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>
#include <glpk.h>

#include "base/clock.h"
#include "mip/guard.h"
#include "mip/mip.h"

#if defined(__SANITIZE_ADDRESS__)
size_t __sanitizer_get_current_allocated_bytes(void);
#endif

#define assert_near(a, b) assert_true(fabs((a) - (b)) < 1e-6)

/* cmocka's asserts are for the main thread; a body elsewhere notes the first
 * line that failed. */
typedef struct outcome {
    int line;
    void *arg;
} outcome;

#define EXPECT(condition)                                                      \
    do {                                                                       \
        if (!(condition) && !here->line)                                       \
            here->line = __LINE__;                                             \
    } while (0)

static void on_thread(void *(*body)(void *), void *arg)
{
    outcome here = {0, arg};
    pthread_t thread;

    assert_int_equal(pthread_create(&thread, NULL, body, &here), 0);
    pthread_join(thread, NULL);
    assert_int_equal(here.line, 0); /* the line that failed */
}

static void wait_ms(long ms)
{
    struct timespec t = {ms / 1000, ms % 1000 * 1000000};

    nanosleep(&t, NULL);
}

/* min x, x >= 3. */
static qci_lp *tiny(void)
{
    qci_lp *lp = NULL;

    if (qci_lp_create(&lp, NULL) == QC_STATUS_OK)
        qci_lp_add_column(lp, 1, 3, INFINITY, 0, NULL, NULL, NULL);
    return lp;
}

static bool solves(qci_lp *lp)
{
    qci_lp_state state;

    return qci_lp_solve(lp, NULL, &state, NULL) == QC_STATUS_OK &&
           state == QCI_LP_OPTIMAL && fabs(qci_lp_objective(lp) - 3) < 1e-9;
}

/* A covering problem with random coefficients; hard enough to be stopped. */
typedef struct covering {
    int rows, columns, each;
    double *row_lo, *row_hi, *cost, *lo, *hi, *value, *x;
    bool *integer;
    int *start, *row;
} covering;

static void covering_init(covering *c, int rows, int columns, int each)
{
    uint64_t seed = 99;
#define DRAW(below)                                                            \
    (seed = seed * 6364136223846793005u + 1442695040888963407u,                \
     (int)((seed >> 33) % (uint64_t)(below)))
    static const int strides[] = {1, 7, 11, 13, 17}; /* prime to all sizes */
    size_t n = (size_t)columns, m = (size_t)rows;

    c->rows = rows;
    c->columns = columns;
    c->each = each;
    c->row_lo = calloc(m, sizeof(double));
    c->row_hi = calloc(m, sizeof(double));
    c->cost = calloc(n, sizeof(double));
    c->lo = calloc(n, sizeof(double));
    c->hi = calloc(n, sizeof(double));
    c->x = calloc(n, sizeof(double));
    c->integer = calloc(n, sizeof(bool));
    c->start = calloc(n + 1, sizeof(int));
    c->row = calloc(n * (size_t)each, sizeof(int));
    c->value = calloc(n * (size_t)each, sizeof(double));
    for (int i = 0; i < rows; i++) {
        c->row_lo[i] = 5 + DRAW(100);
        c->row_hi[i] = INFINITY;
    }
    for (int j = 0; j < columns; j++) {
        c->cost[j] = 20 + DRAW(80);
        c->hi[j] = INFINITY;
        c->integer[j] = true;
        for (int k = 0, first = DRAW(rows); k < each; k++) {
            c->row[j * each + k] = (first + k * strides[j % 5]) % rows;
            c->value[j * each + k] = 1 + DRAW(6);
        }
        c->start[j + 1] = (j + 1) * each;
    }
}

static void covering_clear(covering *c)
{
    free(c->row_lo);
    free(c->row_hi);
    free(c->cost);
    free(c->lo);
    free(c->hi);
    free(c->x);
    free(c->integer);
    free(c->start);
    free(c->row);
    free(c->value);
}

static qc_status covering_solve(covering *c, const qci_mip_limits *limits,
                                qci_mip_state *state, qc_error *err)
{
    qci_mip_model model = {c->rows,  c->columns, c->row_lo, c->row_hi,
                           c->cost,  c->lo,      c->hi,     c->integer,
                           c->start, c->row,     c->value};

    return qci_mip_solve(&model, limits, c->x, NULL, state, err);
}

static qc_status covering_lp(const covering *c, qci_lp **lp, qc_error *err)
{
    qc_status st = qci_lp_create(lp, err);

    for (int i = 0; i < c->rows && !st; i++)
        st = qci_lp_add_row(*lp, c->row_lo[i], INFINITY, 0, NULL, NULL, err);
    for (int j = 0; j < c->columns && !st; j++)
        st = qci_lp_add_column(*lp, c->cost[j], 0, INFINITY, c->each,
                               c->row + c->start[j], c->value + c->start[j],
                               err);
    return st;
}

static void *die(void *arg)
{
    outcome *here = arg;
    qci_lp_state state = QCI_LP_OPTIMAL;
    qci_mip_state mip_state;
    covering c;
    qci_mip_limits limits = {.nodes = 1, .stop = {INT64_MAX, NULL, NULL}};
    qc_error err;
    qci_lp *lp, *other = NULL;

    covering_init(&c, 5, 8, 2);
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    lp = tiny();
    EXPECT(solves(lp));
    qc_error_init(&err);
    EXPECT(qci_mip_test_fatal(&err) == QC_STATUS_SOLVER);
    EXPECT(err.code == QC_STATUS_SOLVER);
    EXPECT(strstr(err.problem, "invalid number of rows"));
    /* From here on all is dead, and says so. */
    qc_error_init(&err);
    EXPECT(qci_lp_solve(lp, NULL, &state, &err) == QC_STATUS_SOLVER);
    EXPECT(state == QCI_LP_STUCK);
    EXPECT(strstr(err.problem, "invalid number of rows"));
    EXPECT(qci_lp_add_column(lp, 1, 0, 1, 0, NULL, NULL, NULL) ==
           QC_STATUS_SOLVER);
    EXPECT(qci_lp_add_row(lp, 1, 2, 0, NULL, NULL, NULL) == QC_STATUS_SOLVER);
    EXPECT(qci_lp_bound_column(lp, 0, 0, 1, NULL) == QC_STATUS_SOLVER);
    EXPECT(qci_lp_set_cost(lp, 0, 1, NULL) == QC_STATUS_SOLVER);
    EXPECT(qci_lp_delete_columns(lp, (bool[]){true}, NULL) == QC_STATUS_SOLVER);
    EXPECT(qci_lp_create(&other, NULL) == QC_STATUS_SOLVER && !other);
    EXPECT(covering_solve(&c, &limits, &mip_state, NULL) == QC_STATUS_SOLVER);
    EXPECT(mip_state == QCI_MIP_UNKNOWN);
    EXPECT(qci_lp_objective(lp) == 0 && qci_lp_column_value(lp, 0) == 0);
    qci_lp_destroy(lp);
    qci_mip_thread_end();
    /* A new session on the same thread is sound. */
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    lp = tiny();
    EXPECT(solves(lp));
    qci_mip_thread_end();
    qci_lp_destroy(lp); /* after its session: still safe */
    covering_clear(&c);
    return NULL;
}

static void fatal_errors_come_back(void **state)
{
    (void)state;
    on_thread(die, NULL);
}

static void *use_out_of_order(void *arg)
{
    outcome *here = arg;
    qci_lp *lp = NULL;
    qc_error err;

    qc_error_init(&err);
    EXPECT(qci_lp_create(&lp, &err) == QC_STATUS_SOLVER && !lp);
    EXPECT(strstr(err.problem, "not open"));
    qci_mip_thread_end();
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_SOLVER);
    lp = tiny();
    qci_mip_thread_end();
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    EXPECT(!solves(lp)); /* an object of the last session */
    EXPECT(qci_lp_column_value(lp, 0) == 0);
    qci_lp_destroy(lp);
    qci_lp_destroy(NULL);
    qci_mip_thread_end();
    return NULL;
}

static void order_of_calls(void **state)
{
    (void)state;
    on_thread(use_out_of_order, NULL);
}

static void *hit_the_cap(void *arg)
{
    outcome *here = arg;
    covering c;
    qci_lp *lp = NULL;
    qci_mip_limits limits = {.nodes = 1, .stop = {INT64_MAX, NULL, NULL}};
    qci_mip_state state;
    qc_error err;

    covering_init(&c, 300, 3000, 20);
    qci_mip_test_memory_cap(1);
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    qc_error_init(&err);
    EXPECT(covering_lp(&c, &lp, &err) == QC_STATUS_NO_MEMORY);
    EXPECT(err.code == QC_STATUS_NO_MEMORY);
    EXPECT(strstr(err.problem, "memory"));
    qci_lp_destroy(lp);
    qci_mip_thread_end();
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    EXPECT(covering_solve(&c, &limits, &state, NULL) == QC_STATUS_NO_MEMORY);
    qci_mip_thread_end();
    qci_mip_test_memory_cap(0);
    /* The same with the usual cap. */
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    EXPECT(covering_lp(&c, &lp, NULL) == QC_STATUS_OK);
    qci_lp_destroy(lp);
    qci_mip_thread_end();
    covering_clear(&c);
    return NULL;
}

static void the_memory_cap_is_no_crash(void **state)
{
    (void)state;
    on_thread(hit_the_cap, NULL);
}

/* Counts how often it was asked, and says stop from the `at`-th time on. */
typedef struct asker {
    long asked, at;
    qci_lp *call_back; /* if any, is solved at every question */
    int refused;
} asker;

static bool ask(void *user)
{
    asker *a = user;
    qci_lp_state state;

    if (a->call_back &&
        qci_lp_solve(a->call_back, NULL, &state, NULL) == QC_STATUS_SOLVER)
        a->refused++;
    return ++a->asked >= a->at;
}

static void *stop_linear(void *arg)
{
    outcome *here = arg;
    asker a = {.at = 3};
    qci_mip_stop stop = {INT64_MAX, ask, &a};
    qci_lp_state state;
    qci_lp *lp = NULL;
    covering c;
    int64_t begin;

    covering_init(&c, 300, 3000, 20);
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    EXPECT(covering_lp(&c, &lp, NULL) == QC_STATUS_OK);
    EXPECT(qci_lp_solve(lp, &stop, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_LP_STOPPED && a.asked == 3);
    begin = qci_clock_ms();
    stop = (qci_mip_stop){begin + 1, NULL, NULL};
    EXPECT(qci_lp_solve(lp, &stop, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_LP_STOPPED);
    EXPECT(qci_clock_ms() - begin < 2000);
    /* Stopped is not spoilt: it goes on, and another finds the same. */
    EXPECT(qci_lp_solve(lp, NULL, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_LP_OPTIMAL);
    if (!here->line) {
        qci_lp *fresh;

        EXPECT(covering_lp(&c, &fresh, NULL) == QC_STATUS_OK);
        EXPECT(qci_lp_solve(fresh, NULL, &state, NULL) == QC_STATUS_OK);
        EXPECT(fabs(qci_lp_objective(fresh) - qci_lp_objective(lp)) < 1e-6);
        qci_lp_destroy(fresh);
    }
    qci_lp_destroy(lp);
    qci_mip_thread_end();
    covering_clear(&c);
    return NULL;
}

static void stops_are_heard_in_a_linear_program(void **state)
{
    (void)state;
    on_thread(stop_linear, NULL);
}

static void *stop_integer(void *arg)
{
    outcome *here = arg;
    const int *size = here->arg;
    asker a = {.at = 40};
    qci_mip_limits limits = {.nodes = INT32_MAX, .stop = {INT64_MAX, ask, &a}};
    qci_mip_state state = QCI_MIP_OPTIMAL;
    covering c;
    int64_t begin;

    covering_init(&c, size[0], size[1], size[2]);
    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    a.call_back = tiny();
    EXPECT(covering_solve(&c, &limits, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_MIP_FEASIBLE || state == QCI_MIP_UNKNOWN);
    /* GLPK may ask a few times more on its way out. */
    EXPECT(a.asked >= 40 && a.asked < 50);
    EXPECT(a.refused > 0);       /* no calls from inside */
    EXPECT(solves(a.call_back)); /* but they did no harm */
    begin = qci_clock_ms();
    limits.stop = (qci_mip_stop){begin + 1, NULL, NULL};
    EXPECT(covering_solve(&c, &limits, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_MIP_FEASIBLE || state == QCI_MIP_UNKNOWN);
    EXPECT(qci_clock_ms() - begin < 3000);
    limits.stop.deadline_ms = INT64_MAX;
    limits.time_ms = 1;
    begin = qci_clock_ms();
    EXPECT(covering_solve(&c, &limits, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_MIP_FEASIBLE || state == QCI_MIP_UNKNOWN);
    EXPECT(qci_clock_ms() - begin < 3000);
    limits.time_ms = -5; /* none; a deadline long past still counts */
    limits.stop.deadline_ms = begin - 1000000;
    EXPECT(covering_solve(&c, &limits, &state, NULL) == QC_STATUS_OK);
    EXPECT(state == QCI_MIP_UNKNOWN);
    qci_lp_destroy(a.call_back);
    qci_mip_thread_end();
    covering_clear(&c);
    return NULL;
}

static void stops_are_heard_in_a_tree(void **state)
{
    int small[] = {25, 120, 5};  /* presolved */
    int large[] = {120, 900, 6}; /* first linear program in slices */

    (void)state;
    on_thread(stop_integer, small);
    on_thread(stop_integer, large);
}

typedef struct pair {
    atomic_int dying_done;
} pair;

static void *keep_solving(void *arg)
{
    outcome *here = arg;
    pair *both = here->arg;
    int after = 0;

    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    for (int i = 0; after < 50 && i < 1000000; i++) {
        qci_lp *lp = tiny();

        EXPECT(solves(lp));
        qci_lp_destroy(lp);
        after += atomic_load(&both->dying_done);
    }
    EXPECT(after >= 50);
    qci_mip_thread_end();
    return NULL;
}

static void *keep_dying(void *arg)
{
    outcome *here = arg;
    pair *both = here->arg;

    for (int i = 0; i < 40; i++) {
        qci_lp *lp;

        EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
        lp = tiny();
        EXPECT(qci_mip_test_fatal(NULL) == QC_STATUS_SOLVER);
        qci_lp_destroy(lp);
        qci_mip_thread_end();
    }
    atomic_store(&both->dying_done, 1);
    return NULL;
}

static void one_thread_dies_beside_another(void **state)
{
    pair both;
    outcome sound = {0, &both}, dying = {0, &both};
    pthread_t a, b;

    (void)state;
    atomic_init(&both.dying_done, 0);
    assert_int_equal(pthread_create(&a, NULL, keep_solving, &sound), 0);
    assert_int_equal(pthread_create(&b, NULL, keep_dying, &dying), 0);
    pthread_join(a, NULL);
    pthread_join(b, NULL);
    assert_int_equal(sound.line, 0);
    assert_int_equal(dying.line, 0);
}

static int host_texts;

static int host_hears(void *info, const char *text)
{
    (void)info, (void)text;
    host_texts++;
    return 1;
}

/* min x + y, x + y >= at. */
static double host_solves(glp_prob *prob, double at)
{
    glp_smcp how;

    glp_init_smcp(&how);
    glp_set_row_bnds(prob, 1, GLP_LO, at, 0);
    assert_int_equal(glp_simplex(prob, &how), 0);
    assert_int_equal(glp_get_status(prob), GLP_OPT);
    return glp_get_obj_val(prob);
}

static void the_host_keeps_its_problems(void **state)
{
    glp_prob *prob = glp_create_prob();
    int heard;

    (void)state;
    glp_term_hook(host_hears, NULL);
    glp_add_rows(prob, 1);
    glp_add_cols(prob, 2);
    for (int j = 1; j <= 2; j++) {
        glp_set_obj_coef(prob, j, 1);
        glp_set_col_bnds(prob, j, GLP_LO, 0, 0);
    }
    glp_set_mat_row(prob, 1, 2, (int[]){0, 1, 2}, (double[]){0, 1, 1});
    assert_near(host_solves(prob, 7), 7);
    heard = host_texts;
    assert_true(heard > 0);
    on_thread(die, NULL);
    on_thread(hit_the_cap, NULL);
    assert_int_equal(host_texts, heard); /* none of ours */
    assert_near(host_solves(prob, 9), 9);
    assert_true(host_texts > heard); /* its hook is still there */
    glp_delete_prob(prob);
    glp_free_env();
}

static void *begin_beside_host(void *arg)
{
    outcome *here = arg;
    glp_prob *prob = glp_create_prob();
    qc_error err;

    qc_error_init(&err);
    EXPECT(qci_mip_thread_begin(&err) == QC_STATUS_SOLVER);
    EXPECT(strstr(err.problem, "in use"));
    EXPECT(glp_add_rows(prob, 1) == 1); /* untouched */
    glp_delete_prob(prob);
    glp_free_env();
    return NULL;
}

static void a_thread_that_uses_glpk_is_left_alone(void **state)
{
    (void)state;
    on_thread(begin_beside_host, NULL);
}

static void *begin_and_tell(void *arg)
{
    outcome *here = arg;
    atomic_int *begun = here->arg;

    EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
    atomic_store(begun, 1);
    qci_mip_thread_end();
    return NULL;
}

/* Where GLPK has one environment for all threads, sessions wait for one
 * another. */
static void one_environment_is_locked(void **state)
{
    atomic_int begun;
    outcome other = {0, &begun};
    pthread_t thread;

    (void)state;
    atomic_init(&begun, 0);
    qci_mip_test_one_environment(true);
    assert_int_equal(qci_mip_thread_begin(NULL), QC_STATUS_OK);
    assert_int_equal(pthread_create(&thread, NULL, begin_and_tell, &other), 0);
    wait_ms(100);
    assert_int_equal(atomic_load(&begun), 0);
    assert_int_equal(qci_mip_test_fatal(NULL), QC_STATUS_SOLVER);
    wait_ms(20);
    assert_int_equal(atomic_load(&begun), 0); /* dead still holds the lock */
    qci_mip_thread_end();
    pthread_join(thread, NULL);
    assert_int_equal(other.line, 0);
    assert_int_equal(atomic_load(&begun), 1);
    qci_mip_test_one_environment(false);
}

static size_t memory_in_use(void)
{
#if defined(__SANITIZE_ADDRESS__)
    return __sanitizer_get_current_allocated_bytes();
#else
    return mallinfo2().uordblks;
#endif
}

static void *fail_often(void *arg)
{
    outcome *here = arg;
    const char *wanted = getenv("QUILTCUT_TEST_FAILURES");
    int failures = wanted ? atoi(wanted) : 1000;
    size_t begin = 0;

    for (int i = 0; i < 20 + failures; i++) {
        qci_lp *lp;

        if (i == 20)
            begin = memory_in_use();
        EXPECT(qci_mip_thread_begin(NULL) == QC_STATUS_OK);
        lp = tiny();
        EXPECT(solves(lp));
        EXPECT(qci_mip_test_fatal(NULL) == QC_STATUS_SOLVER);
        qci_lp_destroy(lp);
        qci_mip_thread_end();
    }
    EXPECT(memory_in_use() < begin + 20000);
    return NULL;
}

static void failures_leave_memory_flat(void **state)
{
    (void)state;
    on_thread(fail_often, NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fatal_errors_come_back),
        cmocka_unit_test(order_of_calls),
        cmocka_unit_test(the_memory_cap_is_no_crash),
        cmocka_unit_test(stops_are_heard_in_a_linear_program),
        cmocka_unit_test(stops_are_heard_in_a_tree),
        cmocka_unit_test(one_thread_dies_beside_another),
        cmocka_unit_test(the_host_keeps_its_problems),
        cmocka_unit_test(a_thread_that_uses_glpk_is_left_alone),
        cmocka_unit_test(one_environment_is_locked),
        cmocka_unit_test(failures_leave_memory_flat),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
