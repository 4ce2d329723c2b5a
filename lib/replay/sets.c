/* What the plan says of its strip sets, before they are sewn.
 *
 * Strips lie side by side. A seam takes its allowance from both cloths that it
 * joins, so every strip reaches two of them under the one before; the sewn
 * height goes from the first raw edge to the last. Cuts lean over
 * that height as their angle says, to the hand that the set is of; in a
 * left-handed plan, which is seen in a mirror, to the other. Strips of a set
 * are pieces like any other and must have fallen out in their fabrics. Every
 * number is bounded before it is multiplied. */
#include "replay/sets.h"

#include <string.h>

#include "replay/angle.h"

/* By how much a lean may differ from height x cotangent: it is rounded to an
 * even number. */
#define LEAN_SLACK 4

qci_run qci_run_of(const qc_plan_set *set, qci_which which)
{
    if (which == QCI_SET_FULL)
        return (qci_run){set->sets, set->full_length, set->per_set};
    return (qci_run){set->part_segments > 0 ? 1 : 0, set->part_length,
                     set->part_segments};
}

uint32_t qci_set_piece(const qc_set_strip *strip, qci_which which)
{
    return which == QCI_SET_FULL ? strip->full_piece : strip->part_piece;
}

qci_edges qci_edges_of(const qc_plan *plan, const qci_plan_set *set,
                       size_t index)
{
    qci_edges edges = {0, set->strips[0].width};

    for (size_t i = 1; i <= index; i++) {
        edges.low = edges.high - 2 * plan->seam;
        edges.high = edges.low + set->strips[i].width;
    }
    return edges;
}

static bool is_length(qc_length length)
{
    return length >= -QC_LENGTH_MAX && length <= QC_LENGTH_MAX;
}

/* The sets of both hands that the job asks for as pairs share their strips. */
static bool is_for(const qc_plan *plan, uint32_t set, uint32_t index)
{
    const char *job_id = plan->sets[index].info.job_id;
    const char *other;

    if (set == index)
        return true;
    other = set < plan->set_count ? plan->sets[set].info.job_id : NULL;
    return job_id && other && !strcmp(job_id, other);
}

/* Strips of one fabric and width may share a piece. */
static qc_status check_piece(qci_replay *replay, uint32_t index,
                             const qc_set_strip *strip, qci_which which)
{
    const qc_plan *plan = replay->plan;
    qci_run run = qci_run_of(&plan->sets[index].info, which);
    uint32_t number = qci_set_piece(strip, which);
    const qc_plan_piece *piece;

    if (run.copies == 0)
        return number == QC_NONE
                   ? QC_STATUS_OK
                   : qci_replay_reject_at(replay, "strip_sets", index,
                                          "names piece %u for no set", number);
    if (number >= plan->piece_count)
        return qci_replay_reject_at(replay, "strip_sets", index,
                                    "there is no piece %u", number);
    piece = &plan->pieces[number];
    if (piece->fabric != strip->fabric ||
        !is_for(plan, piece->strip_set, index) || piece->cut[0] != run.length ||
        piece->cut[1] != strip->width || piece->outline_count)
        return qci_replay_reject_at(replay, "strip_sets", index,
                                    "piece %u is not such a strip", number);
    return QC_STATUS_OK;
}

static qc_status check_strips(qci_replay *replay, uint32_t index)
{
    const qci_plan_set *set = &replay->plan->sets[index];
    qc_length narrowest = QC_MAX_WIDTH;
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; status == QC_STATUS_OK && i < set->info.strip_count;
         i++) {
        const qc_set_strip *strip = &set->strips[i];
        qc_length width;

        if (strip->fabric >= replay->plan->fabric_count)
            return qci_replay_reject_at(replay, "strip_sets", index,
                                        "there is no fabric %u", strip->fabric);
        width = replay->plan->fabrics[strip->fabric].info.usable_width;
        narrowest = width < narrowest ? width : narrowest;
        if (strip->width > QC_LENGTH_MAX || !is_length(strip->offset) ||
            (i == 0 && strip->offset) || strip->width <= 2 * replay->plan->seam)
            return qci_replay_reject_at(replay, "strip_sets", index,
                                        "strip %zu is of no use", i);
        status = check_piece(replay, index, strip, QCI_SET_FULL);
        if (status == QC_STATUS_OK)
            status = check_piece(replay, index, strip, QCI_SET_PART);
    }
    if (status == QC_STATUS_OK && set->info.usable != narrowest)
        return qci_replay_reject_at(
            replay, "strip_sets", index, "its fabrics are %s wide, not %s",
            qci_replay_show(replay, narrowest).text,
            qci_replay_show(replay, set->info.usable).text);
    return status;
}

/* |lean| is height x |cotangent of the angle|. */
static bool leans_by(qc_length lean, qc_length height, int32_t angle)
{
    qci_replay_way cut;
    qci_wide apart;

    if (angle <= 0 || angle >= 180 * QC_DEGREE)
        return false;
    cut = qci_replay_direction(angle);
    apart = (qci_wide)(lean < 0 ? -lean : lean) * cut.sine -
            (qci_wide)height * (cut.cosine < 0 ? -cut.cosine : cut.cosine);
    return (apart < 0 ? -apart : apart) <= (qci_wide)LEAN_SLACK * cut.sine;
}

static bool has_hand(const qci_replay *replay, const qc_plan_set *set)
{
    qc_length right = replay->plan->left_handed ? -set->lean : set->lean;

    switch (set->hand) {
    case QC_HAND_NONE:
        return right == 0;
    case QC_HAND_LEFT:
        return right < 0 && leans_by(right, set->height, set->angle);
    case QC_HAND_RIGHT:
        return right > 0 && leans_by(right, set->height, set->angle);
    }
    return false;
}

static qc_status check_cuts(qci_replay *replay, uint32_t index)
{
    const qci_plan_set *set = &replay->plan->sets[index];
    const qc_plan_set *info = &set->info;
    qc_length height =
        qci_edges_of(replay->plan, set, info->strip_count - 1).high;

    if (info->height != height || height > QC_LENGTH_MAX)
        return qci_replay_reject_at(replay, "strip_sets", index,
                                    "is %s high when it is sewn, not %s",
                                    qci_replay_show(replay, height).text,
                                    qci_replay_show(replay, info->height).text);
    if (!is_length(info->lean) || !is_length(info->first))
        return qci_replay_reject_at(
            replay, "strip_sets", index, "a cut at %lld that leans by %lld",
            (long long)info->first, (long long)info->lean);
    if (!has_hand(replay, info))
        return qci_replay_reject_at(replay, "strip_sets", index,
                                    "the cuts do not lean by its angle to its "
                                    "hand");
    if (!qci_replay_is_spacing(info->spacing, info->pitch, info->lean, height))
        return qci_replay_reject_at(
            replay, "strip_sets", index,
            "cuts %s along are not %s apart square to them",
            qci_replay_show(replay, info->pitch).text,
            qci_replay_show(replay, info->spacing).text);
    return QC_STATUS_OK;
}

static qc_status check_counts(qci_replay *replay, uint32_t index)
{
    const qc_plan_set *set = &replay->plan->sets[index].info;
    qci_wide all = (qci_wide)set->sets * set->per_set + set->part_segments;

    if (set->sets < 0 || set->per_set < 0 || set->part_segments < 0 ||
        set->per_set > UINT32_MAX || set->part_segments > UINT32_MAX ||
        set->segments < 1 || set->segments != all)
        return qci_replay_reject_at(
            replay, "strip_sets", index,
            "%lld segments are not %lld sets of %lld and %lld",
            (long long)set->segments, (long long)set->sets,
            (long long)set->per_set, (long long)set->part_segments);
    if ((set->sets && set->full_length > set->usable) ||
        (set->part_segments && set->part_length > set->usable))
        return qci_replay_reject_at(replay, "strip_sets", index,
                                    "strips are longer than %s",
                                    qci_replay_show(replay, set->usable).text);
    return QC_STATUS_OK;
}

static qc_status check_set(qci_replay *replay, uint32_t index)
{
    size_t strips = replay->plan->sets[index].info.strip_count;
    qc_status status;

    if (strips < 2 || strips > QC_MAX_SET_STRIPS)
        return qci_replay_reject_at(replay, "strip_sets", index, "%zu strips",
                                    strips);
    if (replay->plan->seam < 0 || replay->plan->seam > QC_LENGTH_MAX)
        return qci_replay_reject_at(replay, "strip_sets", index,
                                    "a seam of %lld",
                                    (long long)replay->plan->seam);
    status = check_counts(replay, index);
    if (status == QC_STATUS_OK)
        status = check_strips(replay, index);
    return status == QC_STATUS_OK ? check_cuts(replay, index) : status;
}

qc_status qci_replay_check_sets(qci_replay *replay)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; status == QC_STATUS_OK && i < replay->plan->set_count;
         i++)
        status = check_set(replay, i);
    return status;
}
