#include "pack_every.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/greedy.h"
#include "pack/result.h"

int64_t every_setups(const tiny *t, const qci_model *model,
                     const qci_solution *solution)
{
    qci_packing packing = {0};
    int64_t setups;

    assert_int_equal(
        qci_result_build(&t->demand, model, solution, &packing, NULL), 0);
    setups = qci_result_value(&t->demand, &packing, QC_GOAL_SETUPS);
    qci_result_clear(&packing);
    return setups;
}

const qci_watch every_watch = {.deadline_ms = INT64_MAX};

static const qc_goal goals[] = {QC_GOAL_BOUGHT, QC_GOAL_SETUPS, QC_GOAL_CUTS,
                                QC_GOAL_LEFTOVER};

void tiny_init(tiny *t, qc_length width, bool stacks, bool trim)
{
    memset(t, 0, sizeof *t);
    t->demand = (qci_demand){.width = width,
                             .count = t->count,
                             .piece = t->piece,
                             .twin = t->twin,
                             .forms = t->forms,
                             .stacks = stacks,
                             .trim = trim,
                             .purchase = {.step = 1},
                             .ruler = 1,
                             .layers = 4,
                             .goals = goals,
                             .goal_count = sizeof goals / sizeof *goals};
}

void tiny_add(tiny *t, qc_length width, qc_length height, int64_t count,
              bool turns)
{
    qci_demand *d = &t->demand;
    int32_t row = (int32_t)d->row_count;

    assert_true(row < TINY_ROWS);
    t->count[row] = count;
    t->piece[row] = (uint32_t)row;
    t->twin[row] = row;
    if (width <= d->width)
        t->forms[d->form_count++] = (qci_form){
            .row = row, .width = width, .height = height, .yields = 1};
    if (turns && width != height && height <= d->width)
        t->forms[d->form_count++] = (qci_form){.row = row,
                                               .width = height,
                                               .height = width,
                                               .yields = 1,
                                               .turn = QC_TURN_QUARTER};
    d->row_count++;
}

void tiny_random(tiny *t, mini_random *r, int rows, int64_t size, int64_t count)
{
    bool stacks = mini_between(r, 0, 1), trim = mini_between(r, 0, 3) > 0;
    int n = (int)mini_between(r, 1, rows);

    tiny_init(t, size + mini_between(r, 0, 2 * size), stacks, trim);
    for (int i = 0; i < n; i++) {
        qc_length width = mini_between(r, 1, size);

        tiny_add(t, width, mini_between(r, 1, size), mini_between(r, 1, count),
                 mini_between(r, 0, 1));
    }
}

void every_init(every *e, const qci_model *model, const int64_t *most)
{
    *e = (every){.model = model, .count = 1};
    assert_true(model->row_count <= EVERY_ROWS);
    for (int32_t row = 0; row < model->row_count; row++) {
        e->most[row] = most[row];
        e->count *= (int32_t)(most[row] + 1);
    }
    e->section = calloc((size_t)e->count, sizeof *e->section);
    assert_non_null(e->section);
}

void every_clear(every *e)
{
    free(e->section);
}

int64_t every_pieces(const every *e, int32_t v, int32_t row)
{
    for (int32_t i = 0; i < row; i++)
        v /= (int32_t)(e->most[i] + 1);
    return v % (int32_t)(e->most[row] + 1);
}

static int32_t one_piece(const every *e, int32_t row)
{
    int32_t step = 1;

    for (int32_t i = 0; i < row; i++)
        step *= (int32_t)(e->most[i] + 1);
    return step;
}

/* All sections made of the pieces in v and lays from `lay` on. */
static void stack_up(const every *e, int32_t v, int32_t lay, int64_t rest,
                     int64_t width, int pieces)
{
    if (v && (e->model->trim || !rest) && width < e->section[v])
        e->section[v] = width;
    if (pieces && !e->model->stacks)
        return;
    for (int32_t i = lay; i < e->model->lay_count; i++) {
        const qci_lay *l = &e->model->lays[i];

        if (l->height <= rest && every_pieces(e, v, l->row) < e->most[l->row])
            stack_up(e, v + one_piece(e, l->row), i, rest - l->height,
                     l->width > width ? l->width : width, pieces + 1);
    }
}

static bool is_part(const every *e, int32_t part, int32_t whole)
{
    for (int32_t row = 0; row < e->model->row_count; row++)
        if (every_pieces(e, part, row) > every_pieces(e, whole, row))
            return false;
    return true;
}

void every_width(const every *e, int64_t height, int64_t *least)
{
    for (int32_t v = 0; v < e->count; v++)
        e->section[v] = least[v] = INT64_MAX;
    stack_up(e, 0, 0, height, 0, 0);
    least[0] = 0;
    for (int32_t u = 1; u < e->count; u++)
        if (e->section[u] < INT64_MAX)
            for (int32_t v = u; v < e->count; v++)
                if (least[v - u] < INT64_MAX &&
                    least[v - u] + e->section[u] < least[v] && is_part(e, u, v))
                    least[v] = least[v - u] + e->section[u];
}

every_rules every_free(void)
{
    return (every_rules){0, 0, QCI_MANY, 0, 1, 0, QCI_MANY};
}

/* Counts up to this are told apart. */
#define COUNTS 8

/* The recursion behind every_least(): a state is what is still needed and the
 * strips counted so far; every strip tried changes it. */
typedef struct least_plan {
    const every *e;
    every_rules rules;
    const int64_t *width; /* [class][vector] */
    int64_t *known;       /* [vector][COUNTS][COUNTS]; -1: not yet */
} least_plan;

static int64_t top_count(int64_t lo, int64_t hi)
{
    return hi >= QCI_MANY ? lo : hi + 1 > lo ? hi + 1 : lo;
}

static int64_t counted(int64_t n, bool one_more, int64_t lo, int64_t hi)
{
    int64_t top = top_count(lo, hi);

    return one_more && n < top ? n + 1 : n;
}

/* What is needed after a strip of v; -1 where that is more than may be cut. */
static int32_t rest_after(const every *e, int32_t need, int32_t v)
{
    int32_t rest = 0;

    for (int32_t row = 0; row < e->model->row_count; row++) {
        int64_t left = every_pieces(e, need, row) - every_pieces(e, v, row);

        if (left < 0 && e->model->exact)
            return -1;
        rest += (int32_t)(left > 0 ? left : 0) * one_piece(e, row);
    }
    return rest;
}

static int64_t least_from(const least_plan *p, int32_t need, int64_t a,
                          int64_t b)
{
    const qci_model *model = p->e->model;
    const every_rules *r = &p->rules;
    int64_t *known = &p->known[(need * COUNTS + a) * COUNTS + b];
    int64_t best = INT64_MAX;

    if (a > r->class_hi || b > r->count_hi)
        return INT64_MAX;
    if (!need && a >= r->class_lo && b >= r->count_lo)
        return 0;
    if (*known >= 0)
        return *known;
    for (int32_t k = 0; k < model->class_count; k++)
        for (int32_t v = 0; v < p->e->count; v++) {
            int32_t rest = rest_after(p->e, need, v);
            int64_t na = counted(a, k >= r->cls, r->class_lo, r->class_hi);
            int64_t nb = counted(b, every_pieces(p->e, v, r->row) >= r->at,
                                 r->count_lo, r->count_hi);
            int64_t after;

            if (p->width[k * p->e->count + v] > model->width || rest < 0 ||
                (rest == need && na == a && nb == b))
                continue;
            after = least_from(p, rest, na, nb);
            if (after < INT64_MAX && after + model->cost[k] < best)
                best = after + model->cost[k];
        }
    *known = best;
    return best;
}

int64_t every_least(const qci_model *model, every_rules rules)
{
    every e;
    least_plan p = {.e = &e, .rules = rules};
    int64_t *width, best;
    size_t states;

    assert_true(top_count(rules.class_lo, rules.class_hi) < COUNTS);
    assert_true(top_count(rules.count_lo, rules.count_hi) < COUNTS);
    every_init(&e, model, model->demand);
    states = (size_t)e.count * COUNTS * COUNTS;
    width = calloc((size_t)(e.count * model->class_count), sizeof *width);
    p.known = calloc(states, sizeof *p.known);
    assert_true(width && p.known);
    memset(p.known, 0xff, states * sizeof *p.known);
    for (int32_t k = 0; k < model->class_count; k++)
        every_width(&e, model->height[k], width + k * e.count);
    p.width = width;
    best = least_from(&p, e.count - 1, 0, 0);
    free(width);
    free(p.known);
    every_clear(&e);
    return best;
}

qci_model *every_job(tiny *t, mini_random *r)
{
    qci_model *model = NULL;

    do {
        qci_model_destroy(model);
        tiny_random(t, r, 3, 9, 4);
        assert_int_equal(
            qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    } while (model->row_count > 3 || model->class_count > 24);
    return model;
}

void every_search(const qci_model *model, const qci_aim *aim, every_found *out)
{
    *out = (every_found){0};
    assert_int_equal(qci_master_create(model, &every_watch, &out->master, NULL),
                     0);
    assert_int_equal(qci_greedy(out->master, &out->best, NULL), 0);
    out->greedy = out->best.height;
    assert_int_equal(
        qci_search(out->master, aim, &out->best, &out->bound, NULL), 0);
    assert_true(qci_solution_covers(&out->best, model));
}

void every_found_clear(every_found *found)
{
    qci_solution_clear(&found->best);
    qci_master_destroy(found->master);
}

int64_t every_below(int64_t height, void *user)
{
    (void)user;
    return height - 1;
}

uint64_t every_seed(uint64_t usual)
{
    const char *seed = getenv("QC_SEED");

    if (seed)
        usual = strtoull(seed, NULL, 10);
    print_message("first seed %llu\n", (unsigned long long)usual);
    return usual;
}

int every_begin(void **state)
{
    (void)state;
    return qci_mip_thread_begin(NULL) != QC_STATUS_OK;
}

int every_end(void **state)
{
    (void)state;
    qci_mip_thread_end();
    return 0;
}
