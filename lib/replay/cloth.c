/* Repeated cuts without walking through each.
 *
 * A step may ask for thousands of equal cuts. The slab that they take apart is
 * cut off whole, then its first and its last slice are cut off it. All slices
 * are equal exactly when the last is the first moved along, and the slab has
 * `count` times the first one's area: the slab, being convex, contains
 * everything between the two, and that alone has at least `count` times the
 * area of one slice, with equality only if its outline is straight all along.
 * So four straight cuts prove what any number would show. */
#include "replay/cloth.h"

void qci_cloth_left(const qci_polygon *cloth, qci_point *lower,
                    qci_point *upper)
{
    *lower = *upper = cloth->at[0];
    for (int i = 1; i < cloth->count; i++) {
        qci_point p = cloth->at[i];

        if (p.y < lower->y || (p.y == lower->y && p.x < lower->x))
            *lower = p;
        if (p.y > upper->y || (p.y == upper->y && p.x < upper->x))
            *upper = p;
    }
}

qc_length qci_cloth_extent(const qci_polygon *cloth, qci_measure measure)
{
    qci_point low, high, lower, upper;

    qci_polygon_box(cloth, &low, &high);
    qci_cloth_left(cloth, &lower, &upper);
    return measure == QCI_MEASURE_UP ? high.y - low.y : high.x - lower.x;
}

/* Cuts once; what lies nearer to the working edge is freed. */
static qci_slice cut_off(const qci_polygon *cloth, qci_ruler ruler,
                         qci_polygon *freed, qci_polygon *rest)
{
    qci_point low, high, lower, upper, a, b;

    qci_polygon_box(cloth, &low, &high);
    qci_cloth_left(cloth, &lower, &upper);
    if (ruler.measure == QCI_MEASURE_UP) {
        a = (qci_point){high.x + 1, low.y + ruler.distance};
        b = (qci_point){low.x, low.y + ruler.distance};
    } else {
        a = (qci_point){lower.x + ruler.distance, low.y};
        b = (qci_point){a.x + ruler.lean, high.y};
    }
    switch (qci_polygon_cut(cloth, a, b, freed, rest)) {
    case QCI_CUT_DONE:
        return QCI_SLICE_DONE;
    case QCI_CUT_MISSES:
        return QCI_SLICE_BEYOND;
    case QCI_CUT_OFF_LATTICE:
        break;
    }
    return QCI_SLICE_OFF_LATTICE;
}

/* The same cut, `count` slices on. */
static qci_ruler times(qci_ruler ruler, int64_t count)
{
    ruler.distance *= count;
    return ruler;
}

/* `slab` falls into `count` >= 2 slices equal to `first`, its first one. */
static qci_slice check_equal(const qci_polygon *slab, qci_ruler ruler,
                             int64_t count, const qci_polygon *first)
{
    qci_ruler on = times(ruler, count - 1);
    bool up = ruler.measure == QCI_MEASURE_UP;
    qci_polygon before, last;
    qci_slice done = cut_off(slab, on, &before, &last);

    if (done != QCI_SLICE_DONE)
        return done;
    if (!qci_polygon_is_moved(first, &last, up ? 0 : on.distance,
                              up ? on.distance : 0) ||
        qci_polygon_doubled_area(slab) !=
            qci_polygon_doubled_area(first) * count)
        return QCI_SLICE_UNEQUAL;
    return QCI_SLICE_DONE;
}

/* Cuts off the slab that all slices together are. */
static qci_slice cut_slab(const qci_polygon *cloth, qci_ruler ruler,
                          int64_t count, bool all, qci_polygon *slab,
                          qci_polygon *rest)
{
    qc_length extent = qci_cloth_extent(cloth, ruler.measure);

    /* Divided, not multiplied, so that nothing can overflow. */
    if (ruler.distance > extent / count)
        return QCI_SLICE_BEYOND;
    if (!all)
        return cut_off(cloth, times(ruler, count), slab, rest);
    *slab = *rest = *cloth;
    return ruler.distance * count == extent ? QCI_SLICE_DONE : QCI_SLICE_BEYOND;
}

qci_slice qci_cloth_slice(qci_polygon *cloth, qci_ruler ruler, int64_t count,
                          bool all, qci_polygon *freed)
{
    qci_polygon slab, rest, first, others;
    qci_slice done = cut_slab(cloth, ruler, count, all, &slab, &rest);

    if (done != QCI_SLICE_DONE)
        return done;
    first = slab;
    if (count > 1) {
        done = cut_off(&slab, ruler, &first, &others);
        if (done == QCI_SLICE_DONE)
            done = check_equal(&slab, ruler, count, &first);
        if (done != QCI_SLICE_DONE)
            return done;
    }
    *freed = first;
    *cloth = rest;
    return QCI_SLICE_DONE;
}

bool qci_cloth_is_rectangle(const qci_polygon *cloth, qc_length width,
                            qc_length height)
{
    qci_polygon wanted = qci_polygon_rectangle(width, height);
    qci_point low, high;

    qci_polygon_box(cloth, &low, &high);
    return qci_polygon_is_moved(&wanted, cloth, low.x, low.y);
}
