/* First solutions, made without the program. */
#ifndef QCI_PACK_GREEDY_H
#define QCI_PACK_GREEDY_H

#include "pack/master.h"

/* First-fit decreasing height, by counts, not piece by piece: the lower of two
 * runs, all pieces lying flat and all standing. Adds its patterns and one full
 * pattern of every lay to the program. */
qc_status qci_greedy(qci_master *master, qci_solution *out, qc_error *err);

/* The same for rows that lie only alone, each in strips of its own: adds them
 * to `out`. One full pattern of every other lay that lies alone is added to the
 * program too. */
qc_status qci_greedy_alone(qci_master *master, qci_solution *out,
                           qc_error *err);

/* Fills a strip of this (scaled) height with a row's lays that lie alone;
 * `sequence` receives them, when it is not NULL. Returns their number. */
int32_t qci_alone_row(const qci_model *model, int32_t row, int64_t height,
                      int32_t *sequence);

/* What the hand method buys: every piece type in strips of its own as its size
 * was given, rounded up to whole strips. -1 beyond QC_LENGTH_MAX. */
qc_length qci_hand_method(const qci_demand *demand, const qci_model *model);

#endif
