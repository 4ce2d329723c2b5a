/* Seam allowances as geometry.
 *
 * A patch is given by its edges, as lines a x + b y = c with the patch on the
 * side of smaller values; edge 0 lies on the x axis and is the one whose length
 * is asked for. A seam moves every line outwards by the allowance: c grows by
 * the allowance times the length of (a, b), which is 1 or sqrt2 here. The cut
 * length is that between the corners on the moved edge 0. So what the trade
 * adds to the size of a triangle is computed and never typed in, and nothing is
 * rounded before the end, when the square root is taken in integers. Constant
 * cost. */
#include "shape/shape.h"

#include "shape/fixed.h"

/* a, b in -1, 0, 1 */
typedef struct edge {
    int a, b;
    qci_surd c;
} edge;

static qci_surd plus(qci_surd p, qci_surd q)
{
    return (qci_surd){p.whole + q.whole, p.root + q.root};
}

static qci_surd times(qci_surd p, int factor)
{
    return (qci_surd){p.whole * factor, p.root * factor};
}

static edge moved_out(edge e, qc_length seam)
{
    bool slanted = e.a && e.b;

    e.c = plus(e.c, slanted ? (qci_surd){0, seam} : (qci_surd){seam, 0});
    return e;
}

/* Where a line that is not level has the height y. */
static qci_surd at_height(edge e, qci_surd y)
{
    return times(plus(e.c, times(y, -e.b)), e.a);
}

qci_surd qci_shape_cut(qc_shape shape, qci_surd finished, qc_length seam)
{
    const qci_surd zero = {0, 0};
    edge base = {0, -1, zero};
    edge right = {1, 0, finished};
    edge left = {-1, 0, zero};
    qci_surd y;

    if (shape == QC_SHAPE_HALF_SQUARE_TRIANGLE ||
        shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE)
        right.b = 1;
    if (shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE)
        left.b = 1;
    y = times(moved_out(base, seam).c, -1);
    return plus(at_height(moved_out(right, seam), y),
                times(at_height(moved_out(left, seam), y), -1));
}

int32_t qci_shape_yields(qc_shape shape)
{
    switch (shape) {
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
        return 2;
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
        return 4;
    default:
        return 1;
    }
}

bool qci_shape_is_angled(qc_shape shape)
{
    return shape != QC_SHAPE_SQUARE && shape != QC_SHAPE_RECTANGLE &&
           shape != QC_SHAPE_STRIP;
}

/* The root of a whole number other than 0 times 2 is irrational: one unit above
 * the whole number below it is the least that is not less. */
qc_length qci_surd_up(qci_surd length)
{
    qci_wide square = 2 * (qci_wide)length.root * length.root;
    qc_length root = (qc_length)qci_root(square);

    if (length.root < 0)
        return length.whole - root;
    return length.whole + root + (length.root > 0 ? 1 : 0);
}

qc_length qci_shape_cut_up(qc_shape shape, qc_length finished, qc_length seam)
{
    return qci_surd_up(qci_shape_cut(shape, (qci_surd){finished, 0}, seam));
}
