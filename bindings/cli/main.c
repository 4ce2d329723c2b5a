/* quiltcut: the command line over libquiltcut.
 *
 * It uses the public headers only. Every failure is one line on stderr and an
 * exit code; standard output carries results and nothing else. */
#include "cli.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char help[] =
    "Usage: quiltcut COMMAND ...\n"
    "\n"
    "Cutting plans for quilts: from the pieces needed to the fabric to buy,\n"
    "proved minimal, with the order of cuts and a picture to scale.\n"
    "\n"
    "  plan JOB      the cutting plan of a job\n"
    "  draw JOB      the cutting diagrams of a job\n"
    "  schema NAME   the JSON Schema of a form: job or plan\n"
    "\n"
    "JOB is a JSON file; - reads the standard input.\n"
    "quiltcut COMMAND --help tells more about one; quiltcut --version tells\n"
    "the version.\n"
    "\n"
    "Exit: 0 done, 2 wrong command line, 3 wrong or unreadable input, 4 a\n"
    "piece cannot be cut from its fabric, 5 solver or output failed.\n";

static const struct command {
    const char *name;
    int (*run)(int argc, char **argv);
} commands[] = {
    {"plan", cmd_plan},
    {"draw", cmd_draw},
    {"schema", cmd_schema},
};
#define COMMANDS (sizeof commands / sizeof *commands)

void complain(const char *format, ...)
{
    char line[1024];
    va_list args;

    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    for (char *c = line; *c; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7F)
            *c = '?';
    fprintf(stderr, "quiltcut: %s\n", line);
}

static int unknown_command(const char *word)
{
    const char *known[COMMANDS + 2] = {"--help", "--version"};

    for (size_t i = 0; i < COMMANDS; i++)
        known[i + 2] = commands[i].name;
    complain("unknown %s '%s'%s; quiltcut --help lists all",
             word[0] == '-' ? "option" : "command", word,
             suggestion(word, known, COMMANDS + 2));
    return CLI_USAGE;
}

/* A file opened later must not take the number of a closed standard stream;
 * each is opened the wrong way round, so that using it still fails. */
static void hold_standard_streams(void)
{
    for (int fd = 0; fd <= 2; fd++)
        if (fcntl(fd, F_GETFD) < 0 && errno == EBADF)
            if (open("/dev/null", fd == 0 ? O_WRONLY : O_RDONLY) != fd)
                exit(CLI_FAILED);
}

static int run(int argc, char **argv)
{
    if (argc < 2) {
        complain("no command given; quiltcut --help lists all");
        return CLI_USAGE;
    }
    for (size_t i = 0; i < COMMANDS; i++)
        if (strcmp(argv[1], commands[i].name) == 0)
            return commands[i].run(argc - 1, argv + 1);
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0)
        return print_text(help);
    if (strcmp(argv[1], "--version") == 0) {
        char line[64];
        int n = snprintf(line, sizeof line, "quiltcut %s\n", qc_version());

        return print_out(line, (size_t)n);
    }
    return unknown_command(argv[1]);
}

int main(int argc, char **argv)
{
    hold_standard_streams();
    /* A closed pipe is reported like a full disk, not by a silent end. */
    signal(SIGPIPE, SIG_IGN);
    return run(argc, argv);
}
