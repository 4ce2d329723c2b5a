/* Random patches: the outline that is cut holds the finished patch with every
 * side at least the seam away, is no larger than the ruler makes it, and its
 * footprints hold it.
 *
 * The finished patch is drawn here in long double, by the C library's sine and
 * cosine; nothing of the shape room is used but what is tested. Where the patch
 * lies in its outline is not told, so a place is looked for: the places allowed
 * make up a convex region, of which one corner is enough. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "replay/form.h"
#include "shape/shape.h"

typedef long double num;

typedef struct vec {
    num x, y;
} vec;

typedef struct figure {
    int count;
    vec at[QCI_CORNERS_MAX];
} figure;

/* What long doubles and rounding to whole units may differ by. */
#define EPS 0.01L
/* Within what corners go to even points, tips apart. */
#define ROUNDING 16
/* Sides that are alike may differ by so much more than their corners moved, in
 * corners of 2 degrees. */
#define ALIKE (64 * ROUNDING)

static uint64_t seed = 20250711;

static int64_t between(int64_t least, int64_t most)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return least + (int64_t)(seed % (uint64_t)(most - least + 1));
}

static num cross(vec a, vec b)
{
    return a.x * b.y - a.y * b.x;
}

static vec minus(vec a, vec b)
{
    return (vec){a.x - b.x, a.y - b.y};
}

static vec normal(const figure *f, int side)
{
    vec d = minus(f->at[(side + 1) % f->count], f->at[side]);
    num length = sqrtl(d.x * d.x + d.y * d.y);

    return (vec){d.y / length, -d.x / length};
}

static num dot(vec a, vec b)
{
    return a.x * b.x + a.y * b.y;
}

/* How far the figure reaches in a direction. */
static num reach(const figure *f, vec n)
{
    num most = -INFINITY;

    for (int i = 0; i < f->count; i++)
        most = fmaxl(most, dot(f->at[i], n));
    return most;
}

static num area(const figure *f)
{
    num doubled = 0;

    for (int i = 0; i < f->count; i++)
        doubled += cross(f->at[i], f->at[(i + 1) % f->count]);
    return doubled / 2;
}

/* Side `base` on the x axis. */
static figure laid(const figure *f, int base)
{
    figure out = {f->count, {{0, 0}}};
    vec n = normal(f, base);
    vec u = {-n.y, n.x};

    for (int i = 0; i < f->count; i++) {
        vec p = minus(f->at[(base + i) % f->count], f->at[base]);

        out.at[i] = (vec){dot(p, u), cross(u, p)};
    }
    return out;
}

/* The place of the patch in its outline: n . t <= room for every side. */
static bool has_place(const figure *outline, const figure *patch, num away)
{
    vec n[QCI_CORNERS_MAX];
    num room[QCI_CORNERS_MAX];

    for (int i = 0; i < outline->count; i++) {
        n[i] = normal(outline, i);
        room[i] = dot(n[i], outline->at[i]) - away - reach(patch, n[i]) + EPS;
    }
    for (int i = 0; i < outline->count; i++) {
        for (int k = 0; k < i; k++) {
            num c = cross(n[i], n[k]);
            bool ok = fabsl(c) > 1e-9L;
            vec t = {(room[i] * n[k].y - room[k] * n[i].y) / c,
                     (room[k] * n[i].x - room[i] * n[k].x) / c};

            for (int j = 0; j < outline->count && ok; j++)
                ok = dot(n[j], t) <= room[j] + EPS;
            if (ok)
                return true;
        }
    }
    return false;
}

/* The patch with its sides moved out, its base by `more` in addition. */
static figure grown(const figure *f, num away, num more)
{
    figure out = {f->count, {{0, 0}}};

    for (int i = 0; i < f->count; i++) {
        int last = (i + f->count - 1) % f->count;
        vec a = normal(f, last), b = normal(f, i);
        num far_a = dot(a, f->at[i]) + away + (last == 0 ? more : 0);
        num far_b = dot(b, f->at[i]) + away + (i == 0 ? more : 0);
        num c = cross(a, b);

        out.at[i] = (vec){(far_a * b.y - far_b * a.y) / c,
                          (far_b * a.x - far_a * b.x) / c};
    }
    return out;
}

static figure outline_of(const qci_cut_shape *cut, size_t base)
{
    const qc_point *p = cut->outline + base * cut->outline_count;
    figure out = {(int)cut->outline_count, {{0, 0}}};

    for (int i = 0; i < out.count; i++)
        out.at[i] = (vec){(num)p[i].x, (num)p[i].y};
    return out;
}

static void assert_lattice(const qci_cut_shape *cut)
{
    for (size_t b = 0; b < cut->base_count; b++) {
        const qc_point *p = cut->outline + b * cut->outline_count;

        assert_true(p[0].x == 0 && p[0].y == 0 && p[1].y == 0 && p[1].x > 0);
        for (size_t i = 0; i < cut->outline_count; i++) {
            qc_point q = p[(i + 1) % cut->outline_count];
            qc_point r = p[(i + 2) % cut->outline_count];

            assert_true(p[i].x % 2 == 0 && p[i].y % 2 == 0);
            assert_true((q.x - p[i].x) * (r.y - q.y) >
                        (q.y - p[i].y) * (r.x - q.x));
        }
    }
}

/* A convex polygon: random directions in order, random lengths, closed by one
 * more side; drawn again until its corners are plain ones. */
static bool draw_polygon(qc_point *points, size_t count)
{
    num turn = (num)between(0, 359);
    num whole = 0;
    vec at = {0, 0};

    for (size_t i = 0; i < count; i++) {
        num a = turn * acosl(-1) / 180;
        num length = (num)between(100000, 900000);

        points[i] = (qc_point){llroundl(at.x), llroundl(at.y)};
        at.x += length * cosl(a);
        at.y += length * sinl(a);
        turn += (num)between(200, 36000 / (int64_t)count * 2) / 100;
    }
    for (size_t i = 0; i < count; i++) {
        qc_point p = points[i], q = points[(i + 1) % count];
        qc_point r = points[(i + 2) % count];
        vec u = {(num)(q.x - p.x), (num)(q.y - p.y)};
        vec v = {(num)(r.x - q.x), (num)(r.y - q.y)};
        num a = atan2l(cross(u, v), dot(u, v)) * 180 / acosl(-1);

        if (a < 2 || a > 165)
            return false;
        whole += a;
    }
    return fabsl(whole - 360) < 1;
}

static figure figure_of(const qc_point *points, size_t count)
{
    figure f = {(int)count, {{0, 0}}};

    for (size_t i = 0; i < count; i++)
        f.at[i] = (vec){(num)points[i].x, (num)points[i].y};
    return f;
}

static vec along(num degrees, num length)
{
    num a = degrees * acosl(-1) / 180;

    return (vec){length * cosl(a), length * sinl(a)};
}

static figure of_steps(const vec *steps, int count)
{
    figure f = {count, {{0, 0}}};

    for (int i = 1; i < count; i++)
        f.at[i] = (vec){f.at[i - 1].x + steps[i - 1].x,
                        f.at[i - 1].y + steps[i - 1].y};
    return f;
}

/* A finished patch of a shape with angles. */
static figure draw_shape(qci_patch *patch)
{
    num a = (num)patch->size[0], b = (num)patch->size[1];
    num c = (num)patch->size[2];
    num t = (num)patch->angle / QC_DEGREE;

    switch (patch->shape) {
    case QC_SHAPE_DIAMOND:
        return of_steps((vec[]){along(0, a), along(t, a), along(180, a)}, 4);
    case QC_SHAPE_PARALLELOGRAM:
        return of_steps((vec[]){along(0, a), along(t, b), along(180, a)}, 4);
    case QC_SHAPE_TRAPEZOID:
        return (figure){4,
                        {{0, 0}, {a, 0}, {(a + b) / 2, c}, {(a - b) / 2, c}}};
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
        return of_steps((vec[]){along(0, a), along(120, a)}, 3);
    case QC_SHAPE_HEXAGON:
        return of_steps((vec[]){along(0, a), along(60, a), along(120, a),
                                along(180, a), along(240, a)},
                        6);
    default:
        return (figure){4, {{0, 0}, {b / 2, c}, {0, a}, {-b / 2, c}}};
    }
}

static void draw_sizes(qci_patch *patch)
{
    patch->shape = (qc_shape)between(QC_SHAPE_DIAMOND, QC_SHAPE_KITE);
    for (int i = 0; i < 3; i++)
        patch->size[i] = between(80000, 1600000);
    patch->angle = (int32_t)between(10 * QC_DEGREE, 170 * QC_DEGREE);
    if (between(0, 2) == 0)
        patch->angle = (int32_t)between(1, 11) * 15 * QC_DEGREE;
    if (patch->shape == QC_SHAPE_TRAPEZOID)
        patch->size[0] = patch->size[1] + between(1000, 900000);
    if (patch->shape == QC_SHAPE_KITE) {
        patch->size[2] = between(60000, 500000);
        patch->size[0] = patch->size[2] + between(60000, 500000);
        patch->size[1] = between(90000, 700000);
    }
}

static void draw_rules(qci_patch *patch)
{
    static const qc_length rulers[] = {QC_INCH / 8, QC_MM, 3175, 6350, 7777};

    patch->seam = between(0, 3) ? between(1000, QC_INCH / 2) : QC_INCH / 4;
    patch->trim = between(0, 1) ? 0 : between(1, QC_INCH / 4);
    patch->ruler = rulers[between(0, 4)];
    patch->any_base = between(0, 1);
    patch->blunt = between(0, 1);
}

/* Footprints hold the outline, tightly, and none is beaten. What lies on its
 * base, or under it, needs no cut along that; what stands on a corner may need
 * one along every side. */
static void assert_footprints(const figure *f, const qc_point *lying, bool flat)
{
    qci_footprint list[QCI_FOOTPRINT_MAX];
    qc_length height = 0;
    int32_t n;

    for (int i = 0; i < f->count; i++)
        height = lying[i].y > height ? lying[i].y : height;
    n = qci_shape_footprints(lying, (size_t)f->count, height, list);
    assert_in_range(n, 1, QCI_FOOTPRINT_MAX);
    for (int32_t i = 0; i < n; i++) {
        num least = INFINITY, most = -INFINITY;

        assert_int_equal(list[i].height, height);
        assert_true(list[i].left % 2 == 0 && list[i].right % 2 == 0);
        assert_true(list[i].corners >= list[0].corners &&
                    list[i].corners <= f->count - flat);
        for (int k = 0; k < f->count; k++) {
            num part = 0.5L - (num)lying[k].y / (num)height;

            least = fminl(least, (num)lying[k].x + (num)list[i].left * part);
            most = fmaxl(most, (num)lying[k].x + (num)list[i].right * part);
        }
        assert_true((num)list[i].width >= most - least - 1e-6L);
        assert_true((num)list[i].width < most - least + 1);
        for (int32_t k = 0; k < n; k++) {
            qc_length apart = llabs(list[i].left - list[k].left) / 2 +
                              llabs(list[i].right - list[k].right) / 2;

            assert_false(i != k && list[k].corners <= list[i].corners &&
                         list[i].width >= list[k].width + apart);
        }
    }
}

static void assert_all_footprints(const qci_cut_shape *cut, size_t base)
{
    figure f = outline_of(cut, base);
    qc_point lying[QCI_CORNERS_MAX];

    for (int turn = 0; turn < 4; turn++)
        for (int mirrored = 0; mirrored < 2; mirrored++) {
            qci_outline_lay(cut->outline + base * cut->outline_count,
                            cut->outline_count, (qc_turn)turn, mirrored, lying);
            assert_footprints(&f, lying, turn % 2 == 0);
        }
}

/* The height is the first mark at or above the exact one; of diamonds and
 * hexagons others move too. */
static void assert_height(const qci_patch *patch, const figure *cut, num exact)
{
    num top = reach(cut, (vec){0, 1});
    qc_length step = patch->shape == QC_SHAPE_HEXAGON ? 4 : 2;

    assert_true(top >= exact - EPS);
    assert_true(top < exact + (num)(step * patch->ruler) + EPS);
    assert_int_equal(llroundl(top) % patch->ruler, 0);
}

static num base_length(const figure *f)
{
    return f->at[1].x - f->at[0].x;
}

/* Nothing but the base moved further, by `more`, or, where a short base would
 * not bear that, or a kite would be none then, all sides, by half as much at
 * most. Corners move by next to nothing, in sharp tips by as much more as these
 * are long. */
static void assert_no_larger(const figure *outline, const figure *patch,
                             num away, num more, bool kite)
{
    figure before = grown(patch, away, 0);
    figure after = grown(patch, away, more);
    bool bears = !kite && base_length(&after) >= base_length(&before) / 2;
    figure most = bears ? grown(patch, away + ROUNDING, more)
                        : grown(patch, away + more / 2 + ROUNDING, 0);

    assert_true(area(outline) <= area(&most));
    assert_true(area(outline) >= area(bears ? &after : &before) * (1 - 1e-9L));
}

static num side_length(const figure *f, int side)
{
    vec d = minus(f->at[(side + 1) % f->count], f->at[side % f->count]);

    return sqrtl(dot(d, d));
}

static bool are_alike(const figure *f, int side, const figure *g, int other)
{
    return fabsl(side_length(f, side) - side_length(g, other)) < ALIKE;
}

/* Sides that are alike in the finished kite are in the cut one. */
static void assert_kite(const figure *f)
{
    assert_true((are_alike(f, 0, f, 3) && are_alike(f, 1, f, 2)) ||
                (are_alike(f, 0, f, 1) && are_alike(f, 2, f, 3)));
}

/* What lies on another side is the same piece. */
static void assert_same_piece(const qci_cut_shape *cut, size_t base)
{
    figure first = outline_of(cut, 0), lying = outline_of(cut, base);

    for (int i = 0; i < first.count; i++)
        assert_true(are_alike(&first, (int)base + i, &lying, i));
}

static void assert_base(const qci_patch *patch, const figure *patch_at,
                        const qci_cut_shape *cut, size_t base)
{
    num away = (num)patch->seam + (num)patch->trim / 2;
    figure outline = outline_of(cut, base);
    figure lying = laid(patch_at, (int)base);
    num height = reach(&outline, (vec){0, 1});
    figure exact = grown(&lying, away, 0);
    num least = reach(&exact, (vec){0, 1}) + away;

    assert_true(has_place(&outline, &lying, away));
    if (patch->blunt)
        return;
    assert_same_piece(cut, base);
    if (base)
        return;
    assert_height(patch, &outline, least);
    if (patch->shape == QC_SHAPE_KITE)
        assert_kite(&outline);
    if (patch->shape != QC_SHAPE_POLYGON && patch->shape != QC_SHAPE_KITE)
        return;
    assert_no_larger(&outline, &lying, away, height - least,
                     patch->shape == QC_SHAPE_KITE);
}

static void check(qci_patch *patch, const figure *drawn)
{
    static qci_cut_shape cut;
    size_t at;
    qci_patch_fault fault = qci_shape_make(patch, &cut, &at);
    num seen = area(drawn);

    assert_int_equal(fault, QCI_PATCH_FINE);
    assert_lattice(&cut);
    assert_int_equal(cut.base_count, patch->any_base ? drawn->count : 1);
    assert_true(fabsl((num)cut.finished_area - seen) < 1 + seen * 1e-12L);
    for (size_t base = 0; base < cut.base_count; base++) {
        assert_base(patch, drawn, &cut, base);
        assert_all_footprints(&cut, base);
    }
}

static void random_polygons(void **state)
{
    int drawn = 0;

    (void)state;
    while (drawn < 3000) {
        qc_point points[QC_MAX_CORNERS];
        qci_patch patch = {.shape = QC_SHAPE_POLYGON, .points = points};
        figure f;

        patch.point_count = (size_t)between(3, QC_MAX_CORNERS);
        draw_rules(&patch);
        if (!draw_polygon(points, patch.point_count))
            continue;
        f = figure_of(points, patch.point_count);
        check(&patch, &f);
        drawn++;
    }
}

static void random_shapes(void **state)
{
    (void)state;
    for (int i = 0; i < 6000; i++) {
        qci_patch patch = {.shape = QC_SHAPE_DIAMOND};
        figure f;

        draw_sizes(&patch);
        draw_rules(&patch);
        f = draw_shape(&patch);
        check(&patch, &f);
    }
}

static void assert_mirrored(const qci_cut_shape *cut,
                            const qci_cut_shape *mirrored, size_t base)
{
    size_t count = cut->outline_count;
    const qc_point *p = cut->outline + base * count;
    const qc_point *q = mirrored->outline + base * count;

    /* The base's two ends change places; the others run the other way round. */
    for (size_t i = 0; i < count; i++) {
        size_t other = (count + 1 - i) % count;

        assert_int_equal(q[i].x, p[1].x - p[other].x);
        assert_int_equal(q[i].y, p[other].y);
    }
}

/* The outlines of a mirrored patch are those of the patch, mirrored: exactly,
 * as both are made by one cut through two layers. */
static void mirrored_patches(void **state)
{
    static qci_cut_shape cut, mirrored;

    (void)state;
    for (int i = 0; i < 1000; i++) {
        qci_patch patch = {.shape = QC_SHAPE_DIAMOND};
        size_t at;

        draw_sizes(&patch);
        draw_rules(&patch);
        assert_int_equal(qci_shape_make(&patch, &cut, &at), QCI_PATCH_FINE);
        patch.mirrored = true;
        assert_int_equal(qci_shape_make(&patch, &mirrored, &at),
                         QCI_PATCH_FINE);
        assert_int_equal(mirrored.outline_count, cut.outline_count);
        assert_int_equal(mirrored.base_count, cut.base_count);
        for (size_t base = 0; base < cut.base_count; base++)
            assert_mirrored(&cut, &mirrored, base);
    }
}

/* Corners on a flat ellipse that leans, so that some have a few degrees only;
 * on the 1/16 in. */
static size_t draw_sliver(qc_point *points)
{
    size_t count = (size_t)between(3, 6);
    num wide = (num)between(1, 400), high = (num)between(1, 120);
    num slope = (num)between(-12, 12) / 10;
    num turn = 0;

    for (size_t i = 0; i < count; i++) {
        turn += (num)between(1, 600 / (int64_t)count) / 100;
        points[i] = (qc_point){
            llroundl(wide * cosl(turn) + slope * high * sinl(turn)) * 50800,
            llroundl(high * sinl(turn)) * 50800};
    }
    return count;
}

/* The replayer must know a piece again whatever side it lies on. */
static void slivers_are_one_form_on_every_base(void **state)
{
    static qci_cut_shape cut;
    int fine = 0, sharp = 0;

    (void)state;
    for (int i = 0; i < 20000; i++) {
        qc_point points[QC_MAX_CORNERS];
        qci_patch patch = {.shape = QC_SHAPE_POLYGON, .points = points};
        qc_plan_piece piece = {.outline = cut.outline};
        qci_patch_fault fault;
        qci_polygon first;
        size_t at;

        patch.point_count = draw_sliver(points);
        draw_rules(&patch);
        patch.any_base = true;
        fault = qci_shape_make(&patch, &cut, &at);
        sharp += fault == QCI_PATCH_TOO_SHARP;
        if (fault)
            continue;
        fine++;
        piece.outline_count = cut.outline_count;
        first = qci_form_of(&piece, 0);
        for (uint32_t base = 1; base < cut.base_count; base++) {
            qci_polygon form = qci_form_of(&piece, base);

            assert_true(qci_form_is_congruent(&first, &form));
        }
    }
    assert_true(fine > 5000 && sharp > 50);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_polygons),
        cmocka_unit_test(random_shapes),
        cmocka_unit_test(mirrored_patches),
        cmocka_unit_test(slivers_are_one_form_on_every_base),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
