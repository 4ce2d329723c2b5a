/* From strips to steps.
 *
 * The work goes fabric by fabric: square up the bolt, cut all strips, then take
 * one strip entry after the other, square its ends, cut its sections, and cut
 * and trim the stacks of those; then cut the squares of triangles corner to
 * corner, each kind in one go; at the end put the leftovers away. An entry's
 * cloths are piled once and stay piled, so the piles of a part follow from
 * those of the part it was cut from, and so do the cuts.
 *
 * One step stands for all equal cuts. There are at most four steps to a run of
 * pieces in the plan, whatever the counts are; nothing here takes time or
 * memory by the number of pieces. Counts stay within 64 bits, since no more
 * pieces fall out than were asked for.
 */
#include "order/order.h"

#include "base/error.h"
#include "base/vec.h"
#include "order/words.h"
#include "shape/shape.h"

typedef struct bench {
    qc_plan *plan;
    QCI_VEC(qc_step) steps;
    int64_t *totals; /* per piece: fallen out so far; of a triangle its squares,
                        and after the diagonal cuts the triangles */
    int64_t *cuts;   /* per fabric */
    uint32_t fabric;
    uint32_t next_part;
} bench;

/* Equal cloths and the piles they lie in. */
typedef struct lot {
    uint32_t part;
    int64_t copies;
    int64_t piles;
    uint32_t layers;
} lot;

static const qci_plan_fabric *current(const bench *b)
{
    return &b->plan->fabrics[b->fabric];
}

/* A step on every cloth of a lot, that frees nothing yet. */
static qc_step step_on(const bench *b, qc_step_kind kind, lot on)
{
    return (qc_step){.fabric = b->fabric,
                     .kind = kind,
                     .part_in = on.part,
                     .part_out = QC_NONE,
                     .piece = QC_NONE,
                     .copies = on.copies,
                     .layers = on.layers,
                     .set = QC_NONE};
}

/* What the ruler is still set to after the fabric's last step; 0 when that did
 * not need it. */
static qc_length ruler_after(const qc_step *last)
{
    return last->repeat == 0 || last->kind == QC_STEP_SQUARE_UP
               ? 0
               : last->distance;
}

/* Completes a step by what follows from the rest of it, and takes it up. */
static bool take_up(bench *b, qc_step step, int64_t piles, qci_origin origin)
{
    const qc_step *last =
        b->steps.count ? &b->steps.at[b->steps.count - 1] : NULL;
    bool frees = step.part_out != QC_NONE || step.piece != QC_NONE;

    origin.plan = b->plan;
    origin.first = !last || last->fabric != b->fabric;
    origin.ruler = origin.first ? 0 : ruler_after(last);
    step.number = (uint32_t)b->steps.count + 1;
    step.cuts = step.repeat * piles;
    if (frees)
        step.yield = step.copies * (step.repeat + (step.rest_is_piece ? 1 : 0));
    if (step.kind == QC_STEP_DIAGONAL)
        step.total = step.yield = step.copies * step.repeat * 2;
    else if (step.piece != QC_NONE)
        step.total = b->totals[step.piece] + step.yield;
    if (!qci_step_word(&step, &origin))
        return false;
    if (!qci_vec_push(&b->steps, step)) {
        qci_free((void *)step.source);
        qci_free((void *)step.text);
        return false;
    }
    b->cuts[b->fabric] += step.cuts;
    if (step.piece != QC_NONE)
        b->totals[step.piece] = step.total;
    return true;
}

/* Where `freed` of each cloth become cloths to be cut on: a lot of them. */
static lot lot_of(bench *b, lot from, uint32_t freed)
{
    return (lot){.part = b->next_part++,
                 .copies = from.copies * freed,
                 .piles = from.piles * freed,
                 .layers = from.layers};
}

static lot strip_lot(const bench *b, size_t index)
{
    int64_t copies = current(b)->strips[index].repeat;
    int64_t most = b->plan->layers > 1 ? b->plan->layers : 1;
    int64_t layers = copies < most ? copies : most;

    return (lot){.part = (uint32_t)index + 1,
                 .copies = copies,
                 .piles = (copies + layers - 1) / layers,
                 .layers = (uint32_t)layers};
}

static bool cut_bolt(bench *b)
{
    const qci_plan_fabric *fabric = current(b);
    lot bolt = {.part = 0,
                .copies = 1,
                .piles = 1,
                .layers = b->plan->layers > 1 ? 2 : 1};
    qc_step step;

    if (fabric->info.strip_count == 0)
        return true;
    if (fabric->info.square_up > 0) {
        step = step_on(b, QC_STEP_SQUARE_UP, bolt);
        step.distance = fabric->info.square_up;
        step.repeat = 1;
        if (!take_up(b, step, bolt.piles, (qci_origin){0}))
            return false;
    }
    for (size_t i = 0; i < fabric->info.strip_count; i++) {
        step = step_on(b, QC_STEP_STRIP, bolt);
        step.part_out = strip_lot(b, i).part;
        step.distance = fabric->strips[i].height;
        step.repeat = fabric->strips[i].repeat;
        if (!take_up(b, step, bolt.piles, (qci_origin){.strip = i}))
            return false;
    }
    return true;
}

static bool trim_slices(bench *b, lot slices, const qc_stack *run,
                        qci_origin origin)
{
    qc_step step = step_on(b, QC_STEP_TRIM, slices);

    step.piece = run->piece;
    step.turn = run->turn;
    step.distance = run->width;
    step.repeat = 1;
    return take_up(b, step, slices.piles, origin);
}

/* Cuts one run of a section's stack; with `fills` it ends at the section's
 * upper edge. */
static bool split_run(bench *b, lot sections, const qc_stack *run, bool fills,
                      bool too_wide, qci_origin origin)
{
    qc_step step = step_on(b, QC_STEP_SPLIT, sections);
    lot slices = {0};

    step.distance = run->height;
    step.repeat = run->count - (fills ? 1 : 0);
    step.rest_is_piece = fills;
    if (too_wide) {
        slices = lot_of(b, sections, run->count);
        step.part_out = slices.part;
    } else {
        step.piece = run->piece;
        step.turn = run->turn;
    }
    return take_up(b, step, sections.piles, origin) &&
           (!too_wide || trim_slices(b, slices, run, origin));
}

static bool cut_stacks(bench *b, lot sections, qci_origin origin)
{
    const qc_strip *strip = &current(b)->strips[origin.strip];
    const qc_subcut *subcut = &strip->subcuts[origin.subcut];
    qc_length top = 0;

    for (size_t i = 0; i < subcut->stack_count; i++) {
        const qc_stack *run = &subcut->stacks[i];

        top += run->count * run->height;
        origin.stack = i;
        if (!split_run(b, sections, run,
                       i + 1 == subcut->stack_count && top == strip->height,
                       run->width < subcut->width, origin))
            return false;
        origin.slice += run->width < subcut->width;
    }
    return true;
}

/* One piece as high as its strip needs no cut but the section's own. */
static bool is_whole(const qc_strip *strip, const qc_subcut *subcut)
{
    return subcut->stack_count == 1 && subcut->stacks[0].count == 1 &&
           subcut->stacks[0].height == strip->height;
}

/* Cuts one subcut's sections off the strips; those that hold stacks go to
 * `sections`. One that ends at the usable width is cut off too: it still hangs
 * on the selvage. */
static bool cut_sections(bench *b, lot strips, qci_origin origin, lot *sections)
{
    const qc_strip *strip = &current(b)->strips[origin.strip];
    const qc_subcut *subcut = &strip->subcuts[origin.subcut];
    qc_step step = step_on(b, QC_STEP_SUBCUT, strips);

    step.distance = subcut->width;
    step.repeat = subcut->count;
    if (is_whole(strip, subcut)) {
        step.piece = subcut->stacks[0].piece;
        step.turn = subcut->stacks[0].turn;
    } else {
        *sections = lot_of(b, strips, subcut->count);
        step.part_out = sections->part;
    }
    return take_up(b, step, strips.piles, origin);
}

static bool cut_strip(bench *b, size_t index)
{
    const qc_strip *strip = &current(b)->strips[index];
    lot strips = strip_lot(b, index);
    qci_origin origin = {.strip = index};
    qc_step step = step_on(b, QC_STEP_SQUARE_END, strips);
    lot *sections = qci_calloc(strip->subcut_count, sizeof *sections);
    bool ok = false;

    if (!sections)
        return false;
    step.repeat = 1;
    if (!take_up(b, step, strips.piles, origin))
        goto done;
    for (size_t i = 0; i < strip->subcut_count; i++) {
        origin.subcut = i;
        if (!cut_sections(b, strips, origin, &sections[i]))
            goto done;
        origin.section += sections[i].part != 0;
    }
    origin.section = 0;
    for (size_t i = 0; i < strip->subcut_count; i++) {
        origin.subcut = i;
        if (sections[i].part == 0)
            continue;
        if (!cut_stacks(b, sections[i], origin))
            goto done;
        origin.section++;
    }
    ok = true;
done:
    qci_free(sections);
    return ok;
}

/* Cuts all squares of a triangle, which may come from any strips, corner to
 * corner. */
static bool cut_triangles(bench *b, uint32_t piece)
{
    int64_t squares = b->totals[piece];
    int64_t most = b->plan->layers > 1 ? b->plan->layers : 1;
    int64_t layers = squares < most ? squares : most;
    lot pile = {.part = QC_NONE, .copies = squares, .layers = (uint32_t)layers};
    qc_step step = step_on(b, QC_STEP_DIAGONAL, pile);

    if (squares == 0)
        return true;
    step.piece = piece;
    step.repeat = (uint32_t)qci_shape_yields(b->plan->pieces[piece].shape) / 2;
    return take_up(b, step, (squares + layers - 1) / layers, (qci_origin){0});
}

static bool keep_leftover(bench *b, size_t index)
{
    const qc_leftover *left = &current(b)->leftovers[index];
    bool of_bolt = left->strip == UINT32_MAX;
    lot kept = {.part = of_bolt ? 0 : left->strip + 1,
                .copies = left->count,
                .layers = 1};
    qc_step step = step_on(b, QC_STEP_KEEP, kept);

    step.distance = of_bolt ? left->length : left->width;
    step.yield = left->count;
    return take_up(b, step, 0, (qci_origin){.leftover = index});
}

static bool cut_fabric(bench *b)
{
    const qc_plan_fabric *info = &current(b)->info;

    b->next_part = (uint32_t)info->strip_count + 1;
    if (!cut_bolt(b))
        return false;
    for (size_t i = 0; i < info->strip_count; i++) {
        if (!cut_strip(b, i))
            return false;
    }
    for (uint32_t i = 0; i < b->plan->piece_count; i++) {
        const qc_plan_piece *piece = &b->plan->pieces[i];

        if (piece->fabric == b->fabric && qci_shape_yields(piece->shape) > 1 &&
            !cut_triangles(b, i))
            return false;
    }
    for (size_t i = 0; i < info->leftover_count; i++) {
        if (!keep_leftover(b, i))
            return false;
    }
    return true;
}

/* The steps become the plan's, together with the cuts they add up to. */
static void publish(bench *b)
{
    qci_plan_clear_steps(b->plan);
    b->plan->steps = b->steps.at;
    b->plan->step_count = b->steps.count;
    for (size_t i = 0; i < b->plan->fabric_count; i++)
        b->plan->fabrics[i].info.cuts = b->cuts[i];
}

static void discard(bench *b)
{
    for (size_t i = 0; i < b->steps.count; i++) {
        qci_free((void *)b->steps.at[i].source);
        qci_free((void *)b->steps.at[i].text);
    }
    qci_vec_clear(&b->steps);
}

qc_status qci_order_make(qc_plan *plan, qc_error *err)
{
    bench b = {.plan = plan};
    bool ok = false;

    b.totals = qci_calloc(plan->piece_count, sizeof *b.totals);
    b.cuts = qci_calloc(plan->fabric_count, sizeof *b.cuts);
    if (!b.totals || !b.cuts)
        goto done;
    for (size_t i = 0; i < plan->fabric_count; i++) {
        b.fabric = (uint32_t)i;
        if (!cut_fabric(&b))
            goto done;
    }
    publish(&b);
    ok = true;
done:
    if (!ok)
        discard(&b);
    qci_free(b.totals);
    qci_free(b.cuts);
    return ok ? QC_STATUS_OK : qci_no_memory(err);
}
