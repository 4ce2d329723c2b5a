/* Choosing a label.
 *
 * Content counts more than type size: first everything, then name and size,
 * then the name, then the key; for each of them the types from large to
 * small, and for each of those side by side before upright, two lines before
 * one. The first that fits is taken. A choice is made once for all boxes of a
 * run. Cost: at most some 40 text measurements. */
#include "draw/label.h"

#include <stdio.h>
#include <string.h>

#define PAD 2.0

static const double sizes[] = {9, 8, 7, 6.5};

typedef enum content {
    ALL,
    NAME_SIZE,
    JOINED,
    NAME,
    KEY,
    CONTENT_COUNT
} content;

static void add_line(qci_fit *fit, const char *text, double size, bool bold,
                     bool upright)
{
    fit->lines[fit->line_count] = text;
    fit->types[fit->line_count] = (qci_type){size, bold, upright};
    fit->line_count++;
}

static const char *line_text(const qci_fit *fit, int line)
{
    return fit->lines[line] ? fit->lines[line] : fit->joined;
}

static void compose(qci_fit *fit, qci_caption caption, content what,
                    double size, bool upright)
{
    double small = size > 7 ? size - 1 : size;

    fit->line_count = 0;
    fit->by_key = what == KEY;
    if (what == KEY) {
        add_line(fit, caption.key, small, false, upright);
        return;
    }
    if (what == JOINED) {
        add_line(fit, NULL, small, false, upright);
        return;
    }
    add_line(fit, caption.name, size, true, upright);
    if (what != NAME)
        add_line(fit, caption.size, small, false, upright);
    if (what == ALL)
        add_line(fit, caption.turned, small, false, upright);
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

static bool fits(qci_scene *scene, const qci_fit *fit, double w, double h)
{
    double along, across;

    measure(scene, fit, &along, &across);
    if (fit->types[0].upright)
        return across <= w - PAD && along <= h - PAD;
    return along <= w - PAD && across <= h - PAD / 2;
}

void qci_label_fit(qci_scene *scene, double w, double h, qci_caption caption,
                   qci_fit *fit)
{
    /* Contents that say equally much and are tried together. */
    static const content ranks[][2] = {
        {ALL, ALL}, {NAME_SIZE, JOINED}, {NAME, NAME}, {KEY, KEY}};

    memset(fit, 0, sizeof *fit);
    snprintf(fit->joined, sizeof fit->joined, "%s  %s", caption.name,
             caption.size);
    for (size_t rank = caption.turned ? 0 : 1;
         rank < sizeof ranks / sizeof *ranks; rank++) {
        for (size_t s = 0; s < sizeof sizes / sizeof *sizes; s++) {
            for (int upright = 0; upright < 2; upright++) {
                for (int form = 0; form < 2; form++) {
                    compose(fit, caption, ranks[rank][form], sizes[s], upright);
                    if (fits(scene, fit, w, h))
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
    x = box->x;
    y = box->y;
    w = box->w;
    h = box->h;
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
