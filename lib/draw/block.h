/* The sheet of blocks. */
#ifndef QCI_DRAW_BLOCK_H
#define QCI_DRAW_BLOCK_H

#include <quiltcut/block.h>

#include "draw/scene.h"

/* Lays one block with its pieces' names and roles, or many small ones side by
 * side, into an empty scene. False when memory is out. */
bool qci_blocks_lay(const qc_block *const *blocks, size_t count,
                    qci_scene *scene);

#endif
