/* What stands around the cloth: its width above, strip names and heights on
 * the left, lengths on the right.
 *
 * Names on the left never overlap: one that has no room beside its band moves
 * down, and a leader shows where it belongs. A length too short for its text
 * has it below the cloth instead. Cost: linear in the bands. */
#include <stdio.h>

#include "draw/sheet.h"

static const qci_type small = {7.5, false, false};

static void lay_width(qci_sheet *sheet)
{
    double w = qci_sheet_cloth_width(sheet), y = sheet->top - 8;
    double line = qci_scene_line_height(sheet->scene, small.size);
    char length[QCI_SIZE_BYTES], text[QCI_SIZE_BYTES + 64];
    double room = QCI_PAGE_WIDTH - QCI_PAGE_MARGIN - QCI_CLOTH_LEFT;

    qc_length_format(sheet->info->usable_width, sheet->units, length,
                     sizeof length);
    snprintf(text, sizeof text, "usable width %s %s, between the selvages",
             length, qci_sheet_unit(sheet));
    if (qci_scene_text_width(sheet->scene, small, text) <= w)
        room = w;
    qci_scene_line(sheet->scene, QCI_ROLE_DIMENSION, QCI_CLOTH_LEFT, y,
                   QCI_CLOTH_LEFT + w, y);
    qci_scene_text_in(sheet->scene, small, QCI_CLOTH_LEFT, y - line - 3, room,
                      room > w ? 0 : 0.5, text);
}

/* Lays one name no higher than `from`; returns where the next may start. */
static double lay_name(qci_sheet *sheet, const qci_band *band, double from)
{
    const qci_type bold = {7.5, true, false};
    double line = qci_scene_line_height(sheet->scene, small.size);
    bool two = band->h >= 2 * line;
    double room = QCI_GUTTER_LEFT - 22, h = two ? 2 * line : line;
    double middle = band->y + band->h / 2, y = middle - h / 2;
    double bracket = QCI_CLOTH_LEFT - 7;
    char text[sizeof band->name + sizeof band->size + 4];

    if (y < from)
        y = from;
    if (two) {
        qci_scene_text_in(sheet->scene, bold, QCI_PAGE_MARGIN, y, room, 1,
                          band->name);
        qci_scene_text_in(sheet->scene, small, QCI_PAGE_MARGIN, y + line, room,
                          1, band->size);
    } else {
        snprintf(text, sizeof text, "%s: %s", band->name, band->size);
        qci_scene_text_in(sheet->scene, small, QCI_PAGE_MARGIN, y, room, 1,
                          text);
    }
    qci_scene_line(sheet->scene, QCI_ROLE_DIMENSION, bracket, band->y, bracket,
                   band->y + band->h);
    qci_scene_line(sheet->scene, QCI_ROLE_LEADER, QCI_PAGE_MARGIN + room + 2,
                   y + h / 2, bracket, middle);
    return y + h;
}

/* A length along the cloth, from its top to `end`; texts without room go to
 * `below`, which moves down. */
static void lay_length(qci_sheet *sheet, double x, double end, const char *text,
                       double *below)
{
    const qci_type upright = {7.5, false, true};
    double span = end - sheet->top;
    double line = qci_scene_line_height(sheet->scene, small.size);

    qci_scene_line(sheet->scene, QCI_ROLE_DIMENSION, x, sheet->top, x, end);
    if (qci_scene_text_width(sheet->scene, small, text) <= span) {
        qci_scene_text_in(sheet->scene, upright, x + 3, sheet->top, span, 0.5,
                          text);
        return;
    }
    qci_scene_text_in(sheet->scene, small, QCI_CLOTH_LEFT, *below,
                      QCI_PAGE_WIDTH - QCI_PAGE_MARGIN - QCI_CLOTH_LEFT, 1,
                      text);
    *below += line;
}

static double lay_lengths(qci_sheet *sheet)
{
    double x = QCI_CLOTH_LEFT + qci_sheet_cloth_width(sheet) + 8;
    double below = sheet->bottom + 3;
    char length[QCI_SIZE_BYTES], shop[QCI_SIZE_BYTES];
    char text[2 * QCI_SIZE_BYTES + 64];
    const char *unit = qci_sheet_unit(sheet);

    qc_length_format(sheet->info->used, sheet->units, length, sizeof length);
    snprintf(text, sizeof text, "cut up %s %s", length, unit);
    lay_length(sheet, x, sheet->used_to, text, &below);
    qc_length_format(sheet->info->bought, sheet->units, length, sizeof length);
    qc_length_format_purchase(sheet->info->bought, sheet->units, shop,
                              sizeof shop);
    snprintf(text, sizeof text, "buy %s (%s %s%s)", shop, length, unit,
             sheet->info->shrink_length ? ", before it shrinks" : "");
    lay_length(sheet, x + 18, sheet->bottom, text, &below);
    return below;
}

double qci_margin_lay(qci_sheet *sheet)
{
    double left = sheet->top - 12, right;

    lay_width(sheet);
    for (size_t i = 0; i < sheet->bands.count; i++)
        left = lay_name(sheet, &sheet->bands.at[i], left);
    right = lay_lengths(sheet);
    return left > right ? left : right;
}
