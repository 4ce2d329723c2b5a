/* Checking instructions that sew strips and cut the sets across. Pieces that
 * come out are told by floors; what a set of the job gives, by its plan. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "check_expect.h"

/* Fabrics 42 and 40 in wide, and a narrow one. */
static const char *text_of(const char *sets, const char *steps)
{
    static char text[8192];

    snprintf(text, sizeof text,
             "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"d\", \"width\": 42}, "
             "{\"id\": \"l\", \"width\": 42}, {\"id\": \"n\", \"width\": 30}], "
             "\"strip_sets\": [%s], \"steps\": [%s]}",
             sets, steps);
    return text;
}

static qc_check *check_set(const char *sets, const char *steps)
{
    return check_of(text_of(sets, steps));
}

static void clean(const char *sets, const char *steps)
{
    check_clean(text_of(sets, steps));
}

static void found(const char *sets, const char *steps, qc_finding_kind kind,
                  uint32_t step, const char *words)
{
    check_found(text_of(sets, steps), kind, step, words);
}

static void refused(const char *steps, const char *field, const char *problem)
{
    check_refused(text_of("{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", "
                          "\"cut\": 2}, {\"fabric\": \"l\", \"cut\": 2}], "
                          "\"segments\": 4}",
                          steps),
                  field, problem);
}

/* Three strips that finish 2 in wide, light between dark. */
#define BANDS(segments)                                                        \
    "{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", \"finished\": 2}, "      \
    "{\"fabric\": \"l\", \"finished\": 2}, {\"fabric\": \"d\", "               \
    "\"finished\": 2}], \"segments\": " #segments "}"
/* Two strips of 2 1/4 in, cut at 45 degrees. */
#define STAR(rest)                                                             \
    "{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", \"cut\": \"2 1/4\"}, "   \
    "{\"fabric\": \"l\", \"cut\": \"2 1/4\"}], \"angle\": 45, " rest "}"
#define STRIPS(id, n, width)                                                   \
    "{\"do\": \"strips\", \"fabric\": \"" id "\", \"count\": " #n              \
    ", \"width\": \"" width "\", \"name\": \"" id "s\"}, "
#define SEW(rest)                                                              \
    "{\"do\": \"sew\", \"strips\": [\"ds\", \"ls\", \"ds\"], \"name\": "       \
    "\"t\"" rest "}, "
#define SEW2(rest)                                                             \
    "{\"do\": \"sew\", \"strips\": [\"ds\", \"ls\"], \"name\": \"t\"" rest "}" \
    ","                                                                        \
    " "
#define CUT(rest)                                                              \
    "{\"do\": \"crosscut\", \"from\": \"t\", \"segment\": \"S\", " rest "}"

static void square_cuts(void **state)
{
    (void)state;
    /* 42 / 2 1/2 = 16.8 from each set */
    clean(BANDS(32), STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2")
                         SEW(", \"count\": 2, \"width\": \"6 1/2\"")
                             CUT("\"size\": \"2 1/2\", \"count\": 32"));
    clean(BANDS(32), STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
                         CUT("\"size\": \"2 1/2\""));
    clean(BANDS(30), STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
                         CUT("\"size\": \"2 1/2\", \"each\": 15"));
    found(BANDS(33),
          STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
              CUT("\"size\": \"2 1/2\", \"count\": 33"),
          QC_FINDING_SHORT_STEP, 4,
          "33 segments S at 2 1/2 in from 2 sets (t): 32 come out at 42 in "
          "usable width, 1 short; right would be 3 sets");
    found(BANDS(30),
          STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
              CUT("\"size\": \"2 1/2\""),
          QC_FINDING_OVER_PIECES, 4, "32 segments S fall out in all");
    found(BANDS(32),
          STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
              CUT("\"size\": \"2 1/2\", \"count\": 30"),
          QC_FINDING_SHORT_PIECES, 0,
          "32 segments S are needed, the steps cut "
          "30: 2 short");
}

static void strips_that_are_missing(void **state)
{
    qc_check *check;

    (void)state;
    check = check_set(BANDS(32),
                      STRIPS("d", 3, "2 1/2") STRIPS("l", 1, "2 1/2")
                          SEW(", \"count\": 2") CUT("\"size\": \"2 1/2\", "
                                                    "\"count\": 32"));
    assert_int_equal(qc_check_finding_count(check), 3);
    assert_string_equal(qc_check_finding_at(check, 0)->text,
                        "2 sets (t): the strips give 1, 1 short; right would "
                        "be 4 strips 2 1/2 in wide (ds) and 2 strips 2 1/2 in "
                        "wide (ls)");
    assert_int_equal(qc_check_finding_at(check, 0)->step, 3);
    assert_int_equal(qc_check_finding_at(check, 1)->count, 16);
    /* One of the dark strips is left over so. */
    assert_int_equal(qc_check_finding_at(check, 2)->kind,
                     QC_FINDING_OVER_STRIPS);
    qc_check_destroy(check);
    found(BANDS(32),
          STRIPS("d", 5, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
              CUT("\"size\": \"2 1/2\", \"count\": 32"),
          QC_FINDING_OVER_STRIPS, 1,
          "of 5 strips 2 1/2 in wide (ds), 1 is not "
          "cut by any step: 4 would do");
    found(BANDS(16),
          STRIPS("d", 4, "2 1/2") STRIPS("l", 2, "2 1/2") SEW("")
              CUT("\"size\": \"2 1/2\", \"count\": 16"),
          QC_FINDING_OVER_STRIPS, 3,
          "of 2 sets (t), 1 is not cut by any step: "
          "1 would do");
    /* Sets that are missing are sewn of strips that are there: 1/2 in more of
     * light, none of dark. */
    check = check_set(BANDS(32), STRIPS("d", 4, "2 1/2") STRIPS("l", 1, "2 1/2")
                                     SEW("") CUT("\"size\": \"2 1/2\", "
                                                 "\"count\": 32"));
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.needed,
                     qc_check_fabric_at(check, 0)->stated.used);
    assert_int_equal(qc_check_fabric_at(check, 1)->stated.needed -
                         qc_check_fabric_at(check, 1)->stated.used,
                     5 * QC_INCH / 2);
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.missing, 16);
    assert_int_equal(qc_check_fabric_at(check, 2)->stated.missing, 0);
    /* At 38 in a set gives 15. */
    assert_string_equal(qc_check_width_at(check, 1, 0)->text,
                        "step 4: 17 S short");
    assert_int_equal(qc_check_width_at(check, 1, 0)->needed,
                     qc_check_fabric_at(check, 1)->stated.needed +
                         5 * QC_INCH / 2);
    qc_check_destroy(check);
}

static void strips_of_other_sizes(void **state)
{
    const char *cut = CUT("\"size\": \"2 1/2\", \"count\": 16");
    char steps[2048];
    qc_check *check;

    (void)state;
    snprintf(steps, sizeof steps, "%s%s",
             STRIPS("d", 2, "2 1/4") STRIPS("l", 1, "2 1/2") SEW(""), cut);
    found(BANDS(16), steps, QC_FINDING_SIZE, 3,
          "strips 1+3 of set S (ds) are 2 1/4 in wide; finished 2 in with "
          "seams of 1/4 in it is cut 2 1/2 in: 1/4 in too narrow");
    snprintf(steps, sizeof steps, "%s%s",
             STRIPS("d", 2, "2 1/2") STRIPS("l", 1, "3") SEW(""), cut);
    found(BANDS(16), steps, QC_FINDING_SIZE, 3,
          "strip 2 of set S (ls) is 3 in wide; finished 2 in with seams of 1/4 "
          "in it is cut 2 1/2 in: 1/2 in too wide");
    snprintf(steps, sizeof steps, "%s%s",
             STRIPS("d", 2, "2 1/2") STRIPS("l", 1, "2 1/2")
                 SEW(", \"width\": \"6 3/4\""),
             cut);
    found(BANDS(16), steps, QC_FINDING_SIZE, 3,
          "they measure 6 1/2 in from raw edge to raw edge: 1/4 in too much");
    /* The other way round: light, dark, light. */
    snprintf(
        steps, sizeof steps, "%s%s",
        STRIPS("d", 1, "2 1/2") STRIPS(
            "l", 2,
            "2 1/2") "{\"do\": \"sew\", \"strips\": [\"ls\", \"ds\", \"ls\"], "
                     "\"name\": \"t\"}, ",
        cut);
    check = check_set(BANDS(16), steps);
    assert_int_equal(qc_check_finding_count(check), 2);
    assert_string_equal(qc_check_finding_at(check, 0)->text,
                        "strip 2 of set S (ds) is of d, to be of l");
    assert_string_equal(qc_check_finding_at(check, 1)->text,
                        "strips 1+3 of set S (ls) are of l, to be of d");
    assert_int_equal(qc_check_finding_at(check, 1)->kind, QC_FINDING_FABRIC);
    assert_string_equal(qc_check_finding_at(check, 1)->fabric, "l");
    qc_check_destroy(check);
}

/* A finished width may be cut exactly, or as the ruler has it. */
static void exact_and_on_the_ruler(void **state)
{
    const char *third = "{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", "
                        "\"finished\": \"1.9\"}, {\"fabric\": \"l\", \"cut\": "
                        "2}], \"spacing\": 2, \"segments\": 21}";

    (void)state;
    clean(third, STRIPS("d", 1, "2.4") STRIPS("l", 1, "2") SEW2("")
                     CUT("\"size\": 2"));
    clean(third, STRIPS("d", 1, "2 1/2") STRIPS("l", 1, "2") SEW2("")
                     CUT("\"size\": 2"));
    found(third,
          STRIPS("d", 1, "2 9/16") STRIPS("l", 1, "2") SEW2("")
              CUT("\"size\": 2"),
          QC_FINDING_SIZE, 3, "1/16 in too wide");
    found(third,
          STRIPS("d", 1, "2 1/2") STRIPS("l", 1, "1 7/8") SEW2("")
              CUT("\"size\": 2"),
          QC_FINDING_SIZE, 3,
          "strip 2 of set S (ls) is 1 7/8 in wide; it is "
          "cut 2 in: 1/8 in too narrow");
}

/* A set lies the same when it is turned by half. */
static void listed_from_either_edge(void **state)
{
    const char *three = "{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", "
                        "\"cut\": 2}, {\"fabric\": \"l\", \"cut\": 3}, "
                        "{\"fabric\": \"n\", \"cut\": 4}], \"spacing\": 2, "
                        "\"segments\": 15}";
    const char *strips = STRIPS("d", 1, "2") STRIPS("l", 1, "3")
        STRIPS("n", 1, "4") "{\"do\": \"sew\", \"strips\": [%s], \"name\": "
                            "\"t\"}, " CUT("\"size\": 2");
    char steps[2048];

    (void)state;
    snprintf(steps, sizeof steps, strips, "\"ds\", \"ls\", \"ns\"");
    clean(three, steps);
    snprintf(steps, sizeof steps, strips, "\"ns\", \"ls\", \"ds\"");
    clean(three, steps);
    snprintf(steps, sizeof steps, strips, "\"ns\", \"ls\"");
    {
        qc_check *check = check_set(three, steps);
        const qc_finding *finding = qc_check_finding_at(check, 0);

        assert_int_equal(finding->kind, QC_FINDING_SHAPE);
        assert_non_null(strstr(finding->text, "2 strips are sewn together; set "
                                              "S has 3"));
        qc_check_destroy(check);
    }
}

static void cuts_that_lean(void **state)
{
    const char *right = STAR("\"segments\": 12");
    const char *left = STAR("\"hand\": \"left\", \"segments\": 12");
    const char *pairs = STAR("\"hand\": \"pairs\", \"segments\": 12");

    (void)state;
    /* Stepped by what 2 1/4 in finish, 1 3/4; a cut takes 2 1/4 in off the
     * first strip's length: (42 - 2 1/4) / 3.182 = 12.5 */
    clean(right, STRIPS("d", 1, "2 1/4") STRIPS("l", 1, "2 1/4")
                     SEW2(", \"stagger\": \"1 3/4\"")
                         CUT("\"angle\": 45, \"size\": \"2 1/4\""));
    clean(left, STRIPS("d", 1, "2 1/4") STRIPS("l", 1, "2 1/4")
                    SEW2(", \"stagger\": \"1 3/4\", \"hand\": \"left\"")
                        CUT("\"angle\": 135, \"size\": \"2 1/4\""));
    /* Both from sets of their own, told by the way they lean. */
    clean(pairs, STRIPS("d", 2, "2 1/4") STRIPS("l", 2, "2 1/4")
                     SEW2(", \"count\": 1, \"stagger\": \"1 3/4\"")
                         CUT("\"angle\": 45, \"size\": \"2 1/4\", \"count\": "
                             "12") ", "
                                   "{\"do\": \"sew\", \"strips\": [\"ds\", "
                                   "\"ls\"], \"name\": "
                                   "\"u\", \"stagger\": \"1 3/4\", \"hand\": "
                                   "\"left\"}, "
                                   "{\"do\": \"crosscut\", \"from\": \"u\", "
                                   "\"angle\": 135, "
                                   "\"size\": \"2 1/4\", \"segment\": \"S\"}");
    found(right,
          STRIPS("d", 1, "2 1/4") STRIPS("l", 1, "2 1/4")
              SEW2(", \"stagger\": \"1 3/4\", \"hand\": \"left\"")
                  CUT("\"angle\": 135, \"size\": \"2 1/4\""),
          QC_FINDING_ANGLE, 4,
          "segments S are cut at 135 degrees; right would "
          "be 45 degrees");
    found(right,
          STRIPS("d", 1, "2 1/4") STRIPS("l", 1, "2 1/4")
              SEW2(", \"stagger\": \"1 3/4\"")
                  CUT("\"angle\": 45, \"measured\": \"edge\", \"size\": \"3 "
                      "1/16\", \"count\": 12"),
          QC_FINDING_SIZE, 4,
          "it takes cuts 3 3/16 in apart along the edge: "
          "1/8 in too near");
    clean(right, STRIPS("d", 1, "2 1/4") STRIPS("l", 1, "2 1/4")
                     SEW2(", \"stagger\": \"1 3/4\"")
                         CUT("\"angle\": 45, \"measured\": \"edge\", \"size\": "
                             "\"3 3/16\""));
    found(right,
          STRIPS("d", 1, "2 1/4") STRIPS("l", 1, "2 1/4")
              SEW2(", \"stagger\": \"1 3/4\"")
                  CUT("\"angle\": 45, \"size\": \"2\", \"count\": 12"),
          QC_FINDING_SIZE, 4, "it takes cuts 2 1/4 in apart: 1/4 in too near");
}

static void ends_stepped_otherwise(void **state)
{
    const char *eight = "{\"id\": \"S\", \"strips\": [%s], \"angle\": 45, "
                        "\"segments\": 12}";
    const char *strip = "{\"fabric\": \"d\", \"cut\": \"2 1/4\"}";
    char strips[1024] = "", sets[2048], steps[2048], names[256] = "";
    qc_check *check;

    (void)state;
    for (int i = 0; i < 8; i++) {
        strcat(strips, i ? ", " : "");
        strcat(strips, strip);
        strcat(names, i ? ", \"ds\"" : "\"ds\"");
    }
    snprintf(sets, sizeof sets, eight, strips);
    snprintf(steps, sizeof steps,
             "%s{\"do\": \"sew\", \"strips\": [%s], \"stagger\": \"2\", "
             "\"name\": \"t\"}, %s",
             STRIPS("d", 8, "2 1/4"), names,
             CUT("\"angle\": 45, \"size\": \"2 1/4\", \"count\": 12"));
    /* 2 in for each of eight strips is 7 x 1/4 in too much: one segment. */
    found(sets, steps, QC_FINDING_SHORT_STEP, 3,
          "1 short; right would be 2 sets; with ends stepped 1 3/4 in to the "
          "right a set would give 12, not 11");
    snprintf(steps, sizeof steps,
             "%s{\"do\": \"sew\", \"strips\": [%s], \"stagger\": \"2\", "
             "\"hand\": \"left\", \"name\": \"t\"}, %s",
             STRIPS("d", 8, "2 1/4"), names,
             CUT("\"angle\": 45, \"size\": \"2 1/4\", \"count\": 12"));
    found(sets, steps, QC_FINDING_SHORT_STEP, 3, "a set would give 12, not 4");
    snprintf(steps, sizeof steps,
             "%s{\"do\": \"sew\", \"strips\": [%s], \"stagger\": \"9\", "
             "\"hand\": \"left\", \"name\": \"t\"}, %s",
             STRIPS("d", 8, "2 1/4"), names,
             CUT("\"angle\": 45, \"size\": \"2 1/4\", \"count\": 12"));
    check = check_set(sets, steps);
    assert_int_equal(qc_check_finding_count(check), 2); /* it is not cut */
    assert_non_null(strstr(qc_check_finding_at(check, 0)->text,
                           "no such set is long enough for one; with ends "
                           "stepped 1 3/4 in to the right a set would give 12, "
                           "not 0"));
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.needed, QC_DEFAULT);
    assert_int_equal(qc_check_fabric_at(check, 2)->stated.needed, 0);
    qc_check_destroy(check);
}

/* A job's set as its plan has it, and one segment more. */
static void as_many_as_the_plan(void **state)
{
    static const int angles[] = {90, 60, 45, 30, 72};
    static const char *const widths[] = {"2", "2 1/4", "3 1/8", "1 7/8"};

    (void)state;
    for (int i = 0; i < 20; i++)
        for (int strips = 2; strips < 6; strips++) {
            int angle = angles[i % 5];
            bool left = angle != 90 && strips % 2;
            const char *width = widths[i / 5];
            char list[512] = "", names[128] = "", sets[1024], steps[2048];
            const qc_plan_set *set;
            qc_job *job;
            qc_plan *plan;
            qc_error err;
            char step[64];

            for (int k = 0; k < strips; k++) {
                snprintf(list + strlen(list), sizeof list - strlen(list),
                         "%s{\"fabric\": \"d\", \"cut\": \"%s\"}",
                         k ? ", " : "", width);
                strcat(names, k ? ", \"ds\"" : "\"ds\"");
            }
            snprintf(sets, sizeof sets,
                     "{\"id\": \"S\", \"strips\": [%s], \"angle\": %d%s, "
                     "\"segments\": 1}",
                     list, angle, left ? ", \"hand\": \"left\"" : "");
            qc_error_init(&err);
            snprintf(steps, sizeof steps,
                     "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"d\", "
                     "\"width\": 42}], \"strip_sets\": [%s]}",
                     sets);
            assert_int_equal(qc_job_parse(steps, strlen(steps), &job, &err),
                             QC_STATUS_OK);
            assert_int_equal(qc_job_solve(job, NULL, &plan, &err),
                             QC_STATUS_OK);
            set = qc_plan_set_at(plan, 0);
            /* In eighths of a micrometre, written as millimetres. */
            snprintf(step, sizeof step, "%.6f mm",
                     (double)llabs(qc_plan_set_strip_at(plan, 0, 1)->offset) /
                         QC_MM);
            for (int more = 0; more < 2; more++) {
                qc_check *check;

                snprintf(
                    steps, sizeof steps,
                    "{\"do\": \"strips\", \"fabric\": \"d\", \"count\": "
                    "%d, \"width\": \"%s\", \"name\": \"ds\"}, {\"do\": "
                    "\"sew\", \"strips\": [%s], \"stagger\": \"%s\", "
                    "\"hand\": \"%s\", \"name\": \"t\"}, {\"do\": "
                    "\"crosscut\", \"from\": \"t\", \"angle\": %d, "
                    "\"size\": \"%s\", \"count\": %d, \"segment\": "
                    "\"S\"}",
                    strips, width, names, step, left ? "left" : "right",
                    left ? 180 - angle : angle, width,
                    (int)((qc_length)(42 * QC_INCH - set->first - set->tail) /
                          set->pitch) +
                        more);
                check = check_set(sets, steps);
                for (size_t k = 0; k < qc_check_finding_count(check); k++)
                    if ((qc_check_finding_at(check, k)->kind ==
                         QC_FINDING_SHORT_STEP) != (more == 1))
                        assert_int_equal(qc_check_finding_at(check, k)->kind,
                                         QC_FINDING_OVER_PIECES);
                assert_int_equal(qc_check_is_clean(check), !more);
                qc_check_destroy(check);
            }
            qc_plan_destroy(plan);
            qc_job_destroy(job);
        }
}

/* Sections of strips, sets that are begun, and two kinds of sets by one name.
 */
static void other_ways_to_write_it(void **state)
{
    (void)state;
    /* Half strips of 21 in: 8 segments each. */
    clean(BANDS(16),
          "{\"do\": \"strips\", \"fabric\": \"d\", \"count\": 2, \"width\": "
          "\"2 1/2\", \"name\": \"whole\"}, {\"do\": \"subcut\", \"from\": "
          "\"whole\", \"size\": 21, \"name\": \"ds\"}, {\"do\": \"strips\", "
          "\"fabric\": \"l\", \"count\": 1, \"width\": \"2 1/2\", \"name\": "
          "\"light\"}, {\"do\": \"subcut\", \"from\": \"light\", \"size\": 21, "
          "\"name\": \"ls\"}, " SEW(", \"count\": 2")
              CUT("\"size\": \"2 1/2\", \"each\": 8"));
    /* One set, cut into two kinds of segments one after the other. */
    clean("{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", \"cut\": 2}, "
          "{\"fabric\": \"l\", \"cut\": 2}], \"spacing\": 2, \"segments\": "
          "10}, {\"id\": \"T\", \"strips\": [{\"fabric\": \"d\", \"cut\": 2}, "
          "{\"fabric\": \"l\", \"cut\": 2}], \"spacing\": 4, \"segments\": 5}",
          STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2("")
              CUT("\"size\": 2, \"count\": 10") ", {\"do\": \"crosscut\", "
                                                "\"from\": \"t\", \"size\": 4, "
                                                "\"count\": 5, \"segment\": "
                                                "\"T\"}");
    /* The second step adds a longer list to the name; it is not cut. */
    found("{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", \"cut\": 2}, "
          "{\"fabric\": \"l\", \"cut\": 2}], \"segments\": 21}",
          STRIPS("d", 3, "2") STRIPS("l", 2, "2") SEW2(", \"count\": 1") SEW("")
              CUT("\"size\": 2, \"count\": 21"),
          QC_FINDING_OVER_STRIPS, 3, "of 2 sets (t), 1 is not cut");
    /* And when it is, its strips are told of at the step that sewed it. */
    found("{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", \"cut\": 2}, "
          "{\"fabric\": \"l\", \"cut\": 2}, {\"fabric\": \"l\", \"cut\": 2}], "
          "\"segments\": 21}",
          STRIPS("d", 2, "2") STRIPS("l", 1, "2") SEW("")
              CUT("\"size\": 2, \"count\": 21"),
          QC_FINDING_FABRIC, 3, "strip 3 of set S (ds) is of d, to be of l");
}

/* The narrowest cloth rules, and 38 in of all is less than that of one. */
static void widths_that_differ(void **state)
{
    const char *set = "{\"id\": \"S\", \"strips\": [{\"fabric\": \"d\", "
                      "\"cut\": 2}, {\"fabric\": \"n\", \"cut\": 2}], "
                      "\"segments\": 15}";
    qc_check *check;

    (void)state;
    check = check_set(
        set, STRIPS("d", 1, "2")
                 STRIPS("n", 1,
                        "2") "{\"do\": "
                             "\"sew\", \"strips\": [\"ds\", \"ns\"], \"name\": "
                             "\"t\"}, " CUT("\"size\": 2, \"count\": 16"));
    assert_int_equal(qc_check_finding_at(check, 0)->count, 1);
    assert_non_null(
        strstr(qc_check_finding_at(check, 0)->text, "at 30 in usable width"));
    assert_null(qc_check_finding_at(check, 0)->fabric);
    assert_string_equal(qc_check_finding_at(check, 0)->piece, "S");
    assert_int_equal(qc_check_width_at(check, 0, 0)->missing, 0);
    assert_int_equal(qc_check_width_at(check, 2, 0)->missing, 0);
    qc_check_destroy(check);
}

static void what_is_refused(void **state)
{
    (void)state;
    refused("{\"do\": \"sew\", \"strips\": [\"a\", \"b\"], \"name\": \"t\"}",
            "steps[0].strips", "no step before it gave this name");
    refused(STRIPS("d", 1, "2") "{\"do\": \"sew\", \"strips\": [\"ds\"], "
                                "\"name\": \"t\"}",
            "steps[1].strips", "has 1 entries");
    refused(STRIPS("d", 1, "2") "{\"do\": \"sew\", \"strips\": \"ds\", "
                                "\"name\": \"t\"}",
            "steps[1].strips", "");
    refused(STRIPS("d", 1, "2") "{\"do\": \"sew\", \"strips\": [\"ds\", 3], "
                                "\"name\": \"t\"}",
            "steps[1].strips[1]", "");
    refused(STRIPS("d", 1, "2") "{\"do\": \"sew\", \"strips\": [\"ds\", "
                                "\"ds\"]}",
            "steps[1].name", "is missing");
    refused(STRIPS("d", 1, "2") "{\"do\": \"sew\", \"strips\": [\"ds\", "
                                "\"ds\"], \"name\": \"ds\"}",
            "steps[1].name", "already the name of whole strips");
    refused(
        STRIPS("d", 1, "1/2") "{\"do\": \"sew\", \"strips\": [\"ds\", "
                              "\"ds\"], \"name\": \"t\"}, " CUT("\"size\": 2"),
        "steps[1]", "its seams leave nothing");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2")
                SEW2("") "{\"do\": \"subcut\", \"from\": \"t\", \"size\": 2, "
                         "\"name\": \"u\"}",
            "steps[3].from", "the name of sewn sets");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2("")
                SEW2(", \"stagger\": \"sideways\"") CUT("\"size\": 2"),
            "steps[3].stagger", "");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2(
                "") "{\"do\": \"sew\", \"strips\": [\"t\", \"ds\"], \"name\": "
                    "\"u\"}",
            "steps[3].strips", "sewn already");
    refused("{\"do\": \"strips\", \"fabric\": \"d\", \"count\": 1, \"width\": "
            "2, \"name\": \"ds\"}, {\"do\": \"subcut\", \"from\": \"ds\", "
            "\"angle\": 45, \"size\": 2, \"name\": \"u\"}, {\"do\": \"sew\", "
            "\"strips\": [\"u\", \"ds\"], \"name\": \"t\"}",
            "steps[2].strips", "is cut at an angle");
    refused(STRIPS("d", 1, "2") "{\"do\": \"crosscut\", \"from\": \"ds\", "
                                "\"size\": 2, \"segment\": \"S\"}",
            "steps[1].from", "is not sewn");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2("")
                CUT("\"size\": 2, \"measured\": \"edge\""),
            "steps[3].angle", "only slanted cuts");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2("")
                CUT("\"size\": 2, \"angle\": \"0.5\""),
            "steps[3].angle", "");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2("")
                CUT("\"size\": 2, \"count\": 2, \"each\": 1"),
            "steps[3].each", "is given beside count");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2") SEW2("") CUT("\"size\": 0"),
            "steps[3].size", "");
    refused(STRIPS("d", 1, "2") STRIPS("l", 1, "2")
                SEW2("") "{\"do\": \"crosscut\", \"from\": \"t\", \"size\": 2, "
                         "\"segment\": \"s\"}",
            "steps[3].segment", "no such strip set; did you mean S?");
    refused(STRIPS("d", 40000, "2") STRIPS("l", 40000, "2") SEW2("")
                CUT("\"size\": \"0.025 mm\""),
            "steps[3]", "too many segments");
}

/* Members that another kind of step has; the JSON form does not read them. */
static void members_of_other_steps(void **state)
{
    static const char *const names[] = {"a", "a"};
    qc_fabric_spec fabric;
    qc_set_strip_spec strips[2] = {
        {.fabric = "f", .is_cut = true, .width = 2 * QC_INCH},
        {.fabric = "f", .is_cut = true, .width = 2 * QC_INCH}};
    qc_strip_set_spec set;
    qc_job_spec job;
    qc_instructions_spec spec;
    qc_instruction_spec right[3], steps[3];

    (void)state;
    qc_job_spec_init(&job, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    qc_strip_set_spec_init(&set);
    qc_instructions_spec_init(&spec);
    for (int i = 0; i < 3; i++)
        qc_instruction_spec_init(&right[i]);
    fabric.id = "f";
    set.id = "S";
    set.strips = strips;
    set.strip_count = 2;
    set.segments = 3;
    job.fabrics = &fabric;
    job.fabric_count = 1;
    job.strip_sets = &set;
    job.strip_set_count = 1;
    right[0].fabric = "f";
    right[0].count = 2;
    right[0].size = 2 * QC_INCH;
    right[0].name = "a";
    right[1].kind = QC_INSTRUCTION_SEW;
    right[1].strips = names;
    right[1].strip_count = 2;
    right[1].name = "t";
    right[2].kind = QC_INSTRUCTION_CROSSCUT;
    right[2].from = "t";
    right[2].size = 2 * QC_INCH;
    right[2].piece = "S";
    spec.job = &job;
    spec.steps = steps;
    spec.step_count = 3;
    for (int i = 0; i < 11; i++) {
        static const char *const fields[] = {
            "steps[0].strips",  "steps[1].from",      "steps[1].fabric",
            "steps[1].piece",   "steps[1].direction", "steps[1].angle",
            "steps[1].stagger", "steps[1].alternate", "steps[2].name",
            "steps[2].fabric",  "steps[0].do"};
        qc_instructions *made = NULL;
        qc_error err;

        memcpy(steps, right, sizeof right);
        qc_error_init(&err);
        assert_int_equal(qc_instructions_create(&spec, &made, &err),
                         QC_STATUS_OK);
        qc_instructions_destroy(made);
        switch (i) {
        case 0:
            steps[0].strip_count = 2;
            break;
        case 1:
            steps[1].from = "a";
            break;
        case 2:
            steps[1].fabric = "f";
            break;
        case 3:
            steps[1].piece = "S";
            break;
        case 4:
            steps[1].direction = QC_DIRECTION_ALONG;
            break;
        case 5:
            steps[1].angle = 45 * QC_DEGREE;
            break;
        case 6:
            steps[1].stagger = -1;
            break;
        case 7:
            steps[1].alternate = true;
            break;
        case 8:
            steps[2].name = "u";
            break;
        case 9:
            steps[2].fabric = "f";
            break;
        default:
            steps[0].kind = (qc_instruction_kind)6;
        }
        assert_int_equal(qc_instructions_create(&spec, &made, &err),
                         QC_STATUS_INVALID);
        assert_string_equal(err.field, fields[i]);
        assert_null(made);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(square_cuts),
        cmocka_unit_test(strips_that_are_missing),
        cmocka_unit_test(strips_of_other_sizes),
        cmocka_unit_test(exact_and_on_the_ruler),
        cmocka_unit_test(listed_from_either_edge),
        cmocka_unit_test(cuts_that_lean),
        cmocka_unit_test(ends_stepped_otherwise),
        cmocka_unit_test(as_many_as_the_plan),
        cmocka_unit_test(other_ways_to_write_it),
        cmocka_unit_test(widths_that_differ),
        cmocka_unit_test(what_is_refused),
        cmocka_unit_test(members_of_other_steps),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
