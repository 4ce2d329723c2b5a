/* Jobs with one class of strips and one piece in a section: cutting stock in
 * one dimension. */
#ifndef QCI_PACK_LINE_H
#define QCI_PACK_LINE_H

#include "pack/search.h"

/* Is the model one of them? */
bool qci_line_fits(const qci_model *model);

/* Dives of these numbers, `to` not among them: no two are alike. */
typedef struct qci_line_turns {
    int32_t from, to;
} qci_line_turns;

/* Improves `best`, as qci_search() does, by what is known of these jobs alone;
 * it may end with the bound still below the cap. Where the bound is above it,
 * the master's noted duals are those that prove it. */
qc_status qci_line_search(qci_master *master, const qci_aim *aim,
                          qci_line_turns turns, qci_solution *best,
                          int64_t *bound, qc_error *err);

#endif
