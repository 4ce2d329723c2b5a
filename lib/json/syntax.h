/* From bytes to JSON values, with plain errors. */
#ifndef QCI_JSON_SYNTAX_H
#define QCI_JSON_SYNTAX_H

#include <jansson.h>
#include <stddef.h>

#include <quiltcut/status.h>

/* Editors on some systems begin a file with a byte order mark, which RFC 8259
 * lets a reader ignore: steps over it. */
void qci_json_skip_mark(const char **text, size_t *size);

/* Reads `size` bytes, at most QC_MAX_JSON_BYTES. The caller ends *out with
 * json_decref().
 * @return QC_STATUS_OK, QC_STATUS_INVALID or QC_STATUS_NO_MEMORY. */
qc_status qci_json_load(const char *text, size_t size, json_t **out,
                        qc_error *err);

#endif
