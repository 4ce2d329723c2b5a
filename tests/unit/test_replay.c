/* The replay: plans worked out on paper (paper_plan.h) are accepted, and each
 * of many small lies in one of them is found, at its step, for its reason. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "paper_plan.h"
#include "replay/replay.h"
#include "replay_lies.h"

static void accepts_the_paper_plan(void **state)
{
    paper p;

    (void)state;
    write_plan(&p);
    replay_accept(&p.plan);
}

/* Every way of saying the same. */
static void accepts_other_good_plans(void **state)
{
    paper p;

    (void)state;
    /* Leftovers of one kind may be put away bit by bit. */
    write_plan(&p);
    p.night_kept[2].count = 1;
    p.steps[9].copies = p.steps[9].yield = 1;
    p.fabrics[0].info.area.leftover -= 2 * E(20) * E(12);
    p.fabrics[0].info.area.scrap += 2 * E(20) * E(12);
    replay_accept(&p.plan);
    /* A square turned a quarter is the same square. */
    write_plan(&p);
    p.steps[4].turn = QC_TURN_QUARTER;
    replay_accept(&p.plan);
    /* Cloth with no right side may be turned as plain cloth. */
    write_plan(&p);
    p.fabrics[0].info.print = QC_PRINT_REVERSIBLE;
    replay_accept(&p.plan);
    /* No pieces: nothing bought, nothing cut. */
    memset(&p.fabrics[0], 0, sizeof p.fabrics[0]);
    p.fabrics[0].info.usable_width = p.fabrics[0].info.step = 1;
    p.fabrics[0].info.square_up = E(4);
    p.plan.fabric_count = 1;
    p.plan.step_count = p.plan.piece_count = 0;
    replay_accept(&p.plan);
}

/* 40 x 22 1/2 without squaring-up: five strips of 4 1/2 to the bolt's very end,
 * each of them one piece once both selvages are off. */
static void accepts_cloth_used_to_the_last_thread(void **state)
{
    paper p;
    qc_plan_fabric *info = &p.fabrics[0].info;

    (void)state;
    write_plan(&p);
    *info = (qc_plan_fabric){.usable_width = E(320),
                             .step = E(36),
                             .used = E(180),
                             .bought = E(180),
                             .cuts = 15};
    info->area.finished = E(320) * E(180);
    p.steps[0] = step(QC_STEP_STRIP, 0, 1, NONE, E(36), 1, 1, 5, 5, 5, 0);
    p.steps[1] = step(QC_STEP_SQUARE_END, 1, NONE, NONE, 0, 5, 1, 1, 5, 0, 0);
    p.steps[2] = step(QC_STEP_SUBCUT, 1, NONE, A, E(320), 5, 1, 1, 5, 5, 5);
    p.pieces[A].cut[0] = E(320);
    p.pieces[A].cut[1] = E(36);
    p.pieces[A].count = 5;
    for (uint32_t i = 0; i < 3; i++)
        p.steps[i].number = i + 1;
    p.plan.fabric_count = p.plan.piece_count = 1;
    p.plan.step_count = 3;
    replay_accept(&p.plan);
    /* The bolt is gone: nothing can be kept of it, nor another strip cut. */
    p.steps[3] = step(QC_STEP_STRIP, 0, 2, NONE, E(36), 1, 1, 1, 1, 1, 0);
    p.steps[3].number = 4;
    p.plan.step_count = 4;
    replay_reject(&p.plan, "strip off nothing", "step 4", "part 0 is used up");
}

/* A thousand million cuts take no longer than one: 1/8 micrometre each. */
static void takes_no_time_for_many_cuts(void **state)
{
    paper p;
    qc_plan_fabric *info = &p.fabrics[0].info;

    (void)state;
    write_plan(&p);
    *info = (qc_plan_fabric){.usable_width = 1,
                             .step = 1,
                             .used = 1000000000,
                             .bought = 1000000000,
                             .cuts = 3000000000};
    info->area.finished = 1000000000;
    p.steps[0] = step(QC_STEP_STRIP, 0, 1, NONE, 1, 1, 1, 1000000000,
                      1000000000, 1000000000, 0);
    p.steps[1] = step(QC_STEP_SQUARE_END, 1, NONE, NONE, 0, 1000000000, 1, 1,
                      1000000000, 0, 0);
    p.steps[2] = step(QC_STEP_SUBCUT, 1, NONE, A, 1, 1000000000, 1, 1,
                      1000000000, 1000000000, 1000000000);
    p.pieces[A].cut[0] = p.pieces[A].cut[1] = 1;
    p.pieces[A].count = 1000000000;
    for (uint32_t i = 0; i < 3; i++)
        p.steps[i].number = i + 1;
    p.plan.fabric_count = p.plan.piece_count = 1;
    p.plan.step_count = 3;
    replay_accept(&p.plan);
}

/* A lie: one change to the paper plan, and where and how it is found. The
 * plan, a step s[n] (from 1), a fabric and a piece are at hand in `change`. */
#define LIES(X)                                                                \
    X(number_skips, S(5).number = 6, "step 6", "stands where step 5 belongs")  \
    X(number_zero, S(1).number = 0, "step 0", "stands where step 1 belongs")   \
    X(fabric_unknown, S(17).fabric = 2, "step 17", "no fabric 2")              \
    X(fabric_returns, S(17).fabric = 0, "step 17", "fabric 0 comes after")     \
    X(fabric_early, S(10).fabric = 1, "fabrics[0]", "3 of leftover 2")         \
    X(kind_unknown, S(5).kind = (qc_step_kind)14, "step 5", "kind 14")         \
    X(kind_of_sets, S(5).kind = QC_STEP_SEW, "step 5", "no step of kind 10")   \
    X(kind_negative, S(5).kind = (qc_step_kind)-1, "step 5", "kind -1")        \
    X(part_unknown, S(4).part_in = 3, "step 4", "no part 3")                   \
    X(part_not_yet, S(14).part_in = 2, "step 14", "no part 2")                 \
    X(part_used_up, S(17).part_in = 2, "step 17", "part 2 is used up")         \
    X(strip_used_up, S(15).part_in = 1, "step 15", "part 1 is used up")        \
    X(kept_twice, S(9).part_in = 0, "step 9", "part 0 is used up")             \
    X(part_number_skips, S(3).part_out = 3, "step 3", "numbered 3 instead")    \
    X(part_number_again, S(3).part_out = 1, "step 3", "numbered 1 instead")    \
    X(part_is_bolt, S(3).part_out = 0, "step 3", "numbered 0 instead")         \
    X(too_few_copies, S(7).copies = 2, "step 7", "2 cloths, but part 2 is 3")  \
    X(too_many_copies, S(10).copies = 4, "step 10", "4 cloths, but part 2")    \
    X(no_copies, S(10).copies = 0, "step 10", "0 cloths")                      \
    X(negative_copies, S(10).copies = -1, "step 10", "-1 cloths")              \
    X(two_bolts, S(2).copies = 2, "step 2", "2 cloths, but part 0 is 1")       \
    X(ruler_zero, S(2).distance = 0, "step 2", "ruler is set to 0")            \
    X(ruler_off, S(5).along = S(5).distance = 0, "step 5",                     \
      "ruler is set to 0")                                                     \
    X(ruler_negative, S(5).distance = -E(52), "step 5", "ruler is set to -")   \
    X(ruler_least, S(5).distance = INT64_MIN, "step 5", "ruler is set to -")   \
    X(ruler_greatest, S(5).along = S(5).distance = INT64_MAX, "step 5",        \
      "not lie inside")                                                        \
    X(along_more, S(5).along++, "step 5", "along is not 6 1/2 square to")      \
    X(end_negative, S(4).distance = -1, "step 4", "ruler is set to -1")        \
    X(beyond_bolt, S(3).repeat = 5, "step 3", "5 x 2 1/2 does not lie inside") \
    X(beyond_strip, S(5).repeat = 7, "step 5", "7 x 6 1/2 does not lie")       \
    X(beyond_selvage, S(14).repeat = 5, "step 14",                             \
      "5 x 10 does not lie inside a cloth of 40")                              \
    X(at_edge, S(16).repeat = 2, "step 16",                                    \
      "3 x 3 is not the whole of a cloth of 6")                                \
    X(huge_repeat, S(5).repeat = UINT32_MAX, "step 5", "does not lie inside")  \
    X(no_cut, S(5).repeat = 0, "step 5", "subcutting with 0 cuts")             \
    X(squares_twice, S(1).repeat = 2, "step 1", "squaring up with 2 cuts")     \
    X(rest_not_equal, S(15).rest_is_piece = true, "step 15",                   \
      "2 x 4 is not the whole of a cloth of 10")                               \
    X(rest_forgotten, S(16).rest_is_piece = false, "step 16", "yields 8")      \
    X(rest_of_bolt, S(3).rest_is_piece = true, "step 3",                       \
      "the bolt's raw end would not be cut off")                               \
    X(rest_of_strip, (S(14).rest_is_piece = true, S(14).repeat = 3),           \
      "step 14", "the right selvage would not be cut off")                     \
    X(rest_of_keep, S(8).rest_is_piece = true, "step 8", "no part or piece")   \
    X(flush_section_cut, (S(16).rest_is_piece = false, S(16).repeat = 2),      \
      "step 16", "2 x 3 does not lie inside a cloth of 6")                     \
    X(flush_slice_cut, S(17).distance = E(80), "step 17",                      \
      "1 x 10 does not lie inside a cloth of 10")                              \
    X(strip_lower, S(2).distance = E(51), "step 5", "6 1/2 x 6 3/8 falls out") \
    X(piece_wider, S(5).along = S(5).distance = E(53), "step 5",               \
      "6 5/8 x 6 1/2 falls out, piece 0 is 6 1/2 x 6 1/2")                     \
    X(piece_one_unit_less, S(5).along = S(5).distance = E(52) - 1, "step 5",   \
      "falls out")                                                             \
    X(split_along, S(15).along = E(32), "step 15", "does not slant")           \
    X(strip_leans, S(2).lean = 2, "step 2", "does not slant")                  \
    X(split_alternates, S(15).alternate = true, "step 15", "nothing by half")  \
    X(split_paired, S(15).paired = true, "step 15", "do not lie in pairs")     \
    X(bolt_paired, S(2).paired = true, "step 2", "do not lie in pairs")        \
    X(odd_pairs, S(6).paired = true, "step 6", "3 cloths are no pairs")        \
    X(pair_parted, S(13).paired = true, "step 14", "the cloths lie in pairs")  \
    X(rectangle_base, S(5).base = 1, "step 5", "no other base")                \
    X(rectangle_mirrored, S(5).mirrored = true, "step 5", "or mirror image")   \
    X(part_base, S(3).base = 1, "step 3", "lays no piece down")                \
    X(part_mirrored, S(3).mirrored = true, "step 3", "lays no piece down")     \
    X(of_a_set, S(5).set = 0, "step 5", "of a fabric and a strip set")         \
    X(of_nothing, S(5).fabric = NONE, "step 5", "or of neither")               \
    X(set_early, (S(5).fabric = NONE, S(5).set = 0), "step 6",                 \
      "comes after a step of a strip set")                                     \
    X(handed, p->pieces[A].hand = QC_HAND_LEFT, "pieces[0]",                   \
      "is a rectangle with a hand")                                            \
    X(twin_without_hand, p->pieces[A].twin = B, "pieces[0]", "but a twin")     \
    X(fabric_of_piece, p->pieces[A].fabric = 2, "pieces[0]", "no fabric 2")    \
    X(sewn_nowhere, p->pieces[A].strip_set = 0, "pieces[0]", "no strip set 0") \
    X(split_lower, S(15).distance = E(31), "step 15", "10 x 3 7/8 falls out")  \
    X(trim_narrow, S(17).distance = E(47), "step 17", "5 7/8 x 3 falls out")   \
    X(wrong_piece, S(7).piece = A, "step 7", "falls out, piece 0 is 6 1/2")    \
    X(foreign_piece, S(5).piece = C, "step 5", "piece 2 belongs to another")   \
    X(piece_unknown, S(5).piece = PIECES, "step 5", "no piece 4")              \
    X(two_outcomes, S(5).part_out = 3, "step 5", "a part and a piece at once") \
    X(no_outcome, S(5).piece = NONE, "step 5", "neither a part nor a piece")   \
    X(end_yields, S(4).piece = A, "step 4", "squaring an end yields no part")  \
    X(keep_yields, S(8).part_out = 3, "step 8", "keeping yields no part")      \
    X(turn_forgotten, S(7).turn = QC_TURN_NONE, "step 7",                      \
      "4 1/2 x 2 1/2 falls out, piece 1 is 2 1/2 x 4 1/2")                     \
    X(turn_unknown, S(7).turn = (qc_turn)3, "step 7", "forbids turn 3")        \
    X(turn_of_part, S(2).turn = QC_TURN_HALF, "step 2", "turns no piece")      \
    X(stripe_quarter, S(15).turn = QC_TURN_QUARTER, "step 15",                 \
      "the print forbids turn 1 of piece 2")                                   \
    X(one_way_half, F(1).print = QC_PRINT_ONE_WAY, "step 15", "forbids turn")  \
    X(one_way_quarter, F(0).print = QC_PRINT_ONE_WAY, "step 7",                \
      "forbids turn")                                                          \
    X(stripe_on_night, F(0).print = QC_PRINT_TWO_WAY, "step 7", "forbids")     \
    X(print_unknown, F(0).print = (qc_print)9, "step 7", "forbids turn")       \
    X(no_layers, S(7).layers = 0, "step 7", "0 layers")                        \
    X(layers_beyond_limit, p->plan.layers = 1, "step 1", "2 layers, allowed")  \
    X(layers_beyond_cloths, S(6).layers = 4, "step 6", "allowed 1 to 3")       \
    X(bolt_layers, S(2).layers = 3, "step 2", "3 layers, allowed 1 to 2")      \
    X(pile_changes, S(7).layers = 3, "step 7", "3 layers, the piles have 2")   \
    X(section_pile, S(15).layers = 4, "step 15", "the piles have 2")           \
    X(keep_layers, S(10).layers = 2, "step 10", "keeping is not a cut")        \
    X(keep_cuts, S(10).repeat = 1, "step 10", "keeping is not a cut")          \
    X(cuts_more, S(7).cuts = 19, "step 7", "makes 18 cuts, not 19")            \
    X(cuts_per_cloth, S(7).cuts = 27, "step 7", "makes 18 cuts, not 27")       \
    X(cuts_negative, S(7).cuts = -18, "step 7", "makes 18 cuts, not -18")      \
    X(yield_less, S(7).yield = 26, "step 7", "yields 27, not 26")              \
    X(yield_of_parts, S(3).yield = 1, "step 3", "yields 3, not 1")             \
    X(yield_of_scrap, S(4).yield = 1, "step 4", "yields 0, not 1")             \
    X(total_wrong, S(17).total = 15, "step 17", "the total 16, not 15")        \
    X(total_of_part, S(3).total = 3, "step 3", "the total 0, not 3")           \
    X(strip_of_strip, S(3).part_in = 1, "step 3", "strips is not for a strip") \
    X(subcut_of_bolt, S(5).part_in = 0, "step 5", "is not for the bolt")       \
    X(split_of_strip, S(5).kind = QC_STEP_SPLIT, "step 5",                     \
      "splitting is not for a strip")                                          \
    X(trim_of_strip, S(5).kind = QC_STEP_TRIM, "step 5",                       \
      "trimming is not for a strip")                                           \
    X(subcut_of_slice, S(17).kind = QC_STEP_SUBCUT, "step 17",                 \
      "subcutting is not for a section")                                       \
    X(end_of_section, S(15).kind = QC_STEP_SQUARE_END, "step 15",              \
      "squaring an end is not for a section")                                  \
    X(end_not_squared, (S(4) = S(5), S(4).number = 4), "step 4",               \
      "the left end is not squared")                                           \
    X(end_squared_again, (S(5) = S(4), S(5).number = 5), "step 5",             \
      "the left end is cut already")                                           \
    X(not_squared_up, S(1).kind = QC_STEP_STRIP, "step 1",                     \
      "the bolt is not squared up first")                                      \
    X(squared_again, S(2).kind = QC_STEP_SQUARE_UP, "step 2",                  \
      "squared up again")                                                      \
    X(squared_by_more, S(1).distance = E(5), "step 1",                         \
      "squares up by 5/8, the plan by 1/2")                                    \
    X(kept_more, S(10).distance = E(13), "step 10",                            \
      "keeps 1 5/8, but 1 1/2 is left")                                        \
    X(kept_unknown, p->night_kept[2].width = E(13), "step 10",                 \
      "3 cloths kept are not leftovers")                                       \
    X(kept_turned,                                                             \
      (p->night_kept[2].width = E(20), p->night_kept[2].length = E(12)),       \
      "step 10", "are not leftovers")                                          \
    X(kept_too_many, p->night_kept[2].count = 2, "step 10", "1 cloths kept")   \
    X(kept_too_few, p->night_kept[2].count = 4, "fabrics[0]",                  \
      "1 of leftover 2 are never put away")                                    \
    X(used_less, F(0).used = E(115), "fabrics[0]",                             \
      "the steps use 14 1/2 of the bolt, the plan 14 3/8")                     \
    X(cuts_of_fabric, F(1).cuts = 21, "fabrics[1]",                            \
      "the steps make 24 cuts, the plan 21")                                   \
    X(bought_too_little, F(1).bought = E(144), "step 12",                      \
      "2 x 10 does not lie inside a cloth of")                                 \
    X(shrinks_more, F(1).shrink_length = 1000, "step 12",                      \
      "2 x 10 does not lie inside a cloth of 19 3/4")                          \
    X(shrinks_away, F(1).shrink_length = 10000, "fabrics[1]", "shrinkage")     \
    X(grows, F(1).shrink_length = -1, "fabrics[1]", "shrinkage")               \
    X(bought_off_step, F(0).bought = E(145), "fabrics[0]",                     \
      "no number of steps")                                                    \
    X(bought_nothing, F(0).bought = 0, "step 1", "there is no part 0")         \
    X(bought_negative, F(0).bought = -E(36), "fabrics[0]", "a bought length")  \
    X(bought_too_much, F(0).bought = INT64_MAX, "fabrics[0]", "bought length") \
    X(step_zero, F(0).step = 0, "fabrics[0]", "no number of steps")            \
    X(width_zero, F(0).usable_width = 0, "fabrics[0]", "usable width of 0")    \
    X(width_huge, F(0).usable_width = INT64_MAX, "fabrics[0]", "usable width") \
    X(width_less, F(0).usable_width = E(311), "step 5", "does not lie inside") \
    X(count_more, p->pieces[B].count = 28, "pieces[1]",                        \
      "27 fall out, the plan says 28")                                         \
    X(count_less, p->pieces[D].count = 15, "pieces[3]", "16 fall out")         \
    X(steps_missing, p->plan.step_count = 16, "fabrics[1]", "16 cuts")         \
    X(no_steps, p->plan.step_count = 0, "fabrics[0]", "the steps use 0")       \
    X(area_of_pieces, F(0).area.seams++, "fabrics[0]", "finished and seam")    \
    X(area_kept, F(0).area.leftover++, "fabrics[0]", "leftover area")          \
    X(area_scrap, F(0).area.scrap--, "fabrics[0]", "do not add up")            \
    X(area_negative,                                                           \
      (F(0).area.seams = -1, F(0).area.finished += 33 * E(8) * E(8) / 2 + 1),  \
      "fabrics[0]", "finished and seam")

#define S(n) (p->steps[(n)-1])
#define F(n) (p->fabrics[n].info)
LIES(LIE_TOLD)

static void rejects_every_lie(void **state)
{
    (void)state;
    REJECT_LIES(write_plan(&p), LIES(LIE_LISTED));
}

/* Any number of any step but its layers, one off either way, is noticed: none
 * is taken on trust. */
static void notices_any_number_one_off(void **state)
{
    paper p;

    (void)state;
    for (int i = 0; i < STEPS; i++) {
        for (int up = -1; up <= 1; up += 2) {
            for (int field = 0; field < 11; field++) {
                qc_step *at = &p.steps[i];

                write_plan(&p);
                switch (field) {
                case 0:
                    at->number += (uint32_t)up;
                    break;
                case 1:
                    at->fabric += (uint32_t)up;
                    break;
                case 2:
                    at->part_in += (uint32_t)up;
                    break;
                case 3:
                    at->part_out += (uint32_t)up;
                    break;
                case 4:
                    at->piece += (uint32_t)up;
                    break;
                case 5:
                    at->distance += up;
                    break;
                case 6:
                    at->copies += up;
                    break;
                case 7:
                    at->repeat += (uint32_t)up;
                    break;
                case 8:
                    at->cuts += up;
                    break;
                case 9:
                    at->yield += up;
                    break;
                default:
                    at->total += up;
                    break;
                }
                if (qci_replay_plan(&p.plan, NULL) != QC_STATUS_REJECTED)
                    fail_msg("step %d, number %d, %+d: accepted", i + 1, field,
                             up);
            }
        }
    }
}

static void reports_when_memory_is_out(void **state)
{
    paper p;

    (void)state;
    write_plan(&p);
    replay_without_memory(&p.plan);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(accepts_the_paper_plan),
        cmocka_unit_test(accepts_other_good_plans),
        cmocka_unit_test(accepts_cloth_used_to_the_last_thread),
        cmocka_unit_test(takes_no_time_for_many_cuts),
        cmocka_unit_test(rejects_every_lie),
        cmocka_unit_test(notices_any_number_one_off),
        cmocka_unit_test(reports_when_memory_is_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
