#include "json_expect.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/report.h>

#include "base/alloc.h"
#include "base/error.h"

json_t *written_of(const qc_plan *plan)
{
    char *text = NULL;
    json_t *all;

    assert_int_equal(qc_plan_json(plan, &text, NULL), QC_STATUS_OK);
    all = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(all);
    qc_text_destroy(text);
    return all;
}

const json_t *at(const json_t *value, ...)
{
    va_list steps;
    const char *step;

    va_start(steps, value);
    while ((step = va_arg(steps, const char *))) {
        value = step[0] == '[' ? json_array_get(value, (size_t)atoi(step + 1))
                               : json_object_get(value, step);
        if (!value)
            fail_msg("no %s", step);
    }
    va_end(steps);
    return value;
}

void expect_text(const json_t *object, const char *key, const char *text)
{
    assert_string_equal(json_string_value(at(object, key, NULL)), text);
}

void expect_number(const json_t *object, const char *key, double number)
{
    double got = json_number_value(at(object, key, NULL));

    if (got < number || got > number)
        fail_msg("%s is %.17g, not %.17g", key, got, number);
}

/* cmocka's own comparison rounds to float first. */
void expect_near(double got, double number)
{
    if (!(got > number - 1e-9 && got < number + 1e-9))
        fail_msg("%.17g is not near %.17g", got, number);
}

void check_json_out_of_memory(const qc_plan *plan)
{
    long n = 0, live = qci_alloc_live();
    qc_status status;

    do {
        char *text = (char *)"";
        qc_error err;

        qc_error_init(&err);
        qci_alloc_fail_at(++n, 0);
        status = qc_plan_json(plan, &text, &err);
        qci_alloc_fail_at(0, 0);
        assert_int_equal(err.code, status);
        assert_true((status == QC_STATUS_OK) == (text != NULL));
        qc_text_destroy(text);
        assert_int_equal(qci_alloc_live(), live);
    } while (status);
    assert_true(n > 3);
}
