/* From strips to steps.
 *
 * The work goes fabric by fabric: square up the bolt, cut all strips, then take
 * one strip entry after the other (strips.c); then cut the squares of triangles
 * corner to corner, each kind in one go; put the leftovers away; and name what
 * is trimmed back once it is sewn. When all fabrics are cut, the strip sets are
 * sewn and cut across (sets.c).
 *
 * One step stands for all equal cuts. There are at most four steps to a run of
 * pieces in the plan, whatever the counts are, but for pieces that slant and
 * must all lie one way: those take two each. Counts stay within 64 bits, since
 * no more pieces fall out than were asked for.
 */
#include "order/order.h"

#include "base/error.h"
#include "order/bench.h"
#include "shape/shape.h"

static const qci_plan_fabric *current(const qci_bench *b)
{
    return &b->plan->fabrics[b->fabric];
}

static bool cut_bolt(qci_bench *b)
{
    const qci_plan_fabric *fabric = current(b);
    qci_lot bolt = {.part = 0,
                    .copies = 1,
                    .piles = 1,
                    .layers = b->plan->layers > 1 ? 2 : 1};
    qc_step step;

    if (fabric->info.strip_count == 0)
        return true;
    if (fabric->info.square_up > 0) {
        step = qci_step_on(b, QC_STEP_SQUARE_UP, bolt);
        step.distance = fabric->info.square_up;
        step.repeat = 1;
        if (!qci_take_up(b, step, bolt.piles, (qci_origin){0}))
            return false;
    }
    for (size_t i = 0; i < fabric->info.strip_count; i++) {
        step = qci_step_on(b, QC_STEP_STRIP, bolt);
        step.part_out = (uint32_t)i + 1;
        step.distance = fabric->strips[i].height;
        step.repeat = fabric->strips[i].repeat;
        if (!qci_take_up(b, step, bolt.piles, (qci_origin){.strip = i}))
            return false;
    }
    return true;
}

/* Cuts all squares of a triangle, which may come from any strips, corner to
 * corner. */
static bool cut_triangles(qci_bench *b, uint32_t piece)
{
    qci_lot pile = qci_lot_piled(b, QC_NONE, b->heaps[piece].squares, false);
    qc_step step = qci_step_on(b, QC_STEP_DIAGONAL, pile);

    if (pile.copies == 0)
        return true;
    step.piece = piece;
    step.repeat = (uint32_t)qci_shape_yields(b->plan->pieces[piece].shape) / 2;
    return qci_take_up(b, step, pile.piles, (qci_origin){0});
}

static bool keep_leftover(qci_bench *b, size_t index)
{
    const qc_leftover *left = &current(b)->leftovers[index];
    bool of_bolt = left->strip == UINT32_MAX;
    qci_lot kept = {.part = of_bolt ? 0 : left->strip + 1,
                    .copies = left->count,
                    .layers = 1};
    qc_step step;

    kept.paired = !of_bolt && current(b)->strips[left->strip].paired;
    step = qci_step_on(b, QC_STEP_KEEP, kept);
    step.distance = of_bolt ? left->length : left->width;
    step.yield = left->count;
    return qci_take_up(b, step, 0, (qci_origin){.leftover = index});
}

static bool trim_back(qci_bench *b, uint32_t piece)
{
    const qc_plan_piece *info = &b->plan->pieces[piece];
    qci_lot units = {.part = QC_NONE, .copies = info->count, .layers = 1};
    qc_step step = qci_step_on(b, QC_STEP_TRIM_BACK, units);

    step.piece = piece;
    step.distance = info->trim_to[0];
    return qci_take_up(b, step, 0, (qci_origin){0});
}

/* The squares that pieces of the fabric are cut from. */
static void count_squares(qci_bench *b)
{
    const qci_plan_fabric *fabric = current(b);

    for (size_t i = 0; i < fabric->info.strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];

        for (size_t j = 0; j < strip->subcut_count; j++) {
            const qc_subcut *subcut = &strip->subcuts[j];

            for (size_t k = 0; k < subcut->stack_count; k++) {
                const qc_stack *run = &subcut->stacks[k];

                if (run->yields > 1)
                    b->heaps[run->piece].squares_needed +=
                        (int64_t)strip->repeat * subcut->count * run->count;
            }
        }
    }
}

typedef bool piece_work(qci_bench *b, uint32_t piece);

/* Does something for all pieces of the fabric that need it. */
static bool for_pieces(qci_bench *b, qc_step_kind kind, piece_work *work)
{
    for (uint32_t i = 0; i < b->plan->piece_count; i++) {
        const qc_plan_piece *piece = &b->plan->pieces[i];
        bool needs = kind == QC_STEP_DIAGONAL
                         ? qci_shape_yields(piece->shape) > 1
                         : piece->trim_to[0] > 0 && piece->count > 0;

        if (piece->fabric == b->fabric && needs && !work(b, i))
            return false;
    }
    return true;
}

static bool cut_fabric(qci_bench *b)
{
    const qc_plan_fabric *info = &current(b)->info;

    b->next_part = (uint32_t)info->strip_count + 1;
    count_squares(b);
    if (!cut_bolt(b))
        return false;
    for (size_t i = 0; i < info->strip_count; i++) {
        if (!qci_order_strip(b, i))
            return false;
    }
    if (!for_pieces(b, QC_STEP_DIAGONAL, cut_triangles))
        return false;
    for (size_t i = 0; i < info->leftover_count; i++) {
        if (!keep_leftover(b, i))
            return false;
    }
    return for_pieces(b, QC_STEP_TRIM_BACK, trim_back);
}

static bool cut_all(qci_bench *b)
{
    b->set = QC_NONE;
    for (uint32_t i = 0; i < b->plan->fabric_count; i++) {
        b->fabric = i;
        if (!cut_fabric(b))
            return false;
    }
    b->fabric = QC_NONE;
    for (uint32_t i = 0; i < b->plan->set_count; i++) {
        b->set = i;
        if (!qci_order_set(b))
            return false;
    }
    return true;
}

/* The steps become the plan's, together with the cuts they add up to. */
static void publish(qci_bench *b)
{
    qci_plan_clear_steps(b->plan);
    b->plan->steps = b->steps.at;
    b->plan->step_count = b->steps.count;
    for (size_t i = 0; i < b->plan->fabric_count; i++) {
        b->plan->fabrics[i].info.cuts = b->cuts[i];
        b->plan->fabrics[i].info.blade = b->blade[i];
    }
    for (size_t i = 0; i < b->plan->set_count; i++)
        b->plan->sets[i].info.blade = b->set_blade[i];
}

static void discard(qci_bench *b)
{
    for (size_t i = 0; i < b->steps.count; i++) {
        qci_free((void *)b->steps.at[i].source);
        qci_free((void *)b->steps.at[i].text);
    }
    qci_vec_clear(&b->steps);
}

qc_status qci_order_make(qc_plan *plan, qc_error *err)
{
    qci_bench b = {.plan = plan};
    bool ok = false;

    b.heaps = qci_calloc(plan->piece_count, sizeof *b.heaps);
    b.cuts = qci_calloc(plan->fabric_count, sizeof *b.cuts);
    b.blade = qci_calloc(plan->fabric_count, sizeof *b.blade);
    b.set_blade = qci_calloc(plan->set_count, sizeof *b.set_blade);
    if (!b.heaps || !b.cuts || !b.blade || !b.set_blade)
        goto done;
    ok = cut_all(&b);
    if (ok)
        publish(&b);
done:
    if (!ok)
        discard(&b);
    qci_free(b.heaps);
    qci_free(b.cuts);
    qci_free(b.blade);
    qci_free(b.set_blade);
    return ok ? QC_STATUS_OK : qci_no_memory(err);
}
