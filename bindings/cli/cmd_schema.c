/* quiltcut schema NAME: the JSON Schema of a form. */
#include "cli.h"

#include <string.h>

static const char help[] =
    "Usage: quiltcut schema NAME\n"
    "\n"
    "Prints the JSON Schema (draft 2020-12) of a form.\n"
    "\n"
    "  job            what quiltcut plan and quiltcut draw read\n"
    "  plan           what quiltcut plan --json writes\n"
    "  instructions   what quiltcut check reads\n"
    "  check          what quiltcut check --json writes\n"
    "  certificate    what quiltcut plan --certificate writes\n"
    "\n"
    "  --json   as without it: a schema is JSON\n"
    "  --help   this text\n";

static const char *const names[] = {"job", "plan", "instructions", "check",
                                    "certificate"};
#define NAMES (sizeof names / sizeof *names)

enum { JSON = 256, HELP };

static const struct option options[] = {{"json", no_argument, NULL, JSON},
                                        {"help", no_argument, NULL, HELP},
                                        {NULL, 0, NULL, 0}};

static int take(int code, const char *value, void *user)
{
    (void)value;
    if (code != JSON)
        *(bool *)user = true;
    return CLI_DONE;
}

int cmd_schema(int argc, char **argv)
{
    bool wants_help = false;
    const char *name, *text;
    int status = read_options(argc, argv, options, take, &wants_help);

    if (status != CLI_DONE)
        return status;
    if (wants_help)
        return print_text(help);
    status = read_operand(argc, argv, "name", &name);
    if (status != CLI_DONE)
        return status;
    text = qc_schema_text(name);
    if (!text) {
        complain("schema: there is no form '%s'%s; the forms are job, plan, "
                 "instructions, check and certificate",
                 name, suggestion(name, names, NAMES));
        return CLI_USAGE;
    }
    return print_text(text);
}
