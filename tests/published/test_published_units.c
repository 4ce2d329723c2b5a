/* What is cut for units, against the constants of the trade at seams of 1/4 in;
 * each has its source beside it. The library reckons them out of the seams. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#include "block_job.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

static const qci_piece *for_unit(const qc_job *job, size_t n)
{
    for (size_t i = 0; i < job->piece_count; i++)
        if (job->pieces[i].unit != QC_NONE && n-- == 0)
            return &job->pieces[i];
    fail_msg("too few pieces");
    return NULL;
}

#define EIGHTHS(whole, eighths) ((whole)*QC_INCH + (eighths)*QC_INCH / 8)

/* Of each whole finished size of the unit, 1 to 6 in: what its pieces add, and
 * how often that size they take. */
static const struct {
    const char *block;
    int grid; /* the block is so many units wide */
    qc_method method;
    qc_length trim;
    int times[2];
    qc_length plus[2];
    int64_t counts[2]; /* of 20 blocks */
} rows[] = {
    /* Two half-square triangles from two squares: finished + 7/8 (a quilters'
     * group's hand-out; 0.8536 by geometry). */
    {"pinwheel",
     2,
     QC_METHOD_TWO_AT_A_TIME,
     0,
     {1, 1},
     {EIGHTHS(0, 7), EIGHTHS(0, 7)},
     {40, 40}},
    /* The generous square, trimmed: finished + 1 (common practice). */
    {"pinwheel",
     2,
     QC_METHOD_TWO_AT_A_TIME,
     QC_INCH / 8,
     {1, 1},
     {EIGHTHS(1, 0), EIGHTHS(1, 0)},
     {40, 40}},
    /* Eight from squares twice that: 2 x finished + 1.7071 by geometry, which a
     * tutorial rounds to 2 x finished + 2. */
    {"pinwheel",
     2,
     QC_METHOD_EIGHT_AT_A_TIME,
     0,
     {2, 2},
     {EIGHTHS(1, 6), EIGHTHS(1, 6)},
     {10, 10}},
    {"pinwheel",
     2,
     QC_METHOD_EIGHT_AT_A_TIME,
     QC_INCH / 8,
     {2, 2},
     {EIGHTHS(2, 0), EIGHTHS(2, 0)},
     {10, 10}},
    /* Flying geese: one square of the finished width + 1 1/4, four of the
     * height
     * + 7/8 (two teachers' pages). */
    {"flying geese",
     1,
     QC_METHOD_FOUR_AT_A_TIME,
     0,
     {2, 1},
     {EIGHTHS(1, 2), EIGHTHS(0, 7)},
     {5, 20}},
    /* Stitch and flip: every piece finished + 1/2 (a plain seam on each side;
     * teachers' pages: squares of the goose's height + 1/2). */
    {"flying geese",
     1,
     QC_METHOD_STITCH_AND_FLIP,
     0,
     {2, 1},
     {EIGHTHS(0, 4), EIGHTHS(0, 4)},
     {20, 40}},
    {"snowball",
     3,
     QC_METHOD_STITCH_AND_FLIP,
     0,
     {3, 1},
     {EIGHTHS(0, 4), EIGHTHS(0, 4)},
     {20, 80}},
};

static void pieces_add_what_the_trade_adds(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++)
        for (int size = 1; size <= 6; size++) {
            qc_method_spec method = {NULL, rows[i].method, rows[i].trim};
            /* A goose is told by its height. */
            int grid = rows[i].grid == 1 ? 2 : rows[i].grid;
            qc_job *job =
                job_of(rows[i].block, grid * size * QC_INCH, 20, &method);

            for (size_t k = 0; k < 2; k++) {
                const qci_piece *piece = for_unit(job, k);

                assert_int_equal(piece->cut[0],
                                 rows[i].times[k] * size * QC_INCH +
                                     rows[i].plus[k]);
                assert_int_equal(piece->count, rows[i].counts[k]);
            }
            assert_int_equal(job->made[0].trim_to[1],
                             (rows[i].block[0] == 's' ? 3 * size : size) *
                                     QC_INCH +
                                 QC_INCH / 2);
            qc_job_destroy(job);
        }
}

/* The star's strips are those of its diamonds, F (root 2 - 1) / 2 + 1/2, and
 * 45-degree subcuts are spaced exactly as wide as the strip (a teacher's page
 * on diamonds); 1 3/4 and 3 in at 6 and 12 in. The background's strip is the
 * corner square's side F / 3.41 (common practice) and 1/2. */
static void strips_of_the_star(void **state)
{
    (void)state;
    for (int quarters = 12; quarters <= 96; quarters++) {
        qc_method_spec method = {NULL, QC_METHOD_STRIP_SET, QC_DEFAULT};
        double f = quarters / 4.0;
        double star = f * (sqrt(2) - 1) / 2 + 0.5;
        double ground = f / (2 + sqrt(2)) + 0.5;
        qc_job *job =
            job_of("eight-pointed star", quarters * QC_INCH / 4, 5, &method);

        assert_int_equal(job->set_count, 2);
        for (size_t i = 0; i < 2; i++) {
            const qci_set *set = &job->sets[i];

            assert_int_equal(set->info.segments, 20); /* 4 a block and hand */
            assert_int_equal(set->info.angle, 45 * QC_DEGREE);
            assert_int_equal(set->strips[0].width,
                             (qc_length)ceil(star * 8 - 1e-7) * QC_INCH / 8);
            assert_int_equal(set->info.spacing, set->strips[0].width);
            assert_int_equal(set->strips[1].width,
                             (qc_length)ceil(ground * 8 - 1e-7) * QC_INCH / 8);
        }
        assert_int_equal(job->sets[0].info.hand, QC_HAND_RIGHT);
        assert_int_equal(job->sets[1].info.hand, QC_HAND_LEFT);
        if (quarters == 24)
            assert_int_equal(job->sets[0].strips[0].width, EIGHTHS(1, 6));
        if (quarters == 48)
            assert_int_equal(job->sets[0].strips[0].width, EIGHTHS(3, 0));
        qc_job_destroy(job);
    }
}

/* Strips of a nine patch are the finished square + 1/2, and so are the
 * crosscuts (a teacher's page: cross-cut width equals the strip's). */
static void strips_of_the_nine_patch(void **state)
{
    qc_method_spec method = {NULL, QC_METHOD_STRIP_SET, QC_DEFAULT};
    qc_job *job = job_of("nine patch", 9 * QC_INCH, 7, &method);

    (void)state;
    assert_int_equal(job->set_count, 2);
    for (size_t i = 0; i < 2; i++) {
        assert_int_equal(job->sets[i].info.strip_count, 3);
        assert_int_equal(job->sets[i].info.segments, i ? 7 : 14);
        assert_int_equal(job->sets[i].info.spacing, EIGHTHS(3, 4));
        for (size_t k = 0; k < 3; k++)
            assert_int_equal(job->sets[i].strips[k].width, EIGHTHS(3, 4));
    }
    qc_job_destroy(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_add_what_the_trade_adds),
        cmocka_unit_test(strips_of_the_star),
        cmocka_unit_test(strips_of_the_nine_patch),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
