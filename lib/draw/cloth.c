/* The cloth: strips from the top down, each with its sections from the left.
 *
 * The width of the fabric lies across the page. Everything is to scale, with
 * two exceptions, both marked by a break: when there are very many strips,
 * equal ones are drawn once; and a long uncut end is shortened. Pieces too
 * small to be told apart are drawn as one block with their number. Inside a
 * strip the lower edge is below, as in the cut order. Cost: linear in the
 * pieces that can be told apart on the page. */
#include <stdio.h>

#include "draw/label.h"
#include "draw/sheet.h"

/* More strips, or more points of cloth, and equal strips are drawn once. */
#define MANY_STRIPS 40
#define LONG_CLOTH 3000.0
/* Pieces narrower or lower than this are drawn as one block. */
#define LEAST_PIECE 2.0
#define BREAK_HEIGHT 15.0
/* An uncut end longer than this is shortened to it. */
#define LONG_END 120.0
/* Boxes smaller than this are not drawn: a line would cover them. */
#define LEAST_BOX 0.3

static void lay_scrap(qci_sheet *sheet, double x, double y, double w, double h)
{
    if (w >= LEAST_BOX && h >= LEAST_BOX)
        qci_scene_box(sheet->scene, QCI_ROLE_SCRAP, x, y, w, h, 0);
}

static void lay_leftover(qci_sheet *sheet, double x, double y, double w,
                         double h, const qc_leftover *leftover)
{
    char size[QCI_SIZE_BYTES];
    qci_fit fit;
    size_t box = qci_scene_box(sheet->scene, QCI_ROLE_LEFTOVER, x, y, w, h, 0);

    qci_sheet_size_text(sheet, leftover->width, leftover->length, size);
    qci_label_fit(sheet->scene, w, h, (qci_caption){size, "leftover", NULL, ""},
                  &fit);
    qci_label_place(sheet->scene, &fit, box);
}

/* One kind of piece in one section: `columns` sections and `rows` pieces are
 * drawn as one block. */
typedef struct block {
    double w, h;
    uint32_t columns, rows;
    unsigned tint;
    qci_fit fit;
} block;

static void name_block(qci_sheet *sheet, const qc_stack *stack, block *b)
{
    const qc_plan_piece *piece = qc_plan_piece_at(sheet->plan, stack->piece);
    qci_kind *kind = &sheet->kinds[stack->piece];
    uint64_t together = (uint64_t)b->columns * b->rows;
    char size[QCI_SIZE_BYTES], key[32], name[QC_MAX_TEXT_BYTES + 32];

    qci_sheet_size_text(sheet, stack->width, stack->height, size);
    snprintf(key, sizeof key, "(%u)", kind->number);
    if (together > 1)
        snprintf(name, sizeof name, "%llu \xC3\x97 %s",
                 (unsigned long long)together, piece->id);
    else
        snprintf(name, sizeof name, "%s", piece->id);
    qci_label_fit(
        sheet->scene, b->w, b->h,
        (qci_caption){name, size,
                      stack->turn == QC_TURN_QUARTER ? "turned" : NULL, key},
        &b->fit);
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

/* Lays a stack from `y` (its lower edge) up; returns its upper edge. */
static double lay_stack(qci_sheet *sheet, const qc_stack *stack, double x,
                        double y, double section, uint32_t columns)
{
    double w = (double)stack->width * sheet->scale;
    double h = (double)stack->height * sheet->scale;
    uint32_t rows = h < LEAST_PIECE ? stack->count : 1;
    block b = {.w = columns > 1 ? section : w,
               .h = h * rows,
               .columns = columns,
               .rows = rows,
               .tint = sheet->kinds[stack->piece].number - 1};

    name_block(sheet, stack, &b);
    if (b.fit.by_key)
        sheet->kinds[stack->piece].keyed = true;
    for (uint32_t i = 0; i < stack->count; i += rows) {
        size_t box;

        y -= b.h;
        box =
            qci_scene_box(sheet->scene, QCI_ROLE_PIECE, x, y, b.w, b.h, b.tint);
        if (columns == 1 && rows == 1)
            lay_diagonals(sheet, stack, x, y, b.w, b.h);
        qci_label_place(sheet->scene, &b.fit, box);
        lay_scrap(sheet, x + b.w, y, section - b.w, b.h);
    }
    return y;
}

/* Lays a run of sections; returns where it ends. */
static double lay_subcut(qci_sheet *sheet, const qc_subcut *subcut, double x,
                         double y, double h)
{
    double w = (double)subcut->width * sheet->scale;
    uint32_t columns = w < LEAST_PIECE ? subcut->count : 1;

    w *= columns;
    for (uint32_t i = 0; i < subcut->count; i += columns) {
        double edge = y + h;

        for (size_t s = 0; s < subcut->stack_count; s++)
            edge = lay_stack(sheet, &subcut->stacks[s], x, edge, w, columns);
        lay_scrap(sheet, x, y, w, edge - y);
        x += w;
    }
    return x;
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
    double x = QCI_CLOTH_LEFT;

    for (size_t i = 0; i < strip->subcut_count; i++)
        x = lay_subcut(sheet, &strip->subcuts[i], x, y, h);
    if (leftover) {
        double w = (double)leftover->width * sheet->scale;

        lay_leftover(sheet, right - w, y, w, h, leftover);
        right -= w;
    }
    lay_scrap(sheet, x, y, right - x, h);
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

static double lay_strips(qci_sheet *sheet, double y)
{
    bool once = too_many(sheet);

    for (size_t i = 0; i < sheet->info->strip_count; i++) {
        const qc_strip *strip = qc_plan_strip_at(sheet->plan, sheet->fabric, i);
        uint32_t drawn = once && strip->repeat > 2 ? 1 : strip->repeat;
        double start = y;

        for (uint32_t k = 0; k < drawn; k++) {
            lay_strip(sheet, (uint32_t)i, y);
            y += (double)strip->height * sheet->scale;
        }
        if (drawn < strip->repeat) {
            char text[64];

            snprintf(text, sizeof text, "and %u more strips like this one",
                     strip->repeat - drawn);
            lay_break(sheet, y, text);
            y += BREAK_HEIGHT;
        }
        name_strips(sheet, start, y - start, i, strip);
    }
    return y;
}

/* What is left of the bolt below the strips. */
static double lay_end(qci_sheet *sheet, double y)
{
    const qc_leftover *leftover = leftover_of(sheet, UINT32_MAX);
    qc_length rest = sheet->length - sheet->info->used;
    double h = (double)rest * sheet->scale;
    double w = qci_sheet_cloth_width(sheet);
    bool cropped = h > LONG_END + BREAK_HEIGHT;
    qci_band *band;

    if (rest <= 0 || h < LEAST_BOX)
        return y;
    if (cropped)
        h = LONG_END;
    band = add_band(sheet, y, h + (cropped ? BREAK_HEIGHT : 0));
    if (band) {
        snprintf(band->name, sizeof band->name, "end of the bolt");
        qc_length_format(rest, sheet->units, band->size, sizeof band->size);
    }
    if (leftover)
        lay_leftover(sheet, QCI_CLOTH_LEFT, y, w, h, leftover);
    else
        lay_scrap(sheet, QCI_CLOTH_LEFT, y, w, h);
    if (cropped) {
        lay_break(sheet, y + h, "longer than drawn");
        h += BREAK_HEIGHT;
    }
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
    double y = lay_strips(sheet, lay_square_up(sheet, sheet->top));

    sheet->used_to = y;
    sheet->bottom = lay_end(sheet, y);
    qci_scene_box(sheet->scene, QCI_ROLE_CLOTH, QCI_CLOTH_LEFT, sheet->top,
                  qci_sheet_cloth_width(sheet), sheet->bottom - sheet->top, 0);
}
