/* quiltcut plan JOB: the plan as text or JSON, diagrams beside it on demand.
 *
 * Files appear first, all together; then the standard output is written, so
 * that what it tells of files is true. */
#include "cli.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut plan [OPTION]... JOB\n"
    "\n"
    "Computes the cutting plan of a job and prints it: what to buy, the order\n"
    "of cuts, what is left over, and how good the plan is.\n"
    "\n"
    "  --json             print the plan as JSON (see quiltcut schema plan)\n"
    "  --output FILE      write the plan to FILE\n"
    "  --certificate FILE write to FILE why no plan buys less, for\n"
    "                     quiltcut certify\n"
    "  --diagram PREFIX   draw each fabric and strip set to PREFIX-1-NAME.svg "
    "...\n" SOLVE_HELP "  --help             this text\n"
    "\n"
    "JOB is a JSON file (see quiltcut schema job); - reads the standard "
    "input.\n"
    "Ctrl-C ends the search with the best plan found so far.\n";

typedef struct plan_args {
    solve_args solve;
    bool json, help;
    const char *output, *diagram, *certificate;
} plan_args;

/* Says which fabrics have no proof in a certificate. */
static qc_status tell_missing(const char *text)
{
    char *report, *line, *end;
    qc_verdict verdict;
    qc_status status =
        qc_certificate_check(text, strlen(text), &verdict, &report, NULL);

    if (status != QC_STATUS_OK)
        return status;
    for (line = report; *line && verdict != QC_VERDICT_PROVED; line = end) {
        end = line + strcspn(line, "\n");
        if (*end)
            *end++ = '\0';
        if (strstr(line, ": no certificate: "))
            complain("%s", line);
    }
    qc_text_destroy(report);
    return QC_STATUS_OK;
}

static int stage_certificate(const plan_args *args, const qc_plan *plan,
                             outputs *set)
{
    char *text = NULL;
    qc_status made = qc_plan_certificate(plan, &text, NULL);
    int status;

    if (made == QC_STATUS_OK)
        made = tell_missing(text);
    status = made == QC_STATUS_OK ? stage_text(set, args->certificate, text)
                                  : not_made(made);
    qc_text_destroy(text);
    return status;
}

static int deliver(const plan_args *args, const qc_plan *plan, const char *text,
                   outputs *set)
{
    int status = stage_text(set, args->output, text);

    if (status == CLI_DONE && args->certificate)
        status = stage_certificate(args, plan, set);
    if (status == CLI_DONE && args->diagram)
        status = stage_diagrams(plan, "svg", args->diagram, set);
    if (status == CLI_DONE)
        status = deliver_text(set, args->output, text);
    if (status != CLI_DONE || args->json || !args->diagram)
        return status;
    if (!args->output)
        status = print_text("\nDiagrams:\n");
    return status == CLI_DONE ? print_paths(set) : status;
}

static int make_plan(const plan_args *args, const char *job)
{
    outputs set = {0};
    qc_plan *plan = NULL;
    char *text = NULL;
    qc_status made;
    int status = solve_file(job, &args->solve, &plan, &set.input);

    if (status != CLI_DONE)
        return status;
    made = args->json ? qc_plan_json(plan, &text, NULL)
                      : qc_plan_text(plan, &text, NULL);
    status =
        made == QC_STATUS_OK ? deliver(args, plan, text, &set) : not_made(made);
    end_files(&set);
    qc_text_destroy(text);
    qc_plan_destroy(plan);
    return status;
}

int cmd_plan(int argc, char **argv)
{
    plan_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false}};
    const cli_option options[] = {
        {.name = "json", .flag = &args.json},
        {.name = "output", .text = &args.output},
        {.name = "diagram", .text = &args.diagram},
        {.name = "certificate", .text = &args.certificate},
        SOLVE_OPTIONS(args.solve),
        {.name = "help", .flag = &args.help}};
    const char *job;
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    status = read_operand(argc, argv, "job", &job);
    return status == CLI_DONE ? make_plan(&args, job) : status;
}
