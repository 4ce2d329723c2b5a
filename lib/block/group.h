/* What a patch is, and which patches are cut alike. Shared by the room. */
#ifndef QCI_BLOCK_GROUP_H
#define QCI_BLOCK_GROUP_H

#include "block/block.h"
#include "block/drawing.h"

/* A patch's sides: their squares, and the products of each and the next. Two
 * convex patches with the same lists are congruent. */
typedef struct qci_marks {
    size_t count;
    qc_block_point edge[QC_MAX_CORNERS];
    qc_block_number square[QC_MAX_CORNERS], dot[QC_MAX_CORNERS];
} qci_marks;

qci_marks qci_marks_of(const qci_patch_draft *patch, int64_t radicand);

/* Which side of b corresponds to side 0 of a, b being turned onto it, or
 * mirrored and turned; QC_NONE: they are not congruent so. */
uint32_t qci_marks_match(const qci_marks *a, const qci_marks *b, bool mirrored);

/* A patch's shape, the sharp angle of a diamond or parallelogram, and the side
 * that is its base. */
typedef struct qci_kind {
    qc_shape shape;
    int32_t angle;
    size_t base;
} qci_kind;

qci_kind qci_recognise(const qci_marks *marks, int64_t radicand);

/* Sorts the patches of a draft into the block's groups; corners are moved round
 * so that each patch begins with its base. */
qc_status qci_block_sort(qc_block *block, qci_block_draft *draft);

/* What a side measures whose square this is; and an area or any product of two
 * lengths, over a length. */
qci_fine qci_block_length(const qc_block_summary *block,
                          qc_block_number square);
qci_fine qci_block_over(const qc_block_summary *block, qc_block_number product,
                        qci_fine length);

/* Fills in what the groups measure at the block's width. */
void qci_block_measure(qc_block *block, const qci_block_draft *draft);

#endif
