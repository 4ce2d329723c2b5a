/* A chart as a table on paper: Letter for inches, else A4, the long side
 * across.
 *
 * Every page has the headings above its rows, and at its foot what they mean
 * and the cautions, so that a page that is alone is still whole. The rows of
 * one size stay together unless they fill more than a page. A column is as wide
 * as its widest text; where that is too much, those of pieces and fabrics are
 * cut short. Cost: linear in the rows. */
#include "draw/page.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/caution.h"

#define MARGIN 36.0 /* half an inch, which any printer leaves */
#define GAP 11.0    /* between columns */
#define LEAST_GAP 5.0
#define PICTURE 104.0
#define COLUMNS 16
#define TEXT 64
#define PIECE 2
#define FABRIC 3
#define STAGGER 8 /* only where a row has one */

static const qci_type plain = {8.5, false, false};
static const qci_type strong = {8.5, true, false};
static const qci_type small = {7.5, false, false};
static const qci_type title_type = {14, true, false};

static const struct {
    const char *heading;
    bool number; /* set to the right */
} columns[COLUMNS] = {
    {"size", true},       {"", false},          {"piece", false},
    {"fabric", false},    {"count", true},      {"strip", true},
    {"cuts apart", true}, {"lean", true},       {"stagger", true},
    {"gives", true},      {"in a strip", true}, {"excess", true},
    {"by", true},         {"trim to", true},    {"strips", true},
    {"buy", true},
};

static const char *const notes[] = {
    "Strip: its height, cut across the width of the fabric. Cuts apart: from "
    "one cut across the strip to the next. In a strip: as many pieces as the "
    "width holds.",
    "Lean: a cut runs so far along the strip from edge to edge. Cuts of "
    "diamonds, parallelograms and strip sets are measured square to them, "
    "those of other slanted pieces half-way up.",
    "Gives: what lies between two cuts becomes so many patches. Trim to: the "
    "sewn unit is trimmed to this size; segments of strip sets between the "
    "crosscuts x across the seams.",
    "= All cut sizes fall on the ruler's marks. Elsewhere excess is what "
    "rounding up to them adds to the strip, and (by) to the spacing.",
    "Strips, and the length to buy, are those of the whole fabric; a "
    "plan tells the order of cuts. Stagger: a strip of a set begins so far "
    "along from the one below.",
};

#define NOTES (sizeof notes / sizeof *notes)

typedef struct page {
    qci_scene *scene;
    const qc_chart_row *rows;
    size_t count;
    qc_units units;
    const char *name;     /* of the block; "" */
    double width, height; /* of the paper */
    double left[COLUMNS], wide[COLUMNS];
    double line;   /* from row to row */
    double bottom; /* of the rows, from the page's top */
    int number;    /* of the page, from 0 */
} page;

static double top_of(const page *p)
{
    return p->number * p->height;
}

static void put_length(const page *p, qc_length length, char text[TEXT])
{
    if (length)
        qc_length_format(length, p->units, text, TEXT);
}

static void put_excess(const page *p, qc_length excess, char text[TEXT])
{
    if (excess)
        snprintf(text, TEXT, "%.3f", qc_length_value(excess, p->units));
}

/* "2 1/2" of a square, else "4 1/2 x 2 1/2". */
static void put_trimmed(const page *p, const qc_chart_row *row, char text[TEXT])
{
    char height[TEXT / 2] = "";
    size_t at;

    put_length(p, row->trim_to, text);
    at = strlen(text);
    if (!row->trim_to_height || row->trim_to_height == row->trim_to)
        return;
    qc_length_format(row->trim_to_height, p->units, height, sizeof height);
    snprintf(text + at, TEXT - at, " x %s", height);
}

/* What numbers and lengths of a row say; "" where nothing is to be said. The
 * first of its size on a page says the size, and the first of a fabric what
 * that takes. */
static void fill(const page *p, const qc_chart_row *row, bool first,
                 char texts[COLUMNS][TEXT])
{
    memset(texts, 0, COLUMNS * sizeof *texts);
    if (first) {
        put_length(p, row->size, texts[0]);
        snprintf(texts[1], TEXT, "%s", row->on_ruler ? "=" : "");
    }
    snprintf(texts[4], TEXT, "%" PRId64, row->count);
    put_length(p, row->strip, texts[5]);
    put_length(p, row->across, texts[6]);
    put_length(p, row->lean, texts[7]);
    put_length(p, row->stagger, texts[STAGGER]);
    if (row->yields > 1)
        snprintf(texts[9], TEXT, "%" PRIu32, row->yields);
    snprintf(texts[10], TEXT, "%" PRId64, row->each_strip);
    put_excess(p, row->excess_strip, texts[11]);
    put_excess(p, row->excess_across, texts[12]);
    put_trimmed(p, row, texts[13]);
    if (first || row->first_of_fabric) {
        snprintf(texts[14], TEXT, "%" PRId64, row->strips);
        qc_length_format_purchase(row->bought, p->units, texts[15], TEXT);
    }
}

/* The block's name, which stands above all, is left out of its pieces'. */
static const char *name_of(const page *p, const qc_chart_row *row)
{
    size_t size = strlen(p->name);
    bool named =
        size && !strncmp(row->piece, p->name, size) && row->piece[size] == ' ';

    return named ? row->piece + size + 1 : row->piece;
}

static const char *text_at(const page *p, const qc_chart_row *row,
                           char texts[COLUMNS][TEXT], int column)
{
    if (column == PIECE)
        return name_of(p, row);
    return column == FABRIC ? row->fabric : texts[column];
}

static void widen(page *p, int column, qci_type type, const char *text)
{
    double w = qci_scene_text_width(p->scene, type, text) + 0.5;

    if (w > p->wide[column])
        p->wide[column] = w;
}

/* Off the two columns of names. */
static void shorten_names(page *p, double missing)
{
    double names = p->wide[PIECE] + p->wide[FABRIC];
    double part = missing < names ? 1 - missing / names : 0;

    p->wide[PIECE] *= part;
    p->wide[FABRIC] *= part;
}

static void place_columns(page *p)
{
    int gaps = p->wide[STAGGER] > 0 ? COLUMNS - 1 : COLUMNS - 2;
    double spare = p->width - 2 * MARGIN - gaps * GAP;
    double at = MARGIN, gap = GAP;

    for (int c = 0; c < COLUMNS; c++)
        spare -= p->wide[c];
    /* What is missing is taken off the gaps first. */
    gap += spare / gaps;
    if (gap < LEAST_GAP) {
        shorten_names(p, (LEAST_GAP - gap) * gaps);
        gap = LEAST_GAP;
    }
    for (int c = 0; c < COLUMNS; c++) {
        p->left[c] = at;
        if (c != STAGGER || p->wide[c] > 0)
            at += p->wide[c] + gap;
    }
}

static void measure(page *p)
{
    for (size_t i = 0; i < p->count; i++) {
        char texts[COLUMNS][TEXT];

        fill(p, &p->rows[i], true, texts);
        for (int c = 0; c < COLUMNS; c++)
            widen(p, c, c ? plain : strong, text_at(p, &p->rows[i], texts, c));
    }
    for (int c = 0; c < COLUMNS; c++)
        if (c != STAGGER || p->wide[c] > 1)
            widen(p, c, strong, columns[c].heading);
        else
            p->wide[c] = 0;
    place_columns(p);
}

static void put_cell(const page *p, int column, double y, qci_type type,
                     const char *text)
{
    if (text[0] && p->wide[column] > 0)
        qci_scene_text_in(p->scene, type, p->left[column], y, p->wide[column],
                          columns[column].number ? 1 : 0, text);
}

static void put_rule(const page *p, double y)
{
    qci_scene_line(p->scene, QCI_ROLE_LEADER, MARGIN, y,
                   p->left[COLUMNS - 1] + p->wide[COLUMNS - 1], y);
}

static double put_headings(const page *p, double y)
{
    for (int c = 0; c < COLUMNS; c++)
        put_cell(p, c, y, strong, columns[c].heading);
    return y + p->line + 2;
}

static double put_small(const page *p, double y, const char *text)
{
    qci_scene_text_in(p->scene, small, MARGIN, y, p->width - 2 * MARGIN, 0,
                      text);
    return y + qci_scene_line_height(p->scene, small.size);
}

static void put_foot(const page *p)
{
    double y = top_of(p) + p->bottom + 8;

    for (size_t i = 0; i < NOTES; i++)
        y = put_small(p, y, notes[i]);
    y += 4;
    for (int i = 0; i < QCI_CAUTION_COUNT; i++)
        y = put_small(p, y, qci_cautions[i]);
}

/* The title and the block, on the first page. */
static double put_title(const page *p, const qc_block *block, const char *title)
{
    static const char *const units[] = {"inches", "centimetres", "millimetres"};
    double room = p->width - 2 * MARGIN, x = MARGIN, y = MARGIN, end;
    char text[96];

    if (block) {
        qci_block_put(p->scene, block, MARGIN, MARGIN, PICTURE, true);
        x += PICTURE + 18;
        room -= PICTURE + 18;
    }
    if (title && title[0]) {
        qci_scene_text_in(p->scene, title_type, x, y, room, 0, title);
        y += qci_scene_line_height(p->scene, title_type.size) + 4;
    }
    snprintf(text, sizeof text,
             "Lengths in %s; sizes are finished, what is cut has seams.",
             units[p->units]);
    qci_scene_text_in(p->scene, plain, x, y, room, 0, text);
    y += p->line + 6;
    if (!block)
        return y;
    end = qci_block_roles(p->scene, block, x, y, room) + 8;
    return end > MARGIN + PICTURE + 14 ? end : MARGIN + PICTURE + 14;
}

static void put_row(const page *p, const qc_chart_row *row, bool first,
                    double y)
{
    char texts[COLUMNS][TEXT];

    fill(p, row, first, texts);
    for (int c = 0; c < COLUMNS; c++)
        put_cell(p, c, y, c ? plain : strong, text_at(p, row, texts, c));
}

/* Rows from one on that are of its size. */
static size_t together(const page *p, size_t from)
{
    size_t n = 1;

    while (from + n < p->count && !p->rows[from + n].first_of_size)
        n++;
    return n;
}

static double turn_page(page *p, double y)
{
    put_rule(p, y - 1);
    put_foot(p);
    p->number++;
    return put_headings(p, top_of(p) + MARGIN);
}

static void put_rows(page *p, double y)
{
    double least = MARGIN + p->line + 2; /* where rows of later pages begin */
    bool fresh = true;

    for (size_t i = 0; i < p->count; i++) {
        bool first = i == 0 || p->rows[i].first_of_size;
        double need = first ? (double)together(p, i) * p->line : p->line;

        if (need > p->bottom - least)
            need = p->line;
        if (!fresh && y + need > top_of(p) + p->bottom) {
            y = turn_page(p, y);
            fresh = true;
        }
        if (first || fresh)
            put_rule(p, y - 1);
        put_row(p, &p->rows[i], first || fresh, y);
        fresh = false;
        y += p->line;
    }
    put_rule(p, y - 1);
    put_foot(p);
}

/* Once it is known how many there are. */
static void put_numbers(const page *p)
{
    double line = qci_scene_line_height(p->scene, small.size);

    for (int i = 0; i <= p->number; i++) {
        char text[48];

        snprintf(text, sizeof text, "page %d of %d", i + 1, p->number + 1);
        qci_scene_text_in(p->scene, small, MARGIN,
                          (i + 1) * p->height - MARGIN - line,
                          p->width - 2 * MARGIN, 1, text);
    }
}

bool qci_page_lay(const qc_chart_row *rows, size_t count, const qc_block *block,
                  const char *title, qc_units units, qci_scene *scene)
{
    bool letter = units == QC_UNITS_IN;
    page p = {.scene = scene,
              .rows = rows,
              .count = count,
              .units = units,
              .name = block ? qc_block_describe(block)->name : "",
              .width = letter ? 792 : 842,
              .height = letter ? 612 : 595};
    size_t lines = NOTES + QCI_CAUTION_COUNT + 1;
    double foot = qci_scene_line_height(scene, small.size) * (double)lines;

    p.line = qci_scene_line_height(scene, plain.size) + 2;
    p.bottom = p.height - MARGIN - foot - 14;
    measure(&p);
    put_rows(&p, put_headings(&p, put_title(&p, block, title)));
    put_numbers(&p);
    scene->width = p.width;
    scene->page = p.height;
    scene->height = (p.number + 1) * p.height;
    return !scene->failed;
}
