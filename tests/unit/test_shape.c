/* Seam allowances: what geometry gives, against what the trade prints, and
 * against an independent way to compute it. The numbers that handbooks add
 * stand in the tests only. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/wide.h"
#include "length/ruler.h"
#include "shape/shape.h"

#define HALF QC_SHAPE_HALF_SQUARE_TRIANGLE
#define QUARTER QC_SHAPE_QUARTER_SQUARE_TRIANGLE
#define SEAM (QC_INCH / 4)
#define POLYGON(corners, count)                                                \
    ((qci_patch){.shape = QC_SHAPE_POLYGON,                                    \
                 .points = (corners),                                          \
                 .point_count = (count)})

/* Eighths of an inch. */
static int64_t eighths(qc_shape shape, qci_surd finished)
{
    qc_length exact = qci_surd_up(qci_shape_cut(shape, finished, SEAM));

    return qci_ruler_up(exact, QC_INCH / 8) / (QC_INCH / 8);
}

/* The least x with x^2 >= 2 r^2, checked by squaring. */
static void assert_root(qc_length x, qc_length r)
{
    assert_true((qci_wide)x * x >= 2 * (qci_wide)r * r);
    assert_true(r == 0 || (qci_wide)(x - 1) * (x - 1) < 2 * (qci_wide)r * r);
}

static void roots_are_rounded_up(void **state)
{
    static const qc_length roots[] = {0,
                                      1,
                                      2,
                                      5,
                                      12,
                                      29,
                                      70,
                                      169,
                                      203200,
                                      50800,
                                      QC_LENGTH_MAX,
                                      4 * QC_LENGTH_MAX};

    (void)state;
    for (size_t i = 0; i < sizeof roots / sizeof *roots; i++) {
        assert_root(qci_surd_up((qci_surd){0, roots[i]}), roots[i]);
        assert_root(qci_surd_up((qci_surd){-77, roots[i]}) + 77, roots[i]);
    }
    /* 7 - 5 x 1.41421 = -0.07, up to 0; 10 - 7.07 = 2.93. */
    assert_int_equal(qci_surd_up((qci_surd){7, -5}), 0);
    assert_int_equal(qci_surd_up((qci_surd){10, -5}), 3);
    assert_int_equal(qci_surd_up((qci_surd){7, 0}), 7);
}

static void one_two_or_four(void **state)
{
    (void)state;
    assert_int_equal(qci_shape_yields(QC_SHAPE_SQUARE), 1);
    assert_int_equal(qci_shape_yields(QC_SHAPE_RECTANGLE), 1);
    assert_int_equal(qci_shape_yields(HALF), 2);
    assert_int_equal(qci_shape_yields(QUARTER), 4);
    assert_int_equal(qci_shape_yields(QC_SHAPE_HEXAGON), 1);
    for (int shape = QC_SHAPE_SQUARE; shape <= QC_SHAPE_STRIP; shape++)
        assert_int_equal(qci_shape_is_angled((qc_shape)shape),
                         shape >= HALF && shape <= QC_SHAPE_POLYGON);
}

/* Similar triangles (derived by hand): the leg grows by s (2 + sqrt2), the long
 * side by s (2 + 2 sqrt2); a square by 2 s. */
static void grows_by_the_exact_amount(void **state)
{
    static const qc_length seams[] = {0, 1, 3175, 50800, 48000, QC_INCH};

    (void)state;
    for (size_t i = 0; i < sizeof seams / sizeof *seams; i++) {
        const qc_length s = seams[i];

        for (qc_length f = 0; f <= 3 * QC_INCH; f += 77777) {
            assert_int_equal(qci_shape_cut_up(QC_SHAPE_SQUARE, f, s),
                             f + 2 * s);
            assert_int_equal(qci_shape_cut_up(QC_SHAPE_RECTANGLE, f, s),
                             f + 2 * s);
            assert_root(qci_shape_cut_up(HALF, f, s) - f - 2 * s, s);
            assert_root(qci_shape_cut_up(QUARTER, f, s) - f - 2 * s, 2 * s);
        }
    }
    /* In inches at 1/4: f + 0.853553 and f + 1.207107 (1.4142136 from memory),
     * 203 200 units to the inch. */
    assert_int_equal(qci_shape_cut_up(HALF, 0, SEAM), 173442 + 1);
    assert_int_equal(qci_shape_cut_up(QUARTER, 0, SEAM), 245284 + 1);
}

/* Quilters' handbooks and hand-outs add 7/8 and 1 1/4 (for one,
 * North Hampshire Quilters, block of the month hand-out 402b); at a 1/4 in seam
 * that is the exact size rounded up to 1/8. */
static void on_the_ruler_it_is_what_the_trade_adds(void **state)
{
    (void)state;
    for (int64_t f = 1; f <= 24 * 8; f++) {
        qci_surd finished = {f * QC_INCH / 8, 0};

        assert_int_equal(eighths(QC_SHAPE_SQUARE, finished), f + 4);
        assert_int_equal(eighths(HALF, finished), f + 7);
        assert_int_equal(eighths(QUARTER, finished), f + 10);
    }
}

/* Setting triangles of blocks on point: at the sides quarter-square ones, whose
 * long side is the block's diagonal f sqrt2; in the corners half-square ones,
 * whose leg is half of that. The rule of guilds' pages of tips (Dalmeny
 * Quilters) is f sqrt2 + 1 1/4 and f / sqrt2 + 7/8, up to 1/8; a table in print
 * (lukas.is-a-geek.org/tani/chart) has the same for 5 to 15, and 23 7/8 for 16,
 * where the rule says 24. The rule rounds the seams before the sum, and so is
 * at times 1/8 above the exact size rounded up once; how much is computed apart
 * from this library, in decimals. */
static void blocks_on_point(void **state)
{
    static const struct row {
        int f;                      /* inches */
        int side, corner;           /* eighths, by the rule */
        int side_less, corner_less; /* eighths that the exact size is less */
    } rows[] = {
        {4, 56, 30, 1, 0},    {5, 67, 36, 0, 0},   {6, 78, 41, 0, 0},
        {7, 90, 47, 1, 0},    {8, 101, 53, 0, 0},  {9, 112, 58, 0, 0},
        {10, 124, 64, 1, 0},  {12, 146, 75, 0, 0}, {14, 169, 87, 0, 0},
        {15, 180, 92, 0, 0},  {16, 192, 98, 1, 0}, {18, 214, 109, 0, 0},
        {20, 237, 121, 1, 1},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct row *r = &rows[i];

        assert_int_equal(eighths(QUARTER, (qci_surd){0, r->f * QC_INCH}),
                         r->side - r->side_less);
        assert_int_equal(eighths(HALF, (qci_surd){0, r->f * QC_INCH / 2}),
                         r->corner - r->corner_less);
    }
    /* 23 7/8 and 29 1/2, where the rule says 24 and 29 5/8. */
    assert_int_equal(eighths(QUARTER, (qci_surd){0, 16 * QC_INCH}), 191);
    assert_int_equal(eighths(QUARTER, (qci_surd){0, 20 * QC_INCH}), 236);
}

/* A square set on point inside a square that finishes at F has a side of
 * F / sqrt2: plain squares take the same numbers (geometry). F = 8: 5.6569 and
 * two seams, 6.1569 inches. */
static void a_square_in_a_square(void **state)
{
    qc_length cut;

    (void)state;
    cut = qci_surd_up(
        qci_shape_cut(QC_SHAPE_SQUARE, (qci_surd){0, 4 * QC_INCH}, SEAM));
    assert_root(cut - 2 * SEAM, 4 * QC_INCH);
    assert_in_range(cut, QC_INCH * 61568 / 10000, QC_INCH * 61570 / 10000);
}

static qci_cut_shape cut;
static size_t at;

static qci_patch_fault make(qci_patch patch)
{
    at = 77;
    if (!patch.ruler)
        patch.ruler = QC_INCH / 8;
    return qci_shape_make(&patch, &cut, &at);
}

static qci_patch_fault make_polygon(const qc_point *points, size_t count)
{
    return make((qci_patch){.shape = QC_SHAPE_POLYGON,
                            .points = points,
                            .point_count = count,
                            .seam = SEAM});
}

/* Cotangents and sines of these angles are known without a table. */
static void leans_and_pitches(void **state)
{
    static const qc_length heights[] = {2, 609600, 533400, QC_LENGTH_MAX / 2};

    (void)state;
    for (size_t i = 0; i < sizeof heights / sizeof *heights; i++) {
        qc_length h = heights[i] / 2 * 2;

        assert_int_equal(qci_lean_of(h, 90 * QC_DEGREE), 0);
        assert_int_equal(qci_lean_of(h, 45 * QC_DEGREE), h);
        assert_int_equal(qci_lean_of(h, 135 * QC_DEGREE), -h);
        assert_int_equal(qci_pitch_of(h, 90 * QC_DEGREE), h);
        assert_int_equal(qci_pitch_of(h, 30 * QC_DEGREE), 2 * h);
        assert_int_equal(qci_pitch_of(h, 150 * QC_DEGREE), 2 * h);
    }
    /* An odd one goes up to the next even one. */
    assert_int_equal(qci_lean_of(3175, 45 * QC_DEGREE), 3176);
    assert_int_equal(qci_lean_of(3175, 135 * QC_DEGREE), -3176);
    assert_int_equal(qci_pitch_of(3175, 90 * QC_DEGREE), 3176);
    /* 1000 / 1.7320508 = 577.35; 1000 x 1.4142136 = 1414.2, and 2 more. */
    assert_int_equal(qci_lean_of(1000, 60 * QC_DEGREE), 578);
    assert_int_equal(qci_lean_of(1000, 120 * QC_DEGREE), -578);
    assert_int_equal(qci_pitch_of(1000, 45 * QC_DEGREE), 1418);
    assert_int_equal(qci_pitch_of(1000, 60 * QC_DEGREE), 1158);
}

static void faults_of_polygons(void **state)
{
    static const qc_point twice[] = {
        {0, 0}, {90000, 0}, {90000, 0}, {0, 90000}};
    static const qc_point flat[] = {{0, 0}, {50000, 0}, {90000, 0}, {0, 90000}};
    static const qc_point bow[] = {
        {0, 0}, {90000, 90000}, {90000, 0}, {0, 80000}};
    static const qc_point star[] = {{0, 90000},
                                    {-53000, -73000},
                                    {86000, 28000},
                                    {-86000, 28000},
                                    {53000, -73000}};
    static const qc_point touching[] = {{0, 0},         {90000, 0},
                                        {45000, 45000}, {90000, 90000},
                                        {0, 90000},     {46000, 45000}};
    static const qc_point clockwise[] = {{0, 0}, {0, 90000}, {90000, 0}};
    static const qc_point dented[] = {
        {0, 0}, {90000, 0}, {90000, 90000}, {45000, 20000}, {0, 90000}};
    static const qc_point far[] = {{0, 0}, {900000000, 0}, {0, 90000}};
    static const qc_point thin[] = {{0, 0}, {9000, 0}, {0, 900000}};
    static const qc_point narrow[] = {{0, 0}, {15800, 0}, {0, 900000}};
    static const qc_point nearly_flat[] = {
        {0, 0}, {40000000, 0}, {80000000, 1}, {0, 40000000}};

    (void)state;
    assert_int_equal(make_polygon(twice, 4), QCI_PATCH_DEGENERATE);
    assert_int_equal(at, 2);
    assert_int_equal(make_polygon(flat, 4), QCI_PATCH_DEGENERATE);
    assert_int_equal(at, 1);
    assert_int_equal(make_polygon(bow, 4), QCI_PATCH_CROSSING);
    assert_int_equal(make_polygon(star, 5), QCI_PATCH_CROSSING);
    assert_int_equal(make_polygon(touching, 5), QCI_PATCH_NOT_CONVEX);
    assert_int_equal(at, 2);
    assert_int_equal(make_polygon(touching, 6), QCI_PATCH_CROSSING);
    assert_int_equal(make_polygon(clockwise, 3), QCI_PATCH_CLOCKWISE);
    assert_int_equal(make_polygon(dented, 5), QCI_PATCH_NOT_CONVEX);
    assert_int_equal(at, 3);
    assert_int_equal(make_polygon(far, 3), QCI_PATCH_TOO_LARGE);
    assert_int_equal(at, 0);
    assert_int_equal(make_polygon(nearly_flat, 4), QCI_PATCH_DEGENERATE);
    assert_int_equal(at, 1);
    assert_int_equal(make((qci_patch){.shape = QC_SHAPE_POLYGON,
                                      .is_cut = true,
                                      .points = thin,
                                      .point_count = 3}),
                     QCI_PATCH_TOO_SHARP); /* 0.57 of a degree */
    assert_int_equal(at, 2);
    assert_int_equal(make((qci_patch){.shape = QC_SHAPE_POLYGON,
                                      .is_cut = true,
                                      .points = narrow,
                                      .point_count = 3}),
                     QCI_PATCH_TOO_NARROW); /* 1.006 degrees */
}

static void faults_of_sizes(void **state)
{
    qci_patch patch = {.shape = QC_SHAPE_TRAPEZOID,
                       .size = {300000, 300000, 200000},
                       .seam = SEAM};

    (void)state;
    assert_int_equal(make(patch), QCI_PATCH_SIZES);
    assert_int_equal(at, 1);
    patch.size[1]--;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(at, 0);
    patch.shape = QC_SHAPE_KITE;
    patch.size[2] = 300000;
    assert_int_equal(make(patch), QCI_PATCH_SIZES);
    assert_int_equal(at, 2);
    patch.size[2] = 200000;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    patch.shape = QC_SHAPE_DIAMOND;
    patch.angle = 45 * QC_DEGREE;
    patch.size[0] = QC_MAX_WIDTH;
    assert_int_equal(make(patch), QCI_PATCH_TOO_LARGE);
    /* A strip of half a millimetre gives no diamond; nor does one of any height
     * whose cuts run a kilometre along it. */
    patch.is_cut = true;
    patch.size[0] = 2000;
    assert_int_equal(make(patch), QCI_PATCH_TOO_NARROW);
    patch.size[0] = QC_INCH;
    patch.angle = 100;
    assert_int_equal(make(patch), QCI_PATCH_TOO_LARGE);
    patch.angle = 1;
    assert_true(make(patch) != QCI_PATCH_FINE);
    patch.angle = 180 * QC_DEGREE - 1;
    assert_true(make(patch) != QCI_PATCH_FINE);
}

/* A trim makes every dimension larger by itself; trimmed back, the seams are
 * left (arithmetic). */
static void trims(void **state)
{
    qci_patch patch = {.shape = QC_SHAPE_DIAMOND,
                       .angle = 30 * QC_DEGREE,
                       .size = {4 * QC_INCH},
                       .seam = SEAM,
                       .trim = QC_INCH / 4};

    (void)state;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.cut[0], QC_INCH * 11 / 4);
    assert_int_equal(cut.cut[1], QC_INCH * 11 / 4);
    assert_int_equal(cut.trim_to[0], QC_INCH * 5 / 2);
    assert_int_equal(cut.trim_to[1], QC_INCH * 5 / 2);
    assert_false(cut.rounded);
    patch.is_cut = true;
    patch.size[0] = QC_INCH * 11 / 4;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.trim_to[1], QC_INCH * 5 / 2);
    /* Finished: a strip of 2, a side of 4. */
    assert_in_range(cut.finished_area, 8 * QC_INCH * QC_INCH - 10,
                    8 * QC_INCH * QC_INCH + 10);
    patch.trim = QC_INCH * 11 / 4;
    assert_int_equal(make(patch), QCI_PATCH_TRIM);
    patch.trim = 0;
    patch.blunt = true;
    patch.seam = QC_INCH * 3 / 2;
    assert_int_equal(make(patch), QCI_PATCH_TRIM);
    patch.blunt = false;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.finished_area, 0);
    patch = (qci_patch){.shape = QC_SHAPE_RECTANGLE,
                        .size = {QC_INCH, 2 * QC_INCH},
                        .seam = SEAM,
                        .trim = QC_INCH / 8};
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.cut[1], QC_INCH * 21 / 8);
    assert_int_equal(cut.trim_to[1], QC_INCH * 5 / 2);
    patch.is_cut = true;
    patch.trim = QC_INCH;
    assert_int_equal(make(patch), QCI_PATCH_TRIM);
    assert_int_equal(cut.outline_count, 0);
}

static void squares_and_their_triangles(void **state)
{
    qci_patch patch = {.shape = HALF, .size = {3 * QC_INCH}, .seam = SEAM};

    (void)state;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.cut[0], QC_INCH * 31 / 8);
    assert_true(cut.rounded);
    assert_int_equal(cut.finished_area, 9 * QC_INCH * QC_INCH / 2);
    assert_int_equal(cut.outline_count, 3);
    assert_int_equal(cut.base_count, 1);
    assert_int_equal(cut.outline[1].x, QC_INCH * 31 / 8);
    assert_int_equal(cut.outline[2].x, 0);
    assert_int_equal(cut.outline[2].y, QC_INCH * 31 / 8);
    /* A square of 4 3/8 has quarters 2 3/16 high: not on a ruler with eighths.
     * Where squares will not do, the next mark serves. */
    patch.shape = QUARTER;
    patch.size[0] = QC_INCH * 25 / 8;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.cut[0], QC_INCH * 35 / 8);
    assert_int_equal(cut.outline_count, 0);
    patch.singly = true;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.cut[0], QC_INCH * 35 / 8);
    assert_int_equal(cut.outline[2].y, QC_INCH * 9 / 4);
    assert_int_equal(cut.outline[1].x, QC_INCH * 9 / 2);
    /* Corners lie on even points. */
    patch = (qci_patch){.shape = HALF, .is_cut = true, .size = {203201}};
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.outline_count, 0);
    patch.singly = true;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.outline[1].x, 203202);
    /* Too small, too large: from squares only. */
    patch.size[0] = 15000;
    assert_int_equal(make(patch), QCI_PATCH_TOO_NARROW);
    patch.size[0] = QC_LENGTH_MAX;
    assert_int_equal(make(patch), QCI_PATCH_TOO_LARGE);
    patch.singly = false;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.outline_count, 0);
    assert_int_equal(make((qci_patch){.shape = QC_SHAPE_STRIP,
                                      .size = {QC_INCH, QC_INCH * 81 / 16},
                                      .seam = 3175}),
                     QCI_PATCH_FINE);
    assert_int_equal(cut.cut[0], QC_INCH * 9 / 8);
    assert_int_equal(cut.cut[1], QC_INCH * 81 / 16 + 6350);
}

/* Where a 45-degree tip is cut off: one seam beyond the finished point, where
 * the two seam lines cross 0.6533 from the tip (1/4 / sine of 22 1/2 degrees,
 * by hand), so 0.4033 is lost of the diagonal at each end. */
static void blunt_tips(void **state)
{
    qci_patch patch = {.shape = QC_SHAPE_DIAMOND,
                       .is_cut = true,
                       .angle = 45 * QC_DEGREE,
                       .size = {3 * QC_INCH},
                       .seam = SEAM,
                       .blunt = true};
    qci_footprint list[QCI_FOOTPRINT_MAX];
    qc_point low, high;
    qci_wide dx, dy, expected;

    (void)state;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.outline_count, 6);
    /* The middles of both blunt sides, doubled: 7.8394 - 0.8066 apart, 7.0328.
     */
    low = (qc_point){cut.outline[0].x + cut.outline[5].x,
                     cut.outline[0].y + cut.outline[5].y};
    high = (qc_point){cut.outline[2].x + cut.outline[3].x,
                      cut.outline[2].y + cut.outline[3].y};
    dx = high.x - low.x;
    dy = high.y - low.y;
    expected = 2 * (qci_wide)(70328 * QC_INCH / 10000);
    assert_true(dx * dx + dy * dy < (expected + 60) * (expected + 60));
    assert_true(dx * dx + dy * dy > (expected - 60) * (expected - 60));
    assert_true(qci_shape_footprints(cut.outline, 6, cut.cut[1], list) > 1);
    assert_int_equal(list[0].corners, 2);
    assert_int_equal(list[0].left, 3 * QC_INCH);
    assert_int_equal(list[0].right, 3 * QC_INCH);
    /* Right angles are left alone, and so are tips without a seam. */
    patch.angle = 90 * QC_DEGREE;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.outline_count, 4);
    patch.angle = 45 * QC_DEGREE;
    patch.seam = 0;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.outline_count, 4);
}

/* A hexagon leans whichever way fits: it is as wide at half its height between
 * any of its sides, and two of six corners at least go. */
static void footprints_of_a_hexagon(void **state)
{
    qci_footprint list[QCI_FOOTPRINT_MAX];
    qci_patch patch = {
        .shape = QC_SHAPE_HEXAGON, .is_cut = true, .size = {4 * QC_INCH}};
    qc_length lean;

    (void)state;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    lean = cut.outline[1].x;
    assert_int_equal(qci_shape_footprints(cut.outline, 6, 4 * QC_INCH, list),
                     9);
    for (int i = 0; i < 9; i++) {
        int square = !list[i].left + !list[i].right;

        assert_int_equal(list[i].width, 2 * lean);
        assert_true(list[i].left == 0 || list[i].left == lean ||
                    list[i].left == -lean);
        assert_int_equal(list[i].corners, 2 + square);
    }
    patch.any_base = true;
    assert_int_equal(make(patch), QCI_PATCH_FINE);
    assert_int_equal(cut.base_count, 6);
    for (int i = 6; i < 36; i++) {
        assert_int_equal(cut.outline[i].x, cut.outline[i % 6].x);
        assert_int_equal(cut.outline[i].y, cut.outline[i % 6].y);
    }
}

static void mirror_images(void **state)
{
    static const qc_point right[] = {{0, 0}, {40000, 0}, {0, 30000}};
    static const qc_point equal[] = {{0, 0}, {30000, 0}, {0, 30000}};
    static const qc_point leaning[] = {
        {0, 0}, {50000, 0}, {80000, 40000}, {30000, 40000}};
    static const qc_point oblong[] = {
        {0, 0}, {50001, 0}, {80000, 40000}, {30000, 40000}};
    static const qc_point turned[] = {{7, 3}, {1, 7}, {-3, 1}, {3, -3}};
    static const qc_point house[] = {{0, 0}, {4, 0}, {4, 3}, {2, 5}, {0, 3}};
    static const qc_point skew[] = {{0, 0}, {4, 0}, {4, 3}, {1, 5}, {0, 3}};

    (void)state;
    assert_false(qci_shape_is_symmetric(&POLYGON(right, 3)));
    assert_true(qci_shape_is_symmetric(&POLYGON(equal, 3)));
    assert_true(qci_shape_is_symmetric(&POLYGON(leaning, 4)));
    assert_false(qci_shape_is_symmetric(&POLYGON(oblong, 4)));
    assert_true(qci_shape_is_symmetric(&POLYGON(turned, 4)));
    assert_true(qci_shape_is_symmetric(&POLYGON(house, 5)));
    assert_false(qci_shape_is_symmetric(&POLYGON(skew, 5)));
    assert_true(qci_shape_stands_even(&POLYGON(house, 5)));
    assert_false(qci_shape_stands_even(&POLYGON(equal, 3)));
    assert_false(qci_shape_stands_even(&POLYGON(leaning, 4)));
    assert_false(qci_shape_stands_even(&POLYGON(skew, 5)));
    assert_true(qci_shape_is_symmetric(
        &(qci_patch){.shape = QC_SHAPE_DIAMOND, .angle = 1}));
    assert_false(qci_shape_is_symmetric(&(qci_patch){
        .shape = QC_SHAPE_PARALLELOGRAM, .size = {1, 2}, .angle = 45}));
    assert_true(qci_shape_is_symmetric(&(qci_patch){
        .shape = QC_SHAPE_PARALLELOGRAM, .size = {2, 2}, .angle = 45}));
    assert_true(
        qci_shape_is_symmetric(&(qci_patch){.shape = QC_SHAPE_PARALLELOGRAM,
                                            .size = {1, 2},
                                            .angle = 90 * QC_DEGREE}));
    assert_false(qci_shape_is_symmetric(&(qci_patch){
        .shape = QC_SHAPE_POLYGON, .points = right, .point_count = 3}));
}

static void assert_points(const qc_point *points, const qc_point *expected)
{
    for (int i = 0; i < 3; i++) {
        assert_int_equal(points[i].x, expected[i].x);
        assert_int_equal(points[i].y, expected[i].y);
    }
}

/* Drawn on paper. */
static void lies_as_it_is_turned(void **state)
{
    static const qc_point form[] = {{0, 0}, {6, 0}, {2, 4}};
    static const struct {
        qc_turn turn;
        bool mirrored;
        qc_point lying[3];
    } rows[] = {
        {QC_TURN_NONE, 0, {{0, 0}, {6, 0}, {2, 4}}},
        {QC_TURN_QUARTER, 0, {{0, 0}, {0, 6}, {-4, 2}}},
        {QC_TURN_HALF, 0, {{0, 4}, {-6, 4}, {-2, 0}}},
        {QC_TURN_THREE_QUARTERS, 0, {{0, 6}, {0, 0}, {4, 4}}},
        {QC_TURN_NONE, 1, {{-6, 0}, {0, 0}, {-2, 4}}},
        {QC_TURN_HALF, 1, {{6, 4}, {0, 4}, {2, 0}}},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        qc_point lying[3] = {form[0], form[1], form[2]};

        qci_outline_lay(lying, 3, rows[i].turn, rows[i].mirrored, lying);
        assert_points(lying, rows[i].lying);
    }
}

static void shapes_have_names(void **state)
{
    (void)state;
    assert_string_equal(qc_shape_name(QC_SHAPE_SQUARE), "square");
    assert_string_equal(qc_shape_name(QC_SHAPE_STRIP), "strip");
    assert_null(qc_shape_name((qc_shape)QCI_SHAPES));
    assert_null(qc_shape_name((qc_shape)-1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shapes_have_names),
        cmocka_unit_test(roots_are_rounded_up),
        cmocka_unit_test(one_two_or_four),
        cmocka_unit_test(grows_by_the_exact_amount),
        cmocka_unit_test(on_the_ruler_it_is_what_the_trade_adds),
        cmocka_unit_test(blocks_on_point),
        cmocka_unit_test(a_square_in_a_square),
        cmocka_unit_test(leans_and_pitches),
        cmocka_unit_test(faults_of_polygons),
        cmocka_unit_test(faults_of_sizes),
        cmocka_unit_test(trims),
        cmocka_unit_test(squares_and_their_triangles),
        cmocka_unit_test(blunt_tips),
        cmocka_unit_test(footprints_of_a_hexagon),
        cmocka_unit_test(mirror_images),
        cmocka_unit_test(lies_as_it_is_turned),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
