/* Reading the command line: options, operands, numbers, and what a misspelt
 * word was probably meant to be. */
#include "cli.h"

#include <stdio.h>
#include <string.h>

#define WORD_LENGTH 32

/* Letters wrong, missing or too many between two words of at most WORD_LENGTH
 * letters. */
static size_t slips(const char *a, const char *b)
{
    size_t row[WORD_LENGTH + 1], n = strlen(b);

    for (size_t j = 0; j <= n; j++)
        row[j] = j;
    for (size_t i = 1; a[i - 1]; i++) {
        size_t corner = row[0];

        row[0] = i;
        for (size_t j = 1; j <= n; j++) {
            size_t least = corner + (a[i - 1] != b[j - 1]);

            if (row[j] + 1 < least)
                least = row[j] + 1;
            if (row[j - 1] + 1 < least)
                least = row[j - 1] + 1;
            corner = row[j];
            row[j] = least;
        }
    }
    return row[n];
}

const char *nearest_word(const char *word, const char *const *known, size_t n)
{
    const char *best = NULL;
    size_t fewest = strlen(word) / 3 + 1;

    if (strlen(word) > WORD_LENGTH)
        return NULL;
    for (size_t i = 0; i < n; i++) {
        size_t wrong = slips(word, known[i]);

        if (wrong <= fewest && (!best || wrong < fewest)) {
            best = known[i];
            fewest = wrong;
        }
    }
    return best;
}

const char *suggestion(const char *word, const char *const *known, size_t n)
{
    static char text[WORD_LENGTH + 32];
    const char *best = nearest_word(word, known, n);

    text[0] = '\0';
    if (best)
        snprintf(text, sizeof text, " (did you mean '%s'?)", best);
    return text;
}

/* Codes of options that getopt knows by name; those below are letters. */
#define FIRST_CODE 256

static void complain_unknown(const char *command, const char *word,
                             const cli_option *options, size_t n)
{
    char names[OPTION_LIMIT][WORD_LENGTH];
    const char *known[OPTION_LIMIT];

    for (size_t i = 0; i < n; i++) {
        snprintf(names[i], sizeof names[i], "--%s", options[i].name);
        known[i] = names[i];
    }
    complain("%s: unknown option '%s'%s", command, word,
             suggestion(word, known, n));
}

/* What getopt calls ':' (no value) or '?'. */
static int complain_option(char **argv, int code, const cli_option *options,
                           size_t n)
{
    char dash[3] = "-?";
    const char *name =
        optopt >= FIRST_CODE ? options[optopt - FIRST_CODE].name : NULL;

    if (name)
        complain("%s: --%s %s", argv[0], name,
                 code == ':' ? "needs a value" : "takes no value");
    else {
        dash[1] = (char)optopt;
        complain_unknown(argv[0], optopt ? dash : argv[optind - 1], options, n);
    }
    return CLI_USAGE;
}

static int fill_in(const cli_option *option, const char *value)
{
    if (option->flag)
        *option->flag = true;
    else if (option->text)
        *option->text = value;
    else
        return option->read(value, option->out);
    return CLI_DONE;
}

static size_t find_option(const cli_option *options, size_t n, const char *name)
{
    size_t i = 0;

    while (i + 1 < n && strcmp(options[i].name, name) != 0)
        i++;
    return i;
}

int read_options(int argc, char **argv, const cli_option *options, size_t n)
{
    struct option named[OPTION_LIMIT + 1] = {{NULL, 0, NULL, 0}};
    int code, status;

    for (size_t i = 0; i < n; i++)
        named[i] = (struct option){
            options[i].name, options[i].flag ? no_argument : required_argument,
            NULL, FIRST_CODE + (int)i};
    opterr = 0;
    while ((code = getopt_long(argc, argv, ":h", named, NULL)) != -1) {
        if (code == ':' || code == '?')
            return complain_option(argv, code, options, n);
        status = fill_in(code == 'h' ? &options[find_option(options, n, "help")]
                                     : &options[code - FIRST_CODE],
                         optarg);
        if (status != CLI_DONE)
            return status;
    }
    return CLI_DONE;
}

int refuse_two_forms(const char *command, bool json, bool csv)
{
    if (!json || !csv)
        return CLI_DONE;
    complain("%s: --json and --csv exclude each other; see quiltcut %s --help",
             command, command);
    return CLI_USAGE;
}

int read_operand(int argc, char **argv, const char *what, const char **out)
{
    if (optind == argc) {
        complain("%s: no %s given; see quiltcut %s --help", argv[0], what,
                 argv[0]);
        return CLI_USAGE;
    }
    if (optind + 1 < argc) {
        complain("%s: one %s at a time; '%s' is one too many", argv[0], what,
                 argv[optind + 1]);
        return CLI_USAGE;
    }
    *out = argv[optind];
    return CLI_DONE;
}

/* Digits as a number; false when there are none or the number passes `most`.
 */
static bool take_digits(const char **text, int64_t most, int64_t *out)
{
    const char *at = *text;
    int64_t number = 0;

    for (; *at >= '0' && *at <= '9'; at++) {
        number = 10 * number + (*at - '0');
        if (number > most)
            return false;
    }
    if (at == *text)
        return false;
    *text = at;
    *out = number;
    return true;
}

int read_seconds(const char *text, void *out)
{
    const char *at = text;
    int64_t ms = 0, digit = 100;
    bool good = take_digits(&at, 86400, &ms);

    ms *= 1000;
    if (good && *at == '.') {
        good = at[1] != '\0';
        for (at++; *at >= '0' && *at <= '9' && digit; at++, digit /= 10)
            ms += (*at - '0') * digit;
    }
    if (!good || *at || ms < 1 || ms > 86400000) {
        complain("--time-limit: '%s' is not a number of seconds from 0.001 to "
                 "86400",
                 text);
        return CLI_USAGE;
    }
    *(int32_t *)out = (int32_t)ms;
    return CLI_DONE;
}

const char *const unit_names[] = {
    [QC_UNITS_IN] = "in", [QC_UNITS_CM] = "cm", [QC_UNITS_MM] = "mm"};

int read_units(const char *text, void *out)
{
    for (int i = QC_UNITS_IN; i <= QC_UNITS_MM; i++)
        if (strcmp(text, unit_names[i]) == 0) {
            *(qc_units *)out = (qc_units)i;
            return CLI_DONE;
        }
    complain("--units: '%s' is not in, cm or mm", text);
    return CLI_USAGE;
}

int read_count(const char *option, const char *text, int32_t most, int32_t *out)
{
    const char *at = text;
    int64_t number = 0;

    if (!take_digits(&at, most, &number) || *at || number < 1) {
        complain("--%s: '%s' is not a whole number from 1 to %d", option, text,
                 (int)most);
        return CLI_USAGE;
    }
    *out = (int32_t)number;
    return CLI_DONE;
}

int read_threads(const char *text, void *out)
{
    return read_count("threads", text, 256, out);
}
