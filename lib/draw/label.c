/* Choosing a label.
 *
 * Content counts more than type size: first everything, then name and size,
 * then the name, then key and size, then the key; for each of them the types
 * from large to small, and for each of those side by side before upright, two
 * lines before one. The first that fits is taken. A choice is made once for all
 * rooms of a run. Cost: at most some 40 text measurements, and for polygons as
 * many searches for a place. */
#include "draw/label.h"

#include <stdio.h>
#include <string.h>

#include "draw/corners.h"

#define PAD 4.0 /* both ends of a line together */

static const double sizes[] = {9, 8, 7, 6.5};

typedef enum content { ALL, NAME_SIZE, JOINED, NAME, KEY_SIZE, KEY } content;

static void add_line(qci_fit *fit, qci_wording wording, double size, bool bold,
                     bool upright)
{
    if (!fit->texts[wording][0])
        return;
    fit->lines[fit->line_count] = wording;
    fit->types[fit->line_count] = (qci_type){size, bold, upright};
    fit->line_count++;
}

static const char *line_text(const qci_fit *fit, int line)
{
    return fit->texts[fit->lines[line]];
}

static void set_texts(qci_fit *fit, qci_caption caption)
{
    const char *turned = caption.turned ? caption.turned : "";

    snprintf(fit->texts[QCI_WORDING_NAME], QCI_LABEL_BYTES, "%s", caption.name);
    snprintf(fit->texts[QCI_WORDING_SIZE], QCI_LABEL_BYTES, "%s", caption.size);
    snprintf(fit->texts[QCI_WORDING_TURNED], QCI_LABEL_BYTES, "%s", turned);
    snprintf(fit->texts[QCI_WORDING_KEY], QCI_LABEL_BYTES, "%s", caption.key);
    if (caption.size[0])
        snprintf(fit->texts[QCI_WORDING_JOINED], QCI_LABEL_BYTES, "%s%s%s",
                 caption.name, caption.both ? " " : "  ", caption.size);
}

static void compose(qci_fit *fit, content what, double size, bool upright)
{
    double small = size > 7 ? size - 1 : size;

    fit->line_count = 0;
    fit->by_key = what == KEY || what == KEY_SIZE;
    if (what == JOINED)
        add_line(fit, QCI_WORDING_JOINED, small, false, upright);
    else if (fit->by_key)
        add_line(fit, QCI_WORDING_KEY, small, false, upright);
    else
        add_line(fit, QCI_WORDING_NAME, size, true, upright);
    if (what == ALL || what == NAME_SIZE || what == KEY_SIZE)
        add_line(fit, QCI_WORDING_SIZE, small, false, upright);
    if (what == ALL)
        add_line(fit, QCI_WORDING_TURNED, small, false, upright);
}

/* Size of the block of lines along and across the lines. */
static void measure(qci_scene *scene, const qci_fit *fit, double *along,
                    double *across)
{
    *along = *across = 0;
    for (int i = 0; i < fit->line_count; i++) {
        double length =
            qci_scene_text_width(scene, fit->types[i], line_text(fit, i));

        if (length > *along)
            *along = length;
        *across += qci_scene_line_height(scene, fit->types[i].size);
    }
}

static bool fits(qci_scene *scene, qci_fit *fit, const qci_room *room)
{
    double along, across, left, top, w, h;

    if (!fit->line_count)
        return false;
    measure(scene, fit, &along, &across);
    along += PAD;
    across += PAD / 4;
    fit->w = fit->types[0].upright ? across : along;
    fit->h = fit->types[0].upright ? along : across;
    if (!room->corners) {
        fit->x = (room->w - fit->w) / 2;
        fit->y = (room->h - fit->h) / 2;
        return fit->x >= 0 && fit->y >= 0;
    }
    qci_corners_box(room->corners, room->count, &left, &top, &w, &h);
    if (!qci_corners_place(room->corners, room->count, fit->w, fit->h, &fit->x,
                           &fit->y))
        return false;
    fit->x -= left;
    fit->y -= top;
    return true;
}

void qci_label_fit(qci_scene *scene, qci_room room, qci_caption caption,
                   qci_fit *fit)
{
    /* Contents that say equally much and are tried together. */
    static const content ranks[][2] = {{ALL, ALL},
                                       {NAME_SIZE, JOINED},
                                       {NAME, NAME},
                                       {KEY_SIZE, KEY_SIZE},
                                       {KEY, KEY}};

    memset(fit, 0, sizeof *fit);
    set_texts(fit, caption);
    for (size_t rank = caption.turned ? 0 : 1;
         rank < sizeof ranks / sizeof *ranks; rank++) {
        if (caption.both &&
            (ranks[rank][0] == NAME || ranks[rank][0] == KEY_SIZE))
            continue;
        for (size_t s = 0; s < sizeof sizes / sizeof *sizes; s++) {
            for (int upright = 0; upright < 2; upright++) {
                for (int form = 0; form < 2; form++) {
                    compose(fit, ranks[rank][form], sizes[s], upright);
                    if (fits(scene, fit, &room))
                        return;
                }
            }
        }
    }
    fit->line_count = 0;
    fit->by_key = false;
}

void qci_label_place(qci_scene *scene, const qci_fit *fit, size_t owner)
{
    const qci_mark *box;
    double x, y, w, h, along, across, at;

    if (scene->failed || !fit->line_count)
        return;
    box = &scene->marks.at[owner];
    x = box->x + fit->x;
    y = box->y + fit->y;
    w = fit->w;
    h = fit->h;
    measure(scene, fit, &along, &across);
    at = ((fit->types[0].upright ? w : h) - across) / 2;
    for (int i = 0; i < fit->line_count; i++) {
        qci_type type = fit->types[i];
        const char *text = line_text(fit, i);
        double length = qci_scene_text_width(scene, type, text);

        if (type.upright)
            qci_scene_text(scene, QCI_ROLE_LABEL, type, x + at,
                           y + (h - length) / 2, owner, text);
        else
            qci_scene_text(scene, QCI_ROLE_LABEL, type, x + (w - length) / 2,
                           y + at, owner, text);
        at += qci_scene_line_height(scene, type.size);
    }
}
