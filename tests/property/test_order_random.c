/* Random valid plans: the cut order makes exactly the cuts that piling by hand
 * takes, the replay accepts it, and rejects it as soon as any one number in any
 * one step is changed. The few changes that leave a true order behind are named
 * in is_still_true(), each with its reason; no other survives.
 *
 * The seed is printed; QC_SEED sets it. */
#include <inttypes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "hand_plan.h"
#include "order/order.h"
#include "replay/replay.h"

#define PLANS 2000
#define MUTATED_PLANS 60
#define UNIT EIGHTHS(1)

static uint64_t first_seed = 20240917;
static uint64_t now;

/* From `low` to `high`, both included: a linear congruential generator with
 * Knuth's constants (MMIX, from memory), upper half used. */
static int64_t pick(int64_t low, int64_t high)
{
    now = now * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return low + (int64_t)((now >> 32) % (uint64_t)(high - low + 1));
}

static bool chance(int per_cent)
{
    return pick(1, 100) <= per_cent;
}

static qci_plan_fabric *last_fabric(qc_plan *plan)
{
    return &plan->fabrics[plan->fabric_count - 1];
}

static const qc_strip *last_strip(qc_plan *plan)
{
    qci_plan_fabric *fabric = last_fabric(plan);

    return &fabric->strips[fabric->info.strip_count - 1];
}

/* A piece that measures `width` x `height` as it lies with `turn`: mostly one
 * that is there already, if there is. */
static uint32_t some_piece(qc_plan *plan, qc_length width, qc_length height,
                           qc_turn turn)
{
    bool quarter = turn == QC_TURN_QUARTER;
    qc_length across = quarter ? height : width;
    qc_length along = quarter ? width : height;
    char id[16];

    for (size_t i = 0; i < plan->piece_count && !chance(20); i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (piece->fabric + 1 == plan->fabric_count &&
            piece->cut[0] == across && piece->cut[1] == along)
            return (uint32_t)i;
    }
    snprintf(id, sizeof id, "P%zu", plan->piece_count);
    if (across == along && chance(70))
        return hand_triangle(plan, id, across,
                             chance(50) ? QC_SHAPE_HALF_SQUARE_TRIANGLE
                                        : QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    return hand_piece(plan, id, across, along);
}

/* Runs from the lower edge up, none wider than the one below, that fill the
 * height now and then. */
static void add_stack(qc_plan *plan, qc_length wide, qc_length height)
{
    qc_length left = height;

    do {
        qc_turn turn = (qc_turn)pick(0, 2);
        qc_length high = chance(40) ? left
                         : chance(30) && wide <= left
                             ? wide
                             : pick(1, left / UNIT) * UNIT;
        uint32_t most = (uint32_t)(left / high);
        uint32_t count = chance(50) ? most : (uint32_t)pick(1, most);

        hand_stack(plan, some_piece(plan, wide, high, turn), count, turn);
        left -= count * high;
        if (chance(40))
            wide = pick(1, wide / UNIT) * UNIT;
    } while (left > 0 && chance(60));
}

/* Sections, none wider than the one before, that fill the width now and then.
 */
static void add_strip(qc_plan *plan, qc_length width, qc_length height)
{
    qc_length left = width;
    qc_length wide = width;

    hand_strip(plan, height,
               (uint32_t)(chance(5) ? pick(10, 2000) : pick(1, 9)));
    do {
        qc_length most = wide < left ? wide : left;
        uint32_t count;

        wide = chance(20) ? most : pick(1, most / UNIT) * UNIT;
        count = (uint32_t)(left / wide);
        hand_subcut(plan, chance(40) ? count : (uint32_t)pick(1, count));
        add_stack(plan, wide, height);
        left = width - last_strip(plan)->used_width;
    } while (left > 0 && chance(70));
}

/* The last strip once more, with sections left out; nothing when it has but
 * one. */
static void add_cut_short(qc_plan *plan)
{
    size_t from = last_fabric(plan)->info.strip_count - 1;
    uint32_t first = last_strip(plan)->subcuts[0].count;
    uint32_t count = (uint32_t)pick(0, first - 1);

    if (count == 0)
        return;
    hand_strip(plan, last_strip(plan)->height, (uint32_t)pick(1, 3))
        ->cut_short = true;
    hand_subcut(plan, count);
    for (size_t i = 0;; i++) {
        const qc_subcut *whole = &last_fabric(plan)->strips[from].subcuts[0];

        if (i == whole->stack_count)
            break;
        hand_stack(plan, whole->stacks[i].piece, whole->stacks[i].count,
                   whole->stacks[i].turn);
    }
}

static void add_fabric(qc_plan *plan)
{
    qc_length width = pick(8, 400) * UNIT;
    qc_length height = pick(1, 96) * UNIT;
    int64_t strips = pick(0, 5);

    hand_fabric(plan, "cloth", width, chance(50) ? 0 : pick(1, 8) * UNIT);
    while (strips-- > 0) {
        add_strip(plan, width, height);
        if (chance(25))
            add_cut_short(plan);
        height = pick(1, height / UNIT) * UNIT;
    }
}

/* A plan with its order. */
static qc_plan *random_plan(uint64_t number)
{
    qc_plan *plan = hand_plan();
    int64_t fabrics;

    now = first_seed + number;
    pick(0, 1); /* neighbouring seeds part only in the lower bits */
    plan->layers = (int32_t)pick(1, 8);
    fabrics = pick(1, 3);
    while (fabrics-- > 0)
        add_fabric(plan);
    hand_finish(plan, pick(1, 16) * UNIT);
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    return plan;
}

/* What a person counts who stands at one pile of strips. */
static int64_t cuts_of_pile(const qc_strip *strip)
{
    int64_t cuts = 1; /* the left end */

    for (size_t i = 0; i < strip->subcut_count; i++) {
        const qc_subcut *subcut = &strip->subcuts[i];
        qc_length top = 0;
        int64_t inside = 0;

        for (size_t j = 0; j < subcut->stack_count; j++) {
            const qc_stack *run = &subcut->stacks[j];

            top += run->count * run->height;
            inside += run->count * (run->width < subcut->width ? 2 : 1);
        }
        cuts += subcut->count * (1 + inside - (top == strip->height));
    }
    return cuts;
}

/* Squares of one piece are piled together: one cut a pile for halves, two for
 * quarters. */
static int64_t cuts_of_triangles(const qc_plan *plan,
                                 const qci_plan_fabric *fabric)
{
    int64_t cuts = 0, most = plan->layers;

    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (&plan->fabrics[piece->fabric] != fabric)
            continue;
        if (piece->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE)
            cuts += (piece->count / 2 + most - 1) / most;
        if (piece->shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE)
            cuts += (piece->count / 4 + most - 1) / most * 2;
    }
    return cuts;
}

static int64_t cuts_of_fabric(const qc_plan *plan,
                              const qci_plan_fabric *fabric)
{
    const qc_plan_fabric *info = &fabric->info;
    int64_t cuts = info->strip_count > 0 && info->square_up > 0;

    for (size_t i = 0; i < info->strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];
        int64_t most = plan->layers;
        int64_t piles = (strip->repeat + most - 1) / most;

        cuts += strip->repeat + piles * cuts_of_pile(strip);
    }
    return cuts + cuts_of_triangles(plan, fabric);
}

static void orders_are_accepted(void **state)
{
    size_t steps = 0, diagonals = 0;

    (void)state;
    for (uint64_t n = 0; n < PLANS; n++) {
        qc_plan *plan = random_plan(n);
        qc_error err;

        qc_error_init(&err);
        if (qci_replay_plan(plan, &err) != QC_STATUS_OK)
            fail_msg("plan %" PRIu64 ": %s: %s", n, err.field, err.problem);
        for (size_t i = 0; i < plan->fabric_count; i++)
            assert_int_equal(plan->fabrics[i].info.cuts,
                             cuts_of_fabric(plan, &plan->fabrics[i]));
        steps += plan->step_count;
        for (size_t i = 0; i < plan->step_count; i++)
            diagonals += plan->steps[i].kind == QC_STEP_DIAGONAL;
        qc_plan_destroy(plan);
    }
    print_message("%d plans, %zu steps, %zu of them corner to corner\n", PLANS,
                  steps, diagonals);
    assert_true(diagonals > 100);
}

/* Numbers of a step by name, so that each can be changed and put back. */
typedef enum number {
    NUMBER,
    FABRIC,
    KIND,
    PART_IN,
    PART_OUT,
    PIECE,
    TURN,
    REST_IS_PIECE,
    DISTANCE,
    COPIES,
    LAYERS,
    REPEAT,
    CUTS,
    YIELD,
    TOTAL,
    NUMBERS
} number;

static const char *const names[] = {
    "number", "fabric", "kind",          "part_in",  "part_out",
    "piece",  "turn",   "rest_is_piece", "distance", "copies",
    "layers", "repeat", "cuts",          "yield",    "total"};

static int64_t get(const qc_step *step, number which)
{
    switch (which) {
    case NUMBER:
        return step->number;
    case FABRIC:
        return step->fabric;
    case KIND:
        return step->kind;
    case PART_IN:
        return step->part_in;
    case PART_OUT:
        return step->part_out;
    case PIECE:
        return step->piece;
    case TURN:
        return step->turn;
    case REST_IS_PIECE:
        return step->rest_is_piece;
    case DISTANCE:
        return step->distance;
    case COPIES:
        return step->copies;
    case LAYERS:
        return step->layers;
    case REPEAT:
        return step->repeat;
    case CUTS:
        return step->cuts;
    case YIELD:
        return step->yield;
    case TOTAL:
    case NUMBERS:
        break;
    }
    return step->total;
}

/* Sets a number as far as its type can hold the value. */
static void set(qc_step *step, number which, int64_t value)
{
    switch (which) {
    case NUMBER:
        step->number = (uint32_t)value;
        break;
    case FABRIC:
        step->fabric = (uint32_t)value;
        break;
    case KIND:
        step->kind = (qc_step_kind)value;
        break;
    case PART_IN:
        step->part_in = (uint32_t)value;
        break;
    case PART_OUT:
        step->part_out = (uint32_t)value;
        break;
    case PIECE:
        step->piece = (uint32_t)value;
        break;
    case TURN:
        step->turn = (qc_turn)value;
        break;
    case REST_IS_PIECE:
        step->rest_is_piece = value != 0;
        break;
    case DISTANCE:
        step->distance = value;
        break;
    case COPIES:
        step->copies = value;
        break;
    case LAYERS:
        step->layers = (uint32_t)value;
        break;
    case REPEAT:
        step->repeat = (uint32_t)value;
        break;
    case CUTS:
        step->cuts = value;
        break;
    case YIELD:
        step->yield = value;
        break;
    case TOTAL:
    case NUMBERS:
        step->total = value;
        break;
    }
}

/* Values to try in place of a number: its neighbours, small ones, multiples,
 * the ends of the types. */
#define TRIALS 17

static int64_t trial(number which, int64_t value, size_t index)
{
    const int64_t values[TRIALS] = {
        value - 1,    value + 1, value - 2, value + 2, value * 2, value / 2,
        -value,       0,         1,         2,         3,         value - UNIT,
        value + UNIT, QC_NONE,   INT32_MAX, INT64_MAX, INT64_MIN};
    int64_t tried = values[index];

    /* An enum holds its own values and little more; a bool two. */
    if (which == KIND || which == TURN)
        return tried < 0 || tried > QC_STEP_DIAGONAL ? 0 : tried;
    return which == REST_IS_PIECE ? !value : tried;
}

/* The step that made a part; parts are told apart by fabric. */
static const qc_step *maker_of(const qc_plan *plan, uint32_t fabric,
                               uint32_t part)
{
    for (size_t i = 0; i < plan->step_count; i++) {
        const qc_step *step = &plan->steps[i];

        if (step->fabric == fabric && step->part_out == part)
            return step;
    }
    return NULL;
}

static bool measures_across(qc_step_kind kind)
{
    return kind != QC_STEP_SPLIT && kind != QC_STEP_STRIP &&
           kind != QC_STEP_SQUARE_UP;
}

/* What a part measures across, or along, before anything is cut off it. */
static qc_length extent(const qc_plan *plan, uint32_t fabric, uint32_t part,
                        bool across)
{
    const qc_step *maker;

    for (; part != 0; part = maker->part_in) {
        maker = maker_of(plan, fabric, part);
        if (!maker)
            return 0;
        if (measures_across(maker->kind) == across)
            return maker->distance;
    }
    return across ? plan->fabrics[fabric].info.usable_width
                  : plan->fabrics[fabric].info.bought;
}

/* All that is cut off a part that way has room in it. */
static bool has_room(const qc_plan *plan, uint32_t fabric, uint32_t part,
                     bool across)
{
    qc_length needed = 0;

    for (size_t i = 0; i < plan->step_count; i++) {
        const qc_step *step = &plan->steps[i];

        if (step->fabric == fabric && step->part_in == part &&
            measures_across(step->kind) == across)
            needed += step->distance * (step->repeat + step->rest_is_piece +
                                        (step->kind == QC_STEP_KEEP));
    }
    return needed <= extent(plan, fabric, part, across);
}

/* Whether the order is as true with the changed number in `step`. The plan's
 * strips say how a piece is best cut; the order is free to cut it otherwise. */
static bool is_still_true(const qc_plan *plan, const qc_step *step,
                          number which, int64_t before)
{
    bool across = measures_across(step->kind);

    switch (which) {
    case LAYERS: /* The bolt is one pile, whether it is folded or not; and lower
                    piles may be as many as before. */
        return step->part_in == 0 || (step->kind == QC_STEP_DIAGONAL &&
                                      (step->copies - 1) / step->layers ==
                                          (step->copies - 1) / before);
    case TURN: /* On plain cloth half a turn shows nowhere, nor does a
                  quarter of a square. */
        return (before == QC_TURN_QUARTER) == (step->turn == QC_TURN_QUARTER) ||
               plan->pieces[step->piece].shape != QC_SHAPE_RECTANGLE;
    case KIND: /* A section that is a piece as it is, is so whichever way it is
                  measured. */
        return step->repeat == 0 && step->rest_is_piece;
    case DISTANCE: /* More is taken off a left end than need be, and what is
                      left of the strip is still enough. */
        return step->kind == QC_STEP_SQUARE_END &&
               has_room(plan, step->fabric, step->part_in, true);
    case PART_IN: /* Cloths as many, and as large, that had it to spare. */
        return step->kind != QC_STEP_SQUARE_END &&
               has_room(plan, step->fabric, step->part_in, across);
    default:
        return false;
    }
}

static void no_changed_number_survives(void **state)
{
    size_t changes = 0, survivors[NUMBERS] = {0}, unexplained = 0;

    (void)state;
    for (uint64_t n = 0; n < MUTATED_PLANS; n++) {
        qc_plan *plan = random_plan(n);

        for (size_t at = 0; at < plan->step_count * NUMBERS * TRIALS; at++) {
            qc_step *step = &plan->steps[at / TRIALS / NUMBERS];
            number which = (number)(at / TRIALS % NUMBERS);
            int64_t before = get(step, which);

            set(step, which, trial(which, before, at % TRIALS));
            if (get(step, which) == before)
                continue;
            changes++;
            if (qci_replay_plan(plan, NULL) == QC_STATUS_OK) {
                survivors[which]++;
                if (!is_still_true(plan, step, which, before)) {
                    unexplained++;
                    print_message("plan %" PRIu64
                                  ", step %zu kind %d: %s %" PRId64
                                  " -> %" PRId64 " survives\n",
                                  n, at / TRIALS / NUMBERS + 1, step->kind,
                                  names[which], before, get(step, which));
                }
            }
            set(step, which, before);
        }
        assert_int_equal(qci_replay_plan(plan, NULL), QC_STATUS_OK);
        qc_plan_destroy(plan);
    }
    print_message("%zu changes\n", changes);
    for (int i = 0; i < NUMBERS; i++)
        if (survivors[i])
            print_message("  %s: %zu survive\n", names[i], survivors[i]);
    assert_int_equal(unexplained, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orders_are_accepted),
        cmocka_unit_test(no_changed_number_survives),
    };
    const char *seed = getenv("QC_SEED");

    if (seed)
        first_seed = strtoull(seed, NULL, 10);
    print_message("QC_SEED=%" PRIu64 "\n", first_seed);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
