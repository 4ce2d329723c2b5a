/* Several outputs of the program take their names together. rename() goes
 * through the test, which makes the n-th fail as a full or read-only disk
 * would. */
#include <dirent.h>
#include <errno.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "cli.h"

static int fail_at;   /* which rename() fails; 0: none */
static bool no_links; /* as on a file system that has none */
static char said[2000];

int __real_rename(const char *from, const char *to);
int __wrap_rename(const char *from, const char *to);
int __real_link(const char *from, const char *to);
int __wrap_link(const char *from, const char *to);

int __wrap_rename(const char *from, const char *to)
{
    if (fail_at && --fail_at == 0) {
        errno = EROFS;
        return -1;
    }
    return __real_rename(from, to);
}

int __wrap_link(const char *from, const char *to)
{
    if (no_links) {
        errno = EPERM;
        return -1;
    }
    return __real_link(from, to);
}

/* In place of main.c. */
void complain(const char *format, ...)
{
    size_t n = strlen(said);
    va_list args;

    va_start(args, format);
    vsnprintf(said + n, sizeof said - n, format, args);
    va_end(args);
}

void hide_controls(char *text)
{
    (void)text;
}

static char folder[] = "/tmp/quiltcut-test-XXXXXX";

static int enter(void **state)
{
    (void)state;
    return mkdtemp(folder) && chdir(folder) == 0 ? 0 : -1;
}

static int leave(void **state)
{
    (void)state;
    remove("a");
    remove("b");
    remove("c");
    return chdir("/") == 0 && rmdir(folder) == 0 ? 0 : -1;
}

/* "-" when there is no such file. */
static const char *content(const char *name)
{
    static char text[20];
    FILE *file = fopen(name, "r");
    size_t n;

    if (!file)
        return "-";
    n = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    text[n] = '\0';
    return text;
}

static size_t files_here(void)
{
    DIR *here = opendir(".");
    size_t n = 0;

    assert_non_null(here);
    while (readdir(here))
        n++;
    closedir(here);
    return n - 2; /* itself and its parent */
}

/* "a" and "c" are there before, "b" is not. */
static int write_three(int failing, bool without_links)
{
    outputs set = {0};
    FILE *file;
    int status;

    for (const char *name = "ac"; *name; name++) {
        file = fopen(*name == 'a' ? "a" : "c", "w");
        assert_non_null(file);
        fputs("old", file);
        fclose(file);
    }
    remove("b");
    said[0] = '\0';
    fail_at = 0;
    assert_int_equal(stage_file(&set, "a", "new a", 5), CLI_DONE);
    assert_int_equal(stage_file(&set, "b", "new b", 5), CLI_DONE);
    assert_int_equal(stage_file(&set, "c", "new c", 5), CLI_DONE);
    assert_string_equal(content("a"), "old");
    fail_at = failing;
    no_links = without_links;
    status = commit_files(&set);
    no_links = false;
    end_files(&set);
    return status;
}

static void all_take_their_names(void **state)
{
    (void)state;
    assert_int_equal(write_three(0, false), CLI_DONE);
    assert_string_equal(content("a"), "new a");
    assert_string_equal(content("b"), "new b");
    assert_string_equal(content("c"), "new c");
    assert_int_equal(files_here(), 3); /* nothing hidden is left */
    assert_string_equal(said, "");
}

static void none_does_when_one_cannot(void **state)
{
    (void)state;
    for (int failing = 1; failing <= 3; failing++) {
        assert_int_equal(write_three(failing, false), CLI_FAILED);
        assert_string_equal(content("a"), "old");
        assert_string_equal(content("b"), "-");
        assert_string_equal(content("c"), "old");
        assert_int_equal(files_here(), 2);
        assert_int_equal(said[0], "abc"[failing - 1]);
        assert_non_null(strstr(said, "cannot be written"));
        assert_null(strstr(said, "put back"));
    }
}

/* What cannot be put back is named; the rest is put back. */
static void without_hard_links_it_is_said(void **state)
{
    (void)state;
    assert_int_equal(write_three(0, true), CLI_DONE);
    assert_string_equal(content("c"), "new c");
    assert_int_equal(write_three(3, true), CLI_FAILED);
    assert_string_equal(content("a"), "new a");
    assert_string_equal(content("b"), "-");
    assert_string_equal(content("c"), "old");
    assert_int_equal(files_here(), 2);
    assert_non_null(
        strstr(said, "a: was replaced before that, and cannot be put back"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_take_their_names),
        cmocka_unit_test(none_does_when_one_cannot),
        cmocka_unit_test(without_hard_links_it_is_said),
    };

    return cmocka_run_group_tests(tests, enter, leave);
}
