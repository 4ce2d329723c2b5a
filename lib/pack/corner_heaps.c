/* Strips that may join the basis, and heaps of them.
 *
 * Every fourth item goes to a list, so that no choice is met with twice. A list
 * has so many heaps that a pass over all pairs finds some choices that agree,
 * and no more: the cheapest are taken, and what is found is lower then. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "pack/corner_inner.h"

/* Strips of a heap, where there are many. */
#define DEEP 2
/* Choices of a pass that agree. */
#define WANTED 64.0
/* Heaps of a list at the lowest level, at least and at most; and ever. */
#define FEWEST 256
#define MOST 8192
#define ITEMS 60000

static qci_residue residue_of(const qci_basis *basis, const qci_pattern *p)
{
    qci_residue sum = {{0}};

    for (int32_t i = 0; i < p->row_count; i++)
        sum = qci_residue_plus(basis, sum, basis->residue[p->rows[i].row],
                               p->rows[i].count);
    return sum;
}

static double cost_of(const qci_cornering *c, const qci_pattern *p)
{
    double cost = (double)p->height;

    for (int32_t i = 0; i < p->row_count; i++)
        cost -=
            qci_lp_row_dual(c->master->lp, p->rows[i].row) * p->rows[i].count;
    return fmax(cost, 0.0);
}

static bool in_basis(const qci_basis *basis, const qci_pattern *p)
{
    for (int32_t i = 0; i < basis->count; i++)
        if (basis->pattern[i] == p)
            return true;
    return false;
}

static void add_item(qci_cornering *c, qci_corner_item item)
{
    if (item.cost <= c->spare && c->items.count < ITEMS && !c->failed)
        c->failed = !qci_vec_push(&c->items, item);
}

static void add_pattern(qci_cornering *c, const qci_pattern *p)
{
    double cost = cost_of(c, p);

    if (cost <= c->spare && !in_basis(&c->basis, p))
        add_item(c, (qci_corner_item){cost, residue_of(&c->basis, p), 0, p});
}

static int compare_residues(const qci_residue *a, const qci_residue *b)
{
    for (int i = 0; i < QCI_RESIDUES; i++)
        if (a->part[i] != b->part[i])
            return a->part[i] < b->part[i] ? -1 : 1;
    return 0;
}

static int compare_items(const void *a, const void *b)
{
    const qci_corner_item *p = a, *q = b;

    if (p->cost != q->cost)
        return p->cost < q->cost ? -1 : 1;
    return compare_residues(&p->residue, &q->residue);
}

/* Of those that cost the same and do the same one is enough. */
static void drop_twins(qci_cornering *c)
{
    size_t n = 0;

    for (size_t i = 0; i < c->items.count; i++)
        if (!n || compare_items(&c->items.at[n - 1], &c->items.at[i]) != 0)
            c->items.at[n++] = c->items.at[i];
    c->items.count = n;
}

static void list_items(qci_cornering *c)
{
    const qci_master *m = c->master;

    for (int32_t row = 0; row < c->basis.count; row++)
        add_item(c, (qci_corner_item){fmax(qci_lp_row_dual(m->lp, row), 0.0),
                                      qci_residue_minus(&c->basis,
                                                        (qci_residue){{0}},
                                                        c->basis.residue[row]),
                                      row, NULL});
    for (size_t i = 0; i < m->pool.count; i++)
        add_pattern(c, m->pool.at[i]);
    for (size_t i = 0; c->plan.every && i < c->plan.every->list.count; i++)
        add_pattern(c, c->plan.every->list.at[i].pattern);
    if (c->items.count)
        qsort(c->items.at, c->items.count, sizeof *c->items.at, compare_items);
    drop_twins(c);
}

/* What a list is made of: items from `first` on, every so many, before `end`.
 */
typedef struct choice {
    size_t first, end;
    int32_t deep; /* of a heap, at most */
} choice;

/* How many heaps of them there are, up to a number. */
static int32_t count_heaps(const qci_cornering *c, choice of, double left,
                           int32_t most)
{
    int32_t n = 1;

    for (size_t i = of.first; i < of.end && of.deep && n <= most;
         i += QCI_LISTS) {
        double cost = c->items.at[i].cost;

        if (cost > left)
            break;
        n += count_heaps(c, (choice){i, of.end, of.deep - 1}, left - cost,
                         most - n);
    }
    return n;
}

/* All items, in heaps as large as there is room for; or else so many of the
 * cheapest that there is room for all heaps. */
static choice choose_items(const qci_cornering *c, size_t first, int32_t most)
{
    size_t low = 0, high = c->items.count;
    choice of = {first, high, QCI_HEAP};

    for (; of.deep > DEEP; of.deep--)
        if (count_heaps(c, of, c->spare, most) <= most)
            return of;
    while (low < high) {
        of.end = (low + high + 1) / 2;
        if (count_heaps(c, of, c->spare, most) <= most)
            low = of.end;
        else
            high = of.end - 1;
    }
    of.end = low;
    return of;
}

/* The heap in hand, and those that are more than it. */
static void list_heaps(qci_cornering *c, int at, choice of,
                       const qci_heap *heap)
{
    c->failed = c->failed || !qci_vec_push(&c->list[at], *heap);
    for (size_t i = of.first; i < of.end && of.deep && !c->failed;
         i += QCI_LISTS) {
        qci_heap more = *heap;

        more.cost += c->items.at[i].cost;
        if (more.cost > c->spare)
            break;
        more.residue =
            qci_residue_sum(&c->basis, more.residue, c->items.at[i].residue);
        more.item[more.count++] = (uint16_t)i;
        list_heaps(c, at, (choice){i, of.end, of.deep - 1}, &more);
    }
}

static int compare_heaps(const void *a, const void *b)
{
    const qci_heap *p = a, *q = b;
    int order = compare_residues(&p->residue, &q->residue);

    return order ? order : memcmp(p->item, q->item, sizeof p->item);
}

/* Copies a list into shares of the modulus; end[] says where each one ends. */
static void share_out(const qci_heap *from, qci_heap *to, size_t n, size_t *end,
                      double scale)
{
    for (size_t i = 0; i < n; i++)
        end[(size_t)((double)from[i].residue.part[0] * scale) + 1]++;
    for (size_t i = 0; i < n; i++)
        end[i + 1] += end[i];
    for (size_t i = 0; i < n; i++)
        to[end[(size_t)((double)from[i].residue.part[0] * scale)]++] = from[i];
}

/* Sorts a list by residue. These lie evenly, so that few share a share. */
static bool sort_list(qci_cornering *c, int at)
{
    size_t n = c->list[at].count, start = 0;
    qci_heap *to = qci_calloc(n, sizeof *to);
    size_t *end = qci_calloc(n + 1, sizeof *end);
    bool ok = to && end;

    if (ok)
        share_out(c->list[at].at, to, n, end,
                  (double)(n - 1) / (double)c->basis.modulus);
    for (size_t i = 0; i < n && ok; start = end[i++])
        if (end[i] > start + 1)
            qsort(to + start, end[i] - start, sizeof *to, compare_heaps);
    qci_free(end);
    qci_free(ok ? c->list[at].at : to);
    if (!ok)
        return false;
    c->list[at].at = to;
    c->list[at].room = n;
    return true;
}

void qci_corner_list(qci_cornering *c)
{
    double wanted = cbrt(WANTED * (double)c->basis.modulus);
    int32_t most = wanted < MOST ? (int32_t)wanted : MOST;

    most = (most < FEWEST ? FEWEST : most) << c->plan.level;
    list_items(c);
    for (int i = 0; i < QCI_LISTS && !c->failed; i++) {
        list_heaps(c, i, choose_items(c, (size_t)i, most), &(qci_heap){0});
        c->work += (int64_t)c->list[i].count;
        c->failed = c->failed || !sort_list(c, i);
    }
}
