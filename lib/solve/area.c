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
#include "shape/shape.h"

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

/* What shows of one piece on one side; of a triangle, of the square that 2 or 4
 * of them make. A job that gives cut sizes says nothing of seams; they are
 * taken off where the piece is wide enough to have any. */
static qc_length shown(const qc_plan_piece *piece, int side, qc_length seam)
{
    qc_length seams = qci_shape_cut_up(piece->shape, 0, seam);

    if (piece->finished[side])
        return piece->finished[side];
    return piece->cut[side] > seams ? piece->cut[side] - seams
                                    : piece->cut[side];
}

qc_area qci_area_account(const qc_plan *plan, uint32_t fabric)
{
    const qci_plan_fabric *cloth = &plan->fabrics[fabric];
    qc_area area = {0, 0, 0, 0};

    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];
        int64_t cloths = piece->count / qci_shape_yields(piece->shape);
        int64_t seen;

        if (piece->fabric != fabric)
            continue;
        seen = shown(piece, 0, plan->seam) * shown(piece, 1, plan->seam);
        area.finished += seen * cloths;
        area.seams += (piece->cut[0] * piece->cut[1] - seen) * cloths;
    }
    for (size_t i = 0; i < cloth->info.leftover_count; i++) {
        const qc_leftover *kept = &cloth->leftovers[i];

        area.leftover += kept->length * kept->width * kept->count;
    }
    area.scrap = cloth->info.bought * cloth->info.usable_width - area.finished -
                 area.seams - area.leftover;
    return area;
}
