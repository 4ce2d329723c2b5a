/* Random valid plans: the cut order makes exactly the cuts that the rules of
 * piling give, the replay accepts it, and rejects it as soon as any one number
 * in any one step is changed. The few changes that leave a true order behind
 * are named in is_still_true(), each with its reason; nothing else survives. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/order.h"
#include "replay/replay.h"

#define PLANS 1500
#define MUTATED_PLANS 150

static uint64_t seed;

/* From `low` to `high`, both included (splitmix64, public domain, from
 * memory). */
static int64_t pick(int64_t low, int64_t high)
{
    uint64_t z = (seed += UINT64_C(0x9e3779b97f4a7c15));

    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    z ^= z >> 31;
    return low + (int64_t)(z % (uint64_t)(high - low + 1));
}

static bool chance(int per_cent)
{
    return pick(1, 100) <= per_cent;
}

/* A piece that measures `width` x `height` as it lies with `turn`: one of those
 * there, at times, else a new one. */
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
    return hand_piece(plan, id, across, along);
}

/* Runs from the lower edge up, no wider than the section, filling the height
 * now and then. */
static void add_stack(qc_plan *plan, qc_length width, qc_length height)
{
    qc_length unit = EIGHTHS(1);
    qc_length left = height;
    qc_length wide = width;

    do {
        qc_turn turn = (qc_turn)pick(0, 2);
        qc_length high = chance(40) ? left : pick(1, left / unit) * unit;
        uint32_t most = (uint32_t)(left / high);
        uint32_t count = chance(50) ? most : (uint32_t)pick(1, most);

        hand_stack(plan, some_piece(plan, wide, high, turn), count, turn);
        left -= count * high;
        if (chance(40))
            wide = pick(1, wide / unit) * unit;
    } while (left >= unit && chance(60));
}

static void add_strip(qc_plan *plan, qc_length width, qc_length height)
{
    qc_length unit = EIGHTHS(1);
    qc_length left = width;
    qc_length wide = width;

    hand_strip(plan, height, (uint32_t)(chance(5) ? pick(10, 1000000)
                                                 : pick(1, 9)));
    do {
        qc_length most = wide < left ? wide : left;
        uint32_t count;

        wide = chance(20) ? most : pick(1, most / unit) * unit;
        count = (uint32_t)(left / wide);
        hand_subcut(plan, chance(40) ? count : (uint32_t)pick(1, count));
        count = plan->fabrics[plan->fabric_count - 1]
                    .strips[plan->fabrics[plan->fabric_count - 1]
                                .info.strip_count -
                            1]
                    .subcuts[0]
                    .count;
        (void)count;
        add_stack(plan, wide, height);
        left = width - plan->fabrics[plan->fabric_count - 1]
                           .strips[plan->fabrics[plan->fabric_count - 1]
                                       .info.strip_count -
                                   1]
                           .used_width;
    } while (left >= unit && chance(70));
}
