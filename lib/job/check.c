/* Checks that every part of a spec has in common. A message names the field as
 * the JSON form spells it, so that a reader of JSON can find line and column;
 * the value; and the whole range that is allowed. */
#include "job/check.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/words.h"
#include "length/units.h"

qci_path qci_path_of(const char *list, size_t index, const char *member)
{
    qci_path path;

    snprintf(path.text, sizeof path.text, "%s[%zu]%s%s", list, index,
             member ? "." : "", member ? member : "");
    return path;
}

qci_short qci_short_of(const char *text)
{
    qci_short out;
    size_t size = strlen(text);

    if (size < sizeof out.text) {
        memcpy(out.text, text, size + 1);
        return out;
    }
    size = sizeof out.text - 4;
    while (size && ((unsigned char)text[size] & 0xC0) == 0x80)
        size--;
    memcpy(out.text, text, size);
    memcpy(out.text + size, "...", 4);
    return out;
}

qci_shown qci_show(qc_length length, qc_units units)
{
    qci_shown out = {{0}};

    qci_length_format_unit(length, units, out.text, sizeof out.text);
    return out;
}

static qc_status check_range(const qci_check *check, const char *field,
                             const char *shown, int64_t value, qci_range range)
{
    const char *problem = value > range.most ? "is too large"
                          : value == 0       ? "must not be 0"
                          : value < 0        ? "is negative"
                                             : "is too small";

    if (value >= range.least && value <= range.most)
        return QC_STATUS_OK;
    return qci_fail(check->err, QC_STATUS_INVALID, (qci_place){field, shown},
                    range.allowed, "%s", problem);
}

qc_status qci_check_length(const qci_check *check, const char *field,
                           qc_length value, qci_range range)
{
    return check_range(check, field, qci_show(value, check->job->units).text,
                       value, range);
}

qc_status qci_check_number(const qci_check *check, const char *field,
                           int64_t value, qci_range range)
{
    char shown[32];

    snprintf(shown, sizeof shown, "%" PRId64, value);
    return check_range(check, field, shown, value, range);
}

qc_status qci_check_percent(const qci_check *check, const char *field,
                            int32_t hundredths, qci_range range)
{
    int64_t size = hundredths < 0 ? -(int64_t)hundredths : hundredths;
    char shown[32];

    snprintf(shown, sizeof shown, "%s%" PRId64 ".%02" PRId64 " %%",
             hundredths < 0 ? "-" : "", size / 100, size % 100);
    return check_range(check, field, shown, hundredths, range);
}

qc_status qci_check_text(const qci_check *check, const char *field,
                         const char *text, size_t least)
{
    return qci_words_check(check->err, (qci_place){field, text}, least);
}
