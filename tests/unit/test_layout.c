/* Lines and columns of the text plan. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "report/layout.h"

static void expect_wrapped(const char *words, size_t at, const char *wrapped)
{
    qci_text out = {0};

    qci_put_wrapped(&out, at, 2, words);
    assert_string_equal(out.bytes, wrapped);
    qci_text_clear(&out);
}

/* Begun so close to the end of the line that something must give way. */
static void never_tears_a_length_apart(void **state)
{
    (void)state;
    expect_wrapped("set to 4 1/2 in and", 70, "set to\n  4 1/2 in and");
    expect_wrapped("cut 2 1/2 x 4 1/2 in,", 70, "cut\n  2 1/2 x 4 1/2 in,");
    expect_wrapped("strips 3 of strip 12.", 62, "strips 3 of\n  strip 12.");
    expect_wrapped("at 45 degrees up", 70, "at\n  45 degrees up");
    expect_wrapped("is 40 % of it", 70, "is 40 %\n  of it");
    expect_wrapped("a b", 76, "a\n  b");
    expect_wrapped("a b", 75, "a b");
    expect_wrapped("12345", 76, "\n  12345");
}

static void counts_columns_as_a_terminal_does(void **state)
{
    (void)state;
    assert_int_equal(qci_display_width("abc", 3), 3);
    assert_int_equal(qci_display_width("\xC2\xBD", 2), 1);
    assert_int_equal(qci_display_width("e\xCC\x81", 3), 1);
    /* UAX 11: U+7D79 and U+1F9F5 are wide. */
    assert_int_equal(qci_display_width("\xE7\xB5\xB9", 3), 2);
    assert_int_equal(qci_display_width("\xF0\x9F\xA7\xB5", 4), 2);
}

static void expect_table(qci_table *table, const char *written)
{
    qci_text out = {0};

    qci_table_put(table, &out, 2);
    assert_string_equal(out.bytes, written);
    assert_int_equal(table->cells.size, 0);
    qci_text_clear(&out);
}

static void sets_columns_under_each_other(void **state)
{
    static const char *const cells[] = {"a", "1",        "x",   "bcd", "22",
                                        "",  "\xC3\xA9", "333", "y z"};
    qci_table table = {.align = "lrl"};

    (void)state;
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++)
        qci_table_add(&table, "%s", cells[i]);
    expect_table(&table, "  a      1  x\n"
                         "  bcd   22\n"
                         "  \xC3\xA9    333  y z\n");
}

/* A cell too wide for its column pushes the others to the next line. */
static void breaks_the_row_after_a_wide_cell(void **state)
{
    qci_table table = {.align = "ll"};

    (void)state;
    qci_table_add(&table, "a name of more than 24 columns");
    qci_table_add(&table, "value");
    qci_table_add(&table, "short");
    qci_table_add(&table, "other");
    expect_table(&table, "  a name of more than 24 columns\n"
                         "         value\n"
                         "  short  other\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(never_tears_a_length_apart),
        cmocka_unit_test(counts_columns_as_a_terminal_does),
        cmocka_unit_test(sets_columns_under_each_other),
        cmocka_unit_test(breaks_the_row_after_a_wide_cell),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
