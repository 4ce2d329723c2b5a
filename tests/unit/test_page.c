/* The printed page of a chart: every value of every row, cautions on each page,
 * sizes that stay together, and texts that neither overlap nor leave the
 * paper. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/caution.h"
#include "draw/page.h"

#define MOST 60
#define HEIGHT 612.0 /* Letter across, in points */
#define MARGIN 36.0

/* Rows of three pieces a size. */
static void make_rows(qc_chart_row *rows, size_t count, const char *piece)
{
    memset(rows, 0, count * sizeof *rows);
    for (size_t i = 0; i < count; i++)
        rows[i] = (qc_chart_row){.size = ((qc_length)(i / 3) + 3) * QC_INCH,
                                 .on_ruler = i / 3 == 1,
                                 .first_of_size = i % 3 == 0,
                                 .first_of_fabric = i % 3 < 2,
                                 .piece = piece,
                                 .fabric = i % 3 ? "rain" : "moss",
                                 .count = (int64_t)i + 100,
                                 .strip = QC_INCH * 5 / 2,
                                 .across = QC_INCH * 7 / 2,
                                 .lean = QC_INCH * 9 / 8,
                                 .yields = 4,
                                 .each_strip = 77,
                                 .excess_strip = QC_INCH / 8,
                                 .excess_across = QC_INCH / 4,
                                 .trim_to = QC_INCH * 13 / 2,
                                 .strips = 55,
                                 .bought = QC_YARD * 5 / 8};
}

static void lay(qc_chart_row *rows, size_t count, const qc_block *block,
                qci_scene *scene)
{
    assert_true(qci_scene_begin(scene));
    assert_true(qci_page_lay(rows, count, block, "Heath", QC_UNITS_IN, scene));
}

static const qci_mark *text_at(const qci_scene *scene, size_t i)
{
    const qci_mark *mark = &scene->marks.at[i];

    return mark->kind == QCI_MARK_TEXT ? mark : NULL;
}

/* How often a text stands there whole, from one height to another. */
static size_t times(const qci_scene *scene, const char *text, double from,
                    double to)
{
    size_t n = 0;

    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *mark = text_at(scene, i);

        n += mark && strcmp(mark->text, text) == 0 && mark->y >= from &&
             mark->y < to;
    }
    return n;
}

static void every_value_stands_there(void **state)
{
    static const struct {
        const char *text;
        size_t times;
    } wanted[] = {
        {"3", 1},     {"4", 7},       {"=", 1},          {"moss", 2},
        {"rain", 4},  {"100", 1},     {"105", 1},        {"2 1/2", 6},
        {"3 1/2", 6}, {"1 1/8", 6},   {"77", 6},         {"0.125", 6},
        {"0.250", 6}, {"6 1/2", 6},   {"55", 4},         {"5/8 yd", 4},
        {"Heath", 1}, {"heath A", 6}, {"page 1 of 1", 1}};
    qc_chart_row rows[6];
    qci_scene scene;

    (void)state;
    make_rows(rows, 6, "heath A");
    lay(rows, 6, NULL, &scene);
    assert_true(scene.height == HEIGHT && scene.page == HEIGHT);
    for (size_t i = 0; i < sizeof wanted / sizeof *wanted; i++)
        if (times(&scene, wanted[i].text, 0, HEIGHT) != wanted[i].times)
            fail_msg("%s", wanted[i].text);
    qci_scene_clear(&scene);
}

static bool overlap(const qci_mark *a, const qci_mark *b)
{
    return a->x + 0.01 < b->x + b->w && b->x + 0.01 < a->x + a->w &&
           a->y + 0.01 < b->y + b->h && b->y + 0.01 < a->y + a->h;
}

static void expect_apart(const qci_scene *scene)
{
    for (size_t i = 0; i < scene->marks.count; i++) {
        const qci_mark *a = text_at(scene, i);

        if (!a)
            continue;
        if (a->x < MARGIN - 0.01 || a->x + a->w > scene->width - MARGIN + 0.01)
            fail_msg("'%s' leaves the paper", a->text);
        for (size_t j = 0; j < i; j++) {
            const qci_mark *b = text_at(scene, j);

            if (b && overlap(a, b))
                fail_msg("'%s' overlaps '%s'", a->text, b->text);
        }
    }
}

/* However many rows, and however long their names. */
static void texts_stay_apart(void **state)
{
    static const char *const names[] = {
        "a", "a piece whose name is longer than any paper is wide, so that it "
             "has to be cut short, however much room other columns leave it "
             "on the page that is printed here, and however it is set"};
    qc_block *block = NULL;

    (void)state;
    assert_int_equal(qc_block_find("nine patch", QC_INCH, &block, NULL), 0);
    for (size_t count = 3; count <= MOST; count += 19)
        for (int i = 0; i < 4; i++) {
            qc_chart_row rows[MOST];
            qci_scene scene;

            make_rows(rows, count, names[i % 2]);
            lay(rows, count, i < 2 ? block : NULL, &scene);
            expect_apart(&scene);
            qci_scene_clear(&scene);
        }
    qc_block_destroy(block);
}

/* Every page is whole: headings, cautions, and whole sizes. */
static void pages_stand_alone(void **state)
{
    qc_chart_row rows[MOST];
    qci_scene scene;
    int pages;

    (void)state;
    make_rows(rows, MOST, "heath A");
    lay(rows, MOST, NULL, &scene);
    pages = (int)(scene.height / HEIGHT + 0.5);
    assert_true(pages > 1);
    for (int i = 0; i < pages; i++) {
        double from = i * HEIGHT, to = from + HEIGHT;
        char number[32];

        assert_int_equal(times(&scene, "cuts apart", from, to), 1);
        for (int c = 0; c < QCI_CAUTION_COUNT; c++)
            assert_int_equal(times(&scene, qci_cautions[c], from, to), 1);
        snprintf(number, sizeof number, "page %d of %d", i + 1, pages);
        assert_int_equal(times(&scene, number, from, to), 1);
        assert_int_equal(times(&scene, "heath A", from, to) % 3, 0);
    }
    assert_int_equal(times(&scene, "heath A", 0, scene.height), MOST);
    qci_scene_clear(&scene);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_value_stands_there),
        cmocka_unit_test(texts_stay_apart),
        cmocka_unit_test(pages_stand_alone),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
