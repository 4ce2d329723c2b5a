/* Triangles: sizes and numbers of squares that guilds and teachers print, all
 * the way from a job in JSON to its plan. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

/* The plan of one piece on 42 in of plain cloth. */
static qc_plan *plan_of(const char *shape, const char *finished, int count)
{
    char text[512];
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_error err;
    int size = snprintf(
        text, sizeof text,
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"width\": \"42\"}], "
        "\"pieces\": [{\"id\": \"p\", \"fabric\": \"f\", \"shape\": \"%s\", "
        "\"finished\": \"%s\", \"count\": %d}]}",
        shape, finished, count);

    qc_error_init(&err);
    if (qc_job_parse(text, (size_t)size, &job, &err) ||
        qc_job_solve(job, NULL, &plan, &err))
        fail_msg("%s: %s", err.field, err.problem);
    qc_job_destroy(job);
    return plan;
}

/* How many triangles are cut, from squares or singly: of every strip, section
 * and stack. */
static int64_t triangles_in(const qc_plan *plan)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);
    int64_t count = 0;

    for (size_t i = 0; i < f->strip_count; i++) {
        const qc_strip *strip = qc_plan_strip_at(plan, 0, i);

        for (size_t j = 0; j < strip->subcut_count; j++)
            for (size_t k = 0; k < strip->subcuts[j].stack_count; k++)
                count += (int64_t)strip->repeat * strip->subcuts[j].count *
                         strip->subcuts[j].stacks[k].count *
                         strip->subcuts[j].stacks[k].yields;
    }
    return count;
}

#define HALF "half-square triangle"
#define QUARTER "quarter-square triangle"

/* `count` triangles come from `squares` squares of `eighths` / 8 in. */
static void check(const char *shape, const char *finished, int count,
                  int64_t eighths, int64_t squares)
{
    qc_plan *plan = plan_of(shape, finished, count);
    int64_t yield = strcmp(shape, HALF) ? 4 : 2;

    assert_int_equal(qc_plan_piece_at(plan, 0)->cut[0], eighths * QC_INCH / 8);
    assert_int_equal(qc_plan_piece_at(plan, 0)->cut[1], eighths * QC_INCH / 8);
    /* So many squares are enough; singly from strips there may be fewer. */
    assert_true(triangles_in(plan) >= count);
    assert_true(triangles_in(plan) <= squares * yield);
    qc_plan_destroy(plan);
}

/* Setting triangles of blocks on point: squares cut twice for the sides, once
 * for the corners. Sizes from a printed table that rounds up to 1/8
 * (lukas.is-a-geek.org/tani/chart; the guild's page of Dalmeny Quilters gives
 * the same rule), at the sizes at which it does not round up twice. A quilt of
 * 4 x 4 blocks has 12 side triangles, from 3 squares, and 4 corners, from 2
 * (counting). The finished sizes are block x 1.41421356 and half of that. */
static void blocks_on_point(void **state)
{
    static const struct row {
        const char *side, *corner;
        int64_t side_square, corner_square;
    } rows[] = {
        {"7.0710679", "3.5355340", 67, 36},    /* 5: 8 3/8, 4 1/2 */
        {"8.4852814", "4.2426407", 78, 41},    /* 6: 9 3/4, 5 1/8 */
        {"11.3137085", "5.6568543", 101, 53},  /* 8: 12 5/8, 6 5/8 */
        {"12.7279221", "6.3639611", 112, 58},  /* 9: 14, 7 1/4 */
        {"16.9705628", "8.4852814", 146, 75},  /* 12: 18 1/4, 9 3/8 */
        {"21.2132035", "10.6066018", 180, 92}, /* 15: 22 1/2, 11 1/2 */
        {"22.6274170", "11.3137085", 191, 98}, /* 16: 23 7/8, 12 1/4 */
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        check(QUARTER, rows[i].side, 12, rows[i].side_square, 3);
        check(HALF, rows[i].corner, 4, rows[i].corner_square, 2);
    }
}

/* Four units of a large triangle and two small ones, twice as wide as high,
 * come from 1 large square (width + 1 1/4) and 4 small ones (height + 7/8):
 * teaching pages (members.shaw.ca/beverlysquiltingpage,
 * alinequilts.blogspot.com). Here 6 x 3 in. */
static void one_large_and_four_small_squares(void **state)
{
    (void)state;
    check(QUARTER, "6", 4, 58, 1);
    check(HALF, "3", 8, 31, 4);
}

/* A square gives two, so an odd number leaves
 * one over (arithmetic). */
static void one_more_than_asked_for(void **state)
{
    qc_plan *plan = plan_of(HALF, "3", 7);

    (void)state;
    assert_int_equal(qc_plan_piece_at(plan, 0)->count, 8);
    assert_int_equal(qc_plan_piece_at(plan, 0)->extra, 1);
    qc_plan_destroy(plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_on_point),
        cmocka_unit_test(one_large_and_four_small_squares),
        cmocka_unit_test(one_more_than_asked_for),
    };

    return cmocka_run_group_tests_name("published_triangles", tests, NULL,
                                       NULL);
}
