/* Looking ahead before a branch, against programs solved here: of the class
 * counts that are listed, the one is taken whose two sides gain most. The
 * search's looks go through this file and are counted. QC_SEED sets the first
 * seed. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pack/probe.h"
#include "pack_every.h"

#define JOBS 300
#define ROUNDS 1000
#define LISTED 8
#define SLACK 40 /* of the cap, above the program */

static uint64_t first_seed = 3001;
static int looks;

qc_status __real_qci_probe_classes(qci_master *master, int64_t cap,
                                   qci_class_count *out, qc_error *err);
qc_status __wrap_qci_probe_classes(qci_master *master, int64_t cap,
                                   qci_class_count *out, qc_error *err);

qc_status __wrap_qci_probe_classes(qci_master *master, int64_t cap,
                                   qci_class_count *out, qc_error *err)
{
    looks++;
    return __real_qci_probe_classes(master, cap, out, err);
}

/* Pieces of many heights and one way to lie. */
static qci_model *draw_job(tiny *t, uint64_t seed, bool stacks)
{
    mini_random r = {first_seed + seed};
    qci_model *model = NULL;

    tiny_init(t, 1000, stacks, true);
    for (int i = 0; i < TINY_ROWS; i++) {
        qc_length width = mini_between(&r, 110, 480);

        tiny_add(t, width, mini_between(&r, 20, 90), mini_between(&r, 3, 40),
                 false);
    }
    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    return model;
}

static void generate(qci_master *m)
{
    int64_t bound = 0;
    qci_cg_end end;

    assert_int_equal(
        qci_master_generate(m, INT64_MAX, ROUNDS, &bound, &end, NULL), 0);
    assert_int_equal(end, QCI_CG_CONVERGED);
}

/* The program's value with a count held on one side. */
static double value(qci_master *m, int32_t cls, int64_t lo, int64_t hi)
{
    bool solved;

    m->class_lo[cls] = lo;
    m->class_hi[cls] = hi;
    assert_int_equal(qci_master_apply(m, NULL), 0);
    assert_int_equal(qci_master_solve(m, &solved, NULL), 0);
    assert_true(solved);
    m->class_lo[cls] = 0;
    m->class_hi[cls] = QCI_MANY;
    assert_int_equal(qci_master_apply(m, NULL), 0);
    return qci_lp_objective(m->lp);
}

static double product(qci_master *m, qci_class_count c, double from)
{
    double below = value(m, c.cls, 0, (int64_t)floor(c.count)) - from;
    double above = value(m, c.cls, (int64_t)ceil(c.count), QCI_MANY) - from;

    below = below < SLACK ? below : SLACK;
    above = above < SLACK ? above : SLACK;
    return fmax(below, 1e-3) * fmax(above, 1e-3);
}

/* Is another than the first of the list taken? */
static bool check_choice(qci_master *m)
{
    qci_class_count list[LISTED], got;
    int32_t n = qci_choose_classes(m, LISTED, list);
    double from = qci_lp_objective(m->lp), most = 0.0, taken = -1.0;
    int64_t cap = (int64_t)floor(from) + SLACK - 1;
    bool solved;

    if (!n)
        return false;
    assert_int_equal(qci_probe_classes(m, cap, &got, NULL), 0);
    assert_int_equal(qci_master_solve(m, &solved, NULL), 0);
    assert_true(fabs(qci_lp_objective(m->lp) - from) < 1e-6);
    for (int32_t i = 0; i < n; i++) {
        double p = product(m, list[i], from);

        most = p > most ? p : most;
        if (got.cls == list[i].cls)
            taken = p;
    }
    /* The cap that the products here know is a whole number off at most. */
    assert_true(taken > most * (1.0 - 2.0 / SLACK) - 1e-9);
    return got.cls != list[0].cls;
}

static void test_choice(void **state)
{
    int others = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        qci_model *model = draw_job(&t, i, false);
        qci_master *m = NULL;

        assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
        generate(m);
        others += check_choice(m);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%d of %d not the farthest from whole\n", others, JOBS);
    assert_true(others > JOBS / 10);
}

static int looks_of_search(bool stacks)
{
    looks = 0;
    for (uint64_t i = 0; i < 10; i++) {
        tiny t;
        qci_model *model = draw_job(&t, i, stacks);
        qci_aim aim = {.cap = every_below, .rounds = 500};
        every_found found;

        every_search(model, &aim, &found);
        every_found_clear(&found);
        qci_model_destroy(model);
    }
    return looks;
}

static void test_search_looks(void **state)
{
    (void)state;
    assert_true(looks_of_search(false) > 10);
    assert_int_equal(looks_of_search(true), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_choice),
        cmocka_unit_test(test_search_looks),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
