/* A proof that no plan for one fabric needs less, as plain numbers: what is to
 * be cut, and a tree that leaves no plan out. Lengths are those of the library.
 *
 * Every plan belongs to one leaf: at an inner node it is asked how many strips
 * there are of some sort; "at most `most`" leads to the node behind it, more to
 * the one behind all that belongs to that. A leaf gives every piece a value and
 * every answer on the way a weight; check.c tells what follows. */
#ifndef QCI_CERTIFY_PROOF_H
#define QCI_CERTIFY_PROOF_H

#include <stdint.h>

#include <quiltcut/status.h>

#include "base/vec.h"

/* What no number of a proof goes beyond, and no list. */
#define QCI_PROOF_LENGTH (INT64_C(1) << 35)
#define QCI_PROOF_COUNT (INT64_C(1) << 40)
#define QCI_PROOF_VALUE (INT64_C(1) << 41)
#define QCI_PROOF_YIELDS 64
#define QCI_PROOF_LIST 16384
#define QCI_PROOF_FORMS 4096              /* in a strip */
#define QCI_PROOF_CELLS ((size_t)1 << 21) /* times lines, one for each form */

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

typedef enum qci_ask {
    QCI_ASK_NOTHING, /* a leaf */
    QCI_ASK_CLASS,   /* strips of class `at` or higher */
    QCI_ASK_KIND     /* strips with at least `at` pieces of `kind` */
} qci_ask;

typedef struct qci_proof_node {
    qci_ask ask;
    int64_t kind, at, most;
    qci_numbers values;  /* leaf: of a piece, per kind */
    qci_numbers weights; /* leaf: per inner node from the first one down */
} qci_proof_node;

typedef struct qci_proof {
    char *fabric;  /* its id */
    char *missing; /* why there is no proof; NULL: there is one */
    int64_t bought;
    int64_t used;         /* not less of this either; 0: that is not shown */
    int64_t step, shrink; /* shrink in hundredths of a per cent */
    int64_t square_up, width;
    bool stacks, trim;
    int64_t kind_count;
    QCI_VEC(qci_proof_piece) pieces;
    QCI_VEC(qci_proof_form)
    forms;               /* those that stand square first, the widest
                            first; then those that lie alone */
    qci_numbers heights; /* rising: class k holds strips from heights[k] up
                to below heights[k + 1]; the last one begins none */
    int64_t cell_across, cell_along; /* that the checker counts in */
    QCI_VEC(qci_proof_node) nodes;   /* the first one is the root */
} qci_proof;

void qci_proof_clear(qci_proof *proof);
void qci_proof_destroy(qci_proof *proof);

/* It lies alone in its section, in a strip of its own height. */
static inline bool qci_proof_alone(const qci_proof_form *form)
{
    return form->left || form->right || form->outline;
}

/* Cells of a strip's width, and of its height where there are stacks. */
static inline size_t qci_proof_cells_across(const qci_proof *proof)
{
    return (size_t)(proof->width / proof->cell_across) + 1;
}

static inline size_t qci_proof_cells_along(const qci_proof *proof)
{
    return (size_t)(proof->stacks
                        ? proof->heights.at[proof->heights.count - 1] /
                              proof->cell_along
                        : 0) +
           1;
}

/* Numbers and lists within the limits above, lengths that can be, forms in
 * order: what counting on needs. NULL, or what is wrong. */
const char *qci_proof_fault(const qci_proof *proof);

/* Longest reason, with its end. */
#define QCI_REASON_ROOM 192

/* Does the proof hold? If not, `reason` says where it breaks. `*work` begins at
 * 0 and grows with every proof of a certificate: beyond a limit, some ten
 * seconds, nothing is checked any more. Takes 64 MiB at most.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_certify(const qci_proof *proof, int64_t *work, bool *holds,
                      char reason[QCI_REASON_ROOM], qc_error *err);

#endif
