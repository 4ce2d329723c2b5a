/* What is done when the cutting is over: leftovers are put away, and units that
 * were sewn oversize are trimmed back.
 *
 * Of a strip's end whose edge slants only the largest rectangle is worth
 * keeping: it is cut free of the wedge before it, which is scrap. That cut is
 * no step of its own. Trimming back is done to sewn patchwork, so no cloth is
 * at hand; what the plan says of the sizes is all there is to check. Constant
 * cost a step, apart from the list of leftovers. */
#include "replay/state.h"

/* Frees the cloth of a wedge at its left edge. */
static qc_status square_off(qci_replay *replay, const qc_step *step,
                            const qci_part *part, qci_polygon *kept)
{
    qci_ruler ruler = {QCI_MEASURE_ACROSS, 0, 0};
    qci_polygon wedge;
    qci_point lower, upper;

    *kept = part->cloth;
    qci_cloth_left(&part->cloth, &lower, &upper);
    if (upper.x == lower.x)
        return QC_STATUS_OK;
    ruler.distance = upper.x > lower.x ? upper.x - lower.x : 0;
    if (qci_cloth_slice(kept, ruler, 1, false, &wedge) != QCI_SLICE_DONE)
        return qci_replay_reject(replay, step,
                                 "nothing is left beyond the slanted edge");
    replay->scrap_area += qci_polygon_doubled_area(&wedge) * step->copies;
    return QC_STATUS_OK;
}

/* What is put away must be among the leftovers that the plan names. */
static qc_status find_named(qci_replay *replay, const qc_step *step,
                            const qci_polygon *kept)
{
    const qci_plan_fabric *fabric = &replay->plan->fabrics[replay->fabric];
    int64_t open = step->copies;

    for (size_t i = 0; i < fabric->info.leftover_count && open; i++) {
        const qc_leftover *named = &fabric->leftovers[i];
        int64_t taken = replay->to_keep[i] < open ? replay->to_keep[i] : open;

        if (!qci_cloth_is_rectangle(kept, named->width, named->length))
            continue;
        replay->to_keep[i] -= taken;
        open -= taken;
    }
    if (open)
        return qci_replay_reject(
            replay, step, "%lld cloths kept are not leftovers of the plan",
            (long long)open);
    return QC_STATUS_OK;
}

qc_status qci_replay_keep(qci_replay *replay, const qc_step *step,
                          qci_part *part)
{
    qci_polygon kept;
    qc_length left;
    qc_status status = square_off(replay, step, part, &kept);

    if (status != QC_STATUS_OK)
        return status;
    left = qci_cloth_extent(&kept, step->part_in ? QCI_MEASURE_ACROSS
                                                 : QCI_MEASURE_UP);
    if (step->distance != left)
        return qci_replay_reject(replay, step, "keeps %s, but %s is left",
                                 qci_replay_show(replay, step->distance).text,
                                 qci_replay_show(replay, left).text);
    if (step->layers != 1 || step->repeat != 0)
        return qci_replay_reject(replay, step, "keeping is not a cut");
    status = find_named(replay, step, &kept);
    if (status != QC_STATUS_OK)
        return status;
    replay->kept_area += qci_polygon_doubled_area(&kept) * step->copies;
    part->copies -= step->copies;
    part->gone = part->copies == 0;
    return qci_replay_sums(replay, step, 0, step->copies, 0);
}

/* A unit is what a piece is sewn into: as many as there are pieces. */
qc_status qci_replay_trim_back(qci_replay *replay, const qc_step *step)
{
    const qc_plan_piece *piece;
    qc_status status = qci_replay_piece(replay, step);

    if (status != QC_STATUS_OK)
        return status;
    piece = &replay->plan->pieces[step->piece];
    if (piece->trim_to[0] < 1 || piece->trim_to[1] < 1 ||
        piece->trim_to[0] >= piece->cut[0] ||
        piece->trim_to[1] >= piece->cut[1])
        return qci_replay_reject(replay, step,
                                 "piece %u is not cut larger than it is "
                                 "trimmed to",
                                 step->piece);
    if (replay->pieces[step->piece].trimmed)
        return qci_replay_reject(replay, step, "piece %u is trimmed already",
                                 step->piece);
    if (step->part_in != QC_NONE || step->part_out != QC_NONE ||
        step->turn != QC_TURN_NONE || step->rest_is_piece || step->repeat)
        return qci_replay_reject(replay, step,
                                 "trimming back has no part, turn or repeat");
    if (step->distance != piece->trim_to[0])
        return qci_replay_reject(
            replay, step, "trims to %s, piece %u has %s",
            qci_replay_show(replay, step->distance).text, step->piece,
            qci_replay_show(replay, piece->trim_to[0]).text);
    if (step->copies != piece->count)
        return qci_replay_reject(replay, step, "trims %lld units, not %lld",
                                 (long long)step->copies,
                                 (long long)piece->count);
    replay->pieces[step->piece].trimmed = true;
    replay->put_down = true;
    return qci_replay_sums(replay, step, 0, 0, 0);
}
