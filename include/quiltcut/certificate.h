/**
 * Certificates: that no plan buys less, for whoever will not take a program's
 * word for it.
 *
 * A certificate is a JSON text (`quiltcut schema certificate`) that says what
 * is to be cut and why less fabric cannot be enough. It is checked by itself,
 * in integers, by a part of the library that shares nothing with the search.
 */
#ifndef QUILTCUT_CERTIFICATE_H
#define QUILTCUT_CERTIFICATE_H

#include <stddef.h>

#include <quiltcut/export.h>
#include <quiltcut/plan.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** What checking a certificate came to. */
typedef enum qc_verdict {
    QC_VERDICT_PROVED = 0, /**< no fabric's length can be less */
    QC_VERDICT_PARTLY = 1, /**< what is there holds, but some fabric has no
                                proof in it */
    QC_VERDICT_REFUSED = 2 /**< some proof does not hold */
} qc_verdict;

/**
 * Writes the certificate of a plan: for every fabric that is cut, the proof
 * that no plan of its kind buys less, nor uses less where QC_GOAL_USED is a
 * goal and proved. Each proof has been checked before it is
 * written. A fabric whose length is not proved, or was proved in a way that
 * cannot be written down, has in its place why not.
 *
 * @param out_text Receives the text, ended with qc_text_destroy(); NULL on
 *                 failure.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_plan_certificate(const qc_plan *plan, char **out_text,
                                     qc_error *err);

/**
 * Checks a certificate. It need not come from this library.
 *
 * @param text        `size` bytes of UTF-8; need not end with NUL.
 * @param out_verdict Receives the verdict.
 * @param out_report  Receives a text with a line for each fabric, its reason
 *                    included, ended with qc_text_destroy(); NULL on failure.
 * @return QC_STATUS_OK when it could be checked, whatever the verdict;
 *         QC_STATUS_INVALID when it is no certificate, with `err` as
 *         qc_job_parse() fills it; QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_certificate_check(const char *text, size_t size,
                                      qc_verdict *out_verdict,
                                      char **out_report, qc_error *err);

#ifdef __cplusplus
}
#endif

#endif
