/* Carrying out one step.
 *
 * A step is believed in nothing. First its form is checked: which kind of cut
 * suits which part, that the part is there and not used up, that all its copies
 * are meant. Then the cloth is cut, and what falls out is looked at: a piece
 * must have exactly the size of its type as it lies; a part gets the next free
 * number. Last come the sums that the step claims; only then are its numbers
 * multiplied, since by then all the cloths are known to be real ones, so that
 * no product exceeds the area of the bolt. Parts are never turned in the hand:
 * a polygon's axes stay those of the fabric, and a turn is only a matter of
 * what the piece type calls across and along. */
#include "base/error.h"
#include "replay/state.h"

/* What each kind of step may do. */
typedef struct kind {
    const char *name;
    qci_measure measure;
    qci_rank on; /* what it is done to; keeping: to anything */
    bool scraps; /* one cut, and what falls off is thrown away */
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
                        .raw_edge = "the right selvage"},
    [QC_STEP_SPLIT] = {.name = "splitting",
                       .measure = QCI_MEASURE_UP,
                       .on = QCI_RANK_SECTION},
    [QC_STEP_TRIM] = {.name = "trimming",
                      .measure = QCI_MEASURE_ACROSS,
                      .on = QCI_RANK_SECTION},
    [QC_STEP_KEEP] = {.name = "keeping", .measure = QCI_MEASURE_ACROSS},
};
#define KIND_COUNT ((int)(sizeof kinds / sizeof kinds[0]))

/* Slices that fall off one cloth. */
static int64_t slices(const qc_step *step)
{
    return (int64_t)step->repeat + (step->rest_is_piece ? 1 : 0);
}

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
    const qc_plan *plan = replay->plan;
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
    if (to_piece && step->piece >= plan->piece_count)
        return qci_replay_reject(replay, step, "there is no piece %u",
                                 step->piece);
    if (to_piece && plan->pieces[step->piece].fabric != replay->fabric)
        return qci_replay_reject(
            replay, step, "piece %u belongs to another fabric", step->piece);
    if (step->rest_is_piece && does->raw_edge)
        return qci_replay_reject(replay, step, "%s would not be cut off",
                                 does->raw_edge);
    return QC_STATUS_OK;
}

static qc_status check_ruler(qci_replay *replay, const qc_step *step)
{
    const kind *does = &kinds[step->kind];
    bool selvage = step->kind == QC_STEP_SQUARE_END && step->distance == 0;

    if (step->distance <= 0 && !selvage)
        return qci_replay_reject(replay, step, "the ruler is set to %lld",
                                 (long long)step->distance);
    if (slices(step) < 1 || (does->scraps && step->repeat != 1))
        return qci_replay_reject(replay, step, "%s with %u cuts", does->name,
                                 step->repeat);
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

/* A strip's left end is squared once, before anything else is cut off it. */
static qc_status check_left_end(qci_replay *replay, const qc_step *step,
                                qci_part *part)
{
    if (step->kind == QC_STEP_SQUARE_END && part->squared)
        return qci_replay_reject(replay, step, "the left end is cut already");
    if (step->kind == QC_STEP_SUBCUT && !part->squared)
        return qci_replay_reject(replay, step, "the left end is not squared");
    if (step->kind == QC_STEP_SQUARE_END)
        part->squared = true;
    return QC_STATUS_OK;
}

static qc_status check_form(qci_replay *replay, const qc_step *step,
                            const qci_part *part)
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
    if (step->piece == QC_NONE && step->turn != QC_TURN_NONE)
        return qci_replay_reject(replay, step, "turns no piece");
    status = check_outcome(replay, step);
    if (status == QC_STATUS_OK && step->kind != QC_STEP_KEEP)
        status = check_ruler(replay, step);
    return status;
}

static bool turn_allowed(qc_print print, qc_turn turn)
{
    switch (turn) {
    case QC_TURN_NONE:
        return true;
    case QC_TURN_HALF:
        return print != QC_PRINT_ONE_WAY;
    case QC_TURN_QUARTER:
        return print == QC_PRINT_PLAIN || print == QC_PRINT_REVERSIBLE;
    case QC_TURN_THREE_QUARTERS:
        break;
    }
    return false;
}

static qc_status take_pieces(qci_replay *replay, const qc_step *step,
                             const qci_polygon *freed)
{
    const qc_plan_piece *piece = &replay->plan->pieces[step->piece];
    bool quarter = step->turn == QC_TURN_QUARTER;
    qc_length width = piece->cut[quarter ? 1 : 0];
    qc_length height = piece->cut[quarter ? 0 : 1];
    int64_t count = step->copies * slices(step);
    qci_squares *squares = &replay->squares[step->piece];

    if (!turn_allowed(replay->info->print, step->turn))
        return qci_replay_reject(replay, step,
                                 "the print forbids turn %d of piece %u",
                                 (int)step->turn, step->piece);
    if (!qci_cloth_is_rectangle(freed, width, height))
        return qci_replay_reject(
            replay, step, "a cloth of %s x %s falls out, piece %u is %s x %s",
            qci_replay_show(replay, qci_cloth_extent(freed, QCI_MEASURE_ACROSS))
                .text,
            qci_replay_show(replay, qci_cloth_extent(freed, QCI_MEASURE_UP))
                .text,
            step->piece, qci_replay_show(replay, width).text,
            qci_replay_show(replay, height).text);
    if (qci_replay_triangles(piece->shape)) {
        squares->cloth = *freed;
        squares->waiting += count;
        squares->fallen += count;
        return QC_STATUS_OK;
    }
    replay->fallen[step->piece] += count;
    replay->piece_area += qci_polygon_doubled_area(freed) * count;
    return QC_STATUS_OK;
}

/* Sorts what fell out to where the step sends it. What is cut from a pile stays
 * a pile. */
static qc_status take_freed(qci_replay *replay, const qc_step *step,
                            const qci_part *from, const qci_polygon *freed)
{
    qci_part part = {.rank = from->rank == QCI_RANK_BOLT ? QCI_RANK_STRIP
                                                         : QCI_RANK_SECTION,
                     .cloth = *freed,
                     .copies = step->copies * slices(step)};

    if (step->piece != QC_NONE)
        return take_pieces(replay, step, freed);
    if (step->part_out == QC_NONE) {
        replay->scrap_area += qci_polygon_doubled_area(freed) * part.copies;
        return QC_STATUS_OK;
    }
    if (from->rank != QCI_RANK_BOLT) {
        part.piles = from->piles * slices(step);
        part.layers = from->layers;
    }
    if (!qci_vec_push(&replay->parts, part))
        return qci_no_memory(replay->err);
    return QC_STATUS_OK;
}

static qc_status explain_slice(qci_replay *replay, const qc_step *step,
                               qci_slice slice, qc_length extent)
{
    switch (slice) {
    case QCI_SLICE_BEYOND:
        return qci_replay_reject(
            replay, step, "%lld x %s %s a cloth of %s", (long long)slices(step),
            qci_replay_show(replay, step->distance).text,
            step->rest_is_piece ? "is not the whole of" : "does not lie inside",
            qci_replay_show(replay, extent).text);
    case QCI_SLICE_UNEQUAL:
        return qci_replay_reject(replay, step,
                                 "the cloths that fall out are not equal");
    default:
        return qci_replay_reject(replay, step,
                                 "a corner is not a whole length");
    }
}

static qc_status do_cut(qci_replay *replay, const qc_step *step, qci_part *part)
{
    qci_measure measure = kinds[step->kind].measure;
    qc_length extent = qci_cloth_extent(&part->cloth, measure);
    bool to_the_edge = kinds[step->kind].raw_edge &&
                       extent % slices(step) == 0 &&
                       extent / slices(step) == step->distance;
    qci_polygon freed;
    qci_slice slice;

    part->gone = step->rest_is_piece || to_the_edge;
    slice = qci_cloth_slice(&part->cloth, measure, step->distance, slices(step),
                            part->gone, &freed);
    if (slice != QCI_SLICE_DONE)
        return explain_slice(replay, step, slice, extent);
    if (step->part_in == 0)
        replay->taken += step->distance * slices(step);
    return take_freed(replay, step, part, &freed);
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
    return QC_STATUS_OK;
}

/* What is put away must be among the leftovers that the plan names. */
static qc_status do_keep(qci_replay *replay, const qc_step *step,
                         qci_part *part)
{
    const qci_plan_fabric *fabric = &replay->plan->fabrics[replay->fabric];
    qc_length left = qci_cloth_extent(
        &part->cloth, step->part_in ? QCI_MEASURE_ACROSS : QCI_MEASURE_UP);
    int64_t open = step->copies;

    if (step->distance != left)
        return qci_replay_reject(replay, step, "keeps %s, but %s is left",
                                 qci_replay_show(replay, step->distance).text,
                                 qci_replay_show(replay, left).text);
    if (step->layers != 1 || step->repeat != 0)
        return qci_replay_reject(replay, step, "keeping is not a cut");
    for (size_t i = 0; i < fabric->info.leftover_count && open; i++) {
        const qc_leftover *named = &fabric->leftovers[i];
        int64_t taken = replay->to_keep[i] < open ? replay->to_keep[i] : open;

        if (!qci_cloth_is_rectangle(&part->cloth, named->width, named->length))
            continue;
        replay->to_keep[i] -= taken;
        open -= taken;
    }
    if (open)
        return qci_replay_reject(
            replay, step, "%lld cloths kept are not leftovers of the plan",
            (long long)open);
    replay->kept_area += qci_polygon_doubled_area(&part->cloth) * step->copies;
    part->copies -= step->copies;
    part->gone = part->copies == 0;
    return QC_STATUS_OK;
}

/* The sums that the step claims, of numbers known to be true. */
static qc_status check_sums(qci_replay *replay, const qc_step *step,
                            int64_t piles)
{
    bool keeps = step->kind == QC_STEP_KEEP;
    bool frees = step->piece != QC_NONE || step->part_out != QC_NONE;
    int64_t cuts = keeps ? 0 : step->repeat * piles;
    int64_t yield = keeps ? step->copies : 0;
    int64_t total = 0;

    if (step->piece != QC_NONE)
        total = qci_replay_triangles(replay->plan->pieces[step->piece].shape)
                    ? replay->squares[step->piece].fallen
                    : replay->fallen[step->piece];
    if (frees)
        yield = step->copies * slices(step);
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

qc_status qci_replay_step(qci_replay *replay, const qc_step *step)
{
    qci_part *part;
    int64_t piles = 0;
    qc_status status;

    if (step->kind == QC_STEP_DIAGONAL)
        return qci_replay_diagonal(replay, step);
    if ((int)step->kind < 0 || (int)step->kind >= KIND_COUNT)
        return qci_replay_reject(replay, step, "there is no step of kind %d",
                                 (int)step->kind);
    part = find_part(replay, step);
    if (!part)
        return QC_STATUS_REJECTED;
    status = check_form(replay, step, part);
    if (status == QC_STATUS_OK)
        status = check_left_end(replay, step, part);
    if (status != QC_STATUS_OK)
        return status;
    if (step->kind == QC_STEP_KEEP) {
        status = do_keep(replay, step, part);
    } else {
        status = check_layers(replay, step, part);
        piles = part->piles;
        /* A ruler at 0 takes the selvage off, which lies outside the cloth. */
        if (status == QC_STATUS_OK && step->distance > 0)
            status = do_cut(replay, step, part);
    }
    replay->begun = true;
    return status == QC_STATUS_OK ? check_sums(replay, step, piles) : status;
}
