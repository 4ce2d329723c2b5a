/* Charts of blocks: strips and spacings against a handbook's rules, what
 * rounding up adds against exact numbers, and what is refused. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#define MOST 40

typedef struct found {
    qc_chart_row rows[MOST];
    size_t count;
} found;

static void keep(const qc_chart_row *row, void *user)
{
    found *all = user;

    assert_true(all->count < MOST);
    assert_true(strlen(row->piece) > 0 && strlen(row->fabric) > 0);
    all->rows[all->count++] = *row;
}

static qc_status run(const qc_chart_options *options, found *all, qc_error *err)
{
    memset(all, 0, sizeof *all);
    qc_error_init(err);
    return qc_chart(options, keep, all, err);
}

static void chart(const char *block, qc_length from, qc_length to,
                  int64_t count, found *all)
{
    qc_chart_options options;
    qc_error err;

    qc_chart_options_init(&options, QC_UNITS_IN);
    options.block = block;
    options.from = from;
    options.to = to;
    options.count = count;
    assert_int_equal(run(&options, all, &err), QC_STATUS_OK);
}

/* A square patch is cut 1/2 in larger than it is finished, which is common
 * practice, no source; 40 in hold floor(40 / side) of them. */
static void squares_of_a_nine_patch(void **state)
{
    static const qc_length sides[] = {5 * QC_INCH / 2, 23 * QC_INCH / 8};
    found all;

    (void)state;
    chart("nine patch", 6 * QC_INCH, 7 * QC_INCH, 4, &all);
    assert_int_equal(all.count, 4);
    for (size_t i = 0; i < 4; i++) {
        const qc_chart_row *row = &all.rows[i];
        qc_length size = i < 2 ? 6 * QC_INCH : 7 * QC_INCH;
        double exact = (double)size / 3 + (double)QC_INCH / 2;

        assert_int_equal(row->size, size);
        assert_int_equal(row->count, i % 2 ? 16 : 20);
        assert_int_equal(row->strip, sides[i / 2]);
        assert_int_equal(row->across, sides[i / 2]);
        assert_int_equal(row->lean, 0);
        assert_int_equal(row->yields, 1);
        assert_int_equal(row->each_strip, 40 * QC_INCH / sides[i / 2]);
        assert_true(row->first_of_fabric);
        assert_int_equal(row->first_of_size, i % 2 == 0);
        assert_int_equal(row->on_ruler, i < 2);
        assert_true(fabs((double)(row->strip - row->excess_strip) - exact) < 2);
        assert_int_equal(row->excess_strip, row->excess_across);
        assert_true(row->strips * row->each_strip >= row->count);
        assert_true(row->bought >= row->strips * row->strip);
        assert_int_equal(row->outcome, QC_OUTCOME_OPTIMAL);
    }
}

/* The strip of a star's diamonds is as high as they are: side x sin 45 degrees
 * and seams, with the side = finished size / (2 + sqrt 2); geometry, and what
 * tables in handbooks print for 12 in (3 in). */
static void diamonds_of_a_star(void **state)
{
    found all;
    const qc_chart_row *row = &all.rows[0];
    double exact = 12 / (2 + sqrt(2)) * sqrt(0.5) + 0.5;

    (void)state;
    chart("eight-pointed star", 12 * QC_INCH, 12 * QC_INCH, 1, &all);
    assert_int_equal(row->strip, 3 * QC_INCH);
    assert_int_equal(row->across, 3 * QC_INCH);
    assert_int_equal(row->lean, row->strip);
    assert_true(fabs((double)(row->strip - row->excess_strip) / QC_INCH -
                     exact) < 1e-4);
    assert_false(row->on_ruler);
}

/* Of a pinwheel all are half-square triangles: squares of the finished leg and
 * 7/8 in, two from each; common practice, no source. */
static void triangles_of_a_pinwheel(void **state)
{
    found all;

    (void)state;
    chart("pinwheel", 6 * QC_INCH, 6 * QC_INCH, 1, &all);
    assert_int_equal(all.count, 2);
    for (size_t i = 0; i < all.count; i++) {
        assert_int_equal(all.rows[i].strip, 31 * QC_INCH / 8);
        assert_int_equal(all.rows[i].yields, 2);
        assert_int_equal(all.rows[i].each_strip, 20);
    }
}

static void chart_with(qc_chart_options *options, const qc_method_spec *method,
                       found *all)
{
    qc_error err;

    options->methods = method;
    options->method_count = 1;
    options->to = options->from;
    options->count = 10;
    if (run(options, all, &err))
        fail_msg("%s: %s", err.field, err.problem);
}

/* A star of 12 in from strip sets: strips and spacing of 3 in as of its cut
 * diamonds, each strip stepped along by its finished width (geometry; a
 * teacher's page on staggering), and the background's 4 1/16 in, up to 4 1/8.
 * Ten stars take 40 segments of each hand. */
static void strip_sets_of_a_star(void **state)
{
    static const qc_method_spec method = {NULL, QC_METHOD_STRIP_SET,
                                          QC_DEFAULT};
    qc_chart_options options;
    int64_t segments = 0;
    found all;

    (void)state;
    qc_chart_options_init(&options, QC_UNITS_IN);
    options.block = "eight-pointed star";
    options.from = 12 * QC_INCH;
    chart_with(&options, &method, &all);
    for (size_t i = 0; i < all.count; i++) {
        const qc_chart_row *row = &all.rows[i];
        double excess = 4.125 - 12 / (2 + sqrt(2)) - 0.5;
        bool star = row->strip == 3 * QC_INCH;

        if (!row->method)
            continue; /* the triangles */
        assert_string_equal(row->method, "strip set");
        assert_int_equal(row->across, 3 * QC_INCH);
        assert_int_equal(row->strip, star ? 3 * QC_INCH : 33 * QC_INCH / 8);
        assert_int_equal(row->stagger, star ? 0 : 5 * QC_INCH / 2);
        /* 3 + 4 1/8 less a seam's two allowances, at 45 degrees */
        assert_int_equal(row->lean, 53 * QC_INCH / 8);
        assert_int_equal(row->yields, 1);
        assert_true(fabs((double)row->excess_across / QC_INCH - 2.5 +
                         6 * (sqrt(2) - 1)) < 1e-4);
        if (!star)
            assert_true(fabs((double)row->excess_strip / QC_INCH - excess) <
                        1e-4);
        assert_int_equal(row->trim_to, 3 * QC_INCH);
        assert_int_equal(row->trim_to_height, 13 * QC_INCH / 2);
        if (star)
            segments += row->count * row->each_strip;
    }
    assert_int_equal(segments, 80);
}

/* Squares of eight units are told with what they become. */
static void squares_of_units(void **state)
{
    static const qc_method_spec method = {"A+B", QC_METHOD_EIGHT_AT_A_TIME,
                                          QC_INCH / 8};
    qc_chart_options options;
    found all;

    (void)state;
    qc_chart_options_init(&options, QC_UNITS_IN);
    options.block = "pinwheel";
    options.from = 6 * QC_INCH;
    options.seam = 6 * QC_INCH / 16;
    chart_with(&options, &method, &all);
    assert_int_equal(all.count, 2);
    for (size_t i = 0; i < 2; i++) {
        /* 2 (3 + 1/8 + 3/8 (2 + root 2)) is 8.81, up to 8 7/8. */
        assert_int_equal(all.rows[i].strip, 71 * QC_INCH / 8);
        assert_int_equal(all.rows[i].yields, 8);
        assert_int_equal(all.rows[i].count, 5);
        assert_int_equal(all.rows[i].each_strip, 4);
        assert_int_equal(all.rows[i].trim_to, 15 * QC_INCH / 4);
        assert_int_equal(all.rows[i].trim_to_height, 15 * QC_INCH / 4);
    }
}

static const qc_drawn_patch sails[] = {{"sail", "0,0 2,0 1,1", 1, false},
                                       {"sky", "0,0 1,1 0,1", 1, true}};
static const qc_block_drawing regatta = {"regatta", "2", "1", sails, 2};

/* A drawing of the caller's own, with the ruler of the caller's. */
static void a_drawn_block(void **state)
{
    static const qc_method_spec method = {NULL, QC_METHOD_STITCH_AND_FLIP,
                                          QC_DEFAULT};
    qc_chart_options options;
    found all;

    (void)state;
    qc_chart_options_init(&options, QC_UNITS_IN);
    options.drawing = &regatta;
    options.from = 33 * QC_INCH / 8;
    options.ruler = QC_INCH / 4;
    chart_with(&options, &method, &all);
    assert_int_equal(all.count, 2);
    /* 4 1/8 and 2 1/16 and 1/2 are 4 5/8 and 2 9/16, up to quarters. */
    assert_int_equal(all.rows[0].excess_across, QC_INCH / 8);
    assert_int_equal(all.rows[0].trim_to, 19 * QC_INCH / 4);
    assert_int_equal(all.rows[0].trim_to_height, 11 * QC_INCH / 4);
    assert_int_equal(all.rows[1].strip, 11 * QC_INCH / 4);
    assert_int_equal(all.rows[1].count, 20);
}

static void expect_refused(const qc_chart_options *options, qc_status status,
                           const char *field)
{
    found all;
    qc_error err;

    assert_int_equal(run(options, &all, &err), status);
    assert_int_equal(err.code, status);
    assert_string_equal(err.field, field);
    assert_true(strlen(err.problem) > 0);
    assert_int_equal(all.count, 0);
    assert_int_equal(qc_chart(options, keep, &all, NULL), status);
}

static void refusals(void **state)
{
    static const qc_method_spec unfit = {NULL, QC_METHOD_STRIP_SET, QC_DEFAULT};
    qc_chart_options good, bad;

    (void)state;
    qc_chart_options_init(&good, QC_UNITS_CM);
    expect_refused(&good, QC_STATUS_INVALID, "options.block");
    good.block = "pinwheel";
    bad = good;
    bad.drawing = &regatta;
    expect_refused(&bad, QC_STATUS_INVALID, "options.block");
    bad = good;
    bad.methods = &unfit;
    bad.method_count = 1;
    expect_refused(&bad, QC_STATUS_INVALID, "blocks[0].methods[0].method");
    bad = good;
    bad.struct_size = 0;
    expect_refused(&bad, QC_STATUS_INVALID, "options.struct_size");
    bad = good;
    bad.from = 0;
    expect_refused(&bad, QC_STATUS_INVALID, "options.from");
    bad.from = bad.to + 1;
    expect_refused(&bad, QC_STATUS_INVALID, "options.from");
    bad = good;
    bad.step = 0;
    expect_refused(&bad, QC_STATUS_INVALID, "options.step");
    bad.step = (bad.to - bad.from) / QC_MAX_CHARTED;
    expect_refused(&bad, QC_STATUS_INVALID, "options.step");
    bad = good;
    bad.block = "pinwhel";
    expect_refused(&bad, QC_STATUS_INVALID, "block");
    bad = good;
    bad.width = 5 * QC_CM;
    expect_refused(&bad, QC_STATUS_IMPOSSIBLE, "blocks[0].size");
}

/* A raised flag leaves no plan of some size: no row at all. */
static void cancelled(void **state)
{
    qc_cancel *flag = qc_cancel_create();
    qc_chart_options options;
    qc_solve_options solve;
    qc_error err;
    found all;

    (void)state;
    assert_non_null(flag);
    qc_solve_options_init(&solve);
    solve.cancel = flag;
    qc_cancel_raise(flag);
    qc_chart_options_init(&options, QC_UNITS_IN);
    options.block = "pinwheel";
    options.solve = &solve;
    assert_int_equal(run(&options, &all, &err), QC_STATUS_CANCELLED);
    assert_int_equal(err.code, QC_STATUS_CANCELLED);
    assert_int_equal(all.count, 0);
    qc_cancel_destroy(flag);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(squares_of_a_nine_patch),
        cmocka_unit_test(diamonds_of_a_star),
        cmocka_unit_test(triangles_of_a_pinwheel),
        cmocka_unit_test(strip_sets_of_a_star),
        cmocka_unit_test(squares_of_units),
        cmocka_unit_test(a_drawn_block),
        cmocka_unit_test(refusals),
        cmocka_unit_test(cancelled)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
