/* Plain tables as instructions: what a row asks for, and what is said of rows
 * that are wrong. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

static qc_status parse(const char *text, qc_units units, qc_instructions **made,
                       qc_error *err)
{
    qc_error_init(err);
    return qc_instructions_parse_table(text, strlen(text), units, made, err);
}

static qc_check *check_of(const char *text, qc_units units)
{
    qc_instructions *made = NULL;
    qc_check_options options;
    qc_check *check = NULL;
    qc_error err;

    qc_check_options_init(&options);
    options.skip_optimum = true;
    if (parse(text, units, &made, &err) ||
        qc_instructions_check(made, &options, &check, &err))
        fail_msg("%s: %u: %s: %s", text, (unsigned)err.line, err.field,
                 err.problem);
    qc_instructions_destroy(made);
    return check;
}

static void rows_become_strips(void **state)
{
    /* 16 a strip from 40 in: 3 strips; 8 a strip: 2. With quotes, blanks, an
     * empty line and line ends of both kinds. */
    qc_check *check = check_of("cut length, count,fabric ,\"cut width\"\r\n"
                               "2 1/2, 40, sand, 2 1/2\r\n"
                               "\n"
                               "5,\"16\",\"sand\",\"2 1/2 \"\"\"\n",
                               QC_UNITS_IN);

    (void)state;
    assert_int_equal(qc_check_finding_count(check), 0);
    assert_int_equal(qc_check_fabric_count(check), 1);
    assert_string_equal(qc_check_fabric_at(check, 0)->id, "sand");
    assert_int_equal(qc_check_fabric_at(check, 0)->stated.used, 13 * QC_INCH);
    qc_check_destroy(check);
}

static void strips_and_claims_are_checked(void **state)
{
    qc_check *check =
        check_of("fabric,cut width,cut length,count,piece,strips,usable "
                 "width,claimed\n"
                 "sand,10,10,21,A,2,100,25\n"
                 "sand,10,20,5,,,100,\n",
                 QC_UNITS_CM);
    const qc_finding *finding = qc_check_finding_at(check, 0);

    (void)state;
    assert_int_equal(finding->kind, QC_FINDING_SHORT_STEP);
    assert_int_equal(finding->step, 2);
    assert_int_equal(finding->count, 1);
    assert_string_equal(finding->piece, "A");
    assert_non_null(strstr(finding->text, "3 strips 10 cm wide"));
    finding = qc_check_finding_at(check, 1);
    assert_int_equal(finding->kind, QC_FINDING_SHORT_FABRIC);
    /* 30 cm and 1.2 for squaring up; the third row does not fit 25. */
    assert_int_equal(finding->by[0], 62 * QC_MM);
    assert_int_equal(qc_check_finding_count(check), 2);
    qc_check_destroy(check);
}

static void refused(const char *text, uint32_t line, const char *field,
                    const char *problem)
{
    qc_instructions *made = NULL;
    qc_error err;

    assert_int_equal(parse(text, QC_UNITS_IN, &made, &err), QC_STATUS_INVALID);
    assert_null(made);
    if (err.line != line || strcmp(err.field, field) != 0 ||
        !strstr(err.problem, problem))
        fail_msg("%u: %s: %s", (unsigned)err.line, err.field, err.problem);
}

#define HEAD "fabric,cut width,cut length,count\n"

static void wrong_tables(void **state)
{
    (void)state;
    refused("", 0, "", "there is no table");
    refused(HEAD, 0, "rows", "there are 0");
    refused("fabric,cut width,count\na,1,1\n", 0, "cut length", "is missing");
    refused("fabric,cut widht,cut length,count\na,1,1,1\n", 1, "heading",
            "did you mean cut width?");
    refused("fabric,fabric,cut width,cut length,count\n", 1, "heading",
            "twice");
    refused(HEAD "a,1,1\n", 2, "row", "fewer cells");
    refused(HEAD "a,1,1,1,1\n", 2, "row", "no heading names");
    refused(HEAD "a,1,1,1\n\na,2 1/3,1,1\n", 4, "cut width", "");
    refused(HEAD "a,,1,1\n", 2, "cut width", "is missing");
    refused(HEAD "a,1,1,1.5\n", 2, "count", "no number of pieces");
    refused(HEAD "a,1,1,0\n", 2, "count", "no number of pieces");
    refused(HEAD ",1,1,1\n", 2, "fabric", "is missing");
    refused(HEAD "\"a,1,1,1\n", 2, "cell", "not closed");
    refused(HEAD "a,1,1,1\na,0,1,1\n", 3, "pieces[1].cut[1]", "must not be 0");
    refused("fabric,cut width,cut length,count,usable width\n"
            "a,1,1,1,40\na,1,1,1,42\n",
            3, "usable width", "a row above");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_become_strips),
        cmocka_unit_test(strips_and_claims_are_checked),
        cmocka_unit_test(wrong_tables),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
