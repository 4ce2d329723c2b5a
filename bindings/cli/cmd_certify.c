/* quiltcut certify FILE: checks a certificate, by itself. */
#include "cli.h"

#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut certify FILE\n"
    "\n"
    "Checks a certificate that quiltcut plan --certificate wrote: that no "
    "plan\n"
    "buys less of each fabric. Prints a line for every fabric. Nothing but\n"
    "FILE is looked at, and nothing is searched for.\n"
    "\n"
    "  --json   print the verdict as JSON\n"
    "  --help   this text\n"
    "\n"
    "FILE is a certificate (see quiltcut schema certificate); - reads the\n"
    "standard input.\n"
    "\n"
    "Exit: 0 every length is proved, 1 some proof does not hold or is not\n"
    "there.\n";

typedef struct certify_args {
    bool json, help;
} certify_args;

static int print_verdict(qc_verdict verdict, const char *report, bool json)
{
    static const char *const words[] = {"proved", "partly", "refused"};
    int status = CLI_DONE;

    if (!json)
        return print_text(report);
    status = print_text("{\"quiltcut\": 1, \"verdict\": \"");
    if (status == CLI_DONE)
        status = print_text(words[verdict]);
    return status == CLI_DONE ? print_text("\"}\n") : status;
}

static int check(const char *name, const certify_args *args)
{
    char *text, *report = NULL;
    size_t size;
    file_mark mark;
    qc_verdict verdict;
    qc_error err;
    qc_status made;
    int status = read_input(name, &text, &size, &mark);

    if (status != CLI_DONE)
        return status;
    qc_error_init(&err);
    made = qc_certificate_check(text, size, &verdict, &report, &err);
    free(text);
    if (made != QC_STATUS_OK)
        return report_error(&err, made, name);
    status = print_verdict(verdict, report, args->json);
    qc_text_destroy(report);
    if (status == CLI_DONE && verdict != QC_VERDICT_PROVED)
        status = CLI_FAULTS;
    return status;
}

int cmd_certify(int argc, char **argv)
{
    certify_args args = {false, false};
    const cli_option options[] = {{.name = "json", .flag = &args.json},
                                  {.name = "help", .flag = &args.help}};
    const char *name;
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    status = read_operand(argc, argv, "certificate", &name);
    return status == CLI_DONE ? check(name, &args) : status;
}
