/* The replay of squares that are cut corner to corner: a plan worked out on
 * paper is accepted, and every lie in it is found. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "paper_plan.h"
#include "replay_lies.h"

#define S(n) (p->steps[(n)-1])
#define F(n) (p->fabrics[n].info)

/* 40 wide, bought 4 1/2, nothing squared up: one strip of 4 gives ten squares
 * of 4 to the right selvage. Seven are for A, halved, 14 triangles; three for
 * B, quartered, 12. Ten squares have 160 square inches; two in depth, seven
 * squares are 4 piles and 4 cuts, three are 2 piles and 4 cuts. */
static void write_triangles(paper *p)
{
    write_plan(p);
    p->fabrics[0].info = (qc_plan_fabric){.usable_width = E(320),
                                          .step = E(36),
                                          .used = E(32),
                                          .bought = E(36),
                                          .cuts = 20};
    p->fabrics[0].info.area.finished = 90 * E(8) * E(8);
    p->fabrics[0].info.area.seams = 70 * E(8) * E(8);
    p->fabrics[0].info.area.scrap = 20 * E(8) * E(8);
    p->steps[0] = step(QC_STEP_STRIP, 0, 1, NONE, E(32), 1, 1, 1, 1, 1, 0);
    p->steps[1] = step(QC_STEP_SQUARE_END, 1, NONE, NONE, 0, 1, 1, 1, 1, 0, 0);
    p->steps[2] = step(QC_STEP_SUBCUT, 1, NONE, A, E(32), 1, 1, 7, 7, 7, 7);
    p->steps[3] = step(QC_STEP_SUBCUT, 1, NONE, B, E(32), 1, 1, 3, 3, 3, 3);
    p->steps[4] = step(QC_STEP_DIAGONAL, NONE, NONE, A, 0, 7, 2, 1, 4, 14, 14);
    p->steps[5] = step(QC_STEP_DIAGONAL, NONE, NONE, B, 0, 3, 2, 2, 4, 12, 12);
    for (int i = 0; i < 2; i++)
        p->pieces[i].cut[0] = p->pieces[i].cut[1] = E(32);
    p->pieces[A].shape = QC_SHAPE_HALF_SQUARE_TRIANGLE;
    p->pieces[A].count = 14;
    p->pieces[B].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    p->pieces[B].count = 12;
    for (uint32_t i = 0; i < 6; i++)
        p->steps[i].number = i + 1;
    p->plan.fabric_count = 1;
    p->plan.piece_count = 2;
    p->plan.step_count = 6;
}

static void accepts_triangles(void **state)
{
    paper p;

    (void)state;
    write_triangles(&p);
    replay_accept(&p.plan);
    /* An odd number of units: the middle of the square is not a whole one. */
    p.fabrics[0].info = (qc_plan_fabric){
        .usable_width = 50, .step = 5, .used = 5, .bought = 5, .cuts = 20};
    p.fabrics[0].info.area.finished = 250;
    p.steps[0].distance = p.steps[2].distance = p.steps[3].distance = 5;
    p.steps[2].along = p.steps[3].along = 5;
    for (int i = 0; i < 2; i++)
        p.pieces[i].cut[0] = p.pieces[i].cut[1] = 5;
    replay_accept(&p.plan);
    /* A print forbids no cut: triangles may face any way. */
    p.fabrics[0].info.print = QC_PRINT_ONE_WAY;
    replay_accept(&p.plan);
}

#define TRIANGLE_LIES(X)                                                       \
    X(never_cut, p->plan.step_count = 5, "fabrics[0]",                         \
      "3 squares of piece 1 are never cut")                                    \
    X(cut_again, (S(6) = S(5), S(6).number = 6), "step 6", "but 0 wait")       \
    X(cut_early, (S(4) = S(6), S(4).number = 4), "step 4",                     \
      "is done to 3 squares, but 0 wait")                                      \
    X(not_all, S(5).copies = 6, "step 5", "6 squares, but 7 wait")             \
    X(too_many, S(5).copies = 8, "step 5", "8 squares, but 7 wait")            \
    X(twice_for_once, S(5).repeat = 2, "step 5", "2 cuts corner to corner")    \
    X(once_for_twice, S(6).repeat = 1, "step 6", "1 cuts corner to corner")    \
    X(thrice, S(6).repeat = 3, "step 6", "3 cuts corner to corner, not 2")     \
    X(other_piece, S(5).piece = B, "step 5", "7 squares, but 3 wait")          \
    X(unknown_piece, S(5).piece = NONE, "step 5", "no piece")                  \
    X(no_triangle, p->pieces[A].shape = QC_SHAPE_SQUARE, "step 5",             \
      "piece 0 is no triangle")                                                \
    X(quarters_for_halves,                                                     \
      p->pieces[A].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE, "step 5",         \
      "1 cuts corner to corner, not 2")                                        \
    X(of_another_fabric, (p->pieces[A].fabric = 1, p->plan.fabric_count = 2),  \
      "step 3", "another fabric")                                              \
    X(facing,                                                                  \
      (p->pieces[A].facing_kept = true, F(0).print = QC_PRINT_TWO_WAY),        \
      "step 5", "the print would not face one way in piece 0")                 \
    X(leans, S(5).lean = 2, "step 5", "neither slants nor lies")               \
    X(of_a_part, S(5).part_in = 1, "step 5", "has no part, turn or ruler")     \
    X(to_a_part, S(5).part_out = 2, "step 5", "has no part, turn or ruler")    \
    X(turned, S(5).turn = QC_TURN_QUARTER, "step 5", "has no part")            \
    X(with_rest, S(5).rest_is_piece = true, "step 5", "has no part")           \
    X(with_ruler, S(5).distance = 1, "step 5", "has no part, turn or ruler")   \
    X(no_layer, S(5).layers = 0, "step 5", "0 layers, allowed 1 to 4")         \
    X(too_deep, S(5).layers = 5, "step 5", "5 layers, allowed 1 to 4")         \
    X(deeper_than_all, S(6).layers = 4, "step 6", "4 layers, allowed 1 to 3")  \
    X(deeper, S(5).layers = 4, "step 5", "makes 2 cuts, not 4")                \
    X(cut_each, S(5).cuts = 7, "step 5", "makes 4 cuts, not 7")                \
    X(one_diagonal_counted, S(6).cuts = 2, "step 6", "makes 4 cuts, not 2")    \
    X(yield_of_squares, S(5).yield = 7, "step 5", "yields 14, not 7")          \
    X(total_of_squares, S(5).total = 21, "step 5", "the total 14, not 21")     \
    X(triangles_off_a_strip, S(3).total = 14, "step 3", "total 7, not 14")     \
    X(too_small, S(3).along = S(3).distance = E(31), "step 3",                 \
      "3 7/8 x 4 falls out")                                                   \
    X(not_square, p->pieces[A].cut[1] = E(31), "step 3", "piece 0 is 4 x 3")   \
    X(count_of_squares, p->pieces[A].count = 7, "pieces[0]",                   \
      "14 fall out, the plan says 7")                                          \
    X(count_with_extra, p->pieces[B].count = 11, "pieces[1]", "12 fall out")   \
    X(cuts_forgotten, F(0).cuts = 12, "fabrics[0]",                            \
      "the steps make 20 cuts, the plan 12")                                   \
    X(area_of_triangles, F(0).area.seams--, "fabrics[0]", "finished and seam")

TRIANGLE_LIES(LIE_TOLD)

static void rejects_every_lie_about_triangles(void **state)
{
    (void)state;
    REJECT_LIES(write_triangles(&p), TRIANGLE_LIES(LIE_LISTED));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(accepts_triangles),
        cmocka_unit_test(rejects_every_lie_about_triangles),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
