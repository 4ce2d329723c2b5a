/* A bounded knapsack, by a table over the width where that is small: the lots
 * of a row hold 1, 2, 4, ... pieces, so that each is taken or left, and one
 * line of the table comes from the line before it without looking back at
 * itself. Best patterns that end with different lots come out of one table.
 *
 * Where the width has too many cells, by a walk: the pieces that are worth most
 * for their width first, pruned by what the width that is left can be worth,
 * which is exact as well unless the walk is cut short: then what is promised is
 * an upper bound. Cost: lots x width, or the nodes of the walk. */
#include "pack/line_price.h"

#include <stdlib.h>
#include <string.h>

/* Cells of a table (16 MiB). */
#define TABLE_CELLS (INT64_C(1) << 22)
/* Nodes of a walk; one that would take more promises what the width is worth.
 */
#define WALK_NODES (INT64_C(1) << 20)
/* Patterns out of one table. */
#define PATTERNS 8

bool qci_line_pricer_init(qci_line_pricer *pricer, int32_t rows, int32_t width,
                          const int64_t *widths)
{
    *pricer = (qci_line_pricer){.rows = rows, .width = width, .widths = widths};
    pricer->held = qci_calloc((size_t)rows, sizeof *pricer->held);
    return pricer->held;
}

void qci_line_pricer_clear(qci_line_pricer *pricer)
{
    qci_vec_clear(&pricer->lots);
    qci_vec_clear(&pricer->table);
    qci_vec_clear(&pricer->ends);
    qci_vec_clear(&pricer->entries);
    qci_vec_clear(&pricer->first);
    qci_free(pricer->held);
}

/* Ends a pattern: its entries have been pushed. */
static bool end_pattern(qci_line_pricer *p)
{
    return qci_vec_push(&p->first, (int32_t)p->entries.count);
}

/* --- by a table ---------------------------------------------------------- */

static bool list_lots(qci_line_pricer *p, const int32_t *value,
                      const int64_t *limit)
{
    p->lots.count = 0;
    for (int32_t row = 0; row < p->rows; row++) {
        int32_t width = (int32_t)p->widths[row];
        int64_t left = p->width / width;

        left = left < limit[row] ? left : limit[row];
        if (value[row] <= 0)
            continue;
        for (int32_t n = 1; left > 0; left -= n, n *= 2) {
            int32_t now = n < left ? n : (int32_t)left;

            if (!qci_vec_push(&p->lots, (qci_line_lot){row, now, now * width,
                                                       now * value[row]}))
                return false;
        }
    }
    return true;
}

static int32_t *line(const qci_line_pricer *p, size_t lots)
{
    return p->table.at + lots * (size_t)(p->width + 1);
}

static bool make_table(qci_line_pricer *p)
{
    size_t cells = (p->lots.count + 1) * (size_t)(p->width + 1);

    if (p->table.room >= cells)
        return true;
    qci_vec_clear(&p->table);
    p->table.at = qci_calloc(cells, sizeof *p->table.at);
    p->table.room = p->table.at ? cells : 0;
    return p->table.at;
}

static void add_lot(const int32_t *restrict from, int32_t *restrict to,
                    int32_t width, int32_t value, int32_t cells)
{
    memcpy(to, from, (size_t)width * sizeof *to);
    for (int32_t x = width; x <= cells; x++) {
        int32_t with = from[x - width] + value;

        to[x] = with > from[x] ? with : from[x];
    }
}

static void fill_table(qci_line_pricer *p)
{
    memset(line(p, 0), 0, (size_t)(p->width + 1) * sizeof(int32_t));
    for (size_t i = 0; i < p->lots.count; i++)
        add_lot(line(p, i), line(p, i + 1), p->lots.at[i].width,
                p->lots.at[i].value, p->width);
}

/* What the best pattern is worth whose last lot this is. */
static int32_t worth_ending(const qci_line_pricer *p, int32_t lot)
{
    const qci_line_lot *l = &p->lots.at[lot];

    return line(p, (size_t)lot)[p->width - l->width] + l->value;
}

static bool take_ending(qci_line_pricer *p, int32_t lot)
{
    int32_t x = p->width;
    bool done = true;

    for (size_t i = (size_t)lot + 1; i-- > 0 && done;) {
        const qci_line_lot *l = &p->lots.at[i];
        qci_count *last =
            p->entries.count ? &p->entries.at[p->entries.count - 1] : NULL;

        if (i != (size_t)lot && line(p, i + 1)[x] == line(p, i)[x])
            continue;
        x -= l->width;
        if (last && last->row == l->row &&
            (int32_t)p->entries.count > p->first.at[p->first.count - 1])
            last->count += l->count;
        else
            done = qci_vec_push(&p->entries, (qci_count){l->row, l->count});
    }
    return done && end_pattern(p);
}

/* The lots that the best patterns end with, at most PATTERNS, best first. */
static bool list_ends(qci_line_pricer *p, int32_t threshold)
{
    p->ends.count = 0;
    for (int32_t i = 0; i < (int32_t)p->lots.count; i++) {
        int32_t worth = worth_ending(p, i);
        size_t at;

        if (worth <= threshold)
            continue;
        if (p->ends.count == PATTERNS) {
            if (worth <= worth_ending(p, p->ends.at[PATTERNS - 1]))
                continue;
            p->ends.count--;
        }
        if (!qci_vec_push(&p->ends, i))
            return false;
        for (at = p->ends.count - 1;
             at > 0 && worth_ending(p, p->ends.at[at - 1]) < worth; at--)
            p->ends.at[at] = p->ends.at[at - 1];
        p->ends.at[at] = i;
    }
    return true;
}

static bool price_by_table(qci_line_pricer *p, int32_t threshold, int32_t *most)
{
    bool done = make_table(p);

    if (done)
        fill_table(p);
    if (done)
        *most = line(p, p->lots.count)[p->width];
    if (done && *most > threshold)
        done = list_ends(p, threshold);
    else
        p->ends.count = 0;
    for (size_t i = 0; i < p->ends.count && done; i++)
        done = take_ending(p, p->ends.at[i]);
    return done;
}

/* --- by a walk ----------------------------------------------------------- */

/* Most for their width first. */
static int compare_lots(const void *a, const void *b)
{
    const qci_line_lot *p = a, *q = b;
    int64_t more = (int64_t)p->value * q->width - (int64_t)q->value * p->width;

    if (more)
        return more > 0 ? -1 : 1;
    return (p->row > q->row) - (p->row < q->row);
}

typedef struct walk {
    qci_line_pricer *p;
    int32_t narrow; /* the narrowest piece */
    int32_t best;
    bool failed, cut_short;
} walk;

static bool take_walk(qci_line_pricer *p)
{
    bool done = true;

    for (size_t i = 0; i < p->lots.count && done; i++) {
        int32_t row = p->lots.at[i].row;

        if (p->held[row])
            done = qci_vec_push(&p->entries, (qci_count){row, p->held[row]});
    }
    return done && end_pattern(p);
}

/* One lot a row, of one piece; how many may be taken is in limit. */
static void step(walk *w, size_t from, int32_t width, int32_t value,
                 const int64_t *limit)
{
    qci_line_pricer *p = w->p;

    if (p->nodes++ >= WALK_NODES) {
        w->cut_short = true;
        return;
    }
    if (value > w->best) {
        w->best = value;
        w->failed = w->failed || !take_walk(p);
    }
    if (width < w->narrow)
        return;
    for (size_t i = from; i < p->lots.count && !w->failed && !w->cut_short;
         i++) {
        const qci_line_lot *l = &p->lots.at[i];
        int32_t most;

        if ((int64_t)(w->best - value) * l->width >= (int64_t)width * l->value)
            return;
        if (l->width > width)
            continue;
        most = width / l->width;
        most = most < limit[l->row] ? most : (int32_t)limit[l->row];
        for (int32_t n = most; n > 0 && !w->cut_short; n--) {
            p->held[l->row] = n;
            step(w, i + 1, width - n * l->width, value + n * l->value, limit);
        }
        p->held[l->row] = 0;
    }
}

/* No pattern is worth more than the width full of what is worth most for its
 * width; `found` is what one is worth. */
static int32_t worth_of_width(const qci_line_pricer *p, int32_t found)
{
    const qci_line_lot *l = &p->lots.at[0];
    int64_t full = ((int64_t)p->width * l->value + l->width - 1) / l->width;

    if (full > INT32_MAX)
        full = INT32_MAX;
    return full > found ? (int32_t)full : found;
}

static bool price_by_walk(qci_line_pricer *p, const int32_t *value,
                          const int64_t *limit, int32_t threshold,
                          int32_t *most)
{
    walk w = {.p = p, .narrow = p->width, .best = threshold};

    p->lots.count = 0;
    for (int32_t row = 0; row < p->rows; row++) {
        int32_t width = (int32_t)p->widths[row];

        if (value[row] <= 0 || limit[row] <= 0)
            continue;
        w.narrow = width < w.narrow ? width : w.narrow;
        if (!qci_vec_push(&p->lots, (qci_line_lot){row, 1, width, value[row]}))
            return false;
    }
    if (p->lots.count)
        qsort(p->lots.at, p->lots.count, sizeof *p->lots.at, compare_lots);
    step(&w, 0, p->width, 0, limit);
    *most = w.cut_short ? worth_of_width(p, w.best) : w.best;
    return !w.failed;
}

bool qci_line_price(qci_line_pricer *p, const int32_t *value,
                    const int64_t *limit, int32_t threshold, int32_t *most)
{
    p->entries.count = 0;
    p->first.count = 0;
    p->nodes = 0;
    if (!end_pattern(p) || !list_lots(p, value, limit))
        return false;
    if ((int64_t)(p->lots.count + 1) * (p->width + 1) <= TABLE_CELLS)
        return price_by_table(p, threshold, most);
    return price_by_walk(p, value, limit, threshold, most);
}
