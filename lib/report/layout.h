/* Lines of at most 78 columns, and columns that stand under each other. */
#ifndef QCI_REPORT_LAYOUT_H
#define QCI_REPORT_LAYOUT_H

#include "base/text.h"

#define QCI_PAGE_WIDTH 78
/* Cells of the first columns wider than this push what follows to the next
 * line instead of widening their column. */
#define QCI_CELL_WIDTH 24
#define QCI_TABLE_COLUMNS 6

/* Columns that a UTF-8 text takes on a terminal: one a character, two for wide
 * scripts and pictures, none for marks that sit on the character before. */
size_t qci_display_width(const char *text, size_t size);

/* Writes words, with the cursor at column `at`; further lines begin at column
 * `indent`. A length and its unit, and a size, are never torn apart. Ends
 * without a newline. */
void qci_put_wrapped(qci_text *out, size_t at, size_t indent,
                     const char *words);

/* A paragraph: wrapped at `indent` from its first line on, with a newline. */
void qci_put_paragraph(qci_text *out, size_t indent, const char *words);

/* The same of words that were put together; empties `words`. A failure becomes
 * `out`'s. */
void qci_put_collected(qci_text *out, size_t indent, qci_text *words);

/* Cells are added row by row, then all are written at once. */
typedef struct qci_table {
    const char *align; /* one 'l' or 'r' a column; the last is 'l' and wraps */
    qci_text cells;    /* each ended by NUL */
} qci_table;

void qci_table_add(qci_table *table, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Writes the rows and empties the table. A failure becomes `out`'s. */
void qci_table_put(qci_table *table, qci_text *out, size_t indent);

#endif
