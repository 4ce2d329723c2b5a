/* Links the diagram library alone; it brings the core along. */
#include <stdio.h>
#include <string.h>

#include <quiltcut/draw.h>
#include <quiltcut/quiltcut.h>

static const char job_text[] =
    "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"moss\"}],"
    " \"pieces\": [{\"id\": \"A\", \"fabric\": \"moss\", \"shape\": \"square\","
    " \"cut\": \"4 1/2\", \"count\": 20}]}";

static int to_file(const void *bytes, size_t size, void *user)
{
    return fwrite(bytes, 1, size, user) != size;
}

int main(void)
{
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    int wrong;

    wrong = qc_job_parse(job_text, strlen(job_text), &job, NULL) ||
            qc_job_solve(job, NULL, &plan, NULL) ||
            qc_plan_draw(plan, 0, QC_DRAW_SVG, to_file, stdout, NULL);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
    return wrong;
}
