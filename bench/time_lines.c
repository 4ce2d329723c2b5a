/* Times what a user waits for, one after the other, for every job line on stdin
 * (see mini_read); one line on stdout for each:
 *
 *   name first_us=  the first feasible plan, cut order and replay included: the
 *                   job solved with a limit of 1 ms
 *        t_us= cpu_us=  the whole solve, in wall and CPU time
 *        bought= bound= proved=
 *        write_us= check_us= certified=  its certificate, and checking it alone
 *        nodes=     of the certificate's tree
 *        peak_kb=   most memory the process has held so far
 *
 * The first job of a process pays for what is made ready once: its times are
 * those of a cold start. */
#include "mini.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

static int64_t now_us(clockid_t clock)
{
    struct timespec t;

    clock_gettime(clock, &t);
    return (int64_t)t.tv_sec * 1000000 + t.tv_nsec / 1000;
}

static qc_plan *solve(const mini_job *job, int32_t limit_ms)
{
    mini_job limited = *job;
    qc_plan *plan = NULL;
    qc_error err;

    limited.time_limit_ms = limit_ms;
    qc_error_init(&err);
    if (mini_solve(&limited, 1, &plan, &err)) {
        fprintf(stderr, "%s\n", err.problem);
        exit(1);
    }
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

static void time_job(const char *name, const mini_job *job)
{
    int64_t start = now_us(CLOCK_MONOTONIC), cpu, first;
    const qc_plan_fabric *fabric;
    struct rusage usage;
    qc_plan *plan;

    qc_plan_destroy(solve(job, 1));
    first = now_us(CLOCK_MONOTONIC) - start;
    start = now_us(CLOCK_MONOTONIC);
    cpu = now_us(CLOCK_PROCESS_CPUTIME_ID);
    plan = solve(job, job->time_limit_ms);
    fabric = qc_plan_fabric_at(plan, 0);
    printf("%s first_us=%" PRId64 " t_us=%" PRId64 " cpu_us=%" PRId64
           " bought=%" PRId64 " bound=%" PRId64 " proved=%d",
           name, first, now_us(CLOCK_MONOTONIC) - start,
           now_us(CLOCK_PROCESS_CPUTIME_ID) - cpu, fabric->bought,
           fabric->bound, fabric->bought == fabric->bound);
    certify(plan);
    getrusage(RUSAGE_SELF, &usage);
    printf(" peak_kb=%ld\n", usage.ru_maxrss);
    fflush(stdout);
    qc_plan_destroy(plan);
}

int main(void)
{
    static mini_job job;
    char name[64];
    int state;

    while ((state = mini_read(stdin, name, &job)) > 0)
        time_job(name, &job);
    return state < 0;
}
