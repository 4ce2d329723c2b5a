/* What stands around the cloth: its width above, strip names and heights on
 * the left, lengths on the right, and which end is worked from.
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

static double lay_text(qci_sheet *sheet, double y, bool strong,
                       const char *text)
{
    const qci_type type = {small.size, strong, false};

    qci_scene_text_in(sheet->scene, type, QCI_PAGE_MARGIN, y,
                      QCI_GUTTER_LEFT - 22, 1, text);
    return y + qci_scene_line_height(sheet->scene, small.size);
}

/* Lays one name no higher than `from`; returns where the next may start. Notes
 * are always written, name and size in one line where there is no room. */
static double lay_name(qci_sheet *sheet, const qci_band *band, double from)
{
    double line = qci_scene_line_height(sheet->scene, small.size);
    int notes = (band->notes[0][0] != 0) + (band->notes[1][0] != 0);
    bool two = band->h >= (2 + notes) * line;
    double h = ((two ? 2 : 1) + notes) * line;
    double middle = band->y + band->h / 2, y = middle - h / 2;
    double bracket = QCI_CLOTH_LEFT - 7;
    char text[sizeof band->name + sizeof band->size + 4];

    if (y < from)
        y = from;
    qci_scene_line(sheet->scene, QCI_ROLE_DIMENSION, bracket, band->y, bracket,
                   band->y + band->h);
    qci_scene_line(sheet->scene, QCI_ROLE_LEADER,
                   QCI_PAGE_MARGIN + QCI_GUTTER_LEFT - 20, y + h / 2, bracket,
                   middle);
    snprintf(text, sizeof text, "%s: %s", band->name, band->size);
    y = lay_text(sheet, y, two, two ? band->name : text);
    if (two)
        y = lay_text(sheet, y, false, band->size);
    for (int i = 0; i < notes; i++)
        y = lay_text(sheet, y, false, band->notes[i]);
    return y;
}

double qci_margin_names(qci_sheet *sheet)
{
    double y = sheet->top - 12;

    for (size_t i = 0; i < sheet->bands.count; i++)
        y = lay_name(sheet, &sheet->bands.at[i], y);
    return y;
}

double qci_margin_end(qci_sheet *sheet, double left, double right, double y)
{
    static const char worked[] = "\xE2\x96\xB2 worked from this end";
    static const char mirrored[] =
        "left-handed: worked from this end \xE2\x96\xB2";
    double after = y + qci_scene_line_height(sheet->scene, small.size);
    double room = QCI_PAGE_WIDTH - QCI_PAGE_MARGIN;

    if (!qc_plan_left_handed(sheet->plan))
        qci_scene_text_in(sheet->scene, small, left, y, room - left, 0, worked);
    else if (qci_scene_text_width(sheet->scene, small, mirrored) <=
             right - left)
        qci_scene_text_in(sheet->scene, small, left, y, right - left, 1,
                          mirrored);
    else
        qci_scene_text_in(sheet->scene, small, right - 8, y, room - right + 8,
                          0, worked);
    return after;
}

/* A length along the cloth, from `start` to its bottom; texts without room go
 * to `below`, which moves down. */
static void lay_length(qci_sheet *sheet, double x, double start,
                       const char *text, double *below)
{
    const qci_type upright = {7.5, false, true};
    double span = sheet->bottom - start;
    double line = qci_scene_line_height(sheet->scene, small.size);

    qci_scene_line(sheet->scene, QCI_ROLE_DIMENSION, x, start, x,
                   sheet->bottom);
    if (qci_scene_text_width(sheet->scene, small, text) <= span) {
        qci_scene_text_in(sheet->scene, upright, x + 3, start, span, 0.5, text);
        return;
    }
    qci_scene_text_in(sheet->scene, small, QCI_CLOTH_LEFT, *below,
                      QCI_PAGE_WIDTH - QCI_PAGE_MARGIN - QCI_CLOTH_LEFT, 1,
                      text);
    *below += line;
}

static double lay_lengths(qci_sheet *sheet)
{
    double right = QCI_CLOTH_LEFT + qci_sheet_cloth_width(sheet);
    double x = right + 8;
    double below =
        qci_margin_end(sheet, QCI_CLOTH_LEFT, right, sheet->bottom + 3);
    char length[QCI_SIZE_BYTES], shop[QCI_SIZE_BYTES];
    char text[2 * QCI_SIZE_BYTES + 64];
    const char *unit = qci_sheet_unit(sheet);

    qc_length_format(sheet->info->used, sheet->units, length, sizeof length);
    snprintf(text, sizeof text, "cut up %s %s", length, unit);
    lay_length(sheet, x, sheet->used_from, text, &below);
    qc_length_format(sheet->info->bought, sheet->units, length, sizeof length);
    qc_length_format_purchase(sheet->info->bought, sheet->units, shop,
                              sizeof shop);
    snprintf(text, sizeof text, "buy %s (%s %s%s)", shop, length, unit,
             sheet->info->shrink_length ? ", before it shrinks" : "");
    lay_length(sheet, x + 18, sheet->top, text, &below);
    return below;
}

double qci_margin_lay(qci_sheet *sheet)
{
    double left, right;

    lay_width(sheet);
    left = qci_margin_names(sheet);
    right = lay_lengths(sheet);
    return left > right ? left : right;
}
