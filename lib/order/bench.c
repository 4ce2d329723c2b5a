/* Steps are taken up one by one.
 *
 * Whoever makes a step says where it is done and what one cut frees; how many
 * cuts and pieces that makes, and how far the piece's count has come, follows
 * here, in one place. Of paired strips half of what falls out is the twin.
 * Squares for triangles are counted apart from triangles, which may also come
 * singly from strips. A step that repeats the last but one, as with pieces that
 * must all lie one way and so need a wedge each, is told so and may be worded
 * shorter.
 */
#include "order/bench.h"

#include "order/blade.h"
#include "shape/shape.h"

qc_step qci_step_on(const qci_bench *bench, qc_step_kind kind, qci_lot on)
{
    return (qc_step){.fabric = bench->fabric,
                     .set = bench->set,
                     .kind = kind,
                     .part_in = on.part,
                     .part_out = QC_NONE,
                     .piece = QC_NONE,
                     .copies = on.copies,
                     .layers = on.layers,
                     .paired = on.paired};
}

/* What the ruler is still set to after the fabric's last step; 0 when that did
 * not need it. */
static qc_length ruler_after(const qc_step *last)
{
    return last->repeat == 0 || last->kind == QC_STEP_SQUARE_UP
               ? 0
               : last->distance;
}

/* Half of what falls out of paired strips is the twin. */
static bool splits_hands(const qc_step *step, const qc_plan_piece *piece)
{
    return step->paired && piece->twin != QC_NONE && piece->twin != step->piece;
}

/* Triangles that the piece's squares become are not among its pieces here. */
static qci_tally add_pieces(qci_bench *b, uint32_t piece, int64_t now)
{
    const qc_plan_piece *info = &b->plan->pieces[piece];
    qci_heap *heap = &b->heaps[piece];

    heap->pieces += now;
    return (qci_tally){now, heap->pieces,
                       info->count - heap->squares_needed *
                                         qci_shape_yields(info->shape)};
}

static qci_tally add_squares(qci_bench *b, uint32_t piece, int64_t now)
{
    qci_heap *heap = &b->heaps[piece];

    heap->squares += now;
    return (qci_tally){now, heap->squares, heap->squares_needed};
}

static qci_tally add_triangles(qci_bench *b, uint32_t piece, int64_t now)
{
    qci_heap *heap = &b->heaps[piece];

    heap->pieces += now;
    return (qci_tally){now, heap->pieces, b->plan->pieces[piece].count};
}

/* The tallies of a step that frees pieces. */
static void count_freed(qci_bench *b, qc_step *step, qci_origin *origin)
{
    const qc_plan_piece *piece = &b->plan->pieces[step->piece];

    if (step->kind == QC_STEP_DIAGONAL) {
        step->yield = step->copies * step->repeat * 2;
        origin->tally = add_triangles(b, step->piece, step->yield);
    } else if (origin->yields > 1) {
        origin->tally = add_squares(b, step->piece, step->yield);
    } else if (splits_hands(step, piece)) {
        origin->tally = add_pieces(b, step->piece, step->yield / 2);
        origin->mirror = add_pieces(b, piece->twin, step->yield / 2);
    } else {
        origin->tally = add_pieces(b, step->piece, step->yield);
    }
    step->total = origin->tally.total;
}

static bool is_like(const qc_step *a, const qc_step *b)
{
    return a->kind == b->kind && a->fabric == b->fabric &&
           a->part_in == b->part_in &&
           (a->part_out == QC_NONE) == (b->part_out == QC_NONE) &&
           a->piece == b->piece && a->turn == b->turn && a->base == b->base &&
           a->mirrored == b->mirrored && a->repeat == b->repeat &&
           a->distance == b->distance && a->along == b->along &&
           a->lean == b->lean;
}

/* Which step the new one repeats, if it repeats the last but one: the first of
 * that kind. */
static uint32_t find_like(qci_bench *b, const qc_step *step)
{
    uint32_t *first = &b->like[step->number % 2];
    bool slanted = step->kind == QC_STEP_SLANT ||
                   (step->kind == QC_STEP_SUBCUT && step->repeat == 1);

    if (slanted && b->steps.count > 1 &&
        is_like(step, &b->steps.at[b->steps.count - 2]))
        return *first;
    *first = step->number;
    return 0;
}

bool qci_take_up(qci_bench *b, qc_step step, int64_t piles, qci_origin origin)
{
    const qc_step *last =
        b->steps.count ? &b->steps.at[b->steps.count - 1] : NULL;
    bool frees = step.part_out != QC_NONE || step.piece != QC_NONE;
    uint32_t like;

    origin.plan = b->plan;
    origin.first = !b->steps.count || last->fabric != b->fabric;
    origin.ruler = origin.first ? 0 : ruler_after(last);
    step.number = (uint32_t)b->steps.count + 1;
    like = find_like(b, &step);
    if (origin.like == 0)
        origin.like = like;
    step.cuts += step.repeat * piles;
    step.blade = qci_blade_of(&step, &origin, piles);
    if (frees && step.yield == 0)
        step.yield = step.copies * (step.repeat + (step.rest_is_piece ? 1 : 0));
    if (step.piece != QC_NONE && step.kind != QC_STEP_TRIM_BACK)
        count_freed(b, &step, &origin);
    if (!qci_step_word(&step, &origin))
        return false;
    if (!qci_vec_push(&b->steps, step)) {
        qci_free((void *)step.source);
        qci_free((void *)step.text);
        return false;
    }
    if (b->fabric != QC_NONE) {
        b->cuts[b->fabric] += step.cuts;
        b->blade[b->fabric] += step.blade;
    } else {
        b->set_blade[b->set] += step.blade;
    }
    return true;
}

qci_lot qci_lot_of(qci_bench *b, qci_lot from, uint32_t freed)
{
    return (qci_lot){.part = b->next_part++,
                     .copies = from.copies * freed,
                     .piles = from.piles * freed,
                     .layers = from.layers,
                     .paired = from.paired};
}

qci_lot qci_lot_piled(const qci_bench *b, uint32_t part, int64_t copies,
                      bool paired)
{
    int64_t most = b->plan->layers > 1 ? b->plan->layers : 1;
    int64_t layers;

    if (paired) /* pairs stay together */
        most = most < 2 ? 2 : most - most % 2;
    layers = copies < most ? copies : most;
    return (qci_lot){.part = part,
                     .copies = copies,
                     .piles = layers ? (copies + layers - 1) / layers : 0,
                     .layers = (uint32_t)layers,
                     .paired = paired};
}
