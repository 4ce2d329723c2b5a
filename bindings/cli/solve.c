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

static void on_interrupt(int number)
{
    (void)number;
    stopped = 1;
    qc_cancel_raise(stop_flag);
}

/* Keeps what was set before in `before`; a program started with Ctrl-C ignored
 * (in the background) goes on ignoring it. */
static void catch_interrupt(struct sigaction *before)
{
    struct sigaction action;

    memset(&action, 0, sizeof action);
    sigemptyset(&action.sa_mask);
    action.sa_handler = on_interrupt;
    action.sa_flags = (int)SA_RESETHAND | SA_RESTART;
    sigaction(SIGINT, NULL, before);
    if (before->sa_handler != SIG_IGN)
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

/* The error as one line, with its place in the file. */
static int report(const qc_error *err, qc_status status, const char *name)
{
    char line[1024];

    qc_error_format(err, strcmp(name, "-") == 0 ? "standard input" : name, line,
                    sizeof line);
    hide_controls(line); /* those in the file's name too */
    fprintf(stderr, "%s\n", line);
    return exit_code(status);
}

static qc_status solve(const qc_job *job, const solve_args *args, qc_plan **out,
                       qc_error *err)
{
    bool terminal = isatty(STDERR_FILENO);
    qc_solve_options options;
    struct sigaction before;
    qc_status status;

    qc_solve_options_init(&options);
    options.time_limit_ms = args->time_limit_ms;
    options.threads = args->threads;
    options.left_handed = args->left_handed;
    options.cancel = stop_flag;
    options.progress = terminal ? show_progress : NULL;
    catch_interrupt(&before);
    status = qc_job_solve(job, &options, out, err);
    sigaction(SIGINT, &before, NULL);
    if (terminal)
        fprintf(stderr, "\r\033[K");
    if (stopped && status == QC_STATUS_OK)
        complain("stopped: this is the best plan found so far");
    return status;
}

int take_solve_option(int code, const char *value, solve_args *args)
{
    if (code == SOLVE_TIME_LIMIT)
        return read_seconds(value, &args->time_limit_ms);
    if (code == SOLVE_LEFT_HANDED) {
        args->left_handed = true;
        return CLI_DONE;
    }
    return read_count("threads", value, 256, &args->threads);
}

int solve_file(const char *name, const solve_args *args, qc_plan **out,
               file_mark *mark)
{
    char *text;
    size_t size;
    qc_job *job = NULL;
    qc_error err;
    qc_status status;
    int code = read_input(name, &text, &size, mark);

    if (code != CLI_DONE)
        return code;
    qc_error_init(&err);
    status = qc_job_parse(text, size, &job, &err);
    free(text);
    if (status == QC_STATUS_OK) {
        stop_flag = qc_cancel_create();
        if (!stop_flag) {
            complain("out of memory");
            qc_job_destroy(job);
            return CLI_FAILED;
        }
        status = solve(job, args, out, &err);
    }
    if (status != QC_STATUS_OK)
        code = report(&err, status, name);
    qc_cancel_destroy(stop_flag);
    stop_flag = NULL;
    qc_job_destroy(job);
    return code;
}
