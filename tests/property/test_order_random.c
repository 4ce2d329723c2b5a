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
#include "random_plan.h"
#include "replay/replay.h"
#include "step_number.h"

#define PLANS 2000
#define MUTATED_PLANS 40
#define UNIT EIGHTHS(1)

/* Cuts inside a section: of its stacks, or round its outline. */
static int64_t cuts_inside(const qc_strip *strip, const qc_subcut *subcut)
{
    int64_t inside = subcut->corners;
    qc_length top = 0;

    if (subcut->lean[0] || subcut->lean[1] || subcut->corners)
        return inside;
    for (size_t j = 0; j < subcut->stack_count; j++) {
        const qc_stack *run = &subcut->stacks[j];

        top += run->count * run->height;
        inside += run->count * (run->width < subcut->width ? 2 : 1);
    }
    return inside - (top == strip->height);
}

/* What a person counts who stands at one pile of strips: wherever the next
 * section does not begin as the last one ended a wedge comes off. */
static int64_t cuts_of_pile(const qc_strip *strip)
{
    int64_t cuts = 1; /* the left end */
    qc_length edge = 0;

    for (size_t i = 0; i < strip->subcut_count; i++) {
        const qc_subcut *subcut = &strip->subcuts[i];

        for (uint32_t n = 0; n < subcut->count; n++) {
            bool turned = subcut->alternate && n % 2 == 1;

            cuts += edge != subcut->lean[turned];
            edge = subcut->lean[!turned];
            cuts += 1 + cuts_inside(strip, subcut);
        }
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
        int64_t piles;

        if (strip->paired)
            most = most < 2 ? 2 : most / 2 * 2;
        piles = (strip->repeat + most - 1) / most;
        cuts += strip->repeat + piles * cuts_of_pile(strip);
    }
    return cuts + cuts_of_triangles(plan, fabric);
}

static void orders_are_accepted(void **state)
{
    size_t steps = 0, diagonals = 0, slants = 0, outlines = 0;

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
        for (size_t i = 0; i < plan->step_count; i++) {
            diagonals += plan->steps[i].kind == QC_STEP_DIAGONAL;
            slants += plan->steps[i].kind == QC_STEP_SLANT;
            outlines += plan->steps[i].kind == QC_STEP_OUTLINE;
        }
        qc_plan_destroy(plan);
    }
    print_message("%d plans, %zu steps, %zu of them corner to corner, %zu "
                  "wedges, %zu outlines\n",
                  PLANS, steps, diagonals, slants, outlines);
    assert_true(diagonals > 100 && slants > 100 && outlines > 100);
}

/* Values to try in place of a number: its neighbours, small ones, multiples,
 * the ends of the types. */
#define TRIALS 17

static int64_t trial(step_number which, int64_t value, size_t index)
{
    const int64_t values[TRIALS] = {
        value - 1,    value + 1, value - 2, value + 2, value * 2, value / 2,
        -value,       0,         1,         2,         3,         value - UNIT,
        value + UNIT, QC_NONE,   INT32_MAX, INT64_MAX, INT64_MIN};
    int64_t tried = values[index];

    /* An enum holds its own values and little more; a bool two. */
    if (which == KIND || which == TURN)
        return tried < 0 || tried > QC_STEP_TRIM_BACK ? 0 : tried;
    if (which == REST_IS_PIECE || which == ALTERNATE || which == PAIRED ||
        which == MIRRORED)
        return index == 0 ? !value : value;
    return tried;
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

/* Whether a piece that is said to lie turned otherwise looks the same on plain
 * cloth: after half a turn, or a quarter of a square. What is trimmed out of a
 * section may lie in it either way, if it fits at all. */
static bool is_turned_unseen(const qc_plan *plan, const qc_step *step,
                             qc_turn before)
{
    const qc_plan_piece *piece = &plan->pieces[step->piece];
    bool half = ((int)before + (int)step->turn) % 2 == 0;

    if (piece->outline_count == 0)
        return half || piece->shape != QC_SHAPE_RECTANGLE;
    return half && (piece->shape == QC_SHAPE_PARALLELOGRAM ||
                    step->kind == QC_STEP_OUTLINE);
}

/* Whether the order is as true with the changed number in `step`. The plan's
 * strips say how a piece is best cut; the order is free to cut it otherwise. */
static bool is_still_true(const qc_plan *plan, const qc_step *step,
                          step_number which, int64_t before)
{
    bool across = measures_across(step->kind);

    switch (which) {
    case LAYERS: /* The bolt is one pile, whether it is folded or not; and lower
                    piles may be as many as before. */
        return step->part_in == 0 || (step->kind == QC_STEP_DIAGONAL &&
                                      (step->copies - 1) / step->layers ==
                                          (step->copies - 1) / before);
    case ALTERNATE: /* One section, or sections with parallel sides, which look
                       the same turned by half. */
        return step->kind == QC_STEP_SUBCUT &&
               (step->repeat == 1 || step->distance);
    case PIECE: /* Trimmed of pairs: the lower one to the twin instead. */
        return step->kind == QC_STEP_OUTLINE && step->paired &&
               plan->pieces[before].twin == step->piece;
    case TURN:
        return is_turned_unseen(plan, step, (qc_turn)before);
    case MIRRORED: /* It is its own mirror image. */
        return plan->pieces[step->piece].outline_count > 0 &&
               plan->pieces[step->piece].hand == QC_HAND_NONE;
    case ALONG: /* What is trimmed afterwards may be a hair wider. */
        return step->kind == QC_STEP_SUBCUT && step->part_out != QC_NONE &&
               step->along - before < 3 && before - step->along < 3;
    case KIND: /* A section that is a piece as it is, is so whichever way it is
                  measured. */
        return step->repeat == 0 && step->rest_is_piece;
    case DISTANCE: /* A hair's breadth of the ruler's setting; or more is taken
                      off a left end than need be, and what is
                      left of the strip is still enough. */
        return (step->lean && step->distance - before < 9 &&
                before - step->distance < 9) ||
               (step->kind == QC_STEP_SQUARE_END &&
                has_room(plan, step->fabric, step->part_in, true));
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
            step_number which = (step_number)(at / TRIALS % NUMBERS);
            int64_t before = step_number_get(step, which);

            step_number_set(step, which, trial(which, before, at % TRIALS));
            if (step_number_get(step, which) == before)
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
                                  step_number_names[which], before,
                                  step_number_get(step, which));
                }
            }
            step_number_set(step, which, before);
        }
        assert_int_equal(qci_replay_plan(plan, NULL), QC_STATUS_OK);
        qc_plan_destroy(plan);
    }
    print_message("%zu changes\n", changes);
    for (int i = 0; i < NUMBERS; i++)
        if (survivors[i])
            print_message("  %s: %zu survive\n", step_number_names[i],
                          survivors[i]);
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
        random_plan_seed = strtoull(seed, NULL, 10);
    print_message("QC_SEED=%" PRIu64 "\n", random_plan_seed);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
