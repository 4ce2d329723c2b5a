/* Column generation for one class of strips.
 *
 * Duals are drawn towards those of the best bound so far (P. Wentges, Int.
 * Trans. Oper. Res. 4:151-162, 1997; from memory), at first the widths, which
 * give the bound by area; where that finds nothing new they are taken as they
 * are. For any integers v and V, if no strip holds more than V of v, then
 * sum v need / V strips are needed, rounded up: that is the bound. */
#include "pack/line_inner.h"

#include <math.h>
#include <string.h>

#include "base/error.h"
#include "base/wide.h"

/* How far duals are drawn. */
#define DRAWN 0.7
#define LEAST_GAIN 1e-7

/* Fills value with duals as integers; returns what a strip costs by them. */
static int32_t read_duals(qci_line *l, double drawn)
{
    double most = 1.0, scale;

    for (int32_t row = 0; row < l->rows; row++) {
        double d = drawn * l->centre[row] + (1.0 - drawn) * l->lp.dual[row];
        double full = d * (double)l->pricer.width / (double)l->width[row];

        most = full > most ? full : most;
    }
    scale = floor((double)QCI_LINE_MOST * 0.99 / most);
    for (int32_t row = 0; row < l->rows; row++) {
        double d = drawn * l->centre[row] + (1.0 - drawn) * l->lp.dual[row];

        l->value[row] = d > 0 ? (int32_t)(d * scale) : 0;
    }
    return (int32_t)scale;
}

static qci_wide worth_of_need(const qci_line *l)
{
    qci_wide sum = 0;

    for (int32_t row = 0; row < l->rows; row++)
        sum += (qci_wide)l->value[row] * l->need[row];
    return sum;
}

/* What the duals in hand prove, if a strip holds `most` of them at most. */
static void note_bound(qci_line *l, int32_t most, int32_t scale, int64_t *bound)
{
    qci_wide sum = worth_of_need(l);
    double close = (double)sum / most;
    int64_t now = (int64_t)((sum + most - 1) / most);

    *bound = now > *bound ? now : *bound;
    if (close <= l->centre_bound)
        return;
    l->centre_bound = close;
    for (int32_t row = 0; row < l->rows; row++)
        l->centre[row] = (double)l->value[row] / scale;
}

/* Adds the priced patterns that improve the program. */
static bool take_patterns(qci_line *l, bool *any)
{
    const qci_line_pricer *p = &l->pricer;

    *any = false;
    for (size_t i = 0; i + 1 < p->first.count; i++) {
        const qci_count *entries = p->entries.at + p->first.at[i];
        int32_t count = p->first.at[i + 1] - p->first.at[i];
        double gain = -1.0;

        for (int32_t e = 0; e < count; e++)
            gain += l->lp.dual[entries[e].row] * entries[e].count;
        if (gain <= 2 * LEAST_GAIN)
            continue;
        if (qci_line_lp_add(&l->lp, entries, count) < 0)
            return false;
        *any = true;
    }
    return true;
}

/* One look for patterns. *any: some were found. */
static qc_status look(qci_line *l, double drawn, int64_t *bound, bool *any,
                      qc_error *err)
{
    int32_t scale = read_duals(l, drawn), most;

    l->master->rounds++;
    if (!qci_line_price(&l->pricer, l->value, l->need, scale, &most))
        return qci_no_memory(err);
    note_bound(l, most > scale ? most : scale, scale, bound);
    return take_patterns(l, any) ? QC_STATUS_OK : qci_no_memory(err);
}

qc_status qci_line_generate(qci_line *l, int64_t allowed, int64_t *bound,
                            qci_line_end *end, qc_error *err)
{
    for (;;) {
        bool any;
        qc_status status;

        *end = QCI_LINE_STOPPED;
        if (!qci_line_lp_solve(&l->lp) || qci_master_stopped(l->master) ||
            l->master->rounds >= l->end_round)
            return QC_STATUS_OK;
        *end = QCI_LINE_FITS;
        if (qci_line_lp_value(&l->lp, l->need) <= (double)allowed + 1e-6)
            return QC_STATUS_OK;
        status = look(l, DRAWN, bound, &any, err);
        *end = QCI_LINE_PROVED;
        if (!status && *bound <= allowed && !any)
            status = look(l, 0.0, bound, &any, err);
        if (status || *bound > allowed)
            return status;
        *end = QCI_LINE_SOLVED;
        if (!any)
            return QC_STATUS_OK;
    }
}
