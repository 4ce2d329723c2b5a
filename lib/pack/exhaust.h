/* The fewest set-ups, by trying all. */
#ifndef QCI_PACK_EXHAUST_H
#define QCI_PACK_EXHAUST_H

#include "pack/every.h"

#define QCI_SETUPS_LIMIT 24 /* most that are asked for */

/* A set-up: strips of a pattern of the list. */
typedef struct qci_setup {
    int32_t at; /* in the list */
    int64_t times;
} qci_setup;

typedef enum qci_answer {
    QCI_ANSWER_NO, /* proved */
    QCI_ANSWER_YES,
    QCI_ANSWER_OPEN /* work or time has run out */
} qci_answer;

typedef struct qci_task {
    const int64_t *left;  /* per row: pieces to cut */
    const int64_t *whole; /* per row: most that set-ups may cut without their
                             last strips, so that the surplus can be left out
                             of those */
    int64_t spare;        /* waste that there is room for */
    int32_t count;        /* of set-ups, at most QCI_SETUPS_LIMIT */
} qci_task;

/* Are so many set-ups of the list enough? They are written to `setups` if so;
 * those that are not needed have no strips. "No" is said of the patterns in the
 * list. `work` is how much may be done, and is lowered by what was. */
qc_status qci_exhaust(const qci_every *every, const qci_master *master,
                      const qci_task *task, int64_t *work, qci_setup *setups,
                      qci_answer *answer, qc_error *err);

#endif
