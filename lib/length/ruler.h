/* Rounding to the marks of a ruler. */
#ifndef QCI_LENGTH_RULER_H
#define QCI_LENGTH_RULER_H

#include <quiltcut/length.h>

/* The least multiple of `grid` (above 0) that is at least `length` (not below
 * 0). Both up to QC_LENGTH_MAX; the result may lie beyond it. */
static inline qc_length qci_ruler_up(qc_length length, qc_length grid)
{
    return (length + grid - 1) / grid * grid;
}

#endif
