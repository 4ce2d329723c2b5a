/* The rows of a comparison: kept, and printed in three forms. */
#include "compare.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void keep_row(const qc_compare_row *row, void *user)
{
    kept_rows *rows = user;
    kept_row *kept = &rows->at[rows->count++];
    char line[1024], size[32];

    kept->row = *row;
    kept->row.plan = NULL;
    if (row->quilt) {
        kept->quilt = *row->quilt;
        kept->row.quilt = &kept->quilt;
    }
    kept->bought = calloc(rows->fabric_count + 1, sizeof *kept->bought);
    rows->failed = rows->failed || !kept->bought;
    for (size_t i = 0; kept->bought && row->plan && i < rows->fabric_count; i++)
        kept->bought[i] = qc_plan_fabric_at(row->plan, i)->bought;
    if (row->plan)
        return;
    qc_length_format(row->block_size, rows->units, size, sizeof size);
    qc_error_format(row->err, NULL, line, sizeof line);
    complain("compare: %s%s%s %s: %s", rows->of_blocks ? "" : kept->quilt.name,
             rows->of_blocks ? "" : ", blocks of ", size,
             unit_names[rows->units], line);
}

static void put_number(table *t, double number)
{
    char text[32];

    snprintf(text, sizeof text, "%.10g", number);
    put_cell(t, text, text);
}

/* "4 in"; of quilts "queen 84 x 92 in" */
static void put_size(table *t, const kept_rows *rows, const kept_row *kept)
{
    char size[32], width[32], length[32], text[320];

    qc_length_format(kept->row.block_size, rows->units, size, sizeof size);
    snprintf(text, sizeof text, "%s %s", size, unit_names[rows->units]);
    if (!rows->of_blocks) {
        qc_length_format(kept->quilt.width, rows->units, width, sizeof width);
        qc_length_format(kept->quilt.length, rows->units, length,
                         sizeof length);
        snprintf(text, sizeof text, "%s: %s x %s %s", kept->quilt.name, width,
                 length, unit_names[rows->units]);
        put_cell(t, text, kept->quilt.name);
    } else {
        put_length(t, text, kept->row.block_size, rows->units);
    }
}

/* "30 (5 x 6)" */
static void put_blocks(table *t, const qc_compare_row *row)
{
    char text[96], value[32];

    snprintf(value, sizeof value, "%lld", (long long)row->blocks);
    snprintf(text, sizeof text, "%s", value);
    if (row->columns)
        snprintf(text, sizeof text, "%s (%lld x %lld)", value,
                 (long long)row->columns, (long long)row->rows);
    put_cell(t, text, value);
}

static void put_purchase(table *t, qc_length bought, qc_units units)
{
    char text[64];

    qc_length_format_purchase(bought, units, text, sizeof text);
    put_length(t, text, bought, units);
}

/* The way of the blade, in yards or metres up to the next tenth. */
static void put_blade(table *t, int64_t blade, qc_units units)
{
    int64_t tenth = (units == QC_UNITS_IN ? QC_YARD : QC_M) / 10;
    int64_t tenths = (blade + tenth - 1) / tenth;
    char text[48];

    snprintf(text, sizeof text, "%lld.%lld %s", (long long)(tenths / 10),
             (long long)(tenths % 10), units == QC_UNITS_IN ? "yd" : "m");
    put_length(t, text, blade, units);
}

/* The i-th row by rank; those without a plan come last. */
static const kept_row *ranked(const kept_rows *rows, size_t place)
{
    size_t planned = 0;

    for (size_t i = 0; i < rows->count; i++) {
        planned += rows->at[i].row.rank > 0;
        if (rows->at[i].row.rank == place + 1)
            return &rows->at[i];
    }
    for (size_t i = 0; i < rows->count; i++)
        if (!rows->at[i].row.rank && planned++ == place)
            return &rows->at[i];
    return NULL;
}

#define FIXED 17 /* columns beside those of the fabrics */

static void put_split(table *t, const qc_compare_row *row, qc_units units)
{
    double cloth = (double)row->cloth;

    put_area(t, row->cloth - row->area.finished, cloth, units);
    put_area(t, row->beyond, cloth, units);
    put_area(t, row->area.seams, cloth, units);
    put_area(t, row->area.leftover, cloth, units);
    put_area(t, row->area.scrap, cloth, units);
}

static void put_rank(table *t, const qc_compare_row *row)
{
    char text[48], value[32];

    snprintf(value, sizeof value, "%u", row->rank);
    snprintf(text, sizeof text, "%s%c", value, row->efficient ? '*' : ' ');
    put_cell(t, text, value);
}

static void put_row(table *t, const kept_rows *rows, const kept_row *kept)
{
    const qc_compare_row *row = &kept->row;
    bool planned = row->rank > 0;

    put_rank(t, row);
    put_size(t, rows, kept);
    put_cell(t, "", unit_names[rows->units]);
    put_length(t, "", row->block_size, rows->units);
    put_blocks(t, row);
    put_cell(t,
             !planned                             ? "failed"
             : row->outcome == QC_OUTCOME_OPTIMAL ? "proved"
                                                  : "not proved",
             !planned                             ? "failed"
             : row->outcome == QC_OUTCOME_OPTIMAL ? "optimal"
                                                  : "feasible");
    for (size_t i = 0; i < rows->fabric_count; i++)
        put_purchase(t, kept->bought[i], rows->units);
    put_purchase(t, row->bought, rows->units);
    put_split(t, row, rows->units);
    put_count(t, row->setups);
    put_count(t, row->cuts);
    put_blade(t, row->blade, rows->units);
    put_cell(t, "", row->efficient ? "1" : "0");
    put_number(t, row->cloth > 0
                      ? (double)row->area.finished / (double)row->cloth
                      : 0);
}

static size_t fill_columns(const kept_rows *rows, column *to, char *keys)
{
    static const column before[] = {
        {"rank", "", true},         {"size", "size", false},
        {"units", NULL, false},     {"block_size", NULL, true},
        {"blocks", "blocks", true}, {"status", "length", false},
    };
    static const column after[] = {
        {"bought", "in all", true},      {"waste", "waste", true},
        {"beyond", "beyond", true},      {"seams", "seams", true},
        {"leftover", "left over", true}, {"scrap", "scrap", true},
        {"setups", "set-ups", true},     {"cuts", "cuts", true},
        {"blade", "cutting", true},      {"efficient", NULL, false},
        {"used_share", NULL, true},
    };
    size_t n = 0;

    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        to[n++] = before[i];
    for (size_t i = 0; i < rows->fabric_count; i++) {
        char *key = keys + i * (QC_MAX_TEXT_BYTES + 16);

        snprintf(key, QC_MAX_TEXT_BYTES + 16, "bought %s", rows->fabrics[i]);
        to[n++] = (column){key, rows->fabrics[i], true};
    }
    for (size_t i = 0; i < sizeof after / sizeof *after; i++)
        to[n++] = after[i];
    return n;
}

static int print_as(const kept_rows *rows, bool csv)
{
    column *columns = calloc(rows->fabric_count + FIXED, sizeof *columns);
    char *keys = calloc(rows->fabric_count + 1, QC_MAX_TEXT_BYTES + 16);
    table t = {.columns = columns, .leads = 2};
    int status = CLI_FAILED;

    if (columns && keys) {
        t.width = fill_columns(rows, columns, keys);
        for (size_t i = 0; i < rows->count; i++) {
            const kept_row *kept = csv ? &rows->at[i] : ranked(rows, i);

            if (kept)
                put_row(&t, rows, kept);
        }
        status = print_table(&t, csv);
    } else {
        complain("out of memory");
    }
    end_table(&t);
    free(columns);
    free(keys);
    return status;
}

int print_rows_csv(const kept_rows *rows)
{
    return print_as(rows, true);
}

/* What the columns mean, and which size wins. */
static int print_words(const kept_rows *rows)
{
    const kept_row *best = ranked(rows, 0);
    char size[32], line[512];

    if (!best || !best->row.rank)
        return CLI_DONE;
    qc_length_format(best->row.block_size, rows->units, size, sizeof size);
    if (rows->of_blocks)
        snprintf(
            line, sizeof line,
            "\nLeast waste: blocks of %s %s.\n"
            "* No other size takes less cloth without more cuts, nor fewer "
            "cuts without more\ncloth.\n",
            size, unit_names[rows->units]);
    else
        snprintf(line, sizeof line, "\nLeast waste: %s.\n", best->quilt.name);
    return print_text(line);
}

int print_rows_text(const kept_rows *rows)
{
    int status = CLI_DONE;

    if (rows->title) {
        char title[QC_MAX_TEXT_BYTES + 4];

        snprintf(title, sizeof title, "%s\n\n", rows->title);
        status = print_text(title);
    }
    if (status == CLI_DONE)
        status = print_as(rows, false);
    if (status == CLI_DONE)
        status = print_words(rows);
    if (status == CLI_DONE)
        status = print_text(
            "\nWaste is the share of the cloth that does not become part of "
            "the quilt: what\nblocks cover beyond it, since their number is "
            "whole; seams and rounding up;\nleftovers worth keeping; scrap. "
            "Cutting is how far the blade runs.\n");
    return status;
}

static int print_json_row(const kept_rows *rows, const kept_row *kept)
{
    const qc_compare_row *row = &kept->row;
    double unit = (double)QC_M / qc_length_value(QC_M, rows->units);
    double square = unit * unit;
    char text[1024];
    int status;

    snprintf(text, sizeof text,
             "\n{\"rank\": %u, \"status\": \"%s\", \"efficient\": %s, "
             "\"block_size\": %.10g, \"blocks\": %lld, \"columns\": %lld, "
             "\"rows\": %lld, \"bought\": %.10g, \"cloth\": %.10g, "
             "\"finished\": %.10g, \"beyond\": %.10g, \"seams\": %.10g, "
             "\"leftover\": %.10g, \"scrap\": %.10g, \"setups\": %lld, "
             "\"cuts\": %lld, \"blade\": %.10g, \"fabrics\": [",
             row->rank,
             !row->rank                           ? "failed"
             : row->outcome == QC_OUTCOME_OPTIMAL ? "optimal"
                                                  : "feasible",
             row->efficient ? "true" : "false",
             qc_length_value(row->block_size, rows->units),
             (long long)row->blocks, (long long)row->columns,
             (long long)row->rows, qc_length_value(row->bought, rows->units),
             (double)row->cloth / square, (double)row->area.finished / square,
             (double)row->beyond / square, (double)row->area.seams / square,
             (double)row->area.leftover / square,
             (double)row->area.scrap / square, (long long)row->setups,
             (long long)row->cuts, qc_length_value(row->blade, rows->units));
    status = print_text(text);
    for (size_t i = 0; i < rows->fabric_count && status == CLI_DONE; i++) {
        status = print_text(i ? ", {\"id\": " : "{\"id\": ");
        if (status == CLI_DONE)
            status = print_string(rows->fabrics[i]);
        snprintf(text, sizeof text, ", \"bought\": %.10g}",
                 qc_length_value(kept->bought[i], rows->units));
        if (status == CLI_DONE)
            status = print_text(text);
    }
    if (status == CLI_DONE && row->quilt) {
        status = print_text("], \"quilt\": {\"name\": ");
        if (status == CLI_DONE)
            status = print_string(row->quilt->name ? row->quilt->name : "");
        snprintf(text, sizeof text, ", \"width\": %.10g, \"length\": %.10g}}",
                 qc_length_value(row->quilt->width, rows->units),
                 qc_length_value(row->quilt->length, rows->units));
        return status == CLI_DONE ? print_text(text) : status;
    }
    return status == CLI_DONE ? print_text("]}") : status;
}

int print_rows_json(const kept_rows *rows)
{
    int status = print_text("{\"quiltcut\": 1, \"units\": \"");

    if (status == CLI_DONE)
        status = print_text(unit_names[rows->units]);
    if (status == CLI_DONE)
        status = print_text("\", \"sizes\": [");
    for (size_t i = 0; i < rows->count && status == CLI_DONE; i++) {
        if (i)
            status = print_text(",");
        if (status == CLI_DONE)
            status = print_json_row(rows, &rows->at[i]);
    }
    return status == CLI_DONE ? print_text("]}\n") : status;
}
