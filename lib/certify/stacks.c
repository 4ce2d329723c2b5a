/* Strips whose sections hold stacks, and strips with slanted pieces.
 *
 * A section is opened by its widest piece, others lie on it from the widest
 * down; sections come in the order of their openers, and after them what lies
 * alone. The tables count every form as often as it fits: up[i] what forms i..
 * add in so much height, across[i] what sections opened by forms i.. add in so
 * much width, path what lies alone adds beside a lean. The walk keeps to the
 * numbers that are needed, goes on only where the tables promise more than the
 * limit, and never from where it has been: what is held decides what the strip
 * is worth so far, whatever the order. */
#include <string.h>

#include "certify/pricer.h"

#define NEVER (INT64_MIN / 4)

/* Where the walk stands: the last opener, room beside and above it, the lean of
 * the last edge and its line; what the pieces so far are worth, and what the
 * tables say. */
typedef struct spot {
    int32_t open, line;
    int64_t width, rest, lean;
    int64_t worth, promise;
} spot;

static int64_t *across(const qci_pricer *p, int32_t i)
{
    return p->across + (int64_t)i * (p->cells_x + 1);
}

static int64_t *up(const qci_pricer *p, int32_t i)
{
    return p->up + (int64_t)i * (p->cells_y + 1);
}

static int64_t *path(const qci_pricer *p, int32_t lean)
{
    return p->path + (int64_t)lean * (p->cells_x + 1);
}

static int64_t share(const qci_pricer *p, int32_t i)
{
    return p->share[p->forms[i]->kind] * p->forms[i]->yields;
}

/* to[x] = the best of from[x] and one more of `cells` that is worth `worth`; of
 * what is smaller than a cell, as many as fit into `room` in truth. */
static void add(const int64_t *from, int64_t *to, int64_t last, int64_t cells,
                int64_t worth, int64_t room)
{
    for (int64_t x = 0; x <= last; x++) {
        to[x] = from[x];
        if (!cells)
            to[x] += worth > 0 ? room * worth : 0;
        else if (x >= cells && to[x - cells] > NEVER / 2 &&
                 to[x - cells] + worth > to[x])
            to[x] = to[x - cells] + worth;
    }
}

void qci_stacks_take(qci_pricer *p)
{
    for (int64_t y = 0; y <= p->cells_y; y++)
        up(p, p->square)[y] = y && p->fills ? NEVER : 0;
    for (int32_t i = p->square - 1; i >= 0; i--)
        add(up(p, i + 1), up(p, i), p->cells_y, p->forms[i]->height / p->unit_y,
            share(p, i), p->top / p->forms[i]->height);
}

static int64_t wedge(int64_t a, int64_t b)
{
    return (a < b ? b - a : a - b) / 2;
}

/* One line of `path` at one cell; each form takes a cell at least. */
static int64_t path_at(const qci_pricer *p, int64_t lean, int64_t x)
{
    int64_t best = x >= wedge(lean, 0) / p->unit_x ? 0 : NEVER;

    for (int32_t i = p->square; i < p->all; i++) {
        const qci_proof_form *form = p->forms[i];
        int64_t cells = (form->width + wedge(lean, form->left)) / p->unit_x;
        int64_t gain;

        if (x < cells || !qci_pricer_fits(p, form))
            continue;
        gain = share(p, i) + path(p, p->leaning[i])[x - cells];
        if (gain > best)
            best = gain;
    }
    return best;
}

static void fill_path(const qci_pricer *p)
{
    for (int64_t x = 0; x <= p->cells_x; x++) {
        path(p, 0)[x] = path_at(p, 0, x);
        for (int32_t i = p->square; i < p->all; i++)
            if (p->leaning[i] == i - p->square + 1)
                path(p, p->leaning[i])[x] = path_at(p, p->forms[i]->right, x);
    }
}

/* What forms from `from` on add to a section with this much room above: where
 * stacks must fill their strip, to one of its heights. */
static int64_t best_up(const qci_pricer *p, int32_t from, int64_t rest)
{
    int64_t last = p->fills ? rest - (p->high - p->low) : rest, best = NEVER;

    for (int64_t y = rest / p->unit_y; y >= 0 && (y + 1) * p->unit_y > last;
         y--)
        if (up(p, from)[y] > best)
            best = up(p, from)[y];
    return best;
}

/* What sections are worth, and lone forms. */
static void fill_sections(const qci_pricer *p)
{
    for (int32_t i = 0; i < p->all; i++) {
        const qci_proof_form *form = p->forms[i];

        p->section[i] = NEVER;
        if (!qci_pricer_fits(p, form))
            continue;
        p->section[i] = share(p, i);
        if (i < p->square && p->proof->stacks)
            p->section[i] += best_up(p, i, p->high - form->height);
    }
}

static void fill_across(const qci_pricer *p)
{
    for (int64_t x = 0; x <= p->cells_x; x++)
        across(p, p->square)[x] = path(p, 0)[x];
    for (int32_t i = p->square - 1; i >= 0; i--)
        add(across(p, i + 1), across(p, i), p->cells_x,
            p->forms[i]->width / p->unit_x,
            p->section[i] > 0 ? p->section[i] : 0,
            p->proof->width / p->forms[i]->width);
}

static bool is_left(const qci_pricer *p, int32_t i)
{
    return p->held[p->forms[i]->kind] < p->needed[p->forms[i]->kind];
}

/* Adds form i to the strip and what it is worth to the spot. */
static void put(qci_pricer *p, spot *s, int32_t i)
{
    int64_t kind = p->forms[i]->kind, had = p->held[kind];

    p->held[kind] += p->forms[i]->yields;
    s->worth += qci_pricer_worth(p, kind, p->held[kind]) -
                qci_pricer_worth(p, kind, had);
    s->promise += share(p, i);
}

static void take_off(qci_pricer *p, int32_t i)
{
    p->held[p->forms[i]->kind] -= p->forms[i]->yields;
}

static bool goes_on(qci_pricer *p, int64_t promise)
{
    return promise > p->limit && !p->above && qci_pricer_step(p);
}

/* Has the walk been at this place with as much room, holding the same? What
 * can be worth more from here on it has seen then. When the table is full, new
 * places are no longer noted. */
static bool was_here(qci_pricer *p, int64_t place, int64_t width)
{
    size_t kinds = (size_t)p->proof->kind_count, size = kinds + 2;
    uint64_t hash = (uint64_t)place + 1;

    for (size_t k = 0; k < kinds; k++)
        hash = (hash ^ (uint64_t)p->held[k]) * UINT64_C(0x9E3779B97F4A7C15);
    for (size_t i = (size_t)(hash >> 32);; i++) {
        int64_t *entry = p->seen + (i & (p->seen_room - 1)) * size;

        if (!entry[0]) {
            if (2 * p->seen_count >= p->seen_room)
                return false;
            p->seen_count++;
            entry[1] = place;
            memcpy(entry + 2, p->held, kinds * sizeof *entry);
        } else if (entry[1] != place ||
                   memcmp(entry + 2, p->held, kinds * sizeof *entry) != 0) {
            continue;
        }
        if (width < entry[0])
            return true;
        entry[0] = width + 1;
        return false;
    }
}

static void walk_alone(qci_pricer *p, spot s)
{
    if (was_here(p, -1 - s.line, s.width))
        return;
    for (int32_t i = p->square; i < p->all; i++) {
        const qci_proof_form *form = p->forms[i];
        spot next = s;

        if (!qci_pricer_fits(p, form) || !is_left(p, i))
            continue;
        next.width -= form->width + wedge(s.lean, form->left);
        next.lean = form->right;
        next.line = p->leaning[i];
        if (next.width < wedge(next.lean, 0) ||
            !goes_on(p, s.promise + share(p, i) +
                            path(p, p->leaning[i])[next.width / p->unit_x]))
            continue;
        put(p, &next, i);
        p->above = next.worth > p->limit;
        walk_alone(p, next);
        take_off(p, i);
    }
}

static void walk_sections(qci_pricer *p, spot s);

/* The section in hand may take forms from `from` on, or be closed. */
static void walk_up(qci_pricer *p, spot s, int32_t from)
{
    int64_t beside = across(p, s.open)[s.width / p->unit_x];

    if (!goes_on(p, s.promise + best_up(p, from, s.rest) + beside))
        return;
    for (int32_t i = from; i < p->square; i++) {
        spot next = s;

        next.rest -= p->forms[i]->height;
        if (next.rest < 0 || !is_left(p, i))
            continue;
        put(p, &next, i);
        walk_up(p, next, i);
        take_off(p, i);
    }
    if (!p->exact || s.rest <= p->high - p->low)
        walk_sections(p, s);
}

static void walk_sections(qci_pricer *p, spot s)
{
    p->above = p->above || s.worth > p->limit;
    if (!goes_on(p, s.promise + across(p, s.open)[s.width / p->unit_x]) ||
        was_here(p, s.open, s.width))
        return;
    for (int32_t i = s.open; i < p->square; i++) {
        spot next = s;

        next.width -= p->forms[i]->width;
        next.rest = p->high - p->forms[i]->height;
        next.open = i;
        if (next.width < 0 || p->section[i] <= NEVER / 2 || !is_left(p, i) ||
            s.promise + p->section[i] + across(p, i)[next.width / p->unit_x] <=
                p->limit)
            continue;
        put(p, &next, i);
        if (p->proof->stacks)
            walk_up(p, next, i);
        else
            walk_sections(p, next);
        take_off(p, i);
    }
    walk_alone(p, s);
}

void qci_stacks_ask(qci_pricer *p)
{
    fill_sections(p);
    if (qci_pricer_within(p, p->section))
        return;
    fill_path(p);
    fill_across(p);
    if (p->seen_count)
        memset(p->seen, 0,
               p->seen_room * ((size_t)p->proof->kind_count + 2) *
                   sizeof *p->seen);
    p->seen_count = 0;
    walk_sections(p, (spot){.width = p->proof->width});
}
