/* How the marks of a scene look.
 *
 * The tints are our own: quiet, and stepped in lightness so that neighbours in
 * the list stay apart on a printer without colours; black text reads on all of
 * them. Hatching is made of single lines cut to their form by arithmetic, not
 * by a clip path, which keeps the files small and the lines of neighbours in
 * step. Cost: linear in marks and hatch lines. */
#include "draw/paint.h"

#include <math.h>

#define HATCH_STEP 4.0
#define ARROW 4.0
#define TICK 3.0
#define RIGHT_ANGLE 1.57079632679489662

typedef struct colour {
    double r, g, b;
} colour;

static const colour tints[] = {
    {0.80, 0.87, 0.93}, {0.97, 0.92, 0.80}, {0.70, 0.79, 0.72},
    {0.93, 0.85, 0.87}, {0.75, 0.74, 0.86}, {0.89, 0.94, 0.86},
    {0.86, 0.76, 0.66}, {0.85, 0.93, 0.94}, {0.72, 0.72, 0.70},
    {0.96, 0.88, 0.82}, {0.66, 0.77, 0.82}, {0.91, 0.89, 0.95},
};
static const colour ink = {0.13, 0.13, 0.15};
static const colour faint = {0.55, 0.55, 0.57};
static const colour hatch = {0.66, 0.66, 0.68};
static const colour paper = {1, 1, 1};

static void set_colour(cairo_t *cr, colour c)
{
    cairo_set_source_rgb(cr, c.r, c.g, c.b);
}

static void stroke(cairo_t *cr, colour c, double width)
{
    set_colour(cr, c);
    cairo_set_line_width(cr, width);
    cairo_stroke(cr);
}

static void segment(cairo_t *cr, double x, double y, double to_x, double to_y)
{
    cairo_move_to(cr, x, y);
    cairo_line_to(cr, to_x, to_y);
}

/* Where the line x + y = c enters and leaves the polygon. */
static bool cross(const qci_corner *at, size_t count, double c, double *from,
                  double *to)
{
    *from = INFINITY;
    *to = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        qci_corner p = at[i], q = at[(i + 1) % count];
        double before = p.x + p.y - c, after = q.x + q.y - c, x;

        if (before == after || (before < 0 && after < 0) ||
            (before > 0 && after > 0))
            continue;
        x = p.x + before / (before - after) * (q.x - p.x);
        *from = fmin(*from, x);
        *to = fmax(*to, x);
    }
    return *from < *to;
}

/* Lines x + y = c through the polygon, c a multiple of the step. */
static void paint_hatch(cairo_t *cr, const qci_corner *at, size_t count)
{
    double least = INFINITY, most = -INFINITY, c;

    for (size_t i = 0; i < count; i++) {
        least = fmin(least, at[i].x + at[i].y);
        most = fmax(most, at[i].x + at[i].y);
    }
    c = ceil(least / HATCH_STEP) * HATCH_STEP;
    while (c < most) {
        double from, to;

        if (cross(at, count, c, &from, &to))
            segment(cr, from, c - from, to, c - to);
        c += HATCH_STEP;
    }
    stroke(cr, hatch, 0.6);
}

/* One edge of torn cloth across a break. */
static void paint_zigzag(cairo_t *cr, const qci_mark *m, double y)
{
    int steps = (int)(m->w / 8) + 1;

    cairo_move_to(cr, m->x, y);
    for (int i = 1; i <= steps; i++)
        cairo_line_to(cr, m->x + m->w * i / steps, y + (i % 2 ? 2.5 : 0));
    stroke(cr, ink, 0.8);
}

static void paint_break(cairo_t *cr, const qci_mark *m)
{
    cairo_rectangle(cr, m->x - 2, m->y, m->w + 4, m->h);
    set_colour(cr, paper);
    cairo_fill(cr);
    paint_zigzag(cr, m, m->y);
    paint_zigzag(cr, m, m->y + m->h - 2.5);
}

static void fill_path(cairo_t *cr, colour c)
{
    set_colour(cr, c);
    cairo_fill_preserve(cr);
}

static void paint_box(cairo_t *cr, const qci_mark *m)
{
    static const double dashes[] = {4, 2};

    if (m->role == QCI_ROLE_BREAK) {
        paint_break(cr, m);
        return;
    }
    cairo_rectangle(cr, m->x, m->y, m->w, m->h);
    switch (m->role) {
    case QCI_ROLE_LEFTOVER:
        fill_path(cr, paper);
        cairo_set_dash(cr, dashes, 2, 0);
        stroke(cr, ink, 0.6);
        cairo_set_dash(cr, NULL, 0, 0);
        break;
    case QCI_ROLE_SCALE:
        fill_path(cr, m->tint ? ink : paper);
        stroke(cr, ink, 0.5);
        break;
    default:
        stroke(cr, ink, m->role == QCI_ROLE_CLOTH ? 1.4 : 0.9);
        break;
    }
}

static void paint_cloth(cairo_t *cr, const qci_mark *m, const qci_corner *at,
                        size_t count)
{
    if (m->role == QCI_ROLE_SCRAP)
        paint_hatch(cr, at, count);
    cairo_move_to(cr, at[0].x, at[0].y);
    for (size_t i = 1; i < count; i++)
        cairo_line_to(cr, at[i].x, at[i].y);
    cairo_close_path(cr);
    if (m->role == QCI_ROLE_PIECE)
        fill_path(cr, tints[m->tint % (sizeof tints / sizeof *tints)]);
    stroke(cr, m->role == QCI_ROLE_SCRAP ? faint : ink, 0.5);
}

/* Pieces and scrap are painted alike as boxes and as polygons. */
static void paint_form(cairo_t *cr, const qci_mark *m)
{
    const qci_corner box[] = {{m->x, m->y},
                              {m->x + m->w, m->y},
                              {m->x + m->w, m->y + m->h},
                              {m->x, m->y + m->h}};

    if (m->kind == QCI_MARK_POLYGON)
        paint_cloth(cr, m, m->corners, m->corner_count);
    else if (m->role == QCI_ROLE_PIECE || m->role == QCI_ROLE_SCRAP)
        paint_cloth(cr, m, box, 4);
    else
        paint_box(cr, m);
}

/* Two short strokes that end a line: barbs of an arrow, or a tick. */
static void paint_end(cairo_t *cr, double x, double y, double dx, double dy,
                      double back, double side)
{
    double length = hypot(dx, dy);
    double ux = length > 0 ? dx / length : 0, uy = length > 0 ? dy / length : 0;

    segment(cr, x + back * ux - side * uy, y + back * uy + side * ux, x, y);
    cairo_line_to(cr, x + back * ux + side * uy, y + back * uy - side * ux);
}

static bool is_bare(qci_role role)
{
    return role == QCI_ROLE_LEADER || role == QCI_ROLE_DIAGONAL ||
           role == QCI_ROLE_CUT;
}

static void paint_line(cairo_t *cr, const qci_mark *m)
{
    double x1 = m->x + m->w, y1 = m->y + m->h;
    bool tick = m->role == QCI_ROLE_DIMENSION;

    segment(cr, m->x, m->y, x1, y1);
    if (!is_bare(m->role)) {
        paint_end(cr, m->x, m->y, m->w, m->h, tick ? 0 : ARROW,
                  tick ? TICK : ARROW / 2);
        if (m->role != QCI_ROLE_ONE_WAY)
            paint_end(cr, x1, y1, -m->w, -m->h, tick ? 0 : ARROW,
                      tick ? TICK : ARROW / 2);
    }
    if (m->role == QCI_ROLE_LEADER || m->role == QCI_ROLE_DIAGONAL)
        stroke(cr, faint, 0.4);
    else
        stroke(cr, ink, tick ? 0.6 : 1.0);
}

static void paint_text(cairo_t *cr, const qci_scene *scene, const qci_mark *m)
{
    cairo_select_font_face(cr, QCI_FONT_FAMILY, CAIRO_FONT_SLANT_NORMAL,
                           m->bold ? CAIRO_FONT_WEIGHT_BOLD
                                   : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cr, m->size);
    set_colour(cr, ink);
    if (m->upright) {
        cairo_save(cr);
        cairo_translate(cr, m->x + scene->ascent * m->size, m->y + m->h);
        cairo_rotate(cr, -RIGHT_ANGLE);
        cairo_move_to(cr, 0, 0);
        cairo_show_text(cr, m->text);
        cairo_restore(cr);
    } else {
        cairo_move_to(cr, m->x, m->y + scene->ascent * m->size);
        cairo_show_text(cr, m->text);
    }
}

static void paint_mark(cairo_t *cr, const qci_scene *scene, const qci_mark *m)
{
    switch (m->kind) {
    case QCI_MARK_BOX:
    case QCI_MARK_POLYGON:
        paint_form(cr, m);
        break;
    case QCI_MARK_LINE:
        paint_line(cr, m);
        break;
    case QCI_MARK_TEXT:
        paint_text(cr, scene, m);
        break;
    }
}

/* The marks that begin from one height to another. */
static void paint_between(cairo_t *cr, const qci_scene *scene, double from,
                          double to)
{
    cairo_font_options_t *options = cairo_font_options_create();

    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cr, options);
    cairo_font_options_destroy(options);
    set_colour(cr, paper);
    cairo_paint(cr);
    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        if (m->y >= from && m->y < to)
            paint_mark(cr, scene, m);
    }
}

void qci_paint_scene(cairo_t *cr, const qci_scene *scene)
{
    paint_between(cr, scene, -INFINITY, INFINITY);
}

void qci_paint_page(cairo_t *cr, const qci_scene *scene, int page)
{
    cairo_translate(cr, 0, -page * scene->page);
    paint_between(cr, scene, page * scene->page, (page + 1) * scene->page);
}
