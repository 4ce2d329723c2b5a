/* A proof while it is being checked. */
#ifndef QCI_CERTIFY_CHECK_H
#define QCI_CERTIFY_CHECK_H

#include "base/wide.h"
#include "certify/proof.h"

/* Some seconds; the unit is a number of a table. */
#define QCI_MOST_WORK (INT64_C(1) << 34)

/* A question on the way to a leaf, and its answer. */
typedef struct qci_answer {
    const qci_proof_node *node;
    bool above;
} qci_answer;

typedef struct qci_checking {
    const qci_proof *proof;
    char *reason;
    qci_answer *way; /* to the leaf in hand */
    size_t depth;
    const qci_proof_node *leaf; /* in hand: one weight for each answer */
    const qci_proof_form *forms;
    int32_t square, all; /* forms that stand square, all forms */
    bool exact;       /* stacks fill their strip, and no piece is left over */
    bool fills;       /* and cells measure their heights */
    int64_t *room;    /* holds all numbers below */
    int64_t *needed;  /* per kind: pieces in all */
    int64_t *share;   /* per kind: a piece's value, prizes shared out */
    int64_t *place;   /* the line, and what the strip in hand holds: */
    int64_t *held;    /* per kind */
    int64_t *section; /* per form: what a section that it opens is worth */
    int64_t *lines;   /* of `across`, that may follow in the strip in hand: of
                         no form that lies alone, then of each that fits */
    int32_t line_count;
    int64_t *up;     /* line i: what forms i.. add to a section above */
    int64_t *across; /* what may follow: line i, forms i.. and those alone;
                        line i + 1, for a form i that lies alone, those */
    int64_t *seen;   /* where the walk has been: room, line, what was held */
    size_t cells_x, cells_y; /* in a line of across, of up */
    size_t seen_room, seen_count;
    int64_t low, high; /* heights that the strip may have */
    qci_wide limit;    /* what it may be worth */
    bool above;        /* some strip is worth more: the proof fails */
    int64_t work;      /* done in all, with what came before */
} qci_checking;

/* Makes room for the tables. */
qc_status qci_price_begin(qci_checking *c, qc_error *err);
/* Takes the leaf's values. */
void qci_price_leaf(qci_checking *c);
/* Is no strip of these heights worth more than the limit? Also false when
 * telling it was too much work. */
bool qci_price_within(qci_checking *c, int64_t low, int64_t high);

#endif
