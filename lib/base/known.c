/* What a caller's struct has in common with this version's.
 *
 * Structs grow at the end only, so the common part is the shorter of the two,
 * and it can be copied as bytes. Cost: one pass over the caller's struct. */
#include "base/known.h"

#include <stdint.h>
#include <string.h>

#include "base/error.h"

qc_status qci_take_known(const void *given, size_t least, void *known,
                         size_t size, const char *field, qc_error *err)
{
    const unsigned char *bytes = given;
    const qci_place place = {field, NULL};
    uint32_t given_size;

    memcpy(&given_size, given, sizeof given_size);
    if (given_size < least)
        return qci_fail(err, QC_STATUS_INVALID, place,
                        "what the init function sets", "is too small: %u",
                        (unsigned)given_size);
    for (size_t i = size; i < given_size; i++)
        if (bytes[i])
            return qci_fail(err, QC_STATUS_INVALID, place, NULL, "%s",
                            "something is set that this version of the library "
                            "does not know");
    memcpy(known, given, given_size < size ? given_size : size);
    return QC_STATUS_OK;
}
