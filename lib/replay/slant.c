/* Cuts that slant.
 *
 * A strip is worked from its left edge, which may slant itself once a cut has
 * left it so. A cut is given by its lower end, measured along the strip's lower
 * edge from where the left edge begins, and by its lean. It must run from the
 * lower to the upper edge and cross nothing on the way: both its ends lie on
 * these edges, not left of the left edge and not beyond the right one.
 *
 * Where every second section is turned by half, two sections together are
 * bounded by parallel edges again. So the pairs are slices of one kind, and one
 * pair is cut in two; an odd section at the end is cut on its own and must be
 * the first one moved along. Constant cost, whatever the number of sections. */
#include "replay/form.h"
#include "replay/state.h"

/* By how much less than the true distance between two cuts the ruler may be
 * set: the pitch is rounded up to an even number, two units and what covers the
 * leans' rounding are added. */
#define RULER_SLACK 8
/* Leans are rounded away from 0 to even numbers. */
#define LEAN_SLACK 2

/* The edge that sections are measured from, and the far end of the strip. */
typedef struct stand {
    qci_point lower;
    qc_length lean;
    qc_length room; /* from `lower` to the right end */
} stand;

static stand stand_of(const qci_polygon *cloth)
{
    qci_point lower, upper;

    qci_cloth_left(cloth, &lower, &upper);
    return (stand){lower, upper.x - lower.x,
                   qci_cloth_extent(cloth, QCI_MEASURE_ACROSS)};
}

/* The distance d of lines that are `pitch` apart along an edge from which they
 * rise by `height` on a run of `lean`: d^2 = pitch^2 height^2 / (height^2 +
 * lean^2). Compared by products of less than 126 bits. */
static bool is_within(qc_length distance, qc_length pitch, qc_length lean,
                      qc_length height)
{
    qci_wide root = (qci_wide)pitch * height;
    qci_wide slope = (qci_wide)height * height + (qci_wide)lean * lean;

    return (qci_wide)distance * distance * slope <= root * root;
}

bool qci_replay_is_spacing(qc_length spacing, qc_length pitch, qc_length lean,
                           qc_length height)
{
    qc_length steep;

    if (pitch < 1 || pitch > QC_MAX_WIDTH || spacing < 1 || spacing > pitch ||
        height > QC_LENGTH_MAX || lean < -QC_LENGTH_MAX || lean > QC_LENGTH_MAX)
        return false;
    /* A lean is up to LEAN_SLACK more than its angle gives, and the true cuts
     * are that much farther apart. */
    steep = lean < 0 ? -lean : lean;
    steep = steep > LEAN_SLACK ? steep - LEAN_SLACK : 0;
    return is_within(spacing, pitch, steep, height) &&
           !is_within(spacing + RULER_SLACK, pitch, lean, height);
}

/* A cut whose lower end lies `along` from the edge: > 0 when it lies beyond the
 * edge in some place, and nowhere on the wrong side. */
static bool is_beyond(stand from, qc_length along, qc_length lean)
{
    qc_length up = along + lean - from.lean;

    return along >= 0 && up >= 0 && along + up > 0;
}

static bool is_inside(stand from, qc_length along, qc_length lean)
{
    return along <= from.room && along + lean <= from.room;
}

/* The numbers are such that nothing overflows, and that the first cut is one.
 */
static qc_status check_first(qci_replay *replay, const qc_step *step,
                             stand from)
{
    if (step->lean < -QC_MAX_WIDTH || step->lean > QC_MAX_WIDTH)
        return qci_replay_reject(replay, step, "a lean of %lld",
                                 (long long)step->lean);
    if (step->along < 0 || step->along > from.room ||
        !is_beyond(from, step->along, step->lean))
        return qci_replay_reject(replay, step,
                                 "%s along does not lie inside a cloth of %s",
                                 qci_replay_show(replay, step->along).text,
                                 qci_replay_show(replay, from.room).text);
    return QC_STATUS_OK;
}

/* The wedge begins or ends on a corner of the edge before. */
static qc_status cut_wedge(qci_replay *replay, const qc_step *step,
                           qci_part *part, stand from)
{
    qc_length along = from.lean > step->lean ? from.lean - step->lean : 0;
    qci_ruler ruler = {QCI_MEASURE_ACROSS, along, step->lean};
    qci_polygon wedge;

    if (step->lean == from.lean)
        return qci_replay_reject(replay, step,
                                 "the edge leans as the cut already");
    if (step->distance || step->along != along)
        return qci_replay_reject(
            replay, step,
            "the wedge's cut is set %s square to it and %s along, not 0 and %s",
            qci_replay_show(replay, step->distance).text,
            qci_replay_show(replay, step->along).text,
            qci_replay_show(replay, along).text);
    if (!is_inside(from, along, step->lean) ||
        qci_cloth_slice(&part->cloth, ruler, 1, false, &wedge) !=
            QCI_SLICE_DONE)
        return qci_replay_reject(replay, step,
                                 "the wedge's cut does not end inside a cloth "
                                 "of %s",
                                 qci_replay_show(replay, from.room).text);
    return qci_replay_take(replay, step, part, &wedge, QC_TURN_NONE,
                           step->copies);
}

/* The ruler is set square to a cut that is parallel to the edge. */
static qc_status check_ruler(qci_replay *replay, const qc_step *step,
                             const qci_part *part, stand from)
{
    qc_length height = qci_cloth_extent(&part->cloth, QCI_MEASURE_UP);

    if (step->lean != from.lean)
        return step->distance
                   ? qci_replay_reject(
                         replay, step,
                         "the ruler is set to %s from an edge "
                         "that is not parallel",
                         qci_replay_show(replay, step->distance).text)
                   : QC_STATUS_OK;
    if (!qci_replay_is_spacing(step->distance, step->along, step->lean, height))
        return qci_replay_reject(
            replay, step, "the ruler is set to %s, but cuts lie %s along",
            qci_replay_show(replay, step->distance).text,
            qci_replay_show(replay, step->along).text);
    return QC_STATUS_OK;
}

/* The two kinds of sections that fall out, and whether nothing is left. */
typedef struct sections {
    qci_polygon first, second;
    bool all;
} sections;

/* Pairs of sections, the second of which is as the edge was before. */
static qci_slice cut_pairs(qci_polygon *cloth, const qc_step *step, stand from,
                           sections *out)
{
    int64_t pairs = step->repeat / 2;
    bool odd = step->repeat % 2 != 0;
    qci_ruler one = {QCI_MEASURE_ACROSS, step->along, step->lean};
    qci_ruler two = {QCI_MEASURE_ACROSS,
                     2 * step->along + step->lean - from.lean, from.lean};
    qci_polygon last;
    qci_slice done = QCI_SLICE_DONE;

    if (pairs) {
        done =
            qci_cloth_slice(cloth, two, pairs, out->all && !odd, &out->second);
        if (done == QCI_SLICE_DONE)
            done = qci_cloth_slice(&out->second, one, 1, false, &out->first);
    }
    if (done != QCI_SLICE_DONE || !odd)
        return done;
    done = qci_cloth_slice(cloth, one, 1, out->all, &last);
    if (done == QCI_SLICE_DONE && pairs &&
        !qci_polygon_is_moved(&out->first, &last, two.distance * pairs, 0))
        return QCI_SLICE_UNEQUAL;
    out->first = last;
    return done;
}

/* Where the last cut lies; with the numbers of check_first() below 2^61. */
static void find_last(const qc_step *step, stand from, qc_length *along,
                      qc_length *lean)
{
    int64_t pairs = step->repeat / 2;

    *along = step->along * step->repeat;
    *lean = step->lean;
    if (!step->alternate)
        return;
    *along += (step->lean - from.lean) * pairs;
    if (step->repeat % 2 == 0)
        *lean = from.lean;
}

static qc_status cut_all(qci_replay *replay, const qc_step *step,
                         qci_part *part, stand from, sections *out)
{
    qci_ruler ruler = {QCI_MEASURE_ACROSS, step->along, step->lean};
    qc_length along, lean;
    qci_slice done;

    find_last(step, from, &along, &lean);
    /* As long as the strip, the last section is still cut off the selvage. */
    out->all = lean == 0 && along == from.room;
    if (!is_inside(from, along, lean))
        return qci_replay_reject(
            replay, step,
            "the last of %u cuts ends %s along, beyond a cloth of %s",
            step->repeat,
            qci_replay_show(replay, lean > 0 ? along + lean : along).text,
            qci_replay_show(replay, from.room).text);
    done = step->alternate ? cut_pairs(&part->cloth, step, from, out)
                           : qci_cloth_slice(&part->cloth, ruler, step->repeat,
                                             out->all, &out->first);
    if (done == QCI_SLICE_UNEQUAL)
        return qci_replay_reject(replay, step,
                                 "the cloths that fall out are not equal");
    if (done != QCI_SLICE_DONE)
        return qci_replay_reject(replay, step,
                                 "the cuts do not run from edge to edge");
    part->gone = out->all;
    return QC_STATUS_OK;
}

/* Sections turned by half are pieces turned by half, or cloths that lie in the
 * part as the others do once they are turned back. */
static qc_status take_sections(qci_replay *replay, const qc_step *step,
                               const qci_part *part, const sections *of)
{
    int64_t seconds = step->alternate ? step->repeat / 2 : 0;
    int64_t firsts = step->repeat - seconds;
    qci_polygon back;
    qc_status status;

    if (seconds && step->part_out != QC_NONE) {
        back = qci_polygon_turned(&of->second, 2);
        if (!qci_polygon_is_same(&of->first, &back))
            return qci_replay_reject(replay, step,
                                     "the cloths that fall out are not equal");
        firsts += seconds;
        seconds = 0;
    }
    status = qci_replay_take(replay, step, part, &of->first, step->turn,
                             step->copies * firsts);
    if (status == QC_STATUS_OK && seconds)
        status = qci_replay_take(replay, step, part, &of->second,
                                 (qc_turn)(((int)step->turn + 2) % 4),
                                 step->copies * seconds);
    return status;
}

qc_status qci_replay_slanted(qci_replay *replay, const qc_step *step,
                             qci_part *part)
{
    stand from = stand_of(&part->cloth);
    sections of = {.all = false};
    qc_status status = check_first(replay, step, from);

    if (status != QC_STATUS_OK)
        return status;
    if (step->kind == QC_STEP_SLANT)
        return cut_wedge(replay, step, part, from);
    status = check_ruler(replay, step, part, from);
    if (status == QC_STATUS_OK)
        status = cut_all(replay, step, part, from, &of);
    return status == QC_STATUS_OK ? take_sections(replay, step, part, &of)
                                  : status;
}
