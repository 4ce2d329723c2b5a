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

/* Are `count` set-ups of the list (which must be whole) enough for all that is
 * asked for? They are written to `setups` if so; those that are not needed have
 * no strips. `work` is how much may be done, and is lowered by what was. */
qc_status qci_exhaust(const qci_every *every, const qci_master *master,
                      int32_t count, int64_t *work, qci_setup *setups,
                      qci_answer *answer, qc_error *err);

#endif
