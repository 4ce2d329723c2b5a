/* One class of strips: pricing against every pattern, the linear program
 * against GLPK's, filling, and whole searches against every plan of tiny
 * fabrics. QC_SEED sets the first seed. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/greedy.h"
#include "pack/line.h"
#include "pack/line_fill.h"
#include "pack/line_lp.h"
#include "pack/line_price.h"
#include "pack_every.h"

#define ROWS 6
#define KNAPSACKS 300
#define PROGRAMS 60
#define JOBS 300
/* A width whose table would be too large, so that the walk is taken. */
#define FINE 1000003

static uint64_t first_seed = 9001;

typedef struct knapsack {
    int32_t rows, width;
    int64_t widths[ROWS], limit[ROWS];
    int32_t value[ROWS];
} knapsack;

static knapsack random_knapsack(mini_random *r, int32_t unit)
{
    knapsack k = {.rows = (int32_t)mini_between(r, 1, ROWS),
                  .width = (int32_t)mini_between(r, 5, 40) * unit};

    for (int32_t row = 0; row < k.rows; row++) {
        k.widths[row] = mini_between(r, 1, k.width / unit) * unit;
        k.limit[row] = mini_between(r, 0, 4);
        k.value[row] = (int32_t)mini_between(r, 0, 50);
    }
    return k;
}

/* The most, by looking at every count of every row. */
static int32_t most_of(const knapsack *k, int32_t row, int64_t width)
{
    int32_t most = 0;

    if (row == k->rows)
        return 0;
    for (int32_t n = 0; n <= k->limit[row] && n * k->widths[row] <= width;
         n++) {
        int32_t worth =
            n * k->value[row] + most_of(k, row + 1, width - n * k->widths[row]);

        most = worth > most ? worth : most;
    }
    return most;
}

/* Patterns must fit, keep to the limits, and be worth what is asked. */
static int32_t best_pattern(const knapsack *k, const qci_line_pricer *p,
                            int32_t threshold)
{
    int32_t best = threshold;

    for (size_t i = 0; i + 1 < p->first.count; i++) {
        int64_t width = 0, held[ROWS] = {0};
        int32_t worth = 0;

        for (int32_t e = p->first.at[i]; e < p->first.at[i + 1]; e++) {
            qci_count c = p->entries.at[e];

            assert_true(c.count > 0);
            assert_int_equal(held[c.row], 0);
            held[c.row] = c.count;
            width += k->widths[c.row] * c.count;
            worth += k->value[c.row] * c.count;
            assert_true(c.count <= k->limit[c.row]);
        }
        assert_true(width <= k->width);
        assert_true(worth > threshold);
        best = worth > best ? worth : best;
    }
    return best;
}

static void price_all(mini_random *r, int32_t unit)
{
    for (int i = 0; i < KNAPSACKS; i++) {
        knapsack k = random_knapsack(r, unit);
        int32_t truth = most_of(&k, 0, k.width), most;
        int32_t threshold = (int32_t)mini_between(r, 0, 60);
        qci_line_pricer p;

        assert_true(qci_line_pricer_init(&p, k.rows, k.width, k.widths));
        assert_true(qci_line_price(&p, k.value, k.limit, threshold, &most));
        if (truth > threshold)
            assert_int_equal(most, truth);
        assert_true(most >= truth);
        assert_int_equal(best_pattern(&k, &p, threshold),
                         truth > threshold ? truth : threshold);
        qci_line_pricer_clear(&p);
    }
}

/* Pieces of nearly one worth for their width, on a width of too many units for
 * a table: a walk over them all would not end. */
static void walks_are_cut_short(void **state)
{
    enum { LIKE = 120 };
    int64_t widths[LIKE], limit[LIKE];
    int32_t value[LIKE], most;
    qci_line_pricer p;

    (void)state;
    for (int i = 0; i < LIKE; i++) {
        widths[i] = 300007 + 7919 * i;
        value[i] = (int32_t)(widths[i] / 10 + i % 7);
        limit[i] = 50;
    }
    assert_true(qci_line_pricer_init(&p, LIKE, 9999991, widths));
    assert_true(qci_line_price(&p, value, limit, 0, &most));
    assert_true(p.nodes <= (1 << 20) + 1);
    assert_true(p.first.count > 1);
    /* What no strip is worth: its width full of the densest piece. */
    for (int i = 0; i < LIKE; i++)
        assert_true(most >= INT64_C(9999991) * value[i] / widths[i]);
    qci_line_pricer_clear(&p);
}

static void prices_every_pattern(void **state)
{
    mini_random r = {first_seed};

    (void)state;
    price_all(&r, 1);
    price_all(&r, FINE);
}

/* --- the linear program -------------------------------------------------- */

#define LP_ROWS 24
#define LP_COLUMNS 120

/* A column of up to four entries. */
static int32_t random_column(mini_random *r, int32_t rows, qci_count *entries)
{
    int32_t n = 0;

    for (int32_t row = (int32_t)mini_between(r, 0, rows - 1);
         row < rows && n < 4; row += (int32_t)mini_between(r, 1, 9))
        entries[n++] = (qci_count){row, (int32_t)mini_between(r, 1, 3)};
    return n;
}

/* A program and GLPK's for two needs, the second of them less. */
typedef struct pair {
    int32_t rows;
    int64_t need[2][LP_ROWS];
    qci_lp *peer[2];
    qci_line_lp lp;
} pair;

/* GLPK gets only the columns that hold no more than is needed. */
static void add_column(pair *p, const qci_count *entries, int32_t n)
{
    int row[4];
    double value[4];

    for (int32_t i = 0; i < n; i++) {
        row[i] = entries[i].row;
        value[i] = entries[i].count;
    }
    assert_true(qci_line_lp_add(&p->lp, entries, n) >= 0);
    for (int i = 0; i < 2; i++) {
        bool fits = true;

        for (int32_t e = 0; e < n; e++)
            fits = fits && entries[e].count <= p->need[i][row[e]];
        if (fits)
            assert_int_equal(qci_lp_add_column(p->peer[i], 1.0, 0.0, INFINITY,
                                               n, row, value, NULL),
                             QC_STATUS_OK);
    }
}

static double peer_value(qci_lp *peer)
{
    qci_mip_stop stop = {INT64_MAX, NULL, NULL};
    qci_lp_state end;

    assert_int_equal(qci_lp_solve(peer, &stop, &end, NULL), QC_STATUS_OK);
    assert_int_equal(end, QCI_LP_OPTIMAL);
    return qci_lp_objective(peer);
}

static void fill_pair(pair *p, mini_random *r)
{
    p->rows = (int32_t)mini_between(r, 1, LP_ROWS);
    assert_true(qci_line_lp_init(&p->lp, p->rows));
    for (int i = 0; i < 2; i++) {
        assert_int_equal(qci_lp_create(&p->peer[i], NULL), QC_STATUS_OK);
        for (int32_t row = 0; row < p->rows; row++) {
            p->need[i][row] = i ? mini_between(r, 0, p->need[0][row])
                                : mini_between(r, 1, 12);
            assert_int_equal(qci_lp_add_row(p->peer[i], (double)p->need[i][row],
                                            INFINITY, 0, NULL, NULL, NULL),
                             QC_STATUS_OK);
        }
    }
    for (int32_t row = 0; row < p->rows; row++)
        add_column(p, &(qci_count){row, 1}, 1);
    for (int32_t j = 0; j < LP_COLUMNS; j++) {
        qci_count entries[4];
        int32_t n = random_column(r, p->rows, entries);

        add_column(p, entries, n);
    }
}

/* First from nothing, then from the basis of the greater need. */
static void solves_programs(void **state)
{
    mini_random r = {first_seed + 1};

    (void)state;
    for (int n = 0; n < PROGRAMS; n++) {
        pair p;

        fill_pair(&p, &r);
        qci_line_lp_begin(&p.lp, p.need[0]);
        for (int i = 0; i < 2; i++) {
            if (i)
                qci_line_lp_change(&p.lp, p.need[1]);
            assert_true(qci_line_lp_solve(&p.lp));
            assert_float_equal(qci_line_lp_value(&p.lp, p.need[i]),
                               peer_value(p.peer[i]), 1e-4);
            qci_lp_destroy(p.peer[i]);
        }
        qci_line_lp_clear(&p.lp);
    }
}

/* --- filling ------------------------------------------------------------- */

/* Widths that fall, and one piece of each row at least. */
static void sort_widths(knapsack *k, int32_t unit)
{
    for (int32_t row = 0; row < k->rows; row++) {
        int64_t before = row ? k->widths[row - 1] : 0;

        if (row && k->widths[row] >= before)
            k->widths[row] = before > unit ? before - unit : unit;
        k->limit[row]++;
        k->value[row] = (int32_t)(k->widths[row] / unit);
    }
}

/* All strips together cut what is needed, and nothing else. The first takes the
 * widest piece and, where sets can tell, is as full as can be. */
static void fill_all(mini_random *r, int32_t unit, bool sets)
{
    for (int n = 0; n < KNAPSACKS; n++) {
        knapsack k = random_knapsack(r, unit);
        int64_t left[ROWS], first = 0;
        qci_line_filler f;
        qci_line_plan plan = {0};
        bool done;

        sort_widths(&k, unit);
        memcpy(left, k.limit, sizeof left);
        assert_true(qci_line_filler_init(&f, k.rows, k.width, k.widths));
        assert_int_equal(f.sets != NULL, sets);
        assert_true(qci_line_fill(&f, left, 1000, &plan, &done));
        assert_true(done);
        memcpy(left, k.limit, sizeof left);
        for (size_t i = 0; i < plan.times.count; i++) {
            int64_t width = 0;
            int32_t count;
            const qci_count *e = qci_line_plan_at(&plan, i, &count);

            for (int32_t at = 0; at < count; at++) {
                left[e[at].row] -= e[at].count * plan.times.at[i];
                width += k.widths[e[at].row] * e[at].count;
            }
            assert_true(width <= k.width);
            first = i ? first : width;
        }
        for (int32_t row = 0; row < k.rows; row++)
            assert_int_equal(left[row], 0);
        k.limit[0]--;
        if (sets)
            assert_int_equal(first, k.widths[0] +
                                        most_of(&k, 0, k.width - k.widths[0]));
        qci_line_filler_clear(&f);
        qci_line_plan_clear(&plan);
    }
}

static void fills_strips(void **state)
{
    mini_random r = {first_seed + 2};

    (void)state;
    fill_all(&r, 1, true);
    fill_all(&r, 50 * FINE, false);
}

/* --- whole searches ------------------------------------------------------ */

/* `rows` sizes of one height. */
static qci_model *draw_job(tiny *t, mini_random *r)
{
    qci_model *model;
    int64_t rows = mini_between(r, 1, EVERY_ROWS);

    tiny_init(t, mini_between(r, 6, 30), false, true);
    for (int64_t i = 0; i < rows; i++)
        tiny_add(t, mini_between(r, 1, t->demand.width), 5,
                 mini_between(r, 1, 5), false);
    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL),
        QC_STATUS_OK);
    return model;
}

static void finds_the_least(void **state)
{
    mini_random r = {first_seed + 3};
    int proved = 0;

    (void)state;
    for (int n = 0; n < JOBS; n++) {
        tiny t;
        qci_model *model = draw_job(&t, &r);
        int64_t least = every_least(model, every_free()), bound = 0;
        qci_aim aim = {.cap = every_below, .rounds = 1000};
        qci_solution best = {0};
        qci_master *m;

        assert_true(qci_line_fits(model));
        assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
        assert_int_equal(qci_greedy(m, &best, NULL), 0);
        assert_int_equal(qci_line_search(m, &aim, (qci_line_turns){0, 40},
                                         &best, &bound, NULL),
                         0);
        assert_true(qci_solution_covers(&best, model));
        assert_int_equal(best.height, least);
        assert_true(bound <= least);
        proved += bound == least;
        qci_solution_clear(&best);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%d of %d proved without branching\n", proved, JOBS);
    assert_true(proved > JOBS * 9 / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(prices_every_pattern),
        cmocka_unit_test(walks_are_cut_short),
        cmocka_unit_test(solves_programs),
        cmocka_unit_test(fills_strips),
        cmocka_unit_test(finds_the_least),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests_name("pack_line", tests, every_begin,
                                       every_end);
}
