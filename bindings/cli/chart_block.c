/* Which block a chart is of: a built-in one, or one that a job names or draws,
 * with the job's methods for it. Methods on the command line come instead of
 * those. */
#include "chart_block.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int fail_method(const char *text)
{
    const char *known[QC_METHOD_COUNT];
    char list[256] = "";
    size_t at = 0;

    for (int i = 0; i < QC_METHOD_COUNT; i++) {
        known[i] = qc_method_name((qc_method)i);
        at += (size_t)snprintf(list + at, sizeof list - at, "%s%s",
                               i ? ", " : "", known[i]);
    }
    complain("chart: '%s' is no method%s (allowed: %s)", text,
             suggestion(text, known, QC_METHOD_COUNT), list);
    return CLI_USAGE;
}

int add_chart_method(const char *text, void *out)
{
    chart_block *block = out;
    const char *colon = strchr(text, ':');
    const char *method = colon ? colon + 1 : text;
    qc_method_spec *spec = &block->methods[block->method_count];
    int known = 0;

    method += strspn(method, " ");
    while (known < QC_METHOD_COUNT &&
           strcmp(method, qc_method_name((qc_method)known)) != 0)
        known++;
    if (known == QC_METHOD_COUNT)
        return fail_method(method);
    if (block->method_count == CHART_METHODS) {
        complain("chart: more than %d methods", CHART_METHODS);
        return CLI_USAGE;
    }
    if (colon) {
        block->units[block->method_count] =
            strndup(text, (size_t)(colon - text));
        if (!block->units[block->method_count]) {
            complain("out of memory");
            return CLI_FAILED;
        }
    }
    *spec = (qc_method_spec){block->units[block->method_count],
                             (qc_method)known, QC_DEFAULT};
    block->method_count++;
    return CLI_DONE;
}

static const char *id_of(const qc_block_spec *spec)
{
    return spec->id        ? spec->id
           : spec->drawing ? spec->drawing->name
                           : spec->block;
}

static int fail_block(const qc_job_spec *spec, const char *job,
                      const char *name)
{
    char list[400] = "";
    size_t at = 0;

    for (size_t i = 0; i < spec->block_count && at < sizeof list; i++)
        at += (size_t)snprintf(list + at, sizeof list - at, "%s%s",
                               i ? ", " : "", id_of(&spec->blocks[i]));
    if (!spec->block_count)
        complain("chart: %s has no blocks", job);
    else if (name)
        complain("chart: %s has no block '%s' (it has: %s)", job, name, list);
    else
        complain("chart: %s has several blocks; choose one with --block (it "
                 "has: %s)",
                 job, list);
    return CLI_USAGE;
}

static void take_block(chart_block *block, const qc_block_spec *spec,
                       qc_chart_options *out)
{
    block->name = id_of(spec);
    out->block = spec->block;
    out->drawing = spec->drawing;
    out->methods = spec->methods;
    out->method_count = spec->method_count;
}

int read_chart_job(chart_block *block, const char *job, const char *name,
                   qc_chart_options *out)
{
    const qc_job_spec *spec;
    file_mark mark;
    int status;

    block->name = out->block = name;
    if (!job)
        return CLI_DONE;
    status = read_draft(job, &block->draft, &mark);
    if (status != CLI_DONE)
        return status;
    spec = qc_job_draft_spec(block->draft);
    out->seam = spec->seam;
    out->ruler = spec->ruler;
    if (!name && spec->block_count == 1) {
        take_block(block, &spec->blocks[0], out);
        return CLI_DONE;
    }
    for (size_t i = 0; name && i < spec->block_count; i++)
        if (strcmp(name, id_of(&spec->blocks[i])) == 0) {
            take_block(block, &spec->blocks[i], out);
            return CLI_DONE;
        }
    return fail_block(spec, job, name);
}

void set_chart_methods(chart_block *block, qc_length trim,
                       qc_chart_options *out)
{
    for (size_t i = 0; i < block->method_count; i++)
        if (block->methods[i].method != QC_METHOD_HALF_SQUARE_TRIANGLES)
            block->methods[i].trim = trim;
    if (!block->method_count)
        return;
    out->methods = block->methods;
    out->method_count = block->method_count;
}

void end_chart_block(chart_block *block)
{
    for (size_t i = 0; i < block->method_count; i++)
        free(block->units[i]);
    qc_job_draft_destroy(block->draft);
}
