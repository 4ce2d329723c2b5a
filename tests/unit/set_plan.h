/* A plan of one strip set: worked out by hand, steps and all, for the tests of
 * the replay. In eighths of an inch: two fabrics, 320
 * wide; the lower strip of each set is cut 24 high, the upper one 16, the seam
 * takes 2 of each cloth, so they are 36 high when sewn. Cuts
 * at 45 degrees lean by 36 and lie 16 apart square to them: 16 sqrt2 along the
 * strips, 574736.4 units, to an even number and two more 574740. The upper
 * strip is stepped along by 24 less both seams, 20: then a cut from the lower
 * strip's very end still goes through the upper one, and what k cuts more take
 * of the lower strip is k times that and 24. Of 20 segments 13 are of a full
 * set, 7 of a shorter one. */
#ifndef QC_TEST_SET_PLAN_H
#define QC_TEST_SET_PLAN_H

#include "plan/plan.h"

#define E(eighths) ((qc_length)(eighths)*QC_INCH / 8)
#define NONE QC_NONE
#define STEPS 17
#define PITCH INT64_C(574740)
#define FULL (13 * PITCH + E(24))
#define PART (7 * PITCH + E(24))

typedef struct paper {
    qc_plan plan;
    qci_plan_fabric fabrics[2];
    qc_plan_piece pieces[4]; /* full and part of the first fabric, then those of
                                the second */
    qci_plan_set set;
    qc_set_strip strips[2];
    qc_step steps[STEPS];
    uint32_t step_count;
} paper;

/* `left` leaning: all along the strips is as in a mirror, but their length. */
void write_plan(paper *p, bool left);

#endif
