/* quiltcut schema NAME: the JSON Schema of a form. */
#include "cli.h"

#include <stdio.h>

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
    "  batch          what quiltcut batch --json writes\n"
    "  compare        what quiltcut compare --json writes\n"
    "  chart          what quiltcut chart --json writes\n"
    "  blocks         what quiltcut blocks --json writes\n"
    "\n"
    "  --json   as without it: a schema is JSON\n"
    "  --help   this text\n";

static const char *const names[] = {"job",     "plan",        "instructions",
                                    "check",   "certificate", "batch",
                                    "compare", "chart",       "blocks"};
#define NAMES (sizeof names / sizeof *names)

/* "job, plan and check" */
static void list_names(char *list, size_t size)
{
    size_t used = 0;

    for (size_t i = 0; i < NAMES; i++)
        used += (size_t)snprintf(list + used, size - used, "%s%s",
                                 !i              ? ""
                                 : i + 1 < NAMES ? ", "
                                                 : " and ",
                                 names[i]);
}

int cmd_schema(int argc, char **argv)
{
    bool json, wants_help = false;
    const cli_option options[] = {{.name = "json", .flag = &json},
                                  {.name = "help", .flag = &wants_help}};
    const char *name, *text;
    char list[256];
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (wants_help)
        return print_text(help);
    status = read_operand(argc, argv, "name", &name);
    if (status != CLI_DONE)
        return status;
    text = qc_schema_text(name);
    if (!text) {
        list_names(list, sizeof list);
        complain("schema: there is no form '%s'%s; the forms are %s", name,
                 suggestion(name, names, NAMES), list);
        return CLI_USAGE;
    }
    return print_text(text);
}
