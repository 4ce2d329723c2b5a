/* What a plan takes in all, and which plans are good.
 *
 * Waste is compared as a fraction, in integers: areas stay below 2^62, so that
 * products of two fit in 128 bits. Each trial is held against each other; a
 * comparison has at most QC_MAX_COMPARED. */
#include "base/wide.h"
#include "compare/compare.h"

/* Sums of absurd sizes stay at the greatest number there is. */
static void add(int64_t *to, int64_t value)
{
    *to = value > INT64_MAX - *to ? INT64_MAX : *to + value;
}

void qci_rank_sum(qci_trial *trial)
{
    const qc_plan *plan = trial->plan;
    qc_compare_row *row = &trial->row;

    row->outcome = qc_plan_outcome(plan);
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++) {
        const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, i);

        add(&row->bought, fabric->bought);
        add(&row->cloth, fabric->bought * fabric->usable_width);
        if (fabric->cost == QC_DEFAULT || row->cost == QC_DEFAULT)
            row->cost = QC_DEFAULT;
        else
            add(&row->cost, fabric->cost);
        add(&row->area.finished, fabric->area.finished);
        add(&row->area.seams, fabric->area.seams);
        add(&row->area.leftover, fabric->area.leftover);
        add(&row->area.scrap, fabric->area.scrap);
        add(&row->setups, fabric->setups);
        add(&row->cuts, fabric->cuts);
        add(&row->blade, fabric->blade);
    }
    for (size_t i = 0; i < qc_plan_set_count(plan); i++)
        add(&row->blade, qc_plan_set_at(plan, i)->blade);
    for (size_t i = 0; i < qc_plan_step_count(plan); i++) {
        const qc_step *step = qc_plan_step_at(plan, i);

        add(&row->cuts, step->set == QC_NONE ? 0 : step->cuts);
    }
    /* Patches are measured down to whole units. */
    if (row->beyond > row->area.finished)
        row->beyond = row->area.finished;
    row->area.finished -= row->beyond;
}

static int compare(int64_t a, int64_t b)
{
    return (a > b) - (a < b);
}

/* < 0 when a is better. */
static int by_waste(const qc_compare_row *a, const qc_compare_row *b)
{
    qci_wide kept_a = (qci_wide)a->area.finished * b->cloth;
    qci_wide kept_b = (qci_wide)b->area.finished * a->cloth;
    int order = (kept_a < kept_b) - (kept_a > kept_b);

    if (order == 0)
        order = compare(a->cuts, b->cuts);
    if (order == 0)
        order = compare(a->blade, b->blade);
    return order ? order : compare((int64_t)a->index, (int64_t)b->index);
}

static bool beats(const qc_compare_row *a, const qc_compare_row *b)
{
    return a->cloth <= b->cloth && a->cuts <= b->cuts &&
           (a->cloth < b->cloth || a->cuts < b->cuts);
}

void qci_rank_all(qci_trial *trials, size_t count, bool work)
{
    for (size_t i = 0; i < count; i++) {
        qc_compare_row *row = &trials[i].row;

        if (!row->plan)
            continue;
        row->rank = 1;
        row->efficient = work;
        for (size_t j = 0; j < count; j++) {
            if (!trials[j].row.plan || j == i)
                continue;
            row->rank += by_waste(&trials[j].row, row) < 0;
            row->efficient = row->efficient && !beats(&trials[j].row, row);
        }
    }
}
