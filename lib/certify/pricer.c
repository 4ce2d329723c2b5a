/* The most that a strip can be worth: what both ways to tell need.
 *
 * Only bounds from above are made: lengths are counted in whole cells, rounded
 * down, so that a coarse table promises too much and never too little. Where
 * its promise is too high, the patterns themselves are walked. */
#include "certify/pricer.h"

#include <stdlib.h>

#include "base/error.h"
#include "base/gcd.h"
#include "base/wide.h"

/* Cells of a table, and cells across where pieces slant: their widths have no
 * common measure. */
#define TABLE_CELLS (INT64_C(1) << 21)
#define SLANT_CELLS 4000
#define SEEN_CELLS ((size_t)1 << 19)

static bool is_alone(const qci_proof_form *form)
{
    return form->left || form->right || form->outline;
}

static int compare(const void *a, const void *b)
{
    const qci_proof_form *p = *(const qci_proof_form *const *)a;
    const qci_proof_form *q = *(const qci_proof_form *const *)b;

    if (is_alone(p) != is_alone(q))
        return is_alone(p) ? 1 : -1;
    if (p->width != q->width)
        return p->width < q->width ? 1 : -1;
    return (p > q) - (p < q);
}

static void sort_forms(qci_pricer *p)
{
    const qci_proof *proof = p->proof;

    p->all = (int32_t)proof->forms.count;
    p->flat = !proof->stacks;
    p->exact = proof->stacks && !proof->trim;
    for (int32_t i = 0; i < p->all; i++) {
        const qci_proof_form *form = &proof->forms.at[i];

        p->forms[i] = form;
        p->square += !is_alone(form);
        p->flat = p->flat && !is_alone(form) && form->yields == 1;
        if (form->height > p->top)
            p->top = form->height;
        if (p->most[form->kind] < form->yields - 1)
            p->most[form->kind] = form->yields - 1;
    }
    qsort(p->forms, (size_t)p->all, sizeof *p->forms, compare);
    for (size_t i = 0; i < proof->pieces.count; i++)
        p->needed[proof->pieces.at[i].kind] += proof->pieces.at[i].count;
    for (int64_t k = 0; k < proof->kind_count; k++)
        p->most[k] += p->needed[k];
}

/* A cell across: what all square forms measure; finer where pieces slant. */
static int64_t measure_across(const qci_pricer *p)
{
    int64_t common = 0, least = p->proof->width, parts = 1;

    for (int32_t i = 0; i < p->all; i++) {
        if (i < p->square)
            common = qci_gcd(p->forms[i]->width, common);
        if (p->forms[i]->width < least)
            least = p->forms[i]->width;
    }
    if (!common || common > p->proof->width)
        common = p->proof->width;
    if (p->square == p->all)
        return common;
    parts = SLANT_CELLS / (p->proof->width / common);
    while (parts > 1 && common % parts)
        parts--;
    common /= parts > 1 && parts < common ? parts : 1;
    if (p->proof->width / common > SLANT_CELLS)
        common = p->proof->width / SLANT_CELLS;
    return common < least ? common : least; /* each takes a cell at least */
}

/* False where slanted pieces are too narrow for tables. */
static bool choose_cells(qci_pricer *p)
{
    int64_t lines = p->all + 2;

    p->unit_x = measure_across(p);
    while (p->proof->width / p->unit_x >= TABLE_CELLS / lines &&
           p->unit_x < p->proof->width && p->square == p->all)
        p->unit_x *= 2;
    p->cells_x = p->proof->width / p->unit_x;
    for (int32_t i = 0; i < p->square; i++)
        p->unit_y = qci_gcd(p->forms[i]->height, p->unit_y);
    p->unit_y = p->unit_y && p->proof->stacks ? p->unit_y : p->top + 1;
    p->fills = p->exact && p->top / p->unit_y < TABLE_CELLS / lines;
    while (p->top / p->unit_y >= TABLE_CELLS / lines)
        p->unit_y *= 2;
    p->cells_y = p->top / p->unit_y;
    return p->square == p->all || p->cells_x < 4 * TABLE_CELLS / lines;
}

/* Forms with equal right leans share a line. */
static void number_leans(qci_pricer *p)
{
    for (int32_t i = p->square; i < p->all; i++) {
        int32_t j = p->square;

        while (p->forms[j]->right != p->forms[i]->right)
            j++;
        p->leaning[i] = p->forms[i]->right ? j - p->square + 1 : 0;
    }
}

static bool make_tables(qci_pricer *p)
{
    size_t forms = (size_t)p->all, x = (size_t)p->cells_x + 1;
    size_t alone = (size_t)(p->all - p->square);

    p->across = qci_calloc((forms + 1) * x, sizeof(int64_t));
    p->up = qci_calloc((forms + 1) * ((size_t)p->cells_y + 1), sizeof(int64_t));
    p->path = qci_calloc((alone + 1) * x, sizeof(int64_t));
    p->seen_room = SEEN_CELLS;
    while (p->seen_room > 2 &&
           p->seen_room * ((size_t)p->proof->kind_count + 2) > SEEN_CELLS)
        p->seen_room /= 2;
    p->seen = qci_calloc(p->seen_room * ((size_t)p->proof->kind_count + 2),
                         sizeof(int64_t));
    return p->across && p->up && p->path && p->seen;
}

qc_status qci_pricer_create(const qci_proof *proof, qci_pricer **out,
                            qc_error *err)
{
    qci_pricer *p = qci_calloc(1, sizeof *p);
    size_t forms = proof->forms.count, kinds = (size_t)proof->kind_count;

    *out = NULL;
    if (!p)
        return qci_no_memory(err);
    p->proof = proof;
    p->forms = qci_calloc(forms, sizeof *p->forms);
    p->most = qci_calloc(kinds, sizeof *p->most);
    p->needed = qci_calloc(kinds, sizeof *p->needed);
    p->share = qci_calloc(kinds, sizeof *p->share);
    p->held = qci_calloc(kinds, sizeof *p->held);
    p->section = qci_calloc(forms, sizeof *p->section);
    p->leaning = qci_calloc(forms, sizeof *p->leaning);
    p->usable = qci_calloc(forms, sizeof *p->usable);
    if (p->forms && p->most && p->needed && p->share && p->held && p->section &&
        p->leaning && p->usable) {
        sort_forms(p);
        if (!choose_cells(p)) {
            qci_pricer_destroy(p);
            return QC_STATUS_OK;
        }
        number_leans(p);
        if (make_tables(p)) {
            *out = p;
            return QC_STATUS_OK;
        }
    }
    qci_pricer_destroy(p);
    return qci_no_memory(err);
}

void qci_pricer_destroy(qci_pricer *p)
{
    if (!p)
        return;
    qci_free(p->forms);
    qci_free(p->most);
    qci_free(p->needed);
    qci_free(p->share);
    qci_free(p->held);
    qci_free(p->section);
    qci_free(p->leaning);
    qci_free(p->usable);
    qci_free(p->across);
    qci_free(p->up);
    qci_free(p->path);
    qci_free(p->seen);
    qci_free(p);
}

/* A prize for q pieces is worth a q-th of it for each, at most. */
void qci_pricer_take(qci_pricer *p, const int64_t *values,
                     const qci_prize *prizes, size_t count)
{
    p->value = values;
    p->prizes = prizes;
    p->prize_count = count;
    for (int64_t k = 0; k < p->proof->kind_count; k++)
        p->share[k] = values[k];
    for (size_t i = 0; i < count; i++)
        if (prizes[i].value > 0 && prizes[i].at <= p->most[prizes[i].kind])
            p->share[prizes[i].kind] +=
                (prizes[i].value + prizes[i].at - 1) / prizes[i].at;
    qci_stacks_take(p);
}

int64_t qci_pricer_worth(const qci_pricer *p, int64_t kind, int64_t count)
{
    int64_t worth = p->value[kind] * count;

    for (size_t i = 0; i < p->prize_count; i++)
        if (p->prizes[i].kind == kind && count >= p->prizes[i].at)
            worth += p->prizes[i].value;
    return worth;
}

bool qci_pricer_fits(const qci_pricer *p, const qci_proof_form *form)
{
    bool own = is_alone(form) || (!p->proof->trim && !p->proof->stacks);

    return form->width <= p->proof->width && form->height <= p->high &&
           (!own || form->height >= p->low);
}

bool qci_pricer_within(const qci_pricer *p, const int64_t *worth)
{
    for (int32_t i = 0; i < p->all; i++)
        if (qci_pricer_fits(p, p->forms[i]) && worth[i] > 0 &&
            (qci_wide)worth[i] * p->proof->width >
                (qci_wide)p->limit * p->forms[i]->width + p->forms[i]->width -
                    1)
            return false;
    return true;
}

bool qci_pricer_step(qci_pricer *p)
{
    return ++p->steps <= QCI_PRICER_STEPS;
}

qci_worth qci_pricer_ask(qci_pricer *p, int64_t low, int64_t high,
                         int64_t limit)
{
    p->low = low;
    p->high = high;
    p->limit = limit;
    p->steps = 0;
    p->above = false;
    if (p->flat)
        qci_flat_ask(p);
    else
        qci_stacks_ask(p);
    return p->above                       ? QCI_WORTH_ABOVE
           : p->steps <= QCI_PRICER_STEPS ? QCI_WORTH_WITHIN
                                          : QCI_WORTH_UNKNOWN;
}
