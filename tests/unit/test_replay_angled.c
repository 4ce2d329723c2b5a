/* The replay of cuts at an angle: a plan worked out on paper (angled_plan.h) is
 * accepted, for either hand, and each of many small lies in it is found, at its
 * step, for its reason. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "angled_plan.h"
#include "replay/replay.h"
#include "replay_lies.h"

#define S(n) (p->steps[(n)-1])
#define I(n) (p->pieces[n])
#define PRINT(name) (p->fabric.info.print = QC_PRINT_##name)
#define CORNER(piece, n) (p->outlines[piece][n])

static void accepts_the_paper_plan(void **state)
{
    paper p;

    (void)state;
    write_plan(&p);
    assert_int_equal(p.step_count, STEPS); /* all of them written */
    replay_accept(&p.plan);
}

/* Seen in a mirror: what leans to the right there leans to the left. */
static void accepts_a_left_handed_plan(void **state)
{
    const qc_point t[] = {{0, 0}, {E(32), 0}, {E(32), E(32)}};
    paper p;

    (void)state;
    write_plan(&p);
    p.plan.left_handed = true;
    replay_reject(&p.plan, "left-handed", "step 8", "outline of piece 0");
    put_slanted(&p, D, D_PITCH, -E(32));
    replay_reject(&p.plan, "left-handed", "step 16", "outline of piece 3");
    p.steps[15].piece = Q;
    replay_reject(&p.plan, "left-handed", "step 23", "outline of piece 6");
    put_outline(&p, T, 3, t, 1);
    replay_accept(&p.plan);
}

/* Other ways of saying the same. */
static void accepts_other_good_plans(void **state)
{
    paper p;

    (void)state;
    /* A parallelogram is the same after half a turn, and so is this hexagon,
     * which is its own mirror image too. */
    write_plan(&p);
    p.steps[7].turn = p.steps[15].turn = p.steps[19].turn = QC_TURN_HALF;
    p.steps[19].mirrored = true;
    replay_accept(&p.plan);
    /* A triangle lies on its other leg a quarter turn on. */
    p.steps[22].base = 2;
    p.steps[22].turn = QC_TURN_THREE_QUARTERS;
    replay_accept(&p.plan);
    /* Unless it must, a triangle does not face one way. */
    p.steps[22].base = 0;
    p.steps[22].turn = QC_TURN_NONE;
    p.steps[19].mirrored = false;
    p.fabric.info.print = QC_PRINT_TWO_WAY;
    replay_accept(&p.plan);
    p.steps[22].turn = QC_TURN_THREE_QUARTERS;
    p.steps[22].mirrored = true;
    replay_accept(&p.plan);
    /* Of cloth with no wrong side a hand is as good as the other. */
    p.fabric.info.print = QC_PRINT_REVERSIBLE;
    p.pieces[P].hand = QC_HAND_NONE;
    p.pieces[P].twin = P;
    p.pieces[P].count = 10;
    p.pieces[Q].count = 0;
    p.pieces[Q].twin = NONE;
    p.steps[15].total = 10;
    replay_accept(&p.plan);
    p.steps[15].mirrored = true;
    replay_reject(&p.plan, "mirrored", "step 16", "outline of piece 3");
    put_slanted(&p, P, P_PITCH, -E(32));
    replay_accept(&p.plan);
}

/* An even number of turns ends square, at the right selvage, in one go. */
static void accepts_all_of_a_strip_by_turns(void **state)
{
    paper p;

    (void)state;
    write_plan(&p);
    p.steps[21] = p.steps[22];
    p.steps[21].number = 22;
    p.steps[21].repeat = 20;
    p.steps[21].cuts = p.steps[21].yield = p.steps[21].total = 20;
    memmove(&p.steps[22], &p.steps[24], 3 * sizeof p.steps[0]);
    for (uint32_t i = 22; i < 25; i++)
        p.steps[i].number = i + 1;
    p.plan.step_count = 25;
    p.fabric.info.cuts += 20 - 19;
    replay_accept(&p.plan);
    p.steps[21].repeat = 22;
    replay_reject(&p.plan, "beyond", "step 22", "beyond a cloth of 40");
}

/* Of the trapezoids the lower right tip is cut off afterwards, 8 from it along
 * the base and as high up: they have a hand then, and lie both ways up. */
static void accepts_sections_by_turns(void **state)
{
    const qc_point tipped[] = {
        {0, 0}, {E(40), 0}, {E(44), E(8)}, {E(32), E(32)}, {E(16), E(32)}};
    paper p;
    qc_step *trim = &p.steps[13];

    (void)state;
    write_plan(&p);
    memmove(trim + 1, trim, 14 * sizeof *trim);
    p.plan.step_count = STEPS + 1;
    for (uint32_t i = 13; i < STEPS + 1; i++)
        p.steps[i].number = i + 1;
    *trim = p.steps[20];
    trim->number = 14;
    trim->piece = Z;
    trim->repeat = 1;
    trim->copies = trim->cuts = trim->yield = trim->total = 3;
    p.steps[12].piece = NONE;
    p.steps[12].part_out = 6;
    p.steps[12].total = 0;
    p.steps[19].part_out = p.steps[20].part_in = 7;
    put_outline(&p, Z, 5, tipped, 1);
    p.pieces[Z].shape = QC_SHAPE_POLYGON;
    p.pieces[Z].cut[0] = E(44);
    p.pieces[Z].hand = QC_HAND_RIGHT;
    p.pieces[Z].twin = NONE;
    p.fabric.info.cuts += 3;
    p.fabric.info.area.finished -= 3 * 32 * E(1) * E(1);
    p.fabric.info.area.scrap += 3 * 32 * E(1) * E(1);
    replay_accept(&p.plan);
    p.fabric.info.print = QC_PRINT_TWO_WAY;
    replay_accept(&p.plan);
    p.fabric.info.print = QC_PRINT_ONE_WAY;
    replay_reject(&p.plan, "one way", "step 14", "forbids turn 2 of piece 2");
    p.fabric.info.print = QC_PRINT_PLAIN;
    trim->mirrored = true;
    replay_reject(&p.plan, "mirrored", "step 14", "must not lie mirrored");
}

#define LIES(X_)                                                               \
    X_(wedge_leans_less, S(7).lean -= 2, "step 8", "not parallel")             \
    X_(wedge_leans_left, (S(7).lean = -E(32), S(7).along = E(32)), "step 8",   \
       "not parallel")                                                         \
    X_(wedge_off_corner, S(7).along = 2, "step 7", "along, not 0 and 0")       \
    X_(wedge_off_corner_2, S(9).along += 2, "step 9", "not 0 and 4")           \
    X_(wedge_ruler, S(7).distance = 2, "step 7", "square to it")               \
    X_(wedge_of_nothing, S(7).lean = 0, "step 7",                              \
       "does not lie inside a cloth of 40")                                    \
    X_(wedge_beyond, S(7).lean = E(321), "step 7", "not end inside a cloth")   \
    X_(wedge_far_beyond, S(7).lean = INT64_MAX, "step 7", "a lean of")         \
    X_(wedge_twice, S(7).repeat = 2, "step 7", "a wedge with 2 cuts")          \
    X_(wedge_yields, S(7).piece = D, "step 7", "a wedge yields no part")       \
    X_(wedge_before_end, S(6).kind = QC_STEP_SLANT, "step 6", "not squared")   \
    X_(wedge_again, (S(8) = S(7), S(8).number = 8), "step 8",                  \
       "does not lie inside")                                                  \
    X_(no_wedge, S(9).lean = S(8).lean, "step 9", "leans as the cut already")  \
    X_(lean, S(8).lean += 2, "step 8", "an edge that is not parallel")         \
    X_(lean_free, (S(8).lean += 2, S(8).distance = 0), "step 8", "not equal")  \
    X_(lean_one, (S(13).lean += 2), "step 13", "the outline of piece 2")       \
    X_(along_short, (S(8).along -= 2), "step 8", "the outline of piece 0")     \
    X_(along_shorter, (S(8).along -= 8), "step 8", "ruler is set to 4, but")   \
    X_(along_more, S(8).along += 2, "step 8", "the outline of piece 0")        \
    X_(along_negative, S(8).along = -2, "step 8", "does not lie inside")       \
    X_(along_greatest, S(8).along = INT64_MAX, "step 8", "not lie inside")     \
    X_(ruler_more, S(8).distance += 5, "step 8", "the ruler is set to")        \
    X_(ruler_less, S(8).distance -= 8, "step 8", "the ruler is set to")        \
    X_(ruler_along, S(8).distance = D_PITCH, "step 8", "the ruler is set to")  \
    X_(ruler_none, S(8).distance = 0, "step 8", "the ruler is set to 0")       \
    X_(ruler_to_slant, S(13).distance = E(40), "step 13", "not parallel")      \
    X_(ruler_of_sections, S(19).distance += 2, "step 19",                      \
       "the ruler is set to")                                                  \
    X_(too_many, S(8).repeat = 8, "step 8", "beyond a cloth of 40")            \
    X_(far_too_many, S(8).repeat = UINT32_MAX, "step 8", "beyond a cloth")     \
    X_(not_by_turns, S(13).alternate = false, "step 13", "not equal")          \
    X_(one_more, S(13).repeat = 4, "step 13", "makes 4 cuts, not 3")           \
    X_(square_after_slant, (S(13).lean = 0, S(13).repeat = 1), "step 13",      \
       "the outline of piece 2")                                               \
    X_(not_the_piece, S(8).piece = P, "step 8", "the outline of piece 3")      \
    X_(rectangle_slants, S(8).piece = R, "step 8", "falls out, piece 1 is 5")  \
    X_(other_hand, S(16).piece = Q, "step 16", "the outline of piece 4")       \
    X_(turned_half, S(13).turn = QC_TURN_HALF, "step 13", "outline of piece")  \
    X_(turned_quarter, S(8).turn = QC_TURN_QUARTER, "step 8",                  \
       "forbids turn 1 of piece 0")                                            \
    X_(turned_triangle, S(23).turn = QC_TURN_QUARTER, "step 23",               \
       "the outline of piece 6")                                               \
    X_(turn_unknown, S(23).turn = (qc_turn)4, "step 23", "forbids turn 4")     \
    X_(one_way, PRINT(ONE_WAY), "step 13", "forbids turn 2 of piece 2")        \
    X_(faces_both, (PRINT(TWO_WAY), I(T).facing_kept = true), "step 24",       \
       "would not face one way in piece 6")                                    \
    X_(faces_across,                                                           \
       (PRINT(TWO_WAY), I(T).facing_kept = true, S(23).base = 2,               \
        S(23).turn = QC_TURN_THREE_QUARTERS),                                  \
       "step 23", "forbids turn 3")                                            \
    X_(mirrored_kept,                                                          \
       (PRINT(TWO_WAY), I(T).facing_kept = true, S(23).mirrored = true),       \
       "step 23", "must not lie mirrored")                                     \
    X_(base, S(23).base = 1, "step 23", "the outline of piece 6")              \
    X_(other_leg, S(23).base = 2, "step 23", "the outline of piece 6")         \
    X_(base_unknown, S(23).base = 3, "step 23", "has no base 3")               \
    X_(mirrored_hand, (S(16).mirrored = true, S(16).piece = Q), "step 16",     \
       "must not lie mirrored")                                                \
    X_(mirrored_print, (PRINT(TWO_WAY), S(20).mirrored = true), "step 20",     \
       "must not lie mirrored")                                                \
    X_(not_paired, S(14).paired = false, "step 15", "do not lie in pairs")     \
    X_(paired_alone, S(6).paired = true, "step 6", "1 cloths are no pairs")    \
    X_(pairs_parted, S(16).paired = false, "step 16", "lie in pairs")          \
    X_(pair_split, (S(14).layers = 1, S(14).cuts = 2), "step 14",              \
       "1 layers are no pairs")                                                \
    X_(pairs_unwanted, (I(P).twin = NONE, I(Q).twin = NONE), "step 16",        \
       "mirror image of piece 3 is not wanted")                                \
    X_(pairs_total, S(16).total = 10, "step 16", "the total 5, not 10")        \
    X_(pairs_yield, S(16).yield = 5, "step 16", "yields 10, not 5")            \
    X_(twin_count, I(Q).count = 4, "pieces[4]", "5 fall out")                  \
    X_(corners_less, S(20).repeat = 1, "step 20", "2 sides of piece 5")        \
    X_(corners_more, S(20).repeat = 4, "step 20", "2 sides of piece 5")        \
    X_(outline_beyond, (S(19).along -= 6, S(19).distance -= 5), "step 20",     \
       "piece 5 is not inside what")                                           \
    X_(outline_loose, (S(19).along += 6, S(19).distance += 4), "step 20",      \
       "3 sides of piece 5")                                                   \
    X_(outline_of_rectangle, S(20).piece = R, "step 20", "has no outline")     \
    X_(outline_other, S(20).piece = Z, "step 20", "is not inside")             \
    X_(outline_ruler, S(20).distance = 2, "step 20", "no part, rest or ruler") \
    X_(outline_strip, S(20).part_in = 4, "step 20",                            \
       "2 cloths, but part 4 is 1")                                            \
    X_(triangles_total, S(23).total = 18, "step 23", "total 16, not 18")       \
    X_(squares_total, S(24).total = 4, "step 24", "total 20, not 4")           \
    X_(triangles, I(T).count = 4, "pieces[6]", "20 fall out")                  \
    X_(kept_wider, (S(26).distance = E(209), p->kept[1].width = E(209)),       \
       "step 26", "but 26 is left")                                            \
    X_(trim_to, S(27).distance = E(39), "step 27", "piece 1 has 4 3/4")        \
    X_(trim_more, S(27).copies = 2, "step 27", "trims 2 units, not 1")         \
    X_(trim_other, S(27).piece = D, "step 27", "not cut larger")               \
    X_(trim_grows, I(R).trim_to[1] = E(32), "step 27", "not cut larger")       \
    X_(trim_forgotten, p->plan.step_count = 26, "fabrics[0]",                  \
       "piece 1 is never trimmed back")                                        \
    X_(trim_again, (S(26) = S(27), S(26).number = 26), "step 27",              \
       "piece 1 is trimmed already")                                           \
    X_(trim_early,                                                             \
       (S(26) = S(27), S(27) = S(25), S(26).number = 26, S(27).number = 27),   \
       "step 27", "after something is trimmed back")                           \
    X_(trim_leans, S(27).lean = 2, "step 27", "neither slants nor lies")       \
    X_(trim_repeats, S(27).repeat = 1, "step 27", "no part, turn or repeat")

LIES(LIE_TOLD)

#define PIECE_LIES(X_)                                                         \
    X_(odd, CORNER(D, 1).x++, "pieces[0]", "outline 0 is not convex, or not")  \
    X_(off_base, CORNER(D, 0).y = 2, "pieces[0]", "not on its base")           \
    X_(off_start, CORNER(D, 0).x = 2, "pieces[0]", "not on its base")          \
    X_(not_convex, CORNER(X, 2).x = E(24), "pieces[5]", "not convex")          \
    X_(clockwise, (CORNER(Z, 2).x = E(16), CORNER(Z, 3).x = E(32)),            \
       "pieces[2]", "not convex")                                              \
    X_(below, CORNER(X, 5).y = -2, "pieces[5]", "not convex")                  \
    X_(other_base, CORNER(T, 4).x += 80, "pieces[6]", "outline 1 is another")  \
    X_(far_base, CORNER(T, 8).y += 80, "pieces[6]", "outline 2 is another")    \
    X_(two_corners, I(Z).outline_count = 2, "pieces[2]", "of 2 corners")       \
    X_(many_corners, I(Z).outline_count = 33, "pieces[2]", "of 33 corners")    \
    X_(no_base, I(Z).base_count = 0, "pieces[2]", "0 outlines of 4")           \
    X_(many_bases, I(Z).base_count = 5, "pieces[2]", "5 outlines of 4")        \
    X_(spacing, I(D).cut[0] -= 8, "pieces[0]", "not that of its outline")      \
    X_(spacing_none, I(D).cut[0] = 0, "pieces[0]", "not that of its outline")  \
    X_(spacing_more, I(D).cut[0] += 5, "pieces[0]", "not that of its outline") \
    X_(height, I(Z).cut[1] -= 2, "pieces[2]", "not that of its outline")       \
    X_(width, I(Z).cut[0] -= 2, "pieces[2]", "not that of its outline")        \
    X_(square, I(T).cut[0] = E(33), "pieces[6]", "not that of its outline")    \
    X_(quarters, I(T).shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE, "pieces[6]",   \
       "not that of its outline")                                              \
    X_(hands, (I(P).hand = QC_HAND_LEFT, I(Q).hand = QC_HAND_RIGHT),           \
       "pieces[3]", "leans to the other hand")                                 \
    X_(one_hand, I(Q).hand = QC_HAND_RIGHT, "pieces[3]", "not its twin")       \
    X_(hand_unknown, I(P).hand = (qc_hand)3, "pieces[3]", "no hand 3")         \
    X_(no_hand, (I(P).hand = QC_HAND_NONE, I(P).twin = P), "pieces[3]",        \
       "is not its own mirror image")                                          \
    X_(no_hand_but_twin, I(P).hand = QC_HAND_NONE, "pieces[3]", "but a twin")  \
    X_(twin_of_itself, I(P).twin = P, "pieces[3]", "has a hand, but no twin")  \
    X_(twin_unknown, I(P).twin = PIECES, "pieces[3]", "but no twin")           \
    X_(twin_elsewhere, I(Q).twin = D, "pieces[3]", "piece 4 is not its twin")  \
    X_(twin_of_shape, I(P).twin = Z, "pieces[3]", "piece 2 is not its twin")   \
    X_(image, (CORNER(Q, 1).x += 2, CORNER(Q, 2).x += 2), "pieces[3]",         \
       "piece 4 is not its mirror image")

PIECE_LIES(LIE_TOLD)

static void rejects_every_lie(void **state)
{
    (void)state;
    REJECT_LIES(write_plan(&p), LIES(LIE_LISTED) PIECE_LIES(LIE_LISTED));
}

/* The only play that numbers of a step have: the ruler at a slanted cut may be
 * set a few units less than the cuts are apart, and lead to the same cut; a
 * section that is trimmed to an outline need not fit it to the last unit; and
 * an end may be squared by more where cloth is left. */
static bool has_play(const qc_step *step, int field)
{
    bool slants = step->kind == QC_STEP_SUBCUT && step->lean;

    return (field == 0 && slants && step->part_out != NONE) ||
           (field == 2 &&
            ((slants && step->distance) || step->kind == QC_STEP_SQUARE_END));
}

/* Any number of any step, one off either way, is noticed. */
static void notices_any_number_one_off(void **state)
{
    paper p;

    (void)state;
    for (size_t i = 0; i < STEPS; i++) {
        for (int way = 0; way < 20; way++) {
            int64_t one = way % 2 ? 1 : -1;
            qc_step *at = &p.steps[i];
            int64_t *longs[] = {&at->along, &at->lean,  &at->distance,
                                &at->cuts,  &at->yield, &at->total,
                                &at->copies};
            uint32_t *shorts[] = {&at->repeat, &at->base, &at->part_in};

            write_plan(&p);
            if (has_play(at, way / 2))
                continue;
            if (way / 2 < 7)
                *longs[way / 2] += one;
            else
                *shorts[way / 2 - 7] += (uint32_t)one;
            if (qci_replay_plan(&p.plan, NULL) != QC_STATUS_REJECTED)
                fail_msg("step %zu, number %d: accepted", i + 1, way);
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
        cmocka_unit_test(accepts_a_left_handed_plan),
        cmocka_unit_test(accepts_other_good_plans),
        cmocka_unit_test(accepts_all_of_a_strip_by_turns),
        cmocka_unit_test(accepts_sections_by_turns),
        cmocka_unit_test(rejects_every_lie),
        cmocka_unit_test(notices_any_number_one_off),
        cmocka_unit_test(reports_when_memory_is_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
