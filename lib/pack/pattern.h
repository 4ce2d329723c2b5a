/* A pattern: what one strip is cut into. */
#ifndef QCI_PACK_PATTERN_H
#define QCI_PACK_PATTERN_H

#include "pack/model.h"

/* In a sequence, a lay with this bit opens a new section; one without it lies
 * on top of the lay before it. */
#define QCI_OPEN INT32_C(0x40000000)
#define QCI_LAY(entry) ((entry) & ~QCI_OPEN)

typedef struct qci_count {
    int32_t row;
    int32_t count;
} qci_count;

typedef struct qci_pattern {
    int32_t cls;    /* class of its strip */
    int64_t height; /* its highest section, scaled: never above its class */
    int32_t length;
    int32_t *sequence;
    int32_t row_count;
    qci_count *rows; /* pieces per row, rising */
} qci_pattern;

/* Copies a sequence into a new pattern; NULL when memory is out. */
qci_pattern *qci_pattern_create(const qci_model *model, int32_t cls,
                                const int32_t *sequence, int32_t length);
void qci_pattern_destroy(qci_pattern *pattern);
/* Pieces of `row` in it. */
int32_t qci_pattern_yield(const qci_pattern *pattern, int32_t row);
/* Strips of it until nothing that it holds is left to cut. */
int64_t qci_pattern_needed(const qci_pattern *pattern, const int64_t *left);
/* Takes the pieces of `times` strips off what is left per row, down to 0. */
void qci_pattern_take(const qci_pattern *pattern, int64_t times, int64_t *left);
/* Same class and the same pieces. */
bool qci_pattern_same(const qci_pattern *a, const qci_pattern *b);

#endif
