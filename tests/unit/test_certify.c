/* The checker alone, on proofs made by hand. Each is worked out beside it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "certify/proof.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

/* A proof whose lists are its own arrays. */
typedef struct draft {
    qci_proof proof;
    qci_proof_piece pieces[3];
    qci_proof_form forms[4];
    int64_t heights[5];
    qci_proof_node nodes[5];
    int64_t values[5][3], weights[5][3];
} draft;

/* The last height is just beyond the highest form. */
static void fill(draft *d, size_t kinds, size_t forms, size_t classes,
                 size_t nodes)
{
    d->heights[classes] = 0;
    for (size_t i = 0; i < forms; i++)
        if (d->forms[i].height >= d->heights[classes])
            d->heights[classes] = d->forms[i].height + 1;
    d->proof.cell_across = d->proof.cell_along = 1;
    d->proof.kind_count = (int64_t)kinds;
    d->proof.pieces.at = d->pieces;
    d->proof.pieces.count = kinds;
    d->proof.forms.at = d->forms;
    d->proof.forms.count = forms;
    d->proof.heights.at = d->heights;
    d->proof.heights.count = classes + 1;
    d->proof.nodes.at = d->nodes;
    d->proof.nodes.count = nodes;
    for (size_t i = 0; i < nodes; i++) {
        d->nodes[i].values.at = d->values[i];
        d->nodes[i].weights.at = d->weights[i];
        if (!d->nodes[i].ask)
            d->nodes[i].values.count = kinds;
    }
}

/* Four pieces 4 wide and 1 high on fabric 10 wide: two in a strip, so two
 * strips. Sold by the unit. */
static void two_strips(draft *d)
{
    memset(d, 0, sizeof *d);
    d->proof.width = 10;
    d->proof.step = 1;
    d->proof.bought = 2;
    d->proof.trim = true;
    d->pieces[0] = (qci_proof_piece){.kind = 0, .count = 4};
    d->forms[0] = (qci_proof_form){.width = 4, .height = 1, .yields = 1};
    d->heights[0] = 1;
    d->values[0][0] = 1;
    fill(d, 1, 1, 1, 1);
}

static bool holds(const draft *d, char reason[QCI_REASON_ROOM])
{
    bool answer = false;
    int64_t work = 0;

    assert_int_equal(qci_certify(&d->proof, &work, &answer, reason, NULL), 0);
    assert_int_equal(answer, reason[0] == '\0');
    return answer;
}

static void accept(const draft *d)
{
    char reason[QCI_REASON_ROOM];

    if (!holds(d, reason))
        fail_msg("refused: %s", reason);
}

static void refuse(const draft *d, const char *why)
{
    char reason[QCI_REASON_ROOM];

    assert_false(holds(d, reason));
    if (!strstr(reason, why))
        fail_msg("refused with \"%s\", not \"%s\"", reason, why);
}

static void a_knapsack(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    accept(&d);
    d.proof.bought = 3; /* two strips are enough for 2 */
    refuse(&d, "nodes[0]: a strip can be worth too much");
    d.pieces[0].count = 5; /* but not for five pieces */
    accept(&d);
    d.proof.width = 12; /* three in a strip */
    refuse(&d, "worth too much");
}

/* 2 and 3 wide, two of each, on fabric 8 wide: by area 10 of 16, so one strip
 * could do; but 2 + 2 + 3 leaves one out. */
static void numbers_that_are_needed(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.width = 8;
    d.pieces[0].count = 2;
    d.pieces[1] = (qci_proof_piece){.kind = 1, .count = 2};
    d.forms[0] =
        (qci_proof_form){.kind = 1, .width = 3, .height = 1, .yields = 1};
    d.forms[1] = (qci_proof_form){.width = 2, .height = 1, .yields = 1};
    d.values[0][0] = 2;
    d.values[0][1] = 3;
    fill(&d, 2, 2, 1, 1);
    accept(&d); /* 2 + 3 + 3 = 8 < 10 */
    d.values[0][0] = 1;
    d.values[0][1] = 1; /* 2 + 2 + 3: three of four */
    accept(&d);
    d.pieces[0].count = 4; /* six are wanted; four go into a strip */
    accept(&d);
    d.proof.bought = 3; /* two strips: 2 2 2 2 and 3 3 */
    refuse(&d, "worth too much");
}

/* 4 wide and 2 high, on fabric 4 wide, in stacks: a strip holds one. With a
 * piece 4 wide and 1 high the strip holds two of it, one on the other. */
static void stacks(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.width = 4;
    d.proof.stacks = true;
    d.proof.bought = 4;
    d.pieces[0].count = 1;
    d.pieces[1] = (qci_proof_piece){.kind = 1, .count = 2};
    d.forms[0].height = 2;
    d.forms[1] =
        (qci_proof_form){.kind = 1, .width = 4, .height = 1, .yields = 1};
    d.heights[1] = 2;
    d.values[0][0] = 2;
    d.values[0][1] = 1;
    fill(&d, 2, 2, 2, 1);
    accept(&d); /* 2 + 1 + 1 = 4 */
    d.proof.bought = 5;
    refuse(&d, "worth too much");
    d.proof.bought = 4;
    d.values[0][1] = 2; /* two in a strip of 2 are worth 4, four in the 3 */
    refuse(&d, "worth too much");
    d.heights[0] = 2; /* a strip can be 1 high */
    fill(&d, 2, 2, 1, 1);
    refuse(&d, "or do not hold all forms");
}

/* 4 wide and 3 high, and 4 wide and 2 high, on fabric 8 wide: both lie in a
 * strip of 3 if the lower one may be trimmed; else each needs a strip. A value
 * may then be negative: of ten that are 1 high six fill two stacks of 3. */
static void stacks_that_fill(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.width = 8;
    d.proof.stacks = true;
    d.proof.trim = false;
    d.proof.bought = 5;
    d.pieces[0].count = 1;
    d.pieces[1] = (qci_proof_piece){.kind = 1, .count = 1};
    d.forms[0].height = 3;
    d.forms[1] =
        (qci_proof_form){.kind = 1, .width = 4, .height = 2, .yields = 1};
    d.heights[0] = 2;
    d.heights[1] = 3;
    d.values[0][0] = 3;
    d.values[0][1] = 2;
    fill(&d, 2, 2, 2, 1);
    accept(&d);
    d.proof.trim = true;
    refuse(&d, "worth too much");
    d.proof.trim = false;
    d.forms[1].height = 1; /* one of it does not fill a strip of 3 */
    d.heights[0] = 1;
    d.heights[1] = 2;
    d.heights[2] = 3;
    d.proof.bought = 4;
    d.values[0][1] = 1;
    fill(&d, 2, 2, 3, 1);
    accept(&d);
    d.pieces[1].count = 3; /* three of it do */
    refuse(&d, "worth too much");
    d.values[0][0] = 10;
    d.values[0][1] = -1;
    refuse(&d, "worth too much");
    d.proof.bought = 3; /* 10 - 3 on 2 units of height: 3 are for the taller */
    accept(&d);
    d.proof.trim = true;
    refuse(&d, "values and weights");
}

/* 3 wide and 1, 2 high, and 1 wide and 3 high, on fabric 4 wide: all in one
 * strip of 3. To fill it a piece of negative value is taken too. */
static void what_fills_though_it_is_worth_less_than_nothing(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.width = 4;
    d.proof.stacks = true;
    d.proof.trim = false;
    d.proof.bought = 3;
    for (int i = 0; i < 3; i++) {
        d.pieces[i] = (qci_proof_piece){.kind = i, .count = 1};
        d.forms[i] = (qci_proof_form){
            .kind = i, .width = i == 2 ? 1 : 3, .height = i + 1, .yields = 1};
        d.heights[i] = i + 1;
    }
    d.nodes[0] = (qci_proof_node){.ask = QCI_ASK_CLASS, .at = 2};
    d.values[1][2] = 1; /* without a strip of 3 nothing holds the last */
    d.weights[1][0] = -1;
    d.values[2][0] = 3;
    d.values[2][1] = -2;
    d.weights[2][0] = 10; /* 3 - 2 + 10 in one strip is all that is wanted */
    fill(&d, 3, 3, 3, 3);
    d.nodes[1].weights.count = d.nodes[2].weights.count = 1;
    accept(&d);
    d.proof.bought = 4;
    refuse(&d, "nodes[2]: a strip can be worth too much");
}

/* Triangles with leans 0 and 2 (a right angle), 2 high, 1 wide at half the
 * height: two make a square of 2, one alone needs 2. On fabric 3 wide three of
 * them fill a strip and its end: 1 + 1 + 1 + half of 2 for the last lean would
 * be 4. */
static void slants(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.width = 3;
    d.proof.bought = 4;
    d.pieces[0].count = 3;
    d.forms[0] =
        (qci_proof_form){.width = 1, .height = 2, .right = 2, .yields = 1};
    d.forms[1] =
        (qci_proof_form){.width = 1, .height = 2, .left = 2, .yields = 1};
    d.heights[0] = 2;
    d.values[0][0] = 1;
    fill(&d, 1, 2, 1, 1);
    accept(&d); /* of 3 units of height strips can take 2 */
    d.proof.width = 4;
    refuse(&d, "worth too much");
    d.forms[1].left = 4;                  /* they no longer join: 1 + 1 + 1 */
    refuse(&d, "a form is not possible"); /* and its lower side is -1 long */
    d.forms[1].width = 2;
    accept(&d);
}

/* Squares that become two: 3 wide, on fabric 6 wide; five of them are three
 * squares, and two strips. */
static void squares_that_yield_two(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.width = 6;
    d.pieces[0].count = 5;
    d.forms[0] = (qci_proof_form){.width = 3, .height = 1, .yields = 2};
    fill(&d, 1, 1, 1, 1);
    accept(&d);
    d.pieces[0].count = 4;
    refuse(&d, "worth too much");
}

/* Three pieces 6 wide and 3 high, one 4 wide and 2 high, on fabric 10 wide: as
 * many strips of 3 as pieces of 3. Two at most: not enough; three or more: 9,
 * and the last piece lies in one of them. No values need be given above. */
static void questions(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.bought = 9;
    d.pieces[0].count = 3;
    d.pieces[1] = (qci_proof_piece){.kind = 1, .count = 1};
    d.forms[0] = (qci_proof_form){.width = 6, .height = 3, .yields = 1};
    d.forms[1] =
        (qci_proof_form){.kind = 1, .width = 4, .height = 2, .yields = 1};
    d.heights[0] = 2;
    d.heights[1] = 3;
    d.nodes[0] = (qci_proof_node){.ask = QCI_ASK_CLASS, .at = 1, .most = 2};
    d.values[1][0] = 1; /* of three, two strips hold two */
    d.weights[1][0] = -1;
    d.values[2][0] = d.values[2][1] = 0;
    d.weights[2][0] = 1;
    fill(&d, 2, 2, 2, 3);
    d.values[0][0] = 0;
    d.nodes[1].weights.count = d.nodes[2].weights.count = 1;
    accept(&d);
    d.proof.bought = 10;
    refuse(&d, "nodes[2]");
    d.proof.bought = 9;
    d.weights[1][0] = 1; /* the wrong way round */
    refuse(&d, "nodes[1]: values and weights do not fit");
    d.weights[1][0] = 0;
    accept(&d); /* by area alone: 3 values on 9 units of height */
    d.nodes[0].most = 3;
    accept(&d);
    d.nodes[0].most = 1;
    refuse(&d, "nodes[2]"); /* two strips of 3 are less than 9 */
}

/* Strips with at least two of a kind. */
static void questions_of_pieces(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.nodes[0] = (qci_proof_node){.ask = QCI_ASK_KIND, .at = 2, .most = 1};
    d.values[1][0] = 2; /* worth 2 + 2 - 1 where it holds two */
    d.weights[1][0] = -1;
    d.values[2][0] = 0;
    d.weights[2][0] = 1; /* two strips of 1 or more */
    fill(&d, 1, 1, 1, 3);
    d.nodes[1].weights.count = d.nodes[2].weights.count = 1;
    accept(&d);
    d.proof.bought = 3;
    refuse(&d, "nodes[");
}

/* A step less is not even one strip. */
static void nothing_to_show(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.bought = 5;
    d.proof.step = 5;
    d.forms[0].height = d.heights[0] = 6;
    fill(&d, 1, 1, 1, 0);
    accept(&d);
    d.proof.bought = 15; /* 10 are a strip and more */
    refuse(&d, "nodes[0]: is missing");
    fill(&d, 1, 1, 1, 0);
    refuse(&d, "is missing");
}

/* As above, sold by 5: the two strips are bought as 5, and not less than 2 is
 * used; with 1 for the squaring-up, 3. */
static void what_is_used(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.proof.bought = d.proof.step = 5;
    d.proof.used = 2;
    accept(&d);
    d.proof.used = 3;
    refuse(&d, "worth too much");
    d.proof.square_up = 1;
    accept(&d);
    d.proof.bought = 10; /* 5 covers 3 */
    refuse(&d, "used: a step less than is bought covers it");
    d.proof.used = 6; /* five strips, and one is not needed */
    refuse(&d, "worth too much");
    d.pieces[0].count = 9; /* five are needed */
    accept(&d);
    d.proof.shrink = 2000; /* 5 give 4, and 10 give 8 */
    accept(&d);
}

/* All proofs of a certificate share what work may be done. */
static void too_much_work(void **state)
{
    char reason[QCI_REASON_ROOM];
    int64_t work = 0;
    bool answer;
    draft d;

    (void)state;
    two_strips(&d);
    assert_int_equal(qci_certify(&d.proof, &work, &answer, reason, NULL), 0);
    assert_true(answer && work > 0 && work < 1000);
    work = INT64_C(1) << 40;
    assert_int_equal(qci_certify(&d.proof, &work, &answer, reason, NULL), 0);
    assert_false(answer);
    assert_string_equal(reason,
                        "nodes[0]: from here on it takes too long to check");
    assert_true(work > INT64_C(1) << 40);
}

static void trees_that_are_none(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    fill(&d, 1, 1, 1, 2);
    refuse(&d, "nodes[1]: no question leads to it");
    two_strips(&d);
    d.nodes[0] = (qci_proof_node){.ask = QCI_ASK_CLASS, .most = 3};
    fill(&d, 1, 1, 1, 1);
    refuse(&d, "is missing");
    d.values[1][0] = d.values[2][0] = 1;
    fill(&d, 1, 1, 1, 2);
    d.nodes[1].weights.count = d.nodes[2].weights.count = 1;
    refuse(&d, "is missing");
    fill(&d, 1, 1, 1, 3);
    accept(&d);
    d.nodes[0].at = 1;
    refuse(&d, "a node asks what cannot be");
}

static void what_is_not_possible(void **state)
{
    draft d;

    (void)state;
#define WRONG(change, why)                                                     \
    do {                                                                       \
        two_strips(&d);                                                        \
        change;                                                                \
        refuse(&d, why);                                                       \
    } while (0)
    WRONG(d.proof.width = 0, "a length is not possible");
    WRONG(d.proof.step = 0, "a length is not possible");
    WRONG(d.proof.step = 4, "not a multiple of step");
    WRONG(d.proof.shrink = 10000, "a length is not possible");
    WRONG(d.proof.square_up = -1, "a length is not possible");
    WRONG(d.proof.used = -1, "a length is not possible");
    WRONG(d.pieces[0].count = 0, "a count of pieces");
    WRONG(d.pieces[0].kind = 1, "a count of pieces");
    WRONG(d.forms[0].kind = 1, "a form is not possible");
    WRONG(d.forms[0].width = 0, "a form is not possible");
    WRONG(d.forms[0].height = -1, "a form is not possible");
    WRONG(d.forms[0].left = 1, "a form is not possible");
    WRONG(d.forms[0].yields = 0, "a form is not possible");
    WRONG((d.forms[1] = d.forms[0], d.forms[1].width++, fill(&d, 1, 2, 1, 1)),
          "stands in the wrong place");
    WRONG((d.forms[1] = d.forms[0], d.forms[0].outline = true,
           fill(&d, 1, 2, 1, 1)),
          "stands in the wrong place");
    WRONG(fill(&d, 0, 0, 1, 1), "nothing is to be cut");
    WRONG(d.heights[0] = 0, "heights: do not rise");
    WRONG((d.heights[1] = 1, fill(&d, 1, 1, 2, 1)), "heights: do not rise");
    WRONG(d.proof.heights.count = 1, "heights: do not rise");
    WRONG(d.proof.cell_across = 0, "cells are too");
    WRONG(d.proof.cell_across = 5, "cells are too");
    WRONG(d.proof.width = INT64_C(1) << 35, "cells are too");
    WRONG(d.proof.cell_along = 2, "cells are too");
    WRONG(d.values[0][0] = 0, "nodes[0]: values and weights");
    WRONG(d.values[0][0] = -1, "nodes[0]: values and weights");
    WRONG(d.values[0][0] = (INT64_C(1) << 41) + 1, "a node asks");
    WRONG(d.nodes[0].values.count = 0, "has not a value for each kind");
    WRONG(d.nodes[0].weights.count = 1, "nodes[0]: values and weights");
#undef WRONG
}

/* Of a kind without a form nothing can be cut: whatever is bought. */
static void a_kind_without_a_form(void **state)
{
    draft d;

    (void)state;
    two_strips(&d);
    d.forms[0].width = 11;
    d.proof.bought = 1000;
    accept(&d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_knapsack),
        cmocka_unit_test(numbers_that_are_needed),
        cmocka_unit_test(stacks),
        cmocka_unit_test(stacks_that_fill),
        cmocka_unit_test(what_fills_though_it_is_worth_less_than_nothing),
        cmocka_unit_test(slants),
        cmocka_unit_test(squares_that_yield_two),
        cmocka_unit_test(questions),
        cmocka_unit_test(questions_of_pieces),
        cmocka_unit_test(nothing_to_show),
        cmocka_unit_test(what_is_used),
        cmocka_unit_test(too_much_work),
        cmocka_unit_test(trees_that_are_none),
        cmocka_unit_test(what_is_not_possible),
        cmocka_unit_test(a_kind_without_a_form),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
