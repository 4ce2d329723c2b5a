/**
 * Status codes and the error record.
 *
 * Two kinds of answer are kept apart. A qc_status says whether a call worked.
 * A qc_outcome (solve.h) says what is known about a plan. A time limit with a
 * plan in hand is a call that worked.
 */
#ifndef QUILTCUT_STATUS_H
#define QUILTCUT_STATUS_H

#include <stddef.h>
#include <stdint.h>

#include <quiltcut/export.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Every status: name, number, and one line that explains it. */
#define QC_STATUS_LIST(X)                                                      \
    X(OK, 0, "done")                                                           \
    X(INVALID, 1, "the input is wrong")                                        \
    X(IMPOSSIBLE, 2, "a piece cannot be cut from its fabric")                  \
    X(NO_MEMORY, 3, "out of memory")                                           \
    X(SOLVER, 4, "the solver failed")                                          \
    X(CANCELLED, 5, "stopped before any plan was found")                       \
    X(REJECTED, 6, "the replay did not accept the plan: a fault of the library")

typedef enum qc_status {
#define QC_STATUS_ENUM(name, number, text) QC_STATUS_##name = (number),
    QC_STATUS_LIST(QC_STATUS_ENUM)
#undef QC_STATUS_ENUM
} qc_status;

/**
 * What went wrong and where. The caller owns the record; nothing in it needs
 * freeing. The first error wins; a call that succeeds leaves it alone.
 */
typedef struct qc_error {
    uint32_t struct_size; /**< sizeof(qc_error), set by qc_error_init() */
    qc_status code;
    uint32_t line;     /**< from 1; 0 = not from a text */
    uint32_t column;   /**< from 1, in bytes; 0 = not from a text */
    char field[128];   /**< such as "pieces[3].cut[0]"; empty if none */
    char value[96];    /**< the offending value as given; empty if none */
    char problem[224]; /**< what is wrong with it */
    char allowed[224]; /**< what would be right; empty if nothing helps */
    uint32_t reserved[4];
} qc_error;

/** Empties `err` and sets its size. */
QC_API void qc_error_init(qc_error *err);

/**
 * Writes the error as one line without a newline:
 * "FILE:LINE:COLUMN: FIELD: VALUE: PROBLEM (allowed: ALLOWED)", each part left
 * out where it is empty. Control characters are shown as '?'.
 *
 * @param file   Name to begin with; NULL for none.
 * @param buffer At least `size` bytes; always terminated when size > 0.
 * @return the length the whole line has, as snprintf does.
 */
QC_API int qc_error_format(const qc_error *err, const char *file, char *buffer,
                           size_t size);

/** One static line for a code; "unknown status" for any other number. */
QC_API const char *qc_status_text(qc_status status);

#ifdef __cplusplus
}
#endif

#endif
