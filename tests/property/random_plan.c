/* Random valid plans, built with the unit tests' hand_plan.h. Strips are square
 * ones with stacks, or slanted ones with outlines, turns and pairs. */
#include "random_plan.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "hand_plan.h"
#include "order/measure.h"
#include "order/order.h"

#define UNIT EIGHTHS(1)

uint64_t random_plan_seed = 20240917;
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

        if (piece->outline_count == 0 &&
            piece->fabric + 1 == plan->fabric_count &&
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

/* An outline as it is drawn on the plan's cloth, which a left-handed plan sees
 * in a mirror. */
typedef struct drawn {
    size_t count;
    qc_point at[8];
} drawn;

/* Its mirror image; the base comes first again. */
static drawn mirror_of(const drawn *from)
{
    drawn out = {.count = from->count};

    for (size_t i = 0; i < from->count; i++) {
        size_t to = i < 2 ? 1 - i : from->count + 1 - i;

        out.at[to] = (qc_point){from->at[1].x - from->at[i].x, from->at[i].y};
    }
    return out;
}

/* A piece with one hand: that to which it leans, if it has parallel sides. */
static uint32_t add_hand(qc_plan *plan, qc_shape shape, const drawn *as,
                         qc_hand hand)
{
    qc_length lean = as->at[as->count - 1].x;
    char id[16];
    uint32_t index;

    snprintf(id, sizeof id, "S%zu", plan->piece_count);
    index = hand_shape(plan, id, shape, as->at, as->count);
    plan->pieces[index].hand = hand;
    if (shape == QC_SHAPE_PARALLELOGRAM) {
        plan->pieces[index].hand = lean > 0 ? QC_HAND_RIGHT : QC_HAND_LEFT;
        plan->pieces[index].cut[0] =
            qci_spacing_of(as->at[1].x, plan->pieces[index].cut[1], lean);
    }
    return index;
}

/* A piece that lies as drawn, and, for pairs, its mirror image. */
static uint32_t add_piece(qc_plan *plan, qc_shape shape, const drawn *as,
                          bool symmetric)
{
    drawn other = mirror_of(as);
    bool seen = plan->left_handed;
    uint32_t piece, twin;

    piece = add_hand(plan, shape, seen ? &other : as,
                     symmetric ? QC_HAND_NONE : QC_HAND_RIGHT);
    if (symmetric)
        return piece;
    plan->pieces[piece].twin = QC_NONE;
    if (!last_strip(plan)->paired)
        return piece;
    twin = add_hand(plan, shape, seen ? as : &other, QC_HAND_LEFT);
    plan->pieces[twin].twin = piece;
    plan->pieces[piece].twin = twin;
    return piece;
}

/* A kind of section, with the piece that it holds. */
typedef struct section {
    uint32_t piece;
    qc_length width, lean[2];
    uint32_t corners;
    bool turns; /* the other way round it has other leans */
} section;

static qc_length even(qc_length low, qc_length high)
{
    return pick(low / 2, high / 2) * 2;
}

/* Parallel sides; an upper corner and the one opposite may go. */
static section parallel_section(qc_plan *plan, qc_length height)
{
    qc_length wide = even(height / 4 + 8000, 3 * height);
    qc_length lean = chance(20)   ? 0
                     : chance(40) ? (chance(50) ? height : -height)
                                  : even(0, 4 * height) - 2 * height;
    qc_length off = even(wide / 8, wide / 2), half = lean / 4 * 2;
    section out = {.width = wide, .lean = {lean, lean}};
    drawn as = {4, {{0, 0}, {wide, 0}, {wide + lean, height}, {lean, height}}};

    lean = 2 * half;
    out.lean[0] = out.lean[1] = lean;
    as.at[2].x = wide + lean;
    as.at[3].x = lean;
    if (lean == 0 || chance(40)) {
        out.corners = (uint32_t)pick(1, 2);
        as = (drawn){5,
                     {{0, 0},
                      {wide, 0},
                      {wide + half, height / 2},
                      {wide + lean - off, height},
                      {lean, height}}};
        if (out.corners == 2) {
            as.count = 6;
            as.at[5] = (qc_point){half, height / 2};
            for (size_t i = 1; i < 6; i++)
                as.at[i].x -= off;
        }
    }
    out.piece =
        add_piece(plan, out.corners ? QC_SHAPE_POLYGON : QC_SHAPE_PARALLELOGRAM,
                  &as, false);
    return out;
}

/* Both sides lean inwards as much, at most to a tip. */
static section tapering_section(qc_plan *plan, qc_length height)
{
    qc_length in = chance(30) ? height : even(4000, 2 * height);
    qc_length top = chance(40) ? 0 : even(2, 2 * height);
    drawn as = {top ? 4 : 3, {{0, 0}, {2 * in + top, 0}, {in + top, height}}};
    section out = {.width = in + top, .lean = {in, -in}, .turns = true};

    if (top)
        as.at[3] = (qc_point){in, height};
    out.piece =
        add_piece(plan, top ? QC_SHAPE_TRAPEZOID : QC_SHAPE_POLYGON, &as, true);
    return out;
}

/* Square on one side. */
static section lopsided_section(qc_plan *plan, qc_length height)
{
    qc_length in = even(4000, 2 * height), top = even(2, 2 * height);
    drawn as = {4, {{0, 0}, {in + top, 0}, {top, height}, {0, height}}};
    section out = {.width = top + in / 2, .lean = {0, -in}, .turns = true};

    out.piece = add_piece(plan, QC_SHAPE_POLYGON, &as, false);
    return out;
}

/* What the last strip will have used of the width with `count` more. */
static qc_length used_with(const qc_strip *strip, const section *s,
                           uint32_t count, bool alternate)
{
    qc_length before = 0, after, gap = s->lean[0];
    const qc_subcut *last;

    if (strip->subcut_count) {
        last = &strip->subcuts[strip->subcut_count - 1];
        before = last->lean[last->alternate && last->count % 2 == 0 ? 0 : 1];
    }
    after = s->lean[alternate && count % 2 == 0 ? 0 : 1];
    gap -= before;
    before = before < 0 ? -before : before;
    after = after < 0 ? -after : after;
    gap = gap < 0 ? -gap : gap;
    gap += after - before;
    if (!alternate && s->lean[0] != s->lean[1])
        gap +=
            (count - 1) * (s->lean[0] > s->lean[1] ? s->lean[0] - s->lean[1]
                                                   : s->lean[1] - s->lean[0]);
    return strip->used_width + count * s->width + gap / 2;
}

static bool add_section(qc_plan *plan, qc_length width, qc_length height)
{
    section s = chance(50)   ? parallel_section(plan, height)
                : chance(60) ? tapering_section(plan, height)
                             : lopsided_section(plan, height);
    bool alternate = s.turns && chance(60);
    uint32_t count = (uint32_t)pick(1, alternate || !s.turns ? 12 : 4);

    while (count > 0 &&
           used_with(last_strip(plan), &s, count, alternate) > width)
        count--;
    if (count == 0)
        return false;
    hand_slanted(plan, count, s.piece, s.width, s.lean[0], s.lean[1],
                 alternate && count > 1)
        ->corners = s.corners;
    return true;
}

/* Square sections, then slanted ones. */
static void add_slanted_strip(qc_plan *plan, qc_length width, qc_length height)
{
    qc_strip *strip = hand_strip(plan, height, (uint32_t)pick(1, 9));

    if (plan->layers > 1 && chance(40)) {
        strip->paired = true;
        last_fabric(plan)->info.used += strip->repeat % 2 * height;
        strip->repeat += strip->repeat % 2;
    }
    if (chance(40) && height <= width)
        hand_row(plan, 1, some_piece(plan, height, height, QC_TURN_NONE),
                 QC_TURN_NONE);
    while (add_section(plan, width, height) && chance(60))
        ;
    if (strip->subcut_count == 0) /* nothing fitted */
        hand_row(plan, 1, some_piece(plan, UNIT, height, QC_TURN_NONE),
                 QC_TURN_NONE);
}

static void add_fabric(qc_plan *plan)
{
    qc_length width = pick(8, 400) * UNIT;
    qc_length height = pick(1, 96) * UNIT;
    int64_t strips = pick(0, 5);

    hand_fabric(plan, "cloth", width, chance(50) ? 0 : pick(1, 8) * UNIT);
    while (strips-- > 0) {
        if (chance(plan->left_handed ? 70 : 30)) {
            add_slanted_strip(plan, width, height);
        } else {
            add_strip(plan, width, height);
            if (chance(25))
                add_cut_short(plan);
        }
        height = pick(1, height / UNIT) * UNIT;
    }
}

qc_plan *random_plan(uint64_t number)
{
    qc_plan *plan = hand_plan();
    int64_t fabrics;

    now = random_plan_seed + number;
    pick(0, 1); /* neighbouring seeds part only in the lower bits */
    plan->layers = (int32_t)pick(1, 8);
    plan->left_handed = chance(30);
    fabrics = pick(1, 3);
    while (fabrics-- > 0)
        add_fabric(plan);
    hand_finish(plan, pick(1, 16) * UNIT);
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    return plan;
}
