/* What is checked before GLPK sees it.
 *
 * GLPK dies of a repeated or missing index and calculates on with NaN, to a
 * wrong "optimal". Repeats are found by marking every line with the number of
 * the list that named it last, so a check costs nothing but its length. */
#include "mip/list.h"

#include <limits.h>
#include <math.h>
#include <string.h>

#include <glpk.h>

#include "base/alloc.h"
#include "base/error.h"

qc_status qci_mip_refuse(qc_error *err, const char *what, const char *problem)
{
    return qci_fail(err, QC_STATUS_SOLVER, (qci_place){NULL, NULL}, NULL,
                    "the solver was given a wrong model: %s: %s", what,
                    problem);
}

bool qci_sides_fine(double lo, double hi)
{
    return lo <= hi && lo < INFINITY && hi > -INFINITY; /* NaN: false */
}

int qci_sides_kind(double lo, double hi)
{
    if (lo == hi)
        return GLP_FX;
    if (isinf(lo))
        return isinf(hi) ? GLP_FR : GLP_UP;
    return isinf(hi) ? GLP_LO : GLP_DB;
}

bool qci_list_reserve(qci_list *list, int count)
{
    size_t room = list->room ? (size_t)list->room : 64;
    int *index, *mark;
    double *value;

    if (count < list->room)
        return true;
    while (room <= (size_t)count)
        room *= 2;
    index = qci_realloc(list->index, room, sizeof *index);
    if (index)
        list->index = index;
    value = qci_realloc(list->value, room, sizeof *value);
    if (value)
        list->value = value;
    mark = qci_realloc(list->mark, room, sizeof *mark);
    if (mark)
        list->mark = mark;
    if (!index || !value || !mark)
        return false;
    memset(mark, 0, room * sizeof *mark);
    list->stamp = 0;
    list->room = (int)room;
    return true;
}

static void begin_list(qci_list *list)
{
    if (list->stamp == INT_MAX) {
        memset(list->mark, 0, (size_t)list->room * sizeof *list->mark);
        list->stamp = 0;
    }
    list->stamp++;
}

qc_status qci_list_take(qci_list *list, int line_count, int n, const int *lines,
                        const double *values, qc_error *err)
{
    if (n < 0 || n > line_count)
        return qci_mip_refuse(err, "n", "more coefficients than lines");
    if (!qci_list_reserve(list, line_count))
        return qci_no_memory(err);
    begin_list(list);
    for (int i = 0; i < n; i++) {
        int at = lines[i];

        if (at < 0 || at >= line_count)
            return qci_mip_refuse(err, "index", "no such line");
        if (list->mark[at] == list->stamp)
            return qci_mip_refuse(err, "index", "a line is named twice");
        if (!isfinite(values[i]))
            return qci_mip_refuse(err, "value", "not a finite number");
        list->mark[at] = list->stamp;
        list->index[i + 1] = at + 1;
        list->value[i + 1] = values[i];
    }
    return QC_STATUS_OK;
}

void qci_list_clear(qci_list *list)
{
    qci_free(list->index);
    qci_free(list->value);
    qci_free(list->mark);
    memset(list, 0, sizeof *list);
}
