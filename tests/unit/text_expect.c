#include "text_expect.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/report.h>

#include "base/alloc.h"
#include "report/layout.h"

char *text_of(const qc_plan *plan)
{
    char *text = NULL;

    assert_int_equal(qc_plan_text(plan, &text, NULL), QC_STATUS_OK);
    assert_non_null(text);
    return text;
}

/* Every run of spaces and newlines becomes one space, so that facts are found
 * wherever lines are broken. */
static const char *squeezed(const char *text)
{
    static char line[16384];
    size_t n = 0;

    for (; *text && n < sizeof line - 1; text++) {
        bool blank = *text == ' ' || *text == '\n';

        if (!blank || (n && line[n - 1] != ' '))
            line[n++] = blank ? ' ' : *text;
    }
    line[n] = '\0';
    return line;
}

void expect(const char *text, const char *part)
{
    if (!strstr(squeezed(text), part))
        fail_msg("\"%s\" is missing in:\n%s", part, text);
}

void expect_none(const char *text, const char *part)
{
    if (strstr(squeezed(text), part))
        fail_msg("\"%s\" is found in:\n%s", part, text);
}

void check_lines(const char *text)
{
    while (*text) {
        size_t size = strcspn(text, "\n");

        if (qci_display_width(text, size) > 78)
            fail_msg("too wide: %.*s", (int)size, text);
        if (size && text[size - 1] == ' ')
            fail_msg("ends in a space: %.*s", (int)size, text);
        assert_int_equal(text[size], '\n');
        text += size + 1;
    }
}

void check_text_out_of_memory(qc_plan *plan)
{
    long before = qci_alloc_live();
    long calls;
    char *text;

    qci_alloc_fail_at(0, 0);
    qci_free(text_of(plan));
    calls = qci_alloc_count();
    for (long n = 1; n <= calls; n++) {
        qci_alloc_fail_at(n, 0);
        assert_int_equal(qc_plan_text(plan, &text, NULL), QC_STATUS_NO_MEMORY);
        assert_null(text);
    }
    qci_alloc_fail_at(0, 0);
    assert_int_equal(qci_alloc_live(), before);
    qc_plan_destroy(plan);
}
