/* The normal form: rows merged, lengths scaled, classes, canonical order. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/model.h"
#include "pack_every.h"

static qci_model *make(const tiny *t)
{
    qci_model *model = NULL;

    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    return model;
}

static void test_merging(void **state)
{
    qci_model *m;
    tiny t;

    (void)state;
    tiny_init(&t, 60, true, true);
    tiny_add(&t, 6, 10, 3, true);
    tiny_add(&t, 6, 10, 5, false); /* may not be turned: another type */
    tiny_add(&t, 10, 6, 7, true);  /* the first one, given the other way */
    tiny_add(&t, 6, 10, 11, false);
    tiny_add(&t, 10, 6, 13, false);
    m = make(&t);
    assert_int_equal(m->row_count, 3);
    assert_int_equal(m->lay_count, 4);
    assert_int_equal(m->row_of[0], m->row_of[2]);
    assert_int_equal(m->row_of[1], m->row_of[3]);
    assert_int_not_equal(m->row_of[0], m->row_of[1]);
    assert_int_not_equal(m->row_of[0], m->row_of[4]);
    assert_int_not_equal(m->row_of[1], m->row_of[4]);
    assert_int_equal(m->demand[m->row_of[0]], 10);
    assert_int_equal(m->demand[m->row_of[1]], 16);
    assert_int_equal(m->demand[m->row_of[4]], 13);
    qci_model_destroy(m);
}

static void test_scaling(void **state)
{
    qci_model *m;
    tiny t;

    (void)state;
    tiny_init(&t, 100, false, true);
    tiny_add(&t, 12, 35, 1, false);
    tiny_add(&t, 30, 21, 1, false);
    m = make(&t);
    assert_int_equal(m->width_unit, 6);
    assert_int_equal(m->height_unit, 7);
    assert_int_equal(m->width, 16); /* of 16 2/3 */
    assert_int_equal(m->lays[0].width, 5);
    assert_int_equal(m->lays[0].height, 3);
    assert_int_equal(m->lays[1].width, 2);
    assert_int_equal(m->lays[1].height, 5);
    assert_int_equal(m->class_count, 2);
    assert_int_equal(m->height[0], 3);
    assert_int_equal(m->height[1], 5);
    qci_model_destroy(m);
}

/* On a narrower fabric a form is lost, and no longer counts for the units. */
static void test_narrower(void **state)
{
    qci_model *m = NULL;
    tiny t;

    (void)state;
    tiny_init(&t, 100, true, true);
    tiny_add(&t, 75, 20, 1, true);
    tiny_add(&t, 40, 30, 1, false);
    assert_int_equal(qci_model_create(&t.demand, 74, &m, NULL), 0);
    assert_int_equal(m->lay_count, 2);
    assert_int_equal(m->width_unit, 20);
    assert_int_equal(m->height_unit, 15);
    assert_int_equal(m->width, 3);
    qci_model_destroy(m);
}

static void test_forms(void **state)
{
    (void)state;
    for (uint64_t seed = 0; seed < 100; seed++) {
        mini_random r = {seed};
        qci_model *m;
        tiny t;

        tiny_random(&t, &r, TINY_ROWS, 12, 5);
        m = make(&t);
        for (int32_t row = 0; row < (int32_t)t.demand.row_count; row++)
            for (int32_t i = 0; i < m->lay_count; i++) {
                const qci_form *form;

                if (m->lays[i].row != m->row_of[row])
                    continue;
                form = &t.forms[qci_model_form(&t.demand, m, row, i)];
                assert_int_equal(form->row, row);
                assert_int_equal(form->width, m->lays[i].width * m->width_unit);
                assert_int_equal(form->height,
                                 m->lays[i].height * m->height_unit);
            }
        qci_model_destroy(m);
    }
}

/* Whether pieces can be stacked to just this height. */
static bool can_stack(const qci_model *m, int64_t height)
{
    for (int32_t i = 0; i < m->lay_count; i++)
        if (m->lays[i].height == height ||
            (m->stacks && m->lays[i].height < height &&
             can_stack(m, height - m->lays[i].height)))
            return true;
    return false;
}

static void test_classes(void **state)
{
    (void)state;
    for (uint64_t seed = 0; seed < 200; seed++) {
        mini_random r = {seed};
        int64_t top = 0;
        int32_t k = 0;
        qci_model *m;
        tiny t;

        tiny_random(&t, &r, 4, 14, 3);
        m = make(&t);
        assert_int_equal(m->exact, t.demand.stacks && !t.demand.trim);
        for (int32_t i = 0; i < m->lay_count; i++)
            top = m->lays[i].height > top ? m->lays[i].height : top;
        for (int64_t y = 1; y <= top; y++)
            if (can_stack(m, y)) {
                assert_true(k < m->class_count);
                assert_int_equal(m->height[k], y);
                assert_int_equal(m->cost[k], y);
                assert_int_equal(qci_model_class(m, y), k);
                k++;
            } else {
                assert_true(m->height[qci_model_class(m, y)] > y);
            }
        assert_int_equal(k, m->class_count);
        qci_model_destroy(m);
    }
}

/* Every height is in a class that is as high, and costs no more than it. */
static void assert_stands_for(const qci_model *m, int64_t height)
{
    int32_t k = qci_model_class(m, height);

    assert_true(m->height[k] >= height);
    assert_true(m->cost[k] <= height);
    assert_true(!k || m->height[k - 1] < height);
}

static void assert_rising(const qci_model *m)
{
    for (int32_t k = 1; k < m->class_count; k++) {
        assert_true(m->height[k] > m->height[k - 1]);
        assert_true(m->cost[k] > m->height[k - 1]);
    }
}

#define MANY 1000

static qci_model *many_heights(int n, bool trim)
{
    static int64_t count[MANY];
    static uint32_t piece[MANY];
    static qci_form forms[MANY];
    static int32_t twin[MANY];
    tiny t;
    qci_demand *d = &t.demand;

    tiny_init(&t, 10, false, trim);
    d->count = count;
    d->piece = piece;
    d->forms = forms;
    d->twin = twin;
    d->row_count = d->form_count = (size_t)n;
    for (int i = 0; i < n; i++) {
        count[i] = 1;
        twin[i] = i;
        forms[i] = (qci_form){.row = i,
                              .width = 3,
                              .height = 100 + 7 * i % 11 + 11 * i,
                              .yields = 1};
    }
    return make(&t);
}

static void test_thinning(void **state)
{
    (void)state;
    for (int n = 230; n <= MANY; n += 5) {
        qci_model *m = many_heights(n, true);

        assert_true(n <= 240 ? m->class_count == n : m->class_count <= 240);
        assert_rising(m);
        for (int32_t i = 0; i < m->lay_count; i++)
            assert_stands_for(m, m->lays[i].height);
        qci_model_destroy(m);
        m = many_heights(n, false); /* a strip is just as high as its pieces */
        assert_int_equal(m->class_count, n);
        for (int32_t k = 0; k < n; k++)
            assert_int_equal(m->cost[k], m->height[k]);
        qci_model_destroy(m);
    }
}

/* Stacks reach more heights than there are classes; `high` beyond 2^24 they are
 * not even listed. */
static void check_many_stacks(int64_t high)
{
    mini_random r = {(uint64_t)high};
    int64_t size[3];
    qci_model *m;
    tiny t;

    tiny_init(&t, 10, true, true);
    size[0] = high;
    size[1] = 97;
    size[2] = 101;
    for (int i = 0; i < 3; i++)
        tiny_add(&t, 3 + i, size[i], 1, false);
    m = make(&t);
    assert_int_equal(m->height_unit, 1);
    assert_true(m->class_count <= 240);
    assert_int_equal(m->height[m->class_count - 1], high);
    assert_rising(m);
    for (int i = 0; i < 2000; i++) {
        int64_t a = mini_between(&r, 0, high / 97);
        int64_t b = mini_between(&r, 0, (high - 97 * a) / 101);

        if (a + b)
            assert_stands_for(m, 97 * a + 101 * b);
    }
    for (int i = 0; i < 3; i++)
        assert_stands_for(m, size[i]);
    qci_model_destroy(m);
}

static void test_many_stacks(void **state)
{
    (void)state;
    check_many_stacks(20011);
    check_many_stacks(999983);
    check_many_stacks((INT64_C(1) << 24) - 3);
    check_many_stacks((INT64_C(1) << 24) + 43);
    check_many_stacks((INT64_C(1) << 31) + 11);
}

/* The rows in another order. */
static void shuffle(const tiny *t, tiny *out, mini_random *r, int32_t *from)
{
    int32_t n = (int32_t)t->demand.row_count;

    tiny_init(out, t->demand.width, t->demand.stacks, t->demand.trim);
    for (int32_t i = 0; i < n; i++) {
        int32_t at = (int32_t)mini_between(r, 0, i);

        from[i] = from[at];
        from[at] = i;
    }
    for (int32_t i = 0; i < n; i++) {
        out->count[i] = t->count[from[i]];
        for (size_t f = 0; f < t->demand.form_count; f++)
            if (t->forms[f].row == from[i]) {
                out->forms[out->demand.form_count] = t->forms[f];
                out->forms[out->demand.form_count++].row = i;
            }
    }
    out->demand.row_count = (size_t)n;
}

static void assert_same_model(const qci_model *a, const qci_model *b)
{
    assert_int_equal(a->row_count, b->row_count);
    assert_int_equal(a->lay_count, b->lay_count);
    assert_int_equal(a->class_count, b->class_count);
    assert_int_equal(a->width, b->width);
    for (int32_t i = 0; i < a->row_count; i++)
        assert_int_equal(a->demand[i], b->demand[i]);
    for (int32_t i = 0; i < a->lay_count; i++) {
        assert_int_equal(a->lays[i].row, b->lays[i].row);
        assert_int_equal(a->lays[i].width, b->lays[i].width);
        assert_int_equal(a->lays[i].height, b->lays[i].height);
    }
    for (int32_t k = 0; k < a->class_count; k++)
        assert_int_equal(a->height[k], b->height[k]);
}

static void test_permutation(void **state)
{
    (void)state;
    for (uint64_t seed = 0; seed < 200; seed++) {
        mini_random r = {seed};
        int32_t from[TINY_ROWS];
        qci_model *a, *b;
        tiny t, other;

        tiny_random(&t, &r, TINY_ROWS, 5, 5);
        shuffle(&t, &other, &r, from);
        a = make(&t);
        b = make(&other);
        assert_same_model(a, b);
        for (size_t i = 0; i < t.demand.row_count; i++)
            assert_int_equal(b->row_of[i], a->row_of[from[i]]);
        qci_model_destroy(a);
        qci_model_destroy(b);
    }
}

/* Stacks of 1001 and 1003 up to 3 000 017 have more heights than can each be a
 * class. With trimming they are thinned out; without, the job is refused. */
static void test_too_fine(void **state)
{
    qci_model *m = NULL;
    qc_error err;

    (void)state;
    for (int trim = 0; trim < 2; trim++) {
        tiny t;

        tiny_init(&t, 100, true, trim);
        tiny_add(&t, 10, 3000017, 1, false);
        tiny_add(&t, 10, 1001, 1, false);
        tiny_add(&t, 10, 1003, 1, false);
        qc_error_init(&err);
        assert_int_equal(qci_model_create(&t.demand, 100, &m, &err),
                         trim ? QC_STATUS_OK : QC_STATUS_INVALID);
        if (!trim) {
            assert_null(m);
            assert_string_equal(err.field, "options.trim");
        }
        qci_model_destroy(m);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_merging),     cmocka_unit_test(test_scaling),
        cmocka_unit_test(test_narrower),    cmocka_unit_test(test_forms),
        cmocka_unit_test(test_classes),     cmocka_unit_test(test_thinning),
        cmocka_unit_test(test_many_stacks), cmocka_unit_test(test_permutation),
        cmocka_unit_test(test_too_fine),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
