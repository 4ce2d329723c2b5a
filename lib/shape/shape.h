/* From a patch of the sewn quilt to the shape that is cut for it. */
#ifndef QCI_SHAPE_SHAPE_H
#define QCI_SHAPE_SHAPE_H

#include <quiltcut/job.h>

/* The length whole + root x sqrt2: what the sides of patches with angles of 45
 * and 90 degrees measure. */
typedef struct qci_surd {
    qc_length whole;
    qc_length root;
} qci_surd;

/* The least whole length that is not below it. Both parts within
 * +-4 QC_LENGTH_MAX. */
qc_length qci_surd_up(qci_surd length);

/* Pieces that what is cut square becomes: 2 or 4 when it is cut once or twice
 * corner to corner; else 1. */
int32_t qci_shape_yields(qc_shape shape);

/* What is cut for a patch that finishes `finished` on its side (square,
 * rectangle), leg (half-square triangle) or long side (quarter-square
 * triangle): the side of a square, or of a rectangle that way, exactly. A
 * finished size of 0 gives what the seams add to any. */
qci_surd qci_shape_cut(qc_shape shape, qci_surd finished, qc_length seam);

/* qci_shape_cut() of a whole length, rounded up. */
qc_length qci_shape_cut_up(qc_shape shape, qc_length finished, qc_length seam);

#endif
