/* What the tests of the cut order share. Lengths are in units of 1/8 micrometre
 * (in = 203 200), with roots to the next even number as the geometry rounds
 * them:
 *   45 degrees, strips of 3 in: lean 609 600, pitch 3 sqrt2 in = 862 104.6, cut
 *   as 862 108;
 *   60 degrees, strips of 3 in: lean 3 / sqrt3 in = 351 954, twice that the
 *   triangle's side. */
#ifndef QC_TEST_ORDER_EXPECT_H
#define QC_TEST_ORDER_EXPECT_H

#include "plan/plan.h"

#define PITCH_45 862108
#define LEAN_60 351954
#define N QC_NONE

/* A step's numbers, without those that follow from its place. */
typedef struct order_expected {
    qc_step_kind kind;
    uint32_t part_in, part_out, piece;
    qc_length distance, lean, along;
    int64_t copies;
    uint32_t layers, repeat;
    int64_t cuts, yield, total;
} order_expected;

/* Finishes a plan made by hand and gives it its steps. */
void order_plan(qc_plan *plan, qc_length keep);

void order_expect_step(const qc_step *step, const order_expected *wanted);
void order_expect_steps(const qc_plan *plan, const order_expected *steps,
                        size_t count);
#define EXPECT_STEPS(plan, steps)                                              \
    order_expect_steps(plan, steps, sizeof(steps) / sizeof(steps)[0])

/* `text` with left and right exchanged; to be freed. */
char *order_mirrored(const char *text);
/* The sentences of all steps. */
void order_expect_texts(const qc_plan *plan, const char *const *texts);
const char *order_text(const qc_plan *plan, size_t step);
/* The sentence of a step for the right hand; and for the left hand the same
 * with left and right exchanged. */
void order_expect_text(qc_plan *plan, size_t step, const char *text);

/* A diamond of 45 degrees for strips 3 in high, that leans as `hand` says, and
 * a half-square triangle with legs of 3 in. */
uint32_t order_rhomb(qc_plan *plan, const char *id, qc_hand hand);
uint32_t order_half_square(qc_plan *plan, const char *id);

#endif
