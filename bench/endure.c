/* Solves the jobs on stdin (see mini_read) over and over in one process.
 *
 *   endure COUNT
 *
 * After the first tenth and at the end it prints how many solves there were and
 * the memory that the process holds, in KiB: a leak shows as growth. */
#include "mini.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define JOBS 32

static mini_job jobs[JOBS];

/* Resident memory, in KiB, as Linux tells it. */
static long held_kb(void)
{
    char line[128];
    long held = 0;
    FILE *status = fopen("/proc/self/status", "r");

    while (status && fgets(line, sizeof line, status))
        if (sscanf(line, "VmRSS: %ld", &held) == 1)
            break;
    if (status)
        fclose(status);
    return held;
}

static void solve(const mini_job *job)
{
    qc_plan *plan = NULL;
    char *text = NULL;

    if (mini_solve(job, 1, &plan, NULL) ||
        qc_plan_certificate(plan, &text, NULL))
        exit(1);
    qc_text_destroy(text);
    qc_plan_destroy(plan);
}

int main(int argc, char **argv)
{
    long count = argc > 1 ? strtol(argv[1], NULL, 10) : 0;
    size_t n = 0;
    char name[64];

    while (n < JOBS && mini_read(stdin, name, &jobs[n]) > 0)
        n++;
    if (!n || count < 10)
        return 1;
    for (long i = 1; i <= count; i++) {
        solve(&jobs[(size_t)i % n]);
        if (i == count / 10 || i == count)
            printf("%ld %ld\n", i, held_kb());
    }
    return 0;
}
