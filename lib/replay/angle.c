/* Sine and cosine by their power series.
 *
 * The angle is reduced to a right one, so that the terms x^n / n! shrink from
 * the start; each is made of the one before, in fixed point with 60 bits, of
 * which at most one is lost a term. About 20 terms reach the last bit. */
#include "replay/angle.h"

#include <quiltcut/job.h>

#define BITS 60
#define PI INT64_C(3622009729038561421) /* times 2^60, to the nearest */

/* x - x^3/3! + ... or, from n = 0, 1 - x^2/2! + ... */
static qci_wide series(qci_wide x, qci_wide term, int n)
{
    qci_wide square = x * x >> BITS;
    qci_wide sum = 0;

    while (term != 0) {
        sum += term;
        n += 2;
        term = -((term * square >> BITS) / ((qci_wide)n * (n - 1)));
    }
    return sum;
}

qci_replay_way qci_replay_direction(int32_t angle)
{
    int32_t acute = angle > 90 * QC_DEGREE ? 180 * QC_DEGREE - angle : angle;
    qci_wide x = (qci_wide)PI * acute / ((qci_wide)180 * QC_DEGREE);
    int64_t sine = (int64_t)series(x, x, 1);
    int64_t cosine = (int64_t)series(x, (qci_wide)1 << BITS, 0);

    return (qci_replay_way){sine >> (BITS - QCI_ANGLE_BITS),
                            (acute == angle ? cosine : -cosine) >>
                                (BITS - QCI_ANGLE_BITS)};
}

int64_t qci_replay_root(qci_wide n)
{
    qci_wide root = 0;

    for (int bit = 39; bit >= 0; bit--) {
        qci_wide tried = root + ((qci_wide)1 << bit);

        if (tried * tried <= n)
            root = tried;
    }
    return (int64_t)root;
}
