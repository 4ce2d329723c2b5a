/* Linear and integer programs: textbook examples, and growing models against
 * the same models built at once. What happens when GLPK dies is in
 * test_mip_faults.c. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "mip/guard.h"
#include "mip/mip.h"

#define ROOM 64
#define assert_near(a, b) assert_true(fabs((a) - (b)) < 1e-6)

static int open_solver(void **state)
{
    (void)state;
    return qci_mip_thread_begin(NULL) != QC_STATUS_OK;
}

static int close_solver(void **state)
{
    (void)state;
    qci_mip_test_stalls(0);
    qci_mip_thread_end();
    return 0;
}

/* A dense model small enough to write down. */
typedef struct model {
    int rows, columns;
    double row_lo[ROOM], row_hi[ROOM];
    double cost[ROOM], lo[ROOM], hi[ROOM];
    double at[ROOM][ROOM];
} model;

static void fill_row(const model *m, int row, int *index, double *value, int *n)
{
    *n = 0;
    for (int j = 0; j < m->columns; j++)
        if (m->at[row][j] != 0) {
            index[*n] = j;
            value[(*n)++] = m->at[row][j];
        }
}

static void fill_column(const model *m, int column, int *index, double *value,
                        int *n)
{
    *n = 0;
    for (int i = 0; i < m->rows; i++)
        if (m->at[i][column] != 0) {
            index[*n] = i;
            value[(*n)++] = m->at[i][column];
        }
}

static qci_lp *build(const model *m)
{
    int index[ROOM], n;
    double value[ROOM];
    qci_lp *lp;

    assert_int_equal(qci_lp_create(&lp, NULL), QC_STATUS_OK);
    for (int i = 0; i < m->rows; i++)
        assert_int_equal(
            qci_lp_add_row(lp, m->row_lo[i], m->row_hi[i], 0, NULL, NULL, NULL),
            QC_STATUS_OK);
    for (int j = 0; j < m->columns; j++) {
        fill_column(m, j, index, value, &n);
        assert_int_equal(qci_lp_add_column(lp, m->cost[j], m->lo[j], m->hi[j],
                                           n, index, value, NULL),
                         QC_STATUS_OK);
    }
    return lp;
}

static qci_lp_state solve(qci_lp *lp)
{
    qci_lp_state state;

    assert_int_equal(qci_lp_solve(lp, NULL, &state, NULL), QC_STATUS_OK);
    return state;
}

static qci_mip_state solve_with(const model *m, qci_mip_limits limits,
                                double *x, double *bound)
{
    static int start[ROOM + 1], row[ROOM * ROOM];
    static double value[ROOM * ROOM];
    static bool integer[ROOM];
    qci_mip_model sparse = {.row_count = m->rows,
                            .column_count = m->columns,
                            .row_lo = m->row_lo,
                            .row_hi = m->row_hi,
                            .cost = m->cost,
                            .lo = m->lo,
                            .hi = m->hi,
                            .integer = integer,
                            .start = start,
                            .row = row,
                            .value = value};
    qci_mip_state state;

    limits.stop.deadline_ms = INT64_MAX;
    for (int j = 0; j < m->columns; j++) {
        int n;

        fill_column(m, j, row + start[j], value + start[j], &n);
        start[j + 1] = start[j] + n;
        integer[j] = true;
    }
    assert_int_equal(qci_mip_solve(&sparse, &limits, x, bound, &state, NULL),
                     QC_STATUS_OK);
    return state;
}

static qci_mip_state solve_integer(const model *m, int nodes, double *x,
                                   double *bound)
{
    return solve_with(m, (qci_mip_limits){.nodes = nodes}, x, bound);
}

static double cost_of(const model *m, const double *x)
{
    double sum = 0;

    for (int j = 0; j < m->columns; j++)
        sum += m->cost[j] * x[j];
    return sum;
}

/* Hillier and Lieberman, Introduction to Operations Research, the Wyndor
 * example of chapter 3: maximum 36 at (2, 6), row prices 0, 3/2, 1 (from
 * memory; minimised here, so with the sign turned). */
static void glass_doors_and_windows(void **state)
{
    model m = {.rows = 3,
               .columns = 2,
               .row_lo = {-INFINITY, -INFINITY, -INFINITY},
               .row_hi = {4, 12, 18},
               .cost = {-3, -5},
               .hi = {INFINITY, INFINITY},
               .at = {{1, 0}, {0, 2}, {3, 2}}};
    qci_lp *lp = build(&m);

    (void)state;
    assert_int_equal(solve(lp), QCI_LP_OPTIMAL);
    assert_near(qci_lp_objective(lp), -36);
    assert_near(qci_lp_column_value(lp, 0), 2);
    assert_near(qci_lp_column_value(lp, 1), 6);
    assert_near(qci_lp_row_dual(lp, 0), 0);
    assert_near(qci_lp_row_dual(lp, 1), -1.5);
    assert_near(qci_lp_row_dual(lp, 2), -1);
    assert_near(qci_lp_reduced_cost(lp, 0), 0);
    qci_lp_destroy(lp);
}

/* Beale's example, on which the textbook simplex method goes round for ever:
 * minimum -1/20 at (1/25, 0, 1, 0) (E. M. L. Beale, 1955; from memory, and
 * checked by hand: it is feasible, and the row prices 0, -3/2, -1/20 prove
 * it). */
static const model beale = {
    .rows = 3,
    .columns = 4,
    .row_lo = {-INFINITY, -INFINITY, -INFINITY},
    .row_hi = {0, 0, 1},
    .cost = {-0.75, 150, -0.02, 6},
    .hi = {INFINITY, INFINITY, INFINITY, INFINITY},
    .at = {{0.25, -60, -0.04, 9}, {0.5, -90, -0.02, 3}, {0, 0, 1, 0}}};

static void every_rung_of_the_ladder_arrives(void **state)
{
    (void)state;
    for (int stalls = 0; stalls <= 4; stalls++) {
        qci_lp *lp = build(&beale);

        qci_mip_test_stalls(stalls);
        assert_int_equal(solve(lp), stalls < 4 ? QCI_LP_OPTIMAL : QCI_LP_STUCK);
        assert_near(qci_lp_objective(lp), stalls < 4 ? -0.05 : 0);
        assert_near(qci_lp_column_value(lp, 0), stalls < 4 ? 0.04 : 0);
        qci_lp_destroy(lp);
    }
}

/* V. Chvatal, Linear Programming, 1983, chapter 13: rolls 100 wide, cut to 45,
 * 36, 31 and 14; the linear optimum is 452.25 rolls, the integer one 453 (as
 * quoted by public solver guides). */
#define SIZES 4
static const int widths[SIZES] = {45, 36, 31, 14};
static const double demand[SIZES] = {97, 610, 395, 211};

/* The most valuable pattern, by trying all. */
static double best_pattern(const double *worth, double *pattern)
{
    double most = 0;

    for (int a = 0; a <= 2; a++)
        for (int b = 0; b <= 2; b++)
            for (int c = 0; c <= 3; c++)
                for (int d = 0; d <= 7; d++) {
                    double v = a * worth[0] + b * worth[1] + c * worth[2] +
                               d * worth[3];

                    if (45 * a + 36 * b + 31 * c + 14 * d > 100 || v <= most)
                        continue;
                    most = v;
                    memcpy(pattern, (double[SIZES]){a, b, c, d},
                           SIZES * sizeof *pattern);
                }
    return most;
}

static void rolls_by_growing_columns(void **state)
{
    static const int all[SIZES] = {0, 1, 2, 3};
    double worth[SIZES], pattern[SIZES];
    qci_lp *lp;

    (void)state;
    assert_int_equal(qci_lp_create(&lp, NULL), QC_STATUS_OK);
    for (int i = 0; i < SIZES; i++)
        qci_lp_add_row(lp, demand[i], INFINITY, 0, NULL, NULL, NULL);
    for (int i = 0; i < SIZES; i++) {
        double fits = 100 / widths[i];

        qci_lp_add_column(lp, 1, 0, INFINITY, 1, &i, &fits, NULL);
    }
    for (int round = 0;; round++) {
        assert_true(round < 20);
        assert_int_equal(solve(lp), QCI_LP_OPTIMAL);
        for (int i = 0; i < SIZES; i++)
            worth[i] = qci_lp_row_dual(lp, i);
        if (best_pattern(worth, pattern) < 1 + 1e-9)
            break;
        assert_int_equal(
            qci_lp_add_column(lp, 1, 0, INFINITY, SIZES, all, pattern, NULL),
            QC_STATUS_OK);
    }
    assert_near(qci_lp_objective(lp), 452.25);
    qci_lp_destroy(lp);
}

static void rolls_in_whole_numbers(void **state)
{
    model m = {.rows = SIZES};
    double x[ROOM], bound;

    (void)state;
    for (int i = 0; i < SIZES; i++) {
        m.row_lo[i] = demand[i];
        m.row_hi[i] = INFINITY;
    }
    for (int a = 0; a <= 2; a++)
        for (int b = 0; b <= 2; b++)
            for (int c = 0; c <= 3; c++) {
                int left = 100 - 45 * a - 36 * b - 31 * c;
                int j = m.columns;

                if (left < 0)
                    continue;
                m.cost[j] = 1;
                m.hi[j] = INFINITY;
                m.at[0][j] = a;
                m.at[1][j] = b;
                m.at[2][j] = c;
                m.at[3][j] = left / 14;
                m.columns++;
            }
    assert_int_equal(solve_integer(&m, 1000, x, &bound), QCI_MIP_OPTIMAL);
    assert_near(cost_of(&m, x), 453);
    assert_near(bound, 453);
}

/* L. A. Wolsey, Integer Programming, 1998, the branch-and-bound example of
 * chapter 7: maximum of 4 x1 - x2 is 7 at (2, 1) (from memory; by hand: x1 = 3
 * would need x2 >= 3.5). */
static void wolsey_branching(void **state)
{
    model m = {.rows = 3,
               .columns = 2,
               .row_lo = {-INFINITY, -INFINITY, -INFINITY},
               .row_hi = {14, 3, 3},
               .cost = {-4, 1},
               .hi = {INFINITY, INFINITY},
               .at = {{7, -2}, {0, 1}, {2, -2}}};
    double x[ROOM], bound;

    (void)state;
    assert_int_equal(solve_integer(&m, 100, x, &bound), QCI_MIP_OPTIMAL);
    assert_true(x[0] == 2 && x[1] == 1);
    assert_near(bound, -7);
}

static void no_whole_number_between(void **state)
{
    model m = {.rows = 1,
               .columns = 1,
               .row_lo = {0.25},
               .row_hi = {0.75},
               .cost = {1},
               .hi = {INFINITY},
               .at = {{1}}};
    double x[ROOM], bound;
    qci_lp *lp = build(&m);

    (void)state;
    assert_int_equal(solve(lp), QCI_LP_OPTIMAL);
    assert_near(qci_lp_objective(lp), 0.25);
    assert_int_equal(solve_integer(&m, 100, x, &bound), QCI_MIP_INFEASIBLE);
    assert_true(bound == INFINITY);
    assert_int_equal(qci_lp_bound_column(lp, 0, 1, INFINITY, NULL),
                     QC_STATUS_OK);
    assert_int_equal(solve(lp), QCI_LP_INFEASIBLE);
    assert_near(qci_lp_objective(lp), 0); /* nothing to read */
    qci_lp_destroy(lp);
}

static void every_kind_of_side(void **state)
{
    /* Free, fixed, at most, at least and between, each on its own row. */
    model m = {.rows = 5,
               .columns = 5,
               .row_lo = {-INFINITY, 4, -INFINITY, -7, 2},
               .row_hi = {INFINITY, 4, 6, INFINITY, 3},
               .cost = {0, 1, -1, 1, 1},
               .lo = {1, -INFINITY, -INFINITY, -INFINITY, -INFINITY},
               .hi = {1, INFINITY, INFINITY, INFINITY, INFINITY},
               .at = {{1}, {1, 1}, {0, 0, 1}, {0, 0, 0, 1}, {0, 0, 0, 0, 1}}};
    qci_lp *lp = build(&m);

    (void)state;
    assert_int_equal(solve(lp), QCI_LP_OPTIMAL);
    assert_near(qci_lp_column_value(lp, 0), 1);
    assert_near(qci_lp_column_value(lp, 1), 3);
    assert_near(qci_lp_column_value(lp, 2), 6);
    assert_near(qci_lp_column_value(lp, 3), -7);
    assert_near(qci_lp_column_value(lp, 4), 2);
    qci_lp_destroy(lp);
}

static void nothing_and_no_end(void **state)
{
    model m = {.columns = 1, .cost = {-1}, .hi = {INFINITY}};
    double x[ROOM];
    qci_lp *lp;

    (void)state;
    lp = build(&m);
    assert_int_equal(solve(lp), QCI_LP_STUCK); /* without end */
    qci_lp_destroy(lp);
    assert_int_equal(solve_integer(&m, 100, x, NULL), QCI_MIP_UNKNOWN);
    m.columns = 0;
    lp = build(&m);
    assert_int_equal(solve(lp), QCI_LP_OPTIMAL);
    assert_near(qci_lp_objective(lp), 0);
    qci_lp_destroy(lp);
    assert_int_equal(solve_integer(&m, 100, x, NULL), QCI_MIP_OPTIMAL);
}

static void wrong_numbers_are_refused(void **state)
{
    static const int twice[] = {0, 0}, beyond[] = {0, 3}, fine[] = {0, 1};
    static const double ones[] = {1, 1}, bad[] = {1, NAN},
                        big[] = {INFINITY, 1};
    model m = {.rows = 2, .row_hi = {1, 1}};
    qci_lp *lp = build(&m);
    qc_error err;

    (void)state;
#define REFUSED(call)                                                          \
    do {                                                                       \
        qc_error_init(&err);                                                   \
        assert_int_equal(call, QC_STATUS_SOLVER);                              \
        assert_int_equal(err.code, QC_STATUS_SOLVER);                          \
        assert_true(strlen(err.problem) > 5);                                  \
    } while (0)
    REFUSED(qci_lp_add_row(lp, 2, 1, 0, NULL, NULL, &err));
    REFUSED(qci_lp_add_row(lp, NAN, 1, 0, NULL, NULL, &err));
    REFUSED(qci_lp_add_row(lp, 0, NAN, 0, NULL, NULL, &err));
    REFUSED(qci_lp_add_row(lp, INFINITY, INFINITY, 0, NULL, NULL, &err));
    REFUSED(qci_lp_add_row(lp, 0, 1, 1, fine, ones, &err)); /* no columns */
    REFUSED(qci_lp_add_column(lp, NAN, 0, 1, 0, NULL, NULL, &err));
    REFUSED(qci_lp_add_column(lp, INFINITY, 0, 1, 0, NULL, NULL, &err));
    REFUSED(qci_lp_add_column(lp, 1, 0, 1, 2, twice, ones, &err));
    REFUSED(qci_lp_add_column(lp, 1, 0, 1, 2, beyond, ones, &err));
    REFUSED(qci_lp_add_column(lp, 1, 0, 1, 2, fine, bad, &err));
    REFUSED(qci_lp_add_column(lp, 1, 0, 1, 2, fine, big, &err));
    REFUSED(qci_lp_add_column(lp, 1, 0, 1, -1, fine, ones, &err));
    REFUSED(qci_lp_bound_row(lp, 2, 0, 1, &err));
    REFUSED(qci_lp_bound_row(lp, -1, 0, 1, &err));
    REFUSED(qci_lp_bound_row(lp, 0, 1, 0, &err));
    REFUSED(qci_lp_bound_column(lp, 0, 0, 1, &err));
    REFUSED(qci_lp_set_cost(lp, 0, 1, &err));
    assert_int_equal(qci_lp_row_count(lp), 2);
    assert_int_equal(qci_lp_column_count(lp), 0);
    assert_int_equal(solve(lp), QCI_LP_OPTIMAL); /* none the worse for it */
    qci_lp_destroy(lp);
}

static void wrong_models_are_refused(void **state)
{
    double zero[] = {0, 0}, one[] = {1, 1}, half[] = {0.5, 0.5}, x[2];
    bool integer[] = {true, true};
    int start[] = {0, 1, 2}, back[] = {0, 1, 0}, before[] = {-1, 0, 1};
    int row[] = {0, 0}, beyond[] = {0, 7}, repeat[] = {0, 2, 2};
    const qci_mip_model good = {1,   2,       zero,  one, one, zero,
                                one, integer, start, row, one};
    qci_mip_limits limits = {.nodes = 9, .stop = {INT64_MAX, NULL, NULL}};
    qci_mip_state result;
    qci_mip_model m;
    qc_error err;

    (void)state;
    assert_int_equal(qci_mip_solve(&good, &limits, x, NULL, &result, NULL),
                     QC_STATUS_OK);
    assert_int_equal(result, QCI_MIP_OPTIMAL);
#define MODEL_REFUSED(change)                                                  \
    do {                                                                       \
        m = good;                                                              \
        change;                                                                \
        REFUSED(qci_mip_solve(&m, &limits, x, NULL, &result, &err));           \
        assert_int_equal(result, QCI_MIP_UNKNOWN);                             \
    } while (0)
    MODEL_REFUSED(m.row_count = -1);
    MODEL_REFUSED(m.column_count = 100000001);
    MODEL_REFUSED(m.row_hi = (double[]){-1});
    MODEL_REFUSED(m.lo = ((double[]){0, 2}));
    MODEL_REFUSED(m.hi = half);
    MODEL_REFUSED(m.cost = ((double[]){0, NAN}));
    MODEL_REFUSED(m.value = ((double[]){INFINITY, 1}));
    MODEL_REFUSED(m.start = back);
    MODEL_REFUSED(m.start = before);
    MODEL_REFUSED(m.start = repeat);
    MODEL_REFUSED(m.row = beyond);
}

/* A generator of our own, so that a seed means the same everywhere. */
static uint64_t seed;

static int draw(int below)
{
    seed = seed * 6364136223846793005u + 1442695040888963407u;
    return (int)((seed >> 33) % (uint64_t)below);
}

static void random_row(model *m)
{
    int row = m->rows++;

    m->row_lo[row] = draw(2) ? (double)draw(12) : -INFINITY;
    m->row_hi[row] = draw(2) ? 12.0 + draw(30) : INFINITY;
    for (int j = 0; j < m->columns; j++)
        m->at[row][j] = draw(3) ? 0 : draw(7) - 1;
}

static void random_column(model *m)
{
    int column = m->columns++;

    m->cost[column] = draw(20);
    m->lo[column] = 0;
    m->hi[column] = draw(3) ? INFINITY : 1.0 + draw(5);
    for (int i = 0; i < m->rows; i++)
        m->at[i][column] = draw(2) ? 0 : draw(6);
}

static void drop_columns(model *m, const bool *flags)
{
    int kept = 0;

    for (int j = 0; j < m->columns; j++) {
        if (flags[j])
            continue;
        m->cost[kept] = m->cost[j];
        m->lo[kept] = m->lo[j];
        m->hi[kept] = m->hi[j];
        for (int i = 0; i < m->rows; i++)
            m->at[i][kept] = m->at[i][j];
        kept++;
    }
    m->columns = kept;
}

/* Makes one change to the model and to the program that grew with it. */
static void change_both(model *m, qci_lp *lp)
{
    int index[ROOM], n = 0;
    double value[ROOM];
    qc_status st = QC_STATUS_OK;

    switch (draw(6)) {
    case 0:
        if (m->rows >= 12)
            break;
        random_row(m);
        fill_row(m, m->rows - 1, index, value, &n);
        st = qci_lp_add_row(lp, m->row_lo[m->rows - 1], m->row_hi[m->rows - 1],
                            n, index, value, NULL);
        break;
    case 1:
    case 2:
        if (m->columns >= 40)
            break;
        random_column(m);
        fill_column(m, m->columns - 1, index, value, &n);
        st = qci_lp_add_column(lp, m->cost[m->columns - 1], 0,
                               m->hi[m->columns - 1], n, index, value, NULL);
        break;
    case 3: {
        int row = draw(m->rows);

        m->row_lo[row] = draw(25);
        m->row_hi[row] = m->row_lo[row] + (draw(2) ? draw(3) : 50);
        st = qci_lp_bound_row(lp, row, m->row_lo[row], m->row_hi[row], NULL);
        break;
    }
    case 4: {
        int column = draw(m->columns);

        m->cost[column] = draw(20);
        m->hi[column] = draw(9);
        st = qci_lp_set_cost(lp, column, m->cost[column], NULL);
        assert_int_equal(st, QC_STATUS_OK);
        st = qci_lp_bound_column(lp, column, 0, m->hi[column], NULL);
        break;
    }
    default: {
        bool flags[ROOM];

        for (int j = 0; j < m->columns; j++)
            flags[j] = j >= 5 && draw(4) == 0;
        st = qci_lp_delete_columns(lp, flags, NULL);
        drop_columns(m, flags);
    }
    }
    assert_int_equal(st, QC_STATUS_OK);
    assert_int_equal(qci_lp_row_count(lp), m->rows);
    assert_int_equal(qci_lp_column_count(lp), m->columns);
}

/* A program that grew and shrank solves as one that was built at once, and goes
 * on from its last basis, also when lines of it were deleted. */
static void growing_is_the_same_as_building(void **state)
{
    int optimal = 0, infeasible = 0, climbs = 0;

    (void)state;
    for (int run = 0; run < 40; run++) {
        static model m;
        qci_lp *grown;

        seed = 20240 + (uint64_t)run;
        memset(&m, 0, sizeof m);
        while (m.rows < 5)
            random_row(&m);
        while (m.columns < 8)
            random_column(&m);
        grown = build(&m);
        for (int step = 0; step < 50; step++) {
            qci_lp *fresh;
            qci_lp_state expected;

            change_both(&m, grown);
            fresh = build(&m);
            expected = solve(fresh);
            climbs -= qci_mip_test_climbs();
            assert_int_equal(solve(grown), expected);
            climbs += qci_mip_test_climbs();
            assert_near(qci_lp_objective(grown), qci_lp_objective(fresh));
            optimal += expected == QCI_LP_OPTIMAL;
            infeasible += expected == QCI_LP_INFEASIBLE;
            qci_lp_destroy(fresh);
        }
        qci_lp_destroy(grown);
    }
    assert_true(optimal > 500 && infeasible > 100);
    print_message("%d of 2000 solves left the last basis\n", climbs);
    assert_true(climbs < 20);
}

/* The cheapest of all points 0..3 per column, by trying them; INFINITY if none
 * is feasible. */
static double try_all(const model *m)
{
    double least = INFINITY;

    for (int code = 0; code < 1 << (2 * m->columns); code++) {
        double x[ROOM];
        bool fits = true;

        for (int j = 0; j < m->columns; j++)
            x[j] = (code >> (2 * j)) & 3;
        for (int i = 0; i < m->rows && fits; i++) {
            double sum = 0;

            for (int j = 0; j < m->columns; j++)
                sum += m->at[i][j] * x[j];
            fits = sum >= m->row_lo[i] && sum <= m->row_hi[i];
        }
        if (fits)
            least = fmin(least, cost_of(m, x));
    }
    return least;
}

static void integers_against_trying_all(void **state)
{
    int infeasible = 0;

    (void)state;
    for (int run = 0; run < 150; run++) {
        static model m;
        double x[ROOM], bound, least;
        qci_mip_state result;

        seed = 777 + (uint64_t)run;
        memset(&m, 0, sizeof m);
        while (m.columns < 6) {
            random_column(&m);
            m.hi[m.columns - 1] = 3;
        }
        while (m.rows < 4) {
            random_row(&m);
            if (draw(3) == 0)
                m.row_hi[m.rows - 1] = m.row_lo[m.rows - 1] = draw(15);
        }
        least = try_all(&m);
        result = solve_integer(&m, 10000, x, &bound);
        if (least == INFINITY) {
            infeasible++;
            assert_int_equal(result, QCI_MIP_INFEASIBLE);
            continue;
        }
        assert_int_equal(result, QCI_MIP_OPTIMAL);
        assert_near(cost_of(&m, x), least);
        assert_near(bound, least);
        for (int j = 0; j < m.columns; j++)
            assert_true(x[j] == round(x[j]));
    }
    assert_true(infeasible > 5 && infeasible < 140);
}

static void make_covering(model *m, int rows, int columns)
{
    while (m->columns < columns) {
        m->cost[m->columns] = 20 + draw(80);
        m->hi[m->columns++] = INFINITY;
    }
    while (m->rows < rows) {
        m->row_lo[m->rows] = 5 + draw(100);
        m->row_hi[m->rows] = INFINITY;
        for (int j = 0; j < m->columns; j++)
            m->at[m->rows][j] = draw(4) ? 0 : 1 + draw(6);
        m->rows++;
    }
}

/* It covers what is asked for, and some better one may be left unfound. */
static void the_first_may_be_enough(void **state)
{
    int dearer = 0;

    (void)state;
    seed = 5;
    for (int round = 0; round < 40; round++) {
        model m = {0};
        double x[ROOM], best[ROOM];
        qci_mip_limits limits = {.nodes = 10000, .first = true};

        make_covering(&m, 6, 12);
        if (solve_integer(&m, 10000, best, NULL) != QCI_MIP_OPTIMAL)
            continue; /* a row that no column covers */
        assert_true(solve_with(&m, limits, x, NULL) <= QCI_MIP_FEASIBLE);
        assert_true(cost_of(&m, x) >= cost_of(&m, best));
        dearer += cost_of(&m, x) > cost_of(&m, best);
    }
    assert_true(dearer > 0);
}

/* The node limit, not the clock, ends a solve; so two solves agree. */
static void node_limits_repeat(void **state)
{
    model m = {0};
    double x[ROOM], again[ROOM], bound, bound_again;
    qci_mip_state first, full;

    (void)state;
    seed = 5;
    make_covering(&m, 20, 60);
    first = solve_integer(&m, 200, x, &bound);
    assert_int_equal(first, QCI_MIP_FEASIBLE);
    assert_true(bound < cost_of(&m, x) && bound > 0);
    assert_int_equal(solve_integer(&m, 200, again, &bound_again), first);
    assert_true(bound == bound_again);
    assert_memory_equal(x, again, (size_t)m.columns * sizeof *x);
    full = solve_integer(&m, 2000, again, &bound_again);
    assert_true(full == QCI_MIP_FEASIBLE || full == QCI_MIP_OPTIMAL);
    assert_true(bound_again >= bound);
    assert_true(cost_of(&m, again) <= cost_of(&m, x));
    assert_int_equal(solve_integer(&m, 0, x, &bound), QCI_MIP_UNKNOWN);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
#define TEST(f) cmocka_unit_test_setup_teardown(f, open_solver, close_solver)
        TEST(glass_doors_and_windows),
        TEST(every_rung_of_the_ladder_arrives),
        TEST(rolls_by_growing_columns),
        TEST(rolls_in_whole_numbers),
        TEST(wolsey_branching),
        TEST(no_whole_number_between),
        TEST(every_kind_of_side),
        TEST(nothing_and_no_end),
        TEST(wrong_numbers_are_refused),
        TEST(wrong_models_are_refused),
        TEST(growing_is_the_same_as_building),
        TEST(integers_against_trying_all),
        TEST(the_first_may_be_enough),
        TEST(node_limits_repeat),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
