/* Painting a scene with cairo. */
#ifndef QCI_DRAW_PAINT_H
#define QCI_DRAW_PAINT_H

#include "draw/scene.h"

/* Paints every mark in order. Errors stay in the cairo context. */
void qci_paint_scene(cairo_t *cr, const qci_scene *scene);
/* Paints one of its pages, from 0, as a sheet of its own. */
void qci_paint_page(cairo_t *cr, const qci_scene *scene, int page);

#endif
