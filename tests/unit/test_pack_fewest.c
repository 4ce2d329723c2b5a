/* The fewest set-ups of tiny fabrics, against a list of every strip there is
 * and every choice of them; and what the list of patterns must hold. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pack/every.h"
#include "pack/fewest.h"
#include "pack/greedy.h"
#include "pack_every.h"

#define JOBS 400
#define MOST 3 /* set-ups that are tried by hand */

static uint64_t first_seed = 41001;

/* Choices of set-ups by plain recursion: vectors of pieces in rising order,
 * each with some number of strips. */
typedef struct choices {
    every e;
    int64_t *height; /* of the lowest strip with so many pieces; or none */
    const qci_model *model;
    int64_t cap;
} choices;

static void open_choices(choices *c, const qci_model *model, int64_t cap)
{
    int64_t *least;

    c->model = model;
    c->cap = cap;
    every_init(&c->e, model, model->demand);
    c->height = calloc((size_t)c->e.count, sizeof *c->height);
    least = calloc((size_t)c->e.count, sizeof *least);
    assert_non_null(c->height);
    assert_non_null(least);
    for (int32_t k = model->class_count - 1; k >= 0; k--) {
        every_width(&c->e, model->height[k], least);
        for (int32_t v = 0; v < c->e.count; v++)
            if (least[v] <= model->width)
                c->height[v] = model->height[k];
    }
    free(least);
}

static void close_choices(choices *c)
{
    every_clear(&c->e);
    free(c->height);
}

/* `cut`: pieces of all strips so far; `whole`: the same without the last strip
 * of each set-up. */
static bool choose(const choices *c, int32_t from, int count, int64_t height,
                   const int64_t *cut, const int64_t *whole)
{
    bool enough = true;

    for (int32_t row = 0; row < c->model->row_count; row++)
        enough = enough && cut[row] >= c->model->demand[row];
    if (enough || !count)
        return enough;
    for (int32_t v = from; v < c->e.count; v++)
        for (int64_t t = 1; c->height[v] && height + t * c->height[v] <= c->cap;
             t++) {
            int64_t more[EVERY_ROWS], less[EVERY_ROWS];
            bool fits = true;

            for (int32_t row = 0; row < c->model->row_count; row++) {
                int64_t each = every_pieces(&c->e, v, row);

                more[row] = cut[row] + t * each;
                less[row] = whole[row] + (t - 1) * each;
                fits = fits && less[row] <= c->model->demand[row];
            }
            if (!fits)
                break;
            if (choose(c, v + 1, count - 1, height + t * c->height[v], more,
                       less))
                return true;
        }
    return false;
}

static int64_t fewest_by_hand(const choices *c)
{
    int64_t none[EVERY_ROWS] = {0};

    for (int count = 1; count <= MOST; count++)
        if (choose(c, 1, count, 0, none, none))
            return count;
    return MOST + 1;
}

static void relax(qci_master *m)
{
    qci_cg_end end;
    int64_t bound = 0;

    assert_int_equal(qci_master_apply(m, NULL), 0);
    assert_int_equal(
        qci_master_generate(m, INT64_MAX, 1000, &bound, &end, NULL), 0);
}

/* Returns how many patterns are worth nothing: they are listed, too. */
static int32_t check_list(const choices *c, const qci_master *m)
{
    qci_every got;
    int32_t strips = 0, idle = 0;

    assert_int_equal(qci_every_create(&got, m, c->cap, INT64_MAX, 100000, NULL),
                     0);
    for (int32_t v = 1; v < c->e.count; v++) {
        int64_t worth = 0;
        bool listed = false;

        if (!c->height[v])
            continue;
        for (int32_t row = 0; row < c->model->row_count; row++)
            worth += every_pieces(&c->e, v, row) * got.price[row];
        if (c->height[v] * QCI_PARTS - worth > got.spare)
            continue;
        strips++;
        idle += !worth;
        for (size_t i = 0; i < got.list.count && !listed; i++) {
            const qci_pattern *p = got.list.at[i].pattern;

            listed = p->height == c->height[v];
            for (int32_t row = 0; row < c->model->row_count; row++)
                listed = listed && qci_pattern_yield(p, row) ==
                                       every_pieces(&c->e, v, row);
        }
        assert_true(listed);
    }
    assert_int_equal(strips, got.list.count);
    qci_every_clear(&got);
    return idle;
}

/* Jobs whose column generation ends while some pattern is still worth more than
 * it is high. */
#define STEEP 4
static const uint64_t steep[STEEP] = {300352, 500095, 600078, 700185};

static void test_fewest(void **state)
{
    int said[MOST + 2] = {0}, more = 0, idle = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS + STEEP; i++) {
        mini_random r = {i < JOBS ? first_seed + i : steep[i - JOBS]};
        tiny t;
        qci_model *model = NULL;
        qci_master *m = NULL;
        qci_solution greedy = {0}, out = {0};
        choices c;
        int64_t bound = 1, least;

        tiny_random(&t, &r, 4, 9, 5);
        t.demand.trim = true;
        assert_int_equal(
            qci_model_create(&t.demand, t.demand.width, &model, NULL), 0);
        assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
        assert_int_equal(qci_greedy(m, &greedy, NULL), 0);
        relax(m);
        open_choices(&c, model, greedy.height + mini_between(&r, 0, 3));
        idle += check_list(&c, m);
        least = fewest_by_hand(&c);
        assert_int_equal(qci_fewest(m, c.cap, 2 * MOST, &bound, &out, NULL), 0);
        if (least <= MOST) {
            assert_int_equal(bound, least);
            assert_int_equal(out.uses.count, least);
            assert_true(qci_solution_covers(&out, model));
            assert_true(out.height <= c.cap);
            assert_true(every_setups(&t, model, &out) >= least);
            more += every_setups(&t, model, &out) > least;
        } else {
            assert_true(bound > MOST);
        }
        said[least]++;
        close_choices(&c);
        qci_solution_clear(&greedy);
        qci_solution_clear(&out);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("one set-up %d, two %d, three %d, more %d\n", said[1],
                  said[2], said[3], said[4]);
    /* Where the first of a stack must be left out, its strip counts. */
    print_message("the plan shows more in %d\n", more);
    assert_true(more < JOBS / 25);
    assert_true(idle > 0);
    assert_true(said[1] && said[2] && said[3]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_fewest)};

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests_name("fewest set-ups", tests, every_begin,
                                       every_end);
}
