/* Jobs from JSON: that every field arrives, that numbers are exact, and that
 * nothing breaks the reader. What wrong jobs are answered with is held by
 * tests/golden/bad. */
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>
#include <jansson.h>

#include <quiltcut/quiltcut.h>

#include "base/alloc.h"
#include "job/job.h"
#include "json/number.h"

/* Every field that the form has. */
static const char full[] =
    "{\"quiltcut\": 1, \"title\": \"Tide pools\", \"units\": \"in\",\n"
    " \"ruler\": \"1/4\", \"seam\": 0.25,\n"
    " \"fabrics\": [\n"
    "  {\"id\": \"kelp\", \"name\": \"Kelp green\", \"width\": \"42\",\n"
    "   \"print\": \"two-way\", \"step\": \"1/3 yd\", \"square_up\": \"3/4\",\n"
    "   \"shrink\": {\"length\": 3.25}, \"price\": 13.4567},\n"
    "  {\"id\": \"foam\", \"raw_width\": \"112 cm\",\n"
    "   \"shrink\": {\"width\": 2}, \"price\": 9}],\n"
    " \"pieces\": [\n"
    "  {\"id\": \"A\", \"fabric\": \"foam\", \"shape\": \"rectangle\",\n"
    "   \"cut\": [\"2 1/2\", 4.5], \"count\": 48, \"grain\": \"crosswise\"},\n"
    "  {\"id\": \"B\", \"fabric\": \"kelp\", \"shape\": \"square\",\n"
    "   \"finished\": 1.7574, \"trim\": \"1/8\", \"count\": 1e2}],\n"
    " \"options\": {\"objective\": [\"money\", \"used\", \"leftover\"],\n"
    "  \"stages\": 2, \"trim\": false, \"keep\": \"2\", \"layers\": 6,\n"
    "  \"spare\": \"2.5 %\", \"time_limit\": 1.5}}";

static qc_job *parse(const char *text)
{
    qc_job *job = NULL;
    qc_error err;

    qc_error_init(&err);
    if (qc_job_parse(text, strlen(text), &job, &err))
        fail_msg("%u:%u: %s: %s", err.line, err.column, err.field, err.problem);
    return job;
}

static void every_field_arrives(void **state)
{
    qc_job *job = parse(full);
    const qci_fabric *kelp = &job->fabrics[0], *foam = &job->fabrics[1];
    const qci_piece *a = &job->pieces[0], *b = &job->pieces[1];

    (void)state;
    assert_string_equal(job->title, "Tide pools");
    assert_int_equal(job->units, QC_UNITS_IN);
    assert_int_equal(job->ruler, QC_INCH / 4);
    assert_int_equal(job->seam, QC_INCH / 4);
    assert_int_equal(job->fabric_count, 2);
    assert_string_equal(kelp->id, "kelp");
    assert_string_equal(kelp->name, "Kelp green");
    assert_int_equal(kelp->width, 42 * QC_INCH);
    assert_int_equal(kelp->print, QC_PRINT_TWO_WAY);
    assert_int_equal(kelp->step, QC_YARD / 3);
    assert_int_equal(kelp->square_up, QC_INCH * 3 / 4);
    assert_int_equal(kelp->shrink_length, 325);
    assert_int_equal(kelp->price, 134567);
    assert_string_equal(foam->name, "foam");
    assert_int_equal(foam->width, 112 * QC_CM * 98 / 100);
    assert_int_equal(foam->price, 90000);
    assert_int_equal(job->piece_count, 2);
    assert_int_equal(a->fabric, 1);
    assert_int_equal(a->shape, QC_SHAPE_RECTANGLE);
    assert_int_equal(a->cut[0], QC_INCH * 5 / 2);
    assert_int_equal(a->cut[1], QC_INCH * 9 / 2);
    assert_int_equal(a->grain, QC_GRAIN_CROSSWISE);
    assert_int_equal(a->count, 50); /* 48 and 2.5 %, rounded up */
    assert_int_equal(a->spares, 2);
    assert_int_equal(b->shape, QC_SHAPE_SQUARE);
    /* 1.7574 + 1/2 + 1/8 = 2.3824, on a ruler of quarters 2 1/2 */
    assert_int_equal(b->cut[0], QC_INCH * 5 / 2);
    assert_true(b->rounded);
    assert_int_equal(b->trim, QC_INCH / 8);
    assert_int_equal(b->count, 103);
    assert_int_equal(job->goal_count, 3);
    assert_int_equal(job->goals[0], QC_GOAL_MONEY);
    assert_int_equal(job->goals[1], QC_GOAL_USED);
    assert_int_equal(job->goals[2], QC_GOAL_LEFTOVER);
    assert_int_equal(job->stages, 2);
    assert_true(job->no_trim);
    assert_int_equal(job->keep, 2 * QC_INCH);
    assert_int_equal(job->layers, 6);
    assert_int_equal(job->time_limit_ms, 1500);
    qc_job_destroy(job);
}

static void triangles_arrive(void **state)
{
    qc_job *job =
        parse("{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\"}], \"pieces\": ["
              "{\"id\": \"h\", \"fabric\": \"f\", \"shape\": \"half-square "
              "triangle\", \"finished\": 1.7574, \"count\": 3}, "
              "{\"id\": \"q\", \"fabric\": \"f\", \"shape\": "
              "\"quarter-square triangle\", \"cut\": \"7 1/4\", \"facing\": "
              "\"kept\", \"count\": 8}]}");
    const qci_piece *h = &job->pieces[0], *q = &job->pieces[1];

    (void)state;
    assert_int_equal(h->shape, QC_SHAPE_HALF_SQUARE_TRIANGLE);
    /* 1.7574 + 0.8536 = 2.6110, on the ruler 2 5/8 */
    assert_int_equal(h->cut[0], QC_INCH * 21 / 8);
    assert_int_equal(h->count, 3);
    assert_int_equal(q->shape, QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    assert_int_equal(q->cut[1], QC_INCH * 29 / 4);
    qc_job_destroy(job);
}

#define SHORT_JOB                                                              \
    "{\"quiltcut\": 1, %s\"fabrics\": [{\"id\": \"f\"}], \"pieces\": "         \
    "[{\"id\": \"p\", \"fabric\": \"f\", \"shape\": \"square\", \"cut\": %s, " \
    "\"count\": 1}]}"

/* The cut size of a job of one square. */
static qc_length size_of(const char *units, const char *number)
{
    char text[1024];
    qc_job *job;
    qc_length size;

    snprintf(text, sizeof text, SHORT_JOB, units, number);
    job = parse(text);
    size = job->pieces[0].cut[0];
    qc_job_destroy(job);
    return size;
}

static void bare_numbers_are_in_the_units_of_the_job(void **state)
{
    (void)state;
    assert_int_equal(size_of("", "2.5"), QC_INCH * 5 / 2);
    assert_int_equal(size_of("\"units\": \"in\", ", "2"), 2 * QC_INCH);
    assert_int_equal(size_of("\"units\": \"cm\", ", "2.5"), 25 * QC_MM);
    assert_int_equal(size_of("\"units\": \"mm\", ", "2.5"), QC_MM * 5 / 2);
    assert_int_equal(size_of("\"units\": \"mm\", ", "\"2 in\""), 2 * QC_INCH);
    assert_int_equal(size_of("\"units\": \"mm\", ", "25e-1"), QC_MM * 5 / 2);
}

/* Every 64th of an inch up to the width, and every tenth of a millimetre, as a
 * bare decimal. */
static void bare_numbers_are_exact(void **state)
{
    char number[64];

    (void)state;
    for (int i = 1; i <= 40 * 64; i += 13) {
        snprintf(number, sizeof number, "%d.%06d", i / 64,
                 i % 64 * 1000000 / 64);
        assert_int_equal(size_of("", number), i * QC_INCH / 64);
    }
    for (int i = 1; i <= 10000; i += 97) {
        snprintf(number, sizeof number, "%d.%d", i / 10, i % 10);
        assert_int_equal(size_of("\"units\": \"mm\", ", number),
                         i * QC_MM / 10);
    }
}

static void check_number(const char *json, const char *decimal)
{
    char text[QCI_NUMBER_ROOM];
    json_t *number = json_loads(json, JSON_DECODE_ANY, NULL);

    assert_non_null(number);
    qci_number_text(number, text);
    assert_string_equal(text, decimal);
    json_decref(number);
}

static void numbers_become_the_shortest_decimals(void **state)
{
    (void)state;
    check_number("0", "0");
    check_number("-0.0", "0");
    check_number("-12", "-12");
    check_number("9223372036854775807", "9223372036854775807");
    check_number("0.1", "0.1");
    check_number("-0.3", "-0.3");
    check_number("1e0", "1");
    check_number("42.0", "42");
    check_number("1.5E+3", "1500");
    check_number("1e22", "10000000000000000000000");
    check_number("2.5e-7", "0.00000025");
    check_number("1.7574", "1.7574");
    check_number("0.30000000000000004", "0.30000000000000004");
    check_number("123456789.12345678", "123456789.12345678");
}

/* The extremes of doubles neither overrun nor lose their value. */
static void the_largest_and_smallest_doubles_fit(void **state)
{
    static const char *const numbers[] = {"1.7976931348623157e308",
                                          "-2.2250738585072014e-308",
                                          "-4.9406564584124654e-324"};
    char text[QCI_NUMBER_ROOM];

    (void)state;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        json_t *number = json_loads(numbers[i], JSON_DECODE_ANY, NULL);

        qci_number_text(number, text);
        assert_memory_equal(&(double){strtod(text, NULL)},
                            &(double){json_real_value(number)}, sizeof(double));
        json_decref(number);
    }
}

static void ratios_are_exact_or_rounded_once(void **state)
{
    static const struct {
        int64_t over, under;
        int places;
        const char *text;
    } cases[] = {
        {0, 7, 9, "0"},
        {203200 * 42, 203200, 9, "42"},
        {3175, 203200, 9, "0.015625"},
        {1, 8000, 9, "0.000125"},
        {1, 3, 4, "0.3333"},
        {2, 3, 4, "0.6667"},
        {99999, 100000, 4, "1"},
        {199995, 100000, 4, "2"},
        {5, 2, 0, "3"},
        {INT64_C(41290240000) / 64, INT64_C(41290240000), 12, "0.015625"},
        {INT64_MAX, 1, 9, "9223372036854775807"},
    };
    char text[QCI_RATIO_ROOM];

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qci_ratio_text(cases[i].over, cases[i].under, cases[i].places, text);
        assert_string_equal(text, cases[i].text);
    }
}

/* A locale with a decimal comma, made by the system's own tool where there is
 * none. */
static int use_comma_locale(char *folder)
{
    char command[256];

    if (setlocale(LC_ALL, "de_DE.UTF-8"))
        return 1;
    if (!mkdtemp(folder))
        return 0;
    snprintf(command, sizeof command,
             "localedef -i de_DE -f UTF-8 %s/de_DE.UTF-8 >/dev/null 2>&1",
             folder);
    if (system(command) != 0)
        return 0;
    setenv("LOCPATH", folder, 1);
    return setlocale(LC_ALL, "de_DE.UTF-8") != NULL;
}

static void a_decimal_comma_in_the_locale_changes_nothing(void **state)
{
    char folder[] = "/tmp/quiltcut-locale-XXXXXX", command[64];
    int used = use_comma_locale(folder);

    (void)state;
    if (used) {
        assert_string_equal(localeconv()->decimal_point, ",");
        check_number("0.1", "0.1");
        check_number("123456789.12345678", "123456789.12345678");
        bare_numbers_are_exact(state);
        every_field_arrives(state);
    }
    setlocale(LC_ALL, "C");
    snprintf(command, sizeof command, "rm -rf %s", folder);
    assert_int_equal(system(command), 0);
    if (!used) {
        print_message("no locale with a decimal comma here, nor localedef\n");
        skip();
    }
}

static void a_byte_order_mark_is_passed_over(void **state)
{
    char marked[2048];
    qc_job *job = NULL;
    qc_error err;

    (void)state;
    snprintf(marked, sizeof marked, "\xEF\xBB\xBF%s", full);
    qc_job_destroy(parse(marked));
    qc_error_init(&err);
    assert_int_equal(qc_job_parse("\xEF\xBB\xBF[]", 5, &job, &err),
                     QC_STATUS_INVALID);
    assert_int_equal(err.column, 1);
}

static void escaped_keys_and_texts_are_read(void **state)
{
    (void)state;
    assert_int_equal(size_of("\"\\u0075nits\": \"\\u0063m\", ", "\"2\\u00bd\""),
                     25 * QC_MM);
}

static void spares_are_a_number_or_per_cent(void **state)
{
    static const struct {
        const char *spare;
        int64_t count;
    } cases[] = {{"0", 50},       {"3", 53},         {"3.0", 53},
                 {"\"0%\"", 50},  {"\"5%\"", 53},    {"\"5 %\"", 53},
                 {"\"1 %\"", 51}, {"\"4.01%\"", 53}, {"\"1000 %\"", 550}};
    char text[512];

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        qc_job *job;

        snprintf(text, sizeof text,
                 "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\"}],"
                 "\"pieces\": [{\"id\": \"p\", \"fabric\": \"f\","
                 "\"shape\": \"square\", \"cut\": 3, \"count\": 50}],"
                 "\"options\": {\"spare\": %s}}",
                 cases[i].spare);
        job = parse(text);
        assert_int_equal(job->pieces[0].count, cases[i].count);
        qc_job_destroy(job);
    }
}

static qc_status status_of(const char *text, size_t size, qc_error *err)
{
    qc_job *job = NULL;
    qc_status status;

    qc_error_init(err);
    status = qc_job_parse(text, size, &job, err);
    assert_true((status == QC_STATUS_OK) == (job != NULL));
    assert_int_equal(status, err->code);
    if (status)
        assert_int_not_equal(err->problem[0], '\0');
    qc_job_destroy(job);
    return status;
}

/* A member of the schema's `$defs`: {"fabric", "properties", ..., NULL}. */
static int64_t schema_number(const json_t *schema, const char *const *path)
{
    const json_t *at = json_object_get(schema, "$defs");

    if (!json_object_get(at, *path))
        at = schema;
    for (; *path; path++) {
        const json_t *forms = json_object_get(at, "oneOf");

        at = json_object_get(forms && !json_object_get(at, *path)
                                 ? json_array_get(forms, 0)
                                 : at,
                             *path);
    }
    assert_true(json_is_integer(at));
    return (int64_t)json_integer_value(at);
}

#define SCHEMA_NUMBER(...)                                                     \
    schema_number(schema, (const char *const[]){__VA_ARGS__, NULL})

/* The schema is written by hand; its limits are those that the checks use. */
static void the_limits_of_the_schema_are_those_of_the_header(void **state)
{
    json_t *schema = json_loads(qc_schema_text("job"), 0, NULL);

    (void)state;
    assert_non_null(schema);
    assert_int_equal(
        10000 * SCHEMA_NUMBER("fabric", "properties", "price", "maximum"),
        QC_MAX_PRICE);
    assert_int_equal(SCHEMA_NUMBER("piece", "properties", "count", "maximum"),
                     QC_MAX_COUNT);
    assert_int_equal(SCHEMA_NUMBER("properties", "fabrics", "maxItems"),
                     QC_MAX_FABRICS);
    assert_int_equal(SCHEMA_NUMBER("properties", "pieces", "maxItems"),
                     QC_MAX_PIECES);
    assert_int_equal(SCHEMA_NUMBER("id", "maxLength"), QC_MAX_TEXT_BYTES);
    json_decref(schema);
}

static void prices_go_up_to_the_limit(void **state)
{
    static const char job[] =
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\", \"price\": %s}], "
        "\"pieces\": [{\"id\": \"p\", \"fabric\": \"f\", \"shape\": "
        "\"square\", "
        "\"cut\": 3, \"count\": 2}]}";
    char text[sizeof job + 16];
    qc_error err;

    (void)state;
    snprintf(text, sizeof text, job, "10000");
    assert_int_equal(status_of(text, strlen(text), &err), QC_STATUS_OK);
    snprintf(text, sizeof text, job, "10000.0001");
    assert_int_equal(status_of(text, strlen(text), &err), QC_STATUS_INVALID);
    assert_string_equal(err.field, "fabrics[0].price");
    assert_string_equal(err.value, "10000.0001");
}

static void texts_that_are_too_long_are_refused(void **state)
{
    char *text = malloc(QC_MAX_JSON_BYTES + 1);
    size_t job = sizeof full - 1;
    qc_error err;

    (void)state;
    assert_non_null(text);
    memcpy(text, full, job);
    memset(text + job, ' ', QC_MAX_JSON_BYTES + 1 - job);
    assert_int_equal(status_of(text, QC_MAX_JSON_BYTES, &err), QC_STATUS_OK);
    assert_int_equal(status_of(text, QC_MAX_JSON_BYTES + 1, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.allowed, "at most 16 MiB");
    /* nothing is read of what is too long */
    assert_int_equal(status_of(text, SIZE_MAX, &err), QC_STATUS_INVALID);
    memset(text, '[', QC_MAX_JSON_BYTES);
    assert_int_equal(status_of(text, QC_MAX_JSON_BYTES, &err),
                     QC_STATUS_INVALID);
    assert_non_null(strstr(err.problem, "nested too deeply"));
    memset(text, '1', QC_MAX_JSON_BYTES);
    assert_int_equal(status_of(text, QC_MAX_JSON_BYTES, &err),
                     QC_STATUS_INVALID);
    memset(text, '"', 1);
    assert_int_equal(status_of(text, QC_MAX_JSON_BYTES, &err),
                     QC_STATUS_INVALID);
    free(text);
}

/* A hundred thousand pieces, the last one wrong: one message, and soon. */
static void long_lists_take_linear_time(void **state)
{
    static const char piece[] =
        "{\"id\":\"p\",\"fabric\":\"f\",\"shape\":\"square\",\"cut\":3,"
        "\"count\":1},\n";
    size_t count = 100000, size = sizeof piece - 1;
    char *text = malloc(count * size + 256), *at = text;
    clock_t begin = clock();
    qc_error err;

    (void)state;
    assert_non_null(text);
    at += sprintf(at, "{\"quiltcut\":1,\"fabrics\":[{\"id\":\"f\"}],"
                      "\"pieces\":[\n");
    for (size_t i = 0; i < count; i++, at += size)
        memcpy(at, piece, size);
    at += sprintf(at, "{\"id\":\"last\",\"cut\":-1}]}");
    assert_int_equal(status_of(text, (size_t)(at - text), &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, "pieces[100000].fabric");
    assert_int_equal(err.line, count + 2);
    assert_true((double)(clock() - begin) / CLOCKS_PER_SEC < 20);
    free(text);
}

static void
the_callers_record_is_optional_and_keeps_its_first_error(void **state)
{
    qc_job *job = (qc_job *)1;
    qc_error err;

    (void)state;
    assert_int_equal(qc_job_parse("{", 1, &job, NULL), QC_STATUS_INVALID);
    assert_null(job);
    assert_int_equal(qc_job_parse(NULL, 0, &job, NULL), QC_STATUS_INVALID);
    qc_error_init(&err);
    assert_int_equal(qc_job_parse("[]", 2, &job, &err), QC_STATUS_INVALID);
    assert_int_equal(qc_job_parse("\n\n{", 3, &job, &err), QC_STATUS_INVALID);
    assert_int_equal(err.line, 1);
}

/* xorshift64*, so that a failure can be repeated from its seed. */
static uint64_t seed = UINT64_C(0x9E3779B97F4A7C15);

static size_t below(size_t n)
{
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    return (size_t)((seed * UINT64_C(2685821657736338717)) >> 33) % n;
}

/* Changes, drops, doubles or moves a few bytes; returns the new size. */
static size_t mutate(char *text, size_t size, size_t room)
{
    static const char likely[] = "{}[]:,\"\\0123456789.-eE %/\xC3\xBD\x80";

    for (size_t n = 1 + below(3); n; n--) {
        size_t at = below(size), length = 1 + below(8);

        if (length > size - at)
            length = size - at;
        switch (below(4)) {
        case 0:
            text[at] = (char)below(256);
            break;
        case 1:
            text[at] = likely[below(sizeof likely - 1)];
            break;
        case 2:
            memmove(text + at, text + at + length, size - at - length);
            size -= length;
            break;
        default:
            if (size + length > room)
                break;
            memmove(text + at + length, text + at, size - at);
            size += length;
        }
        if (!size)
            return 0;
    }
    return size;
}

static void mutated_jobs_give_a_job_or_a_reason(void **state)
{
    size_t good = 0, placed = 0;

    (void)state;
    for (int i = 0; i < 20000; i++) {
        char work[2048], *exact;
        size_t size = sizeof full - 1;
        qc_error err;

        memcpy(work, full, size);
        size = mutate(work, size, sizeof work);
        exact = malloc(size ? size : 1); /* ASan sees a step too far */
        assert_non_null(exact);
        memcpy(exact, work, size);
        if (status_of(exact, size, &err) == QC_STATUS_OK)
            good++;
        else if (err.line && err.column)
            placed++;
        free(exact);
    }
    print_message("%zu of 20000 still jobs, %zu refused with a place\n", good,
                  placed);
    assert_true(good > 100 && good < 10000);
    assert_int_equal(good + placed, 20000);
}

/* Every cut of the text, too: never a job, always a place. */
static void every_truncated_job_is_refused(void **state)
{
    (void)state;
    for (size_t size = 0; size < sizeof full - 1; size++) {
        char *exact = malloc(size ? size : 1);
        qc_error err;

        assert_non_null(exact);
        memcpy(exact, full, size);
        assert_int_equal(status_of(exact, size, &err), QC_STATUS_INVALID);
        assert_true(size == 0 || err.line > 0);
        free(exact);
    }
}

static void every_allocation_of_ours_may_fail(void **state)
{
    qc_status status;
    long n = 0, live = qci_alloc_live();

    (void)state;
    do {
        qc_job *job = NULL;
        qc_error err;

        qc_error_init(&err);
        qci_alloc_fail_at(++n, 1);
        status = qc_job_parse(full, sizeof full - 1, &job, &err);
        qci_alloc_fail_at(0, 0);
        assert_true(status == QC_STATUS_OK || status == QC_STATUS_NO_MEMORY);
        assert_int_equal(err.code, status);
        assert_true((status == QC_STATUS_OK) == (job != NULL));
        qc_job_destroy(job);
        assert_int_equal(qci_alloc_live(), live);
    } while (status);
    assert_true(n > 10);
}

static long jansson_calls, jansson_fails_at;

static void *failing_malloc(size_t size)
{
    return ++jansson_calls == jansson_fails_at ? NULL : malloc(size);
}

/* Without texts of more than 15 bytes: jansson 2.14 does not notice when the
 * buffer for a longer token fails to grow, and there is no way to tell it. */
static void every_allocation_of_jansson_may_fail(void **state)
{
    static const char job_text[] =
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"f\"}], \"pieces\": "
        "[{\"id\": \"p\", \"fabric\": \"f\", \"shape\": \"square\", \"cut\": "
        "2.5, \"count\": 7}], \"options\": {\"stages\": 2}}";
    json_malloc_t usual_malloc;
    json_free_t usual_free;
    qc_status status;

    (void)state;
    json_get_alloc_funcs(&usual_malloc, &usual_free);
    json_set_alloc_funcs(failing_malloc, free);
    jansson_fails_at = 0;
    do {
        qc_job *job = NULL;
        qc_error err;

        qc_error_init(&err);
        jansson_calls = 0;
        jansson_fails_at++;
        status = qc_job_parse(job_text, sizeof job_text - 1, &job, &err);
        if (status)
            assert_int_equal(status, QC_STATUS_NO_MEMORY);
        else
            assert_int_equal(job->pieces[0].count, 7);
        qc_job_destroy(job);
    } while (jansson_calls >= jansson_fails_at);
    json_set_alloc_funcs(usual_malloc, usual_free);
    assert_int_equal(status, QC_STATUS_OK);
    assert_true(jansson_fails_at > 30);
}

/* Blocks become pieces; what their roles take stands in any order. */
static void blocks_arrive(void **state)
{
    qc_job *job =
        parse("{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"kelp\"}, {\"id\": "
              "\"foam\"}],"
              "\"blocks\": [{\"id\": \"nines\", \"block\": \"Nine Patch\","
              "\"size\": \"4 1/2\", \"count\": 7,"
              "\"fabrics\": {\"light\": \"foam\", \"dark\": \"kelp\"}}]}");

    (void)state;
    assert_int_equal(job->piece_count, 2);
    assert_string_equal(job->pieces[0].id, "nines A");
    assert_string_equal(job->pieces[0].role, "dark");
    assert_int_equal(job->pieces[0].fabric, 0);
    assert_int_equal(job->pieces[0].count, 35);
    assert_int_equal(job->pieces[0].cut[0], 2 * QC_INCH);
    assert_int_equal(job->pieces[1].fabric, 1);
    assert_int_equal(job->blocks[0].count, 7);
    qc_job_destroy(job);
}

static void drawings_arrive(void **state)
{
    qc_job *job = parse(
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"kelp\"}, {\"id\": "
        "\"foam\"}],"
        "\"blocks\": [{\"size\": 6, \"count\": 8,"
        "\"fabrics\": {\"sail\": \"foam\", \"sky\": \"kelp\"},"
        "\"drawing\": {\"name\": \"regatta\", \"width\": 2, \"height\": \"1\","
        "\"patches\": [{\"role\": \"sail\", \"corners\": \"0,0 2,0 1,1\"},"
        "{\"role\": \"sky\", \"corners\": \"0,0 1,1 0,1\", \"turns\": 1,"
        "\"mirrored\": true}]}}]}");

    (void)state;
    assert_int_equal(job->piece_count, 2);
    assert_string_equal(job->pieces[0].id, "regatta A");
    assert_int_equal(job->pieces[0].shape, QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    assert_int_equal(job->pieces[0].fabric, 1);
    assert_int_equal(job->pieces[0].count, 8);
    assert_int_equal(job->pieces[1].count, 16);
    assert_int_equal(job->blocks[0].height, 3 * QC_INCH);
    qc_job_destroy(job);
}

/* Finished corners may be any decimals; a height that is a whole length stays
 * the one that it is, and what is rounded is never smaller. */
static void corners_may_be_any_decimals(void **state)
{
    static const char form[] =
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"kelp\"}], \"pieces\": ["
        "{\"id\": \"A\", \"fabric\": \"kelp\", \"shape\": \"polygon\","
        "\"finished\": %s, \"count\": 2}]}";
    static const struct {
        const char *points;
        qc_length height;
    } rows[] = {
        {"[[0, 0], [3.41421356, 0], [3.41421356, 2], [1.41421356, 2]]",
         5 * QC_INCH / 2},
        {"[[0, 0], [3, 0], [3, 1.4999111], [1, 1.4999111]]", 2 * QC_INCH},
        /* As much as the corners can have been moved is too much. */
        {"[[0, 0], [3, 0], [3, 1.4999999], [1, 1.4999999]]", 17 * QC_INCH / 8},
        {"[[0, 0], [3, 0], [3, 1.41421356], [-1.1, 1.41421356]]", 2 * QC_INCH},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[512];
        qc_job *job;

        snprintf(text, sizeof text, form, rows[i].points);
        job = parse(text);
        assert_true(job->pieces[0].rounded);
        assert_int_equal(job->pieces[0].cut[1], rows[i].height);
        qc_job_destroy(job);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_field_arrives),
        cmocka_unit_test(blocks_arrive),
        cmocka_unit_test(drawings_arrive),
        cmocka_unit_test(corners_may_be_any_decimals),
        cmocka_unit_test(triangles_arrive),
        cmocka_unit_test(bare_numbers_are_in_the_units_of_the_job),
        cmocka_unit_test(bare_numbers_are_exact),
        cmocka_unit_test(numbers_become_the_shortest_decimals),
        cmocka_unit_test(the_largest_and_smallest_doubles_fit),
        cmocka_unit_test(ratios_are_exact_or_rounded_once),
        cmocka_unit_test(a_decimal_comma_in_the_locale_changes_nothing),
        cmocka_unit_test(a_byte_order_mark_is_passed_over),
        cmocka_unit_test(escaped_keys_and_texts_are_read),
        cmocka_unit_test(spares_are_a_number_or_per_cent),
        cmocka_unit_test(the_limits_of_the_schema_are_those_of_the_header),
        cmocka_unit_test(prices_go_up_to_the_limit),
        cmocka_unit_test(texts_that_are_too_long_are_refused),
        cmocka_unit_test(long_lists_take_linear_time),
        cmocka_unit_test(
            the_callers_record_is_optional_and_keeps_its_first_error),
        cmocka_unit_test(mutated_jobs_give_a_job_or_a_reason),
        cmocka_unit_test(every_truncated_job_is_refused),
        cmocka_unit_test(every_allocation_of_ours_may_fail),
        cmocka_unit_test(every_allocation_of_jansson_may_fail),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
