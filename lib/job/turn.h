/* Which ways a piece may lie on its fabric. */
#ifndef QCI_JOB_TURN_H
#define QCI_JOB_TURN_H

#include <quiltcut/plan.h>

#include "job/job.h"

/* Whether the print tells one way along the fabric from across it. */
static inline bool qci_print_has_direction(qc_print print)
{
    return print == QC_PRINT_ONE_WAY || print == QC_PRINT_TWO_WAY;
}

/* Whether its print must face the same way in all pieces that are cut. */
static inline bool qci_piece_keeps_facing(const qci_piece *piece,
                                          qc_print print)
{
    return piece->facing == QC_FACING_KEPT && qci_print_has_direction(print);
}

/* Whether print and grain let a piece lie as given (QC_TURN_NONE) or turned by
 * a quarter. */
bool qci_piece_may_lie(const qci_piece *piece, qc_print print, qc_turn turn);

/* Whether it may lie so and is no wider than the fabric then. */
bool qci_piece_fits(const qci_piece *piece, const qci_fabric *fabric,
                    qc_turn turn);

/* What of a piece that lies so is across the fabric, and along it. */
static inline qc_length qci_piece_across(const qci_piece *piece, qc_turn turn)
{
    return piece->cut[turn == QC_TURN_QUARTER];
}

static inline qc_length qci_piece_along(const qci_piece *piece, qc_turn turn)
{
    return piece->cut[turn != QC_TURN_QUARTER];
}

#endif
