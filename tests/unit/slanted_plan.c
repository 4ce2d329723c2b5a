/* All lengths in inches of 203 200 units; roots were worked out apart and are
 * rounded up to even units: 2 sqrt2 = 2.828427 in (pitch of 2-in spacings at 45
 * degrees), 4 cot 60 = 2.309401 in and 8 / sqrt3 = 4.618802 in (the hexagon 4
 * in high). */
#include "slanted_plan.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "hand_plan.h"

#define TWO_ROOT_2 574738 /* 2 sqrt2 in */
#define HEX_LEAN 469272   /* 4 / sqrt3 in */
#define HEX_WIDTH 938542  /* 8 / sqrt3 in */
#define STAR_SIDE 357096  /* 6 / (2 + sqrt2) in */

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

/* Gives the last piece a shape with these corners. */
static qc_plan_piece *shape(qc_plan *plan, qc_shape kind,
                            const qc_point *corners, size_t count)
{
    qc_plan_piece *piece = &plan->pieces[plan->piece_count - 1];

    piece->shape = kind;
    piece->outline_count = count;
    piece->base_count = 1;
    piece->outline = copied(corners, count, sizeof *corners);
    return piece;
}

/* Gives the last subcut slanted sides. */
static qc_subcut *slant(qc_plan *plan, qc_length first, qc_length last)
{
    qci_plan_fabric *fabric = &plan->fabrics[plan->fabric_count - 1];
    qc_strip *strip = &fabric->strips[fabric->info.strip_count - 1];
    qc_subcut *subcut = (qc_subcut *)&strip->subcuts[strip->subcut_count - 1];

    subcut->lean[0] = first;
    subcut->lean[1] = last;
    return subcut;
}

static void add_blades(qc_plan *plan)
{
    const qc_length pitch = TWO_ROOT_2, lean = EIGHTHS(20);
    const qc_point right[] = {
        {0, 0}, {pitch, 0}, {pitch + lean, lean}, {lean, lean}};
    const qc_point left[] = {
        {0, 0}, {pitch, 0}, {pitch - lean, lean}, {-lean, lean}};

    for (int i = 0; i < 2; i++) {
        qc_plan_piece *piece;

        hand_piece(plan, i ? "Blade left" : "Blade right", EIGHTHS(16), lean);
        piece = shape(plan, QC_SHAPE_PARALLELOGRAM, i ? left : right, 4);
        qci_free((void *)piece->job_id);
        piece->job_id = text("Blade");
        piece->hand = i ? QC_HAND_LEFT : QC_HAND_RIGHT;
        piece->twin = i ? BLADE_RIGHT : BLADE_LEFT;
        piece->angle = 45 * QC_DEGREE;
        piece->finished[0] = QC_INCH * 17 / 8;
        piece->finished[1] = TWO_ROOT_2;
    }
}

/* Twice as wide below as above, its sides leaning inwards by 1 1/4 in. */
static void add_bank(qc_plan *plan)
{
    const qc_point corners[] = {{0, 0},
                                {EIGHTHS(40), 0},
                                {EIGHTHS(30), EIGHTHS(20)},
                                {EIGHTHS(10), EIGHTHS(20)}};

    hand_piece(plan, "Bank", EIGHTHS(40), EIGHTHS(20));
    shape(plan, QC_SHAPE_TRAPEZOID, corners, 4)->blunt = false;
    plan->pieces[BANK].finished[0] = EIGHTHS(33);
    plan->pieces[BANK].finished[1] = EIGHTHS(17);
    plan->pieces[BANK].finished[2] = EIGHTHS(16);
}

static void add_heart(qc_plan *plan)
{
    const qc_length side = HEX_LEAN, half = HEX_LEAN / 2;
    const qc_point corners[] = {{0, 0},
                                {side, 0},
                                {side + half, INCHES(2)},
                                {side, INCHES(4)},
                                {0, INCHES(4)},
                                {-half, INCHES(2)}};

    hand_piece(plan, "Heart", HEX_WIDTH, INCHES(4));
    shape(plan, QC_SHAPE_HEXAGON, corners, 6);
}

static void add_star(qc_plan *plan)
{
    const qc_length pitch = 502896, lean = EIGHTHS(14), tip = QC_INCH / 4;
    const qc_point corners[] = {{0, 0},
                                {pitch, 0},
                                {pitch + lean - tip, lean - tip},
                                {pitch + lean - tip, lean},
                                {lean, lean}};
    qc_plan_piece *piece;

    hand_piece(plan, "Star", EIGHTHS(14), EIGHTHS(14));
    piece = shape(plan, QC_SHAPE_DIAMOND, corners, 5);
    piece->blunt = piece->rounded = true;
    piece->angle = 45 * QC_DEGREE;
    piece->finished[0] = STAR_SIDE;
    piece->trim_to[0] = piece->trim_to[1] = EIGHTHS(13);
    piece->spares = 2;
}

/* Strips for a set of both hands: full ones and shorter ones. */
static void add_set_strips(qc_plan *plan, const char *full, const char *part,
                           qc_length length, qc_length width)
{
    hand_piece(plan, full, length, width);
    hand_piece(plan, part, EIGHTHS(181), width);
    for (size_t i = plan->piece_count - 2; i < plan->piece_count; i++) {
        qci_free((void *)plan->pieces[i].job_id);
        plan->pieces[i].job_id = text("S1");
        plan->pieces[i].strip_set = 0;
    }
    hand_strip(plan, width, 2);
    hand_row(plan, 1, (uint32_t)plan->piece_count - 2, QC_TURN_NONE);
    hand_strip(plan, width, 2);
    hand_row(plan, 1, (uint32_t)plan->piece_count - 1, QC_TURN_NONE);
}

static void add_reed(qc_plan *plan)
{
    const qc_length lean = EIGHTHS(20), in = EIGHTHS(10);

    hand_fabric(plan, "Reed", INCHES(42), EIGHTHS(4));
    add_blades(plan);
    add_bank(plan);
    add_heart(plan);
    add_star(plan);
    hand_strip(plan, INCHES(4), 1);
    hand_row(plan, 4, HEART, QC_TURN_NONE);
    slant(plan, HEX_LEAN, HEX_LEAN)->corners = 2;
    hand_strip(plan, EIGHTHS(20), 4)->paired = true;
    hand_row(plan, 6, BLADE_RIGHT, QC_TURN_NONE);
    slant(plan, lean, lean);
    hand_row(plan, 3, BANK, QC_TURN_NONE);
    slant(plan, in, -in)->alternate = true;
    hand_strip(plan, EIGHTHS(20), 1);
    hand_row(plan, 3, BLADE_LEFT, QC_TURN_NONE);
    slant(plan, -lean, -lean);
    hand_row(plan, 1, BANK, QC_TURN_HALF);
    slant(plan, -in, in);
    hand_strip(plan, EIGHTHS(14), 2);
    hand_row(plan, 9, STAR, QC_TURN_NONE);
    slant(plan, EIGHTHS(14), EIGHTHS(14))->corners = 2;
    add_set_strips(plan, "S1 Reed", "S1 Reed end", INCHES(40), INCHES(3));
    /* Half of what comes from pairs has the other hand. */
    plan->pieces[BLADE_RIGHT].count = 12;
    plan->pieces[BLADE_LEFT].count = 15;
}

static void add_sand(qc_plan *plan)
{
    const qc_length half = EIGHTHS(15);
    const qc_point corners[] = {{0, 0}, {2 * half, 0}, {half, half}};
    qci_plan_fabric *fabric;

    hand_fabric(plan, "Sand", INCHES(40), EIGHTHS(4));
    hand_triangle(plan, "Sky", EIGHTHS(30), QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    shape(plan, QC_SHAPE_QUARTER_SQUARE_TRIANGLE, corners, 3);
    plan->fabrics[1].info.print = QC_PRINT_ONE_WAY;
    hand_strip(plan, EIGHTHS(30), 1);
    hand_row(plan, 5, SKY, QC_TURN_NONE);
    hand_strip(plan, half, 1);
    hand_row(plan, 7, SKY, QC_TURN_NONE);
    slant(plan, half, -half)->alternate = true;
    fabric = &plan->fabrics[1];
    ((qc_stack *)fabric->strips[1].subcuts[0].stacks)->yields = 1;
    plan->pieces[SKY].count = 5 * 4 + 7;
    add_set_strips(plan, "S1 Sand", "S1 Sand end", INCHES(40), INCHES(2));
}

/* Strips of 3 and 2 in sewn with 1/4 in: 4 1/2 in high, the upper strip stepped
 * by the lower one's finished 2 1/2 in. From 40 in come floor((40 - 2 3/4) / 2
 * sqrt2) = 13 segments; 7 more take 22 5/8 in. */
static void add_set(qci_plan_set *set, qc_hand hand)
{
    const int side = hand == QC_HAND_LEFT ? -1 : 1;
    const qc_set_strip strips[] = {
        {0, INCHES(3), 0, REED_STRIP, REED_END},
        {1, INCHES(2), side * EIGHTHS(20), SAND_STRIP, SAND_END}};

    set->info =
        (qc_plan_set){.id = text(hand == QC_HAND_LEFT ? "S1 left" : "S1 right"),
                      .job_id = text("S1"),
                      .hand = hand,
                      .height = EIGHTHS(36),
                      .angle = 45 * QC_DEGREE,
                      .lean = side * EIGHTHS(36),
                      .spacing = INCHES(2),
                      .pitch = TWO_ROOT_2,
                      .first = side < 0 ? EIGHTHS(22) : 0,
                      .usable = INCHES(40),
                      .segments = 20,
                      .sets = 1,
                      .per_set = 13,
                      .full_length = INCHES(40),
                      .part_segments = 7,
                      .part_length = EIGHTHS(181),
                      .strip_count = 2};
    set->strips = copied(strips, 2, sizeof *strips);
    if (hand == QC_HAND_LEFT) {
        set->info.second_at = TWO_ROOT_2;
        set->info.second_angle = 90 * QC_DEGREE;
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
