/* From a strip set to steps: sew its full sets and cut them across, then the
 * last, shorter one, then cut the segments a second time.
 *
 * Sewn sets are bulky and their seams are cut across exactly, so they are not
 * piled: every cut is made as often as there are sets. */
#include "order/bench.h"

static const qc_plan_set *current(const qci_bench *b)
{
    return &b->plan->sets[b->set].info;
}

static bool sew(qci_bench *b, qci_lot sets, qc_length length)
{
    qc_step step = qci_step_on(b, QC_STEP_SEW, sets);

    step.part_in = QC_NONE;
    step.part_out = sets.part;
    step.distance = length;
    step.yield = sets.copies;
    return qci_take_up(b, step, 0, (qci_origin){0});
}

static bool cut_across(qci_bench *b, qci_lot sets, int64_t each, int64_t before)
{
    const qc_plan_set *set = current(b);
    qc_step step = qci_step_on(b, QC_STEP_CROSSCUT, sets);

    step.distance = set->spacing;
    step.along = set->first;
    step.lean = set->lean;
    step.repeat = (uint32_t)each;
    step.cuts = sets.piles; /* the first cut frees nothing yet */
    step.yield = sets.copies * each;
    step.total = before + step.yield;
    return qci_take_up(
        b, step, sets.piles,
        (qci_origin){.tally = {step.yield, step.total, set->segments}});
}

static bool sew_and_cut(qci_bench *b, qci_lot sets, qc_length length,
                        int64_t each, int64_t before)
{
    return sets.copies == 0 ||
           (sew(b, sets, length) && cut_across(b, sets, each, before));
}

static bool halve(qci_bench *b)
{
    const qc_plan_set *set = current(b);
    qci_lot segments = {.part = QC_NONE,
                        .copies = set->segments,
                        .piles = set->segments,
                        .layers = 1};
    qc_step step = qci_step_on(b, QC_STEP_HALVE, segments);

    step.repeat = 1;
    step.yield = 2 * segments.copies;
    return qci_take_up(b, step, segments.piles, (qci_origin){0});
}

bool qci_order_set(qci_bench *b)
{
    const qc_plan_set *set = current(b);
    qci_lot full = {
        .part = 0, .copies = set->sets, .piles = set->sets, .layers = 1};
    qci_lot part = {.part = 1, .layers = 1};

    part.copies = part.piles = set->part_segments > 0 ? 1 : 0;
    return sew_and_cut(b, full, set->full_length, set->per_set, 0) &&
           sew_and_cut(b, part, set->part_length, set->part_segments,
                       set->sets * set->per_set) &&
           (set->second_angle == 0 || halve(b));
}
