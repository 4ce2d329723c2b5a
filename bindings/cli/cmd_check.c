/* quiltcut check INSTRUCTIONS: what is wrong with cutting instructions. */
#include "cli.h"

#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut check [OPTION]... INSTRUCTIONS\n"
    "\n"
    "Carries out cutting instructions that somebody wrote, on bare fabric, "
    "and\n"
    "tells which steps are short or over and by how much, which pieces have a\n"
    "wrong size, how much fabric it really takes and how much is least, and "
    "what\n"
    "is short on narrower and wider fabric.\n"
    "\n"
    "  --json             print the check as JSON (see quiltcut schema check)\n"
    "  --output FILE      write the check to FILE\n"
    "  --units UNITS      of bare numbers in a table: in, cm or mm\n"
    "  --no-optimum       do not compute the least there is to buy\n"
    "  --time-limit S     look for that at most S seconds, such as 0.5 or 60\n"
    "  --threads N        plan N fabrics at once\n"
    "  --help             this text\n"
    "\n"
    "INSTRUCTIONS is a JSON file (see quiltcut schema instructions), a plan\n"
    "as quiltcut plan --json prints it, or a table: comma-separated values "
    "below\n"
    "the headings fabric, cut width, cut length, count. - reads the standard\n"
    "input.\n"
    "Exit: 0 no fault, 1 faults, and as every command else.\n";

typedef struct check_args {
    solve_args solve;
    bool json, no_optimum, help;
    qc_units units;
    const char *output;
} check_args;

static int deliver(const check_args *args, const qc_check *check, outputs *set)
{
    char *text = NULL;
    qc_status made = args->json ? qc_check_json(check, &text, NULL)
                                : qc_check_text(check, &text, NULL);
    int status;

    if (made != QC_STATUS_OK)
        return not_made(made);
    status = stage_text(set, args->output, text);
    if (status == CLI_DONE)
        status = deliver_text(set, args->output, text);
    qc_text_destroy(text);
    if (status != CLI_DONE)
        return status;
    return qc_check_is_clean(check) ? CLI_DONE : CLI_FAULTS;
}

static int carry_out(const check_args *args, const char *name,
                     const qc_instructions *instructions, outputs *set)
{
    qc_check_options how;
    qc_solve_options solve;
    qc_check *check = NULL;
    qc_error err;
    qc_status status;
    int code = begin_solve(&args->solve, &solve);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    qc_check_options_init(&how);
    how.skip_optimum = args->no_optimum;
    how.solve = &solve;
    status = qc_instructions_check(instructions, &how, &check, &err);
    end_solve(status == QC_STATUS_OK);
    code = status == QC_STATUS_OK ? deliver(args, check, set)
                                  : report_error(&err, status, name);
    qc_check_destroy(check);
    return code;
}

/* JSON begins with a brace; anything else is a table. */
static qc_status parse(const check_args *args, const char *text, size_t size,
                       qc_instructions **out, qc_error *err)
{
    size_t at = size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;

    while (at < size && strchr(" \t\r\n", text[at]) && text[at])
        at++;
    if (at == size || text[at] == '{' || text[at] == '[')
        return qc_instructions_parse(text, size, out, err);
    return qc_instructions_parse_table(text, size, args->units, out, err);
}

static int check_file(const check_args *args, const char *name)
{
    outputs set = {0};
    qc_instructions *instructions = NULL;
    qc_error err;
    qc_status status;
    char *text;
    size_t size;
    int code = read_input(name, &text, &size, &set.input);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    status = parse(args, text, size, &instructions, &err);
    free(text);
    code = status == QC_STATUS_OK ? carry_out(args, name, instructions, &set)
                                  : report_error(&err, status, name);
    end_files(&set);
    qc_instructions_destroy(instructions);
    return code;
}

int cmd_check(int argc, char **argv)
{
    check_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false}};
    const cli_option options[] = {
        {.name = "json", .flag = &args.json},
        {.name = "output", .text = &args.output},
        {.name = "units", .read = read_units, .out = &args.units},
        {.name = "no-optimum", .flag = &args.no_optimum},
        SEARCH_OPTIONS(args.solve),
        {.name = "help", .flag = &args.help}};
    const char *name;
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    status = read_operand(argc, argv, "instructions", &name);
    return status == CLI_DONE ? check_file(&args, name) : status;
}
