/* Jobs that are right: defaults, sizes, copies. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "job/job.h"
#include "job/turn.h"
#include "job_draft.h"

static void assert_sentence(const qc_job *job, const char *sentence)
{
    for (size_t i = 0; i < job->default_count; i++)
        if (strcmp(job->defaults[i], sentence) == 0)
            return;
    for (size_t i = 0; i < job->default_count; i++)
        print_message("has: %s\n", job->defaults[i]);
    fail_msg("no sentence \"%s\"", sentence);
}

/* The defaults are those of the interchange form. */
static void test_defaults_inches(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_DEFAULT);
    job = draft_make(&d);
    assert_int_equal(job->units, QC_UNITS_IN);
    assert_int_equal(job->seam, QC_INCH / 4);
    assert_int_equal(job->ruler, QC_INCH / 8);
    assert_int_equal(job->keep, QC_INCH * 3 / 2);
    assert_int_equal(job->stages, 3);
    assert_int_equal(job->layers, 4);
    assert_int_equal(job->time_limit_ms, 10000);
    assert_int_equal(job->fabrics[2].width, 40 * QC_INCH);
    assert_int_equal(job->fabrics[2].print, QC_PRINT_PLAIN);
    assert_int_equal(job->fabrics[2].step, QC_YARD / 8);
    assert_int_equal(job->fabrics[2].square_up, QC_INCH / 2);
    assert_int_equal(job->fabrics[2].shrink_length, 0);
    assert_int_equal(job->fabrics[2].price, QC_DEFAULT);
    assert_string_equal(job->fabrics[2].name, "fog");
    assert_string_equal(job->title, "");
    assert_int_equal(job->goal_count, 4);
    assert_int_equal(job->goals[0], QC_GOAL_BOUGHT);
    assert_int_equal(job->goals[1], QC_GOAL_SETUPS);
    assert_int_equal(job->goals[2], QC_GOAL_CUTS);
    assert_int_equal(job->goals[3], QC_GOAL_LEFTOVER);
    assert_sentence(job, "units: inches");
    assert_sentence(job, "seam allowance: 1/4 in");
    assert_sentence(job, "ruler grid: 1/8 in");
    assert_sentence(job, "usable width of every fabric: 40 in");
    assert_sentence(job, "print of every fabric: plain");
    assert_sentence(job, "purchase step of every fabric: 1/8 yd");
    assert_sentence(job, "squaring-up of every fabric: 1/2 in");
    assert_sentence(job, "shrinkage in length of every fabric: none");
    assert_sentence(job, "spare pieces: none");
    assert_sentence(job, "least side of a leftover worth keeping: 1 1/2 in");
    assert_sentence(job, "layers cut at once: up to 4");
    assert_sentence(job, "stages of cutting: 3 (strips, subcuts, stacks)");
    assert_sentence(job, "goals in order: length to buy, different strips, "
                         "cuts, largest leftover");
    assert_sentence(job, "time limit: 10 seconds, unless set for the run");
    assert_int_equal(job->default_count, 14);
    qc_job_destroy(job);
}

static void test_defaults_metric(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_CM);
    d.fabrics[0].name = "Night blue";
    d.fabrics[2].width = 110 * QC_CM;
    d.fabrics[1].print = d.fabrics[2].print = QC_PRINT_PLAIN;
    job = draft_make(&d);
    assert_int_equal(job->seam, 6 * QC_MM);
    assert_int_equal(job->ruler, QC_MM);
    assert_int_equal(job->fabrics[0].width, 102 * QC_CM);
    assert_int_equal(job->fabrics[0].step, 10 * QC_CM);
    assert_int_equal(job->fabrics[0].square_up, 12 * QC_MM);
    assert_sentence(job, "seam allowance: 0.6 cm");
    assert_sentence(job, "usable width of Night blue and sand: 102 cm");
    assert_sentence(job, "print of Night blue: plain");
    assert_sentence(job, "purchase step of every fabric: 0.1 m");
    assert_sentence(job, "squaring-up of every fabric: 1.2 cm");
    qc_job_destroy(job);
}

/* What is stated is no default, and has no sentence. */
static void test_nothing_open(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.spec.title = "Saltmarsh throw";
    d.spec.ruler = QC_INCH / 4;
    d.spec.seam = 0;
    d.spec.stages = 2;
    d.spec.no_trim = true;
    d.spec.keep = QC_INCH;
    d.spec.layers = 8;
    d.spec.spare_count = 0;
    d.spec.time_limit_ms = 1;
    d.spec.goals[0] = QC_GOAL_MONEY;
    d.spec.goals[1] = QC_GOAL_LEFTOVER;
    d.spec.goal_count = 2;
    for (int i = 0; i < 3; i++) {
        d.fabrics[i].width = 42 * QC_INCH;
        d.fabrics[i].print = QC_PRINT_REVERSIBLE;
        d.fabrics[i].step = QC_YARD / 3;
        d.fabrics[i].square_up = 0;
        d.fabrics[i].shrink_length = 300;
        d.fabrics[i].price = 135000;
    }
    job = draft_make(&d);
    assert_int_equal(job->default_count, 0);
    assert_string_equal(job->title, "Saltmarsh throw");
    assert_true(job->no_trim);
    assert_int_equal(job->stages, 2);
    assert_int_equal(job->layers, 8);
    assert_int_equal(job->keep, QC_INCH);
    assert_int_equal(job->time_limit_ms, 1);
    assert_int_equal(job->goal_count, 2);
    assert_int_equal(job->goals[0], QC_GOAL_MONEY);
    assert_int_equal(job->fabrics[1].step, QC_YARD / 3);
    assert_int_equal(job->fabrics[1].square_up, 0);
    assert_int_equal(job->fabrics[1].shrink_length, 300);
    assert_int_equal(job->fabrics[1].price, 135000);
    assert_int_equal(job->fabrics[1].print, QC_PRINT_REVERSIBLE);
    qc_job_destroy(job);
}

/* Squares and rectangles: finished + 1/2 at a 1/4 in seam, the trade's rule and
 * exact geometry. The rest is arithmetic. */
static void test_sizes(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.pieces[1].size[0] = 2 * QC_INCH + 1; /* up to the next 1/8 */
    d.pieces[1].trim = QC_INCH / 8;
    d.pieces[2].is_cut = true;
    d.pieces[2].shape = QC_SHAPE_SQUARE;
    d.pieces[2].size[0] = 2 * QC_INCH + 1;
    d.pieces[2].size[1] = -5; /* a square has one size */
    job = draft_make(&d);
    assert_int_equal(job->pieces[0].cut[0], QC_INCH * 5 / 2);
    assert_int_equal(job->pieces[0].cut[1], QC_INCH * 9 / 2);
    assert_int_equal(job->pieces[0].finished[0], 2 * QC_INCH);
    assert_int_equal(job->pieces[0].finished[1], 4 * QC_INCH);
    assert_false(job->pieces[0].rounded);
    assert_int_equal(job->pieces[1].cut[0], QC_INCH * 22 / 8);
    assert_int_equal(job->pieces[1].cut[1], QC_INCH * 37 / 8);
    assert_int_equal(job->pieces[1].trim, QC_INCH / 8);
    assert_true(job->pieces[1].rounded);
    assert_int_equal(job->pieces[2].cut[0], 2 * QC_INCH + 1);
    assert_int_equal(job->pieces[2].cut[1], 2 * QC_INCH + 1);
    assert_int_equal(job->pieces[2].finished[0], 0);
    assert_false(job->pieces[2].rounded);
    assert_int_equal(job->pieces[2].fabric, 2);
    qc_job_destroy(job);
    /* 1/3 in, read as the next length above, comes to 7/8 like the exact one:
     * 1/3 + 1/2 = 0.8333. */
    draft_init(&d, QC_UNITS_IN);
    assert_int_equal(qc_length_parse("1/3", QC_UNITS_IN, QC_PARSE_UP,
                                     &d.pieces[0].size[0], NULL),
                     QC_STATUS_OK);
    d.pieces[0].size_rounded = true;
    job = draft_make(&d);
    assert_int_equal(job->pieces[0].cut[0], QC_INCH * 7 / 8);
    assert_true(job->pieces[0].rounded);
    qc_job_destroy(job);
    /* Rounded when it was read, and then on the ruler. */
    d.pieces[0].size[0] = 2 * QC_INCH;
    job = draft_make(&d);
    assert_int_equal(job->pieces[0].cut[0], QC_INCH * 5 / 2);
    assert_true(job->pieces[0].rounded);
    qc_job_destroy(job);
}

/* A finished half-square triangle of 3 with 1/8 for trimming comes from a
 * square of 3 + 1/8 + 7/8; quarter-square triangles from f + 1 1/4 (quilters'
 * handbooks and groups' hand-outs; exact geometry, rounded up to 1/8). */
static void test_triangles(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.pieces[0].shape = QC_SHAPE_HALF_SQUARE_TRIANGLE;
    d.pieces[0].size[0] = 3 * QC_INCH;
    d.pieces[0].size[1] = -7; /* a triangle has one size */
    d.pieces[0].trim = QC_INCH / 8;
    d.pieces[0].count = 95;
    d.pieces[1].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    d.pieces[1].size[0] = 6 * QC_INCH;
    d.pieces[1].count = 9;
    d.pieces[2].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    d.pieces[2].is_cut = true;
    d.pieces[2].size[0] = 7 * QC_INCH + 1; /* an odd number of units */
    d.pieces[2].facing = QC_FACING_KEPT;   /* nothing to keep on plain cloth */
    d.pieces[2].count = 7;
    d.spec.spare_count = 1;
    job = draft_make(&d);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(job->pieces[0].cut[i], 4 * QC_INCH);
        assert_int_equal(job->pieces[0].finished[i], 3 * QC_INCH);
        assert_int_equal(job->pieces[1].cut[i], QC_INCH * 29 / 4);
        assert_int_equal(job->pieces[2].cut[i], 7 * QC_INCH + 1);
        assert_int_equal(job->pieces[2].finished[i], 0);
    }
    assert_true(job->pieces[0].rounded);
    assert_false(job->pieces[2].rounded);
    /* What falls out beyond these is found when the squares are packed. */
    assert_int_equal(job->pieces[0].count, 96);
    assert_int_equal(job->pieces[0].spares, 1);
    assert_int_equal(job->pieces[1].count, 10);
    assert_int_equal(job->pieces[1].spares, 1);
    assert_int_equal(job->pieces[2].count, 8);
    qc_job_destroy(job);
    /* Without seams nothing is irrational, and nothing rounded. */
    d.spec.seam = 0;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].cut[0], 6 * QC_INCH);
    assert_false(job->pieces[1].rounded);
    qc_job_destroy(job);
}

/* Needed before a wash: needed / (1 - shrink), arithmetic. */
static void test_raw_width(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.fabrics[0].raw_width = 44 * QC_INCH;
    d.fabrics[0].shrink_width = 250;
    d.fabrics[1].raw_width = 10001;
    d.fabrics[1].shrink_width = 1;
    d.fabrics[2].width = 42 * QC_INCH; /* as it will be cut: stays */
    d.fabrics[2].shrink_width = 250;
    d.pieces[1].fabric = "night";
    job = draft_make(&d);
    assert_int_equal(job->fabrics[0].width, QC_INCH * 429 / 10);
    assert_int_equal(job->fabrics[1].width, 9999); /* 9999.9999, down */
    assert_int_equal(job->fabrics[2].width, 42 * QC_INCH);
    for (size_t i = 0; i < job->default_count; i++)
        assert_null(strstr(job->defaults[i], "usable width"));
    qc_job_destroy(job);
}

static void test_spares(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.spec.spare_count = 3;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1].count, 13);
    assert_int_equal(job->pieces[1].spares, 3);
    qc_job_destroy(job);
    draft_init(&d, QC_UNITS_IN);
    d.spec.spare_percent = 500;
    d.pieces[1].count = 20;
    d.pieces[2].count = 21;
    job = draft_make(&d);
    assert_int_equal(job->pieces[0].count, 11); /* 0.5, up */
    assert_int_equal(job->pieces[1].count, 21);
    assert_int_equal(job->pieces[2].count, 23); /* 1.05, up */
    assert_int_equal(job->pieces[2].spares, 2);
    qc_job_destroy(job);
}

/* The job owns its texts. */
static void test_copies(void **state)
{
    char id[] = "night";
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.fabrics[0].id = id;
    job = draft_make(&d);
    memset(id, 'x', 5);
    memset(&d, 0x5A, sizeof d);
    assert_string_equal(job->fabrics[0].id, "night");
    assert_string_equal(job->fabrics[0].name, "night");
    assert_string_equal(job->pieces[1].id, "B");
    qc_job_destroy(job);
}

/* A fabric that nothing is cut from is allowed. */
static void test_idle_fabric(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.spec.piece_count = 1;
    job = draft_make(&d);
    assert_int_equal(job->fabric_count, 3);
    assert_int_equal(job->piece_count, 1);
    qc_job_destroy(job);
}

/* Just fitting, and turned to fit. */
static void test_possible(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.pieces[0].size[0] = d.pieces[0].size[1] = QC_INCH * 79 / 2;
    d.pieces[1].size[0] = 72 * QC_INCH;
    d.pieces[2].size[1] = 72 * QC_INCH;
    d.fabrics[2].print = QC_PRINT_ONE_WAY;
    d.pieces[2].grain = QC_GRAIN_CROSSWISE;
    job = draft_make(&d);
    assert_true(
        qci_piece_fits(&job->pieces[0], &job->fabrics[0], QC_TURN_NONE));
    assert_false(
        qci_piece_fits(&job->pieces[1], &job->fabrics[1], QC_TURN_NONE));
    assert_true(
        qci_piece_fits(&job->pieces[1], &job->fabrics[1], QC_TURN_QUARTER));
    assert_false(
        qci_piece_fits(&job->pieces[2], &job->fabrics[2], QC_TURN_QUARTER));
    qc_job_destroy(job);
}

/* The largest job there may be is made at once. */
static void test_largest(void **state)
{
    static qc_fabric_spec fabrics[QC_MAX_FABRICS];
    static qc_piece_spec pieces[QC_MAX_PIECES];
    static char ids[QC_MAX_PIECES][16];
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_MM);
    for (int i = 0; i < QC_MAX_PIECES; i++) {
        snprintf(ids[i], sizeof ids[i], "p%d", i);
        pieces[i] = d.pieces[0];
        pieces[i].id = ids[i];
        pieces[i].fabric = ids[i % QC_MAX_FABRICS];
    }
    for (int i = 0; i < QC_MAX_FABRICS; i++) {
        fabrics[i] = d.fabrics[0];
        fabrics[i].id = ids[i];
    }
    fabrics[0].width = QC_M;
    d.spec.fabrics = fabrics;
    d.spec.fabric_count = QC_MAX_FABRICS;
    d.spec.pieces = pieces;
    d.spec.piece_count = QC_MAX_PIECES;
    job = draft_make(&d);
    assert_int_equal(job->pieces[1999].fabric, 199);
    qc_job_destroy(job);
    pieces[1999].id = "p0";
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[1999].id", "pieces[0]");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_defaults_inches),
        cmocka_unit_test(test_defaults_metric),
        cmocka_unit_test(test_nothing_open),
        cmocka_unit_test(test_sizes),
        cmocka_unit_test(test_triangles),
        cmocka_unit_test(test_raw_width),
        cmocka_unit_test(test_spares),
        cmocka_unit_test(test_copies),
        cmocka_unit_test(test_idle_fabric),
        cmocka_unit_test(test_possible),
        cmocka_unit_test(test_largest),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
