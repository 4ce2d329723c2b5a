/* The pieces that must lie on the table in the end, and the rectangles that are
 * put away for another quilt. Sizes read across x along, as the job gives
 * them; columns leave the unit to the heading, so that numbers stand out. */
#include <inttypes.h>

#include "length/units.h"
#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"
#include "shape/shape.h"

/* What a triangle comes from, and how its sewn square finishes. */
static void add_triangle(qci_text *notes, const qc_plan *plan,
                         const qc_plan_piece *piece)
{
    int32_t yields = qci_shape_yields(piece->shape);
    qc_print print = plan->fabrics[piece->fabric].info.print;
    int ways = print == QC_PRINT_ONE_WAY ? yields : yields / 2;

    qci_text_printf(notes, "triangles from %s cut %s corner to corner",
                    qci_phrase_count(piece->count / yields, "square").text,
                    yields == 2 ? "once" : "twice");
    if (piece->finished[0] > 0)
        qci_text_printf(notes, "; %s finishes %s",
                        yields == 2 ? "leg" : "long side",
                        qci_phrase_length(plan, piece->finished[0]).text);
    if (piece->trim_to[0] > 0)
        qci_text_printf(notes, "; trim the square sewn of %d back to %s",
                        (int)yields,
                        qci_phrase_size(plan, piece->trim_to).text);
    if (print != QC_PRINT_PLAIN && print != QC_PRINT_REVERSIBLE && ways > 1)
        qci_text_printf(notes, "; the print faces %s ways in them",
                        ways == 2 ? "two" : "four");
}

/* How many are spare, and of these how many only because squares give 2 or 4.
 */
static void add_spares(qci_text *notes, const qc_plan_piece *piece)
{
    qci_text_printf(notes, "%" PRId64 " of them spare", piece->spares);
    if (piece->extra > 0 && piece->extra == piece->spares)
        qci_text_printf(notes, ", since a square gives %d",
                        (int)qci_shape_yields(piece->shape));
    else if (piece->extra > 0)
        qci_text_printf(notes, ", %" PRId64 " of these since a square gives %d",
                        piece->extra, (int)qci_shape_yields(piece->shape));
}

static const char *joint(const qci_text *notes)
{
    return notes->size ? "; " : "";
}

static void add_notes(qci_table *table, const qc_plan *plan,
                      const qc_plan_piece *piece)
{
    qci_text notes = {0};

    if (qci_shape_yields(piece->shape) > 1)
        add_triangle(&notes, plan, piece);
    else if (piece->finished[0] > 0)
        qci_text_printf(&notes, "finishes %s",
                        qci_phrase_size(plan, piece->finished).text);
    if (qci_shape_yields(piece->shape) == 1 && piece->trim_to[0] > 0)
        qci_text_printf(&notes, "%strim back to %s", joint(&notes),
                        qci_phrase_size(plan, piece->trim_to).text);
    if (piece->spares > 0) {
        qci_text_printf(&notes, "%s", joint(&notes));
        add_spares(&notes, piece);
    }
    if (piece->rounded)
        qci_text_printf(&notes, "%srounded up to the ruler", joint(&notes));
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
    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (piece->fabric != fabric)
            continue;
        qci_table_add(&table, "%s", piece->id);
        qci_table_add(&table, "%" PRId64, piece->count);
        qci_table_add(&table, "%s", qci_phrase_size(plan, piece->cut).text);
        add_notes(&table, plan, piece);
    }
    qci_put_paragraph(out, 2, plan->fabrics[fabric].info.name);
    qci_table_put(&table, out, 4);
}

bool qci_any_triangle(const qc_plan *plan, const qc_plan_fabric *fabric)
{
    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (qci_shape_yields(piece->shape) > 1 &&
            (!fabric || &plan->fabrics[piece->fabric].info == fabric))
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
    if (qci_any_triangle(plan, NULL))
        qci_text_printf(&intro, " Of triangles the count is that of triangles, "
                                "the cut size that of the squares they are cut "
                                "from.");
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
        qc_length size[2] = {left->width, left->length};

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
