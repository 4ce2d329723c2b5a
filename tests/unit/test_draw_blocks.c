/* Pictures of blocks: where every mark stands. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/draw.h>

#include "draw/block.h"
#include "draw/corners.h"

static qc_block *find(const char *name)
{
    qc_block *block = NULL;

    assert_int_equal(qc_block_find(name, QC_INCH, &block, NULL), QC_STATUS_OK);
    return block;
}

static void lay(const qc_block *const *blocks, size_t count, qci_scene *scene)
{
    assert_true(qci_scene_begin(scene));
    assert_true(qci_blocks_lay(blocks, count, scene));
    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        assert_true(m->x >= 0 && m->x + m->w <= scene->width + 1e-9);
        assert_true(m->y >= 0 && m->y + m->h <= scene->height + 1e-9);
    }
}

static size_t texts_of(const qci_scene *scene, const char *text)
{
    size_t count = 0;

    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *m = &scene->marks.at[i];

        count += m->kind == QCI_MARK_TEXT && strcmp(m->text, text) == 0;
    }
    return count;
}

/* Area of the patches: that of the block, whose width is 360 points. */
static void one_block_is_whole_and_named(void **state)
{
    qc_block *block = find("ohio star");
    const qc_block *one = block;
    size_t patches = 0;
    double area = 0;
    qci_scene scene;

    (void)state;
    lay(&one, 1, &scene);
    for (size_t i = 0; i < scene.marks.count; i++) {
        const qci_mark *m = &scene.marks.at[i];

        if (m->kind != QCI_MARK_POLYGON)
            continue;
        patches++;
        area += fabs(qci_corners_area(m->corners, m->corner_count));
    }
    assert_int_equal(patches, 21);
    assert_true(fabs(area - 360.0 * 360.0) < 1e-6);
    assert_int_equal(texts_of(&scene, "A"), 8); /* a star has eight points */
    assert_int_equal(texts_of(&scene, "ohio star"), 1);
    assert_int_equal(texts_of(&scene, "background: D \xC3\x97 4, E \xC3\x97 4"),
                     1);
    qci_scene_clear(&scene);
    qc_block_destroy(block);
}

static void many_stand_side_by_side(void **state)
{
    qc_block *blocks[7];
    qci_scene scene;

    (void)state;
    for (size_t i = 0; i < 7; i++)
        blocks[i] = find(qc_block_builtin_at(25 + i)->name);
    lay((const qc_block *const *)blocks, 7, &scene);
    for (size_t i = 0; i < 7; i++) {
        assert_true(texts_of(&scene, qc_block_describe(blocks[i])->name) > 0);
        qc_block_destroy(blocks[i]);
    }
    assert_int_equal(texts_of(&scene, "ring 5"), 1);
    qci_scene_clear(&scene);
}

typedef struct file {
    char head[64];
    size_t size;
    int answer;
} file;

static int keep(const void *bytes, size_t size, void *user)
{
    file *f = user;

    memcpy(f->head, bytes, size < 63 ? size : 63);
    f->size = size;
    return f->answer;
}

static void every_format_is_written(void **state)
{
    static const char *const heads[] = {"<?xml", "%PDF", "\x89PNG"};
    qc_block *block = find("tumbling blocks");
    const qc_block *one = block;
    qc_error err;

    (void)state;
    for (int format = QC_DRAW_SVG; format <= QC_DRAW_PNG; format++) {
        file f = {"", 0, 0};

        assert_int_equal(
            qc_block_draw(&one, 1, (qc_draw_format)format, keep, &f, NULL),
            QC_STATUS_OK);
        assert_memory_equal(f.head, heads[format], 4);
        assert_true(f.size > 1000);
    }
    for (int wrong = 0; wrong < 3; wrong++) {
        file f = {"", 0, wrong == 2};

        qc_error_init(&err);
        assert_int_equal(
            qc_block_draw(&one, wrong != 0,
                          wrong == 1 ? (qc_draw_format)7 : QC_DRAW_SVG, keep,
                          &f, &err),
            QC_STATUS_INVALID);
        assert_string_equal(err.field, wrong == 0   ? "blocks"
                                       : wrong == 1 ? "format"
                                                    : "");
    }
    qc_block_destroy(block);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_block_is_whole_and_named),
        cmocka_unit_test(many_stand_side_by_side),
        cmocka_unit_test(every_format_is_written),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
