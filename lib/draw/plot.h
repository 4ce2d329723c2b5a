/* The plot of a comparison. */
#ifndef QCI_DRAW_PLOT_H
#define QCI_DRAW_PLOT_H

#include <quiltcut/compare.h>

#include "draw/scene.h"

/* False when memory is out. */
bool qci_plot_lay(const qc_compare_row *rows, size_t count, const char *title,
                  qc_units units, qci_scene *scene);

#endif
