/* The simplex method for covering programs of some hundred rows.
 *
 * A column has few entries and every pivot is followed by few others, since
 * columns come a handful at a time: with the inverse of the basis kept as it
 * is, a pivot costs rows x rows at most, and a warm start nothing. The inverse
 * is made anew now and then. Ties are broken by a trifle on every need, which
 * the value of the program leaves out again. Nothing here is ever a proof. */
#include "pack/line_lp_inner.h"

#include <math.h>
#include <string.h>

#define TRIFLE 1e-6
#define ASTRAY 1e-7
#define LEAST_GAIN 1e-7
/* Updates of an inverse until it is made anew. */
#define UPDATES 400

bool qci_line_lp_init(qci_line_lp *lp, int32_t rows)
{
    *lp = (qci_line_lp){.rows = rows};
    lp->dual = qci_calloc((size_t)rows, sizeof *lp->dual);
    lp->change = qci_calloc((size_t)rows, sizeof *lp->change);
    return qci_line_basis_init(&lp->now, rows) && lp->dual && lp->change &&
           qci_vec_push(&lp->first, 0);
}

void qci_line_lp_clear(qci_line_lp *lp)
{
    qci_vec_clear(&lp->entries);
    qci_vec_clear(&lp->first);
    qci_vec_clear(&lp->shut);
    qci_vec_clear(&lp->place);
    qci_line_basis_clear(&lp->now);
    qci_free(lp->dual);
    qci_free(lp->change);
}

int32_t qci_line_lp_columns(const qci_line_lp *lp)
{
    return (int32_t)lp->shut.count;
}

int32_t qci_line_lp_add(qci_line_lp *lp, const qci_count *entries,
                        int32_t count)
{
    for (int32_t i = 0; i < count; i++)
        if (!qci_vec_push(&lp->entries, entries[i]))
            return -1;
    if (!qci_vec_reserve(&lp->first) || !qci_vec_reserve(&lp->shut) ||
        !qci_vec_push(&lp->place, -1))
        return -1;
    qci_vec_push(&lp->first, (int32_t)lp->entries.count);
    qci_vec_push(&lp->shut, false);
    return (int32_t)lp->shut.count - 1;
}

double qci_line_lp_reduced(const qci_line_lp *lp, int32_t column)
{
    double sum = 1.0;

    for (const qci_count *c = qci_line_begin(lp, column);
         c < qci_line_end(lp, column); c++)
        sum -= lp->dual[c->row] * c->count;
    return sum;
}

/* The column of least reduced cost below 0, or row (as -1 - row) that is worth
 * less than nothing; false if there is none. */
static bool choose_entering(const qci_line_lp *lp, int32_t *column,
                            double *reduced)
{
    *reduced = -LEAST_GAIN;
    *column = -1 - lp->rows;
    for (int32_t row = 0; row < lp->rows; row++)
        if (lp->dual[row] < *reduced) {
            *reduced = lp->dual[row];
            *column = -1 - row;
        }
    for (int32_t j = 0; j < qci_line_lp_columns(lp); j++) {
        double d;

        if (lp->place.at[j] >= 0 || lp->shut.at[j])
            continue;
        d = qci_line_lp_reduced(lp, j);
        if (d < *reduced) {
            *reduced = d;
            *column = j;
        }
    }
    return *column != -1 - lp->rows;
}

/* The place that is empty first; of those that are nearly so, where the change
 * is largest. -1: none. */
static int32_t choose_leaving(const qci_line_lp *lp)
{
    double least = INFINITY;
    int32_t best = -1;

    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->change[i] > QCI_LEAST_PIVOT) {
            double x = lp->now.x[i] > 0 ? lp->now.x[i] : 0.0;
            double step = (x + 1e-9) / lp->change[i];

            least = step < least ? step : least;
        }
    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->change[i] > QCI_LEAST_PIVOT &&
            lp->now.x[i] / lp->change[i] <= least &&
            (best < 0 || lp->change[i] > lp->change[best]))
            best = i;
    return best;
}

/* Does the column's change tell the same of its reduced cost as the duals do?
 * If not, the inverse has gone astray. */
static bool agrees(const qci_line_lp *lp, int32_t column, double reduced)
{
    double sum = column < 0 ? 0.0 : 1.0;

    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->change[i] != 0.0)
            sum -= qci_line_cost(lp, lp->now.column[i]) * lp->change[i];
    return fabs(sum - reduced) < ASTRAY * (1.0 + fabs(reduced));
}

static bool primal(qci_line_lp *lp)
{
    int32_t left = 20 * lp->rows + 200, column;
    double reduced;

    while (choose_entering(lp, &column, &reduced)) {
        int32_t place;

        qci_line_fill_change(lp, column);
        if (lp->updates >= UPDATES ||
            (lp->updates && !agrees(lp, column, reduced))) {
            qci_line_renew(lp);
            continue;
        }
        place = choose_leaving(lp);
        if (place < 0 || left-- == 0)
            return false;
        qci_line_pivot(lp, place, column, reduced);
    }
    return true;
}

/* What enters where too little of the place's column is left: that which costs
 * least for what it gives there. */
static bool choose_instead(const qci_line_lp *lp, int32_t place,
                           int32_t *column, double *reduced)
{
    const double *line = lp->now.inverse + (size_t)place * (size_t)lp->rows;
    double least = INFINITY, most = 0.0;

    for (int32_t row = 0; row < lp->rows; row++)
        if (line[row] > QCI_LEAST_PIVOT) {
            double d = lp->dual[row] > 0 ? lp->dual[row] : 0.0;

            if (d / line[row] < least) {
                least = d / line[row];
                *column = -1 - row;
                *reduced = lp->dual[row];
            }
        }
    for (int32_t j = 0; j < qci_line_lp_columns(lp); j++) {
        double gives = 0.0, d = 1.0;

        if (lp->place.at[j] >= 0 || lp->shut.at[j])
            continue;
        for (const qci_count *c = qci_line_begin(lp, j);
             c < qci_line_end(lp, j); c++) {
            gives -= line[c->row] * c->count;
            d -= lp->dual[c->row] * c->count;
        }
        if (gives <= QCI_LEAST_PIVOT)
            continue;
        if (d < 0)
            d = 0;
        if (d / gives < least - 1e-9 ||
            (d / gives <= least + 1e-9 && gives > most)) {
            least = d / gives;
            most = gives;
            *column = j;
            *reduced = d;
        }
    }
    return least < INFINITY;
}

/* Back to where no place holds less than nothing. */
static void dual(qci_line_lp *lp)
{
    for (int32_t left = 10 * lp->rows + 100; left > 0; left--) {
        int32_t place = 0, column = 0;
        double reduced = 0.0;

        for (int32_t i = 1; i < lp->rows; i++)
            if (lp->now.x[i] < lp->now.x[place])
                place = i;
        if (lp->now.x[place] > -1e-7 ||
            !choose_instead(lp, place, &column, &reduced))
            return;
        qci_line_fill_change(lp, column);
        if (fabs(lp->change[place]) < QCI_LEAST_PIVOT / 2)
            return;
        qci_line_pivot(lp, place, column, reduced);
    }
}

static void set_need(qci_line_lp *lp, const int64_t *need)
{
    uint32_t mixed = 1;

    for (int32_t row = 0; row < lp->rows; row++) {
        mixed = mixed * 1664525u + 1013904223u;
        lp->now.need[row] =
            need[row] > 0 ? (double)need[row] +
                                TRIFLE * (1.0 + (double)(mixed >> 16) / 65536.0)
                          : 0.0;
    }
    for (int32_t j = 0; j < qci_line_lp_columns(lp); j++) {
        lp->shut.at[j] = false;
        for (const qci_count *c = qci_line_begin(lp, j);
             c < qci_line_end(lp, j); c++)
            if (c->count > need[c->row])
                lp->shut.at[j] = true;
    }
}

void qci_line_lp_begin(qci_line_lp *lp, const int64_t *need)
{
    size_t n = (size_t)lp->rows;

    memset(lp->now.inverse, 0, n * n * sizeof *lp->now.inverse);
    for (size_t j = 0; j < lp->place.count; j++)
        lp->place.at[j] = -1;
    for (int32_t i = 0; i < lp->rows; i++) {
        lp->now.inverse[(size_t)i * n + (size_t)i] =
            1.0 / qci_line_begin(lp, i)->count;
        lp->now.column[i] = i;
        lp->place.at[i] = i;
    }
    lp->updates = 0;
    set_need(lp, need);
    qci_line_fill_x(lp);
    qci_line_fill_duals(lp);
}

void qci_line_lp_change(qci_line_lp *lp, const int64_t *need)
{
    set_need(lp, need);
    qci_line_fill_x(lp);
    dual(lp);
    qci_line_fill_duals(lp);
}

void qci_line_lp_return(qci_line_lp *lp, const qci_line_basis *basis,
                        const int64_t *need)
{
    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->now.column[i] >= 0)
            lp->place.at[lp->now.column[i]] = -1;
    qci_line_basis_copy(&lp->now, basis, lp->rows);
    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->now.column[i] >= 0)
            lp->place.at[lp->now.column[i]] = i;
    set_need(lp, need);
    qci_line_fill_x(lp);
    qci_line_fill_duals(lp);
}

/* Does the inverse still give what is needed? */
static bool is_sound(const qci_line_lp *lp)
{
    double worst = 0.0;

    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->now.x[i] < worst)
            worst = lp->now.x[i];
    return worst > -1e-5;
}

bool qci_line_lp_solve(qci_line_lp *lp)
{
    bool done = primal(lp);

    if (done && is_sound(lp))
        return true;
    qci_line_renew(lp);
    dual(lp);
    qci_line_fill_duals(lp);
    return primal(lp);
}

double qci_line_lp_value(const qci_line_lp *lp, const int64_t *need)
{
    double sum = 0.0;

    for (int32_t row = 0; row < lp->rows; row++)
        sum += lp->dual[row] * (double)need[row];
    return sum;
}
