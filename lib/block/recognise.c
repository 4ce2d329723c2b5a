/* What the trade calls a patch, told from the exact lengths of its sides and
 * the angles between them.
 *
 * Angles that a ruler has a line for (30, 45 and 60 degrees) are told by the
 * square of their cosine; diamonds and parallelograms with any other are
 * polygons. A base lies along or across the block where a side does, so that
 * the straight grain does, too. */
#include "block/group.h"

qci_marks qci_marks_of(const qci_patch_draft *patch, int64_t radicand)
{
    qci_marks m = {.count = patch->count};

    for (size_t i = 0; i < m.count; i++)
        m.edge[i] = qci_from_to(patch->at[i], patch->at[(i + 1) % m.count]);
    for (size_t i = 0; i < m.count; i++) {
        m.square[i] = qci_dot(m.edge[i], m.edge[i], radicand);
        m.dot[i] = qci_dot(m.edge[i], m.edge[(i + 1) % m.count], radicand);
    }
    return m;
}

/* In a mirror the sides follow each other backwards. */
static bool agrees(const qci_marks *a, const qci_marks *b, size_t shift,
                   bool mirrored)
{
    size_t n = a->count;

    for (size_t i = 0; i < n; i++) {
        size_t k = (mirrored ? shift + n - i : shift + i) % n;
        size_t corner = mirrored ? (k + n - 1) % n : k;

        if (!qci_same(a->square[i], b->square[k]) ||
            !qci_same(a->dot[i], b->dot[corner]))
            return false;
    }
    return true;
}

uint32_t qci_marks_match(const qci_marks *a, const qci_marks *b, bool mirrored)
{
    for (size_t shift = 0; a->count == b->count && shift < a->count; shift++)
        if (agrees(a, b, shift, mirrored))
            return (uint32_t)shift;
    return QC_NONE;
}

static bool is_zero(qc_block_number n)
{
    return !n.whole && !n.root;
}

static bool is_straight(const qci_marks *m, size_t side)
{
    return is_zero(m->edge[side].x) || is_zero(m->edge[side].y);
}

/* The longest side along or across the block, else the longest. */
static size_t natural_base(const qci_marks *m, int64_t radicand)
{
    size_t best = 0;

    for (size_t i = 1; i < m->count; i++) {
        int straighter = is_straight(m, i) - is_straight(m, best);

        if (straighter > 0 ||
            (!straighter &&
             qci_order(m->square[i], m->square[best], radicand) > 0))
            best = i;
    }
    return best;
}

static bool all_same(const qc_block_number *n, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (!qci_same(n[0], n[i]))
            return false;
    return true;
}

static qci_kind triangle(const qci_marks *m, qci_kind kind)
{
    if (all_same(m->square, 3))
        kind.shape = QC_SHAPE_EQUILATERAL_TRIANGLE;
    for (size_t i = 0; i < 3; i++) {
        size_t next = (i + 1) % 3, across = (i + 2) % 3;

        if (!is_zero(m->dot[i]) || !qci_same(m->square[i], m->square[next]))
            continue;
        kind.shape = is_straight(m, across) ? QC_SHAPE_QUARTER_SQUARE_TRIANGLE
                                            : QC_SHAPE_HALF_SQUARE_TRIANGLE;
        kind.base = is_straight(m, across) ? across : next;
    }
    return kind;
}

/* a x b == c x d in whole and root, each times a small factor. */
static bool same_products(int times, qc_block_number a, qc_block_number b,
                          int of, qc_block_number c, qc_block_number d,
                          int64_t r)
{
    qci_wide whole =
        times * ((qci_wide)a.whole * b.whole + (qci_wide)a.root * b.root * r);
    qci_wide root =
        times * ((qci_wide)a.whole * b.root + (qci_wide)a.root * b.whole);

    whole -= of * ((qci_wide)c.whole * d.whole + (qci_wide)c.root * d.root * r);
    root -= of * ((qci_wide)c.whole * d.root + (qci_wide)c.root * d.whole);
    return !whole && !root;
}

/* 4 cos^2 of 60, 45 and 30 degrees is 1, 2 and 3. */
static int32_t sharp_angle(const qci_marks *m, size_t corner, int64_t radicand)
{
    static const int32_t angles[] = {60, 45, 30};

    for (int i = 0; i < 3; i++)
        if (same_products(4, m->dot[corner], m->dot[corner], i + 1,
                          m->square[corner], m->square[(corner + 1) % m->count],
                          radicand))
            return angles[i] * QC_DEGREE;
    return 0;
}

static bool is_parallel(const qci_marks *m, size_t side, int64_t radicand)
{
    return is_zero(qci_cross(m->edge[side], m->edge[side + 2], radicand));
}

static qci_kind rectangle(const qci_marks *m, qci_kind kind)
{
    kind.shape = qci_same(m->square[0], m->square[1]) ? QC_SHAPE_SQUARE
                                                      : QC_SHAPE_RECTANGLE;
    for (size_t i = 0; i < 2; i++)
        if (is_zero(m->edge[i].y))
            kind.base = i; /* the first size lies across */
    return kind;
}

static qci_kind kite(const qci_marks *m, qci_kind kind, int64_t radicand)
{
    for (size_t i = 0; i < 4; i++) {
        size_t before = (i + 3) % 4, next = (i + 1) % 4;

        if (qci_same(m->square[i], m->square[before]) &&
            qci_same(m->square[next], m->square[(i + 2) % 4]) &&
            qci_order(m->square[i], m->square[next], radicand) > 0) {
            kind.shape = QC_SHAPE_KITE;
            kind.base = i;
        }
    }
    return kind;
}

static qci_kind four_sided(const qci_marks *m, qci_kind kind, int64_t radicand)
{
    bool first = is_parallel(m, 0, radicand),
         second = is_parallel(m, 1, radicand);
    size_t one = first ? 0 : 1, leg = first ? 1 : 0;

    if (first && second) {
        if (is_zero(m->dot[0]))
            return rectangle(m, kind);
        kind.angle = sharp_angle(m, 0, radicand);
        if (kind.angle)
            kind.shape = all_same(m->square, 4) ? QC_SHAPE_DIAMOND
                                                : QC_SHAPE_PARALLELOGRAM;
        return kind;
    }
    if (!first && !second)
        return kite(m, kind, radicand);
    if (qci_same(m->square[leg], m->square[leg + 2])) {
        kind.shape = QC_SHAPE_TRAPEZOID;
        kind.base = qci_order(m->square[one], m->square[one + 2], radicand) > 0
                        ? one
                        : one + 2;
    }
    return kind;
}

qci_kind qci_recognise(const qci_marks *marks, int64_t radicand)
{
    qci_kind kind = {QC_SHAPE_POLYGON, 0, natural_base(marks, radicand)};

    if (marks->count == 3)
        return triangle(marks, kind);
    if (marks->count == 4)
        return four_sided(marks, kind, radicand);
    if (marks->count == 6 && all_same(marks->square, 6) &&
        all_same(marks->dot, 6))
        kind.shape = QC_SHAPE_HEXAGON;
    return kind;
}
