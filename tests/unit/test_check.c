/* Checking instructions: what each kind of mistake is answered with. Numbers
 * are floors of quotients that anyone can work out: pieces from a strip are the
 * width over the cut, rounded down. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "check_expect.h"

#define HEAD                                                                   \
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"name\": \"Fen\", "
#define SQUARES                                                                \
    "\"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", \"shape\": \"square\", "  \
    "\"finished\": \"3\", \"count\": 40}], "

/* The only finding of that kind. */
static const qc_finding *only(const qc_check *check, qc_finding_kind kind)
{
    const qc_finding *found = NULL, *finding;

    for (size_t i = 0; (finding = qc_check_finding_at(check, i)); i++) {
        if (finding->kind != kind)
            continue;
        assert_null(found);
        found = finding;
    }
    assert_non_null(found);
    return found;
}

static void has(const qc_finding *finding, const char *words)
{
    if (!strstr(finding->text, words))
        fail_msg("\"%s\" lacks \"%s\"", finding->text, words);
}

static void right_instructions_are_clean(void **state)
{
    /* 12 squares of 3 1/2 from 42 in: 40 take 4 strips, 14 in and 1/2. */
    qc_check *check = check_of(
        HEAD
        "\"width\": \"42\"}], " SQUARES
        "\"claimed\": [{\"fabric\": \"f\", \"length\": \"1/2 yd\"}], "
        "\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 4, "
        "\"width\": \"3 1/2\", \"name\": \"s\"}, {\"do\": \"subcut\", "
        "\"from\": \"s\", \"size\": \"3 1/2\", \"count\": 40, "
        "\"piece\": \"A\"}]}");
    const qc_check_fabric *fabric = qc_check_fabric_at(check, 0);
    const qc_check_width *at;
    size_t widths = 0;

    (void)state;
    assert_int_equal(qc_check_finding_count(check), 0);
    assert_true(qc_check_is_clean(check));
    assert_int_equal(fabric->stated.used, 29 * QC_INCH / 2);
    assert_int_equal(fabric->stated.bought, 18 * QC_INCH);
    assert_false(fabric->solved);
    /* From 38 in come 10 a strip, from 39 on 11, from 42 on 12. */
    for (; (at = qc_check_width_at(check, 0, widths)); widths++) {
        assert_int_equal(at->width, (38 + (int)widths) * QC_INCH);
        assert_int_equal(at->missing, 0);
        assert_string_equal(at->text, "");
    }
    assert_int_equal(widths, 7);
    assert_int_equal(fabric->width_count, 7);
    assert_null(qc_check_fabric_at(check, 1));
    assert_null(qc_check_width_at(check, 1, 0));
    qc_check_destroy(check);
}

static void a_step_that_is_short(void **state)
{
    qc_check *check = check_of(
        HEAD
        "\"width\": \"42\"}], " SQUARES
        "\"claimed\": [{\"fabric\": \"f\", \"length\": \"1/3 yd\"}], "
        "\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 3, "
        "\"width\": \"3 1/2\", \"name\": \"s\"}, {\"do\": \"subcut\", "
        "\"from\": \"s\", \"size\": \"3 1/2\", \"count\": 40, "
        "\"piece\": \"A\"}]}");
    const qc_finding *step = only(check, QC_FINDING_SHORT_STEP);
    const qc_finding *fabric = only(check, QC_FINDING_SHORT_FABRIC);

    (void)state;
    assert_int_equal(qc_check_finding_count(check), 2);
    assert_false(qc_check_is_clean(check));
    assert_true(step->is_fault);
    assert_int_equal(step->step, 2);
    assert_int_equal(step->count, 4);
    assert_string_equal(step->piece, "A");
    assert_string_equal(step->fabric, "f");
    has(step, "36 come out at 42 in");
    has(step, "4 short");
    has(step, "right would be 4 strips 3 1/2 in wide");
    /* 3 strips and 1/2 in fit into 12 in, a fourth does not. */
    assert_int_equal(fabric->step, 0);
    assert_int_equal(fabric->by[0], 5 * QC_INCH / 2);
    has(fabric, "1/2 yd (18 in)");
    /* 30 from 38 in, 33 from 39 in, 36 from 42 in on. */
    assert_int_equal(qc_check_width_at(check, 0, 0)->missing, 10);
    assert_string_equal(qc_check_width_at(check, 0, 0)->text,
                        "step 2: 10 A short");
    assert_int_equal(qc_check_width_at(check, 0, 1)->missing, 7);
    assert_int_equal(qc_check_width_at(check, 0, 6)->missing, 4);
    qc_check_destroy(check);
}

static void fabric_that_is_short_or_over(void **state)
{
    static const char form[] = HEAD
        "\"width\": \"42\", \"shrink\": {\"length\": 5}}], " SQUARES
        "\"claimed\": [{\"fabric\": \"f\", \"length\": \"%s\"}], "
        "\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 2, "
        "\"width\": \"3 1/2\", \"name\": \"s\"}, {\"do\": \"strips\", "
        "\"fabric\": \"f\", \"count\": 2, \"width\": \"3 1/2\", "
        "\"name\": \"s\"}, {\"do\": \"subcut\", "
        "\"from\": \"s\", \"size\": \"3 1/2\", \"count\": 40, "
        "\"piece\": \"A\"}]}";
    char text[1024];
    const qc_finding *finding;
    qc_check *check;

    (void)state;
    /* 15 in shrink to 14 1/4, a quarter less than strips and squaring up. */
    snprintf(text, sizeof text, form, "15 in");
    check = check_of(text);
    finding = only(check, QC_FINDING_SHORT_FABRIC);
    assert_int_equal(qc_check_finding_count(check), 1);
    assert_int_equal(finding->step, 2);
    assert_int_equal(finding->by[0], QC_INCH / 4);
    has(finding, "shrinks to 14 1/4 in");
    has(finding, "1/2 yd (18 in)");
    qc_check_destroy(check);

    snprintf(text, sizeof text, form, "5/8 yd");
    check = check_of(text);
    finding = only(check, QC_FINDING_OVER_FABRIC);
    assert_int_equal(qc_check_finding_count(check), 1);
    assert_true(qc_check_is_clean(check));
    assert_false(finding->is_fault);
    assert_int_equal(finding->by[0], 9 * QC_INCH / 2);
    qc_check_destroy(check);
}

static void pieces_short_over_and_strips_idle(void **state)
{
    qc_check *check = check_of(
        HEAD "\"width\": \"40\"}], \"pieces\": ["
             "{\"id\": \"A\", \"fabric\": \"f\", \"shape\": \"square\", "
             "\"cut\": \"4\", \"count\": 24}, {\"id\": \"B\", \"fabric\": "
             "\"f\", \"shape\": \"square\", \"cut\": \"5\", \"count\": 9}, "
             "{\"id\": \"C\", \"fabric\": \"f\", \"shape\": \"square\", "
             "\"cut\": \"6\", \"count\": 2}], \"steps\": ["
             "{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 4, "
             "\"width\": 4, \"name\": \"s\"}, {\"do\": \"subcut\", "
             "\"from\": \"s\", \"size\": 4, \"count\": 25, \"piece\": \"A\"}, "
             "{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 1, "
             "\"width\": 5, \"name\": \"t\"}, {\"do\": \"subcut\", "
             "\"from\": \"t\", \"size\": 5, \"count\": 8, \"piece\": \"B\"}]}");
    const qc_finding *finding;

    (void)state;
    finding = only(check, QC_FINDING_OVER_PIECES);
    assert_int_equal(finding->count, 1);
    assert_int_equal(finding->step, 2);
    finding = only(check, QC_FINDING_OVER_STRIPS);
    assert_int_equal(finding->count, 1);
    assert_int_equal(finding->step, 1);
    has(finding, "3 would do");
    assert_int_equal(qc_check_finding_count(check), 4);
    finding = qc_check_finding_at(check, 0);
    assert_int_equal(finding->kind, QC_FINDING_SHORT_PIECES);
    assert_int_equal(finding->count, 2);
    has(finding, "no step cuts any");
    finding = qc_check_finding_at(check, 1);
    assert_int_equal(finding->kind, QC_FINDING_SHORT_PIECES);
    assert_string_equal(finding->piece, "B");
    assert_int_equal(finding->count, 1);
    qc_check_destroy(check);
}

/* Sizes in sixteenths of an inch, on a rectangle that finishes 2 x 4 in. */
static qc_check *check_size(const char *print, int strip, int cut)
{
    char text[1024];

    snprintf(text, sizeof text,
             HEAD
             "\"width\": \"42\", \"print\": \"%s\"}], \"pieces\": ["
             "{\"id\": \"R\", \"fabric\": \"f\", \"shape\": \"rectangle\", "
             "\"finished\": [2, 4], \"count\": 5}], \"steps\": ["
             "{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 1, "
             "\"width\": \"%d/16\", \"name\": \"s\"}, {\"do\": \"subcut\", "
             "\"from\": \"s\", \"size\": \"%d/16\", \"count\": 5, "
             "\"piece\": \"R\"}]}",
             print, strip, cut);
    return check_of(text);
}

static void sizes_and_how_pieces_lie(void **state)
{
    const qc_finding *finding;
    qc_check *check;

    (void)state;
    /* Cut 2 1/2 x 4 1/2 in, either way round on plain cloth. */
    for (int turned = 0; turned < 2; turned++) {
        check = check_size("plain", turned ? 40 : 72, turned ? 72 : 40);
        assert_int_equal(qc_check_finding_count(check), 0);
        qc_check_destroy(check);
    }
    check = check_size("one-way", 72, 40);
    assert_int_equal(qc_check_finding_count(check), 0);
    qc_check_destroy(check);
    check = check_size("one-way", 40, 72);
    finding = only(check, QC_FINDING_TURNED);
    assert_int_equal(finding->step, 2);
    has(finding, "first size, 2 1/2 in, along the selvage");
    qc_check_destroy(check);
    /* An eighth too wide, a quarter too short. */
    check = check_size("plain", 68, 42);
    finding = only(check, QC_FINDING_SIZE);
    assert_int_equal(finding->by[0], QC_INCH / 8);
    assert_int_equal(finding->by[1], -QC_INCH / 4);
    assert_int_equal(finding->count, 5);
    has(finding, "2 5/8 x 4 1/4 in");
    has(finding, "cut 2 1/2 x 4 1/2 in");
    has(finding, "1/8 in too wide, 1/4 in too short");
    qc_check_destroy(check);
}

static void sections_are_cut_on(void **state)
{
    /* 8 sections of 5 in from 40 in, of which each gives two of 3 in. */
    static const char form[] =
        HEAD "\"width\": 40}, {\"id\": \"g\"}], \"pieces\": ["
             "{\"id\": \"A\", \"fabric\": \"f\", \"shape\": \"rectangle\", "
             "\"cut\": [5, 3], \"count\": 20}], \"steps\": ["
             "{\"do\": \"strips\", \"fabric\": \"%s\", \"count\": 1, "
             "\"width\": 7, \"name\": \"s\"}, {\"do\": \"subcut\", "
             "\"from\": \"s\", \"size\": 5, \"name\": \"t\"}, "
             "{\"do\": \"subcut\", \"from\": \"t\", \"size\": 3, "
             "\"count\": 20, \"piece\": \"A\"}]}";
    const qc_finding *finding;
    qc_check *check;
    char text[1024];

    (void)state;
    snprintf(text, sizeof text, form, "f");
    check = check_of(text);
    finding = only(check, QC_FINDING_SHORT_STEP);
    assert_int_equal(qc_check_finding_count(check), 1);
    assert_int_equal(finding->step, 3);
    assert_int_equal(finding->count, 4);
    has(finding, "from 8 sections (t)");
    has(finding, "2 strips 7 in wide");
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.needed,
                     29 * QC_INCH / 2);
    qc_check_destroy(check);
    snprintf(text, sizeof text, form, "g");
    check = check_of(text);
    finding = only(check, QC_FINDING_FABRIC);
    assert_int_equal(finding->step, 3);
    has(finding, "is cut from g; it is to be of Fen");
    qc_check_destroy(check);
}

/* Each strip is asked for one more than it gives; and one is too narrow. */
static void from_every_strip(void **state)
{
    static const char form[] =
        HEAD "\"width\": 40}], \"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", "
             "\"shape\": \"square\", \"cut\": 4, \"count\": 33}], \"steps\": ["
             "{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 3, "
             "\"width\": 4, \"name\": \"s\"}, {\"do\": \"subcut\", "
             "\"from\": \"s\", \"size\": %s, \"each\": 11, "
             "\"piece\": \"A\"}]}";
    const qc_finding *finding;
    qc_check *check;
    char text[1024];

    (void)state;
    snprintf(text, sizeof text, form, "4");
    check = check_of(text);
    finding = only(check, QC_FINDING_SHORT_STEP);
    assert_int_equal(finding->count, 3);
    has(finding, "4 strips");
    qc_check_destroy(check);
    snprintf(text, sizeof text, form, "41");
    check = check_of(text);
    finding = only(check, QC_FINDING_SHORT_STEP);
    assert_int_equal(finding->count, 33);
    has(finding, "no such cloth is large enough");
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.needed, QC_DEFAULT);
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.bought, QC_DEFAULT);
    qc_check_destroy(check);
}

static void metric_widths(void **state)
{
    qc_check *check = check_of(
        "{\"quiltcut\": 1, \"units\": \"cm\", \"fabrics\": [{\"id\": \"f\", "
        "\"width\": 100}], \"pieces\": [{\"id\": \"A\", \"fabric\": \"f\", "
        "\"shape\": \"square\", \"cut\": 10, \"count\": 10}], \"steps\": ["
        "{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 1, \"width\": 10, "
        "\"name\": \"s\"}, {\"do\": \"subcut\", \"from\": \"s\", \"size\": 10, "
        "\"piece\": \"A\"}]}");

    (void)state;
    assert_true(qc_check_is_clean(check));
    assert_int_equal(qc_check_fabric_at(check, 0)->width_count, 9);
    assert_int_equal(qc_check_width_at(check, 0, 0)->width, 96 * QC_CM);
    assert_int_equal(qc_check_width_at(check, 0, 8)->width, 112 * QC_CM);
    qc_check_destroy(check);
}

/* Wrong forms, by what is said of them. */
static void refused(const char *steps, const char *field, const char *problem)
{
    qc_instructions *made = NULL;
    char text[2048];
    qc_error err;

    snprintf(text, sizeof text,
             HEAD "\"width\": \"42\"}, {\"id\": \"g\"}], " SQUARES "%s}",
             steps);
    qc_error_init(&err);
    assert_int_equal(qc_instructions_parse(text, strlen(text), &made, &err),
                     QC_STATUS_INVALID);
    assert_null(made);
    assert_string_equal(err.field, field);
    if (!strstr(err.problem, problem))
        fail_msg("\"%s\" lacks \"%s\"", err.problem, problem);
    assert_int_equal(err.line, 1);
}

#define STRIPS                                                                 \
    "\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 4, "       \
    "\"width\": \"3 1/2\", \"name\": \"strips\"}, "

static void what_makes_no_sense(void **state)
{
    (void)state;
    refused("\"steps\": []", "steps", "has 0 entries");
    refused("\"claimed\": []", "steps", "is missing");
    refused("\"steps\": [{\"do\": \"stripes\"}]", "steps[0].do",
            "did you mean strips?");
    refused("\"steps\": [{\"do\": \"strips\", \"fabric\": \"h\", \"count\": 1, "
            "\"width\": 1}]",
            "steps[0].fabric", "no fabric");
    refused("\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 0, "
            "\"width\": 1}]",
            "steps[0].count", "must not be 0");
    refused("\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": 1, "
            "\"width\": 0}]",
            "steps[0].width", "missing, or 0");
    refused(STRIPS "{\"do\": \"subcut\", \"from\": \"strip\", \"size\": 1}]",
            "steps[1].from", "did you mean strips?");
    refused(STRIPS "{\"do\": \"subcut\", \"from\": \"strips\", \"size\": 1, "
                   "\"each\": 1, \"count\": 1}]",
            "steps[1].each", "beside count");
    refused(STRIPS "{\"do\": \"subcut\", \"from\": \"strips\", \"size\": 1, "
                   "\"piece\": \"B\"}]",
            "steps[1].piece", "there is no such piece");
    refused(STRIPS "{\"do\": \"subcut\", \"from\": \"strips\", \"size\": 1, "
                   "\"piece\": \"A\", \"name\": \"x\"}]",
            "steps[1].piece", "beside a name");
    refused(STRIPS "{\"do\": \"subcut\", \"from\": \"strips\", \"size\": 1, "
                   "\"name\": \"strips\"}]",
            "steps[1].name", "whole strips");
    refused(STRIPS "{\"do\": \"strips\", \"fabric\": \"g\", \"count\": 1, "
                   "\"width\": 1, \"name\": \"strips\"}]",
            "steps[1].name", "another fabric");
    refused("\"claimed\": [{\"fabric\": \"f\", \"length\": 1}, "
            "{\"fabric\": \"f\", \"length\": 2}], " STRIPS
            "{\"do\": \"subcut\", \"from\": \"strips\", \"size\": 1}]",
            "claimed[1].fabric", "claimed twice");
}

static void too_much_is_refused(void **state)
{
    static const char text[] =
        HEAD "\"width\": 390}], " SQUARES
             "\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": "
             "1000000, \"width\": \"0.01\", \"name\": \"s\"}, {\"do\": "
             "\"subcut\", \"from\": \"s\", \"size\": \"0.01\"}]}";
    static const char long_text[] =
        HEAD "\"width\": 40}], " SQUARES
             "\"steps\": [{\"do\": \"strips\", \"fabric\": \"f\", \"count\": "
             "1000000000, \"width\": \"300\", \"name\": \"s\"}]}";
    const char *texts[] = {text, long_text};
    const char *fields[] = {"steps[1]", "steps[0]"};

    (void)state;
    for (int i = 0; i < 2; i++) {
        qc_instructions *made = NULL;
        qc_check *check = NULL;
        qc_error err;

        qc_error_init(&err);
        assert_int_equal(
            qc_instructions_parse(texts[i], strlen(texts[i]), &made, &err),
            QC_STATUS_OK);
        assert_int_equal(qc_instructions_check(made, NULL, &check, &err),
                         QC_STATUS_INVALID);
        assert_null(check);
        assert_string_equal(err.field, fields[i]);
        qc_instructions_destroy(made);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(right_instructions_are_clean),
        cmocka_unit_test(a_step_that_is_short),
        cmocka_unit_test(fabric_that_is_short_or_over),
        cmocka_unit_test(pieces_short_over_and_strips_idle),
        cmocka_unit_test(sizes_and_how_pieces_lie),
        cmocka_unit_test(sections_are_cut_on),
        cmocka_unit_test(from_every_strip),
        cmocka_unit_test(metric_widths),
        cmocka_unit_test(what_makes_no_sense),
        cmocka_unit_test(too_much_is_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
