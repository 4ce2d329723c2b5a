/* Published sets of instances with known optima, read from a data folder beside
 * the checkout when it is there. One unit of the data is a millimetre or the
 * largest length that keeps the fabric within its limit; no turning; two
 * stages; the goal is the exact length.
 *
 * The optima of the two-dimensional sets were computed for that collection (see
 * its README), so a difference is a thing to look into, whoever is right.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "mini.h"

#define LIMIT_MS 3000

static int64_t integer(const json_t *object, const char *key)
{
    return (int64_t)json_integer_value(json_object_get(object, key));
}

/* @return the length of one unit of the data */
static qc_length fill(mini_job *job, const json_t *instance, bool flat)
{
    int64_t width = integer(instance, flat ? "capacity" : "width");
    qc_length unit = QC_MAX_WIDTH / width;
    const json_t *item;
    size_t i;

    mini_init(job);
    if (unit > QC_MM)
        unit = QC_MM;
    job->width = width * unit;
    job->print = QC_PRINT_ONE_WAY;
    job->stages = 2;
    job->ruler = QC_MM;
    job->time_limit_ms = LIMIT_MS;
    mini_goals(job, "u");
    json_array_foreach(json_object_get(instance, "items"), i, item)
    {
        const json_t *size = json_array_get(item, 0);
        int64_t across =
            flat ? (int64_t)json_integer_value(size)
                 : (int64_t)json_integer_value(json_array_get(size, 0));
        int64_t along =
            flat ? 1 : (int64_t)json_integer_value(json_array_get(size, 1));
        mini_add(job, across * unit, along * unit,
                 (int64_t)json_integer_value(json_array_get(item, 1)));
    }
    return unit;
}

/* @return whether the answer was proved */
static bool check_instance(const json_t *instance, bool flat, bool no_trim)
{
    const char *key = no_trim ? "optimum_no_trim" : "optimum";
    const char *name = json_string_value(json_object_get(instance, "name"));
    static mini_job job;
    qc_length unit = fill(&job, instance, flat);
    qc_length want = integer(instance, key) * unit;
    const qc_level *level;
    const char *wrong;
    qc_plan *plan = NULL;
    qc_error err;
    bool proved;
    char text[512];

    job.no_trim = no_trim;
    qc_error_init(&err);
    if (mini_solve(&job, 1, &plan, &err) != QC_STATUS_OK) {
        qc_error_format(&err, NULL, text, sizeof text);
        fail_msg("%s: %s", name, text);
    }
    wrong = mini_check(&job, plan);
    if (wrong)
        fail_msg("%s: %s", name, wrong);
    level = qc_plan_level_at(plan, 0, 0);
    proved = level->outcome == QC_OUTCOME_OPTIMAL;
    if (level->bound > want || level->value < want ||
        (proved && level->value != want))
        fail_msg("%s, %s: value %lld, bound %lld, known %lld (unit %lld)", name,
                 key, (long long)level->value, (long long)level->bound,
                 (long long)want, (long long)unit);
    if (!proved)
        print_message("  %s, %s: %lld, bound %lld, known %lld\n", name, key,
                      (long long)level->value, (long long)level->bound,
                      (long long)want);
    qc_plan_destroy(plan);
    return proved;
}

/* Every `every`-th instance of a file with at most `most` item types: how many
 * were not proved. */
static int check_file(const char *file, size_t every, size_t most)
{
    char path[512];
    json_t *all;
    size_t i;
    int asked = 0, proved = 0;

    snprintf(path, sizeof path, "%s/%s", QC_DATA_DIR, file);
    all = json_load_file(path, 0, NULL);
    if (!all) {
        print_message("%s is not there: nothing was checked\n", file);
        return 0;
    }
    for (i = 0; i < json_array_size(all); i += every) {
        const json_t *instance = json_array_get(all, i);
        bool flat = strcmp(json_string_value(json_object_get(instance, "kind")),
                           "csp1d") == 0;
        if (json_array_size(json_object_get(instance, "items")) > most)
            continue;
        if (json_is_integer(json_object_get(instance, "optimum"))) {
            proved += check_instance(instance, flat, false);
            asked++;
        }
        if (json_is_integer(json_object_get(instance, "optimum_no_trim"))) {
            proved += check_instance(instance, flat, true);
            asked++;
        }
    }
    print_message("%s: %d of %d proved\n", file, proved, asked);
    json_decref(all);
    return asked - proved;
}

static void check_all(const char *file, size_t every)
{
    assert_int_equal(check_file(file, every, SIZE_MAX), 0);
}

static void textbook(void **state)
{
    (void)state;
    check_all("csp1d_textbook.json", 1);
}

/* All of one height: one class of strips. All must be proved. */
static void one_height(void **state)
{
    (void)state;
    check_all("csp1d_scholl1.json", 24);
    check_all("csp1d_scholl2.json", 24);
    check_all("csp1d_schwerin.json", 20);
    check_all("csp1d_waescher.json", 2);
    check_all("csp1d_falkenauer_u.json", 10);
    check_all("csp1d_falkenauer_t.json", 10);
    check_file("csp1d_scholl3.json", 4, SIZE_MAX);
    check_file("csp1d_hard28.json", 7, SIZE_MAX);
    check_file("csp1d_gi.json", 40, 250);
}

static void two_dimensions(void **state)
{
    (void)state;
    check_file("level2d_ngcut.json", 1, 20);
    check_file("level2d_cgcut.json", 1, 20);
    check_file("level2d_gcut.json", 1, 12);
    check_file("level2d_two_stage_knapsack.json", 2, 20);
    check_file("level2d_ht_c.json", 1, 20);
    check_file("level2d_class.json", 10, 20);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(textbook),
        cmocka_unit_test(one_height),
        cmocka_unit_test(two_dimensions),
    };
    return cmocka_run_group_tests_name("published_sets", tests, NULL, NULL);
}
