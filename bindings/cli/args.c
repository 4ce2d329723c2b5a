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

static void complain_unknown(const char *command, const char *word,
                             const struct option *options)
{
    char names[16][WORD_LENGTH];
    const char *known[16];
    size_t n = 0;

    for (; n < 16 && options[n].name; n++) {
        snprintf(names[n], sizeof names[n], "--%s", options[n].name);
        known[n] = names[n];
    }
    complain("%s: unknown option '%s'%s", command, word,
             suggestion(word, known, n));
}

static const char *option_name(const struct option *options, int code)
{
    while (options->name && options->val != code)
        options++;
    return options->name ? options->name : "?";
}

int read_options(int argc, char **argv, const struct option *options,
                 option_fn take, void *user)
{
    char dash[3] = "-?";
    int code, status;

    opterr = 0;
    while ((code = getopt_long(argc, argv, ":h", options, NULL)) != -1) {
        if (code == ':') {
            complain("%s: --%s needs a value", argv[0],
                     option_name(options, optopt));
            return CLI_USAGE;
        }
        if (code == '?') {
            dash[1] = (char)optopt;
            if (optopt > 255)
                complain("%s: --%s takes no value", argv[0],
                         option_name(options, optopt));
            else
                complain_unknown(argv[0], optopt ? dash : argv[optind - 1],
                                 options);
            return CLI_USAGE;
        }
        status = take(code, optarg, user);
        if (status != CLI_DONE)
            return status;
    }
    return CLI_DONE;
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

int read_seconds(const char *text, int32_t *out_ms)
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
    *out_ms = (int32_t)ms;
    return CLI_DONE;
}

const char *const unit_names[] = {
    [QC_UNITS_IN] = "in", [QC_UNITS_CM] = "cm", [QC_UNITS_MM] = "mm"};

int read_units(const char *text, qc_units *out)
{
    for (int i = QC_UNITS_IN; i <= QC_UNITS_MM; i++)
        if (strcmp(text, unit_names[i]) == 0) {
            *out = (qc_units)i;
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
