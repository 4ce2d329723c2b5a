/* What the parts of branch and bound share. */
#ifndef QCI_PACK_SEARCH_INNER_H
#define QCI_PACK_SEARCH_INNER_H

#include "pack/search.h"

typedef struct qci_node {
    int64_t bound;
    int32_t depth;
    int32_t trace;    /* its node of the trace */
    bool hopeless;    /* the program of the node before is past the cap, though
                         no bound proves it */
    int64_t *lo, *hi; /* per class; hi follows lo in one block */
    QCI_VEC(qci_count_row) counts;
} qci_node;

typedef struct qci_searching {
    qci_master *master;
    qci_aim aim;
    qci_solution *best;
    qci_solution near; /* the lowest known; above the cap, or the best */
    uint64_t seed;     /* of what is renewed in it */
    int64_t renewing;  /* linear programs spent so */
    int64_t cornering; /* what making the program whole took, counted so */
    int64_t cap;
    int64_t floor; /* least bound of nodes given up */
    int64_t end_round;
    int32_t visited;
    int32_t wide_at;   /* nodes visited before the next wide program */
    int32_t corner_at; /* the same before the program is made whole again */
    int32_t plunge;    /* nodes since one of the best bound */
    size_t parked;     /* open nodes but the children of the one in hand */
    QCI_VEC(qci_node) nodes;
    QCI_VEC(qci_node) later; /* closed by the first cap, open by the next */
} qci_searching;

/* Are the rounds spent, or has the watch ended it? */
bool qci_search_over(const qci_searching *s);
/* Solves the LP of the node that was entered; raises *bound. */
qc_status qci_search_settle(qci_searching *s, int64_t *bound, qci_cg_end *end,
                            qc_error *err);

/* --- search_node.c ------------------------------------------------------- */

/* A node without rules but the master's; false when memory is out. */
bool qci_node_root(const qci_searching *s, qci_node *out);
/* A node below `from`, with its rules as yet; false when memory is out. */
bool qci_node_child(const qci_searching *s, const qci_node *from,
                    qci_node *out);
void qci_node_clear(qci_node *n);
/* Hands a node's bounds to the master. Count rows of other branches are free.
 */
qc_status qci_node_enter(qci_searching *s, const qci_node *n, qc_error *err);
/* Two children: below and above `at`. `cls` >= 0: a class, else `count`. */
qc_status qci_node_branch(qci_searching *s, const qci_node *n, int32_t cls,
                          qci_count_row count, double at, qc_error *err);

/* --- search_plans.c ------------------------------------------------------ */

/* Offers the LP's solution as it stands, if it is a whole one. */
qc_status qci_search_take_whole(qci_searching *s, qc_error *err);
/* Dives, at the root several, and below it a restricted program. The master's
 * LP must be the node's; it is so again after, unless there is nothing left to
 * look for. */
qc_status qci_search_for_plans(qci_searching *s, const qci_node *n,
                               qc_error *err);
/* Takes a solution over as the best, or as the lowest known, if it is. */
qc_status qci_search_offer(qci_searching *s, const qci_solution *solution,
                           qc_error *err);
/* Is there still something to look for at a node of this bound? */
bool qci_search_go_on(const qci_searching *s, int64_t bound);

/* --- search_corner.c ----------------------------------------------------- */

/* The program in hand, which must be without rules, made whole quickly. */
qc_status qci_search_corner(qci_searching *s, qc_error *err);
/* The same with ever more work, for as long as node n is open; says when next.
 */
qc_status qci_search_corners(qci_searching *s, const qci_node *n,
                             qc_error *err);

#endif
