/* Sizes on the command line: ranges of block sizes, quilts, beds. */
#include "compare.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST_SIZES QC_MAX_COMPARED

static int read_length(const char *option, const char *text, qc_units units,
                       qc_length *out)
{
    qc_error err;

    qc_error_init(&err);
    if (qc_length_parse(text, units, QC_PARSE_EXACT, out, &err)) {
        complain("--%s: '%s': %s", option, text, err.problem);
        return CLI_USAGE;
    }
    if (*out < 1) {
        complain("--%s: '%s' is not more than 0", option, text);
        return CLI_USAGE;
    }
    return CLI_DONE;
}

static int no_memory(void)
{
    complain("out of memory");
    return CLI_FAILED;
}

static int too_many(const char *option)
{
    complain("--%s: more than %d sizes", option, MOST_SIZES);
    return CLI_USAGE;
}

/* From `from` to `to`, both among them where the step allows. */
static int fill_range(qc_length from, qc_length to, qc_length step,
                      qc_length **out, size_t *count)
{
    if (to < from) {
        complain("--block-sizes: the range ends before it begins");
        return CLI_USAGE;
    }
    if ((to - from) / step >= MOST_SIZES)
        return too_many("block-sizes");
    *count = (size_t)((to - from) / step) + 1;
    *out = calloc(*count, sizeof **out);
    for (size_t i = 0; *out && i < *count; i++)
        (*out)[i] = from + (qc_length)i * step;
    return *out ? CLI_DONE : no_memory();
}

static int read_range(char *text, char *dots, const char *step, qc_units units,
                      qc_length **out, size_t *count)
{
    qc_length from, to = 0, by = units == QC_UNITS_IN ? QC_INCH : QC_CM;
    int status;

    *dots = '\0';
    status = read_length("block-sizes", text, units, &from);
    if (status == CLI_DONE)
        status = read_length("block-sizes", dots + 2, units, &to);
    if (status == CLI_DONE && step)
        status = read_length("step", step, units, &by);
    return status == CLI_DONE ? fill_range(from, to, by, out, count) : status;
}

static size_t count_commas(const char *text)
{
    size_t n = 0;

    for (; *text; text++)
        n += *text == ',';
    return n;
}

/* The part up to the next comma, which ends there; NULL beyond the last. */
static char *next_part(char **text)
{
    char *part = *text, *comma;

    if (!part)
        return NULL;
    comma = strchr(part, ',');
    if (comma)
        *comma = '\0';
    *text = comma ? comma + 1 : NULL;
    return part;
}

static int read_list(char *text, const char *step, qc_units units,
                     qc_length **out, size_t *count)
{
    int status = CLI_DONE;
    char *part;

    if (step) {
        complain("--step: is of a range, such as --block-sizes 4..12");
        return CLI_USAGE;
    }
    if (count_commas(text) >= MOST_SIZES)
        return too_many("block-sizes");
    *out = calloc(count_commas(text) + 1, sizeof **out);
    if (!*out)
        return no_memory();
    while (status == CLI_DONE && (part = next_part(&text)))
        status = read_length("block-sizes", part, units, &(*out)[(*count)++]);
    return status;
}

int read_block_sizes(const char *text, const char *step, qc_units units,
                     qc_length **out, size_t *count)
{
    char *copy = strdup(text);
    char *dots;
    int status;

    *out = NULL;
    *count = 0;
    if (!copy)
        return no_memory();
    dots = strstr(copy, "..");
    status = dots ? read_range(copy, dots, step, units, out, count)
                  : read_list(copy, step, units, out, count);
    free(copy);
    return status;
}

/* "WxL", in which blanks may stand. */
static int read_pair(const char *option, const char *text, qc_units units,
                     qc_quilt_size *out)
{
    const char *x = strchr(text, 'x');
    char *width = x ? strndup(text, (size_t)(x - text)) : NULL;
    int status;

    if (!x) {
        complain("--%s: '%s' is not a width and a length such as 60x72", option,
                 text);
        return CLI_USAGE;
    }
    if (!width)
        return no_memory();
    status = read_length(option, width, units, &out->width);
    if (status == CLI_DONE)
        status = read_length(option, x + 1, units, &out->length);
    free(width);
    return status;
}

int read_quilt(const char *text, qc_units units, qc_quilt_size *out)
{
    out->name = NULL;
    return read_pair("quilt", text, units, out);
}

/* Mattresses, width and length. Crib and twin: a trade council's page on
 * mattress sizes; the others: a reference page on sizes. Sources differ by an
 * inch or two, so any other may be given. */
static const struct bed {
    const char *name;
    int width, length; /* inches */
} beds[] = {
    {"crib", 27, 52}, {"twin", 38, 75},  {"long-twin", 39, 80},
    {"full", 54, 75}, {"queen", 60, 80}, {"king", 78, 80},
};
#define BEDS (sizeof beds / sizeof *beds)

static int find_bed(const char *name, qc_quilt_size *out)
{
    const char *known[BEDS];

    for (size_t i = 0; i < BEDS; i++) {
        known[i] = beds[i].name;
        if (strcmp(name, beds[i].name) == 0) {
            out->width = beds[i].width * QC_INCH;
            out->length = beds[i].length * QC_INCH;
            return CLI_DONE;
        }
    }
    complain("--sizes: no bed is called '%s'%s; beds are crib, twin, "
             "long-twin, full, queen and king, others are given as NAME=WxL",
             name, suggestion(name, known, BEDS));
    return CLI_USAGE;
}

static int read_bed(char *text, qc_units units, qc_quilt_size *out)
{
    char *sign = strchr(text, '=');

    out->name = text;
    if (!sign && text[0] >= '0' && text[0] <= '9')
        return read_pair("sizes", text, units, out);
    if (!sign)
        return find_bed(text, out);
    *sign = '\0';
    return read_pair("sizes", sign + 1, units, out);
}

int read_beds(const char *text, const bed_args *args, qc_units units,
              qc_quilt_size **out, size_t *count)
{
    qc_length drop = 0, tuck = 0;
    int status = CLI_DONE;
    char *copy, *part;

    *out = NULL;
    *count = 0;
    if (args->drop)
        status = read_length("drop", args->drop, units, &drop);
    if (status == CLI_DONE && args->tuck)
        status = read_length("tuck", args->tuck, units, &tuck);
    if (status != CLI_DONE)
        return status;
    if (count_commas(text) >= MOST_SIZES)
        return too_many("sizes");
    copy = strdup(text);
    *out = calloc(count_commas(text) + 1, sizeof **out);
    if (!copy || !*out) {
        free(copy);
        return no_memory();
    }
    (*out)[0].name = copy; /* in any case, for the caller to free */
    while (status == CLI_DONE && (part = next_part(&copy))) {
        qc_quilt_size *bed = &(*out)[(*count)++];

        status = read_bed(part, units, bed);
        bed->width += 2 * drop;
        bed->length += drop + tuck;
    }
    return status;
}
