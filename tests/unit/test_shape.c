/* Seam allowances: what geometry gives, against what the trade prints, and
 * against an independent way to compute it. The numbers that handbooks add
 * stand in this file only. */
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(roots_are_rounded_up),
        cmocka_unit_test(one_two_or_four),
        cmocka_unit_test(grows_by_the_exact_amount),
        cmocka_unit_test(on_the_ruler_it_is_what_the_trade_adds),
        cmocka_unit_test(blocks_on_point),
        cmocka_unit_test(a_square_in_a_square),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
