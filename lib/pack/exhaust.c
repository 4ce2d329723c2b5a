/* One set-up after the other, depth first, in integers.
 *
 * What is left to cut is worth V (every.c tells what a worth is). Of `count`
 * set-ups that cut it, one cuts V / count at least, if it goes first. So only
 * those that do are tried; each is then done with: whatever holds it has been
 * looked at. The waste of all must stay within what there is to spare, and the
 * best `count` patterns together must be worth V. A pattern comes once: strips
 * that are cut short twice could as well be a pattern of their own. */
#include "pack/exhaust.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

/* A set-up that may go first. */
typedef struct option {
    int64_t worth; /* of what it cuts */
    int32_t at, times;
} option;

typedef struct search {
    const qci_every *every;
    const qci_master *master;
    const qci_model *model;
    int32_t *held;  /* [pattern][row] */
    int64_t *waste; /* per pattern: of a strip in full use */
    bool *used;     /* per pattern: among those chosen */
    size_t *first;  /* per pattern: place of its first number of strips in... */
    bool *done;     /* by pattern and number of strips: looked at */
    int64_t
        *left[QCI_SETUPS_LIMIT + 1]; /* by set-ups still to choose, per row */
    QCI_VEC(option) options[QCI_SETUPS_LIMIT + 1];
    qci_setup *setups;
    const qci_task *task;
    int64_t work;
    bool stopped, failed;
} search;

static const int32_t *held_in(const search *s, int32_t at)
{
    return s->held + (size_t)at * (size_t)s->model->row_count;
}

/* What `times` strips cut of what is left, in worth. */
static int64_t worth_of(const search *s, const int64_t *left, int32_t at,
                        int64_t times)
{
    const int32_t *held = held_in(s, at);
    int64_t worth = 0;

    for (int32_t row = 0; row < s->model->row_count; row++) {
        int64_t cut = held[row] * times;

        worth += s->every->price[row] * (cut < left[row] ? cut : left[row]);
    }
    return worth;
}

static int compare_options(const void *a, const void *b)
{
    const option *p = a, *q = b;

    if (p->worth != q->worth)
        return p->worth > q->worth ? -1 : 1;
    if (p->at != q->at)
        return p->at < q->at ? -1 : 1;
    return (p->times < q->times) - (p->times > q->times);
}

/* Keeps the `count` highest, rising. */
static void keep_high(int64_t *high, int32_t count, int64_t worth)
{
    int32_t at = 0;

    if (worth <= high[0])
        return;
    for (; at + 1 < count && high[at + 1] < worth; at++)
        high[at] = high[at + 1];
    high[at] = worth;
}

/* Gathers what may go first; false when that cannot be enough. */
static bool gather(search *s, int32_t count, int64_t worth, int64_t spare)
{
    const int64_t *left = s->left[count];
    int64_t high[QCI_SETUPS_LIMIT] = {0}, sum = 0,
            least = (worth + count - 1) / count;
    int32_t n = (int32_t)s->every->list.count;

    s->options[count].count = 0;
    for (int32_t at = 0; at < n; at++) {
        int64_t full = s->every->list.at[at].pattern->height * QCI_PARTS;
        bool best = true;

        if (s->used[at])
            continue;
        for (int64_t times = s->every->list.at[at].most; times > 0; times--) {
            int64_t now;

            if (s->done[s->first[at] + (size_t)times])
                continue;
            s->work -= s->model->row_count;
            if (times * s->waste[at] > spare)
                continue;
            now = worth_of(s, left, at, times);
            if (times * full - now > spare)
                continue;
            if (best)
                keep_high(high, count, now);
            best = false;
            if (now < least)
                break;
            if (!qci_vec_push(&s->options[count],
                              (option){now, at, (int32_t)times})) {
                s->failed = true;
                return false;
            }
        }
    }
    for (int32_t i = 0; i < count; i++)
        sum += high[i];
    return sum >= worth;
}

/* Without their last strips, do the set-ups cut no more than is asked for? The
 * surplus can be left out of those then. */
static bool can_drop(const search *s)
{
    for (int32_t row = 0; row < s->model->row_count; row++) {
        int64_t whole = 0;

        for (int32_t i = 0; i < s->task->count; i++)
            if (s->setups[i].times)
                whole +=
                    (s->setups[i].times - 1) * held_in(s, s->setups[i].at)[row];
        if (whole > s->task->whole[row])
            return false;
    }
    return true;
}

/* What is left after an option; its worth. */
static int64_t take(search *s, int32_t count, option o, bool *any)
{
    const int32_t *held = held_in(s, o.at);
    int64_t worth = 0;

    *any = false;
    for (int32_t row = 0; row < s->model->row_count; row++) {
        int64_t rest = s->left[count][row] - held[row] * (int64_t)o.times;

        rest = rest > 0 ? rest : 0;
        s->left[count - 1][row] = rest;
        worth += rest * s->every->price[row];
        *any = *any || rest;
    }
    return worth;
}

static bool look(search *s, int32_t count, int64_t worth, int64_t spare)
{
    bool found = false;
    size_t i = 0;

    if (!count || !gather(s, count, worth, spare))
        return false;
    if (s->options[count].count)
        qsort(s->options[count].at, s->options[count].count, sizeof(option),
              compare_options);
    for (; i < s->options[count].count && !found; i++) {
        option o = s->options[count].at[i];
        int64_t full = s->every->list.at[o.at].pattern->height * QCI_PARTS;
        int64_t rest;
        bool any;

        if (s->work < 0 || qci_master_stopped(s->master))
            s->stopped = true;
        if (s->stopped || s->failed)
            break;
        rest = take(s, count, o, &any);
        s->setups[count - 1] = (qci_setup){o.at, o.times};
        s->used[o.at] = true;
        for (int32_t k = 0; k < count - 1; k++)
            s->setups[k].times = 0;
        found =
            any ? look(s, count - 1, rest, spare - (o.times * full - o.worth))
                : can_drop(s);
        s->used[o.at] = false;
        s->done[s->first[o.at] + (size_t)o.times] = true;
    }
    while (i > 0) {
        option o = s->options[count].at[--i];

        s->done[s->first[o.at] + (size_t)o.times] = false;
    }
    return found;
}

static bool make_room(search *s, int32_t count)
{
    size_t n = s->every->list.count, total = 0;
    size_t rows = (size_t)s->model->row_count;
    bool ok;

    s->held = qci_calloc(n * rows, sizeof *s->held);
    s->waste = qci_calloc(n, sizeof *s->waste);
    s->used = qci_calloc(n, sizeof *s->used);
    s->first = qci_calloc(n, sizeof *s->first);
    ok = s->held && s->waste && s->used && s->first;
    for (size_t i = 0; i < n && ok; i++) {
        s->first[i] = total;
        total += (size_t)s->every->list.at[i].most + 1;
    }
    s->done = qci_calloc(total, sizeof *s->done);
    ok = ok && s->done;
    for (int32_t i = 0; i <= count && ok; i++)
        ok = (s->left[i] = qci_calloc(rows, sizeof(int64_t))) != NULL;
    return ok;
}

/* False when some pattern wastes less than nothing: then waste bounds nothing.
 */
static bool weigh(search *s)
{
    for (size_t i = 0; i < s->every->list.count; i++) {
        const qci_pattern *p = s->every->list.at[i].pattern;

        s->waste[i] = p->height * QCI_PARTS;
        for (int32_t k = 0; k < p->row_count; k++) {
            s->held[i * (size_t)s->model->row_count + (size_t)p->rows[k].row] =
                p->rows[k].count;
            s->waste[i] -= p->rows[k].count * s->every->price[p->rows[k].row];
        }
        if (s->waste[i] < 0)
            return false;
    }
    return true;
}

static void clear(search *s)
{
    qci_free(s->held);
    qci_free(s->waste);
    qci_free(s->used);
    qci_free(s->first);
    qci_free(s->done);
    for (int32_t i = 0; i <= QCI_SETUPS_LIMIT; i++) {
        qci_free(s->left[i]);
        qci_vec_clear(&s->options[i]);
    }
}

qc_status qci_exhaust(const qci_every *every, const qci_master *master,
                      const qci_task *task, int64_t *work, qci_setup *setups,
                      qci_answer *answer, qc_error *err)
{
    search s = {.every = every,
                .master = master,
                .model = master->model,
                .setups = setups,
                .task = task,
                .work = *work};
    int64_t worth = 0;
    bool found = false;

    *answer = QCI_ANSWER_OPEN;
    s.failed = !make_room(&s, task->count);
    if (!s.failed && weigh(&s)) {
        for (int32_t row = 0; row < s.model->row_count; row++) {
            s.left[task->count][row] = task->left[row];
            worth += task->left[row] * every->price[row];
        }
        found = look(&s, task->count, worth, task->spare);
        if (found)
            *answer = QCI_ANSWER_YES;
        else if (!s.stopped)
            *answer = QCI_ANSWER_NO;
    }
    *work = s.work;
    clear(&s);
    return s.failed ? qci_no_memory(err) : QC_STATUS_OK;
}
