/* What the parts of the search of one class share. Rows are the model's, the
 * widest first; counts are of strips. */
#ifndef QCI_PACK_LINE_INNER_H
#define QCI_PACK_LINE_INNER_H

#include "pack/line.h"
#include "pack/line_fill.h"
#include "pack/line_lp.h"
#include "pack/line_price.h"

typedef struct qci_line {
    qci_master *master;
    const qci_aim *aim;
    qci_line_turns turns;
    const qci_model *model;
    int32_t rows;
    int32_t *row;    /* of the model */
    int64_t *width;  /* per row, falling */
    int64_t *demand; /* per row */
    int64_t *need;   /* what a dive has left of it */
    int64_t *scratch;
    qci_line_lp lp;
    qci_line_pricer pricer;
    qci_line_filler filler;
    int32_t *value; /* duals in integers */
    double *centre; /* duals of the best bound of the present need */
    double centre_bound;
    int64_t *noted; /* integers of the best bound on the whole demand */
    int64_t lower;  /* that bound */
    qci_line_plan best;
    qci_line_plan now; /* of the dive */
    qci_line_basis root;
    int64_t end_round;
} qci_line;

typedef enum qci_line_end {
    QCI_LINE_FITS,   /* the program needs no more strips than are allowed */
    QCI_LINE_PROVED, /* no plan needs so few */
    QCI_LINE_SOLVED, /* the program is solved, and needs more */
    QCI_LINE_STOPPED
} qci_line_end;

/* Generates patterns for line->need, from the basis in hand, until one of these
 * is known of `allowed` strips. *bound is raised. */
qc_status qci_line_generate(qci_line *line, int64_t allowed, int64_t *bound,
                            qci_line_end *end, qc_error *err);

/* Tries to cut all in `allowed` strips; what is found goes to line->best if it
 * is better. `turn` tells one dive from another. */
qc_status qci_line_dive(qci_line *line, int64_t allowed, int32_t turn,
                        qc_error *err);

/* Fills strips with what is left, and keeps the plan if it is the best. */
qc_status qci_line_try_fill(qci_line *line, qc_error *err);

#endif
