/* The most that a strip can be worth.
 *
 * A strip is a row of sections. Each is opened by a form; where there are
 * stacks, others may lie on it, from the widest down. Sections come in the
 * order of their openers, those that lie alone last. Tables promise at least
 * what can be reached: lengths are counted in whole cells, rounded down, and
 * every form as often as its kind is needed. Where they promise more than the
 * limit a walk over the patterns keeps to the numbers that are needed, goes on
 * only while the tables promise too much, and never from where it has been:
 * what is held decides what the strip is worth so far, whatever the order. */
#include <string.h>

#include "base/error.h"
#include "certify/check.h"

#define NEVER (-(INT64_C(1) << 62))
#define SEEN_NUMBERS (1 << 19)
/* What a step of the walk takes, besides what it looks at. */
#define STEP_WORK 64

qc_status qci_price_begin(qci_checking *c, qc_error *err)
{
    const qci_proof *p = c->proof;
    size_t kinds = (size_t)p->kind_count, lines = p->forms.count + 1;

    c->exact = c->fills = p->stacks && !p->trim;
    c->forms = p->forms.at;
    for (; c->all < (int32_t)p->forms.count; c->all++)
        if (!qci_proof_alone(&c->forms[c->all])) {
            c->square++;
            c->fills &= c->forms[c->all].height % p->cell_along == 0;
        }
    c->cells_x = qci_proof_cells_across(p);
    c->cells_y = qci_proof_cells_along(p);
    for (c->seen_room = 2; 2 * c->seen_room * (kinds + 2) <= SEEN_NUMBERS;)
        c->seen_room *= 2;
    c->room = qci_calloc(1 + 3 * kinds + lines * (2 + c->cells_y + c->cells_x) +
                             SEEN_NUMBERS,
                         sizeof *c->room);
    if (!c->room)
        return qci_no_memory(err);
    c->needed = c->room;
    c->share = c->needed + kinds;
    c->place = c->share + kinds;
    c->held = c->place + 1;
    c->section = c->held + kinds;
    c->lines = c->section + lines;
    c->lines[0] = c->square;
    c->up = c->lines + lines;
    c->across = c->up + lines * c->cells_y;
    c->seen = c->across + lines * c->cells_x;
    for (size_t i = 0; i < p->pieces.count; i++)
        c->needed[p->pieces.at[i].kind] += p->pieces.at[i].count;
    return QC_STATUS_OK;
}

/* --- the tables ---------------------------------------------------------- */

static int64_t *up(const qci_checking *c, int32_t i)
{
    return c->up + (size_t)i * c->cells_y;
}

static int64_t *across(const qci_checking *c, int64_t i)
{
    return c->across + (size_t)i * c->cells_x;
}

/* to[x] = the best of from[x] and up to as many of form i as pieces are needed,
 * each `worth` so much on so many cells: what is worth less than nothing may be
 * what fills a stack. Powers of two and a rest add up to every number. */
static void add(qci_checking *c, const int64_t *from, int64_t *to, size_t end,
                int32_t i, size_t cells, int64_t worth)
{
    size_t left = (size_t)c->needed[c->forms[i].kind];

    memcpy(to, from, end * sizeof *to);
    c->work += (int64_t)end;
    for (size_t part = 1; left && part * cells < end; left -= part, part *= 2) {
        part = part < left ? part : left;
        c->work += (int64_t)end;
        for (size_t x = end; x-- > part * cells;)
            if (to[x - part * cells] + (int64_t)part * worth > to[x])
                to[x] = to[x - part * cells] + (int64_t)part * worth;
    }
}

/* A prize for q pieces is worth a q-th of it for each, at most. */
void qci_price_leaf(qci_checking *c)
{
    const qci_proof *p = c->proof;

    memcpy(c->share, c->leaf->values.at,
           (size_t)p->kind_count * sizeof *c->share);
    for (size_t i = 0; i < c->depth; i++) {
        const qci_proof_node *node = c->way[i].node;

        if (node->ask == QCI_ASK_KIND && c->leaf->weights.at[i] > 0)
            c->share[node->kind] +=
                (c->leaf->weights.at[i] + node->at - 1) / node->at;
    }
    for (size_t y = 1; y < c->cells_y; y++)
        up(c, c->square)[y] = c->fills ? NEVER : 0;
    for (int32_t i = c->square; p->stacks && i-- > 0;)
        add(c, up(c, i + 1), up(c, i), c->cells_y, i,
            (size_t)(c->forms[i].height / p->cell_along),
            c->share[c->forms[i].kind] * c->forms[i].yields);
}

/* Width lost between what a line follows and an edge that leans so: half of
 * what they lean apart. A line up to `square` follows an upright edge. */
static int64_t wedge(const qci_checking *c, int64_t line, int64_t left)
{
    int64_t lean = line > c->square ? c->forms[line - 1].right : 0;

    return (lean < left ? left - lean : lean - left) / 2;
}

/* What forms from `from` on add to a section with this much room above: where
 * stacks must fill their strip, to one of its heights. */
static int64_t best_up(qci_checking *c, int32_t from, int64_t rest)
{
    int64_t cell = c->proof->cell_along, best = NEVER;
    int64_t first = c->fills ? rest - (c->high - c->low) : rest;

    for (int64_t y = rest / cell; y >= 0 && (y + 1) * cell > first;
         y--, c->work++)
        if (up(c, from)[y] > best)
            best = up(c, from)[y];
    return best;
}

/* What a section is worth; NEVER where its form does not fit. */
static int64_t section_of(qci_checking *c, int32_t i)
{
    const qci_proof_form *form = &c->forms[i];
    bool stacks = c->proof->stacks && i < c->square;
    bool own = i >= c->square || (!stacks && !c->proof->trim);

    if (form->width > c->proof->width || form->height > c->high ||
        (own && form->height < c->low))
        return NEVER;
    return c->share[form->kind] * form->yields +
           (stacks ? best_up(c, i, c->high - form->height) : 0);
}

/* What may follow a form that lies alone, or no form yet. */
static int64_t best_alone(qci_checking *c, int64_t line, int64_t x)
{
    int64_t cell = c->proof->cell_across;
    int64_t best = x >= wedge(c, line, 0) / cell ? 0 : NEVER;

    c->work += c->line_count;
    for (int32_t n = 1; n < c->line_count; n++) {
        const qci_proof_form *form = &c->forms[c->lines[n] - 1];
        int64_t rest = x - (form->width + wedge(c, line, form->left)) / cell;
        int64_t worth = c->section[c->lines[n] - 1];

        if (rest >= 0 && worth + across(c, c->lines[n])[rest] > best)
            best = worth + across(c, c->lines[n])[rest];
    }
    return best;
}

/* Fills in the sections; and if the one that is worth most for its width, all
 * across, would be worth more than the limit, what may follow. */
static bool fill_across(qci_checking *c)
{
    bool more = false;

    c->work += c->all;
    c->line_count = 1;
    for (int32_t i = 0; i < c->all; i++) {
        qci_wide worth = c->section[i] = section_of(c, i);

        if (i >= c->square && worth > NEVER)
            c->lines[c->line_count++] = i + 1;
        more |= worth * c->proof->width / c->forms[i].width > c->limit;
    }
    for (size_t x = 0; x < c->cells_x && more; x++)
        for (int32_t n = 0; n < c->line_count; n++)
            across(c, c->lines[n])[x] = best_alone(c, c->lines[n], (int64_t)x);
    for (int32_t i = c->square; i-- > 0 && more;)
        add(c, across(c, i + 1), across(c, i), c->cells_x, i,
            (size_t)(c->forms[i].width / c->proof->cell_across),
            c->section[i] > 0 ? c->section[i] : 0);
    return more;
}

/* --- the walk ------------------------------------------------------------ */

/* Where it stands: the line of what may follow, room beside and above; what the
 * tables say of the pieces so far. */
typedef struct spot {
    int32_t line;
    int64_t width, rest, promise;
} spot;

/* What the strip in hand is worth in truth. */
static int64_t worth(const qci_checking *c)
{
    int64_t sum = 0;

    for (int64_t k = 0; k < c->proof->kind_count; k++)
        sum += c->leaf->values.at[k] * c->held[k];
    for (size_t i = 0; i < c->depth; i++) {
        const qci_proof_node *node = c->way[i].node;

        if (node->ask == QCI_ASK_KIND && c->held[node->kind] >= node->at)
            sum += c->leaf->weights.at[i];
    }
    return sum;
}

/* Has the walk been at this line with as much room, holding the same? What can
 * be worth more from here on it has seen then. When the table is full, new
 * places are no longer noted. */
static bool was_here(qci_checking *c, int64_t width)
{
    size_t size = (size_t)c->proof->kind_count + 1;
    uint64_t hash = 1;

    for (size_t k = 0; k < size; k++)
        hash = (hash ^ (uint64_t)c->place[k]) * UINT64_C(0x9E3779B97F4A7C15);
    for (size_t i = (size_t)(hash >> 32);; i++) {
        int64_t *entry = c->seen + (i & (c->seen_room - 1)) * (size + 1);

        if (!entry[0] && 2 * c->seen_count >= c->seen_room)
            return false;
        if (!entry[0])
            memcpy(entry + 1, c->place, size * sizeof *entry);
        if (memcmp(entry + 1, c->place, size * sizeof *entry) != 0)
            continue;
        c->seen_count += !entry[0];
        if (width < entry[0])
            return true;
        entry[0] = width + 1;
        return false;
    }
}

static void walk(qci_checking *c, spot s, int32_t from);

/* Adds form i, goes on from there, and takes it off again. */
static void walk_with(qci_checking *c, spot next, int32_t i)
{
    int64_t kind = c->forms[i].kind;

    if (c->held[kind] >= c->needed[kind])
        return;
    next.promise += c->share[kind] * c->forms[i].yields;
    c->held[kind] += c->forms[i].yields;
    walk(c, next, i);
    c->held[kind] -= c->forms[i].yields;
}

/* The section in hand may take forms from `from` on, or be closed: then another
 * may be opened. */
static void walk(qci_checking *c, spot s, int32_t from)
{
    int64_t cell = c->proof->cell_across;
    int64_t most = s.promise + across(c, s.line)[s.width / cell];

    c->work += STEP_WORK + c->all + c->proof->kind_count;
    if (c->above || c->work > QCI_MOST_WORK ||
        most + best_up(c, from, s.rest) <= c->limit)
        return;
    for (int32_t i = from; i < c->square; i++) {
        spot next = s;

        next.rest -= c->forms[i].height;
        if (next.rest >= 0)
            walk_with(c, next, i);
    }
    c->place[0] = s.line;
    if ((c->exact && s.rest > c->high - c->low) || most <= c->limit ||
        was_here(c, s.width))
        return;
    c->above = c->above || (s.promise > c->limit && worth(c) > c->limit);
    for (int32_t i = s.line < c->square ? s.line : c->square; i < c->all; i++) {
        const qci_proof_form *form = &c->forms[i];
        bool stacks = c->proof->stacks && i < c->square;
        spot next = s;

        next.line = i < c->square ? i : i + 1;
        next.width -= form->width + wedge(c, s.line, form->left);
        next.rest = stacks ? c->high - form->height : 0;
        if (next.width >= wedge(c, next.line, 0) && c->section[i] > NEVER / 2 &&
            s.promise + c->section[i] +
                    across(c, next.line)[next.width / cell] >
                c->limit)
            walk_with(c, next, i);
    }
}

bool qci_price_within(qci_checking *c, int64_t low, int64_t high)
{
    c->low = low;
    c->high = high;
    if (fill_across(c)) {
        if (c->seen_count)
            memset(c->seen, 0, SEEN_NUMBERS * sizeof *c->seen);
        c->work += c->seen_count ? SEEN_NUMBERS / 8 : 0;
        c->seen_count = 0;
        walk(c, (spot){.width = c->proof->width}, c->square);
    }
    return !c->above && c->work <= QCI_MOST_WORK;
}
