/* Pieces with slanted sides: the oracle against every order of every choice of
 * pieces, and whole fabrics against every way to share the pieces out over
 * strips. Hundreds of tiny seeded models: leans of either sign, mirror images,
 * squares beside them, squares that yield two pieces. QC_SEED sets the first
 * seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/oracle_inner.h"
#include "pack/pack.h"
#include "pack/sections.h"
#include "pack_every.h"

#define MODELS 300
#define ROWS 3
#define HEIGHT 6
#define VECTORS 512

static uint64_t first_seed = 9001;

/* One row: pieces as high as their strip, whose sides lean and do not cross. */
static void add_slanted(tiny *t, mini_random *r, int64_t count)
{
    qci_demand *d = &t->demand;
    int32_t row = (int32_t)d->row_count++;
    qc_length left = 2 * mini_between(r, -2, 2);
    qc_length right = mini_between(r, 0, 1) ? left : 2 * mini_between(r, -2, 2);
    qc_length width =
        mini_between(r, left == -right && (left == 4 || left == -4) ? 4 : 3, 5);
    qci_form form = {.row = row,
                     .width = width,
                     .height = HEIGHT,
                     .left = left,
                     .right = right,
                     .yields = 1,
                     .corners = left == 0 && right == 0};

    t->count[row] = count;
    t->piece[row] = (uint32_t)row;
    t->twin[row] = row;
    t->forms[d->form_count++] = form;
    if (left == right || mini_between(r, 0, 1))
        return;
    form.left = right;
    form.right = left;
    form.turn = QC_TURN_HALF;
    t->forms[d->form_count++] = form;
}

/* A square that becomes two pieces, which also lie singly, slanted. */
static void add_halves(tiny *t, mini_random *r, int64_t count)
{
    qci_demand *d = &t->demand;
    int32_t row = (int32_t)d->row_count++;
    qci_form form = {
        .row = row, .width = HEIGHT, .height = HEIGHT, .yields = 2};

    t->count[row] = count;
    t->piece[row] = (uint32_t)row;
    t->twin[row] = row;
    t->forms[d->form_count++] = form;
    form.yields = 1;
    form.width = HEIGHT / 2;
    form.right = -HEIGHT;
    t->forms[d->form_count++] = form;
    if (mini_between(r, 0, 1)) {
        form.left = -HEIGHT;
        form.right = 0;
        form.turn = QC_TURN_HALF;
        t->forms[d->form_count++] = form;
    }
}

static void make_tiny(tiny *t, mini_random *r, bool trim)
{
    tiny_init(t, mini_between(r, 12, 26), mini_between(r, 0, 1), trim);
    for (int i = 0; i < ROWS; i++) {
        int64_t kind = mini_between(r, 0, 5), count = mini_between(r, 1, 4);

        if (kind == 0)
            add_halves(t, r, count);
        else if (kind == 1)
            tiny_add(t, mini_between(r, 1, 6), mini_between(r, 2, HEIGHT),
                     count, false);
        else
            add_slanted(t, r, count);
    }
}

/* The widths that strips of one class need: by the number of each row's pieces
 * in them, the narrowest over all orders. */
typedef struct strips {
    const qci_model *model;
    int32_t cls;
    int64_t most[ROWS];
    int64_t least[VECTORS];
    int64_t held[ROWS];
    bool in_order; /* squares come first, as the oracle lays them, so that they
                      are not what yields a piece too many at the end */
} strips;

static int32_t vector_of(const strips *s, const int64_t *held)
{
    int32_t v = 0;

    for (int32_t row = 0; row < s->model->row_count; row++)
        v = v * (int32_t)(s->most[row] + 1) + (int32_t)held[row];
    return v;
}

static int64_t apart(int64_t a, int64_t b)
{
    return a < b ? b - a : a - b;
}

/* A pattern holds nothing beyond what is asked for, but what the last cloth of
 * a row yields besides. */
static bool is_wanted(const strips *s, const qci_lay *lay)
{
    return s->held[lay->row] < s->model->demand[lay->row];
}

/* Every sequence of sections on from an edge; a section is a stack of what may
 * be stacked, or one piece that lies alone. */
static void lay_next(strips *s, int64_t used, int64_t lean, bool alone);

static void lay_stack(strips *s, int64_t used, int64_t wide, int64_t up)
{
    const qci_model *m = s->model;

    /* Closed here: the lean of a stack is 0. */
    if (up && (m->trim || up == m->height[s->cls]))
        lay_next(s, used + wide, 0, false);
    if (up && !m->stacks)
        return;
    for (int32_t i = 0; i < m->lay_count - m->alone_count; i++) {
        const qci_lay *l = &m->lays[i];

        if (!is_wanted(s, l) || up + l->height > m->height[s->cls] ||
            used + (l->width > wide ? l->width : wide) > m->width)
            continue;
        s->held[l->row] += l->yield;
        lay_stack(s, used, l->width > wide ? l->width : wide, up + l->height);
        s->held[l->row] -= l->yield;
    }
}

static void lay_next(strips *s, int64_t used, int64_t lean, bool alone)
{
    const qci_model *m = s->model;
    int64_t end = used + apart(lean, 0);
    int32_t v = vector_of(s, s->held);

    if (end <= m->width && end < s->least[v])
        s->least[v] = end;
    for (int32_t i = m->lay_count - m->alone_count; i < m->lay_count; i++) {
        const qci_lay *l = &m->lays[i];
        int64_t next = used + apart(lean, l->left) + l->width;

        if (!is_wanted(s, l) || l->height != m->height[s->cls] ||
            next > m->width)
            continue;
        s->held[l->row] += l->yield;
        lay_next(s, next, l->right, true);
        s->held[l->row] -= l->yield;
    }
    if (apart(lean, 0) + used < m->width && !(s->in_order && alone))
        lay_stack(s, used + apart(lean, 0), 0, 0);
}

static void find_strips(strips *s, const qci_model *model, int32_t cls,
                        bool in_order)
{
    s->in_order = in_order;
    s->model = model;
    s->cls = cls;
    for (int32_t v = 0; v < VECTORS; v++)
        s->least[v] = INT64_MAX;
    for (int32_t row = 0; row < model->row_count; row++) {
        s->most[row] = model->demand[row] + model->surplus[row];
        s->held[row] = 0;
    }
    lay_next(s, 0, 0, false);
}

static int32_t vector_count(const strips *s)
{
    int32_t n = 1;

    for (int32_t row = 0; row < s->model->row_count; row++)
        n *= (int32_t)(s->most[row] + 1);
    assert_true(n <= VECTORS);
    return n;
}

/* The pieces of vector v. */
static void read_vector(const strips *s, int32_t v, int64_t *held)
{
    for (int32_t row = s->model->row_count - 1; row >= 0; row--) {
        held[row] = v % (s->most[row] + 1);
        v /= (int32_t)(s->most[row] + 1);
    }
}

typedef struct answer {
    const qci_model *model;
    int64_t found; /* INT64_MIN: nothing */
} answer;

/* What the oracle found really fits its strip. */
static bool take(int32_t cls, int64_t value, const int32_t *sequence,
                 int32_t length, void *user)
{
    answer *a = user;
    int64_t used = 0, lean = 0, up = 0;

    for (int32_t i = 0; i < length; i++) {
        const qci_lay *l = &a->model->lays[QCI_LAY(sequence[i])];

        if (sequence[i] & QCI_OPEN) {
            used += apart(lean, l->left) + l->width;
            lean = l->right;
            up = 0;
        }
        up += l->height;
        assert_true(up <= a->model->height[cls]);
        if (l->alone)
            assert_int_equal(l->height, a->model->height[cls]);
    }
    assert_true(used + apart(lean, 0) <= a->model->width);
    a->found = value;
    return true;
}

/* What pieces are worth at these prices. */
static int64_t worth_of(const qci_model *model, const qci_prices *prices,
                        const int64_t *held)
{
    int64_t sum = 0;

    for (int32_t row = 0; row < model->row_count; row++)
        sum += held[row] * prices->value[row];
    for (int32_t b = 0; b < prices->bonus_count; b++)
        if (held[prices->bonus[b].row] >= prices->bonus[b].at)
            sum += prices->bonus[b].value;
    return sum;
}

/* What the best strip of a class is worth; nothing at all is worth 0. */
static int64_t most_worth(const qci_model *model, const qci_prices *prices,
                          int32_t cls)
{
    int64_t most = 0;
    strips s;

    find_strips(&s, model, cls, true);
    for (int32_t v = 0; v < vector_count(&s); v++) {
        int64_t held[ROWS], sum;

        read_vector(&s, v, held);
        sum = worth_of(model, prices, held);
        if (s.least[v] != INT64_MAX && sum > most)
            most = sum;
    }
    return most;
}

static void ask_class(qci_oracle *oracle, const qci_prices *prices, int32_t cls)
{
    const qci_model *model = oracle->model;
    answer a = {model, INT64_MIN};
    int64_t truth = most_worth(model, prices, cls);
    int64_t best = qci_oracle_price_class(oracle, prices, cls, take, &a);

    if (truth > prices->threshold[cls]) {
        assert_int_equal(a.found, truth);
        assert_int_equal(best, truth);
    } else {
        assert_int_equal(a.found, INT64_MIN);
        assert_true(best <= prices->threshold[cls]);
    }
}

/* Gains and losses for some numbers of some rows, in order. */
static int32_t draw_bonuses(const qci_model *model, mini_random *r,
                            qci_bonus *bonus)
{
    int32_t n = 0;

    for (int32_t row = 0; row < model->row_count; row++)
        for (int32_t at = 1; at <= model->demand[row]; at++)
            if (mini_between(r, 0, 3) == 0)
                bonus[n++] = (qci_bonus){row, at, mini_between(r, -40, 40)};
    return n;
}

static int filled; /* classes whose fillings were listed */

/* With all fillings listed, as after a walk that came to no end. */
static void ask_fillings(qci_oracle *oracle, const qci_prices *prices,
                         int32_t cls)
{
    assert_int_equal(
        qci_fillings_create(oracle->model, cls, &oracle->fillings[cls], NULL),
        QC_STATUS_OK);
    filled += oracle->fillings[cls] != NULL;
    ask_class(oracle, prices, cls);
    qci_fillings_destroy(oracle->fillings[cls]);
    oracle->fillings[cls] = NULL;
}

static void ask_oracle(const qci_model *model, mini_random *r)
{
    int64_t value[ROWS], limit[ROWS], threshold[16];
    qci_bonus bonus[64];
    qci_prices prices = {.value = value,
                         .limit = limit,
                         .bonus = bonus,
                         .threshold = threshold,
                         .node_limit = 1000000};
    qci_oracle *oracle = NULL;
    qc_error err;

    qc_error_init(&err);
    assert_true(model->class_count <= 16);
    for (int32_t row = 0; row < model->row_count; row++) {
        value[row] = mini_between(r, 0, 50);
        limit[row] = model->demand[row];
    }
    for (int32_t k = 0; k < model->class_count; k++)
        threshold[k] = mini_between(r, 0, 60);
    assert_int_equal(qci_oracle_create(model, &oracle, &err), QC_STATUS_OK);
    for (int32_t k = 0; k < model->class_count; k++) {
        prices.bonus_count = 0;
        ask_class(oracle, &prices, k);
        prices.bonus_count = draw_bonuses(model, r, bonus);
        ask_class(oracle, &prices, k);
        ask_fillings(oracle, &prices, k);
        if (!model->alone_count)
            continue;
        /* As where there are too many bunches to list. */
        qci_bunches_destroy(oracle->bunches[k]);
        oracle->bunches[k] = NULL;
        ask_class(oracle, &prices, k);
        prices.bonus_count = 0;
        ask_class(oracle, &prices, k);
    }
    qci_oracle_destroy(oracle);
}

static void test_oracle(void **state)
{
    uint64_t seed = every_seed(first_seed);

    (void)state;
    for (int i = 0; i < MODELS; i++) {
        mini_random r = {seed + (uint64_t)i};
        qci_model *model = NULL;
        qc_error err;
        tiny t;

        qc_error_init(&err);
        make_tiny(&t, &r, true);
        assert_int_equal(
            qci_model_create(&t.demand, t.demand.width, &model, &err),
            QC_STATUS_OK);
        ask_oracle(model, &r);
        qci_model_destroy(model);
    }
    assert_true(filled > MODELS);
}

/* The least height of strips that give all pieces: over what is left to cut,
 * from nothing upwards. */
static int64_t least_height(const qci_model *model)
{
    static strips s[16];
    static int64_t need[VECTORS];
    int32_t n;

    for (int32_t k = 0; k < model->class_count; k++)
        find_strips(&s[k], model, k, false);
    n = vector_count(&s[0]);
    need[0] = 0;
    for (int32_t v = 1; v < n; v++) {
        int64_t left[ROWS], held[ROWS], rest[ROWS];

        need[v] = INT64_MAX;
        read_vector(&s[0], v, left);
        for (int32_t k = 0; k < model->class_count; k++)
            for (int32_t w = 1; w < n; w++) {
                int64_t sum;

                if (s[k].least[w] == INT64_MAX)
                    continue;
                read_vector(&s[k], w, held);
                for (int32_t row = 0; row < model->row_count; row++)
                    rest[row] =
                        held[row] > left[row] ? 0 : left[row] - held[row];
                if (vector_of(&s[0], rest) == v)
                    continue;
                sum = need[vector_of(&s[0], rest)];
                if (sum != INT64_MAX && sum + model->height[k] < need[v])
                    need[v] = sum + model->height[k];
            }
    }
    return need[vector_of(&s[0], model->demand)];
}

/* The packing's own account of a strip: its sections fit, and give so much. */
static void check_strips(const tiny *t, const qci_packing *p)
{
    int64_t got[ROWS] = {0};

    for (size_t i = 0; i < p->strip_count; i++) {
        const qci_strip *s = &p->strips[i];

        assert_true(qci_sections_width(&t->demand, s) <= t->demand.width);
        for (size_t k = 0; k < s->section_count; k++)
            for (int32_t j = 0; j < s->sections[k].stack_count; j++) {
                const qci_stack *stack = &s->sections[k].stacks[j];
                const qci_form *form = &t->demand.forms[stack->form];

                got[form->row] += (int64_t)s->repeat * s->sections[k].count *
                                  stack->count * form->yields;
                if (form->left || form->right || form->corners)
                    assert_int_equal(form->height, s->height);
            }
    }
    for (size_t row = 0; row < t->demand.row_count; row++) {
        assert_true(got[row] >= t->count[row]);
        assert_true(got[row] <= t->count[row] + 1);
    }
}

static void test_lengths(void **state)
{
    uint64_t seed = every_seed(first_seed + 100000);
    int proved = 0;

    (void)state;
    for (int i = 0; i < MODELS; i++) {
        mini_random r = {seed + (uint64_t)i};
        qci_packing *packing = NULL;
        qci_model *model = NULL;
        qc_error err;
        tiny t;

        qc_error_init(&err);
        make_tiny(&t, &r, true);
        assert_int_equal(qci_pack(&t.demand, &every_watch, &packing, &err),
                         QC_STATUS_OK);
        assert_int_equal(
            qci_model_create(&t.demand, t.demand.width, &model, &err),
            QC_STATUS_OK);
        if (packing->used != least_height(model) * model->height_unit)
            print_error("seed %llu\n",
                        (unsigned long long)(seed + (uint64_t)i));
        assert_int_equal(packing->used,
                         least_height(model) * model->height_unit);
        assert_true(packing->bound <= packing->bought);
        proved += packing->bound == packing->bought;
        check_strips(&t, packing);
        qci_model_destroy(model);
        qci_packing_destroy(packing);
    }
    /* Nothing this small is left unproved. */
    assert_int_equal(proved, MODELS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_oracle),
        cmocka_unit_test(test_lengths),
    };

    return cmocka_run_group_tests(tests, every_begin, every_end);
}
