/* What is written inside a piece: as much as there is room for. */
#ifndef QCI_DRAW_LABEL_H
#define QCI_DRAW_LABEL_H

#include "draw/scene.h"

/* What could be written; what is empty is left out. */
typedef struct qci_caption {
    const char *name;
    const char *size;
    const char *turned; /* may be NULL */
    const char *key;    /* short stand-in for the name */
    bool both;          /* `size` is a second name: the key stands for both, and
                           neither is written alone */
} qci_caption;

/* The texts that lines are made of. */
typedef enum qci_wording {
    QCI_WORDING_NAME,
    QCI_WORDING_SIZE,
    QCI_WORDING_TURNED,
    QCI_WORDING_KEY,
    QCI_WORDING_JOINED, /* name and size on one line */
    QCI_WORDING_COUNT
} qci_wording;

#define QCI_LABEL_LINES 3
#define QCI_LABEL_BYTES 320

/* What a text is to stand in: a box, or a convex polygon. */
typedef struct qci_room {
    double w, h;
    const qci_corner *corners; /* NULL: a box */
    size_t count;
} qci_room;

/* A choice that fits every room of one form. No lines: there is no room. */
typedef struct qci_fit {
    double x, y, w, h; /* box for the lines, from the room's upper left */
    char texts[QCI_WORDING_COUNT][QCI_LABEL_BYTES];
    int line_count;
    qci_wording lines[QCI_LABEL_LINES];
    qci_type types[QCI_LABEL_LINES];
    bool by_key; /* the key stands for the name */
} qci_fit;

/* The fullest caption, in the largest type, that fits. */
void qci_label_fit(qci_scene *scene, qci_room room, qci_caption caption,
                   qci_fit *fit);

/* Writes the chosen lines into the mark `owner`, which has the room's form. */
void qci_label_place(qci_scene *scene, const qci_fit *fit, size_t owner);

#endif
