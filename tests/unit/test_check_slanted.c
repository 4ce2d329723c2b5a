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

#include "check_expect.h"

static const char *text_of(const char *pieces, const char *steps)
{
    static char text[4096];

    snprintf(text, sizeof text,
             "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"width\": 40}], "
             "\"pieces\": [%s], \"steps\": [%s]}",
             pieces, steps);
    return text;
}

static void clean(const char *pieces, const char *steps)
{
    check_clean(text_of(pieces, steps));
}

static void found(const char *pieces, const char *steps, qc_finding_kind kind,
                  const char *words)
{
    check_found(text_of(pieces, steps), kind, QC_NONE, words);
}

static void refused(const char *pieces, const char *steps, const char *field,
                    const char *problem)
{
    check_refused(text_of(pieces, steps), field, problem);
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
    check = check_of(text_of(
        triangle, STRIPS(1, "3") SLANT("\"angle\": 45, \"alternate\": true, "
                                       "\"size\": 4, \"count\": 22")));
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
}

#define SECTIONS(how)                                                          \
    "{\"do\": \"subcut\", \"from\": \"s\", " how ", \"name\": \"t\"}, "
#define TRIM(more)                                                             \
    "{\"do\": \"trim\", \"from\": \"t\", \"piece\": \"A\"" more "}"

/* A hexagon lies in a rhombus of 60 degrees that is as high, two tips of which
 * are cut off; and in a rectangle that is as wide from point to point. */
static void hexagons(void **state)
{
    const char *hexagon = PIECE("hexagon", "\"cut\": 4, \"count\": 8");

    (void)state;
    /* (40 - 2.309) / 4.619 = 8.2; 40 / 4 5/8 = 8.6 */
    clean(hexagon,
          STRIPS(1, "4") SECTIONS("\"angle\": 60, \"size\": 4") TRIM(""));
    clean(hexagon,
          STRIPS(1, "4") SECTIONS("\"angle\": 120, \"size\": 4") TRIM(""));
    clean(hexagon, STRIPS(1, "4") SECTIONS("\"size\": \"4 5/8\"") TRIM(""));
    found(hexagon,
          STRIPS(1, "4") SECTIONS("\"angle\": 60, \"size\": 4")
              TRIM(", \"count\": 9"),
          QC_FINDING_SHORT_STEP,
          "9 sections for piece A from 8 sections (t): 8 come out at 40 in "
          "usable width, 1 short; right would be 2 strips 4 in wide");
    found(hexagon, STRIPS(1, "4") SECTIONS("\"size\": \"4 1/2\"") TRIM(""),
          QC_FINDING_SIZE, "too short along the strip");
    found(hexagon, STRIPS(1, "3 7/8") SECTIONS("\"size\": 5") TRIM(""),
          QC_FINDING_SIZE,
          "piece A does not lie inside the sections (t); it takes strips of 4 "
          "in: the sections are 1/8 in too low");
    found(hexagon,
          STRIPS(1, "3 7/8") SECTIONS("\"size\": \"4 1/2\", \"count\": 8")
              TRIM(""),
          QC_FINDING_SIZE, "1/8 in too low, ");
    found(hexagon, STRIPS(1, "4") SLANT("\"angle\": 60, \"size\": 4"),
          QC_FINDING_SHAPE, "piece A is trimmed to its outline");
}

/* Of a kite the strip is as high as it lies on one of its long sides; tips are
 * blunted inside the diamond that they belong to. */
static void kites_and_tips(void **state)
{
    const char *kite = PIECE("kite", "\"finished\": [4, 2, 3], \"count\": 8");
    const char *tips =
        PIECE("diamond", "\"angle\": 45, \"finished\": 2, \"tips\": "
                         "\"blunt\", \"count\": 13");

    (void)state;
    clean(kite,
          STRIPS(1, "2 1/2") SECTIONS("\"size\": 5, \"each\": 8") TRIM(""));
    found(kite,
          STRIPS(1, "2 3/8") SECTIONS("\"size\": 5, \"each\": 8") TRIM(""),
          QC_FINDING_SIZE, "it takes strips of 2 1/2 in");
    /* 2 x 0.7071 + 0.5 = 1.914 in, on the ruler 2: (40 - 2) / 2.828 = 13.4 */
    clean(tips, STRIPS(1, "2") SECTIONS("\"angle\": 45, \"size\": 2") TRIM(""));
    clean(tips,
          STRIPS(1, "2") SECTIONS("\"angle\": 135, \"size\": 2") TRIM(""));
    found(tips,
          STRIPS(1, "2") SECTIONS("\"angle\": 45, \"size\": \"1 7/8\", "
                                  "\"count\": 13") TRIM(""),
          QC_FINDING_SIZE, "too short along the strip");
    found(tips, STRIPS(1, "2") SLANT("\"angle\": 45, \"size\": 2"),
          QC_FINDING_SHAPE, "is trimmed to its outline");
}

static void other_polygons(void **state)
{
    /* Five corners, a base of 4 in: 4 in high. */
    const char *house = PIECE("polygon", "\"cut\": [[0, 0], [4, 0], [4, 3], "
                                         "[2, 4], [0, 3]], \"count\": 10");
    const char *rise = PIECE("polygon", "\"cut\": [[0, 0], [4, 0], [4, 3], "
                                        "[0, 2]], \"count\": 10");

    (void)state;
    clean(house, STRIPS(1, "4") SECTIONS("\"size\": 4") TRIM(""));
    found(house, STRIPS(1, "4") SECTIONS("\"size\": \"3 7/8\"") TRIM(""),
          QC_FINDING_SIZE, "1/8 in too short along the strip");
    clean(rise, STRIPS(1, "3") SECTIONS("\"size\": 4") TRIM(""));
    /* Anything may be trimmed: squares, and halves of squares. */
    clean(PIECE("square", "\"cut\": 3, \"count\": 10"),
          STRIPS(1, "4") SECTIONS("\"size\": 4") TRIM(""));
    found(PIECE("rectangle", "\"cut\": [3, 4], \"count\": 13"),
          STRIPS(1, "3") SECTIONS("\"size\": 3") TRIM(""), QC_FINDING_SIZE,
          "1 in too low");
    clean(PIECE("half-square triangle", "\"finished\": 3, \"count\": 10"),
          STRIPS(1, "4") SECTIONS("\"size\": 4") TRIM(""));
    clean(PIECE("quarter-square triangle", "\"finished\": 4, \"count\": 7"),
          STRIPS(1, "3") SECTIONS("\"size\": \"5 1/4\"") TRIM(""));
}

/* Turns show on a print. */
static void trimmed_on_a_print(void **state)
{
    static const char form[] =
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"width\": 40, "
        "\"print\": \"%s\"}], \"pieces\": [{\"id\": \"A\", \"fabric\": "
        "\"f\", %s, \"count\": 1}], \"steps\": [{\"do\": \"strips\", "
        "\"fabric\": \"f\", \"count\": 1, \"width\": 3, \"name\": \"s\"}, "
        "{\"do\": \"subcut\", \"from\": \"s\", %s, \"name\": \"t\"}, "
        "{\"do\": \"trim\", \"from\": \"t\", \"count\": 1, \"piece\": "
        "\"A\"}]}";
    static const struct {
        const char *print, *piece, *cut;
        bool turned;
    } rows[] = {
        /* A triangle of 60 degrees, its tip up, in one that points down. */
        {"plain", "\"shape\": \"equilateral triangle\", \"cut\": 3",
         "\"angle\": 120, \"alternate\": true", false},
        {"plain", "\"shape\": \"rectangle\", \"cut\": [3, 4]", "\"size\": 4",
         false},
        {"one-way", "\"shape\": \"rectangle\", \"cut\": [3, 4]", "\"size\": 4",
         true},
        {"one-way",
         "\"shape\": \"polygon\", \"cut\": [[0, 0], [4, 0], [3, 3], [1, "
         "3]]",
         "\"size\": 4", false},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        qc_check *check;
        char text[2048];

        snprintf(text, sizeof text, form, rows[i].print, rows[i].piece,
                 rows[i].cut);
        check = check_of(text);
        if (qc_check_is_clean(check) == rows[i].turned)
            fail_msg("row %zu: %s", i,
                     rows[i].turned ? "no fault"
                                    : qc_check_finding_at(check, 0)->text);
        if (rows[i].turned)
            assert_int_equal(qc_check_finding_at(check, 0)->kind,
                             QC_FINDING_TURNED);
        qc_check_destroy(check);
    }
}

/* Quarters of a square lie on their long side in a strip of half its height. */
static void quarters_singly(void **state)
{
    const char *quarter =
        PIECE("quarter-square triangle", "\"finished\": 4, \"count\": 14");

    (void)state;
    /* 5 1/4 in on 2 5/8: (40 - 5 1/4) / 2 5/8 + 1 = 14.2 */
    clean(quarter, STRIPS(1, "2 5/8") SLANT("\"angle\": 45, \"alternate\": "
                                            "true"));
    found(quarter,
          STRIPS(1, "2 1/2") SLANT("\"angle\": 45, \"alternate\": true, "
                                   "\"count\": 14"),
          QC_FINDING_SIZE, "1/8 in too narrow a strip");
    found(quarter,
          STRIPS(1, "2 5/8") SLANT("\"angle\": 60, \"alternate\": true, "
                                   "\"count\": 14"),
          QC_FINDING_ANGLE,
          "its sides are to run 2 5/8 in over a height of 2 "
          "5/8 in");
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
        cmocka_unit_test(hexagons),
        cmocka_unit_test(kites_and_tips),
        cmocka_unit_test(other_polygons),
        cmocka_unit_test(trimmed_on_a_print),
        cmocka_unit_test(quarters_singly),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
