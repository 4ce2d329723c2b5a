/* Jobs that are wrong or impossible: which message, at which place. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "job_draft.h"

static void test_refused_head(void **state)
{
    (void)state;
    REFUSE(d.spec.units = (qc_units)7, "units", "is no unit");
    REFUSE(d.spec.ruler = 0, "ruler", "must not be 0");
    REFUSE(d.spec.ruler = -5, "ruler", "is negative");
    REFUSE(d.spec.ruler = 8 * QC_INCH, "ruler", "is too large");
    REFUSE(d.spec.seam = -2, "seam", "is negative");
    REFUSE(d.spec.seam = INT64_MAX, "seam", "is too large");
    REFUSE(d.spec.seam = INT64_MIN, "seam", "is negative");
    REFUSE(d.spec.stages = 1, "options.stages", "is too small");
    REFUSE(d.spec.stages = 4, "options.stages", "is too large");
    REFUSE(d.spec.keep = 0, "options.keep", "must not be 0");
    REFUSE(d.spec.keep = 11 * QC_M, "options.keep", "is too large");
    REFUSE(d.spec.layers = 0, "options.layers", "must not be 0");
    REFUSE(d.spec.layers = 9, "options.layers", "is too large");
    REFUSE(d.spec.time_limit_ms = 0, "options.time_limit", "out of range");
    REFUSE(d.spec.time_limit_ms = INT32_MAX, "options.time_limit", "out of");
    REFUSE(d.spec.spare_count = -2, "options.spare", "is negative");
    REFUSE(d.spec.spare_count = INT64_MAX, "options.spare", "is too large");
    REFUSE(d.spec.spare_percent = 100001, "options.spare", "is too large");
    REFUSE(d.spec.spare_percent = INT32_MIN, "options.spare", "is negative");
    REFUSE((d.spec.spare_percent = 1, d.spec.spare_count = 1), "options.spare",
           "both");
    REFUSE((d.spec.goal_count = 1, d.spec.goals[0] = (qc_goal)6),
           "options.objective[0]", "is no goal");
    REFUSE((d.spec.goal_count = 1, d.spec.goals[0] = (qc_goal)-1),
           "options.objective[0]", "is no goal");
    REFUSE((d.spec.goal_count = 3, d.spec.goals[0] = QC_GOAL_CUTS,
            d.spec.goals[2] = QC_GOAL_CUTS),
           "options.objective[2]", "repeats");
    REFUSE(d.spec.goal_count = 7, "options.objective", "too many");
    REFUSE((d.spec.goal_count = 1, d.spec.goals[0] = QC_GOAL_MONEY),
           "fabrics[0].price", "is missing");
    REFUSE(d.spec.title = "a\xFF", "title", "UTF-8");
    REFUSE(d.spec.title = "a\nb", "title", "control character (byte 2)");
    REFUSE(d.spec.fabric_count = 0, "fabrics", "0 entries");
    REFUSE(d.spec.fabrics = NULL, "fabrics", "0 entries");
    REFUSE(d.spec.fabric_count = 201, "fabrics", "201 entries");
    REFUSE(d.spec.piece_count = 0, "pieces", "nothing to cut");
    REFUSE(d.spec.pieces = NULL, "pieces", "nothing to cut");
    REFUSE(d.spec.piece_count = 2001, "pieces", "2001 entries");
}

static void test_refused_fabric(void **state)
{
    char longest[QC_MAX_TEXT_BYTES + 2];

    (void)state;
    memset(longest, 'n', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    REFUSE(d.fabrics[1].id = NULL, "fabrics[1].id", "is missing");
    REFUSE(d.fabrics[1].id = "", "fabrics[1].id", "empty");
    REFUSE(d.fabrics[1].id = longest, "fabrics[1].id", "201 bytes");
    REFUSE(d.fabrics[1].id = "\xC0\x80", "fabrics[1].id", "UTF-8");
    REFUSE(d.fabrics[1].id = "a\x1B[2J", "fabrics[1].id", "control");
    REFUSE(d.fabrics[1].id = "a\xC2\x9B", "fabrics[1].id", "control");
    REFUSE(d.fabrics[1].id = "a\xEF\xBF\xBF", "fabrics[1].id",
           "a code that is no character (byte 2)");
    REFUSE(d.fabrics[1].name = "sea \xE2\x80\xAE"
                               "4",
           "fabrics[1].name",
           "a code for line breaks or writing direction (byte 5)");
    REFUSE(d.fabrics[1].id = "a\xE2\x81\xA6", "fabrics[1].id", "direction");
    REFUSE(d.spec.title = "a\xE2\x80\xA8", "title", "line breaks");
    REFUSE(d.fabrics[2].id = "night", "fabrics[2].id", "id of fabrics[0]");
    REFUSE(d.fabrics[1].name = "", "fabrics[1].name", "empty");
    REFUSE(d.fabrics[1].name = longest, "fabrics[1].name", "201 bytes");
    REFUSE(d.fabrics[1].name = "a\x7F", "fabrics[1].name", "control");
    REFUSE(d.fabrics[0].width = 0, "fabrics[0].width", "must not be 0");
    REFUSE(d.fabrics[0].width = -3, "fabrics[0].width", "is negative");
    REFUSE(d.fabrics[0].width = QC_MAX_WIDTH + 1, "fabrics[0].width", "large");
    REFUSE(d.fabrics[0].raw_width = 0, "fabrics[0].raw_width", "must not be 0");
    REFUSE(d.fabrics[0].raw_width = INT64_MAX, "fabrics[0].raw_width", "large");
    REFUSE(d.fabrics[0].raw_width = d.fabrics[0].width = QC_M,
           "fabrics[0].raw_width", "beside width");
    REFUSE((d.fabrics[0].raw_width = 1, d.fabrics[0].shrink_width = 1),
           "fabrics[0].raw_width", "leaves no width");
    REFUSE(d.fabrics[2].shrink_length = 10000, "fabrics[2].shrink.length",
           "is too large");
    REFUSE(d.fabrics[2].shrink_length = -2, "fabrics[2].shrink.length",
           "is negative");
    REFUSE(d.fabrics[2].shrink_width = 10000, "fabrics[2].shrink.width",
           "is too large");
    REFUSE(d.fabrics[2].print = (qc_print)4, "fabrics[2].print", "is no print");
    REFUSE(d.fabrics[2].step = 0, "fabrics[2].step", "must not be 0");
    REFUSE(d.fabrics[2].step = 11 * QC_M, "fabrics[2].step", "is too large");
    REFUSE(d.fabrics[2].square_up = -9, "fabrics[2].square_up", "is negative");
    REFUSE(d.fabrics[2].square_up = 2 * QC_M, "fabrics[2].square_up", "large");
    REFUSE(d.fabrics[2].price = -2, "fabrics[2].price", "is negative");
    REFUSE(d.fabrics[2].price = QC_MAX_PRICE + 1, "fabrics[2].price",
           "is too large");
}

static void test_refused_piece(void **state)
{
    (void)state;
    REFUSE(d.pieces[1].id = NULL, "pieces[1].id", "is missing");
    REFUSE(d.pieces[1].id = "", "pieces[1].id", "empty");
    REFUSE(d.pieces[1].id = "A", "pieces[1].id", "id of pieces[0]");
    REFUSE(d.pieces[1].id = "\xED\xA0\x80", "pieces[1].id", "UTF-8");
    REFUSE(d.pieces[1].fabric = NULL, "pieces[1].fabric", "is missing");
    REFUSE(d.pieces[1].fabric = "", "pieces[1].fabric", "empty");
    REFUSE(d.pieces[1].fabric = "nigth", "pieces[1].fabric",
           "is the id of no fabric; the nearest is \"night\"");
    REFUSE(d.pieces[1].fabric = "meadow", "pieces[1].fabric",
           "is the id of no fabric");
    REFUSE(d.pieces[1].shape = (qc_shape)12, "pieces[1].shape", "is no shape");
    REFUSE(d.pieces[1].facing = (qc_facing)2, "pieces[1].facing",
           "is no facing");
    REFUSE(d.pieces[1].grain = (qc_grain)4, "pieces[1].grain", "is no grain");
    REFUSE(d.pieces[2].size[0] = 0, "pieces[2].finished[0]", "must not be 0");
    REFUSE(d.pieces[2].size[1] = -1, "pieces[2].finished[1]", "is negative");
    REFUSE((d.pieces[2].size[1] = 0, d.pieces[2].is_cut = true),
           "pieces[2].cut[1]", "must not be 0");
    REFUSE((d.pieces[2].size[0] = 0, d.pieces[2].is_cut = true,
            d.pieces[2].shape = QC_SHAPE_SQUARE),
           "pieces[2].cut", "must not be 0");
    REFUSE(d.pieces[2].size[1] = QC_LENGTH_MAX + 1, "pieces[2].finished[1]",
           "is too large");
    REFUSE(d.pieces[2].size[1] = INT64_MAX, "pieces[2].finished[1]",
           "is too large");
    REFUSE((d.pieces[2].is_cut = true, d.pieces[2].size_rounded = true),
           "pieces[2].cut", "must not have been rounded");
    REFUSE(d.pieces[2].trim = -2, "pieces[2].trim", "is negative");
    REFUSE(d.pieces[2].trim = INT64_MAX, "pieces[2].trim", "is too large");
    REFUSE((d.pieces[2].trim = 2 * QC_INCH, d.pieces[2].is_cut = true),
           "pieces[2].trim", "trims the whole piece away");
    REFUSE(d.pieces[0].count = 0, "pieces[0].count", "must not be 0");
    REFUSE(d.pieces[0].count = -1, "pieces[0].count", "is negative");
    REFUSE(d.pieces[0].count = INT64_C(1) << 31, "pieces[0].count", "large");
    REFUSE(d.pieces[0].count = INT64_MAX, "pieces[0].count", "is too large");
    REFUSE((d.pieces[0].count = QC_MAX_COUNT, d.spec.spare_count = 1),
           "pieces[0].count", "with its 1 spares");
}

static void test_refused_triangle(void **state)
{
    const qc_shape half = QC_SHAPE_HALF_SQUARE_TRIANGLE;

    (void)state;
    REFUSE(d.pieces[1].facing = QC_FACING_KEPT, "pieces[1].facing",
           "is for half- and quarter-square triangles");
    REFUSE((d.pieces[1].shape = half, d.pieces[1].grain = QC_GRAIN_CROSSWISE),
           "pieces[1].grain", "whose grain follows from their squares");
    REFUSE((d.pieces[1].shape = half, d.pieces[1].size[0] = 0),
           "pieces[1].finished", "must not be 0");
    REFUSE((d.pieces[1].shape = half, d.pieces[1].is_cut = true,
            d.pieces[1].trim = QC_INCH / 8),
           "pieces[1].trim", "which a cut size does not tell");
    /* With the triangle that a square gives beside the one asked for. */
    REFUSE((d.pieces[1].shape = half, d.pieces[1].count = QC_MAX_COUNT - 1,
            d.spec.spare_count = 2),
           "pieces[1].count", "is too large with its");
}

/* What an undefined fabric is told: nearest id, and the ids there are. */
static void test_message(void **state)
{
    qc_job *job;
    qc_error err;
    char line[400];
    draft d;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.pieces[1].fabric = "Sandd";
    qc_error_init(&err);
    assert_int_equal(qc_job_create(&d.spec, &job, &err), QC_STATUS_INVALID);
    qc_error_format(&err, NULL, line, sizeof line);
    assert_string_equal(line, "pieces[1].fabric: Sandd: is the id of no "
                              "fabric; the nearest is \"sand\" (allowed: "
                              "night, sand, fog)");
}

#define IMPOSSIBLE(change, field, problem)                                     \
    do {                                                                       \
        draft d;                                                               \
        draft_init(&d, QC_UNITS_IN);                                           \
        change;                                                                \
        draft_refuse(&d, QC_STATUS_IMPOSSIBLE, field, problem);                \
    } while (0)

static void test_impossible(void **state)
{
    const qc_length wide = 41 * QC_INCH;

    (void)state;
    IMPOSSIBLE((d.pieces[1].size[0] = wide, d.pieces[1].size[1] = wide),
               "pieces[1].finished",
               "piece B does not fit across fabric sand, turned or not");
    IMPOSSIBLE((d.pieces[1].size[0] = wide, d.pieces[1].is_cut = true,
                d.fabrics[1].print = QC_PRINT_ONE_WAY),
               "pieces[1].cut", "the one-way print forbids");
    IMPOSSIBLE(
        (d.pieces[1].size[0] = wide, d.fabrics[1].print = QC_PRINT_TWO_WAY),
        "pieces[1].finished", "the two-way print forbids");
    IMPOSSIBLE(
        (d.pieces[1].size[0] = wide, d.pieces[1].grain = QC_GRAIN_CROSSWISE),
        "pieces[1].finished", "the grain asked for forbids");
    IMPOSSIBLE(
        (d.pieces[1].size[1] = wide, d.pieces[1].grain = QC_GRAIN_LENGTHWISE),
        "pieces[1].finished", "the grain asked for forbids");
    IMPOSSIBLE((d.pieces[1].grain = QC_GRAIN_LENGTHWISE,
                d.fabrics[1].print = QC_PRINT_ONE_WAY),
               "pieces[1].grain", "which the one-way print of fabric sand");
    IMPOSSIBLE((d.pieces[1].grain = QC_GRAIN_LENGTHWISE,
                d.pieces[1].shape = QC_SHAPE_SQUARE,
                d.fabrics[1].print = QC_PRINT_TWO_WAY),
               "pieces[1].grain", "which the two-way print of fabric sand");
    /* A seam's width too much: 39 1/2 + 1/2 fits 40 in, 39 5/8 does not. */
    IMPOSSIBLE((d.pieces[1].size[0] = d.pieces[1].size[1] = QC_INCH * 317 / 8),
               "pieces[1].finished", "does not fit");
    /* 39 1/8 + 7/8 fits 40 in, 39 1/4 does not. */
    IMPOSSIBLE((d.pieces[1].shape = QC_SHAPE_HALF_SQUARE_TRIANGLE,
                d.pieces[1].size[0] = QC_INCH * 314 / 8),
               "pieces[1].finished", "does not fit");
    /* A wrong value anywhere comes before an impossible piece. */
    REFUSE((d.pieces[1].size[0] = d.pieces[1].size[1] = wide,
            d.pieces[2].count = 0),
           "pieces[2].count", "must not be 0");
}

/* The message has both sizes and both names. */
static void test_impossible_message(void **state)
{
    qc_job *job;
    qc_error err;
    char line[400];
    draft d;

    (void)state;
    draft_init(&d, QC_UNITS_IN);
    d.pieces[1].size[0] = 44 * QC_INCH;
    d.fabrics[1].print = QC_PRINT_ONE_WAY;
    qc_error_init(&err);
    assert_int_equal(qc_job_create(&d.spec, &job, &err), QC_STATUS_IMPOSSIBLE);
    qc_error_format(&err, NULL, line, sizeof line);
    assert_string_equal(
        line, "pieces[1].finished: cut 44 1/2 x 4 1/2 in: piece B does not fit "
              "across fabric sand; the one-way print forbids a quarter turn "
              "(allowed: at most 40 in across, the usable width)");
}

/* 4 294.967296 m = QC_LENGTH_MAX. Strips of 1 m, one piece across: 4 294 of
 * them with nothing else stay within it, 4 295 do not. */
static void test_total(void **state)
{
    draft d;
    qc_job *job;

    (void)state;
    draft_init(&d, QC_UNITS_CM);
    for (int i = 0; i < 3; i++) {
        d.pieces[i].fabric = "sand";
        d.pieces[i].is_cut = true;
        d.pieces[i].size[0] = d.pieces[i].size[1] = QC_M;
        d.pieces[i].count = 1000;
    }
    d.fabrics[1].square_up = 0;
    d.pieces[2].count = 2294;
    job = draft_make(&d);
    qc_job_destroy(job);
    d.pieces[2].count = 2295;
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[2].count",
                 "takes fabric sand beyond the greatest length");
    d.pieces[2].count = QC_MAX_COUNT;
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[2].count", "beyond");
    d.pieces[2].size[1] = QC_LENGTH_MAX;
    d.pieces[2].count = QC_MAX_COUNT;
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[2].count", "beyond");
    /* Shrinkage counts, and so does squaring-up. */
    d.pieces[2].size[1] = QC_M;
    d.pieces[2].count = 2294;
    d.fabrics[1].shrink_length = 10;
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[2].count", "beyond");
    d.fabrics[1].shrink_length = 0;
    d.fabrics[1].square_up = 97 * QC_CM;
    draft_refuse(&d, QC_STATUS_INVALID, "pieces[2].count", "beyond");
}

static void test_versions(void **state)
{
    struct {
        draft d;
        char newer[64];
    } *big = calloc(1, sizeof *big);
    qc_job_spec *spec;
    qc_job *job = NULL;
    unsigned char *bytes;
    draft d;

    (void)state;
    assert_non_null(big);
    draft_init(&d, QC_UNITS_IN);
    d.spec.struct_size = 8;
    draft_refuse(&d, QC_STATUS_INVALID, "struct_size", "is too small");
    d.spec.struct_size = 0;
    draft_refuse(&d, QC_STATUS_INVALID, "struct_size", "is too small");
    /* A spec of a later version: fine while its news are 0. */
    spec = (qc_job_spec *)(void *)big;
    bytes = (unsigned char *)big;
    *spec = d.spec;
    memset(bytes + sizeof *spec, 0, 32);
    spec->struct_size = (uint32_t)sizeof *spec + 32;
    assert_int_equal(qc_job_create(spec, &job, NULL), QC_STATUS_OK);
    qc_job_destroy(job);
    bytes[sizeof *spec + 31] = 1;
    assert_int_equal(qc_job_create(spec, &job, NULL), QC_STATUS_INVALID);
    assert_null(job);
    free(big);
    assert_int_equal(qc_job_create(NULL, &job, NULL), QC_STATUS_INVALID);
    assert_int_equal(qc_job_create(&d.spec, NULL, NULL), QC_STATUS_INVALID);
    qc_job_destroy(NULL);
}

static void test_no_memory(void **state)
{
    draft d;
    long n;

    (void)state;
    draft_init(&d, QC_UNITS_DEFAULT);
    for (int onwards = 0; onwards < 2; onwards++) {
        for (n = 1;; n++) {
            qc_job *job = NULL;
            qc_error err;
            qc_status status;

            qc_error_init(&err);
            qci_alloc_fail_at(n, onwards);
            status = qc_job_create(&d.spec, &job, &err);
            qci_alloc_fail_at(0, 0);
            if (status == QC_STATUS_OK) {
                qc_job_destroy(job);
                break;
            }
            assert_int_equal(status, QC_STATUS_NO_MEMORY);
            assert_int_equal(err.code, QC_STATUS_NO_MEMORY);
            assert_null(job);
            assert_int_equal(qci_alloc_live(), 0);
        }
        assert_true(n > 20);
    }
    assert_int_equal(qci_alloc_live(), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_refused_head),
        cmocka_unit_test(test_refused_fabric),
        cmocka_unit_test(test_refused_piece),
        cmocka_unit_test(test_refused_triangle),
        cmocka_unit_test(test_message),
        cmocka_unit_test(test_impossible),
        cmocka_unit_test(test_impossible_message),
        cmocka_unit_test(test_total),
        cmocka_unit_test(test_versions),
        cmocka_unit_test(test_no_memory),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
