/* Pricing for one class of strips: what fills a strip at most, and patterns
 * that are worth more than it costs. */
#ifndef QCI_PACK_LINE_PRICE_H
#define QCI_PACK_LINE_PRICE_H

#include "base/vec.h"
#include "pack/pattern.h"

/* Values of all that a strip can hold stay below this. */
#define QCI_LINE_MOST (INT32_C(1) << 30)

/* `count` pieces of a row, taken or left together. */
typedef struct qci_line_lot {
    int32_t row, count;
    int32_t width, value; /* together */
} qci_line_lot;

typedef struct qci_line_pricer {
    int32_t rows;
    int32_t width;         /* of a strip */
    const int64_t *widths; /* per row */
    QCI_VEC(qci_line_lot) lots;
    QCI_VEC(int32_t) table; /* line after line: the most after so many lots */
    QCI_VEC(int32_t) ends;  /* lots that patterns end with */
    /* Patterns found, one after the other, as LP columns are kept. */
    QCI_VEC(qci_count) entries;
    QCI_VEC(int32_t) first;
    int32_t *held; /* per row: scratch */
    int64_t nodes;
} qci_line_pricer;

bool qci_line_pricer_init(qci_line_pricer *pricer, int32_t rows, int32_t width,
                          const int64_t *widths);
void qci_line_pricer_clear(qci_line_pricer *pricer);

/* *most receives what a strip is worth at most, with at most limit[row] pieces
 * of each row; the pricer's patterns are some that are worth more than
 * `threshold`, the best of all among them unless a walk was cut short: then
 * *most is above what any is worth. False when memory is out. */
bool qci_line_price(qci_line_pricer *pricer, const int32_t *value,
                    const int64_t *limit, int32_t threshold, int32_t *most);

#endif
