/* Tiny jobs against trying everything: 600 for the lengths, 150 of them for the
 * set-ups, 100 for the narrowest width as well. Sizes are small multiples of
 * half an inch on narrow cloth, so that strips are full and trims matter.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "brute.h"

#define HALF (QC_INCH / 2)

static bool has_size(const mini_job *job, qc_length a, qc_length b)
{
    size_t i;

    for (i = 0; i < job->piece_count; i++) {
        const mini_piece *p = &job->pieces[i];
        if ((p->across == a && p->along == b) ||
            (p->across == b && p->along == a))
            return true;
    }
    return false;
}

static void random_grain(mini_job *job, mini_random *r)
{
    mini_piece *p = &job->pieces[job->piece_count - 1];

    if (job->print != QC_PRINT_PLAIN && job->print != QC_PRINT_REVERSIBLE)
        return;
    if (mini_between(r, 0, 5) == 0 && p->along <= job->width)
        p->grain = QC_GRAIN_LENGTHWISE;
    else if (mini_between(r, 0, 5) == 0 && p->across <= job->width)
        p->grain = QC_GRAIN_CROSSWISE;
}

/* A tiny job; `pieces` copies in all. */
static void random_job(mini_job *job, mini_random *r, int pieces)
{
    qc_length steps[] = {HALF, QC_INCH, QC_YARD / 8, QC_YARD / 4};

    mini_init(job);
    job->width = mini_between(r, 6, 16) * HALF;
    job->print = (qc_print)mini_between(r, 0, 3);
    job->stages = (int)mini_between(r, 2, 3);
    job->no_trim = mini_between(r, 0, 3) == 0;
    job->square_up = mini_between(r, 0, 1) * HALF;
    job->step = steps[mini_between(r, 0, 3)];
    job->shrink = (int32_t)(mini_between(r, 0, 2) * 250);
    job->ruler = QC_INCH;
    while (pieces > 0) {
        qc_length a = mini_between(r, 1, 10) * HALF;
        qc_length b = mini_between(r, 1, 10) * HALF;
        int64_t count = mini_between(r, 1, pieces < 3 ? pieces : 3);
        if (a > job->width || has_size(job, a, b))
            continue;
        mini_add(job, a, b, count);
        random_grain(job, r);
        pieces -= (int)count;
    }
}

static void show(const mini_job *job, uint64_t seed)
{
    size_t i;

    print_message("seed %llu: half-inches: width %lld, print %d, stages %d, "
                  "no_trim %d, square_up %lld, step %lld, shrink %d:",
                  (unsigned long long)seed, (long long)(job->width / HALF),
                  (int)job->print, job->stages, job->no_trim,
                  (long long)(job->square_up / HALF),
                  (long long)(job->step / HALF), (int)job->shrink);
    for (i = 0; i < job->piece_count; i++)
        print_message(" %lldx%lld:%lld(grain %d)",
                      (long long)(job->pieces[i].across / HALF),
                      (long long)(job->pieces[i].along / HALF),
                      (long long)job->pieces[i].count,
                      (int)job->pieces[i].grain);
    print_message("\n");
}

/* Every fault is shown (the first ten), then the test fails. */
static int faults;

static void fault(const mini_job *job, uint64_t seed, const char *what,
                  int64_t got, int64_t want)
{
    if (++faults > 10)
        return;
    show(job, seed);
    print_message("  WRONG: %s; got %lld, trying everything gives %lld\n", what,
                  (long long)got, (long long)want);
}

static void expect(const mini_job *job, uint64_t seed, const char *what,
                   int64_t got, int64_t want)
{
    if (got != want)
        fault(job, seed, what, got, want);
}

/* Solves for the goals and checks the plan; the caller destroys it. NULL: a
 * fault, already noted. */
static qc_plan *solve(mini_job *job, const char *goals, uint64_t seed)
{
    qc_plan *plan = NULL;
    const char *wrong = NULL;
    qc_error err;
    char text[512];

    qc_error_init(&err);
    assert_true(mini_goals(job, goals));
    if (mini_solve(job, 1, &plan, &err) != QC_STATUS_OK) {
        qc_error_format(&err, NULL, text, sizeof text);
        wrong = text;
    } else {
        wrong = mini_check(job, plan);
    }
    if (wrong) {
        fault(job, seed, wrong, 0, 0);
        qc_plan_destroy(plan);
        return NULL;
    }
    return plan;
}

static void lengths_are_least(void **state)
{
    uint64_t seed;

    (void)state;
    faults = 0;
    for (seed = 1; seed <= 600; seed++) {
        mini_random r = {seed};
        static mini_job job;
        brute_answer best;
        qc_plan *plan;
        const qc_plan_fabric *f;
        random_job(&job, &r, (int)mini_between(&r, 1, BRUTE_MAX));
        best = brute_solve(&job, false);
        plan = solve(&job, seed % 2 ? "bu" : "u", seed);
        if (!plan)
            continue;
        f = qc_plan_fabric_at(plan, 0);
        expect(&job, seed, "bought", f->bought, best.bought);
        expect(&job, seed, "used", f->used, best.used);
        expect(&job, seed, "bound on bought", f->bound, best.bought);
        expect(&job, seed, "outcome", f->outcome, QC_OUTCOME_OPTIMAL);
        qc_plan_destroy(plan);
    }
    assert_int_equal(faults, 0);
}

static void setups_are_least(void **state)
{
    uint64_t seed;
    int proved = 0, met = 0;

    (void)state;
    faults = 0;
    for (seed = 1001; seed <= 1150; seed++) {
        mini_random r = {seed};
        static mini_job job;
        brute_answer best;
        qc_plan *plan;
        const qc_level *level;
        random_job(&job, &r, (int)mini_between(&r, 2, 5));
        best = brute_solve(&job, true);
        plan = solve(&job, "bscl", seed);
        if (!plan)
            continue;
        expect(&job, seed, "bought", qc_plan_fabric_at(plan, 0)->bought,
               best.bought);
        level = qc_plan_level_at(plan, 0, 1);
        assert_int_equal(level->goal, QC_GOAL_SETUPS);
        if (level->outcome == QC_OUTCOME_OPTIMAL)
            expect(&job, seed, "set-ups, proved", level->value, best.setups);
        else if (level->value < best.setups)
            fault(&job, seed, "fewer set-ups than there can be", level->value,
                  best.setups);
        else if (level->bound > best.setups)
            fault(&job, seed, "bound on set-ups", level->bound, best.setups);
        proved += level->outcome == QC_OUTCOME_OPTIMAL;
        met += level->value == best.setups;
        qc_plan_destroy(plan);
    }
    print_message("set-ups: %d of 150 least, %d proved\n", met, proved);
    assert_int_equal(faults, 0);
}

static void narrowest_width_is_least(void **state)
{
    uint64_t seed;
    int proved = 0;

    (void)state;
    faults = 0;
    for (seed = 2001; seed <= 2100; seed++) {
        mini_random r = {seed};
        static mini_job job;
        qc_length least;
        const qc_plan_fabric *f;
        qc_plan *plan;
        random_job(&job, &r, (int)mini_between(&r, 2, 5));
        plan = solve(&job, "b", seed);
        if (!plan)
            continue;
        f = qc_plan_fabric_at(plan, 0);
        least = brute_narrowest(&job, f->bought);
        if (f->narrowest_outcome == QC_OUTCOME_OPTIMAL)
            expect(&job, seed, "narrowest width", f->narrowest_width, least);
        else if (f->narrowest_width < least)
            fault(&job, seed, "too narrow a width", f->narrowest_width, least);
        proved += f->narrowest_outcome == QC_OUTCOME_OPTIMAL;
        qc_plan_destroy(plan);
    }
    print_message("narrowest width: %d of 100 proved\n", proved);
    assert_int_equal(faults, 0);
    assert_true(proved >= 90);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths_are_least),
        cmocka_unit_test(setups_are_least),
        cmocka_unit_test(narrowest_width_is_least),
    };
    return cmocka_run_group_tests_name("brute", tests, NULL, NULL);
}
