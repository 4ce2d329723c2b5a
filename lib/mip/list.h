/* A list of coefficients on its way to GLPK: checked, and counted from 1.
 * Inner to the room. */
#ifndef QCI_MIP_LIST_H
#define QCI_MIP_LIST_H

#include <stdbool.h>

#include <quiltcut/status.h>

/* Scratch that grows and is used again; all zero is an empty one. GLPK's n
 * entries are index[1..n], value[1..n]. */
typedef struct qci_list {
    int *index;
    double *value;
    int *mark; /* the last list (by `stamp`) that named a line */
    int room;
    int stamp;
} qci_list;

/* Makes index[0..count] and value[0..count] exist. */
bool qci_list_reserve(qci_list *list, int count);
/* Takes `n` coefficients in lines 0 .. line_count - 1. QC_STATUS_SOLVER for a
 * line that does not exist or comes twice, and for NaN and infinity. */
qc_status qci_list_take(qci_list *list, int line_count, int n, const int *lines,
                        const double *values, qc_error *err);
void qci_list_clear(qci_list *list);

/* A line's two sides: what GLPK may be given, and as what kind. Refused are
 * NaN, lo > hi, and both infinite in the same way. */
bool qci_sides_fine(double lo, double hi);
int qci_sides_kind(double lo, double hi);

/* A wrong model is a fault of the library, never of the job: SOLVER. */
qc_status qci_mip_refuse(qc_error *err, const char *what, const char *problem);

#endif
