/* All lengths in inches of 203 200 units; roots were worked out apart and are
 * rounded up to even units: 2 sqrt2 = 2.828427 in (pitch of 2-in spacings at 45
 * degrees), 1 3/4 sqrt2 = 2.474874 in, 4 / sqrt3 = 2.309401 in (side of the
 * hexagon 4 in high, and the lean of its sides over its height) and
 * 6 / (2 + sqrt2) = 1.757359 in (side of a star's diamond in a 6-in block). */
#include "slanted_plan.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "hand_plan.h"

#define TWO_ROOT_2 574738
#define STAR_PITCH 502896
#define HEX_SIDE 469272
#define STAR_SIDE 357096

static void *copied(const void *from, size_t count, size_t size)
{
    void *copy = qci_copy(from, count, size);

    if (!copy)
        abort();
    return copy;
}

static char *text(const char *words)
{
    return copied(words, strlen(words) + 1, 1);
}

static void rename_job(qc_plan_piece *piece, const char *job_id)
{
    qci_free((void *)piece->job_id);
    piece->job_id = text(job_id);
}

static void add_blade(qc_plan *plan, qc_hand hand)
{
    const qc_length high = EIGHTHS(20);
    const qc_length lean = hand == QC_HAND_LEFT ? -high : high;
    const qc_point corners[] = {
        {0, 0}, {TWO_ROOT_2, 0}, {TWO_ROOT_2 + lean, high}, {lean, high}};
    bool left = hand == QC_HAND_LEFT;
    uint32_t index = hand_shape(plan, left ? "Blade left" : "Blade right",
                                QC_SHAPE_PARALLELOGRAM, corners, 4);
    qc_plan_piece *piece = &plan->pieces[index];

    rename_job(piece, "Blade");
    piece->cut[0] = INCHES(2);
    piece->hand = hand;
    piece->twin = left ? BLADE_RIGHT : BLADE_LEFT;
    piece->angle = 45 * QC_DEGREE;
    piece->finished[0] = EIGHTHS(17);
    piece->finished[1] = TWO_ROOT_2;
}

/* Twice as wide below as above, its sides leaning inwards by 1 1/4 in. */
static void add_bank(qc_plan *plan)
{
    const qc_point corners[] = {{0, 0},
                                {EIGHTHS(40), 0},
                                {EIGHTHS(30), EIGHTHS(20)},
                                {EIGHTHS(10), EIGHTHS(20)}};
    uint32_t bank = hand_shape(plan, "Bank", QC_SHAPE_TRAPEZOID, corners, 4);

    plan->pieces[bank].finished[0] = EIGHTHS(33);
    plan->pieces[bank].finished[1] = EIGHTHS(17);
    plan->pieces[bank].finished[2] = EIGHTHS(16);
}

static void add_heart(qc_plan *plan)
{
    const qc_length side = HEX_SIDE, half = HEX_SIDE / 2;
    const qc_point corners[] = {{0, 0},
                                {side, 0},
                                {side + half, INCHES(2)},
                                {side, INCHES(4)},
                                {0, INCHES(4)},
                                {-half, INCHES(2)}};

    hand_shape(plan, "Heart", QC_SHAPE_HEXAGON, corners, 6);
}

/* Its two sharp tips are cut off 1/2 in along either side: 1/2 in at 45 degrees
 * runs and rises 0.353553 in. */
static void add_star(qc_plan *plan)
{
    const qc_length high = EIGHTHS(14), off = EIGHTHS(4), run = 71842;
    const qc_point corners[] = {{0, 0},
                                {STAR_PITCH - off, 0},
                                {STAR_PITCH + high - run - off, high - run},
                                {STAR_PITCH + high - 2 * off, high},
                                {high - off, high},
                                {run - off, run}};
    uint32_t star = hand_shape(plan, "Star", QC_SHAPE_DIAMOND, corners, 6);
    qc_plan_piece *piece = &plan->pieces[star];

    piece->cut[0] = high;
    piece->blunt = piece->rounded = true;
    piece->angle = 45 * QC_DEGREE;
    piece->finished[0] = STAR_SIDE;
    piece->trim_to[0] = piece->trim_to[1] = EIGHTHS(13);
    piece->spares = 2;
}

static void add_sky(qc_plan *plan)
{
    const qc_length half = EIGHTHS(15);
    const qc_point corners[] = {{0, 0}, {2 * half, 0}, {half, half}};
    uint32_t sky =
        hand_shape(plan, "Sky", QC_SHAPE_QUARTER_SQUARE_TRIANGLE, corners, 3);

    plan->pieces[sky].cut[1] = 2 * half;
}

/* The strip of a set: of full length, and shorter. */
static void add_set_strip(qc_plan *plan, const char *const ids[2],
                          qc_length width, uint32_t set)
{
    const qc_length lengths[] = {INCHES(40), EIGHTHS(183)};

    for (int i = 0; i < 2; i++) {
        uint32_t index = hand_piece(plan, ids[i], lengths[i], width);

        rename_job(&plan->pieces[index], "S1");
        plan->pieces[index].strip_set = set;
    }
}

static void cut_set_strips(qc_plan *plan, qc_length width, uint32_t first)
{
    for (uint32_t i = 0; i < 4; i++) {
        hand_strip(plan, width, 1);
        hand_row(plan, 1, first + i, QC_TURN_NONE);
    }
}

static void add_reed(qc_plan *plan)
{
    const qc_length lean = EIGHTHS(20), in = EIGHTHS(10), wide = EIGHTHS(30);
    const char *const right[] = {"S1 right Reed", "S1 right Reed end"};
    const char *const left[] = {"S1 left Reed", "S1 left Reed end"};
    qc_subcut *subcut;

    hand_fabric(plan, "Reed", INCHES(42), EIGHTHS(4));
    add_blade(plan, QC_HAND_RIGHT);
    add_blade(plan, QC_HAND_LEFT);
    add_bank(plan);
    add_heart(plan);
    add_star(plan);
    add_set_strip(plan, right, INCHES(3), 0);
    add_set_strip(plan, left, INCHES(3), 1);
    hand_strip(plan, INCHES(4), 1);
    hand_slanted(plan, 4, HEART, 2 * HEX_SIDE, HEX_SIDE, HEX_SIDE, false)
        ->corners = 2;
    cut_set_strips(plan, INCHES(3), REED_RIGHT);
    hand_strip(plan, lean, 4)->paired = true;
    hand_slanted(plan, 6, BLADE_RIGHT, TWO_ROOT_2, lean, lean, false);
    hand_slanted(plan, 3, BANK, wide, in, -in, true);
    hand_strip(plan, lean, 1);
    hand_slanted(plan, 3, BLADE_LEFT, TWO_ROOT_2, -lean, -lean, false);
    subcut = hand_slanted(plan, 1, BANK, wide, -in, in, false);
    ((qc_stack *)subcut->stacks)->turn = QC_TURN_HALF;
    hand_strip(plan, EIGHTHS(14), 2);
    hand_slanted(plan, 9, STAR, STAR_PITCH, EIGHTHS(14), EIGHTHS(14), false)
        ->corners = 2;
}

static void add_sand(qc_plan *plan)
{
    const char *const right[] = {"S1 right Sand", "S1 right Sand end"};
    const char *const left[] = {"S1 left Sand", "S1 left Sand end"};
    const qc_length half = EIGHTHS(15);

    hand_fabric(plan, "Sand", INCHES(40), EIGHTHS(4));
    plan->fabrics[1].info.print = QC_PRINT_TWO_WAY;
    add_sky(plan);
    add_set_strip(plan, right, INCHES(2), 0);
    add_set_strip(plan, left, INCHES(2), 1);
    hand_strip(plan, 2 * half, 1);
    hand_row(plan, 5, SKY, QC_TURN_NONE);
    cut_set_strips(plan, INCHES(2), SAND_RIGHT);
    hand_strip(plan, half, 1);
    hand_slanted(plan, 7, SKY, half, half, -half, true);
}

/* Strips of 3 and 2 in sewn with 1/4 in: 4 1/2 in high, the upper strip stepped
 * by the lower one's finished 2 1/2 in. From 40 in come floor((40 - 3) / 2
 * sqrt2) = 13 segments; 7 more take 22 7/8 in. */
static void add_set(qci_plan_set *set, qc_hand hand)
{
    const bool left = hand == QC_HAND_LEFT;
    const int side = left ? -1 : 1;
    const uint32_t reed = left ? REED_LEFT : REED_RIGHT;
    const uint32_t sand = left ? SAND_LEFT : SAND_RIGHT;
    const qc_set_strip strips[] = {
        {0, INCHES(3), 0, reed, reed + 1},
        {1, INCHES(2), side * EIGHTHS(20), sand, sand + 1}};

    set->info = (qc_plan_set){.id = text(left ? "S1 left" : "S1 right"),
                              .job_id = text("S1"),
                              .hand = hand,
                              .height = EIGHTHS(36),
                              .angle = 45 * QC_DEGREE,
                              .lean = side * EIGHTHS(36),
                              .spacing = INCHES(2),
                              .pitch = TWO_ROOT_2,
                              .first = side < 0 ? EIGHTHS(24) : 0,
                              .usable = INCHES(40),
                              .segments = 20,
                              .sets = 1,
                              .per_set = 13,
                              .full_length = INCHES(40),
                              .part_segments = 7,
                              .part_length = EIGHTHS(183),
                              .strip_count = 2};
    set->strips = copied(strips, 2, sizeof *strips);
    if (left) {
        set->info.second_at = EIGHTHS(20);
        set->info.second_angle = 135 * QC_DEGREE;
    }
}

static void add_sets(qc_plan *plan)
{
    plan->sets = qci_calloc(2, sizeof *plan->sets);
    if (!plan->sets)
        abort();
    plan->set_count = 2;
    add_set(&plan->sets[0], QC_HAND_RIGHT);
    add_set(&plan->sets[1], QC_HAND_LEFT);
}

static void add_level(qci_plan_fabric *fabric)
{
    const qc_level bought = {QC_GOAL_BOUGHT, QC_OUTCOME_OPTIMAL,
                             fabric->info.bought, fabric->info.bought};

    fabric->levels = copied(&bought, 1, sizeof bought);
    fabric->info.level_count = 1;
}

static void add_steps(qc_plan *plan)
{
    const qc_step none = {.part_in = 1,
                          .part_out = QC_NONE,
                          .piece = QC_NONE,
                          .set = QC_NONE,
                          .copies = 1,
                          .layers = 1,
                          .repeat = 1,
                          .cuts = 1};
    static const qc_step_kind kinds[] = {
        QC_STEP_SLANT, QC_STEP_SUBCUT,   QC_STEP_SUBCUT,   QC_STEP_OUTLINE,
        QC_STEP_SEW,   QC_STEP_CROSSCUT, QC_STEP_CROSSCUT, QC_STEP_HALVE,
    };
    const size_t count = sizeof kinds / sizeof *kinds;
    qc_step *steps = qci_calloc(count + 1, sizeof *steps);

    if (!steps)
        abort();
    for (size_t i = 0; i < count; i++) {
        char words[] = "Do step 1.";

        steps[i] = none;
        steps[i].number = (uint32_t)i + 1;
        steps[i].kind = kinds[i];
        steps[i].source = text("strip 2");
        words[8] = (char)('1' + i);
        steps[i].text = text(words);
    }
    steps[0].lean = EIGHTHS(20);
    steps[1].piece = BLADE_RIGHT;
    steps[1].lean = EIGHTHS(20);
    steps[1].along = TWO_ROOT_2;
    steps[1].paired = true;
    steps[2].piece = BANK;
    steps[2].lean = -EIGHTHS(10);
    steps[2].along = EIGHTHS(40);
    steps[2].alternate = steps[2].paired = true;
    steps[3].piece = HEART;
    steps[3].base = 0;
    steps[3].mirrored = true;
    for (size_t i = 4; i < count; i++) {
        steps[i].fabric = QC_NONE;
        steps[i].set = i > 5 ? 1 : 0;
    }
    steps[5].lean = EIGHTHS(36);
    steps[5].cuts = 14;
    plan->sets[0].info.blade = 90 * QC_INCH;
    plan->steps = steps;
    plan->step_count = count;
}

qc_plan *slanted_plan(void)
{
    qc_plan *plan = hand_plan();

    add_reed(plan);
    add_sand(plan);
    add_sets(plan);
    hand_finish(plan, INCHES(50));
    for (size_t i = 0; i < plan->fabric_count; i++) {
        qc_plan_fabric *info = &plan->fabrics[i].info;

        info->hand_method = info->bought;
        info->narrowest_width = info->usable_width;
    }
    for (size_t i = 0; i < plan->fabric_count; i++)
        add_level(&plan->fabrics[i]);
    add_steps(plan);
    return plan;
}
