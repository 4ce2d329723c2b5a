/* quiltcut chart: what to cut for a block at many finished sizes.
 *
 * Every size is a job of so many blocks, one fabric for each role; strips,
 * pieces and lengths are read off its plan. A second job of each size with the
 * finest ruler there is tells what rounding up to the marks adds. */
#include "cli.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut chart [OPTION]...\n"
    "\n"
    "Prints what to cut for a built-in block at many finished sizes: strips,\n"
    "the spacing of the cuts across them, pieces from a strip, what rounding\n"
    "up to the ruler adds, and the fabric to buy for each role.\n"
    "\n"
    "  --block NAME       the block (see quiltcut blocks)\n"
    "  --from SIZE        smallest finished width; 3 in or 8 cm\n"
    "  --to SIZE          largest finished width; 12 in or 30 cm\n"
    "  --step LENGTH      from one size to the next; 1 in or 1 cm\n"
    "  --count N          so many blocks; 1\n"
    "  --width LENGTH     usable width of the fabrics; 40 in or 102 cm\n"
    "  --units U          in, cm or mm; in\n"
    "  --json             print the rows as JSON\n"
    "  --csv              print them as comma-separated values\n" SOLVE_HELP
    "  --help             this text\n";

enum {
    BLOCK = 256,
    FROM,
    TO,
    STEP,
    COUNT,
    WIDTH,
    UNITS,
    JSON,
    CSV,
    HELP,
    TEXTS = UNITS - BLOCK + 1
};

static const struct option options[] = {
    {"block", required_argument, NULL, BLOCK},
    {"from", required_argument, NULL, FROM},
    {"to", required_argument, NULL, TO},
    {"step", required_argument, NULL, STEP},
    {"count", required_argument, NULL, COUNT},
    {"width", required_argument, NULL, WIDTH},
    {"units", required_argument, NULL, UNITS},
    {"json", no_argument, NULL, JSON},
    {"csv", no_argument, NULL, CSV},
    SOLVE_OPTIONS,
    {"help", no_argument, NULL, HELP},
    {NULL, 0, NULL, 0}};

typedef struct chart_args {
    solve_args solve;
    const char *texts[TEXTS]; /* of the options from BLOCK to UNITS */
    bool json, csv, help;
} chart_args;

/* What is charted. */
typedef struct chart {
    const char *block;
    qc_length from, to, step, width;
    int32_t count;
    qc_units units;
    size_t sizes;
} chart;

#define MOST_SIZES 200

static const char *const unit_names[] = {"in", "cm", "mm"};

static int take(int code, const char *value, void *user)
{
    chart_args *args = user;

    if (code >= BLOCK && code <= UNITS)
        args->texts[code - BLOCK] = value;
    else if (code == JSON)
        args->json = true;
    else if (code == CSV)
        args->csv = true;
    else if (code == HELP || code == 'h')
        args->help = true;
    else
        return take_solve_option(code, value, &args->solve);
    return CLI_DONE;
}

static int read_length(const chart_args *args, int code, qc_units units,
                       qc_length inches, qc_length metric, qc_length *out)
{
    const char *text = args->texts[code - BLOCK];
    qc_error err;

    *out = units == QC_UNITS_IN ? inches : metric;
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

static int read_units(const char *text, qc_units *out)
{
    *out = QC_UNITS_IN;
    for (int i = 0; text && i < 3; i++)
        if (strcmp(text, unit_names[i]) == 0) {
            *out = (qc_units)i;
            return CLI_DONE;
        }
    if (!text)
        return CLI_DONE;
    complain("--units: '%s' is not in, cm or mm", text);
    return CLI_USAGE;
}

static int read_chart(const chart_args *args, chart *out)
{
    const char *count = args->texts[COUNT - BLOCK];
    int status = read_units(args->texts[UNITS - BLOCK], &out->units);

    out->block = args->texts[0];
    out->count = 1;
    if (status == CLI_DONE && count)
        status = read_count("count", count, 1000000, &out->count);
    if (status == CLI_DONE)
        status = read_length(args, FROM, out->units, 3 * QC_INCH, 8 * QC_CM,
                             &out->from);
    if (status == CLI_DONE)
        status = read_length(args, TO, out->units, 12 * QC_INCH, 30 * QC_CM,
                             &out->to);
    if (status == CLI_DONE)
        status =
            read_length(args, STEP, out->units, QC_INCH, QC_CM, &out->step);
    if (status == CLI_DONE)
        status = read_length(args, WIDTH, out->units, 40 * QC_INCH, 102 * QC_CM,
                             &out->width);
    if (status != CLI_DONE)
        return status;
    if (!out->block || out->to < out->from ||
        (out->to - out->from) / out->step >= MOST_SIZES) {
        complain("chart: %s; see quiltcut chart --help",
                 !out->block           ? "--block is needed"
                 : out->to < out->from ? "--to is below --from"
                                       : "more than 200 sizes");
        return CLI_USAGE;
    }
    out->sizes = (size_t)((out->to - out->from) / out->step) + 1;
    return CLI_DONE;
}

/* The job of one size; with `fine` that of the finest ruler. */
static qc_status make_job(const chart *c, const qc_block *block, qc_length size,
                          bool fine, qc_job **out, qc_error *err)
{
    size_t roles = qc_block_describe(block)->role_count;
    qc_fabric_spec *fabrics = calloc(roles, sizeof *fabrics);
    qc_role_spec *fill = calloc(roles, sizeof *fill);
    qc_status status = QC_STATUS_NO_MEMORY;
    qc_block_spec spec;
    qc_job_spec job;

    for (size_t i = 0; fabrics && fill && i < roles; i++) {
        qc_fabric_spec_init(&fabrics[i]);
        fabrics[i].id = qc_block_role_at(block, i);
        fabrics[i].width = c->width;
        fill[i] = (qc_role_spec){fabrics[i].id, fabrics[i].id};
    }
    if (fabrics && fill) {
        qc_block_spec_init(&spec);
        spec.block = c->block;
        spec.size = size;
        spec.count = c->count;
        spec.fabrics = fill;
        spec.fabric_count = roles;
        qc_job_spec_init(&job, c->units);
        job.fabrics = fabrics;
        job.fabric_count = roles;
        job.blocks = &spec;
        job.block_count = 1;
        job.ruler = fine ? 1 : job.ruler;
        job.goals[0] = QC_GOAL_BOUGHT;
        job.goal_count = fine ? 1 : 0;
        status = qc_job_create(&job, out, err);
    }
    free(fabrics);
    free(fill);
    return status;
}

static const column columns[] = {
    {"size", "size", true},           {"units", NULL, false},
    {"on_ruler", "", false},          {"piece", "piece", false},
    {"role", "fabric", false},        {"count", "count", true},
    {"strip", "strip", true},         {"across", "cuts apart", true},
    {"lean", "lean", true},           {"each_strip", "in a strip", true},
    {"excess_strip", "excess", true}, {"excess_across", "by", true},
    {"trim_to", "trim to", true},     {"strips", "strips", true},
    {"bought", "buy", true},          {"status", NULL, false},
};

/* How the plan cuts a piece, and as many as a strip of its own holds. */
typedef struct cutting {
    qc_length height, across, lean;
    int64_t most;
} cutting;

static qc_length greater(qc_length a, qc_length b)
{
    a = a < 0 ? -a : a;
    b = b < 0 ? -b : b;
    return a > b ? a : b;
}

/* Sections that begin as the last one ends lie close; the strip's ends lose
 * half a lean each. Of others only the plan's own number is known. */
static void note_run(cutting *found, const qc_subcut *subcut,
                     const qc_stack *run, qc_length width)
{
    qc_length lean = greater(subcut->lean[0], subcut->lean[1]);
    bool close = subcut->alternate || subcut->lean[0] == subcut->lean[1];
    int64_t most = close ? (width - lean) / run->width : subcut->count;

    found->height = run->height;
    found->across = run->width;
    found->lean = lean;
    if (most * run->yields > found->most)
        found->most = most * run->yields;
}

static cutting cutting_of(const qc_plan *plan, uint32_t piece)
{
    const qc_plan_piece *info = qc_plan_piece_at(plan, piece);
    qc_length width = qc_plan_fabric_at(plan, info->fabric)->usable_width;
    const qc_strip *strip;
    cutting found = {0};

    for (size_t s = 0; (strip = qc_plan_strip_at(plan, info->fabric, s)); s++)
        for (size_t i = 0; i < strip->subcut_count; i++)
            for (size_t k = 0; k < strip->subcuts[i].stack_count; k++) {
                const qc_stack *run = &strip->subcuts[i].stacks[k];

                if (run->piece == piece ||
                    (strip->paired && run->piece == info->twin))
                    note_run(&found, &strip->subcuts[i], run, width);
            }
    if (info->shape == QC_SHAPE_DIAMOND ||
        info->shape == QC_SHAPE_PARALLELOGRAM)
        found.across = info->cut[0];
    return found;
}

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

static bool is_on_ruler(const qc_plan *plan)
{
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        if (qc_plan_piece_at(plan, i)->rounded)
            return false;
    return true;
}

static int64_t strips_of(const qc_plan *plan, uint32_t fabric)
{
    const qc_strip *strip;
    int64_t strips = 0;

    for (size_t s = 0; (strip = qc_plan_strip_at(plan, fabric, s)); s++)
        strips += strip->repeat;
    return strips;
}

static void put_piece(table *t, const chart *c, qc_length size,
                      const qc_plan *plan, const qc_plan *fine, uint32_t piece)
{
    const qc_plan_piece *info = qc_plan_piece_at(plan, piece);
    const qc_plan_piece *exact = qc_plan_piece_at(fine, piece);
    const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, info->fabric);
    bool first =
        piece == 0 || qc_plan_piece_at(plan, piece - 1)->fabric != info->fabric;
    cutting how = cutting_of(plan, piece);
    bool ruler = is_on_ruler(plan);
    char buy[64], strips[32];

    qc_length_format_purchase(fabric->bought, c->units, buy, sizeof buy);
    snprintf(strips, sizeof strips, "%lld",
             (long long)strips_of(plan, info->fabric));
    put_plain(t, size, c->units);
    put_cell(t, "", unit_names[c->units]);
    put_cell(t, ruler && piece == 0 ? "=" : "", ruler ? "1" : "0");
    put_cell(t, info->id, info->id);
    put_cell(t, fabric->id, fabric->id);
    put_count(t, info->count);
    put_plain(t, how.height, c->units);
    put_plain(t, how.across, c->units);
    put_plain(t, how.lean, c->units);
    put_count(t, how.most);
    put_excess(t, info->cut[1] - exact->cut[1], c->units);
    put_excess(t, info->cut[0] - exact->cut[0], c->units);
    put_plain(t, info->trim_to[0], c->units);
    put_cell(t, first ? strips : "", strips);
    put_length(t, first ? buy : "", fabric->bought, c->units);
    put_cell(t, "",
             fabric->outcome == QC_OUTCOME_OPTIMAL ? "optimal" : "feasible");
}

static int print_chart(const chart *c, const chart_args *args,
                       const batch_end *ends)
{
    table t = {.columns = columns, .width = sizeof columns / sizeof *columns};
    static const char *const words[] = {"inches", "cm", "mm"};
    char line[400];
    int status = CLI_DONE;

    for (size_t i = 0; i < c->sizes; i++) {
        const qc_plan *plan = ends[2 * i].plan, *fine = ends[2 * i + 1].plan;

        if (!plan || !fine)
            continue;
        for (uint32_t p = 0; p < qc_plan_piece_count(plan); p++)
            put_piece(&t, c, c->from + (qc_length)i * c->step, plan, fine, p);
    }
    snprintf(line, sizeof line, "%s: %d block%s, sizes in %s\n\n", c->block,
             (int)c->count, c->count == 1 ? "" : "s", words[c->units]);
    if (!args->csv && !args->json)
        status = print_text(line);
    if (status == CLI_DONE)
        status = args->json ? print_table_json(&t, "chart")
                            : print_table(&t, args->csv);
    end_table(&t);
    if (status != CLI_DONE || args->csv || args->json)
        return status;
    return print_text(
        "\n= All cut sizes of this block fall on the ruler's marks. Elsewhere "
        "excess is what\nrounding up to them adds to the strip, and (by) to "
        "the spacing of the cuts.\nCuts with a lean run that far along the "
        "strip from edge to edge. The spacing of\ndiamonds and parallelograms "
        "is measured square to the cuts, that of other slanted\npieces "
        "half-way "
        "up the strip. In a strip: as many as the width holds. Strips and\n"
        "lengths are those of the whole fabric. Close the cutter after every "
        "cut, and cut\naway from yourself; quiltcut plan writes the order of "
        "cuts.\n");
}

/* Two jobs for every size: as it is cut, and with the finest ruler. */
static int make_jobs(const chart *c, qc_job **jobs)
{
    for (size_t i = 0; i < 2 * c->sizes; i++) {
        qc_length size = c->from + (qc_length)(i / 2) * c->step;
        qc_block *block = NULL;
        qc_status status;
        qc_error err;

        qc_error_init(&err);
        status = qc_block_find(c->block, size, &block, &err);
        if (status == QC_STATUS_OK)
            status = make_job(c, block, size, i % 2, &jobs[i], &err);
        qc_block_destroy(block);
        if (status != QC_STATUS_OK)
            return report_error(&err, status, c->block);
    }
    return CLI_DONE;
}

static int run_chart(const chart *c, const chart_args *args)
{
    qc_job **jobs = calloc(2 * c->sizes, sizeof *jobs);
    const char **names = calloc(2 * c->sizes, sizeof *names);
    batch_end *ends = calloc(2 * c->sizes, sizeof *ends);
    int status = CLI_FAILED;

    if (jobs && names && ends)
        status = make_jobs(c, jobs);
    else
        complain("out of memory");
    for (size_t i = 0; status == CLI_DONE && i < 2 * c->sizes; i++)
        names[i] = c->block;
    if (status == CLI_DONE)
        status = solve_jobs((const qc_job *const *)jobs, names, 2 * c->sizes,
                            &args->solve, ends);
    for (size_t i = 0; status == CLI_DONE && i < 2 * c->sizes; i++)
        status = ends[i].code;
    if (status == CLI_DONE)
        status = print_chart(c, args, ends);
    for (size_t i = 0; ends && jobs && i < 2 * c->sizes; i++) {
        qc_plan_destroy(ends[i].plan);
        qc_job_destroy(jobs[i]);
    }
    free(jobs);
    free(names);
    free(ends);
    return status;
}

int cmd_chart(int argc, char **argv)
{
    chart_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false}};
    chart c = {0};
    int status = read_options(argc, argv, options, take, &args);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    if (optind < argc) {
        complain("chart: '%s' is one word too many; the block is --block NAME",
                 argv[optind]);
        return CLI_USAGE;
    }
    if (args.json && args.csv) {
        complain("chart: --json and --csv exclude each other");
        return CLI_USAGE;
    }
    status = read_chart(&args, &c);
    return status == CLI_DONE ? run_chart(&c, &args) : status;
}
