/* Strips filled one after the other, each as full as it goes. */
#ifndef QCI_PACK_LINE_FILL_H
#define QCI_PACK_LINE_FILL_H

#include "pack/line_plan.h"

typedef struct qci_line_filler {
    int32_t rows;
    int32_t width;
    const int64_t *widths;  /* per row, falling */
    size_t words;           /* of a set of widths */
    uint64_t *sets;         /* line after line: what the rows so far can fill */
    QCI_VEC(int32_t) lines; /* row of each line */
    QCI_VEC(qci_count) found;
} qci_line_filler;

bool qci_line_filler_init(qci_line_filler *filler, int32_t rows, int32_t width,
                          const int64_t *widths);
void qci_line_filler_clear(qci_line_filler *filler);

/* Adds strips for all of `need` (which becomes 0) to the plan. With more than
 * `most` strips in the plan it ends, need left as it is then; *done: all is
 * cut. False when memory is out. */
bool qci_line_fill(qci_line_filler *filler, int64_t *need, int64_t most,
                   qci_line_plan *plan, bool *done);

#endif
