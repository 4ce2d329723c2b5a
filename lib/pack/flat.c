/* The flat oracle: a section holds one piece, so a pattern is a bounded
 * knapsack over the width. In a class every row has one useful lay, the
 * narrowest that fits the height.
 *
 * across[i][x] is the best of items i.. within x cells, with each row's limit
 * and bonuses taken exactly; with cells as fine as the lengths the walk then
 * goes straight to the optimum. Cost: rows x width per table. */
#include "base/alloc.h"
#include "base/error.h"
#include "pack/oracle_inner.h"

/* Per row the useful lay of a class, or -1. Lays are sorted by width falling:
 * the last that fits is the narrowest. */
static void list_useful(const qci_model *model, int32_t cls, int32_t *useful)
{
    for (int32_t row = 0; row < model->row_count; row++)
        useful[row] = -1;
    for (int32_t i = 0; i < model->lay_count; i++)
        if (qci_lay_fits(model, &model->lays[i], cls))
            useful[model->lays[i].row] = i;
}

/* Does every row keep its lay from its first class on? `useful` is scratch of
 * twice the rows. */
static bool can_share(const qci_model *model, int32_t *useful)
{
    int32_t *before = useful + model->row_count;

    if (!model->trim)
        return false;
    list_useful(model, 0, before);
    for (int32_t k = 1; k < model->class_count; k++) {
        list_useful(model, k, useful);
        for (int32_t row = 0; row < model->row_count; row++) {
            if (before[row] >= 0 && useful[row] != before[row])
                return false;
            before[row] = useful[row];
        }
    }
    return true;
}

/* All lays of the top class, highest first: class k is a tail of the list. */
static void list_shared(qci_oracle *oracle, int32_t *useful)
{
    const qci_model *model = oracle->model;
    int32_t top = model->class_count - 1, n = 0;

    list_useful(model, top, useful);
    for (int32_t row = 0; row < model->row_count; row++) {
        int32_t lay = useful[row], at = n++;

        for (; at > 0; at--) {
            if (model->lays[oracle->items[at - 1]].height >=
                model->lays[lay].height)
                break;
            oracle->items[at] = oracle->items[at - 1];
        }
        oracle->items[at] = lay;
    }
    for (int32_t k = 0, i = n; k <= top; k++) {
        while (i > 0 &&
               model->lays[oracle->items[i - 1]].height <= model->height[k])
            i--;
        oracle->first[k] = i;
        oracle->last[k] = n;
    }
}

static void list_classes(qci_oracle *oracle, int32_t *useful)
{
    const qci_model *model = oracle->model;
    int32_t n = 0;

    for (int32_t k = 0; k < model->class_count; k++) {
        oracle->first[k] = n;
        list_useful(model, k, useful);
        for (int32_t row = 0; row < model->row_count; row++)
            if (useful[row] >= 0)
                oracle->items[n++] = useful[row];
        oracle->last[k] = n;
    }
}

qc_status qci_flat_prepare(qci_oracle *oracle, qc_error *err)
{
    size_t classes = (size_t)oracle->model->class_count;
    size_t rows = (size_t)oracle->model->row_count;
    int32_t *useful = qci_calloc(2 * rows, sizeof *useful);
    qc_status status = QC_STATUS_OK;

    oracle->shared = useful && can_share(oracle->model, useful);
    oracle->items = qci_calloc(oracle->shared ? rows : rows * classes,
                               sizeof *oracle->items);
    oracle->first = qci_calloc(classes, sizeof *oracle->first);
    oracle->last = qci_calloc(classes, sizeof *oracle->last);
    if (!useful || !oracle->items || !oracle->first || !oracle->last)
        status = qci_no_memory(err);
    else if (oracle->shared)
        list_shared(oracle, useful);
    else
        list_classes(oracle, useful);
    qci_free(useful);
    return status;
}

static int64_t *line(const qci_oracle *oracle, int32_t i)
{
    return oracle->across + (int64_t)i * (oracle->cells_x + 1);
}

static int64_t most_pieces(const qci_oracle *oracle, const qci_lay *lay,
                           int64_t width)
{
    int64_t limit = oracle->prices->limit[lay->row];
    int64_t room = width / lay->width;

    return room < limit ? room : limit;
}

/* to[x] = max over c <= limit of c * value + from[x - c * cells], by a sliding
 * maximum along each residue: constant work a cell. */
static void add_bounded(qci_oracle *oracle, const int64_t *from, int64_t *to,
                        int64_t cells, int64_t value, int64_t limit)
{
    int64_t *key = oracle->scratch;
    int32_t *queue = oracle->queue;

    for (int64_t rest = 0; rest < cells && rest <= oracle->cells_x; rest++) {
        int32_t head = 0, tail = 0;

        for (int64_t j = 0, x = rest; x <= oracle->cells_x; j++, x += cells) {
            key[j] = from[x] - j * value;
            while (tail > head && key[queue[tail - 1]] <= key[j])
                tail--;
            queue[tail++] = (int32_t)j;
            if (queue[head] < j - limit)
                head++;
            to[x] = key[queue[head]] + j * value;
        }
    }
}

static void add_unbounded(const qci_oracle *oracle, const int64_t *from,
                          int64_t *to, int64_t cells, int64_t value)
{
    for (int64_t x = 0; x <= oracle->cells_x; x++) {
        to[x] = from[x];
        if (x >= cells && to[x - cells] + value > to[x])
            to[x] = to[x - cells] + value;
    }
}

/* A row with bonuses: every count is tried. */
static void add_counted(const qci_oracle *oracle, const int64_t *from,
                        int64_t *to, int64_t cells, int32_t row, int64_t limit)
{
    for (int64_t x = 0; x <= oracle->cells_x; x++)
        to[x] = from[x];
    for (int64_t c = 1; c <= limit; c++) {
        int64_t worth = qci_row_worth(oracle, row, c);

        for (int64_t x = c * cells; x <= oracle->cells_x; x++)
            if (from[x - c * cells] + worth > to[x])
                to[x] = from[x - c * cells] + worth;
    }
}

static void add_item(qci_oracle *oracle, int32_t lay_index, const int64_t *from,
                     int64_t *to)
{
    const qci_lay *lay = &oracle->model->lays[lay_index];
    int64_t cells = lay->width / oracle->unit_x;
    int64_t value = oracle->prices->value[lay->row];
    int64_t limit = most_pieces(oracle, lay, oracle->model->width);
    bool bonus =
        oracle->bonus_first[lay->row] < oracle->bonus_first[lay->row + 1];

    if (bonus)
        add_counted(oracle, from, to, cells, lay->row, limit);
    else if (cells == 0)
        for (int64_t x = 0; x <= oracle->cells_x; x++)
            to[x] = from[x] + limit * value;
    else if (limit >= oracle->cells_x / cells)
        add_unbounded(oracle, from, to, cells, value);
    else
        add_bounded(oracle, from, to, cells, value, limit);
}

/* Tables of items [first, last): line i belongs to item first + i. */
static void fill(qci_oracle *oracle, int32_t first, int32_t last)
{
    int64_t *end = line(oracle, last - first);

    for (int64_t x = 0; x <= oracle->cells_x; x++)
        end[x] = 0;
    for (int32_t i = last - 1; i >= first; i--)
        add_item(oracle, oracle->items[i], line(oracle, i - first + 1),
                 line(oracle, i - first));
}

void qci_flat_tables(qci_oracle *oracle)
{
    if (oracle->shared)
        fill(oracle, 0, oracle->model->row_count);
}

/* `base` is the item that line 0 belongs to. */
static void walk(qci_oracle *oracle, int32_t base, int32_t item, int32_t last,
                 int64_t width, int64_t value);

static void walk_count(qci_oracle *oracle, int32_t base, int32_t item,
                       int32_t last, int64_t width, int64_t value, int64_t n)
{
    const qci_lay *lay = &oracle->model->lays[oracle->items[item]];

    if (oracle->walk_length + n > QCI_SEQUENCE_LIMIT) {
        oracle->capped = true;
        return;
    }
    for (int64_t i = 0; i < n; i++)
        oracle->walk[oracle->walk_length++] = oracle->items[item] | QCI_OPEN;
    walk(oracle, base, item + 1, last, width - n * lay->width,
         value + qci_row_worth(oracle, lay->row, n));
    oracle->walk_length -= (int32_t)n;
}

/* The count that the table promises most for. */
static int64_t best_count(const qci_oracle *oracle, int32_t base, int32_t item,
                          int64_t width, int64_t most)
{
    const qci_lay *lay = &oracle->model->lays[oracle->items[item]];
    const int64_t *next = line(oracle, item - base + 1);
    int64_t best = 0, best_worth = INT64_MIN;

    for (int64_t n = most; n >= 0; n--) {
        int64_t worth = qci_row_worth(oracle, lay->row, n) +
                        next[(width - n * lay->width) / oracle->unit_x];

        if (worth > best_worth) {
            best_worth = worth;
            best = n;
        }
    }
    return best;
}

static void walk(qci_oracle *oracle, int32_t base, int32_t item, int32_t last,
                 int64_t width, int64_t value)
{
    int64_t most, first;

    if (value + line(oracle, item - base)[width / oracle->unit_x] <=
        oracle->best_value)
        return;
    if (item == last) {
        qci_walk_keep(oracle, value);
        return;
    }
    if (++oracle->nodes > oracle->prices->node_limit) {
        oracle->capped = true;
        return;
    }
    most =
        most_pieces(oracle, &oracle->model->lays[oracle->items[item]], width);
    first = best_count(oracle, base, item, width, most);
    walk_count(oracle, base, item, last, width, value, first);
    for (int64_t n = most; n >= 0 && !oracle->capped; n--)
        if (n != first)
            walk_count(oracle, base, item, last, width, value, n);
}

int64_t qci_flat_price(qci_oracle *oracle, int32_t cls)
{
    int32_t first = oracle->first[cls], last = oracle->last[cls];
    int32_t base = oracle->shared ? 0 : first;
    int64_t promise;

    if (!oracle->shared)
        fill(oracle, first, last);
    promise = line(oracle, first - base)[oracle->cells_x];
    walk(oracle, base, first, last, oracle->model->width, 0);
    return oracle->capped || promise < oracle->best_value ? promise
                                                          : oracle->best_value;
}
