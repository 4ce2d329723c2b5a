/* A block as the library's own rooms see it. */
#ifndef QCI_BLOCK_BLOCK_H
#define QCI_BLOCK_BLOCK_H

#include "block/number.h"
#include "shape/sides.h"

typedef struct qci_block_group {
    qc_block_group info;
    char id[4];
    /* The same between the whole lengths. */
    qci_fine size[3];
    qci_fine_point at[QC_MAX_CORNERS];
    qc_point points[QC_MAX_CORNERS]; /* info's */
    uint32_t first;                  /* the patch that is measured */
} qci_block_group;

typedef struct qci_block_unit qci_block_unit; /* block/unit.h */

struct qc_block {
    qc_block_summary info;
    char *name;
    char **roles;
    qc_block_patch *patches;
    qc_block_point *corners; /* the patches' */
    qci_block_group *groups;
    size_t group_room;
    qci_block_unit *units;
    size_t unit_room;
};

#endif
