/* What test_schema.py asks of the library:
 *   json_probe schema NAME   the schema
 *   json_probe parse         a job on every line of stdin; a line for each:
 *                            status, tab, error
 *   json_probe instructions  the same of instructions
 *   json_probe certify       the same of certificates
 *   json_probe certificate   a job on stdin; its plan's certificate
 *   json_probe plan          a job on stdin; its plan
 *   json_probe check         instructions on stdin; their check
 *   json_probe sample        a plan built by hand that has every kind of member
 *   json_probe slanted       the same of what slants
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sample_plan.h"
#include "slanted_plan.h"
#include <quiltcut/quiltcut.h>

static qc_status parse_job(const char *text, size_t size, qc_error *err)
{
    qc_job *job = NULL;
    qc_status status = qc_job_parse(text, size, &job, err);

    qc_job_destroy(job);
    return status;
}

static qc_status parse_instructions(const char *text, size_t size,
                                    qc_error *err)
{
    qc_instructions *instructions = NULL;
    qc_status status = qc_instructions_parse(text, size, &instructions, err);

    qc_instructions_destroy(instructions);
    return status;
}

static qc_status certify(const char *text, size_t size, qc_error *err)
{
    qc_verdict verdict;
    char *report = NULL;
    qc_status status = qc_certificate_check(text, size, &verdict, &report, err);

    qc_text_destroy(report);
    return status;
}

static int parse_lines(qc_status (*parse)(const char *, size_t, qc_error *))
{
    char *line = NULL;
    size_t room = 0;

    for (;;) {
        ssize_t n = getline(&line, &room, stdin);
        char text[1024] = "";
        qc_error err;
        qc_status status;

        if (n < 0)
            break;
        qc_error_init(&err);
        status = parse(line, (size_t)n, &err);
        if (status)
            qc_error_format(&err, NULL, text, sizeof text);
        printf("%d\t%s\n", (int)status, text);
    }
    free(line);
    return 0;
}

static int print_answer(qc_status (*make)(const char *, size_t, char **,
                                          qc_error *))
{
    static char text[1 << 20];
    size_t size = fread(text, 1, sizeof text, stdin);
    char *plan = NULL;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    status = make(text, size, &plan, &err);
    if (status)
        fprintf(stderr, "%s: %s: %s\n", qc_status_text(status), err.field,
                err.problem);
    else
        fputs(plan, stdout);
    qc_text_destroy(plan);
    return (int)status;
}

static qc_status job_to_certificate(const char *text, size_t size, char **out,
                                    qc_error *err)
{
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_status status = qc_job_parse(text, size, &job, err);

    *out = NULL;
    if (!status)
        status = qc_job_solve(job, NULL, &plan, err);
    if (!status)
        status = qc_plan_certificate(plan, out, err);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
    return status;
}

/* Prints a plan and ends it. */
static int print_made(qc_plan *plan)
{
    char *text = NULL;

    if (!qc_plan_json(plan, &text, NULL))
        fputs(text, stdout);
    qc_text_destroy(text);
    qc_plan_destroy(plan);
    return text == NULL;
}

int main(int argc, char **argv)
{
    const char *mode = argc > 1 ? argv[1] : "";

    if (strcmp(mode, "schema") == 0 && argc > 2 && qc_schema_text(argv[2]))
        return fputs(qc_schema_text(argv[2]), stdout) < 0;
    if (strcmp(mode, "parse") == 0)
        return parse_lines(parse_job);
    if (strcmp(mode, "instructions") == 0)
        return parse_lines(parse_instructions);
    if (strcmp(mode, "certify") == 0)
        return parse_lines(certify);
    if (strcmp(mode, "certificate") == 0)
        return print_answer(job_to_certificate);
    if (strcmp(mode, "check") == 0)
        return print_answer(qc_json_check);
    if (strcmp(mode, "plan") == 0)
        return print_answer(qc_json_plan);
    if (strcmp(mode, "sample") == 0)
        return print_made(sample_plan());
    if (strcmp(mode, "slanted") == 0)
        return print_made(slanted_plan());
    return 2;
}
