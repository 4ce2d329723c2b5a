/* The program's solution made whole by few other strips. */
#ifndef QCI_PACK_CORNER_H
#define QCI_PACK_CORNER_H

#include "pack/every.h"

/* Levels of work, from 0 on. Each takes some four times as long as the one
 * before. */
#define QCI_CORNER_LEVELS 5

typedef struct qci_corner_plan {
    int64_t cap;            /* only solutions up to this height count */
    const qci_every *every; /* patterns besides those of the pool; or NULL */
    int32_t level;
    uint64_t turn; /* another one looks at another part of all choices */
} qci_corner_plan;

/* The lowest solution met with within the cap, or `out` stays empty. The
 * program must be solved, without rules; it may get columns more. */
qc_status qci_corner(qci_master *master, qci_corner_plan plan,
                     qci_solution *out, qc_error *err);

#endif
