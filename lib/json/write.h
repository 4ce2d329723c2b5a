/* Writing JSON: indented, with the same bytes on every platform. */
#ifndef QCI_JSON_WRITE_H
#define QCI_JSON_WRITE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/text.h"

typedef struct qci_writer {
    qci_text text; /* remembers when memory ran out */
    int depth;
    bool begun;    /* the innermost object or list has a member already */
    bool one_line; /* the innermost is a list on one line */
} qci_writer;

/* Each writes one member. `key` is NULL inside a list, and for the root. */
void qci_write_open(qci_writer *writer, const char *key, char bracket);
/* A list of a few numbers or texts, on one line. */
void qci_write_open_line(qci_writer *writer, const char *key);
void qci_write_close(qci_writer *writer, char bracket);
void qci_write_text(qci_writer *writer, const char *key, const char *text);
void qci_write_integer(qci_writer *writer, const char *key, int64_t value);
void qci_write_bool(qci_writer *writer, const char *key, bool value);
void qci_write_null(qci_writer *writer, const char *key);
/* over / under, as qci_ratio_text() writes it; `over` may be negative. */
void qci_write_ratio(qci_writer *writer, const char *key, int64_t over,
                     int64_t under, int places);

#endif
