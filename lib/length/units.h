/* Units by name, and lengths written with them. */
#ifndef QCI_LENGTH_UNITS_H
#define QCI_LENGTH_UNITS_H

#include <quiltcut/length.h>

/* One of a unit. */
qc_length qci_units_one(qc_units units);
/* "in", "cm" or "mm". */
const char *qci_units_name(qc_units units);

/* Room for any length as text, with its unit and the final NUL. */
#define QCI_LENGTH_TEXT 48

/* As qc_length_format(), then a space and the unit: "4 1/2 in". */
int qci_length_format_unit(qc_length length, qc_units units, char *buffer,
                           size_t size);

/* Writes an exact decimal of QC_MM, QC_CM or QC_M, no unit appended. */
int qci_length_format_metric(qc_length length, qc_length one, char *buffer,
                             size_t size);

#endif
