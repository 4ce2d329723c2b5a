/* The sentence of what is trimmed back once it is sewn.
 *
 * Pieces were cut larger than they must be, so that the seams may wander; what
 * they are sewn into is trimmed to its exact size. The sentence gives the lines
 * of the ruler that go onto seams, so that these end where they should (a
 * 45-degree line on a diagonal seam: common practice, no source).
 */
#include <inttypes.h>

#include "order/say.h"

/* "1 3/4 in from both edges" */
static void put_centre(qci_text *text, const qc_plan_piece *piece,
                       const qci_origin *from)
{
    qc_length across = piece->trim_to[0] / 2, along = piece->trim_to[1] / 2;

    qci_say_about(text, across, from);
    if (across == along) {
        qci_text_printf(text, " from both edges");
        return;
    }
    qci_text_printf(text, " across and ");
    qci_say_about(text, along, from);
    qci_text_printf(text, " along from the edges");
}

static void put_sizes(qci_text *text, const qc_plan_piece *piece,
                      const qci_origin *from)
{
    if (piece->shape == QC_SHAPE_DIAMOND ||
        piece->shape == QC_SHAPE_PARALLELOGRAM) {
        qci_say_length(text, piece->trim_to[1], from);
        qci_text_printf(text, " high and ");
        qci_say_length(text, piece->trim_to[0], from);
        qci_text_printf(text, " between the slanted sides, square to them");
    } else if (piece->outline_count > 0 &&
               piece->shape != QC_SHAPE_HALF_SQUARE_TRIANGLE &&
               piece->shape != QC_SHAPE_QUARTER_SQUARE_TRIANGLE) {
        qci_say_length(text, piece->trim_to[0], from);
        qci_text_printf(text, " wide and ");
        qci_say_length(text, piece->trim_to[1], from);
        qci_text_printf(text, " high");
    } else {
        qci_say_size(text, piece->trim_to[0], piece->trim_to[1], from);
    }
}

static void put_lines(qci_text *text, const qc_plan_piece *piece,
                      const qci_origin *from)
{
    switch (piece->shape) {
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
        qci_text_printf(text, "lay the ruler's 45-degree line on the seam");
        break;
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
        qci_text_printf(text, "lay the ruler's 45-degree line on one seam, the "
                              "point where the seams cross ");
        put_centre(text, piece, from);
        break;
    case QC_SHAPE_SQUARE:
    case QC_SHAPE_RECTANGLE:
    case QC_SHAPE_STRIP:
        qci_text_printf(text, "lay the ruler so that the middle is ");
        put_centre(text, piece, from);
        break;
    case QC_SHAPE_DIAMOND:
    case QC_SHAPE_PARALLELOGRAM:
    case QC_SHAPE_TRAPEZOID:
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
    case QC_SHAPE_HEXAGON:
    case QC_SHAPE_KITE:
    case QC_SHAPE_POLYGON:
        qci_text_printf(text, "keep its angles, and take as much off every "
                              "side");
        return;
    }
    qci_text_printf(text,
                    ", trim two sides, turn the unit halfway round, lay "
                    "these two on the ruler's lines for the size and trim "
                    "the other two");
}

void qci_say_trim_back(qci_text *text, const qc_step *step,
                       const qci_origin *from)
{
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];

    qci_text_printf(text, "once sewn, trim each unit to ");
    put_sizes(text, piece, from);
    qci_text_printf(text, ": ");
    put_lines(text, piece, from);
    qci_text_printf(text, " (");
    qci_say_count(text, step->copies, qci_piece_noun(piece));
    qci_text_printf(text, " %s).", piece->id);
}
