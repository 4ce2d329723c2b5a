/* What a strip can be worth at most. */
#ifndef QCI_CERTIFY_PRICER_H
#define QCI_CERTIFY_PRICER_H

#include "certify/proof.h"

/* More for a strip that holds at least `at` pieces of a kind; may be less. */
typedef struct qci_prize {
    int64_t kind, at, value;
} qci_prize;

/* Steps after which a strip's patterns are too many to be checked. */
#define QCI_PRICER_STEPS 2000000

typedef enum qci_worth {
    QCI_WORTH_WITHIN, /* no pattern is worth more than the limit */
    QCI_WORTH_ABOVE,  /* one is */
    QCI_WORTH_UNKNOWN /* there are too many to tell */
} qci_worth;

typedef struct qci_pricer {
    const qci_proof *proof;
    const qci_proof_form **forms; /* those that stand square first, widest
                                     first; then those that lie alone */
    int32_t square, all;          /* how many */
    bool exact;      /* stacks fill their strip, and no piece is left over */
    bool fills;      /* exact, and the table of heights is fine enough for it */
    bool flat;       /* a section holds one piece of yield 1: a knapsack */
    int64_t *most;   /* per kind: pieces that one strip needs to hold at most */
    int64_t *needed; /* per kind: pieces in all */
    int64_t top;     /* the highest form */
    /* A leaf's values. */
    const int64_t *value;
    const qci_prize *prizes;
    size_t prize_count;
    int64_t *share; /* per kind: a piece's value, prizes shared out */
    /* Tables over cells of width and height, a line for each form. */
    int64_t unit_x, cells_x, unit_y, cells_y;
    int64_t *across, *up, *section;
    int32_t *leaning; /* per form: line of `path` for its right lean, +1 */
    int64_t *path;    /* what forms that lie alone add beside a lean; line 0 is
                         for lean 0, line i + 1 for form i's right lean */
    /* The strip in hand. */
    int64_t low, high; /* heights that it may have */
    int64_t limit;
    int64_t *held; /* per kind */
    int32_t *usable, usable_count;
    int64_t steps;
    bool above;
    /* Where the walk has been: entries of a width, a place and what was held.
     */
    int64_t *seen;
    size_t seen_room, seen_count; /* entries; the room is a power of two */
} qci_pricer;

/* *out is NULL, and all is well, where the lengths are too fine for tables. */
qc_status qci_pricer_create(const qci_proof *proof, qci_pricer **out,
                            qc_error *err);
void qci_pricer_destroy(qci_pricer *pricer);

/* Takes a leaf's values and prizes, both of which must stay. */
void qci_pricer_take(qci_pricer *pricer, const int64_t *values,
                     const qci_prize *prizes, size_t count);
/* Is any strip of these heights worth more than `limit`? */
qci_worth qci_pricer_ask(qci_pricer *pricer, int64_t low, int64_t high,
                         int64_t limit);

/* --- what the two ways to tell share ---------------------------------------
 */

/* Worth of `count` pieces of a kind. */
int64_t qci_pricer_worth(const qci_pricer *pricer, int64_t kind, int64_t count);
bool qci_pricer_fits(const qci_pricer *pricer, const qci_proof_form *form);
/* Counts a step; false when there were too many. */
bool qci_pricer_step(qci_pricer *pricer);
/* The width filled with what is worth most for its width, `worth` of form i. */
bool qci_pricer_within(const qci_pricer *pricer, const int64_t *worth);
void qci_flat_ask(qci_pricer *pricer);
void qci_stacks_take(qci_pricer *pricer); /* once a leaf's values are taken */
void qci_stacks_ask(qci_pricer *pricer);

#endif
