/* Built-in blocks by their names. */
#include <string.h>

#include "base/error.h"
#include "base/nearest.h"
#include "block/builtin.h"

#define MOST 64

/* Traditional blocks that cannot be cut with straight cuts. */
static const char *const curved[] = {
    "drunkard's path",
    "double wedding ring",
    "orange peel",
    "clamshell",
    "apple core",
    "grandmother's fan",
    "robbing peter to pay paul",
};
#define CURVED (sizeof curved / sizeof *curved)

const qc_block_drawing *qc_block_builtin_at(size_t index)
{
    return index < qci_builtin_count ? &qci_builtins[index] : NULL;
}

qc_status qci_block_lookup(const char *name, const qc_block_drawing **out,
                           qc_error *err)
{
    const char *known[MOST];
    const char *nearest;

    if (!name)
        name = "";
    for (size_t i = 0; i < qci_builtin_count; i++) {
        known[i] = qci_builtins[i].name;
        if (qci_same_word(name, known[i])) {
            *out = &qci_builtins[i];
            return QC_STATUS_OK;
        }
    }
    for (size_t i = 0; i < CURVED; i++)
        if (qci_same_word(name, curved[i]))
            return qci_fail(err, QC_STATUS_INVALID, (qci_place){"block", name},
                            "blocks with straight seams",
                            "has curved seams, which are out of scope: pieces "
                            "are cut with straight cuts from edge to edge");
    nearest = qci_nearest(name, known, qci_builtin_count);
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){"block", name},
                    "a built-in block, such as nine patch or sawtooth star",
                    "is no block that is known%s%s%s",
                    nearest ? "; did you mean " : "", nearest ? nearest : "",
                    nearest ? "?" : "");
}
