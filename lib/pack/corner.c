/* The program's solution made whole (Gomory's corner relaxation, searched).
 *
 * Take a few strips of patterns outside the basis, and surplus. What is then
 * left to cut fixes how many strips of each pattern of the basis there are, and
 * they are whole numbers just when residues agree. What it all costs beyond the
 * program is the reduced costs of the few. There are as many residues as the
 * basis has determinant, 1e7 for ten rows, 1e14 for twenty; so some choice of
 * eight cheap strips agrees, but it is not soon tried. Four lists of heaps of
 * one or two strips are made. Of pairs from the first two those are noted whose
 * residues add up to a number in some window; pairs from the others, which lack
 * as much, look for them. In a pass the cube of what is listed is tried so. Of
 * what agrees, that is a plan in which no number of strips is below 0. */
#include <math.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/corner_inner.h"

/* Pairs of one residue that are found again. */
#define ALIKE 4
#define NOISE 1e-6
/* Pairs of a pass, at least; and how many times as many are looked at, where
 * residues lie unevenly. */
#define PAIRS 4096
#define UNEVEN 8
/* Pairs that take as long as one choice that agrees. */
#define TRIAL 16
/* Passes at the lowest level. */
#define PASSES 2
/* Heaps and pairs that take as long as a linear program. */
#define WORK_ROUND 4000

static uint64_t key_of(qci_residue r)
{
    uint64_t key = 0;

    for (int i = 0; i < QCI_RESIDUES; i++)
        key = (key ^ (uint64_t)r.part[i]) * 0x9E3779B97F4A7C15;
    return (key ^ key >> 32) * 0xD6E8FEB86659FD93;
}

/* --- plans --------------------------------------------------------------- */

static void take_heap(qci_cornering *c, const qci_heap *heap)
{
    for (int32_t i = 0; i < heap->count; i++) {
        const qci_corner_item *item = &c->items.at[heap->item[i]];

        if (!item->pattern)
            c->need[item->row]++;
        for (int32_t k = 0; item->pattern && k < item->pattern->row_count; k++)
            c->need[item->pattern->rows[k].row] -= item->pattern->rows[k].count;
    }
}

static bool add_heap(const qci_cornering *c, qci_solution *found,
                     const qci_heap *heap)
{
    bool ok = true;

    for (int32_t i = 0; i < heap->count && ok; i++)
        if (c->items.at[heap->item[i]].pattern)
            ok = qci_solution_add(found, c->items.at[heap->item[i]].pattern, 1);
    return ok;
}

static bool add_basis(const qci_cornering *c, qci_solution *found)
{
    bool ok = true;

    for (int32_t i = 0; i < c->basis.count && ok; i++)
        if (c->basis.pattern[i] && c->basis.move[i] > 0.0)
            ok = qci_solution_add(found, c->basis.pattern[i],
                                  (int64_t)c->basis.move[i]);
    return ok;
}

/* Takes it over, if it is a plan and lower; what is cheaper is wanted then. */
static bool keep(qci_cornering *c, const qci_solution *found)
{
    if (found->height > c->plan.cap || !qci_solution_covers(found, c->model))
        return true;
    c->spare -= (double)(c->plan.cap - found->height + 1);
    c->plan.cap = found->height - 1;
    return qci_solution_copy(c->out, found);
}

static void try_heaps(qci_cornering *c, const qci_heap *const heap[QCI_LISTS])
{
    qci_solution found = {0};
    bool ok = true;

    c->looks += TRIAL;
    memcpy(c->need, c->model->demand, (size_t)c->basis.count * sizeof *c->need);
    for (int i = 0; i < QCI_LISTS; i++)
        take_heap(c, heap[i]);
    if (!qci_basis_fill(&c->basis, c->need))
        return;
    for (int i = 0; i < QCI_LISTS && ok; i++)
        ok = add_heap(c, &found, heap[i]);
    ok = ok && add_basis(c, &found) && keep(c, &found);
    qci_solution_clear(&found);
    c->failed = c->failed || !ok;
}

/* --- pairs --------------------------------------------------------------- */

typedef void pair_fn(qci_cornering *c, const qci_heap *a, const qci_heap *b);

/* Pairs of two lists that may be looked at in a pass. */
static int64_t most_looks(const qci_cornering *c)
{
    int64_t heaps = (int64_t)c->list[0].count;

    return UNEVEN * (heaps > PAIRS ? heaps : PAIRS);
}

/* Pairs of two lists whose residues add up to a number from `low` on, below
 * low + size. */
static void go_through(qci_cornering *c, int first, int64_t low, int64_t size,
                       pair_fn *told)
{
    int64_t modulus = c->basis.modulus, before = -1;
    size_t count = c->list[first + 1].count, from = count;
    const qci_heap *others = c->list[first + 1].at;

    c->looks = 0;
    for (size_t i = 0; i < c->list[first].count && !c->failed; i++) {
        const qci_heap *a = &c->list[first].at[i];
        int64_t start = low - a->residue.part[0];

        start += start < 0 ? modulus : 0;
        if (start > before)
            from = count;
        before = start;
        while (from && others[from - 1].residue.part[0] >= start)
            from--;
        for (size_t n = 0, k = from; n < count; n++, k++) {
            int64_t off;

            k = k == count ? 0 : k;
            off = others[k].residue.part[0] - start;
            off += off < 0 ? modulus : 0;
            if (off >= size || c->looks++ > most_looks(c))
                break;
            if (a->cost + others[k].cost <= c->spare + NOISE)
                told(c, a, &others[k]);
        }
    }
}

static void note(qci_cornering *c, const qci_heap *a, const qci_heap *b)
{
    qci_heap_pair p = {
        key_of(qci_residue_sum(&c->basis, a->residue, b->residue)),
        a->cost + b->cost, (int32_t)(a - c->list[0].at),
        (int32_t)(b - c->list[1].at)};

    c->failed = c->failed || !qci_vec_push(&c->pairs, p);
}

/* Pairs noted that make up for what this one lacks. */
static void match(qci_cornering *c, const qci_heap *a, const qci_heap *b)
{
    size_t mask = ((size_t)1 << c->bits) - 1;
    uint64_t key = key_of(
        qci_residue_minus(&c->basis, c->target,
                          qci_residue_sum(&c->basis, a->residue, b->residue)));

    for (size_t at = (size_t)(key >> (64 - c->bits)); c->slots[at];
         at = (at + 1) & mask) {
        const qci_heap_pair *p = &c->pairs.at[c->slots[at] - 1];

        if (p->key == key && a->cost + b->cost + p->cost <= c->spare + NOISE)
            try_heaps(c, (const qci_heap *[QCI_LISTS]){
                             &c->list[0].at[p->a], &c->list[1].at[p->b], a, b});
    }
}

static void fill_slots(qci_cornering *c)
{
    size_t slots;

    for (c->bits = 4; c->pairs.count * 2 > (size_t)1 << c->bits;)
        c->bits++;
    slots = (size_t)1 << c->bits;
    qci_free(c->slots);
    c->slots = qci_calloc(slots, sizeof *c->slots);
    c->failed = c->failed || !c->slots;
    for (size_t i = 0; i < c->pairs.count && !c->failed; i++) {
        size_t at = (size_t)(c->pairs.at[i].key >> (64 - c->bits));
        int alike = 0;

        for (; c->slots[at]; at = (at + 1) & (slots - 1))
            alike += c->pairs.at[c->slots[at] - 1].key == c->pairs.at[i].key;
        if (alike < ALIKE)
            c->slots[at] = (int32_t)i + 1;
    }
}

/* Width of a window into which as many pairs fall as there are heaps. */
static int64_t window(const qci_cornering *c)
{
    double pairs = (double)c->list[0].count * (double)c->list[1].count;
    double share = fmax((double)c->list[0].count, PAIRS) / pairs;

    return share < 1.0 ? (int64_t)((double)c->basis.modulus * share) + 1
                       : c->basis.modulus;
}

/* Pairs in the window from `low` on, and those that may go with them. */
static void pass(qci_cornering *c, int64_t low, int64_t size)
{
    int64_t other = (c->target.part[0] - low - size + 1) % c->basis.modulus;

    c->pairs.count = 0;
    go_through(c, 0, low, size, note);
    c->work += c->looks;
    if (!c->failed)
        fill_slots(c);
    go_through(c, 2, other < 0 ? other + c->basis.modulus : other, size, match);
    c->work += c->looks;
}

static void search(qci_cornering *c)
{
    int64_t left = c->basis.modulus, size;
    int64_t low = (int64_t)(c->plan.turn * 0x9E3779B97F4A7C15 % (uint64_t)left);

    for (int32_t row = 0; row < c->basis.count; row++)
        c->target = qci_residue_plus(
            &c->basis, c->target, c->basis.residue[row], c->model->demand[row]);
    qci_corner_list(c);
    size = window(c);
    for (int n = 0; n < PASSES << c->plan.level && left > 0; n++) {
        if (c->failed || c->spare < 0.0 || qci_master_stopped(c->master))
            return;
        size = size < left ? size : left;
        pass(c, low, size);
        low = (low + size) % c->basis.modulus;
        left -= size;
    }
}

/* Patterns of the list become the pool's. */
static qc_status adopt(qci_cornering *c, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < c->out->uses.count && !status; i++) {
        const qci_pattern *p = c->out->uses.at[i].pattern;
        qci_pattern *copy =
            qci_pattern_create(c->model, p->cls, p->sequence, p->length);

        status = copy ? qci_master_add(c->master, copy,
                                       &c->out->uses.at[i].pattern, err)
                      : qci_no_memory(err);
    }
    return status;
}

qc_status qci_corner(qci_master *master, qci_corner_plan plan,
                     qci_solution *out, qc_error *err)
{
    qci_cornering c = {.master = master,
                       .model = master->model,
                       .plan = plan,
                       .out = out,
                       .spare =
                           (double)plan.cap - qci_lp_objective(master->lp)};
    qc_status status;

    qci_solution_clear(out);
    if (c.spare < 0.0 || c.model->exact)
        return QC_STATUS_OK;
    c.failed = !qci_basis_create(&c.basis, master);
    c.need = qci_calloc((size_t)c.model->row_count, sizeof *c.need);
    c.failed = c.failed || !c.need;
    if (!c.failed && c.basis.modulus)
        search(&c);
    master->rounds += c.work / WORK_ROUND;
    status = c.failed ? qci_no_memory(err) : adopt(&c, err);
    if (status)
        qci_solution_clear(out);
    qci_basis_clear(&c.basis);
    qci_vec_clear(&c.items);
    for (int i = 0; i < QCI_LISTS; i++)
        qci_vec_clear(&c.list[i]);
    qci_vec_clear(&c.pairs);
    qci_free(c.slots);
    qci_free(c.need);
    return status;
}
