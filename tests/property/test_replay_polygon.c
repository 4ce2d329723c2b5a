/* Cutting convex polygons: for random polygons and lines the two halves are
 * exactly the whole. The oracle is written apart from the library: the area by
 * trapezoids instead of triangles, which side of the line a corner lies on, and
 * where a line meets an edge, in exact fractions. Seeded, so that a failure
 * comes again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "replay/cloth.h"
#include "replay/form.h"

/* splitmix64 (Steele, Lea, Flood 2014), from memory; any generator would do. */
static uint64_t seed;

static uint64_t draw(void)
{
    uint64_t z = seed += UINT64_C(0x9E3779B97F4A7C15);

    z = (z ^ z >> 30) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ z >> 27) * UINT64_C(0x94D049BB133111EB);
    return z ^ z >> 31;
}

/* From 0 to most. */
static int64_t up_to(int64_t most)
{
    return (int64_t)(draw() % ((uint64_t)most + 1));
}

/* > 0: p lies left of a -> b. */
static qci_wide side(qci_point a, qci_point b, qci_point p)
{
    return (qci_wide)(b.x - a.x) * (p.y - a.y) -
           (qci_wide)(b.y - a.y) * (p.x - a.x);
}

static qci_wide trapezoids(const qci_polygon *p)
{
    qci_wide doubled = 0;

    for (int i = 0; i < p->count; i++) {
        qci_point a = p->at[i], b = p->at[(i + 1) % p->count];

        doubled += (qci_wide)(a.x - b.x) * (a.y + b.y);
    }
    return doubled;
}

static int by_place(const void *left, const void *right)
{
    const qci_point *a = left, *b = right;

    if (a->x != b->x)
        return a->x < b->x ? -1 : 1;
    return (a->y > b->y) - (a->y < b->y);
}

/* One chain of the hull (Andrew's monotone chain), from first to last point,
 * without its last corner. */
static int chain(const qci_point *points, int count, int step, qci_point *hull)
{
    int n = 0;

    for (int i = 0; i < count; i++) {
        qci_point p = points[i * step];

        while (n >= 2 && side(hull[n - 2], hull[n - 1], p) <= 0)
            n--;
        hull[n++] = p;
    }
    return n - 1;
}

/* The hull of random points: at least a triangle, at most twelve corners. */
static qci_polygon random_polygon(int64_t reach)
{
    qci_polygon p;

    do {
        qci_point points[12];
        qci_point hull[2 * 12 + 2];
        int count = 3 + (int)up_to(9);
        int n;

        for (int i = 0; i < count; i++)
            points[i] =
                (qci_point){up_to(2 * reach) - reach, up_to(2 * reach) - reach};
        qsort(points, (size_t)count, sizeof *points, by_place);
        n = chain(points, count, 1, hull);
        n += chain(points + count - 1, count, -1, hull + n);
        p.count = n;
        for (int i = 0; i < n; i++)
            p.at[i] = hull[i];
    } while (p.count < 3 || trapezoids(&p) == 0);
    return p;
}

static int64_t divisor(int64_t a, int64_t b)
{
    while (b) {
        int64_t rest = a % b;

        a = b;
        b = rest;
    }
    return a < 0 ? -a : a;
}

/* A whole point of some edge. */
static qci_point on_edge(const qci_polygon *p)
{
    int i = (int)up_to(p->count - 1);
    qci_point a = p->at[i], b = p->at[(i + 1) % p->count];
    int64_t parts = divisor(b.x - a.x, b.y - a.y);
    int64_t k = up_to(parts);

    return (qci_point){a.x + (b.x - a.x) / parts * k,
                       a.y + (b.y - a.y) / parts * k};
}

/* Strictly convex, turning left; on its side of the line; inside the whole. */
static void check_half(const qci_polygon *half, const qci_polygon *whole,
                       qci_point a, qci_point b, int sign)
{
    assert_true(half->count >= 3);
    for (int i = 0; i < half->count; i++) {
        qci_point p = half->at[i];

        assert_true(side(p, half->at[(i + 1) % half->count],
                         half->at[(i + 2) % half->count]) > 0);
        assert_true(side(a, b, p) * sign >= 0);
        for (int k = 0; k < whole->count; k++)
            assert_true(
                side(whole->at[k], whole->at[(k + 1) % whole->count], p) >= 0);
    }
}

/* Convex halves inside the whole, either side of the line, that together have
 * its area: no other two polygons have all that. */
static void check_halves(const qci_polygon *whole, qci_point a, qci_point b,
                         const qci_polygon *left, const qci_polygon *right)
{
    check_half(left, whole, a, b, 1);
    check_half(right, whole, a, b, -1);
    assert_true(trapezoids(left) > 0 && trapezoids(right) > 0);
    assert_true(trapezoids(left) + trapezoids(right) == trapezoids(whole));
    assert_true(qci_polygon_doubled_area(left) == trapezoids(left));
    assert_true(qci_polygon_doubled_area(right) == trapezoids(right));
}

/* What the cut must answer, from fractions. */
static qci_cut answer(const qci_polygon *p, qci_point a, qci_point b)
{
    bool left = false, right = false, whole = true;

    for (int i = 0; i < p->count; i++) {
        qci_point c = p->at[i], d = p->at[(i + 1) % p->count];
        qci_wide from = side(a, b, c), to = side(a, b, d);

        left |= from > 0;
        right |= from < 0;
        if ((from > 0 && to < 0) || (from < 0 && to > 0)) {
            qci_wide below = from - to;

            whole &= (c.x * below + (d.x - c.x) * from) % below == 0;
            whole &= (c.y * below + (d.y - c.y) * from) % below == 0;
        }
    }
    if (!left || !right)
        return QCI_CUT_MISSES;
    return whole ? QCI_CUT_DONE : QCI_CUT_OFF_LATTICE;
}

static qci_cut cut_and_check(const qci_polygon *p, qci_point a, qci_point b)
{
    qci_polygon left = {0}, right = {0};
    qci_cut done = qci_polygon_cut(p, a, b, &left, &right);

    assert_int_equal(done, answer(p, a, b));
    if (done == QCI_CUT_DONE) {
        check_halves(p, a, b, &left, &right);
    } else {
        assert_int_equal(left.count, 0);
        assert_int_equal(right.count, 0);
    }
    return done;
}

/* Through two whole points of the edges, so that all corners stay whole. */
static void cuts_from_edge_to_edge_exactly(void **state)
{
    int done = 0;

    (void)state;
    seed = 1;
    for (int i = 0; i < 20000; i++) {
        qci_polygon p = random_polygon(i % 2 ? 60 : INT64_C(1) << 35);
        qci_point a = on_edge(&p), b = on_edge(&p);

        if (a.x == b.x && a.y == b.y)
            continue;
        assert_int_not_equal(answer(&p, a, b), QCI_CUT_OFF_LATTICE);
        done += cut_and_check(&p, a, b) == QCI_CUT_DONE;
    }
    assert_true(done > 5000);
}

/* Any line: what cannot be exact is refused, what misses is said to miss. */
static void refuses_what_cannot_be_exact(void **state)
{
    int seen[3] = {0};

    (void)state;
    seed = 2;
    for (int i = 0; i < 20000; i++) {
        qci_polygon p = random_polygon(6);
        qci_point a = {up_to(16) - 8, up_to(16) - 8};
        qci_point b = {up_to(16) - 8, up_to(16) - 8};

        if (a.x == b.x && a.y == b.y)
            continue;
        seen[cut_and_check(&p, a, b)]++;
    }
    for (int i = 0; i < 3; i++)
        assert_true(seen[i] > 100);
}

/* Rectangles under axis-parallel lines never leave the lattice, however often
 * they are cut. */
static void cuts_rectangles_exactly(void **state)
{
    (void)state;
    seed = 3;
    for (int i = 0; i < 2000; i++) {
        qci_polygon p = qci_polygon_rectangle(2 + up_to((INT64_C(1) << 27) - 2),
                                              2 + up_to((INT64_C(1) << 35)));

        for (int cuts = 0; cuts < 20; cuts++) {
            qci_polygon left, right;
            qci_point low, high, a, b;

            qci_polygon_box(&p, &low, &high);
            a = (qci_point){low.x + up_to(high.x - low.x),
                            low.y + up_to(high.y - low.y)};
            b = draw() % 2 ? (qci_point){a.x + 1, a.y}
                           : (qci_point){a.x, a.y - 1};
            if (cut_and_check(&p, a, b) != QCI_CUT_DONE)
                break;
            qci_polygon_cut(&p, a, b, &left, &right);
            p = draw() % 2 ? left : right;
            assert_true(qci_cloth_is_rectangle(
                &p, qci_cloth_extent(&p, QCI_MEASURE_ACROSS),
                qci_cloth_extent(&p, QCI_MEASURE_UP)));
        }
    }
}

/* `count` slices one after the other, each the first one moved on. */
static qci_slice slice_by_slice(qci_polygon cloth, qci_ruler ruler,
                                int64_t count)
{
    qci_polygon first, next;
    bool up = ruler.measure == QCI_MEASURE_UP;
    qc_length distance = ruler.distance;

    for (int64_t i = 0; i < count; i++) {
        qci_slice done = qci_cloth_slice(&cloth, ruler, 1, false, &next);

        if (done != QCI_SLICE_DONE)
            return done;
        if (i == 0)
            first = next;
        else if (!qci_polygon_is_moved(&first, &next, up ? 0 : distance * i,
                                       up ? distance * i : 0))
            return QCI_SLICE_UNEQUAL;
    }
    return QCI_SLICE_DONE;
}

/* Parallelograms and triangles whose slopes keep corners whole, and anything
 * else: many slices at once are accepted exactly when one by one they are. */
static void slices_at_once_as_one_by_one(void **state)
{
    int seen[4] = {0};

    (void)state;
    seed = 4;
    for (int i = 0; i < 20000; i++) {
        int64_t w = 1 + up_to(30), h = 1 + up_to(30), lean = up_to(4) - 2;
        qci_polygon shapes[] = {
            qci_polygon_rectangle(w, h),
            {4, {{0, 0}, {w, lean * w}, {w, lean * w + h}, {0, h}}},
            {4, {{0, 0}, {w, 0}, {w + 2 * h, h}, {0, h}}},
            {3, {{0, 0}, {2 * w, 0}, {0, 2 * w}}},
            random_polygon(10),
        };
        qci_polygon cloth = shapes[up_to(4)], rest = cloth, freed;
        qci_ruler ruler = {up_to(1) ? QCI_MEASURE_UP : QCI_MEASURE_ACROSS,
                           1 + up_to(8), up_to(2) ? 0 : up_to(8) - 4};
        int64_t count = 1 + up_to(5);
        qci_slice at_once = qci_cloth_slice(&rest, ruler, count, false, &freed);
        qci_slice one_by_one = slice_by_slice(cloth, ruler, count);

        seen[at_once]++;
        assert_int_equal(at_once == QCI_SLICE_DONE,
                         one_by_one == QCI_SLICE_DONE);
        if (at_once == QCI_SLICE_DONE)
            assert_true(trapezoids(&cloth) ==
                        trapezoids(&freed) * count + trapezoids(&rest));
        else
            assert_true(qci_polygon_is_moved(&cloth, &rest, 0, 0));
    }
    for (int i = 0; i < 4; i++)
        assert_true(seen[i] > 100);
}

/* Turned and mirrored polygons are convex and as large; four quarters and two
 * mirrors change nothing. A mirror image is another form, but of the few that
 * are symmetric. */
static void knows_forms_by_any_side(void **state)
{
    int other = 0;

    (void)state;
    seed = 5;
    for (int i = 0; i < 5000; i++) {
        qci_polygon p = random_polygon(INT64_C(1) << (10 + i % 25));
        qci_polygon turned = qci_polygon_turned(&p, 1 + (int)up_to(2));
        qci_polygon mirrored = qci_polygon_mirrored(&p);
        qci_polygon back = qci_polygon_mirrored(&mirrored);
        qci_polygon round = qci_polygon_turned(&turned, 4);

        assert_true(qci_polygon_is_convex(&p));
        assert_true(qci_polygon_is_convex(&turned));
        assert_true(qci_polygon_is_convex(&mirrored));
        assert_true(trapezoids(&turned) == trapezoids(&p));
        assert_true(trapezoids(&mirrored) == trapezoids(&p));
        assert_true(qci_polygon_is_moved(&p, &back, 0, 0));
        assert_true(qci_polygon_is_moved(&turned, &round, 0, 0));
        assert_true(qci_form_is_congruent(&p, &turned));
        assert_int_equal(qci_form_is_symmetric(&p),
                         qci_form_is_congruent(&mirrored, &turned));
        other += !qci_form_is_symmetric(&p);
        mirrored.at[0] = mirrored.at[1];
        assert_false(qci_polygon_is_convex(&mirrored));
    }
    assert_true(other > 4500);
}

/* Triangles with a side along x and the third corner at (a, h) or (a + off, h):
 * one form when that is a micrometre off, another when it is 60 off, as angles
 * are never so sharp here that the slack is more than that; and another when it
 * is seen in a mirror, since sides are all different. */
static void tells_forms_apart(void **state)
{
    (void)state;
    seed = 6;
    for (int i = 0; i < 2000; i++) {
        qc_length side = 1000000 + up_to(1000000), h = 3000000;
        qc_length a = up_to(side / 2 - 200), off = up_to(1400) - 700;
        qci_polygon p = {3, {{0, 0}, {side, 0}, {a, h}}};
        qci_polygon q = {3, {{0, 0}, {side, 0}, {a + off, h}}};
        qci_polygon flipped = {3, {{0, 0}, {side, 0}, {side - a, h}}};
        bool near = off >= -QCI_FORM_SLACK && off <= QCI_FORM_SLACK;

        if (near)
            assert_true(qci_form_is_congruent(&p, &q));
        if (off < -60 * QCI_FORM_SLACK || off > 60 * QCI_FORM_SLACK)
            assert_false(qci_form_is_congruent(&p, &q));
        assert_false(qci_form_is_congruent(&p, &flipped));
        assert_false(qci_form_is_symmetric(&p));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cuts_from_edge_to_edge_exactly),
        cmocka_unit_test(refuses_what_cannot_be_exact),
        cmocka_unit_test(cuts_rectangles_exactly),
        cmocka_unit_test(slices_at_once_as_one_by_one),
        cmocka_unit_test(knows_forms_by_any_side),
        cmocka_unit_test(tells_forms_apart),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
