/* Blocks: every built-in one tiles at every size, by a count of patches over
 * random points that knows nothing of the library's own check; what is wrong
 * with a drawing is said in so many words. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

static uint64_t seed = 20261128;

static double draw_between(double least, double most)
{
    seed = seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return least + (most - least) * (double)(seed >> 11) / 9007199254740992.0;
}

static qc_block *find(const char *name, qc_length width)
{
    qc_block *block = NULL;
    qc_error err;

    qc_error_init(&err);
    if (qc_block_find(name, width, &block, &err))
        fail_msg("%s: %s: %s", name, err.field, err.problem);
    return block;
}

/* In widths of the block. */
static double value_of(const qc_block *block, qc_block_number n)
{
    const qc_block_summary *info = qc_block_describe(block);

    return ((double)n.whole + (double)n.root * sqrt((double)info->radicand)) /
           (double)info->denominator;
}

/* Twice the area, exactly: two whole numbers over the denominator's square. */
static qc_block_number doubled_area(const qc_block *block,
                                    const qc_block_patch *patch)
{
    int64_t r = qc_block_describe(block)->radicand;
    qc_block_number sum = {0, 0};

    for (size_t i = 0; i < patch->corner_count; i++) {
        qc_block_point a = patch->corners[i];
        qc_block_point b = patch->corners[(i + 1) % patch->corner_count];

        sum.whole += a.x.whole * b.y.whole + r * a.x.root * b.y.root -
                     a.y.whole * b.x.whole - r * a.y.root * b.x.root;
        sum.root += a.x.whole * b.y.root + a.x.root * b.y.whole -
                    a.y.whole * b.x.root - a.y.root * b.x.whole;
    }
    return sum;
}

static void areas_add_up_exactly(const qc_block *block)
{
    const qc_block_summary *info = qc_block_describe(block);
    qc_block_number sum = {0, 0};

    for (size_t i = 0; i < info->patch_count; i++) {
        qc_block_number one = doubled_area(block, qc_block_patch_at(block, i));

        sum.whole += one.whole;
        sum.root += one.root;
    }
    assert_int_equal(sum.whole,
                     2 * info->denominator * info->height_exact.whole);
    assert_int_equal(sum.root, 2 * info->denominator * info->height_exact.root);
}

static int patches_over(const qc_block *block, double x, double y)
{
    int over = 0;

    for (size_t i = 0; i < qc_block_describe(block)->patch_count; i++) {
        const qc_block_patch *p = qc_block_patch_at(block, i);
        bool inside = true;

        for (size_t k = 0; k < p->corner_count && inside; k++) {
            qc_block_point a = p->corners[k];
            qc_block_point b = p->corners[(k + 1) % p->corner_count];
            double ax = value_of(block, a.x), ay = value_of(block, a.y);
            double bx = value_of(block, b.x), by = value_of(block, b.y);

            inside = (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0;
        }
        over += inside;
    }
    return over;
}

static void random_points_lie_in_one_patch(const char *name)
{
    qc_block *block = find(name, QC_INCH);
    double height = value_of(block, qc_block_describe(block)->height_exact);

    for (int i = 0; i < 2000; i++)
        assert_int_equal(
            patches_over(block, draw_between(0, 1), draw_between(0, height)),
            1);
    qc_block_destroy(block);
}

/* The groups' own areas lose less than a square unit a patch to rounding. */
static void groups_fill(const qc_block *block)
{
    const qc_block_summary *info = qc_block_describe(block);
    double whole = (double)info->width * (double)info->width *
                   value_of(block, info->height_exact);
    int64_t sum = 0, patches = 0;

    for (size_t i = 0; i < info->group_count; i++) {
        const qc_block_group *group = qc_block_group_at(block, i);

        sum += group->area * group->count;
        patches += group->count;
        assert_true(group->left + group->right == 0 ||
                    group->left + group->right == group->count);
    }
    assert_int_equal(patches, info->patch_count);
    assert_true(fabs((double)sum - whole) <=
                (double)info->patch_count + whole * 1e-15);
}

static void every_block_tiles_at_every_size(void **state)
{
    (void)state;
    print_message("seed %llu\n", (unsigned long long)seed);
    for (size_t i = 0; qc_block_builtin_at(i); i++) {
        const char *name = qc_block_builtin_at(i)->name;

        random_points_lie_in_one_patch(name);
        for (int quarters = 12; quarters <= 96; quarters++) {
            qc_block *block = find(name, quarters * QC_INCH / 4);

            assert_int_equal(qc_block_describe(block)->width,
                             quarters * QC_INCH / 4);
            areas_add_up_exactly(block);
            groups_fill(block);
            qc_block_destroy(block);
        }
    }
}

static void there_are_many_of_different_names(void **state)
{
    size_t count = 0;

    (void)state;
    while (qc_block_builtin_at(count))
        count++;
    assert_true(count >= 25);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(qc_block_builtin_at(i)->name,
                                    qc_block_builtin_at(k)->name);
}

/* `role:SHAPE count (left, right)` of each group; counts and sizes are counted
 * off the drawn blocks by hand. */
static const struct expected_group {
    const char *block, *role;
    qc_shape shape;
    int64_t count, left, right;
    double size[3]; /* in twelfths of the block; 0: not compared */
} expected[] = {
    {"nine patch", "dark", QC_SHAPE_SQUARE, 5, 0, 0, {4}},
    {"sawtooth star", "star", QC_SHAPE_HALF_SQUARE_TRIANGLE, 8, 0, 0, {3}},
    {"sawtooth star",
     "background",
     QC_SHAPE_QUARTER_SQUARE_TRIANGLE,
     4,
     0,
     0,
     {6}},
    {"ohio star", "star", QC_SHAPE_QUARTER_SQUARE_TRIANGLE, 8, 0, 0, {4}},
    {"churn dash", "dark", QC_SHAPE_RECTANGLE, 4, 0, 0, {4, 2}},
    {"spool", "spool", QC_SHAPE_TRAPEZOID, 2, 0, 0, {12, 4, 4}},
    {"eight-pointed star",
     "star",
     QC_SHAPE_DIAMOND,
     8,
     0,
     0,
     {12 / 3.41421356237309505}},
    {"lone star",
     "ring 3",
     QC_SHAPE_DIAMOND,
     24,
     0,
     0,
     {4 / 3.41421356237309505}},
    {"hexagon", "hexagon", QC_SHAPE_HEXAGON, 1, 0, 0, {6}},
    {"hexagon", "background", QC_SHAPE_POLYGON, 4, 2, 2, {0}},
    {"six-pointed star", "star", QC_SHAPE_DIAMOND, 6, 0, 0, {4}},
    {"six-pointed star", "background", QC_SHAPE_POLYGON, 4, 2, 2, {0}},
    {"storm at sea", "corner", QC_SHAPE_POLYGON, 16, 8, 8, {0}},
    {"snowball", "ball", QC_SHAPE_POLYGON, 1, 0, 0, {0}},
};

static bool is_as_expected(const qc_block *block, const qc_block_group *group,
                           const struct expected_group *e)
{
    if (strcmp(qc_block_role_at(block, group->role), e->role) != 0 ||
        group->shape != e->shape || group->count != e->count ||
        group->left != e->left || group->right != e->right)
        return false;
    for (int i = 0; i < 3; i++)
        if (fabs((double)group->size[i] - e->size[i] * QC_INCH) > 1)
            return false;
    return true;
}

static void groups_are_as_counted_by_hand(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(expected); i++) {
        qc_block *block = find(expected[i].block, 12 * QC_INCH);
        size_t k = 0;

        while (
            qc_block_group_at(block, k) &&
            !is_as_expected(block, qc_block_group_at(block, k), &expected[i]))
            k++;
        if (!qc_block_group_at(block, k))
            fail_msg("%s: no such group: %s", expected[i].block,
                     expected[i].role);
        qc_block_destroy(block);
    }
}

/* Sizes are the least whole lengths that are not below the exact ones: here by
 * squaring, since side x (2 + sqrt2) = block. */
static void sizes_are_rounded_up_once(void **state)
{
    (void)state;
    for (qc_length width = 3 * QC_INCH; width <= 24 * QC_INCH;
         width += QC_INCH / 4) {
        qc_block *block = find("eight-pointed star", width);
        qc_length side = qc_block_group_at(block, 0)->size[0];
        /* side (2 + sqrt2) >= width, and not so for a unit less */
        qc_length above = width - 2 * side, below = width - 2 * (side - 1);

        assert_true(above <= 0 || above * above <= 2 * side * side);
        assert_true(below > 0 && below * below > 2 * (side - 1) * (side - 1));
        assert_true(qc_block_group_at(block, 0)->rounded);
        qc_block_destroy(block);
    }
}

/* One drawing that is refused, and what is said of it. */
static const struct refusal {
    const char *field, *problem;
    const char *width;
    qc_drawn_patch patches[3];
} refused[] = {
    {"width", "is no list of coordinates", "two", {{"a", "0,0 1,0 1,1", 1, 0}}},
    {"width", "is no side of a block", "1-r2", {{"a", "0,0 1,0 1,1", 1, 0}}},
    {"patches", "has no patches, or too many", "2", {{NULL, NULL, 0, 0}}},
    {"patches[0].role",
     "is no name of a role",
     "2",
     {{"", "0,0 2,0 2,2", 1, 0}}},
    {"patches[0].corners",
     "has too few corners",
     "2",
     {{"a", "0,0 2,0", 1, 0}}},
    {"patches[0].corners",
     "has no comma behind the x of corner 2",
     "2",
     {{"a", "0,0 2 2,2", 1, 0}}},
    {"patches[0].corners",
     "has a fraction that is too fine",
     "2",
     {{"a", "0,0 2/11,0 2,2", 1, 0}}},
    {"patches[0].corners",
     "has a root that is neither r2 nor r3",
     "2",
     {{"a", "0,0 r5,0 2,2", 1, 0}}},
    {"patches[0].corners",
     "has roots of 2 and of 3 in one block",
     "2",
     {{"a", "0,0 r2,r3 2,2", 1, 0}}},
    {"patches[0].corners",
     "lies more than 1000 grid units away",
     "2",
     {{"a", "0,0 1001,0 2,2", 1, 0}}},
    {"patches[0].turns",
     "is no number of turned copies",
     "2",
     {{"a", "0,0 2,0 2,2", 5, 0}}},
    {"patches[0].turns",
     "needs the other root than the block has",
     "2",
     {{"a", "0,0 r2,0 1,1", 6, 0}}},
    {"patches[0].corners",
     "lists the corners clockwise: give them in the opposite order",
     "2",
     {{"a", "0,0 0,2 2,2 2,0", 1, 0}}},
    {"patches[0].corners",
     "has a corner that points inwards, or is none: corner 3",
     "2",
     {{"a", "0,0 2,0 1,1/2 1,2", 1, 0}}},
    {"patches[0].corners",
     "reaches beyond the block with corner 2",
     "2",
     {{"a", "0,0 3,0 2,2", 1, 0}}},
    {"patches[1].corners",
     "overlaps a copy of patches[0]",
     "2",
     {{"a", "0,0 2,0 2,2", 1, 0}, {"b", "1,0 2,2 0,2", 1, 0}}},
    {"patches[0].corners",
     "overlaps another copy of patches[0]",
     "2",
     {{"a", "0,0 2,0 1,3/2", 4, 0}}},
    {"patches[0].corners",
     "leaves a gap: nothing lies against its side from corner 2 to corner 3",
     "2",
     {{"a", "0,0 2,0 1,1", 1, 0}, {"b", "0,0 1,1 0,2", 1, 0}}},
    {"patches[0].corners",
     "leaves a gap: nothing lies against its side from corner 3 to corner 4",
     "4",
     {{"a", "0,0 4,0 4,2 0,2", 1, 0}, {"b", "0,2 4,3 4,4 0,4", 1, 0}}},
};

static void what_is_wrong_is_said(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(refused); i++) {
        const struct refusal *r = &refused[i];
        qc_block_drawing drawing = {"mine", r->width, NULL, r->patches, 0};
        qc_block *block = (qc_block *)&drawing;
        qc_error err;

        while (drawing.patch_count < 3 &&
               r->patches[drawing.patch_count].corners)
            drawing.patch_count++;
        qc_error_init(&err);
        assert_int_equal(qc_block_create(&drawing, QC_INCH, &block, &err),
                         QC_STATUS_INVALID);
        assert_null(block);
        assert_string_equal(err.problem, r->problem);
        assert_string_equal(err.field, r->field);
    }
}

/* What is printed of a block is text in one line, read from left to right. */
static void names_are_texts(void **state)
{
    static const struct {
        const char *name, *role, *field, *problem;
    } rows[] = {
        {"", "a", "name", "is no name of a block"},
        {"mine\n", "a", "name", "has a control character (byte 5)"},
        {"m\xC3", "a", "name", "is not valid UTF-8"},
        {"\xE2\x80\xAE"
         "enim",
         "a", "name",
         "has a code for line breaks or writing direction (byte 1)"},
        {"\xEF\xB7\x90", "a", "name",
         "has a code that is no character (byte 1)"},
        {"mine", "a\x1B[2J", "patches[0].role",
         "has a control character (byte 2)"},
        {"mine", "\xFF", "patches[0].role", "is not valid UTF-8"},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        qc_drawn_patch patch = {rows[i].role, "0,0 2,0 2,2 0,2", 1, 0};
        qc_block_drawing drawing = {rows[i].name, "2", NULL, &patch, 1};
        qc_block *block = NULL;
        qc_error err;

        qc_error_init(&err);
        assert_int_equal(qc_block_create(&drawing, QC_INCH, &block, &err),
                         QC_STATUS_INVALID);
        assert_string_equal(err.field, rows[i].field);
        assert_string_equal(err.problem, rows[i].problem);
        drawing.name = "m\xC3\xB6we";
        patch.role = "\xC3\xA5";
        assert_int_equal(qc_block_create(&drawing, QC_INCH, &block, NULL),
                         QC_STATUS_OK);
        qc_block_destroy(block);
    }
}

static void names_are_looked_up(void **state)
{
    static const struct {
        const char *name, *problem;
    } rows[] = {
        {"ohio sta", "is no block that is known; did you mean ohio star?"},
        {"zigzag", "is no block that is known"},
        {"", "is no block that is known"},
        {"Drunkard's Path",
         "has curved seams, which are out of scope: pieces are cut with "
         "straight cuts from edge to edge"},
    };
    qc_block *block = find("Nine Patch", QC_INCH);
    qc_error err;

    (void)state;
    assert_string_equal(qc_block_describe(block)->name, "nine patch");
    qc_block_destroy(block);
    for (size_t i = 0; i < COUNT(rows); i++) {
        qc_error_init(&err);
        assert_int_equal(qc_block_find(rows[i].name, QC_INCH, &block, &err),
                         QC_STATUS_INVALID);
        assert_string_equal(err.problem, rows[i].problem);
        assert_string_equal(err.field, "block");
    }
    qc_error_init(&err);
    assert_int_equal(qc_block_find("nine patch", 0, &block, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, "size");
}

/* A block of two kites and their rests: shapes that no built-in block has. */
static void kites_and_parallelograms(void **state)
{
    static const qc_drawn_patch patches[] = {
        {"kite", "0,0 2,1 2,2 1,2", 1, false},
        {"side", "0,0 2,0 2,1", 1, false},
        {"side", "0,0 1,2 0,2", 1, false},
        {"slope", "2,0 3,1 3,2 2,1", 1, false},
        {"rest", "2,0 3,0 3,1", 1, false},
        {"rest", "2,1 3,2 2,2", 1, false},
    };
    const qc_block_drawing drawing = {"mine", "3", "2", patches,
                                      COUNT(patches)};
    const qc_block_group *group;
    qc_block *block;

    (void)state;
    assert_int_equal(qc_block_create(&drawing, 3 * QC_INCH, &block, NULL),
                     QC_STATUS_OK);
    group = qc_block_group_at(block, 0);
    assert_int_equal(group->shape, QC_SHAPE_KITE);
    assert_true(fabs((double)group->size[0] - 2 * sqrt(2) * 203200) <= 1);
    assert_true(fabs((double)group->size[1] - sqrt(2) * 203200) <= 1);
    assert_true(fabs((double)group->size[2] - 3 / sqrt(2) * 203200) <= 1);
    group = qc_block_group_at(block, 1); /* a half-rectangle in both hands */
    assert_int_equal(group->left, 1);
    assert_int_equal(group->right, 1);
    group = qc_block_group_at(block, 2);
    assert_int_equal(group->shape, QC_SHAPE_PARALLELOGRAM);
    assert_int_equal(group->angle, 45 * QC_DEGREE);
    assert_int_equal(group->size[0], QC_INCH);
    assert_true(fabs((double)group->size[1] - sqrt(2) * 203200) <= 1);
    assert_int_equal(group->left + group->right, 1);
    assert_null(qc_block_group_at(block, 4));
    assert_null(qc_block_role_at(block, 4));
    assert_null(qc_block_patch_at(block, 6));
    qc_block_destroy(block);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_block_tiles_at_every_size),
        cmocka_unit_test(there_are_many_of_different_names),
        cmocka_unit_test(groups_are_as_counted_by_hand),
        cmocka_unit_test(sizes_are_rounded_up_once),
        cmocka_unit_test(what_is_wrong_is_said),
        cmocka_unit_test(names_are_texts),
        cmocka_unit_test(names_are_looked_up),
        cmocka_unit_test(kites_and_parallelograms),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
