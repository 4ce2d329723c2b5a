/* Slanted cuts, outlines, pairs, left hands and strip sets on the page, held
 * against the plan (draw_slants.c). Places are worked out here from the plan's
 * own numbers, or from the geometry of the shape. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "draw/corners.h"
#include "draw_look.h"
#include "draw_plans.h"

/* Half a hundredth of a point cannot be seen. */
#define NEAR 0.005

static void assert_near(double a, double b)
{
    if (!(fabs(a - b) < NEAR))
        fail_msg("%.6f is not %.6f", a, b);
}

/* The n-th polygon of a role inside the box, in the order in which they are
 * laid; NULL beyond the last. */
static const qci_mark *polygon_in(const qci_scene *scene, qci_role role,
                                  const qci_mark *box, size_t n)
{
    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        if (m->kind == QCI_MARK_POLYGON && m->role == role &&
            look_inside(m, box->x, box->y, box->w, box->h) && n-- == 0)
            return m;
    }
    return NULL;
}

static double lean_of(const qci_mark *m)
{
    double low_from, low_to, up_from, up_to;

    qci_corners_span(m->corners, m->corner_count, m->y + m->h - 1e-9, &low_from,
                     &low_to);
    qci_corners_span(m->corners, m->corner_count, m->y + 1e-9, &up_from,
                     &up_to);
    return (up_from + up_to - low_from - low_to) / 2;
}

/* n diamonds of 45 degrees and height h take n h sqrt2 + h of a strip: plane
 * geometry, and the handbooks' figure (floor((W - h) / (h sqrt2)) to a strip).
 */
static void diamonds_take_what_geometry_says(void **state)
{
    qc_plan *plan = draw_sample("both_hands");
    double scale, n = 9, h;
    const qci_mark *strip, *first, *last;
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    strip = look_lowest_box(&scene, QCI_ROLE_STRIP);
    scale = strip->w / 42;
    h = 3 * scale;
    first = polygon_in(&scene, QCI_ROLE_PIECE, strip, 0);
    last = polygon_in(&scene, QCI_ROLE_PIECE, strip, 8);
    assert_non_null(first);
    assert_non_null(last);
    assert_null(polygon_in(&scene, QCI_ROLE_PIECE, strip, 9));
    assert_near(first->x, strip->x);
    assert_near(last->x + last->w - strip->x, n * h * sqrt(2) + h);
    assert_near(lean_of(first), h);
    assert_near(first->h, strip->h);
    assert_near(qci_corners_area(first->corners, first->corner_count),
                h * h * sqrt(2));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* Between a right lean and a left one of 3 in lies a wedge 3 in wide at half
 * the height, here a triangle that is 6 in wide at the strip's lower edge. */
static void wedges_are_scrap(void **state)
{
    qc_plan *plan = draw_sample("both_hands");
    qci_scene scene;
    const qci_mark *wedge, *cloth;
    qci_mark second;
    double scale;

    (void)state;
    look_lay(plan, &scene);
    cloth = look_find_box(&scene, QCI_ROLE_CLOTH);
    scale = cloth->w / 42;
    second = *look_lowest_box(&scene, QCI_ROLE_STRIP);
    second.y -= 2 * second.h; /* strip 2 stands above two of strip 1 */
    wedge = polygon_in(&scene, QCI_ROLE_SCRAP, &second, 0);
    assert_non_null(wedge);
    assert_near(qci_corners_area(wedge->corners, wedge->corner_count),
                3 * 3 / 2.0 * scale * scale);
    assert_near(wedge->x, cloth->x);
    wedge = polygon_in(&scene, QCI_ROLE_SCRAP, &second, 1);
    assert_near(qci_corners_area(wedge->corners, wedge->corner_count),
                6 * 3 / 2.0 * scale * scale);
    assert_near(wedge->w, 6 * scale);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static const qci_mark *owner_of(const qci_scene *scene, const char *name)
{
    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        if (m->role == QCI_ROLE_LABEL && strcmp(m->text, name) == 0)
            return &scene->marks.at[m->owner];
    }
    fail_msg("nothing is called %s", name);
    return NULL;
}

/* Of a left-handed plan strips begin at the right end, but a right-leaning
 * piece is still one, and text is not mirrored. */
static void left_hands_see_a_mirror(void **state)
{
    qc_plan *plans[] = {draw_sample("both_hands"), draw_sample("left_handed")};
    qci_scene scenes[2];
    const qci_mark *strips[2], *first[2];

    (void)state;
    for (int i = 0; i < 2; i++) {
        look_lay(plans[i], &scenes[i]);
        strips[i] = look_lowest_box(&scenes[i], QCI_ROLE_STRIP);
        first[i] = polygon_in(&scenes[i], QCI_ROLE_PIECE, strips[i], 0);
        assert_true(lean_of(owner_of(&scenes[i], "D right")) > 1);
        assert_true(lean_of(owner_of(&scenes[i], "D left")) < -1);
    }
    assert_near(first[0]->x, strips[0]->x);
    assert_near(first[1]->x + first[1]->w, strips[1]->x + strips[1]->w);
    assert_near(look_find_box(&scenes[0], QCI_ROLE_CLOTH)->x,
                look_find_box(&scenes[1], QCI_ROLE_CLOTH)->x);
    assert_true(look_says(&scenes[0], "squared end of the strips on the left"));
    assert_true(
        look_says(&scenes[1], "squared end of the strips on the right"));
    assert_false(look_says(&scenes[0], "left-handed"));
    assert_true(look_says(&scenes[1], "left-handed: worked from this end"));
    for (int i = 0; i < 2; i++) {
        qci_scene_clear(&scenes[i]);
        qc_plan_destroy(plans[i]);
    }
}

static void mirroring_twice_changes_nothing(void **state)
{
    qc_plan *plan = draw_sample("all_shapes_left");
    qci_scene scene, twice;

    (void)state;
    look_lay(plan, &scene);
    look_lay(plan, &twice);
    qci_scene_mirror(&twice, 0, 10, 700);
    qci_scene_mirror(&twice, 0, 10, 700);
    assert_int_equal(scene.marks.count, twice.marks.count);
    for (size_t i = 0; i < scene.marks.count; i++) {
        const qci_mark *a = &scene.marks.at[i], *b = &twice.marks.at[i];

        assert_near(a->x, b->x);
        assert_near(a->w, b->w);
        for (size_t k = 0; k < a->corner_count; k++)
            assert_near(a->corners[k].x, b->corners[k].x);
    }
    qci_scene_clear(&scene);
    qci_scene_clear(&twice);
    qc_plan_destroy(plan);
}

/* Every piece of a strip is drawn as large as its outline, touches both edges
 * of its strip, and none overlaps another: together with scrap and leftovers
 * they fill the strip. */
static void check_outlines(const char *name)
{
    qc_plan *plan = draw_sample(name);
    const qci_mark *cloth;
    double area = 0, scale;
    qci_scene scene;

    look_lay(plan, &scene);
    cloth = look_find_box(&scene, QCI_ROLE_CLOTH);
    scale = cloth->w / (double)plan->fabrics[0].info.usable_width;
    for (size_t i = 0; i < scene.marks.count; i++) {
        const qci_mark *m = &scene.marks.at[i];
        bool polygon = m->kind == QCI_MARK_POLYGON;

        if (!look_inside(m, cloth->x, cloth->y, cloth->w, cloth->h) ||
            (m->role != QCI_ROLE_PIECE && m->role != QCI_ROLE_SCRAP &&
             m->role != QCI_ROLE_LEFTOVER))
            continue;
        area += polygon ? qci_corners_area(m->corners, m->corner_count)
                        : m->w * m->h;
        if (polygon && m->role == QCI_ROLE_PIECE) {
            const qc_plan_piece *piece = &plan->pieces[m->tint];
            qci_corner corners[24];
            size_t n =
                qci_slant_outline(piece, 0, QC_TURN_NONE, false, corners);

            assert_near(qci_corners_area(m->corners, m->corner_count),
                        qci_corners_area(corners, n) * scale * scale);
            assert_near(m->h, (double)piece->cut[1] * scale);
        }
    }
    if (fabs(area / (cloth->w * cloth->h) - 1) > 0.001)
        fail_msg("%s: %f of the cloth is drawn", name,
                 area / (cloth->w * cloth->h));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void outlines_lie_in_their_sections(void **state)
{
    (void)state;
    check_outlines("all_shapes");
    check_outlines("all_shapes_left");
    check_outlines("pairs");
}

/* In a row of triangles every second one stands on its tip. */
static void alternate_pieces_are_turned(void **state)
{
    qc_plan *plan = draw_sample("all_shapes");
    qci_scene scene;
    int up = 0, down = 0;

    (void)state;
    look_lay(plan, &scene);
    for (size_t i = 0; i < scene.marks.count; i++) {
        const qci_mark *m = &scene.marks.at[i];
        int low = 0;

        if (m->kind != QCI_MARK_POLYGON || m->role != QCI_ROLE_PIECE ||
            m->tint != 0 || m->h < 10)
            continue;
        for (size_t k = 0; k < m->corner_count; k++)
            low += m->corners[k].y > m->y + m->h - NEAR;
        up += low == 2;
        down += low == 1;
    }
    assert_int_equal(up, 2 * 5); /* two strips of nine */
    assert_int_equal(down, 2 * 4);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* A triangle both ways: singly, and from squares. */
static void triangles_tell_how_they_are_cut(void **state)
{
    qc_plan *plan = draw_sample("all_shapes");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_true(
        look_says(&scene, "3, 3 cut corner to corner, 6 singly: 12 triangles"));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void pairs_name_both_pieces(void **state)
{
    qc_plan *plan = draw_sample("pairs");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_true(look_says(&scene, "2 \xC3\x97, right sides"));
    assert_ptr_equal(owner_of(&scene, "D right"), owner_of(&scene, "+ D left"));
    assert_true(look_says(&scene, "piled in twos"));
    qci_scene_clear(&scene);
    plan->fabrics[0].strips[0].paired = plan->fabrics[0].strips[1].paired =
        false;
    look_lay(plan, &scene);
    assert_false(look_says(&scene, "right sides"));
    assert_false(look_says(&scene, "+ D left"));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void strip_1_is_lowest(void **state)
{
    qc_plan *plan = draw_sample("throw_quilt");
    const qci_mark *cloth, *low;
    qci_scene scene;
    double scale;

    (void)state;
    look_lay(plan, &scene);
    cloth = look_find_box(&scene, QCI_ROLE_CLOTH);
    low = look_lowest_box(&scene, QCI_ROLE_STRIP);
    scale = cloth->w / 42;
    assert_near(cloth->y + cloth->h - (low->y + low->h), scale / 2);
    assert_near(low->h, 7.5 * scale);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* --- strip sets ---------------------------------------------------------- */

static size_t count_marks(const qci_scene *scene, qci_mark_kind kind,
                          qci_role role)
{
    size_t n = 0;

    for (size_t i = 0; i < scene->marks.count; i++)
        n += scene->marks.at[i].kind == kind && scene->marks.at[i].role == role;
    return n;
}

/* All cuts reach across, from first + k x pitch on, and nothing of a segment
 * lies beyond its strip's ends. */
static void check_set(const char *name)
{
    qc_plan *plan = draw_sample(name);
    const qc_plan_set *info = qc_plan_set_at(plan, 0);
    bool second = info->second_angle != 0;
    double area = 0, full = 0, seam = 0.25, scale = 0;
    qci_scene scene;

    look_lay(plan, &scene);
    assert_int_equal(count_marks(&scene, QCI_MARK_LINE, QCI_ROLE_CUT),
                     info->per_set + 1 + second);
    assert_int_equal(count_marks(&scene, QCI_MARK_POLYGON, QCI_ROLE_PIECE),
                     (size_t)info->per_set * info->strip_count);
    for (size_t i = 0; i < scene.marks.count; i++) {
        const qci_mark *m = &scene.marks.at[i];

        if (m->kind != QCI_MARK_POLYGON)
            continue;
        area += qci_corners_area(m->corners, m->corner_count);
        if (m->role == QCI_ROLE_PIECE)
            scale = qci_corners_area(m->corners, m->corner_count) / m->h /
                    (double)info->pitch;
    }
    for (size_t i = 0; i < info->strip_count; i++) {
        int seams = (i > 0) + (i + 1 < info->strip_count);

        full += (double)qc_plan_set_strip_at(plan, 0, i)->width -
                seams * seam * (double)IN;
    }
    full *= (double)info->full_length * scale * scale;
    if (fabs(area / full - 1) > 0.001)
        fail_msg("%s: %f of the set is drawn", name, area / full);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void sets_are_drawn_whole(void **state)
{
    (void)state;
    check_set("set_right");
    check_set("set_left");
    check_set("set_square");
    check_set("set_for_left_hand");
    check_set("set_short");
}

/* The cuts lean as the segments' hand says, whichever hand cuts them; they are
 * the spacing apart, measured square to them. */
static void cuts_lean_and_stand_apart(void **state)
{
    static const struct {
        const char *name;
        int way;
        double degrees, spacing;
    } sets[] = {{"set_right", 1, 45, 2},
                {"set_left", -1, 60, 2.5},
                {"set_for_left_hand", 1, 60, 2.5},
                {"set_square", 0, 90, 1.5}};

    (void)state;
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++) {
        qc_plan *plan = draw_sample(sets[i].name);
        const qci_mark *cuts[2] = {NULL, NULL};
        double angle, apart, scale;
        qci_scene scene;

        look_lay(plan, &scene);
        for (size_t k = 0, n = 0; k < scene.marks.count && n < 2; k++)
            if (scene.marks.at[k].role == QCI_ROLE_CUT)
                cuts[n++] = &scene.marks.at[k];
        angle = atan2(-cuts[0]->h, fabs(cuts[0]->w));
        assert_near(angle * 180 / 3.14159265358979, sets[i].degrees);
        assert_int_equal((cuts[0]->w > NEAR) - (cuts[0]->w < -NEAR),
                         sets[i].way);
        scale = polygon_in(&scene, QCI_ROLE_PIECE,
                           &(qci_mark){.w = scene.width, .h = scene.height}, 0)
                    ->h /
                (double)(qc_plan_set_strip_at(plan, 0, 0)->width - IN / 4);
        apart = fabs(cuts[1]->x - cuts[0]->x) * sin(angle);
        assert_near(apart, sets[i].spacing * (double)IN * scale);
        qci_scene_clear(&scene);
        qc_plan_destroy(plan);
    }
}

/* The second cut begins at its height on one side of the last segment and ends
 * on the other one; both hands are mirror images. */
static void second_cut_joins_both_sides(void **state)
{
    static const char *const names[] = {"set_left", "set_for_left_hand"};
    double ends[2][2];

    (void)state;
    for (int i = 0; i < 2; i++) {
        qc_plan *plan = draw_sample(names[i]);
        const qci_mark *cut = NULL, *before = NULL, *last = NULL;
        qci_scene scene;

        look_lay(plan, &scene);
        for (size_t k = 0; k < scene.marks.count; k++)
            if (scene.marks.at[k].role == QCI_ROLE_CUT) {
                before = last;
                last = cut;
                cut = &scene.marks.at[k];
            }
        assert_non_null(before);
        assert_true(cut->h < 0); /* rises */
        ends[i][0] = cut->w;
        ends[i][1] = cut->h;
        for (int end = 0; end < 2; end++) {
            double x = cut->x + end * cut->w, y = cut->y + end * cut->h;
            double at_last = last->x + (y - last->y) / last->h * last->w;
            double at_before =
                before->x + (y - before->y) / before->h * before->w;

            assert_true(fabs(x - at_last) < NEAR || fabs(x - at_before) < NEAR);
        }
        qci_scene_clear(&scene);
        qc_plan_destroy(plan);
    }
    assert_true(ends[0][0] < 0 && ends[1][0] > 0);
    assert_near(ends[0][0], -ends[1][0]);
    assert_near(ends[0][1], ends[1][1]);
}

static void sets_say_what_to_do(void **state)
{
    qc_plan *plan = draw_sample("set_right");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_true(look_says(&scene, "Strip set S1 right"));
    assert_true(look_says(&scene, "Sew 2 sets of strips 42 in long: 14 "
                                  "segments from each."));
    assert_true(look_says(&scene, "40 segments in all"));
    assert_true(look_says(&scene, "12 segments, cut in the same way"));
    assert_true(look_says(&scene, "1 1/2 to the right"));
    assert_true(
        look_says(&scene, "at 45\xC2\xB0 to the strips, leaning right"));
    assert_true(look_says(&scene, "Then cuts 2 in apart, square to the cut"));
    assert_true(
        look_says(&scene, "strip 2: Sand & <dunes>, cut 2 in; 2 of 42"));
    assert_true(look_says(&scene, "never towards it"));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void fine_segments_are_one_block(void **state)
{
    qc_plan *plan = draw_sample("set_fine");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_int_equal(count_marks(&scene, QCI_MARK_LINE, QCI_ROLE_CUT), 2);
    assert_int_equal(count_marks(&scene, QCI_MARK_POLYGON, QCI_ROLE_PIECE), 2);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* fontconfig keeps patterns behind pointers that LeakSanitizer cannot read. */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig";
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(diamonds_take_what_geometry_says),
        cmocka_unit_test(wedges_are_scrap),
        cmocka_unit_test(left_hands_see_a_mirror),
        cmocka_unit_test(mirroring_twice_changes_nothing),
        cmocka_unit_test(outlines_lie_in_their_sections),
        cmocka_unit_test(alternate_pieces_are_turned),
        cmocka_unit_test(triangles_tell_how_they_are_cut),
        cmocka_unit_test(pairs_name_both_pieces),
        cmocka_unit_test(strip_1_is_lowest),
        cmocka_unit_test(sets_are_drawn_whole),
        cmocka_unit_test(cuts_lean_and_stand_apart),
        cmocka_unit_test(second_cut_joins_both_sides),
        cmocka_unit_test(sets_say_what_to_do),
        cmocka_unit_test(fine_segments_are_one_block),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
