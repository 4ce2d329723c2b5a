/* Strips whose sections hold one piece each: a knapsack over the width.
 *
 * In a strip of a given height a kind has one form worth having, the narrowest
 * that fits. Line i of the table is the most that kinds i.. add in so many
 * cells, each in its number; the walk tries every number of a kind in turn. */
#include "certify/pricer.h"

/* The narrowest form that fits, of every kind. */
static void list_usable(qci_pricer *p)
{
    p->usable_count = 0;
    for (int32_t i = 0; i < p->all; i++) {
        int32_t n = 0;

        if (!qci_pricer_fits(p, p->forms[i]))
            continue;
        while (n < p->usable_count &&
               p->forms[p->usable[n]]->kind != p->forms[i]->kind)
            n++;
        p->usable[n] = i;
        p->usable_count += n == p->usable_count;
    }
}

static int64_t *line(const qci_pricer *p, int32_t i)
{
    return p->across + (int64_t)i * (p->cells_x + 1);
}

static int64_t most_in(const qci_pricer *p, const qci_proof_form *form,
                       int64_t width)
{
    int64_t fit = width / form->width;

    return fit < p->most[form->kind] ? fit : p->most[form->kind];
}

static void fill_line(const qci_pricer *p, int32_t i)
{
    const qci_proof_form *form = p->forms[p->usable[i]];
    const int64_t *from = line(p, i + 1);
    int64_t cells = form->width / p->unit_x, *to = line(p, i);

    for (int64_t x = 0; x <= p->cells_x; x++)
        to[x] = from[x];
    for (int64_t n = most_in(p, form, p->proof->width); n > 0; n--) {
        int64_t worth = qci_pricer_worth(p, form->kind, n);

        for (int64_t x = n * cells; x <= p->cells_x; x++)
            if (from[x - n * cells] + worth > to[x])
                to[x] = from[x - n * cells] + worth;
    }
}

static void walk(qci_pricer *p, int32_t i, int64_t width, int64_t worth)
{
    const qci_proof_form *form;

    if (worth + line(p, i)[width / p->unit_x] <= p->limit)
        return;
    if (i == p->usable_count) {
        p->above = true;
        return;
    }
    form = p->forms[p->usable[i]];
    for (int64_t n = most_in(p, form, width);
         n >= 0 && !p->above && qci_pricer_step(p); n--)
        walk(p, i + 1, width - n * form->width,
             worth + qci_pricer_worth(p, form->kind, n));
}

void qci_flat_ask(qci_pricer *p)
{
    for (int32_t i = 0; i < p->all; i++)
        p->section[i] = p->share[p->forms[i]->kind];
    if (qci_pricer_within(p, p->section))
        return;
    list_usable(p);
    for (int64_t x = 0; x <= p->cells_x; x++)
        line(p, p->usable_count)[x] = 0;
    for (int32_t i = p->usable_count - 1; i >= 0; i--)
        fill_line(p, i);
    walk(p, 0, p->proof->width, 0);
}
