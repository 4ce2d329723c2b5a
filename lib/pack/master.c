/* The master program: its rows and columns. What solves it: generate.c.
 *
 * Each LP row has a helper column that can stand in for patterns at a high
 * cost, so that the program is feasible whatever the bounds are; where helpers
 * stay in use, their cost is raised until the bound passes the cap or gives up.
 * LP rows: demand 0..R-1, classes R..R+K-1, then count rows. LP columns:
 * helpers of the first R + K rows, class counts, then patterns and the helpers
 * of count rows as they come. */
#include "pack/master.h"

#include <math.h>

#include "base/alloc.h"
#include "base/error.h"

bool qci_master_stopped(const qci_master *master)
{
    return qci_watch_ended(master->watch);
}

static qc_status add_helper(qci_master *master, int row, qc_error *err)
{
    double one = 1.0;

    return qci_lp_add_column(master->lp, master->helper_cost, 0.0, INFINITY, 1,
                             &row, &one, err);
}

static bool make_room(qci_master *master)
{
    size_t rows = (size_t)master->model->row_count;
    size_t classes = (size_t)master->model->class_count;

    master->need = qci_copy(master->model->demand, rows, sizeof(int64_t));
    master->limit = qci_copy(master->model->demand, rows, sizeof(int64_t));
    master->class_lo = qci_calloc(classes, sizeof(int64_t));
    master->class_hi = qci_calloc(classes, sizeof(int64_t));
    master->value = qci_calloc(rows, sizeof(int64_t));
    master->threshold = qci_calloc(classes, sizeof(int64_t));
    master->best = qci_calloc(classes, sizeof(int64_t));
    master->gain = qci_calloc(classes, sizeof(int64_t));
    master->noted.value = qci_calloc(rows, sizeof(int64_t));
    master->noted.gain = qci_calloc(classes, sizeof(int64_t));
    return master->need && master->limit && master->class_lo &&
           master->class_hi && master->value && master->threshold &&
           master->best && master->gain && master->noted.value &&
           master->noted.gain;
}

/* Strips of class `cls` or higher: those of the class, and those of higher
 * ones. */
static qc_status add_class_count(qci_master *master, int cls, qc_error *err)
{
    int first = master->model->row_count;
    int row[2] = {first + cls, first + cls - 1};
    double value[2] = {-1.0, 1.0};

    return qci_lp_add_column(master->lp, 0.0, 0.0, INFINITY, cls ? 2 : 1, row,
                             value, err);
}

static qc_status make_rows(qci_master *master, qc_error *err)
{
    const qci_model *model = master->model;
    int rows = model->row_count + model->class_count;
    qc_status status = QC_STATUS_OK;

    for (int i = 0; i < rows && !status; i++)
        status = qci_lp_add_row(master->lp, 0.0,
                                i < model->row_count ? INFINITY : 0.0, 0, NULL,
                                NULL, err);
    for (int i = 0; i < rows && !status; i++)
        status = add_helper(master, i, err);
    for (int k = 0; k < model->class_count && !status; k++)
        status = add_class_count(master, k, err);
    master->helpers = rows;
    master->listed = rows + model->class_count;
    return status;
}

qc_status qci_master_create(const qci_model *model, const qci_watch *watch,
                            qci_master **out, qc_error *err)
{
    qci_master *master = qci_calloc(1, sizeof *master);
    qc_status status;

    *out = NULL;
    if (!master)
        return qci_no_memory(err);
    master->model = model;
    master->watch = watch;
    master->helper_cost = 4.0 * (double)model->height[model->class_count - 1];
    master->longest_walk = QCI_LONG_WALK;
    if (!make_room(master)) {
        status = qci_no_memory(err);
        goto done;
    }
    for (int32_t k = 0; k < model->class_count; k++)
        master->class_hi[k] = QCI_MANY;
    status = qci_oracle_create(model, &master->oracle, err);
    if (!status)
        status = qci_lp_create(&master->lp, err);
    if (!status)
        status = make_rows(master, err);
    if (!status)
        status = qci_master_apply(master, err);
    if (status)
        goto done;
    *out = master;
    master = NULL;
done:
    qci_master_destroy(master);
    return status;
}

void qci_master_destroy(qci_master *master)
{
    if (!master)
        return;
    for (size_t i = 0; i < master->pool.count; i++)
        qci_pattern_destroy(master->pool.at[i]);
    qci_vec_clear(&master->pool);
    qci_vec_clear(&master->inside);
    qci_vec_clear(&master->columns);
    qci_vec_clear(&master->shut);
    qci_vec_clear(&master->counts);
    qci_oracle_destroy(master->oracle);
    qci_lp_destroy(master->lp);
    qci_free(master->need);
    qci_free(master->limit);
    qci_free(master->class_lo);
    qci_free(master->class_hi);
    qci_free(master->value);
    qci_free(master->threshold);
    qci_free(master->best);
    qci_free(master->gain);
    qci_free(master->noted.value);
    qci_free(master->noted.gain);
    qci_vec_clear(&master->noted.bonus);
    qci_free(master->bonus);
    qci_free(master);
}

/* Its place in the pool, or -1. */
static int32_t find(const qci_master *master, const qci_pattern *pattern)
{
    for (size_t i = master->pool.count; i-- > 0;)
        if (qci_pattern_same(master->pool.at[i], pattern))
            return (int32_t)i;
    return -1;
}

static qc_status add_column(qci_master *master, const qci_pattern *pattern,
                            qc_error *err)
{
    const qci_model *model = master->model;
    int rows = model->row_count + model->class_count, n = 0;
    size_t most = (size_t)pattern->row_count + 1 + master->counts.count;
    int *row = qci_calloc(most, sizeof *row);
    double *value = qci_calloc(most, sizeof *value);
    qc_status status = QC_STATUS_OK;

    if (!row || !value) {
        status = qci_no_memory(err);
        goto done;
    }
    for (int32_t i = 0; i < pattern->row_count; i++, n++) {
        row[n] = pattern->rows[i].row;
        value[n] = pattern->rows[i].count;
    }
    row[n] = model->row_count + pattern->cls;
    value[n++] = 1.0;
    for (size_t i = 0; i < master->counts.count; i++)
        if (qci_pattern_yield(pattern, master->counts.at[i].row) >=
            master->counts.at[i].at) {
            row[n] = rows + (int)i;
            value[n++] = 1.0;
        }
    status = qci_lp_add_column(master->lp, (double)model->cost[pattern->cls],
                               0.0, INFINITY, n, row, value, err);
done:
    qci_free(row);
    qci_free(value);
    return status;
}

/* Notes what the newest LP column is. Room comes first: without it neither list
 * grows, and the two stay in step. */
static qc_status list_column(qci_master *master, int32_t pool, qc_error *err)
{
    if (!qci_vec_reserve(&master->columns) || !qci_vec_reserve(&master->shut))
        return qci_no_memory(err);
    qci_vec_push(&master->columns, pool);
    qci_vec_push(&master->shut, false);
    return QC_STATUS_OK;
}

qc_status qci_master_list(qci_master *master, int32_t pool, qc_error *err)
{
    qc_status status = add_column(master, master->pool.at[pool], err);

    master->found++;
    master->inside.at[pool] = true;
    return status ? status : list_column(master, pool, err);
}

/* Its place in the pool, which takes it; -1 without memory. */
static int32_t put_into_pool(qci_master *master, qci_pattern *pattern)
{
    int32_t at = find(master, pattern);

    if (at >= 0) {
        qci_pattern_destroy(pattern);
        return at;
    }
    if (!qci_vec_reserve(&master->inside) ||
        !qci_vec_push(&master->pool, pattern)) {
        qci_pattern_destroy(pattern);
        return -1;
    }
    qci_vec_push(&master->inside, false);
    return (int32_t)(master->pool.count - 1);
}

qc_status qci_master_add(qci_master *master, qci_pattern *pattern,
                         const qci_pattern **kept, qc_error *err)
{
    int32_t at = put_into_pool(master, pattern);

    if (at < 0)
        return qci_no_memory(err);
    if (kept)
        *kept = master->pool.at[at];
    return master->inside.at[at] ? QC_STATUS_OK
                                 : qci_master_list(master, at, err);
}

const qci_pattern *qci_master_pattern(const qci_master *master, size_t j)
{
    int32_t at = master->columns.at[j];

    return at < 0 ? NULL : master->pool.at[at];
}

static qc_status fill_count_row(qci_master *master, qci_count_row count,
                                qc_error *err)
{
    size_t n = 0, most = master->columns.count;
    int *column = qci_calloc(most, sizeof *column);
    double *value = qci_calloc(most, sizeof *value);
    qc_status status = QC_STATUS_OK;

    if (!column || !value) {
        status = qci_no_memory(err);
        goto done;
    }
    for (size_t j = 0; j < most; j++)
        if (qci_master_pattern(master, j) &&
            qci_pattern_yield(qci_master_pattern(master, j), count.row) >=
                count.at) {
            column[n] = master->listed + (int)j;
            value[n++] = 1.0;
        }
    status =
        qci_lp_add_row(master->lp, 0.0, INFINITY, (int)n, column, value, err);
done:
    qci_free(column);
    qci_free(value);
    return status;
}

qc_status qci_master_count_row(qci_master *master, int32_t row, int32_t at,
                               int32_t *index, qc_error *err)
{
    qci_count_row count = {row, at, 0, QCI_MANY};
    qc_status status;

    for (size_t i = 0; i < master->counts.count; i++)
        if (master->counts.at[i].row == row && master->counts.at[i].at == at) {
            *index = (int32_t)i;
            return QC_STATUS_OK;
        }
    if (!qci_vec_push(&master->counts, count))
        return qci_no_memory(err);
    *index = (int32_t)master->counts.count - 1;
    status = fill_count_row(master, count, err);
    if (status)
        return status;
    status = add_helper(master, qci_lp_row_count(master->lp) - 1, err);
    return status ? status : list_column(master, -1, err);
}

static double upper(int64_t hi)
{
    return hi >= QCI_MANY ? INFINITY : (double)hi;
}

bool qci_master_within(const qci_master *master, const qci_pattern *pattern)
{
    for (int32_t i = 0; i < pattern->row_count; i++) {
        int32_t row = pattern->rows[i].row;
        int64_t limit = master->limit[row];

        if (limit)
            limit += master->model->surplus[row];
        if (pattern->rows[i].count > limit)
            return false;
    }
    return true;
}

/* Patterns beyond the limits would cover a small need by a fraction of a strip,
 * and hide what a whole one costs. */
static qc_status shut_columns(qci_master *master, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    for (size_t j = 0; j < master->columns.count && !status; j++) {
        const qci_pattern *pattern = qci_master_pattern(master, j);
        bool shut = pattern && !qci_master_within(master, pattern);

        if (shut == master->shut.at[j])
            continue;
        master->shut.at[j] = shut;
        status = qci_lp_bound_column(master->lp, master->listed + (int)j, 0.0,
                                     shut ? 0.0 : INFINITY, err);
    }
    return status;
}

qc_status qci_master_apply(qci_master *master, qc_error *err)
{
    const qci_model *model = master->model;
    int rows = model->row_count, classes = model->class_count;
    qc_status status = QC_STATUS_OK;

    for (int i = 0; i < rows && !status; i++)
        status = qci_lp_bound_row(
            master->lp, i, (double)master->need[i],
            model->exact ? (double)master->need[i] : INFINITY, err);
    for (int k = 0; k < classes && !status; k++)
        status = qci_lp_bound_column(master->lp, master->helpers + k,
                                     (double)master->class_lo[k],
                                     upper(master->class_hi[k]), err);
    for (size_t i = 0; i < master->counts.count && !status; i++)
        status = qci_lp_bound_row(master->lp, rows + classes + (int)i,
                                  (double)master->counts.at[i].lo,
                                  upper(master->counts.at[i].hi), err);
    return status ? status : shut_columns(master, err);
}
