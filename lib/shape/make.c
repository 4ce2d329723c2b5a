/* The cut shape of a patch: squares and rectangles here, and the triangles that
 * come from squares.
 *
 * What a seam adds to a side of these is known without drawing them (see
 * shape.c). A triangle of a square may be cut from a strip instead, where its
 * corners lie on even points and the strip has a height that is on the ruler.
 */
#include "shape/make.h"

#include "base/wide.h"
#include "length/ruler.h"

qc_length qci_make_mark(const qci_maker *m, qci_fine size, qc_length step)
{
    const qci_patch *patch = m->patch;
    qc_length up;

    if (patch->is_cut)
        return qci_fine_up_to(size, step);
    up = qci_ruler_up(qci_fine_up(size), patch->ruler);
    while (up % step)
        up += patch->ruler;
    m->out->rounded |= qci_fine_of(up) - size > QCI_FINE_NEAR;
    return up;
}

/* Of a side that is cut as it is, what its seams leave; where they leave
 * nothing, the side. */
static qc_length shown(const qci_patch *patch, qc_length side, qc_length seams)
{
    qc_length taken = seams + patch->trim;

    if (!patch->is_cut)
        return side;
    return side > taken ? side - taken : side;
}

/* The least whole length that is not below what is cut for a finished one; the
 * seams' part with a root in it as fine as the size. */
static qc_length cut_for(const qci_patch *patch, int dimension)
{
    qc_length size = patch->size[dimension];
    qci_surd seams = qci_shape_cut(patch->shape, (qci_surd){0, 0}, patch->seam);
    qci_fine root;

    if (!patch->below[dimension])
        return qci_shape_cut_up(patch->shape, size, patch->seam);
    root = qci_root(2 * (qci_wide)seams.root * seams.root << 2 * QCI_FINE_BITS);
    return qci_fine_up(qci_fine_of(size + seams.whole) + root -
                       patch->below[dimension]);
}

/* Sides of a square or rectangle; of a triangle, its square. */
static void set_square(const qci_maker *m)
{
    const qci_patch *patch = m->patch;
    qci_cut_shape *out = m->out;
    qc_length seams = qci_shape_cut_up(patch->shape, 0, patch->seam);
    int32_t yields = qci_shape_yields(patch->shape);
    qci_wide area = 1;

    for (int i = 0; i < 2; i++) {
        bool oblong = patch->shape == QC_SHAPE_RECTANGLE ||
                      patch->shape == QC_SHAPE_STRIP;
        qc_length size = patch->size[oblong ? i : 0];
        qc_length exact = cut_for(patch, oblong ? i : 0) + patch->trim;
        bool on_ruler =
            !patch->is_cut && (patch->shape != QC_SHAPE_STRIP || i == 0);

        area *= shown(patch, size, seams);
        out->cut[i] = patch->is_cut ? size
                      : on_ruler    ? qci_ruler_up(exact, patch->ruler)
                                    : exact;
        /* A triangle's seams are irrational. */
        out->rounded |= !patch->is_cut &&
                        (out->cut[i] != exact || (yields > 1 && patch->seam));
        if (patch->trim)
            out->trim_to[i] = yields == 1 && patch->is_cut
                                  ? size - patch->trim
                                  : shown(patch, size, seams) + 2 * patch->seam;
    }
    area /= yields;
    out->finished_area = area > INT64_MAX ? INT64_MAX : (int64_t)area;
}

/* A triangle from strips: one of a square's two or four, if that has corners on
 * even points and a strip of its height can be cut; else, where it cannot come
 * from squares, the next larger one of which that is true. */
static void set_triangle(const qci_maker *m)
{
    const qci_patch *patch = m->patch;
    qci_cut_shape *out = m->out;
    bool half = patch->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE;
    qc_length side = out->cut[0];
    qci_fine exact = half ? qci_fine_of(side) : side * (QCI_FINE / 2);
    bool rounded = out->rounded;
    qc_length height = qci_make_mark(m, exact, 2);
    qc_point *to = out->outline;

    if (!patch->singly) {
        out->rounded = rounded;
        if (qci_fine_of(height) != exact)
            return;
    }
    to[0] = (qc_point){0, 0};
    to[1] = (qc_point){half ? height : 2 * height, 0};
    to[2] = (qc_point){half ? 0 : height, height};
    out->outline_count = 3;
    out->base_count = 1;
}

static qci_patch_fault make_square(const qci_maker *m)
{
    const qci_patch *patch = m->patch;
    qc_length side;

    set_square(m);
    for (int i = 0; i < 2; i++)
        if (patch->is_cut && patch->trim &&
            (m->out->cut[i] <= patch->trim || m->out->trim_to[i] <= 0))
            return QCI_PATCH_TRIM;
    if (qci_shape_yields(patch->shape) == 1)
        return QCI_PATCH_FINE;
    /* At half its height a triangle is half as wide as its square. */
    side = m->out->cut[0];
    if (side >= 2 * QCI_NARROWEST && side <= QC_MAX_WIDTH)
        set_triangle(m);
    else if (patch->singly)
        return side > QC_MAX_WIDTH ? QCI_PATCH_TOO_LARGE : QCI_PATCH_TOO_NARROW;
    return QCI_PATCH_FINE;
}

qci_patch_fault qci_shape_make(const qci_patch *patch, qci_cut_shape *out,
                               size_t *at)
{
    qci_maker m = {patch, out, {0}};

    *at = 0;
    out->cut[0] = out->cut[1] = 0;
    out->trim_to[0] = out->trim_to[1] = 0;
    out->rounded = false;
    out->finished_area = 0;
    out->outline_count = out->base_count = 0;
    switch (patch->shape) {
    case QC_SHAPE_SQUARE:
    case QC_SHAPE_RECTANGLE:
    case QC_SHAPE_STRIP:
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
        return make_square(&m);
    default:
        return qci_make_angled(&m, at);
    }
}
