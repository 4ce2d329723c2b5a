/* GLPK behind one door: linear programs that grow by columns, and small integer
 * programs. Numbers that come out are claims in floating point; who uses them
 * for a proof checks them again in integers.
 *
 * All of it runs on a thread that called qci_mip_thread_begin(). GLPK's fatal
 * errors are caught: the call returns QC_STATUS_SOLVER or QC_STATUS_NO_MEMORY,
 * and from then on every object of that thread is dead (calls on it return the
 * same status; destroying it is still required and safe). */
#ifndef QCI_MIP_MIP_H
#define QCI_MIP_MIP_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/status.h>

/* Opens the calling thread's own GLPK environment, with hooks and a memory cap.
 * The thread must be one of the library's: QC_STATUS_SOLVER when it has used
 * GLPK before. Where GLPK keeps one environment for the whole process, a
 * process lock is held until _end(). */
qc_status qci_mip_thread_begin(qc_error *err);
void qci_mip_thread_end(void);

/* What ends a solve early; both may be asked often. */
typedef struct qci_mip_stop {
    int64_t deadline_ms;           /* on qci_clock_ms(); INT64_MAX = none */
    bool (*cancelled)(void *user); /* NULL: never */
    void *user;
} qci_mip_stop;

typedef enum qci_lp_state {
    QCI_LP_OPTIMAL,
    QCI_LP_INFEASIBLE,
    QCI_LP_STOPPED, /* deadline or cancel */
    QCI_LP_STUCK    /* the stall ladder was climbed to no avail, or there is no
                       lower end to the objective */
} qci_lp_state;

/* Minimise cost x, row_lo <= A x <= row_hi, lo <= x <= hi. Bounds may be
 * -INFINITY or INFINITY; lo > hi, NaN and infinite coefficients are refused
 * with QC_STATUS_SOLVER, as is every wrong index: a fault of the library, not
 * of the job. Rows and columns count from 0. */
typedef struct qci_lp qci_lp;

qc_status qci_lp_create(qci_lp **out, qc_error *err);
void qci_lp_destroy(qci_lp *lp);
/* A row with the given coefficients in the `n` columns that exist already. */
qc_status qci_lp_add_row(qci_lp *lp, double lo, double hi, int n,
                         const int *columns, const double *values,
                         qc_error *err);
qc_status qci_lp_add_column(qci_lp *lp, double cost, double lo, double hi,
                            int n, const int *rows, const double *values,
                            qc_error *err);
qc_status qci_lp_bound_row(qci_lp *lp, int row, double lo, double hi,
                           qc_error *err);
qc_status qci_lp_bound_column(qci_lp *lp, int column, double lo, double hi,
                              qc_error *err);
qc_status qci_lp_set_cost(qci_lp *lp, int column, double cost, qc_error *err);
/* Deletes the columns whose flag is set; the others close up in order. */
qc_status qci_lp_delete_columns(qci_lp *lp, const bool *flags, qc_error *err);
int qci_lp_row_count(const qci_lp *lp);
int qci_lp_column_count(const qci_lp *lp);
/* Solves from the last basis. Never hangs: iteration limits with the ladder
 * warm dual or primal -> primal with the textbook ratio test -> advanced basis
 * -> standard basis with textbook pricing. */
qc_status qci_lp_solve(qci_lp *lp, const qci_mip_stop *stop,
                       qci_lp_state *state, qc_error *err);
/* Of the last solve, if that was optimal, for lines it knew; else 0. */
double qci_lp_objective(const qci_lp *lp);
double qci_lp_row_dual(const qci_lp *lp, int row);
double qci_lp_column_value(const qci_lp *lp, int column);
double qci_lp_reduced_cost(const qci_lp *lp, int column);

typedef struct qci_mip_model {
    int row_count, column_count;
    const double *row_lo, *row_hi;
    const double *cost, *lo, *hi;
    const bool *integer;
    /* Column j has entries start[j] .. start[j + 1] - 1. */
    const int *start;
    const int *row;
    const double *value;
} qci_mip_model;

typedef struct qci_mip_limits {
    int32_t nodes;   /* branch-and-bound nodes; the deterministic limit */
    int32_t time_ms; /* a guard against slow nodes; 0 = ten minutes. One node
                        of thousands of columns can overrun it by some tenths
                        of a second */
    bool first;      /* the first solution found is enough */
    qci_mip_stop stop;
} qci_mip_limits;

typedef enum qci_mip_state {
    QCI_MIP_OPTIMAL,    /* GLPK says so, in floating point */
    QCI_MIP_FEASIBLE,   /* a solution, ended early */
    QCI_MIP_INFEASIBLE, /* GLPK says so, in floating point */
    QCI_MIP_UNKNOWN     /* ended early with nothing */
} qci_mip_state;

/* Solves with MIR cuts, GLPK's own branching and best-bound backtracking. `x`
 * has column_count places and is filled in the first two states: integers
 * rounded, and the rows checked again after that. `bound` (may be NULL) is
 * GLPK's own, INFINITY when infeasible, -INFINITY when there is none. A
 * fraction as the bound of an integer column is QC_STATUS_SOLVER. */
qc_status qci_mip_solve(const qci_mip_model *model,
                        const qci_mip_limits *limits, double *x, double *bound,
                        qci_mip_state *state, qc_error *err);

#endif
