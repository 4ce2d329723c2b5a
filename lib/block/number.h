/* Exact numbers: whole + root x sqrt(radicand), the radicand being 2 or 3.
 *
 * What a block's coordinates are measured in is chosen so that both parts stay
 * within QCI_NUMBER_MAX; then products of two differences, and sums of a few of
 * them, fit in 64 bits, and every sign is exact. */
#ifndef QCI_BLOCK_NUMBER_H
#define QCI_BLOCK_NUMBER_H

#include <quiltcut/block.h>

#include "shape/fixed.h"

#define QCI_NUMBER_MAX ((int64_t)1 << 24)

static inline qc_block_number qci_plus(qc_block_number a, qc_block_number b)
{
    return (qc_block_number){a.whole + b.whole, a.root + b.root};
}

static inline qc_block_number qci_minus(qc_block_number a, qc_block_number b)
{
    return (qc_block_number){a.whole - b.whole, a.root - b.root};
}

static inline qc_block_number qci_product(qc_block_number a, qc_block_number b,
                                          int64_t radicand)
{
    return (qc_block_number){a.whole * b.whole + radicand * a.root * b.root,
                             a.whole * b.root + a.root * b.whole};
}

static inline bool qci_same(qc_block_number a, qc_block_number b)
{
    return a.whole == b.whole && a.root == b.root;
}

/* -1, 0 or 1; both parts within 2^61. */
int qci_sign(qc_block_number n, int64_t radicand);

static inline int qci_order(qc_block_number a, qc_block_number b,
                            int64_t radicand)
{
    return qci_sign(qci_minus(a, b), radicand);
}

/* An edge or any other difference of points. */
static inline qc_block_point qci_from_to(qc_block_point a, qc_block_point b)
{
    return (qc_block_point){qci_minus(b.x, a.x), qci_minus(b.y, a.y)};
}

/* Products of two vectors; in squares of the coordinates' unit. */
qc_block_number qci_cross(qc_block_point u, qc_block_point v, int64_t radicand);
qc_block_number qci_dot(qc_block_point u, qc_block_point v, int64_t radicand);

/* Where c lies of the line from a to b: 1 left of it, 0 on it, -1 right. */
int qci_side_of(qc_block_point a, qc_block_point b, qc_block_point c,
                int64_t radicand);

/* size x n / divisor, to a hundred-thousandth of a length or better; of a sum
 * of products the divisor is a square. */
qci_fine qci_number_fine(qc_block_number n, int64_t radicand, qc_length size,
                         int64_t divisor);

/* size x sqrt(n) / divisor, for n >= 0. */
qci_fine qci_root_fine(qc_block_number n, int64_t radicand, qc_length size,
                       int64_t divisor);

#endif
