/* Diving: whole strips of the program's solution are cut, then one of those
 * that are nearest to whole; the program is solved again for what is left, with
 * patterns made for it, and what is left is filled strip by strip at every
 * stop, since that is enough as soon as little is left. A dive ends where its
 * program needs more strips than are allowed. */
#include "pack/line_inner.h"

#include <math.h>
#include <string.h>

#include "base/error.h"

#define WHOLE 1e-6
/* How little of a strip a dive may see: so far dives differ. */
#define LEAST_SEEN 0.4

static const qci_count *entries_of(const qci_line *l, int32_t column,
                                   int32_t *count)
{
    int32_t from = l->lp.first.at[column];

    *count = l->lp.first.at[column + 1] - from;
    return l->lp.entries.at + from;
}

static bool is_left(const qci_line *l)
{
    for (int32_t row = 0; row < l->rows; row++)
        if (l->need[row] > 0)
            return true;
    return false;
}

/* Cuts strips of a column, as long as all their pieces are needed. */
static qc_status cut(qci_line *l, int32_t column, int64_t times, bool *any,
                     qc_error *err)
{
    int32_t count;
    const qci_count *entries = entries_of(l, column, &count);

    for (int32_t i = 0; i < count; i++) {
        int64_t most = l->need[entries[i].row] / entries[i].count;

        times = most < times ? most : times;
    }
    if (times <= 0)
        return QC_STATUS_OK;
    *any = true;
    for (int32_t i = 0; i < count; i++)
        l->need[entries[i].row] -= times * entries[i].count;
    return qci_line_plan_add(&l->now, entries, count, times)
               ? QC_STATUS_OK
               : qci_no_memory(err);
}

/* A choice of its own for each place of each dive. */
static uint32_t mix(uint32_t a, uint32_t b)
{
    uint32_t x = a * 2654435761u ^ (b + 0x9E3779B9u) * 2246822519u;

    x ^= x >> 15;
    x *= 2246822519u;
    return x ^ x >> 13;
}

/* The place nearest to a whole strip, as this dive sees it. */
static int32_t nearest(const qci_line *l, int32_t turn)
{
    int32_t best = -1;
    double most = 0.0;

    for (int32_t i = 0; i < l->rows; i++) {
        int32_t column = l->lp.now.column[i];
        double x = l->lp.now.x[i];

        if (column < 0 || x <= WHOLE || l->lp.shut.at[column])
            continue;
        if (turn)
            x *= LEAST_SEEN + (1.0 - LEAST_SEEN) *
                                  mix((uint32_t)turn, (uint32_t)column) /
                                  4294967296.0;
        if (x > most) {
            most = x;
            best = i;
        }
    }
    return best;
}

/* Cuts what is whole, or else one strip of what is nearest. */
static qc_status cut_some(qci_line *l, int32_t turn, bool *any, qc_error *err)
{
    qc_status status = QC_STATUS_OK;
    int32_t place;

    *any = false;
    for (int32_t i = 0; i < l->rows && !status; i++)
        if (l->lp.now.column[i] >= 0 && l->lp.now.x[i] >= 1.0 - WHOLE)
            status = cut(l, l->lp.now.column[i],
                         (int64_t)floor(l->lp.now.x[i] + WHOLE), any, err);
    if (status || *any)
        return status;
    place = nearest(l, turn);
    return place < 0 ? QC_STATUS_OK
                     : cut(l, l->lp.now.column[place], 1, any, err);
}

qc_status qci_line_try_fill(qci_line *l, qc_error *err)
{
    size_t patterns = l->now.times.count;
    int64_t most = l->best.strips - 1;
    bool done;

    memcpy(l->scratch, l->need, (size_t)l->rows * sizeof *l->scratch);
    if (!qci_line_fill(&l->filler, l->scratch, most, &l->now, &done))
        return qci_no_memory(err);
    if (done && l->now.strips <= most && !qci_line_plan_copy(&l->best, &l->now))
        return qci_no_memory(err);
    qci_line_plan_cut(&l->now, patterns);
    return QC_STATUS_OK;
}

qc_status qci_line_dive(qci_line *l, int64_t allowed, int32_t turn,
                        qc_error *err)
{
    qc_status status = QC_STATUS_OK;
    bool any = true;

    memcpy(l->need, l->demand, (size_t)l->rows * sizeof *l->need);
    qci_line_plan_cut(&l->now, 0);
    while (!status && any) {
        qci_line_end end;
        int64_t bound = 0;

        status = cut_some(l, turn, &any, err);
        if (!status)
            status = qci_line_try_fill(l, err);
        if (status || !is_left(l) || l->best.strips <= allowed)
            return status;
        qci_line_lp_change(&l->lp, l->need);
        l->centre_bound = 0.0;
        status =
            qci_line_generate(l, allowed - l->now.strips, &bound, &end, err);
        if (status || end != QCI_LINE_FITS)
            return status;
    }
    return status;
}
