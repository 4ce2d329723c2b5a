/* Purchase lengths, in integers. Lengths up to QC_LENGTH_MAX = 2^35 times 10^4
 * stay below 2^49. bought(used) <= b just when used <= covers(b), for every
 * multiple b of the step. */
#include "job/purchase.h"

#define WHOLE 10000 /* 100 % in hundredths of a per cent */

qc_length qci_purchase_covers(qci_purchase purchase, qc_length bought)
{
    return bought * (WHOLE - purchase.shrink_length) / WHOLE;
}

qc_length qci_purchase_bought(qci_purchase purchase, qc_length used)
{
    int64_t left = WHOLE - purchase.shrink_length;
    int64_t raw, steps;

    if (used > QC_LENGTH_MAX)
        return -1;
    raw = (used * WHOLE + left - 1) / left;
    steps = (raw + purchase.step - 1) / purchase.step;
    if (steps > QC_LENGTH_MAX / purchase.step)
        return -1;
    return steps * purchase.step;
}
