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
    "  blocks [NAME] the traditional blocks, or what one of them takes\n"
    "  batch JOB...  the fabric to buy for many jobs, as a table\n"
    "  compare JOB   the same job at many sizes of its blocks or the quilt\n"
    "  chart         what to cut for a block at many finished sizes\n"
    "  check INSTRUCTIONS\n"
    "                whether cutting instructions that somebody wrote are "
    "right\n"
    "  certify FILE  check the proof that a plan buys no more than it must\n"
    "  schema NAME   the JSON Schema of a form: job, plan, instructions, "
    "check\n"
    "                or certificate\n"
    "\n"
    "JOB and INSTRUCTIONS are JSON files; - reads the standard input.\n"
    "quiltcut COMMAND --help tells more about one; quiltcut --version tells\n"
    "the version.\n"
    "\n"
    "Exit: 0 done, 1 a check has found faults, 2 wrong command line, 3 wrong "
    "or\n"
    "unreadable input, 4 a piece cannot be cut from its fabric, 5 solver or\n"
    "output failed.\n";

static const struct command {
    const char *name;
    int (*run)(int argc, char **argv);
} commands[] = {
    {"plan", cmd_plan},       {"draw", cmd_draw},       {"batch", cmd_batch},
    {"compare", cmd_compare}, {"blocks", cmd_blocks},   {"chart", cmd_chart},
    {"check", cmd_check},     {"certify", cmd_certify}, {"schema", cmd_schema},
};
#define COMMANDS (sizeof commands / sizeof *commands)

/* Bytes of the character at `text`, 1 to 4, by its first byte; 0 when the bytes
 * that must follow do not. */
static size_t character_at(const unsigned char *text)
{
    size_t n = text[0] < 0x80                      ? 1
               : text[0] >= 0xC2 && text[0] < 0xE0 ? 2
               : text[0] >= 0xE0 && text[0] < 0xF0 ? 3
               : text[0] >= 0xF0 && text[0] < 0xF5 ? 4
                                                   : 0;

    for (size_t i = 1; i < n; i++)
        if ((text[i] & 0xC0) != 0x80)
            return 0;
    return n;
}

/* U+0080 to U+009F, and those that break lines or turn the direction of what is
 * read: U+2028 to U+202E, U+2066 to U+2069. */
static bool is_long_control(const unsigned char *at, size_t n)
{
    if (n == 2)
        return at[0] == 0xC2 && at[1] < 0xA0;
    if (n != 3 || at[0] != 0xE2)
        return false;
    return (at[1] == 0x80 && at[2] >= 0xA8 && at[2] <= 0xAE) ||
           (at[1] == 0x81 && at[2] >= 0xA6 && at[2] <= 0xA9);
}

void hide_controls(char *text)
{
    unsigned char *at = (unsigned char *)text;

    while (*at) {
        size_t n = character_at(at);

        if (n == 0 || *at < 0x20 || *at == 0x7F) {
            *at++ = '?';
        } else {
            if (is_long_control(at, n))
                memset(at, '?', n);
            at += n;
        }
    }
}

void complain(const char *format, ...)
{
    char line[1024];
    va_list args;

    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    hide_controls(line);
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
    signal(SIGXFSZ, SIG_IGN); /* so is a file that must not grow */
    return run(argc, argv);
}
