/* Dives for rounded numbers of strips.
 *
 * The dives of a search go through this file, which tells those for rounded
 * numbers from plain ones by the least numbers that the master is held to, and
 * can keep all else that looks for plans from finding anything. What
 * a dive has cut is looked at before its strips are lowered. QC_SEED sets the
 * first seed. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/choose.h"
#include "pack/corner.h"
#include "pack/dive.h"
#include "pack/greedy.h"
#include "pack/search.h"
#include "pack_every.h"

#define JOBS 1000
#define CLASSES 64

static uint64_t first_seed = 5001;
static bool alone;             /* nothing else finds a plan */
static int64_t asked[CLASSES]; /* of the dive in hand, strips at least */
static bool diving;            /* for rounded numbers */
static bool root;              /* its node is in hand */
static double chosen[CLASSES]; /* to be rounded: the program's number; or 0 */
static int64_t dives, plans, rounded, nearest;
static int64_t lowest; /* plan of them in the search in hand; 0: none */

qc_status __real_qci_dive(qci_master *master, qci_dive_plan plan,
                          qci_solution *out, qc_error *err);
qc_status __wrap_qci_dive(qci_master *master, qci_dive_plan plan,
                          qci_solution *out, qc_error *err);
int32_t __real_qci_choose_nearest(const qci_master *master, double *count);
int32_t __wrap_qci_choose_nearest(const qci_master *master, double *count);
qc_status __real_qci_restrict(qci_master *master, qci_restrict_plan plan,
                              qci_solution *out, qc_error *err);
qc_status __wrap_qci_restrict(qci_master *master, qci_restrict_plan plan,
                              qci_solution *out, qc_error *err);
qc_status __real_qci_corner(qci_master *master, qci_corner_plan plan,
                            qci_solution *out, qc_error *err);
qc_status __wrap_qci_corner(qci_master *master, qci_corner_plan plan,
                            qci_solution *out, qc_error *err);
qc_status __real_qci_lower(qci_master *master, qci_solution *solution,
                           qc_error *err);
qc_status __wrap_qci_lower(qci_master *master, qci_solution *solution,
                           qc_error *err);

static int64_t strips_from(const qci_solution *solution, int32_t cls)
{
    int64_t sum = 0;

    for (size_t i = 0; i < solution->uses.count; i++)
        if (solution->uses.at[i].pattern->cls >= cls)
            sum += solution->uses.at[i].times;
    return sum;
}

/* At the root of a search whose master was free nothing else asks for strips.
 */
static bool is_rounded(const qci_master *m)
{
    for (int32_t k = 0; k < m->model->class_count && root; k++)
        if (m->class_lo[k] > 0)
            return true;
    return false;
}

/* The program's numbers of strips are no less than is asked, and may be more.
 */
static void assert_program_asked(const qci_master *m)
{
    for (int32_t k = 0; k < m->model->class_count; k++) {
        assert_true(qci_lp_column_value(m->lp, m->helpers + k) >
                    (double)m->class_lo[k] - 1e-6);
        assert_int_equal(m->class_hi[k], QCI_MANY);
    }
}

static bool is_free(const qci_master *m)
{
    for (int32_t k = 0; k < m->model->class_count; k++)
        if (m->class_lo[k] || m->class_hi[k] < QCI_MANY)
            return false;
    return true;
}

/* The first one is chosen while the master is free. */
int32_t __wrap_qci_choose_nearest(const qci_master *master, double *count)
{
    int32_t cls = __real_qci_choose_nearest(master, count);

    assert_true(master->model->class_count <= CLASSES);
    if (is_free(master))
        memset(chosen, 0, sizeof chosen);
    if (cls >= 0)
        chosen[cls] = *count;
    return cls;
}

/* Numbers are rounded to one of their two neighbours. */
static void look_at_rounding(const qci_master *m)
{
    for (int32_t k = 0; k < m->model->class_count; k++) {
        double by = fabs((double)m->class_lo[k] - chosen[k]);

        assert_true(by < 1.0);
        rounded += by > 0.0;
        nearest += by > 0.0 && by <= 0.5;
    }
}

/* As many strips of every class or higher as were asked for. */
qc_status __wrap_qci_lower(qci_master *master, qci_solution *solution,
                           qc_error *err)
{
    for (int32_t k = 0; k < master->model->class_count && diving; k++)
        assert_true(strips_from(solution, k) >= asked[k]);
    return __real_qci_lower(master, solution, err);
}

static qc_status dive_rounded(qci_master *master, qci_dive_plan plan,
                              qci_solution *out, qc_error *err)
{
    size_t classes = (size_t)master->model->class_count;
    qc_status status;

    assert_program_asked(master);
    look_at_rounding(master);
    memcpy(asked, master->class_lo, classes * sizeof *asked);
    dives++;
    diving = true;
    status = __real_qci_dive(master, plan, out, err);
    diving = false;
    assert_memory_equal(asked, master->class_lo, classes * sizeof *asked);
    if (!out->height)
        return status;
    plans++;
    assert_true(out->height <= plan.cap);
    assert_true(qci_solution_covers(out, master->model));
    if (!lowest || out->height < lowest)
        lowest = out->height;
    return status;
}

/* Dives that begin with another choice are at the root alone, behind those for
 * rounded numbers: nothing is left of these. */
qc_status __wrap_qci_dive(qci_master *master, qci_dive_plan plan,
                          qci_solution *out, qc_error *err)
{
    if (is_rounded(master))
        return dive_rounded(master, plan, out, err);
    if (plan.turn)
        assert_true(is_free(master));
    if (!alone)
        return __real_qci_dive(master, plan, out, err);
    qci_solution_clear(out);
    return QC_STATUS_OK;
}

qc_status __wrap_qci_restrict(qci_master *master, qci_restrict_plan plan,
                              qci_solution *out, qc_error *err)
{
    if (!alone)
        return __real_qci_restrict(master, plan, out, err);
    qci_solution_clear(out);
    return QC_STATUS_OK;
}

qc_status __wrap_qci_corner(qci_master *master, qci_corner_plan plan,
                            qci_solution *out, qc_error *err)
{
    if (!alone)
        return __real_qci_corner(master, plan, out, err);
    qci_solution_clear(out);
    return QC_STATUS_OK;
}

/* Told after every node. */
static void leave_root(int64_t height, int64_t bound, void *user)
{
    (void)height;
    (void)bound;
    (void)user;
    root = false;
}

/* Searches to the end; says what the search began with. */
static int64_t search(const qci_model *model, int64_t optimum)
{
    qci_aim aim = {.cap = every_below, .news = leave_root, .rounds = 10000};
    qci_solution best = {0};
    qci_master *m = NULL;
    int64_t bound = 0, begun;

    assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
    assert_int_equal(qci_greedy(m, &best, NULL), 0);
    begun = best.height;
    lowest = 0;
    root = true;
    assert_int_equal(qci_search(m, &aim, &best, &bound, NULL), 0);
    assert_true(qci_solution_covers(&best, model));
    assert_int_equal(best.height, optimum);
    assert_true(bound >= optimum);
    assert_true(is_free(m));
    qci_solution_clear(&best);
    qci_master_destroy(m);
    return begun;
}

/* Jobs in which dives for rounded numbers found the least height there is,
 * which was not known before. */
static int64_t search_all(bool only)
{
    int64_t found = 0;

    alone = only;
    dives = plans = rounded = nearest = 0;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);
        int64_t optimum = every_least(model, every_free());

        found += search(model, optimum) > optimum && lowest == optimum;
        qci_model_destroy(model);
    }
    print_message("%lld of %lld numbers to the nearest\n", (long long)nearest,
                  (long long)rounded);
    print_message("%lld dives for rounded numbers, %lld plans, the least "
                  "height in %lld jobs\n",
                  (long long)dives, (long long)plans, (long long)found);
    return found;
}

static void test_alone(void **state)
{
    (void)state;
    assert_true(search_all(true) > JOBS / 25);
    assert_true(2 * plans > dives);
    assert_true(3 * nearest > 2 * rounded);
}

/* They come behind others, and find what these do not. */
static void test_behind_others(void **state)
{
    (void)state;
    assert_true(search_all(false) > 0);
    assert_true(dives < JOBS / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_alone),
        cmocka_unit_test(test_behind_others),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
