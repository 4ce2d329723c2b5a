/* The plot of a comparison: bars as high as their values, with the axes' names,
 * every size, and texts that do not overlap. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "draw/plot.h"

#define MOST 60

/* Rows of 100 square units of cloth; the waste of row i is 10 + i of them. */
static void make_rows(qc_compare_row *rows, size_t count)
{
    memset(rows, 0, count * sizeof *rows);
    for (size_t i = 0; i < count; i++) {
        rows[i].block_size = ((qc_length)i + 4) * QC_INCH;
        rows[i].bought = ((qc_length)i + 1) * QC_YARD;
        rows[i].cloth = 100;
        rows[i].area = (qc_area){90 - (int64_t)i, 4, 3, 2 + (int64_t)i};
        rows[i].beyond = 1;
        rows[i].rank = (uint32_t)(i + 1);
        rows[i].efficient = i == 0;
    }
}

static const qci_mark *find_text(const qci_scene *scene, const char *text)
{
    for (size_t i = 0; i < scene->marks.count; i++)
        if (scene->marks.at[i].kind == QCI_MARK_TEXT &&
            strcmp(scene->marks.at[i].text, text) == 0)
            return &scene->marks.at[i];
    return NULL;
}

/* Heights of the boxes of a role and tint, without the key's, in order. */
static size_t heights(const qci_scene *scene, qci_role role, unsigned tint,
                      double *out)
{
    size_t n = 0;

    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *mark = &scene->marks.at[i];

        if (mark->kind == QCI_MARK_BOX && mark->role == role &&
            mark->tint == tint && mark->w != 16)
            out[n++] = mark->h;
    }
    return n;
}

static void bars_are_as_high_as_values(void **state)
{
    qc_compare_row rows[3];
    double scrap[MOST], seams[MOST], buy[MOST];
    qci_scene scene;

    (void)state;
    make_rows(rows, 3);
    assert_true(qci_scene_begin(&scene));
    assert_true(qci_plot_lay(rows, 3, "Heath", QC_UNITS_IN, &scene));
    assert_int_equal(heights(&scene, QCI_ROLE_SCRAP, 0, scrap), 3);
    assert_int_equal(heights(&scene, QCI_ROLE_PIECE, 0, seams), 3);
    assert_int_equal(heights(&scene, QCI_ROLE_PIECE, 1, buy), 3);
    for (int i = 0; i < 3; i++) {
        assert_true(fabs(scrap[i] / seams[i] - (2 + i) / 4.0) < 1e-6);
        assert_true(fabs(buy[i] / buy[0] - (i + 1)) < 1e-6);
    }
    assert_non_null(find_text(&scene, "Heath"));
    assert_non_null(find_text(&scene, "waste, % of the cloth to buy"));
    assert_non_null(find_text(&scene, "fabric to buy in all, yd"));
    assert_non_null(find_text(&scene, "finished block size, in"));
    assert_non_null(find_text(&scene, "4 *"));
    assert_non_null(find_text(&scene, "12.0"));
    assert_non_null(find_text(&scene, "scrap"));
    qci_scene_clear(&scene);
}

static void quilts_have_names(void **state)
{
    const qc_quilt_size cot = {"cot", QC_M, QC_M};
    qc_compare_row rows[2];
    qci_scene scene;

    (void)state;
    make_rows(rows, 2);
    rows[0].quilt = rows[1].quilt = &cot;
    rows[1].rank = 0; /* failed: no bar */
    assert_true(qci_scene_begin(&scene));
    assert_true(qci_plot_lay(rows, 2, NULL, QC_UNITS_CM, &scene));
    assert_non_null(find_text(&scene, "cot"));
    assert_non_null(find_text(&scene, "failed"));
    assert_non_null(find_text(&scene, "fabric to buy in all, m"));
    assert_null(find_text(&scene, "finished block size, cm"));
    qci_scene_clear(&scene);
}

static bool overlap(const qci_mark *a, const qci_mark *b)
{
    return a->x + 0.01 < b->x + b->w && b->x + 0.01 < a->x + a->w &&
           a->y + 0.01 < b->y + b->h && b->y + 0.01 < a->y + a->h;
}

/* However close the bars stand, and whichever is the best. */
static void texts_do_not_overlap(void **state)
{
    (void)state;
    for (size_t count = 1; count <= MOST; count += 7) {
        qc_compare_row rows[MOST];
        qci_scene scene;

        make_rows(rows, count);
        rows[0].rank = (uint32_t)(count / 2 + 1);
        rows[count / 2].rank = 1;
        assert_true(qci_scene_begin(&scene));
        assert_true(qci_plot_lay(rows, count, "Heath", QC_UNITS_IN, &scene));
        for (size_t i = 0; i < scene.marks.count; i++)
            for (size_t j = 0; j < i; j++) {
                const qci_mark *a = &scene.marks.at[i];
                const qci_mark *b = &scene.marks.at[j];

                if (a->kind == QCI_MARK_TEXT && b->kind == QCI_MARK_TEXT &&
                    a->text[0] && b->text[0] && overlap(a, b))
                    fail_msg("%zu sizes: '%s' overlaps '%s'", count, a->text,
                             b->text);
            }
        qci_scene_clear(&scene);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bars_are_as_high_as_values),
        cmocka_unit_test(quilts_have_names),
        cmocka_unit_test(texts_do_not_overlap),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
