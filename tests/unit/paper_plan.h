/* The paper plan: worked out by hand, steps and all, for the tests of the
 * replay. In inches; sizes are across x along.
 *   night, plain, 42 wide, bought 18:
 *     1/2 squared up, one strip of 6 1/2, three of 2 1/2: 14 1/2 used.
 *     The tall strip gives six A of 6 1/2 x 6 1/2 and keeps 3 x 6 1/2; each low
 *     one gives nine B of 2 1/2 x 4 1/2 lying on their side, which take
 *     40 1/2, and keeps 1 1/2 x 2 1/2. The bolt's end of 3 1/2 is kept.
 *   stripe, half turns only, 40 wide, bought 22 1/2, shrinks by 3 %:
 *     1/2 squared up, two strips of 10: 20 1/2 used of the 21.825 that stay.
 *     Each strip is four sections of 10, which reach to the right selvage and
 *     are cut free of it: one C of 10 x 4 and above it two slices of 3, each
 *     trimmed to a D of 6 x 3. Nothing is kept. */
#ifndef QC_TEST_PAPER_PLAN_H
#define QC_TEST_PAPER_PLAN_H

#include "plan/plan.h"

#define E(eighths) ((qc_length)(eighths)*QC_INCH / 8)
#define NONE QC_NONE
#define STEPS 17

enum { A, B, C, D, PIECES };

typedef struct paper {
    qc_plan plan;
    qci_plan_fabric fabrics[2];
    qc_leftover night_kept[3];
    qc_plan_piece pieces[PIECES];
    qc_step steps[STEPS];
} paper;

void write_plan(paper *p);

/* A step in the order of its numbers: not turned, no rest. */
qc_step step(qc_step_kind kind, uint32_t in, uint32_t out, uint32_t piece,
             qc_length distance, int64_t copies, uint32_t layers,
             uint32_t repeat, int64_t cuts, int64_t yield, int64_t total);

#endif
