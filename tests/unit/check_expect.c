/* Checking a text and looking at what comes of it. */
#include "check_expect.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

qc_status check_try(const char *text, qc_check **check, qc_error *err)
{
    qc_instructions *made = NULL;
    qc_check_options options;
    qc_status status;

    qc_error_init(err);
    qc_check_options_init(&options);
    options.skip_optimum = true;
    status = qc_instructions_parse(text, strlen(text), &made, err);
    if (!status)
        status = qc_instructions_check(made, &options, check, err);
    qc_instructions_destroy(made);
    return status;
}

qc_check *check_of(const char *text)
{
    qc_check *check = NULL;
    qc_error err;

    if (check_try(text, &check, &err))
        fail_msg("%s: %s %s: %s", text, err.field, err.value, err.problem);
    return check;
}

void check_clean(const char *text)
{
    qc_check *check = check_of(text);

    if (qc_check_finding_count(check))
        fail_msg("%s", qc_check_finding_at(check, 0)->text);
    qc_check_destroy(check);
}

void check_found(const char *text, qc_finding_kind kind, uint32_t step,
                 const char *words)
{
    qc_check *check = check_of(text);
    const qc_finding *finding = qc_check_finding_at(check, 0);

    assert_non_null(finding);
    if (finding->kind != kind || !strstr(finding->text, words) ||
        (step != QC_NONE && finding->step != step))
        fail_msg("step %u: \"%s\" lacks \"%s\"", (unsigned)finding->step,
                 finding->text, words);
    if (qc_check_finding_count(check) > 1)
        fail_msg("and \"%s\"", qc_check_finding_at(check, 1)->text);
    qc_check_destroy(check);
}

void check_refused(const char *text, const char *field, const char *problem)
{
    qc_check *check = NULL;
    qc_error err;

    assert_int_equal(check_try(text, &check, &err), QC_STATUS_INVALID);
    if (strcmp(err.field, field) != 0 || !strstr(err.problem, problem))
        fail_msg("%s: \"%s\", not %s: \"%s\"", err.field, err.problem, field,
                 problem);
}
