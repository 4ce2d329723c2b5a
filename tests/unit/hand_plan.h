/* Plans built by hand, element after element, for the tests of the rooms that
 * read plans. Everything is asserted to succeed; qc_plan_destroy() ends a
 * plan. */
#ifndef QC_TEST_HAND_PLAN_H
#define QC_TEST_HAND_PLAN_H

#include "plan/plan.h"

/* A length of `eighths` eighths of an inch. */
#define EIGHTHS(eighths) ((qc_length)(eighths)*QC_INCH / 8)
#define INCHES(inches) ((qc_length)(inches)*QC_INCH)

/* An empty plan in inches, ruler 1/8, seam 1/4, piles of 4. */
qc_plan *hand_plan(void);
/* Adds a plain fabric without shrinkage, sold by the 1/8 yard; what follows
 * belongs to it. */
void hand_fabric(qc_plan *plan, const char *name, qc_length width,
                 qc_length square_up);
/* Adds a piece of the last fabric; returns its index. */
uint32_t hand_piece(qc_plan *plan, const char *id, qc_length across,
                    qc_length along);
/* The same of a triangle that is cut from squares of this side. */
uint32_t hand_triangle(qc_plan *plan, const char *id, qc_length side,
                       qc_shape shape);
/* Adds a strip entry, then a subcut to it, then a run of pieces to that.
 * Widths, numbers of pieces and the length used follow. */
qc_strip *hand_strip(qc_plan *plan, qc_length height, uint32_t repeat);
void hand_subcut(qc_plan *plan, uint32_t count);
void hand_stack(qc_plan *plan, uint32_t piece, uint32_t count, qc_turn turn);
/* A subcut of `count` single pieces. */
void hand_row(qc_plan *plan, uint32_t count, uint32_t piece, qc_turn turn);
/* Adds a piece of the last fabric with these corners, counter-clockwise from
 * (0, 0), its base on y = 0; `cut` is the box round it. Returns its index. */
uint32_t hand_shape(qc_plan *plan, const char *id, qc_shape shape,
                    const qc_point *corners, size_t count);
/* A subcut of `count` sections that hold one such piece each, not turned, and
 * have these leans; `width` is theirs at half the strip's height. */
qc_subcut *hand_slanted(qc_plan *plan, uint32_t count, uint32_t piece,
                        qc_length width, qc_length first, qc_length last,
                        bool alternate);
/* Computes what must be bought, keeps leftovers of `keep` and more by `keep`
 * and more, and adds the areas up. Done last, for all fabrics. */
void hand_finish(qc_plan *plan, qc_length keep);

#endif
