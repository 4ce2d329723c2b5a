/* The sides of a patch, from the sizes that its shape is given by.
 *
 * Shapes with an angle have directions from its sine and cosine; the others
 * from the differences of their corners, which are exact. Mirrored patches are
 * made last: left for right, the sides in reversed order, so that the base
 * stays the base. Sizes beyond twice QC_MAX_WIDTH are refused before anything
 * is multiplied, since no shape with such a one is narrow enough. */
#include "shape/sides.h"

#define TOO_LONG (2 * QC_MAX_WIDTH)
/* Corners that turn by less are none: 2^-24 of a radian, a 300 000th of a
 * degree. */
#define FLATTEST (QCI_ONE >> 24)
/* The sine of a degree, rounded down. Two sides that meet at less have a tip
 * that nobody can cut or sew, and too far off for the digits there are. */
#define SHARPEST (QCI_ONE / 1000000 * 17452)

static qci_dir opposite(qci_dir d)
{
    return (qci_dir){-d.x, -d.y};
}

/* From where the last side ends, `length` in a direction. */
static void add_side(qci_sides *out, qci_fine_point *at, qci_dir dir,
                     qci_fine length)
{
    out->at[out->count++] = (qci_side){dir, at->x, at->y, 0, false};
    at->x += qci_fine_times(length, dir.x);
    at->y += qci_fine_times(length, dir.y);
}

/* `across` on the base, `slanted` at its left end. */
static qci_patch_fault parallelogram(qci_sides *out, qci_fine across,
                                     qci_fine slanted, qci_dir up)
{
    const qci_dir along = {QCI_ONE, 0};
    qci_fine_point at = {0, 0};

    if (across > qci_fine_of(TOO_LONG) || slanted > qci_fine_of(TOO_LONG))
        return QCI_PATCH_TOO_LARGE;
    add_side(out, &at, along, across);
    add_side(out, &at, up, slanted);
    add_side(out, &at, opposite(along), across);
    add_side(out, &at, opposite(up), slanted);
    return QCI_PATCH_FINE;
}

static qci_fine size_of(const qci_patch *patch, int dimension)
{
    return qci_fine_of(patch->size[dimension]) - patch->below[dimension];
}

/* Cut sizes of these are what a ruler measures: square to the sides. */
static qci_patch_fault angled(const qci_patch *patch, qci_sides *out)
{
    bool diamond = patch->shape == QC_SHAPE_DIAMOND;
    qci_dir up = qci_dir_at(patch->angle);
    qci_fine across = size_of(patch, 0);
    qci_fine slanted = size_of(patch, diamond ? 0 : 1);

    if (patch->is_cut) {
        across = qci_fine_scaled(across, QCI_ONE, up.y);
        slanted = qci_fine_scaled(slanted, QCI_ONE, up.y);
    }
    return parallelogram(out, across, slanted, up);
}

/* Triangle and hexagon: all sides alike, each turned by as much. */
static void regular(const qci_patch *patch, qci_sides *out)
{
    const qci_dir along = {QCI_ONE, 0};
    const qci_dir d60 = qci_dir_at(60 * QC_DEGREE);
    const qci_dir d120 = qci_dir_at(120 * QC_DEGREE);
    bool hexagon = patch->shape == QC_SHAPE_HEXAGON;
    qci_fine side = size_of(patch, 0);
    qci_fine_point at = {0, 0};

    if (patch->is_cut)
        side = qci_fine_scaled(side, QCI_ONE, hexagon ? 2 * d60.y : d60.y);
    add_side(out, &at, along, side);
    if (hexagon)
        add_side(out, &at, d60, side);
    add_side(out, &at, d120, side);
    if (hexagon)
        add_side(out, &at, opposite(along), side);
    add_side(out, &at, opposite(d60), side);
    if (hexagon)
        add_side(out, &at, opposite(d120), side);
}

static void from_corners(qci_sides *out, const qci_fine_point *at, int count)
{
    for (int i = 0; i < count; i++) {
        const qci_fine_point *next = &at[(i + 1) % count];

        out->at[i] =
            (qci_side){qci_dir_along(next->x - at[i].x, next->y - at[i].y),
                       at[i].x, at[i].y, 0, false};
    }
    out->count = count;
}

static qci_patch_fault trapezoid(const qci_patch *patch, qci_sides *out,
                                 size_t *at)
{
    qci_fine base = size_of(patch, 0), top = size_of(patch, 1);
    qci_fine height = size_of(patch, 2), in = (base - top) / 2;
    const qci_fine_point corners[] = {
        {0, 0}, {base, 0}, {base - in, height}, {in, height}};

    if (in <= 0) {
        *at = 1;
        return QCI_PATCH_SIZES;
    }
    from_corners(out, corners, 4);
    return QCI_PATCH_FINE;
}

/* Its sharp end below. */
static qci_patch_fault kite(const qci_patch *patch, qci_sides *out, size_t *at)
{
    qci_fine length = size_of(patch, 0), half = size_of(patch, 1) / 2;
    qci_fine widest = size_of(patch, 2);
    const qci_fine_point corners[] = {
        {0, 0}, {half, widest}, {0, length}, {-half, widest}};

    if (widest >= length) {
        *at = 2;
        return QCI_PATCH_SIZES;
    }
    from_corners(out, corners, 4);
    return QCI_PATCH_FINE;
}

/* May a side's line lie elsewhere, since its ends were rounded? */
static bool is_rounded(const qci_patch *patch, size_t side, qci_dir dir)
{
    size_t next = (side + 1) % patch->point_count;
    uint32_t ends =
        patch->points_rounded >> 2 * side | patch->points_rounded >> 2 * next;

    return (dir.y && (ends & 1)) || (dir.x && (ends & 2));
}

/* Where corners were rounded, the sides between them move outwards by more than
 * that can have moved them. */
static qci_patch_fault polygon(const qci_patch *patch, qci_sides *out,
                               size_t *at)
{
    const qc_point *p = patch->points;
    qci_fine_point corners[QC_MAX_CORNERS];
    qci_patch_fault fault = QCI_PATCH_FINE;

    if (!patch->fine)
        fault = qci_convex_check(p, patch->point_count, at);
    if (fault)
        return fault;
    for (size_t i = 0; i < patch->point_count; i++) {
        qc_length x = p[i].x - p[0].x, y = p[i].y - p[0].y;

        if (x > TOO_LONG || x < -TOO_LONG || y > TOO_LONG || y < -TOO_LONG)
            return QCI_PATCH_TOO_LARGE;
        corners[i] = patch->fine
                         ? patch->fine[i]
                         : (qci_fine_point){qci_fine_of(x), qci_fine_of(y)};
    }
    from_corners(out, corners, (int)patch->point_count);
    for (size_t i = 0; i < patch->point_count; i++)
        if (is_rounded(patch, i, out->at[i].dir))
            out->at[i].out = qci_fine_of(2);
    return QCI_PATCH_FINE;
}

/* Corners that are too flat or too sharp for the digits there are. */
static qci_patch_fault check_corners(const qci_sides *sides, size_t *at)
{
    for (int i = 0; i < sides->count; i++) {
        qci_dir a = sides->at[i].dir;
        qci_dir b = sides->at[(i + 1) % sides->count].dir;
        bool on = qci_dir_dot(a, b) > 0;

        if (qci_dir_cross(a, b) >= (on ? FLATTEST : SHARPEST))
            continue;
        *at = (size_t)((i + 1) % sides->count);
        return on ? QCI_PATCH_DEGENERATE : QCI_PATCH_TOO_SHARP;
    }
    return QCI_PATCH_FINE;
}

static qci_patch_fault shape_sides(const qci_patch *patch, qci_sides *out,
                                   size_t *at)
{
    if (patch->shape == QC_SHAPE_POLYGON)
        return polygon(patch, out, at);
    for (int i = 0; i < 3; i++)
        if (patch->size[i] > TOO_LONG)
            return QCI_PATCH_TOO_LARGE;
    switch (patch->shape) {
    case QC_SHAPE_TRAPEZOID:
        return trapezoid(patch, out, at);
    case QC_SHAPE_KITE:
        return kite(patch, out, at);
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
    case QC_SHAPE_HEXAGON:
        regular(patch, out);
        return QCI_PATCH_FINE;
    default:
        return angled(patch, out);
    }
}

qci_patch_fault qci_patch_sides(const qci_patch *patch, qci_sides *out,
                                size_t *at)
{
    qci_patch_fault fault;

    out->count = 0;
    fault = shape_sides(patch, out, at);
    return fault ? fault : check_corners(out, at);
}
