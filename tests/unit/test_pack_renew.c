/* Strips of a plan cut anew: on random jobs so small that the least height is
 * known, what comes of it is a lower plan, and the program is left as it was.
 * QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "pack/dive.h"
#include "pack/greedy.h"
#include "pack/renew.h"
#include "pack_every.h"

#define JOBS 400
#define TRIES 20
#define CLASSES 64
#define ROWS 16

static uint64_t first_seed = 7001;

/* Need, limits and class bounds of a master. */
typedef struct rules {
    int64_t need[ROWS], limit[ROWS], lo[CLASSES], hi[CLASSES];
} rules;

static rules rules_of(const qci_master *m)
{
    size_t rows = (size_t)m->model->row_count;
    size_t classes = (size_t)m->model->class_count;
    rules r;

    memset(&r, 0, sizeof r);
    assert_true(rows <= ROWS && classes <= CLASSES);
    memcpy(r.need, m->need, rows * sizeof(int64_t));
    memcpy(r.limit, m->limit, rows * sizeof(int64_t));
    memcpy(r.lo, m->class_lo, classes * sizeof(int64_t));
    memcpy(r.hi, m->class_hi, classes * sizeof(int64_t));
    return r;
}

/* One try; the plan is the lower one after it, if there is one. */
static bool try_once(qci_master *m, qci_solution *plan, uint64_t *seed)
{
    rules before = rules_of(m), after;
    qci_solution found = {0};
    uint64_t drawn = *seed;
    bool lower;

    assert_int_equal(qci_renew(m, plan, plan->height - 1, seed, &found, NULL),
                     0);
    assert_true(*seed != drawn);
    after = rules_of(m);
    assert_memory_equal(&before, &after, sizeof before);
    lower = found.height > 0;
    if (lower) {
        assert_true(found.height < plan->height);
        assert_true(qci_solution_covers(&found, m->model));
        assert_true(qci_solution_copy(plan, &found));
    }
    qci_solution_clear(&found);
    return lower;
}

/* The height that TRIES of them come to, and what they began with. */
static int64_t renew_often(const qci_model *model, uint64_t seed,
                           int64_t *begun)
{
    qci_solution plan = {0};
    qci_master *m = NULL;
    int64_t height;

    assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
    assert_int_equal(qci_greedy(m, &plan, NULL), 0);
    *begun = plan.height;
    for (int i = 0; i < TRIES; i++)
        try_once(m, &plan, &seed);
    height = plan.height;
    qci_solution_clear(&plan);
    qci_master_destroy(m);
    return height;
}

static void test_lowers_plans(void **state)
{
    int64_t high = 0, least = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);
        int64_t optimum = every_least(model, every_free()), begun;
        int64_t height = renew_often(model, i, &begun);

        assert_true(height >= optimum && height <= begun);
        assert_int_equal(renew_often(model, i, &begun), height);
        high += begun > optimum;
        least += begun > optimum && height == optimum;
        qci_model_destroy(model);
    }
    print_message("%d of %d to the least height\n", (int)least, (int)high);
    assert_true(high > JOBS / 20);
    assert_true(least > high * 3 / 4);
}

/* What a dive is told to keep is part of what it finds, and class bounds count
 * it. */
static void test_dive_keeps(void **state)
{
    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);
        qci_solution plan = {0}, kept = {0}, found = {0};
        qci_dive_plan dive = {.kept = &kept, .rounds = 100};
        qci_master *m = NULL;
        int64_t times = 0;

        assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
        assert_int_equal(qci_greedy(m, &plan, NULL), 0);
        assert_true(qci_solution_add(&kept, plan.uses.at[0].pattern, 1));
        dive.cap = plan.height;
        assert_int_equal(qci_dive(m, dive, &found, NULL), 0);
        if (found.height && !model->trim) {
            for (size_t u = 0; u < found.uses.count; u++)
                if (found.uses.at[u].pattern == plan.uses.at[0].pattern)
                    times = found.uses.at[u].times;
            assert_true(times >= 1);
        }
        m->class_hi[0] = 0;
        assert_int_equal(qci_master_apply(m, NULL), 0);
        assert_int_equal(qci_dive(m, dive, &found, NULL), 0);
        assert_int_equal(found.height, 0);
        qci_solution_clear(&plan);
        qci_solution_clear(&kept);
        qci_solution_clear(&found);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
}

/* A cap that nothing meets. */
static int64_t far_below(int64_t height, void *user)
{
    (void)height;
    return *(const int64_t *)user - 1;
}

/* A search whose aim cannot be reached leaves a plan that is lower than what it
 * began with, where it has looked for one. */
static void test_unreached_aim(void **state)
{
    int64_t lowered = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);
        int64_t optimum = every_least(model, every_free());
        qci_aim aim = {.cap = far_below, .user = &optimum, .rounds = 10000};
        every_found found;

        every_search(model, &aim, &found);
        assert_true(found.best.height >= optimum);
        assert_true(found.best.height <= found.greedy);
        lowered += found.best.height < found.greedy;
        every_found_clear(&found);
        qci_model_destroy(model);
    }
    print_message("%d lowered\n", (int)lowered);
    assert_true(lowered > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lowers_plans),
        cmocka_unit_test(test_dive_keeps),
        cmocka_unit_test(test_unreached_aim),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
