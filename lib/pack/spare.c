/* A program of all patterns ever found takes ever longer to solve, though few
 * of them matter at a time. Beyond a measure the half of them with the largest
 * reduced costs leave it. Pricing looks among them first, since what a known
 * pattern is worth is told sooner than the best one is found. */
#include "pack/spare.h"

#include <stdlib.h>

#include "base/alloc.h"
#include "base/error.h"

/* Columns for each row of the program beyond which half of them leave. */
#define COLUMNS_PER_ROW 4
/* Patterns put back at a time. */
#define MOST_BACK 8

typedef struct rated {
    double cost;
    int32_t column;
} rated;

static int compare_rated(const void *a, const void *b)
{
    const rated *p = a, *q = b;

    if (p->cost != q->cost)
        return p->cost < q->cost ? -1 : 1;
    return (p->column > q->column) - (p->column < q->column);
}

/* Drops the flagged columns from the lists, as the program does. */
static void close_up(qci_master *master, const bool *flags)
{
    size_t n = 0;

    for (size_t j = 0; j < master->columns.count; j++) {
        int32_t pool = master->columns.at[j];

        if (flags[master->listed + (int)j]) {
            master->inside.at[pool] = false;
            continue;
        }
        master->shut.at[n] = master->shut.at[j];
        master->columns.at[n++] = pool;
    }
    master->columns.count = master->shut.count = n;
}

static qc_status take_out(qci_master *master, rated *list, bool *flags,
                          qc_error *err)
{
    size_t n = 0;
    qc_status status;

    for (size_t j = 0; j < master->columns.count; j++)
        if (master->columns.at[j] >= 0)
            list[n++] = (rated){
                qci_lp_reduced_cost(master->lp, master->listed + (int)j),
                (int32_t)j};
    qsort(list, n, sizeof *list, compare_rated);
    for (size_t i = n / 2; i < n; i++)
        flags[master->listed + list[i].column] = list[i].cost > 0.0;
    status = qci_lp_delete_columns(master->lp, flags, err);
    if (!status)
        close_up(master, flags);
    return status;
}

qc_status qci_spare_out(qci_master *master, qc_error *err)
{
    size_t columns = (size_t)qci_lp_column_count(master->lp);
    rated *list;
    bool *flags;
    qc_status status;

    if (master->columns.count <
        COLUMNS_PER_ROW * (size_t)qci_lp_row_count(master->lp))
        return QC_STATUS_OK;
    list = qci_calloc(columns, sizeof *list);
    flags = qci_calloc(columns, sizeof *flags);
    status =
        list && flags ? take_out(master, list, flags, err) : qci_no_memory(err);
    qci_free(list);
    qci_free(flags);
    return status;
}

/* What a pattern is worth beyond the threshold of its class; 0: nothing, or
 * more pieces than the limits allow. */
static int64_t gain_of(const qci_master *master, const qci_pattern *pattern)
{
    int64_t worth = -master->threshold[pattern->cls];

    if (!qci_master_within(master, pattern))
        return 0;
    for (int32_t i = 0; i < pattern->row_count; i++)
        worth += master->value[pattern->rows[i].row] * pattern->rows[i].count;
    for (int32_t b = 0; b < master->bonus_count; b++)
        if (qci_pattern_yield(pattern, master->bonus[b].row) >=
            master->bonus[b].at)
            worth += master->bonus[b].value;
    return worth > 0 ? worth : 0;
}

qc_status qci_spare_in(qci_master *master, qc_error *err)
{
    int64_t gain[MOST_BACK] = {0};
    int32_t best[MOST_BACK], n = 0;
    qc_status status = QC_STATUS_OK;

    for (int32_t i = 0; i < (int32_t)master->pool.count; i++) {
        int64_t now;
        int32_t at;

        if (master->inside.at[i])
            continue;
        now = gain_of(master, master->pool.at[i]);
        if (now <= gain[MOST_BACK - 1])
            continue;
        at = n < MOST_BACK ? n++ : n - 1;
        for (; at > 0 && gain[at - 1] < now; at--) {
            gain[at] = gain[at - 1];
            best[at] = best[at - 1];
        }
        gain[at] = now;
        best[at] = i;
    }
    for (int32_t i = 0; i < n && !status; i++)
        status = qci_master_list(master, best[i], err);
    return status;
}
