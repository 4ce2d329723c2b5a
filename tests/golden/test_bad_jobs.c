/* Every wrong job in tests/golden/bad: NAME.json is read through the library,
 * and NAME.expect holds the status and the one line that a person gets. Places
 * and sentences were written by hand from the form's description. */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#define FOLDER QC_SOURCE_DIR "/tests/golden/bad/"

static size_t read_file(const char *name, const char *ending, char *out,
                        size_t room)
{
    char path[1024];
    FILE *file;
    size_t size;

    snprintf(path, sizeof path, FOLDER "%s%s", name, ending);
    file = fopen(path, "rb");
    if (!file)
        return 0;
    size = fread(out, 1, room - 1, file);
    fclose(file);
    out[size] = '\0';
    return size;
}

static const char *status_name(qc_status status)
{
    switch (status) {
#define NAME(name, number, text)                                               \
    case number:                                                               \
        return #name;
        QC_STATUS_LIST(NAME)
#undef NAME
    }
    return "?";
}

/* 0 when the job is refused as expected. */
static int check(const char *name)
{
    static char job_text[1 << 16], expected[4096];
    char *exact, file[300], line[1024], got[1200];
    qc_job *job = NULL;
    qc_error err;
    qc_status status;
    size_t size = read_file(name, ".json", job_text, sizeof job_text);

    assert_int_not_equal(read_file(name, ".expect", expected, sizeof expected),
                         0);
    exact = malloc(size + 1); /* so that reading past the end is seen */
    assert_non_null(exact);
    memcpy(exact, job_text, size);
    qc_error_init(&err);
    status = qc_job_parse(exact, size, &job, &err);
    free(exact);
    assert_true(status == QC_STATUS_OK || job == NULL);
    qc_job_destroy(job);
    snprintf(file, sizeof file, "%s.json", name);
    qc_error_format(&err, file, line, sizeof line);
    snprintf(got, sizeof got, "%s\n%s\n", status_name(status), line);
    if (status == err.code && strcmp(got, expected) == 0)
        return 0;
    print_error("%s: expected\n%sgot\n%s", name, expected, got);
    return 1;
}

static void wrong_jobs_are_refused_in_one_line(void **state)
{
    DIR *folder = opendir(FOLDER);
    struct dirent *entry;
    int cases = 0, wrong = 0;

    (void)state;
    assert_non_null(folder);
    while ((entry = readdir(folder))) {
        char name[256];
        char *dot;

        snprintf(name, sizeof name, "%s", entry->d_name);
        dot = strrchr(name, '.');
        if (!dot || strcmp(dot, ".json") != 0)
            continue;
        *dot = '\0';
        wrong += check(name);
        cases++;
    }
    closedir(folder);
    assert_int_equal(wrong, 0);
    assert_true(cases >= 40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wrong_jobs_are_refused_in_one_line)};

    return cmocka_run_group_tests(tests, NULL, NULL);
}
