/* What to take to the shop. Per fabric first the length in the shop's own
 * fractions, then what a sewist asks next: is that really the least, does my
 * narrower bolt do, what would I have bought by hand, what does it cost. */
#include <inttypes.h>

#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"
#include "shape/shape.h"

/* The gap in tenths of a per cent, rounded up so as never to look smaller. */
static int64_t gap_tenths(const qc_plan_fabric *info)
{
    int64_t rest;
    int64_t tenths =
        qci_tenths(info->bought - info->bound, info->bought, &rest);

    return tenths + (rest > 0);
}

static void add_proof(qci_table *table, const qc_plan *plan,
                      const qc_plan_fabric *info)
{
    qci_table_add(table, "proof");
    if (info->bound >= info->bought)
        qci_table_add(table, "minimal: no plan of this kind buys less");
    else
        qci_table_add(table,
                      "not proved minimal: the best found in the time; %s is "
                      "not ruled out (gap %s)",
                      qci_phrase_buy(plan, info->bound).text,
                      qci_phrase_percent(gap_tenths(info) * 10).text);
}

static void add_use(qci_table *table, const qc_plan *plan,
                    const qc_plan_fabric *info)
{
    qci_table_add(table, "cuts take");
    qci_table_add(table, "%s of the length%s, squaring-up included",
                  qci_phrase_length(plan, info->used).text,
                  info->shrink_length > 0 ? " after washing" : "");
}

static void add_width(qci_table *table, const qc_plan *plan,
                      const qc_plan_fabric *info)
{
    qci_phrase planned = qci_phrase_length(plan, info->usable_width);
    qci_phrase least = qci_phrase_length(plan, info->narrowest_width);
    bool proved = info->narrowest_outcome == QC_OUTCOME_OPTIMAL;

    qci_table_add(table, "usable width");
    if (info->narrowest_width >= info->usable_width)
        qci_table_add(table, "%s between the selvages; %s", planned.text,
                      proved ? "a narrower fabric takes more length"
                             : "whether a narrower fabric would do is open");
    else
        qci_table_add(table,
                      "planned on %s between the selvages; this length is "
                      "enough down to %s%s",
                      planned.text, least.text,
                      proved ? "" : ", perhaps to less");
}

static void add_hand_method(qci_table *table, const qc_plan *plan,
                            const qc_plan_fabric *info)
{
    qc_length saved = info->hand_method - info->bought;

    qci_table_add(table, "by hand");
    if (saved > 0)
        qci_table_add(table,
                      "%s, each size cut from strips of its own: this plan "
                      "saves %s",
                      qci_phrase_buy(plan, info->hand_method).text,
                      qci_phrase_buy(plan, saved).text);
    else
        qci_table_add(table, "the same, each size cut from strips of its own");
}

/* Triangles are turned out of squares, and as freely in strips, unless the job
 * asks for one facing. */
static bool any_free_triangle(const qc_plan *plan, const qc_plan_fabric *info)
{
    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (qci_shape_yields(piece->shape) > 1 && !piece->facing_kept &&
            &plan->fabrics[piece->fabric].info == info)
            return true;
    }
    return false;
}

static void add_care(qci_table *table, const qc_plan *plan,
                     const qc_plan_fabric *info)
{
    static const char *const prints[] = {
        [QC_PRINT_PLAIN] = NULL,
        [QC_PRINT_ONE_WAY] = "one-way: no piece is turned",
        [QC_PRINT_TWO_WAY] = "two-way: pieces are turned halfway round at most",
        [QC_PRINT_REVERSIBLE] = "reversible: either side may be the right one"};

    if (info->shrink_length > 0) {
        qci_table_add(table, "shrinkage");
        qci_table_add(table,
                      "%s of the length is allowed for: wash the fabric before "
                      "it is cut",
                      qci_phrase_percent(info->shrink_length).text);
    }
    if (prints[info->print]) {
        qci_table_add(table, "print");
        qci_table_add(table, "%s%s", prints[info->print],
                      info->print != QC_PRINT_REVERSIBLE &&
                              any_free_triangle(plan, info)
                          ? "; triangles face as they fall"
                          : "");
    }
}

static void put_fabric(qci_text *out, const qc_plan *plan,
                       const qc_plan_fabric *info)
{
    qci_table table = {.align = "ll"};
    qci_text head = {0};
    qci_phrase buy = qci_phrase_buy(plan, info->bought);

    qci_text_printf(&head, "%s: %s", info->name,
                    info->bought > 0 ? buy.text
                                     : "nothing, no piece is cut from it");
    qci_put_collected(out, 2, &head);
    if (info->bought == 0)
        return;
    add_proof(&table, plan, info);
    add_use(&table, plan, info);
    add_width(&table, plan, info);
    add_hand_method(&table, plan, info);
    add_care(&table, plan, info);
    if (info->cost != QC_DEFAULT) {
        qci_table_add(&table, "cost");
        qci_table_add(&table, "%s at %s a %s",
                      qci_phrase_money(info->cost).text,
                      qci_phrase_money(info->price).text,
                      plan->units == QC_UNITS_IN ? "yard" : "metre");
    }
    qci_table_put(&table, out, 4);
}

void qci_put_shopping(qci_text *out, const qc_plan *plan)
{
    int64_t cost = 0;
    size_t priced = 0;

    qci_put_heading(out, "WHAT TO BUY");
    for (size_t i = 0; i < plan->fabric_count; i++) {
        const qc_plan_fabric *info = &plan->fabrics[i].info;

        put_fabric(out, plan, info);
        if (info->cost == QC_DEFAULT)
            continue;
        cost += info->cost;
        priced++;
    }
    if (priced > 1)
        qci_text_printf(out, "  %s: %s\n",
                        priced == plan->fabric_count
                            ? "Cost of all fabrics"
                            : "Cost of the fabrics with a price",
                        qci_phrase_money(cost).text);
}
