/* Convex polygons on the page. */
#ifndef QCI_DRAW_CORNERS_H
#define QCI_DRAW_CORNERS_H

#include "draw/scene.h"

/* More corners than any piece has, after any number of straight cuts. */
#define QCI_CORNERS_ROOM 64

/* The least box round the corners. */
void qci_corners_box(const qci_corner *corners, size_t count, double *x,
                     double *y, double *w, double *h);

double qci_corners_area(const qci_corner *corners, size_t count);

/* Cuts the polygon straight along the line through `a` and `b`, and takes what
 * lies on the side of the point `near` (`same`) or what lies on the other one.
 * Returns its number of corners, at most count + 1; 0: nothing is there. */
size_t qci_corners_cut(const qci_corner *corners, size_t count, qci_corner a,
                       qci_corner b, qci_corner near, bool same,
                       qci_corner *out);

/* The part of the horizontal line at `y` inside the polygon. */
void qci_corners_span(const qci_corner *corners, size_t count, double y,
                      double *from, double *to);

/* Finds a place for a box of w x h inside the polygon: its upper left corner.
 * As near as may be to the middle of the height. */
bool qci_corners_place(const qci_corner *corners, size_t count, double w,
                       double h, double *x, double *y);

#endif
