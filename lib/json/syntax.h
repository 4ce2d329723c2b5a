/* From bytes to JSON values, with plain errors. */
#ifndef QCI_JSON_SYNTAX_H
#define QCI_JSON_SYNTAX_H

#include <jansson.h>
#include <stddef.h>

#include <quiltcut/status.h>

/* Reads `size` bytes, at most QC_MAX_JSON_BYTES. The caller ends *out with
 * json_decref().
 * @return QC_STATUS_OK, QC_STATUS_INVALID or QC_STATUS_NO_MEMORY. */
qc_status qci_json_load(const char *text, size_t size, json_t **out,
                        qc_error *err);

#endif
