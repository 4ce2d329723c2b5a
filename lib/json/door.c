/* The door for programs that speak JSON: job in, plan out; the schemas of both;
 * and the end of every text that the library hands out. */
#include <quiltcut/report.h>

#include <string.h>

#include <quiltcut/solve.h>

#include "base/alloc.h"
#include "json/schemas.h"

const char *qc_schema_text(const char *name)
{
    if (name && strcmp(name, "job") == 0)
        return qci_schema_job;
    if (name && strcmp(name, "plan") == 0)
        return qci_schema_plan;
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
