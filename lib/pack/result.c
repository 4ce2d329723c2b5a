/* Strips in the order of the cutting: highest first, then in the order of their
 * patterns, so that equal solutions give equal packings. */
#include "pack/result.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/deal.h"
#include "pack/pair.h"
#include "pack/sections.h"

qc_length qci_result_used(const qci_demand *demand, const qci_model *model,
                          int64_t height)
{
    return height ? demand->square_up + height * model->height_unit : 0;
}

int64_t qci_result_room(const qci_demand *demand, const qci_model *model,
                        qc_length bought)
{
    qc_length room =
        qci_purchase_covers(demand->purchase, bought) - demand->square_up;

    return room < 0 ? -1 : room / model->height_unit;
}

static int compare_uses(const void *a, const void *b)
{
    const qci_pattern *p = ((const qci_use *)a)->pattern;
    const qci_pattern *q = ((const qci_use *)b)->pattern;

    if (p->height != q->height)
        return p->height < q->height ? 1 : -1;
    for (int32_t i = 0; i < p->length && i < q->length; i++)
        if (p->sequence[i] != q->sequence[i])
            return QCI_LAY(p->sequence[i]) < QCI_LAY(q->sequence[i]) ||
                           (QCI_LAY(p->sequence[i]) ==
                                QCI_LAY(q->sequence[i]) &&
                            p->sequence[i] > q->sequence[i])
                       ? -1
                       : 1;
    return (p->length < q->length) - (p->length > q->length);
}

/* What is dealt, and how much of it is more than is needed. */
typedef struct dealing {
    qci_deal *deal;
    const qci_solution *solution;
    int64_t *surplus; /* per row: beyond the demand, over all strips */
    int64_t *drop;    /* per row: what the use in hand leaves out */
    int64_t *quota;   /* per row: what the strip in hand leaves out */
    int32_t *sequence, *before;
} dealing;

static void find_surplus(dealing *d)
{
    const qci_model *model = d->deal->model;

    for (int32_t row = 0; row < model->row_count; row++)
        d->surplus[row] = -model->demand[row];
    for (size_t i = 0; i < d->solution->uses.count; i++) {
        const qci_use *use = &d->solution->uses.at[i];

        for (int32_t r = 0; r < use->pattern->row_count; r++)
            d->surplus[use->pattern->rows[r].row] +=
                use->times * use->pattern->rows[r].count;
    }
}

/* Pieces that the uses after `at` can leave out of one strip each. */
static int64_t others_take(const dealing *d, size_t at, int32_t row)
{
    int64_t sum = 0;

    for (size_t i = at + 1; i < d->solution->uses.count; i++)
        sum += qci_pattern_yield(d->solution->uses.at[i].pattern, row);
    return sum;
}

/* What leaving out one cloth of the row leaves out at least. */
static int32_t least_yield(const qci_model *model, const qci_pattern *pattern,
                           int32_t row)
{
    int32_t least = 0;

    for (int32_t i = 0; i < pattern->length; i++) {
        const qci_lay *lay = &model->lays[QCI_LAY(pattern->sequence[i])];

        if (lay->row == row && (!least || lay->yield < least))
            least = lay->yield;
    }
    return least > 0 ? least : 1;
}

/* A use leaves pieces out of one strip, and out of more only where the uses
 * after it could not take the rest in one strip each. */
static void choose_drop(dealing *d, size_t at)
{
    const qci_use *use = &d->solution->uses.at[at];

    for (int32_t r = 0; r < use->pattern->row_count; r++) {
        int32_t row = use->pattern->rows[r].row;
        int64_t each = use->pattern->rows[r].count;
        int64_t drop = d->surplus[row] - others_take(d, at, row);

        if (drop < each)
            drop = each;
        if (drop > d->surplus[row])
            drop = d->surplus[row];
        if (drop > each * use->times)
            drop = each * use->times;
        drop -= drop % least_yield(d->deal->model, use->pattern, row);
        d->drop[row] = drop;
        d->surplus[row] -= drop;
    }
}

/* Leaves lays out as the quota says, from the end of the sequence on: the
 * narrowest sections first, and in them from the top. `last`: a section may
 * lose its first lay, and keep others. */
static void leave_out(dealing *d, const qci_pattern *pattern, bool last)
{
    bool above = false;

    for (int32_t i = pattern->length - 1; i >= 0; i--) {
        const qci_lay *lay =
            &d->deal->model->lays[QCI_LAY(pattern->sequence[i])];
        bool opens = pattern->sequence[i] & QCI_OPEN;

        if (d->sequence[i] >= 0 && d->quota[lay->row] >= lay->yield &&
            (last || !opens || !above)) {
            d->quota[lay->row] -= lay->yield;
            d->sequence[i] = -1;
        }
        above = !opens && (above || d->sequence[i] >= 0);
    }
}

/* Copies the pattern's sequence without what the quota leaves out; the piece
 * above a first lay that is gone opens its section. */
static int32_t cut_quota(dealing *d, const qci_pattern *pattern)
{
    int32_t n = pattern->length, kept = 0, opens = 0;

    for (int32_t i = 0; i < n; i++)
        d->sequence[i] = QCI_LAY(pattern->sequence[i]);
    leave_out(d, pattern, false);
    leave_out(d, pattern, true);
    for (int32_t i = 0; i < n; i++) {
        opens |= pattern->sequence[i] & QCI_OPEN;
        if (d->sequence[i] < 0)
            continue;
        d->sequence[kept++] = d->sequence[i] | opens;
        opens = 0;
    }
    return kept;
}

/* The next strip that leaves something out: an odd rest first, so that all
 * strips after it are alike. */
static int32_t next_short(dealing *d, const qci_pattern *pattern)
{
    for (int32_t r = 0; r < pattern->row_count; r++) {
        int32_t row = pattern->rows[r].row;
        int64_t each = pattern->rows[r].count;
        int64_t odd = d->drop[row] % each;

        d->quota[row] = odd ? odd : d->drop[row] < each ? d->drop[row] : each;
        d->drop[row] -= d->quota[row];
    }
    return cut_quota(d, pattern);
}

static int64_t count_short(const dealing *d, const qci_pattern *pattern)
{
    int64_t most = 0;

    for (int32_t r = 0; r < pattern->row_count; r++) {
        int64_t each = pattern->rows[r].count;
        int64_t n = (d->drop[pattern->rows[r].row] + each - 1) / each;

        if (n > most)
            most = n;
    }
    return most;
}

/* All strips of one use: whole ones, then the others in groups. */
static qc_status deal_use(dealing *d, size_t at, qc_error *err)
{
    const qci_use *use = &d->solution->uses.at[at];
    const qci_pattern *p = use->pattern;
    int64_t left, whole, same = 0;
    int32_t last = -1;
    bool fresh = true;
    qc_status status = QC_STATUS_OK;

    choose_drop(d, at);
    left = count_short(d, p);
    whole = use->times - left;
    if (whole) {
        status = qci_deal_strips(d->deal, p->height, p->sequence, p->length,
                                 whole, fresh, err);
        fresh = false;
    }
    for (; left > 0 && !status; left--) {
        int32_t length = next_short(d, p);

        if (last >= 0 && (length != last ||
                          memcmp(d->sequence, d->before,
                                 (size_t)length * sizeof *d->sequence) != 0)) {
            status = qci_deal_strips(d->deal, p->height, d->before, last, same,
                                     fresh, err);
            fresh = false;
            same = 0;
        }
        memcpy(d->before, d->sequence, (size_t)length * sizeof *d->sequence);
        last = length;
        same++;
    }
    if (!status && last >= 0)
        status = qci_deal_strips(d->deal, p->height, d->before, last, same,
                                 fresh, err);
    return status;
}

static int32_t longest(const qci_solution *solution)
{
    int32_t most = 0;

    for (size_t i = 0; i < solution->uses.count; i++)
        if (solution->uses.at[i].pattern->length > most)
            most = solution->uses.at[i].pattern->length;
    return most;
}

static qc_status deal_all(qci_deal *deal, const qci_solution *solution,
                          qc_error *err)
{
    size_t rows = (size_t)deal->model->row_count;
    size_t most = (size_t)longest(solution);
    dealing d = {.deal = deal,
                 .solution = solution,
                 .surplus = qci_calloc(rows, sizeof(int64_t)),
                 .drop = qci_calloc(rows, sizeof(int64_t)),
                 .quota = qci_calloc(rows, sizeof(int64_t)),
                 .sequence = qci_calloc(most, sizeof(int32_t)),
                 .before = qci_calloc(most, sizeof(int32_t))};
    qc_status status = QC_STATUS_OK;

    if (!d.surplus || !d.drop || !d.quota || !d.sequence || !d.before)
        status = qci_no_memory(err);
    else
        find_surplus(&d);
    for (size_t i = 0; i < solution->uses.count && !status; i++)
        status = deal_use(&d, i, err);
    qci_free(d.surplus);
    qci_free(d.drop);
    qci_free(d.quota);
    qci_free(d.sequence);
    qci_free(d.before);
    return status;
}

qc_status qci_result_build(const qci_demand *demand, const qci_model *model,
                           const qci_solution *solution, qci_packing *packing,
                           qc_error *err)
{
    qci_solution sorted = {0};
    qci_deal deal;
    qc_status status;

    qci_result_clear(packing);
    if (!qci_solution_copy(&sorted, solution))
        return qci_no_memory(err);
    if (sorted.uses.count)
        qsort(sorted.uses.at, sorted.uses.count, sizeof *sorted.uses.at,
              compare_uses);
    status = qci_deal_begin(&deal, demand, model, err);
    if (!status)
        status = deal_all(&deal, &sorted, err);
    qci_deal_end(&deal, status ? NULL : packing);
    qci_solution_clear(&sorted);
    if (!status)
        status = qci_pair_strips(demand, packing, err);
    if (status)
        return status;
    packing->used = 0;
    for (size_t i = 0; i < packing->strip_count; i++)
        packing->used += packing->strips[i].height * packing->strips[i].repeat;
    if (packing->used)
        packing->used += demand->square_up;
    packing->bought = qci_purchase_bought(demand->purchase, packing->used);
    return QC_STATUS_OK;
}

void qci_result_clear(qci_packing *packing)
{
    for (size_t i = 0; i < packing->strip_count; i++)
        qci_sections_destroy(packing->strips[i].sections,
                             packing->strips[i].section_count);
    qci_free(packing->strips);
    packing->strips = NULL;
    packing->strip_count = 0;
}

static int64_t count_cuts(const qci_demand *demand, const qci_packing *packing)
{
    int64_t cuts = qci_diagonal_cuts(demand, packing);

    if (packing->strip_count && demand->square_up)
        cuts++;
    for (size_t i = 0; i < packing->strip_count; i++)
        cuts += qci_strip_cuts(demand, &packing->strips[i]);
    return cuts;
}

static int64_t kept_area(const qci_demand *demand, qc_length length,
                         qc_length width)
{
    return length >= demand->keep && width >= demand->keep ? length * width : 0;
}

static int64_t largest_leftover(const qci_demand *demand,
                                const qci_packing *packing)
{
    qc_length end =
        qci_purchase_covers(demand->purchase, packing->bought) - packing->used;
    int64_t largest = kept_area(demand, end, demand->width);

    for (size_t i = 0; i < packing->strip_count; i++) {
        const qci_strip *strip = &packing->strips[i];
        int64_t area =
            kept_area(demand, strip->height,
                      demand->width - qci_sections_width(demand, strip));

        if (area > largest)
            largest = area;
    }
    return largest;
}

static int64_t count_setups(const qci_packing *packing)
{
    int64_t setups = 0;

    for (size_t i = 0; i < packing->strip_count; i++)
        setups += qci_strip_is_setup(&packing->strips[i]);
    return setups;
}

int64_t qci_result_value(const qci_demand *demand, const qci_packing *packing,
                         qc_goal goal)
{
    switch (goal) {
    case QC_GOAL_BOUGHT:
    case QC_GOAL_MONEY:
        return packing->bought;
    case QC_GOAL_USED:
        return packing->used;
    case QC_GOAL_SETUPS:
        return count_setups(packing);
    case QC_GOAL_CUTS:
        return count_cuts(demand, packing);
    case QC_GOAL_LEFTOVER:
        return largest_leftover(demand, packing);
    }
    return 0;
}
