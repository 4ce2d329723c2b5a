/* Tables of small texts: columns that line up, or CSV. Widths are counted in
 * characters, not in bytes. */
#include "cli.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void put_cell(table *t, const char *shown, const char *value)
{
    size_t room = (t->count + 1) * sizeof(char *);
    char **texts = realloc(t->shown, room);
    char **values = realloc(t->values, room);

    t->shown = texts ? texts : t->shown;
    t->values = values ? values : t->values;
    if (!texts || !values) {
        t->failed = true;
        return;
    }
    t->shown[t->count] = strdup(shown);
    t->values[t->count] = strdup(value);
    if (t->shown[t->count])
        hide_controls(t->shown[t->count]);
    t->failed = t->failed || !t->shown[t->count] || !t->values[t->count];
    t->count++;
}

void put_count(table *t, int64_t value)
{
    char text[32];

    snprintf(text, sizeof text, "%lld", (long long)value);
    put_cell(t, text, text);
}

void put_length(table *t, const char *shown, qc_length length, qc_units units)
{
    char text[32];

    snprintf(text, sizeof text, "%.10g", qc_length_value(length, units));
    put_cell(t, shown, text);
}

void put_area(table *t, int64_t area, double whole, qc_units units)
{
    double unit = (double)QC_M / qc_length_value(QC_M, units);
    char shown[32] = "-", value[32];

    if (whole > 0)
        snprintf(shown, sizeof shown, "%.1f %%", 100 * (double)area / whole);
    snprintf(value, sizeof value, "%.10g", (double)area / unit / unit);
    put_cell(t, shown, value);
}

void end_table(table *t)
{
    for (size_t i = 0; i < t->count; i++) {
        free(t->shown[i]);
        free(t->values[i]);
    }
    free(t->shown);
    free(t->values);
}

static int characters(const char *text)
{
    int n = 0;

    for (; *text; text++)
        n += ((unsigned char)*text & 0xC0) != 0x80;
    return n;
}

static int column_width(const table *t, size_t c)
{
    int widest = characters(t->columns[c].heading);

    for (size_t i = c; i < t->count; i += t->width)
        if (characters(t->shown[i]) > widest)
            widest = characters(t->shown[i]);
    return widest;
}

/* A cell, after the blanks that are owed to those before it; hands back those
 * owed to the next, so that no line ends in blanks. */
static int write_cell(FILE *out, const column *c, int width, int owed,
                      const char *text)
{
    int blank = width - characters(text);

    if (!text[0])
        return owed + width + 2;
    fprintf(out, "%*s%s", owed + (c->number ? blank : 0), "", text);
    return 2 + (c->number ? 0 : blank);
}

#define TERMINAL 78 /* characters in a line */

/* Columns from `from` up to below `to`. */
typedef struct span {
    size_t from, to;
} span;

static int write_span(const table *t, FILE *out, const int *widths, size_t row,
                      span cells, int owed)
{
    for (size_t c = cells.from; c < cells.to; c++)
        if (t->columns[c].heading)
            owed = write_cell(out, &t->columns[c], widths[c], owed,
                              row ? t->shown[(row - 1) * t->width + c]
                                  : t->columns[c].heading);
    return owed;
}

/* The headings as row 0, then the rows; first what tells the rows apart. */
static void write_rows(const table *t, FILE *out, const int *widths, span lead,
                       span rest)
{
    for (size_t row = 0; row <= t->count / t->width; row++) {
        int owed = write_span(t, out, widths, row, lead, 0);

        write_span(t, out, widths, row, rest, owed);
        fputc('\n', out);
    }
}

static int width_of(const table *t, const int *widths, span cells)
{
    int width = 0;

    for (size_t c = cells.from; c < cells.to; c++)
        width += t->columns[c].heading ? widths[c] + 2 : 0;
    return width;
}

/* As many columns from `from` on as there is room for, one at the least. */
static size_t end_of(const table *t, const int *widths, size_t from, int room)
{
    size_t to = from + 1;

    while (to < t->width &&
           width_of(t, widths, (span){from, to + 1}) <= room + 2)
        to++;
    return to;
}

/* What is too wide for a terminal is cut into tables that stand below each
 * other, each with the leading columns. */
static void write_text(const table *t, FILE *out, int *widths)
{
    span lead = {0, t->leads};
    int room;

    for (size_t c = 0; c < t->width; c++)
        if (t->columns[c].heading)
            widths[c] = column_width(t, c);
    room = TERMINAL - width_of(t, widths, lead);
    for (size_t from = t->leads, to; from < t->width; from = to) {
        to = t->leads ? end_of(t, widths, from, room) : t->width;
        if (from > t->leads)
            fputc('\n', out);
        write_rows(t, out, widths, lead, (span){from, to});
    }
}

/* Spreadsheets take what begins so for a formula, and compute it; texts get a
 * mark before it that makes them texts there. */
static bool is_formula(const column *c, const char *value)
{
    return !c->number && value[0] && strchr("=+-@\t", value[0]);
}

/* Without controls, as it is shown: names of files may have some. */
static void write_quoted(FILE *out, const column *c, char *value)
{
    const char *mark = is_formula(c, value) ? "'" : "";

    hide_controls(value);
    if (!value[strcspn(value, ",\"\r\n")]) {
        fprintf(out, "%s%s", mark, value);
        return;
    }
    fprintf(out, "\"%s", mark);
    for (; *value; value++) {
        if (*value == '"')
            fputc('"', out);
        fputc(*value, out);
    }
    fputc('"', out);
}

static void write_csv(const table *t, FILE *out)
{
    for (size_t c = 0; c < t->width; c++)
        fprintf(out, "%s%s", c ? "," : "", t->columns[c].key);
    for (size_t i = 0; i < t->count; i++) {
        fputc(i % t->width ? ',' : '\n', out);
        write_quoted(out, &t->columns[i % t->width], t->values[i]);
    }
    fputc('\n', out);
}

int print_table(const table *t, bool csv)
{
    int *widths = calloc(t->width, sizeof *widths);
    char *text = NULL;
    size_t size;
    FILE *out = t->failed || !widths ? NULL : open_memstream(&text, &size);
    bool good = out;
    int status;

    if (out && csv)
        write_csv(t, out);
    else if (out)
        write_text(t, out, widths);
    if (out) {
        good = !ferror(out);
        good = fclose(out) == 0 && good;
    }
    if (good) {
        status = print_out(text, size);
    } else {
        complain("out of memory");
        status = CLI_FAILED;
    }
    free(text);
    free(widths);
    return status;
}

static int print_json_row(const table *t, size_t row)
{
    int status = print_text(row ? ",\n{" : "\n{");

    for (size_t c = 0; c < t->width && status == CLI_DONE; c++) {
        const char *value = t->values[row * t->width + c];

        status = print_text(c ? ", " : "");
        if (status == CLI_DONE)
            status = print_string(t->columns[c].key);
        if (status == CLI_DONE)
            status = print_text(": ");
        if (status == CLI_DONE)
            status = t->columns[c].number && value[0] ? print_text(value)
                                                      : print_string(value);
    }
    return status == CLI_DONE ? print_text("}") : status;
}

int print_table_json(const table *t, const char *name)
{
    int status;

    if (t->failed) {
        complain("out of memory");
        return CLI_FAILED;
    }
    status = print_text("{\"quiltcut\": 1, \"");
    if (status == CLI_DONE)
        status = print_text(name);
    if (status == CLI_DONE)
        status = print_text("\": [");
    for (size_t row = 0; row < t->count / t->width && status == CLI_DONE; row++)
        status = print_json_row(t, row);
    return status == CLI_DONE ? print_text("]}\n") : status;
}
