/* Units of blocks: which there are, what they offer, and their hands. Counted
 * in the drawings by hand. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))
#define BIT(method) (1u << (method))
#define PAIR (BIT(QC_METHOD_TWO_AT_A_TIME) | BIT(QC_METHOD_EIGHT_AT_A_TIME))
#define GOOSE (BIT(QC_METHOD_FOUR_AT_A_TIME) | BIT(QC_METHOD_STITCH_AND_FLIP))
#define FLIP BIT(QC_METHOD_STITCH_AND_FLIP)
#define ROW BIT(QC_METHOD_STRIP_SET)
#define HALVES BIT(QC_METHOD_HALF_SQUARE_TRIANGLES)

static const struct {
    const char *block, *unit;
    uint32_t methods;
    int64_t count, left, right;
} known[] = {
    {"four patch", "A+B", ROW, 2, 0, 0},
    {"nine patch", "A+B+A", ROW, 2, 0, 0},
    {"nine patch", "B+A+B", ROW, 1, 0, 0},
    {"rail fence", "A+B+C", ROW, 4, 0, 0},
    {"log cabin", "A+B", ROW, 1, 0, 0},
    {"courthouse steps", "B+A+B", ROW, 1, 0, 0},
    {"hourglass", NULL, 0, 0, 0, 0},
    {"pinwheel", "A+B", PAIR, 4, 0, 0},
    {"broken dishes", "A+B", PAIR, 4, 0, 0},
    {"square in a square", "A+4B", FLIP, 1, 0, 0},
    {"economy patch", NULL, 0, 0, 0, 0},
    {"flying geese", "A+2B", GOOSE, 1, 0, 0},
    {"dutchman's puzzle", "A+2B", GOOSE, 8, 0, 0},
    {"sawtooth star", "D+2A", GOOSE, 4, 0, 0},
    {"ohio star", NULL, 0, 0, 0, 0},
    {"friendship star", "A+C", PAIR, 4, 0, 0},
    {"shoofly", "A+C", PAIR, 4, 0, 0},
    {"shoofly", "D+B+D", ROW, 1, 0, 0},
    {"churn dash", "A+C", PAIR, 4, 0, 0},
    {"churn dash", "D+B+E+B+D", ROW, 1, 0, 0},
    {"churn dash", "B+D", ROW, 2, 0, 0},
    {"bear's paw", "B+F", PAIR, 16, 0, 0},
    {"bear's paw", "C+D+C", ROW, 1, 0, 0},
    {"birds in the air", "B+C", PAIR, 3, 0, 0},
    {"bow tie", "C+B", FLIP, 2, 0, 0},
    {"snowball", "A+4B", FLIP, 1, 0, 0},
    {"spool", NULL, 0, 0, 0, 0},
    {"kaleidoscope", NULL, 0, 0, 0, 0},
    {"eight-pointed star", "B", HALVES, 4, 0, 0},
    {"eight-pointed star", "A+1/2B", ROW, 8, 4, 4},
    {"eight-pointed star", "C", HALVES, 4, 0, 0},
    {"lone star", "A+B+C", ROW, 8, 0, 8},
    {"lone star", "B+C+D", ROW, 8, 0, 8},
    {"lone star", "C+D+E", ROW, 8, 0, 8},
    {"six-pointed star", NULL, 0, 0, 0, 0},
};

static qc_block *block_of(const char *name, qc_length size)
{
    qc_block *block = NULL;
    qc_error err;

    qc_error_init(&err);
    assert_int_equal(qc_block_find(name, size, &block, &err), QC_STATUS_OK);
    return block;
}

static void units_of_known_blocks(void **state)
{
    size_t listed = 0;

    (void)state;
    for (size_t i = 0; i < COUNT(known); i++) {
        qc_block *block = block_of(known[i].block, 12 * QC_INCH);
        size_t n =
            i && !strcmp(known[i].block, known[i - 1].block) ? listed + 1 : 0;
        const qc_block_unit *unit = qc_block_unit_at(block, n);

        listed = n;
        if (!known[i].unit) {
            assert_null(unit);
        } else {
            assert_non_null(unit);
            assert_string_equal(unit->id, known[i].unit);
            assert_int_equal(unit->methods, known[i].methods);
            assert_int_equal(unit->count, known[i].count);
            /* A lone star's rows are of one hand, whichever. */
            if (unit->left || known[i].left) {
                assert_int_equal(unit->left + unit->right,
                                 known[i].left + known[i].right);
                assert_int_equal(unit->left == unit->right,
                                 known[i].left == known[i].right);
            }
        }
        if (i + 1 == COUNT(known) ||
            strcmp(known[i].block, known[i + 1].block) != 0)
            assert_null(qc_block_unit_at(block, known[i].unit ? n + 1 : 0));
        qc_block_destroy(block);
    }
}

/* A star of 12 in: its diamonds have a side of 12 / (2 + root 2). */
static void units_are_measured(void **state)
{
    qc_block *star = block_of("eight-pointed star", 12 * QC_INCH);
    qc_block *geese = block_of("flying geese", 4 * QC_INCH);
    double side = 12 / (2 + sqrt(2)) * (double)QC_INCH;
    const qc_block_unit *unit = qc_block_unit_at(star, 1);

    (void)state;
    assert_true(fabs((double)unit->size[0] - side * sqrt(0.5)) < 1.5);
    assert_true(fabs((double)unit->size[1] - side * (1 + sqrt(0.5))) < 1.5);
    unit = qc_block_unit_at(star, 0);
    assert_true(fabs((double)unit->size[0] - side) < 1.5);
    unit = qc_block_unit_at(star, 2);
    assert_true(fabs((double)unit->size[0] - side * sqrt(0.5)) < 1.5);
    unit = qc_block_unit_at(geese, 0);
    assert_int_equal(unit->size[0], 4 * QC_INCH);
    assert_int_equal(unit->size[1], 2 * QC_INCH);
    qc_block_destroy(star);
    qc_block_destroy(geese);
}

/* Rectangles of the same two groups, joined at their long and at their short
 * sides: two units with names of their own. Triangles of one role are no unit.
 */
static void names_differ(void **state)
{
    static const qc_drawn_patch patches[] = {
        {"a", "0,0 2,0 2,1 0,1", 1, false}, {"b", "0,1 2,1 2,2 0,2", 1, false},
        {"a", "2,0 4,0 4,1 2,1", 1, false}, {"c", "2,1 4,1 4,2 2,2", 1, false},
        {"b", "4,0 6,0 6,1 4,1", 1, false}, {"c", "4,1 6,1 6,2 4,2", 1, false},
        {"c", "6,0 8,0 8,2", 1, false},     {"c", "6,0 8,2 6,2", 1, false},
    };
    const qc_block_drawing drawing = {"rails", "8", "2", patches,
                                      COUNT(patches)};
    qc_block *block = NULL;
    qc_error err;

    (void)state;
    qc_error_init(&err);
    assert_int_equal(qc_block_create(&drawing, 8 * QC_INCH, &block, &err),
                     QC_STATUS_OK);
    /* The lower row is of two like patches and one other; what is left above is
     * two of one role, and one that lies beside them. */
    assert_string_equal(qc_block_unit_at(block, 0)->id, "A+A+B");
    assert_string_equal(qc_block_unit_at(block, 1)->id, "B+C+C");
    assert_null(qc_block_unit_at(block, 2));
    qc_block_destroy(block);
}

static void methods_have_names(void **state)
{
    (void)state;
    assert_string_equal(qc_method_name(QC_METHOD_TWO_AT_A_TIME),
                        "two at a time");
    assert_string_equal(qc_method_name(QC_METHOD_HALF_SQUARE_TRIANGLES),
                        "half-square triangles");
    assert_null(qc_method_name((qc_method)QC_METHOD_COUNT));
    assert_null(qc_method_name((qc_method)-1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(units_of_known_blocks),
        cmocka_unit_test(units_are_measured),
        cmocka_unit_test(names_differ),
        cmocka_unit_test(methods_have_names),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
