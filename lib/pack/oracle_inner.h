/* What the two oracles share. */
#ifndef QCI_PACK_ORACLE_INNER_H
#define QCI_PACK_ORACLE_INNER_H

#include "pack/oracle.h"

/* Longest pattern that is walked; longer ones are bounded only. */
#define QCI_SEQUENCE_LIMIT 20000

struct qci_oracle {
    const qci_model *model;
    int64_t unit_x, cells_x; /* a table cell in scaled width; last cell */
    int64_t unit_y, cells_y;
    int64_t *across;    /* [position in items][cell]: what the rest can gain */
    int64_t *up;        /* stack: [lay][cell]: what a section's rest can gain */
    int64_t *section;   /* stack: [lay]: best section opened by it */
    int64_t *amortised; /* per row: most that one piece can be worth */
    int64_t *scratch;   /* cells_x + 1 */
    int32_t *queue;     /* cells_x + 1 */
    /* Lays in use, in table order. Flat: class k owns items[first[k]..] up to
     * last[k]; one table serves all classes when `shared`. */
    int32_t *items;
    int32_t *first, *last;
    bool shared;
    /* Stack: the class priced last, and what was found for it. */
    int32_t last_class;
    int64_t last_best;
    bool last_walked;     /* by a walk: below what the tables promise */
    int32_t *bonus_first; /* per row, row_count + 1 */
    int32_t *held;        /* per row: pieces in the pattern being walked */
    /* The walk. */
    const qci_prices *prices;
    int32_t *walk, *best_walk;
    int32_t walk_length, best_length;
    int64_t best_value;
    int32_t nodes;
    bool capped;
    bool found; /* best_walk holds a pattern, perhaps an empty one */
};

/* Worth of `count` pieces of a row, bonuses included. */
int64_t qci_row_worth(const qci_oracle *oracle, int32_t row, int64_t count);
/* Notes the walk as the best so far. */
void qci_walk_keep(qci_oracle *oracle, int64_t value);

/* Best value of class `cls` (an upper bound when oracle->capped), with the walk
 * left in best_walk when oracle->found; what the tables promise if less. */
int64_t qci_flat_price(qci_oracle *oracle, int32_t cls);
void qci_flat_tables(qci_oracle *oracle); /* shared tables, once per pricing */
qc_status qci_flat_prepare(qci_oracle *oracle, qc_error *err);

int64_t qci_stack_price(qci_oracle *oracle, int32_t cls);
void qci_stack_tables(qci_oracle *oracle);

#endif
