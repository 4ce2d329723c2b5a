/* Fabrics, pieces and strip sets from JSON. */
#ifndef QCI_JSON_ITEMS_H
#define QCI_JSON_ITEMS_H

#include <quiltcut/job.h>

#include "base/vec.h"
#include "json/read.h"

#define QCI_COUNT(array) (sizeof(array) / sizeof *(array))

/* A spec while it is being read; its texts are the JSON values', its inner
 * lists are among `lists`. */
typedef struct qci_draft {
    qc_job_spec spec;
    QCI_VEC(qc_fabric_spec) fabrics;
    QCI_VEC(qc_piece_spec) pieces;
    QCI_VEC(qc_strip_set_spec) sets;
    QCI_VEC(qc_block_spec) blocks;
    QCI_VEC(void *) lists;
} qci_draft;

/* A zeroed list of `count` elements that lives as long as the draft; NULL when
 * memory is out. */
void *qci_draft_list(qci_draft *draft, size_t count, size_t size);

/* A number of degrees, as millionths of one. */
qc_status qci_read_angle(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to); /* int32_t */

/* Reads a word of an array into an enumeration that has the words' order. */
#define QCI_WORD_READER_OF(name, type, list)                                   \
    static qc_status name(qci_reader *reader, const json_t *value,             \
                          const qci_field *field, void *to)                    \
    {                                                                          \
        const qci_words choice = {list, QCI_COUNT(list)};                      \
        int index = 0;                                                         \
        qc_status status = qci_read_word(reader, value, &choice, &index);      \
                                                                               \
        (void)field;                                                           \
        if (!status)                                                           \
            *(type *)to = (type)index;                                         \
        return status;                                                         \
    }

/* The same for words that are used nowhere else. */
#define QCI_WORD_READER(name, type, ...)                                       \
    static const char *const name##_words[] = {__VA_ARGS__};                   \
    QCI_WORD_READER_OF(name, type, name##_words)

/* Reads one of them and appends it to a qci_draft. */
qc_status qci_read_fabric(qci_reader *reader, const json_t *value, void *to);
qc_status qci_read_piece(qci_reader *reader, const json_t *value, void *to);
qc_status qci_read_strip_set(qci_reader *reader, const json_t *value, void *to);
qc_status qci_read_block(qci_reader *reader, const json_t *value, void *to);

#endif
