/* The program made whole: residues are 0 just for what the basis holds in whole
 * strips, and on random jobs what is found is a plan, no lower than there can
 * be, and mostly as low. QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "pack/corner_inner.h"
#include "pack/greedy.h"
#include "pack_every.h"

#define JOBS 400
#define ROWS 8
#define MORE_ROWS 6

static uint64_t first_seed = 9001;

/* A master whose program is solved; its bound. */
static qci_master *solved(const qci_model *model, int64_t *bound)
{
    qci_master *m = NULL;
    qci_solution plan = {0};
    qci_cg_end end;

    *bound = 0;
    assert_int_equal(qci_master_create(model, &every_watch, &m, NULL), 0);
    assert_int_equal(qci_greedy(m, &plan, NULL), 0);
    assert_int_equal(qci_master_generate(m, QCI_MANY, 1000, bound, &end, NULL),
                     0);
    assert_int_equal(end, QCI_CG_CONVERGED);
    qci_solution_clear(&plan);
    return m;
}

/* What a place of the basis holds of a row. */
static int64_t held(const qci_basis *b, int32_t place, int32_t row)
{
    if (!b->pattern[place])
        return b->row[place] == row ? -1 : 0;
    return qci_pattern_yield(b->pattern[place], row);
}

/* Of the places from `place` on and the rows that are not taken. */
static int64_t determinant(const qci_basis *b, int32_t place, bool *taken)
{
    int64_t sum = 0, sign = 1;

    if (place == b->count)
        return 1;
    for (int32_t row = 0; row < b->count; row++) {
        if (taken[row])
            continue;
        taken[row] = true;
        if (held(b, place, row))
            sum +=
                sign * held(b, place, row) * determinant(b, place + 1, taken);
        taken[row] = false;
        sign = -sign;
    }
    return sum;
}

/* A demand of more rows than a tiny one has. */
typedef struct large {
    tiny tiny; /* what else a demand has */
    int64_t count[ROWS + MORE_ROWS];
    uint32_t piece[ROWS + MORE_ROWS];
    int32_t twin[ROWS + MORE_ROWS];
    qci_form forms[2 * (ROWS + MORE_ROWS)];
} large;

/* A job of some rows, cut by the hundred. */
static qci_model *large_job(large *l, mini_random *r, int32_t rows)
{
    qci_demand *d = &l->tiny.demand;
    qci_model *model = NULL;

    tiny_init(&l->tiny, 80, mini_between(r, 0, 1), true);
    d->count = l->count;
    d->piece = l->piece;
    d->twin = l->twin;
    d->forms = l->forms;
    for (int32_t row = 0; row < rows; row++) {
        qci_form form = {.row = row,
                         .width = mini_between(r, 8, 45),
                         .height = mini_between(r, 8, 45),
                         .yields = 1};

        l->count[row] = mini_between(r, 50, 300);
        l->piece[row] = (uint32_t)row;
        l->twin[row] = row;
        l->forms[d->form_count++] = form;
    }
    d->row_count = (size_t)rows;
    assert_int_equal(qci_model_create(d, d->width, &model, NULL), 0);
    return model;
}

static void check_column(const qci_basis *b, int32_t place)
{
    for (int part = 0; part < QCI_RESIDUES; part++) {
        qci_wide sum = 0;

        for (int32_t row = 0; row < b->count; row++)
            sum += (qci_wide)b->residue[row].part[part] * held(b, place, row);
        assert_true(sum % b->modulus == 0);
    }
}

static void test_residues(void **state)
{
    int64_t apart = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS / 10; i++) {
        large l;
        mini_random r = {first_seed + i};
        qci_model *model = large_job(&l, &r, ROWS);
        bool taken[ROWS] = {false};
        int64_t bound, need[ROWS] = {0};
        qci_master *m = solved(model, &bound);
        qci_basis b;

        assert_true(qci_basis_create(&b, m));
        assert_int_equal(b.modulus, llabs(determinant(&b, 0, taken)));
        for (int32_t place = 0; place < b.count; place++) {
            check_column(&b, place);
            for (int32_t row = 0; row < b.count; row++)
                need[row] += (place + 1) * held(&b, place, row);
        }
        assert_true(qci_basis_fill(&b, need));
        for (int32_t place = 0; place < b.count; place++)
            assert_true(b.move[place] == place + 1);
        for (int32_t row = 0; row < b.count && b.modulus > 1; row++) {
            need[row]++;
            apart += b.residue[row].part[0] > 0;
            assert_false(b.residue[row].part[0] > 0 &&
                         qci_basis_fill(&b, need));
            need[row]--;
        }
        qci_basis_clear(&b);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    assert_true(apart > 0);
}

/* On tiny jobs there are too few strips for most choices, but what is found is
 * right. */
static void test_never_too_low(void **state)
{
    int64_t found = 0, least = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        tiny t;
        mini_random r = {first_seed + i};
        qci_model *model = every_job(&t, &r);
        int64_t optimum = every_least(model, every_free()), bound;
        qci_master *m = solved(model, &bound);
        qci_corner_plan plan = {.cap = optimum + 5};
        qci_solution out = {0};

        assert_int_equal(qci_corner(m, plan, &out, NULL), 0);
        assert_true(!model->exact || !out.height);
        if (out.height) {
            assert_true(out.height >= optimum && out.height <= plan.cap);
            assert_true(qci_solution_covers(&out, model));
        }
        found += out.height > 0;
        least += out.height == optimum;
        qci_solution_clear(&out);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%d found, %d of the least height\n", (int)found, (int)least);
    assert_true(found > JOBS / 4);
    assert_true(least > found / 2);
}

/* With many strips nearly all jobs are cut so with little to spare, also where
 * there are so many residues that each pass sees a small part of all pairs. */
static void test_near_the_bound(void **state)
{
    int64_t units = 0, found = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS / 10; i++) {
        large l;
        mini_random r = {first_seed + i};
        qci_model *model = large_job(&l, &r, i % 2 ? ROWS + MORE_ROWS : ROWS);
        int64_t bound;
        qci_master *m = solved(model, &bound);
        qci_corner_plan plan = {.cap = bound + 20, .level = 2, .turn = i};
        qci_solution out = {0};

        assert_int_equal(qci_corner(m, plan, &out, NULL), 0);
        if (out.height) {
            assert_true(out.height >= bound && out.height <= plan.cap);
            assert_true(qci_solution_covers(&out, model));
            units += out.height - bound;
            found++;
        }
        qci_solution_clear(&out);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%d found, %d units above their bounds together\n",
                  (int)found, (int)units);
    assert_true(found > JOBS / 20);
    assert_true(units < 12 * found);
}

/* Patterns that the program does not have are of use, and become its own. */
static void test_listed_patterns(void **state)
{
    int64_t lower = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS / 10; i++) {
        large l;
        mini_random r = {first_seed + i};
        qci_model *model = large_job(&l, &r, ROWS);
        int64_t bound;
        qci_master *m = solved(model, &bound);
        qci_corner_plan plan = {.cap = bound + 20};
        qci_solution without = {0}, with = {0};
        qci_every list;

        assert_int_equal(qci_corner(m, plan, &without, NULL), 0);
        assert_int_equal(
            qci_every_create(&list, m, plan.cap, 2 * QCI_PARTS, 4000, NULL), 0);
        plan.every = &list;
        assert_int_equal(qci_corner(m, plan, &with, NULL), 0);
        qci_every_clear(&list);
        lower += with.height && with.height < without.height;
        assert_true(!with.height || qci_solution_covers(&with, model));
        qci_solution_clear(&without);
        qci_solution_clear(&with);
        qci_master_destroy(m);
        qci_model_destroy(model);
    }
    print_message("%d lower with a list\n", (int)lower);
    assert_true(lower > JOBS / 40);
}

/* Whichever allocation is the first to fail, that is told, and nothing is left
 * behind or handed out. */
static void test_out_of_memory(void **state)
{
    large l;
    mini_random r = {first_seed};
    qci_model *model = large_job(&l, &r, ROWS);
    qc_status status = QC_STATUS_NO_MEMORY;
    int64_t failed = 0;

    (void)state;
    for (long n = 1; status; n += 1 + n / 16) {
        int64_t bound;
        long live = qci_alloc_live();
        qci_master *m = solved(model, &bound);
        qci_solution out = {0};

        qci_alloc_fail_at(n, 1);
        status =
            qci_corner(m, (qci_corner_plan){.cap = bound + 20}, &out, NULL);
        qci_alloc_fail_at(0, 0);
        if (status) {
            assert_int_equal(status, QC_STATUS_NO_MEMORY);
            assert_int_equal(out.height, 0);
            failed++;
        }
        qci_solution_clear(&out);
        qci_master_destroy(m);
        assert_int_equal(qci_alloc_live(), live);
    }
    assert_true(failed > 20);
    qci_model_destroy(model);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_residues),
        cmocka_unit_test(test_never_too_low),
        cmocka_unit_test(test_near_the_bound),
        cmocka_unit_test(test_listed_patterns),
        cmocka_unit_test(test_out_of_memory),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, every_begin, every_end);
}
