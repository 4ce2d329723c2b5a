/* Shared by the files that make a cut shape of a patch. */
#ifndef QCI_SHAPE_MAKE_H
#define QCI_SHAPE_MAKE_H

#include "shape/sides.h"

typedef struct qci_maker {
    const qci_patch *patch;
    qci_cut_shape *out;
    qci_sides sides; /* moved out, blunted */
} qci_maker;

/* Up to what a dimension goes: a multiple of `step`, for finished sizes on the
 * ruler; notes that it went up. */
qc_length qci_make_mark(const qci_maker *m, qci_fine size, qc_length step);

/* Fills in the cut shape of what is cut at an angle; as qci_shape_make(). */
qci_patch_fault qci_make_angled(qci_maker *m, size_t *at);

#endif
