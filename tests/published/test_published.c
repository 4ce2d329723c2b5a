/* Textbook cutting-stock examples and the trade's own counting tables.
 *
 * A one-dimensional example (rolls of one width, pieces of one dimension) is a
 * job whose pieces all have the height of one inch, cut without turning: the
 * number of rolls is the number of one-inch strips.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "mini.h"

static qc_plan *solve(mini_job *job)
{
    qc_plan *plan = NULL;
    const char *wrong;
    qc_error err;
    char text[512];

    qc_error_init(&err);
    if (mini_solve(job, 1, &plan, &err) != QC_STATUS_OK) {
        qc_error_format(&err, NULL, text, sizeof text);
        fail_msg("%s", text);
    }
    wrong = mini_check(job, plan);
    if (wrong)
        fail_msg("%s", wrong);
    return plan;
}

/* The length bought, which must have been proved least. */
static qc_length bought(mini_job *job)
{
    qc_plan *plan;
    qc_length answer;

    job->goals[0] = QC_GOAL_BOUGHT;
    job->goal_count = 1;
    plan = solve(job);
    answer = qc_plan_fabric_at(plan, 0)->bought;
    assert_int_equal(qc_plan_fabric_at(plan, 0)->bound, answer);
    qc_plan_destroy(plan);
    return answer;
}

typedef struct example {
    const char *source;
    int width;
    int sizes[14]; /* size, demand, size, demand ..., 0 */
    int demands[14];
    int rolls;
} example;

/* Data are facts quoted from the source named. */
static const example examples[] = {
    {"V. Chvatal, Linear Programming, 1983, ch. 13",
     100,
     {45, 36, 31, 14},
     {97, 610, 395, 211},
     453},
    {"Wikipedia, Cutting stock problem (paper machine)",
     5600,
     {1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150,
      2200},
     {22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20},
     73},
    /* Optimum: linear bound 46.25 rounded up, and a plan that meets it. */
    {"Fourer, Gay, Kernighan, AMPL, 2nd ed., 2003, cut.dat",
     110,
     {20, 45, 50, 55, 75},
     {48, 35, 24, 10, 8},
     47},
    {"GLPK 5.0, examples/bpp.mod",
     100,
     {50, 60, 30, 70, 40},
     {2, 1, 1, 1, 1},
     3},
    {"libminizinc 2.6.4, cutstock.mzn", 10, {7, 5, 3}, {2, 2, 4}, 4},
};

static void textbook_examples(void **state)
{
    size_t i, k;

    (void)state;
    for (i = 0; i < sizeof examples / sizeof examples[0]; i++) {
        const example *e = &examples[i];
        mini_job job;
        print_message("  %s\n", e->source);
        mini_init(&job);
        job.width = e->width * QC_MM;
        job.print = QC_PRINT_ONE_WAY;
        job.step = QC_INCH;
        job.ruler = QC_MM;
        for (k = 0; e->sizes[k]; k++)
            mini_add(&job, e->sizes[k] * QC_MM, QC_INCH, e->demands[k]);
        assert_int_equal(bought(&job), e->rolls * QC_INCH);
    }
}

/* `fit` squares can be cut from a piece of this length, and no more. */
static void just_fit(qc_length length, qc_length width, qc_length across,
                     qc_length along, qc_print print, int64_t fit)
{
    mini_job job;

    mini_init(&job);
    job.width = width;
    job.print = print;
    job.step = length;
    mini_add(&job, across, along, fit);
    assert_int_equal(bought(&job), length);
    job.pieces[0].count = fit + 1;
    assert_int_equal(bought(&job), 2 * length);
}

/* Squares from a yard at usable widths 40, 42, 44, and from quarters of the
 * shapes 18 x 22, 17 1/2 x 21, 17 1/2 x 20, 17 x 20 in and 50 x 55 cm. Rounding
 * down in both directions; the 18 x 22 column is also widely printed. */
static const struct squares {
    int half_inches; /* side */
    int fit[8];
} squares[] = {
    {4, {360, 378, 396, 99, 80, 80, 80, 90}},
    {5, {224, 224, 238, 56, 56, 56, 48, 56}},
    {6, {156, 168, 168, 42, 35, 30, 30, 42}},
    {7, {110, 120, 120, 30, 30, 25, 20, 30}},
    {8, {90, 90, 99, 20, 20, 20, 20, 20}},
    {9, {64, 72, 72, 16, 12, 12, 12, 16}},
    {10, {56, 56, 56, 12, 12, 12, 12, 12}},
    {11, {42, 42, 48, 12, 9, 9, 9, 9}},
    {12, {36, 42, 42, 9, 6, 6, 6, 9}},
    {13, {30, 30, 30, 6, 6, 6, 6, 9}},
    {16, {20, 20, 20, 4, 4, 4, 4, 4}},
    {18, {16, 16, 16, 4, 2, 2, 2, 4}},
};

static void squares_from_a_length(void **state)
{
    const qc_length half = QC_INCH / 2;
    const qc_length lengths[8] = {72 * half, 72 * half, 72 * half, 36 * half,
                                  35 * half, 35 * half, 34 * half, 50 * QC_CM};
    const qc_length widths[8] = {80 * half, 84 * half, 88 * half, 44 * half,
                                 42 * half, 40 * half, 40 * half, 55 * QC_CM};
    size_t i, k;

    (void)state;
    for (i = 0; i < sizeof squares / sizeof squares[0]; i++)
        for (k = 0; k < 8; k++)
            just_fit(lengths[k], widths[k], squares[i].half_inches * half,
                     squares[i].half_inches * half, QC_PRINT_PLAIN,
                     squares[i].fit[k]);
}

/* Strips across the width from one yard: floor(36 / height). */
static void strips_from_a_yard(void **state)
{
    static const struct strips {
        int half_inches, fit;
    } strips[] = {{3, 24}, {4, 18}, {5, 14}, {6, 12}, {7, 10}, {8, 9},
                  {9, 8},  {10, 7}, {11, 6}, {12, 6}, {13, 5}};
    size_t i;

    (void)state;
    for (i = 0; i < sizeof strips / sizeof strips[0]; i++)
        just_fit(QC_YARD, 42 * QC_INCH, 42 * QC_INCH,
                 strips[i].half_inches * QC_INCH / 2, QC_PRINT_ONE_WAY,
                 strips[i].fit);
}

/* A patch chart prints 108 squares of 3 1/2 and 56 of 5 from the same yard;
 * by arithmetic 108 take 31 1/2 in at a width of 42, and 35 in give 120. */
static void a_printed_chart_put_right(void **state)
{
    mini_job job;

    (void)state;
    mini_init(&job);
    job.step = QC_INCH / 2;
    mini_add(&job, 7 * QC_INCH / 2, 7 * QC_INCH / 2, 108);
    assert_int_equal(bought(&job), 63 * QC_INCH / 2);
    job.pieces[0].count = 120;
    assert_int_equal(bought(&job), 35 * QC_INCH);
}

/* 6 1/2 x 9 1/2 from 18 x 22: one grid gives 4, mixed ways round 5 (arithmetic:
 * a 6 1/2 strip holds two, a 9 1/2 strip three, 16 in in all). */
static void mixed_ways_beat_the_grid(void **state)
{
    const qc_length a = 13 * QC_INCH / 2, b = 19 * QC_INCH / 2;

    (void)state;
    just_fit(18 * QC_INCH, 22 * QC_INCH, a, b, QC_PRINT_PLAIN, 5);
    just_fit(18 * QC_INCH, 22 * QC_INCH, a, b, QC_PRINT_ONE_WAY, 3);
    just_fit(18 * QC_INCH, 22 * QC_INCH, b, a, QC_PRINT_ONE_WAY, 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(textbook_examples),
        cmocka_unit_test(squares_from_a_length),
        cmocka_unit_test(strips_from_a_yard),
        cmocka_unit_test(a_printed_chart_put_right),
        cmocka_unit_test(mixed_ways_beat_the_grid),
    };
    return cmocka_run_group_tests_name("published", tests, NULL, NULL);
}
