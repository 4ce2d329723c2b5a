/* What must be bought for a length that is used. */
#ifndef QCI_JOB_PURCHASE_H
#define QCI_JOB_PURCHASE_H

#include <quiltcut/length.h>

typedef struct qci_purchase {
    qc_length step;
    int32_t shrink_length; /* hundredths of a per cent, below 100 % */
} qci_purchase;

/* The least multiple of the step that, once shrunk, is at least `used`:
 * used / (1 - shrink), rounded up. 0 for 0; -1 beyond QC_LENGTH_MAX. */
qc_length qci_purchase_bought(qci_purchase purchase, qc_length used);

/* The longest `used` that `bought` still covers. */
qc_length qci_purchase_covers(qci_purchase purchase, qc_length bought);

#endif
