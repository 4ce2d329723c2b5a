/* What the parts of the command line program share. */
#ifndef QUILTCUT_CLI_H
#define QUILTCUT_CLI_H

#include <getopt.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/quiltcut.h>

/* Exit codes. */
enum {
    CLI_DONE = 0,
    CLI_FAULTS = 1,     /* a check has found faults */
    CLI_USAGE = 2,      /* wrong command line */
    CLI_INPUT = 3,      /* unreadable or wrong input */
    CLI_IMPOSSIBLE = 4, /* a piece cannot be cut from its fabric */
    CLI_FAILED = 5 /* solver, memory, or output that could not be written */
};

/* --- main.c -------------------------------------------------------------- */

/* One line on stderr, begun with the program's name; controls become '?'. */
void complain(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* Makes '?' of every byte of a control character and of every byte that is not
 * UTF-8, so that a terminal shows the text and does not obey it. */
void hide_controls(char *text);

/* --- args.c -------------------------------------------------------------- */

/* An option of a command, and the one place that it fills in. */
typedef struct cli_option {
    const char *name;
    bool *flag;        /* set to true; the option takes no value */
    const char **text; /* set to the value as it stands */
    /* Reads the value into `out`; CLI_DONE, or another code after complaining.
     */
    int (*read)(const char *value, void *out);
    void *out;
} cli_option;

#define OPTION_LIMIT 24

/* Reads the options of a command, at most OPTION_LIMIT; -h is the one named
 * help. Operands are then at argv[optind]. */
int read_options(int argc, char **argv, const cli_option *options, size_t n);
#define READ_OPTIONS(argc, argv, options)                                      \
    read_options(argc, argv, options, sizeof(options) / sizeof *(options))
/* Complains where both are wanted. */
int refuse_two_forms(const char *command, bool json, bool csv);
/* Takes the one operand that is left; `what` names it in a complaint. */
int read_operand(int argc, char **argv, const char *what, const char **out);
/* The known word most like `word`, or NULL when none is. */
const char *nearest_word(const char *word, const char *const *known, size_t n);
/* " (did you mean 'WORD'?)", or nothing; lives until the next call. */
const char *suggestion(const char *word, const char *const *known, size_t n);
/* What --time-limit takes: seconds with at most three decimals; `out` is
 * int32_t, milliseconds. */
int read_seconds(const char *text, void *out);
/* What --threads takes; `out` is int32_t. */
int read_threads(const char *text, void *out);
/* The units by name, as --units takes them; `out` is qc_units. */
extern const char *const unit_names[];
int read_units(const char *text, void *out);
int read_count(const char *option, const char *text, int32_t most,
               int32_t *out);

/* --- files.c ------------------------------------------------------------- */

/* Which file on disk something was read from. */
typedef struct file_mark {
    bool known;
    uint64_t device, number;
} file_mark;

/* Reads a whole file; "-" is the standard input. `*out` is freed by the caller.
 */
int read_input(const char *name, char **out, size_t *size, file_mark *mark);

/* Files to be written, all or none: contents go to hidden files beside their
 * place, and appear there when they are committed. */
typedef struct outputs {
    file_mark input; /* never overwritten */
    struct staged {
        char *name; /* as it was given */
        char *path; /* what it leads to */
        char *temp;
        bool there;                                   /* the hidden file is */
        enum { OLD_NONE, OLD_KEPT, OLD_GONE } before; /* what it replaced */
    } * files;
    size_t count;
} outputs;

/* Takes a path that the user wrote out: where it is a link, what the link leads
 * to is replaced. */
int stage_file(outputs *set, const char *path, const void *bytes, size_t size);
/* Takes a path whose last part the program made up: a link there is refused. */
int stage_inside(outputs *set, const char *path, const void *bytes,
                 size_t size);
/* Gives all of them their names, or none. */
int commit_files(outputs *set);
/* The same without a guard against signals: place.c. */
int place_files(outputs *set);
/* Removes what was not committed. */
void end_files(outputs *set);
/* Writes to the standard output. */
int print_out(const char *bytes, size_t size);
int print_text(const char *text);
/* A text as a JSON string. */
int print_string(const char *text);
/* The names of the files, a line each; on a terminal without controls. */
int print_paths(const outputs *set);

/* --- deliver.c ----------------------------------------------------------- */

/* Says why the library made no text. */
int not_made(qc_status status);
/* A text for the file `output`, staged; NULL: none. */
int stage_text(outputs *set, const char *output, const char *text);
/* Gives all files their names; then the text is printed if none is for it. */
int deliver_text(outputs *set, const char *output, const char *text);

/* --- solve.c ------------------------------------------------------------- */

typedef struct solve_args {
    int32_t time_limit_ms;
    int32_t threads;
    bool left_handed;
} solve_args;

/* The options that fill `args` in, as every command that solves has them. */
#define SEARCH_OPTIONS(args)                                                   \
    {.name = "time-limit",                                                     \
     .read = read_seconds,                                                     \
     .out = &(args).time_limit_ms},                                            \
    {                                                                          \
        .name = "threads", .read = read_threads, .out = &(args).threads        \
    }
#define SOLVE_OPTIONS(args)                                                    \
    SEARCH_OPTIONS(args),                                                      \
    {                                                                          \
        .name = "left-handed", .flag = &(args).left_handed                     \
    }
#define SOLVE_HELP                                                             \
    "  --left-handed      cut with the left hand: every direction mirrored\n"  \
    "  --time-limit S     look for at most S seconds, such as 0.5 or 60\n"     \
    "  --threads N        plan N fabrics at once\n"

/* Reads a job and says what is wrong with it. `mark` tells the file. */
int read_job(const char *name, qc_job **out, file_mark *mark);
/* The same, checked but not made: to be changed before it is. */
int read_draft(const char *name, qc_job_draft **out, file_mark *mark);

/* Reads a job, solves it and says what went wrong; Ctrl-C ends the search with
 * the best plan so far. `mark` tells the file the job came from. */
int solve_file(const char *name, const solve_args *args, qc_plan **out,
               file_mark *mark);

/* What became of a job: a plan, or an exit code other than CLI_DONE. */
typedef struct batch_end {
    qc_plan *plan;
    int code;
} batch_end;

/* Solves all jobs at once and says what went wrong with each; `ends` has as
 * many places, and its plans are the caller's. */
int solve_jobs(const qc_job *const *jobs, const char *const *names,
               size_t count, const solve_args *args, batch_end *ends);

/* What a solve is told; from here on Ctrl-C stops it. Ended with end_solve(),
 * which tells whether a plan was `found`, unless it fails. */
int begin_solve(const solve_args *args, qc_solve_options *options);
void end_solve(bool found);

/* The error as one line, with its place in the file; returns the exit code. */
int report_error(const qc_error *err, qc_status status, const char *name);

/* --- table.c ------------------------------------------------------------- */

typedef struct column {
    const char *key;     /* in CSV */
    const char *heading; /* in text; NULL: left out there */
    bool number;         /* set to the right */
} column;

/* Rows of cells, written as text for a person or as CSV for a program. */
typedef struct table {
    const column *columns;
    size_t width; /* columns */
    size_t leads; /* of them, that tell the rows apart: where a line is too long
                     for all, they begin each of several tables; 0: one table
                     in any case */
    char **shown, **values;
    size_t count; /* cells */
    bool failed;  /* memory is out */
} table;

/* The next cell, from left to right: as it is shown, and its value for CSV. */
void put_cell(table *t, const char *shown, const char *value);
/* A cell of a count; of a length in `units`; of an area in square units, which
 * is shown as its share of `whole`. */
void put_count(table *t, int64_t value);
void put_length(table *t, const char *shown, qc_length length, qc_units units);
void put_area(table *t, int64_t area, double whole, qc_units units);
/* Prints the table: columns that line up, or CSV, quoted as RFC 4180 has it. */
int print_table(const table *t, bool csv);
/* Prints the rows as JSON: a list of objects under `name`. */
int print_table_json(const table *t, const char *name);
void end_table(table *t);

/* --- diagrams.c ---------------------------------------------------------- */

/* Draws every fabric that is cut to PREFIX-NUMBER-FABRIC.FORMAT, staged; the
 * format is svg, pdf or png. The paths come after those already in `set`, in
 * the order of the fabrics. */
int stage_diagrams(const qc_plan *plan, const char *format, const char *prefix,
                   outputs *set);

/* Draws blocks to a file, staged; its ending, svg, pdf or png, is the format.
 */
int stage_blocks(const qc_block *const *blocks, size_t count, const char *path,
                 outputs *set);
/* The same for the rows of a chart. */
int stage_chart(const qc_chart_row *rows, size_t count,
                const qc_chart_options *chart, const char *title,
                const char *path, outputs *set);

/* --- the commands -------------------------------------------------------- */

int cmd_batch(int argc, char **argv);
int cmd_blocks(int argc, char **argv);
int cmd_certify(int argc, char **argv);
int cmd_compare(int argc, char **argv);
int cmd_chart(int argc, char **argv);
int cmd_check(int argc, char **argv);
int cmd_plan(int argc, char **argv);
int cmd_draw(int argc, char **argv);
int cmd_schema(int argc, char **argv);

#endif
