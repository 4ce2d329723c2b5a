/* Patterns that stand outside the program.
 *
 * The program is made so small that patterns leave it all the time, and must
 * end where it ends when none ever leaves. The calls that take patterns out and
 * put them back go through this file, which looks at the lists after each, and
 * can leave them out. What a pattern is worth is told here by GLPK's own duals.
 * QC_SEED sets the first seed. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "pack/dive.h"
#include "pack/spare.h"
#include "pack_every.h"

#define JOBS 60
#define TURNS 20 /* needs for each */
#define ROUNDS 4000
/* Patterns put back at a time. */
#define MOST_BACK 8
/* Duals in integers and in floating point differ by less than this. */
#define NOISE 1e-3

static uint64_t first_seed = 9001;
static bool off; /* nothing leaves, nothing comes back */
static int64_t left, back;

qc_status __real_qci_spare_out(qci_master *master, qc_error *err);
qc_status __wrap_qci_spare_out(qci_master *master, qc_error *err);
qc_status __real_qci_spare_in(qci_master *master, qc_error *err);
qc_status __wrap_qci_spare_in(qci_master *master, qc_error *err);

/* The three lists and the program say the same. */
static void assert_in_step(const qci_master *m)
{
    bool *seen = calloc(m->pool.count + 1, sizeof *seen);

    assert_non_null(seen);
    assert_int_equal(m->inside.count, m->pool.count);
    assert_int_equal(m->shut.count, m->columns.count);
    assert_int_equal(qci_lp_column_count(m->lp),
                     m->listed + (int)m->columns.count);
    for (size_t j = 0; j < m->columns.count; j++) {
        int32_t pool = m->columns.at[j];

        if (pool < 0)
            continue;
        assert_false(seen[pool]);
        seen[pool] = true;
        assert_int_equal(m->shut.at[j],
                         !qci_master_within(m, m->pool.at[pool]));
    }
    for (size_t i = 0; i < m->pool.count; i++)
        assert_int_equal(m->inside.at[i], seen[i]);
    free(seen);
}

/* What a strip of the pattern costs beyond what it is worth. */
static double reduced_cost(const qci_master *m, const qci_pattern *pattern)
{
    int rows = m->model->row_count;
    double cost = (double)m->model->cost[pattern->cls] -
                  qci_lp_row_dual(m->lp, rows + pattern->cls);

    for (int32_t i = 0; i < pattern->row_count; i++)
        cost -= pattern->rows[i].count *
                qci_lp_row_dual(m->lp, pattern->rows[i].row);
    for (size_t i = 0; i < m->counts.count; i++)
        if (qci_pattern_yield(pattern, m->counts.at[i].row) >=
            m->counts.at[i].at)
            cost -=
                qci_lp_row_dual(m->lp, rows + m->model->class_count + (int)i);
    return cost;
}

/* What has left does not improve the program, and would cost more than all that
 * stayed. */
static void assert_worst_left(const qci_master *m, const bool *inside)
{
    double least = INFINITY, most = -INFINITY;

    for (size_t i = 0; i < m->pool.count; i++) {
        double cost = reduced_cost(m, m->pool.at[i]);

        if (m->inside.at[i])
            most = fmax(most, cost);
        else if (inside[i])
            least = fmin(least, cost);
    }
    assert_true(least > -1e-6);
    assert_true(least == INFINITY || least > most - 1e-6);
}

/* At most half of them leave. */
qc_status __wrap_qci_spare_out(qci_master *master, qc_error *err)
{
    size_t before = master->columns.count, gone;
    bool *inside = NULL;
    qc_status status;

    if (off)
        return QC_STATUS_OK;
    inside = qci_copy(master->inside.at, master->pool.count, sizeof *inside);
    assert_true(inside || !before);
    status = __real_qci_spare_out(master, err);
    assert_int_equal(status, QC_STATUS_OK);
    assert_in_step(master);
    gone = before - master->columns.count;
    assert_true(2 * gone <= before + 1);
    left += (int64_t)gone;
    if (gone)
        assert_worst_left(master, inside);
    qci_free(inside);
    return status;
}

/* What comes back improves the program; what stays does not, or as many better
 * ones came. */
qc_status __wrap_qci_spare_in(qci_master *master, qc_error *err)
{
    size_t before = master->columns.count, came;
    double worst = 0.0;
    qc_status status;

    if (off)
        return QC_STATUS_OK;
    status = __real_qci_spare_in(master, err);
    assert_int_equal(status, QC_STATUS_OK);
    assert_in_step(master);
    came = master->columns.count - before;
    assert_int_equal(master->found, came);
    assert_true(came <= MOST_BACK);
    back += (int64_t)came;
    for (size_t j = before; j < master->columns.count; j++) {
        double cost = reduced_cost(master, qci_master_pattern(master, j));

        assert_true(cost < NOISE);
        worst = j == before || cost > worst ? cost : worst;
    }
    for (size_t i = 0; i < master->pool.count; i++) {
        const qci_pattern *p = master->pool.at[i];

        if (!master->inside.at[i] && qci_master_within(master, p))
            assert_true(reduced_cost(master, p) >
                        (came == MOST_BACK ? worst : 0.0) - NOISE);
    }
    return status;
}

/* Until nothing improves the program; one round at a time, since patterns leave
 * when a generation begins. */
static int64_t converge(qci_master *m)
{
    int64_t best = 0;
    qci_cg_end end = QCI_CG_LIMIT;

    for (int32_t round = 0; round < ROUNDS && end == QCI_CG_LIMIT; round++) {
        int64_t bound = 0;

        assert_int_equal(qci_master_generate(m, INT64_MAX, 1 + round / 50,
                                             &bound, &end, NULL),
                         0);
        assert_in_step(m);
        best = bound > best ? bound : best;
    }
    assert_int_equal(end, QCI_CG_CONVERGED);
    assert_true(qci_master_shortfall(m) < 1e-6);
    return best;
}

/* Few classes beside many patterns: no stacks, heights of a few kinds. */
static qci_model *draw_job(tiny *t, uint64_t seed)
{
    mini_random r = {first_seed + seed};
    qci_model *model = NULL;

    tiny_init(t, mini_between(&r, 2000, 4000), false, true);
    for (int i = 0; i < TINY_ROWS; i++) {
        qc_length width = mini_between(&r, 90, 900);

        tiny_add(t, width, 4 + mini_between(&r, 0, 1),
                 mini_between(&r, 10, 200), false);
    }
    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    return model;
}

static void assert_same_end(qci_master *with, qci_master *without)
{
    int64_t bound, other;
    double value;

    off = false;
    bound = converge(with);
    off = true;
    other = converge(without);
    value = qci_lp_objective(without->lp);
    assert_true(fabs(qci_lp_objective(with->lp) - value) < 1e-6 * value);
    assert_int_equal(bound, other);
}

/* Other needs make other patterns good: those that have left come back. Every
 * other time no strip may hold more than is needed, which shuts patterns. */
static void need_other(qci_master *m, uint64_t seed)
{
    mini_random r = {seed};

    for (int32_t row = 0; row < m->model->row_count; row++)
        m->need[row] = mini_between(&r, 0, 1)
                           ? mini_between(&r, 1, m->model->demand[row])
                           : 1;
    for (int32_t row = 0; row < m->model->row_count; row++)
        m->limit[row] = seed % 2 ? m->need[row] : m->model->demand[row];
    assert_int_equal(qci_master_apply(m, NULL), 0);
}

static void need_all(qci_master *m)
{
    const qci_model *model = m->model;

    for (int32_t row = 0; row < model->row_count; row++)
        m->need[row] = m->limit[row] = model->demand[row];
    assert_int_equal(qci_master_apply(m, NULL), 0);
}

/* Strips of the solution whose pattern stands outside the program. */
static int64_t outside(const qci_master *m, const qci_solution *solution)
{
    int64_t strips = 0;

    for (size_t i = 0; i < m->pool.count; i++)
        for (size_t j = 0; j < solution->uses.count; j++)
            if (solution->uses.at[j].pattern == m->pool.at[i] &&
                !m->inside.at[i])
                strips += solution->uses.at[j].times;
    return strips;
}

/* A program that has had other needs before; *bound is that of the first. */
static qci_master *well_used(const qci_model *model, int64_t *bound)
{
    qci_master *m = NULL;

    assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
    for (uint64_t turn = 1; turn <= TURNS; turn++) {
        converge(m);
        need_other(m, turn);
    }
    need_all(m);
    *bound = converge(m);
    return m;
}

/* Patterns that have left may be what whole numbers of strips need. */
static void test_restricted(void **state)
{
    int64_t found = 0, strips = 0;

    (void)state;
    off = false;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        qci_model *model = draw_job(&t, i);
        qci_solution solution = {0};
        int64_t bound;
        qci_master *m = well_used(model, &bound);

        assert_int_equal(
            qci_restrict(m,
                         (qci_restrict_plan){bound + bound / 20, 0, 160, 1000},
                         &solution, NULL),
            0);
        found += solution.height > 0;
        strips += outside(m, &solution);
        qci_solution_clear(&solution);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%lld solutions, %lld strips from outside\n",
                  (long long)found, (long long)strips);
    assert_true(found > JOBS / 2);
    assert_true(strips > 0);
}

/* Is there one no higher than the program is? */
static bool finds(qci_master *m, int64_t cap, int64_t hold)
{
    qci_solution solution = {0};
    bool found;

    assert_int_equal(qci_restrict(m, (qci_restrict_plan){cap, hold, 160, 1000},
                                  &solution, NULL),
                     0);
    found = solution.height > 0;
    assert_true(solution.height <= cap);
    assert_true(!found || qci_solution_covers(&solution, m->model));
    qci_solution_clear(&solution);
    return found;
}

/* With strips held back from the program's whole part there is more to choose
 * from. */
static void test_held_back(void **state)
{
    int64_t all = 0, some = 0;

    (void)state;
    off = false;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        qci_model *model = draw_job(&t, i);
        int64_t bound;
        qci_master *m = well_used(model, &bound);

        all += finds(m, bound, 0);
        some += finds(m, bound, 2);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%lld solutions beside the whole part, %lld with two strips "
                  "of each pattern held back\n",
                  (long long)all, (long long)some);
    assert_true(some > all);
}

static void test_same_end(void **state)
{
    (void)state;
    left = back = 0;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        qci_model *model = draw_job(&t, i);
        qci_master *with = NULL, *without = NULL;

        assert_int_equal(qci_master_create(model, &every_watch, &with, NULL),
                         0);
        assert_int_equal(qci_master_create(model, &every_watch, &without, NULL),
                         0);
        assert_same_end(with, without);
        for (uint64_t turn = 1; turn <= TURNS; turn++) {
            need_other(with, turn);
            need_other(without, turn);
            assert_same_end(with, without);
        }
        qci_master_destroy(with);
        qci_master_destroy(without);
        qci_model_destroy(model);
    }
    print_message("%lld patterns left, %lld came back\n", (long long)left,
                  (long long)back);
    assert_true(left > 4 * JOBS);
    assert_true(back > JOBS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_same_end),
        cmocka_unit_test(test_restricted),
        cmocka_unit_test(test_held_back),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
