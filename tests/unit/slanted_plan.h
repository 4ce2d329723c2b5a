/* A plan built by hand in which everything occurs that slants: hands, twins,
 * pairs, alternate turns, outlines, triangles from squares and singly, and
 * strip sets in both hands. Strips, sets and sizes are true to each other; the
 * steps only show one of each kind, and their sentences are made up. */
#ifndef QC_TEST_SLANTED_PLAN_H
#define QC_TEST_SLANTED_PLAN_H

#include "plan/plan.h"

/* The pieces, in this order. */
enum {
    BLADE_RIGHT,
    BLADE_LEFT,
    BANK,
    HEART,
    STAR,
    REED_RIGHT, /* strips of the sets, each followed by that of the shorter set
                 */
    REED_LEFT = REED_RIGHT + 2,
    SKY = REED_LEFT + 2,
    SAND_RIGHT,
    SAND_LEFT = SAND_RIGHT + 2
};

qc_plan *slanted_plan(void);

#endif
