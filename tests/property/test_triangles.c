/* Jobs with triangles against the same jobs with the squares they are cut from:
 * as many squares of that size, nothing else. The fabric, the strips and the
 * proof must be the same; the cuts are more by the piles of squares, counted
 * here apart; and the areas add up.
 *
 * The first seed is printed; QC_SEED sets it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "mini.h"

#define JOBS 20
#define MOST 4
#define LIMIT_MS 2000

static uint64_t first_seed = 20250311;

typedef struct pair {
    qc_fabric_spec fabric;
    qc_piece_spec triangles[MOST], squares[MOST];
    int32_t yields[MOST];
    char ids[MOST][8];
    size_t count;
    int32_t layers;
} pair;

static void random_piece(pair *p, mini_random *r)
{
    qc_piece_spec *piece = &p->triangles[p->count];
    int32_t yields = (int32_t)(1 << mini_between(r, 0, 2));

    qc_piece_spec_init(piece);
    snprintf(p->ids[p->count], sizeof p->ids[0], "P%u", (unsigned)p->count);
    piece->id = p->ids[p->count];
    piece->fabric = "cloth";
    piece->is_cut = true;
    /* On odd numbers of units, too. */
    piece->size[0] =
        mini_between(r, 12, 80) * QC_INCH / 8 + mini_between(r, 0, 1);
    piece->count = mini_between(r, 1, 30);
    p->squares[p->count] = *piece;
    p->squares[p->count].count = (piece->count + yields - 1) / yields;
    if (yields > 1)
        piece->shape = yields == 2 ? QC_SHAPE_HALF_SQUARE_TRIANGLE
                                   : QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    p->yields[p->count++] = yields;
}

static void random_pair(pair *p, uint64_t seed)
{
    mini_random r = {first_seed + seed};
    int64_t pieces = mini_between(&r, 1, MOST);

    memset(p, 0, sizeof *p);
    qc_fabric_spec_init(&p->fabric);
    p->fabric.id = "cloth";
    p->fabric.width = mini_between(&r, 78, 88) * QC_INCH / 2;
    p->fabric.print = (qc_print)mini_between(&r, 0, 3);
    p->layers = (int32_t)mini_between(&r, 1, 8);
    while (pieces-- > 0)
        random_piece(p, &r);
}

static int64_t now_ms(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

static qc_plan *solve(const pair *p, const qc_piece_spec *pieces, bool *ended)
{
    int64_t start = now_ms();
    qc_job_spec spec;
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_job_spec_init(&spec, QC_UNITS_IN);
    spec.fabrics = &p->fabric;
    spec.fabric_count = 1;
    spec.pieces = pieces;
    spec.piece_count = p->count;
    spec.layers = p->layers;
    spec.time_limit_ms = LIMIT_MS;
    if (qc_job_create(&spec, &job, &err) ||
        qc_job_solve(job, NULL, &plan, &err))
        fail_msg("%s: %s", err.field, err.problem);
    qc_job_destroy(job);
    *ended = *ended || now_ms() - start >= LIMIT_MS;
    return plan;
}

static void check_counts(const pair *p, const qc_plan *plan)
{
    for (size_t i = 0; i < p->count; i++) {
        const qc_plan_piece *piece = qc_plan_piece_at(plan, i);

        /* Singly from strips there may be fewer too many. */
        assert_true(piece->count >= p->triangles[i].count);
        assert_true(piece->count <= p->squares[i].count * p->yields[i]);
        assert_int_equal(piece->spares, piece->count - p->triangles[i].count);
        assert_int_equal(piece->extra, piece->spares);
    }
}

/* Pieces are parts of their squares, some of which shows; and nothing is lost.
 */
static void check_areas(const pair *p, const qc_plan *plan)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);
    int64_t cut = 0, pieces = 0;

    for (size_t i = 0; i < p->count; i++) {
        pieces += qc_plan_piece_at(plan, i)->count;
        cut += p->squares[i].size[0] * p->squares[i].size[0] / p->yields[i] *
               qc_plan_piece_at(plan, i)->count;
    }
    /* The parts were rounded down above, by less than 1 each. */
    assert_true(f->area.finished + f->area.seams >= cut);
    assert_true(f->area.finished + f->area.seams < cut + pieces);
    assert_true(f->area.finished > 0 && f->area.finished < cut);
    assert_int_equal(f->area.finished + f->area.seams + f->area.leftover +
                         f->area.scrap,
                     f->bought * f->usable_width);
}

static void check_levels(const qc_plan *plan)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);

    for (size_t i = 0; i < f->level_count; i++) {
        const qc_level *level = qc_plan_level_at(plan, 0, i);

        if (level->goal == QC_GOAL_CUTS)
            assert_int_equal(level->value, f->cuts);
        if (level->goal != QC_GOAL_LEFTOVER)
            assert_true(level->bound <= level->value);
    }
}

static void triangles_take_the_fabric_of_their_squares(void **state)
{
    int compared = 0;

    (void)state;
    for (uint64_t seed = 0; seed < JOBS; seed++) {
        static pair p;
        bool ended = false;
        qc_plan *triangles, *squares;
        const qc_plan_fabric *f, *g;

        random_pair(&p, seed);
        triangles = solve(&p, p.triangles, &ended);
        squares = solve(&p, p.squares, &ended);
        check_counts(&p, triangles);
        check_areas(&p, triangles);
        check_levels(triangles);
        f = qc_plan_fabric_at(triangles, 0);
        g = qc_plan_fabric_at(squares, 0);
        assert_int_equal(f->hand_method, g->hand_method);
        /* Singly from strips they may take less. */
        assert_true(f->bound <= g->bought);
        if (!ended) {
            assert_true(f->bought <= g->bought);
            compared++;
        }
        qc_plan_destroy(triangles);
        qc_plan_destroy(squares);
    }
    print_message("%d of %d compared whole\n", compared, JOBS);
    assert_true(compared > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(triangles_take_the_fabric_of_their_squares),
    };
    const char *seed = getenv("QC_SEED");

    if (seed)
        first_seed = strtoull(seed, NULL, 10);
    print_message("seed %llu (QC_SEED sets it)\n",
                  (unsigned long long)first_seed);
    return cmocka_run_group_tests_name("triangles", tests, NULL, NULL);
}
