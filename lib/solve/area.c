/* Where the bought area goes.
 *
 * The account is taken over the cloth as it is paid for: bought x usable width.
 * Pieces split into what shows in the sewn quilt and what goes into seams;
 * leftovers are the rectangles that are named and kept; all else is scrap. What
 * a shrinking length loses in the wash was paid for and ends nowhere, so it is
 * scrap too; the leftover at the bolt's end is measured after the wash.
 *
 * No product can overflow: lengths end at 2^35 and widths at 80 000 000 units,
 * and all areas together are at most one such product, below 2^62.
 */
#include "solve/area.h"

#include "base/alloc.h"
#include "base/error.h"
#include "job/purchase.h"

qc_status qci_leftovers_find(qci_plan_fabric *fabric, qc_length keep,
                             qc_error *err)
{
    qc_plan_fabric *info = &fabric->info;
    qci_purchase purchase = {info->step, info->shrink_length};
    qc_length end = qci_purchase_covers(purchase, info->bought) - info->used;
    size_t count = 0;

    fabric->leftovers =
        qci_calloc(info->strip_count + 1, sizeof *fabric->leftovers);
    if (!fabric->leftovers)
        return qci_no_memory(err);
    if (end >= keep && info->usable_width >= keep)
        fabric->leftovers[count++] =
            (qc_leftover){end, info->usable_width, 1, UINT32_MAX};
    for (size_t i = 0; i < info->strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];
        qc_length rest = info->usable_width - strip->used_width;

        if (rest >= keep && strip->height >= keep)
            fabric->leftovers[count++] =
                (qc_leftover){strip->height, rest, strip->repeat, (uint32_t)i};
    }
    info->leftover_count = count;
    return QC_STATUS_OK;
}

/* What is cut for one piece, or for the square that it comes from: a section
 * takes its width at half its height times that height, however its sides
 * slant; the corners that are trimmed off it are scrap. */
static int64_t cloth_area(const qc_plan *plan, const qc_subcut *subcut,
                          const qc_stack *stack)
{
    const qc_plan_piece *piece = &plan->pieces[stack->piece];
    const qc_point *at;
    int64_t doubled = 0;

    if (!subcut->corners)
        return stack->width * stack->height;
    at = piece->outline + stack->base * piece->outline_count;
    for (size_t i = 0; i < piece->outline_count; i++) {
        const qc_point *next = &at[(i + 1) % piece->outline_count];

        doubled += at[i].x * next->y - next->x * at[i].y;
    }
    return doubled / 2;
}

static int64_t cut_area(const qc_plan *plan, const qc_strip *strip)
{
    int64_t area = 0;

    for (size_t i = 0; i < strip->subcut_count; i++)
        for (size_t k = 0; k < strip->subcuts[i].stack_count; k++) {
            const qc_subcut *subcut = &strip->subcuts[i];

            area += (int64_t)subcut->count * subcut->stacks[k].count *
                    cloth_area(plan, subcut, &subcut->stacks[k]);
        }
    return area * strip->repeat;
}

qc_area qci_area_account(const qc_plan *plan, const qc_job *job,
                         uint32_t fabric)
{
    const qci_plan_fabric *cloth = &plan->fabrics[fabric];
    qc_area area = {0, 0, 0, 0};

    for (size_t i = 0; i < cloth->info.strip_count; i++)
        area.seams += cut_area(plan, &cloth->strips[i]);
    for (size_t i = 0; i < plan->piece_count; i++)
        if (plan->pieces[i].fabric == fabric)
            area.finished +=
                job->pieces[i].finished_area * plan->pieces[i].count;
    area.seams -= area.finished;
    for (size_t i = 0; i < cloth->info.leftover_count; i++) {
        const qc_leftover *kept = &cloth->leftovers[i];

        area.leftover += kept->length * kept->width * kept->count;
    }
    area.scrap = cloth->info.bought * cloth->info.usable_width - area.finished -
                 area.seams - area.leftover;
    return area;
}
