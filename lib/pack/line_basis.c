/* The basis of the linear program with one class, and its inverse as it is:
 * what a pivot changes, and how all is made anew. */
#include "pack/line_lp_inner.h"

#include <math.h>
#include <string.h>

/* In place of a column, while the inverse is made anew. */
#define WAITS INT32_MIN
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

double qci_line_cost(const qci_line_lp *lp, int32_t column)
{
    double sum = 1.0;

    if (column < 0)
        return 0.0;
    if (lp->shut.at[column])
        for (const qci_count *c = qci_line_begin(lp, column);
             c < qci_line_end(lp, column); c++)
            sum += SHUT_COST * c->count;
    return sum;
}

void qci_line_fill_duals(qci_line_lp *lp)
{
    for (int32_t k = 0; k < lp->rows; k++)
        lp->dual[k] = 0.0;
    for (int32_t i = 0; i < lp->rows; i++) {
        double c = qci_line_cost(lp, lp->now.column[i]);
        const double *line = lp->now.inverse + (size_t)i * (size_t)lp->rows;

        if (c == 0.0)
            continue;
        for (int32_t k = 0; k < lp->rows; k++)
            lp->dual[k] += c * line[k];
    }
}

void qci_line_fill_x(qci_line_lp *lp)
{
    for (int32_t i = 0; i < lp->rows; i++) {
        const double *line = lp->now.inverse + (size_t)i * (size_t)lp->rows;
        double sum = 0.0;

        for (int32_t k = 0; k < lp->rows; k++)
            sum += line[k] * lp->now.need[k];
        lp->now.x[i] = sum;
    }
}

void qci_line_fill_change(qci_line_lp *lp, int32_t column)
{
    size_t n = (size_t)lp->rows;

    if (column < 0) {
        for (size_t i = 0; i < n; i++)
            lp->change[i] = -lp->now.inverse[i * n + (size_t)(-1 - column)];
        return;
    }
    for (size_t i = 0; i < n; i++)
        lp->change[i] = 0.0;
    for (const qci_count *c = qci_line_begin(lp, column);
         c < qci_line_end(lp, column); c++)
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
static void renew_inverse(qci_line_lp *lp)
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
        qci_line_fill_change(lp, j);
        best = largest_waiting(lp);
        if (best < 0 || fabs(lp->change[best]) < QCI_LEAST_PIVOT)
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

void qci_line_pivot(qci_line_lp *lp, int32_t place, int32_t column,
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

void qci_line_renew(qci_line_lp *lp)
{
    renew_inverse(lp);
    qci_line_fill_x(lp);
    qci_line_fill_duals(lp);
}
