/* Shapes, hands and joins that are wrong: which message, at which place. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job_draft.h"

static void set_shape(draft *d, qc_shape shape)
{
    d->pieces[1].shape = shape;
    if (shape == QC_SHAPE_DIAMOND || shape == QC_SHAPE_PARALLELOGRAM)
        d->pieces[1].angle = 45 * QC_DEGREE;
}

static void set_polygon(draft *d, const qc_point *points, size_t count)
{
    d->pieces[1].shape = QC_SHAPE_POLYGON;
    d->pieces[1].points = points;
    d->pieces[1].point_count = count;
}

static void set_hands(draft *d, int64_t left, int64_t right)
{
    set_shape(d, QC_SHAPE_PARALLELOGRAM);
    d->pieces[1].count = 0;
    d->pieces[1].left = left;
    d->pieces[1].right = right;
}

static void test_angle(void **state)
{
    const qc_shape diamond = QC_SHAPE_DIAMOND;

    (void)state;
    REFUSE((set_shape(&d, diamond), d.pieces[1].angle = 0), "pieces[1].angle",
           "makes no corner");
    REFUSE((set_shape(&d, diamond), d.pieces[1].angle = -QC_DEGREE),
           "pieces[1].angle", "makes no corner");
    REFUSE((set_shape(&d, QC_SHAPE_PARALLELOGRAM),
            d.pieces[1].angle = 179 * QC_DEGREE + 1),
           "pieces[1].angle", "makes no corner");
    REFUSE((set_shape(&d, diamond), d.pieces[1].angle = QC_DEGREE - 1),
           "pieces[1].angle", "makes no corner");
    REFUSE((set_shape(&d, diamond), d.pieces[1].angle = INT32_MAX),
           "pieces[1].angle", "makes no corner");
    REFUSE(d.pieces[1].angle = 45 * QC_DEGREE, "pieces[1].angle",
           "is for diamonds and parallelograms");
    REFUSE((set_shape(&d, QC_SHAPE_HEXAGON), d.pieces[1].angle = 1),
           "pieces[1].angle", "is for diamonds and parallelograms");
}

static void test_polygon(void **state)
{
    static const qc_point fine[QC_MAX_CORNERS + 1] = {
        {0, 0}, {4 * QC_INCH, 0}, {0, 3 * QC_INCH}};
    static const qc_point clockwise[] = {
        {0, 0}, {0, 3 * QC_INCH}, {4 * QC_INCH, 0}};
    static const qc_point crossing[] = {
        {0, 0}, {4 * QC_INCH, 3 * QC_INCH}, {4 * QC_INCH, 0}, {0, 3 * QC_INCH}};
    static const qc_point dented[] = {{0, 0},
                                      {4 * QC_INCH, 0},
                                      {4 * QC_INCH, 4 * QC_INCH},
                                      {3 * QC_INCH, QC_INCH}};
    static const qc_point twice[] = {
        {0, 0}, {4 * QC_INCH, 0}, {4 * QC_INCH, 0}, {0, 3 * QC_INCH}};
    static const qc_point straight[] = {
        {0, 0}, {2 * QC_INCH, 0}, {4 * QC_INCH, 0}, {0, 3 * QC_INCH}};
    static const qc_point far[] = {
        {0, 0}, {4 * QC_INCH, 0}, {0, QC_MAX_WIDTH + 1}};

    (void)state;
    REFUSE(set_polygon(&d, NULL, 3), "pieces[1].finished", "is no list");
    REFUSE(set_polygon(&d, fine, 2), "pieces[1].finished", "is no list");
    REFUSE(set_polygon(&d, fine, QC_MAX_CORNERS + 1), "pieces[1].finished",
           "is no list");
    REFUSE((set_polygon(&d, fine, 2), d.pieces[1].is_cut = true),
           "pieces[1].cut", "is no list");
    REFUSE(set_polygon(&d, far, 3), "pieces[1].finished[2]", "too far away");
    REFUSE(set_polygon(&d, clockwise, 3), "pieces[1].finished", "clockwise");
    REFUSE(set_polygon(&d, crossing, 4), "pieces[1].finished", "sides cross");
    REFUSE(set_polygon(&d, dented, 4), "pieces[1].finished[3]",
           "points inwards");
    REFUSE((set_polygon(&d, dented, 4), d.pieces[1].is_cut = true),
           "pieces[1].cut[3]", "points inwards");
    REFUSE(set_polygon(&d, twice, 4), "pieces[1].finished[2]", "is no corner");
    REFUSE(set_polygon(&d, straight, 4), "pieces[1].finished[1]",
           "is no corner");
}

static void test_sizes(void **state)
{
    (void)state;
    /* The short side above must be less than the long one, 2 in. */
    REFUSE((set_shape(&d, QC_SHAPE_TRAPEZOID),
            d.pieces[1].size[1] = 2 * QC_INCH, d.pieces[1].size[2] = QC_INCH),
           "pieces[1].finished[1]", "as long as the long one");
    REFUSE((set_shape(&d, QC_SHAPE_TRAPEZOID), d.pieces[1].size[1] = QC_INCH),
           "pieces[1].finished[2]", "must not be 0");
    REFUSE((set_shape(&d, QC_SHAPE_KITE), d.pieces[1].size[2] = 2 * QC_INCH),
           "pieces[1].finished[2]", "beyond the kite's end");
    REFUSE((set_shape(&d, QC_SHAPE_PARALLELOGRAM), d.pieces[1].size[1] = 0),
           "pieces[1].finished[1]", "must not be 0");
    REFUSE((set_shape(&d, QC_SHAPE_HEXAGON), d.pieces[1].size[0] = 20 * QC_M),
           "pieces[1].finished", "too large to be cut at an angle");
    REFUSE((set_shape(&d, QC_SHAPE_HEXAGON), d.pieces[1].is_cut = true,
            d.pieces[1].size[0] = QC_MM / 4),
           "pieces[1].cut", "too narrow to be cut at an angle");
    REFUSE((set_shape(&d, QC_SHAPE_DIAMOND), d.pieces[1].is_cut = true,
            d.pieces[1].trim = 3 * QC_INCH),
           "pieces[1].trim", "trims the whole piece away");
}

static void test_choices(void **state)
{
    const qc_tips blunt = QC_TIPS_BLUNT;

    (void)state;
    REFUSE(d.pieces[1].tips = blunt, "pieces[1].tips", "are blunted only");
    REFUSE((set_shape(&d, QC_SHAPE_SQUARE), d.pieces[1].tips = blunt),
           "pieces[1].tips", "are blunted only");
    REFUSE((set_shape(&d, QC_SHAPE_STRIP), d.pieces[1].tips = blunt),
           "pieces[1].tips", "are blunted only");
    REFUSE((set_shape(&d, QC_SHAPE_DIAMOND), d.pieces[1].tips = (qc_tips)2),
           "pieces[1].tips", "are no tips");
    REFUSE(d.pieces[1].grain = QC_GRAIN_BASE, "pieces[1].grain",
           "is for shapes that are cut at an angle");
    REFUSE((set_shape(&d, QC_SHAPE_STRIP), d.pieces[1].grain = QC_GRAIN_BASE),
           "pieces[1].grain", "is for shapes that are cut at an angle");
    REFUSE(
        (set_shape(&d, QC_SHAPE_KITE), d.pieces[1].grain = QC_GRAIN_LENGTHWISE),
        "pieces[1].grain", "is for squares, rectangles and strips");
    REFUSE((set_shape(&d, QC_SHAPE_HEXAGON),
            d.pieces[1].grain = QC_GRAIN_CROSSWISE),
           "pieces[1].grain", "is for squares, rectangles and strips");
    REFUSE(
        (set_shape(&d, QC_SHAPE_DIAMOND), d.pieces[1].facing = QC_FACING_KEPT),
        "pieces[1].facing", "is for half- and quarter-square triangles");
}

static void test_hands(void **state)
{
    (void)state;
    REFUSE(set_hands(&d, 0, 0), "pieces[1].count", "no piece of either hand");
    REFUSE(set_hands(&d, -2, 5), "pieces[1].count.left", "is negative");
    REFUSE(set_hands(&d, 5, -2), "pieces[1].count.right", "is negative");
    REFUSE(set_hands(&d, INT64_MIN, INT64_MIN), "pieces[1].count.left",
           "is negative");
    REFUSE(set_hands(&d, INT64_MAX, INT64_MAX), "pieces[1].count.left",
           "is too large");
    REFUSE(set_hands(&d, QC_MAX_COUNT + 1, 5), "pieces[1].count.left",
           "is too large");
    REFUSE((set_hands(&d, 5, QC_MAX_COUNT), d.spec.spare_count = 1),
           "pieces[1].count.right", "with its 1 spares");
    REFUSE((set_hands(&d, 5, 5), d.pieces[1].count = 10), "pieces[1].count",
           "beside the counts of both hands");
    /* Four equal sides: a diamond, its own mirror image. */
    REFUSE((set_hands(&d, 5, 5), d.pieces[1].size[1] = d.pieces[1].size[0]),
           "pieces[1].count", "its own mirror image");
    /* The fault of the shape comes before that of its hands. */
    REFUSE((set_hands(&d, 0, 0), d.pieces[1].is_cut = true,
            d.pieces[1].trim = 3 * QC_INCH),
           "pieces[1].trim", "trims the whole piece away");
}

/* The names that are made of an id are no other piece's. */
static void test_names(void **state)
{
    (void)state;
    REFUSE((set_hands(&d, 5, 5), d.pieces[0].id = "B left"), "pieces[1].id",
           "is also what another piece is called");
    REFUSE((set_hands(&d, 5, 5), d.pieces[2].id = "B right"), "pieces[2].id",
           "is also what another piece is called");
    REFUSE((set_shape(&d, QC_SHAPE_STRIP), d.pieces[1].size[1] = 60 * QC_INCH,
            d.pieces[1].joins = QC_JOINS_STRAIGHT, d.pieces[2].id = "B end"),
           "pieces[2].id", "is also what another piece is called");
}

static void set_joined(draft *d, qc_joins joins, qc_length length)
{
    set_shape(d, QC_SHAPE_STRIP);
    d->pieces[1].joins = joins;
    d->pieces[1].size[1] = length;
}

static void test_strip(void **state)
{
    const qc_length long_one = 60 * QC_INCH;

    (void)state;
    REFUSE(d.pieces[1].joins = QC_JOINS_DIAGONAL, "pieces[1].joins",
           "are for strips");
    REFUSE(set_joined(&d, (qc_joins)3, long_one), "pieces[1].joins",
           "are no joins");
    REFUSE(set_joined(&d, QC_JOINS_NONE, QC_INCH), "pieces[1].finished[0]",
           "wider than long");
    REFUSE((set_joined(&d, QC_JOINS_DIAGONAL, long_one),
            d.pieces[1].grain = QC_GRAIN_LENGTHWISE),
           "pieces[1].grain", "joined strips are cut across the width");
    REFUSE((set_joined(&d, QC_JOINS_DIAGONAL, long_one),
            d.pieces[1].trim = QC_INCH / 8),
           "pieces[1].trim", "is not for strips that are joined");
    REFUSE((set_joined(&d, QC_JOINS_STRAIGHT, QC_LENGTH_MAX - QC_M),
            d.pieces[1].count = QC_MAX_COUNT),
           "pieces[1].count", "needs more than 1000000000 pieces");
    REFUSE((set_joined(&d, QC_JOINS_STRAIGHT, long_one), d.pieces[1].left = 5,
            d.pieces[1].right = 5, d.pieces[1].count = 0),
           "pieces[1].count", "its own mirror image");
}

static void test_strip_impossible(void **state)
{
    draft d;

    (void)state;
    /* A diagonal join takes 40 in, all that the fabric is wide. */
    draft_init(&d, QC_UNITS_IN);
    set_joined(&d, QC_JOINS_DIAGONAL, 90 * QC_INCH);
    d.pieces[1].size[0] = QC_INCH * 79 / 2;
    draft_refuse(&d, QC_STATUS_IMPOSSIBLE, "pieces[1].joins",
                 "take as much as the fabric is wide");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_angle), cmocka_unit_test(test_polygon),
        cmocka_unit_test(test_sizes), cmocka_unit_test(test_choices),
        cmocka_unit_test(test_hands), cmocka_unit_test(test_names),
        cmocka_unit_test(test_strip), cmocka_unit_test(test_strip_impossible),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
