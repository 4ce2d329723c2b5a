/* A few pieces that may lie many ways, in strips that would hold far more of
 * them: the bound must know how few there are. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#define INCHES(eighths) ((eighths)*QC_INCH / 8)

/* Solves a job of one fabric to proof. */
static void expect_proof(const char *text, qc_length bought)
{
    qc_solve_options options;
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.time_limit_ms = 60000;
    assert_int_equal(qc_job_parse(text, strlen(text), &job, &err),
                     QC_STATUS_OK);
    assert_int_equal(qc_job_solve(job, &options, &plan, &err), QC_STATUS_OK);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->bought, bought);
    assert_int_equal(qc_plan_fabric_at(plan, 0)->bound, bought);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

/* A hexagon is as high on every side, and lies only in strips as high as it:
 * one of 4 1/2 and one of 1 in are needed, and enough. */
static void hexagons_of_two_sizes(void **state)
{
    (void)state;
    expect_proof(
        "{\"quiltcut\": 1, \"units\": \"in\", \"fabrics\": [{\"id\": \"a\","
        " \"width\": \"18 7/8\", \"step\": \"1/8 in\", \"square_up\": 0}],"
        " \"pieces\": [{\"id\": \"A\", \"fabric\": \"a\", \"count\": 1,"
        "  \"shape\": \"hexagon\", \"finished\": \"2 1/4\", \"grain\": "
        "\"any\"},"
        " {\"id\": \"B\", \"fabric\": \"a\", \"count\": 6,"
        "  \"shape\": \"hexagon\", \"cut\": \"1\", \"grain\": \"any\"}]}",
        INCHES(44));
}

/* Squaring up, a strip of kites, 3 3/4 in high at least, and one of diamonds,
 * 3 5/8 in (4 1/4 x 0.7071 + 1/2 = 3.505), leave 9 - 7.875 in for eight
 * rectangles of 4 1/2 x 2 1/2 in: more than 1/4 yd. */
static void kites_diamonds_and_rectangles(void **state)
{
    (void)state;
    expect_proof(
        "{\"quiltcut\": 1, \"units\": \"in\", \"fabrics\": [{\"id\": \"a\","
        " \"width\": \"42\", \"step\": \"1/8 yd\"}], \"pieces\": ["
        " {\"id\": \"K\", \"fabric\": \"a\", \"shape\": \"kite\", \"count\": 6,"
        "  \"finished\": [\"4.5\", \"4\", \"2\"], \"grain\": \"any\"},"
        " {\"id\": \"D\", \"fabric\": \"a\", \"shape\": \"diamond\","
        "  \"angle\": 45, \"finished\": \"4.25\", \"grain\": \"any\","
        "  \"count\": 5}, {\"id\": \"R\", \"fabric\": \"a\","
        "  \"shape\": \"rectangle\", \"finished\": [\"4\", \"2\"],"
        "  \"count\": 8}]}",
        INCHES(108));
}

/* Kites that lie by turns up and down, with cuts between them along the side of
 * one, which meet the corner of the other: five in a strip as high as one. */
static void kites_side_by_side(void **state)
{
    (void)state;
    expect_proof(
        "{\"quiltcut\": 1, \"units\": \"in\", \"fabrics\": [{\"id\": \"a\","
        " \"width\": \"17 1/2\", \"step\": \"1/8 in\", \"square_up\": 0}],"
        " \"pieces\": [{\"id\": \"K\", \"fabric\": \"a\", \"shape\": \"kite\","
        "  \"finished\": [\"4\", \"1\", \"1.5\"], \"count\": 5}]}",
        INCHES(16));
}

/* A job of three triangles that may lie on any side; the first is the longest.
 */
static qc_status make_job(const qc_point *points, qc_length width, qc_job **job)
{
    qc_fabric_spec fabric;
    qc_piece_spec piece;
    qc_job_spec spec;
    qc_error err;

    qc_error_init(&err);
    qc_job_spec_init(&spec, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    qc_piece_spec_init(&piece);
    fabric.id = "a";
    fabric.width = width;
    piece.id = "A";
    piece.fabric = "a";
    piece.shape = QC_SHAPE_POLYGON;
    piece.points = points;
    piece.point_count = 3;
    piece.grain = QC_GRAIN_ANY;
    piece.count = 3;
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.pieces = &piece;
    spec.piece_count = 1;
    return qc_job_create(&spec, job, &err);
}

/* The narrowest fabric that a job takes is one that it can be cut from. */
static void the_narrowest_width_will_do(void **state)
{
    (void)state;
    for (int64_t i = 0; i < 30; i++) {
        qc_point points[] = {
            {0, 0},
            {INCHES(72 + i), INCHES(i % 7)},
            {INCHES(i * 7 % 40), INCHES(21 + i * 5 % 31)},
        };
        qc_length no = QC_INCH / 2, yes = 60 * QC_INCH;
        qc_solve_options options;
        qc_plan *plan = NULL;
        qc_job *job = NULL;

        while (yes - no > 1) {
            qc_length middle = (no + yes) / 2;
            bool taken = !make_job(points, middle, &job);

            qc_job_destroy(job);
            job = NULL;
            *(taken ? &yes : &no) = middle;
        }
        qc_solve_options_init(&options);
        assert_int_equal(make_job(points, yes, &job), QC_STATUS_OK);
        assert_int_equal(qc_job_solve(job, &options, &plan, NULL),
                         QC_STATUS_OK);
        qc_plan_destroy(plan);
        qc_job_destroy(job);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hexagons_of_two_sizes),
        cmocka_unit_test(kites_diamonds_and_rectangles),
        cmocka_unit_test(kites_side_by_side),
        cmocka_unit_test(the_narrowest_width_will_do),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
