/* Filling the caller's error record. */
#ifndef QCI_BASE_ERROR_H
#define QCI_BASE_ERROR_H

#include <quiltcut/status.h>

/* Where a value stands and what it is; any part may be NULL. */
typedef struct qci_place {
    const char *field;
    const char *value;
} qci_place;

/* Fills `err` (which may be NULL, and keeps its first error) and returns
 * `code`. `allowed` may be NULL. `problem` is a printf format. */
qc_status qci_fail(qc_error *err, qc_status code, qci_place place,
                   const char *allowed, const char *problem, ...)
    __attribute__((format(printf, 5, 6)));

void qci_note_no_memory(qc_error *err);

/* Here, so that the static analysis sees that it is never QC_STATUS_OK. */
static inline qc_status qci_no_memory(qc_error *err)
{
    qci_note_no_memory(err);
    return QC_STATUS_NO_MEMORY;
}

#endif
