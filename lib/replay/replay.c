/* The whole plan on bare fabric.
 *
 * The replay is the last word on a plan, so it takes nothing over from the
 * rooms that made it: it starts from the rectangle of cloth that was bought,
 * lets each step cut it (step.c), and compares what lies on the table in the
 * end with what the plan promises. Fabrics come one after the other, in the
 * order of the plan. Areas are exact: pieces, what is kept, what was cut off as
 * scrap and what is left over of every part are the bolt again, to the last
 * square unit. Costs a few polygon cuts per step, whatever the counts are. */
#include "replay/replay.h"

#include <stdarg.h>
#include <stdio.h>

#include "base/error.h"
#include "replay/state.h"

#define WHOLE 10000 /* 100 % in hundredths of a per cent */

qci_replay_shown qci_replay_show(const qci_replay *replay, qc_length length)
{
    qci_replay_shown shown = {{0}};

    qc_length_format(length, replay->plan->units, shown.text,
                     sizeof shown.text);
    return shown;
}

static qc_status reject(qci_replay *replay, const char *field,
                        const char *problem, va_list args)
{
    char text[sizeof(((qc_error *)NULL)->problem)];

    vsnprintf(text, sizeof text, problem, args);
    return qci_fail(replay->err, QC_STATUS_REJECTED, (qci_place){field, NULL},
                    NULL, "%s", text);
}

qc_status qci_replay_reject(qci_replay *replay, const qc_step *step,
                            const char *problem, ...)
{
    char field[32];
    va_list args;
    qc_status status;

    if (step)
        snprintf(field, sizeof field, "step %u", step->number);
    else
        snprintf(field, sizeof field, "fabrics[%u]", replay->fabric);
    va_start(args, problem);
    status = reject(replay, field, problem, args);
    va_end(args);
    return status;
}

qc_status qci_replay_reject_at(qci_replay *replay, const char *list,
                               size_t index, const char *problem, ...)
{
    char field[48];
    va_list args;
    qc_status status;

    snprintf(field, sizeof field, "%s[%zu]", list, index);
    va_start(args, problem);
    status = reject(replay, field, problem, args);
    va_end(args);
    return status;
}

/* The length of the bought cloth once it has shrunk, rounded down. */
static qc_length cloth_length(const qc_plan_fabric *info)
{
    return info->bought * (WHOLE - info->shrink_length) / WHOLE;
}

/* The numbers that everything else is computed from are possible ones. */
static qc_status check_headline(qci_replay *replay)
{
    const qc_plan_fabric *info = replay->info;

    if (info->usable_width < 1 || info->usable_width > QC_MAX_WIDTH)
        return qci_replay_reject(replay, NULL, "a usable width of %lld",
                                 (long long)info->usable_width);
    if (info->bought < 0 || info->bought > QC_LENGTH_MAX)
        return qci_replay_reject(replay, NULL, "a bought length of %lld",
                                 (long long)info->bought);
    if (info->shrink_length < 0 || info->shrink_length >= WHOLE)
        return qci_replay_reject(replay, NULL, "a shrinkage of %d",
                                 (int)info->shrink_length);
    if (info->step < 1 || info->bought % info->step)
        return qci_replay_reject(replay, NULL,
                                 "the bought %s is no number of steps of %s",
                                 qci_replay_show(replay, info->bought).text,
                                 qci_replay_show(replay, info->step).text);
    return QC_STATUS_OK;
}

qc_status qci_replay_begin(qci_replay *replay, uint32_t fabric)
{
    const qci_plan_fabric *from = &replay->plan->fabrics[fabric];
    size_t leftovers = from->info.leftover_count;
    qc_status status;

    replay->fabric = fabric;
    replay->info = &from->info;
    replay->parts.count = 0;
    replay->taken = 0;
    replay->begun = replay->put_down = false;
    replay->cuts = 0;
    replay->piece_area = replay->kept_area = replay->scrap_area = 0;
    status = check_headline(replay);
    if (status != QC_STATUS_OK)
        return status;
    qci_free(replay->to_keep);
    replay->to_keep = qci_calloc(leftovers, sizeof *replay->to_keep);
    if (!replay->to_keep)
        return qci_no_memory(replay->err);
    for (size_t i = 0; i < leftovers; i++)
        replay->to_keep[i] = from->leftovers[i].count;
    if (cloth_length(replay->info) > 0) {
        qc_length width =
            replay->width ? replay->width : replay->info->usable_width;
        qci_part bolt = {
            .copies = 1,
            .cloth = qci_polygon_rectangle(width, cloth_length(replay->info))};

        if (!qci_vec_push(&replay->parts, bolt))
            return qci_no_memory(replay->err);
    }
    return QC_STATUS_OK;
}

/* Pieces, kept cloth and scrap are the bolt again, and the plan's account of
 * areas says the same. */
static qc_status check_areas(qci_replay *replay)
{
    const qc_plan_fabric *info = replay->info;
    const qc_area *area = &info->area;
    qci_wide bolt = 2 * (qci_wide)info->usable_width * cloth_length(info);
    qci_wide bought = (qci_wide)info->usable_width * info->bought;
    qci_wide all = replay->piece_area + replay->kept_area + replay->scrap_area;

    for (size_t i = 0; i < replay->parts.count; i++) {
        const qci_part *part = &replay->parts.at[i];

        if (!part->gone)
            all += qci_polygon_doubled_area(&part->cloth) * part->copies;
    }
    if (all != bolt)
        return qci_replay_reject(replay, NULL,
                                 "cloth appears from nowhere or vanishes");
    /* The pieces of a fabric can have half a square unit in all. */
    if (area->finished < 0 || area->seams < 0 || area->scrap < 0 ||
        (qci_wide)area->finished + area->seams != replay->piece_area / 2)
        return qci_replay_reject(replay, NULL,
                                 "finished and seam areas are not those of the "
                                 "pieces that fall out");
    if (2 * (qci_wide)area->leftover != replay->kept_area)
        return qci_replay_reject(replay, NULL,
                                 "the leftover area is not what is kept");
    if ((qci_wide)area->finished + area->seams + area->leftover + area->scrap !=
        bought)
        return qci_replay_reject(replay, NULL,
                                 "the areas do not add up to what is bought");
    return QC_STATUS_OK;
}

/* Nothing is left undone to the fabric's pieces. */
static qc_status check_done(qci_replay *replay)
{
    for (size_t i = 0; i < replay->plan->piece_count; i++) {
        const qc_plan_piece *piece = &replay->plan->pieces[i];
        const qci_tally *tally = &replay->pieces[i];

        if (tally->waiting)
            return qci_replay_reject(
                replay, NULL,
                "%lld squares of piece %zu are never cut corner to corner",
                (long long)tally->waiting, i);
        if (piece->fabric == replay->fabric && piece->trim_to[0] &&
            piece->count && !tally->trimmed)
            return qci_replay_reject(replay, NULL,
                                     "piece %zu is never trimmed back", i);
    }
    return QC_STATUS_OK;
}

/* Compares the table with the promises. */
static qc_status end_fabric(qci_replay *replay)
{
    const qc_plan_fabric *info = replay->info;
    qc_status status;

    if (replay->taken != info->used)
        return qci_replay_reject(replay, NULL,
                                 "the steps use %s of the bolt, the plan %s",
                                 qci_replay_show(replay, replay->taken).text,
                                 qci_replay_show(replay, info->used).text);
    status = check_done(replay);
    if (status != QC_STATUS_OK)
        return status;
    if (replay->cuts != info->cuts)
        return qci_replay_reject(
            replay, NULL, "the steps make %lld cuts, the plan %lld",
            (long long)replay->cuts, (long long)info->cuts);
    for (size_t i = 0; i < info->leftover_count; i++) {
        if (replay->to_keep[i])
            return qci_replay_reject(replay, NULL,
                                     "%lld of leftover %zu are never put away",
                                     (long long)replay->to_keep[i], i);
    }
    return check_areas(replay);
}

/* Steps are numbered from 1 without a gap, and take one fabric after the other
 * in the order of the plan, then the strip sets. */
static qc_status check_sequence(qci_replay *replay)
{
    const qc_plan *plan = replay->plan;
    uint32_t fabric = 0;

    for (size_t i = 0; i < plan->step_count; i++) {
        const qc_step *step = &plan->steps[i];

        if (step->number != i + 1)
            return qci_replay_reject(replay, step,
                                     "stands where step %zu belongs", i + 1);
        if (step->fabric != QC_NONE && step->fabric >= plan->fabric_count)
            return qci_replay_reject(replay, step, "there is no fabric %u",
                                     step->fabric);
        if (step->fabric < fabric)
            return fabric == QC_NONE
                       ? qci_replay_reject(replay, step,
                                           "comes after a step of a strip set")
                       : qci_replay_reject(replay, step,
                                           "fabric %u comes after fabric %u",
                                           step->fabric, fabric);
        if ((step->fabric == QC_NONE) == (step->set == QC_NONE))
            return qci_replay_reject(
                replay, step, "is of a fabric and a strip set, or of neither");
        fabric = step->fabric;
    }
    return QC_STATUS_OK;
}

/* Carries out the fabric's steps, from `*next` on. */
static qc_status replay_fabric(qci_replay *replay, uint32_t fabric,
                               size_t *next)
{
    const qc_plan *plan = replay->plan;
    qc_status status = qci_replay_begin(replay, fabric);

    while (status == QC_STATUS_OK && *next < plan->step_count &&
           plan->steps[*next].fabric == fabric) {
        status = qci_replay_step(replay, &plan->steps[*next]);
        ++*next;
    }
    return status == QC_STATUS_OK ? end_fabric(replay) : status;
}

/* As many of every type have fallen out as the plan promises. */
static qc_status check_counts(qci_replay *replay)
{
    for (size_t i = 0; i < replay->plan->piece_count; i++) {
        int64_t fallen = replay->pieces[i].fallen;
        int64_t count = replay->plan->pieces[i].count;

        if (fallen != count)
            return qci_replay_reject_at(replay, "pieces", i,
                                        "%lld fall out, the plan says %lld",
                                        (long long)fallen, (long long)count);
        if (replay->plan->pieces[i].spares < 0)
            return qci_replay_reject_at(
                replay, "pieces", i, "%lld of those wanted are not cut",
                (long long)-replay->plan->pieces[i].spares);
    }
    return QC_STATUS_OK;
}

/* Sews and cuts the strip sets, whose steps are the last ones. */
static qc_status replay_sets(qci_replay *replay, size_t next)
{
    const qc_plan *plan = replay->plan;
    qc_status status = qci_replay_check_sets(replay);

    for (size_t i = next; status == QC_STATUS_OK && i < plan->step_count; i++)
        status = qci_replay_set_step(replay, &plan->steps[i]);
    return status == QC_STATUS_OK ? qci_replay_end_sets(replay) : status;
}

static qc_status replay_all(qci_replay *replay)
{
    size_t next = 0;
    qc_status status = check_sequence(replay);

    if (status == QC_STATUS_OK)
        status = qci_replay_check_pieces(replay);
    for (uint32_t i = 0;
         status == QC_STATUS_OK && i < replay->plan->fabric_count; i++)
        status = replay_fabric(replay, i, &next);
    if (status == QC_STATUS_OK)
        status = check_counts(replay);
    return status == QC_STATUS_OK ? replay_sets(replay, next) : status;
}

qc_status qci_replay_plan(const qc_plan *plan, qc_error *err)
{
    qci_replay replay = {.plan = plan, .err = err};
    qc_status status;

    replay.pieces = qci_calloc(plan->piece_count, sizeof *replay.pieces);
    replay.sets = qci_calloc(plan->set_count, sizeof *replay.sets);
    status =
        replay.pieces && replay.sets ? replay_all(&replay) : qci_no_memory(err);
    qci_free(replay.pieces);
    qci_free(replay.sets);
    qci_free(replay.to_keep);
    qci_vec_clear(&replay.parts);
    return status;
}
