/* Checking triangles and what is cut at an angle. How many come out of a strip
 * follows by floors: parallel cuts take a wedge once, sections that are turned
 * half of one at either end. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

static qc_status try_check(const char *pieces, const char *steps,
                           qc_check **check, qc_error *err)
{
    qc_instructions *made = NULL;
    qc_check_options options;
    char text[4096];
    qc_status status;

    snprintf(text, sizeof text,
             "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"width\": 40}], "
             "\"pieces\": [%s], \"steps\": [%s]}",
             pieces, steps);
    qc_error_init(err);
    qc_check_options_init(&options);
    options.skip_optimum = true;
    status = qc_instructions_parse(text, strlen(text), &made, err);
    if (!status)
        status = qc_instructions_check(made, &options, check, err);
    qc_instructions_destroy(made);
    return status;
}

static qc_check *check_of(const char *pieces, const char *steps)
{
    qc_check *check = NULL;
    qc_error err;

    if (try_check(pieces, steps, &check, &err))
        fail_msg("%s: %s: %s", steps, err.field, err.problem);
    return check;
}

static void clean(const char *pieces, const char *steps)
{
    qc_check *check = check_of(pieces, steps);

    if (qc_check_finding_count(check))
        fail_msg("%s", qc_check_finding_at(check, 0)->text);
    qc_check_destroy(check);
}

/* There is one finding, of that kind, with such words. */
static void found(const char *pieces, const char *steps, qc_finding_kind kind,
                  const char *words)
{
    qc_check *check = check_of(pieces, steps);
    const qc_finding *finding = qc_check_finding_at(check, 0);

    assert_non_null(finding);
    if (finding->kind != kind || !strstr(finding->text, words))
        fail_msg("\"%s\" lacks \"%s\"", finding->text, words);
    assert_int_equal(qc_check_finding_count(check), 1);
    qc_check_destroy(check);
}

static void refused(const char *pieces, const char *steps, const char *field,
                    const char *problem)
{
    qc_check *check = NULL;
    qc_error err;

    assert_int_equal(try_check(pieces, steps, &check, &err), QC_STATUS_INVALID);
    assert_string_equal(err.field, field);
    if (!strstr(err.problem, problem))
        fail_msg("\"%s\" lacks \"%s\"", err.problem, problem);
}

#define PIECE(shape, rest)                                                     \
    "{\"id\": \"A\", \"fabric\": \"f\", \"shape\": \"" shape "\", " rest "}"
#define STRIPS(n, width)                                                       \
    "{\"do\": \"strips\", \"fabric\": \"f\", \"count\": " #n ", \"width\": "   \
    "\"" width "\", \"name\": \"s\"}, "
#define SQUARES(n, size)                                                       \
    "{\"do\": \"subcut\", \"from\": \"s\", \"size\": \"" size "\", "           \
    "\"count\": " #n ", \"name\": \"t\"}, "
#define HALVES "{\"do\": \"diagonal\", \"from\": \"t\", \"piece\": \"A\"}"
#define QUARTERS                                                               \
    "{\"do\": \"diagonal\", \"from\": \"t\", \"times\": 2, \"piece\": \"A\"}"
#define SLANT(how)                                                             \
    "{\"do\": \"subcut\", \"from\": \"s\", " how ", \"piece\": \"A\"}"

static void triangles_from_squares(void **state)
{
    const char *half =
        PIECE("half-square triangle", "\"finished\": 3, \"count\": 20");
    const char *quarter =
        PIECE("quarter-square triangle", "\"finished\": 6, \"count\": 20");

    (void)state;
    clean(half, STRIPS(1, "3 7/8") SQUARES(10, "3 7/8") HALVES);
    clean(quarter, STRIPS(1, "7 1/4") SQUARES(5, "7 1/4") QUARTERS);
    found(half, STRIPS(1, "3 7/8") SQUARES(9, "3 7/8") HALVES,
          QC_FINDING_SHORT_PIECES, "the steps cut 18: 2 short");
    found(half, STRIPS(1, "4") SQUARES(10, "4") HALVES, QC_FINDING_SIZE,
          "takes squares of 3 7/8 in: 1/8 in too large");
    found(quarter,
          STRIPS(1, "7 1/4")
              SQUARES(5, "7 1/4") "{\"do\": "
                                  "\"diagonal\", \"from\": \"t\", \"times\": "
                                  "2, \"count\": 6, "
                                  "\"piece\": \"A\"}",
          QC_FINDING_SHORT_STEP, "6 squares for piece A from 5 sections (t)");
    /* Ten squares cut once are twenty halves, but no quarters. */
    found(quarter, STRIPS(2, "7 1/4") SQUARES(10, "7 1/4") HALVES,
          QC_FINDING_SHAPE, "squares cut twice corner to corner");
    found(half, STRIPS(2, "3 7/8") SLANT("\"size\": \"3 7/8\""),
          QC_FINDING_SHAPE, "a square cut gives rectangles");
}

static void a_cloth_that_is_no_square(void **state)
{
    (void)state;
    found(PIECE("half-square triangle", "\"cut\": 4, \"count\": 20"),
          STRIPS(1, "4") SQUARES(10, "3 3/4") HALVES, QC_FINDING_SIZE,
          "1/4 in too small one way");
}

static void parallel_cuts(void **state)
{
    const char *diamond =
        PIECE("diamond", "\"angle\": 45, \"cut\": 2, \"count\": 13");

    (void)state;
    /* (40 - 2) / 2.828 = 13.4 */
    clean(diamond, STRIPS(1, "2") SLANT("\"angle\": 45, \"size\": 2"));
    clean(diamond, STRIPS(1, "2") SLANT("\"angle\": 135, \"size\": 2"));
    found(diamond,
          STRIPS(1, "2") SLANT("\"angle\": 45, \"size\": 2, \"count\": 14"),
          QC_FINDING_SHORT_STEP, "13 come out");
    found(diamond, STRIPS(1, "2 1/4") SLANT("\"angle\": 45, \"size\": 2"),
          QC_FINDING_SIZE, "1/4 in too wide a strip");
    found(PIECE("diamond", "\"angle\": 45, \"cut\": 2, \"count\": 12"),
          STRIPS(1, "2") SLANT("\"angle\": 45, \"size\": \"2 1/8\""),
          QC_FINDING_SIZE, "1/8 in too far apart");
}

static void a_strip_goes_on_slanted(void **state)
{
    const char *diamond =
        PIECE("diamond", "\"angle\": 45, \"cut\": 2, \"count\": 13");

    (void)state;
    /* The second step needs no new wedge: 6 and 7 come out of one strip. */
    clean(diamond,
          STRIPS(1, "2")
              SLANT("\"angle\": 45, \"size\": 2, \"count\": 6") ", " SLANT(
                  "\"angle\": 45, \"size\": 2, \"count\": 7"));
    /* Leaning the other way it costs a wedge of 2 in at either edge: (40 -
     * 8.485 - 2 - 4) / 2.828 = 9.02 from 6 on, and 3 sections go first. */
    found(diamond,
          STRIPS(1, "2")
              SLANT("\"angle\": 45, \"size\": 2, \"count\": 3") ", " SLANT(
                  "\"angle\": 135, \"size\": 2, \"count\": 10"),
          QC_FINDING_SHORT_STEP, "9 come out");
}

static void hands(void **state)
{
    const char *both =
        PIECE("parallelogram", "\"angle\": 60, \"cut\": [2, 3], \"count\": "
                               "{\"left\": 3, \"right\": 3}");
    const char *form = STRIPS(
        1, "3") "{\"do\": \"subcut\", \"from\": \"s\", \"angle\": %d, "
                "\"size\": 2, "
                "\"count\": 3, \"piece\": \"A left\"}, {\"do\": \"subcut\", "
                "\"from\": "
                "\"s\", \"angle\": %d, \"size\": 2, \"count\": 3, \"piece\": "
                "\"A right\"}";
    char steps[1024];

    (void)state;
    snprintf(steps, sizeof steps, form, 120, 60);
    clean(both, steps);
    snprintf(steps, sizeof steps, form, 60, 60);
    found(both, steps, QC_FINDING_ANGLE, "cut it at 120 degrees");
    snprintf(steps, sizeof steps, form, 120, 45);
    found(both, steps, QC_FINDING_ANGLE, "right would be 60 degrees");
}

static void sections_in_turns(void **state)
{
    const char *triangle =
        PIECE("equilateral triangle", "\"cut\": 3, \"count\": 22");
    const char *trapezoid =
        PIECE("trapezoid", "\"cut\": [4, 2, 3], \"count\": 12");
    qc_check *check;

    (void)state;
    /* Side 3.464: (40 - 3.464) / 1.732 = 21.09, and one more. */
    clean(triangle, STRIPS(1, "3") SLANT("\"angle\": 60, \"alternate\": true"));
    found(triangle,
          STRIPS(1, "3") SLANT("\"angle\": 60, \"alternate\": true, "
                               "\"count\": 23"),
          QC_FINDING_SHORT_STEP, "22 come out");
    /* The slant runs 3 in either way, more than a long side of 4 in has. */
    check = check_of(triangle,
                     STRIPS(1, "3") SLANT("\"angle\": 45, \"alternate\": true, "
                                          "\"size\": 4, \"count\": 22"));
    assert_int_equal(qc_check_finding_at(check, 0)->kind,
                     QC_FINDING_SHORT_STEP);
    assert_int_equal(qc_check_finding_at(check, 0)->count, 22);
    qc_check_destroy(check);
    /* 1 in of run on 3 in of height; (40 - 1) / 3 = 13. */
    clean(trapezoid,
          STRIPS(1, "3") SLANT("\"angle\": 71.565051, \"alternate\": "
                               "true, \"size\": 4, \"count\": 12"));
    found(trapezoid,
          STRIPS(1, "3") SLANT("\"angle\": 71.565051, \"alternate\": true, "
                               "\"size\": \"4 1/4\", \"count\": 12"),
          QC_FINDING_SIZE, "1/4 in too long a side");
    found(trapezoid,
          STRIPS(1, "3") SLANT("\"angle\": 60, \"alternate\": true, "
                               "\"size\": 4, \"count\": 12"),
          QC_FINDING_ANGLE, "1 in over a height of 3 in");
}

static void what_makes_no_sense(void **state)
{
    const char *square = PIECE("square", "\"cut\": 3, \"count\": 1");

    (void)state;
    refused(square, STRIPS(1, "3") SLANT("\"size\": 3, \"alternate\": true"),
            "steps[1].angle", "is missing");
    refused(square, STRIPS(1, "3") SLANT("\"angle\": 45"), "steps[1].size",
            "is missing");
    refused(square, STRIPS(1, "3") SLANT("\"angle\": 0.5, \"size\": 3"),
            "steps[1].angle", "too flat");
    refused(square,
            STRIPS(1, "3") SQUARES(1, "3") "{\"do\": \"subcut\", \"from\": "
                                           "\"t\", \"angle\": 45, \"size\": 1}",
            "steps[2].angle", "across strips");
    refused(square,
            STRIPS(1, "3")
                SQUARES(1, "3") "{\"do\": \"diagonal\", \"from\": "
                                "\"t\", \"times\": 3, \"piece\": \"A\"}",
            "steps[2].times", "too large");
    refused(PIECE("hexagon", "\"finished\": 2, \"count\": 4"),
            STRIPS(1, "4") SLANT("\"angle\": 60, \"size\": 4"),
            "steps[1].piece", "cannot tell yet");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(triangles_from_squares),
        cmocka_unit_test(a_cloth_that_is_no_square),
        cmocka_unit_test(parallel_cuts),
        cmocka_unit_test(a_strip_goes_on_slanted),
        cmocka_unit_test(hands),
        cmocka_unit_test(sections_in_turns),
        cmocka_unit_test(what_makes_no_sense),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
