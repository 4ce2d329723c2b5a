/**
 * Writing a plan or a check out: text for a person, JSON for a program,
 * schemas.
 *
 * All text is UTF-8, made with malloc, and ended with qc_text_destroy().
 */
#ifndef QUILTCUT_REPORT_H
#define QUILTCUT_REPORT_H

#include <quiltcut/check.h>
#include <quiltcut/export.h>
#include <quiltcut/plan.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/**
 * The plan as text a sewist works from: shopping list, safety, cut order,
 * leftovers, and how good it is.
 *
 * @param out_text Receives the text; NULL on failure.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_plan_text(const qc_plan *plan, char **out_text,
                              qc_error *err);

/** The plan as JSON (`quiltcut schema plan`), indented, ending in a newline. */
QC_API qc_status qc_plan_json(const qc_plan *plan, char **out_text,
                              qc_error *err);

/**
 * A check as text for whoever wrote the instructions: a line for each fault,
 * how much fabric is needed, and what is short at other widths.
 *
 * @param out_text Receives the text; NULL on failure.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_check_text(const qc_check *check, char **out_text,
                               qc_error *err);

/** A check as JSON (`quiltcut schema check`). */
QC_API qc_status qc_check_json(const qc_check *check, char **out_text,
                               qc_error *err);

/**
 * The JSON Schema (draft 2020-12) of a form.
 *
 * @param name "job", "plan", "certificate", "instructions" or "check"; of what
 *             only the program prints "batch", "compare", "chart" or "blocks".
 * @return static text, or NULL for an unknown name.
 */
QC_API const char *qc_schema_text(const char *name);

/**
 * JSON in, JSON out: qc_job_parse(), qc_job_solve() with default options and
 * qc_plan_json() in one call, for programs that speak JSON only.
 *
 * @param job  `size` bytes of UTF-8; need not end with NUL.
 * @param out_plan_json Receives the plan; NULL on failure.
 * @return as the three calls.
 */
QC_API qc_status qc_json_plan(const char *job, size_t size,
                              char **out_plan_json, qc_error *err);

/** The same for instructions: qc_instructions_parse(), qc_instructions_check()
 *  with default options and qc_check_json(). */
QC_API qc_status qc_json_check(const char *instructions, size_t size,
                               char **out_check_json, qc_error *err);

/** Ends a text; NULL is fine. */
QC_API void qc_text_destroy(char *text);

#ifdef __cplusplus
}
#endif

#endif
