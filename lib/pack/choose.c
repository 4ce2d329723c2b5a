/* What a node is branched on: the count that is farthest from whole. */
#include "pack/choose.h"

#include <math.h>

/* Closer to whole than this counts as whole. */
#define FRACTION 1e-5

static double off_whole(double x)
{
    return fabs(x - round(x));
}

/* LP columns after the helpers are the class counts. */
static double class_count(const qci_master *m, int32_t cls)
{
    return qci_lp_column_value(m->lp, m->helpers + cls);
}

int32_t qci_choose_classes(const qci_master *m, int32_t most,
                           qci_class_count *list)
{
    int32_t n = 0;

    for (int32_t k = m->model->class_count - 1; k >= 0; k--) {
        double c = class_count(m, k), off = off_whole(c);
        int32_t at;

        if (off <= FRACTION ||
            (n == most && off <= off_whole(list[n - 1].count) + 1e-9))
            continue;
        at = n < most ? n++ : n - 1;
        for (; at > 0 && off_whole(list[at - 1].count) < off - 1e-9; at--)
            list[at] = list[at - 1];
        list[at] = (qci_class_count){k, c};
    }
    return n;
}

int32_t qci_choose_class(const qci_master *m, double *count)
{
    qci_class_count farthest;

    if (!qci_choose_classes(m, 1, &farthest))
        return -1;
    *count = farthest.count;
    return farthest.cls;
}

int32_t qci_choose_nearest(const qci_master *m, double *count)
{
    int32_t best = -1;
    double nearest = 1.0;

    for (int32_t k = m->model->class_count - 1; k >= 0; k--) {
        double c = class_count(m, k);

        if (off_whole(c) > FRACTION && off_whole(c) < nearest - 1e-9) {
            nearest = off_whole(c);
            best = k;
            *count = c;
        }
    }
    return best;
}

/* sums[q] = strips in the LP with at least q pieces of the row. */
static int32_t count_sums(const qci_master *m, int32_t row, double *sums,
                          int32_t room)
{
    int32_t most = 0;

    for (int32_t q = 0; q < room; q++)
        sums[q] = 0.0;
    for (size_t j = 0; j < m->columns.count; j++) {
        double x = qci_master_use(m, j);
        int32_t yield;

        if (x <= 0.0)
            continue;
        yield = qci_pattern_yield(qci_master_pattern(m, j), row);
        if (yield >= room)
            yield = room - 1;
        if (yield > most)
            most = yield;
        for (int32_t q = 1; q <= yield; q++)
            sums[q] += x;
    }
    return most;
}

#define COUNT_ROOM 64

bool qci_choose_count(const qci_master *m, qci_count_row *out, double *count)
{
    double sums[COUNT_ROOM], farthest = FRACTION;

    for (int32_t row = 0; row < m->model->row_count; row++) {
        int32_t most = count_sums(m, row, sums, COUNT_ROOM);

        for (int32_t q = 1; q <= most; q++)
            if (off_whole(sums[q]) > farthest + 1e-9) {
                farthest = off_whole(sums[q]);
                *out = (qci_count_row){row, q, 0, QCI_MANY};
                *count = sums[q];
            }
    }
    return farthest > FRACTION;
}
