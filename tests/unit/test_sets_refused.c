/* Strip sets that are wrong or impossible: which message, at which place. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "set_draft.h"

#define REFUSE_SETS(change, field, problem)                                    \
    do {                                                                       \
        sets s;                                                                \
        sets_init(&s, 2, 20 * EIGHTH, 5);                                      \
        change;                                                                \
        draft_refuse(&s.d, QC_STATUS_INVALID, "strip_sets" field, problem);    \
    } while (0)

static void wrong_strips_are_refused(void **state)
{
    (void)state;
    REFUSE_SETS(s.d.spec.strip_set_count = 201, "", "has 201 entries");
    REFUSE_SETS(s.set[0].strip_count = 1, "[0].strips", "is one strip");
    REFUSE_SETS(s.set[0].strip_count = 0, "[0].strips", "has 0 entries");
    REFUSE_SETS(s.set[0].strips = NULL, "[0].strips", "has 0 entries");
    REFUSE_SETS(s.set[0].strip_count = 41, "[0].strips", "has 41 entries");
    REFUSE_SETS(s.strips[1].fabric = "sandy", "[0].strips[1].fabric",
                "is the id of no fabric; the nearest is \"sand\"");
    REFUSE_SETS(s.strips[1].fabric = NULL, "[0].strips[1].fabric",
                "is missing");
    REFUSE_SETS(s.strips[1].width = 0, "[0].strips[1].cut", "must not be 0");
    REFUSE_SETS((s.strips[0].width = -1, s.strips[0].is_cut = false),
                "[0].strips[0].finished", "is negative");
    REFUSE_SETS(s.strips[0].width = QC_MAX_WIDTH + 1, "[0].strips[0].cut",
                "is too large");
    REFUSE_SETS(s.strips[0].width = INT64_MAX, "[0].strips[0].cut",
                "is too large");
    REFUSE_SETS(s.strips[0].width = 4 * EIGHTH, "[0].strips[0].cut",
                "leaves nothing between its seams, which take 1/2 in");
    REFUSE_SETS(s.strips[0].width_rounded = true, "[0].strips[0].cut",
                "must not have been rounded");
}

static void wrong_names_are_refused(void **state)
{
    (void)state;
    REFUSE_SETS(s.set[0].id = NULL, "[0].id", "is missing");
    REFUSE_SETS(s.set[0].id = "", "[0].id", "must not be empty");
    REFUSE_SETS((s.d.spec.piece_count = 1, s.set[0].id = "A"), "[0].id",
                "is also the id of pieces[0]");
    REFUSE_SETS((s.d.spec.strip_set_count = 2, s.set[1].id = "S"), "[1].id",
                "is also the id of strip_sets[0]");
    REFUSE_SETS((s.d.spec.piece_count = 1, s.d.pieces[0].id = "S strip 2 end"),
                "[0].id", "makes the name \"S strip 2 end\", which is taken");
    REFUSE_SETS((s.d.spec.piece_count = 1, s.d.pieces[0].id = "S left",
                 s.set[0].hands = QC_SET_PAIRS),
                "[0].id", "makes the name \"S left\", which is taken");
    REFUSE_SETS((s.d.spec.strip_set_count = 2, s.set[0].hands = QC_SET_PAIRS,
                 s.set[1].id = "S right"),
                "[1].id", "which is taken");
}

static void wrong_cuts_are_refused(void **state)
{
    (void)state;
    REFUSE_SETS(s.set[0].angle = 0, "[0].angle", "is no angle");
    REFUSE_SETS(s.set[0].angle = -2, "[0].angle", "is no angle");
    REFUSE_SETS(s.set[0].angle = 180 * DEGREE, "[0].angle", "is no angle");
    REFUSE_SETS(s.set[0].angle = INT32_MIN, "[0].angle", "is no angle");
    REFUSE_SETS(s.set[0].angle = DEGREE - 1, "[0].angle", "is no angle");
    REFUSE_SETS((s.set[0].angle = DEGREE, s.set[0].spacing = QC_INCH,
                 s.strips[0].width = 20 * QC_INCH),
                "[0].angle", "more than 20 m along");
    REFUSE_SETS(s.set[0].hands = (qc_set_hands)3, "[0].hand", "is no hand");
    REFUSE_SETS((s.set[0].angle = QC_DEFAULT, s.set[0].hands = QC_SET_PAIRS),
                "[0].hand", "is asked of square cuts, which have none");
    REFUSE_SETS((s.set[0].angle = 90 * DEGREE, s.set[0].hands = QC_SET_LEFT),
                "[0].hand", "is asked of square cuts, which have none");
    REFUSE_SETS(s.set[0].stagger = (qc_stagger)4, "[0].stagger",
                "is no stagger");
    REFUSE_SETS(
        (s.set[0].stagger = QC_STAGGER_LENGTH, s.set[0].stagger_by = -1),
        "[0].stagger", "is negative");
    REFUSE_SETS(s.set[0].spacing = 0, "[0].spacing", "must not be 0");
    REFUSE_SETS(s.set[0].spacing = -2, "[0].spacing", "is negative");
    REFUSE_SETS(s.set[0].spacing = INT64_MAX, "[0].spacing", "is too large");
    REFUSE_SETS(s.strips[1].width = 21 * EIGHTH, "[0].spacing", "is left open");
    REFUSE_SETS(s.set[0].segments = 0, "[0].segments", "must not be 0");
    REFUSE_SETS(s.set[0].segments = -1, "[0].segments", "is negative");
    REFUSE_SETS(
        (s.set[0].segments = INT64_MAX, s.d.spec.spare_percent = 100000),
        "[0].segments", "is too large");
    REFUSE_SETS((s.set[0].segments = QC_MAX_COUNT, s.d.spec.spare_count = 7),
                "[0].segments", "is too large with its 7 spares");
    REFUSE_SETS(s.set[0].second_angle = -1, "[0].second.angle", "is no angle");
    REFUSE_SETS(s.set[0].second_angle = 180 * DEGREE, "[0].second.angle",
                "is no angle");
    REFUSE_SETS((s.set[0].second_angle = 90 * DEGREE, s.set[0].second_at = -1),
                "[0].second.at", "beyond the side");
    /* 4 1/2 high, at 45 degrees: 6.364 along the side */
    REFUSE_SETS(
        (s.set[0].second_angle = 90 * DEGREE, s.set[0].second_at = 51 * EIGHTH),
        "[0].second.at", "beyond the side, which is about 6 1/4 in long");
    REFUSE_SETS(
        (s.set[0].second_angle = 20 * DEGREE, s.set[0].angle = 135 * DEGREE),
        "[0].second", "is told for segments that lean to the right");
}

static void sets_that_are_too_long_are_impossible(void **state)
{
    sets s;

    (void)state;
    /* 6 strips of 7 in at 45 degrees without steps lean by 39 1/2 in. */
    sets_init(&s, 6, 56 * EIGHTH, 5);
    s.set[0].stagger = QC_STAGGER_NONE;
    draft_refuse(&s.d, QC_STATUS_IMPOSSIBLE, "strip_sets[0]",
                 "strip set S needs about 49 1/2 in of length for its first "
                 "slanted cut and one segment; the narrowest of its fabrics "
                 "has 42 in");
    s.set[0].stagger = QC_STAGGER_AUTO;
    qc_job_destroy(draft_make(&s.d));
    sets_init(&s, 2, 20 * EIGHTH, 5);
    s.set[0].angle = QC_DEFAULT;
    s.set[0].spacing = 43 * QC_INCH;
    draft_refuse(&s.d, QC_STATUS_IMPOSSIBLE, "strip_sets[0]",
                 "needs about 43 in of length for its first cut and");
    s.set[0].spacing = 42 * QC_INCH;
    assert_int_equal(sets_only(&s).per_set, 1);
}

/* The largest numbers go through without an overflow (seen by UBSan). */
static void the_largest_sets(void **state)
{
    sets s;
    qc_job *job = NULL;

    (void)state;
    sets_init(&s, 40, QC_MAX_WIDTH, QC_MAX_COUNT);
    s.set[0].stagger = QC_STAGGER_LENGTH;
    s.set[0].stagger_by = QC_MAX_WIDTH;
    assert_int_equal(qc_job_create(&s.d.spec, &job, NULL), QC_STATUS_INVALID);
    sets_init(&s, 40, QC_MAX_WIDTH / 50, QC_MAX_COUNT);
    s.set[0].stagger = QC_STAGGER_LENGTH;
    s.set[0].stagger_by = QC_MAX_WIDTH;
    s.set[0].spacing = QC_MAX_WIDTH;
    assert_int_equal(qc_job_create(&s.d.spec, &job, NULL),
                     QC_STATUS_IMPOSSIBLE);
    sets_init(&s, 2, 2, QC_MAX_COUNT);
    s.d.spec.seam = 0;
    s.set[0].angle = 1;
    s.set[0].spacing = QC_MAX_WIDTH;
    assert_int_equal(qc_job_create(&s.d.spec, &job, NULL), QC_STATUS_INVALID);
}

static void every_allocation_may_fail(void **state)
{
    sets s;

    (void)state;
    sets_init(&s, 3, 20 * EIGHTH, 40);
    s.set[0].hands = QC_SET_PAIRS;
    s.d.fabrics[0].width = 40 * QC_INCH;
    s.d.spec.strip_set_count = 2;
    for (int bad = 0; bad < 2; bad++)
        for (int onwards = 0; onwards < 2; onwards++)
            for (long n = 1;; n++) {
                qc_job *job = NULL;
                qc_status status;

                /* The message of a wrong second cut takes memory, too. */
                s.set[1].second_angle = bad ? 100 * DEGREE : 0;
                qci_alloc_fail_at(n, onwards);
                status = qc_job_create(&s.d.spec, &job, NULL);
                qci_alloc_fail_at(0, 0);
                qc_job_destroy(job);
                assert_int_equal(qci_alloc_live(), 0);
                if (status != QC_STATUS_NO_MEMORY) {
                    assert_int_equal(status,
                                     bad ? QC_STATUS_INVALID : QC_STATUS_OK);
                    assert_true(n > 30);
                    break;
                }
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wrong_strips_are_refused),
        cmocka_unit_test(wrong_names_are_refused),
        cmocka_unit_test(wrong_cuts_are_refused),
        cmocka_unit_test(sets_that_are_too_long_are_impossible),
        cmocka_unit_test(the_largest_sets),
        cmocka_unit_test(every_allocation_may_fail),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
