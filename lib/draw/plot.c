/* Two rows of bars over one axis of sizes: above, what part of the cloth is
 * waste, by kinds; below, how much fabric is to buy in all.
 *
 * The bars stand in the order of the rows, equally far apart. An axis goes up
 * to the first of 1, 2, 5, 10, 20, ... steps that leaves at most eight marks.
 * The waste bars are painted as the same things are in cutting diagrams. */
#include "draw/plot.h"

#include <stdio.h>
#include <string.h>

#define PAGE 612.0 /* points, as the other sheets are */
#define LEFT 76.0  /* of the axes */
#define RIGHT 24.0
#define HIGH 190.0 /* of each panel */
#define SMALL 8.0
#define NARROW 26.0 /* room that texts under a bar need */
#define PLAIN 9.5

typedef struct plot {
    qci_scene *scene;
    const qc_compare_row *rows;
    size_t count;
    qc_units units;
    double slot;  /* from bar to bar */
    size_t every; /* bars from one that has texts to the next */
} plot;

typedef struct axis {
    double top; /* of the panel, on the page */
    double step, most;
} axis;

static const char *unit_of(const plot *p)
{
    static const char *const units[] = {"in", "cm", "mm"};

    return units[p->units];
}

/* Yards or metres. */
static double yardage_of(const plot *p, const qc_compare_row *row)
{
    return (double)row->bought /
           (double)(p->units == QC_UNITS_IN ? QC_YARD : QC_M);
}

static double share_of(const qc_compare_row *row, int64_t area)
{
    return row->cloth > 0 ? 100 * (double)area / (double)row->cloth : 0;
}

static axis axis_over(double top, double greatest)
{
    static const double factors[] = {2, 2.5, 2};
    axis a = {.top = top, .step = 0.1};

    for (int i = 0; greatest > 8 * a.step; i++)
        a.step *= factors[i % 3];
    for (a.most = a.step; a.most < greatest;)
        a.most += a.step;
    return a;
}

static double height_at(const axis *a, double value)
{
    return a->top + HIGH * (1 - value / a->most);
}

static void text_in(const plot *p, double size, bool bold, double x, double y,
                    double room, double align, const char *text)
{
    qci_scene_text_in(p->scene, (qci_type){size, bold, false}, x, y, room,
                      align, text);
}

/* Marks, their values and what they measure. */
static void lay_axis(const plot *p, const axis *a, const char *what)
{
    double line = qci_scene_line_height(p->scene, SMALL);
    qci_type upright = {PLAIN, false, true};
    double long_way = qci_scene_text_width(p->scene, upright, what);

    for (int i = 0; i * a->step <= a->most + a->step / 2; i++) {
        double y = height_at(a, i * a->step);
        char text[32];

        snprintf(text, sizeof text, "%.*f", a->step < 1 ? 1 : 0, i * a->step);
        qci_scene_line(p->scene, QCI_ROLE_LEADER, LEFT, y, PAGE - RIGHT, y);
        text_in(p, SMALL, false, LEFT - 50, y - line / 2, 36, 1, text);
    }
    qci_scene_text(p->scene, QCI_ROLE_NOTE, upright, LEFT - 58,
                   a->top + (HIGH - long_way) / 2, QCI_NO_OWNER, what);
}

static double bar_left(const plot *p, size_t i)
{
    return LEFT + p->slot * ((double)i + 0.2);
}

/* A bar's part that stands on `from`; hands back where it ends. */
static double lay_part(const plot *p, const axis *a, size_t i, qci_role role,
                       unsigned tint, double from, double value)
{
    double top = height_at(a, from + value);

    if (value > 0)
        qci_scene_box(p->scene, role, bar_left(p, i), top, p->slot * 0.6,
                      height_at(a, from) - top, tint);
    return from + value;
}

static double text_room(const plot *p)
{
    return p->slot < NARROW ? NARROW : p->slot;
}

static double text_left(const plot *p, size_t i)
{
    return LEFT + p->slot * ((double)i + 0.5) - text_room(p) / 2;
}

/* Where bars stand close, only some have texts, and the best. */
static bool has_texts(const plot *p, size_t i)
{
    if (p->rows[i].rank == 1 || p->every == 1)
        return true;
    for (size_t j = 0; j < p->count; j++) /* the best one needs its room */
        if (p->rows[j].rank == 1 && (j > i ? j - i : i - j) < p->every)
            return false;
    return i % p->every == 0;
}

static void lay_value(const plot *p, const axis *a, size_t i, double value,
                      const char *text)
{
    double line = qci_scene_line_height(p->scene, SMALL);

    if (!has_texts(p, i))
        return;
    text_in(p, SMALL, p->rows[i].rank == 1, text_left(p, i),
            height_at(a, value) - line - 1, text_room(p), 0.5, text);
}

static void lay_waste(const plot *p, const axis *a, size_t i)
{
    const qc_compare_row *row = &p->rows[i];
    double at = 0;
    char text[32];

    at = lay_part(p, a, i, QCI_ROLE_PIECE, 0, at,
                  share_of(row, row->area.seams));
    at = lay_part(p, a, i, QCI_ROLE_PIECE, 3, at, share_of(row, row->beyond));
    at = lay_part(p, a, i, QCI_ROLE_LEFTOVER, 0, at,
                  share_of(row, row->area.leftover));
    at = lay_part(p, a, i, QCI_ROLE_SCRAP, 0, at,
                  share_of(row, row->area.scrap));
    snprintf(text, sizeof text, "%.1f", at);
    lay_value(p, a, i, at, text);
}

/* As it is asked for in a shop, without the unit: "6 5/8". */
static void lay_yardage(const plot *p, const axis *a, size_t i)
{
    double value = yardage_of(p, &p->rows[i]);
    char text[64], *unit;

    lay_part(p, a, i, QCI_ROLE_PIECE, 1, 0, value);
    qc_length_format_purchase(p->rows[i].bought, p->units, text, sizeof text);
    unit = strrchr(text, ' ');
    if (unit)
        *unit = '\0';
    lay_value(p, a, i, value, text);
}

/* Under a bar: the size, its mark, its place. */
static void lay_size(const plot *p, size_t i, double y)
{
    const qc_compare_row *row = &p->rows[i];
    double line = qci_scene_line_height(p->scene, SMALL);
    double x = text_left(p, i);
    char size[32], text[96];

    if (!has_texts(p, i)) {
        text_in(p, SMALL, false, x, y, text_room(p), 0.5,
                row->efficient ? "*" : "");
        return;
    }
    qc_length_format(row->block_size, p->units, size, sizeof size);
    snprintf(text, sizeof text, "%s%s",
             row->quilt && row->quilt->name ? row->quilt->name : size,
             row->efficient ? " *" : "");
    text_in(p, SMALL, row->rank == 1, x, y, text_room(p), 0.5, text);
    if (row->rank)
        snprintf(text, sizeof text, "%u", row->rank);
    else
        snprintf(text, sizeof text, "failed");
    text_in(p, SMALL, row->rank == 1, x, y + line, text_room(p), 0.5, text);
}

static double lay_key(const plot *p, double y)
{
    static const struct {
        qci_role role;
        unsigned tint;
        const char *text;
    } kinds[] = {{QCI_ROLE_PIECE, 0, "seams and rounding up"},
                 {QCI_ROLE_PIECE, 3, "blocks beyond the quilt"},
                 {QCI_ROLE_LEFTOVER, 0, "leftovers worth keeping"},
                 {QCI_ROLE_SCRAP, 0, "scrap"}};
    double line = qci_scene_line_height(p->scene, SMALL), x = LEFT;

    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        qci_type type = {SMALL, false, false};

        qci_scene_box(p->scene, kinds[i].role, x, y, 16, line, kinds[i].tint);
        qci_scene_text(p->scene, QCI_ROLE_NOTE, type, x + 20, y, QCI_NO_OWNER,
                       kinds[i].text);
        x += 36 + qci_scene_text_width(p->scene, type, kinds[i].text);
    }
    return y + line;
}

static double greatest_waste(const plot *p)
{
    double most = 0;

    for (size_t i = 0; i < p->count; i++) {
        const qc_compare_row *row = &p->rows[i];
        double waste = share_of(row, row->cloth - row->area.finished);

        most = waste > most ? waste : most;
    }
    return most;
}

static double greatest_yardage(const plot *p)
{
    double most = 0;

    for (size_t i = 0; i < p->count; i++)
        if (yardage_of(p, &p->rows[i]) > most)
            most = yardage_of(p, &p->rows[i]);
    return most;
}

static double lay_head(const plot *p, const char *title)
{
    double y = 28;

    if (title && title[0]) {
        text_in(p, 14, true, LEFT, y, PAGE - LEFT - RIGHT, 0, title);
        y += qci_scene_line_height(p->scene, 14) + 4;
    }
    return lay_key(p, y) + 22;
}

/* Along the bottom: what the sizes are and what the marks mean. */
static double lay_foot(const plot *p, double y)
{
    double line = qci_scene_line_height(p->scene, SMALL);
    bool quilts = p->rows[0].quilt && p->rows[0].quilt->name;
    char text[128];

    for (size_t i = 0; i < p->count; i++)
        lay_size(p, i, y);
    text_in(p, SMALL, false, 10, y, LEFT - 24, 1, "size");
    text_in(p, SMALL, false, 10, y + line, LEFT - 24, 1, "place");
    y += 2 * line + 6;
    if (quilts)
        snprintf(text, sizeof text, "quilt");
    else
        snprintf(text, sizeof text, "finished block size, %s", unit_of(p));
    text_in(p, PLAIN, false, LEFT, y, PAGE - LEFT - RIGHT, 0.5, text);
    y += qci_scene_line_height(p->scene, PLAIN) + 6;
    if (!quilts)
        text_in(p, SMALL, false, LEFT, y, PAGE - LEFT - RIGHT, 0,
                "* No other size takes less cloth without more cuts, nor fewer "
                "cuts without more cloth.");
    return y + line + 24;
}

bool qci_plot_lay(const qc_compare_row *rows, size_t count, const char *title,
                  qc_units units, qci_scene *scene)
{
    double slot = (PAGE - LEFT - RIGHT) / (double)count;
    plot p = {scene, rows, count, units, slot, 1 + (size_t)(NARROW / slot)};
    double y = lay_head(&p, title);
    axis waste = axis_over(y, greatest_waste(&p));
    axis buy = axis_over(y + HIGH + 34, greatest_yardage(&p));

    lay_axis(&p, &waste, "waste, % of the cloth to buy");
    lay_axis(&p, &buy,
             units == QC_UNITS_IN ? "fabric to buy in all, yd"
                                  : "fabric to buy in all, m");
    for (size_t i = 0; i < count; i++) {
        if (!rows[i].rank)
            continue;
        lay_waste(&p, &waste, i);
        lay_yardage(&p, &buy, i);
    }
    scene->width = PAGE;
    scene->height = lay_foot(&p, buy.top + HIGH + 8);
    return !scene->failed;
}
