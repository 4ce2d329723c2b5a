/* Comma-separated values, as RFC 4180 has them. */
#ifndef QCI_CHECK_CELLS_H
#define QCI_CHECK_CELLS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/vec.h"

typedef struct qci_cell {
    char *text; /* without quotes, and without blanks round it */
    uint32_t line;
    uint32_t column; /* from 1 */
    bool last;       /* of its row */
} qci_cell;

typedef struct qci_cells {
    QCI_VEC(qci_cell) list;
} qci_cells;

typedef enum qci_cells_end {
    QCI_CELLS_READ,
    QCI_CELLS_NO_MEMORY,
    QCI_CELLS_OPEN /* a quote is not closed, or followed by something else; the
                      last cell is the one */
} qci_cells_end;

/* Cuts the text into cells, row after row; empty rows are left out. End the
 * cells in any case. */
qci_cells_end qci_cells_read(qci_cells *cells, const char *text, size_t size);
void qci_cells_end_all(qci_cells *cells);

#endif
