/* The length of a cut is that of the cloth it goes through: the width of the
 * bolt, half of it where it lies folded; the height of a strip, more where the
 * cut slants; the width or the height of a section; its way through a square, a
 * set or a segment. Layers do not count, as they do not in the number of cuts.
 *
 * Each length is rounded to a unit, so sums are as good as the number of cuts;
 * a step has at most some 10^10 cuts of 10^8 units. Costs one look at the step.
 */
#include "order/blade.h"

#include "order/measure.h"
#include "order/say.h"
#include "shape/shape.h"

static const qc_strip *strip_of(const qc_step *step, const qci_origin *from)
{
    return &from->plan->fabrics[step->fabric].strips[from->strip];
}

static qc_length across_bolt(const qc_step *step, const qci_origin *from)
{
    qc_length width = from->plan->fabrics[step->fabric].info.usable_width;

    return step->layers > 1 ? (width + 1) / 2 : width;
}

/* Of the cuts through one pile of strips; every second one has the lean that
 * the edge had before, where sections are turned by turns. */
static int64_t along_strip(const qc_step *step, const qci_origin *from)
{
    qc_length height = strip_of(step, from)->height;
    int64_t turned = step->alternate ? step->repeat / 2 : 0;

    return (step->repeat - turned) * qci_slope(step->lean, height) +
           turned * qci_slope(from->edge, height);
}

static int64_t round_outline(const qc_step *step, const qci_origin *from)
{
    qci_corner_cut cuts[QCI_CORNERS_MAX];
    size_t count = qci_outline_cuts(step, from, cuts);
    int64_t all = 0;

    for (size_t i = 0; i < count; i++)
        all += cuts[i].length;
    return all;
}

static qc_length through_segment(const qc_plan_set *set)
{
    int32_t apart = set->angle - set->second_angle;

    return qci_pitch_of(set->spacing, apart < 0 ? -apart : apart);
}

static const qc_stack *run_of(const qc_step *step, const qci_origin *from)
{
    return &strip_of(step, from)->subcuts[from->subcut].stacks[from->stack];
}

int64_t qci_blade_of(const qc_step *step, const qci_origin *from, int64_t piles)
{
    const qc_plan *plan = from->plan;
    qc_length side;

    switch (step->kind) {
    case QC_STEP_SQUARE_UP:
    case QC_STEP_STRIP:
        return step->cuts * across_bolt(step, from);
    case QC_STEP_SQUARE_END:
        return step->cuts * strip_of(step, from)->height;
    case QC_STEP_SUBCUT:
    case QC_STEP_SLANT:
        return piles * along_strip(step, from);
    case QC_STEP_SPLIT:
        return step->cuts * strip_of(step, from)->subcuts[from->subcut].width;
    case QC_STEP_TRIM:
        return step->cuts * run_of(step, from)->height;
    case QC_STEP_OUTLINE:
        return piles * round_outline(step, from);
    case QC_STEP_DIAGONAL:
        side = plan->pieces[step->piece].cut[0];
        return step->cuts * qci_slope(side, side);
    case QC_STEP_CROSSCUT:
        return step->cuts *
               qci_slope(step->lean, plan->sets[step->set].info.height);
    case QC_STEP_HALVE:
        return step->cuts * through_segment(&plan->sets[step->set].info);
    case QC_STEP_KEEP:
    case QC_STEP_SEW:
    case QC_STEP_TRIM_BACK:
        break;
    }
    return 0;
}
