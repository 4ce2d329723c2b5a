/* The order of nodes where bounds say too little.
 *
 * Pricing goes through this file and proves nothing below the root. Nodes whose
 * program is past the cap then stay open, and must be left until nothing else
 * is open. What is entered, and what comes of a branch, goes through this file
 * too. QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pack/price.h"
#include "pack/probe.h"
#include "pack/search_inner.h"
#include "pack_every.h"

#define JOBS 400
#define ROUNDS 300

static uint64_t first_seed = 6001;
static int64_t hopeless, hopeful;
static double program; /* before the search looked ahead; 0: it did not */

qc_status __real_qci_price_round(qci_master *master, int64_t *bound,
                                 qc_error *err);
qc_status __wrap_qci_price_round(qci_master *master, int64_t *bound,
                                 qc_error *err);
qc_status __real_qci_node_enter(qci_searching *s, const qci_node *n,
                                qc_error *err);
qc_status __wrap_qci_node_enter(qci_searching *s, const qci_node *n,
                                qc_error *err);
qc_status __real_qci_probe_classes(qci_master *master, int64_t cap,
                                   qci_class_count *out, qc_error *err);
qc_status __wrap_qci_probe_classes(qci_master *master, int64_t cap,
                                   qci_class_count *out, qc_error *err);
qc_status __real_qci_node_branch(qci_searching *s, const qci_node *n,
                                 int32_t cls, qci_count_row count, double at,
                                 qc_error *err);
qc_status __wrap_qci_node_branch(qci_searching *s, const qci_node *n,
                                 int32_t cls, qci_count_row count, double at,
                                 qc_error *err);

/* Is it held to anything? */
static bool is_bound(const qci_master *m)
{
    for (int32_t k = 0; k < m->model->class_count; k++)
        if (m->class_lo[k] > 0 || m->class_hi[k] < QCI_MANY)
            return true;
    for (size_t i = 0; i < m->counts.count; i++)
        if (m->counts.at[i].lo > 0 || m->counts.at[i].hi < QCI_MANY)
            return true;
    return false;
}

qc_status __wrap_qci_price_round(qci_master *master, int64_t *bound,
                                 qc_error *err)
{
    qc_status status = __real_qci_price_round(master, bound, err);

    if (is_bound(master))
        *bound = 0;
    return status;
}

qc_status __wrap_qci_node_enter(qci_searching *s, const qci_node *n,
                                qc_error *err)
{
    for (size_t i = 0; i < s->nodes.count && n->hopeless; i++)
        assert_true(s->nodes.at[i].hopeless || s->nodes.at[i].bound > s->cap);
    return __real_qci_node_enter(s, n, err);
}

qc_status __wrap_qci_probe_classes(qci_master *master, int64_t cap,
                                   qci_class_count *out, qc_error *err)
{
    program = qci_lp_objective(master->lp);
    return __real_qci_probe_classes(master, cap, out, err);
}

qc_status __wrap_qci_node_branch(qci_searching *s, const qci_node *n,
                                 int32_t cls, qci_count_row count, double at,
                                 qc_error *err)
{
    bool past = (program ? program : qci_lp_objective(s->master->lp)) >
                (double)s->cap + 0.01;
    size_t before = s->nodes.count;
    qc_status status = __real_qci_node_branch(s, n, cls, count, at, err);

    program = 0.0;
    for (size_t i = before; i < s->nodes.count; i++) {
        hopeless += past;
        hopeful += !past;
        assert_int_equal(s->nodes.at[i].hopeless, past);
    }
    return status;
}

static void search(const qci_model *model)
{
    qci_aim aim = {.cap = every_below, .rounds = ROUNDS};
    every_found found;

    every_search(model, &aim, &found);
    assert_true(found.bound <= every_least(model, every_free()));
    every_found_clear(&found);
}

static void test_left_for_last(void **state)
{
    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);

        search(model);
        qci_model_destroy(model);
    }
    print_message("%lld hopeless nodes, %lld others\n", (long long)hopeless,
                  (long long)hopeful);
    assert_true(hopeless > 20);
    assert_true(hopeful > 20);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_left_for_last),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
