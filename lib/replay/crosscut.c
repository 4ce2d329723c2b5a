/* Sewing strip sets and cutting them across.
 *
 * The strips of a sewn set are rectangles, each begun at its own offset and
 * lying over the next by two seam allowances. A cut is a line from the lower to
 * the upper raw edge; it cuts a strip through when both its left corners lie
 * left of the line or on it, and both right ones right of it or on it. Cuts are
 * parallel, so what holds for the first and the last one holds between. A
 * segment is a parallelogram, and a second cut through it must part the two
 * corners of its right side. Signs of products only: no corner is computed.
 * Costs one look at every strip a step. */
#include "replay/angle.h"
#include "replay/polygon.h"
#include "replay/sets.h"

/* By how much a second cut may miss a corner that it is meant to go through. */
#define TIP_SLACK 8

static const qc_plan_set *set_of(const qci_replay *replay, const qc_step *step)
{
    return &replay->plan->sets[step->set].info;
}

/* Which sets a part number stands for. */
static bool find_which(const qci_replay *replay, const qc_step *step,
                       uint32_t part, qci_which *which)
{
    *which = part == 0 ? QCI_SET_FULL : QCI_SET_PART;
    return part <= 1 && qci_run_of(set_of(replay, step), *which).copies > 0;
}

static qc_status use_strips(qci_replay *replay, const qc_step *step,
                            qci_which which)
{
    const qci_plan_set *set = &replay->plan->sets[step->set];

    for (size_t i = 0; i < set->info.strip_count; i++) {
        uint32_t piece = qci_set_piece(&set->strips[i], which);
        qci_tally *tally = &replay->pieces[piece];

        if (step->copies > tally->fallen - tally->sewn)
            return qci_replay_reject(
                replay, step, "takes %lld strips of piece %u, %lld are left",
                (long long)step->copies, piece,
                (long long)(tally->fallen - tally->sewn));
        tally->sewn += step->copies;
    }
    return QC_STATUS_OK;
}

static qc_status sew(qci_replay *replay, const qc_step *step)
{
    qci_set_tally *tally = &replay->sets[step->set];
    qci_which which;
    qci_run run;
    qc_status status;

    if (step->part_in != QC_NONE || step->repeat || step->along || step->lean)
        return qci_replay_reject(replay, step, "sewing is not a cut");
    if (!find_which(replay, step, step->part_out, &which))
        return qci_replay_reject(replay, step, "there are no sets %u",
                                 step->part_out);
    if (tally->sewn[which])
        return qci_replay_reject(replay, step, "is sewn already");
    run = qci_run_of(set_of(replay, step), which);
    if (step->copies != run.copies || step->distance != run.length)
        return qci_replay_reject(
            replay, step, "sews %lld sets of %s, the plan has %lld of %s",
            (long long)step->copies,
            qci_replay_show(replay, step->distance).text, (long long)run.copies,
            qci_replay_show(replay, run.length).text);
    if (step->layers != 1)
        return qci_replay_reject(replay, step, "%u layers, allowed 1",
                                 step->layers);
    status = use_strips(replay, step, which);
    if (status != QC_STATUS_OK)
        return status;
    tally->sewn[which] = step->copies;
    return qci_replay_sums(replay, step, 0, step->copies, 0);
}

/* The cut whose lower end is x goes through strip `index` of that length. */
static bool cuts_through(const qci_replay *replay, const qc_step *step,
                         size_t index, qc_length length, qc_length x)
{
    const qci_plan_set *set = &replay->plan->sets[step->set];
    qci_edges edges = qci_edges_of(replay->plan, set, index);
    qc_length left = set->strips[index].offset;
    qc_length right = left + length;
    qci_point a = {x, 0}, b = {x + set->info.lean, set->info.height};

    return qci_polygon_cross(a, b, (qci_point){left, edges.low}) >= 0 &&
           qci_polygon_cross(a, b, (qci_point){left, edges.high}) >= 0 &&
           qci_polygon_cross(a, b, (qci_point){right, edges.low}) <= 0 &&
           qci_polygon_cross(a, b, (qci_point){right, edges.high}) <= 0;
}

static qc_status check_ends(qci_replay *replay, const qc_step *step,
                            qc_length length)
{
    const qc_plan_set *set = set_of(replay, step);
    qc_length last = step->along + step->repeat * set->pitch;

    for (size_t i = 0; i < set->strip_count; i++) {
        if (!cuts_through(replay, step, i, length, step->along))
            return qci_replay_reject(
                replay, step, "the first cut does not cross strip %zu", i);
        if (!cuts_through(replay, step, i, length, last))
            return qci_replay_reject(
                replay, step, "the last cut does not cross strip %zu", i);
    }
    return QC_STATUS_OK;
}

static qc_status check_crosscut(qci_replay *replay, const qc_step *step,
                                qci_which which)
{
    const qc_plan_set *set = set_of(replay, step);
    const qci_set_tally *tally = &replay->sets[step->set];
    qci_run run = qci_run_of(set, which);

    if (!tally->sewn[which] || tally->segments[which])
        return qci_replay_reject(replay, step, "sets %u are %s", step->part_in,
                                 tally->sewn[which] ? "cut already"
                                                    : "not sewn");
    if (step->copies != run.copies || step->repeat != run.segments)
        return qci_replay_reject(
            replay, step,
            "%lld sets are cut into %u, the plan says %lld into %lld",
            (long long)step->copies, step->repeat, (long long)run.copies,
            (long long)run.segments);
    if (step->distance != set->spacing || step->along != set->first ||
        step->lean != set->lean)
        return qci_replay_reject(
            replay, step,
            "cuts at %s, leaning by %s, %s apart; the plan says "
            "%s, %s, %s",
            qci_replay_show(replay, step->along).text,
            qci_replay_show(replay, step->lean).text,
            qci_replay_show(replay, step->distance).text,
            qci_replay_show(replay, set->first).text,
            qci_replay_show(replay, set->lean).text,
            qci_replay_show(replay, set->spacing).text);
    return check_ends(replay, step, run.length);
}

static qc_status crosscut(qci_replay *replay, const qc_step *step)
{
    qci_set_tally *tally = &replay->sets[step->set];
    qci_which which;
    int64_t piles, yield;
    qc_status status;

    if (step->part_out != QC_NONE ||
        !find_which(replay, step, step->part_in, &which))
        return qci_replay_reject(replay, step, "there are no sets %u",
                                 step->part_in);
    status = check_crosscut(replay, step, which);
    if (status == QC_STATUS_OK)
        status = qci_replay_piles(replay, step, &piles);
    if (status != QC_STATUS_OK)
        return status;
    yield = step->copies * step->repeat;
    tally->segments[which] = yield;
    return qci_replay_sums(replay, step, piles * ((int64_t)step->repeat + 1),
                           yield, tally->segments[0] + tally->segments[1]);
}

/* A segment seen so that its cuts lean as the job's angle says: its first side
 * runs from (0, 0) to (lean, height) and is `side` long. */
typedef struct segment {
    qc_length lean, height, pitch, side;
} segment;

static segment segment_of(const qc_plan_set *set)
{
    bool left = qci_replay_direction(set->angle).cosine < 0;
    qc_length lean = set->lean < 0 ? -set->lean : set->lean;
    qci_wide square =
        (qci_wide)lean * lean + (qci_wide)set->height * set->height;

    return (segment){left ? -lean : lean, set->height, set->pitch,
                     qci_replay_root(square)};
}

/* How far p lies left of the second cut, times the side and 2^QCI_ANGLE_BITS.
 * The cut begins `at` up the first side. */
static qci_wide left_of(const segment *of, qc_length at, qci_replay_way cut,
                        qci_point p)
{
    qci_wide x = (qci_wide)p.x * of->side - (qci_wide)of->lean * at;
    qci_wide y = (qci_wide)p.y * of->side - (qci_wide)of->height * at;

    return y * cut.cosine - x * cut.sine;
}

/* It begins on the first side and leaves through the other. */
static bool is_parted(const qc_plan_set *set)
{
    segment of = segment_of(set);
    qci_replay_way cut = qci_replay_direction(set->second_angle);
    qci_wide slack = (qci_wide)TIP_SLACK * of.side << QCI_ANGLE_BITS;
    qci_wide low, high;

    if (set->second_at < 0 || set->second_at > of.side + 1)
        return false;
    low = left_of(&of, set->second_at, cut, (qci_point){of.pitch, 0});
    high = left_of(&of, set->second_at, cut,
                   (qci_point){of.pitch + of.lean, of.height});
    return (low <= slack && high >= -slack) || (low >= -slack && high <= slack);
}

static qc_status halve(qci_replay *replay, const qc_step *step)
{
    const qc_plan_set *set = set_of(replay, step);
    qci_set_tally *tally = &replay->sets[step->set];
    int64_t piles;
    qc_status status;

    if (set->second_angle <= 0 || set->second_angle >= 180 * QC_DEGREE)
        return qci_replay_reject(replay, step, "there is no second cut");
    if (step->part_in != QC_NONE || step->part_out != QC_NONE ||
        step->distance || step->along || step->lean || step->repeat != 1)
        return qci_replay_reject(replay, step,
                                 "a second cut is one, and has no part or "
                                 "ruler");
    if (tally->halved ||
        tally->segments[0] + tally->segments[1] != set->segments ||
        step->copies != set->segments)
        return qci_replay_reject(replay, step,
                                 "not all %lld segments are there to be cut",
                                 (long long)set->segments);
    if (!is_parted(set))
        return qci_replay_reject(replay, step,
                                 "the second cut does not go from side to "
                                 "side");
    status = qci_replay_piles(replay, step, &piles);
    if (status != QC_STATUS_OK)
        return status;
    tally->halved = step->copies;
    return qci_replay_sums(replay, step, piles, 2 * step->copies, 0);
}

qc_status qci_replay_set_step(qci_replay *replay, const qc_step *step)
{
    if (step->set >= replay->plan->set_count)
        return qci_replay_reject(replay, step, "there is no strip set %u",
                                 step->set);
    if (step->piece != QC_NONE || step->turn != QC_TURN_NONE ||
        step->rest_is_piece || step->alternate || step->paired ||
        step->mirrored || step->base)
        return qci_replay_reject(replay, step, "a strip set has no pieces");
    switch (step->kind) {
    case QC_STEP_SEW:
        return sew(replay, step);
    case QC_STEP_CROSSCUT:
        return crosscut(replay, step);
    case QC_STEP_HALVE:
        return halve(replay, step);
    default:
        return qci_replay_reject(replay, step, "is not for a strip set");
    }
}

qc_status qci_replay_end_sets(qci_replay *replay)
{
    const qc_plan *plan = replay->plan;

    for (size_t i = 0; i < plan->set_count; i++) {
        const qc_plan_set *set = &plan->sets[i].info;
        const qci_set_tally *tally = &replay->sets[i];
        int64_t segments = tally->segments[0] + tally->segments[1];

        if (segments != set->segments)
            return qci_replay_reject_at(
                replay, "strip_sets", i, "%lld segments are cut, not %lld",
                (long long)segments, (long long)set->segments);
        if (set->second_angle && !tally->halved)
            return qci_replay_reject_at(replay, "strip_sets", i,
                                        "its segments are not cut again");
    }
    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];
        int64_t left = replay->pieces[i].fallen - replay->pieces[i].sewn;

        if (piece->strip_set == QC_NONE)
            continue;
        if (piece->strip_set >= plan->set_count)
            return qci_replay_reject_at(replay, "pieces", i,
                                        "there is no strip set %u",
                                        piece->strip_set);
        if (left != piece->spares)
            return qci_replay_reject_at(replay, "pieces", i,
                                        "%lld strips are not sewn",
                                        (long long)left);
    }
    return QC_STATUS_OK;
}
