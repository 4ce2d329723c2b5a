/* The pieces that must lie on the table in the end, and the rectangles that are
 * put away for another quilt. Sizes read across x along, as the job gives
 * them; columns leave the unit to the heading, so that numbers stand out. */
#include <inttypes.h>

#include "base/mark.h"
#include "length/units.h"
#include "order/measure.h"
#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"
#include "shape/shape.h"

/* What the first ruler setting for the piece is. */
static void add_size(qci_table *table, const qc_plan *plan,
                     const qc_plan_piece *piece)
{
    if (piece->outline_count && qci_shape_yields(piece->shape) == 1) {
        qc_length height = piece->cut[1];
        char number[QCI_LENGTH_TEXT];

        qc_length_format(height, plan->units, number, sizeof number);
        qci_table_add(table, "strips %s", number);
    } else {
        qci_table_add(table, "%s", qci_phrase_size(plan, piece->cut).text);
    }
}

static void add_notes(qci_table *table, const qc_plan *plan, uint32_t piece)
{
    qci_text notes = {0};

    qci_add_piece_notes(&notes, plan, piece);
    qci_table_add(table, "%s", notes.size ? notes.bytes : "");
    table->cells.failed |= notes.failed;
    qci_text_clear(&notes);
}

static void put_fabric_pieces(qci_text *out, const qc_plan *plan,
                              uint32_t fabric)
{
    qci_table table = {.align = "lrll"};

    qci_table_add(&table, "piece");
    qci_table_add(&table, "count");
    qci_table_add(&table, "cut size, %s", qci_units_name(plan->units));
    qci_table_add(&table, "%s", "");
    for (uint32_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (piece->fabric != fabric)
            continue;
        qci_table_add(&table, "%s", piece->id);
        qci_table_add(&table, "%" PRId64, piece->count);
        add_size(&table, plan, piece);
        add_notes(&table, plan, i);
    }
    qci_put_paragraph(out, 2, plan->fabrics[fabric].info.name);
    qci_table_put(&table, out, 4);
}

/* Whether a piece of the plan is cut at an angle, or a triangle that is not. */
static bool any_shape(const qc_plan *plan, bool triangle)
{
    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];
        bool square = qci_shape_yields(piece->shape) > 1;

        if (triangle ? square : piece->outline_count && !square)
            return true;
    }
    return false;
}

static bool any_hand(const qc_plan *plan)
{
    for (size_t i = 0; i < plan->piece_count; i++) {
        if (plan->pieces[i].hand != QC_HAND_NONE)
            return true;
    }
    return false;
}

static bool any_finished(const qc_plan *plan)
{
    for (size_t i = 0; i < plan->piece_count; i++) {
        if (plan->pieces[i].finished[0] > 0)
            return true;
    }
    return false;
}

void qci_put_pieces(qci_text *out, const qc_plan *plan)
{
    qci_text intro = {0};

    qci_put_heading(out, "PIECES TO CUT");
    qci_text_printf(&intro, "Sizes are across x along: the first lies across "
                            "the width of the fabric, the second along its "
                            "length, unless a step says that the piece lies "
                            "turned.");
    if (any_finished(plan))
        qci_text_printf(&intro,
                        " Cut sizes made from finished ones have a seam "
                        "allowance of %s on every side.",
                        qci_phrase_length(plan, plan->seam).text);
    if (any_shape(plan, true))
        qci_text_printf(&intro, " Of triangles the count is that of triangles, "
                                "the cut size that of the squares they are cut "
                                "from.");
    if (any_shape(plan, false))
        qci_text_printf(&intro, " Shapes cut at an angle come from strips of "
                                "the height that is given; the distance of "
                                "slanted cuts is measured square to the cut.");
    if (any_hand(plan))
        qci_text_printf(&intro, " Of two hands, seen from the fabric's right "
                                "side, right is the one that slants to the "
                                "right going up; of a shape that was drawn, "
                                "it is as drawn.");
    qci_put_collected(out, 2, &intro);
    for (uint32_t i = 0; i < plan->fabric_count; i++) {
        if (plan->fabrics[i].info.bought > 0)
            put_fabric_pieces(out, plan, i);
    }
}

static void put_fabric_leftovers(qci_text *out, const qc_plan *plan,
                                 const qci_plan_fabric *fabric)
{
    qci_table table = {.align = "rrll"};

    qci_table_add(&table, "no.");
    qci_table_add(&table, "count");
    qci_table_add(&table, "across x along, %s", qci_units_name(plan->units));
    qci_table_add(&table, "%s", "");
    for (size_t i = 0; i < fabric->info.leftover_count; i++) {
        const qc_leftover *left = &fabric->leftovers[i];
        qc_length size[2] = {qci_mark_below(left->width, plan->units),
                             left->length};

        qci_table_add(&table, "%zu", i + 1);
        qci_table_add(&table, "%" PRIu32, left->count);
        qci_table_add(&table, "%s", qci_phrase_size(plan, size).text);
        if (left->strip == UINT32_MAX)
            qci_table_add(&table, "uncut end of the bolt");
        else
            qci_table_add(&table, "%s of strip %zu",
                          left->count == 1 ? "end" : "ends",
                          (size_t)left->strip + 1);
    }
    qci_put_paragraph(out, 2, fabric->info.name);
    qci_table_put(&table, out, 4);
}

void qci_put_leftovers(qci_text *out, const qc_plan *plan)
{
    bool any = false;

    qci_put_heading(out, "LEFTOVERS TO KEEP");
    for (size_t i = 0; i < plan->fabric_count; i++) {
        if (!plan->fabrics[i].info.leftover_count)
            continue;
        put_fabric_leftovers(out, plan, &plan->fabrics[i]);
        any = true;
    }
    if (!any)
        qci_put_paragraph(out, 2, "None is large enough to be worth keeping.");
}
