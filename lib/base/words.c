/* Checking texts, a character at a time. */
#include "base/words.h"

#include <string.h>

#include <quiltcut/job.h>

#include "base/utf8.h"

/* No text is made of these: the first kind puts the words of a plan in another
 * order, terminals obey the second, and neither XML nor cairo takes the third.
 */
static qc_status check_characters(qc_error *err, qci_place place, size_t size)
{
    for (size_t i = 0; i < size; i++) {
        const char *kind = qci_utf8_is_layout(place.value + i, size - i)
                               ? "code for line breaks or writing direction"
                           : qci_utf8_is_control(place.value + i, size - i)
                               ? "control character"
                           : qci_utf8_is_noncharacter(place.value + i, size - i)
                               ? "code that is no character"
                               : NULL;

        if (kind)
            return qci_fail(err, QC_STATUS_INVALID, place, NULL,
                            "has a %s (byte %zu)", kind, i + 1);
    }
    return QC_STATUS_OK;
}

qc_status qci_words_check(qc_error *err, qci_place place, size_t least)
{
    const char *text = place.value;
    size_t size;

    if (!text)
        return qci_fail(err, QC_STATUS_INVALID, place, NULL, "is missing");
    size = strlen(text);
    if (size < least)
        return qci_fail(err, QC_STATUS_INVALID, place, NULL,
                        "must not be empty");
    if (size > QC_MAX_TEXT_BYTES)
        return qci_fail(err, QC_STATUS_INVALID, place,
                        "up to 200 bytes of UTF-8", "is too long: %zu bytes",
                        size);
    if (!qci_utf8_valid(text, size))
        return qci_fail(err, QC_STATUS_INVALID, place, NULL,
                        "is not valid UTF-8");
    return check_characters(err, place, size);
}
