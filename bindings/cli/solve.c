/* From a job file to a plan, with progress and Ctrl-C.
 *
 * The first Ctrl-C asks the library to stop with the best plan so far; the
 * handler then is the system's own again, so that a second one ends the
 * program. Progress is shown on a terminal only. */
#include "cli.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static qc_cancel *stop_flag;
static volatile sig_atomic_t stopped;
static struct sigaction before; /* what Ctrl-C did */

static void on_interrupt(int number)
{
    (void)number;
    stopped = 1;
    qc_cancel_raise(stop_flag);
}

/* Keeps what was set before in `old`; a program started with Ctrl-C ignored
 * (in the background) goes on ignoring it. */
static void catch_interrupt(struct sigaction *old)
{
    struct sigaction action;

    memset(&action, 0, sizeof action);
    sigemptyset(&action.sa_mask);
    action.sa_handler = on_interrupt;
    action.sa_flags = (int)SA_RESETHAND | SA_RESTART;
    sigaction(SIGINT, NULL, old);
    if (old->sa_handler != SIG_IGN)
        sigaction(SIGINT, &action, NULL);
}

static void show_progress(const qc_progress *progress, void *user)
{
    int64_t gap;

    (void)user;
    fprintf(stderr, "\r\033[K%s: %d s", progress->fabric,
            (int)(progress->elapsed_ms / 1000));
    if (progress->bought > 0) {
        gap = (progress->bought - progress->bound) * 1000 / progress->bought;
        fprintf(stderr, ", at most %d.%d %% above the least possible",
                (int)(gap / 10), (int)(gap % 10));
    }
    fflush(stderr);
}

static int exit_code(qc_status status)
{
    switch (status) {
    case QC_STATUS_OK:
        return CLI_DONE;
    case QC_STATUS_INVALID:
        return CLI_INPUT;
    case QC_STATUS_IMPOSSIBLE:
        return CLI_IMPOSSIBLE;
    default:
        return CLI_FAILED;
    }
}

int report_error(const qc_error *err, qc_status status, const char *name)
{
    char line[1024];

    qc_error_format(err, strcmp(name, "-") == 0 ? "standard input" : name, line,
                    sizeof line);
    hide_controls(line); /* those in the file's name too */
    fprintf(stderr, "%s\n", line);
    return exit_code(status);
}

static void fill_options(qc_solve_options *options, const solve_args *args)
{
    qc_solve_options_init(options);
    options->time_limit_ms = args->time_limit_ms;
    options->threads = args->threads;
    options->left_handed = args->left_handed;
    options->cancel = stop_flag;
}

int read_job(const char *name, qc_job **out, file_mark *mark)
{
    char *text;
    size_t size;
    qc_error err;
    qc_status status;
    int code = read_input(name, &text, &size, mark);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    status = qc_job_parse(text, size, out, &err);
    free(text);
    return status == QC_STATUS_OK ? CLI_DONE : report_error(&err, status, name);
}

/* Checked first as it is given, so that what is wrong has its place. */
int read_draft(const char *name, qc_job_draft **out, file_mark *mark)
{
    qc_status status;
    qc_job *job = NULL;
    qc_error err;
    size_t size;
    char *text;
    int code = read_input(name, &text, &size, mark);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    status = qc_job_parse(text, size, &job, &err);
    qc_job_destroy(job);
    if (status == QC_STATUS_OK || status == QC_STATUS_IMPOSSIBLE) {
        qc_error_init(&err);
        status = qc_job_draft_parse(text, size, out, &err);
    }
    free(text);
    return status == QC_STATUS_OK ? CLI_DONE : report_error(&err, status, name);
}

static bool make_stop_flag(void)
{
    stop_flag = qc_cancel_create();
    if (!stop_flag)
        complain("out of memory");
    return stop_flag;
}

static void end_stop_flag(void)
{
    qc_cancel_destroy(stop_flag);
    stop_flag = NULL;
}

int begin_solve(const solve_args *args, qc_solve_options *options)
{
    if (!make_stop_flag())
        return CLI_FAILED;
    fill_options(options, args);
    options->progress = isatty(STDERR_FILENO) ? show_progress : NULL;
    catch_interrupt(&before);
    return CLI_DONE;
}

void end_solve(bool found)
{
    sigaction(SIGINT, &before, NULL);
    if (isatty(STDERR_FILENO))
        fprintf(stderr, "\r\033[K");
    if (stopped && found)
        complain("stopped: this is the best plan found so far");
    end_stop_flag();
}

int solve_file(const char *name, const solve_args *args, qc_plan **out,
               file_mark *mark)
{
    qc_solve_options options;
    qc_job *job = NULL;
    qc_error err;
    qc_status status;
    int code = read_job(name, &job, mark);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    code = begin_solve(args, &options);
    if (code == CLI_DONE) {
        status = qc_job_solve(job, &options, out, &err);
        end_solve(status == QC_STATUS_OK);
        if (status != QC_STATUS_OK)
            code = report_error(&err, status, name);
    }
    qc_job_destroy(job);
    return code;
}

/* What the jobs of a batch are to become. */
typedef struct gathered {
    const char *const *names;
    size_t count;
    batch_end *ends;
    bool terminal;
} gathered;

static void gather(size_t index, qc_plan *plan, const qc_error *err, void *user)
{
    gathered *all = user;

    all->ends[index] = (batch_end){plan, CLI_DONE};
    if (all->terminal)
        fprintf(stderr, "\r\033[K");
    if (!plan)
        all->ends[index].code = report_error(err, err->code, all->names[index]);
    if (all->terminal && index + 1 < all->count)
        fprintf(stderr, "%zu of %zu jobs done", index + 1, all->count);
    fflush(stderr);
}

int solve_jobs(const qc_job *const *jobs, const char *const *names,
               size_t count, const solve_args *args, batch_end *ends)
{
    gathered all = {names, count, ends, isatty(STDERR_FILENO)};
    qc_solve_options options;
    qc_status status;

    if (!make_stop_flag())
        return CLI_FAILED;
    fill_options(&options, args);
    catch_interrupt(&before);
    status = qc_batch_solve(jobs, count, &options, gather, &all, NULL);
    sigaction(SIGINT, &before, NULL);
    end_stop_flag();
    if (status != QC_STATUS_OK)
        complain("%s", qc_status_text(status));
    else if (stopped)
        complain("stopped: these are the best plans found so far");
    return exit_code(status);
}
