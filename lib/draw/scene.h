/* A scene: what a diagram shows, as marks on a page, before anything is
 * painted. Layout writes marks, the painter reads them, and a test can ask
 * where every text stands. Lengths are points (1/72 in); y grows downwards.
 *
 * After the first failure a scene stays as it was and remembers it, so that
 * layout code checks once, at the end. */
#ifndef QCI_DRAW_SCENE_H
#define QCI_DRAW_SCENE_H

#include <cairo.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/vec.h"

/* What a mark stands for; the painter decides how that looks. */
typedef enum qci_role {
    QCI_ROLE_CLOTH,     /* box: outline of the fabric */
    QCI_ROLE_STRIP,     /* box: outline of a strip */
    QCI_ROLE_PIECE,     /* box or polygon: pieces, filled with a tint */
    QCI_ROLE_SCRAP,     /* box or polygon: cut away */
    QCI_ROLE_LEFTOVER,  /* box: kept */
    QCI_ROLE_BREAK,     /* box: the drawing is interrupted here */
    QCI_ROLE_DIMENSION, /* line between two ticks, or its text */
    QCI_ROLE_LEADER,    /* line from a text to what it names */
    QCI_ROLE_DIAGONAL,  /* line: a cut corner to corner */
    QCI_ROLE_CUT,       /* line: a cut that matters on this sheet */
    QCI_ROLE_BOTH_WAYS, /* line with two arrow heads */
    QCI_ROLE_ONE_WAY,   /* line with an arrow head at its start */
    QCI_ROLE_SCALE,     /* box: a bar of the scale, tint 1 = dark */
    QCI_ROLE_LABEL,     /* text inside the mark `owner` */
    QCI_ROLE_NOTE       /* any other text */
} qci_role;

typedef enum qci_mark_kind {
    QCI_MARK_BOX,
    QCI_MARK_POLYGON, /* convex */
    QCI_MARK_LINE,
    QCI_MARK_TEXT
} qci_mark_kind;

#define QCI_NO_OWNER ((size_t)-1)

typedef struct qci_corner {
    double x, y;
} qci_corner;

typedef struct qci_mark {
    qci_mark_kind kind;
    qci_role role;
    double x, y;         /* upper left corner; of a line, its start */
    double w, h;         /* of a line, the way to its end */
    qci_corner *corners; /* of a polygon, whose box is x, y, w, h */
    size_t corner_count;
    unsigned tint;
    size_t owner; /* of a label: index of the mark that it must stay inside */
    double size;  /* of a text: font size */
    bool bold;
    bool upright; /* text runs from the bottom up */
    char *text;
} qci_mark;

/* How a text is set. */
typedef struct qci_type {
    double size;
    bool bold;
    bool upright;
} qci_type;

typedef struct qci_scene {
    QCI_VEC(qci_mark) marks;
    double width, height;
    double page; /* height of each of its pages; 0: it is one */
    cairo_scaled_font_t *fonts[2]; /* plain, bold; at QCI_FONT_UNIT points */
    double ascent, descent;        /* of both fonts, at 1 point */
    bool failed;
} qci_scene;

/* Fonts are measured once, without hinting, so that every format breaks and
 * places text alike. */
#define QCI_FONT_UNIT 100.0
#define QCI_FONT_FAMILY "sans"

/* False when memory is out; the scene must be cleared in any case. */
bool qci_scene_begin(qci_scene *scene);
void qci_scene_clear(qci_scene *scene);

/* Index of the new mark. */
size_t qci_scene_box(qci_scene *scene, qci_role role, double x, double y,
                     double w, double h, unsigned tint);
/* A convex polygon; its box is worked out. */
size_t qci_scene_polygon(qci_scene *scene, qci_role role,
                         const qci_corner *corners, size_t count,
                         unsigned tint);
void qci_scene_line(qci_scene *scene, qci_role role, double x, double y,
                    double to_x, double to_y);

/* Length of a text in its own direction. */
double qci_scene_text_width(qci_scene *scene, qci_type type, const char *text);
/* Height of a line of text, ascenders and descenders included. */
double qci_scene_line_height(const qci_scene *scene, double size);

/* A text whose box has its upper left corner at (x, y). */
void qci_scene_text(qci_scene *scene, qci_role role, qci_type type, double x,
                    double y, size_t owner, const char *text);
/* A text no longer than `room`: what does not fit ends in an ellipsis. `align`
 * says where in the room it stands: 0 = start, 0.5 = middle, 1 = end. */
void qci_scene_text_in(qci_scene *scene, qci_type type, double x, double y,
                       double room, double align, const char *text);

/* Turns all marks from `first` on left for right, about the middle between the
 * lines x = left and x = right. Texts only change places. */
void qci_scene_mirror(qci_scene *scene, size_t first, double left,
                      double right);

#endif
