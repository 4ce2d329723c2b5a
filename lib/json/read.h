/* Reading JSON into structs by tables of fields, with errors that say where. */
#ifndef QCI_JSON_READ_H
#define QCI_JSON_READ_H

#include <jansson.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/job.h>

#include "json/locate.h"

/* What is being read, and how far down in it we are. */
typedef struct qci_reader {
    const char *text;
    size_t size;
    qc_units units; /* of bare numbers */
    qci_json_path path;
    qc_error *err;
} qci_reader;

typedef struct qci_field qci_field;

/* Reads `value`, which stands at the reader's path, to `to`. */
typedef qc_status (*qci_read_fn)(qci_reader *reader, const json_t *value,
                                 const qci_field *field, void *to);

struct qci_field {
    const char *name;
    qci_read_fn read; /* NULL: part of the form, but not built yet */
    size_t offset;    /* into the struct that the object fills */
    bool required;
    /* For numbers: kept as multiples of 10^-decimals, from lo to hi. */
    int decimals;
    int64_t lo, hi;
};

/* Reads an object by its table: a field that the table does not have is an
 * error, a field that is not there leaves its place as it is. Fields are read
 * in the table's order. */
qc_status qci_read_object(qci_reader *reader, const json_t *value,
                          const qci_field *fields, size_t count, void *to);

/* One step down, and up again. */
void qci_read_enter_key(qci_reader *reader, const char *key);
void qci_read_enter_index(qci_reader *reader, size_t index);
void qci_read_leave(qci_reader *reader);

/* Readers of single values. The text stays the JSON value's. */
qc_status qci_read_text(qci_reader *reader, const json_t *value,
                        const qci_field *field, void *to); /* const char * */
qc_status qci_read_length(qci_reader *reader, const json_t *value,
                          const qci_field *field, void *to); /* qc_length */
qc_status qci_read_int64(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to);
qc_status qci_read_int32(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to);

/* The form's version, which must be 1. */
qc_status qci_read_version(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to);

qc_status qci_read_flag(qci_reader *reader, const json_t *value,
                        const qci_field *field, void *to); /* bool */

/* Reads the elements of a list to places of `size` bytes, one after another. */
qc_status qci_read_elements(qci_reader *reader, const json_t *list,
                            qci_read_fn read, const qci_field *field, void *to,
                            size_t size);

/* Reads one element of a list into what the list fills. */
typedef qc_status (*qci_read_item_fn)(qci_reader *reader, const json_t *value,
                                      void *to);

/* Reads a list, element by element. */
qc_status qci_read_list(qci_reader *reader, const json_t *value, void *to,
                        qci_read_item_fn read);

/* A length that may lie between two: then it is rounded up and *rounded set. */
qc_status qci_read_length_up(qci_reader *reader, const json_t *value,
                             qc_length *length, bool *rounded);

/* A number written as `decimal`, checked against the field's limits. */
qc_status qci_read_scaled(qci_reader *reader, const char *decimal,
                          const qci_field *field, int64_t *out);

/* Words to choose from. */
typedef struct qci_words {
    const char *const *words;
    size_t count;
} qci_words;

qc_status qci_read_word(qci_reader *reader, const json_t *value,
                        const qci_words *words, int *index);
/* The word of the units. */
qc_status qci_read_units(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to); /* qc_units */

/* Reports the value at the path. `allowed` may be NULL. */
qc_status qci_read_fail(qci_reader *reader, const char *allowed,
                        const char *problem, ...)
    __attribute__((format(printf, 3, 4)));
/* Reports that the value is of the wrong type. */
qc_status qci_read_wrong_type(qci_reader *reader, const json_t *value,
                              const char *allowed);

/* Adds line and column to an error that names its field, and shows the value
 * as it stands in the text. */
void qci_read_place_error(const qci_reader *reader);

#endif
