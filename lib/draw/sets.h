/* The picture of a strip set, and the words round it. */
#ifndef QCI_DRAW_SETS_H
#define QCI_DRAW_SETS_H

#include "draw/sheet.h"

/* The set that is drawn. Lengths in points; x from the first strip's end on,
 * rightwards; y from the raw lower edge up. */
typedef struct qci_set_picture {
    qci_sheet *sheet;
    size_t set;
    const qc_plan_set *info;
    qc_length length; /* of its strips, not in points */
    int64_t segments;
    double strips; /* length */
    double height;
    double origin; /* where x = 0 is on the page */
    double width;  /* of all that is drawn, which begins at the cloth's left */
    double slope;  /* of the cuts: x per y */
    double first, pitch;
    bool steps; /* strips' ends are stepped */
    bool block; /* segments are not told apart */
} qci_set_picture;

/* Which tint a strip has: one for each fabric of the set. */
unsigned qci_set_tint(const qci_set_picture *p, size_t strip);

/* Each is laid from `y` down and returns where it ends. */
double qci_set_heading(qci_set_picture *p, double y);
/* What the cutter sets, in words. */
double qci_set_notes(qci_set_picture *p, double y);
/* Which strips are sewn together, and what they are called on the fabrics'
 * sheets. */
double qci_set_list(qci_set_picture *p, double y);

#endif
