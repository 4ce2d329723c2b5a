/* Measures that a sewist takes on cloth: along slanted edges, and square to
 * them. */
#ifndef QCI_ORDER_MEASURE_H
#define QCI_ORDER_MEASURE_H

#include <quiltcut/plan.h>

/* Within what outlines, leans and pitches were rounded by. */
bool qci_is_near(qc_length a, qc_length b);

/* Length of an edge that runs `run` while it rises `rise`. */
qc_length qci_slope(qc_length run, qc_length rise);

/* How far two parallel cuts of that lean lie apart, square to them, that lie
 * `along` (>= 0) apart on the strip's edge; rounded down. */
qc_length qci_spacing_of(qc_length along, qc_length height, qc_length lean);

/* A length that a sewist reads: on the job's ruler, else about the nearest mark
 * that is easily read (1/16 in, 1 mm). */
typedef struct qci_told {
    qc_length mark;
    bool about; /* the length lies beside it */
} qci_told;

qci_told qci_told_as(qc_length length, qc_length ruler, qc_units units);

/* length x top / bottom; bottom is not 0. */
qc_length qci_scaled(qc_length length, qc_length top, qc_length bottom);

/* The angle of such a cut against the strip, in degrees, where rulers have a
 * line for it: 30, 45, 60 (common practice, no source); else 0. */
int qci_ruler_angle(qc_length height, qc_length lean);

/* A cut that takes a corner off a section: where it meets the strip's lower or
 * upper edge, and where it meets the section's side (`up` the side: as long as
 * that is), both measured from the corner. With `across` it runs from the lower
 * edge to the upper one instead, and takes a whole side off: `along` and `up`
 * are how far from that side's ends. */
typedef struct qci_corner_cut {
    bool upper, far;
    bool across;
    qc_length along, up;
    qc_length length;
} qci_corner_cut;

/* A section of its strip, as qc_subcut. */
typedef struct qci_section_shape {
    qc_length height, width;
    qc_length lean[2];
} qci_section_shape;

/* The cuts that trim a section to an outline of `count` corners, as it lies;
 * at most `count`. Returns their number. */
size_t qci_corner_cuts(const qci_section_shape *section, const qc_point *lying,
                       size_t count, qci_corner_cut *out);

#endif
