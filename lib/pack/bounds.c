/* Plain counting bounds for the goals after length; each is explained where it
 * is computed. The length bounds come from the branch and bound. */
#include "pack/bounds.h"

#include "base/wide.h"
#include "pack/result.h"

static int64_t round_up(int64_t a, int64_t b)
{
    return (a + b - 1) / b;
}

/* Cuts through one layer that free all pieces of a row: one each; but one frees
 * a square for 2 or 4 triangles, and one or two more, corner to corner, them.
 */
static int64_t row_cuts(const qci_model *model, int32_t row)
{
    int64_t n = model->demand[row];

    if (model->unit[row] > 1)
        return n + n * (model->unit[row] / 2);
    return model->surplus[row] < 3 ? n : round_up(3 * n, 4);
}

static int64_t freeing_cuts(const qci_model *model)
{
    int64_t n = 0;

    for (int32_t row = 0; row < model->row_count; row++)
        n += row_cuts(model, row);
    return n;
}

/* The least area that a piece of the row takes, as a lay's area over what it
 * yields. */
static qci_wide area_of_row(const qci_model *model, int32_t row)
{
    qci_wide least = 0;

    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];
        qci_wide area = (qci_wide)lay->width * lay->height * model->demand[row];

        if (lay->row != row)
            continue;
        area = (area + lay->yield - 1) / lay->yield;
        if (!least || area < least)
            least = area;
    }
    return least;
}

int64_t qci_bound_area(const qci_model *model)
{
    qci_wide area = 0;

    for (int32_t row = 0; row < model->row_count; row++)
        area += area_of_row(model, row);
    return (int64_t)((area + model->width - 1) / model->width);
}

/* Every type is in some pattern: one piece of each must fit into all set-ups
 * together, side by side (flat), or by area (stacks). Strips that lie right
 * sides together give both hands of a piece in one set-up. */
static int64_t bound_setups(const qci_demand *demand, const qci_model *model)
{
    int64_t top = model->height[model->class_count - 1];
    qci_wide need = 0, room = model->width;

    for (int32_t row = 0; row < model->row_count; row++) {
        int64_t least = INT64_MAX;

        if (demand->layers > 1 && model->twin[row] >= 0 &&
            model->twin[row] < row)
            continue;

        for (int32_t i = 0; i < model->lay_count; i++) {
            const qci_lay *lay = &model->lays[i];
            int64_t takes =
                model->stacks ? lay->width * lay->height : lay->width;

            if (lay->row == row && takes < least)
                least = takes;
        }
        need += least;
    }
    if (model->stacks)
        room *= top;
    return need > room ? (int64_t)((need + room - 1) / room) : 1;
}

/* Every strip is cut off the bolt, and the bolt is squared. A pile of equal
 * strips is squared once, and then every piece in a strip takes a cut of its
 * own through at most `layers` of them: one that frees its section, or one that
 * frees it from the section. */
static int64_t bound_cuts(const qci_demand *demand, const qci_model *model,
                          int64_t height)
{
    int64_t top = model->height[model->class_count - 1];
    int64_t strips = round_up(height, top);

    return (demand->square_up ? 1 : 0) + strips +
           round_up(strips, demand->layers) +
           round_up(freeing_cuts(model), demand->layers);
}

/* The end of the bolt is no longer than what the bound leaves of it; the end of
 * a strip no larger than the highest strip beside the narrowest piece. */
static int64_t bound_leftover(const qci_demand *demand, const qci_model *model,
                              const qci_packing *packing, int64_t height)
{
    int64_t top = model->height[model->class_count - 1] * model->height_unit;
    qc_length end = qci_purchase_covers(demand->purchase, packing->bought) -
                    qci_result_used(demand, model, height);
    int64_t narrow = INT64_MAX, at_end, beside;

    for (int32_t i = 0; i < model->lay_count; i++)
        if (model->lays[i].width < narrow)
            narrow = model->lays[i].width;
    at_end = end >= demand->keep ? end * demand->width : 0;
    beside = (demand->width - narrow * model->width_unit) * top;
    return at_end > beside ? at_end : beside;
}

int64_t qci_bound_goal(const qci_demand *demand, const qci_model *model,
                       const qci_packing *packing, int64_t height, qc_goal goal)
{
    int64_t value = qci_result_value(demand, packing, goal), bound = 0;
    qc_length used = qci_result_used(demand, model, height);

    switch (goal) {
    case QC_GOAL_BOUGHT:
    case QC_GOAL_MONEY:
        bound = qci_purchase_bought(demand->purchase, used);
        break;
    case QC_GOAL_USED:
        bound = used;
        break;
    case QC_GOAL_SETUPS:
        bound = bound_setups(demand, model);
        break;
    case QC_GOAL_CUTS:
        bound = bound_cuts(demand, model, height);
        break;
    case QC_GOAL_LEFTOVER:
        bound = bound_leftover(demand, model, packing, height);
        return bound < value ? value : bound;
    }
    return bound > value ? value : bound;
}
