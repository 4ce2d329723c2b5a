/* What the files share that tell units by their geometry. */
#ifndef QCI_BLOCK_FINDER_H
#define QCI_BLOCK_FINDER_H

#include "block/unit.h"

/* Side `edge` of a patch, from corner `edge` to the next. */
typedef struct qci_patch_side {
    uint32_t patch, edge;
} qci_patch_side;

typedef struct qci_finder {
    qc_block *block;
    qc_error *err;
    /* What lies at each side, by the whole of it; QC_NONE: nothing. */
    qci_patch_side (*facing)[QC_MAX_CORNERS];
    bool taken[QC_MAX_PATCHES]; /* by a row */
} qci_finder;

const qc_block_patch *qci_finder_patch(const qci_finder *f, uint32_t patch);
qc_block_point qci_patch_edge(const qc_block_patch *patch, size_t edge);
/* Does it lie along or across the block? */
bool qci_edge_is_straight(qc_block_point edge);
bool qci_roles_differ(const qci_finder *f, uint32_t a, uint32_t b);
qci_patch_side qci_finder_facing(const qci_finder *f, uint32_t patch,
                                 size_t edge);
/* The long side of a triangle with a right angle and equal legs; QC_NONE of
 * another patch. */
uint32_t qci_long_side(const qci_finder *f, uint32_t patch);

/* Adds the rows of the block; and what is set in between diamonds. Each
 * QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_find_rows(qci_finder *f);
qc_status qci_find_set_in_square(qci_finder *f, uint32_t patch);
qc_status qci_find_set_in_triangle(qci_finder *f, uint32_t patch);

#endif
