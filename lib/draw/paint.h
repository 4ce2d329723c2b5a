/* Painting a scene with cairo. */
#ifndef QCI_DRAW_PAINT_H
#define QCI_DRAW_PAINT_H

#include "draw/scene.h"

/* Paints every mark in order. Errors stay in the cairo context. */
void qci_paint_scene(cairo_t *cr, const qci_scene *scene);

#endif
