/* What is left of the limits is worth more than a number, or it is not: asked
 * about the worth itself, about one less, and about numbers further off, on
 * seeded rows whose sizes go up to those of real fabric. QC_SEED sets the first
 * seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "mini.h"
#include "pack/oracle_inner.h"
#include "pack_every.h"

#define ROUNDS 20000
#define ROWS 6

typedef struct heap {
    qci_rest rest[ROWS];
    int64_t limit[ROWS];
    int32_t held[ROWS], most_yield[ROWS];
    qci_prices prices;
    qci_oracle oracle;
} heap;

static uint64_t first_seed = 7301;

static void draw(heap *h, mini_random *r)
{
    int64_t large = mini_between(r, 0, 1) ? 12 : INT64_C(1) << 40;

    memset(h, 0, sizeof *h);
    h->oracle.rest = h->rest;
    h->oracle.rest_count = (int32_t)mini_between(r, 0, ROWS);
    for (int32_t row = 0; row < ROWS; row++) {
        int32_t yield = mini_between(r, 0, 2) ? 1 : 2;

        h->rest[row] = (qci_rest){row, yield, mini_between(r, 1, large),
                                  mini_between(r, 1, large)};
        h->limit[row] = mini_between(r, 0, 9);
        h->held[row] = (int32_t)mini_between(r, 0, h->limit[row]);
        h->most_yield[row] = yield;
    }
    h->prices.limit = h->limit;
    h->oracle.prices = &h->prices;
    h->oracle.held = h->held;
    h->oracle.most_yield = h->most_yield;
}

static void test_beats(void **state)
{
    mini_random r = {first_seed};

    (void)state;
    for (int i = 0; i < ROUNDS; i++) {
        static heap h;
        int64_t room, worth, other;

        draw(&h, &r);
        room = mini_between(&r, 0, 40 * h.rest[0].room);
        worth = qci_rest_worth(&h.oracle, room);
        other = mini_between(&r, -2, 2 * worth + 2);
        assert_false(qci_rest_beats(&h.oracle, room, worth));
        assert_true(qci_rest_beats(&h.oracle, room, worth - 1));
        assert_int_equal(qci_rest_beats(&h.oracle, room, other), worth > other);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_beats)};

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
