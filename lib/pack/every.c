/* A price for each piece, and all pieces together are worth at most the least
 * height. A solution of that height or little more wastes little: its strips
 * are higher than what they hold is worth by no more than the difference, all
 * together. So a pattern that wastes more is in none of them, and one that
 * wastes half as much at most twice. That leaves few enough to be listed where
 * pieces are large. Any prices are right with which no pattern is worth more
 * than it is high; duals of the linear program leave the fewest patterns.
 *
 * Sections come first (every_sections.c), then a walk for each class
 * (every_walk.c). All that they do is counted. */
#include "pack/every_inner.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

#define CELL_LIMIT 2000000 /* of a table; there is one for each class */
#define ALL_CELLS 100000000
#define KEY_MAX ((qci_wide)1 << 120)

static void take_prices(qci_every *every, const qci_master *master, int64_t cap)
{
    every->spare = cap * QCI_PARTS;
    for (int32_t row = 0; row < master->model->row_count; row++) {
        double dual = qci_lp_row_dual(master->lp, row);

        every->price[row] = dual > 0.0 ? (int64_t)(dual * QCI_PARTS) : 0;
        every->spare -= every->price[row] * master->model->demand[row];
    }
}

static bool can_list(const qci_model *model)
{
    for (int32_t row = 0; row < model->row_count; row++)
        if (model->twin[row] >= 0 && model->twin[row] != row)
            return false;
    for (int32_t k = 0; k < model->class_count; k++)
        if (model->cost[k] != model->height[k])
            return false;
    return model->trim && !model->exact && !model->mixed;
}

/* Sets digits up, where keys stay below KEY_MAX. */
static bool make_keys(qci_every_walk *w)
{
    qci_wide all = 1;

    w->digit = qci_calloc((size_t)w->model->row_count, sizeof *w->digit);
    if (!w->digit)
        return false;
    for (int32_t row = 0; row < w->model->row_count; row++) {
        w->digit[row] = all;
        if (w->model->demand[row] >= KEY_MAX / all)
            return true;
        all *= w->model->demand[row] + 1;
    }
    w->seen = qci_calloc((size_t)1 << QCI_EVERY_SEEN_BITS, sizeof *w->seen);
    return w->seen != NULL;
}

static bool make_room(qci_every_walk *w)
{
    size_t rows = (size_t)w->model->row_count;
    size_t cells = (size_t)w->model->width + 1;

    w->slot_count = 2 * w->limit + 1;
    w->held = qci_calloc(rows, sizeof *w->held);
    w->stack = qci_calloc(QCI_EVERY_SECTION, sizeof *w->stack);
    w->sequence = qci_calloc(QCI_EVERY_PATTERN, sizeof *w->sequence);
    w->slots = qci_calloc(w->slot_count, sizeof *w->slots);
    if (!w->held || !w->stack || !w->sequence || !w->slots || !make_keys(w))
        return false;
    qci_every_grow(w, 0, 0);
    w->use = qci_calloc(w->sections.count, sizeof *w->use);
    cells *= w->sections.count + 1;
    if (cells > CELL_LIMIT || cells * (size_t)w->model->class_count > ALL_CELLS)
        w->over = true;
    else
        w->gain = qci_calloc(cells, sizeof *w->gain);
    return w->use && (w->over || w->gain) && !w->failed;
}

static void clear(qci_every_walk *w)
{
    for (size_t i = 0; i < w->sections.count; i++) {
        qci_free(w->sections.at[i].held);
        qci_free(w->sections.at[i].lays);
    }
    qci_vec_clear(&w->sections);
    qci_free(w->use);
    qci_free(w->gain);
    qci_free(w->held);
    qci_free(w->stack);
    qci_free(w->sequence);
    qci_free(w->slots);
    qci_free(w->digit);
    qci_free(w->seen);
}

static void clear_list(qci_every *every)
{
    while (every->list.count)
        qci_pattern_destroy(every->list.at[--every->list.count].pattern);
}

static void list_all(qci_every_walk *w, int64_t waste)
{
    if (waste > w->every->spare)
        waste = w->every->spare;
    w->steep_worth = 0;
    w->steep_height = 1;
    for (w->cls = 0; w->cls < w->model->class_count && !w->failed && !w->over;
         w->cls++) {
        qci_every_choose(w);
        w->least = w->model->cost[w->cls] * QCI_PARTS - waste;
        if (w->least < 0)
            w->least = 0;
        qci_every_step(w, 0, w->model->width, 0);
    }
}

/* Column generation ends when the bound can rise no further, and then some
 * pattern may be worth more than it is high. Lowers all prices until none is.
 * True when it had to: the list must be made anew. */
static bool lower_prices(qci_every_walk *w)
{
    qci_every *every = w->every;
    int64_t high = w->steep_height * QCI_PARTS;

    if (w->steep_worth <= high || w->over || w->failed)
        return false;
    for (int32_t row = 0; row < w->model->row_count; row++) {
        int64_t price =
            (int64_t)((qci_wide)every->price[row] * high / w->steep_worth);

        every->spare += (every->price[row] - price) * w->model->demand[row];
        every->price[row] = price;
    }
    for (size_t i = 0; i < w->sections.count; i++)
        qci_every_weigh(w, &w->sections.at[i]);
    clear_list(every);
    memset(w->slots, 0, w->slot_count * sizeof *w->slots);
    if (w->seen)
        memset(w->seen, 0, sizeof *w->seen << QCI_EVERY_SEEN_BITS);
    return true;
}

qc_status qci_every_create(qci_every *every, const qci_master *master,
                           int64_t cap, int64_t waste, size_t limit,
                           qc_error *err)
{
    qci_every_walk w = {.every = every, .model = master->model, .cap = cap};

    *every = (qci_every){0};
    if (!can_list(w.model))
        return QC_STATUS_OK;
    w.limit = limit;
    every->price = qci_calloc((size_t)w.model->row_count, sizeof *every->price);
    if (every->price)
        take_prices(every, master, cap);
    w.failed = !every->price;
    w.over = every->spare < 0; /* the prices are no good */
    if (!w.failed && !w.over)
        w.failed = !make_room(&w);
    list_all(&w, waste);
    if (lower_prices(&w))
        list_all(&w, waste);
    every->whole = !w.over && !w.failed;
    clear(&w);
    if (!every->whole)
        qci_every_clear(every);
    return w.failed ? qci_no_memory(err) : QC_STATUS_OK;
}

void qci_every_clear(qci_every *every)
{
    clear_list(every);
    qci_vec_clear(&every->list);
    qci_free(every->price);
    *every = (qci_every){0};
}
