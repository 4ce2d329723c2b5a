#include "sample_plan.h"

#include <stdlib.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/order.h"

static void *copied(const void *from, size_t count, size_t size)
{
    void *copy = qci_copy(from, count, size);

    if (!copy)
        abort();
    return copy;
}

#define COUNT(list) (sizeof(list) / sizeof *(list))

static void add_levels(qci_plan_fabric *fabric)
{
    const qc_level levels[] = {
        {QC_GOAL_BOUGHT, QC_OUTCOME_FEASIBLE, QC_YARD, QC_YARD * 7 / 8},
        {QC_GOAL_USED, QC_OUTCOME_OPTIMAL, INCHES(31), INCHES(31)},
        {QC_GOAL_MONEY, QC_OUTCOME_OPTIMAL, 135000, 118125},
        {QC_GOAL_SETUPS, QC_OUTCOME_OPTIMAL, 2, 2},
        {QC_GOAL_CUTS, QC_OUTCOME_OPTIMAL, 40, 40},
        {QC_GOAL_LEFTOVER, QC_OUTCOME_OPTIMAL, EIGHTHS(1) * EIGHTHS(1),
         INCHES(5) * INCHES(42)},
    };

    fabric->levels = copied(levels, COUNT(levels), sizeof *levels);
    fabric->info.level_count = COUNT(levels);
    fabric->info.outcome = QC_OUTCOME_FEASIBLE;
}

static void add_default(qc_plan *plan, const char *text)
{
    plan->defaults = copied(&(char *){qci_strdup(text)}, 1, sizeof(char *));
    plan->default_count = 1;
}

static void add_night(qc_plan *plan)
{
    uint32_t a, b;
    qc_plan_piece *piece;
    qci_plan_fabric *fabric;

    hand_fabric(plan, "night", INCHES(42), EIGHTHS(4));
    a = hand_piece(plan, "A \"tall\"\\\t\xC2\xBD", EIGHTHS(20), EIGHTHS(36));
    b = hand_piece(plan, "B", EIGHTHS(28), EIGHTHS(28));
    hand_strip(plan, EIGHTHS(36), 3);
    hand_row(plan, 12, a, QC_TURN_NONE);
    hand_subcut(plan, 1);
    hand_stack(plan, b, 1, QC_TURN_HALF);
    hand_strip(plan, EIGHTHS(56), 1);
    hand_subcut(plan, 4);
    hand_stack(plan, b, 2, QC_TURN_NONE);
    hand_row(plan, 1, a, QC_TURN_QUARTER);
    piece = &plan->pieces[a];
    piece->finished[0] = EIGHTHS(16);
    piece->finished[1] = EIGHTHS(32);
    piece->rounded = true;
    piece->spares = 2;
    plan->pieces[b].trim_to[0] = plan->pieces[b].trim_to[1] = EIGHTHS(27);
    fabric = &plan->fabrics[0];
    fabric->info.price = 135000;
    fabric->info.cost = 135000;
    fabric->info.shrink_length = 250;
    add_levels(fabric);
}

static void add_fog(qc_plan *plan)
{
    const qc_level bought = {QC_GOAL_BOUGHT, QC_OUTCOME_OPTIMAL, QC_YARD / 8,
                             QC_YARD / 8};
    uint32_t c;

    hand_fabric(plan, "fog", INCHES(40), 0);
    plan->fabrics[1].info.print = QC_PRINT_REVERSIBLE;
    c = hand_piece(plan, "C", EIGHTHS(12), EIGHTHS(12));
    hand_strip(plan, EIGHTHS(12), 2);
    hand_row(plan, 26, c, QC_TURN_NONE);
    hand_strip(plan, EIGHTHS(12), 1)->cut_short = true;
    hand_row(plan, 3, c, QC_TURN_NONE);
    plan->fabrics[1].levels = copied(&bought, 1, sizeof bought);
    plan->fabrics[1].info.level_count = 1;
}

qc_plan *sample_plan(void)
{
    qc_plan *plan = hand_plan();

    add_default(plan, "seam allowance: 1/4 in");
    add_night(plan);
    add_fog(plan);
    hand_finish(plan, EIGHTHS(12));
    if (qci_order_make(plan, NULL))
        abort();
    plan->fabrics[0].info.bound = plan->fabrics[0].info.bought - QC_YARD / 8;
    plan->fabrics[0].info.hand_method = 2 * QC_YARD;
    plan->fabrics[0].info.narrowest_width = EIGHTHS(330);
    plan->fabrics[1].info.bound = plan->fabrics[1].info.bought;
    plan->fabrics[1].info.hand_method = -1;
    plan->fabrics[1].info.narrowest_width = EIGHTHS(312);
    plan->fabrics[1].info.narrowest_outcome = QC_OUTCOME_FEASIBLE;
    return plan;
}
