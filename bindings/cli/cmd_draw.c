/* quiltcut draw JOB: the diagrams alone, in the format asked for. */
#include "cli.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const char help[] =
    "Usage: quiltcut draw [OPTION]... JOB\n"
    "\n"
    "Computes the cutting plan of a job, draws each fabric and strip set to\n"
    "scale, and prints the names of the files.\n"
    "\n"
    "  --format FORMAT    svg (default), pdf or png\n"
    "  --output FOLDER    where to (default: the current folder)\n"
    "  --json             print the names as JSON\n" SOLVE_HELP
    "  --help             this text\n"
    "\n"
    "JOB is a JSON file (see quiltcut schema job); - reads the standard "
    "input.\n"
    "From JOB.json come JOB-1-FABRIC.svg and so on.\n";

typedef struct draw_args {
    solve_args solve;
    const char *format, *folder;
    bool json, help;
} draw_args;

static int read_format(const char *value, void *out)
{
    if (strcmp(value, "svg") != 0 && strcmp(value, "pdf") != 0 &&
        strcmp(value, "png") != 0) {
        complain("--format: '%s' is not svg, pdf or png", value);
        return CLI_USAGE;
    }
    *(const char **)out = value;
    return CLI_DONE;
}

/* FOLDER/NAME, where NAME is the job's file name without folder and ending;
 * NULL when memory is out. */
static char *make_prefix(const char *folder, const char *job)
{
    const char *slash = strrchr(job, '/');
    const char *name = strcmp(job, "-") == 0 ? "plan" : slash ? slash + 1 : job;
    const char *dot = strrchr(name, '.');
    int n = dot && dot > name ? (int)(dot - name) : (int)strlen(name);
    size_t room = (folder ? strlen(folder) : 0) + (size_t)n + 2;
    char *prefix = malloc(room);

    if (prefix)
        snprintf(prefix, room, "%s%s%.*s", folder ? folder : "",
                 folder ? "/" : "", n, name);
    return prefix;
}

static int print_as_json(const outputs *set)
{
    int status = print_text("{\"quiltcut\": 1, \"diagrams\": [");

    for (size_t i = 0; i < set->count && status == CLI_DONE; i++) {
        if (i)
            status = print_text(", ");
        if (status == CLI_DONE)
            status = print_string(set->files[i].name);
    }
    return status == CLI_DONE ? print_text("]}\n") : status;
}

static int make_diagrams(const draw_args *args, const char *job)
{
    outputs set = {0};
    qc_plan *plan = NULL;
    char *prefix;
    int status = solve_file(job, &args->solve, &plan, &set.input);

    if (status != CLI_DONE)
        return status;
    prefix = make_prefix(args->folder, job);
    if (!prefix) {
        complain("out of memory");
        status = CLI_FAILED;
    } else if (args->folder && mkdir(args->folder, 0777) != 0 &&
               errno != EEXIST) {
        complain("%s: cannot be made: %s", args->folder, strerror(errno));
        status = CLI_FAILED;
    }
    if (status == CLI_DONE)
        status = stage_diagrams(plan, args->format, prefix, &set);
    if (status == CLI_DONE)
        status = commit_files(&set);
    if (status == CLI_DONE)
        status = args->json ? print_as_json(&set) : print_paths(&set);
    end_files(&set);
    free(prefix);
    qc_plan_destroy(plan);
    return status;
}

int cmd_draw(int argc, char **argv)
{
    draw_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false},
                      .format = "svg"};
    const cli_option options[] = {
        {.name = "format", .read = read_format, .out = &args.format},
        {.name = "output", .text = &args.folder},
        {.name = "json", .flag = &args.json},
        SOLVE_OPTIONS(args.solve),
        {.name = "help", .flag = &args.help}};
    const char *job;
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    status = read_operand(argc, argv, "job", &job);
    return status == CLI_DONE ? make_diagrams(&args, job) : status;
}
