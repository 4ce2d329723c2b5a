/* A text that grows. After the first failed allocation it stays as it was and
 * remembers the failure, so that writers check once, at the end. */
#ifndef QCI_BASE_TEXT_H
#define QCI_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

typedef struct qci_text {
    char *bytes; /* NUL-terminated once anything was written */
    size_t size;
    size_t room;
    bool failed;
} qci_text;

void qci_text_add(qci_text *text, const char *bytes, size_t size);
void qci_text_printf(qci_text *text, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Hands the text over (freed with qci_free) and empties `text`; NULL, with
 * nothing left to free, when memory ran out. */
char *qci_text_take(qci_text *text);
void qci_text_clear(qci_text *text);

#endif
