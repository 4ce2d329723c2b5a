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

/* Cuts at `distance` from the working edge; what lies nearer to the edge is
 * freed. */
static qci_slice cut_off(const qci_polygon *cloth, qci_measure measure,
                         qc_length distance, qci_polygon *freed,
                         qci_polygon *rest)
{
    qci_point low, high, a, b;

    qci_polygon_box(cloth, &low, &high);
    if (measure == QCI_MEASURE_UP) {
        a = (qci_point){high.x + 1, low.y + distance};
        b = (qci_point){low.x, low.y + distance};
    } else {
        a = (qci_point){low.x + distance, low.y};
        b = (qci_point){low.x + distance, high.y + 1};
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

qc_length qci_cloth_extent(const qci_polygon *cloth, qci_measure measure)
{
    qci_point low, high;

    qci_polygon_box(cloth, &low, &high);
    return measure == QCI_MEASURE_UP ? high.y - low.y : high.x - low.x;
}

/* `slab` falls into `count` >= 2 slices equal to `first`, its first one. */
static qci_slice check_equal(const qci_polygon *slab, qci_measure measure,
                             qc_length distance, int64_t count,
                             const qci_polygon *first)
{
    qc_length along = distance * (count - 1);
    qci_polygon before, last;
    qci_slice done = cut_off(slab, measure, along, &before, &last);

    if (done != QCI_SLICE_DONE)
        return done;
    if (!qci_polygon_is_moved(first, &last,
                              measure == QCI_MEASURE_ACROSS ? along : 0,
                              measure == QCI_MEASURE_UP ? along : 0) ||
        qci_polygon_doubled_area(slab) !=
            qci_polygon_doubled_area(first) * count)
        return QCI_SLICE_UNEQUAL;
    return QCI_SLICE_DONE;
}

/* Cuts off the slab that all slices together are. */
static qci_slice cut_slab(const qci_polygon *cloth, qci_measure measure,
                          qc_length distance, int64_t count, bool all,
                          qci_polygon *slab, qci_polygon *rest)
{
    qc_length extent = qci_cloth_extent(cloth, measure);

    /* Divided, not multiplied, so that nothing can overflow. */
    if (distance > extent / count)
        return QCI_SLICE_BEYOND;
    if (!all)
        return cut_off(cloth, measure, distance * count, slab, rest);
    *slab = *rest = *cloth;
    return distance * count == extent ? QCI_SLICE_DONE : QCI_SLICE_BEYOND;
}

qci_slice qci_cloth_slice(qci_polygon *cloth, qci_measure measure,
                          qc_length distance, int64_t count, bool all,
                          qci_polygon *freed)
{
    qci_polygon slab, rest, first, others;
    qci_slice done =
        cut_slab(cloth, measure, distance, count, all, &slab, &rest);

    if (done != QCI_SLICE_DONE)
        return done;
    first = slab;
    if (count > 1) {
        done = cut_off(&slab, measure, distance, &first, &others);
        if (done == QCI_SLICE_DONE)
            done = check_equal(&slab, measure, distance, count, &first);
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
