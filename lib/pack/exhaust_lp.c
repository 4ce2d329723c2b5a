/* Weights for the rows, and a charge on height. Set-ups that cut what is left,
 * in the room that there is, weigh `need` together or more. None weighs more
 * than `most`: so `count` of them are not enough if need is more than count
 * times that; and none weighs less than what the others must leave to it. The
 * duals of a linear program are the weights that say the most: a column is a
 * set-up, which covers no more of a row than is left, and costs 1. They are
 * rounded, and all else is done in integers.
 *
 * For one pattern the weight of its set-ups is concave in the number of strips:
 * the heaviest, and those that weigh enough, are found by halving. */
#include "pack/exhaust_inner.h"

#include <math.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"

/* Parts of a set-up, which weights are counted in. */
#define PARTS (INT64_C(1) << 30)
/* Of all that is left of a row, in parts: sums stay within 64 bits. */
#define SUM_LIMIT (INT64_C(1) << 46)
#define ROUND_LIMIT 30
#define COLUMNS_A_ROUND 12
/* Work that a linear program counts for. */
#define SOLVE_WORK 15000

/* A set-up that may become a column. */
typedef struct heavy {
    int64_t weight;
    int32_t at, times;
} heavy;

typedef struct program {
    qci_exhausting *s;
    qci_exhaust_level *now;
    int32_t count;
    int64_t room; /* height that there is */
    qci_lp *lp;
    int *rows; /* scratch of a column */
    double *values;
    heavy best[COLUMNS_A_ROUND]; /* falling */
    int32_t best_count;
    int64_t most;
    qc_status status;
} program;

static int64_t weigh(qci_exhausting *s, int32_t count, int32_t at,
                     int64_t times)
{
    const qci_exhaust_level *now = &s->levels[count];
    const qci_count *end = qci_exhaust_counts(s, at + 1);
    int64_t sum = -times * s->height[at] * now->charge;

    for (const qci_count *c = qci_exhaust_counts(s, at); c < end; c++) {
        int64_t cut = c->count * times, left = now->left[c->row];

        sum += now->weight[c->row] * (cut < left ? cut : left);
        s->work--;
    }
    return sum;
}

/* Of a candidate's numbers of strips, the one that weighs most. */
static heavy heaviest(qci_exhausting *s, int32_t count, qci_candidate c)
{
    int32_t low = c.low, high = c.top;

    while (low < high) {
        int32_t mid = low + (high - low) / 2;

        if (weigh(s, count, c.at, mid + 1) > weigh(s, count, c.at, mid))
            low = mid + 1;
        else
            high = mid;
    }
    return (heavy){weigh(s, count, c.at, low), c.at, low};
}

qci_candidate qci_exhaust_heavy(qci_exhausting *s, int32_t count,
                                qci_candidate c, int64_t least)
{
    heavy h = heaviest(s, count, c);
    int32_t low = c.low, high = h.times;

    if (h.weight < least) {
        c.low = c.top + 1;
        return c;
    }
    while (low < high) {
        int32_t mid = low + (high - low) / 2;

        if (weigh(s, count, c.at, mid) >= least)
            high = mid;
        else
            low = mid + 1;
    }
    c.low = low;
    for (low = h.times, high = c.top; low < high;) {
        int32_t mid = low + (high - low + 1) / 2;

        if (weigh(s, count, c.at, mid) >= least)
            low = mid;
        else
            high = mid - 1;
    }
    c.top = low;
    return c;
}

static void keep_heavy(program *p, heavy h)
{
    int32_t at = p->best_count;

    if (at == COLUMNS_A_ROUND && h.weight <= p->best[at - 1].weight)
        return;
    if (at < COLUMNS_A_ROUND)
        p->best_count++;
    else
        at--;
    for (; at > 0 && p->best[at - 1].weight < h.weight; at--)
        p->best[at] = p->best[at - 1];
    p->best[at] = h;
}

/* The heaviest set-ups of all candidates. */
static void weigh_all(program *p)
{
    p->best_count = 0;
    for (size_t i = 0; i < p->now->candidates.count; i++)
        keep_heavy(p, heaviest(p->s, p->count, p->now->candidates.at[i]));
    p->most = p->best_count && p->best[0].weight > 0 ? p->best[0].weight : 1;
}

static int64_t needed(const program *p)
{
    int64_t sum = -p->room * p->now->charge;

    for (int32_t row = 0; row < p->s->model->row_count; row++)
        sum += p->now->left[row] * p->now->weight[row];
    return sum;
}

/* No weight above this: all that is left of a row is a few set-ups. */
static int64_t bounded(double dual, int64_t amount)
{
    int64_t limit = SUM_LIMIT / (amount ? amount : 1);
    double parts = dual * (double)PARTS;

    if (!(parts > 0.0))
        return 0;
    return parts < (double)limit ? (int64_t)parts : limit;
}

static void take_duals(program *p)
{
    for (int32_t row = 0; row < p->s->model->row_count; row++) {
        int64_t left = p->now->left[row];

        p->now->weight[row] =
            left ? bounded(qci_lp_row_dual(p->lp, row) / (double)left, left)
                 : 0;
    }
    p->now->charge = bounded(-qci_lp_row_dual(p->lp, p->s->model->row_count) /
                                 (double)p->room,
                             p->room);
}

/* A row for each of the model's, with a helper column that is dear enough; one
 * for the room. */
static void make_program(program *p)
{
    int rows = p->s->model->row_count;
    double one = 1.0;

    p->status = qci_lp_create(&p->lp, p->s->err);
    for (int row = 0; row < rows && !p->status; row++)
        p->status = qci_lp_add_row(p->lp, p->now->left[row] ? 1.0 : 0.0,
                                   INFINITY, 0, NULL, NULL, p->s->err);
    if (!p->status)
        p->status =
            qci_lp_add_row(p->lp, -INFINITY, 1.0, 0, NULL, NULL, p->s->err);
    for (int row = 0; row < rows && !p->status; row++)
        p->status = qci_lp_add_column(p->lp, p->count + 1.0, 0.0, INFINITY, 1,
                                      &row, &one, p->s->err);
}

static void add_column(program *p, heavy h)
{
    const qci_count *end = qci_exhaust_counts(p->s, h.at + 1);
    int n = 0;

    for (const qci_count *c = qci_exhaust_counts(p->s, h.at); c < end; c++) {
        int64_t left = p->now->left[c->row], cut = (int64_t)c->count * h.times;

        if (!left)
            continue;
        p->rows[n] = c->row;
        p->values[n++] = cut < left ? (double)cut / (double)left : 1.0;
    }
    p->rows[n] = p->s->model->row_count;
    p->values[n++] = (double)(h.times * p->s->height[h.at]) / (double)p->room;
    p->status = qci_lp_add_column(p->lp, 1.0, 0.0, INFINITY, n, p->rows,
                                  p->values, p->s->err);
}

/* Columns for the heaviest, and the program solved; false when that is of no
 * more use. */
static bool improve(program *p)
{
    const qci_watch *watch = p->s->master->watch;
    qci_mip_stop stop = {watch->deadline_ms, watch->cancelled, watch->user};
    qci_lp_state state = QCI_LP_STUCK;

    for (int32_t i = 0; i < p->best_count && !p->status; i++)
        add_column(p, p->best[i]);
    if (!p->status)
        p->status = qci_lp_solve(p->lp, &stop, &state, p->s->err);
    p->s->work -= SOLVE_WORK;
    return !p->status && state == QCI_LP_OPTIMAL &&
           qci_lp_objective(p->lp) > p->count - 1 + 1e-6;
}

/* Leaves out the set-ups that weigh less than `least`. */
static void leave_light(program *p, int64_t least)
{
    qci_exhaust_level *now = p->now;
    size_t kept = 0;

    for (size_t i = 0; i < now->candidates.count; i++) {
        qci_candidate c = now->candidates.at[i];
        int32_t top = c.top;

        c = qci_exhaust_heavy(p->s, p->count, c, least);
        if (c.low > c.top)
            continue;
        if (c.top < top)
            c.worth = qci_exhaust_worth(p->s, now->left, c.at, c.top);
        now->candidates.at[kept++] = c;
    }
    now->candidates.count = kept;
}

/* Begins with the weights of the level above; if that is all patterns, with
 * worth. */
static void begin(program *p, int64_t worth)
{
    const qci_exhaust_level *above = p->now + 1;

    for (int32_t row = 0; row < p->s->model->row_count; row++)
        p->now->weight[row] =
            above->need ? above->weight[row]
                        : (int64_t)((qci_wide)p->s->every->price[row] *
                                    p->count * PARTS / (worth ? worth : 1));
    p->now->charge = above->need ? above->charge : 0;
}

/* Rounds until no set-up weighs more than 1, and more is of no use. True when
 * it is proved that `count` set-ups are not enough. */
static bool is_closed(program *p)
{
    for (int32_t round = 0; !p->status; round++) {
        weigh_all(p);
        p->now->need = needed(p);
        if (p->now->need > p->count * p->most)
            return true;
        if (round == ROUND_LIMIT ||
            (round && p->most <= PARTS + PARTS / 100000) || !improve(p))
            break;
        take_duals(p);
    }
    return false;
}

bool qci_exhaust_weigh(qci_exhausting *s, int32_t count, int64_t worth,
                       int64_t spare)
{
    size_t rows = (size_t)s->model->row_count + 1;
    program p = {.s = s,
                 .now = &s->levels[count],
                 .count = count,
                 .room = (worth + spare) / QCI_PARTS,
                 .rows = qci_calloc(rows, sizeof *p.rows),
                 .values = qci_calloc(rows, sizeof *p.values)};
    bool closed;

    if (p.rows && p.values)
        make_program(&p);
    else
        p.status = qci_no_memory(s->err);
    begin(&p, worth);
    closed = is_closed(&p);
    if (!closed && !p.status && p.now->need > (count - 1) * p.most)
        leave_light(&p, p.now->need - (count - 1) * p.most);
    s->status = p.status;
    qci_lp_destroy(p.lp);
    qci_free(p.rows);
    qci_free(p.values);
    return !closed && !p.status;
}
