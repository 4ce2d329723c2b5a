/* The base room: error record, texts, arrays, nearest words, UTF-8. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/status.h>

#include "base/alloc.h"
#include "base/clock.h"
#include "base/error.h"
#include "base/known.h"
#include "base/nearest.h"
#include "base/text.h"
#include "base/utf8.h"
#include "base/vec.h"

static void test_known(void **state)
{
    struct {
        uint32_t struct_size;
        unsigned char bytes[12];
    } given = {.bytes = {1, 2, 3}}, known;
    qc_error err;

    (void)state;
    for (uint32_t size = 0; size <= sizeof given; size++) {
        qc_status status;

        qc_error_init(&err);
        memset(&known, 9, sizeof known);
        given.struct_size = size;
        status = qci_take_known(&given, 4, &known, 6, "options.size", &err);
        if (size < 4 || size > 6) { /* too short; a third byte that is set */
            assert_int_equal(status, QC_STATUS_INVALID);
            assert_string_equal(err.field, "options.size");
            assert_int_equal(known.bytes[0], 9);
            continue;
        }
        assert_int_equal(status, QC_STATUS_OK);
        assert_int_equal(known.bytes[0], size > 4 ? 1 : 9);
        assert_int_equal(known.bytes[1], size > 5 ? 2 : 9);
        assert_int_equal(known.bytes[2], 9);
    }
    given.bytes[2] = 0; /* news that ask for nothing */
    assert_int_equal(qci_take_known(&given, 4, &known, 6, "size", NULL),
                     QC_STATUS_OK);
    assert_int_equal(known.bytes[1], 2);
    assert_int_equal(known.bytes[2], 9);
}

static void test_nearest(void **state)
{
    static const char *const known[] = {"fabrics", "pieces", "units", "ruler",
                                        "seam",    "title",  "A"};
    static const struct {
        const char *word, *nearest;
    } rows[] = {
        {"pieces", "pieces"},
        {"peices", "pieces"},
        {"piece", "pieces"},
        {"PIECES", "pieces"},
        {"fabric", "fabrics"},
        {"fabrcis", "fabrics"},
        {"unit", "units"},
        {"rulers", "ruler"},
        {"seem", "seam"},
        {"saem", "seam"},
        {"a", "A"},
        {"colour", NULL},
        {"B", NULL},
        {"", NULL},
        {"x", NULL},
        {"fribacs", NULL},
    };
    char huge[1000];

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *got = qci_nearest(rows[i].word, known, 7);

        if (!rows[i].nearest)
            assert_null(got);
        else
            assert_string_equal(got, rows[i].nearest);
    }
    memset(huge, 'a', sizeof huge - 1);
    huge[sizeof huge - 1] = '\0';
    assert_null(qci_nearest(huge, known, 7));
    huge[200] = '\0';
    assert_null(qci_nearest(huge, known, 7));
    assert_null(qci_nearest("pieces", known, 0));
}

/* Well-formed and ill-formed sequences after RFC 3629, sections 3, 4 and 10. */
static void test_utf8(void **state)
{
    static const char *const good[] = {
        "",
        "Night blue",
        "caf\xC3\xA9",
        "\xE2\x82\xAC",
        "\xED\x9F\xBF",
        "\xEE\x80\x80",
        "\xF0\x90\x80\x80",
        "\xF4\x8F\xBF\xBF",
        "\xC2\x80\xDF\xBF\xE0\xA0\x80",
    };
    static const char *const bad[] = {
        "\x80",
        "\xBF",
        "\xC0\x80",
        "\xC1\xBF",
        "\xC3",
        "\xC3(",
        "\xE0\x80\x80",
        "\xE0\x9F\xBF",
        "\xED\xA0\x80",
        "\xED\xBF\xBF",
        "\xE2\x82",
        "\xE2(\xA1",
        "\xE2\x82(",
        "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80",
        "\xF5\x80\x80\x80",
        "\xF0\x90\x80",
        "\xFE",
        "\xFF",
        "a\xFF",
    };

    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        assert_true(qci_utf8_valid(good[i], strlen(good[i])));
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_false(qci_utf8_valid(bad[i], strlen(bad[i])));
    assert_true(qci_utf8_valid("a\0b", 3));
    assert_false(qci_utf8_valid("\xC3\xA9", 1));
    assert_true(qci_utf8_is_control("\x1B", 1));
    assert_true(qci_utf8_is_control("\x7F", 1));
    assert_true(qci_utf8_is_control("\xC2\x9B", 2));
    assert_false(qci_utf8_is_control("\xC2\xA0", 2));
    assert_false(qci_utf8_is_control("\xC2", 1));
    assert_false(qci_utf8_is_control("", 0));
    /* Unicode Standard Annex 9, table of explicit formatting characters, and
     * the separators of section 23.2 (from memory). */
    assert_false(qci_utf8_is_layout("\xE2\x80\xA7", 3)); /* 2027 */
    assert_true(qci_utf8_is_layout("\xE2\x80\xA8", 3));  /* 2028 */
    assert_true(qci_utf8_is_layout("\xE2\x80\xAE", 3));  /* 202E */
    assert_false(qci_utf8_is_layout("\xE2\x80\xAF", 3)); /* 202F */
    assert_false(qci_utf8_is_layout("\xE2\x81\xA5", 3)); /* 2065 */
    assert_true(qci_utf8_is_layout("\xE2\x81\xA6", 3));  /* 2066 */
    assert_true(qci_utf8_is_layout("\xE2\x81\xA9", 3));  /* 2069 */
    assert_false(qci_utf8_is_layout("\xE2\x81\xAA", 3)); /* 206A */
    assert_false(qci_utf8_is_layout("\xE2\x80", 2));
    assert_true(qci_utf8_is_control("\xE2\x80\xAE", 3));
    /* The Unicode Standard, section 23.7: 66 noncharacters (from memory). */
    assert_true(qci_utf8_is_noncharacter("\xEF\xBF\xBE", 3));      /* FFFE */
    assert_true(qci_utf8_is_noncharacter("\xEF\xBF\xBF", 3));      /* FFFF */
    assert_true(qci_utf8_is_noncharacter("\xEF\xB7\x90", 3));      /* FDD0 */
    assert_true(qci_utf8_is_noncharacter("\xEF\xB7\xAF", 3));      /* FDEF */
    assert_true(qci_utf8_is_noncharacter("\xF0\x9F\xBF\xBE", 4));  /* 1FFFE */
    assert_true(qci_utf8_is_noncharacter("\xF4\x8F\xBF\xBF", 4));  /* 10FFFF */
    assert_false(qci_utf8_is_noncharacter("\xEF\xBF\xBD", 3));     /* FFFD */
    assert_false(qci_utf8_is_noncharacter("\xEF\xB7\x8F", 3));     /* FDCF */
    assert_false(qci_utf8_is_noncharacter("\xEF\xB7\xB0", 3));     /* FDF0 */
    assert_false(qci_utf8_is_noncharacter("\xF0\x90\x80\x80", 4)); /* 10000 */
    assert_false(qci_utf8_is_noncharacter("\xEF\xBF", 2));
}

static void test_error_line(void **state)
{
    qc_error err;
    char line[200];
    int n;

    (void)state;
    qc_error_init(&err);
    assert_int_equal(err.struct_size, sizeof err);
    assert_int_equal(qci_fail(&err, QC_STATUS_INVALID,
                              (qci_place){"pieces[3].cut[0]", "1/3"}, "21/64",
                              "lies %s", "between"),
                     QC_STATUS_INVALID);
    err.line = 7;
    err.column = 31;
    n = qc_error_format(&err, "job.json", line, sizeof line);
    assert_string_equal(line, "job.json:7:31: pieces[3].cut[0]: 1/3: lies "
                              "between (allowed: 21/64)");
    assert_int_equal(n, strlen(line));
    assert_int_equal(qc_error_format(&err, "job.json", line, 9), n);
    assert_string_equal(line, "job.json");
    assert_int_equal(qc_error_format(&err, "job.json", NULL, 0), n);
    /* Neither the terminal nor the reading order obeys what is shown. */
    n = qc_error_format(&err,
                        "a\x1B\xC2\x9B\xE2\x80\xAE"
                        "b\xC3\xA9",
                        line, sizeof line);
    assert_string_equal(line,
                        "a??????b\xC3\xA9:7:31: pieces[3].cut[0]: 1/3: lies "
                        "between (allowed: 21/64)");
    assert_int_equal(n, strlen(line));
    /* The first error stays. */
    qci_fail(&err, QC_STATUS_SOLVER, (qci_place){NULL, NULL}, NULL, "later");
    assert_int_equal(err.code, QC_STATUS_INVALID);
    assert_string_equal(err.problem, "lies between");
    /* Parts that are empty leave no trace. */
    qc_error_init(&err);
    assert_int_equal(qci_no_memory(&err), QC_STATUS_NO_MEMORY);
    qc_error_format(&err, NULL, line, sizeof line);
    assert_string_equal(line, "out of memory");
    assert_int_equal(qci_no_memory(NULL), QC_STATUS_NO_MEMORY);
}

static void test_error_texts(void **state)
{
    char huge[3000];
    char line[800];
    qc_error err;

    (void)state;
    /* Cut off between two characters, with dots. */
    for (size_t i = 0; i + 2 < sizeof huge; i += 2)
        memcpy(huge + i, "\xC3\xA9", 2);
    huge[sizeof huge - 2] = '\0';
    qc_error_init(&err);
    qci_fail(&err, QC_STATUS_INVALID, (qci_place){huge, huge + 2}, huge, "%s",
             huge);
    assert_true(strlen(err.value) < sizeof err.value);
    assert_true(strlen(err.value) > sizeof err.value - 6);
    assert_string_equal(err.value + strlen(err.value) - 3, "...");
    assert_true(qci_utf8_valid(err.value, strlen(err.value)));
    assert_true(qci_utf8_valid(err.problem, strlen(err.problem)));
    assert_true(strlen(err.problem) > sizeof err.problem - 6);
    /* Just as long as there is room. */
    memset(huge, 'x', sizeof err.value - 1);
    huge[sizeof err.value - 1] = '\0';
    qc_error_init(&err);
    qci_fail(&err, QC_STATUS_INVALID, (qci_place){NULL, huge}, NULL, "p");
    assert_string_equal(err.value, huge);
    /* Bytes that are no UTF-8, and what commands a terminal. */
    qc_error_init(&err);
    qci_fail(&err, QC_STATUS_INVALID,
             (qci_place){NULL, "a\xFF"
                               "b\x1B[2J\xC2\x9B"
                               "c\xC3"},
             NULL, "p");
    qc_error_format(&err, NULL, line, sizeof line);
    assert_string_equal(line, "a?b?[2J??c?: p");
}

static void test_status_texts(void **state)
{
    (void)state;
    for (int i = 0; i <= QC_STATUS_REJECTED; i++)
        assert_string_not_equal(qc_status_text((qc_status)i), "unknown status");
    assert_string_equal(qc_status_text((qc_status)99), "unknown status");
}

static void test_text(void **state)
{
    qci_text text = {0};
    char *taken;

    (void)state;
    for (int i = 0; i < 1000; i++)
        qci_text_printf(&text, "%d,", i % 10);
    qci_text_add(&text, "end", 3);
    assert_int_equal(text.size, 2003);
    taken = qci_text_take(&text);
    assert_int_equal(strlen(taken), 2003);
    assert_memory_equal(taken, "0,1,2,", 6);
    qci_free(taken);
    taken = qci_text_take(&text); /* nothing written: an empty text */
    assert_string_equal(taken, "");
    qci_free(taken);
    qci_alloc_fail_at(1, 1);
    qci_text_printf(&text, "lost");
    qci_text_printf(&text, "lost");
    assert_null(qci_text_take(&text));
    qci_alloc_fail_at(0, 0);
    assert_int_equal(qci_alloc_live(), 0);
}

static void test_vec(void **state)
{
    QCI_VEC(int) list = {0};

    (void)state;
    for (int i = 0; i < 100; i++)
        assert_true(qci_vec_push(&list, i * i));
    assert_int_equal(list.count, 100);
    for (int i = 0; i < 100; i++)
        assert_int_equal(list.at[i], i * i);
    qci_vec_clear(&list);
    qci_alloc_fail_at(1, 0);
    assert_false(qci_vec_push(&list, 1));
    assert_int_equal(list.count, 0);
    qci_alloc_fail_at(0, 0);
    assert_int_equal(qci_alloc_live(), 0);
}

static void test_alloc(void **state)
{
    static const char bytes[] = "abc";
    void *block;

    (void)state;
    assert_null(qci_realloc(NULL, SIZE_MAX / 2, 3));
    assert_null(qci_calloc(SIZE_MAX / 2, 3));
    block = qci_calloc(0, 8);
    assert_non_null(block);
    qci_free(block);
    block = qci_realloc(NULL, 0, 8);
    assert_non_null(block);
    qci_free(block);
    block = qci_copy(bytes, sizeof bytes, 1);
    assert_string_equal(block, bytes);
    qci_free(block);
    qci_free(NULL);
    qci_alloc_fail_at(2, 0);
    block = qci_strdup("a");
    assert_non_null(block);
    assert_null(qci_strdup("b"));
    qci_free(block);
    block = qci_strdup("c");
    assert_non_null(block);
    assert_int_equal(qci_alloc_count(), 3);
    qci_free(block);
    qci_alloc_fail_at(0, 0);
    assert_int_equal(qci_alloc_live(), 0);
}

static void test_clock(void **state)
{
    int64_t before = qci_clock_ms();

    (void)state;
    assert_true(qci_clock_ms() >= before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_known),       cmocka_unit_test(test_nearest),
        cmocka_unit_test(test_utf8),        cmocka_unit_test(test_error_line),
        cmocka_unit_test(test_error_texts), cmocka_unit_test(test_status_texts),
        cmocka_unit_test(test_text),        cmocka_unit_test(test_vec),
        cmocka_unit_test(test_alloc),       cmocka_unit_test(test_clock),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
