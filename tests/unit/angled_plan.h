/* The angled plan: worked out by hand, steps and all, for the tests of the
 * replay. In eighths of an inch; all strips are 32 high,
 * that is 4 in, and the cloth is 320 wide.
 *   D  diamond at 45 degrees, cuts 32 apart: along the strip 32 sqrt2 =
 * 1149472.8 units, to an even number and two units more 1149476. R  rectangle
 * 40 x 32, trimmed back to 38 x 30. Z  trapezoid, sides 48 and 16, so its sides
 * lean by 16. P, Q  parallelogram at 45 degrees, cuts 16 apart: along 574740
 * units; P leans to the right, Q to the left. X  hexagon with sides of 24 on
 * the strip's edges and points 14 beyond, at half height. Cut between edges
 * that lean by 28, it takes two more cuts. T  half of a square of 32; three
 * sides to lie on, the longest being 1149474 units with the corner 574736 in
 * and up. Strip 1: three D, an R, and 248 less three times D's pitch is kept.
 * Strip 2: three Z by turns; beyond the last one's slanted edge 208 is kept.
 * Strip 3, twice, right sides together: five P and five Q. Strip 4: two X.
 * Strip 5: two squares for T, then sixteen T by turns, to the right selvage. */
#ifndef QC_TEST_ANGLED_PLAN_H
#define QC_TEST_ANGLED_PLAN_H

#include "plan/plan.h"

#define E(eighths) ((qc_length)(eighths)*QC_INCH / 8)
#define NONE QC_NONE
#define STEPS 27
#define D_PITCH INT64_C(1149476)
#define P_PITCH INT64_C(574740)
/* 52 x 32 / root(32^2 + 28^2) eighths, in units, rounded down */
#define X_APART INT64_C(994003)

enum { D, R, Z, P, Q, X, T, PIECES };

typedef struct paper {
    qc_plan plan;
    qci_plan_fabric fabric;
    qc_leftover kept[2];
    qc_plan_piece pieces[PIECES];
    qc_point outlines[PIECES][9];
    qc_step steps[STEPS + 1]; /* one more for a test to add */
    uint32_t step_count;
} paper;

void write_plan(paper *p);

/* Gives a piece `bases` outlines of so many corners. */
void put_outline(paper *p, int piece, size_t corners, const qc_point *outline,
                 size_t bases);
/* From (0, 0), `pitch` long and 32 high, leaning by `lean` going up. */
void put_slanted(paper *p, int piece, qc_length pitch, qc_length lean);

#endif
