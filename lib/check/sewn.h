/* Strips that are sewn side by side, and the cuts across them. */
#ifndef QCI_CHECK_SEWN_H
#define QCI_CHECK_SEWN_H

#include "check/instructions.h"

typedef struct qci_sewn_strip {
    uint32_t name; /* of the cloth that it is */
    uint32_t fabric;
    qc_length width;
    qc_length left, right; /* ends, from the first strip's left end */
} qci_sewn_strip;

/* Strips from the lower edge up, and the last cut across them. */
typedef struct qci_sewn {
    qci_sewn_strip strips[QC_MAX_SET_STRIPS];
    size_t count;
    uint32_t step;    /* that sews it */
    qc_length seam;   /* allowance */
    qc_length height; /* from raw edge to raw edge */
    bool begun;       /* there was a cut */
    qc_length at;     /* its lower end */
    qc_length lean;   /* of it, to the right going up */
} qci_sewn;

/* Cuts at the same distance across a set. */
typedef struct qci_across {
    qc_length lean;
    qc_length pitch; /* along the strips */
} qci_across;

/* Sews a strip on; the first one's left end is at 0, whatever `left`. */
void qci_sewn_add(qci_sewn *set, qci_sewn_strip strip);

qci_across qci_across_of(const qci_instruction *step, const qci_sewn *set);

/* How many segments the set gives. */
int64_t qci_sewn_fits(const qci_sewn *set, qci_across cut);
/* Cuts so many of them off. */
void qci_sewn_cut(qci_sewn *set, qci_across cut, int64_t count);

#endif
