/* Blocks in a job: the pieces that they become, and what is wrong with them.
 * Cut sizes are compared with handbook constants in tests/published. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#include "job/job.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

static const qc_role_spec star_fabrics[] = {{"background", "sand"},
                                            {"star", "night"}};

/* A job of one entry of blocks on two fabrics. */
static qc_status create(const qc_block_spec *blocks, size_t count, qc_job **job,
                        qc_error *err)
{
    qc_fabric_spec fabrics[2];
    qc_job_spec spec;

    qc_job_spec_init(&spec, QC_UNITS_IN);
    for (int i = 0; i < 2; i++)
        qc_fabric_spec_init(&fabrics[i]);
    fabrics[0].id = "night";
    fabrics[1].id = "sand";
    fabrics[1].print = QC_PRINT_REVERSIBLE;
    spec.fabrics = fabrics;
    spec.fabric_count = 2;
    spec.blocks = blocks;
    spec.block_count = count;
    spec.spare_count = 1;
    qc_error_init(err);
    return qc_job_create(&spec, job, err);
}

static qc_block_spec six_stars(void)
{
    qc_block_spec spec;

    qc_block_spec_init(&spec);
    spec.block = "six-pointed star";
    spec.size = 6 * QC_INCH;
    spec.count = 5;
    spec.fabrics = star_fabrics;
    spec.fabric_count = 2;
    return spec;
}

static void groups_become_pieces(void **state)
{
    qc_block_spec spec = six_stars();
    qc_error err;
    qc_job *job;

    (void)state;
    spec.id = "lamp";
    assert_int_equal(create(&spec, 1, &job, &err), QC_STATUS_OK);
    assert_int_equal(job->block_count, 1);
    assert_string_equal(job->blocks[0].id, "lamp");
    assert_string_equal(job->blocks[0].name, "six-pointed star");
    assert_int_equal(job->blocks[0].width, 6 * QC_INCH);
    assert_true(job->blocks[0].height_rounded);
    /* 6 x 2 / sqrt3 */
    assert_true(fabs((double)job->blocks[0].height - 6.92820323 * QC_INCH) < 2);
    /* The hands of the background are one on reversible cloth. */
    assert_int_equal(job->piece_count, 3);
    assert_string_equal(job->pieces[0].id, "lamp A");
    assert_string_equal(job->pieces[0].role, "star");
    assert_int_equal(job->pieces[0].fabric, 0);
    assert_int_equal(job->pieces[0].count, 31);
    assert_int_equal(job->pieces[0].spares, 1);
    assert_int_equal(job->pieces[0].in_each, 6);
    assert_string_equal(job->pieces[1].id, "lamp B");
    assert_string_equal(job->pieces[1].role, "background");
    assert_int_equal(job->pieces[1].fabric, 1);
    assert_int_equal(job->pieces[1].count, 21);
    assert_int_equal(job->pieces[1].in_each, 4);
    assert_int_equal(job->pieces[1].block, 0);
    qc_job_destroy(job);
}

static void hands_are_counted_apart(void **state)
{
    static const qc_role_spec fabrics[] = {{"star", "sand"},
                                           {"background", "night"}};
    qc_block_spec spec = six_stars();
    qc_error err;
    qc_job *job;

    (void)state;
    spec.fabrics = fabrics;
    assert_int_equal(create(&spec, 1, &job, &err), QC_STATUS_OK);
    assert_int_equal(job->piece_count, 4);
    assert_string_equal(job->pieces[1].id, "six-pointed star B left");
    assert_int_equal(job->pieces[1].hand, QC_HAND_LEFT);
    assert_int_equal(job->pieces[1].count, 11);
    assert_int_equal(job->pieces[1].in_each, 2);
    assert_int_equal(job->pieces[1].twin, 2);
    qc_job_destroy(job);
}

static const qc_drawn_patch steps[] = {
    {"a", "0,0 1,0 2,1 1,1", 2, false}, {"b", "1,0 4,0 4,1 2,1", 1, false},
    {"b", "0,0 1,1 0,1", 1, false},     {"b", "0,1 2,1 3,2 0,2", 1, false},
    {"b", "3,1 4,1 4,2", 1, false},
};
static const qc_block_drawing slope = {"slope", "4", "2", steps, COUNT(steps)};

/* The slanted side is no whole length, but the height is: the strip is that and
 * its seams, 1 1/2 in, and not an eighth more. So it is of a triangle with
 * equal sides, given by its corners, that is 3 in high (common practice: 3/4
 * more for the seams). */
static void what_is_on_the_ruler_stays(void **state)
{
    static const qc_role_spec fabrics[] = {{"a", "night"}, {"b", "night"}};
    static const qc_drawn_patch tall[] = {
        {"a", "0,0 2,0 1,r3", 1, false},
        {"b", "0,0 1,r3 0,r3", 1, true},
    };
    const qc_block_drawing peak = {"peak", "2", "r3", tall, COUNT(tall)};
    qc_block_spec spec;
    qc_error err;
    qc_job *job;

    (void)state;
    qc_block_spec_init(&spec);
    spec.drawing = &slope;
    spec.size = 4 * QC_INCH;
    spec.count = 1;
    spec.fabrics = fabrics;
    spec.fabric_count = 2;
    assert_int_equal(create(&spec, 1, &job, &err), QC_STATUS_OK);
    assert_int_equal(job->pieces[0].shape, QC_SHAPE_PARALLELOGRAM);
    assert_int_equal(job->pieces[0].cut[1], 3 * QC_INCH / 2);
    qc_job_destroy(job);
    spec.drawing = &peak;
    spec.size = 703905; /* x sqrt3 / 2 = 609599.6, all but 3 in */
    assert_int_equal(create(&spec, 1, &job, &err), QC_STATUS_OK);
    assert_int_equal(job->pieces[0].shape, QC_SHAPE_EQUILATERAL_TRIANGLE);
    assert_int_equal(job->pieces[0].cut[1], 15 * QC_INCH / 4);
    assert_true(job->pieces[0].rounded);
    qc_job_destroy(job);
}

/* An odd polygon: its corners between whole lengths are cut as they are, so its
 * height of 2 in and two seams is on the ruler. */
static void corners_need_not_be_whole(void **state)
{
    static const qc_role_spec fabrics[] = {{"a", "night"}, {"b", "sand"}};
    static const qc_drawn_patch patches[] = {
        {"a", "0,0 1+r2,0 1+r2,2 r2,2", 1, false},
        {"b", "0,0 r2,2 0,2", 1, false},
    };
    const qc_block_drawing drawing = {"sail", "1+r2", "2", patches,
                                      COUNT(patches)};
    qc_block_spec spec;
    qc_error err;
    qc_job *job;

    (void)state;
    qc_block_spec_init(&spec);
    spec.drawing = &drawing;
    spec.size = 490568; /* (1 + sqrt2) in, to the nearest length */
    spec.count = 1;
    spec.fabrics = fabrics;
    spec.fabric_count = 2;
    assert_int_equal(create(&spec, 1, &job, &err), QC_STATUS_OK);
    assert_int_equal(job->pieces[0].shape, QC_SHAPE_POLYGON);
    assert_int_equal(job->pieces[0].hand, QC_HAND_RIGHT);
    assert_true(job->pieces[0].rounded);
    /* The block is 0.2 of a length too narrow, so it is a trifle lower. */
    assert_int_equal(job->pieces[0].cut[1], 5 * QC_INCH / 2);
    qc_job_destroy(job);
}

typedef struct refusal {
    const char *field, *problem;
    qc_block_spec spec;
} refusal;

static void what_is_wrong_has_its_place(void **state)
{
    static const qc_role_spec twice[] = {
        {"star", "night"}, {"star", "sand"}, {"background", "sand"}};
    static const qc_role_spec nameless[] = {{NULL, "night"}};
    static const qc_role_spec bare[] = {{"star", NULL}};
    static const qc_drawn_patch gap[] = {{"star", "0,0 2,0 1,1", 1, false}};
    static const qc_block_drawing torn = {"torn", "2", NULL, gap, 1};
    qc_block_spec star = six_stars();
    refusal rows[] = {
        {"blocks[1].fabrics.star", "is a role that has a fabric already", star},
        {"blocks[1].fabrics.", "is missing", star},
        {"blocks[1].fabrics.star", "is missing", star},
        {"blocks[1].fabrics", "names no fabric for the role \"star\"", star},
        {"blocks[1].block", "is no block that is known", star},
        {"blocks[1].size", "is negative", star},
        {"blocks[1].count", "must not be 0", star},
        {"blocks[1].id", "is also the id or name of other blocks", star},
        {"blocks[1].drawing.patches[0].corners",
         "leaves a gap: nothing lies against its side from corner 2 to corner "
         "3",
         star},
    };
    qc_error err;
    qc_job *job;

    (void)state;
    rows[0].spec.fabrics = twice;
    rows[0].spec.fabric_count = 3;
    rows[1].spec.fabrics = nameless;
    rows[1].spec.fabric_count = 1;
    rows[2].spec.fabrics = bare;
    rows[2].spec.fabric_count = 1;
    rows[3].spec.fabrics = NULL;
    rows[4].spec.block = NULL;
    rows[5].spec.size = -1;
    rows[6].spec.count = 0;
    rows[7].spec.id = "six-pointed star";
    rows[8].spec.drawing = &torn;
    for (size_t i = 0; i < COUNT(rows); i++) {
        qc_block_spec blocks[2] = {star, rows[i].spec};

        if (i != 7 && i != 8 && !blocks[1].id)
            blocks[1].id = "other";
        assert_int_equal(create(blocks, 2, &job, &err), QC_STATUS_INVALID);
        assert_null(job);
        assert_string_equal(err.field, rows[i].field);
        assert_string_equal(err.problem, rows[i].problem);
    }
}

static void too_many_are_refused(void **state)
{
    static qc_block_spec blocks[QC_MAX_BLOCKS + 1];
    static char ids[QC_MAX_BLOCKS + 1][8];
    static const qc_role_spec fabrics[] = {
        {"hearth", "night"}, {"light", "sand"}, {"dark", "night"}};
    qc_error err;
    qc_job *job;

    (void)state;
    for (size_t i = 0; i <= QC_MAX_BLOCKS; i++) {
        blocks[i] = six_stars();
        snprintf(ids[i], sizeof ids[i], "b%zu", i);
        blocks[i].id = ids[i];
        blocks[i].block = "log cabin";
        blocks[i].fabrics = fabrics;
        blocks[i].fabric_count = 3;
    }
    assert_int_equal(create(blocks, QC_MAX_BLOCKS + 1, &job, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.problem, "has 201 entries");
    /* 13 kinds of pieces each */
    assert_int_equal(create(blocks, QC_MAX_BLOCKS, &job, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.problem, "makes more than 2000 kinds of pieces");
    assert_string_equal(err.field, "blocks[153].block");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(groups_become_pieces),
        cmocka_unit_test(hands_are_counted_apart),
        cmocka_unit_test(what_is_on_the_ruler_stays),
        cmocka_unit_test(corners_need_not_be_whole),
        cmocka_unit_test(what_is_wrong_has_its_place),
        cmocka_unit_test(too_many_are_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
