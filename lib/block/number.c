/* Exact numbers with a root in them: their signs, and what they measure.
 *
 * a + b sqrt(r) with a and b of different signs is compared by its squares, in
 * 128 bits. A measure is a fixed-point number with as many binary places as the
 * size of a and b leaves: the roots of 2 and 3 are taken to 62 places. */
#include "block/number.h"

#define PLACES 62

int qci_sign(qc_block_number n, int64_t radicand)
{
    qci_wide whole = (qci_wide)n.whole * n.whole;
    qci_wide root = (qci_wide)n.root * n.root * radicand;
    int of_whole = (n.whole > 0) - (n.whole < 0);
    int of_root = (n.root > 0) - (n.root < 0);

    if (of_whole * of_root >= 0)
        return of_whole ? of_whole : of_root;
    return whole > root ? of_whole : of_root; /* never equal: irrational */
}

qc_block_number qci_cross(qc_block_point u, qc_block_point v, int64_t radicand)
{
    return qci_minus(qci_product(u.x, v.y, radicand),
                     qci_product(u.y, v.x, radicand));
}

qc_block_number qci_dot(qc_block_point u, qc_block_point v, int64_t radicand)
{
    return qci_plus(qci_product(u.x, v.x, radicand),
                    qci_product(u.y, v.y, radicand));
}

int qci_side_of(qc_block_point a, qc_block_point b, qc_block_point c,
                int64_t radicand)
{
    return qci_sign(qci_cross(qci_from_to(a, b), qci_from_to(a, c), radicand),
                    radicand);
}

/* A number and its root part both stay below 2^digits. */
static int digits_of(qc_block_number n)
{
    int64_t whole = n.whole < 0 ? -n.whole : n.whole;
    int64_t root = n.root < 0 ? -n.root : n.root;
    int digits = 1;

    for (int64_t most = whole > 2 * root ? whole : 2 * root; most; most >>= 1)
        digits++;
    return digits;
}

/* n x 2^places; digits_of(n) + places at most 126. */
static qci_wide fixed(qc_block_number n, int64_t radicand, int places)
{
    qci_wide root = qci_root((qci_wide)radicand << (2 * PLACES));

    root *= n.root;
    root = places < PLACES ? root >> (PLACES - places)
                           : root * ((qci_wide)1 << (places - PLACES));
    return n.whole * ((qci_wide)1 << places) + root;
}

/* A size is below 2^27, the product with it below 2^125. */
qci_fine qci_number_fine(qc_block_number n, int64_t radicand, qc_length size,
                         int64_t divisor)
{
    int places = 98 - digits_of(n);
    qci_wide product = fixed(n, radicand, places) * size;

    return (qci_fine)((product >> (places - QCI_FINE_BITS)) / divisor);
}

qci_fine qci_root_fine(qc_block_number n, int64_t radicand, qc_length size,
                       int64_t divisor)
{
    int half = (124 - digits_of(n)) / 2;
    qci_wide root = qci_root(fixed(n, radicand, 2 * half));

    return (qci_fine)(((root * size * QCI_FINE) >> half) / divisor);
}
