/* The sheet of blocks. */
#ifndef QCI_DRAW_BLOCK_H
#define QCI_DRAW_BLOCK_H

#include <quiltcut/block.h>

#include "draw/scene.h"

/* Lays one block with its pieces' names and roles, or many small ones side by
 * side, into an empty scene. False when memory is out. */
bool qci_blocks_lay(const qc_block *const *blocks, size_t count,
                    qci_scene *scene);

/* A block in a square of this side, on whose lower edge it stands; with
 * `labels` the names of its pieces. */
void qci_block_put(qci_scene *scene, const qc_block *block, double left,
                   double top, double side, bool labels);
/* The roles with their tints and pieces, a line each; returns where they end.
 */
double qci_block_roles(qci_scene *scene, const qc_block *block, double x,
                       double y, double room);

#endif
