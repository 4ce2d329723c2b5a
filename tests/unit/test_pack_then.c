/* One tree for two questions: first no plan of a step less, then no lower plan
 * at all, on tiny jobs whose least height is known by looking at every plan.
 * QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pack_every.h"

#define JOBS 600
#define STEP 5

static uint64_t first_seed = 8001;
static int64_t between; /* height with which the second question began */

/* The greatest height that a step less covers. */
static int64_t step_less(int64_t height, void *user)
{
    (void)user;
    return (height - 1) / STEP * STEP;
}

static int64_t below(int64_t height, void *user)
{
    between = between ? between : height;
    return every_below(height, user);
}

/* Does the tree show that nothing up to `cap` is enough? */
static void assert_shown(const qci_trace *trace, const tiny *t,
                         const qci_model *model, int64_t cap)
{
    qci_proof *proof = NULL;

    assert_int_equal(
        qci_trace_proof(trace, &t->demand, model, cap, &proof, NULL), 0);
    assert_non_null(proof);
    qci_proof_destroy(proof);
}

/* Searches to both ends. */
static void search(const tiny *t, const qci_model *model, int64_t optimum)
{
    qci_trace trace = {0};
    qci_aim aim = {
        .cap = step_less, .then = below, .rounds = 10000, .trace = &trace};
    every_found found;

    between = 0;
    every_search(model, &aim, &found);
    assert_true(step_less(between, NULL) < optimum);
    assert_int_equal(found.best.height, optimum);
    assert_int_equal(found.bound, optimum);
    assert_shown(&trace, t, model, step_less(optimum, NULL));
    assert_shown(&trace, t, model, optimum - 1);
    qci_trace_clear(&trace);
    every_found_clear(&found);
}

static void test_both(void **state)
{
    int lowered = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);
        int64_t optimum = every_least(model, every_free());

        search(&t, model, optimum);
        lowered += between > optimum;
        qci_model_destroy(model);
    }
    print_message("%d of %d plans lowered within their step\n", lowered, JOBS);
    assert_true(lowered > JOBS / 60);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_both),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
