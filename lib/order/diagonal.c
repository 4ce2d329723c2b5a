/* The sentence of a cut corner to corner.
 *
 * The squares come from any strips, so the reader piles them anew; on a print
 * with a direction it matters that they lie alike. The ruler's setting is the
 * square's own corners. What falls out is told in triangles, with those that
 * nobody asked for. */
#include <inttypes.h>

#include "order/say.h"
#include "shape/shape.h"

static qc_print print_of(const qc_step *step, const qci_origin *from)
{
    return from->plan->fabrics[step->fabric].info.print;
}

/* How the squares lie. */
static void put_piles(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    qc_print print = print_of(step, from);

    if (step->copies == 1)
        qci_text_printf(text, "lay the square straight before you");
    else if (step->layers == 1)
        qci_text_printf(text,
                        "take the %" PRId64
                        " squares one at a time, each straight before you",
                        step->copies);
    else if (step->copies <= (int64_t)step->layers)
        qci_text_printf(text,
                        "pile the %" PRId64
                        " squares edge to edge, straight before you",
                        step->copies);
    else
        qci_text_printf(text,
                        "pile the %" PRId64 " squares edge to edge, up to "
                        "%" PRIu32 " deep, straight before you",
                        step->copies, step->layers);
    if (step->copies > 1 &&
        (print == QC_PRINT_ONE_WAY || print == QC_PRINT_TWO_WAY))
        qci_text_printf(text, ", all the same way up");
}

/* How many ways the print faces in the triangles of a square; 1 when it shows
 * nowhere. Opposite triangles are half a turn apart, which a stripe forgives.
 */
static int faces(const qc_step *step, const qci_origin *from)
{
    switch (print_of(step, from)) {
    case QC_PRINT_ONE_WAY:
        return qci_shape_yields(from->plan->pieces[step->piece].shape);
    case QC_PRINT_TWO_WAY:
        return qci_shape_yields(from->plan->pieces[step->piece].shape) / 2;
    case QC_PRINT_PLAIN:
    case QC_PRINT_REVERSIBLE:
        break;
    }
    return 1;
}

/* The new edges lie on the bias of the cloth, where it stretches (common
 * practice, no source). */
void qci_say_diagonal(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];

    put_piles(text, step, from);
    qci_text_printf(text,
                    "; lay the ruler corner to corner, from lower %s to upper "
                    "%s, and cut",
                    qci_near_side(from), qci_far_side(from));
    if (step->repeat > 1)
        qci_text_printf(text,
                        "; move nothing, and cut the other way, from lower %s "
                        "to upper %s",
                        qci_far_side(from), qci_near_side(from));
    qci_text_printf(text, ": %" PRId64 " triangles %s", step->yield, piece->id);
    if (faces(step, from) > 1)
        qci_text_printf(text, ", in which the print faces %s ways",
                        faces(step, from) == 2 ? "two" : "four");
    if (piece->extra)
        qci_text_printf(text, ", %" PRId64 " more than needed", piece->extra);
    if (from->tally.total > from->tally.now)
        qci_text_printf(text, "; with those from strips that makes %" PRId64,
                        from->tally.total);
    qci_text_printf(text, ". Do not pull at the new edges: they lie on the "
                          "bias and stretch.");
}
