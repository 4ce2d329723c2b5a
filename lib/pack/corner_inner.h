/* What the parts of the corner search share. */
#ifndef QCI_PACK_CORNER_INNER_H
#define QCI_PACK_CORNER_INNER_H

#include "base/wide.h"
#include "pack/corner.h"

/* A member of the group of what the basis cannot hold in whole strips. Where
 * that is not cyclic, one number does not tell all members apart. */
#define QCI_RESIDUES 4

typedef struct qci_residue {
    int64_t part[QCI_RESIDUES]; /* from 0 on, below the modulus */
} qci_residue;

/* As many independent columns as rows: patterns, or surplus of a row. */
typedef struct qci_basis {
    int32_t count;
    const qci_pattern **pattern; /* place by place; NULL: surplus */
    int32_t *row;                /* place by place: whose surplus */
    double *inverse;             /* its rows one after the other */
    double *move;                /* place by place: scratch, and strips */
    int64_t modulus;             /* determinant; 0: none that is of use */
    qci_residue *residue;        /* per row: of a piece */
} qci_basis;

/* A strip outside the basis, or a piece of surplus. */
typedef struct qci_corner_item {
    double cost; /* reduced */
    qci_residue residue;
    int32_t row; /* of the surplus, where there is no pattern */
    const qci_pattern *pattern;
} qci_corner_item;

/* Items of a heap, at most, and lists of heaps. */
#define QCI_HEAP 4
#define QCI_LISTS 4

/* Few items, by their places in the list. */
typedef struct qci_heap {
    double cost;
    qci_residue residue;
    int32_t count;
    uint16_t item[QCI_HEAP];
} qci_heap;

/* Two heaps, of the first and the second list. */
typedef struct qci_heap_pair {
    uint64_t key; /* of its residue */
    double cost;
    int32_t a, b;
} qci_heap_pair;

typedef struct qci_cornering {
    qci_master *master;
    const qci_model *model;
    qci_corner_plan plan;
    qci_solution *out;
    qci_basis basis;
    double spare;                   /* what the cap leaves beyond the program */
    qci_residue target;             /* of all that is needed */
    QCI_VEC(qci_corner_item) items; /* cheapest first */
    QCI_VEC(qci_heap) list[QCI_LISTS];
    QCI_VEC(qci_heap_pair) pairs;
    int32_t *slots; /* of pairs: index + 1, by residue */
    int bits;
    int64_t *need;
    int64_t looks; /* at pairs, in a pass over two lists */
    int64_t work;  /* heaps, and looks */
    bool failed;   /* memory is out */
} qci_cornering;

/* a + times b */
static inline qci_residue qci_residue_plus(const qci_basis *basis,
                                           qci_residue a, qci_residue b,
                                           int64_t times)
{
    for (int i = 0; i < QCI_RESIDUES; i++)
        a.part[i] = (int64_t)((a.part[i] + (qci_wide)b.part[i] * times) %
                              basis->modulus);
    return a;
}

static inline qci_residue qci_residue_minus(const qci_basis *basis,
                                            qci_residue a, qci_residue b)
{
    for (int i = 0; i < QCI_RESIDUES; i++) {
        a.part[i] -= b.part[i];
        a.part[i] += a.part[i] < 0 ? basis->modulus : 0;
    }
    return a;
}

static inline qci_residue qci_residue_sum(const qci_basis *basis, qci_residue a,
                                          qci_residue b)
{
    for (int i = 0; i < QCI_RESIDUES; i++) {
        a.part[i] += b.part[i];
        a.part[i] -= a.part[i] >= basis->modulus ? basis->modulus : 0;
    }
    return a;
}

/* --- corner_basis.c ------------------------------------------------------ */

/* The basis of the last program; false when memory is out. */
bool qci_basis_create(qci_basis *basis, const qci_master *master);
void qci_basis_clear(qci_basis *basis);
/* Strips of each pattern of the basis, into move[], that cut just what is
 * needed, surplus included; false when they are no whole numbers, or below 0.
 */
bool qci_basis_fill(qci_basis *basis, const int64_t *need);

/* --- corner_heaps.c ------------------------------------------------------ */

/* Lists all items that there is something to spare for, and heaps of them. */
void qci_corner_list(qci_cornering *c);

#endif
