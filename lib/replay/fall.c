/* What falls out.
 *
 * A cloth that is to be a piece is compared with what the plan says of the
 * piece, as it lies; corner by corner, so that its size, its hand and the side
 * that it lies on are all checked at once. In a left-handed plan the cloth is
 * seen in a mirror, and turned over first. Of cloths that lie right sides
 * together half are the mirror image: that must be the piece's twin. Which
 * turns are allowed goes by the print. Constant cost. */
#include "base/error.h"
#include "replay/form.h"
#include "replay/state.h"

static bool turn_allowed(qc_print print, const qc_plan_piece *piece,
                         qc_turn turn, bool outlined)
{
    bool any_way = print == QC_PRINT_PLAIN || print == QC_PRINT_REVERSIBLE;
    bool triangle = qci_replay_triangles(piece->shape) > 0;

    /* Triangles face two or four ways in any case, unless the piece forbids. */
    if (outlined && triangle && !piece->facing_kept &&
        (any_way || print == QC_PRINT_ONE_WAY || print == QC_PRINT_TWO_WAY))
        return turn >= QC_TURN_NONE && turn <= QC_TURN_THREE_QUARTERS;
    switch (turn) {
    case QC_TURN_NONE:
        return true;
    case QC_TURN_HALF:
        return print != QC_PRINT_ONE_WAY;
    case QC_TURN_QUARTER:
        return any_way && (!outlined || triangle);
    case QC_TURN_THREE_QUARTERS:
        return any_way && outlined && triangle;
    }
    return false;
}

qc_status qci_replay_piece(qci_replay *replay, const qc_step *step)
{
    const qc_plan *plan = replay->plan;

    if (step->piece >= plan->piece_count)
        return qci_replay_reject(replay, step, "there is no piece %u",
                                 step->piece);
    if (plan->pieces[step->piece].fabric != replay->fabric)
        return qci_replay_reject(
            replay, step, "piece %u belongs to another fabric", step->piece);
    return QC_STATUS_OK;
}

/* Its mirror image is as good. */
static bool may_be_mirrored(const qci_replay *replay, const qc_step *step)
{
    const qc_plan_piece *piece = &replay->plan->pieces[step->piece];
    qc_print print = replay->info->print;

    /* Having no hand, it was found to be its own mirror image, or its cloth
     * reversible. On a print it would show which side is which; not in
     * triangles that face any way. */
    return piece->hand == QC_HAND_NONE &&
           (print == QC_PRINT_PLAIN || print == QC_PRINT_REVERSIBLE ||
            step->paired ||
            (qci_replay_triangles(piece->shape) && !piece->facing_kept));
}

qc_status qci_replay_lying(qci_replay *replay, const qc_step *step,
                           qc_turn turn, bool outlined)
{
    const qc_plan_piece *piece = &replay->plan->pieces[step->piece];

    if (!turn_allowed(replay->info->print, piece, turn, outlined))
        return qci_replay_reject(replay, step,
                                 "the print forbids turn %d of piece %u",
                                 (int)turn, step->piece);
    if (!outlined && (step->base || step->mirrored))
        return qci_replay_reject(replay, step,
                                 "piece %u has no other base or mirror image",
                                 step->piece);
    if (outlined && step->base >= piece->base_count)
        return qci_replay_reject(replay, step, "piece %u has no base %u",
                                 step->piece, step->base);
    if (step->mirrored && !may_be_mirrored(replay, step))
        return qci_replay_reject(replay, step, "piece %u must not lie mirrored",
                                 step->piece);
    return QC_STATUS_OK;
}

/* Half of the cloths are mirror images of those that the piece was compared
 * with: the twin lies on the same side, turned the other way round. */
static qc_status count_pairs(qci_replay *replay, const qc_step *step,
                             int64_t count)
{
    uint32_t twin = replay->plan->pieces[step->piece].twin;

    if (twin == QC_NONE)
        return qci_replay_reject(replay, step,
                                 "the mirror image of piece %u is not wanted",
                                 step->piece);
    replay->pieces[step->piece].fallen += count / 2;
    replay->pieces[twin].fallen += count / 2;
    return QC_STATUS_OK;
}

qc_status qci_replay_count(qci_replay *replay, const qc_step *step,
                           const qci_polygon *cloth, int64_t count)
{
    qci_tally *tally = &replay->pieces[step->piece];
    qc_status status = QC_STATUS_OK;

    replay->piece_area += qci_polygon_doubled_area(cloth) * count;
    if (step->paired)
        status = count_pairs(replay, step, count);
    else
        tally->fallen += count;
    replay->total = tally->fallen;
    return status;
}

static qc_status explain_size(qci_replay *replay, const qc_step *step,
                              const qci_polygon *freed, qc_length width,
                              qc_length height)
{
    qci_point low, high;

    qci_polygon_box(freed, &low, &high);
    return qci_replay_reject(
        replay, step, "a cloth of %s x %s falls out, piece %u is %s x %s",
        qci_replay_show(replay, high.x - low.x).text,
        qci_replay_show(replay, high.y - low.y).text, step->piece,
        qci_replay_show(replay, width).text,
        qci_replay_show(replay, height).text);
}

/* Of triangles: the square. */
static qc_status take_rectangle(qci_replay *replay, const qc_step *step,
                                const qci_polygon *freed, qc_turn turn,
                                int64_t count)
{
    const qc_plan_piece *piece = &replay->plan->pieces[step->piece];
    bool quarter = turn == QC_TURN_QUARTER;
    qc_length width = piece->cut[quarter ? 1 : 0];
    qc_length height = piece->cut[quarter ? 0 : 1];
    qci_tally *tally = &replay->pieces[step->piece];
    qc_status status = qci_replay_lying(replay, step, turn, false);

    if (status != QC_STATUS_OK)
        return status;
    if (!qci_cloth_is_rectangle(freed, width, height))
        return explain_size(replay, step, freed, width, height);
    if (!qci_replay_triangles(piece->shape))
        return qci_replay_count(replay, step, freed, count);
    tally->square = *freed;
    tally->waiting += count;
    tally->squares += count;
    replay->total = tally->squares;
    return QC_STATUS_OK;
}

static qc_status take_outlined(qci_replay *replay, const qc_step *step,
                               const qci_polygon *freed, qc_turn turn,
                               int64_t count)
{
    const qc_plan_piece *piece = &replay->plan->pieces[step->piece];
    bool left_handed = replay->plan->left_handed;
    qci_polygon seen = left_handed ? qci_polygon_mirrored(freed) : *freed;
    qc_status status = qci_replay_lying(replay, step, turn, true);
    qci_polygon lying;

    if (status != QC_STATUS_OK)
        return status;
    lying = qci_form_lying(piece, step->base, turn, step->mirrored);
    if (!qci_polygon_is_same(&lying, &seen))
        return qci_replay_reject(
            replay, step, "what falls out has not the outline of piece %u",
            step->piece);
    return qci_replay_count(replay, step, freed, count);
}

static qc_status take_part(qci_replay *replay, const qc_step *step,
                           const qci_part *from, const qci_polygon *freed,
                           int64_t count)
{
    qci_part part = {.rank = from->rank == QCI_RANK_BOLT ? QCI_RANK_STRIP
                                                         : QCI_RANK_SECTION,
                     .cloth = *freed,
                     .copies = count,
                     .paired = from->paired,
                     .both_ways = from->both_ways || step->alternate};

    if (from->rank != QCI_RANK_BOLT) {
        part.piles = from->piles * qci_replay_slices(step);
        part.layers = from->layers;
    }
    return qci_vec_push(&replay->parts, part) ? QC_STATUS_OK
                                              : qci_no_memory(replay->err);
}

qc_status qci_replay_take(qci_replay *replay, const qc_step *step,
                          const qci_part *from, const qci_polygon *freed,
                          qc_turn turn, int64_t count)
{
    const qc_plan_piece *piece;

    if (step->part_out != QC_NONE)
        return take_part(replay, step, from, freed, count);
    if (step->piece == QC_NONE) {
        replay->scrap_area += qci_polygon_doubled_area(freed) * count;
        return QC_STATUS_OK;
    }
    piece = &replay->plan->pieces[step->piece];
    if (!piece->outline_count ||
        (qci_replay_triangles(piece->shape) &&
         qci_cloth_is_rectangle(freed, piece->cut[0], piece->cut[1])))
        return take_rectangle(replay, step, freed, turn, count);
    return take_outlined(replay, step, freed, turn, count);
}
