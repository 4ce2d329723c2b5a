/* The cloth: strips from the bottom up, each with its sections from the left.
 *
 * The width of the fabric lies across the page, its squared-up edge below, so
 * that the page shows what the steps measure: upwards and from the left. It is
 * written from the top down all the same, beginning with the last strip.
 * Everything is to scale, with
 * two exceptions, both marked by a break: when there are very many strips,
 * equal ones are drawn once; and a long uncut end is shortened. Pieces too
 * small to be told apart are drawn as one block with their number. Cost: linear
 * in the pieces that can be told apart on the page. */
#include <stdio.h>

#include "base/mark.h"
#include "draw/sheet.h"

/* More strips, or more points of cloth, and equal strips are drawn once. */
#define MANY_STRIPS 40
#define LONG_CLOTH 3000.0
#define BREAK_HEIGHT 15.0
/* An uncut end longer than this is shortened to it. */
#define LONG_END 120.0

static void lay_scrap(qci_sheet *sheet, double x, double y, double w, double h)
{
    if (w >= QCI_LEAST_SCRAP && h >= QCI_LEAST_SCRAP)
        qci_scene_box(sheet->scene, QCI_ROLE_SCRAP, x, y, w, h, 0);
}

static void lay_leftover(qci_sheet *sheet, double x, double y, double w,
                         double h, const qc_leftover *leftover)
{
    char size[QCI_SIZE_BYTES];
    qci_fit fit;
    size_t box = qci_scene_box(sheet->scene, QCI_ROLE_LEFTOVER, x, y, w, h, 0);

    qci_sheet_size_text(sheet, qci_mark_below(leftover->width, sheet->units),
                        leftover->length, size);
    qci_label_fit(sheet->scene, (qci_room){.w = w, .h = h},
                  (qci_caption){size, "leftover", NULL, "", false}, &fit);
    qci_label_place(sheet->scene, &fit, box);
}

/* The cuts corner to corner of one square; the first runs from lower left to
 * upper right, as in the cut order. */
static void lay_diagonals(qci_sheet *sheet, const qc_stack *stack, double x,
                          double y, double w, double h)
{
    if (stack->yields > 1)
        qci_scene_line(sheet->scene, QCI_ROLE_DIAGONAL, x, y + h, x + w, y);
    if (stack->yields > 2)
        qci_scene_line(sheet->scene, QCI_ROLE_DIAGONAL, x + w, y + h, x, y);
}

/* Lays a stack from `y` (its lower edge) up; returns its upper edge. `columns`
 * sections, and pieces too low to be told apart, are drawn as one block. */
static double lay_stack(qci_sheet *sheet, const qc_stack *stack, bool paired,
                        double x, double y, double section, uint32_t columns)
{
    double h = (double)stack->height * sheet->scale;
    uint32_t rows = h < QCI_LEAST_PIECE ? stack->count : 1;
    qci_room room = {.w = columns > 1 ? section
                                      : (double)stack->width * sheet->scale,
                     .h = h * rows};
    qci_fit fit;

    qci_name_fit(sheet, stack, paired, (uint64_t)columns * rows, room, &fit);
    for (uint32_t i = 0; i < stack->count; i += rows) {
        size_t box;

        y -= room.h;
        box = qci_scene_box(sheet->scene, QCI_ROLE_PIECE, x, y, room.w, room.h,
                            sheet->kinds[stack->piece].number - 1);
        if (columns == 1 && rows == 1)
            lay_diagonals(sheet, stack, x, y, room.w, room.h);
        qci_label_place(sheet->scene, &fit, box);
        lay_scrap(sheet, x + room.w, y, section - room.w, room.h);
    }
    return y;
}

/* Lays a run of square sections; returns where it ends. */
static double lay_subcut(qci_sheet *sheet, const qc_subcut *subcut, bool paired,
                         double x, double y, double h)
{
    double w = (double)subcut->width * sheet->scale;
    uint32_t columns = w < QCI_LEAST_PIECE ? subcut->count : 1;

    w *= columns;
    for (uint32_t i = 0; i < subcut->count; i += columns) {
        double edge = y + h;

        for (size_t s = 0; s < subcut->stack_count; s++)
            edge = lay_stack(sheet, &subcut->stacks[s], paired, x, edge, w,
                             columns);
        lay_scrap(sheet, x, y, w, edge - y);
        x += w;
    }
    return x;
}

/* Lays all sections of a strip; returns the last cut. */
static qci_edge lay_sections(qci_sheet *sheet, const qc_strip *strip, double y,
                             double h)
{
    qci_edge edge = {QCI_CLOTH_LEFT, QCI_CLOTH_LEFT};

    for (size_t i = 0; i < strip->subcut_count; i++) {
        const qc_subcut *subcut = &strip->subcuts[i];

        if (qci_slant_wants(sheet, subcut)) {
            edge = qci_slant_lay(sheet, strip, subcut, edge, y, h);
            continue;
        }
        edge = qci_slant_wedge(sheet, edge, 0, y, h);
        edge.low = lay_subcut(sheet, subcut, strip->paired, edge.low, y, h);
        edge.up = edge.low;
    }
    return edge;
}

/* The leftover at the end of strips of an entry (UINT32_MAX: of the bolt). */
static const qc_leftover *leftover_of(const qci_sheet *sheet, uint32_t strip)
{
    for (size_t i = 0; i < sheet->info->leftover_count; i++) {
        const qc_leftover *leftover =
            qc_plan_leftover_at(sheet->plan, sheet->fabric, i);

        if (leftover->strip == strip)
            return leftover;
    }
    return NULL;
}

static void lay_strip(qci_sheet *sheet, uint32_t entry, double y)
{
    const qc_strip *strip = qc_plan_strip_at(sheet->plan, sheet->fabric, entry);
    const qc_leftover *leftover = leftover_of(sheet, entry);
    double right = QCI_CLOTH_LEFT + qci_sheet_cloth_width(sheet);
    double h = (double)strip->height * sheet->scale;
    qci_edge edge = lay_sections(sheet, strip, y, h);

    if (leftover) {
        double w = (double)leftover->width * sheet->scale;

        lay_leftover(sheet, right - w, y, w, h, leftover);
        right -= w;
    }
    qci_slant_scrap(sheet, edge, (qci_edge){right, right}, y, h);
    qci_scene_box(sheet->scene, QCI_ROLE_STRIP, QCI_CLOTH_LEFT, y,
                  qci_sheet_cloth_width(sheet), h, 0);
}

static void lay_break(qci_sheet *sheet, double y, const char *text)
{
    const qci_type type = {7.5, false, false};
    double w = qci_sheet_cloth_width(sheet);

    qci_scene_box(sheet->scene, QCI_ROLE_BREAK, QCI_CLOTH_LEFT, y, w,
                  BREAK_HEIGHT, 0);
    qci_scene_text_in(
        sheet->scene, type, QCI_CLOTH_LEFT + 4,
        y + (BREAK_HEIGHT - qci_scene_line_height(sheet->scene, type.size)) / 2,
        w - 8, 0.5, text);
    sheet->has_breaks = true;
}

static qci_band *add_band(qci_sheet *sheet, double y, double h)
{
    if (!qci_vec_push(&sheet->bands, (qci_band){.y = y, .h = h})) {
        sheet->scene->failed = true;
        return NULL;
    }
    return &sheet->bands.at[sheet->bands.count - 1];
}

/* Names as in the cut order: equal strips share one. */
static void name_strips(qci_sheet *sheet, double y, double h, size_t entry,
                        const qc_strip *strip)
{
    qci_band *band = add_band(sheet, y, h);
    char height[QCI_SIZE_BYTES];

    if (!band)
        return;
    qc_length_format(strip->height, sheet->units, height, sizeof height);
    snprintf(band->name, sizeof band->name, "strip %zu", entry + 1);
    if (strip->repeat > 1)
        snprintf(band->size, sizeof band->size, "%u \xC3\x97 %.40s",
                 strip->repeat, height);
    else
        snprintf(band->size, sizeof band->size, "%.40s", height);
    if (strip->paired) {
        snprintf(band->notes[0], sizeof band->notes[0],
                 "2 \xC3\x97, right sides");
        snprintf(band->notes[1], sizeof band->notes[1], "together");
        sheet->has_pairs = true;
    }
}

/* True when equal strips are to be drawn once. */
static bool too_many(const qci_sheet *sheet)
{
    int64_t strips = 0;
    double height = 0;

    for (size_t i = 0; i < sheet->info->strip_count; i++) {
        const qc_strip *strip = qc_plan_strip_at(sheet->plan, sheet->fabric, i);

        strips += strip->repeat;
        height += (double)strip->height * sheet->scale * strip->repeat;
    }
    return strips > MANY_STRIPS || height > LONG_CLOTH;
}

/* The strips of an entry, the first of them lowest. */
static double lay_entry(qci_sheet *sheet, size_t entry, bool once, double y)
{
    const qc_strip *strip = qc_plan_strip_at(sheet->plan, sheet->fabric, entry);
    uint32_t drawn = once && strip->repeat > 2 ? 1 : strip->repeat;
    double start = y;

    if (drawn < strip->repeat) {
        char text[64];

        snprintf(text, sizeof text, "and %u more strips like this one",
                 strip->repeat - drawn);
        lay_break(sheet, y, text);
        y += BREAK_HEIGHT;
    }
    for (uint32_t k = 0; k < drawn; k++) {
        lay_strip(sheet, (uint32_t)entry, y);
        y += (double)strip->height * sheet->scale;
    }
    name_strips(sheet, start, y - start, entry, strip);
    return y;
}

static double lay_strips(qci_sheet *sheet, double y)
{
    bool once = too_many(sheet);

    for (size_t i = sheet->info->strip_count; i-- > 0;)
        y = lay_entry(sheet, i, once, y);
    return y;
}

/* What is left of the bolt above the strips. */
static double lay_end(qci_sheet *sheet, double y)
{
    const qc_leftover *leftover = leftover_of(sheet, UINT32_MAX);
    qc_length rest = sheet->length - sheet->info->used;
    double h = (double)rest * sheet->scale;
    double w = qci_sheet_cloth_width(sheet);
    bool cropped = h > LONG_END + BREAK_HEIGHT;
    qci_band *band;

    if (rest <= 0 || h < QCI_LEAST_SCRAP)
        return y;
    if (cropped)
        h = LONG_END;
    band = add_band(sheet, y, h + (cropped ? BREAK_HEIGHT : 0));
    if (band) {
        snprintf(band->name, sizeof band->name, "end of the bolt");
        qc_length_format(rest, sheet->units, band->size, sizeof band->size);
    }
    if (cropped) {
        lay_break(sheet, y, "longer than drawn");
        y += BREAK_HEIGHT;
    }
    if (leftover)
        lay_leftover(sheet, QCI_CLOTH_LEFT, y, w, h, leftover);
    else
        lay_scrap(sheet, QCI_CLOTH_LEFT, y, w, h);
    return y + h;
}

static double lay_square_up(qci_sheet *sheet, double y)
{
    double h = (double)sheet->info->square_up * sheet->scale;
    qci_band *band;

    if (!sheet->info->square_up)
        return y;
    band = add_band(sheet, y, h);
    if (band) {
        snprintf(band->name, sizeof band->name, "square up");
        qc_length_format(sheet->info->square_up, sheet->units, band->size,
                         sizeof band->size);
    }
    lay_scrap(sheet, QCI_CLOTH_LEFT, y, qci_sheet_cloth_width(sheet), h);
    return y + h;
}

void qci_cloth_lay(qci_sheet *sheet)
{
    double w = qci_sheet_cloth_width(sheet);
    size_t first = sheet->scene->marks.count;

    sheet->used_from = lay_end(sheet, sheet->top);
    sheet->bottom = lay_square_up(sheet, lay_strips(sheet, sheet->used_from));
    qci_scene_box(sheet->scene, QCI_ROLE_CLOTH, QCI_CLOTH_LEFT, sheet->top, w,
                  sheet->bottom - sheet->top, 0);
    if (qc_plan_left_handed(sheet->plan))
        qci_scene_mirror(sheet->scene, first, QCI_CLOTH_LEFT,
                         QCI_CLOTH_LEFT + w);
}
