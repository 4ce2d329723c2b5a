/* A proof that no plan for one fabric buys less, as plain numbers: what is to
 * be cut, and a tree that leaves no plan out. Lengths are those of the library.
 *
 * Every plan belongs to one leaf: at an inner node it is asked how many strips
 * there are of some sort, and "at most `most`" leads to `below`, more to
 * `above`. A leaf gives every piece a value and every answer on the way a
 * weight; check.c tells what follows. */
#ifndef QCI_CERTIFY_PROOF_H
#define QCI_CERTIFY_PROOF_H

#include <stdint.h>

#include <quiltcut/status.h>

#include "base/vec.h"

typedef QCI_VEC(int64_t) qci_numbers;

/* One way in which a kind of piece may lie. */
typedef struct qci_proof_form {
    int64_t kind;
    int64_t width, height; /* width at half the height */
    int64_t left, right;   /* leans of its sides; even */
    int64_t yields;        /* pieces that it becomes */
    bool outline;          /* it is trimmed to an outline afterwards */
} qci_proof_form;

/* A share of a kind's pieces, as the job names it. */
typedef struct qci_proof_piece {
    int64_t kind;
    uint32_t piece; /* index in the job; not in a proof that was read */
    char *id;
    int64_t count;
} qci_proof_piece;

typedef struct qci_proof_node {
    int64_t below, above; /* index of a node behind it; 0 in a leaf */
    bool by_height;       /* asks for strips of class `at` or higher, else for
                             strips with at least `at` pieces of `kind` */
    int64_t kind, at, most;
    qci_numbers values;  /* leaf: of a piece, per kind */
    qci_numbers weights; /* leaf: per inner node from the first one down */
} qci_proof_node;

typedef struct qci_proof {
    char *fabric;  /* its id */
    char *missing; /* why there is no proof; NULL: there is one */
    int64_t bought;
    int64_t step, shrink; /* shrink in hundredths of a per cent */
    int64_t square_up, width;
    bool stacks, trim;
    int64_t kind_count;
    QCI_VEC(qci_proof_piece) pieces;
    QCI_VEC(qci_proof_form) forms;
    qci_numbers heights; /* rising: class k holds strips from heights[k] up
                to below heights[k + 1] or the highest form */
    QCI_VEC(qci_proof_node) nodes; /* the first one is the root */
} qci_proof;

void qci_proof_clear(qci_proof *proof);
void qci_proof_destroy(qci_proof *proof);

/* Longest reason, with its end. */
#define QCI_REASON_ROOM 192

/* Does the proof hold? If not, `reason` says where it breaks.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_certify(const qci_proof *proof, bool *holds,
                      char reason[QCI_REASON_ROOM], qc_error *err);

#endif
