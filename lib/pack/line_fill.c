/* Each strip takes the widest piece that is left, and of the rest the pieces
 * that fill it best, few and wide ones rather than many (the idea is that of
 * J. N. D. Gupta and J. C. Ho, Prod. Plan. Control 10:598-603, 1999, from
 * memory; found here by sets of the widths that can be filled, a bit each).
 * A pattern is cut as often as the need allows. Cost: rows x width / 64 for a
 * pattern. */
#include "pack/line_fill.h"

#include <string.h>

/* Words of all sets (32 MiB): where more were needed, pieces are taken in turn.
 */
#define MOST_WORDS (INT64_C(1) << 22)

bool qci_line_filler_init(qci_line_filler *f, int32_t rows, int32_t width,
                          const int64_t *widths)
{
    *f = (qci_line_filler){.rows = rows, .width = width, .widths = widths};
    f->words = (size_t)width / 64 + 1;
    if ((int64_t)f->words * (rows + 1) > MOST_WORDS)
        return true;
    f->sets = qci_calloc((size_t)(rows + 1) * f->words, sizeof *f->sets);
    return f->sets;
}

void qci_line_filler_clear(qci_line_filler *f)
{
    qci_free(f->sets);
    qci_vec_clear(&f->lines);
    qci_vec_clear(&f->found);
}

static uint64_t *set(const qci_line_filler *f, size_t line)
{
    return f->sets + line * f->words;
}

static bool has(const qci_line_filler *f, size_t line, int32_t x)
{
    return set(f, line)[x / 64] >> (x % 64) & 1;
}

/* to |= from, every width in it more by `by`. */
static void add_shifted(const qci_line_filler *f, const uint64_t *from,
                        uint64_t *to, int32_t by)
{
    size_t skip = (size_t)by / 64;
    int shift = by % 64;

    for (size_t i = f->words; i-- > skip;) {
        uint64_t word = from[i - skip] << shift;

        if (shift && i > skip)
            word |= from[i - skip - 1] >> (64 - shift);
        to[i] |= word;
    }
}

/* The widths that rows with something left can fill, row by row. */
static bool fill_sets(qci_line_filler *f, const int64_t *need, int32_t width)
{
    memset(set(f, 0), 0, f->words * sizeof(uint64_t));
    set(f, 0)[0] = 1;
    f->lines.count = 0;
    for (int32_t row = 0; row < f->rows; row++) {
        size_t at = f->lines.count;
        int32_t w = (int32_t)f->widths[row];
        int64_t most = width / w < need[row] ? width / w : need[row];

        if (most <= 0)
            continue;
        memcpy(set(f, at + 1), set(f, at), f->words * sizeof(uint64_t));
        for (int64_t n = 1; n <= most; n++)
            add_shifted(f, set(f, at), set(f, at + 1), (int32_t)n * w);
        if (!qci_vec_push(&f->lines, row))
            return false;
    }
    return true;
}

/* Of the narrow rows as few as can be. */
static bool read_sets(qci_line_filler *f, int32_t x)
{
    for (size_t at = f->lines.count; at-- > 0;) {
        int32_t row = f->lines.at[at], w = (int32_t)f->widths[row], n = 0;

        for (; !has(f, at, x); n++)
            x -= w;
        if (n && !qci_vec_push(&f->found, (qci_count){row, n}))
            return false;
    }
    return true;
}

static int64_t times_of(const qci_line_filler *f, const int64_t *need)
{
    int64_t times = INT64_MAX;

    for (size_t i = 0; i < f->found.count; i++) {
        int64_t n = need[f->found.at[i].row] / f->found.at[i].count;

        times = n < times ? n : times;
    }
    return times;
}

/* The widest piece that still fits, again and again. */
static bool fill_in_turn(qci_line_filler *f, const int64_t *need)
{
    int64_t left = f->width;
    bool done = true;

    f->found.count = 0;
    for (int32_t row = 0; row < f->rows && done; row++) {
        int64_t n = left / f->widths[row];

        n = n < need[row] ? n : need[row];
        left -= n * f->widths[row];
        if (n)
            done = qci_vec_push(&f->found, (qci_count){row, (int32_t)n});
    }
    return done;
}

/* A pattern with one piece of the row, filled from the others. */
static bool fill_best(qci_line_filler *f, int64_t *need, int32_t row)
{
    int32_t x = f->width - (int32_t)f->widths[row];
    bool done;

    need[row]--;
    done = fill_sets(f, need, x);
    need[row]++;
    while (done && !has(f, f->lines.count, x))
        x--;
    f->found.count = 0;
    done = done && read_sets(f, x);
    for (size_t i = 0; i < f->found.count; i++)
        if (f->found.at[i].row == row) {
            f->found.at[i].count++;
            return done;
        }
    return done && qci_vec_push(&f->found, (qci_count){row, 1});
}

bool qci_line_fill(qci_line_filler *f, int64_t *need, int64_t most,
                   qci_line_plan *plan, bool *done)
{
    int32_t row = 0;

    *done = false;
    while (plan->strips <= most) {
        int64_t times;

        while (row < f->rows && need[row] <= 0)
            row++;
        *done = row == f->rows;
        if (*done)
            return true;
        if (!(f->sets ? fill_best(f, need, row) : fill_in_turn(f, need)))
            return false;
        times = times_of(f, need);
        for (size_t i = 0; i < f->found.count; i++)
            need[f->found.at[i].row] -= times * f->found.at[i].count;
        if (!qci_line_plan_add(plan, f->found.at, (int32_t)f->found.count,
                               times))
            return false;
    }
    return true;
}
