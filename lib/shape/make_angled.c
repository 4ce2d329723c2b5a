/* The cut shape of a patch that is cut at an angle.
 *
 * All sides move outwards by the seam allowance and half the trim; tips that
 * are to be blunted get a side more. Then the dimensions that a ruler measures
 * go up to its grid, by moving sides further out and never by turning them: the
 * base for the height of the strip, a slanted side for the spacing of cuts,
 * both legs for a trapezoid's long side, all sides of a hexagon. Marks that are
 * no even number of units are passed over, since corners lie on even points.
 * What was cut as it is only goes up to even numbers. */
#include "shape/make.h"

/* Cuts through tips lie so much further out, 1 micrometre, that the rounding of
 * the sides that they meet can take nothing from them. */
#define LOOSE qci_fine_of(8)

/* Half of the trim on top of the seam. */
static qci_fine reach_of(const qci_patch *patch)
{
    return qci_fine_of(patch->seam) + patch->trim * (QCI_FINE / 2);
}

/* A base on the x axis, and the cuts through tips that are not level loosened.
 */
static void lay_on(const qci_sides *sides, int base, qci_sides *turned)
{
    qci_sides_turn(sides, base, turned);
    for (int i = 0; i < turned->count; i++)
        if (turned->at[i].tip && turned->at[i].dir.y)
            turned->at[i].out += LOOSE;
}

static bool is_too_large(qci_fine size)
{
    return size > qci_fine_of(QC_MAX_WIDTH);
}

/* Length of the base of turned sides. */
static qci_fine base_length(const qci_sides *turned)
{
    const qci_side *at = turned->at;

    return qci_sides_meet(&at[0], &at[1]).x -
           qci_sides_meet(&at[turned->count - 1], &at[0]).x;
}

static void move_all(qci_sides *sides, qci_fine out)
{
    for (int i = 0; i < sides->count; i++)
        sides->at[i].out += out;
}

/* By how much all sides together move out for the height to grow by `more`. The
 * highest corner moves in a straight line. */
static qci_fine out_for(const qci_sides *turned, qci_fine more)
{
    const qci_fine tried = qci_fine_of(QC_MM);
    qci_sides moved = *turned;

    move_all(&moved, tried);
    return qci_fine_scaled(more, tried,
                           qci_sides_height(&moved) - qci_sides_height(turned));
}

/* Would a shape that looks the same in a mirror, or on each of its sides, still
 * do so, were its base alone moved out? */
static bool may_move_alone(const qci_patch *patch)
{
    switch (patch->shape) {
    case QC_SHAPE_KITE:
        return false;
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
        return !patch->blunt;
    case QC_SHAPE_POLYGON:
        return !qci_shape_is_symmetric(patch) || qci_shape_stands_even(patch);
    default:
        return true;
    }
}

/* Makes a shape taller by `more`: its base moves out. Where that would eat up
 * half of a short base between blunt corners, or make a shape lopsided that is
 * its own mirror image, all its sides do. */
static void stretch(const qci_maker *m, qci_sides *sides, int base,
                    const qci_sides *turned, qci_fine more)
{
    qci_sides moved = *turned;

    moved.at[0].out += more;
    if (may_move_alone(m->patch) &&
        base_length(&moved) >= base_length(turned) / 2)
        sides->at[base].out += more;
    else
        move_all(sides, out_for(turned, more));
}

/* Heights are multiples of this; half of a hexagon's is even, too. */
static qc_length lattice_of(const qci_maker *m)
{
    return m->patch->shape == QC_SHAPE_HEXAGON ? 4 : 2;
}

/* Moves sides out until the height on a base is one that can be cut; returns
 * that height; 0: too large. */
static qc_length raise(const qci_maker *m, qci_sides *sides, int base)
{
    qci_sides turned;
    qci_fine height;
    qc_length up;

    lay_on(sides, base, &turned);
    height = qci_sides_height(&turned);
    if (is_too_large(height) || is_too_large(qci_sides_width(&turned)))
        return 0;
    up = qci_make_mark(m, height, lattice_of(m));
    stretch(m, sides, base, &turned, qci_fine_of(up) - height);
    return up;
}

/* The long side is the base, so a leg that moves out by d makes it longer by
 * d / sine of its angle. */
static void widen_trapezoid(qci_maker *m)
{
    qci_sides *s = &m->sides;
    qci_side *right = &s->at[qci_sides_next(s, 0, 1)];
    qci_side *left = &s->at[qci_sides_next(s, 0, -1)];
    qci_fine base =
        qci_sides_meet(&s->at[0], right).x - qci_sides_meet(left, &s->at[0]).x;
    qci_fine more = (qci_fine_of(qci_make_mark(m, base, 2)) - base) / 2;

    right->out += qci_fine_times(more, right->dir.y);
    left->out -= qci_fine_times(more, left->dir.y);
}

/* The same, but by moving the base and the side across from it by half as much
 * each, so that what looks the same turned by half still does. */
static bool raise_both(const qci_maker *m, qci_sides *sides, int base)
{
    qci_sides tried = *sides;
    int next = qci_sides_next(sides, base, 1);
    qci_side *across = &sides->at[qci_sides_next(sides, next, 1)];
    qci_fine more;

    if (!raise(m, &tried, base))
        return false;
    more = tried.at[base].out - sides->at[base].out;
    across->out += more / 2;
    sides->at[base].out += more - more / 2;
    return true;
}

static bool raise_hexagon(const qci_maker *m, qci_sides *sides)
{
    qci_sides tried = *sides;
    qci_fine more;

    if (!raise(m, &tried, 0))
        return false;
    more = tried.at[0].out - sides->at[0].out;
    move_all(sides, more / 2);
    return true;
}

/* Dimensions that go up whatever the base is; false: too large. */
static bool raise_all(qci_maker *m)
{
    qci_sides *s = &m->sides;

    switch (m->patch->shape) {
    case QC_SHAPE_DIAMOND:
    case QC_SHAPE_PARALLELOGRAM:
        return raise_both(m, s, 0) && raise_both(m, s, qci_sides_next(s, 0, 1));
    case QC_SHAPE_TRAPEZOID:
        if (!raise(m, s, 0))
            return false;
        widen_trapezoid(m);
        return true;
    case QC_SHAPE_HEXAGON:
        return raise_hexagon(m, s);
    default:
        return true;
    }
}

/* Width of an outline at half its height. */
static qci_fine middle_width(const qc_point *p, size_t count, qc_length height)
{
    qci_fine least = QCI_FINE_MAX, most = -QCI_FINE_MAX;

    for (size_t i = 0; i < count; i++) {
        qc_point a = p[i], b = p[(i + 1) % count];
        qci_fine x;

        if (a.y == b.y || (2 * a.y - height > 0) == (2 * b.y - height > 0))
            continue;
        x = qci_fine_of(a.x) + qci_fine_scaled(qci_fine_of(b.x - a.x),
                                               height - 2 * a.y,
                                               2 * (b.y - a.y));
        least = qci_fine_min(least, x);
        most = qci_fine_max(most, x);
    }
    return most - least;
}

/* On every side but the base it stands as high as it happens to. */
static qci_patch_fault add_outline(const qci_maker *m, int base,
                                   qc_length height)
{
    qci_cut_shape *out = m->out;
    qc_point *to = out->outline + out->base_count * out->outline_count;
    qci_sides turned;

    lay_on(&m->sides, base, &turned);
    if (base) {
        qci_fine exact = qci_sides_height(&turned);

        height = qci_fine_up_to(exact, lattice_of(m));
        turned.at[0].out += qci_fine_of(height) - exact;
    }
    if (!qci_sides_round(&turned, m->patch->shape, height, to) ||
        middle_width(to, out->outline_count, height) <
            qci_fine_of(QCI_NARROWEST))
        return QCI_PATCH_TOO_NARROW;
    out->base_count++;
    return QCI_PATCH_FINE;
}

static qci_patch_fault add_outlines(qci_maker *m)
{
    qc_length height = raise(m, &m->sides, 0);

    if (!height)
        return QCI_PATCH_TOO_LARGE;
    m->out->outline_count = (size_t)m->sides.count;
    for (int base = 0; base < m->sides.count; base++) {
        qci_patch_fault fault = QCI_PATCH_FINE;

        if (!m->sides.at[base].tip && (!base || m->patch->any_base))
            fault = add_outline(m, base, height);
        if (fault)
            return fault;
    }
    return QCI_PATCH_FINE;
}

static bool is_parallelogram(qc_shape shape)
{
    return shape == QC_SHAPE_DIAMOND || shape == QC_SHAPE_PARALLELOGRAM;
}

/* As qc_plan_piece.cut, of what is not yet on the lattice; rounded up. */
static void measure(const qci_sides *sides, qc_shape shape, qc_length size[2])
{
    qci_sides turned;

    qci_sides_turn(sides, 0, &turned);
    size[1] = qci_fine_up(qci_sides_height(&turned));
    size[0] = qci_fine_up(qci_sides_width(&turned));
    if (!is_parallelogram(shape))
        return;
    qci_sides_turn(sides, qci_sides_next(sides, 0, 1), &turned);
    size[0] = qci_fine_up(qci_sides_height(&turned));
}

static void set_cut(const qci_maker *m)
{
    qci_cut_shape *out = m->out;
    qc_length least = 0, most = 0;

    measure(&m->sides, m->patch->shape, out->cut);
    out->cut[1] = 0;
    for (size_t i = 0; i < out->outline_count; i++) {
        qc_point p = out->outline[i];

        least = p.x < least ? p.x : least;
        most = p.x > most ? p.x : most;
        out->cut[1] = p.y > out->cut[1] ? p.y : out->cut[1];
    }
    if (!is_parallelogram(m->patch->shape))
        out->cut[0] = most - least;
    else if (m->patch->is_cut)
        out->cut[0] = m->patch->size[0];
}

/* What is left after trimming back: all sides half the trim further in. */
static void set_trim(const qci_maker *m)
{
    qci_sides sides = m->sides;

    if (!m->patch->trim)
        return;
    for (int i = 0; i < sides.count; i++)
        sides.at[i].out -= m->patch->trim * (QCI_FINE / 2);
    measure(&sides, m->patch->shape, m->out->trim_to);
}

/* Corner by corner the mirror image, so that one cut through two layers that
 * lie right sides together makes both. */
static void mirror_outlines(qci_cut_shape *out)
{
    for (size_t base = 0; base < out->base_count; base++) {
        qc_point *at = out->outline + base * out->outline_count;
        qc_length from;

        qci_outline_lay(at, out->outline_count, QC_TURN_NONE, true, at);
        from = at[0].x;
        for (size_t i = 0; i < out->outline_count; i++)
            at[i].x -= from;
    }
}

qci_patch_fault qci_make_angled(qci_maker *m, size_t *at)
{
    const qci_patch *patch = m->patch;
    qci_fine reach = reach_of(patch);
    qci_patch_fault fault = qci_patch_sides(patch, &m->sides, at);

    if (fault)
        return fault;
    m->out->finished_area =
        qci_sides_area(&m->sides, patch->is_cut ? reach : 0);
    /* Without a finished patch within it, a cut one has no point to be trimmed
     * to; nor may the trim alone use it up. */
    if (patch->is_cut &&
        ((patch->blunt && !m->out->finished_area) ||
         (patch->trim &&
          !qci_sides_area(&m->sides, patch->trim * (QCI_FINE / 2)))))
        return QCI_PATCH_TRIM;
    for (int i = 0; i < m->sides.count; i++)
        m->sides.at[i].out += patch->is_cut ? 0 : reach;
    if (patch->blunt)
        qci_sides_blunt(&m->sides, reach, patch->is_cut);
    set_trim(m);
    if (!patch->is_cut && !raise_all(m))
        return QCI_PATCH_TOO_LARGE;
    fault = add_outlines(m);
    if (fault)
        return fault;
    if (patch->mirrored)
        mirror_outlines(m->out);
    set_cut(m);
    return QCI_PATCH_FINE;
}
