/* Long strips and their joins: what a job cuts for them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job_draft.h"

#define EIGHTH (QC_INCH / 8)

/* Piece 1 of a draft: a strip of 2 x 3 in, taken as it is cut. */
static qc_piece_spec *begin(draft *d)
{
    qc_piece_spec *piece = &d->pieces[1];

    draft_init(d, QC_UNITS_IN);
    piece->shape = QC_SHAPE_STRIP;
    piece->is_cut = true;
    piece->size[1] = 3 * QC_INCH;
    return piece;
}

static void assert_part(const qc_job *job, size_t index, qc_length length)
{
    assert_int_equal(job->pieces[index].shape, QC_SHAPE_RECTANGLE);
    assert_int_equal(job->pieces[index].grain, QC_GRAIN_CROSSWISE);
    assert_int_equal(job->pieces[index].cut[0], length);
    assert_int_equal(job->pieces[index].cut[1], 5 * QC_INCH / 2);
}

/* Exact strips with diagonal joins: the smallest n with n W - (n - 1) w >=
 * length, w the strip's width; a straight join takes two seams (derived from
 * the geometry). 40 in of fabric, strips 2 1/2 in wide. */
static void test_joins(void **state)
{
    static const struct {
        qc_joins joins;
        qc_length length; /* in eighths of an inch, as all below */
        int64_t whole;    /* for each strip */
        qc_length end;
    } rows[] = {
        /* 3 x 40 - 2 x 2 1/2 = 115 is enough, 2 x 40 - 2 1/2 = 77 1/2 is not;
         * 100 - 2 x 37 1/2 = 25 is left for the end. */
        {QC_JOINS_DIAGONAL, 800, 2, 200},
        {QC_JOINS_DIAGONAL, 620, 1, 320}, /* 77 1/2 just so */
        {QC_JOINS_DIAGONAL, 621, 2, 21},  /* 77 5/8 - 75 */
        {QC_JOINS_DIAGONAL, 321, 1, 21},  /* 40 1/8 - 37 1/2 */
        /* 100 - 2 x 39 1/2 = 21 */
        {QC_JOINS_STRAIGHT, 800, 2, 168},
        {QC_JOINS_STRAIGHT, 636, 1, 320}, /* 79 1/2 just so */
        {QC_JOINS_STRAIGHT, 637, 2, 5},   /* 79 5/8 - 79 */
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        draft d;
        qc_job *job;
        qc_piece_spec *piece = begin(&d);

        piece->joins = rows[i].joins;
        piece->size[0] = 5 * QC_INCH / 2;
        piece->size[1] = rows[i].length * EIGHTH;
        piece->count = 3;
        d.spec.spare_count = 1;
        job = draft_make(&d);
        assert_int_equal(job->piece_count, 4);
        draft_assert_cut(
            job, 1, (draft_cut){"B long", QC_HAND_NONE, 1, 4 * rows[i].whole});
        draft_assert_cut(job, 2, (draft_cut){"B end", QC_HAND_NONE, 2, 4});
        assert_part(job, 1, 40 * QC_INCH);
        assert_part(job, 2, rows[i].end * EIGHTH);
        assert_int_equal(job->pieces[1].spares, rows[i].whole);
        assert_int_equal(job->pieces[2].spares, 1);
        qc_job_destroy(job);
    }
}

/* 2 x 72 finished is cut 2 1/2 x 72 1/2: the end is 72 1/2 - 37 1/2. A length
 * between two marks goes up to the next. */
static void test_joins_finished(void **state)
{
    draft d;
    qc_job *job;
    qc_piece_spec *piece = begin(&d);

    (void)state;
    piece->is_cut = false;
    piece->joins = QC_JOINS_DIAGONAL;
    piece->size[1] = 72 * QC_INCH;
    job = draft_make(&d);
    assert_part(job, 1, 40 * QC_INCH);
    assert_part(job, 2, 35 * QC_INCH);
    qc_job_destroy(job);
    piece->size[1] += 1;
    job = draft_make(&d);
    assert_part(job, 2, 35 * QC_INCH + EIGHTH);
    qc_job_destroy(job);
}

/* A strip that is cut in one piece may lie either way. */
static void test_strip(void **state)
{
    draft d;
    qc_job *job;
    qc_piece_spec *piece = begin(&d);

    (void)state;
    piece->size[1] = 60 * QC_INCH;
    job = draft_make(&d);
    assert_int_equal(job->piece_count, 3);
    draft_assert_cut(job, 1, (draft_cut){"B", QC_HAND_NONE, 1, 10});
    assert_int_equal(job->pieces[1].cut[0], 2 * QC_INCH);
    assert_int_equal(job->pieces[1].cut[1], 60 * QC_INCH);
    assert_null(job->pieces[1].outline);
    qc_job_destroy(job);
    /* No longer than the fabric is wide: nothing is joined. */
    piece->joins = QC_JOINS_DIAGONAL;
    piece->size[1] = 40 * QC_INCH;
    job = draft_make(&d);
    assert_int_equal(job->piece_count, 3);
    draft_assert_cut(job, 1, (draft_cut){"B", QC_HAND_NONE, 1, 10});
    qc_job_destroy(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_joins),
        cmocka_unit_test(test_joins_finished),
        cmocka_unit_test(test_strip),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
