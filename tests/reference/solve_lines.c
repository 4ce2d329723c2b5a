/* Solves mini jobs given as lines on stdin, one result line each on stdout, so
 * that a script can put hundreds of jobs to the library in one process.
 *
 * In:  name width print stages no_trim square_up step shrink ruler limit_ms
 *      goals n, then n times: across along count grain
 *      All lengths in units of 1/8 micrometre; print and grain as numbers of
 *      their enumerations; goals as letters (see mini_goals), "-" = default.
 * Out: name, then key=value fields, or name and error=TEXT.
 *      A plan that does not keep the definition ends as error=...
 *
 * The fields t_us (wall time) and the level list are for the reader; nothing
 * here decides whether an answer is right but mini_check().
 */
#include "mini.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

static int64_t now_us(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000000 + t.tv_nsec / 1000;
}

/* @return 1 for a job, 0 at the end, -1 for a line that is not a job. */
static int read_job(char name[64], mini_job *job)
{
    char goals[16];
    int print, no_trim;
    size_t i, n;
    int read = scanf("%63s %" SCNd64 " %d %d %d %" SCNd64 " %" SCNd64
                     " %" SCNd32 " %" SCNd64 " %" SCNd32 " %15s %zu",
                     name, &job->width, &print, &job->stages, &no_trim,
                     &job->square_up, &job->step, &job->shrink, &job->ruler,
                     &job->time_limit_ms, goals, &n);

    if (read == EOF)
        return 0;
    if (read != 12 || n > MINI_MAX_PIECES)
        return -1;
    job->print = (qc_print)print;
    job->no_trim = no_trim != 0;
    job->goal_count = 0;
    if (strcmp(goals, "-") != 0 && !mini_goals(job, goals))
        return -1;
    job->piece_count = n;
    for (i = 0; i < n; i++) {
        mini_piece *p = &job->pieces[i];
        int grain;
        if (scanf("%" SCNd64 " %" SCNd64 " %" SCNd64 " %d", &p->across,
                  &p->along, &p->count, &grain) != 4)
            return -1;
        p->grain = (qc_grain)grain;
    }
    return 1;
}

static void print_plan(const char *name, const qc_plan *plan, int64_t us)
{
    static const char letters[] = "bumscl";
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);
    size_t i;

    printf("%s optimal=%d used=%" PRId64 " bought=%" PRId64 " bound=%" PRId64
           " hand=%" PRId64 " narrowest=%" PRId64 " narrowest_proved=%d"
           " setups=%" PRIu32 " cuts=%" PRId64 " t_us=%" PRId64,
           name, f->outcome == QC_OUTCOME_OPTIMAL, f->used, f->bought, f->bound,
           f->hand_method, f->narrowest_width,
           f->narrowest_outcome == QC_OUTCOME_OPTIMAL, f->setups, f->cuts, us);
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

    while ((state = read_job(name, &job)) > 0) {
        char message[512];
        const char *wrong;
        qc_error err;
        qc_plan *plan = NULL;
        int64_t start = now_us();

        qc_error_init(&err);
        if (mini_solve(&job, 1, &plan, &err) != QC_STATUS_OK) {
            qc_error_format(&err, NULL, message, sizeof message);
            printf("%s error=%s: %s\n", name, qc_status_text(err.code),
                   message);
        } else if ((wrong = mini_check(&job, plan)) != NULL) {
            printf("%s error=%s\n", name, wrong);
        } else {
            print_plan(name, plan, now_us() - start);
        }
        fflush(stdout);
        qc_plan_destroy(plan);
    }
    if (state < 0)
        fprintf(stderr, "not a job line\n");
    return state < 0 ? 1 : 0;
}
