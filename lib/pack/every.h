/* Every pattern that a solution within a height can hold. */
#ifndef QCI_PACK_EVERY_H
#define QCI_PACK_EVERY_H

#include "base/vec.h"
#include "pack/master.h"

/* Parts of a unit of height, which worth is counted in. */
#define QCI_PARTS 4096

typedef struct qci_listed {
    qci_pattern *pattern; /* owned */
    int64_t most;         /* strips of it that a solution can have */
} qci_listed;

typedef struct qci_every {
    int64_t
        *price;    /* per row: worth of a piece, in parts of a unit of height */
    int64_t spare; /* height beyond what all pieces are worth, in such parts */
    QCI_VEC(qci_listed) list;
    bool whole; /* none is missing that wastes no more than was asked for */
} qci_every;

/* Lists the patterns of solutions no higher than `cap` that waste at most
 * `waste`, which may be more than can be spared. Where they are more than
 * `limit`, or pieces lie alone, come in hands or may not be trimmed, the list
 * is empty and not whole. The linear program must be solved, without bounds:
 * its duals are the prices. */
qc_status qci_every_create(qci_every *every, const qci_master *master,
                           int64_t cap, int64_t waste, size_t limit,
                           qc_error *err);
void qci_every_clear(qci_every *every);

#endif
