/* Marks of a ruler, for what is only told. */
#ifndef QCI_BASE_MARK_H
#define QCI_BASE_MARK_H

#include <quiltcut/length.h>

/* The mark that is easily read (1/16 in, 1 mm) at or below a length that what
 * was cut has; what lies on a mark of a fine ruler stays. */
static inline qc_length qci_mark_below(qc_length length, qc_units units)
{
    qc_length fine = units == QC_UNITS_IN ? QC_INCH / 64 : QC_MM / 2;
    qc_length plain = units == QC_UNITS_IN ? QC_INCH / 16 : QC_MM;

    return length % fine == 0 ? length : length / plain * plain;
}

#endif
