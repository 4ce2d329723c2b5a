/* Grows a plan by one element at a time. Lists are reallocated each time, which
 * is slow and simple. */
#include "hand_plan.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"

/* `list` of `count` elements with room for one more, zeroed. */
static void *grown(const void *list, size_t count, size_t size)
{
    char *longer = qci_realloc((void *)list, count + 1, size);

    if (!longer)
        abort();
    memset(longer + count * size, 0, size);
    return longer;
}

static char *copied(const char *text)
{
    char *copy = qci_strdup(text);

    if (!copy)
        abort();
    return copy;
}

qc_plan *hand_plan(void)
{
    qc_plan *plan = grown(NULL, 0, sizeof *plan);

    plan->title = copied("");
    plan->ruler = EIGHTHS(1);
    plan->seam = EIGHTHS(2);
    plan->layers = 4;
    return plan;
}

static qci_plan_fabric *last_fabric(qc_plan *plan)
{
    return &plan->fabrics[plan->fabric_count - 1];
}

static qc_strip *last_strip(qc_plan *plan)
{
    qci_plan_fabric *fabric = last_fabric(plan);

    return &fabric->strips[fabric->info.strip_count - 1];
}

static qc_subcut *last_subcut(qc_plan *plan)
{
    qc_strip *strip = last_strip(plan);

    return (qc_subcut *)&strip->subcuts[strip->subcut_count - 1];
}

void hand_fabric(qc_plan *plan, const char *name, qc_length width,
                 qc_length square_up)
{
    qc_plan_fabric *info;

    plan->fabrics =
        grown(plan->fabrics, plan->fabric_count, sizeof *plan->fabrics);
    plan->fabric_count++;
    info = &last_fabric(plan)->info;
    info->id = copied(name);
    info->name = copied(name);
    info->usable_width = width;
    info->square_up = square_up;
    info->step = QC_YARD / 8;
    info->price = info->cost = QC_DEFAULT;
}

uint32_t hand_piece(qc_plan *plan, const char *id, qc_length across,
                    qc_length along)
{
    qc_plan_piece *piece;

    plan->pieces = grown(plan->pieces, plan->piece_count, sizeof *plan->pieces);
    piece = &plan->pieces[plan->piece_count];
    piece->id = copied(id);
    piece->job_id = copied(id);
    piece->twin = (uint32_t)plan->piece_count;
    piece->strip_set = QC_NONE;
    piece->fabric = (uint32_t)plan->fabric_count - 1;
    piece->shape = across == along ? QC_SHAPE_SQUARE : QC_SHAPE_RECTANGLE;
    piece->cut[0] = across;
    piece->cut[1] = along;
    return (uint32_t)plan->piece_count++;
}

uint32_t hand_triangle(qc_plan *plan, const char *id, qc_length side,
                       qc_shape shape)
{
    uint32_t piece = hand_piece(plan, id, side, side);

    plan->pieces[piece].shape = shape;
    return piece;
}

static uint32_t yields_of(const qc_plan_piece *piece)
{
    return piece->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE      ? 2
           : piece->shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE ? 4
                                                              : 1;
}

qc_strip *hand_strip(qc_plan *plan, qc_length height, uint32_t repeat)
{
    qci_plan_fabric *fabric = last_fabric(plan);
    qc_plan_fabric *info = &fabric->info;

    fabric->strips =
        grown(fabric->strips, info->strip_count, sizeof *fabric->strips);
    info->strip_count++;
    if (info->used == 0)
        info->used = info->square_up;
    info->used += repeat * height;
    last_strip(plan)->height = height;
    last_strip(plan)->repeat = repeat;
    return last_strip(plan);
}

void hand_subcut(qc_plan *plan, uint32_t count)
{
    qc_strip *strip = last_strip(plan);

    strip->subcuts =
        grown(strip->subcuts, strip->subcut_count, sizeof *strip->subcuts);
    strip->subcut_count++;
    last_subcut(plan)->count = count;
}

void hand_stack(qc_plan *plan, uint32_t piece, uint32_t count, qc_turn turn)
{
    qc_subcut *subcut = last_subcut(plan);
    qc_strip *strip = last_strip(plan);
    qc_plan_piece *of = &plan->pieces[piece];
    bool quarter = turn == QC_TURN_QUARTER;
    qc_stack *stack;

    subcut->stacks =
        grown(subcut->stacks, subcut->stack_count, sizeof *subcut->stacks);
    stack = (qc_stack *)&subcut->stacks[subcut->stack_count++];
    stack->piece = piece;
    stack->count = count;
    stack->turn = turn;
    stack->yields = yields_of(of);
    stack->width = of->cut[quarter ? 1 : 0];
    stack->height = of->cut[quarter ? 0 : 1];
    if (stack->width > subcut->width) {
        strip->used_width += subcut->count * (stack->width - subcut->width);
        subcut->width = stack->width;
    }
    of->count += (int64_t)strip->repeat * subcut->count * count * stack->yields;
}

void hand_row(qc_plan *plan, uint32_t count, uint32_t piece, qc_turn turn)
{
    hand_subcut(plan, count);
    hand_stack(plan, piece, 1, turn);
}

static void keep(qci_plan_fabric *fabric, qc_leftover left, qc_length least)
{
    if (left.length < least || left.width < least)
        return;
    fabric->leftovers = grown(fabric->leftovers, fabric->info.leftover_count,
                              sizeof *fabric->leftovers);
    fabric->leftovers[fabric->info.leftover_count++] = left;
    fabric->info.area.leftover += left.length * left.width * left.count;
}

static void finish_fabric(qc_plan *plan, qci_plan_fabric *fabric,
                          qc_length least)
{
    qc_plan_fabric *info = &fabric->info;
    qc_area *area = &info->area;

    info->bought = (info->used + info->step - 1) / info->step * info->step;
    info->bound = info->bought;
    for (uint32_t i = 0; i < info->strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];

        info->setups += !strip->cut_short;
        keep(fabric,
             (qc_leftover){strip->height,
                           info->usable_width - strip->used_width,
                           strip->repeat, i},
             least);
    }
    keep(fabric,
         (qc_leftover){info->bought - info->used, info->usable_width, 1,
                       UINT32_MAX},
         least);
    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (&plan->fabrics[piece->fabric] == fabric)
            area->seams += piece->cut[0] * piece->cut[1] *
                           (piece->count / yields_of(piece));
    }
    area->scrap =
        info->bought * info->usable_width - area->seams - area->leftover;
}

void hand_finish(qc_plan *plan, qc_length least)
{
    for (size_t i = 0; i < plan->fabric_count; i++)
        finish_fabric(plan, &plan->fabrics[i], least);
}
