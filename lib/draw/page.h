/* The printed page of a chart. */
#ifndef QCI_DRAW_PAGE_H
#define QCI_DRAW_PAGE_H

#include <quiltcut/chart.h>

#include "draw/block.h"

/* Lays the pages below one another into an empty scene; `block` and `title` may
 * be NULL. False when memory is out. */
bool qci_page_lay(const qc_chart_row *rows, size_t count, const qc_block *block,
                  const char *title, qc_units units, qci_scene *scene);

#endif
