/* The program of the set-ups: a column is a pattern together with the number of
 * strips that are cut from it, and costs 1. It covers min(demand, times x
 * pieces) of every row, and takes times x height of the room. (The formulation
 * is F. Vanderbeck's, for rolls of one width, 2000; from memory. Here strips
 * have several heights.)
 *
 * A set-up leaves pieces out of its last strip alone: a pattern that is cut t
 * times holds a piece at most demand / (t - 1) times, and more than demand / t,
 * rounded up, cover no more. For one pattern the worth of a column is concave
 * in t, so it is most where some row comes out even, or beside that, or where a
 * row allows no more strips: only these numbers of strips are priced.
 *
 * Duals are rounded to integers and the most that a column is worth with them
 * is found, or bounded, in integers. The value of the duals divided by that is
 * a bound on the set-ups; GLPK's numbers are no part of it. */
#include "pack/covers.h"

#include <math.h>
#include <stdlib.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"

/* Duals are counted in parts of a set-up. */
#define PARTS (INT64_C(1) << 46)
/* So many rows keep sums of values within 64 bits. */
#define ROW_LIMIT 100
/* So many numbers of strips, thrice, are priced in turn. */
#define TIMES_LIMIT 700
#define ROUND_LIMIT 300
#define COLUMNS_A_ROUND 24
/* What a helper column costs, in set-ups. */
#define HELPER_COST 10.0
/* Pricings, and nodes of a walk in each class: the deterministic limits. */
#define CALL_LIMIT 1000
#define NODE_LIMIT 3000

/* `times` strips of a pattern: one set-up. */
typedef struct cover {
    qci_pattern *pattern; /* owned */
    int64_t times;
} cover;

typedef struct covers {
    qci_master *master;
    const qci_model *model;
    int64_t room;  /* height that there is */
    int32_t calls; /* pricings left */
    qci_lp *lp;
    QCI_VEC(cover) columns;
    QCI_VEC(int64_t) times; /* numbers of strips worth pricing, rising */
    size_t at;              /* where in that list pricing goes on */
    int64_t now;            /* the number of strips being priced */
    int64_t *price, *value, *limit, *threshold, *best;
    int64_t height_price;
    qci_bonus *bonus;
    size_t fresh; /* columns found in this round */
    qc_status status;
    qc_error *err;
} covers;

/* Most pieces of a row that a strip can hold, by area. */
static int64_t most_held(const qci_model *model, int32_t row)
{
    int64_t most = 1, top = model->height[model->class_count - 1];

    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];
        int64_t held = model->width / lay->width;

        if (model->stacks && !lay->alone)
            held = (int64_t)((qci_wide)model->width * top /
                             ((qci_wide)lay->width * lay->height));
        if (lay->row == row && held * lay->yield > most)
            most = held * lay->yield;
    }
    return most;
}

/* Pieces may be left out of a last strip, no hand is cut together with the
 * other, and rows are few: then the bound holds, and is worth the work. */
static bool can_bound(const qci_model *model)
{
    int64_t times = 0;

    for (int32_t row = 0; row < model->row_count; row++) {
        int64_t most = most_held(model, row);

        times += most < model->demand[row] ? most : model->demand[row];
        if (model->twin[row] >= 0 && model->twin[row] != row)
            return false;
    }
    return !model->exact && model->row_count <= ROW_LIMIT &&
           times <= TIMES_LIMIT;
}

/* What `times` strips with so many pieces each cover of a demand. */
static int64_t covered(int64_t demand, int64_t times, int64_t pieces)
{
    return times >= (demand + pieces - 1) / pieces ? demand : times * pieces;
}

static bool make_room(covers *c)
{
    size_t rows = (size_t)c->model->row_count;
    size_t classes = (size_t)c->model->class_count;

    c->price = qci_calloc(rows, sizeof(int64_t));
    c->value = qci_calloc(rows, sizeof(int64_t));
    c->limit = qci_calloc(rows, sizeof(int64_t));
    c->bonus = qci_calloc(rows, sizeof *c->bonus);
    c->threshold = qci_calloc(classes, sizeof(int64_t));
    c->best = qci_calloc(classes, sizeof(int64_t));
    return c->price && c->value && c->limit && c->bonus && c->threshold &&
           c->best;
}

static void clear(covers *c)
{
    for (size_t i = 0; i < c->columns.count; i++)
        qci_pattern_destroy(c->columns.at[i].pattern);
    qci_vec_clear(&c->columns);
    qci_vec_clear(&c->times);
    qci_lp_destroy(c->lp);
    qci_free(c->price);
    qci_free(c->value);
    qci_free(c->limit);
    qci_free(c->bonus);
    qci_free(c->threshold);
    qci_free(c->best);
}

/* The last number of strips at which a pattern may hold `each` of a row. */
static int64_t last_times(const covers *c, int32_t row, int64_t each)
{
    return (c->model->demand[row] + c->model->surplus[row]) / each + 1;
}

static bool list_row(covers *c, int32_t row)
{
    int64_t demand = c->model->demand[row];
    int64_t most = most_held(c->model, row);
    int64_t last = c->room / c->model->cost[0];
    bool ok = true;

    for (int64_t each = 1; each <= most && each <= demand && ok; each++) {
        int64_t even = demand / each;
        int64_t list[] = {even, even + 1, last_times(c, row, each)};

        for (int i = 0; i < 3 && ok; i++)
            if (list[i] <= last)
                ok = qci_vec_push(&c->times, list[i]);
    }
    return ok;
}

static int compare_times(const void *a, const void *b)
{
    const int64_t *p = a, *q = b;

    return (*p > *q) - (*p < *q);
}

static bool list_times(covers *c)
{
    int64_t *times;
    size_t kept = 0;
    bool ok = true;

    for (int32_t row = 0; row < c->model->row_count && ok; row++)
        ok = list_row(c, row);
    if (!ok || !c->times.count)
        return ok;
    times = c->times.at;
    qsort(times, c->times.count, sizeof *times, compare_times);
    for (size_t i = 0; i < c->times.count; i++)
        if (!kept || times[kept - 1] != times[i])
            times[kept++] = times[i];
    c->times.count = kept;
    return true;
}

static qc_status enter(covers *c, const cover *column, qc_error *err)
{
    const qci_pattern *p = column->pattern;
    size_t room = (size_t)p->row_count + 1;
    int n = 0, *rows = qci_calloc(room, sizeof *rows);
    double *values = qci_calloc(room, sizeof *values);
    double most = column->times * p->height > c->room ? 0.0 : INFINITY;
    qc_status status = QC_STATUS_OK;

    if (!rows || !values)
        status = qci_no_memory(err);
    for (int32_t i = 0; i < p->row_count && !status; i++) {
        const qci_count *count = &p->rows[i];

        rows[n] = count->row;
        values[n++] = (double)covered(c->model->demand[count->row],
                                      column->times, count->count);
    }
    if (!status) {
        rows[n] = c->model->row_count;
        values[n++] = (double)(column->times * p->height);
        status = qci_lp_add_column(c->lp, 1.0, 0.0, most, n, rows, values, err);
    }
    qci_free(rows);
    qci_free(values);
    return status;
}

/* Rows: a demand each, with a helper column for all of it; then the room. */
static qc_status make_program(covers *c, qc_error *err)
{
    int rows = c->model->row_count;
    qc_status status = qci_lp_create(&c->lp, err);

    for (int row = 0; row < rows && !status; row++)
        status = qci_lp_add_row(c->lp, (double)c->model->demand[row], INFINITY,
                                0, NULL, NULL, err);
    if (!status)
        status = qci_lp_add_row(c->lp, -INFINITY, (double)c->room, 0, NULL,
                                NULL, err);
    for (int row = 0; row < rows && !status; row++) {
        double all = (double)c->model->demand[row];

        status = qci_lp_add_column(c->lp, HELPER_COST, 0.0, INFINITY, 1, &row,
                                   &all, err);
    }
    return status;
}

/* Takes the pattern, NULL when memory was out. */
static qc_status add_column(covers *c, qci_pattern *pattern, int64_t times,
                            qc_error *err)
{
    cover column = {pattern, times};

    if (!pattern || !qci_vec_push(&c->columns, column)) {
        qci_pattern_destroy(pattern);
        return qci_no_memory(err);
    }
    c->fresh++;
    return enter(c, &column, err);
}

static int64_t worth(const covers *c, const qci_pattern *p, int64_t times)
{
    int64_t sum = -c->height_price * times * p->height;

    for (int32_t i = 0; i < p->row_count; i++)
        sum +=
            c->price[p->rows[i].row] *
            covered(c->model->demand[p->rows[i].row], times, p->rows[i].count);
    return sum;
}

/* Most strips that one set-up may have of the pattern. */
static int64_t most_times(const covers *c, const qci_pattern *p)
{
    int64_t most = c->room / p->height;

    for (int32_t i = 0; i < p->row_count; i++) {
        int64_t last = last_times(c, p->rows[i].row, p->rows[i].count);

        if (last < most)
            most = last;
    }
    return most;
}

/* The number of strips at which the pattern, just found, is worth most. */
static int64_t best_times(const covers *c, const qci_pattern *p)
{
    int64_t most = most_times(c, p), best = c->now;
    int64_t best_worth = worth(c, p, best);

    for (int32_t i = 0; i < p->row_count; i++) {
        int64_t even = c->model->demand[p->rows[i].row] / p->rows[i].count;

        for (int64_t t = even; t <= even + 1; t++) {
            int64_t now = t > 0 && t <= most ? worth(c, p, t) : best_worth;

            if (now > best_worth) {
                best = t;
                best_worth = now;
            }
        }
    }
    return best;
}

static bool keep_found(int32_t cls, int64_t value, const int32_t *sequence,
                       int32_t length, void *user)
{
    covers *c = user;
    qci_pattern *p = qci_pattern_create(c->model, cls, sequence, length);

    (void)value;
    c->status = add_column(c, p, p ? best_times(c, p) : 0, c->err);
    return !c->status;
}

/* Values and limits for `times` strips; returns the number of bonuses. */
static int32_t set_values(covers *c, int64_t times)
{
    int32_t n = 0;

    for (int32_t row = 0; row < c->model->row_count; row++) {
        int64_t demand = c->model->demand[row], price = c->price[row];
        int64_t limit = (demand + times - 1) / times;
        int64_t most =
            times > 1 ? (demand + c->model->surplus[row]) / (times - 1) : limit;

        if (most < limit)
            limit = most;
        c->limit[row] = limit;
        c->value[row] = price * times;
        if (limit * times > demand)
            c->bonus[n++] = (qci_bonus){row, (int32_t)limit,
                                        price * (demand - limit * times)};
    }
    return n;
}

/* No less than what any column of `times` strips is worth, nor than a set-up;
 * columns that are worth more are added. */
static int64_t price_times(covers *c, int64_t times)
{
    const qci_model *model = c->model;
    qci_prices prices = {.value = c->value,
                         .limit = c->limit,
                         .bonus = c->bonus,
                         .bonus_count = set_values(c, times),
                         .threshold = c->threshold,
                         .node_limit = NODE_LIMIT,
                         .watch = c->master->watch};
    int64_t most = PARTS, a_class = c->height_price * times;

    /* A millionth more than a set-up is an error of the linear program. */
    for (int32_t k = 0; k < model->class_count; k++)
        c->threshold[k] =
            times * model->cost[k] > c->room
                ? INT64_MAX / 4
                : PARTS + PARTS / 1000000 + a_class * model->cost[k];
    c->now = times;
    c->calls--;
    qci_oracle_price(c->master->oracle, &prices, c->best, keep_found, c);
    for (int32_t k = 0; k < model->class_count; k++)
        if (times * model->cost[k] <= c->room &&
            c->best[k] - a_class * model->cost[k] > most)
            most = c->best[k] - a_class * model->cost[k];
    return most;
}

static void take_duals(covers *c)
{
    int rows = c->model->row_count;
    double height = qci_lp_row_dual(c->lp, rows);

    for (int row = 0; row < rows; row++) {
        double dual = qci_lp_row_dual(c->lp, row);

        c->price[row] = dual > 0.0 ? (int64_t)floor(dual * (double)PARTS) : 0;
    }
    c->height_price = height < 0.0 ? (int64_t)ceil(-height * (double)PARTS) : 0;
}

/* What the duals prove when no column is worth more than `most`. */
static int64_t proved(const covers *c, int64_t most)
{
    qci_wide sum = -(qci_wide)c->height_price * c->room;

    for (int32_t row = 0; row < c->model->row_count; row++)
        sum += (qci_wide)c->price[row] * c->model->demand[row];
    return sum <= 0 ? 0 : (int64_t)((sum + most - 1) / most);
}

/* Prices numbers of strips in turn, until enough columns are found. All of them
 * priced: *bound is raised to what that proves. */
static qc_status find_columns(covers *c, int64_t *bound, bool *ended)
{
    size_t done = 0, n = c->times.count;
    int64_t most = PARTS, now;

    c->fresh = 0;
    *ended = !n;
    if (!n)
        return QC_STATUS_OK;
    for (; done < n && c->fresh < COLUMNS_A_ROUND; done++) {
        *ended = c->calls <= 0 || qci_master_stopped(c->master);
        if (*ended)
            return QC_STATUS_OK;
        now = price_times(c, c->times.at[(c->at + done) % n]);
        if (c->status)
            return c->status;
        if (now > most)
            most = now;
    }
    c->at = (c->at + done) % n;
    *ended = !c->fresh;
    now = proved(c, most);
    if (done == n && now > *bound)
        *bound = now;
    return QC_STATUS_OK;
}

/* Adds columns until none helps, calls or time end, or *bound is `enough`. */
static qc_status solve(covers *c, int64_t enough, int64_t *bound, qc_error *err)
{
    const qci_watch *watch = c->master->watch;
    qci_mip_stop stop = {watch->deadline_ms, watch->cancelled, watch->user};
    qc_status status = QC_STATUS_OK;
    bool ended = false;

    for (int32_t round = 0; round < ROUND_LIMIT && !status && !ended; round++) {
        qci_lp_state state;

        status = qci_lp_solve(c->lp, &stop, &state, err);
        if (status || state != QCI_LP_OPTIMAL || *bound >= enough)
            break;
        take_duals(c);
        status = find_columns(c, bound, &ended);
    }
    return status;
}

/* Columns to begin with. */
static qc_status add_known(covers *c, const qci_solution *known, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < known->uses.count && !status; i++) {
        const qci_use *use = &known->uses.at[i];

        status = add_column(c,
                            qci_pattern_create(c->model, use->pattern->cls,
                                               use->pattern->sequence,
                                               use->pattern->length),
                            use->times, err);
    }
    return status;
}

qc_status qci_covers_bound(qci_master *master, int64_t room,
                           const qci_solution *known, int64_t *bound,
                           qc_error *err)
{
    covers c = {.master = master,
                .model = master->model,
                .room = room,
                .calls = CALL_LIMIT,
                .err = err};
    qc_status status = QC_STATUS_OK;

    if (!can_bound(c.model) || !known->uses.count)
        return QC_STATUS_OK;
    if (!make_room(&c) || !list_times(&c))
        status = qci_no_memory(err);
    if (!status)
        status = make_program(&c, err);
    if (!status)
        status = add_known(&c, known, err);
    if (!status)
        status = solve(&c, (int64_t)known->uses.count, bound, err);
    clear(&c);
    return status;
}
