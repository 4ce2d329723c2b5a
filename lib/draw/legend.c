/* Below the cloth: scale bar, grain, signs, the list of pieces, cautions.
 *
 * The list has one cell per piece type of the fabric, in columns read
 * downwards; names too long for their cell end in an ellipsis. Cost: linear in
 * the piece types. */
#include <inttypes.h>
#include <math.h>
#include <stdio.h>

#include "base/caution.h"
#include "draw/corners.h"
#include "draw/sheet.h"

#define COLUMNS 3 /* of the list of pieces, at most */
#define SWATCH 14.0
#define LONGEST_BAR 150.0

static const qci_type small = {7.5, false, false};
static const qci_type bold = {8.5, true, false};

static double body_width(void)
{
    return QCI_PAGE_WIDTH - 2 * QCI_PAGE_MARGIN;
}

/* The longest of 1, 2, 5, 10, ... units that the bar has room for. */
static qc_length bar_length(const qci_sheet *sheet)
{
    static const qc_length units[] = {QC_INCH, QC_CM, QC_MM};
    static const int64_t steps[] = {1, 2, 5};
    qc_length best = units[sheet->units];

    for (int64_t ten = 1; ten <= 1000000; ten *= 10) {
        for (int i = 0; i < 3; i++) {
            qc_length length = units[sheet->units] * ten * steps[i];

            if ((double)length * sheet->scale <= LONGEST_BAR)
                best = length;
        }
    }
    return best;
}

void qci_legend_scale(qci_sheet *sheet, double y)
{
    qc_length length = bar_length(sheet);
    double w = (double)length * sheet->scale, x = QCI_PAGE_MARGIN;
    char number[QCI_SIZE_BYTES], text[QCI_SIZE_BYTES + 16];

    qci_scene_box(sheet->scene, QCI_ROLE_SCALE, x, y, w / 2, 5, 1);
    qci_scene_box(sheet->scene, QCI_ROLE_SCALE, x + w / 2, y, w / 2, 5, 0);
    qc_length_format(length, sheet->units, number, sizeof number);
    snprintf(text, sizeof text, "%s %s", number, qci_sheet_unit(sheet));
    qci_scene_text_in(sheet->scene, small, x, y + 8, 170, 0, text);
}

static bool any_triangle(const qci_sheet *sheet)
{
    for (size_t i = 0; i < qc_plan_piece_count(sheet->plan); i++)
        if (sheet->kinds[i].yields > 1)
            return true;
    return false;
}

static void lay_grain(qci_sheet *sheet, double x, double y)
{
    const char *text = "lengthwise grain, along the selvages";
    qci_role role = QCI_ROLE_BOTH_WAYS;

    if (sheet->info->print == QC_PRINT_ONE_WAY) {
        text = any_triangle(sheet)
                   ? "one-way print: this way up on the cloth, and in every "
                     "piece but the triangles"
                   : "one-way print: this way up on the cloth and in every "
                     "piece";
        role = QCI_ROLE_ONE_WAY;
    } else if (sheet->info->print == QC_PRINT_TWO_WAY) {
        text = "two-way print: runs along the length, either way up";
    }
    qci_scene_line(sheet->scene, role, x, y - 2, x, y + 20);
    qci_scene_text_in(sheet->scene, small, x + 8, y + 4,
                      QCI_PAGE_WIDTH - QCI_PAGE_MARGIN - x - 8, 0, text);
}

double qci_legend_sign(qci_sheet *sheet, double x, double y, qci_role role,
                       const char *text)
{
    qci_scene_box(sheet->scene, role, x, y, 22, 10, 0);
    qci_scene_text_in(sheet->scene, small, x + 27, y, 200, 0, text);
    return x + 27 + qci_scene_text_width(sheet->scene, small, text) + 20;
}

static double lay_signs(qci_sheet *sheet, double y)
{
    double x = QCI_PAGE_MARGIN;

    x = qci_legend_sign(sheet, x, y, QCI_ROLE_SCRAP, "cut away");
    x = qci_legend_sign(sheet, x, y, QCI_ROLE_LEFTOVER,
                        "left over, worth keeping");
    if (sheet->has_breaks)
        qci_legend_sign(sheet, x, y, QCI_ROLE_BREAK,
                        "to scale within a strip; part left out here");
    y += 22;
    if (!sheet->has_pairs)
        return y;
    qci_scene_text_in(
        sheet->scene, small, QCI_PAGE_MARGIN, y - 6, body_width(), 0,
        "2 \xC3\x97, right sides together: strips are piled in twos before "
        "they are cut; drawn is the lower one. Every section gives the piece "
        "and its mirror image.");
    return y + qci_scene_line_height(sheet->scene, small.size);
}

static bool is_slanted(const qc_plan_piece *piece, const qci_kind *kind)
{
    return piece->outline_count && piece->outline_count <= QCI_CORNERS_ROOM &&
           kind->yields <= 1;
}

/* The piece's tint in its own form, as far as that is another than a box. */
static void lay_swatch(qci_sheet *sheet, const qc_plan_piece *piece,
                       const qci_kind *kind, double x, double y)
{
    qci_corner corners[QCI_CORNERS_ROOM];
    double left, top, w, h, scale;
    size_t count;

    if (!is_slanted(piece, kind)) {
        qci_scene_box(sheet->scene, QCI_ROLE_PIECE, x, y + 0.5, SWATCH, 8,
                      kind->number - 1);
        return;
    }
    count = qci_slant_outline(piece, 0, QC_TURN_NONE, false, corners);
    qci_corners_box(corners, count, &left, &top, &w, &h);
    scale = fmin(SWATCH / w, 8 / h);
    for (size_t i = 0; i < count; i++)
        corners[i] =
            (qci_corner){x + (SWATCH - w * scale) / 2 + corners[i].x * scale,
                         y + 4.5 + h * scale / 2 - corners[i].y * scale};
    qci_scene_polygon(sheet->scene, QCI_ROLE_PIECE, corners, count,
                      kind->number - 1);
}

/* What the list says of a piece, apart from its name. */
static void describe(const qci_sheet *sheet, const qc_plan_piece *piece,
                     const qci_kind *kind, char text[QCI_SIZE_BYTES + 96])
{
    size_t room = QCI_SIZE_BYTES + 96;
    int64_t halves = piece->count - kind->singles;
    char size[QCI_SIZE_BYTES];

    qci_name_size(sheet, piece, size);
    if (kind->yields > 1 && kind->singles)
        snprintf(text, room,
                 "%s, %" PRId64 " cut corner to corner, %" PRId64
                 " singly: %" PRId64 " triangles",
                 size, halves / kind->yields, kind->singles, piece->count);
    else if (kind->yields > 1)
        snprintf(text, room,
                 "%s, %" PRId64 " cut corner to corner: %" PRId64 " triangles",
                 size, halves / kind->yields, piece->count);
    else if (kind->turned)
        snprintf(text, room, "%s, %" PRId64 " pieces, %" PRId64 " turned", size,
                 piece->count, kind->turned);
    else
        snprintf(text, room, "%s, %" PRId64 " %s", size, piece->count,
                 piece->count == 1 ? "piece" : "pieces");
}

static const qci_type piece_type = {7.5, true, false};

/* Columns such that no name need be cut short, if there are such. */
static size_t columns_for(const qci_sheet *sheet, bool keys)
{
    double widest = 0;
    size_t columns = COLUMNS;

    for (size_t i = 0; i < qc_plan_piece_count(sheet->plan); i++) {
        const qc_plan_piece *piece = qc_plan_piece_at(sheet->plan, i);
        char text[QCI_SIZE_BYTES + 96];

        if (!sheet->kinds[i].number)
            continue;
        describe(sheet, piece, &sheet->kinds[i], text);
        widest = fmax(
            widest, qci_scene_text_width(sheet->scene, piece_type, piece->id) +
                        6 + qci_scene_text_width(sheet->scene, small, text));
    }
    widest += SWATCH + 5 + (keys ? 28 : 0) + 12;
    while (columns > 1 && widest > body_width() / (double)columns)
        columns--;
    return columns;
}

static void lay_cell(qci_sheet *sheet, uint32_t index, double x, double y,
                     double room, bool keys)
{
    const qc_plan_piece *piece = qc_plan_piece_at(sheet->plan, index);
    const qci_kind *kind = &sheet->kinds[index];
    char text[QCI_SIZE_BYTES + 96], key[32];
    double tail, at = x + SWATCH + 5;

    lay_swatch(sheet, piece, kind, x, y);
    if (keys) {
        snprintf(key, sizeof key, "(%u)", kind->number);
        qci_scene_text_in(sheet->scene, small, at, y, 26, 0, key);
        at += 28;
    }
    describe(sheet, piece, kind, text);
    tail = qci_scene_text_width(sheet->scene, small, text);
    room -= at - x;
    if (qci_scene_text_width(sheet->scene, piece_type, piece->id) + 6 + tail <=
        room) {
        qci_scene_text_in(sheet->scene, piece_type, at, y, room - tail, 0,
                          piece->id);
        at += qci_scene_text_width(sheet->scene, piece_type, piece->id) + 6;
        qci_scene_text_in(sheet->scene, small, at, y, tail + 1, 0, text);
        return;
    }
    qci_scene_text_in(sheet->scene, piece_type, at, y, room - tail - 6, 0,
                      piece->id);
    qci_scene_text_in(sheet->scene, small, at + room - tail, y, tail + 1, 0,
                      text);
}

static double lay_pieces(qci_sheet *sheet, double y)
{
    size_t count = qc_plan_piece_count(sheet->plan), types = 0, rows;
    size_t across = 0, down = 0;
    size_t columns;
    double line = qci_scene_line_height(sheet->scene, small.size) + 3;
    bool keys = false, slanted = false;

    for (size_t i = 0; i < count; i++) {
        if (!sheet->kinds[i].number)
            continue;
        types++;
        keys |= sheet->kinds[i].keyed;
        slanted |=
            is_slanted(qc_plan_piece_at(sheet->plan, i), &sheet->kinds[i]);
    }
    qci_scene_text_in(sheet->scene, bold, QCI_PAGE_MARGIN, y, body_width(), 0,
                      keys ? "Pieces, cut sizes, across \xC3\x97 along the "
                             "length; a number in brackets stands for a name"
                           : "Pieces, cut sizes, across \xC3\x97 along the "
                             "length");
    y += qci_scene_line_height(sheet->scene, bold.size) + 4;
    if (slanted) {
        qci_scene_text_in(
            sheet->scene, small, QCI_PAGE_MARGIN, y, body_width(), 0,
            "With slanted sides: at an angle, the spacing of the cuts and the "
            "height of the strip; else the box round the piece on its base.");
        y += line;
    }
    columns = columns_for(sheet, keys);
    rows = (types + columns - 1) / columns;
    for (size_t i = 0; i < count; i++) {
        if (!sheet->kinds[i].number)
            continue;
        if (down == rows) {
            across++;
            down = 0;
        }
        lay_cell(
            sheet, (uint32_t)i,
            QCI_PAGE_MARGIN + (double)across * body_width() / (double)columns,
            y + (double)down * line, body_width() / (double)columns - 12, keys);
        down++;
    }
    return y + (double)rows * line;
}

double qci_legend_cautions(qci_sheet *sheet, double y)
{
    double line = qci_scene_line_height(sheet->scene, small.size);

    for (size_t i = 0; i < QCI_CAUTION_COUNT; i++) {
        qci_scene_text_in(sheet->scene, small, QCI_PAGE_MARGIN, y, body_width(),
                          0, qci_cautions[i]);
        y += line;
    }
    return y;
}

double qci_legend_lay(qci_sheet *sheet, double y)
{
    qci_legend_scale(sheet, y);
    lay_grain(sheet, QCI_PAGE_MARGIN + 180, y);
    y = lay_signs(sheet, y + 30);
    y = lay_pieces(sheet, y);
    return qci_legend_cautions(sheet, y + 10);
}
