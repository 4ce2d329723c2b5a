/* Branch and bound over the master program. */
#ifndef QCI_PACK_SEARCH_H
#define QCI_PACK_SEARCH_H

#include "pack/master.h"
#include "pack/trace.h"

/* What would be better than what is known. */
typedef struct qci_aim {
    /* The largest total height (scaled) that would improve on `height`; below 0
     * when nothing could. */
    int64_t (*cap)(int64_t height, void *user);
    /* The same for what is asked next, of the same tree: nowhere below the
     * first. NULL: nothing. */
    int64_t (*then)(int64_t height, void *user);
    /* Told when best or bound changed; may be NULL. */
    void (*news)(int64_t height, int64_t bound, void *user);
    void *user;
    int64_t rounds;   /* linear programs to spend on each of both: the
                         deterministic limit */
    qci_trace *trace; /* empty, receives the tree; NULL: nobody wants it */
} qci_aim;

/* Improves `best` (which must hold a solution) until nothing better exists,
 * or the rounds are spent, or the watch ends it. `bound`: no solution is lower
 * (scaled); it is above the last cap(best) exactly when the search ended by
 * proof.
 * `best` may also become lower without improving, where that was met with.
 * Starts from the master's class bounds as they are, and restores them. */
qc_status qci_search(qci_master *master, const qci_aim *aim, qci_solution *best,
                     int64_t *bound, qc_error *err);

#endif
