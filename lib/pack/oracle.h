/* Pricing: the most valuable pattern of every class, in exact integers.
 *
 * Two oracles share this face: flat (a section holds one piece; two stages)
 * and stack (a section holds a stack; three stages). Both build tables that
 * bound from above what a partial pattern can still gain, and walk the patterns
 * depth first with these bounds. Tables coarser than the lengths (on very fine
 * grids) only weaken the bounds. */
#ifndef QCI_PACK_ORACLE_H
#define QCI_PACK_ORACLE_H

#include "pack/pack.h"
#include "pack/pattern.h"

/* A gain (or loss) once a pattern holds at least `at` pieces of `row`. */
typedef struct qci_bonus {
    int32_t row;
    int32_t at;
    int64_t value;
} qci_bonus;

/* What a pattern is worth: sum of piece values and bonuses. */
typedef struct qci_prices {
    const int64_t *value;   /* per row; below 0 only where the model is exact */
    const int64_t *limit;   /* per row: most pieces in one pattern */
    const qci_bonus *bonus; /* by row, then at */
    int32_t bonus_count;
    const int64_t *threshold; /* per class: only patterns above this count */
    int32_t node_limit;       /* of the depth-first search, per class */
    const qci_watch *watch;   /* ends long walks; may be NULL */
} qci_prices;

typedef struct qci_oracle qci_oracle;

qc_status qci_oracle_create(const qci_model *model, qci_oracle **out,
                            qc_error *err);
void qci_oracle_destroy(qci_oracle *oracle);

/* Told of the best pattern above its threshold found in a class. The sequence
 * is the oracle's. Returns false to stop (memory out). */
typedef bool (*qci_found_fn)(int32_t cls, int64_t value,
                             const int32_t *sequence, int32_t length,
                             void *user);

/* Prices that classes are priced by from here on; they must stay. */
void qci_oracle_begin(qci_oracle *oracle, const qci_prices *prices);

/* *best receives an upper bound on the value of every pattern of the class, or
 * no more than the threshold where no pattern is worth more than that. Quickest
 * when classes come in rising order.
 * @return false when `found` did. */
bool qci_oracle_class(qci_oracle *oracle, int32_t cls, int64_t *best,
                      qci_found_fn found, void *user);

/* All classes, at these prices. */
bool qci_oracle_price(qci_oracle *oracle, const qci_prices *prices,
                      int64_t *best, qci_found_fn found, void *user);

/* The best pattern of one class only. */
int64_t qci_oracle_price_class(qci_oracle *oracle, const qci_prices *prices,
                               int32_t cls, qci_found_fn found, void *user);

#endif
