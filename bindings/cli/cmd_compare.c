/* quiltcut compare JOB: what a job takes at many sizes, of its blocks or of the
 * quilt. */
#include "compare.h"

#include <stdlib.h>
#include <string.h>

static const char help[] =
    "Usage: quiltcut compare [OPTION]... JOB\n"
    "\n"
    "Plans a job that has blocks at many sizes, ranks them by waste, and "
    "marks\n"
    "those of which no other takes less cloth without more cuts.\n"
    "\n"
    "  --block-sizes LIST finished sizes of the blocks: 4..12, or 6,8,12\n"
    "  --step LENGTH      from one of a range to the next; 1 in or 1 cm\n"
    "  --quilt WxL        what the blocks are to cover, such as 60x72; "
    "without\n"
    "                     it as much as those of the job cover\n"
    "  --sizes LIST       quilt sizes instead, covered by blocks of the job's\n"
    "                     own size: crib, twin, long-twin, full, queen, king,\n"
    "                     any WxL, or NAME=WxL\n"
    "  --drop LENGTH      how far the quilt hangs over sides and foot of a "
    "bed\n"
    "  --tuck LENGTH      how much longer it is, to go round a pillow\n"
    "  --plot FILE        draw waste and yardage by size: .svg, .pdf or .png\n"
    "  --json             print the rows as JSON\n"
    "  --csv              print them as comma-separated values\n" SOLVE_HELP
    "  --help             this text\n"
    "\n"
    "Numbers without a unit are in the job's. JOB is a JSON file (see "
    "quiltcut\n"
    "schema job); - reads the standard input.\n";

typedef struct compare_args {
    solve_args solve;
    bool json, csv, help;
    const char *block_sizes, *step, *quilt, *sizes, *plot;
    bed_args beds;
} compare_args;

static int check_args(const compare_args *args)
{
    const char *wrong = NULL;

    if (!args->block_sizes == !args->sizes)
        wrong = "one of --block-sizes and --sizes is needed";
    else if (args->sizes && (args->quilt || args->step))
        wrong = "--quilt and --step go with --block-sizes";
    else if (args->block_sizes && (args->beds.drop || args->beds.tuck))
        wrong = "--drop and --tuck go with --sizes";
    if (!wrong)
        return CLI_DONE;
    complain("compare: %s; see quiltcut compare --help", wrong);
    return CLI_USAGE;
}

/* What is compared, in the job's units. */
typedef struct sizes {
    qc_length *blocks;
    qc_quilt_size *quilts, quilt;
    size_t block_count, quilt_count;
} sizes;

static int read_sizes(const compare_args *args, qc_units units, sizes *out)
{
    int status = CLI_DONE;

    if (args->quilt)
        status = read_quilt(args->quilt, units, &out->quilt);
    if (status == CLI_DONE && args->block_sizes)
        status = read_block_sizes(args->block_sizes, args->step, units,
                                  &out->blocks, &out->block_count);
    if (status == CLI_DONE && args->sizes)
        status = read_beds(args->sizes, &args->beds, units, &out->quilts,
                           &out->quilt_count);
    return status;
}

static void end_sizes(sizes *all)
{
    if (all->quilts)
        free((char *)all->quilts[0].name);
    free(all->quilts);
    free(all->blocks);
}

static int print_rows(const compare_args *args, const kept_rows *rows)
{
    if (args->json)
        return print_rows_json(rows);
    return args->csv ? print_rows_csv(rows) : print_rows_text(rows);
}

static int deliver(const compare_args *args, const kept_rows *rows,
                   outputs *set)
{
    int status = CLI_DONE;

    if (args->plot)
        status = stage_plot(rows, args->plot, set);
    if (status == CLI_DONE)
        status = commit_files(set);
    return status == CLI_DONE ? print_rows(args, rows) : status;
}

static bool make_rows(kept_rows *rows, const qc_job_spec *spec, size_t count)
{
    rows->at = calloc(count, sizeof *rows->at);
    rows->fabrics = calloc(spec->fabric_count, sizeof *rows->fabrics);
    rows->units = spec->units == QC_UNITS_DEFAULT ? QC_UNITS_IN : spec->units;
    rows->title = spec->title;
    if (!rows->at || !rows->fabrics)
        return false;
    rows->fabric_count = spec->fabric_count;
    for (size_t i = 0; i < spec->fabric_count; i++)
        rows->fabrics[i] = spec->fabrics[i].id;
    return true;
}

static void end_rows(kept_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++)
        free(rows->at[i].bought);
    free(rows->at);
    free(rows->fabrics);
}

static int compare(const compare_args *args, const char *name,
                   const qc_job_spec *spec, const sizes *all, kept_rows *rows)
{
    qc_compare_options chosen;
    qc_solve_options solve;
    qc_status status;
    qc_error err;
    int code = begin_solve(&args->solve, &solve);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    qc_compare_options_init(&chosen);
    chosen.block_sizes = all->blocks;
    chosen.block_size_count = all->block_count;
    chosen.quilts = all->quilts;
    chosen.quilt_count = all->quilt_count;
    chosen.quilt = args->quilt ? &all->quilt : NULL;
    chosen.solve = &solve;
    rows->of_blocks = all->block_count > 0;
    status = qc_compare(spec, &chosen, keep_row, rows, &err);
    end_solve(status == QC_STATUS_OK);
    if (status != QC_STATUS_OK)
        return report_error(&err, status, name);
    if (rows->failed) {
        complain("out of memory");
        return CLI_FAILED;
    }
    return CLI_DONE;
}

/* The exit code when no size could be planned: that of the first. */
static int code_of_rows(const kept_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++)
        if (rows->at[i].row.rank)
            return CLI_DONE;
    return CLI_IMPOSSIBLE;
}

static int run_compare(const compare_args *args, const char *name,
                       const qc_job_spec *spec, outputs *set)
{
    kept_rows rows = {0};
    sizes all = {0};
    qc_units units =
        spec->units == QC_UNITS_DEFAULT ? QC_UNITS_IN : spec->units;
    int status = read_sizes(args, units, &all);

    if (status == CLI_DONE &&
        !make_rows(&rows, spec, all.block_count + all.quilt_count)) {
        complain("out of memory");
        status = CLI_FAILED;
    }
    if (status == CLI_DONE)
        status = compare(args, name, spec, &all, &rows);
    if (status == CLI_DONE)
        status = deliver(args, &rows, set);
    if (status == CLI_DONE)
        status = code_of_rows(&rows);
    end_rows(&rows);
    end_sizes(&all);
    return status;
}

int cmd_compare(int argc, char **argv)
{
    compare_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false}};
    const cli_option options[] = {
        {.name = "block-sizes", .text = &args.block_sizes},
        {.name = "step", .text = &args.step},
        {.name = "quilt", .text = &args.quilt},
        {.name = "sizes", .text = &args.sizes},
        {.name = "drop", .text = &args.beds.drop},
        {.name = "tuck", .text = &args.beds.tuck},
        {.name = "plot", .text = &args.plot},
        {.name = "json", .flag = &args.json},
        {.name = "csv", .flag = &args.csv},
        SOLVE_OPTIONS(args.solve),
        {.name = "help", .flag = &args.help}};
    qc_job_draft *draft = NULL;
    outputs set = {0};
    const char *job;
    int status = READ_OPTIONS(argc, argv, options);

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    status = read_operand(argc, argv, "job", &job);
    if (status == CLI_DONE)
        status = check_args(&args);
    if (status == CLI_DONE)
        status = refuse_two_forms("compare", args.json, args.csv);
    if (status == CLI_DONE)
        status = read_draft(job, &draft, &set.input);
    if (status == CLI_DONE)
        status = run_compare(&args, job, qc_job_draft_spec(draft), &set);
    qc_job_draft_destroy(draft);
    end_files(&set);
    return status;
}
