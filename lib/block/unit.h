/* Units: patches that are sewn together in one go, before the block is. */
#ifndef QCI_BLOCK_UNIT_H
#define QCI_BLOCK_UNIT_H

#include "block/block.h"

/* By method, as people write them. */
extern const char *const qci_method_words[QC_METHOD_COUNT];

/* What a unit is made of, by its geometry. */
typedef enum qci_unit_kind {
    QCI_UNIT_PAIR,    /* two triangles that share their long side: a square */
    QCI_UNIT_FLIPPED, /* a patch, and triangles that make it a rectangle */
    QCI_UNIT_ROW,     /* patches between two parallel lines, side by side */
    QCI_UNIT_HALVED   /* one patch that is cut in two, so that no seam is set in
                       */
} qci_unit_kind;

/* Of a row one of its patches, in their order; else a group, once. */
typedef struct qci_unit_part {
    uint32_t group;
    bool half;     /* of a square, cut corner to corner */
    int64_t each;  /* patches in one unit; of rows 1 */
    qci_fine high; /* of rows square to the seams; of triangles, and of the
                      halves of a patch, the leg */
} qci_unit_part;

struct qci_block_unit {
    qc_block_unit info;
    char *id;
    qci_unit_kind kind;
    size_t part_count;
    qci_unit_part *parts;
    int32_t angle;     /* of a row: the sharp one of its sides */
    qci_fine size[2];  /* info's, between the whole lengths */
    uint32_t *members; /* patches of all of them; some twice */
    size_t member_count, member_room;
    qc_block_number seam; /* square of the side that its patches share */
};

/* One unit, as it was found in the block. */
typedef struct qci_sighting {
    qci_unit_kind kind;
    size_t count;
    uint32_t patch[QC_MAX_SET_STRIPS];
    bool half[QC_MAX_SET_STRIPS];
    uint32_t side; /* of the first patch: the one that the second lies at; of
                      pairs and halved triangles the long one; of flipped ones
                      and halved squares QC_NONE */
    qc_hand hand;  /* of rows: which way their sides lean */
    qc_block_point size; /* of flipped ones */
} qci_sighting;

/* Finds all units of a block that is filled and measured. */
qc_status qci_units_find(qc_block *block, qc_error *err);

/* Adds one of them to those that are alike. */
qc_status qci_unit_add(qc_block *block, const qci_sighting *seen,
                       qc_error *err);

/* Names and measures them, once all are found. */
qc_status qci_units_finish(qc_block *block, qc_error *err);

void qci_units_clear(qc_block *block);

#endif
