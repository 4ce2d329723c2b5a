/* Parts of a plan from JSON, and what reads them. */
#ifndef QCI_JSON_PLAN_SOURCE_H
#define QCI_JSON_PLAN_SOURCE_H

#include "plan/plan.h"
#include "json/read.h"

/* An object, and the plan that is being read; `plan` may be NULL where the
 * object refers to nothing. */
typedef struct qci_source {
    qci_reader *reader;
    const json_t *object;
    qc_plan *plan;
} qci_source;

/* What an id may be one of. A piece names the strip set of the job, which may
 * have become two: the first is meant. */
typedef enum qci_id_kind {
    QCI_ID_FABRICS,
    QCI_ID_PIECES,
    QCI_ID_SETS,
    QCI_ID_SETS_OF_JOB
} qci_id_kind;

extern const qci_field qci_source_counts;
extern const qci_field qci_source_indices;

/* Members of the object. One that is not there and not required leaves `to` as
 * it is. */
qc_status qci_source_get(const qci_source *s, const char *key, bool required,
                         qci_read_fn read, const qci_field *field, void *to);
qc_status qci_source_word(const qci_source *s, const char *key, bool required,
                          qci_words words, int *out);
qc_status qci_source_reference(const qci_source *s, const char *key,
                               qci_id_kind of, uint32_t *to);
qc_status qci_source_hand(const qci_source *s, qc_hand *to);
qc_status qci_source_angle(const qci_source *s, const char *key, int32_t *to);

/* Readers of single values. */
qc_status qci_source_number(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to); /* qc_length */
qc_status qci_source_index(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to); /* uint32_t */
/* A copy, which is owned. */
qc_status qci_source_text(qci_reader *reader, const json_t *value,
                          const qci_field *field, void *to); /* char * */

/* Element `i` of the plan's list; all ids are known. */
qc_status qci_source_piece(const qci_source *s, size_t i);
qc_status qci_source_set(const qci_source *s, size_t i);
qc_status qci_source_step(const qci_source *s, size_t i);

#endif
