/* The two oracles against every pattern there is: hundreds of tiny seeded
 * models, flat and stacked, trimmed or not, with random values, limits and
 * bonuses. QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/oracle.h"
#include "pack_every.h"

#define MODELS 400
#define CLASSES 240
#define BONUSES 4

typedef struct question {
    const qci_model *model;
    qci_prices prices;
    int64_t value[EVERY_ROWS], limit[EVERY_ROWS];
    qci_bonus bonus[BONUSES];
    int64_t threshold[CLASSES];
    int64_t truth[CLASSES];
    int64_t reported[CLASSES]; /* INT64_MIN: nothing */
} question;

static uint64_t first_seed = 5001;

static int64_t worth(const question *q, const int64_t *pieces)
{
    int64_t sum = 0;

    for (int32_t row = 0; row < q->model->row_count; row++)
        sum += pieces[row] * q->value[row];
    for (int32_t b = 0; b < q->prices.bonus_count; b++)
        if (pieces[q->bonus[b].row] >= q->bonus[b].at)
            sum += q->bonus[b].value;
    return sum;
}

/* Fills truth[] by looking at every pattern of every class. */
static void find_truth(question *q)
{
    int64_t *width;
    every e;

    every_init(&e, q->model, q->limit);
    width = calloc((size_t)e.count, sizeof *width);
    assert_non_null(width);
    for (int32_t k = 0; k < q->model->class_count; k++) {
        q->truth[k] = INT64_MIN;
        every_width(&e, q->model->height[k], width);
        for (int32_t v = 0; v < e.count; v++) {
            int64_t pieces[EVERY_ROWS] = {0};

            if (width[v] > q->model->width)
                continue;
            for (int32_t row = 0; row < q->model->row_count; row++)
                pieces[row] = every_pieces(&e, v, row);
            if (worth(q, pieces) > q->truth[k])
                q->truth[k] = worth(q, pieces);
        }
    }
    free(width);
    every_clear(&e);
}

/* Reads the pattern as someone would cut it. */
static bool take(int32_t cls, int64_t value, const int32_t *sequence,
                 int32_t length, void *user)
{
    question *q = user;
    const qci_model *m = q->model;
    int64_t pieces[EVERY_ROWS] = {0}, across = 0, opener = 0, up = 0;

    assert_int_equal(q->reported[cls], INT64_MIN);
    for (int32_t i = 0; i < length; i++) {
        const qci_lay *lay = &m->lays[QCI_LAY(sequence[i])];

        if (sequence[i] & QCI_OPEN) {
            assert_true(!i || m->trim || up == m->height[cls]);
            across += lay->width;
            opener = lay->width;
            up = 0;
        } else {
            assert_true(i && m->stacks);
        }
        assert_true(lay->width <= opener);
        up += lay->height;
        assert_true(up <= m->height[cls]);
        pieces[lay->row]++;
    }
    assert_true(!length || m->trim || up == m->height[cls]);
    assert_true(across <= m->width);
    for (int32_t row = 0; row < m->row_count; row++)
        assert_true(pieces[row] <= q->limit[row]);
    assert_int_equal(worth(q, pieces), value);
    assert_true(value > q->threshold[cls]);
    q->reported[cls] = value;
    return true;
}

static int compare_bonuses(const void *a, const void *b)
{
    const qci_bonus *p = a, *q = b;

    return p->row != q->row ? p->row - q->row : p->at - q->at;
}

static void draw_bonuses(question *q, mini_random *r)
{
    int32_t n = (int32_t)mini_between(r, 0, BONUSES), kept = 0;

    for (int32_t i = 0; i < n; i++)
        q->bonus[i] = (qci_bonus){
            (int32_t)mini_between(r, 0, q->model->row_count - 1),
            (int32_t)mini_between(r, 1, 4), mini_between(r, -60, 60)};
    qsort(q->bonus, (size_t)n, sizeof *q->bonus, compare_bonuses);
    for (int32_t i = 0; i < n; i++)
        if (!kept || compare_bonuses(&q->bonus[kept - 1], &q->bonus[i]))
            q->bonus[kept++] = q->bonus[i];
    q->prices.bonus = q->bonus;
    q->prices.bonus_count = kept;
}

/* Prices as the master asks for them; of either sign only where the demand is
 * met exactly. Thresholds rise with the classes, or do as they like. */
static void draw(question *q, const qci_model *model, mini_random *r)
{
    bool rising = mini_between(r, 0, 2) > 0;

    *q = (question){.model = model};
    for (int32_t row = 0; row < model->row_count; row++) {
        q->value[row] = mini_between(r, 0, 3) ? mini_between(r, 0, 40) : 0;
        if (model->exact && !mini_between(r, 0, 3))
            q->value[row] = -q->value[row];
        q->limit[row] =
            mini_between(r, mini_between(r, 0, 1), model->demand[row]);
    }
    draw_bonuses(q, r);
    find_truth(q);
    for (int32_t k = 0; k < model->class_count; k++) {
        q->threshold[k] = mini_between(r, 0, 2)
                              ? mini_between(r, -10, 60)
                              : q->truth[k] - mini_between(r, 0, 1);
        if (k && rising && q->threshold[k] < q->threshold[k - 1])
            q->threshold[k] = q->threshold[k - 1] + mini_between(r, 0, 3);
    }
    q->prices.value = q->value;
    q->prices.limit = q->limit;
    q->prices.threshold = q->threshold;
}

static void forget(question *q, int32_t nodes)
{
    q->prices.node_limit = nodes;
    for (int32_t k = 0; k < CLASSES; k++)
        q->reported[k] = INT64_MIN;
}

/* A value that stands for nothing above its threshold is only known to be no
 * more than that. */
static void assert_exact(const question *q, int32_t k, int64_t best)
{
    if (q->truth[k] <= q->threshold[k])
        assert_true(best <= q->threshold[k]);
    else
        assert_int_equal(best, q->truth[k]);
}

/* A pattern is reported, if not for this class then for one below it, where it
 * costs less. */
static void assert_reported(const question *q, int32_t k)
{
    int64_t most = q->reported[k];

    for (int32_t j = k; q->model->trim && j >= 0; j--)
        if (q->reported[j] > most)
            most = q->reported[j];
    if (q->truth[k] > q->threshold[k])
        assert_int_equal(most, q->truth[k]);
    else
        assert_int_equal(q->reported[k], INT64_MIN);
}

static void ask_all(question *q, qci_oracle *oracle, int32_t nodes, bool whole)
{
    int64_t best[CLASSES];

    forget(q, nodes);
    assert_true(qci_oracle_price(oracle, &q->prices, best, take, q));
    for (int32_t k = 0; k < q->model->class_count; k++) {
        assert_true(best[k] >= q->truth[k]);
        if (!whole)
            continue;
        assert_exact(q, k, best[k]);
        assert_reported(q, k);
    }
}

static void ask_class(question *q, qci_oracle *oracle, int32_t cls,
                      int32_t nodes, bool whole)
{
    int64_t best;

    forget(q, nodes);
    best = qci_oracle_price_class(oracle, &q->prices, cls, take, q);
    assert_true(best >= q->truth[cls]);
    if (!whole)
        return;
    assert_exact(q, cls, best);
    if (q->truth[cls] > q->threshold[cls])
        assert_int_equal(q->reported[cls], q->truth[cls]);
}

static void check_model(const tiny *t, mini_random *r, int draws)
{
    static question q;
    qci_model *model = NULL;
    qci_oracle *oracle = NULL;

    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    assert_true(model->class_count <= CLASSES);
    assert_int_equal(qci_oracle_create(model, &oracle, NULL), 0);
    for (int i = 0; i < draws; i++) {
        draw(&q, model, r);
        ask_all(&q, oracle, INT32_MAX, true);
        ask_all(&q, oracle, (int32_t)mini_between(r, 1, 12), false);
        for (int n = 0; n < 3; n++) {
            int32_t cls = (int32_t)mini_between(r, 0, model->class_count - 1);

            ask_class(&q, oracle, cls, INT32_MAX, true);
            ask_class(&q, oracle, cls, 3, false);
        }
    }
    qci_oracle_destroy(oracle);
    qci_model_destroy(model);
}

static void test_every_pattern(void **state)
{
    (void)state;
    for (uint64_t i = 0; i < MODELS; i++) {
        mini_random r = {first_seed + i};
        tiny t;

        tiny_random(&t, &r, 3, 9, 4);
        check_model(&t, &r, 8);
    }
}

/* The case for which a value may not be handed up from the class below: there
 * the tables promise two of the first piece, of which there is but one; the
 * walk finds that out, and the higher strip then holds more all the same. */
static void test_class_above(void **state)
{
    static question q;
    qci_model *model = NULL;
    qci_oracle *oracle = NULL;
    tiny t;

    (void)state;
    tiny_init(&t, 4, true, true);
    tiny_add(&t, 4, 2, 1, false);
    tiny_add(&t, 3, 3, 1, false);
    tiny_add(&t, 2, 6, 1, false);
    assert_int_equal(qci_model_create(&t.demand, 4, &model, NULL), 0);
    assert_int_equal(qci_oracle_create(model, &oracle, NULL), 0);
    q = (question){.model = model, .value = {10, 1, 0}, .limit = {1, 1, 0}};
    q.prices = (qci_prices){q.value, q.limit, q.bonus, 0, q.threshold, 0, NULL};
    for (int32_t k = 0; k < model->class_count; k++)
        q.threshold[k] = 5 + k;
    find_truth(&q);
    assert_int_equal(q.truth[qci_model_class(model, 4)], 10);
    assert_int_equal(q.truth[qci_model_class(model, 5)], 11);
    ask_all(&q, oracle, INT32_MAX, true);
    qci_oracle_destroy(oracle);
    qci_model_destroy(model);
}

static bool refuse(int32_t cls, int64_t value, const int32_t *sequence,
                   int32_t length, void *user)
{
    (void)cls;
    (void)value;
    (void)sequence;
    (void)length;
    (void)user;
    fail();
    return false;
}

/* A second piece of the one row that is worth something costs more than it
 * gains. The tables do not see that; a walk must not try what is worth nothing
 * beside and beneath it, of which there is a great deal. */
static void test_worth_nothing(void **state)
{
    static const int64_t width[] = {97, 83, 71, 61, 53, 43, 37, 29};
    int64_t value[TINY_ROWS] = {0}, limit[TINY_ROWS], best[CLASSES];
    int64_t threshold[CLASSES];
    qci_bonus loss = {.at = 2, .value = -15};
    qci_prices prices = {.value = value,
                         .limit = limit,
                         .bonus = &loss,
                         .bonus_count = 1,
                         .threshold = threshold,
                         .node_limit = 200};
    qci_model *model = NULL;
    qci_oracle *oracle = NULL;
    tiny t;

    (void)state;
    tiny_init(&t, 600, true, true);
    for (int i = 0; i < TINY_ROWS; i++)
        tiny_add(&t, width[i], 150 - width[i], 50, true);
    assert_int_equal(qci_model_create(&t.demand, 600, &model, NULL), 0);
    assert_int_equal(qci_oracle_create(model, &oracle, NULL), 0);
    assert_true(model->class_count <= CLASSES);
    for (int i = 0; i < TINY_ROWS; i++)
        limit[i] = 50;
    loss.row = model->row_of[TINY_ROWS - 1];
    value[loss.row] = 10;
    limit[loss.row] = 2;
    for (int32_t k = 0; k < model->class_count; k++)
        threshold[k] = 10;
    assert_true(qci_oracle_price(oracle, &prices, best, refuse, NULL));
    for (int32_t k = 0; k < model->class_count; k++)
        assert_true(best[k] <= 10);
    qci_oracle_destroy(oracle);
    qci_model_destroy(model);
}

/* Sizes so fine that the tables must be coarser than they are: some pieces fill
 * less than a cell. Their widths (heights) share no divisor. */
static void check_coarse(uint64_t seed, bool stacks, bool fine_x, bool fine_y)
{
    mini_random r = {first_seed + seed};
    qc_length x = fine_x ? 9999991 : 7, y = fine_y ? 9999973 : 5;
    tiny t;

    tiny_init(&t, x + mini_between(&r, 0, x), stacks,
              (stacks && fine_y) || mini_between(&r, 0, 3) > 0);
    tiny_add(&t, x - mini_between(&r, 0, x / 3), y, 2, false);
    tiny_add(&t, mini_between(&r, x / 4, x / 2), mini_between(&r, y / 4, y / 2),
             3, mini_between(&r, 0, 1) && fine_x == fine_y);
    tiny_add(&t, mini_between(&r, 1, 3), mini_between(&r, 1, 3), 4, false);
    check_model(&t, &r, 2);
}

static void test_coarse_flat(void **state)
{
    (void)state;
    for (uint64_t i = 0; i < 12; i++)
        check_coarse(i, false, true, i % 2);
}

static void test_coarse_stack(void **state)
{
    (void)state;
    for (uint64_t i = 0; i < 4; i++)
        check_coarse(i, true, i % 2, i / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_pattern),
        cmocka_unit_test(test_class_above),
        cmocka_unit_test(test_worth_nothing),
        cmocka_unit_test(test_coarse_flat),
        cmocka_unit_test(test_coarse_stack),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
