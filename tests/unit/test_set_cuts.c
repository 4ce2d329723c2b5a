/* Where strip sets are cut, against a model that lays every cut over every
 * strip in floating point; and where their segments are cut a second time. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "set_draft.h"

static uint64_t seed = 20260;

static int64_t pick(int64_t least, int64_t most)
{
    seed = seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return least + (int64_t)((seed >> 33) % (uint64_t)(most - least + 1));
}

/* Is a cut whose lower end is at x on cloth all the way up? Strips are `length`
 * long; `slack` more or less at their ends. */
static bool is_on_cloth(const qci_set *set, double x, double length,
                        double slack, double slope)
{
    double y = 0, seams = 4 * EIGHTH;

    for (size_t i = 0; i < set->info.strip_count; i++) {
        double begin = (double)set->strips[i].offset;
        double width = (double)set->strips[i].width;

        for (int k = 0; k <= 8; k++) {
            double at = x + (y + width * k / 8) * slope;

            if (at < begin - slack || at > begin + length + slack)
                return false;
        }
        y += width - seams;
    }
    return true;
}

/* All cuts are on cloth, and neither could the first begin sooner nor one more
 * segment be had of the longest strips. */
static void check_cuts(const qci_set *set, double angle)
{
    const qc_plan_set *info = &set->info;
    double sign = info->hand == QC_HAND_LEFT ? -1 : 1;
    double slope = sign / tan(angle * acos(-1) / 180);
    double pitch = (double)info->spacing / sin(angle * acos(-1) / 180);
    double first = (double)info->first;

    slope = info->hand == QC_HAND_NONE ? 0 : slope;
    assert_true((double)info->pitch >= pitch - 1e-3);
    assert_true((double)info->pitch <= pitch + 4);
    for (int part = 0; part < 2; part++) {
        int64_t n = part ? info->part_segments : info->per_set;
        double length = (double)(part ? info->part_length : info->full_length);

        if (!(part ? info->part_segments : info->sets))
            continue;
        assert_true(length <= (double)info->usable);
        for (int64_t k = 0; k <= n; k++)
            assert_true(is_on_cloth(set, first + (double)(k * info->pitch),
                                    length, 2, slope));
    }
    assert_false(is_on_cloth(set, first - 8, 1e9, 0, slope));
    assert_false(is_on_cloth(set, (double)(info->usable - info->tail) + 8,
                             (double)info->usable, 0, slope));
    assert_true((info->per_set + 1) * info->pitch >
                info->usable - info->tail - info->first);
}

static void random_sets_against_the_model(void **state)
{
    static const int32_t degrees[] = {22, 30, 45, 53, 60, 75, 90};
    int laid = 0;

    (void)state;
    for (int round = 0; round < 3000; round++) {
        sets s;
        qc_job *job = NULL;
        int32_t angle = degrees[pick(0, 6)];

        sets_init(&s, (size_t)pick(2, 7), 0, pick(1, 60));
        for (size_t i = 0; i < s.set[0].strip_count; i++)
            s.strips[i].width = pick(6, 40) * EIGHTH;
        s.set[0].angle = angle * DEGREE;
        s.set[0].spacing = pick(8, 40) * EIGHTH;
        s.set[0].hands = angle == 90 ? QC_SET_RIGHT : QC_SET_PAIRS;
        s.set[0].stagger = (qc_stagger)pick(0, 3);
        s.set[0].stagger_by = pick(0, 20) * EIGHTH;
        s.d.fabrics[pick(0, 1)].width = pick(34, 44) * QC_INCH;
        if (qc_job_create(&s.d.spec, &job, NULL) == QC_STATUS_IMPOSSIBLE)
            continue;
        assert_non_null(job);
        laid++;
        for (size_t i = 0; i < job->set_count; i++)
            check_cuts(&job->sets[i], angle);
        if (job->set_count == 2)
            sets_mirrored(&job->sets[0], &job->sets[1]);
        qc_job_destroy(job);
    }
    assert_true(laid > 2000);
}

/* Segments 4 1/2 high and 4 1/2 wide: corner to corner is 45 degrees. */
static void init_second(sets *s, qc_length at, int32_t angle)
{
    sets_init(s, 2, 20 * EIGHTH, 5);
    s->set[0].angle = QC_DEFAULT;
    s->set[0].spacing = 36 * EIGHTH;
    s->set[0].second_at = at;
    s->set[0].second_angle = angle;
}

static void second_cuts_go_from_side_to_side(void **state)
{
    static const struct {
        qc_length eighths;
        int32_t angle;       /* millionths */
        const char *allowed; /* NULL: it is taken */
    } cases[] = {
        {0, 45 * DEGREE, NULL},
        {0, 1 * DEGREE, NULL},
        {0, 45 * DEGREE + 1000, "from there, about 1 to 45 degrees"},
        {0, 90 * DEGREE, "from there, about 1 to 45 degrees"},
        {0, 179 * DEGREE, "from there, about 1 to 45 degrees"},
        {0, 1, "1 to 179 degrees"}, /* the lower edge */
        {36, 135 * DEGREE, NULL},
        {36, 179 * DEGREE, NULL},
        {36, 134 * DEGREE, "from there, about 135 to 179 degrees"},
        {36, 179 * DEGREE + 1, "1 to 179 degrees"},
        {18, 26 * DEGREE, NULL}, /* 26.565 at most */
        {18, 27 * DEGREE, "from there, about 1 to 26 or 154 to 179 degrees"},
        {18, 154 * DEGREE, NULL},
        {18, 153 * DEGREE, "from there, about 1 to 26 or 154 to 179 degrees"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        sets s;
        qc_job *job = NULL;
        qc_error err;
        qc_status status;

        qc_error_init(&err);
        init_second(&s, cases[i].eighths * EIGHTH, cases[i].angle);
        status = qc_job_create(&s.d.spec, &job, &err);
        assert_int_equal(status,
                         cases[i].allowed ? QC_STATUS_INVALID : QC_STATUS_OK);
        if (status) {
            assert_string_equal(err.field, "strip_sets[0].second.angle");
            assert_string_equal(err.allowed, cases[i].allowed);
            continue;
        }
        assert_int_equal(job->sets[0].info.second_at,
                         cases[i].eighths * EIGHTH);
        assert_int_equal(job->sets[0].info.second_angle, cases[i].angle);
        qc_job_destroy(job);
    }
}

/* At the first cuts' own angle it would run along the side; both hands take
 * what the right one does, as its mirror image. */
static void second_cuts_of_slanted_segments(void **state)
{
    sets s;
    qc_job *job;

    (void)state;
    sets_init(&s, 2, 20 * EIGHTH, 5);
    s.set[0].hands = QC_SET_PAIRS;
    s.set[0].second_angle = 45 * DEGREE;
    draft_refuse(&s.d, QC_STATUS_INVALID, "strip_sets[0].second.angle",
                 "does not go from the segment's left side");
    s.set[0].second_angle = 20 * DEGREE;
    job = draft_make(&s.d);
    for (size_t i = 0; i < 2; i++)
        assert_int_equal(job->sets[i].info.second_angle, 20 * DEGREE);
    qc_job_destroy(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_sets_against_the_model),
        cmocka_unit_test(second_cuts_go_from_side_to_side),
        cmocka_unit_test(second_cuts_of_slanted_segments),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
