/* Shapes that are cut at an angle, and their hands: what a job cuts for
 * them. Numbers are worked out by hand, from the geometry that stands beside
 * them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "job/job.h"
#include "job_draft.h"

#define EIGHTH (QC_INCH / 8)

/* Three corners, the upper one off the middle. */
static const qc_point sail[] = {
    {0, 0}, {3 * QC_INCH, 0}, {2 * QC_INCH, 4 * QC_INCH}};

/* Piece 1 of a draft, taken as it is cut. */
static qc_piece_spec *begin(draft *d, qc_shape shape)
{
    qc_piece_spec *piece = &d->pieces[1];

    draft_init(d, QC_UNITS_IN);
    piece->shape = shape;
    piece->is_cut = true;
    piece->size[0] = 2 * QC_INCH;
    piece->size[1] = 3 * QC_INCH;
    if (shape == QC_SHAPE_PARALLELOGRAM || shape == QC_SHAPE_DIAMOND)
        piece->angle = 45 * QC_DEGREE;
    if (shape == QC_SHAPE_POLYGON) {
        piece->points = sail;
        piece->point_count = 3;
    }
    return piece;
}

static void set_hands(qc_piece_spec *piece, int64_t left, int64_t right)
{
    piece->count = 0;
    piece->left = left;
    piece->right = right;
}

/* How far the leftmost of the highest corners lies from the leftmost of the
 * lowest ones: a parallelogram's lean. */
static qc_length lean_of(const qci_piece *piece)
{
    const qc_point *at = piece->outline;
    qc_point low, high;

    assert_non_null(at);
    low = high = at[0];
    for (size_t i = 1; i < piece->outline_count; i++) {
        if (at[i].y < low.y || (at[i].y == low.y && at[i].x < low.x))
            low = at[i];
        if (at[i].y > high.y || (at[i].y == high.y && at[i].x < high.x))
            high = at[i];
    }
    return high.x - low.x;
}

/* Cut at 45 degrees from a strip 3 in high: leans of 3 in, either way. */
static void test_both_hands(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    set_hands(begin(&d, QC_SHAPE_PARALLELOGRAM), 20, 30);
    d.spec.spare_count = 1;
    job = draft_make(&d);
    assert_int_equal(job->piece_count, 4);
    draft_assert_cut(job, 1, (draft_cut){"B left", QC_HAND_LEFT, 2, 21});
    draft_assert_cut(job, 2, (draft_cut){"B right", QC_HAND_RIGHT, 1, 31});
    assert_int_equal(lean_of(&job->pieces[1]), -3 * QC_INCH);
    assert_int_equal(lean_of(&job->pieces[2]), 3 * QC_INCH);
    assert_string_equal(job->pieces[3].id, "C");
    qc_job_destroy(job);
    /* An angle beyond the right one leans left as drawn; what is called left
     * and right stays so. */
    d.pieces[1].angle = 135 * QC_DEGREE;
    job = draft_make(&d);
    draft_assert_cut(job, 1, (draft_cut){"B left", QC_HAND_LEFT, 2, 21});
    assert_int_equal(lean_of(&job->pieces[1]), -3 * QC_INCH);
    assert_int_equal(lean_of(&job->pieces[2]), 3 * QC_INCH);
    qc_job_destroy(job);
}

/* One hand keeps the id, and nothing is its mirror image. */
static void test_one_hand(void **state)
{
    static const struct {
        int64_t left, right; /* -1: a plain count of 5 */
        int32_t degrees;
        qc_hand hand;
    } rows[] = {
        {5, 0, 45, QC_HAND_LEFT},    {0, 5, 45, QC_HAND_RIGHT},
        {5, 0, 135, QC_HAND_LEFT},   {0, 5, 135, QC_HAND_RIGHT},
        {-1, -1, 45, QC_HAND_RIGHT}, {-1, -1, 135, QC_HAND_LEFT},
        {-1, -1, 89, QC_HAND_RIGHT}, {-1, -1, 91, QC_HAND_LEFT},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        draft d;
        qc_job *job;
        qc_piece_spec *piece = begin(&d, QC_SHAPE_PARALLELOGRAM);

        set_hands(piece, rows[i].left, rows[i].right);
        piece->count = rows[i].left < 0 ? 5 : 0;
        piece->angle = rows[i].degrees * QC_DEGREE;
        job = draft_make(&d);
        assert_int_equal(job->piece_count, 3);
        draft_assert_cut(job, 1, (draft_cut){"B", rows[i].hand, QC_NONE, 5});
        assert_int_equal(lean_of(&job->pieces[1]) < 0,
                         rows[i].hand == QC_HAND_LEFT);
        qc_job_destroy(job);
    }
}

/* A polygon's right is as drawn, its left the mirror image: the upper corner
 * lies 2 in from the left end of the base, or 1 in. */
static void test_polygon_hands(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    begin(&d, QC_SHAPE_POLYGON);
    job = draft_make(&d);
    draft_assert_cut(job, 1, (draft_cut){"B", QC_HAND_RIGHT, QC_NONE, 10});
    assert_int_equal(lean_of(&job->pieces[1]), 2 * QC_INCH);
    qc_job_destroy(job);
    set_hands(&d.pieces[1], 4, 6);
    job = draft_make(&d);
    draft_assert_cut(job, 1, (draft_cut){"B left", QC_HAND_LEFT, 2, 4});
    draft_assert_cut(job, 2, (draft_cut){"B right", QC_HAND_RIGHT, 1, 6});
    assert_int_equal(lean_of(&job->pieces[1]), QC_INCH);
    assert_int_equal(lean_of(&job->pieces[2]), 2 * QC_INCH);
    qc_job_destroy(job);
}

/* Turned over, cloth without a wrong side gives the other hand. */
static void test_reversible(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    set_hands(begin(&d, QC_SHAPE_PARALLELOGRAM), 20, 30);
    d.fabrics[1].print = QC_PRINT_REVERSIBLE;
    job = draft_make(&d);
    assert_int_equal(job->piece_count, 3);
    draft_assert_cut(job, 1, (draft_cut){"B", QC_HAND_NONE, 1, 50});
    qc_job_destroy(job);
    /* A hand is still not asked of what has none. */
    d.pieces[1].shape = QC_SHAPE_DIAMOND;
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[1].count", "mirror image");
}

/* Shapes without hands are their own twins. */
static void test_symmetric(void **state)
{
    static const qc_point even[] = {
        {0, 0}, {4 * QC_INCH, 0}, {2 * QC_INCH, 3 * QC_INCH}};
    static const qc_shape shapes[] = {
        QC_SHAPE_SQUARE,  QC_SHAPE_RECTANGLE, QC_SHAPE_HALF_SQUARE_TRIANGLE,
        QC_SHAPE_DIAMOND, QC_SHAPE_HEXAGON,   QC_SHAPE_EQUILATERAL_TRIANGLE,
        QC_SHAPE_POLYGON, QC_SHAPE_STRIP,     QC_SHAPE_QUARTER_SQUARE_TRIANGLE,
        QC_SHAPE_KITE,    QC_SHAPE_TRAPEZOID, QC_SHAPE_PARALLELOGRAM};

    (void)state;
    for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
        draft d;
        qc_job *job;
        qc_piece_spec *piece = begin(&d, shapes[i]);

        piece->points = even;
        if (shapes[i] == QC_SHAPE_KITE || shapes[i] == QC_SHAPE_TRAPEZOID) {
            piece->size[0] = 6 * QC_INCH;
            piece->size[2] = 2 * QC_INCH;
        }
        if (shapes[i] == QC_SHAPE_PARALLELOGRAM)
            piece->angle = 90 * QC_DEGREE;
        job = draft_make(&d);
        assert_int_equal(job->piece_count, 3);
        draft_assert_cut(job, 1, (draft_cut){"B", QC_HAND_NONE, 1, 10});
        qc_job_destroy(job);
        set_hands(piece, 5, 5);
        draft_refuse(&d, QC_STATUS_INVALID, "pieces[1].count", "mirror image");
    }
}

/* Sizes square to the sides: side x sin 45 + two seams, up to 1/8. 2: 1.914,
 * 4: 3.328, 3: 2.621. */
static void test_finished(void **state)
{
    draft d;
    qc_job *job;
    qc_piece_spec *piece = begin(&d, QC_SHAPE_PARALLELOGRAM);

    (void)state;
    piece->is_cut = false;
    piece->size[1] = 4 * QC_INCH;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].cut[0], 2 * QC_INCH);
    assert_int_equal(job->pieces[1].cut[1], 27 * EIGHTH);
    assert_int_equal(job->pieces[1].finished[0], 2 * QC_INCH);
    assert_int_equal(job->pieces[1].finished[1], 4 * QC_INCH);
    assert_int_equal(job->pieces[1].angle, 45 * QC_DEGREE);
    assert_true(job->pieces[1].rounded);
    /* It leans by its height. */
    assert_int_equal(lean_of(&job->pieces[1]), 27 * EIGHTH);
    qc_job_destroy(job);
    piece->shape = QC_SHAPE_DIAMOND;
    piece->size[0] = 3 * QC_INCH;
    piece->size[1] = -1; /* a diamond has one size */
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].cut[0], 21 * EIGHTH);
    assert_int_equal(job->pieces[1].cut[1], 21 * EIGHTH);
    assert_int_equal(job->pieces[1].finished[1], 0);
    qc_job_destroy(job);
}

/* Which grain a shape has when nothing is said, and what any side means. */
static void test_grain(void **state)
{
    draft d;
    qc_job *job;
    qc_piece_spec *piece = begin(&d, QC_SHAPE_POLYGON);

    (void)state;
    d.pieces[2].shape = QC_SHAPE_STRIP;
    job = draft_make(&d);
    assert_int_equal(job->pieces[0].grain, QC_GRAIN_ANY);
    assert_int_equal(job->pieces[1].grain, QC_GRAIN_BASE);
    assert_int_equal(job->pieces[1].base_count, 1);
    assert_int_equal(job->pieces[2].grain, QC_GRAIN_ANY);
    qc_job_destroy(job);
    piece->grain = QC_GRAIN_ANY;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].grain, QC_GRAIN_ANY);
    assert_int_equal(job->pieces[1].base_count, 3);
    qc_job_destroy(job);
    piece->grain = QC_GRAIN_BASE;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].base_count, 1);
    qc_job_destroy(job);
    d.pieces[2].grain = QC_GRAIN_LENGTHWISE;
    job = draft_make(&d);
    assert_int_equal(job->pieces[2].grain, QC_GRAIN_LENGTHWISE);
    qc_job_destroy(job);
}

/* Two tips are blunted, those of 45 degrees: two corners more. */
static void test_tips(void **state)
{
    draft d;
    qc_job *job;
    qc_piece_spec *piece = begin(&d, QC_SHAPE_DIAMOND);

    (void)state;
    piece->is_cut = false;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].outline_count, 4);
    assert_false(job->pieces[1].blunt);
    qc_job_destroy(job);
    piece->tips = QC_TIPS_BLUNT;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].outline_count, 6);
    assert_true(job->pieces[1].blunt);
    qc_job_destroy(job);
}

/* Spacing 6 in at 45 degrees from a strip 6 in high: 6 x sqrt2 = 8.485 wide at
 * half height, and two half leans of 3: 14.485 in all. */
static void test_slanted_fit(void **state)
{
    static const qc_point leaning[] = {{0, 0},
                                       {6 * QC_INCH, 0},
                                       {8 * QC_INCH, 4 * QC_INCH},
                                       {2 * QC_INCH, 4 * QC_INCH}};
    draft d;
    qc_job *job;
    qc_piece_spec *piece = begin(&d, QC_SHAPE_DIAMOND);

    (void)state;
    piece->size[0] = 6 * QC_INCH;
    d.fabrics[1].width = 29 * QC_INCH / 2;
    job = draft_make(&d);
    qc_job_destroy(job);
    d.fabrics[1].width = 14 * QC_INCH;
    draft_refuse(&d, QC_STATUS_IMPOSSIBLE, "pieces[1].fabric",
                 "piece B needs about 14 1/2 in of width with its slanted "
                 "ends; fabric sand has 14 in");
    /* Less than the piece itself is wide. */
    d.fabrics[1].width = QC_INCH;
    draft_refuse(&d, QC_STATUS_IMPOSSIBLE, "pieces[1].fabric", "14 1/2 in");
    /* 6 in wide and leaning by 2 at both ends: 8 in just so. */
    d.pieces[1].shape = QC_SHAPE_POLYGON;
    d.pieces[1].angle = 0;
    d.pieces[1].points = leaning;
    d.pieces[1].point_count = 4;
    d.fabrics[1].width = 8 * QC_INCH;
    job = draft_make(&d);
    qc_job_destroy(job);
    d.fabrics[1].width = 8 * QC_INCH - 1;
    draft_refuse(&d, QC_STATUS_IMPOSSIBLE, "pieces[1].fabric", "about 8 in");
}

/* Whatever allocation fails, nothing stays behind. */
static void test_no_memory(void **state)
{
    draft d;
    long n;

    (void)state;
    set_hands(begin(&d, QC_SHAPE_PARALLELOGRAM), 2, 3);
    d.pieces[0].shape = QC_SHAPE_HEXAGON;
    d.pieces[2].shape = QC_SHAPE_STRIP;
    d.pieces[2].joins = QC_JOINS_DIAGONAL;
    d.pieces[2].size[1] = 90 * QC_INCH;
    for (n = 1;; n++) {
        qc_job *job = NULL;
        qc_status status;

        qci_alloc_fail_at(n, 0);
        status = qc_job_create(&d.spec, &job, NULL);
        qci_alloc_fail_at(0, 0);
        qc_job_destroy(job);
        assert_int_equal(qci_alloc_live(), 0);
        if (status == QC_STATUS_OK)
            break;
        assert_int_equal(status, QC_STATUS_NO_MEMORY);
    }
    assert_true(n > 30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_both_hands),    cmocka_unit_test(test_one_hand),
        cmocka_unit_test(test_polygon_hands), cmocka_unit_test(test_reversible),
        cmocka_unit_test(test_symmetric),     cmocka_unit_test(test_finished),
        cmocka_unit_test(test_grain),         cmocka_unit_test(test_tips),
        cmocka_unit_test(test_slanted_fit),   cmocka_unit_test(test_no_memory),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
