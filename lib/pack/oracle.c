/* The face of the two oracles: memory, bonuses, the loop over classes, and what
 * every walk does. */
#include "pack/oracle.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/gcd.h"
#include "pack/oracle_inner.h"

/* Tables hold at most about this many cells (32 MiB). */
#define TABLE_CELLS (INT64_C(1) << 22)

static int64_t coarseness(int64_t length, int64_t lines)
{
    int64_t unit = 1;

    while (length / unit >= TABLE_CELLS / lines && unit < length)
        unit *= 2;
    return unit;
}

/* Widths of pieces that are cut at an angle have no common measure: a table
 * that is fine enough for all would be far too large. This many cells, as parts
 * of the measure that the other widths have, are enough to bound well. */
#define ALONE_CELLS 1200

static int64_t alone_unit(const qci_model *model)
{
    int64_t common = 0, narrowest = model->width, parts = 1;

    for (int32_t i = 0; i < model->lay_count; i++) {
        if (!model->lays[i].alone)
            common = qci_gcd(model->lays[i].width, common);
        else if (model->lays[i].width < narrowest)
            narrowest = model->lays[i].width;
    }
    if (!common)
        common = model->width;
    if (model->width / common <= ALONE_CELLS)
        parts = ALONE_CELLS / (model->width / common);
    while (parts > 1 && common % parts && common / parts > 1)
        parts--;
    common /= parts < common ? parts : common;
    if (model->width / common > ALONE_CELLS)
        common = model->width / ALONE_CELLS;
    /* A piece must take a cell at least. */
    return common < narrowest ? common : narrowest;
}

static void choose_grid(qci_oracle *oracle)
{
    const qci_model *model = oracle->model;
    int64_t lines = model->lay_count + 1;
    int64_t top = model->height[model->class_count - 1];

    oracle->unit_x = model->alone_count ? alone_unit(model)
                                        : coarseness(model->width, lines);
    oracle->cells_x = model->width / oracle->unit_x;
    oracle->unit_y = model->stacks ? coarseness(top, lines) : top + 1;
    oracle->cells_y = top / oracle->unit_y;
}

/* Pieces that lie alone, or come in twos and fours, need sections. */
static bool is_flat(const qci_model *model)
{
    return !model->stacks && !model->mixed;
}

static bool make_room(qci_oracle *oracle)
{
    const qci_model *model = oracle->model;
    size_t rows = (size_t)model->row_count, lays = (size_t)model->lay_count;
    size_t classes = (size_t)model->class_count;
    size_t x = (size_t)oracle->cells_x + 1, y = (size_t)oracle->cells_y + 1;

    oracle->across = qci_calloc((lays + 1) * x, sizeof(int64_t));
    oracle->up = qci_calloc((lays + 1) * y, sizeof(int64_t));
    oracle->section = qci_calloc(lays, sizeof(int64_t));
    oracle->line = qci_calloc(lays + 1, sizeof *oracle->line);
    oracle->stale = model->lay_count;
    oracle->amortised = qci_calloc(rows, sizeof(int64_t));
    oracle->scratch = qci_calloc(x, sizeof(int64_t));
    oracle->queue = qci_calloc(x, sizeof(int32_t));
    oracle->bonus_first = qci_calloc(rows + 1, sizeof(int32_t));
    oracle->held = qci_calloc(rows, sizeof(int32_t));
    oracle->most_held = qci_calloc(rows, sizeof(int64_t));
    oracle->rest = qci_calloc(rows, sizeof *oracle->rest);
    oracle->most_yield = qci_calloc(rows, sizeof(int32_t));
    oracle->digit = qci_calloc(rows, sizeof *oracle->digit);
    oracle->fillings = qci_calloc(classes, sizeof *oracle->fillings);
    oracle->tried = qci_calloc(classes, sizeof *oracle->tried);
    oracle->walk = qci_calloc(QCI_SEQUENCE_LIMIT, sizeof(int32_t));
    oracle->best_walk = qci_calloc(QCI_SEQUENCE_LIMIT, sizeof(int32_t));
    return oracle->across && oracle->up && oracle->section && oracle->line &&
           oracle->amortised && oracle->scratch && oracle->queue &&
           oracle->bonus_first && oracle->held && oracle->most_held &&
           oracle->rest && oracle->most_yield && oracle->digit &&
           (is_flat(model) || qci_seen_create(oracle)) && oracle->fillings &&
           oracle->tried && oracle->walk && oracle->best_walk;
}

/* Most pieces of a row that a strip has room for. */
static int64_t most_in_strip(const qci_model *model, int32_t row)
{
    int64_t top = model->stacks ? model->height[model->class_count - 1] : 1;
    int64_t most = 0;

    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];
        qci_wide room =
            (qci_wide)lay->width * (model->stacks ? lay->height : 1);
        qci_wide fit = (qci_wide)model->width * top * lay->yield / room;

        if (lay->row == row && fit > most)
            most = (int64_t)fit;
    }
    return most;
}

static qc_status prepare(qci_oracle *oracle, qc_error *err)
{
    for (int32_t row = 0; row < oracle->model->row_count; row++)
        oracle->most_held[row] = most_in_strip(oracle->model, row);
    return is_flat(oracle->model) ? qci_flat_prepare(oracle, err)
                                  : qci_alone_prepare(oracle, err);
}

qc_status qci_oracle_create(const qci_model *model, qci_oracle **out,
                            qc_error *err)
{
    qci_oracle *oracle = qci_calloc(1, sizeof *oracle);
    qc_status status = QC_STATUS_OK;

    *out = NULL;
    if (!oracle)
        return qci_no_memory(err);
    oracle->model = model;
    choose_grid(oracle);
    status = make_room(oracle) ? prepare(oracle, err) : qci_no_memory(err);
    if (status) {
        qci_oracle_destroy(oracle);
        return status;
    }
    *out = oracle;
    return QC_STATUS_OK;
}

void qci_oracle_destroy(qci_oracle *oracle)
{
    if (!oracle)
        return;
    qci_alone_clear(oracle);
    for (int32_t k = 0; k < oracle->model->class_count && oracle->fillings; k++)
        qci_fillings_destroy(oracle->fillings[k]);
    qci_free(oracle->fillings);
    qci_free(oracle->tried);
    qci_free(oracle->across);
    qci_free(oracle->up);
    qci_free(oracle->section);
    qci_free(oracle->line);
    qci_free(oracle->amortised);
    qci_free(oracle->scratch);
    qci_free(oracle->queue);
    qci_free(oracle->items);
    qci_free(oracle->first);
    qci_free(oracle->last);
    qci_free(oracle->bonus_first);
    qci_free(oracle->held);
    qci_free(oracle->most_held);
    qci_free(oracle->rest);
    qci_free(oracle->most_yield);
    qci_free(oracle->seen);
    qci_free(oracle->digit);
    qci_free(oracle->walk);
    qci_free(oracle->best_walk);
    qci_free(oracle);
}

int64_t qci_row_worth(const qci_oracle *oracle, int32_t row, int64_t count)
{
    int64_t worth = oracle->prices->value[row] * count;

    for (int32_t b = oracle->bonus_first[row]; b < oracle->bonus_first[row + 1];
         b++)
        if (count >= oracle->prices->bonus[b].at)
            worth += oracle->prices->bonus[b].value;
    return worth;
}

/* Nodes from one look at the watch to the next. */
#define WATCH_EVERY 8192

static bool is_ended(const qci_oracle *oracle)
{
    return oracle->prices->watch && oracle->nodes % WATCH_EVERY == 0 &&
           qci_watch_ended(oracle->prices->watch);
}

bool qci_walk_on(qci_oracle *oracle)
{
    if (++oracle->nodes > oracle->prices->node_limit ||
        oracle->walk_length == QCI_SEQUENCE_LIMIT || is_ended(oracle))
        oracle->capped = true;
    return !oracle->capped;
}

bool qci_walk_can(const qci_oracle *oracle, int64_t promise, int64_t table,
                  int64_t room)
{
    return promise + table > oracle->best_value &&
           qci_rest_beats(oracle, room, oracle->best_value - promise);
}

void qci_walk_put(qci_oracle *oracle, qci_spot *spot, int32_t entry)
{
    const qci_lay *lay = &oracle->model->lays[QCI_LAY(entry)];
    int32_t held = oracle->held[lay->row];

    oracle->held[lay->row] += lay->yield;
    oracle->heap += oracle->digit[lay->row] * lay->yield;
    oracle->walk[oracle->walk_length++] = entry;
    spot->worth += qci_row_worth(oracle, lay->row, held + lay->yield) -
                   qci_row_worth(oracle, lay->row, held);
    spot->promise += qci_lay_worth(oracle, QCI_LAY(entry));
}

void qci_walk_drop(qci_oracle *oracle)
{
    int32_t entry = oracle->walk[--oracle->walk_length];
    const qci_lay *lay = &oracle->model->lays[QCI_LAY(entry)];

    oracle->held[lay->row] -= lay->yield;
    oracle->heap -= oracle->digit[lay->row] * lay->yield;
}

void qci_walk_keep(qci_oracle *oracle, int64_t value)
{
    oracle->found = true;
    oracle->best_value = value;
    oracle->best_length = oracle->walk_length;
    memcpy(oracle->best_walk, oracle->walk,
           (size_t)oracle->walk_length * sizeof *oracle->walk);
}

int qci_by_width_compare(const void *a, const void *b)
{
    const qci_by_width *p = a, *q = b;

    if (p->width != q->width)
        return p->width < q->width ? -1 : 1;
    return (p->at > q->at) - (p->at < q->at);
}

static int64_t share(const qci_oracle *oracle, int32_t row, int64_t count)
{
    int64_t worth = qci_row_worth(oracle, row, count);

    return worth / count + (worth % count > 0);
}

/* What a piece of the row is worth at most when all gains and losses are shared
 * out over the pieces that earn them: between two bonuses that is most at one
 * of the ends. */
static int64_t amortise(const qci_oracle *oracle, int32_t row)
{
    const qci_prices *prices = oracle->prices;
    int64_t last = prices->limit[row] + oracle->model->surplus[row];
    int64_t most;

    if (oracle->most_held[row] < last)
        last = oracle->most_held[row];
    if (last < 1)
        return prices->value[row];
    most = share(oracle, row, 1);
    most = most > share(oracle, row, last) ? most : share(oracle, row, last);
    for (int32_t b = oracle->bonus_first[row]; b < oracle->bonus_first[row + 1];
         b++)
        for (int64_t n = prices->bonus[b].at - 1; n <= prices->bonus[b].at; n++)
            if (n > 0 && n <= last && share(oracle, row, n) > most)
                most = share(oracle, row, n);
    return most;
}

/* Where each row's bonuses start, and what a piece can be worth at most. */
void qci_oracle_begin(qci_oracle *oracle, const qci_prices *prices)
{
    int32_t b = 0;

    oracle->prices = prices;
    for (int32_t row = 0; row < oracle->model->row_count; row++) {
        oracle->bonus_first[row] = b;
        while (b < prices->bonus_count && prices->bonus[b].row == row)
            b++;
    }
    oracle->bonus_first[oracle->model->row_count] = b;
    for (int32_t row = 0; row < oracle->model->row_count; row++)
        oracle->amortised[row] = amortise(oracle, row);
    if (is_flat(oracle->model))
        qci_flat_tables(oracle);
    else
        qci_stack_tables(oracle);
}

bool qci_oracle_class(qci_oracle *oracle, int32_t cls, int64_t *best,
                      qci_found_fn found, void *user)
{
    oracle->walk_length = 0;
    oracle->found = false;
    oracle->best_value = oracle->prices->threshold[cls];
    oracle->nodes = 0;
    oracle->capped = false;
    *best = is_flat(oracle->model) ? qci_flat_price(oracle, cls)
                                   : qci_stack_price(oracle, cls);
    if (oracle->failed)
        return false;
    return !oracle->found || found(cls, oracle->best_value, oracle->best_walk,
                                   oracle->best_length, user);
}

bool qci_oracle_price(qci_oracle *oracle, const qci_prices *prices,
                      int64_t *best, qci_found_fn found, void *user)
{
    qci_oracle_begin(oracle, prices);
    for (int32_t k = 0; k < oracle->model->class_count; k++)
        if (!qci_oracle_class(oracle, k, &best[k], found, user))
            return false;
    return true;
}

int64_t qci_oracle_price_class(qci_oracle *oracle, const qci_prices *prices,
                               int32_t cls, qci_found_fn found, void *user)
{
    int64_t best;

    qci_oracle_begin(oracle, prices);
    qci_oracle_class(oracle, cls, &best, found, user);
    return best;
}
