/* The door for programs that speak JSON: job in, plan out; instructions
 * in, check out; the schemas of all; and the end of every text that the
 * library hands out. */
#include <quiltcut/report.h>

#include <string.h>

#include <quiltcut/solve.h>

#include "base/alloc.h"
#include "json/schemas.h"

const char *qc_schema_text(const char *name)
{
    static const struct {
        const char *name, *text;
    } forms[] = {{"job", qci_schema_job},
                 {"plan", qci_schema_plan},
                 {"certificate", qci_schema_certificate},
                 {"instructions", qci_schema_instructions},
                 {"check", qci_schema_check},
                 {"batch", qci_schema_batch},
                 {"compare", qci_schema_compare},
                 {"chart", qci_schema_chart},
                 {"blocks", qci_schema_blocks}};

    for (size_t i = 0; name && i < sizeof forms / sizeof *forms; i++)
        if (strcmp(name, forms[i].name) == 0)
            return forms[i].text;
    return NULL;
}

void qc_text_destroy(char *text)
{
    qci_free(text);
}

qc_status qc_json_plan(const char *job, size_t size, char **out_plan_json,
                       qc_error *err)
{
    qc_job *parsed = NULL;
    qc_plan *plan = NULL;
    qc_status status;

    *out_plan_json = NULL;
    status = qc_job_parse(job, size, &parsed, err);
    if (!status)
        status = qc_job_solve(parsed, NULL, &plan, err);
    if (!status)
        status = qc_plan_json(plan, out_plan_json, err);
    qc_plan_destroy(plan);
    qc_job_destroy(parsed);
    return status;
}

qc_status qc_json_check(const char *instructions, size_t size,
                        char **out_check_json, qc_error *err)
{
    qc_instructions *parsed = NULL;
    qc_check *check = NULL;
    qc_status status;

    *out_check_json = NULL;
    status = qc_instructions_parse(instructions, size, &parsed, err);
    if (!status)
        status = qc_instructions_check(parsed, NULL, &check, err);
    if (!status)
        status = qc_check_json(check, out_check_json, err);
    qc_check_destroy(check);
    qc_instructions_destroy(parsed);
    return status;
}
