/* A job's text while it is read, also as part of a larger form. */
#ifndef QCI_JSON_DRAFT_H
#define QCI_JSON_DRAFT_H

#include "json/items.h"

/* A text, read into a draft. `draft` may be the first member of a larger
 * struct, whose other members `more` fields fill. */
typedef struct qci_job_text {
    qci_reader reader;
    json_t *root;
    qc_error own; /* so that an old error of the caller's gets no place */
} qci_job_text;

/* Loads the JSON; before all else. */
qc_status qci_job_text_load(qci_job_text *text, const char *bytes, size_t size);

/* Reads a job with `more_count` fields besides its own; its lists are in
 * place in draft->spec. End both with qci_job_text_end() in any case. */
qc_status qci_job_text_read(qci_job_text *text, const qci_field *more,
                            size_t more_count, qci_draft *draft);

/* Hands an error on to the caller's record, unless that has one already, and
 * ends text and draft; returns `status`. */
qc_status qci_job_text_end(qci_job_text *text, qci_draft *draft,
                           qc_status status, qc_error *err);

#endif
