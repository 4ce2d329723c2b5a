/* The master program over the patterns found so far, and column generation.
 *
 * Rows: a demand row per piece type (at least so many pieces); a class row per
 * strip height k (the strips of class k are those of class k or higher, less
 * those of class k + 1 or higher; how many these are, between lo and hi, are
 * columns, so that a pattern stands in one class row); count rows
 * (between lo and hi strips with at least `at` pieces of one type). Bounds on
 * the last two are what branching and cuts change.
 *
 * Every bound that leaves this file is safe: duals are rounded to integers,
 * each class's most valuable pattern is found exactly, and the dual value is
 * scaled down (Farley) until no pattern breaks it. GLPK's own objective value
 * is never used as a proof. */
#ifndef QCI_PACK_MASTER_H
#define QCI_PACK_MASTER_H

#include "mip/mip.h"
#include "pack/oracle.h"
#include "pack/pack.h"
#include "pack/solution.h"

/* Walks for bounds that close nodes, also where nothing is left to branch on,
 * and for dives. */
#define QCI_LONGEST_WALK 1000000
#define QCI_LONG_WALK 60000
#define QCI_DIVE_WALK 300

#define QCI_MANY (INT64_C(1) << 40) /* no upper bound */

typedef struct qci_count_row {
    int32_t row;
    int32_t at;
    int64_t lo, hi;
} qci_count_row;

/* The duals that gave the best bound of the last column generation. */
typedef struct qci_noted {
    int64_t *value; /* per row */
    int64_t *gain;  /* per class: of it and all lower ones */
    QCI_VEC(qci_bonus) bonus;
} qci_noted;

typedef struct qci_master {
    const qci_model *model;
    const qci_watch *watch;
    qci_oracle *oracle;
    qci_lp *lp;
    QCI_VEC(qci_pattern *) pool; /* every pattern ever found; owned */
    QCI_VEC(bool) inside;        /* pattern by pattern: it is a column */
    /* LP columns from `listed` on: pool index, or -1 for a helper. */
    QCI_VEC(int32_t) columns;
    QCI_VEC(bool) shut; /* column by column: holds more than the limits allow */
    int32_t helpers;    /* columns of the first rows */
    int32_t listed;     /* after them, the class counts */
    int64_t *need;      /* per row: pieces that are still to be cut */
    int64_t *limit;     /* per row: most of them in one pattern */
    int64_t *class_lo, *class_hi;
    QCI_VEC(qci_count_row) counts; /* by LP row */
    double helper_cost;
    int32_t longest_walk; /* nodes that pricing may spend on one class */
    int64_t rounds;       /* linear programs solved: the deterministic clock */
    /* Scratch of pricing. */
    int64_t *value, *threshold, *best, *gain;
    qci_bonus *bonus;
    size_t bonus_room;
    int32_t bonus_count;
    qci_noted noted;
    int32_t shift;
    int32_t next_class; /* that pricing begins with */
    int32_t found;
    bool failed;
} qci_master;

qc_status qci_master_create(const qci_model *model, const qci_watch *watch,
                            qci_master **out, qc_error *err);
void qci_master_destroy(qci_master *master);

/* Has the watch ended the solve? */
bool qci_master_stopped(const qci_master *master);

/* Puts a pattern into the pool and the program, unless it is there. Takes the
 * pattern in any case; *kept receives the one in the pool. */
qc_status qci_master_add(qci_master *master, qci_pattern *pattern,
                         const qci_pattern **kept, qc_error *err);
/* Makes a column of a pattern of the pool that is none. */
qc_status qci_master_list(qci_master *master, int32_t pool, qc_error *err);
/* Does the pattern hold no more of any row than its limit? */
bool qci_master_within(const qci_master *master, const qci_pattern *pattern);
/* A count row for `row` and `at`, made if need be. */
qc_status qci_master_count_row(qci_master *master, int32_t row, int32_t at,
                               int32_t *index, qc_error *err);
/* Hands need, class and count bounds over to the LP, and shuts the columns of
 * patterns that hold more of a row than its limit. */
qc_status qci_master_apply(qci_master *master, qc_error *err);

/* Solves the program with the columns that it has. */
qc_status qci_master_solve(qci_master *master, bool *solved, qc_error *err);

typedef enum qci_cg_end {
    QCI_CG_CONVERGED, /* no pattern improves the program */
    QCI_CG_PRUNED,    /* the bound passed the cap */
    QCI_CG_LIMIT,     /* the rounds given were used up */
    QCI_CG_STOPPED    /* by the watch, or by a stuck LP */
} qci_cg_end;

/* Generates columns for at most `rounds` rounds or until the bound exceeds
 * `cap`. `bound` is raised to the best safe bound on the total height of strips
 * that meet need and bounds. */
qc_status qci_master_generate(qci_master *master, int64_t cap, int32_t rounds,
                              int64_t *bound, qci_cg_end *end, qc_error *err);

/* Values of the last LP: of column j (columns.count of them); 0 for noise and
 * for helpers, whose pattern is NULL. */
double qci_master_use(const qci_master *master, size_t j);
const qci_pattern *qci_master_pattern(const qci_master *master, size_t j);
/* How far the helper columns still stand in for patterns. */
double qci_master_shortfall(const qci_master *master);

#endif
