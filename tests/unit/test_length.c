/* Lengths: what is read, what is refused, what is written. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/length.h>

#include "length/ruler.h"
#include "length/units.h"

/* For sums that 64 bits do not hold. */
__extension__ typedef unsigned __int128 wide;

static qc_length read(const char *text, qc_units units)
{
    qc_length length = -77;
    qc_error err;

    qc_error_init(&err);
    if (qc_length_parse(text, units, QC_PARSE_EXACT, &length, &err))
        fail_msg("%s: %s (%s)", text, err.problem, err.allowed);
    return length;
}

static void refuse(const char *text, const char *problem, const char *allowed)
{
    qc_length length = -77;
    qc_error err;

    qc_error_init(&err);
    assert_int_equal(
        qc_length_parse(text, QC_UNITS_IN, QC_PARSE_EXACT, &length, &err),
        QC_STATUS_INVALID);
    assert_int_equal(length, -77);
    if (!strstr(err.problem, problem) || !strstr(err.allowed, allowed))
        fail_msg("\"%s\": %s (%s)", text, err.problem, err.allowed);
}

/* The international yard and pound agreement of 1959: 1 yd = 0.9144 m exactly;
 * so 1 in = 2.54 cm (a yard has 36). */
static void test_yard(void **state)
{
    (void)state;
    assert_int_equal(QC_YARD * 10000, QC_M * 9144);
    assert_int_equal(QC_YARD, 36 * QC_INCH);
    assert_int_equal(read("1 yd", QC_UNITS_IN), read("0.9144 m", QC_UNITS_IN));
    assert_int_equal(read("1 in", QC_UNITS_IN), read("2.54 cm", QC_UNITS_IN));
    /* Arithmetic: 1/64 in = 3 175 units, 1 mm = 8 000, 0.01 in = 2 032. */
    assert_int_equal(read("1/64", QC_UNITS_IN), 3175);
    assert_int_equal(read("1", QC_UNITS_MM), 8000);
    assert_int_equal(read("0.01", QC_UNITS_IN), 2032);
}

/* Eighths of a yard in inches and centimetres: arithmetic from the yard. That a
 * yard measure may show thirds: NIST Handbook 44 (2007), 5.52, S.1. */
static void test_yard_steps(void **state)
{
    static const struct {
        const char *yards, *inches, *centimetres;
    } steps[] = {
        {"1/8 yd", "4.5", "11.43 cm"},  {"1/4 yd", "9", "22.86 cm"},
        {"1/3 yd", "12", "30.48 cm"},   {"3/8 yd", "13.5", "34.29 cm"},
        {"1/2 yd", "18", "45.72 cm"},   {"5/8 yd", "22.5", "57.15 cm"},
        {"2/3 yd", "24", "60.96 cm"},   {"3/4 yd", "27", "68.58 cm"},
        {"7/8 yd", "31.5", "80.01 cm"}, {"1 yd", "36", "91.44 cm"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
        char text[32];
        qc_length length = read(steps[i].inches, QC_UNITS_IN);

        assert_int_equal(read(steps[i].yards, QC_UNITS_IN), length);
        assert_int_equal(read(steps[i].centimetres, QC_UNITS_IN), length);
        qc_length_format_purchase(length, QC_UNITS_IN, text, sizeof text);
        assert_string_equal(text, steps[i].yards);
    }
}

static void test_forms(void **state)
{
    static const char *const two_and_a_half[] = {
        "2 1/2",
        "2-1/2",
        "2½",
        "2 ½",
        "2-½",
        "2.5",
        "2.50000",
        "02.5",
        "5/2",
        "2 1/2 in",
        "2 1/2in",
        "2½\"",
        "2.5″",
        "2.5 inch",
        "2 1/2 inches",
        "63.5 mm",
        "63.5mm",
        "6.35 cm",
        "0.0635 m",
        " 2 1/2 ",
        "5/72 yd",
        "5/72 yard",
        "5/72 yards",
        "\t2.5\t\"",
        "2 32/64",
        "2\xC2\xA0½",
        "2 1∕2",
        "2 1⁄2",
        "2.50000000000000000000000000000000000000000000000000",
    };
    static const struct {
        const char *text;
        qc_length length;
    } others[] = {
        {"1 3/8 yd", QC_YARD * 11 / 8},
        {"1.25 m", QC_M * 5 / 4},
        {"0", 0},
        {".5", QC_INCH / 2},
        {"5.", 5 * QC_INCH},
        {"0/7", 0},
        {"1/127", 1600},
        {"0.000125 mm", 1},
        {"0.000000125 m", 1},
        {"4294.967296 m", QC_LENGTH_MAX},
        {"34359738368/8000000 m", QC_LENGTH_MAX},
        {"000000000000000000000000000000003", 3 * QC_INCH},
    };

    (void)state;
    for (size_t i = 0; i < sizeof two_and_a_half / sizeof *two_and_a_half; i++)
        assert_int_equal(read(two_and_a_half[i], QC_UNITS_IN), 5 * QC_INCH / 2);
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        assert_int_equal(read(others[i].text, QC_UNITS_IN), others[i].length);
    assert_int_equal(read("2.5", QC_UNITS_CM), 25 * QC_MM);
    assert_int_equal(read("2.5 mm", QC_UNITS_CM), 5 * QC_MM / 2);
}

/* Every vulgar fraction of Unicode with its value (Unicode character names,
 * U+00BC to U+00BE and U+2150 to U+215E). 203 200 = 2^6 x 5^2 x 127 has no
 * factor 3 or 7, so those are off the lattice in inches; in yards, thirds,
 * sixths and ninths are on it. */
static void test_vulgar(void **state)
{
    static const struct {
        const char *text;
        int top, bottom;
    } marks[] = {
        {"¼", 1, 4},  {"½", 1, 2}, {"¾", 3, 4}, {"⅐", 1, 7}, {"⅑", 1, 9},
        {"⅒", 1, 10}, {"⅓", 1, 3}, {"⅔", 2, 3}, {"⅕", 1, 5}, {"⅖", 2, 5},
        {"⅗", 3, 5},  {"⅘", 4, 5}, {"⅙", 1, 6}, {"⅚", 5, 6}, {"⅛", 1, 8},
        {"⅜", 3, 8},  {"⅝", 5, 8}, {"⅞", 7, 8},
    };

    (void)state;
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        char text[32];

        if (QC_INCH % marks[i].bottom == 0)
            assert_int_equal(read(marks[i].text, QC_UNITS_IN),
                             QC_INCH / marks[i].bottom * marks[i].top);
        else
            refuse(marks[i].text, "between two lengths", " mm or ");
        if (QC_YARD % marks[i].bottom)
            continue;
        snprintf(text, sizeof text, "3%s yd", marks[i].text);
        assert_int_equal(read(text, QC_UNITS_MM),
                         3 * QC_YARD +
                             QC_YARD / marks[i].bottom * marks[i].top);
    }
}

static void test_refused(void **state)
{
    static const char *const garbage[] = {
        "x",
        "1/",
        "/2",
        "1//2",
        "1/2/3",
        "2 1",
        "2 1 1/2",
        ".",
        "+2",
        "1e3",
        "0x10",
        "inf",
        "nan",
        "2.5.1",
        "2--1/2",
        "2 - 1/2",
        "½½",
        "½2",
        "2 in 3",
        "\"",
        "in",
        "--1",
        "\xE2\x88\x92 2",
        "2.5 1/2",
        "1 / 2",
    };

    (void)state;
    for (size_t i = 0; i < sizeof garbage / sizeof *garbage; i++)
        refuse(garbage[i], "", "");
    refuse("", "is empty", "2 1/2");
    refuse("   ", "is empty", "2 1/2");
    refuse("-2", "is negative", "");
    refuse("-1/2", "is negative", "");
    refuse("6,35 cm", "decimal comma", "");
    refuse("2 feet", "unit", "inches");
    refuse("2 MM", "unit", "mm");
    refuse("2 mmm", "unit", "mm");
    refuse("1/0", "0 below the line", "");
    refuse("2 3/2", "not below 1", "");
    refuse("2 2/2", "not below 1", "");
    refuse("1/1000000000000", "12 digits", "");
    refuse("2\xFF", "UTF-8", "");
    refuse("2\xC2", "UTF-8", "");
    refuse("\xC0\xB2", "UTF-8", "");
    refuse("\xED\xA0\x80", "UTF-8", "");
    refuse("2\n", "", "");
    assert_int_equal(
        qc_length_parse(NULL, QC_UNITS_IN, QC_PARSE_EXACT, NULL, NULL),
        QC_STATUS_INVALID);
}

static void test_too_long(void **state)
{
    char digits[400];

    (void)state;
    memset(digits, '9', sizeof digits - 1);
    digits[sizeof digits - 1] = '\0';
    refuse(digits, "is too long", "4294.967296 m");
    refuse("4294.967296000000000001 m", "is too long", "");
    refuse("4294.967297 m", "is too long", "");
    refuse("9223372036854775807", "is too long", "");
    refuse("18446744073709551617", "is too long", "");
    refuse("170000", "is too long", "");
    refuse("999999999999/1", "is too long", "");
    refuse("4697 1/16 yd", "is too long", "");
}

/* Off the lattice: the nearest two by hand. 1/3 in = 67 733 1/3 units = between
 * 8.466625 and 8.46675 mm, and between 21/64 (0.328) and 11/32 (0.344). */
static void test_between(void **state)
{
    static const char *const up[] = {"1/3", "0.3333333333333333333333333333333",
                                     "⅓", "8.46663 mm", "1/108 yd"};
    qc_length length = 0;

    (void)state;
    refuse("1/3", "between two lengths",
           "8.466625 mm or 8.46675 mm; on a ruler, 21/64 in or 11/32 in");
    refuse("1.00001 cm", "between", "1 cm or 1.0000125 cm");
    refuse("0.1234567891 m", "between", "0.12345675 m or 0.123456875 m");
    refuse("0.00000000000000000000001", "between", "0 mm or 0.000125 mm");
    for (size_t i = 0; i < sizeof up / sizeof *up; i++) {
        assert_int_equal(
            qc_length_parse(up[i], QC_UNITS_IN, QC_PARSE_UP, &length, NULL),
            QC_STATUS_OK);
        assert_int_equal(length, 67734);
    }
    assert_int_equal(
        qc_length_parse("1/2", QC_UNITS_IN, QC_PARSE_UP, &length, NULL), 0);
    assert_int_equal(length, QC_INCH / 2);
    /* Next to the longest: there is none above to round up to. */
    assert_int_equal(qc_length_parse("4294.9672960001 m", QC_UNITS_IN,
                                     QC_PARSE_UP, &length, NULL),
                     QC_STATUS_INVALID);
    assert_int_equal(qc_length_parse("4294.9672959999999 m", QC_UNITS_IN,
                                     QC_PARSE_UP, &length, NULL),
                     QC_STATUS_OK);
    assert_int_equal(length, QC_LENGTH_MAX);
}

static uint64_t seed = 20240229;

static uint32_t next_random(void)
{
    seed = seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (uint32_t)(seed >> 33);
}

/* Fractions and decimals against the same sum in 128 bits. */
static void test_against_wide(void **state)
{
    static const struct {
        const char *name;
        qc_length one;
    } units[] = {{"in", QC_INCH},
                 {"mm", QC_MM},
                 {"cm", QC_CM},
                 {"m", QC_M},
                 {"yd", QC_YARD}};

    (void)state;
    for (int i = 0; i < 100000; i++) {
        uint64_t whole = next_random() % 200, bottom, top;
        wide one = (wide)units[i % 5].one, sum;
        char text[80];
        qc_length up = 0;

        if (i % 2) {
            bottom = next_random() % 300 + 2;
            top = next_random() % bottom;
            snprintf(text, sizeof text, "%d %u/%u %s", (int)whole,
                     (unsigned)top, (unsigned)bottom, units[i % 5].name);
        } else {
            bottom = UINT64_C(1000000000000000);
            top = ((uint64_t)next_random() << 20) % bottom;
            snprintf(text, sizeof text, "%d.%015llu %s", (int)whole,
                     (unsigned long long)top, units[i % 5].name);
        }
        sum = (whole * one * bottom + top * one + bottom - 1) / bottom;
        assert_int_equal(
            qc_length_parse(text, QC_UNITS_IN, QC_PARSE_UP, &up, NULL), 0);
        assert_true((wide)up == sum);
        assert_int_equal(qc_length_parse(text, QC_UNITS_IN, QC_PARSE_EXACT, &up,
                                         NULL) == QC_STATUS_OK,
                         (whole * one * bottom + top * one) % bottom == 0);
    }
}

/* Random bytes, mostly of those that lengths are made of. */
static void test_random_bytes(void **state)
{
    static const char likely[] = "0123456789/.- inchmyd\"\xC2\xBD\xE2\x85\x93";

    (void)state;
    for (int i = 0; i < 200000; i++) {
        char text[24];
        size_t size = next_random() % sizeof text;
        qc_length length = -77;
        qc_error err;

        for (size_t k = 0; k < size; k++)
            text[k] = next_random() % 8
                          ? likely[next_random() % (sizeof likely - 1)]
                          : (char)(next_random() % 256);
        text[size < sizeof text ? size : sizeof text - 1] = '\0';
        qc_error_init(&err);
        if (qc_length_parse(text, QC_UNITS_CM,
                            i % 2 ? QC_PARSE_UP : QC_PARSE_EXACT, &length,
                            &err)) {
            assert_int_equal(length, -77);
            assert_int_equal(err.code, QC_STATUS_INVALID);
            assert_true(err.problem[0] != '\0');
        } else {
            assert_in_range(length, 0, QC_LENGTH_MAX);
            assert_int_equal(err.code, QC_STATUS_OK);
        }
    }
}

static void assert_written(qc_length length, qc_units units, const char *text)
{
    char buffer[48];

    assert_int_equal(qc_length_format(length, units, buffer, sizeof buffer),
                     strlen(text));
    assert_string_equal(buffer, text);
}

static void test_format(void **state)
{
    char small[4];

    (void)state;
    assert_written(9 * QC_INCH / 2, QC_UNITS_IN, "4 1/2");
    assert_written(4 * QC_INCH, QC_UNITS_IN, "4");
    assert_written(QC_INCH / 2, QC_UNITS_IN, "1/2");
    assert_written(QC_INCH / 64, QC_UNITS_IN, "1/64");
    assert_written(QC_INCH + 3175 * 63, QC_UNITS_IN, "1 63/64");
    assert_written(2032 * 453, QC_UNITS_IN, "4.53");
    assert_written(203200 * 41 / 10, QC_UNITS_IN, "4.1");
    assert_written(127, QC_UNITS_IN, "0.000625");
    assert_written(0, QC_UNITS_IN, "0");
    assert_written(0, QC_UNITS_MM, "0");
    assert_written(-QC_INCH / 4, QC_UNITS_IN, "-1/4");
    /* 1 cm = 50/127 in = 0.39370...; 2 m = 78.7401...: no end. */
    assert_written(QC_CM, QC_UNITS_IN,
                   "\xE2\x89\x88"
                   "0.3937");
    assert_written(2 * QC_M, QC_UNITS_IN,
                   "\xE2\x89\x88"
                   "78.7402");
    assert_written(QC_INCH - 1, QC_UNITS_IN,
                   "\xE2\x89\x88"
                   "1");
    assert_written(QC_INCH, QC_UNITS_CM, "2.54");
    assert_written(QC_INCH, QC_UNITS_MM, "25.4");
    assert_written(QC_INCH / 64, QC_UNITS_MM, "0.396875");
    assert_written(1, QC_UNITS_CM, "0.0000125");
    assert_written(102 * QC_CM, QC_UNITS_CM, "102");
    assert_written(QC_LENGTH_MAX, QC_UNITS_MM, "4294967.296");
    assert_written(INT64_MIN, QC_UNITS_MM, "-1152921504606846.976");
    assert_int_equal(
        qc_length_format(9 * QC_INCH / 2, QC_UNITS_IN, small, sizeof small), 5);
    assert_string_equal(small, "4 1");
    assert_int_equal(qc_length_format(9 * QC_INCH / 2, QC_UNITS_IN, NULL, 0),
                     5);
}

static void test_purchase_text(void **state)
{
    static const struct {
        qc_length length;
        qc_units units;
        const char *text;
    } rows[] = {
        {QC_YARD * 7 / 2, QC_UNITS_IN, "3 1/2 yd"},
        {QC_YARD * 7 / 3, QC_UNITS_IN, "2 1/3 yd"},
        {QC_YARD * 2, QC_UNITS_IN, "2 yd"},
        {QC_YARD / 8, QC_UNITS_IN, "1/8 yd"},
        {0, QC_UNITS_IN, "0 yd"},
        {QC_YARD * 11 / 10, QC_UNITS_IN, "1.1 yd"},
        {41 * QC_INCH, QC_UNITS_IN, "41 in"},
        {120 * QC_CM, QC_UNITS_IN, "1.2 m"},
        {135 * QC_CM, QC_UNITS_CM, "1.35 m"},
        {10 * QC_CM, QC_UNITS_MM, "0.1 m"},
        {3 * QC_M, QC_UNITS_CM, "3 m"},
        {QC_YARD, QC_UNITS_CM, "0.9144 m"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[48];
        int n = qc_length_format_purchase(rows[i].length, rows[i].units, text,
                                          sizeof text);

        assert_string_equal(text, rows[i].text);
        assert_int_equal(n, strlen(rows[i].text));
    }
}

static void assert_round_trip(qc_length length, qc_units units)
{
    char text[48];

    qc_length_format(length, units, text, sizeof text);
    assert_int_equal(read(text, units), length);
    qc_length_format_purchase(length, units, text, sizeof text);
    assert_int_equal(read(text, units), length);
}

static void test_round_trips(void **state)
{
    (void)state;
    for (qc_length n = 0; n < 64 * 200; n++) {
        assert_round_trip(n * (QC_INCH / 64), QC_UNITS_IN);
        assert_round_trip(n * (QC_INCH / 64), QC_UNITS_CM);
        assert_round_trip(n * (QC_INCH / 100), QC_UNITS_IN);
    }
    for (qc_length n = 0; n < 30000; n++) {
        assert_round_trip(n * (QC_MM / 10), QC_UNITS_MM);
        assert_round_trip(n * (QC_MM / 10), QC_UNITS_CM);
        assert_round_trip(n, QC_UNITS_MM);
        assert_round_trip(QC_LENGTH_MAX - n, QC_UNITS_CM);
        assert_round_trip(n * (QC_YARD / 24), QC_UNITS_IN);
    }
}

static void test_values(void **state)
{
    (void)state;
    assert_true(qc_length_value(42 * QC_INCH, QC_UNITS_IN) == 42.0);
    assert_true(qc_length_value(9 * QC_INCH / 2, QC_UNITS_IN) == 4.5);
    assert_true(qc_length_value(QC_INCH, QC_UNITS_CM) == 2.54);
    assert_true(qc_length_value(QC_INCH, QC_UNITS_MM) == 25.4);
}

static void test_ruler(void **state)
{
    qc_length eighth = QC_INCH / 8;

    (void)state;
    assert_int_equal(qci_ruler_up(0, eighth), 0);
    assert_int_equal(qci_ruler_up(1, eighth), eighth);
    assert_int_equal(qci_ruler_up(eighth, eighth), eighth);
    assert_int_equal(qci_ruler_up(eighth + 1, eighth), 2 * eighth);
    assert_int_equal(qci_ruler_up(QC_LENGTH_MAX, QC_LENGTH_MAX), QC_LENGTH_MAX);
    assert_int_equal(qci_ruler_up(12345, 1), 12345);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_yard),
        cmocka_unit_test(test_yard_steps),
        cmocka_unit_test(test_forms),
        cmocka_unit_test(test_vulgar),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_too_long),
        cmocka_unit_test(test_between),
        cmocka_unit_test(test_against_wide),
        cmocka_unit_test(test_random_bytes),
        cmocka_unit_test(test_format),
        cmocka_unit_test(test_purchase_text),
        cmocka_unit_test(test_round_trips),
        cmocka_unit_test(test_values),
        cmocka_unit_test(test_ruler),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
