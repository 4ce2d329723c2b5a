/* The diagram, looked at through its scene: everything drawn is where and as
 * large as the plan says, no text stands in another's way, and the files are
 * whole, well formed and always the same. Plans are made by hand
 * (draw_plans.h).
 *
 * With QC_PICTURES=FOLDER in the environment every picture is also written
 * there, for looking at. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <quiltcut/draw.h>

#include "base/alloc.h"
#include "base/caution.h"
#include "draw/corners.h"
#include "draw_look.h"
#include "draw_plans.h"

/* --- looking at scenes --------------------------------------------------- */

static size_t sample_count(void)
{
    return straight_plan_count + slanted_plan_count + set_plan_count;
}

static sample sample_at(size_t i)
{
    if (i < straight_plan_count)
        return straight_plans[i];
    i -= straight_plan_count;
    return i < slanted_plan_count ? slanted_plans[i]
                                  : set_plans[i - slanted_plan_count];
}

static bool overlap(const qci_mark *a, const qci_mark *b)
{
    const double slack = 0.01;

    return a->x + a->w > b->x + slack && b->x + b->w > a->x + slack &&
           a->y + a->h > b->y + slack && b->y + b->h > a->y + slack;
}

/* All corners of a text inside its piece. */
static bool in_polygon(const qci_mark *text, const qci_mark *piece)
{
    double from, to;

    if (piece->kind != QCI_MARK_POLYGON)
        return true;
    for (int i = 0; i < 2; i++) {
        qci_corners_span(piece->corners, piece->corner_count,
                         text->y + i * text->h, &from, &to);
        if (text->x < from - 0.01 || text->x + text->w > to + 0.01)
            return false;
    }
    return true;
}

static void check_texts(const char *name, const qci_scene *scene)
{
    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *a = &scene->marks.at[i];

        if (a->kind == QCI_MARK_LINE)
            continue;
        if (!look_inside(a, 0, 0, scene->width, scene->height))
            fail_msg("%s: mark %zu leaves the page", name, i);
        if (a->kind != QCI_MARK_TEXT)
            continue;
        assert_true(a->size >= 6.5);
        if (a->owner != QCI_NO_OWNER) {
            const qci_mark *box = &scene->marks.at[a->owner];

            if (!look_inside(a, box->x, box->y, box->w, box->h) ||
                !in_polygon(a, box))
                fail_msg("%s: '%s' leaves its piece", name, a->text);
        }
        for (size_t k = i + 1; k < scene->marks.count; k++)
            if (scene->marks.at[k].kind == QCI_MARK_TEXT &&
                overlap(a, &scene->marks.at[k]))
                fail_msg("%s: '%s' and '%s' overlap", name, a->text,
                         scene->marks.at[k].text);
    }
}

static void texts_stand_apart(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count(); i++) {
        qc_plan *plan = sample_at(i).make();
        qci_scene scene;

        look_lay(plan, &scene);
        check_texts(sample_at(i).name, &scene);
        qci_scene_clear(&scene);
        qc_plan_destroy(plan);
    }
}

static size_t count_boxes(const qci_scene *scene, qci_role role,
                          const qci_mark *cloth)
{
    size_t n = 0;

    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        n += (m->kind == QCI_MARK_BOX || m->kind == QCI_MARK_POLYGON) &&
             m->role == role &&
             look_inside(m, cloth->x, cloth->y, cloth->w, cloth->h);
    }
    return n;
}

static int64_t pieces_asked(const qc_plan *plan)
{
    int64_t n = 0;

    for (size_t i = 0; i < plan->piece_count; i++)
        n += plan->pieces[i].count;
    return n;
}

/* Pieces, scrap and leftovers tile the cloth: nothing is drawn twice, nothing
 * is left out, and all of it is to scale. */
static void boxes_tile_the_cloth(void **state)
{
    static const char *const whole[] = {
        "one_strip",  "throw_quilt", "thirty_strips", "metric",
        "many_types", "long_names",  "wide_cloth",    "narrow_cloth",
        "shrinking",  "both_hands",  "left_handed",   "pairs"};

    (void)state;
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++) {
        qc_plan *plan = draw_sample(whole[i]);
        qci_scene scene;
        const qci_mark *cloth;
        double area = 0;

        look_lay(plan, &scene);
        cloth = look_find_box(&scene, QCI_ROLE_CLOTH);
        assert_non_null(cloth);
        assert_int_equal(count_boxes(&scene, QCI_ROLE_PIECE, cloth),
                         pieces_asked(plan));
        for (size_t k = 0; k < scene.marks.count; k++) {
            const qci_mark *m = &scene.marks.at[k];

            if ((m->role == QCI_ROLE_PIECE || m->role == QCI_ROLE_SCRAP ||
                 m->role == QCI_ROLE_LEFTOVER) &&
                look_inside(m, cloth->x, cloth->y, cloth->w, cloth->h))
                area += m->kind == QCI_MARK_BOX
                            ? m->w * m->h
                            : qci_corners_area(m->corners, m->corner_count);
        }
        assert_true(fabs(area / (cloth->w * cloth->h) - 1) < 0.002);
        qci_scene_clear(&scene);
        qc_plan_destroy(plan);
    }
}

static void drawing_is_to_scale(void **state)
{
    qc_plan *plan = draw_sample("throw_quilt");
    const qc_plan_fabric *info = qc_plan_fabric_at(plan, 0);
    qci_scene scene;
    const qci_mark *cloth, *strip_box;

    (void)state;
    look_lay(plan, &scene);
    cloth = look_find_box(&scene, QCI_ROLE_CLOTH);
    strip_box = look_lowest_box(&scene, QCI_ROLE_STRIP);
    assert_true(fabs(cloth->h / cloth->w -
                     (double)info->bought / (double)info->usable_width) < 1e-9);
    assert_true(fabs(strip_box->h / strip_box->w -
                     (double)plan->fabrics[0].strips[0].height /
                         (double)info->usable_width) < 1e-9);
    assert_int_equal(count_boxes(&scene, QCI_ROLE_STRIP, cloth), 14);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* Squares of 5 in for quarters and of 4 for halves: a line for each cut, from
 * corner to corner of the square's own box. */
static void diagonals_join_corners(void **state)
{
    maker m = draw_begin("", "cloth", QC_UNITS_IN, 40 * IN, 4 * IN);
    uint32_t quarter = draw_type(&m, "Q", 5 * IN, 5 * IN);
    uint32_t half = draw_type(&m, "H", 4 * IN, 4 * IN);
    uint32_t plain = draw_type(&m, "P", 3 * IN, 3 * IN);
    qci_scene scene;
    qc_plan *plan;
    const qci_mark *box = NULL;
    int lines[3] = {0};

    (void)state;
    m.plan->pieces[quarter].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    m.plan->pieces[half].shape = QC_SHAPE_HALF_SQUARE_TRIANGLE;
    draw_strip(&m, 5 * IN, 2,
               (run[]){{quarter, 3, 1, false},
                       {half, 2, 1, false},
                       {plain, 2, 1, false}},
               3);
    ((qc_stack *)m.plan->fabrics[0].strips[0].subcuts[0].stacks)->yields = 4;
    ((qc_stack *)m.plan->fabrics[0].strips[0].subcuts[1].stacks)->yields = 2;
    plan = draw_end(&m);
    look_lay(plan, &scene);
    for (size_t i = 0; i < scene.marks.count; i++) {
        const qci_mark *k = &scene.marks.at[i];

        if (k->role == QCI_ROLE_PIECE)
            box = k;
        if (k->role != QCI_ROLE_DIAGONAL)
            continue;
        assert_non_null(box);
        lines[box->tint]++;
        assert_true(fabs(fabs(k->w) - box->w) < 1e-9);
        assert_true(fabs(fabs(k->h) - box->h) < 1e-9);
        assert_true(fabs(fmin(k->x, k->x + k->w) - box->x) < 1e-9);
        assert_true(fabs(fmin(k->y, k->y + k->h) - box->y) < 1e-9);
    }
    assert_int_equal(lines[quarter], 2 * 6);
    assert_int_equal(lines[half], 4);
    assert_int_equal(lines[plain], 0);
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* Whole, not ended by an ellipsis. */
static void every_caution_is_drawn(void **state)
{
    qc_plan *plan = draw_sample("one_strip");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    for (size_t i = 0; i < QCI_CAUTION_COUNT; i++)
        assert_true(look_says(&scene, qci_cautions[i]));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void very_many_strips_are_drawn_once(void **state)
{
    qc_plan *plan = draw_sample("ninety_strips");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_int_equal(count_boxes(&scene, QCI_ROLE_STRIP,
                                 look_find_box(&scene, QCI_ROLE_CLOTH)),
                     3);
    assert_true(look_says(&scene, "and 59 more strips like this one"));
    assert_true(look_says(&scene, "and 28 more strips like this one"));
    assert_true(look_says(&scene, "60 \xC3\x97 2 1/2"));
    assert_true(look_says(&scene, "longer than drawn"));
    assert_true(look_says(&scene, "to scale within a strip"));
    assert_true(look_says(&scene, "the best found"));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void few_strips_have_no_breaks(void **state)
{
    qc_plan *plan = draw_sample("thirty_strips");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_int_equal(count_boxes(&scene, QCI_ROLE_STRIP,
                                 look_find_box(&scene, QCI_ROLE_CLOTH)),
                     30);
    assert_null(look_find_box(&scene, QCI_ROLE_BREAK));
    assert_true(look_says(&scene, "proved minimal"));
    assert_true(look_says(&scene, "this way up"));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

static void names_without_room_get_a_key(void **state)
{
    qc_plan *plan = draw_sample("long_names");
    qci_scene scene;

    (void)state;
    look_lay(plan, &scene);
    assert_true(look_says(&scene, "(1)"));
    assert_true(look_says(&scene, "stands for a name"));
    qci_scene_clear(&scene);
    qc_plan_destroy(plan);
}

/* --- files --------------------------------------------------------------- */

typedef struct file {
    char *bytes;
    size_t size;
    int calls;
    int refuse;
} file;

static int keep(const void *bytes, size_t size, void *user)
{
    file *f = user;

    f->calls++;
    if (f->refuse)
        return 1;
    f->bytes = realloc(f->bytes, f->size + size + 1);
    assert_non_null(f->bytes);
    memcpy(f->bytes + f->size, bytes, size);
    f->size += size;
    f->bytes[f->size] = '\0';
    return 0;
}

static void look_at(const char *name, qc_draw_format format, const file *f)
{
    static const char *const endings[] = {"svg", "pdf", "png"};
    const char *folder = getenv("QC_PICTURES");
    char path[512];
    FILE *out;

    if (!folder)
        return;
    snprintf(path, sizeof path, "%s/%s.%s", folder, name, endings[format]);
    out = fopen(path, "wb");
    assert_non_null(out);
    assert_int_equal(fwrite(f->bytes, 1, f->size, out), f->size);
    assert_int_equal(fclose(out), 0);
}

static bool has(const file *f, const char *text)
{
    size_t n = strlen(text);

    for (size_t i = 0; i + n <= f->size; i++)
        if (memcmp(f->bytes + i, text, n) == 0)
            return true;
    return false;
}

static void check_file(qc_draw_format format, const file *f)
{
    if (format == QC_DRAW_SVG) {
        assert_memory_equal(f->bytes, "<?xml", 5);
        assert_string_equal(f->bytes + f->size - 7, "</svg>\n");
        assert_true(has(f, "id=\"surface\""));
        assert_true(has(f, "<title>"));
    } else if (format == QC_DRAW_PDF) {
        assert_memory_equal(f->bytes, "%PDF-", 5);
        assert_false(has(f, "CreationDate (D:"));
    } else {
        assert_memory_equal(f->bytes, "\x89PNG\r\n\x1A\n", 8);
    }
}

static void every_format_of_every_plan(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count(); i++) {
        for (int format = QC_DRAW_SVG; format <= QC_DRAW_PNG; format++) {
            qc_plan *plan = sample_at(i).make();
            file first = {0}, second = {0};
            qc_error err;

            qc_error_init(&err);
            assert_int_equal(
                look_draw(plan, (qc_draw_format)format, keep, &first, &err),
                QC_STATUS_OK);
            assert_int_equal(
                look_draw(plan, (qc_draw_format)format, keep, &second, &err),
                QC_STATUS_OK);
            check_file((qc_draw_format)format, &first);
            look_at(sample_at(i).name, (qc_draw_format)format, &first);
            assert_int_equal(first.size, second.size);
            assert_memory_equal(first.bytes, second.bytes, first.size);
            free(first.bytes);
            free(second.bytes);
            qc_plan_destroy(plan);
        }
    }
}

static void names_are_escaped(void **state)
{
    qc_plan *plan = draw_sample("long_names");
    qc_plan *set = draw_sample("set_square");
    file f = {0}, g = {0};

    (void)state;
    assert_int_equal(qc_plan_draw(plan, 0, QC_DRAW_SVG, keep, &f, NULL),
                     QC_STATUS_OK);
    assert_true(has(&f, "<title>Bl\xC3\xA5 &lt;&amp;&gt; \xE6\xB5\xB7"));
    free((char *)set->sets[0].info.id);
    set->sets[0].info.id = qci_strdup("1 < 2 & 3");
    assert_int_equal(qc_plan_draw_set(set, 0, QC_DRAW_SVG, keep, &g, NULL),
                     QC_STATUS_OK);
    assert_true(has(&g, "<title>1 &lt; 2 &amp; 3</title>"));
    free(f.bytes);
    free(g.bytes);
    qc_plan_destroy(plan);
    qc_plan_destroy(set);
}

static void wrong_calls_are_refused(void **state)
{
    qc_plan *plan = draw_sample("one_strip");
    file f = {.refuse = 1};
    qc_error err;

    (void)state;
    qc_error_init(&err);
    assert_int_equal(qc_plan_draw(plan, 1, QC_DRAW_SVG, keep, &f, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, "fabric");
    qc_error_init(&err);
    assert_int_equal(qc_plan_draw(plan, 0, (qc_draw_format)7, keep, &f, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, "format");
    qc_error_init(&err);
    assert_int_equal(qc_plan_draw_set(plan, 0, QC_DRAW_SVG, keep, &f, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, "set");
    assert_int_equal(f.calls, 0);
    qc_error_init(&err);
    assert_int_equal(qc_plan_draw(plan, 0, QC_DRAW_SVG, keep, &f, &err),
                     QC_STATUS_INVALID);
    assert_int_equal(f.calls, 1);
    assert_true(err.problem[0] != '\0');
    qc_plan_destroy(plan);
}

/* Whichever allocation fails, the call says so, writes nothing, leaks nothing
 * (AddressSanitizer watches that). */
static void run_out_of_memory(const char *name)
{
    qc_plan *plan = draw_sample(name);
    long n = 1;

    for (;; n++) {
        file f = {0};
        qc_status status;
        qc_error err;

        qc_error_init(&err);
        qci_alloc_fail_at(n, 0);
        status = look_draw(plan, QC_DRAW_SVG, keep, &f, &err);
        if (status == QC_STATUS_OK) {
            free(f.bytes);
            break;
        }
        assert_int_equal(status, QC_STATUS_NO_MEMORY);
        assert_int_equal(err.code, QC_STATUS_NO_MEMORY);
        assert_int_equal(f.calls, 0);
    }
    qci_alloc_fail_at(0, 0);
    assert_true(n > 50);
    qc_plan_destroy(plan);
}

static void running_out_of_memory(void **state)
{
    (void)state;
    run_out_of_memory("one_strip");
    run_out_of_memory("pairs");
    run_out_of_memory("set_short");
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
        cmocka_unit_test(texts_stand_apart),
        cmocka_unit_test(boxes_tile_the_cloth),
        cmocka_unit_test(drawing_is_to_scale),
        cmocka_unit_test(diagonals_join_corners),
        cmocka_unit_test(every_caution_is_drawn),
        cmocka_unit_test(very_many_strips_are_drawn_once),
        cmocka_unit_test(few_strips_have_no_breaks),
        cmocka_unit_test(names_without_room_get_a_key),
        cmocka_unit_test(every_format_of_every_plan),
        cmocka_unit_test(names_are_escaped),
        cmocka_unit_test(wrong_calls_are_refused),
        cmocka_unit_test(running_out_of_memory),
    };

    /* tests/deep.sh sets it under valgrind. */
    if (getenv("QUILTCUT_TEST_QUICK"))
        cmocka_set_skip_filter("running_out_of_memory");
    return cmocka_run_group_tests(tests, NULL, NULL);
}
