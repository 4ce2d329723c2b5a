/* Looking at what is drawn, for the drawing tests. */
#ifndef DRAW_LOOK_H
#define DRAW_LOOK_H

#include <quiltcut/draw.h>

#include "draw/sheet.h"

/* Lays the sheet of a plan: of its strip set, if it has one, else of its
 * fabric. */
void look_lay(const qc_plan *plan, qci_scene *scene);
/* Draws the same sheet. */
qc_status look_draw(const qc_plan *plan, qc_draw_format format,
                    qc_write_fn write, void *user, qc_error *err);
bool look_inside(const qci_mark *m, double x, double y, double w, double h);
/* The first of its role. */
const qci_mark *look_find_box(const qci_scene *scene, qci_role role);
/* The lowest on the page: strip 1 is at the bottom. */
const qci_mark *look_lowest_box(const qci_scene *scene, qci_role role);
/* Has some text these words in it? */
bool look_says(const qci_scene *scene, const char *words);

#endif
