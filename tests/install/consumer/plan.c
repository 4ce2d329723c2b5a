/* A program of somebody else's: sees the installed headers and nothing more. */
#include <stdio.h>
#include <string.h>

#include <quiltcut/quiltcut.h>

/* Twenty squares of 4 1/2 in from cloth 40 in wide. Eight lie across a strip
 * (36 <= 40 < 40 1/2), so three strips are needed, 13 1/2 in and with 1/2 in of
 * squaring-up 14 in: four steps of 1/8 yd, 18 in. */
static const char job_text[] =
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"moss\", \"width\": \"40\"}],"
    " \"pieces\": [{\"id\": \"A\", \"fabric\": \"moss\", \"shape\": \"square\","
    " \"cut\": \"4 1/2\", \"count\": 20}]}";

int main(void)
{
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_error err;
    const qc_plan_fabric *moss;
    int wrong = 1;

    qc_error_init(&err);
    if (strcmp(qc_version(), QC_VERSION))
        return 2;
    if (!qc_job_parse(job_text, strlen(job_text), &job, &err) &&
        !qc_job_solve(job, NULL, &plan, &err)) {
        moss = qc_plan_fabric_at(plan, 0);
        printf("%s: %.3f in\n", moss->id,
               qc_length_value(moss->bought, QC_UNITS_IN));
        wrong = moss->bought != 18 * QC_INCH || moss->bound != moss->bought ||
                moss->outcome != QC_OUTCOME_OPTIMAL;
    } else {
        printf("%s\n", err.problem);
    }
    qc_plan_destroy(plan);
    qc_job_destroy(job);
    return wrong;
}
