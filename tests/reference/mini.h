/* A job in the smallest form a peer needs: one fabric, rectangles, integers.
 * Shared by the tests and drivers that hold the library against other solvers;
 * nothing here is taken from the library's own packing. */
#ifndef QCT_MINI_H
#define QCT_MINI_H

#include <stdio.h>

#include <quiltcut/quiltcut.h>

#define MINI_MAX_PIECES QC_MAX_PIECES

typedef struct mini_piece {
    qc_length across, along;
    int64_t count;
    qc_grain grain;
} mini_piece;

typedef struct mini_job {
    qc_length width;
    qc_print print;
    int stages;
    bool no_trim;
    qc_length square_up, step;
    int32_t shrink; /* hundredths of a per cent */
    qc_length ruler;
    int32_t time_limit_ms;
    qc_goal goals[QC_GOAL_COUNT];
    size_t goal_count; /* 0: the library's default */
    mini_piece pieces[MINI_MAX_PIECES];
    size_t piece_count;
} mini_job;

/* Inches, plain cloth, three stages, no allowances, 1/8 yd, 60 s. */
void mini_init(mini_job *job);
void mini_add(mini_job *job, qc_length across, qc_length along, int64_t count);
/* Goals from letters: b bought, u used, m money, s setups, c cuts, l leftover.
 * @return false for any other letter. */
bool mini_goals(mini_job *job, const char *letters);
/* Reads one job from a line of numbers:
 *   name width print stages no_trim square_up step shrink ruler limit_ms
 *   goals n, then n times: across along count grain
 * All lengths in units of 1/8 micrometre; print and grain as numbers of their
 * enumerations; goals as letters, "-" = default.
 * @return 1 for a job, 0 at the end, -1 for anything else. */
int mini_read(FILE *file, char name[64], mini_job *job);
/* Pieces are named P0, P1, ... in their order. */
qc_status mini_create(const mini_job *job, qc_job **out, qc_error *err);
/* mini_create() and qc_job_solve() on `threads` threads. */
qc_status mini_solve(const mini_job *job, int threads, qc_plan **out,
                     qc_error *err);

/* Whether the piece may lie as given, or quarter-turned, on this fabric. */
bool mini_may_lie(const mini_job *job, size_t piece, bool turned);
/* The least multiple of the step that, shrunk, still gives `used`. */
qc_length mini_bought(const mini_job *job, qc_length used);
/* What one size to a strip uses and buys, every piece as given if it fits so.
 */
qc_length mini_hand_used(const mini_job *job);
qc_length mini_hand_method(const mini_job *job);

/* Reads the plan of a mini job strip by strip and checks it against the
 * definition: widths, heights, stacks, turns, trims, counts, lengths, bounds.
 * @return NULL, or what is wrong (static text). */
const char *mini_check(const mini_job *job, const qc_plan *plan);

/* A small seeded generator, the same on every machine (splitmix64, by
 * S. Vigna, public domain algorithm). */
typedef struct mini_random {
    uint64_t state;
} mini_random;
uint64_t mini_next(mini_random *random);
/* Uniform in lo .. hi. */
int64_t mini_between(mini_random *random, int64_t lo, int64_t hi);

#endif
