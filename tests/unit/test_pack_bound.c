/* The safe bound, against optima found by trying everything.
 *
 * The linear program's duals come to pricing through this file, which can spoil
 * them: with noise small and large, with the wrong sign, or made up. Whatever
 * they are, no bound may pass the optimum; the plain sum of duals and demands,
 * which is what a solver would call its bound, is shown to pass it often.
 * Programs are also stopped after every round, and held to class and count
 * rules. QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/greedy.h"
#include "pack/price.h"
#include "pack/search.h"
#include "pack_every.h"

#define JOBS 150
#define ROUNDS 60

typedef enum spoil { CLEAN, NOISE, FLIP, MADE_UP, VAST, SPOILS } spoil;

static uint64_t first_seed = 7001;
static spoil how;
static double noise;
static mini_random spoiler;
static double naive; /* sum of duals and demands, as they were handed out */
static const qci_master *watched;

double __real_qci_lp_row_dual(const qci_lp *lp, int row);
double __wrap_qci_lp_row_dual(const qci_lp *lp, int row);

static double between(double lo, double hi)
{
    return lo + (hi - lo) * (double)mini_between(&spoiler, 0, 1000000) / 1e6;
}

/* A row's dual is asked for more than once a round and must stay the same. */
static double spoilt(double dual, double top)
{
    switch (how) {
    case NOISE:
        return dual * (1.0 + between(-noise, noise)) +
               between(-noise, noise) * top;
    case FLIP:
        return between(-1.0, 1.0) < 0.0 ? -dual : dual;
    case MADE_UP:
        return between(-top, 2.0 * top);
    case VAST:
        return between(-1.0, 1.0) < -0.5 ? dual : between(-1e9, 1e9) * top;
    case CLEAN:
    case SPOILS:
        break;
    }
    return dual;
}

double __wrap_qci_lp_row_dual(const qci_lp *lp, int row)
{
    const qci_model *model = watched->model;
    uint64_t before = spoiler.state;
    double dual;

    spoiler.state += (uint64_t)row * 1000003 + (uint64_t)watched->rounds * 7919;
    dual = spoilt(__real_qci_lp_row_dual(lp, row),
                  (double)model->height[model->class_count - 1]);
    spoiler.state = before;
    return dual;
}

static double naive_bound(const qci_master *m)
{
    double sum = 0.0;

    for (int32_t row = 0; row < m->model->row_count; row++)
        sum += __wrap_qci_lp_row_dual(m->lp, row) * (double)m->need[row];
    return sum;
}

/* Generates columns round by round; every bound on the way holds. */
static int64_t generate(qci_master *m, int64_t optimum, int32_t rounds)
{
    int64_t best = 0;

    for (int32_t round = 0; round < rounds; round++) {
        int64_t bound = 0;
        qci_cg_end end = QCI_CG_LIMIT;

        assert_int_equal(
            qci_master_generate(m, INT64_MAX, 1, &bound, &end, NULL), 0);
        assert_true(end == QCI_CG_LIMIT || end == QCI_CG_CONVERGED);
        assert_true(bound <= optimum);
        naive = naive_bound(m);
        if (bound > best)
            best = bound;
        if (end == QCI_CG_CONVERGED)
            break;
    }
    return best;
}

static qci_model *draw_job(tiny *t, uint64_t seed, mini_random *r)
{
    *r = (mini_random){first_seed + seed};
    return every_job(t, r);
}

static qci_master *make_master(const qci_model *model)
{
    qci_master *m = NULL;

    watched = NULL;
    how = CLEAN;
    assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
    watched = m;
    return m;
}

/* The search over the program ends at the optimum, with proof. */
static void assert_solved(qci_master *m, int64_t optimum)
{
    qci_aim aim = {.cap = every_below, .rounds = 10000};
    qci_solution best = {0};
    int64_t bound = 0;

    assert_int_equal(qci_greedy(m, &best, NULL), 0);
    assert_int_equal(qci_search(m, &aim, &best, &bound, NULL), 0);
    assert_true(qci_solution_covers(&best, m->model));
    assert_int_equal(best.height, optimum);
    assert_true(bound >= optimum);
    qci_solution_clear(&best);
}

/* With clean duals the bound ends at the program's own optimum, rounded up. */
static void test_clean(void **state)
{
    int tight = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r;
        tiny t;
        qci_model *model = draw_job(&t, i, &r);
        qci_master *m = make_master(model);
        int64_t optimum = every_least(model, every_free());
        int64_t bound = generate(m, optimum, ROUNDS);

        assert_true(qci_master_shortfall(m) < 1e-6);
        assert_true((double)bound >= qci_lp_objective(m->lp) - 1e-6);
        tight += bound == optimum;
        assert_solved(m, optimum);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%d of %d root bounds are the optimum\n", tight, JOBS);
    assert_true(tight > JOBS / 3);
}

static void test_spoilt_duals(void **state)
{
    int wrong = 0, useful = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r;
        tiny t;
        qci_model *model = draw_job(&t, i, &r);
        int64_t optimum = every_least(model, every_free());

        for (spoil s = NOISE; s < SPOILS; s++) {
            qci_master *m = make_master(model);

            how = s;
            noise = 1e-9;
            for (int64_t n = mini_between(&r, 0, 8); n > 0; n--)
                noise *= 10.0;
            spoiler.state = mini_next(&r);
            useful += 2 * generate(m, optimum, 12) >= optimum;
            wrong += naive > (double)optimum + 1e-6;
            qci_master_destroy(m);
        }
        qci_model_destroy(model);
    }
    print_message(
        "plain sums too high: %d, bounds of half or more: %d, of %d\n", wrong,
        useful, JOBS * (SPOILS - 1));
    assert_true(wrong > JOBS / 2);
    assert_true(useful > JOBS / 2);
}

/* Two bounds within 0..3, or none above. */
static void draw_range(mini_random *r, int64_t *lo, int64_t *hi)
{
    *lo = mini_between(r, 0, 3);
    *hi = mini_between(r, 0, 1) ? QCI_MANY : mini_between(r, *lo, 3);
}

static every_rules draw_rules(mini_random *r, const qci_model *model)
{
    every_rules rules = every_free();
    int64_t which = mini_between(r, 0, 2);

    if (which != 1) {
        rules.cls = (int32_t)mini_between(r, 0, model->class_count - 1);
        draw_range(r, &rules.class_lo, &rules.class_hi);
    }
    if (which != 0) {
        rules.row = (int32_t)mini_between(r, 0, model->row_count - 1);
        rules.at = (int32_t)mini_between(r, 1, model->demand[rules.row]);
        draw_range(r, &rules.count_lo, &rules.count_hi);
    }
    return rules;
}

static void lay_down(qci_master *m, every_rules rules)
{
    int32_t at;

    assert_int_equal(qci_master_count_row(m, rules.row, rules.at, &at, NULL),
                     0);
    m->class_lo[rules.cls] = rules.class_lo;
    m->class_hi[rules.cls] = rules.class_hi;
    m->counts.at[at].lo = rules.count_lo;
    m->counts.at[at].hi = rules.count_hi;
    assert_int_equal(qci_master_apply(m, NULL), 0);
}

/* The rules come on a program that is empty, or has its columns already. */
static void check_rules(const qci_model *model, mini_random *r, spoil s,
                        int *raised)
{
    every_rules rules = draw_rules(r, model);
    int64_t optimum = every_least(model, rules), free_bound = 0, bound;
    qci_master *m = make_master(model);

    if (mini_between(r, 0, 1))
        free_bound = generate(m, optimum, ROUNDS);
    lay_down(m, rules);
    how = s;
    noise = 1e-3;
    spoiler.state = mini_next(r);
    bound = generate(m, optimum, ROUNDS);
    *raised += free_bound && bound > free_bound && optimum < INT64_MAX;
    qci_master_destroy(m);
}

static void test_rules(void **state)
{
    int raised = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r;
        tiny t;
        qci_model *model = draw_job(&t, i, &r);

        for (int n = 0; n < 4; n++)
            check_rules(model, &r, n < 2 ? CLEAN : (spoil)(n - 1), &raised);
        qci_model_destroy(model);
    }
    print_message("%d bounds raised by a rule\n", raised);
    assert_true(raised > JOBS / 8);
}

/* What is left to cut, and how much of it a strip may hold, may be less. */
static void test_less_to_cut(void **state)
{
    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r;
        tiny t;
        qci_model *model = draw_job(&t, i, &r);
        qci_master *m = make_master(model);

        generate(m, INT64_MAX, ROUNDS);
        for (int32_t row = 0; row < model->row_count; row++) {
            model->demand[row] = mini_between(&r, 0, model->demand[row]);
            m->need[row] = m->limit[row] = model->demand[row];
        }
        assert_int_equal(qci_master_apply(m, NULL), 0);
        generate(m, every_least(model, every_free()), ROUNDS);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_clean),
        cmocka_unit_test(test_spoilt_duals),
        cmocka_unit_test(test_rules),
        cmocka_unit_test(test_less_to_cut),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
