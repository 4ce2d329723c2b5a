/* Any text as a length: what is read is written in such a way that it is read
 * as the same length again. */
#include "fuzz.h"

#include <string.h>

#include "base/utf8.h"

static void expect_written(qc_length length, qc_units units)
{
    char text[64], little[4];
    qc_length again = -1;
    int n = qc_length_format(length, units, text, sizeof text);

    FUZZ_EXPECT(n > 0 && (size_t)n < sizeof text);
    fuzz_expect_text(text, (size_t)n);
    FUZZ_EXPECT(qc_length_format(length, units, little, sizeof little) == n);
    FUZZ_EXPECT(strlen(little) < sizeof little);
    if ((unsigned char)text[0] == 0xE2) /* "about" */
        return;
    FUZZ_EXPECT(qc_length_parse(text, units, QC_PARSE_EXACT, &again, NULL) ==
                QC_STATUS_OK);
    FUZZ_EXPECT(again == length);
}

static void expect_bought(qc_length length, qc_units units)
{
    char text[64];
    int n = qc_length_format_purchase(length, units, text, sizeof text);

    FUZZ_EXPECT(n > 0 && (size_t)n < sizeof text);
    fuzz_expect_text(text, (size_t)n);
}

static void read_length(const char *text, qc_units units)
{
    qc_length exact = -7, up = -7;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    status = qc_length_parse(text, units, QC_PARSE_EXACT, &exact, &err);
    if (status) {
        FUZZ_EXPECT(status == QC_STATUS_INVALID && exact == -7);
        fuzz_expect_error(&err, status);
    } else {
        FUZZ_EXPECT(exact >= 0 && exact <= QC_LENGTH_MAX);
        expect_written(exact, units);
        expect_bought(exact, units);
    }
    if (qc_length_parse(text, units, QC_PARSE_UP, &up, NULL) == QC_STATUS_OK)
        FUZZ_EXPECT(up >= 0 && up <= QC_LENGTH_MAX && (status || up == exact));
    else
        FUZZ_EXPECT(status && up == -7);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char text[512];

    if (size >= sizeof text)
        size = sizeof text - 1;
    memcpy(text, data, size);
    text[size] = '\0';
    for (int units = 0; units < 3; units++)
        read_length(text, (qc_units)units);
    return 0;
}
