/* Carrying out one step.
 *
 * A step is believed in nothing. First its form is checked: which kind of cut
 * suits which part, that the part is there and not used up, that all its copies
 * are meant. Then the cloth is cut, and what falls out is looked at (fall.c): a
 * piece must have exactly the form of its type as it lies; a part gets the next
 * free number. Last come the sums that the step claims; only then are its
 * numbers multiplied, since by then all the cloths are known to be real ones,
 * so that no product exceeds the area of the bolt. Parts are never turned in
 * the hand: a polygon's axes stay those of the fabric, and a turn is only a
 * matter of what the piece type calls across and along. */
#include "replay/state.h"

/* What each kind of step may do. */
typedef struct kind {
    const char *name;
    qci_measure measure;
    qci_rank on; /* what it is done to; keeping: to anything */
    bool scraps; /* one cut, and what falls off is thrown away */
    bool slants; /* the cut may lean */
    bool shapes; /* the ruler is set to each side of an outline */
    /* The far edge of the cloth, where it is not a cut one: the last slice is
     * cut off even where it ends there, and can never be what is left. */
    const char *raw_edge;
} kind;

static const kind kinds[] = {
    [QC_STEP_SQUARE_UP] = {.name = "squaring up",
                           .measure = QCI_MEASURE_UP,
                           .on = QCI_RANK_BOLT,
                           .scraps = true},
    [QC_STEP_STRIP] = {.name = "cutting strips",
                       .measure = QCI_MEASURE_UP,
                       .on = QCI_RANK_BOLT,
                       .raw_edge = "the bolt's raw end"},
    [QC_STEP_SQUARE_END] = {.name = "squaring an end",
                            .measure = QCI_MEASURE_ACROSS,
                            .on = QCI_RANK_STRIP,
                            .scraps = true},
    [QC_STEP_SUBCUT] = {.name = "subcutting",
                        .measure = QCI_MEASURE_ACROSS,
                        .on = QCI_RANK_STRIP,
                        .slants = true,
                        .raw_edge = "the right selvage"},
    [QC_STEP_SPLIT] = {.name = "splitting",
                       .measure = QCI_MEASURE_UP,
                       .on = QCI_RANK_SECTION},
    [QC_STEP_TRIM] = {.name = "trimming",
                      .measure = QCI_MEASURE_ACROSS,
                      .on = QCI_RANK_SECTION},
    [QC_STEP_KEEP] = {.name = "keeping", .measure = QCI_MEASURE_ACROSS},
    [QC_STEP_SLANT] = {.name = "cutting a wedge",
                       .measure = QCI_MEASURE_ACROSS,
                       .on = QCI_RANK_STRIP,
                       .slants = true,
                       .scraps = true},
    [QC_STEP_OUTLINE] = {.name = "trimming to an outline",
                         .measure = QCI_MEASURE_ACROSS,
                         .on = QCI_RANK_SECTION,
                         .shapes = true},
};
#define KIND_COUNT ((int)(sizeof kinds / sizeof kinds[0]))

/* The part that the step is done to; NULL, and the plan rejected, when it is
 * not at hand in as many copies. */
static qci_part *find_part(qci_replay *replay, const qc_step *step)
{
    bool some = step->kind == QC_STEP_KEEP;
    qci_part *part;

    if (step->part_in >= replay->parts.count) {
        qci_replay_reject(replay, step, "there is no part %u", step->part_in);
        return NULL;
    }
    part = &replay->parts.at[step->part_in];
    if (part->gone) {
        qci_replay_reject(replay, step, "part %u is used up", step->part_in);
        return NULL;
    }
    if (step->copies < 1 || step->copies > part->copies ||
        (!some && step->copies < part->copies)) {
        qci_replay_reject(
            replay, step, "is done to %lld cloths, but part %u is %lld",
            (long long)step->copies, step->part_in, (long long)part->copies);
        return NULL;
    }
    return part;
}

/* A step of this kind may let the piece or part it names fall out. */
static qc_status check_outcome(qci_replay *replay, const qc_step *step)
{
    const kind *does = &kinds[step->kind];
    bool to_part = step->part_out != QC_NONE;
    bool to_piece = step->piece != QC_NONE;

    if (does->scraps || step->kind == QC_STEP_KEEP)
        return to_part || to_piece || step->rest_is_piece
                   ? qci_replay_reject(replay, step,
                                       "%s yields no part or piece", does->name)
                   : QC_STATUS_OK;
    if (to_part == to_piece)
        return qci_replay_reject(replay, step, "%s yields %s", does->name,
                                 to_part ? "a part and a piece at once"
                                         : "neither a part nor a piece");
    if (to_part && step->part_out != replay->parts.count)
        return qci_replay_reject(replay, step,
                                 "the new part is numbered %u instead of %zu",
                                 step->part_out, replay->parts.count);
    if (step->rest_is_piece && does->raw_edge)
        return qci_replay_reject(replay, step, "%s would not be cut off",
                                 does->raw_edge);
    return to_piece ? qci_replay_piece(replay, step) : QC_STATUS_OK;
}

/* A ruler at 0 takes a selvage off, which lies outside the cloth; that of a
 * slanted cut is looked at where it is cut. */
static qc_status check_ruler(qci_replay *replay, const qc_step *step)
{
    const kind *does = &kinds[step->kind];
    bool nothing =
        step->kind == QC_STEP_SQUARE_END || does->slants || does->shapes;

    if (step->distance < 0 || (step->distance == 0 && !nothing))
        return qci_replay_reject(replay, step, "the ruler is set to %lld",
                                 (long long)step->distance);
    if (qci_replay_slices(step) < 1 || (does->scraps && step->repeat != 1))
        return qci_replay_reject(replay, step, "%s with %u cuts", does->name,
                                 step->repeat);
    return QC_STATUS_OK;
}

/* What belongs to other kinds of steps is not said of this one. */
static qc_status check_rest(qci_replay *replay, const qc_step *step)
{
    const kind *does = &kinds[step->kind];

    if (!does->slants && (step->lean || step->along))
        return qci_replay_reject(replay, step, "%s does not slant", does->name);
    if (step->alternate && step->kind != QC_STEP_SUBCUT)
        return qci_replay_reject(replay, step, "%s turns nothing by half",
                                 does->name);
    if (step->piece == QC_NONE && step->turn != QC_TURN_NONE)
        return qci_replay_reject(replay, step, "turns no piece");
    if (step->piece == QC_NONE && (step->base || step->mirrored))
        return qci_replay_reject(replay, step, "lays no piece down");
    return QC_STATUS_OK;
}

/* The bolt is squared up once, first of all, by as much as the plan says. */
static qc_status check_square_up(qci_replay *replay, const qc_step *step)
{
    bool first = !replay->begun && replay->info->square_up > 0;

    if ((step->kind == QC_STEP_SQUARE_UP) != first)
        return qci_replay_reject(replay, step,
                                 first ? "the bolt is not squared up first"
                                       : "the bolt is squared up again");
    if (first && step->distance != replay->info->square_up)
        return qci_replay_reject(
            replay, step, "squares up by %s, the plan by %s",
            qci_replay_show(replay, step->distance).text,
            qci_replay_show(replay, replay->info->square_up).text);
    return QC_STATUS_OK;
}

/* A strip's left end is squared once, before anything else is cut off it; with
 * that strips are paired, and what is cut of them stays so. */
static qc_status check_left_end(qci_replay *replay, const qc_step *step,
                                qci_part *part)
{
    bool ends = step->kind == QC_STEP_SQUARE_END;

    if (ends && part->squared)
        return qci_replay_reject(replay, step, "the left end is cut already");
    if (kinds[step->kind].slants && !part->squared)
        return qci_replay_reject(replay, step, "the left end is not squared");
    if (ends) {
        part->squared = true;
        part->paired = step->paired;
    }
    if (step->paired != part->paired)
        return qci_replay_reject(replay, step, "the cloths %s in pairs",
                                 part->paired ? "lie" : "do not lie");
    if (part->paired && step->copies % 2)
        return qci_replay_reject(replay, step, "%lld cloths are no pairs",
                                 (long long)step->copies);
    return QC_STATUS_OK;
}

static qc_status check_form(qci_replay *replay, const qc_step *step,
                            qci_part *part)
{
    static const char *const ranks[] = {[QCI_RANK_BOLT] = "the bolt",
                                        [QCI_RANK_STRIP] = "a strip",
                                        [QCI_RANK_SECTION] = "a section"};
    const kind *does = &kinds[step->kind];
    qc_status status = check_square_up(replay, step);

    if (status != QC_STATUS_OK)
        return status;
    if (step->kind != QC_STEP_KEEP && does->on != part->rank)
        return qci_replay_reject(replay, step, "%s is not for %s", does->name,
                                 ranks[part->rank]);
    status = check_rest(replay, step);
    if (status == QC_STATUS_OK)
        status = check_outcome(replay, step);
    if (status == QC_STATUS_OK && step->kind != QC_STEP_KEEP)
        status = check_ruler(replay, step);
    return status == QC_STATUS_OK ? check_left_end(replay, step, part) : status;
}

static qc_status explain_slice(qci_replay *replay, const qc_step *step,
                               qci_slice slice, qc_length extent)
{
    switch (slice) {
    case QCI_SLICE_BEYOND:
        return qci_replay_reject(replay, step, "%lld x %s %s a cloth of %s",
                                 (long long)qci_replay_slices(step),
                                 qci_replay_show(replay, step->distance).text,
                                 step->rest_is_piece ? "is not the whole of"
                                                     : "does not lie inside",
                                 qci_replay_show(replay, extent).text);
    case QCI_SLICE_UNEQUAL:
        return qci_replay_reject(replay, step,
                                 "the cloths that fall out are not equal");
    default:
        return qci_replay_reject(replay, step,
                                 "a corner is not a whole length");
    }
}

/* Cuts that are parallel to the cloth's edges. */
static qc_status cut_square(qci_replay *replay, const qc_step *step,
                            qci_part *part)
{
    int64_t slices = qci_replay_slices(step);
    qci_ruler ruler = {kinds[step->kind].measure, step->distance, 0};
    qc_length extent = qci_cloth_extent(&part->cloth, ruler.measure);
    bool to_the_edge = kinds[step->kind].raw_edge && extent % slices == 0 &&
                       extent / slices == step->distance;
    qci_polygon freed;
    qci_slice slice;

    part->gone = step->rest_is_piece || to_the_edge;
    slice = qci_cloth_slice(&part->cloth, ruler, slices, part->gone, &freed);
    if (slice != QCI_SLICE_DONE)
        return explain_slice(replay, step, slice, extent);
    if (step->part_in == 0)
        replay->taken += step->distance * slices;
    return qci_replay_take(replay, step, part, &freed, step->turn,
                           step->copies * slices);
}

static qc_status do_cut(qci_replay *replay, const qc_step *step, qci_part *part)
{
    qci_point lower, upper;

    qci_cloth_left(&part->cloth, &lower, &upper);
    if (kinds[step->kind].shapes)
        return qci_replay_outline(replay, step, part);
    if (step->kind == QC_STEP_SLANT || step->lean || step->alternate ||
        (step->kind == QC_STEP_SUBCUT && lower.x != upper.x))
        return qci_replay_slanted(replay, step, part);
    if (step->kind == QC_STEP_SUBCUT && step->distance < 1)
        return qci_replay_reject(replay, step, "the ruler is set to 0");
    if (step->kind == QC_STEP_SUBCUT && step->along != step->distance)
        return qci_replay_reject(replay, step,
                                 "%s along is not %s square to the cut",
                                 qci_replay_show(replay, step->along).text,
                                 qci_replay_show(replay, step->distance).text);
    /* A ruler at 0 takes the selvage off, which lies outside the cloth. */
    return step->distance ? cut_square(replay, step, part) : QC_STATUS_OK;
}

/* How many piles the part is cut in, and so how many cuts there are. */
static qc_status check_layers(qci_replay *replay, const qc_step *step,
                              qci_part *part)
{
    int64_t most = replay->plan->layers;

    if (step->part_in == 0) {
        /* Folded selvage to selvage, or laid out flat. */
        most = most < 2 ? most : 2;
        part->piles = 1;
        part->layers = step->layers;
    } else if (!part->piles && step->layers) {
        part->layers = step->layers;
        part->piles = (part->copies - 1) / step->layers + 1;
        most = most < part->copies ? most : part->copies;
    }
    if (step->layers < 1 || step->layers > most)
        return qci_replay_reject(replay, step, "%u layers, allowed 1 to %lld",
                                 step->layers, (long long)most);
    if (step->layers != part->layers)
        return qci_replay_reject(replay, step, "%u layers, the piles have %u",
                                 step->layers, part->layers);
    if (part->paired && step->layers % 2)
        return qci_replay_reject(replay, step, "%u layers are no pairs",
                                 step->layers);
    return QC_STATUS_OK;
}

qc_status qci_replay_piles(qci_replay *replay, const qc_step *step,
                           int64_t *piles)
{
    int64_t most = replay->plan->layers > 1 ? replay->plan->layers : 1;

    if (most > step->copies)
        most = step->copies;
    if (step->layers < 1 || step->layers > most)
        return qci_replay_reject(replay, step, "%u layers, allowed 1 to %lld",
                                 step->layers, (long long)most);
    *piles = (step->copies - 1) / step->layers + 1;
    return QC_STATUS_OK;
}

qc_status qci_replay_sums(qci_replay *replay, const qc_step *step, int64_t cuts,
                          int64_t yield, int64_t total)
{
    if (replay->width)
        return QC_STATUS_OK;
    if (step->cuts != cuts)
        return qci_replay_reject(replay, step, "makes %lld cuts, not %lld",
                                 (long long)cuts, (long long)step->cuts);
    if (step->yield != yield)
        return qci_replay_reject(replay, step, "yields %lld, not %lld",
                                 (long long)yield, (long long)step->yield);
    if (step->total != total)
        return qci_replay_reject(replay, step, "makes the total %lld, not %lld",
                                 (long long)total, (long long)step->total);
    replay->cuts += cuts;
    return QC_STATUS_OK;
}

/* The sums that a cut claims, of numbers known to be true. */
static qc_status check_sums(qci_replay *replay, const qc_step *step,
                            const qci_part *part)
{
    int64_t each = kinds[step->kind].shapes ? 1 : qci_replay_slices(step);
    bool frees = step->piece != QC_NONE || step->part_out != QC_NONE;

    return qci_replay_sums(replay, step, step->repeat * part->piles,
                           frees ? step->copies * each : 0,
                           step->piece != QC_NONE ? replay->total : 0);
}

static qc_status do_step(qci_replay *replay, const qc_step *step)
{
    qci_part *part;
    size_t index;
    qc_status status;

    if ((int)step->kind < 0 || (int)step->kind >= KIND_COUNT ||
        !kinds[step->kind].name)
        return qci_replay_reject(replay, step, "there is no step of kind %d",
                                 (int)step->kind);
    part = find_part(replay, step);
    if (!part)
        return QC_STATUS_REJECTED;
    index = step->part_in;
    status = check_form(replay, step, part);
    if (status != QC_STATUS_OK)
        return status;
    replay->begun = true;
    if (step->kind == QC_STEP_KEEP)
        return qci_replay_keep(replay, step, part);
    status = check_layers(replay, step, part);
    if (status == QC_STATUS_OK)
        status = do_cut(replay, step, part);
    /* The list of parts may have grown, and moved. */
    return status == QC_STATUS_OK
               ? check_sums(replay, step, &replay->parts.at[index])
               : status;
}

/* Steps that are done to no part. */
static bool has_no_part(const qc_step *step)
{
    return step->kind == QC_STEP_DIAGONAL || step->kind == QC_STEP_TRIM_BACK;
}

qc_status qci_replay_step(qci_replay *replay, const qc_step *step)
{
    if (replay->put_down && step->kind != QC_STEP_TRIM_BACK)
        return qci_replay_reject(replay, step,
                                 "comes after something is trimmed back");
    if (replay->width && step->kind == QC_STEP_KEEP)
        return QC_STATUS_OK;
    if (!has_no_part(step))
        return do_step(replay, step);
    if (step->lean || step->along || step->alternate || step->base ||
        step->mirrored || step->paired)
        return qci_replay_reject(replay, step, "neither slants nor lies");
    return step->kind == QC_STEP_DIAGONAL ? qci_replay_diagonal(replay, step)
                                          : qci_replay_trim_back(replay, step);
}
