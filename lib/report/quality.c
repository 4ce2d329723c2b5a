/* How good the plan is: where the fabric goes, and goal by goal what was
 * reached and what was proved. Shares are rounded so that each row adds up to
 * exactly 100.0 %: the tenths lost by rounding down go to the shares that lost
 * most. */
#include <inttypes.h>

#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"

#define SHARES 4

static void share_out(const qc_plan_fabric *info, int64_t tenths[SHARES])
{
    const int64_t parts[SHARES] = {info->area.finished, info->area.seams,
                                   info->area.leftover, info->area.scrap};
    int64_t whole = info->bought * info->usable_width;
    int64_t rest[SHARES];
    int64_t missing = 1000;

    for (int i = 0; i < SHARES; i++) {
        tenths[i] = qci_tenths(parts[i], whole, &rest[i]);
        missing -= tenths[i];
    }
    for (; missing > 0; missing--) {
        int most = 0;

        for (int i = 1; i < SHARES; i++)
            most = rest[i] > rest[most] ? i : most;
        tenths[most]++;
        rest[most] = -1;
    }
}

void qci_put_areas(qci_text *out, const qc_plan *plan)
{
    static const char *const heads[] = {"fabric", "quilt", "seams",
                                        "kept",   "scrap", ""};
    qci_table table = {.align = "lrrrrl"};

    qci_put_heading(out, "WHERE THE FABRIC GOES");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++)
        qci_table_add(&table, "%s", heads[i]);
    for (size_t i = 0; i < plan->fabric_count; i++) {
        const qc_plan_fabric *info = &plan->fabrics[i].info;
        int64_t tenths[SHARES];

        if (info->bought == 0)
            continue;
        share_out(info, tenths);
        qci_table_add(&table, "%s", info->name);
        for (int k = 0; k < SHARES; k++)
            qci_table_add(&table, "%" PRId64 ".%" PRId64 " %%", tenths[k] / 10,
                          tenths[k] % 10);
        qci_table_add(&table, "%s", "");
    }
    qci_table_put(&table, out, 2);
    qci_put_paragraph(out, 2,
                      "Quilt: what shows in the sewn quilt, spare pieces "
                      "included. Seams: seam and trimming allowances, and "
                      "rounding up to the ruler. Kept: the leftovers above.");
}

static const char *goal_name(qc_goal goal)
{
    switch (goal) {
    case QC_GOAL_BOUGHT:
        return "length to buy";
    case QC_GOAL_USED:
        return "length used";
    case QC_GOAL_MONEY:
        return "cost";
    case QC_GOAL_SETUPS:
        return "different strips";
    case QC_GOAL_CUTS:
        return "cuts";
    case QC_GOAL_LEFTOVER:
        return "largest leftover";
    }
    return "";
}

static void put_levels(qci_text *out, const qc_plan *plan,
                       const qci_plan_fabric *fabric)
{
    qci_table table = {.align = "lrl"};

    for (size_t i = 0; i < fabric->info.level_count; i++) {
        const qc_level *level = &fabric->levels[i];

        qci_table_add(&table, "%s", goal_name(level->goal));
        qci_table_add(&table, "%s",
                      qci_phrase_goal(plan, level->goal, level->value).text);
        if (level->outcome == QC_OUTCOME_OPTIMAL)
            qci_table_add(&table, "proved best");
        else
            qci_table_add(
                &table, "best found; no plan is %s %s",
                level->goal == QC_GOAL_LEFTOVER ? "above" : "below",
                qci_phrase_goal(plan, level->goal, level->bound).text);
    }
    qci_put_paragraph(out, 2, fabric->info.name);
    qci_table_put(&table, out, 4);
}

/* What the plan was compared with, beyond what it has in common with all. */
static void put_compared(qci_text *out, const qc_plan *plan)
{
    qci_contents contents = qci_contents_of(plan);

    if (contents.squares || contents.single)
        qci_put_paragraph(out, 2,
                          "Triangles were compared as cut from squares and, "
                          "where that could save cloth, singly from strips.");
    if (contents.slanted)
        qci_put_paragraph(out, 2,
                          "Shapes cut at an angle were compared in strips as "
                          "high as they are, one in a section, in any order "
                          "and turned any way that the fabric and the job "
                          "allow.");
    if (plan->set_count)
        qci_put_paragraph(out, 2,
                          "Strip sets were planned as long as the narrowest of "
                          "their fabrics is wide, but for a shorter last one; "
                          "no other lengths were compared.");
}

void qci_put_goals(qci_text *out, const qc_plan *plan)
{
    qci_put_heading(out, "HOW GOOD THE PLAN IS");
    qci_put_paragraph(
        out, 2,
        "Each goal was pursued as far as the goals above it allow. The plans "
        "compared are all those that cut strips across the width, and pieces "
        "or stacks of pieces from the strips.");
    put_compared(out, plan);
    for (size_t i = 0; i < plan->fabric_count; i++) {
        if (plan->fabrics[i].info.bought > 0)
            put_levels(out, plan, &plan->fabrics[i]);
    }
}
