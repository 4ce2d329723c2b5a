/* Finding values in JSON text. Expected places are found with strstr() on a
 * text in which every value searched for occurs once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "json/locate.h"
#include "json/scan.h"

static const char text[] = "{\n"
                           "  \"a\": {\"b\": [10, {\"c\": 11}, [12, 13]],\n"
                           "  \"\\u0063\\u00fct\\ud83e\\udea1\\n\": 14},\n"
                           "\t\"list\": [ ], \"empty\": {},\n"
                           "  \"quo\\\"te\": 15, \"tricky\": \"}]:,{[\",\n"
                           "  \"last\": [\"x\", true, null, -1.5e3]\n"
                           "}\n";

static qci_spot find(const char *path, int *depth)
{
    char copy[128];
    qci_json_path steps;

    snprintf(copy, sizeof copy, "%s", path);
    assert_true(qci_json_path_split(copy, &steps));
    *depth = steps.depth;
    return qci_locate(text, sizeof text - 1, &steps);
}

static void expect_found(const char *path, const char *value)
{
    int depth;
    qci_spot spot = find(path, &depth);
    const char *at = strstr(text, value);

    assert_int_equal(spot.matched, depth);
    assert_int_equal(spot.start, at - text);
    assert_int_equal(spot.end, at - text + (ptrdiff_t)strlen(value));
}

static void values_are_found(void **state)
{
    (void)state;
    expect_found("a.b[0]", "10");
    expect_found("a.b[1].c", "11");
    expect_found("a.b[1]", "{\"c\": 11}");
    expect_found("a.b[2]", "[12, 13]");
    expect_found("a.b[2][1]", "13");
    expect_found("list", "[ ]");
    expect_found("empty", "{}");
    expect_found("tricky", "\"}]:,{[\"");
    expect_found("last[2]", "null");
    expect_found("last[3]", "-1.5e3");
}

static void keys_are_compared_as_they_mean(void **state)
{
    (void)state;
    /* c, u with diaeresis, t, U+1FAA1 (sewing needle), line feed */
    expect_found("a.c\xC3\xBCt\xF0\x9F\xAA\xA1\n", "14");
    expect_found("quo\"te", "15");
}

static void what_is_missing_has_the_place_of_what_is_round_it(void **state)
{
    static const struct {
        const char *path, *inside;
        int matched;
    } cases[] = {
        {"a.b[3]", "[10", 2},    {"a.b[1].d", "{\"c\"", 3},
        {"a.x", "{\"b\"", 1},    {"list[0]", "[ ]", 1},
        {"empty.x", "{}", 1},    {"x", "{", 0},
        {"last[0].a", "\"x", 2}, {"a[0]", "{\"b\"", 1},
        {"list.x", "[ ]", 1},
    };
    int depth;

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qci_spot spot = find(cases[i].path, &depth);

        assert_int_equal(spot.matched, cases[i].matched);
        assert_int_equal(spot.start, strstr(text, cases[i].inside) - text);
    }
}

static void lines_and_columns_count_bytes_from_one(void **state)
{
    static const char lines[] = "a\n\xC3\xBC\xC3\xBC b\r\n\n  c";
    static const struct {
        char what;
        uint32_t line, column;
    } cases[] = {{'a', 1, 1}, {'b', 2, 6}, {'c', 4, 3}};

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        uint32_t line, column;

        qci_line_column(lines, (size_t)(strchr(lines, cases[i].what) - lines),
                        &line, &column);
        assert_int_equal(line, cases[i].line);
        assert_int_equal(column, cases[i].column);
    }
}

static void texts_that_are_no_paths_are_refused(void **state)
{
    static const char *const bad[] = {"",
                                      ".",
                                      "a.",
                                      "a..b",
                                      "a[",
                                      "a[]",
                                      "a[x]",
                                      "a[1",
                                      "a[1]b",
                                      "[1",
                                      "a[-1]",
                                      "a[9999999999]",
                                      "a.b.c.d.e.f.g.h.i"};
    char copy[64];
    qci_json_path path;

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        snprintf(copy, sizeof copy, "%s", bad[i]);
        assert_false(qci_json_path_split(copy, &path));
    }
}

static void paths_are_written_as_they_are_read(void **state)
{
    char copy[] = "pieces[3].cut[0]", out[32], small[8];
    qci_json_path path;

    (void)state;
    assert_true(qci_json_path_split(copy, &path));
    qci_json_path_text(&path, out, sizeof out);
    assert_string_equal(out, "pieces[3].cut[0]");
    qci_json_path_text(&path, small, sizeof small);
    assert_string_equal(small, "pieces[");
}

/* Nesting costs no stack, and time grows with the length only: a text of
 * 8 MiB is walked in well under the seconds that a square would take. */
static void deep_and_long_texts_are_walked_in_one_pass(void **state)
{
    size_t half = 4 << 20, size;
    char *deep = malloc(2 * half + 64);
    qci_json_path path = {{{"z", 0}}, 1};
    clock_t begin = clock();
    qci_spot spot;

    (void)state;
    assert_non_null(deep);
    strcpy(deep, "{\"a\":");
    memset(deep + 5, '[', half);
    memset(deep + 5 + half, ']', half);
    strcpy(deep + 5 + 2 * half, ",\"z\":7}");
    size = strlen(deep);
    spot = qci_locate(deep, size, &path);
    assert_int_equal(spot.matched, 1);
    assert_int_equal(spot.start, size - 2);
    assert_true((double)(clock() - begin) / CLOCKS_PER_SEC < 5);
    free(deep);
}

/* Any bytes may follow; nothing is read outside them (seen by ASan). */
static void every_cut_and_every_byte_is_harmless(void **state)
{
    size_t size = sizeof text - 1;
    qci_json_path path = {{{"last", 0}, {NULL, 3}}, 2};

    (void)state;
    for (size_t i = 0; i < size; i++) {
        for (int c = -1; c < 128; c++) {
            char *copy = malloc(c >= 0 ? size : i ? i : 1);
            qci_spot spot;

            assert_non_null(copy);
            memcpy(copy, text, c < 0 ? i : size);
            if (c >= 0)
                copy[i] = (char)c;
            spot = qci_locate(copy, c < 0 ? i : size, &path);
            assert_true(spot.start <= spot.end);
            assert_true(spot.end <= (c < 0 ? i : size));
            free(copy);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_are_found),
        cmocka_unit_test(keys_are_compared_as_they_mean),
        cmocka_unit_test(what_is_missing_has_the_place_of_what_is_round_it),
        cmocka_unit_test(lines_and_columns_count_bytes_from_one),
        cmocka_unit_test(texts_that_are_no_paths_are_refused),
        cmocka_unit_test(paths_are_written_as_they_are_read),
        cmocka_unit_test(deep_and_long_texts_are_walked_in_one_pass),
        cmocka_unit_test(every_cut_and_every_byte_is_harmless),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
