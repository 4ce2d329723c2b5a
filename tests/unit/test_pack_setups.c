/* Fewer set-ups: the height stays within its cap, what is cut stays enough, and
 * "one pattern is too few" is never said where one is enough; nor does the
 * bound of the program of set-ups pass what is possible. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pack/covers.h"
#include "pack/greedy.h"
#include "pack/setups.h"
#include "pack_every.h"

#define JOBS 300

static uint64_t first_seed = 9001;

static qci_model *draw_job(tiny *t, mini_random *r)
{
    qci_model *model = NULL;

    tiny_random(t, r, 3, 9, 6);
    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    return model;
}

static qci_master *make_master(const qci_model *model)
{
    qci_master *m = NULL;

    assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
    return m;
}

/* A strip for every lay and number of pieces: as many set-ups as can be. */
static void cut_singly(qci_master *m, qci_solution *out)
{
    const qci_model *model = m->model;

    for (int32_t row = 0; row < model->row_count; row++) {
        int64_t left = model->demand[row];
        int32_t lay = 0, sequence[8];

        while (model->lays[lay].row != row)
            lay++;
        for (int32_t n = 1; left > 0; n++) {
            qci_pattern *p;
            const qci_pattern *kept;

            if (n * model->lays[lay].width > model->width || n > left || n > 2)
                n = 1;
            for (int32_t i = 0; i < n; i++)
                sequence[i] = lay | QCI_OPEN;
            p = qci_pattern_create(
                model, qci_model_class(model, model->lays[lay].height),
                sequence, n);
            assert_non_null(p);
            assert_int_equal(qci_master_add(m, p, &kept, NULL), 0);
            assert_true(qci_solution_add(out, kept, 1));
            left -= n;
        }
    }
}

/* A first solution; in the third way with much more than is needed. */
static void start(qci_master *m, int64_t way, qci_solution *out)
{
    if (way > 0)
        assert_int_equal(qci_greedy(m, out, NULL), 0);
    if (way == 0 || (way == 2 && !m->model->exact))
        cut_singly(m, out);
}

static void assert_sound(const qci_solution *s, const qci_model *model,
                         int64_t cap)
{
    int64_t height = 0;

    assert_true(qci_solution_covers(s, model));
    for (size_t i = 0; i < s->uses.count; i++) {
        assert_true(s->uses.at[i].times > 0);
        assert_true(s->uses.at[i].pattern->length > 0);
        height += s->uses.at[i].times * s->uses.at[i].pattern->height;
    }
    assert_int_equal(height, s->height);
    assert_true(height <= cap);
}

static void test_reduce(void **state)
{
    int fewer = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r = {first_seed + i};
        tiny t;
        qci_model *model = draw_job(&t, &r);
        qci_master *m = make_master(model);
        qci_solution s = {0};
        size_t before;
        int64_t cap;

        start(m, mini_between(&r, 0, 2), &s);
        before = s.uses.count;
        cap = s.height + mini_between(&r, 0, 1) * mini_between(&r, 0, 20);
        assert_sound(&s, model, cap);
        assert_int_equal(
            qci_setups_reduce(m, cap,
                              (int32_t)mini_between(&r, 0, i % 2 ? 2000 : 8),
                              &s, NULL),
            0);
        assert_sound(&s, model, cap);
        assert_true(s.uses.count <= before);
        fewer += s.uses.count < before;
        qci_solution_clear(&s);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("fewer set-ups in %d of %d\n", fewer, JOBS);
    assert_true(fewer > JOBS / 3);
}

/* Whether n strips of v do it, where all that is cut is needed: the last may be
 * cut short, which leaves out sections. `width` is every_width() of v's strip.
 */
static bool does_exactly(const every *e, const int64_t *width, int32_t v,
                         int64_t n)
{
    for (int32_t last = 0; last <= v; last++) {
        bool does = width[last] < INT64_MAX;

        for (int32_t row = 0; row < e->model->row_count; row++)
            does = does &&
                   every_pieces(e, last, row) <= every_pieces(e, v, row) &&
                   (n - 1) * every_pieces(e, v, row) +
                           every_pieces(e, last, row) ==
                       e->model->demand[row];
        if (does && width[v - last] <= e->model->width - width[last])
            return true;
    }
    return false;
}

static bool does_more(const every *e, int32_t v, int64_t n)
{
    for (int32_t row = 0; row < e->model->row_count; row++)
        if (n * every_pieces(e, v, row) < e->model->demand[row])
            return false;
    return true;
}

/* Does some pattern, cut often enough, do it within the cap? */
static bool one_does(const qci_model *model, int64_t cap)
{
    int64_t *width;
    bool does = false;
    every e;

    every_init(&e, model, model->demand);
    width = calloc((size_t)e.count, sizeof *width);
    assert_non_null(width);
    for (int32_t k = 0; k < model->class_count; k++) {
        every_width(&e, model->height[k], width);
        for (int32_t v = 0; v < e.count; v++)
            for (int64_t n = 1; n * model->height[k] <= cap; n++)
                does = does || (width[v] <= model->width &&
                                (model->exact ? does_exactly(&e, width, v, n)
                                              : does_more(&e, v, n)));
    }
    free(width);
    every_clear(&e);
    return does;
}

static void test_need_two(void **state)
{
    int proved = 0, one = 0, open = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r = {first_seed + i};
        tiny t;
        qci_model *model = draw_job(&t, &r);
        qci_master *m = make_master(model);
        int64_t least = every_least(model, every_free());

        for (int n = 0; n < 4; n++) {
            int64_t cap = least + n * mini_between(&r, 0, 6);
            bool does = one_does(model, cap), two = false;

            assert_int_equal(qci_setups_need_two(m, cap, &two, NULL), 0);
            assert_false(does && two);
            proved += two;
            one += does;
            open += !does && !two && !model->exact;
        }
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("one does: %d, proved that none does: %d, open: %d\n", one,
                  proved, open);
    assert_true(one > JOBS / 2);
    assert_true(proved > JOBS / 2);
    assert_int_equal(open, 0);
}

static bool says_two(const tiny *t, int64_t cap)
{
    qci_model *model = NULL;
    qci_master *m;
    bool two = true;

    assert_int_equal(
        qci_model_create(&t->demand, t->demand.width, &model, NULL), 0);
    m = make_master(model);
    assert_true(one_does(model, cap));
    assert_int_equal(qci_setups_need_two(m, cap, &two, NULL), 0);
    qci_master_destroy(m);
    qci_model_destroy(model);
    return two;
}

static void test_untrimmed(void **state)
{
    tiny t;

    (void)state;
    /* Two of the low piece fill a section beside one high piece: one strip does
     * it. With room for two strips, one of each a strip would be enough, but
     * that one low piece cannot stand untrimmed. */
    tiny_init(&t, 2, true, false);
    tiny_add(&t, 1, 1, 2, false);
    tiny_add(&t, 1, 2, 1, false);
    assert_false(says_two(&t, 4));
    /* One strip with a section of each; the second without the odd one. */
    tiny_init(&t, 13, true, false);
    tiny_add(&t, 9, 2, 2, false);
    tiny_add(&t, 10, 8, 2, false);
    tiny_add(&t, 3, 10, 1, false);
    assert_false(says_two(&t, 20));
}

static int64_t bound_of(qci_master *m, int64_t cap, const qci_solution *known)
{
    int64_t bound = 1;

    assert_int_equal(qci_covers_bound(m, cap, known, &bound, NULL), 0);
    return bound;
}

/* No packing that the search finds has fewer set-ups than the bound says. */
static void test_bound(void **state)
{
    int above = 0, met = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r = {first_seed + i};
        tiny t;
        qci_model *model = draw_job(&t, &r);
        qci_master *m = make_master(model);
        qci_solution s = {0};
        int64_t cap, bound;

        start(m, 1, &s);
        cap = s.height + mini_between(&r, 0, 20);
        bound = bound_of(m, cap, &s);
        assert_int_equal(qci_setups_reduce(m, cap, 2000, &s, NULL), 0);
        assert_true(bound <= every_setups(&t, model, &s));
        above += bound > 1;
        met += bound == every_setups(&t, model, &s);
        qci_solution_clear(&s);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("bound above 1: %d, met: %d of %d\n", above, met, JOBS);
    assert_true(above > JOBS / 20);
}

/* Set-ups that are proved for three rows of these widths in cloth 40 wide, with
 * `room` for the strips. */
static int64_t bound_three(const qc_length *width, int64_t count, int64_t room)
{
    tiny t;
    qci_model *model = NULL;
    qci_master *m;
    qci_solution s = {0};
    int64_t bound;

    tiny_init(&t, 40, false, true);
    for (int i = 0; i < 3; i++)
        tiny_add(&t, width[i], 5, count, false);
    assert_int_equal(qci_model_create(&t.demand, 40, &model, NULL), 0);
    m = make_master(model);
    start(m, 1, &s);
    bound = bound_of(m, room, &s);
    qci_solution_clear(&s);
    qci_master_destroy(m);
    qci_model_destroy(model);
    return bound;
}

static void test_bound_by_hand(void **state)
{
    static const qc_length wide[] = {21, 22, 23}, third[] = {12, 13, 14};

    (void)state;
    /* No two lie side by side. */
    assert_int_equal(bound_three(wide, 7, INT64_MAX / 8), 3);
    /* One of each in a strip. */
    assert_int_equal(bound_three(third, 7, 7), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reduce),        cmocka_unit_test(test_need_two),
        cmocka_unit_test(test_untrimmed),     cmocka_unit_test(test_bound),
        cmocka_unit_test(test_bound_by_hand),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
