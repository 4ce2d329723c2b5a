/* The replay of strip sets: a plan worked out on paper (set_plan.h) is
 * accepted, for either hand, and each of many small lies in it is found. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "replay/angle.h"
#include "replay_lies.h"
#include "set_plan.h"

#define S(n) (p->steps[(n)-1])
#define SET (p->set.info)

static void accepts_the_paper_plan(void **state)
{
    paper p;

    (void)state;
    write_plan(&p, false);
    assert_int_equal(p.step_count, STEPS);
    replay_accept(&p.plan);
    write_plan(&p, true);
    replay_accept(&p.plan);
}

/* Measured from the right end, right-leaning sets are as left-leaning ones. */
static void accepts_a_left_handed_plan(void **state)
{
    paper p;

    (void)state;
    write_plan(&p, true);
    p.plan.left_handed = true;
    replay_reject(&p.plan, "left-handed", "strip_sets[0]", "to its hand");
    p.set.info.hand = QC_HAND_RIGHT;
    replay_accept(&p.plan);
}

/* Cuts square across: both strips are even, and 20 segments of 16 are one set
 * to the right selvage. */
static void accepts_square_sets(void **state)
{
    paper p;

    (void)state;
    write_plan(&p, false);
    p.set.info.hand = QC_HAND_NONE;
    p.set.info.lean = p.steps[13].lean = 0;
    p.set.info.pitch = E(16);
    p.set.info.sets = p.set.info.per_set = p.set.info.full_length = 0;
    p.set.info.part_segments = p.set.info.segments = 20;
    p.set.info.part_length = E(320);
    p.strips[1].offset = 0;
    for (uint32_t i = 0; i < 2; i++) {
        qc_plan_fabric *info = &p.fabrics[i].info;
        qc_length height = p.strips[i].width;

        p.strips[i].full_piece = NONE;
        p.pieces[2 * i].count = 0;
        p.pieces[2 * i + 1].cut[0] = E(320);
        info->used = height;
        info->cuts = 3;
        info->area.finished = height * E(320);
        info->area.scrap = E(72) * E(320) - info->area.finished;
        p.steps[3 * i] = p.steps[6 * i];
        p.steps[3 * i + 1] = p.steps[6 * i + 2];
        p.steps[3 * i + 2] = p.steps[6 * i + 3];
        p.steps[3 * i + 2].along = p.steps[3 * i + 2].distance = E(320);
        p.steps[3 * i + 2].piece++;
    }
    p.steps[6] = p.steps[14];
    p.steps[6].distance = E(320);
    p.steps[7] = p.steps[15];
    p.steps[7].lean = 0;
    p.steps[7].repeat = 20;
    p.steps[7].yield = 20;
    p.steps[7].cuts = 21;
    p.steps[8] = p.steps[16];
    p.set.info.second_at = E(36);
    p.set.info.second_angle = 135 * QC_DEGREE;
    for (uint32_t i = 0; i < 9; i++)
        p.steps[i].number = i + 1;
    p.plan.step_count = 9;
    replay_accept(&p.plan);
}

/* A second cut may go through the segment's tips. */
static void accepts_cuts_through_tips(void **state)
{
    /* from the lower left tip to the upper right one, at the angle whose
     * tangent is 36 / (36 + pitch): 31.551826 degrees; and from the upper left
     * one, whose side is 36 sqrt2 long, plumb */
    static const struct {
        qc_length at;
        int32_t angle;
    } cuts[] = {{0, 31551826}, {1293156, 90 * QC_DEGREE}, {0, 10 * QC_DEGREE}};
    paper p;

    (void)state;
    for (size_t i = 0; i < sizeof cuts / sizeof cuts[0]; i++) {
        write_plan(&p, i % 2 == 1);
        p.set.info.second_at = cuts[i].at;
        p.set.info.second_angle = cuts[i].angle;
        replay_accept(&p.plan);
    }
}

#define LIES(X)                                                                \
    X(one_strip, SET.strip_count = 1, "strip_sets[0]", "1 strips")             \
    X(many_strips, SET.strip_count = 41, "strip_sets[0]", "41 strips")         \
    X(height, SET.height += 2, "strip_sets[0]", "is 4 1/2 high when it is")    \
    X(seam, p->plan.seam = E(1), "strip_sets[0]", "is 4 3/4 high")             \
    X(seam_huge, p->plan.seam = INT64_MAX, "strip_sets[0]", "a seam of")       \
    X(hand, SET.hand = QC_HAND_LEFT, "strip_sets[0]", "to its hand")           \
    X(no_hand, SET.hand = QC_HAND_NONE, "strip_sets[0]", "to its hand")        \
    X(angle, SET.angle += 1000, "strip_sets[0]", "do not lean by its angle")   \
    X(angle_zero, SET.angle = 0, "strip_sets[0]", "do not lean by its angle")  \
    X(lean, SET.lean += 6, "strip_sets[0]", "do not lean by its angle")        \
    X(lean_left, SET.lean = -SET.lean, "strip_sets[0]", "lean by its angle")   \
    X(lean_huge, SET.lean = INT64_MAX, "strip_sets[0]", "a cut at 0 that")     \
    X(first_huge, SET.first = INT64_MIN, "strip_sets[0]", "a cut at -9223")    \
    X(spacing, SET.spacing += 3, "strip_sets[0]", "apart square to them")      \
    X(spacing_less, SET.spacing -= 8, "strip_sets[0]", "square to them")       \
    X(pitch, SET.pitch -= 6, "strip_sets[0]", "square to them")                \
    X(pitch_more, SET.pitch += 10, "strip_sets[0]", "square to them")          \
    X(usable, SET.usable = E(319), "strip_sets[0]", "are 40 wide, not 39")     \
    X(segments, SET.segments = 21, "strip_sets[0]", "21 segments are not 1")   \
    X(per_set, SET.per_set = 14, "strip_sets[0]", "not 1 sets of 14 and 7")    \
    X(sets, SET.sets = -1, "strip_sets[0]", "not -1 sets of 13")               \
    X(set_length, SET.full_length += 2, "strip_sets[0]",                       \
      "piece 0 is not such a strip")                                           \
    X(part_length, SET.part_length -= 2, "strip_sets[0]",                      \
      "piece 1 is not such a strip")                                           \
    X(too_long, SET.full_length = E(321), "strip_sets[0]", "longer than 40")   \
    X(fabric, p->strips[0].fabric = 1, "strip_sets[0]", "not such a strip")    \
    X(fabric_unknown, p->strips[0].fabric = 2, "strip_sets[0]", "fabric 2")    \
    X(width, p->strips[1].width += 2, "strip_sets[0]", "not such a strip")     \
    X(thin, p->strips[1].width = E(4), "strip_sets[0]", "strip 1 is of no")    \
    X(offset_first, p->strips[0].offset = 2, "strip_sets[0]", "strip 0 is of") \
    X(offset_more, p->strips[1].offset = E(20) + 2, "step 14",                 \
      "the first cut does not cross strip 1")                                  \
    X(offset_less, p->strips[1].offset = E(12) - 2, "step 14",                 \
      "the last cut does not cross strip 1")                                   \
    X(offset_left, p->strips[1].offset = -E(20), "step 14", "the last cut")    \
    X(first, (SET.first = S(14).along = 2), "step 14",                         \
      "the last cut does not cross strip 0")                                   \
    X(first_early, (SET.first = S(14).along = -2), "step 14",                  \
      "the first cut does not cross strip 0")                                  \
    X(piece, p->strips[0].full_piece = 1, "strip_sets[0]", "piece 1 is not")   \
    X(piece_unknown, p->strips[0].full_piece = NONE, "strip_sets[0]",          \
      "there is no piece")                                                     \
    X(piece_elsewhere, p->pieces[0].strip_set = NONE, "strip_sets[0]",         \
      "piece 0 is not such a strip")                                           \
    X(piece_spare, p->pieces[0].spares = 1, "pieces[0]", "0 strips are not")   \
    X(sewn_again, (S(15) = S(13), S(15).number = 15), "step 15", "sewn al")    \
    X(cut_again, (S(16) = S(14), S(16).number = 16), "step 16", "cut already") \
    X(cut_unsewn, (S(14) = S(16), S(14).number = 14), "step 14", "not sewn")   \
    X(sews_two, S(13).copies = 2, "step 13", "sews 2 sets of")                 \
    X(sews_more, (SET.sets = 2, SET.segments = 33, S(13).copies = 2),          \
      "step 13", "takes 2 strips of piece 0, 1 are left")                      \
    X(sews_short, S(13).distance -= 2, "step 13", "sews 1 sets of")            \
    X(sews_unknown, S(13).part_out = 2, "step 13", "there are no sets 2")      \
    X(sews_part, S(13).part_in = 0, "step 13", "sewing is not a cut")          \
    X(sews_cuts, S(13).cuts = 1, "step 13", "makes 0 cuts, not 1")             \
    X(sews_yield, S(13).yield = 0, "step 13", "yields 1, not 0")               \
    X(sews_layers, S(13).layers = 2, "step 13", "2 layers")                    \
    X(cuts_more, S(14).repeat = 14, "step 14", "1 sets are cut into 14")       \
    X(cuts_unknown, S(14).part_in = 2, "step 14", "there are no sets 2")       \
    X(cuts_part, S(14).part_out = 0, "step 14", "there are no sets")           \
    X(cuts_along, S(14).along = 2, "step 14", "the plan says")                 \
    X(cuts_lean, S(14).lean -= 2, "step 14", "the plan says")                  \
    X(cuts_apart, S(14).distance++, "step 14", "the plan says")                \
    X(cuts_count, S(14).cuts = 13, "step 14", "makes 14 cuts, not 13")         \
    X(cuts_yield, S(14).yield = 14, "step 14", "yields 13, not 14")            \
    X(cuts_total, S(16).total = 7, "step 16", "the total 20, not 7")           \
    X(cuts_layers, S(14).layers = 2, "step 14", "2 layers, allowed 1 to 1")    \
    X(cuts_piece, S(14).piece = 0, "step 14", "a strip set has no pieces")     \
    X(cuts_pairs, S(14).paired = true, "step 14", "has no pieces")             \
    X(set_unknown, S(14).set = 1, "step 14", "there is no strip set 1")        \
    X(kind, S(14).kind = QC_STEP_SUBCUT, "step 14", "is not for a strip set")  \
    X(halves_less, S(17).copies = 19, "step 17", "not all 20 segments")        \
    X(halves_again, S(17).repeat = 2, "step 17", "a second cut is one")        \
    X(halves_ruler, S(17).distance = 2, "step 17", "no part or ruler")         \
    X(halves_yield, S(17).yield = 20, "step 17", "yields 40, not 20")          \
    X(halves_cuts, S(17).cuts = 10, "step 17", "makes 20 cuts, not 10")        \
    X(halves_early, (S(15) = S(17), S(15).number = 15), "step 15",             \
      "not all 20 segments")                                                   \
    X(not_halved, SET.second_angle = 0, "step 17", "there is no second cut")   \
    X(never_halved, p->plan.step_count = 16, "strip_sets[0]", "not cut again") \
    X(never_cut, p->plan.step_count = 15, "strip_sets[0]", "13 segments are")  \
    X(second_at, SET.second_at = E(31), "step 17", "not go from side to side") \
    X(second_beyond, SET.second_at = E(51), "step 17", "from side to side")    \
    X(second_below, SET.second_at = -1, "step 17", "from side to side")        \
    X(second_steep, SET.second_angle = 60 * QC_DEGREE, "step 17", "from side") \
    X(second_along, SET.second_angle = 45 * QC_DEGREE, "step 17", "from side") \
    X(second_low, (SET.second_at = 0, SET.second_angle = 31552826), "step 17", \
      "from side to side")

LIES(LIE_TOLD)

static void rejects_every_lie(void **state)
{
    (void)state;
    REJECT_LIES(write_plan(&p, false), LIES(LIE_LISTED));
}

/* Values of sine and cosine that are known without a series: roots. 2^40 is
 * 1099511627776; half of it, its part by root 2, and by root 3 over 2. */
static void knows_sines(void **state)
{
    static const struct {
        int32_t degrees;
        int64_t sine, cosine;
    } of[] = {{0, 0, INT64_C(1099511627776)},
              {30, INT64_C(549755813888), INT64_C(952205001410)},
              {45, INT64_C(777472127993), INT64_C(777472127993)},
              {60, INT64_C(952205001410), INT64_C(549755813888)},
              {90, INT64_C(1099511627776), 0},
              {120, INT64_C(952205001410), -INT64_C(549755813888)},
              {135, INT64_C(777472127993), -INT64_C(777472127993)}};

    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++) {
        qci_replay_way got = qci_replay_direction(of[i].degrees * QC_DEGREE);

        assert_in_range(got.sine - of[i].sine + 2, 0, 4);
        assert_in_range(got.cosine - of[i].cosine + 2, 0, 4);
    }
    for (int64_t root = 0; root < 40; root++) {
        for (int64_t more = 0; more <= 2 * root; more++)
            assert_int_equal(qci_replay_root(root * root + more), root);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(accepts_the_paper_plan),
        cmocka_unit_test(accepts_a_left_handed_plan),
        cmocka_unit_test(accepts_square_sets),
        cmocka_unit_test(accepts_cuts_through_tips),
        cmocka_unit_test(rejects_every_lie),
        cmocka_unit_test(knows_sines),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
