/* Turning rules. A size is given as {across, along}, so a piece that asks for
 * its first dimension along the selvage ("lengthwise") must be turned by a
 * quarter, and one that asks for it across the width must not be. A print with
 * a direction (one-way, two-way) forbids quarter turns, for squares too: their
 * design would lie on its side. */
#include "job/turn.h"

bool qci_piece_may_lie(const qci_piece *piece, qc_print print, qc_turn turn)
{
    if (turn == QC_TURN_QUARTER)
        return piece->grain != QC_GRAIN_CROSSWISE &&
               !qci_print_has_direction(print);
    return piece->grain != QC_GRAIN_LENGTHWISE;
}

bool qci_piece_fits(const qci_piece *piece, const qci_fabric *fabric,
                    qc_turn turn)
{
    return qci_piece_may_lie(piece, fabric->print, turn) &&
           qci_piece_across(piece, turn) <= fabric->width;
}
