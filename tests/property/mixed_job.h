/* Random jobs that mix everything a piece can be, as JSON: all shapes, prints,
 * hands, tips, facings, grains, trims, joins, strip sets. */
#ifndef MIXED_JOB_H
#define MIXED_JOB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/quiltcut.h>

#define MIXED_PIECES 5

/* One piece as it was asked for. */
typedef struct mixed_piece {
    char id[8];
    char json[600];
    bool handed; /* left and right, in place of count */
    bool joined; /* of several pieces, which are not counted here */
    int64_t count, left, right;
    int64_t yields; /* most pieces that one cut-out form gives */
} mixed_piece;

typedef struct mixed_job {
    int64_t scale; /* all lengths are so many times as long */
    bool reversible;
    char fabric[300];
    char options[300];
    char set[600]; /* "" if there is none */
    mixed_piece pieces[MIXED_PIECES];
    size_t piece_count;
} mixed_job;

/* The same job for the same seed, but for its lengths, which follow `scale`. */
void mixed_make(mixed_job *job, uint64_t seed, int64_t scale);

/* As JSON, the pieces from number `first` on, round to the one before it. */
void mixed_write(const mixed_job *job, size_t first, char *to, size_t size);

/* NULL, or what is wrong with the counts of a plan: static text. */
const char *mixed_check(const mixed_job *job, const qc_plan *plan);

#endif
