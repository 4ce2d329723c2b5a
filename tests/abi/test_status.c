/* The status list, and the sizes of what callers allocate themselves. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

static const struct {
    qc_status code;
    const char *name;
    const char *text;
} listed[] = {
#define LISTED(name, number, text) {(qc_status)(number), #name, text},
    QC_STATUS_LIST(LISTED)
#undef LISTED
};

#define LISTED_COUNT (sizeof listed / sizeof listed[0])

static void codes_are_unique_and_explained(void **state)
{
    (void)state;
    assert_int_equal(QC_STATUS_OK, 0);
    for (size_t i = 0; i < LISTED_COUNT; i++) {
        assert_string_equal(qc_status_text(listed[i].code), listed[i].text);
        assert_true(strlen(listed[i].text) > 3);
        for (size_t j = 0; j < i; j++) {
            assert_int_not_equal(listed[i].code, listed[j].code);
            assert_string_not_equal(listed[i].text, listed[j].text);
        }
    }
}

/* A result that ends early is an outcome of a call that worked. */
static void no_status_is_called_timeout(void **state)
{
    (void)state;
    for (size_t i = 0; i < LISTED_COUNT; i++) {
        assert_null(strstr(listed[i].name, "TIME"));
        assert_null(strstr(listed[i].name, "FEASIBLE"));
    }
}

static void unknown_codes_have_a_text(void **state)
{
    (void)state;
    assert_string_equal(qc_status_text((qc_status)999), "unknown status");
    assert_string_equal(qc_status_text((qc_status)-1), "unknown status");
}

/* These are filled in by programs already built: a change of size needs a new
 * ABI number, except at the end of those that begin with struct_size. */
static void caller_owned_structs_keep_their_layout(void **state)
{
    (void)state;
    assert_int_equal(sizeof(qc_error), 704);
    assert_int_equal(offsetof(qc_error, field), 16);
    assert_int_equal(offsetof(qc_error, reserved), 688);
    assert_int_equal(offsetof(qc_solve_options, struct_size), 0);
    assert_int_equal(offsetof(qc_solve_options, cancel), 16);
    assert_int_equal(offsetof(qc_job_spec, struct_size), 0);
    assert_int_equal(sizeof(qc_length), 8);
}

static void version_is_that_of_the_header(void **state)
{
    (void)state;
    assert_string_equal(qc_version(), QC_VERSION);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(codes_are_unique_and_explained),
        cmocka_unit_test(no_status_is_called_timeout),
        cmocka_unit_test(unknown_codes_have_a_text),
        cmocka_unit_test(caller_owned_structs_keep_their_layout),
        cmocka_unit_test(version_is_that_of_the_header),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
