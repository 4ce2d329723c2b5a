/* quiltcut chart: what to cut for a block at many finished sizes. */
#include "chart_block.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut chart [OPTION]... [JOB]\n"
    "\n"
    "Prints what to cut for a block at many finished sizes: strips, the\n"
    "spacing of the cuts across them, pieces from a strip, what rounding up\n"
    "to the ruler adds, and the fabric to buy for each role. The block is a\n"
    "built-in one, or one that JOB names or draws, with the methods, seam and\n"
    "ruler of JOB.\n"
    "\n"
    "  --block NAME       the block (see quiltcut blocks), or one of JOB's\n"
    "  --method M         make units by a method: \"strip set\", or of one "
    "unit\n"
    "                     \"A+B: two at a time\"; may be given several times\n"
    "  --trim LENGTH      make those units so much larger, to be trimmed\n"
    "  --from SIZE        smallest finished width; 3 in or 8 cm\n"
    "  --to SIZE          largest finished width; 12 in or 30 cm\n"
    "  --step LENGTH      from one size to the next; 1 in or 1 cm\n"
    "  --count N          so many blocks; 1\n"
    "  --width LENGTH     usable width of the fabrics; 40 in or 102 cm\n"
    "  --units U          in, cm or mm; in\n"
    "  --page FILE        lay the chart out to print: .pdf, .svg or .png\n"
    "  --json             print the rows as JSON\n"
    "  --csv              print them as comma-separated values\n" SOLVE_HELP
    "  --help             this text\n";

typedef struct chart_args {
    solve_args solve;
    const char *from, *to, *step, *width, *trim, *page;
    const char *named, *job; /* the block's name; NULL */
    qc_units units;
    int32_t count;
    chart_block block;
    bool json, csv, help;
} chart_args;

/* Rows as they are kept; the texts are copies. */
typedef struct kept_rows {
    qc_chart_row *at;
    size_t count;
    bool failed; /* memory is out */
} kept_rows;

static int read_blocks(const char *text, void *out)
{
    return read_count("count", text, 1000000, out);
}

/* Leaves `out` as it is where the option is not given. */
static int read_length(const char *text, qc_units units, qc_length *out)
{
    qc_error err;

    if (!text)
        return CLI_DONE;
    qc_error_init(&err);
    if (qc_length_parse(text, units, QC_PARSE_EXACT, out, &err) == 0 &&
        *out > 0)
        return CLI_DONE;
    complain("chart: '%s': %s", text,
             err.code ? err.problem : "is not more than 0");
    return CLI_USAGE;
}

/* Every length but those of the job. */
static int read_lengths(const chart_args *args, qc_length *trim,
                        qc_chart_options *out)
{
    const struct {
        const char *text;
        qc_length *out;
    } lengths[] = {{args->from, &out->from},
                   {args->to, &out->to},
                   {args->step, &out->step},
                   {args->width, &out->width},
                   {args->trim, trim}};
    int status = CLI_DONE;

    for (size_t i = 0; i < sizeof lengths / sizeof *lengths && !status; i++)
        status = read_length(lengths[i].text, args->units, lengths[i].out);
    return status;
}

static int read_chart(chart_args *args, qc_chart_options *out)
{
    qc_length trim = QC_DEFAULT;
    int status;

    qc_chart_options_init(out, args->units);
    out->count = args->count;
    status = read_lengths(args, &trim, out);
    if (status == CLI_DONE)
        status = read_chart_job(&args->block, args->job, args->named, out);
    if (status != CLI_DONE)
        return status;
    set_chart_methods(&args->block, trim, out);
    if ((!out->block && !out->drawing) || out->to < out->from ||
        (out->to - out->from) / out->step >= QC_MAX_CHARTED) {
        complain("chart: %s; see quiltcut chart --help",
                 !out->block && !out->drawing ? "--block is needed"
                 : out->to < out->from        ? "--to is below --from"
                                              : "more than 200 sizes");
        return CLI_USAGE;
    }
    return CLI_DONE;
}

static const column columns[] = {
    {"size", "size", true},           {"units", NULL, false},
    {"on_ruler", "", false},          {"piece", "piece", false},
    {"role", "fabric", false},        {"count", "count", true},
    {"strip", "strip", true},         {"across", "cuts apart", true},
    {"lean", "lean", true},           {"stagger", "stagger", true},
    {"gives", "gives", true},         {"each_strip", "in a strip", true},
    {"excess_strip", "excess", true}, {"excess_across", "by", true},
    {"trim_to", "trim to", true},     {"trim_to_height", NULL, true},
    {"strips", "strips", true},       {"bought", "buy", true},
    {"status", NULL, false},          {"method", NULL, false},
};

static void put_plain(table *t, qc_length length, qc_units units)
{
    char text[32];

    qc_length_format(length, units, text, sizeof text);
    put_length(t, length ? text : "", length, units);
}

static void put_excess(table *t, qc_length excess, qc_units units)
{
    char text[32];

    snprintf(text, sizeof text, "%.3f", qc_length_value(excess, units));
    put_length(t, excess ? text : "", excess, units);
}

/* "2 1/2" of a square, else "4 1/2 x 2 1/2". */
static void put_trimmed(table *t, const qc_chart_row *row, qc_units units)
{
    char text[72] = "", height[32];

    if (row->trim_to)
        qc_length_format(row->trim_to, units, text, sizeof text);
    if (row->trim_to_height && row->trim_to_height != row->trim_to) {
        size_t at = strlen(text);

        qc_length_format(row->trim_to_height, units, height, sizeof height);
        snprintf(text + at, sizeof text - at, " x %s", height);
    }
    put_length(t, text, row->trim_to, units);
}

/* The block's name, which stands above the table, is left out of its pieces'.
 */
static const char *piece_name(const char *piece, const char *block)
{
    size_t size = strlen(block);

    return !strncmp(piece, block, size) && piece[size] == ' ' ? piece + size + 1
                                                              : piece;
}

static void put_row(table *t, const qc_chart_row *row, const char *block,
                    qc_units units)
{
    bool first = row->first_of_fabric;
    char buy[64], strips[32], gives[16];

    qc_length_format_purchase(row->bought, units, buy, sizeof buy);
    snprintf(strips, sizeof strips, "%lld", (long long)row->strips);
    put_plain(t, row->size, units);
    put_cell(t, "", unit_names[units]);
    put_cell(t, row->on_ruler && row->first_of_size ? "=" : "",
             row->on_ruler ? "1" : "0");
    put_cell(t, piece_name(row->piece, block), row->piece);
    put_cell(t, row->fabric, row->fabric);
    put_count(t, row->count);
    put_plain(t, row->strip, units);
    put_plain(t, row->across, units);
    put_plain(t, row->lean, units);
    put_plain(t, row->stagger, units);
    snprintf(gives, sizeof gives, "%u", (unsigned)row->yields);
    put_cell(t, row->yields > 1 ? gives : "", gives);
    put_count(t, row->each_strip);
    put_excess(t, row->excess_strip, units);
    put_excess(t, row->excess_across, units);
    put_trimmed(t, row, units);
    put_plain(t, row->trim_to_height, units);
    put_cell(t, first ? strips : "", strips);
    put_length(t, first ? buy : "", row->bought, units);
    put_cell(t, "",
             row->outcome == QC_OUTCOME_OPTIMAL ? "optimal" : "feasible");
    put_cell(t, "", row->method ? row->method : "");
}

static void head_of(const qc_chart_options *chart, const char *name, char *text,
                    size_t size)
{
    static const char *const words[] = {"inches", "cm", "mm"};

    snprintf(text, size, "%s: %d block%s, sizes in %s", name, (int)chart->count,
             chart->count == 1 ? "" : "s", words[chart->units]);
}

/* What some of the rows have. */
typedef struct contents {
    bool stagger, gives, method;
} contents;

static contents contents_of(const kept_rows *rows)
{
    contents some = {false, false, false};

    for (size_t i = 0; i < rows->count; i++) {
        some.stagger = some.stagger || rows->at[i].stagger;
        some.gives = some.gives || rows->at[i].yields > 1;
        some.method = some.method || rows->at[i].method;
    }
    return some;
}

/* What no row has is left out of the text. */
static void choose_columns(contents some, column *shown)
{
    memcpy(shown, columns, sizeof columns);
    for (size_t i = 0; i < sizeof columns / sizeof *columns; i++)
        if ((!some.stagger && !strcmp(columns[i].key, "stagger")) ||
            (!some.gives && !strcmp(columns[i].key, "gives")))
            shown[i].heading = NULL;
}

static int print_notes(contents some)
{
    int status = CLI_DONE;

    if (some.stagger)
        status =
            print_text("Stagger: a strip of a set begins so far along from the "
                       "one below. Of strip\nsets cuts apart are measured "
                       "square to them, and in a strip are segments.\n");
    if (some.gives && status == CLI_DONE)
        status = print_text("Gives: what lies between two cuts becomes so many "
                            "patches of the block.\n");
    if (some.method && status == CLI_DONE)
        status = print_text(
            "Trim to: what the unit measures, from raw edge to raw edge, once "
            "it is\ntrimmed; of segments between the crosscuts x across the "
            "seams. quiltcut plan\nsays how units are sewn.\n");
    return status;
}

static int print_rows(const qc_chart_options *chart, const chart_args *args,
                      const kept_rows *rows)
{
    column shown[sizeof columns / sizeof *columns];
    table t = {.columns = shown,
               .width = sizeof columns / sizeof *columns,
               .leads = 4};
    contents some = contents_of(rows);
    bool plain = !args->csv && !args->json;
    char head[400];
    int status = CLI_DONE;

    choose_columns(some, shown);
    for (size_t i = 0; i < rows->count; i++)
        put_row(&t, &rows->at[i],
                chart->drawing ? chart->drawing->name : chart->block,
                chart->units);
    head_of(chart, args->block.name, head, sizeof head);
    if (plain)
        status = print_text(head);
    if (plain && status == CLI_DONE)
        status = print_text("\n\n");
    if (status == CLI_DONE)
        status = args->json ? print_table_json(&t, "chart")
                            : print_table(&t, args->csv);
    end_table(&t);
    if (status != CLI_DONE || !plain)
        return status;
    status = print_text(
        "\n= All cut sizes of this block fall on the ruler's marks. Elsewhere "
        "excess is\nwhat rounding up to them adds to the strip, and (by) to "
        "the spacing of the\ncuts.\nCuts with a lean run that far along the "
        "strip from edge to edge. The spacing\nof diamonds and parallelograms "
        "is measured square to the cuts, that of other\nslanted pieces "
        "half-way up the strip. In a strip: as many as the width "
        "holds.\nStrips and lengths are those of the whole fabric.\n");
    if (status == CLI_DONE)
        status = print_notes(some);
    return status != CLI_DONE
               ? status
               : print_text(
                     "Close the cutter after every cut, and cut away from "
                     "yourself; quiltcut plan\nwrites the order of cuts.\n");
}

static int deliver(const qc_chart_options *chart, const chart_args *args,
                   const kept_rows *rows)
{
    outputs set = {0};
    char head[400], width[32];
    int status = CLI_DONE;

    qc_length_format(chart->width, chart->units, width, sizeof width);
    snprintf(head, sizeof head, "%s: %d of each size, fabric %s %s wide",
             args->block.name, (int)chart->count, width,
             unit_names[chart->units]);
    if (args->page)
        status =
            stage_chart(rows->at, rows->count, chart, head, args->page, &set);
    if (status == CLI_DONE)
        status = commit_files(&set);
    end_files(&set);
    return status == CLI_DONE ? print_rows(chart, args, rows) : status;
}

static void keep_row(const qc_chart_row *row, void *user)
{
    kept_rows *rows = user;
    qc_chart_row *at = realloc(rows->at, (rows->count + 1) * sizeof *rows->at);

    if (!at) {
        rows->failed = true;
        return;
    }
    rows->at = at;
    at += rows->count++;
    *at = *row;
    at->piece = strdup(row->piece);
    at->fabric = strdup(row->fabric);
    rows->failed = rows->failed || !at->piece || !at->fabric;
}

static void end_rows(kept_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++) {
        free((char *)rows->at[i].piece);
        free((char *)rows->at[i].fabric);
    }
    free(rows->at);
}

static int make_rows(qc_chart_options *chart, const chart_args *args,
                     kept_rows *rows)
{
    qc_solve_options solve;
    qc_status status;
    qc_error err;
    int code = begin_solve(&args->solve, &solve);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    chart->solve = &solve;
    status = qc_chart(chart, keep_row, rows, &err);
    chart->solve = NULL;
    end_solve(status == QC_STATUS_OK);
    if (status != QC_STATUS_OK)
        return report_error(&err, status, args->block.name);
    if (!rows->failed)
        return CLI_DONE;
    complain("out of memory");
    return CLI_FAILED;
}

static int run_chart(chart_args *args)
{
    qc_chart_options chart;
    kept_rows rows = {0};
    int status = read_chart(args, &chart);

    if (status == CLI_DONE)
        status = make_rows(&chart, args, &rows);
    if (status == CLI_DONE)
        status = deliver(&chart, args, &rows);
    end_rows(&rows);
    return status;
}

int cmd_chart(int argc, char **argv)
{
    chart_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false},
                       .units = QC_UNITS_IN,
                       .count = 1};
    const cli_option options[] = {
        {.name = "block", .text = &args.named},
        {.name = "from", .text = &args.from},
        {.name = "to", .text = &args.to},
        {.name = "step", .text = &args.step},
        {.name = "count", .read = read_blocks, .out = &args.count},
        {.name = "width", .text = &args.width},
        {.name = "method", .read = add_chart_method, .out = &args.block},
        {.name = "trim", .text = &args.trim},
        {.name = "units", .read = read_units, .out = &args.units},
        {.name = "page", .text = &args.page},
        {.name = "json", .flag = &args.json},
        {.name = "csv", .flag = &args.csv},
        SOLVE_OPTIONS(args.solve),
        {.name = "help", .flag = &args.help}};
    int status = READ_OPTIONS(argc, argv, options);

    if (status == CLI_DONE)
        status = refuse_two_forms("chart", args.json, args.csv);
    if (status == CLI_DONE && !args.help && optind < argc)
        status = read_operand(argc, argv, "job", &args.job);
    if (status == CLI_DONE)
        status = args.help ? print_text(help) : run_chart(&args);
    end_chart_block(&args.block);
    return status;
}
