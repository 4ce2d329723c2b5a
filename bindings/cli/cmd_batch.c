/* quiltcut batch JOB...: what to buy for each of many jobs.
 *
 * A job that cannot be read, is wrong or impossible has its line on stderr and
 * its row in the table; the others are planned. The worst exit code counts. */
#include "cli.h"

#include <stdio.h>
#include <stdlib.h>

static const char help[] =
    "Usage: quiltcut batch [OPTION]... JOB...\n"
    "\n"
    "Plans many jobs at once and prints what to buy of each fabric, and where\n"
    "that goes: into seams, into leftovers worth keeping, into scrap.\n"
    "\n"
    "  --json             print every plan as JSON, in a list\n"
    "  --csv              print the table as comma-separated "
    "values\n" SOLVE_HELP "  --help             this text\n"
    "\n"
    "JOB is a JSON file (see quiltcut schema job); - reads the standard "
    "input.\n"
    "A job that fails does not stop the others; the exit code is the worst.\n"
    "Ctrl-C ends the search with the best plans found so far.\n";

typedef struct batch_args {
    solve_args solve;
    bool json, csv, help;
} batch_args;

/* A job that was given. */
typedef struct entry {
    const char *name;
    qc_job *job; /* NULL: not a job */
    batch_end end;
} entry;

/* --- the table ------------------------------------------------------------ */

static const column columns[] = {
    {"job", "job", false},        {"exit", NULL, true},
    {"status", "length", false},  {"fabric", NULL, false},
    {"name", "fabric", false},    {"units", NULL, false},
    {"bought", "buy", true},      {"bound", NULL, true},
    {"usable_width", NULL, true}, {"finished", "quilt", true},
    {"seams", "seams", true},     {"leftover", "left over", true},
    {"scrap", "scrap", true},     {"setups", NULL, true},
    {"cuts", NULL, true},
};
#define COLUMNS (sizeof columns / sizeof *columns)

static void put_outcome(table *t, const qc_plan_fabric *fabric)
{
    char text[64] = "proved minimal";

    if (fabric->outcome != QC_OUTCOME_OPTIMAL)
        snprintf(text, sizeof text, "within %.1f %%",
                 100 * (double)(fabric->bought - fabric->bound) /
                     (double)fabric->bought);
    put_cell(t, text,
             fabric->outcome == QC_OUTCOME_OPTIMAL ? "optimal" : "feasible");
}

static void put_fabric(table *t, const char *job, bool first,
                       const qc_plan_fabric *fabric, qc_units units)
{
    static const char *const names[] = {"in", "cm", "mm"};
    double whole = (double)fabric->bought * (double)fabric->usable_width;
    char buy[64];

    qc_length_format_purchase(fabric->bought, units, buy, sizeof buy);
    put_cell(t, first ? job : "", job);
    put_count(t, CLI_DONE);
    put_outcome(t, fabric);
    put_cell(t, "", fabric->id);
    put_cell(t, fabric->name, fabric->name);
    put_cell(t, "", names[units]);
    put_length(t, buy, fabric->bought, units);
    put_length(t, "", fabric->bound, units);
    put_length(t, "", fabric->usable_width, units);
    put_area(t, fabric->area.finished, whole, units);
    put_area(t, fabric->area.seams, whole, units);
    put_area(t, fabric->area.leftover, whole, units);
    put_area(t, fabric->area.scrap, whole, units);
    put_count(t, fabric->setups);
    put_count(t, fabric->cuts);
}

static void put_failed(table *t, const entry *one)
{
    const char *word = one->end.code == CLI_INPUT        ? "wrong input"
                       : one->end.code == CLI_IMPOSSIBLE ? "impossible"
                                                         : "failed";

    put_cell(t, one->name, one->name);
    put_count(t, one->end.code);
    put_cell(t, word, word);
    for (size_t c = 3; c < COLUMNS; c++)
        put_cell(t, "", "");
}

static int print_rows(const entry *entries, size_t count, bool csv)
{
    table t = {.columns = columns, .width = COLUMNS};
    int status;

    for (size_t i = 0; i < count; i++) {
        const qc_plan *plan = entries[i].end.plan;

        if (!plan)
            put_failed(&t, &entries[i]);
        for (size_t f = 0; plan && f < qc_plan_fabric_count(plan); f++)
            put_fabric(&t, entries[i].name, f == 0, qc_plan_fabric_at(plan, f),
                       qc_plan_units(plan));
    }
    status = print_table(&t, csv);
    end_table(&t);
    return status;
}

static int print_notes(const entry *entries, size_t count)
{
    size_t proved = 0, planned = 0;
    char line[320];

    for (size_t i = 0; i < count; i++) {
        const qc_plan *plan = entries[i].end.plan;

        planned += plan != NULL;
        proved += plan && qc_plan_outcome(plan) == QC_OUTCOME_OPTIMAL;
    }
    snprintf(
        line, sizeof line,
        "\nShares are of the cloth to buy: in the finished quilt, in seams "
        "and rounding\nup, in leftovers worth keeping, in scrap.\n"
        "%zu job%s: %zu proved minimal, %zu planned without a proof, "
        "%zu failed.\n",
        count, count == 1 ? "" : "s", proved, planned - proved,
        count - planned);
    return print_text(line);
}

/* --- JSON ----------------------------------------------------------------- */

/* {"job": NAME, "exit": CODE, "plan": PLAN or null} */
static int print_entry(const entry *one)
{
    char *plan = NULL, code[48];
    int status;

    if (one->end.plan && qc_plan_json(one->end.plan, &plan, NULL)) {
        complain("out of memory");
        return CLI_FAILED;
    }
    snprintf(code, sizeof code, ", \"exit\": %d, \"plan\": ", one->end.code);
    status = print_text("\n{\"job\": ");
    if (status == CLI_DONE)
        status = print_string(one->name);
    if (status == CLI_DONE)
        status = print_text(code);
    if (status == CLI_DONE)
        status = print_text(plan ? plan : "null");
    qc_text_destroy(plan);
    return status == CLI_DONE ? print_text("}") : status;
}

static int print_json(const entry *entries, size_t count)
{
    int status = print_text("{\"quiltcut\": 1, \"jobs\": [");

    for (size_t i = 0; i < count && status == CLI_DONE; i++) {
        if (i)
            status = print_text(",");
        if (status == CLI_DONE)
            status = print_entry(&entries[i]);
    }
    return status == CLI_DONE ? print_text("]}\n") : status;
}

/* --- the jobs ------------------------------------------------------------- */

/* What the library is given: the jobs among the entries. */
typedef struct found {
    const qc_job **jobs;
    const char **names;
    batch_end *ends;
    size_t count;
} found;

static bool make_room(found *all, size_t count)
{
    all->jobs = calloc(count, sizeof *all->jobs);
    all->names = calloc(count, sizeof *all->names);
    all->ends = calloc(count, sizeof *all->ends);
    return all->jobs && all->names && all->ends;
}

static int solve_entries(entry *entries, size_t count, const solve_args *args)
{
    found all = {0};
    int status = CLI_DONE;

    if (!make_room(&all, count)) {
        complain("out of memory");
        status = CLI_FAILED;
    }
    for (size_t i = 0; i < count && status == CLI_DONE; i++) {
        if (!entries[i].job)
            continue;
        all.jobs[all.count] = entries[i].job;
        all.names[all.count++] = entries[i].name;
    }
    if (status == CLI_DONE && all.count)
        status = solve_jobs(all.jobs, all.names, all.count, args, all.ends);
    for (size_t i = count; i-- > 0 && status == CLI_DONE;)
        if (entries[i].job)
            entries[i].end = all.ends[--all.count];
    free(all.jobs);
    free(all.names);
    free(all.ends);
    return status;
}

static int run_batch(const batch_args *args, entry *entries, size_t count)
{
    int status, worst = CLI_DONE;
    file_mark mark;

    for (size_t i = 0; i < count; i++)
        entries[i].end.code = read_job(entries[i].name, &entries[i].job, &mark);
    status = solve_entries(entries, count, &args->solve);
    if (status != CLI_DONE)
        return status;
    status = args->json ? print_json(entries, count)
                        : print_rows(entries, count, args->csv);
    if (status == CLI_DONE && !args->json && !args->csv)
        status = print_notes(entries, count);
    for (size_t i = 0; i < count; i++)
        if (entries[i].end.code > worst)
            worst = entries[i].end.code;
    return status == CLI_DONE ? worst : status;
}

int cmd_batch(int argc, char **argv)
{
    batch_args args = {.solve = {QC_DEFAULT, QC_DEFAULT, false}};
    const cli_option options[] = {{.name = "json", .flag = &args.json},
                                  {.name = "csv", .flag = &args.csv},
                                  SOLVE_OPTIONS(args.solve),
                                  {.name = "help", .flag = &args.help}};
    int status = READ_OPTIONS(argc, argv, options);
    size_t count = (size_t)(argc - optind);
    entry *entries;

    if (status != CLI_DONE)
        return status;
    if (args.help)
        return print_text(help);
    if (refuse_two_forms("batch", args.json, args.csv) != CLI_DONE)
        return CLI_USAGE;
    if (!count) {
        complain("batch: no job given; see quiltcut batch --help");
        return CLI_USAGE;
    }
    entries = calloc(count, sizeof *entries);
    if (!entries) {
        complain("out of memory");
        return CLI_FAILED;
    }
    for (size_t i = 0; i < count; i++)
        entries[i].name = argv[(size_t)optind + i];
    status = run_batch(&args, entries, count);
    for (size_t i = 0; i < count; i++) {
        qc_plan_destroy(entries[i].end.plan);
        qc_job_destroy(entries[i].job);
    }
    free(entries);
    return status;
}
