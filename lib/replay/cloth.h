/* Taking equal cloths off a cloth, one straight cut after the other. */
#ifndef QCI_REPLAY_CLOTH_H
#define QCI_REPLAY_CLOTH_H

#include "replay/polygon.h"

/* Which way a distance is measured from the cloth's own edge. */
typedef enum qci_measure {
    QCI_MEASURE_UP,    /* along the selvage, from the lower edge */
    QCI_MEASURE_ACROSS /* along the width, from where the left edge begins at
                          the lower one */
} qci_measure;

/* Where a cut lies: so far from the working edge; across the cloth it may
 * slant, by so much from the lower to the upper edge. */
typedef struct qci_ruler {
    qci_measure measure;
    qc_length distance;
    qc_length lean;
} qci_ruler;

typedef enum qci_slice {
    QCI_SLICE_DONE,
    QCI_SLICE_BEYOND,  /* they do not fit; with `all`: or do not fill it */
    QCI_SLICE_UNEQUAL, /* what falls out is not the same each time */
    QCI_SLICE_OFF_LATTICE
} qci_slice;

/* What the cloth measures from where the ruler is put on. */
qc_length qci_cloth_extent(const qci_polygon *cloth, qci_measure measure);

/* The ends of the left edge on the lower and on the upper edge. */
void qci_cloth_left(const qci_polygon *cloth, qci_point *lower,
                    qci_point *upper);

/* Takes `count` >= 1 slices of a distance >= 0 off, each from the working edge
 * that the one before has left. With `all` they take the cloth to the last
 * thread, and nothing is left of it; else something must be left. `freed`
 * receives the first slice; `cloth` becomes the rest, or stays as it was with
 * `all` or when not all goes well. Costs the same for any count. */
qci_slice qci_cloth_slice(qci_polygon *cloth, qci_ruler ruler, int64_t count,
                          bool all, qci_polygon *freed);

/* The cloth is an upright rectangle of this size, wherever it lies. */
bool qci_cloth_is_rectangle(const qci_polygon *cloth, qc_length width,
                            qc_length height);

#endif
