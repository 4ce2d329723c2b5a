/* What must hold whatever the job: seeded random jobs of a quilt's size.
 *
 * mini_check() replays every plan's strips against the demand; here the answers
 * of related jobs are set against each other. A value that was not proved is
 * compared by its bounds only, since a plan may then be unlucky; plans are
 * compared whole only where counted limits, not the clock, ended the solves.
 *
 * The first seed is printed; QC_SEED sets it.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "mini.h"

#define HALF (QC_INCH / 2)
#define LIMIT_MS 15000
/* A solve shares its time out among its phases, and a job among its fabrics. No
 * share of one fabric is below a tenth: what took less was not ended by the
 * clock anywhere. */
#define COUNTED_MS (LIMIT_MS / 10)

static uint64_t first_seed = 20240601;

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

/* `types` different sizes, up to `most` of each. */
static void random_job(mini_job *job, uint64_t seed, int types, int64_t most)
{
    mini_random r = {first_seed + seed};

    mini_init(job);
    job->time_limit_ms = LIMIT_MS;
    job->width = mini_between(&r, 78, 88) * HALF;
    job->print = (qc_print)mini_between(&r, 0, 3);
    job->stages = (int)mini_between(&r, 2, 3);
    job->no_trim = mini_between(&r, 0, 5) == 0;
    job->square_up = mini_between(&r, 0, 2) * HALF;
    job->shrink = (int32_t)(mini_between(&r, 0, 1) * 300);
    job->ruler = QC_INCH / 4;
    while (job->piece_count < (size_t)types) {
        qc_length a = mini_between(&r, 3, 20) * HALF;
        qc_length b = mini_between(&r, 3, 20) * HALF;
        if (!has_size(job, a, b))
            mini_add(job, a, b, mini_between(&r, 1, most));
    }
}

/* Whether the clock may have ended one of the solves since this was last
 * cleared. Where it did, two plans may differ, and are not compared. */
static bool clock_ended;

static int64_t now_ms(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

static qc_plan *solve(const mini_job *job, int threads, uint64_t seed)
{
    int64_t start = now_ms();
    qc_plan *plan = NULL;
    const char *wrong;
    qc_error err;
    char text[512];

    qc_error_init(&err);
    if (mini_solve(job, threads, &plan, &err) != QC_STATUS_OK) {
        qc_error_format(&err, NULL, text, sizeof text);
        fail_msg("seed %llu + %llu: %s", (unsigned long long)first_seed,
                 (unsigned long long)seed, text);
    }
    wrong = mini_check(job, plan);
    if (wrong)
        fail_msg("seed %llu + %llu: %s", (unsigned long long)first_seed,
                 (unsigned long long)seed, wrong);
    if (now_ms() - start >= COUNTED_MS)
        clock_ended = true;
    return plan;
}

/* The only level of a job with one goal. */
static qc_level solve_level(const mini_job *job, uint64_t seed)
{
    qc_plan *plan = solve(job, 1, seed);
    qc_level level = *qc_plan_level_at(plan, 0, 0);

    qc_plan_destroy(plan);
    return level;
}

static void plans_keep_the_definition(void **state)
{
    uint64_t seed;

    (void)state;
    for (seed = 0; seed < 30; seed++) {
        static mini_job job;
        qc_plan *plan;
        const qc_plan_fabric *f;
        random_job(&job, seed, (int)(seed % 10) + 1, seed % 3 ? 30 : 200);
        plan = solve(&job, 1, seed); /* all default goals; bound <= bought */
        f = qc_plan_fabric_at(plan, 0);
        assert_int_equal(f->hand_method, mini_hand_method(&job));
        qc_plan_destroy(plan);
    }
}

static void more_width_never_costs_more(void **state)
{
    uint64_t seed;

    (void)state;
    for (seed = 100; seed < 110; seed++) {
        static mini_job job;
        qc_level before;
        int k;
        random_job(&job, seed, (int)(seed % 6) + 1, 20);
        mini_goals(&job, seed % 2 ? "b" : "u");
        before = solve_level(&job, seed);
        for (k = 0; k < 4; k++) {
            qc_level now;
            job.width += HALF;
            now = solve_level(&job, seed);
            assert_true(now.bound <= before.value);
            if (now.outcome == QC_OUTCOME_OPTIMAL)
                assert_true(now.value <= before.value);
            before = now;
        }
    }
}

static void one_more_piece_never_saves(void **state)
{
    uint64_t seed;

    (void)state;
    for (seed = 200; seed < 210; seed++) {
        static mini_job job;
        qc_level before;
        int k;
        random_job(&job, seed, (int)(seed % 6) + 1, 20);
        mini_goals(&job, seed % 2 ? "b" : "u");
        before = solve_level(&job, seed);
        for (k = 0; k < 4; k++) {
            qc_level now;
            job.pieces[(size_t)k % job.piece_count].count++;
            now = solve_level(&job, seed);
            assert_true(now.value >= before.bound);
            if (before.outcome == QC_OUTCOME_OPTIMAL)
                assert_true(now.value >= before.value);
            if (now.outcome == QC_OUTCOME_OPTIMAL &&
                before.outcome == QC_OUTCOME_OPTIMAL)
                assert_true(now.bound >= before.bound);
            before = now;
        }
    }
}

static void twice_the_lengths_twice_the_answer(void **state)
{
    uint64_t seed;
    int compared = 0;

    (void)state;
    for (seed = 300; seed < 320; seed++) {
        static mini_job job;
        qc_plan *once, *twice;
        const qc_plan_fabric *a, *b;
        size_t i;
        random_job(&job, seed, (int)(seed % 6) + 1, 30);
        mini_goals(&job, "bu");
        clock_ended = false;
        once = solve(&job, 1, seed);
        job.width *= 2;
        job.square_up *= 2;
        job.step *= 2;
        job.ruler *= 2;
        for (i = 0; i < job.piece_count; i++) {
            job.pieces[i].across *= 2;
            job.pieces[i].along *= 2;
        }
        twice = solve(&job, 1, seed);
        a = qc_plan_fabric_at(once, 0);
        b = qc_plan_fabric_at(twice, 0);
        assert_int_equal(b->hand_method, 2 * a->hand_method);
        assert_true(b->bound <= 2 * a->bought && 2 * a->bound <= b->bought);
        if (!clock_ended) {
            assert_int_equal(b->bought, 2 * a->bought);
            assert_int_equal(b->used, 2 * a->used);
            assert_int_equal(b->bound, 2 * a->bound);
            assert_int_equal(b->narrowest_width, 2 * a->narrowest_width);
            assert_int_equal(b->strip_count, a->strip_count);
            compared++;
        }
        qc_plan_destroy(once);
        qc_plan_destroy(twice);
    }
    print_message("%d of 20 compared whole\n", compared);
    assert_true(compared > 0);
}

/* Whether two sections are the same when piece p of `b` was piece name[p] of
 * `a`. */
static bool same_subcut(const qc_subcut *a, const qc_subcut *b,
                        const size_t *name)
{
    size_t i;

    if (a->count != b->count || a->width != b->width ||
        a->stack_count != b->stack_count)
        return false;
    for (i = 0; i < a->stack_count; i++)
        if (a->stacks[i].piece != name[b->stacks[i].piece] ||
            a->stacks[i].count != b->stacks[i].count ||
            a->stacks[i].turn != b->stacks[i].turn)
            return false;
    return true;
}

/* The same strips, when piece p of `b` was piece name[p] of `a`. */
static void assert_same_strips(const qc_plan *a, const qc_plan *b,
                               const size_t *name)
{
    const qc_plan_fabric *fa = qc_plan_fabric_at(a, 0);
    const qc_plan_fabric *fb = qc_plan_fabric_at(b, 0);
    size_t i, j;

    assert_int_equal(fa->bought, fb->bought);
    assert_int_equal(fa->bound, fb->bound);
    assert_int_equal(fa->used, fb->used);
    assert_int_equal(fa->setups, fb->setups);
    assert_int_equal(fa->cuts, fb->cuts);
    assert_int_equal(fa->narrowest_width, fb->narrowest_width);
    assert_int_equal(fa->strip_count, fb->strip_count);
    for (i = 0; i < fa->strip_count; i++) {
        const qc_strip *sa = qc_plan_strip_at(a, 0, i);
        const qc_strip *sb = qc_plan_strip_at(b, 0, i);
        assert_int_equal(sa->height, sb->height);
        assert_int_equal(sa->repeat, sb->repeat);
        assert_int_equal(sa->subcut_count, sb->subcut_count);
        for (j = 0; j < sa->subcut_count; j++)
            assert_true(same_subcut(&sa->subcuts[j], &sb->subcuts[j], name));
    }
}

static void the_order_of_pieces_is_nothing(void **state)
{
    uint64_t seed;
    int compared = 0;

    (void)state;
    for (seed = 400; seed < 420; seed++) {
        mini_random r = {first_seed ^ seed};
        static mini_job job, mixed;
        static size_t name[MINI_MAX_PIECES];
        size_t i;
        qc_plan *a, *b;
        random_job(&job, seed, (int)(seed % 5) + 2, 20);
        mixed = job;
        for (i = 0; i < job.piece_count; i++)
            name[i] = i;
        for (i = job.piece_count; i > 1; i--) {
            size_t k = (size_t)mini_between(&r, 0, (int64_t)i - 1);
            size_t t = name[k];
            name[k] = name[i - 1];
            name[i - 1] = t;
        }
        for (i = 0; i < job.piece_count; i++)
            mixed.pieces[i] = job.pieces[name[i]];
        clock_ended = false;
        a = solve(&job, 1, seed);
        b = solve(&mixed, 1, seed);
        if (!clock_ended) {
            assert_same_strips(a, b, name);
            compared++;
        }
        qc_plan_destroy(a);
        qc_plan_destroy(b);
    }
    print_message("%d of 20 compared whole\n", compared);
    assert_true(compared > 0);
}

/* Four fabrics in one job, so that threads have something to share. */
static qc_job *many_fabrics(uint64_t seed)
{
    static const char *const ids[4] = {"dune", "reed", "slate", "tide"};
    qc_fabric_spec fabrics[4];
    qc_piece_spec pieces[24];
    char names[24][8];
    qc_job_spec spec;
    qc_job *job = NULL;
    size_t i, n = 0;

    qc_job_spec_init(&spec, QC_UNITS_IN);
    for (i = 0; i < 4; i++) {
        static mini_job mini;
        size_t k;
        random_job(&mini, seed * 4 + i, (int)(seed + i) % 4 + 2, 15);
        qc_fabric_spec_init(&fabrics[i]);
        fabrics[i].id = ids[i];
        fabrics[i].width = mini.width;
        fabrics[i].print = mini.print;
        fabrics[i].shrink_length = mini.shrink;
        for (k = 0; k < mini.piece_count; k++, n++) {
            qc_piece_spec_init(&pieces[n]);
            names[n][0] = (char)('A' + n);
            names[n][1] = '\0';
            pieces[n].id = names[n];
            pieces[n].fabric = ids[i];
            pieces[n].shape = QC_SHAPE_RECTANGLE;
            pieces[n].is_cut = true;
            pieces[n].size[0] = mini.pieces[k].across;
            pieces[n].size[1] = mini.pieces[k].along;
            pieces[n].count = mini.pieces[k].count;
        }
    }
    spec.fabrics = fabrics;
    spec.fabric_count = 4;
    spec.pieces = pieces;
    spec.piece_count = n;
    assert_int_equal(qc_job_create(&spec, &job, NULL), QC_STATUS_OK);
    return job;
}

/* The plan of a job as JSON; *ended: the clock may have ended the solve. */
static char *solve_to_json(const qc_job *job, int threads, bool *ended)
{
    int64_t start = now_ms();
    qc_solve_options options;
    qc_plan *plan = NULL;
    char *text = NULL;

    qc_solve_options_init(&options);
    options.threads = threads;
    options.time_limit_ms = 4 * LIMIT_MS; /* four fabrics */
    assert_int_equal(qc_job_solve(job, &options, &plan, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_json(plan, &text, NULL), QC_STATUS_OK);
    qc_plan_destroy(plan);
    *ended = *ended || now_ms() - start >= COUNTED_MS;
    return text;
}

static void threads_and_runs_change_no_byte(void **state)
{
    static const int threads[] = {1, 1, 2, 4};
    uint64_t seed;
    int compared = 0;
    size_t i;

    (void)state;
    for (seed = 500; seed < 505; seed++) {
        qc_job *job = many_fabrics(seed);
        bool ended = false;
        char *first = solve_to_json(job, threads[0], &ended);
        for (i = 1; i < 4 && !ended; i++) {
            char *text = solve_to_json(job, threads[i], &ended);
            if (!ended && strcmp(text, first) != 0)
                fail_msg("seed %llu + %llu: %d threads give another plan",
                         (unsigned long long)first_seed,
                         (unsigned long long)seed, threads[i]);
            compared += !ended;
            qc_text_destroy(text);
        }
        qc_text_destroy(first);
        qc_job_destroy(job);
    }
    print_message("%d of 15 compared\n", compared);
    assert_true(compared > 0);
}

static void the_narrowest_width_is_one(void **state)
{
    uint64_t seed;
    int proved = 0;

    (void)state;
    for (seed = 600; seed < 620; seed++) {
        static mini_job job;
        qc_plan *plan;
        qc_plan_fabric f;
        size_t i;
        bool fits = true;
        qc_level level;
        random_job(&job, seed, (int)(seed % 6) + 1, 20);
        mini_goals(&job, "b");
        plan = solve(&job, 1, seed);
        f = *qc_plan_fabric_at(plan, 0);
        qc_plan_destroy(plan);
        assert_true(f.narrowest_width == job.width ||
                    f.narrowest_width % job.ruler == 0);
        job.width = f.narrowest_width;
        level = solve_level(&job, seed);
        assert_true(level.bound <= f.bought);
        if (level.outcome == QC_OUTCOME_OPTIMAL)
            assert_true(level.value <= f.bought);
        if (f.narrowest_outcome != QC_OUTCOME_OPTIMAL)
            continue;
        proved++;
        job.width = (job.width - 1) / job.ruler * job.ruler;
        for (i = 0; i < job.piece_count; i++)
            fits = fits && (mini_may_lie(&job, i, false) ||
                            mini_may_lie(&job, i, true));
        if (fits)
            assert_true(solve_level(&job, seed).value > f.bought);
    }
    print_message("narrowest width: %d of 20 proved\n", proved);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plans_keep_the_definition),
        cmocka_unit_test(more_width_never_costs_more),
        cmocka_unit_test(one_more_piece_never_saves),
        cmocka_unit_test(twice_the_lengths_twice_the_answer),
        cmocka_unit_test(the_order_of_pieces_is_nothing),
        cmocka_unit_test(threads_and_runs_change_no_byte),
        cmocka_unit_test(the_narrowest_width_is_one),
    };
    const char *seed = getenv("QC_SEED");

    if (seed)
        first_seed = strtoull(seed, NULL, 10);
    print_message("seed %llu (QC_SEED sets it)\n",
                  (unsigned long long)first_seed);
    return cmocka_run_group_tests_name("solve_properties", tests, NULL, NULL);
}
