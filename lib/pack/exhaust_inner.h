/* What the parts of the exhaustive search share. */
#ifndef QCI_PACK_EXHAUST_INNER_H
#define QCI_PACK_EXHAUST_INNER_H

#include "pack/exhaust.h"

/* A set-up that may go first. */
typedef struct qci_option {
    int64_t worth; /* of what it cuts */
    int32_t at, times;
} qci_option;

/* A pattern that there is still spare for. */
typedef struct qci_candidate {
    int32_t at, low, top; /* fewest and most strips */
    int64_t worth;        /* of what `top` strips cut */
} qci_candidate;

/* What is kept for each number of set-ups still to choose. */
typedef struct qci_exhaust_level {
    int64_t *left;   /* per row */
    int64_t *weight; /* per row: of a piece; see exhaust_lp.c */
    int64_t charge;  /* on a unit of height */
    int64_t need;    /* what all set-ups weigh; 0 or less tells nothing */
    QCI_VEC(qci_candidate) candidates;
    QCI_VEC(qci_option) options;
} qci_exhaust_level;

typedef struct qci_exhausting {
    const qci_every *every;
    const qci_master *master;
    const qci_model *model;
    int32_t *held;             /* [pattern][row] */
    QCI_VEC(qci_count) counts; /* the same, one pattern after the other... */
    size_t *begin;             /* per pattern: where, and where the last ends */
    int64_t *height;           /* per pattern */
    int64_t *waste;            /* per pattern: of a strip in full use */
    bool *used;                /* per pattern: among those chosen */
    size_t *first; /* per pattern: place of its first number of strips in... */
    bool *done;    /* by pattern and number of strips: looked at */
    int64_t *high; /* [rule][count]: the most that patterns cut, rising */
    int64_t *others; /* per rule: what all but one can cut */
    qci_exhaust_level levels[QCI_SETUPS_LIMIT + 2]; /* the last: all patterns */
    qci_setup *setups;
    const qci_task *task;
    int64_t work;
    bool stopped;
    qc_status status;
    qc_error *err;
} qci_exhausting;

/* Pieces of each row in a strip of a pattern. */
static inline const int32_t *qci_exhaust_held(const qci_exhausting *s,
                                              int32_t at)
{
    return s->held + (size_t)at * (size_t)s->model->row_count;
}

/* The rows that a pattern has pieces of are from here to before that of the
 * next pattern. */
static inline const qci_count *qci_exhaust_counts(const qci_exhausting *s,
                                                  int32_t at)
{
    return s->counts.at + s->begin[at];
}

/* What `times` strips cut of what is left, in worth. */
int64_t qci_exhaust_worth(const qci_exhausting *s, const int64_t *left,
                          int32_t at, int64_t times);

/* --- exhaust_sift.c ------------------------------------------------------- */

/* Gathers the patterns that may be among the last `count` set-ups, from those
 * of the level above. False when they cannot cut what is left, which is worth
 * `worth`, or memory is out. */
bool qci_exhaust_sift(qci_exhausting *s, int32_t count, int64_t worth,
                      int64_t spare);
/* Lists what to try: options of which one is in every answer. */
void qci_exhaust_list(qci_exhausting *s, int32_t count, int64_t worth);

/* --- exhaust_lp.c --------------------------------------------------------- */

/* Leaves out the candidates that are too light. False when `count` set-ups
 * cannot weigh enough, or memory is out. */
bool qci_exhaust_weigh(qci_exhausting *s, int32_t count, int64_t worth,
                       int64_t spare);
/* The candidate with the numbers of strips that weigh `least` or more. */
qci_candidate qci_exhaust_heavy(qci_exhausting *s, int32_t count,
                                qci_candidate c, int64_t least);

#endif
