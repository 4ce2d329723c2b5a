/* What must hold whatever was put in. */
#include "fuzz.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jansson.h>

#ifdef QC_TEST_DRAW
#include <quiltcut/draw.h>
#endif

#include "base/utf8.h"

void fuzz_broken(const char *what, const char *file, int line)
{
    fprintf(stderr, "%s:%d: does not hold: %s\n", file, line, what);
    abort();
}

void fuzz_expect_text(const char *text, size_t size)
{
    FUZZ_EXPECT(qci_utf8_valid(text, size));
    for (size_t i = 0; i < size; i++)
        FUZZ_EXPECT(text[i] == '\n' ||
                    !qci_utf8_is_control(text + i, size - i));
}

void fuzz_expect_error(const qc_error *err, qc_status status)
{
    char line[1024];
    int n = qc_error_format(err, "job.json", line, sizeof line);

    FUZZ_EXPECT(err->code == status);
    FUZZ_EXPECT(err->problem[0]);
    FUZZ_EXPECT(qci_utf8_valid(err->field, strlen(err->field)));
    FUZZ_EXPECT(qci_utf8_valid(err->value, strlen(err->value)));
    FUZZ_EXPECT(qci_utf8_valid(err->problem, strlen(err->problem)));
    FUZZ_EXPECT(qci_utf8_valid(err->allowed, strlen(err->allowed)));
    FUZZ_EXPECT(n > 0 && (size_t)n < sizeof line);
    fuzz_expect_text(line, (size_t)n);
    FUZZ_EXPECT(!strchr(line, '\n'));
}

void fuzz_expect_place(const qc_error *err, const char *text, size_t size)
{
    const char *line = text, *end = text + size, *next;

    if (!err->line) /* of the text as a whole */
        return;
    for (uint32_t n = 1; n < err->line; n++) {
        next = memchr(line, '\n', (size_t)(end - line));
        FUZZ_EXPECT(next);
        line = next + 1;
    }
    next = memchr(line, '\n', (size_t)(end - line));
    FUZZ_EXPECT(err->column >= 1);
    FUZZ_EXPECT(err->column <= (size_t)((next ? next : end) - line) + 1);
}

static void expect_text(const qc_plan *plan)
{
    char *text;

    FUZZ_EXPECT(qc_plan_text(plan, &text, NULL) == QC_STATUS_OK);
    fuzz_expect_text(text, strlen(text));
    qc_text_destroy(text);
}

static void expect_json(const qc_plan *plan)
{
    char *text;
    json_t *read;

    FUZZ_EXPECT(qc_plan_json(plan, &text, NULL) == QC_STATUS_OK);
    fuzz_expect_text(text, strlen(text));
    read = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    FUZZ_EXPECT(json_is_object(read));
    json_decref(read);
    qc_text_destroy(text);
}

#ifdef QC_TEST_DRAW
static int take_picture(const void *bytes, size_t size, void *user)
{
    fuzz_expect_text(bytes, size);
    *(size_t *)user += size;
    return 0;
}

static void expect_pictures(const qc_plan *plan)
{
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++) {
        size_t size = 0;

        if (!qc_plan_fabric_at(plan, i)->strip_count)
            continue;
        FUZZ_EXPECT(qc_plan_draw(plan, i, QC_DRAW_SVG, take_picture, &size,
                                 NULL) == QC_STATUS_OK);
        FUZZ_EXPECT(size > 100);
    }
    for (size_t i = 0; i < qc_plan_set_count(plan); i++) {
        size_t size = 0;

        FUZZ_EXPECT(qc_plan_draw_set(plan, i, QC_DRAW_SVG, take_picture, &size,
                                     NULL) == QC_STATUS_OK);
        FUZZ_EXPECT(size > 100);
    }
}
#else
static void expect_pictures(const qc_plan *plan)
{
    (void)plan;
}
#endif

static void expect_bounds(const qc_plan *plan)
{
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++) {
        const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, i);

        FUZZ_EXPECT(fabric->used <= fabric->bought);
        FUZZ_EXPECT(fabric->bound <= fabric->bought);
        FUZZ_EXPECT(fabric->outcome != QC_OUTCOME_OPTIMAL ||
                    fabric->level_count == 0 ||
                    qc_plan_level_at(plan, i, 0)->bound ==
                        qc_plan_level_at(plan, i, 0)->value);
    }
}

void fuzz_plan(const qc_job *job, int32_t time_limit_ms, bool left_handed)
{
    qc_solve_options options;
    qc_plan *plan;
    qc_status status;
    qc_error err;

    qc_solve_options_init(&options);
    options.threads = 1;
    options.time_limit_ms = time_limit_ms;
    options.left_handed = left_handed;
    qc_error_init(&err);
    status = qc_job_solve(job, &options, &plan, &err);
    if (status) {
        FUZZ_EXPECT(!plan);
        fuzz_expect_error(&err, status);
        FUZZ_EXPECT(status == QC_STATUS_INVALID);
        return;
    }
    expect_bounds(plan);
    expect_text(plan);
    expect_json(plan);
    expect_pictures(plan);
    qc_plan_destroy(plan);
}
