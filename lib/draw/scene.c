/* The list of marks, the measuring of text, and the mirror.
 *
 * Text is measured by cairo itself, in the same fonts and with the same
 * options the painter uses, at one large size; without hinting widths grow in
 * proportion, so one measurement serves every size. Cost: one cairo call per
 * measured text, appends otherwise. */
#include "draw/scene.h"

#include <string.h>

#include "draw/corners.h"

#define ELLIPSIS "\xE2\x80\xA6"

static cairo_scaled_font_t *open_font(cairo_font_weight_t weight)
{
    cairo_font_face_t *face = cairo_toy_font_face_create(
        QCI_FONT_FAMILY, CAIRO_FONT_SLANT_NORMAL, weight);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_matrix_t size, identity;
    cairo_scaled_font_t *font;

    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_matrix_init_scale(&size, QCI_FONT_UNIT, QCI_FONT_UNIT);
    cairo_matrix_init_identity(&identity);
    font = cairo_scaled_font_create(face, &size, &identity, options);
    cairo_font_options_destroy(options);
    cairo_font_face_destroy(face);
    return font;
}

bool qci_scene_begin(qci_scene *scene)
{
    memset(scene, 0, sizeof *scene);
    for (int bold = 0; bold < 2; bold++) {
        cairo_font_extents_t extents;

        scene->fonts[bold] =
            open_font(bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
        if (cairo_scaled_font_status(scene->fonts[bold]) !=
            CAIRO_STATUS_SUCCESS)
            scene->failed = true;
        cairo_scaled_font_extents(scene->fonts[bold], &extents);
        if (extents.ascent / QCI_FONT_UNIT > scene->ascent)
            scene->ascent = extents.ascent / QCI_FONT_UNIT;
        if (extents.descent / QCI_FONT_UNIT > scene->descent)
            scene->descent = extents.descent / QCI_FONT_UNIT;
    }
    return !scene->failed;
}

static void free_mark(const qci_mark *mark)
{
    qci_free(mark->text);
    qci_free(mark->corners);
}

void qci_scene_clear(qci_scene *scene)
{
    for (size_t i = 0; i < scene->marks.count; i++)
        free_mark(&scene->marks.at[i]);
    qci_vec_clear(&scene->marks);
    for (int bold = 0; bold < 2; bold++)
        if (scene->fonts[bold])
            cairo_scaled_font_destroy(scene->fonts[bold]);
    memset(scene, 0, sizeof *scene);
}

static size_t add_mark(qci_scene *scene, qci_mark mark)
{
    if (scene->failed || !qci_vec_push(&scene->marks, mark)) {
        scene->failed = true;
        free_mark(&mark);
        return QCI_NO_OWNER;
    }
    return scene->marks.count - 1;
}

size_t qci_scene_box(qci_scene *scene, qci_role role, double x, double y,
                     double w, double h, unsigned tint)
{
    return add_mark(scene, (qci_mark){.kind = QCI_MARK_BOX,
                                      .role = role,
                                      .x = x,
                                      .y = y,
                                      .w = w,
                                      .h = h,
                                      .tint = tint,
                                      .owner = QCI_NO_OWNER});
}

size_t qci_scene_polygon(qci_scene *scene, qci_role role,
                         const qci_corner *corners, size_t count, unsigned tint)
{
    qci_mark mark = {.kind = QCI_MARK_POLYGON,
                     .role = role,
                     .tint = tint,
                     .corner_count = count,
                     .owner = QCI_NO_OWNER};

    mark.corners = qci_copy(corners, count, sizeof *corners);
    if (!mark.corners) {
        scene->failed = true;
        return QCI_NO_OWNER;
    }
    qci_corners_box(corners, count, &mark.x, &mark.y, &mark.w, &mark.h);
    return add_mark(scene, mark);
}

void qci_scene_line(qci_scene *scene, qci_role role, double x, double y,
                    double to_x, double to_y)
{
    add_mark(scene, (qci_mark){.kind = QCI_MARK_LINE,
                               .role = role,
                               .x = x,
                               .y = y,
                               .w = to_x - x,
                               .h = to_y - y,
                               .owner = QCI_NO_OWNER});
}

double qci_scene_text_width(qci_scene *scene, qci_type type, const char *text)
{
    cairo_text_extents_t extents;

    if (scene->failed)
        return 0;
    cairo_scaled_font_text_extents(scene->fonts[type.bold], text, &extents);
    if (cairo_scaled_font_status(scene->fonts[type.bold]) !=
        CAIRO_STATUS_SUCCESS)
        scene->failed = true;
    return extents.x_advance * type.size / QCI_FONT_UNIT;
}

double qci_scene_line_height(const qci_scene *scene, double size)
{
    return (scene->ascent + scene->descent) * size;
}

void qci_scene_text(qci_scene *scene, qci_role role, qci_type type, double x,
                    double y, size_t owner, const char *text)
{
    double along = qci_scene_text_width(scene, type, text);
    double across = qci_scene_line_height(scene, type.size);
    char *copy;

    if (scene->failed || !text[0])
        return;
    copy = qci_strdup(text);
    if (!copy) {
        scene->failed = true;
        return;
    }
    add_mark(scene, (qci_mark){.kind = QCI_MARK_TEXT,
                               .role = role,
                               .x = x,
                               .y = y,
                               .w = type.upright ? across : along,
                               .h = type.upright ? along : across,
                               .owner = owner,
                               .size = type.size,
                               .bold = type.bold,
                               .upright = type.upright,
                               .text = copy});
}

/* Shortens `text` in place, a character at a time, until it and an ellipsis
 * fit; there must be place for the ellipsis behind it. */
static void shorten(qci_scene *scene, qci_type type, double room, char *text)
{
    size_t n = strlen(text);

    while (n && !scene->failed) {
        n--;
        while (n && ((unsigned char)text[n] & 0xC0) == 0x80)
            n--;
        memcpy(text + n, ELLIPSIS, sizeof ELLIPSIS);
        if (qci_scene_text_width(scene, type, text) <= room)
            return;
    }
    text[0] = '\0';
}

void qci_scene_text_in(qci_scene *scene, qci_type type, double x, double y,
                       double room, double align, const char *text)
{
    size_t n = strlen(text);
    char *fitted = qci_calloc(n + sizeof ELLIPSIS, 1);
    double slack;

    if (!fitted) {
        scene->failed = true;
        return;
    }
    memcpy(fitted, text, n + 1);
    if (qci_scene_text_width(scene, type, fitted) > room)
        shorten(scene, type, room, fitted);
    slack = room - qci_scene_text_width(scene, type, fitted);
    if (type.upright)
        qci_scene_text(scene, QCI_ROLE_NOTE, type, x, y + align * slack,
                       QCI_NO_OWNER, fitted);
    else
        qci_scene_text(scene, QCI_ROLE_NOTE, type, x + align * slack, y,
                       QCI_NO_OWNER, fitted);
    qci_free(fitted);
}

void qci_scene_mirror(qci_scene *scene, size_t first, double left, double right)
{
    for (size_t i = first; i < scene->marks.count; i++) {
        qci_mark *m = &scene->marks.at[i];

        if (m->kind == QCI_MARK_LINE) {
            m->x = left + right - m->x;
            m->w = -m->w;
            continue;
        }
        m->x = left + right - m->x - m->w;
        for (size_t k = 0; k < m->corner_count; k++)
            m->corners[k].x = left + right - m->corners[k].x;
    }
}
