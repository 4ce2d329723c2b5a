/* Which set-ups may be next, and which of them to try.
 *
 * A rule is a row, or all worth. Of `count` set-ups that cut what is left of a
 * row, one cuts a share at least; and none cuts less than what the best of the
 * others lack. The second bounds the strips of each pattern from below, until
 * nothing changes; the first, for the rule that leaves the fewest, says what to
 * try. More strips of a pattern waste more, so that those there is spare for
 * are 1 to `top`; on the way down `top` only falls. */
#include "pack/exhaust_inner.h"

#include <stdlib.h>
#include <string.h>

#include "base/error.h"

static int compare_options(const void *a, const void *b)
{
    const qci_option *p = a, *q = b;

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

/* Does it cut anything of what is left? */
static bool cuts(const qci_exhausting *s, const int64_t *left, int32_t at)
{
    const qci_count *end = qci_exhaust_counts(s, at + 1);

    for (const qci_count *c = qci_exhaust_counts(s, at); c < end; c++)
        if (left[c->row])
            return true;
    return false;
}

/* Lowers the most strips of a pattern to what wastes no more than `spare`. */
static void lower_top(qci_exhausting *s, const int64_t *left, qci_candidate *c,
                      int64_t spare)
{
    int64_t full = s->height[c->at] * QCI_PARTS;
    int32_t low = 0, mid, high = c->top;

    if (s->waste[c->at] && spare / s->waste[c->at] < high)
        high = (int32_t)(spare / s->waste[c->at]);
    for (mid = high; low < high; mid = low + (high - low + 1) / 2) {
        int64_t worth = qci_exhaust_worth(s, left, c->at, mid);

        s->work -= s->model->row_count;
        if (mid * full - worth <= spare) {
            low = mid;
            c->worth = worth;
        } else {
            high = mid - 1;
        }
    }
    c->top = low;
}

/* The fewest strips of at least this worth; more than top if none are. */
static int32_t fewest_strips(qci_exhausting *s, const int64_t *left,
                             qci_candidate c, int64_t worth)
{
    int32_t low = c.low, high = c.top;

    if (c.worth < worth)
        return c.top + 1;
    while (low < high) {
        int32_t mid = low + (high - low) / 2;

        s->work -= s->model->row_count;
        if (qci_exhaust_worth(s, left, c.at, mid) >= worth)
            high = mid;
        else
            low = mid + 1;
    }
    return low;
}

/* Rules are numbered by row; then come worth and, where they tell anything,
 * weights. What one of `count` set-ups has at least, of a rule. */
static int64_t share(const qci_exhausting *s, int32_t count, int32_t rule,
                     int64_t worth)
{
    int32_t rows = s->model->row_count;
    int64_t all = rule < rows    ? s->levels[count].left[rule]
                  : rule == rows ? worth
                                 : s->levels[count].need;

    return all > 0 ? (all + count - 1) / count : 0;
}

/* A candidate with the numbers of strips that have `least` of a rule: c.low is
 * more than c.top if none do. */
static qci_candidate enough(qci_exhausting *s, int32_t count, int32_t rule,
                            qci_candidate c, int64_t least)
{
    int64_t held;

    if (rule > s->model->row_count)
        return qci_exhaust_heavy(s, count, c, least);
    if (rule == s->model->row_count) {
        c.low = fewest_strips(s, s->levels[count].left, c, least);
        return c;
    }
    held = qci_exhaust_held(s, c.at)[rule];
    if (least > held * c.top)
        c.low = c.top + 1;
    else if (least > held * c.low)
        c.low = (int32_t)((least + held - 1) / held);
    return c;
}

/* Leaves out the fewest strips and the most while they are done with. */
static void leave_done(qci_exhausting *s, int32_t count, qci_candidate *c)
{
    const bool *done = s->done + s->first[c->at];
    int32_t top = c->top;

    while (c->low <= c->top && done[c->low])
        c->low++;
    while (c->low <= c->top && done[c->top])
        c->top--;
    if (c->low <= c->top && c->top < top)
        c->worth = qci_exhaust_worth(s, s->levels[count].left, c->at, c->top);
}

/* The patterns of the level above that there is spare for. */
static void gather(qci_exhausting *s, int32_t count, int64_t spare)
{
    const qci_exhaust_level *above = &s->levels[count + 1];
    qci_exhaust_level *now = &s->levels[count];
    size_t n = above->candidates.count;

    now->candidates.count = 0;
    for (size_t i = 0; i < n && !s->status; i++) {
        qci_candidate c = above->candidates.at[i];

        if (s->used[c.at] || !cuts(s, now->left, c.at))
            continue;
        lower_top(s, now->left, &c, spare);
        leave_done(s, count, &c);
        if (c.low <= c.top && !qci_vec_push(&now->candidates, c))
            s->status = qci_no_memory(s->err);
    }
}

/* The most that `count` patterns cut by a rule, rising. */
static int64_t *high_of(const qci_exhausting *s, int32_t count, int32_t rule)
{
    return s->high + (size_t)rule * (size_t)count;
}

/* What the best `count` patterns cut of each row, and are worth. False when
 * that is not enough. Sums leave the weakest of them out. */
static bool add_up(qci_exhausting *s, int32_t count, int64_t worth)
{
    const qci_exhaust_level *now = &s->levels[count];
    int32_t rules = s->model->row_count + 1;

    memset(s->high, 0, (size_t)rules * (size_t)count * sizeof *s->high);
    for (size_t i = 0; i < now->candidates.count; i++) {
        const qci_candidate *c = &now->candidates.at[i];
        const int32_t *held = qci_exhaust_held(s, c->at);

        for (int32_t row = 0; row < rules - 1; row++)
            keep_high(high_of(s, count, row), count,
                      (int64_t)held[row] * c->top);
        keep_high(high_of(s, count, rules - 1), count, c->worth);
    }
    s->work -= (int64_t)now->candidates.count * s->model->row_count;
    for (int32_t rule = 0; rule < rules; rule++) {
        const int64_t *high = high_of(s, count, rule);

        s->others[rule] = 0;
        for (int32_t i = 1; i < count; i++)
            s->others[rule] += high[i];
        if (s->others[rule] + high[0] <
            (rule == rules - 1 ? worth : now->left[rule]))
            return false;
    }
    return true;
}

/* Leaves out what cannot make up for what all others lack. Has anything been
 * left out? */
static bool leave_out(qci_exhausting *s, int32_t count, int64_t worth)
{
    qci_exhaust_level *now = &s->levels[count];
    size_t kept = 0, n = now->candidates.count;

    for (size_t i = 0; i < n; i++) {
        qci_candidate c = now->candidates.at[i];

        for (int32_t rule = s->model->row_count; rule >= 0 && c.low <= c.top;
             rule--) {
            int64_t lack =
                (rule < s->model->row_count ? now->left[rule] : worth) -
                s->others[rule];

            if (lack > 0)
                c = enough(s, count, rule, c, lack);
        }
        if (c.low <= c.top)
            now->candidates.at[kept++] = c;
    }
    s->work -= (int64_t)n * s->model->row_count;
    now->candidates.count = kept;
    return kept < n;
}

/* The rule that leaves the fewest options. Something is left, of a row if not
 * of worth: a row's price may be 0. */
static int32_t choose_rule(qci_exhausting *s, int32_t count, int64_t worth)
{
    const qci_exhaust_level *now = &s->levels[count];
    int64_t fewest = INT64_MAX;
    int32_t best = -1;

    for (int32_t rule = s->model->row_count + 1; rule >= 0; rule--) {
        int64_t least = share(s, count, rule, worth), tries = 0;

        if (!least)
            continue;
        for (size_t i = 0; i < now->candidates.count; i++) {
            qci_candidate c =
                enough(s, count, rule, now->candidates.at[i], least);

            tries += c.top + 1 - c.low;
        }
        s->work -= (int64_t)now->candidates.count;
        if (tries < fewest) {
            fewest = tries;
            best = rule;
        }
    }
    return best;
}

bool qci_exhaust_sift(qci_exhausting *s, int32_t count, int64_t worth,
                      int64_t spare)
{
    gather(s, count, spare);
    do {
        if (s->status || !add_up(s, count, worth))
            return false;
    } while (leave_out(s, count, worth));
    return true;
}

void qci_exhaust_list(qci_exhausting *s, int32_t count, int64_t worth)
{
    qci_exhaust_level *now = &s->levels[count];
    int32_t rule = choose_rule(s, count, worth);
    int64_t least = share(s, count, rule, worth);

    now->options.count = 0;
    for (size_t i = 0; i < now->candidates.count; i++) {
        qci_candidate c = enough(s, count, rule, now->candidates.at[i], least);

        for (int32_t times = c.low; times <= c.top; times++) {
            if (s->done[s->first[c.at] + (size_t)times])
                continue;
            s->work -= s->model->row_count;
            if (!qci_vec_push(
                    &now->options,
                    (qci_option){qci_exhaust_worth(s, now->left, c.at, times),
                                 c.at, times})) {
                s->status = qci_no_memory(s->err);
                return;
            }
        }
    }
    if (now->options.count)
        qsort(now->options.at, now->options.count, sizeof(qci_option),
              compare_options);
}
