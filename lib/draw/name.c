/* What pieces are called on the sheet: names, sizes, and the label of a block.
 *
 * A square or rectangle is named by its sides; a diamond or parallelogram by
 * what its cutter sets, which are the spacing of the cuts, the height of the
 * strip and the angle; any other shape by the box round it. */
#include <stdio.h>

#include "draw/sheet.h"

void qci_name_size(const qci_sheet *sheet, const qc_plan_piece *piece,
                   char text[QCI_SIZE_BYTES])
{
    char sides[QCI_SIZE_BYTES], angle[QCI_SIZE_BYTES];

    qci_sheet_size_text(sheet, piece->cut[0], piece->cut[1], sides);
    qci_sheet_angle_text(piece->angle, angle);
    if (piece->angle)
        snprintf(text, QCI_SIZE_BYTES, "%.40s at %.10s\xC2\xB0", sides, angle);
    else
        snprintf(text, QCI_SIZE_BYTES, "%s", sides);
}

/* The label of two pieces, of which one section gives one each. */
static void fit_both(qci_sheet *sheet, uint32_t piece, uint32_t twin,
                     const char *name, const char *size, qci_room room,
                     qci_fit *fit)
{
    char second[QC_MAX_TEXT_BYTES + 64], key[64];

    snprintf(second, sizeof second, "+ %.220s",
             qc_plan_piece_at(sheet->plan, twin)->id);
    snprintf(key, sizeof key, "(%u+%u)", sheet->kinds[piece].number,
             sheet->kinds[twin].number);
    qci_label_fit(sheet->scene, room,
                  (qci_caption){name, second, size, key, true}, fit);
    if (fit->by_key)
        sheet->kinds[piece].keyed = true;
}

void qci_name_fit(qci_sheet *sheet, const qc_stack *stack, bool paired,
                  uint64_t together, qci_room room, qci_fit *fit)
{
    const qc_plan_piece *piece = qc_plan_piece_at(sheet->plan, stack->piece);
    bool quarter = stack->turn == QC_TURN_QUARTER && !piece->outline_count;
    qci_kind *kind = &sheet->kinds[stack->piece];
    char size[QCI_SIZE_BYTES], key[32], many[32] = "";
    char name[QC_MAX_TEXT_BYTES + 64];

    if (piece->outline_count && stack->yields <= 1)
        qci_name_size(sheet, piece, size);
    else
        qci_sheet_size_text(sheet, stack->width, stack->height, size);
    if (together > 1)
        snprintf(many, sizeof many, "%llu \xC3\x97 ",
                 (unsigned long long)together);
    snprintf(name, sizeof name, "%s%.220s", many, piece->id);
    snprintf(key, sizeof key, "(%u)", kind->number);
    if (paired && piece->twin != stack->piece && piece->twin != QC_NONE) {
        fit_both(sheet, stack->piece, piece->twin, name, size, room, fit);
        return;
    }
    qci_label_fit(
        sheet->scene, room,
        (qci_caption){name, size, quarter ? "turned" : NULL, key, false}, fit);
    if (fit->by_key)
        kind->keyed = true;
}
