/* What stands behind a piece in the table: what it is cut from, how it finishes
 * and what else has to be known of it.
 *
 * Squares and rectangles have said all with their size. A shape that is cut at
 * an angle is named with what the ruler is set to; how often it lies which way
 * is told with the strips. Triangles from squares may also be cut from strips
 * one by one: how many are, only the strips tell. */
#include <inttypes.h>

#include <quiltcut/block.h>

#include "report/phrase.h"
#include "report/section.h"
#include "shape/shape.h"

/* Begins the next note. */
static void join(qci_text *notes)
{
    if (notes->size)
        qci_text_printf(notes, "; ");
}

/* Runs of the piece that become `more` than one or just one each, counted. */
static int64_t count_runs(const qc_plan *plan, uint32_t piece, bool more)
{
    const qci_plan_fabric *fabric = &plan->fabrics[plan->pieces[piece].fabric];
    int64_t count = 0;

    for (size_t i = 0; i < fabric->info.strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];

        for (size_t k = 0; k < strip->subcut_count; k++) {
            const qc_subcut *subcut = &strip->subcuts[k];

            for (size_t s = 0; s < subcut->stack_count; s++)
                if (subcut->stacks[s].piece == piece &&
                    (subcut->stacks[s].yields > 1) == more)
                    count += (int64_t)strip->repeat * subcut->count *
                             subcut->stacks[s].count;
        }
    }
    return count;
}

/* What triangles come from. */
static void add_origin(qci_text *notes, const qc_plan *plan, uint32_t piece)
{
    int32_t yields = qci_shape_yields(plan->pieces[piece].shape);
    int64_t squares = count_runs(plan, piece, true);
    int64_t single = count_runs(plan, piece, false);

    if (squares == 0) {
        qci_text_printf(notes, "triangles cut singly from strips");
        return;
    }
    qci_text_printf(notes, "triangles");
    if (single > 0)
        qci_text_printf(notes, ": %" PRId64, squares * yields);
    qci_text_printf(notes, " from %s cut %s corner to corner",
                    qci_phrase_count(squares, "square").text,
                    yields == 2 ? "once" : "twice");
    if (single > 0)
        qci_text_printf(notes, ", %" PRId64 " singly from strips", single);
}

/* Where the print faces in triangles from squares. */
static void add_facing(qci_text *notes, const qc_plan *plan, uint32_t piece)
{
    int32_t yields = qci_shape_yields(plan->pieces[piece].shape);
    qc_print print = plan->fabrics[plan->pieces[piece].fabric].info.print;
    int ways = print == QC_PRINT_ONE_WAY ? yields : yields / 2;

    if (plan->pieces[piece].facing_kept)
        qci_text_printf(notes, "; the print faces the same way in all");
    if (print == QC_PRINT_PLAIN || print == QC_PRINT_REVERSIBLE || ways < 2 ||
        count_runs(plan, piece, true) == 0)
        return;
    qci_text_printf(
        notes, "; the print faces %s ways in %s", ways == 2 ? "two" : "four",
        count_runs(plan, piece, false) ? "those from squares" : "them");
}

/* What a triangle comes from, and how its sewn square finishes. */
static void add_triangle(qci_text *notes, const qc_plan *plan, uint32_t index)
{
    const qc_plan_piece *piece = &plan->pieces[index];
    int32_t yields = qci_shape_yields(piece->shape);

    add_origin(notes, plan, index);
    if (piece->finished[0] > 0)
        qci_text_printf(notes, "; %s finishes %s",
                        yields == 2 ? "leg" : "long side",
                        qci_phrase_length(plan, piece->finished[0]).text);
    if (piece->trim_to[0] > 0)
        qci_text_printf(notes, "; trim the square sewn of %d back to %s",
                        (int)yields,
                        qci_phrase_size(plan, piece->trim_to).text);
    add_facing(notes, plan, index);
}

static const char *shape_name(qc_shape shape)
{
    switch (shape) {
    case QC_SHAPE_DIAMOND:
        return "diamond";
    case QC_SHAPE_PARALLELOGRAM:
        return "parallelogram";
    case QC_SHAPE_TRAPEZOID:
        return "trapezoid";
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
        return "triangle with three equal sides";
    case QC_SHAPE_HEXAGON:
        return "hexagon";
    case QC_SHAPE_KITE:
        return "kite";
    default:
        return "shape of its own";
    }
}

/* Set by the angle and the spacing of parallel cuts; the box of others is only
 * a measure of the room they take. */
static bool is_parallel(const qc_plan_piece *piece)
{
    return piece->shape == QC_SHAPE_DIAMOND ||
           piece->shape == QC_SHAPE_PARALLELOGRAM;
}

static void add_shape(qci_text *notes, const qc_plan *plan,
                      const qc_plan_piece *piece)
{
    qci_text_printf(notes, "%s, ", shape_name(piece->shape));
    if (is_parallel(piece))
        qci_text_printf(notes, "%s: slanted cuts %s apart",
                        qci_phrase_angle(piece->angle).text,
                        qci_phrase_about(plan, piece->cut[0]).text);
    else
        qci_text_printf(notes, "%s wide",
                        qci_phrase_about(plan, piece->cut[0]).text);
    if (piece->blunt)
        qci_text_printf(notes, ", its sharp tips cut off");
}

/* The measures of a shape as they show in the quilt. */
static void add_finished(qci_text *notes, const qc_plan *plan,
                         const qc_plan_piece *piece)
{
    qci_phrase one = qci_phrase_length(plan, piece->finished[0]);
    qci_phrase two = qci_phrase_length(plan, piece->finished[1]);
    qci_phrase three = qci_phrase_length(plan, piece->finished[2]);

    if (piece->finished[0] == 0)
        return;
    join(notes);
    switch (piece->shape) {
    case QC_SHAPE_DIAMOND:
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
    case QC_SHAPE_HEXAGON:
        qci_text_printf(notes, "side finishes %s", one.text);
        break;
    case QC_SHAPE_PARALLELOGRAM:
        qci_text_printf(notes,
                        "finishes %s along the strip, %s along the slant",
                        one.text, two.text);
        break;
    case QC_SHAPE_TRAPEZOID:
        qci_text_printf(notes,
                        "long side finishes %s, short side %s, height %s",
                        one.text, two.text, three.text);
        break;
    case QC_SHAPE_KITE:
        qci_text_printf(notes, "finishes %s long, %s wide", one.text, two.text);
        break;
    default:
        qci_text_printf(notes, "finishes %s",
                        qci_phrase_size(plan, piece->finished).text);
        break;
    }
}

static void add_trim(qci_text *notes, const qc_plan *plan,
                     const qc_plan_piece *piece)
{
    if (piece->trim_to[0] == 0)
        return;
    join(notes);
    if (!piece->outline_count)
        qci_text_printf(notes, "trim back to %s",
                        qci_phrase_size(plan, piece->trim_to).text);
    else if (is_parallel(piece))
        qci_text_printf(notes,
                        "trim back to %s between the slanted sides, %s "
                        "between the others",
                        qci_phrase_about(plan, piece->trim_to[0]).text,
                        qci_phrase_about(plan, piece->trim_to[1]).text);
    else
        qci_text_printf(notes, "trim back to %s wide, %s high",
                        qci_phrase_about(plan, piece->trim_to[0]).text,
                        qci_phrase_about(plan, piece->trim_to[1]).text);
}

/* How many are spare, and of these how many only because squares give 2 or 4.
 */
static void add_spares(qci_text *notes, const qc_plan_piece *piece)
{
    if (piece->spares == 0)
        return;
    join(notes);
    qci_text_printf(notes, "%" PRId64 " of them spare", piece->spares);
    if (piece->extra > 0 && piece->extra == piece->spares)
        qci_text_printf(notes, ", since a square gives %d",
                        (int)qci_shape_yields(piece->shape));
    else if (piece->extra > 0)
        qci_text_printf(notes, ", %" PRId64 " of these since a square gives %d",
                        piece->extra, (int)qci_shape_yields(piece->shape));
}

void qci_add_piece_notes(qci_text *notes, const qc_plan *plan, uint32_t index)
{
    const qc_plan_piece *piece = &plan->pieces[index];

    if (qci_shape_yields(piece->shape) > 1) {
        add_triangle(notes, plan, index);
    } else {
        if (piece->outline_count)
            add_shape(notes, plan, piece);
        add_finished(notes, plan, piece);
        add_trim(notes, plan, piece);
    }
    if (piece->strip_set != QC_NONE) {
        join(notes);
        qci_text_printf(notes, "for strip set %s",
                        plan->sets[piece->strip_set].info.job_id);
    }
    if (piece->patches) {
        join(notes);
        qci_text_printf(notes, "%s",
                        qc_method_name(plan->made[piece->unit].method));
    }
    add_spares(notes, piece);
    if (piece->rounded) {
        join(notes);
        qci_text_printf(notes, "rounded up to the ruler");
    }
}
