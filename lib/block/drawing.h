/* A block while it is made of its drawing. Shared by the room's files. */
#ifndef QCI_BLOCK_DRAWING_H
#define QCI_BLOCK_DRAWING_H

#include <quiltcut/plan.h>

#include "base/error.h"
#include "block/number.h"

/* Coordinates in a drawing are reckoned in this part of a grid unit: whatever
 * fraction is a whole number of them may be drawn. */
#define QCI_GRID INT64_C(20160) /* 2^6 x 3^2 x 5 x 7 */
/* Turning by a twelfth or an eighth, about a centre that may lie between, gives
 * quarters of them. */
#define QCI_TURNED INT64_C(4)

typedef struct qci_patch_draft {
    uint32_t drawn, role;
    size_t count;
    qc_block_point at[QC_MAX_CORNERS];
} qci_patch_draft;

typedef struct qci_block_draft {
    const qc_block_drawing *drawing;
    qc_error *err;
    int64_t radicand;    /* 0 while no root was met */
    int64_t denominator; /* of all numbers; what they are measured in is first
                            the grid's unit, then the block's width */
    qc_block_point size; /* the block's upper right corner */
    qci_patch_draft *patches;
    size_t patch_count;
    const char *roles[QC_MAX_PATCHES]; /* the drawing's */
    size_t role_count;
} qci_block_draft;

/* Fails with the place "patches[I].MEMBER", or MEMBER alone for QC_NONE. */
qc_status qci_draft_fail(const qci_block_draft *draft, uint32_t drawn,
                         const char *member, const char *allowed,
                         const char *problem, ...)
    __attribute__((format(printf, 5, 6)));

/* All return QC_STATUS_OK, QC_STATUS_INVALID or QC_STATUS_NO_MEMORY. */

/* Reads a coordinate that stands at *text up to `end` of it; *text moves on. */
qc_status qci_read_coordinate(qci_block_draft *draft, uint32_t drawn,
                              const char *member, const char **text,
                              qc_block_number *out);
/* Reads a drawing and makes the copies; numbers are in grid units. */
qc_status qci_draw(qci_block_draft *draft);
/* From grid units to widths of the block, in lowest terms. */
qc_status qci_draft_scale(qci_block_draft *draft);
/* Twice the area, in squares of the coordinates' unit. */
qc_block_number qci_doubled_area(const qci_patch_draft *patch,
                                 int64_t radicand);
/* Do the patches tile the block? */
qc_status qci_draft_check(const qci_block_draft *draft);

#endif
