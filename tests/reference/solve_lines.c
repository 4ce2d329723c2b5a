/* Solves mini jobs given as lines on stdin, one result line each on stdout, so
 * that a script can put hundreds of jobs to the library in one process.
 *
 * In:  job lines as mini_read() takes them.
 * Out: name, then key=value fields, or name and error=TEXT.
 *      A plan that does not keep the definition ends as error=...
 *
 * The fields t_us (wall), cpu_us and the level list are for the reader; nothing
 * here decides whether an answer is right but mini_check().
 */
#include "mini.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

static int64_t now_us(clockid_t clock)
{
    struct timespec t;

    clock_gettime(clock, &t);
    return (int64_t)t.tv_sec * 1000000 + t.tv_nsec / 1000;
}

static void print_plan(const char *name, const qc_plan *plan, int64_t us,
                       int64_t cpu)
{
    static const char letters[] = "bumscl";
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);
    size_t i;

    printf("%s optimal=%d used=%" PRId64 " bought=%" PRId64 " bound=%" PRId64
           " hand=%" PRId64 " narrowest=%" PRId64 " narrowest_proved=%d"
           " setups=%" PRIu32 " cuts=%" PRId64 " t_us=%" PRId64
           " cpu_us=%" PRId64,
           name, f->outcome == QC_OUTCOME_OPTIMAL, f->used, f->bought, f->bound,
           f->hand_method, f->narrowest_width,
           f->narrowest_outcome == QC_OUTCOME_OPTIMAL, f->setups, f->cuts, us,
           cpu);
    for (i = 0; i < f->level_count; i++) {
        const qc_level *level = qc_plan_level_at(plan, 0, i);
        printf(" %c=%" PRId64 ":%" PRId64 ":%d", letters[level->goal],
               level->value, level->bound,
               level->outcome == QC_OUTCOME_OPTIMAL);
    }
    printf("\n");
}

int main(void)
{
    static mini_job job;
    char name[64];
    int state;

    while ((state = mini_read(stdin, name, &job)) > 0) {
        char message[512];
        const char *wrong;
        qc_error err;
        qc_plan *plan = NULL;
        int64_t start = now_us(CLOCK_MONOTONIC);
        int64_t cpu = now_us(CLOCK_PROCESS_CPUTIME_ID);

        qc_error_init(&err);
        if (mini_solve(&job, 1, &plan, &err) != QC_STATUS_OK) {
            qc_error_format(&err, NULL, message, sizeof message);
            printf("%s error=%s: %s\n", name, qc_status_text(err.code),
                   message);
        } else if ((wrong = mini_check(&job, plan)) != NULL) {
            printf("%s error=%s\n", name, wrong);
        } else {
            print_plan(name, plan, now_us(CLOCK_MONOTONIC) - start,
                       now_us(CLOCK_PROCESS_CPUTIME_ID) - cpu);
        }
        fflush(stdout);
        qc_plan_destroy(plan);
    }
    if (state < 0)
        fprintf(stderr, "not a job line\n");
    return state < 0 ? 1 : 0;
}
