/* Solves jobs of one fabric given as lines of JSON on stdin, one result line
 * each on stdout, so that a script can put hundreds of jobs to the library in
 * one process.
 *
 * Out: the job's title, then key=value fields as solve_lines.c writes them, or
 * the title and error=TEXT. Arguments: the time limit in seconds, default 60.
 */
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <quiltcut/quiltcut.h>

static void print_plan(const qc_plan *plan)
{
    static const char letters[] = "bumscl";
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);

    printf("%s optimal=%d used=%" PRId64 " bought=%" PRId64 " bound=%" PRId64,
           qc_plan_title(plan), f->outcome == QC_OUTCOME_OPTIMAL, f->used,
           f->bought, f->bound);
    for (size_t i = 0; i < f->level_count; i++) {
        const qc_level *level = qc_plan_level_at(plan, 0, i);

        printf(" %c=%" PRId64 ":%" PRId64 ":%d", letters[level->goal],
               level->value, level->bound,
               level->outcome == QC_OUTCOME_OPTIMAL);
    }
    printf("\n");
}

/* A job that was refused has no plan to take the title from. */
static void print_error(const char *line, const qc_error *err)
{
    const char *title = strstr(line, "\"title\": \"");
    char message[512];

    title = title ? title + strlen("\"title\": \"") : "?\"";
    qc_error_format(err, NULL, message, sizeof message);
    printf("%.*s error=%s: %s\n", (int)strcspn(title, "\""), title,
           qc_status_text(err->code), message);
}

static void solve(const char *line, const qc_solve_options *options)
{
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_error err;

    qc_error_init(&err);
    if (qc_job_parse(line, strlen(line), &job, &err) ||
        qc_job_solve(job, options, &plan, &err))
        print_error(line, &err);
    else
        print_plan(plan);
    fflush(stdout);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

int main(int argc, char **argv)
{
    static char line[1 << 16];
    qc_solve_options options;

    qc_solve_options_init(&options);
    options.time_limit_ms = (argc > 1 ? atoi(argv[1]) : 60) * 1000;
    options.threads = 1;
    while (fgets(line, sizeof line, stdin))
        solve(line, &options);
    return ferror(stdin) ? 1 : 0;
}
