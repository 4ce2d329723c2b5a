/* Strip sets of a job: how many segments they give, against published counts,
 * and which strips they become. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "set_draft.h"

/* "From a staggered set, strip w: floor((W - w) / (w sqrt2)); w = 2 1/4: 12 at
 * W = 42, 11 at 40" (geometry); the crosscuts lie as far apart as the strips
 * are wide, which is the usual way (S105, stored copy). */
static void published_counts_of_segments(void **state)
{
    static const int eighths[] = {10, 12, 14, 16, 18, 20, 24, 28, 33, 40, 64};
    sets s;

    (void)state;
    for (size_t n = 2; n <= 8; n += 3) {
        sets_init(&s, n, 18 * EIGHTH, 100);
        assert_int_equal(sets_only(&s).per_set, 12);
        s.d.fabrics[0].width = s.d.fabrics[1].width = 40 * QC_INCH;
        assert_int_equal(sets_only(&s).per_set, 11);
    }
    for (size_t i = 0; i < sizeof eighths / sizeof *eighths; i++)
        for (int width = 36; width <= 58; width++) {
            double w = eighths[i] / 8.0;

            sets_init(&s, 3, eighths[i] * EIGHTH, 100);
            s.d.fabrics[0].width = s.d.fabrics[1].width = width * QC_INCH;
            assert_int_equal(sets_only(&s).per_set,
                             (int64_t)floor((width - w) / (w * sqrt(2))));
        }
}

/* "Cost of staggering too much: (stagger - exact) x (strips - 1) of usable
 * length; 2 in for 2 1/4 in strips, 8 strips: 1 3/4 in" (geometry): 11 segments
 * at W = 42 where 12 would fit. */
static void staggering_too_much_costs_length(void **state)
{
    sets s;
    qc_plan_set best, wide;

    (void)state;
    sets_init(&s, 8, 18 * EIGHTH, 100);
    best = sets_only(&s);
    s.set[0].stagger = QC_STAGGER_LENGTH;
    s.set[0].stagger_by = 2 * QC_INCH;
    wide = sets_only(&s);
    assert_int_equal(best.first, 0);
    assert_int_equal(best.tail, 18 * EIGHTH);
    assert_int_equal(best.per_set, 12);
    assert_int_equal(wide.first, 14 * EIGHTH);
    assert_int_equal(wide.tail, 18 * EIGHTH);
    assert_int_equal(wide.per_set, 11);
}

/* Steps of the strips' ends, by hand: 2 1/2 - 1/2, 2 1/2, 0 and 1 in; at 60
 * degrees 2 x 0.57735. */
static void strips_are_stepped_along(void **state)
{
    static const struct {
        qc_stagger stagger;
        int32_t angle;
        double step;
    } cases[] = {{QC_STAGGER_AUTO, 45, 2},         {QC_STAGGER_WIDTH, 45, 2.5},
                 {QC_STAGGER_NONE, 45, 0},         {QC_STAGGER_LENGTH, 45, 1},
                 {QC_STAGGER_AUTO, 60, 1.1547005}, {QC_STAGGER_AUTO, 90, 0},
                 {QC_STAGGER_WIDTH, 60, 1.4433757}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        sets s;
        qc_job *job;

        sets_init(&s, 4, 20 * EIGHTH, 5);
        s.set[0].stagger = cases[i].stagger;
        s.set[0].stagger_by = QC_INCH;
        s.set[0].angle = cases[i].angle * DEGREE;
        job = draft_make(&s.d);
        for (int k = 0; k < 4; k++)
            assert_true(fabs((double)job->sets[0].strips[k].offset -
                             k * cases[i].step * (double)QC_INCH) <= 2 * k + 2);
        qc_job_destroy(job);
    }
}

/* 40 segments of 2 1/4 in strips: 3 sets of 12 and one of 4. 12 x 3.18198 + 2
 * 1/4 = 40.43, on the ruler 40 1/2; 4 x 3.18198 + 2 1/4 = 14.98: 15. */
static void strips_become_pieces_of_their_fabrics(void **state)
{
    static const char *const ids[] = {"S strip 1", "S strip 1 end", "S strip 2",
                                      "S strip 2 end"};
    sets s;
    qc_job *job;
    const qci_set *set;

    (void)state;
    sets_init(&s, 2, 18 * EIGHTH, 40);
    job = draft_make(&s.d);
    set = &job->sets[0];
    assert_string_equal(set->info.id, "S");
    assert_string_equal(set->info.job_id, "S");
    assert_int_equal(set->info.hand, QC_HAND_RIGHT);
    assert_int_equal(set->info.height, 32 * EIGHTH);
    assert_int_equal(set->info.lean, 32 * EIGHTH);
    assert_int_equal(set->info.spacing, 18 * EIGHTH);
    assert_int_equal(set->info.angle, 45 * DEGREE);
    assert_int_equal(set->info.usable, 42 * QC_INCH);
    assert_int_equal(set->info.segments, 40);
    assert_int_equal(set->info.sets, 3);
    assert_int_equal(set->info.part_segments, 4);
    assert_int_equal(set->info.full_length, 324 * EIGHTH);
    assert_int_equal(set->info.part_length, 120 * EIGHTH);
    assert_int_equal(set->info.second_angle, 0);
    assert_int_equal(job->piece_count, 4);
    for (uint32_t i = 0; i < 4; i++) {
        const qci_piece *piece = &job->pieces[i];
        qc_length length = (i % 2 ? 120 : 324) * EIGHTH;

        assert_string_equal(piece->id, ids[i]);
        assert_string_equal(piece->job_id, "S");
        assert_int_equal(piece->fabric, i / 2);
        assert_int_equal(piece->shape, QC_SHAPE_RECTANGLE);
        assert_int_equal(piece->hand, QC_HAND_NONE);
        assert_int_equal(piece->twin, i);
        assert_int_equal(piece->grain, QC_GRAIN_CROSSWISE);
        assert_int_equal(piece->cut[0], length);
        assert_int_equal(piece->cut[1], 18 * EIGHTH);
        assert_int_equal(piece->count, i % 2 ? 1 : 3);
        assert_int_equal(piece->spares, 0);
        /* A segment finishes 1 3/4 in square to the cuts and to the seams. */
        assert_true(
            fabs((double)piece->finished_area / ((i % 2 ? 4 : 12) * sqrt(2.0) *
                                                 14 * EIGHTH * 14 * EIGHTH) -
                 1) < 1e-5);
        assert_int_equal(piece->strip_set, 0);
        assert_false(piece->rounded);
    }
    for (uint32_t i = 0; i < 2; i++) {
        assert_int_equal(set->strips[i].fabric, i);
        assert_int_equal(set->strips[i].full_piece, 2 * i);
        assert_int_equal(set->strips[i].part_piece, 2 * i + 1);
    }
    qc_job_destroy(job);
}

static void sets_without_a_full_or_a_short_one(void **state)
{
    sets s;
    qc_job *job;

    (void)state;
    sets_init(&s, 2, 18 * EIGHTH, 24);
    job = draft_make(&s.d);
    assert_int_equal(job->piece_count, 2);
    assert_int_equal(job->sets[0].info.sets, 2);
    assert_int_equal(job->sets[0].info.part_length, 0);
    assert_int_equal(job->sets[0].strips[1].full_piece, 1);
    assert_int_equal(job->sets[0].strips[1].part_piece, QC_NONE);
    qc_job_destroy(job);
    sets_init(&s, 2, 18 * EIGHTH, 11);
    job = draft_make(&s.d);
    assert_int_equal(job->piece_count, 2);
    assert_int_equal(job->sets[0].info.sets, 0);
    assert_int_equal(job->sets[0].info.full_length, 0);
    assert_int_equal(job->sets[0].strips[1].full_piece, QC_NONE);
    assert_int_equal(job->sets[0].strips[1].part_piece, 1);
    assert_string_equal(job->pieces[1].id, "S strip 2 end");
    qc_job_destroy(job);
}

/* Spares are segments: 2 more than 11 fill a set of 12 and begin another. */
static void spares_are_segments(void **state)
{
    sets s;
    qc_plan_set set;

    (void)state;
    sets_init(&s, 2, 18 * EIGHTH, 11);
    s.d.spec.spare_count = 2;
    set = sets_only(&s);
    assert_int_equal(set.segments, 13);
    assert_int_equal(set.sets, 1);
    assert_int_equal(set.part_segments, 1);
    s.d.spec.spare_count = QC_DEFAULT;
    s.d.spec.spare_percent = 1000; /* 1.1 of 11: 2 */
    assert_int_equal(sets_only(&s).segments, 13);
}

/* Finished 1 3/4 is cut 2 1/4; finished 1.8, up to the ruler, 2 3/8. */
static void finished_widths_take_two_seams(void **state)
{
    sets s;
    qc_job *job;

    (void)state;
    sets_init(&s, 2, 14 * EIGHTH, 12);
    s.set[0].spacing = 18 * EIGHTH;
    s.strips[0].is_cut = s.strips[1].is_cut = false;
    s.strips[1].width = QC_INCH * 9 / 5;
    job = draft_make(&s.d);
    assert_int_equal(job->sets[0].strips[0].width, 18 * EIGHTH);
    assert_false(job->pieces[0].rounded);
    assert_int_equal(job->sets[0].strips[1].width, 19 * EIGHTH);
    assert_true(job->pieces[1].rounded);
    qc_job_destroy(job);
}

static bool tells(const qc_job *job, const char *sentence)
{
    for (size_t i = 0; i < job->default_count; i++)
        if (strcmp(job->defaults[i], sentence) == 0)
            return true;
    return false;
}

static void the_narrowest_fabric_rules_and_is_told(void **state)
{
    sets s;
    qc_job *job;

    (void)state;
    sets_init(&s, 3, 18 * EIGHTH, 30);
    s.d.fabrics[1].width = 40 * QC_INCH;
    job = draft_make(&s.d);
    assert_int_equal(job->sets[0].info.per_set, 11);
    assert_int_equal(job->sets[0].info.usable, 40 * QC_INCH);
    assert_int_equal(job->pieces[0].cut[0], job->pieces[2].cut[0]);
    assert_true(job->pieces[0].cut[0] <= 40 * QC_INCH);
    assert_true(tells(job, "strips of set S: as long as its narrowest fabric "
                           "allows, 40 in"));
    assert_true(tells(job, "spacing of set S: the width of its strips, 2 1/4 "
                           "in"));
    qc_job_destroy(job);
    sets_init(&s, 3, 18 * EIGHTH, 30);
    s.set[0].spacing = 18 * EIGHTH;
    job = draft_make(&s.d);
    for (size_t i = 0; i < job->default_count; i++)
        assert_null(strstr(job->defaults[i], "set S"));
    qc_job_destroy(job);
}

static void pairs_are_two_sets_in_the_mirror(void **state)
{
    sets s;
    qc_job *job;

    (void)state;
    sets_init(&s, 2, 18 * EIGHTH, 31);
    s.set[0].hands = QC_SET_PAIRS;
    s.set[0].stagger = QC_STAGGER_WIDTH;
    job = draft_make(&s.d);
    assert_int_equal(job->set_count, 2);
    assert_string_equal(job->sets[0].info.id, "S right");
    assert_string_equal(job->sets[1].info.id, "S left");
    assert_string_equal(job->sets[1].info.job_id, "S");
    sets_mirrored(&job->sets[0], &job->sets[1]);
    /* Both hands take the same strips. */
    assert_int_equal(job->piece_count, 4);
    assert_string_equal(job->pieces[0].id, "S strip 1");
    assert_string_equal(job->pieces[3].id, "S strip 2 end");
    assert_int_equal(job->pieces[0].count, 2 * job->sets[0].info.sets);
    assert_int_equal(job->pieces[3].count, 2);
    assert_int_equal(job->pieces[3].strip_set, 0);
    for (int i = 0; i < 2; i++)
        assert_int_equal(job->sets[i].strips[1].part_piece, 3);
    qc_job_destroy(job);
}

/* The strips of one fabric and width are one kind of piece, the outer two of
 * three here. */
static void strips_that_are_alike_are_one_piece(void **state)
{
    qc_job *job;
    sets s;

    (void)state;
    sets_init(&s, 3, 18 * EIGHTH, 30);
    s.strips[1].width = 20 * EIGHTH;
    s.set[0].spacing = 18 * EIGHTH;
    s.strips[0].fabric = s.strips[1].fabric = s.strips[2].fabric;
    job = draft_make(&s.d);
    assert_int_equal(job->piece_count, 4);
    assert_string_equal(job->pieces[0].id, "S strip 1+3");
    assert_string_equal(job->pieces[1].id, "S strip 1+3 end");
    assert_string_equal(job->pieces[2].id, "S strip 2");
    assert_int_equal(job->pieces[0].count, 2 * job->sets[0].info.sets);
    assert_int_equal(job->pieces[1].count, 2);
    assert_int_equal(job->pieces[2].count, job->sets[0].info.sets);
    assert_int_equal(job->sets[0].strips[2].full_piece, 0);
    assert_int_equal(job->sets[0].strips[2].part_piece, 1);
    qc_job_destroy(job);
}

/* Whatever the angle, the cuts lean to the hand that is asked for. */
static void the_hand_says_which_way_cuts_lean(void **state)
{
    static const int32_t angles[] = {20, 45, 60, 89, 91, 120, 135, 160};

    (void)state;
    for (size_t i = 0; i < sizeof angles / sizeof *angles; i++) {
        sets s;
        qc_plan_set left, right;

        sets_init(&s, 2, 12 * EIGHTH, 3);
        s.set[0].angle = angles[i] * DEGREE;
        right = sets_only(&s);
        s.set[0].hands = QC_SET_LEFT;
        left = sets_only(&s);
        assert_int_equal(right.hand, QC_HAND_RIGHT);
        assert_true(right.lean > 0);
        assert_int_equal(left.hand, QC_HAND_LEFT);
        assert_int_equal(left.lean, -right.lean);
        assert_int_equal(left.angle, angles[i] * DEGREE);
        s.set[0].angle = (180 - angles[i]) * DEGREE;
        assert_int_equal(sets_only(&s).lean, left.lean);
        assert_int_equal(sets_only(&s).pitch, left.pitch);
    }
}

static void square_cuts_have_no_hand(void **state)
{
    sets s;
    qc_plan_set set;

    (void)state;
    sets_init(&s, 2, 18 * EIGHTH, 30);
    s.set[0].angle = QC_DEFAULT;
    set = sets_only(&s);
    assert_int_equal(set.hand, QC_HAND_NONE);
    assert_int_equal(set.lean, 0);
    assert_int_equal(set.angle, 90 * DEGREE);
    assert_int_equal(set.pitch, 18 * EIGHTH);
    assert_int_equal(set.per_set, 18); /* 42 / 2 1/4 = 18.67 */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_counts_of_segments),
        cmocka_unit_test(staggering_too_much_costs_length),
        cmocka_unit_test(strips_are_stepped_along),
        cmocka_unit_test(strips_become_pieces_of_their_fabrics),
        cmocka_unit_test(sets_without_a_full_or_a_short_one),
        cmocka_unit_test(spares_are_segments),
        cmocka_unit_test(finished_widths_take_two_seams),
        cmocka_unit_test(the_narrowest_fabric_rules_and_is_told),
        cmocka_unit_test(pairs_are_two_sets_in_the_mirror),
        cmocka_unit_test(strips_that_are_alike_are_one_piece),
        cmocka_unit_test(the_hand_says_which_way_cuts_lean),
        cmocka_unit_test(square_cuts_have_no_hand),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
