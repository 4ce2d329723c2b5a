/* The simplex method for covering programs of some hundred rows.
 *
 * A column has few entries and every pivot is followed by few others, since
 * columns come a handful at a time: with the inverse of the basis kept as it
 * is, a pivot costs rows x rows at most, and a warm start nothing. The inverse
 * is made anew now and then. Ties are broken by a trifle on every need, which
 * the value of the program leaves out again. Nothing here is ever a proof. */
#include "pack/line_lp.h"

#include <math.h>
#include <string.h>

#define TRIFLE 1e-6
/* In place of a column, while the inverse is made anew. */
#define WAITS INT32_MIN
#define LEAST_PIVOT 1e-5
#define ASTRAY 1e-7
#define LEAST_GAIN 1e-7
/* Updates of an inverse until it is made anew. */
#define UPDATES 400
/* What a shut column costs beside its strip, for each piece that it holds. */
#define SHUT_COST 1.0

bool qci_line_basis_init(qci_line_basis *basis, int32_t rows)
{
    size_t n = (size_t)rows;

    basis->column = qci_calloc(n, sizeof *basis->column);
    basis->inverse = qci_calloc(n * n, sizeof *basis->inverse);
    basis->x = qci_calloc(n, sizeof *basis->x);
    basis->need = qci_calloc(n, sizeof *basis->need);
    return basis->column && basis->inverse && basis->x && basis->need;
}

void qci_line_basis_clear(qci_line_basis *basis)
{
    qci_free(basis->column);
    qci_free(basis->inverse);
    qci_free(basis->x);
    qci_free(basis->need);
}

void qci_line_basis_copy(qci_line_basis *to, const qci_line_basis *from,
                         int32_t rows)
{
    size_t n = (size_t)rows;

    memcpy(to->column, from->column, n * sizeof *to->column);
    memcpy(to->inverse, from->inverse, n * n * sizeof *to->inverse);
    memcpy(to->x, from->x, n * sizeof *to->x);
    memcpy(to->need, from->need, n * sizeof *to->need);
}

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

static const qci_count *begin(const qci_line_lp *lp, int32_t column)
{
    return lp->entries.at + lp->first.at[column];
}

static const qci_count *end(const qci_line_lp *lp, int32_t column)
{
    return lp->entries.at + lp->first.at[column + 1];
}

/* A shut column in the basis costs more than strips of its single pieces. */
static double cost(const qci_line_lp *lp, int32_t column)
{
    double sum = 1.0;

    if (column < 0)
        return 0.0;
    if (lp->shut.at[column])
        for (const qci_count *c = begin(lp, column); c < end(lp, column); c++)
            sum += SHUT_COST * c->count;
    return sum;
}

double qci_line_lp_reduced(const qci_line_lp *lp, int32_t column)
{
    double sum = 1.0;

    for (const qci_count *c = begin(lp, column); c < end(lp, column); c++)
        sum -= lp->dual[c->row] * c->count;
    return sum;
}

/* The duals of the basis, from nothing. */
static void fill_duals(qci_line_lp *lp)
{
    for (int32_t k = 0; k < lp->rows; k++)
        lp->dual[k] = 0.0;
    for (int32_t i = 0; i < lp->rows; i++) {
        double c = cost(lp, lp->now.column[i]);
        const double *line = lp->now.inverse + (size_t)i * (size_t)lp->rows;

        if (c == 0.0)
            continue;
        for (int32_t k = 0; k < lp->rows; k++)
            lp->dual[k] += c * line[k];
    }
}

static void fill_x(qci_line_lp *lp)
{
    for (int32_t i = 0; i < lp->rows; i++) {
        const double *line = lp->now.inverse + (size_t)i * (size_t)lp->rows;
        double sum = 0.0;

        for (int32_t k = 0; k < lp->rows; k++)
            sum += line[k] * lp->now.need[k];
        lp->now.x[i] = sum;
    }
}

/* The inverse times a column (or what a row gets beyond its need). */
static void fill_change(qci_line_lp *lp, int32_t column)
{
    size_t n = (size_t)lp->rows;

    if (column < 0) {
        for (size_t i = 0; i < n; i++)
            lp->change[i] = -lp->now.inverse[i * n + (size_t)(-1 - column)];
        return;
    }
    for (size_t i = 0; i < n; i++)
        lp->change[i] = 0.0;
    for (const qci_count *c = begin(lp, column); c < end(lp, column); c++)
        for (size_t i = 0; i < n; i++)
            lp->change[i] += lp->now.inverse[i * n + (size_t)c->row] * c->count;
}

/* Takes a column in at a place; its change is filled. */
static void update_inverse(qci_line_lp *lp, int32_t place)
{
    size_t n = (size_t)lp->rows;
    double *line = lp->now.inverse + (size_t)place * n;
    double over = 1.0 / lp->change[place];

    for (size_t k = 0; k < n; k++)
        line[k] *= over;
    for (int32_t i = 0; i < lp->rows; i++) {
        double times = lp->change[i];
        double *other = lp->now.inverse + (size_t)i * n;

        if (i == place || fabs(times) < 1e-13)
            continue;
        for (size_t k = 0; k < n; k++)
            other[k] -= times * line[k];
    }
}

static void enter(qci_line_lp *lp, int32_t place, int32_t column)
{
    int32_t left = lp->now.column[place];

    if (left >= 0)
        lp->place.at[left] = -1;
    lp->now.column[place] = column;
    if (column >= 0)
        lp->place.at[column] = place;
}

/* Of the places that wait for a column, the one where the change is largest;
 * -1: none. */
static int32_t largest_waiting(const qci_line_lp *lp)
{
    int32_t best = -1;

    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->now.column[i] == WAITS &&
            (best < 0 || fabs(lp->change[i]) > fabs(lp->change[best])))
            best = i;
    return best;
}

/* Makes the inverse anew. What rows get beyond their needs comes to the places
 * of these rows; every column, to the place of those left where it stands out
 * most. A column that hangs on the others is left out. */
static void renew(qci_line_lp *lp)
{
    size_t n = (size_t)lp->rows;
    int32_t *column = lp->now.column;

    memset(lp->now.inverse, 0, n * n * sizeof *lp->now.inverse);
    memset(lp->change, 0, n * sizeof *lp->change);
    for (int32_t i = 0; i < lp->rows; i++) {
        lp->now.inverse[(size_t)i * n + (size_t)i] = -1.0;
        if (column[i] < 0)
            lp->change[-1 - column[i]] = 1.0;
    }
    for (int32_t i = 0; i < lp->rows; i++)
        column[i] = lp->change[i] > 0 ? -1 - i : WAITS;
    for (int32_t j = 0; j < qci_line_lp_columns(lp); j++) {
        int32_t best;

        if (lp->place.at[j] < 0)
            continue;
        lp->place.at[j] = -1;
        fill_change(lp, j);
        best = largest_waiting(lp);
        if (best < 0 || fabs(lp->change[best]) < LEAST_PIVOT)
            continue;
        update_inverse(lp, best);
        column[best] = j;
        lp->place.at[j] = best;
    }
    for (int32_t i = 0; i < lp->rows; i++)
        if (column[i] == WAITS)
            column[i] = -1 - i;
    lp->updates = 0;
}

static void pivot(qci_line_lp *lp, int32_t place, int32_t column,
                  double reduced)
{
    size_t n = (size_t)lp->rows;
    const double *line = lp->now.inverse + (size_t)place * n;
    double step = lp->now.x[place] / lp->change[place];

    for (size_t i = 0; i < n; i++)
        lp->now.x[i] -= step * lp->change[i];
    lp->now.x[place] = step;
    update_inverse(lp, place);
    for (size_t k = 0; k < n; k++)
        lp->dual[k] += reduced * line[k];
    enter(lp, place, column);
    lp->updates++;
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
        if (lp->change[i] > LEAST_PIVOT) {
            double x = lp->now.x[i] > 0 ? lp->now.x[i] : 0.0;
            double step = (x + 1e-9) / lp->change[i];

            least = step < least ? step : least;
        }
    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->change[i] > LEAST_PIVOT &&
            lp->now.x[i] / lp->change[i] <= least &&
            (best < 0 || lp->change[i] > lp->change[best]))
            best = i;
    return best;
}

static void anew(qci_line_lp *lp)
{
    renew(lp);
    fill_x(lp);
    fill_duals(lp);
}

/* Does the column's change tell the same of its reduced cost as the duals do?
 * If not, the inverse has gone astray. */
static bool agrees(const qci_line_lp *lp, int32_t column, double reduced)
{
    double sum = column < 0 ? 0.0 : 1.0;

    for (int32_t i = 0; i < lp->rows; i++)
        if (lp->change[i] != 0.0)
            sum -= cost(lp, lp->now.column[i]) * lp->change[i];
    return fabs(sum - reduced) < ASTRAY * (1.0 + fabs(reduced));
}

static bool primal(qci_line_lp *lp)
{
    int32_t left = 20 * lp->rows + 200, column;
    double reduced;

    while (choose_entering(lp, &column, &reduced)) {
        int32_t place;

        fill_change(lp, column);
        if (lp->updates >= UPDATES ||
            (lp->updates && !agrees(lp, column, reduced))) {
            anew(lp);
            continue;
        }
        place = choose_leaving(lp);
        if (place < 0 || left-- == 0)
            return false;
        pivot(lp, place, column, reduced);
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
        if (line[row] > LEAST_PIVOT) {
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
        for (const qci_count *c = begin(lp, j); c < end(lp, j); c++) {
            gives -= line[c->row] * c->count;
            d -= lp->dual[c->row] * c->count;
        }
        if (gives <= LEAST_PIVOT)
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
        fill_change(lp, column);
        if (fabs(lp->change[place]) < LEAST_PIVOT / 2)
            return;
        pivot(lp, place, column, reduced);
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
        for (const qci_count *c = begin(lp, j); c < end(lp, j); c++)
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
        lp->now.inverse[(size_t)i * n + (size_t)i] = 1.0 / begin(lp, i)->count;
        lp->now.column[i] = i;
        lp->place.at[i] = i;
    }
    lp->updates = 0;
    set_need(lp, need);
    fill_x(lp);
    fill_duals(lp);
}

void qci_line_lp_change(qci_line_lp *lp, const int64_t *need)
{
    set_need(lp, need);
    fill_x(lp);
    dual(lp);
    fill_duals(lp);
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
    fill_x(lp);
    fill_duals(lp);
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
    anew(lp);
    dual(lp);
    fill_duals(lp);
    return primal(lp);
}

double qci_line_lp_value(const qci_line_lp *lp, const int64_t *need)
{
    double sum = 0.0;

    for (int32_t row = 0; row < lp->rows; row++)
        sum += lp->dual[row] * (double)need[row];
    return sum;
}
