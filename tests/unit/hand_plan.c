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

uint32_t hand_shape(qc_plan *plan, const char *id, qc_shape shape,
                    const qc_point *corners, size_t count)
{
    qc_length low = 0, high = 0, top = 0;
    qc_point *outline = grown(NULL, count, sizeof *outline);
    qc_plan_piece *piece;
    uint32_t index;

    for (size_t i = 0; i < count; i++) {
        low = corners[i].x < low ? corners[i].x : low;
        high = corners[i].x > high ? corners[i].x : high;
        top = corners[i].y > top ? corners[i].y : top;
        outline[i] = corners[i];
    }
    index = hand_piece(plan, id, high - low, top);
    piece = &plan->pieces[index];
    piece->shape = shape;
    piece->outline = outline;
    piece->outline_count = count;
    piece->base_count = 1;
    return index;
}

static qc_length half(qc_length lean)
{
    return (lean < 0 ? -lean : lean) / 2;
}

/* The lean in which the last strip's last subcut ends. */
static qc_length last_lean(qc_plan *plan)
{
    const qc_subcut *last;

    if (last_strip(plan)->subcut_count == 0)
        return 0;
    last = last_subcut(plan);
    return last->lean[last->alternate && last->count % 2 == 0 ? 0 : 1];
}

static void count_slanted(qc_plan *plan, uint32_t piece, int64_t count)
{
    uint32_t twin = plan->pieces[piece].twin;

    if (!last_strip(plan)->paired || twin == piece) {
        plan->pieces[piece].count += count;
        return;
    }
    plan->pieces[piece].count += count / 2;
    plan->pieces[twin].count += count / 2;
}

qc_subcut *hand_slanted(qc_plan *plan, uint32_t count, uint32_t piece,
                        qc_length width, qc_length first, qc_length last,
                        bool alternate)
{
    qc_strip *strip = last_strip(plan);
    qc_length before = last_lean(plan);
    qc_length gaps = first == last || alternate ? 0 : count - 1;
    qc_subcut *subcut;
    qc_stack *stack;

    hand_subcut(plan, count);
    subcut = last_subcut(plan);
    subcut->width = width;
    subcut->lean[0] = first;
    subcut->lean[1] = last;
    subcut->alternate = alternate;
    stack = grown(NULL, 0, sizeof *stack);
    *stack = (qc_stack){.piece = piece,
                        .count = 1,
                        .width = width,
                        .height = strip->height,
                        .yields = 1};
    subcut->stacks = stack;
    subcut->stack_count = 1;
    strip->used_width += half(first - before) - half(before) + count * width +
                         gaps * half(first - last) + half(last_lean(plan));
    count_slanted(plan, piece, (int64_t)strip->repeat * count);
    return subcut;
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

/* A piece has its outline's area, if it has one and is not a square still. */
static int64_t area_of(const qc_plan *plan, const qc_stack *stack)
{
    const qc_plan_piece *piece = &plan->pieces[stack->piece];
    int64_t doubled = 0;

    if (stack->yields > 1 || piece->outline_count == 0)
        return stack->width * stack->height;
    for (size_t i = 0; i < piece->outline_count; i++) {
        qc_point p = piece->outline[i];
        qc_point q = piece->outline[(i + 1) % piece->outline_count];

        doubled += p.x * q.y - p.y * q.x;
    }
    return doubled / 2;
}

static int64_t area_of_pieces(const qc_plan *plan,
                              const qci_plan_fabric *fabric)
{
    int64_t area = 0;

    for (size_t i = 0; i < fabric->info.strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];

        for (size_t j = 0; j < strip->subcut_count; j++) {
            const qc_subcut *subcut = &strip->subcuts[j];

            for (size_t k = 0; k < subcut->stack_count; k++)
                area += (int64_t)strip->repeat * subcut->count *
                        subcut->stacks[k].count *
                        area_of(plan, &subcut->stacks[k]);
        }
    }
    return area;
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

        info->setups += !strip->cut_short && !strip->alike;
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
    area->seams = area_of_pieces(plan, fabric);
    area->scrap =
        info->bought * info->usable_width - area->seams - area->leftover;
}

void hand_finish(qc_plan *plan, qc_length least)
{
    for (size_t i = 0; i < plan->fabric_count; i++)
        finish_fabric(plan, &plan->fabrics[i], least);
}
