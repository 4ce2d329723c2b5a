/* The text plan of what slants: shapes, hands, pairs and strip sets. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/order.h"
#include "replay/replay.h"
#include "slanted_plan.h"
#include "text_expect.h"

/* What a sewist must read of shapes, hands and lying. */
static void tells_how_shapes_are_cut(void **state)
{
    qc_plan *plan = slanted_plan();
    char *text = text_of(plan);

    (void)state;
    check_lines(text);
    expect(text, "Blade left 15 strips 2 1/2 parallelogram, 45 degrees: "
                 "slanted cuts 2 in apart; finishes 2 1/8 in along the strip, "
                 "\xE2\x89\x88"
                 "2.8284 in along the slant");
    expect(text, "Bank 13 strips 2 1/2 trapezoid, 5 in wide; long side "
                 "finishes 4 1/8 in, short side 2 1/8 in, height 2 in");
    /* 8 / sqrt3 = 4.6188 lies nearest to 4 10/16. */
    expect(text, "Heart 4 strips 4 hexagon, about 4 5/8 in wide");
    expect(text, "Star 18 strips 1 3/4 diamond, 45 degrees: slanted cuts "
                 "1 3/4 in apart, its sharp tips cut off; side finishes "
                 "\xE2\x89\x88"
                 "1.7574 in; trim back to 1 5/8 in between the slanted sides, "
                 "1 5/8 in between the others; 2 of them spare; rounded up");
    expect(text, "Sky 27 3 3/4 x 3 3/4 triangles: 20 from 5 squares cut twice "
                 "corner to corner, 7 singly from strips; the print faces two "
                 "ways in those from squares");
    expect(text, "print two-way: pieces are turned halfway round at most; "
                 "triangles face as they fall");
    expect(text, "S1 right Reed 1 40 x 3 for strip set S1");
    expect(text, "right is the one that slants to the right going up");
    qci_free(text);
    plan->pieces[SKY].facing_kept = true;
    ((qc_stack *)plan->fabrics[1].strips[0].subcuts[0].stacks)->yields = 1;
    text = text_of(plan);
    expect(text, "triangles cut singly from strips; the print faces the same "
                 "way in all");
    expect_none(text, "two ways");
    expect_none(text, "face as they fall");
    qci_free(text);
    qc_plan_destroy(plan);
}

static void tells_what_strips_give(void **state)
{
    qc_plan *plan = slanted_plan();
    char *text = text_of(plan);

    (void)state;
    expect(text, "From the squared left end on.");
    expect(text, "1 1 4 4 Heart (slanting right, then trimmed to the outline) "
                 "2 1 3 1 S1 right Reed 3");
    expect(text, "6 4 2 1/2 in twos, right sides together; each two give 6 "
                 "Blade right and 6 Blade left (slanting right), then 6 Bank "
                 "(alternately turned) "
                 "7 1 2 1/2 all right side up: 3 Blade left (slanting left), "
                 "then 1 Bank (wide side up) "
                 "8 2 1 3/4 9 Star (slanting right, then trimmed to the "
                 "outline)");
    expect(text, "1 1 3 3/4 5 squares for Sky 2 1 2");
    expect(text, "6 1 1 7/8 7 Sky (alternately turned)");
    expect(text, "Triangles were compared as cut from squares and, where that "
                 "could save cloth, singly");
    expect(text, "This order is for the right hand;");
    qci_free(text);
    plan->left_handed = true;
    text = text_of(plan);
    check_lines(text);
    expect(text, "From the squared right end on.");
    expect(text, "4 Heart (slanting left, then");
    expect(text, "3 Blade left (slanting right), then 1 Bank (wide side up)");
    expect(text, "This order is for the left hand: strips are worked from "
                 "their right end to the left");
    qci_free(text);
    qc_plan_destroy(plan);
}

/* 45 degrees: floor((40 - 2 3/4) / 2 sqrt2) = 13 segments from 40 in. */
static void tells_of_strip_sets(void **state)
{
    qc_plan *plan = slanted_plan();
    char *text = text_of(plan);

    (void)state;
    expect(text, "of 14 kinds from 2 fabrics, and 40 segments from strip sets. "
                 "All");
    expect(text, "S1 right strip cut width, in fabric its left end 1 3 Reed "
                 "even with strip 1 2 2 Sand 2 1/2 in farther to the right "
                 "cuts at 45 degrees, slanting right; 2 in apart, measured "
                 "square to the cut; to check: about 2 13/16 in along the "
                 "strips full sets 1, 40 in long, cut into 13 segments last "
                 "set 22 7/8 in long, cut into 7 segments gives 20 segments, "
                 "4 1/2 in from raw edge to raw edge length 40 in at most: "
                 "Sand, the narrowest of the fabrics, rules takes 1 S1 "
                 "right Reed, 40 x 3 in of Reed; 1 S1 right Sand, 40 x 2 in of "
                 "Sand; 1 S1 right Reed end, 22 7/8 x 3 in of Reed; 1 S1 right "
                 "Sand end, 22 7/8 x 2 in of Sand S1 left");
    expect(text, "2 1/2 in farther to the left cuts at 45 degrees, slanting "
                 "left;");
    expect(text, "second cut through every segment, from the point "
                 "2 1/2 in up its right side, at 45 degrees to the strips, "
                 "slanting right; both parts are counted");
    expect(
        text,
        " Reed: 0 cuts, 0.0 yd of cutting 1. Do step 1. 2. Do step 2. 3. Do "
        "step 3. 4. "
        "Do step 4. Strip sets: S1 right: 15 cuts, 2.5 yd of cutting 5. Do "
        "step 5. 6. Do "
        "step 6. Strip sets: S1 left: 2 cuts, 0.0 yd of cutting 7. Do step 7.");
    qci_free(text);
    /* Strips of one width from fabrics of one width, cut square. */
    for (size_t i = 0; i < plan->set_count; i++) {
        qc_plan_set *set = &plan->sets[i].info;

        set->hand = QC_HAND_NONE;
        set->lean = set->second_at = 0;
        set->angle = 90 * QC_DEGREE;
        set->sets = 0;
    }
    plan->fabrics[0].info.usable_width = INCHES(40);
    text = text_of(plan);
    expect(text, "cuts square across, 2 in apart one set 22 7/8 in long, cut "
                 "into 7 segments");
    expect(text, "from its lower left corner, at 45 degrees to the strips, "
                 "slanting left; both");
    expect_none(text, "rules");
    expect_none(text, "full sets");
    qci_free(text);
    qc_plan_destroy(plan);
}

/* The plan is a true one: made into steps, it yields its pieces. */
static void is_carried_out_as_it_reads(void **state)
{
    qc_plan *plan = slanted_plan();
    char *text;

    (void)state;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_int_equal(qci_replay_plan(plan, NULL), QC_STATUS_OK);
    text = text_of(plan);
    check_lines(text);
    expect(text, " Strip sets: S1 left: ");
    qci_free(text);
    qc_plan_destroy(plan);
}

static void reports_when_memory_is_out(void **state)
{
    (void)state;
    check_text_out_of_memory(slanted_plan());
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tells_how_shapes_are_cut),
        cmocka_unit_test(tells_what_strips_give),
        cmocka_unit_test(tells_of_strip_sets),
        cmocka_unit_test(is_carried_out_as_it_reads),
        cmocka_unit_test(reports_when_memory_is_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
