/* Tokens of JSON text, with their places, for error reports. jansson does the
 * reading; it keeps no places. */
#ifndef QCI_JSON_SCAN_H
#define QCI_JSON_SCAN_H

#include <stddef.h>
#include <stdint.h>

typedef struct qci_token {
    char kind;    /* one of {}[]:," or 'v' (number, true, false, null, or
                     anything else) or 0 at the end of the text */
    size_t start; /* offset in bytes */
    size_t end;   /* just behind it */
} qci_token;

/* The token at or after `at`. Works on any bytes; a string that is not closed
 * ends at the line's end. */
qci_token qci_token_next(const char *text, size_t size, size_t at);

/* Line and column (in bytes) of an offset, both from 1. */
void qci_line_column(const char *text, size_t offset, uint32_t *line,
                     uint32_t *column);

#endif
