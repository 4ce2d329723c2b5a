/* One set-up after the other, depth first, in integers.
 *
 * What is left to cut is worth V (every.c tells what a worth is). Of `count`
 * set-ups that cut it, one cuts V / count at least, and of each row one cuts
 * that share of what is left of it. One such rule is enough: each node takes
 * that which leaves the fewest set-ups to try (exhaust_sift.c). Weights from a
 * linear program are one more rule, and close most nodes (exhaust_lp.c). What
 * has been tried is done with: whatever holds it has been looked at. The waste
 * of all must stay within what there is to spare. A pattern comes once: strips
 * that are cut short twice could as well be a pattern of their own. */
#include "pack/exhaust_inner.h"

#include <stdlib.h>

#include "base/alloc.h"
#include "base/error.h"

int64_t qci_exhaust_worth(const qci_exhausting *s, const int64_t *left,
                          int32_t at, int64_t times)
{
    const qci_count *end = qci_exhaust_counts(s, at + 1);
    int64_t worth = 0;

    for (const qci_count *c = qci_exhaust_counts(s, at); c < end; c++) {
        int64_t cut = c->count * times;

        worth +=
            s->every->price[c->row] * (cut < left[c->row] ? cut : left[c->row]);
    }
    return worth;
}

/* Without their last strips, do the set-ups cut no more than is asked for? The
 * surplus can be left out of those then. */
static bool can_drop(const qci_exhausting *s)
{
    for (int32_t row = 0; row < s->model->row_count; row++) {
        int64_t whole = 0;

        for (int32_t i = 0; i < s->task->count; i++)
            if (s->setups[i].times)
                whole += (s->setups[i].times - 1) *
                         qci_exhaust_held(s, s->setups[i].at)[row];
        if (whole > s->task->whole[row])
            return false;
    }
    return true;
}

/* What is left after an option; its worth. */
static int64_t take(qci_exhausting *s, int32_t count, qci_option o, bool *any)
{
    const int32_t *held = qci_exhaust_held(s, o.at);
    int64_t worth = 0;

    *any = false;
    for (int32_t row = 0; row < s->model->row_count; row++) {
        int64_t rest =
            s->levels[count].left[row] - held[row] * (int64_t)o.times;

        rest = rest > 0 ? rest : 0;
        s->levels[count - 1].left[row] = rest;
        worth += rest * s->every->price[row];
        *any = *any || rest;
    }
    return worth;
}

static bool look(qci_exhausting *s, int32_t count, int64_t worth, int64_t spare)
{
    const qci_exhaust_level *now = &s->levels[count];
    bool found = false;
    size_t i = 0;

    if (!count || !qci_exhaust_sift(s, count, worth, spare))
        return false;
    if (count > 2 && !qci_exhaust_weigh(s, count, worth, spare))
        return false;
    qci_exhaust_list(s, count, worth);
    for (; i < now->options.count && !found; i++) {
        qci_option o = now->options.at[i];
        int64_t full = s->height[o.at] * QCI_PARTS;
        int64_t rest;
        bool any;

        if (s->work < 0 || qci_master_stopped(s->master))
            s->stopped = true;
        if (s->stopped || s->status)
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
        qci_option o = now->options.at[--i];

        s->done[s->first[o.at] + (size_t)o.times] = false;
    }
    return found;
}

static bool make_room(qci_exhausting *s, int32_t count)
{
    size_t n = s->every->list.count, total = 0;
    size_t rows = (size_t)s->model->row_count;
    bool ok;

    s->held = qci_calloc(n * rows, sizeof *s->held);
    s->begin = qci_calloc(n + 1, sizeof *s->begin);
    s->height = qci_calloc(n, sizeof *s->height);
    s->waste = qci_calloc(n, sizeof *s->waste);
    s->used = qci_calloc(n, sizeof *s->used);
    s->first = qci_calloc(n, sizeof *s->first);
    ok = s->held && s->begin && s->height && s->waste && s->used && s->first;
    for (size_t i = 0; i < n && ok; i++) {
        s->first[i] = total;
        total += (size_t)s->every->list.at[i].most + 1;
    }
    s->done = qci_calloc(total, sizeof *s->done);
    s->high = qci_calloc((rows + 1) * (size_t)count, sizeof *s->high);
    s->others = qci_calloc(rows + 1, sizeof *s->others);
    ok = ok && s->done && s->high && s->others;
    for (int32_t i = 0; i <= count && ok; i++) {
        s->levels[i].left = qci_calloc(rows, sizeof(int64_t));
        s->levels[i].weight = qci_calloc(rows, sizeof(int64_t));
        ok = s->levels[i].left && s->levels[i].weight;
    }
    for (size_t i = 0; i < n && ok; i++)
        ok = qci_vec_push(&s->levels[count + 1].candidates,
                          (qci_candidate){(int32_t)i, 1,
                                          (int32_t)s->every->list.at[i].most,
                                          0});
    return ok;
}

/* False when some pattern wastes less than nothing: then waste bounds nothing.
 */
static bool weigh(qci_exhausting *s)
{
    for (size_t i = 0; i < s->every->list.count; i++) {
        const qci_pattern *p = s->every->list.at[i].pattern;

        s->height[i] = p->height;
        s->waste[i] = p->height * QCI_PARTS;
        for (int32_t k = 0; k < p->row_count; k++) {
            if (!qci_vec_push(&s->counts, p->rows[k])) {
                s->status = qci_no_memory(s->err);
                return false;
            }
            s->held[i * (size_t)s->model->row_count + (size_t)p->rows[k].row] =
                p->rows[k].count;
            s->waste[i] -= p->rows[k].count * s->every->price[p->rows[k].row];
        }
        s->begin[i + 1] = s->counts.count;
        if (s->waste[i] < 0)
            return false;
    }
    return true;
}

static void clear(qci_exhausting *s)
{
    qci_free(s->held);
    qci_vec_clear(&s->counts);
    qci_free(s->begin);
    qci_free(s->height);
    qci_free(s->waste);
    qci_free(s->used);
    qci_free(s->first);
    qci_free(s->done);
    qci_free(s->high);
    qci_free(s->others);
    for (int32_t i = 0; i <= QCI_SETUPS_LIMIT + 1; i++) {
        qci_free(s->levels[i].left);
        qci_free(s->levels[i].weight);
        qci_vec_clear(&s->levels[i].candidates);
        qci_vec_clear(&s->levels[i].options);
    }
}

qc_status qci_exhaust(const qci_every *every, const qci_master *master,
                      const qci_task *task, int64_t *work, qci_setup *setups,
                      qci_answer *answer, qc_error *err)
{
    qci_exhausting s = {.every = every,
                        .master = master,
                        .model = master->model,
                        .setups = setups,
                        .task = task,
                        .work = *work,
                        .err = err};
    int64_t worth = 0;
    bool found = false;

    *answer = QCI_ANSWER_OPEN;
    if (!make_room(&s, task->count))
        s.status = qci_no_memory(err);
    if (!s.status && weigh(&s)) {
        for (int32_t row = 0; row < s.model->row_count; row++) {
            s.levels[task->count].left[row] = task->left[row];
            worth += task->left[row] * every->price[row];
        }
        found = look(&s, task->count, worth, task->spare);
        if (found)
            *answer = QCI_ANSWER_YES;
        else if (!s.stopped && !s.status)
            *answer = QCI_ANSWER_NO;
    }
    *work = s.work;
    clear(&s);
    return s.status;
}
