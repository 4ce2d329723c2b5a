/* Times what a user waits for, one after the other, for every job on stdin, a
 * line each; one line on stdout for each:
 *
 *   name first_us=  the first feasible plan, cut order and replay included: the
 *                   job solved with a limit of 1 ms (CPU time)
 *        t_us= cpu_us=  the whole solve, in wall and CPU time
 *        bought= bound= proved=  of all fabrics together
 *        setups= setups_bound=   of the first fabric; 0: no goal
 *        columns=   most columns of a linear program
 *        write_us= check_us= certified=  its certificate, and checking it alone
 *        nodes=     of the certificate's trees
 *        peak_kb=   most memory the process has held so far
 *
 * A job is a line of numbers (see mini_read), or "{NAME LIMIT_MS JOB" with a
 * JSON job on the same line. Limits are CPU time (meter.c). The first job of a
 * process pays for what is made ready once: its times are those of a cold
 * start.
 *
 *   time_lines [THREADS] */
#include "meter.h"
#include "mini.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

static int threads = 1;

static int64_t now_us(clockid_t clock)
{
    struct timespec t;

    clock_gettime(clock, &t);
    return (int64_t)t.tv_sec * 1000000 + t.tv_nsec / 1000;
}

static void give_up(const qc_error *err)
{
    fprintf(stderr, "%s\n", err->problem);
    exit(1);
}

static qc_plan *solve(const qc_job *job, int32_t limit_ms)
{
    qc_solve_options options;
    qc_plan *plan = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.threads = threads;
    options.time_limit_ms = limit_ms;
    if (qc_job_solve(job, &options, &plan, &err))
        give_up(&err);
    return plan;
}

static long count_nodes(const char *certificate)
{
    long splits = 0;

    for (const char *at = certificate; (at = strstr(at, "\"most\"")); at++)
        splits++;
    return 2 * splits + 1;
}

static void certify(const qc_plan *plan)
{
    qc_verdict verdict = QC_VERDICT_REFUSED;
    char *text = NULL, *report = NULL;
    int64_t start = now_us(CLOCK_PROCESS_CPUTIME_ID), written;

    if (qc_plan_certificate(plan, &text, NULL))
        exit(1);
    written = now_us(CLOCK_PROCESS_CPUTIME_ID);
    if (qc_certificate_check(text, strlen(text), &verdict, &report, NULL))
        exit(1);
    printf(" write_us=%" PRId64 " check_us=%" PRId64 " certified=%d nodes=%ld",
           written - start, now_us(CLOCK_PROCESS_CPUTIME_ID) - written,
           verdict == QC_VERDICT_PROVED, count_nodes(text));
    qc_text_destroy(report);
    qc_text_destroy(text);
}

static void print_lengths(const qc_plan *plan, size_t fabrics)
{
    int64_t bought = 0, bound = 0;

    for (size_t i = 0; i < fabrics; i++) {
        bought += qc_plan_fabric_at(plan, i)->bought;
        bound += qc_plan_fabric_at(plan, i)->bound;
    }
    printf(" bought=%" PRId64 " bound=%" PRId64 " proved=%d", bought, bound,
           bought == bound);
}

static void print_setups(const qc_plan *plan)
{
    const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, 0);
    int64_t bound = 0;

    for (size_t i = 0; i < fabric->level_count; i++)
        if (qc_plan_level_at(plan, 0, i)->goal == QC_GOAL_SETUPS)
            bound = qc_plan_level_at(plan, 0, i)->bound;
    printf(" setups=%" PRIu32 " setups_bound=%" PRId64, fabric->setups, bound);
}

static void time_job(const char *name, const qc_job *job, int32_t limit_ms)
{
    int64_t start, cpu = now_us(CLOCK_PROCESS_CPUTIME_ID), first;
    struct rusage usage;
    qc_plan *plan;

    qc_plan_destroy(solve(job, 1));
    first = now_us(CLOCK_PROCESS_CPUTIME_ID) - cpu;
    qcb_most_columns();
    start = now_us(CLOCK_MONOTONIC);
    cpu = now_us(CLOCK_PROCESS_CPUTIME_ID);
    plan = solve(job, limit_ms);
    printf("%s first_us=%" PRId64 " t_us=%" PRId64 " cpu_us=%" PRId64, name,
           first, now_us(CLOCK_MONOTONIC) - start,
           now_us(CLOCK_PROCESS_CPUTIME_ID) - cpu);
    print_lengths(plan, qc_plan_fabric_count(plan));
    print_setups(plan);
    printf(" columns=%d", qcb_most_columns());
    certify(plan);
    getrusage(RUSAGE_SELF, &usage);
    printf(" peak_kb=%ld\n", usage.ru_maxrss);
    fflush(stdout);
    qc_plan_destroy(plan);
}

/* The rest of a line that began with a brace: name, limit, job. */
static void time_json(void)
{
    char name[64], *text = NULL;
    int limit_ms;
    size_t room = 0;
    qc_job *job = NULL;
    qc_error err;

    qc_error_init(&err);
    if (scanf("%63s %d ", name, &limit_ms) != 2 ||
        getline(&text, &room, stdin) < 0)
        exit(1);
    if (qc_job_parse(text, strlen(text), &job, &err))
        give_up(&err);
    time_job(name, job, limit_ms);
    qc_job_destroy(job);
    free(text);
}

/* Is the next job a JSON one? Its first letter is taken then. */
static int is_json(void)
{
    int letter = getchar();

    while (letter == '\n')
        letter = getchar();
    if (letter == '{')
        return 1;
    ungetc(letter, stdin);
    return 0;
}

int main(int argc, char **argv)
{
    static mini_job mini;
    char name[64];
    int state = 1;

    if (argc > 1)
        threads = atoi(argv[1]);
    while (state > 0) {
        qc_job *job = NULL;
        qc_error err;

        if (is_json()) {
            time_json();
            continue;
        }
        state = mini_read(stdin, name, &mini);
        if (state <= 0)
            break;
        qc_error_init(&err);
        if (mini_create(&mini, &job, &err))
            give_up(&err);
        time_job(name, job, mini.time_limit_ms);
        qc_job_destroy(job);
    }
    return state < 0;
}
