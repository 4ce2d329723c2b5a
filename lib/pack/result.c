/* Strips in the order of the cutting: highest first, then in the order of their
 * patterns, so that equal solutions give equal packings. */
#include "pack/result.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/deal.h"
#include "pack/sections.h"

qc_length qci_result_used(const qci_demand *demand, const qci_model *model,
                          int64_t height)
{
    return height ? demand->square_up + height * model->height_unit : 0;
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

/* left[row] = pieces beyond the demand. */
static void find_surplus(const qci_model *model, const qci_solution *solution,
                         int64_t *left)
{
    for (int32_t row = 0; row < model->row_count; row++)
        left[row] = -model->demand[row];
    for (size_t i = 0; i < solution->uses.count; i++) {
        const qci_use *use = &solution->uses.at[i];

        for (int32_t r = 0; r < use->pattern->row_count; r++)
            left[use->pattern->rows[r].row] +=
                use->times * use->pattern->rows[r].count;
    }
}

/* One strip of the pattern without the pieces that are surplus; the narrowest
 * sections go first. Says how many pieces it holds. */
static int32_t cut_surplus(const qci_model *model, const qci_pattern *pattern,
                           int64_t *left, int32_t *sequence)
{
    int32_t n = pattern->length, kept = 0;

    for (int32_t i = n - 1; i >= 0; i--) {
        int32_t row = model->lays[QCI_LAY(pattern->sequence[i])].row;

        sequence[i] = pattern->sequence[i];
        if (left[row] > 0) {
            left[row]--;
            sequence[i] = -1;
        }
    }
    /* The piece above an opener that is gone becomes the opener. */
    for (int32_t i = 0; i < n; i++) {
        int32_t opens = pattern->sequence[i] & QCI_OPEN;

        if (sequence[i] < 0) {
            if (opens)
                for (int32_t j = i + 1; j < n; j++) {
                    if (pattern->sequence[j] & QCI_OPEN)
                        break;
                    if (sequence[j] >= 0) {
                        sequence[j] |= QCI_OPEN;
                        break;
                    }
                }
            continue;
        }
        sequence[kept++] = sequence[i];
    }
    return kept;
}

/* All strips of one use: whole ones, then those cut short, in groups. */
static qc_status deal_use(qci_deal *deal, const qci_use *use, int64_t *left,
                          int32_t *sequence, int32_t *before, qc_error *err)
{
    const qci_model *model = deal->model;
    const qci_pattern *p = use->pattern;
    int64_t whole = use->times, same = 0;
    int32_t length = p->length, last = -1;
    qc_status status = QC_STATUS_OK;

    for (int32_t r = 0; r < p->row_count; r++) {
        int64_t touched =
            (left[p->rows[r].row] + p->rows[r].count - 1) / p->rows[r].count;

        if (touched > use->times - whole)
            whole = touched < use->times ? use->times - touched : 0;
    }
    if (whole)
        status = qci_deal_strips(deal, p->height, p->sequence, p->length, whole,
                                 false, err);
    for (int64_t i = whole; i < use->times && !status; i++) {
        length = cut_surplus(model, p, left, sequence);
        if (length == last &&
            !memcmp(sequence, before, (size_t)length * sizeof *sequence)) {
            same++;
            continue;
        }
        if (last > 0)
            status = qci_deal_strips(deal, p->height, before, last, same,
                                     whole > 0, err);
        memcpy(before, sequence, (size_t)length * sizeof *sequence);
        last = length;
        same = 1;
    }
    if (!status && last > 0)
        status = qci_deal_strips(deal, p->height, before, last, same, whole > 0,
                                 err);
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
    size_t most = (size_t)longest(solution);
    int64_t *left = qci_calloc((size_t)deal->model->row_count, sizeof *left);
    int32_t *sequence = qci_calloc(most, sizeof *sequence);
    int32_t *before = qci_calloc(most, sizeof *before);
    qc_status status = QC_STATUS_OK;

    if (!left || !sequence || !before)
        status = qci_no_memory(err);
    else
        find_surplus(deal->model, solution, left);
    for (size_t i = 0; i < solution->uses.count && !status; i++)
        status =
            deal_use(deal, &solution->uses.at[i], left, sequence, before, err);
    qci_free(left);
    qci_free(sequence);
    qci_free(before);
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
    int64_t cuts = qci_diagonal_cuts(demand);

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
        setups += !packing->strips[i].cut_short;
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
