/* Set-ups: how many different patterns a solution has.
 *
 * Some patterns of the solution are taken out; what they alone cut is left to
 * do, within the height that is then free. One pattern t times does it when it
 * holds ceil(left / t) of every type; the more strips the height allows, the
 * fewer pieces that is. More patterns: the first is the fullest one that can be
 * cut t times with hardly any surplus, for a few promising t, and the rest of
 * the work is the same question with one pattern less. */
#include "pack/setups.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "pack/group.h"

/* Multiples tried for the first pattern of several, and gathered for choice. */
#define TIMES_LIMIT 16
#define TIMES_ROOM 256
/* Areas are counted in quarters, so that those of a square's triangles are
 * whole. */
#define QUARTERS 4
/* Uses taken out at once. */
#define GROUP_LIMIT 4

typedef struct reducer {
    qci_master *master;
    const qci_model *model;
    int64_t cap;
    int32_t calls;  /* pricings left */
    int64_t *area;  /* per row: the least that one piece takes, in quarters */
    int64_t *limit; /* per row: scratch of one pricing */
    int64_t *threshold;
    int64_t *nothing;    /* per row: 0 */
    qci_bonus *share;    /* per row: its pieces in a strip of one pattern */
    qci_pattern *caught; /* by the last pricing */
    bool failed;
} reducer;

static bool begin(reducer *r, qci_master *master, int64_t cap, int32_t calls)
{
    const qci_model *model = master->model;

    *r =
        (reducer){.master = master, .model = model, .cap = cap, .calls = calls};
    r->area = qci_calloc((size_t)model->row_count, sizeof(int64_t));
    r->limit = qci_calloc((size_t)model->row_count, sizeof(int64_t));
    r->threshold = qci_calloc((size_t)model->class_count, sizeof(int64_t));
    r->nothing = qci_calloc((size_t)model->row_count, sizeof(int64_t));
    r->share = qci_calloc((size_t)model->row_count, sizeof *r->share);
    if (!r->area || !r->limit || !r->threshold || !r->nothing || !r->share)
        return false;
    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];
        int64_t area = QUARTERS / lay->yield * lay->width * lay->height;

        if (!r->area[lay->row] || area < r->area[lay->row])
            r->area[lay->row] = area;
    }
    return true;
}

static void end(reducer *r)
{
    qci_pattern_destroy(r->caught);
    qci_free(r->area);
    qci_free(r->limit);
    qci_free(r->threshold);
    qci_free(r->nothing);
    qci_free(r->share);
}

static bool catch_pattern(int32_t cls, int64_t value, const int32_t *sequence,
                          int32_t length, void *user)
{
    reducer *r = user;

    (void)value;
    r->caught = qci_pattern_create(r->model, cls, sequence, length);
    if (!r->caught)
        r->failed = true;
    return r->caught != NULL;
}

/* The pattern of most area above `least` within r->limit, or NULL. *bound is no
 * less than the area of any such pattern. */
static qci_pattern *fullest(reducer *r, int32_t cls, int64_t least,
                            int64_t *bound)
{
    qci_prices prices = {.value = r->area,
                         .limit = r->limit,
                         .threshold = r->threshold,
                         .node_limit = 3000};
    qci_pattern *found;

    r->calls--;
    r->threshold[cls] = least;
    *bound = qci_oracle_price_class(r->master->oracle, &prices, cls,
                                    catch_pattern, r);
    found = r->caught;
    r->caught = NULL;
    return found;
}

/* One pattern of class `cls` that, cut `times` times, cuts all of `left`. NULL
 * when there is none; *open when that is not proved. */
static qci_pattern *one_pattern(reducer *r, const int64_t *left, int64_t times,
                                int32_t cls, bool *open)
{
    const qci_model *model = r->model;
    qci_wide area = 0;
    int64_t bound;
    qci_pattern *found;

    if (!times)
        return NULL;
    for (int32_t row = 0; row < model->row_count; row++) {
        r->limit[row] = (left[row] + times - 1) / times;
        area += (qci_wide)r->limit[row] * r->area[row];
    }
    if (area > (qci_wide)QUARTERS * model->width * model->height[cls])
        return NULL;
    found = fullest(r, cls, (int64_t)area - 1, &bound);
    if (!found && bound >= (int64_t)area)
        *open = true;
    return found;
}

static bool add_use(reducer *r, qci_pattern *pattern, int64_t times,
                    qci_solution *out)
{
    const qci_pattern *kept;

    if (qci_master_add(r->master, pattern, &kept, NULL) ||
        !qci_solution_add(out, kept, times)) {
        r->failed = true;
        return false;
    }
    return true;
}

static bool cover(reducer *r, const int64_t *left, int64_t room, int32_t count,
                  qci_solution *out);

static bool cover_by_one(reducer *r, const int64_t *left, int64_t room,
                         qci_solution *out)
{
    bool open = false;

    for (int32_t k = 0; k < r->model->class_count && r->calls > 0 && !r->failed;
         k++) {
        qci_pattern *p =
            one_pattern(r, left, room / r->model->cost[k], k, &open);

        if (p)
            return add_use(r, p, qci_pattern_needed(p, left), out);
    }
    return false;
}

static int compare_times(const void *a, const void *b)
{
    const int64_t *p = a, *q = b;

    return (*p < *q) - (*p > *q);
}

/* Most pieces of a row side by side in a strip. */
static int64_t most_across(const reducer *r, int32_t row)
{
    int64_t most = 1;

    for (int32_t i = 0; i < r->model->lay_count; i++)
        if (r->model->lays[i].row == row && r->model->width /
                                                    r->model->lays[i].width *
                                                    r->model->lays[i].yield >
                                                most)
            most = r->model->width / r->model->lays[i].width *
                   r->model->lays[i].yield;
    return most;
}

/* Multiples at which some type comes out even, or is done with full strips;
 * largest first. */
static int32_t list_times(const reducer *r, const int64_t *left, int64_t *list)
{
    int64_t all[TIMES_ROOM] = {0};
    int32_t n = 0, kept = 0;

    for (int32_t row = 0; row < r->model->row_count; row++) {
        int64_t most = most_across(r, row);

        if (!left[row])
            continue;
        if (n < TIMES_ROOM)
            all[n++] = (left[row] + most - 1) / most;
        for (int64_t each = 1; each <= 6 && n < TIMES_ROOM; each++)
            if (left[row] / each)
                all[n++] = left[row] / each;
    }
    qsort(all, (size_t)n, sizeof *all, compare_times);
    for (int32_t i = 0; i < n && kept < TIMES_LIMIT; i++)
        if (!kept || list[kept - 1] != all[i])
            list[kept++] = all[i];
    return kept;
}

/* `times` strips of the fullest pattern, with surplus of less than a piece a
 * strip or with none, and then the rest. */
static bool cover_from(reducer *r, const int64_t *left, int64_t room,
                       int32_t count, int32_t cls, int64_t times, bool surplus,
                       qci_solution *out)
{
    const qci_model *model = r->model;
    int64_t strip = QUARTERS * model->width * model->height[cls], bound;
    int64_t *rest;
    qci_pattern *p;
    bool done = false;

    if (times * model->cost[cls] > room)
        return false;
    for (int32_t row = 0; row < model->row_count; row++)
        r->limit[row] = (left[row] + (surplus ? times - 1 : 0)) / times;
    p = fullest(r, cls, strip / 2, &bound);
    if (!p)
        return false;
    rest = qci_copy(left, (size_t)model->row_count, sizeof *left);
    if (!rest) {
        r->failed = true;
        qci_pattern_destroy(p);
        return false;
    }
    qci_pattern_take(p, times, rest);
    if (cover(r, rest, room - times * p->height, count - 1, out))
        done = add_use(r, p, times, out);
    else
        qci_pattern_destroy(p);
    qci_free(rest);
    return done;
}

static bool is_done(const reducer *r, const int64_t *left)
{
    for (int32_t row = 0; row < r->model->row_count; row++)
        if (left[row])
            return false;
    return true;
}

/* Covers `left` with at most `count` patterns within `room`. */
static bool cover(reducer *r, const int64_t *left, int64_t room, int32_t count,
                  qci_solution *out)
{
    int64_t list[TIMES_LIMIT];
    int32_t n;

    if (is_done(r, left) || cover_by_one(r, left, room, out))
        return true;
    if (count <= 1)
        return false;
    n = list_times(r, left, list);
    for (int32_t i = 0; i < n; i++)
        for (int32_t k = r->model->class_count - 1; k >= 0; k--)
            for (int surplus = 0; surplus < 2; surplus++) {
                if (r->calls <= 0 || r->failed)
                    return false;
                if (cover_from(r, left, room, count, k, list[i], surplus, out))
                    return true;
            }
    return false;
}

/* Tries to replace a group by one pattern less. */
static bool try_group(reducer *r, qci_solution *solution, const size_t *group,
                      size_t count)
{
    int64_t *left = qci_calloc((size_t)r->model->row_count, sizeof *left);
    qci_solution others = {0};
    bool better = false;

    if (!left ||
        !qci_group_take_out(r->model, solution, group, count, &others, left))
        r->failed = true;
    else if (cover(r, left, r->cap - others.height, (int32_t)count - 1,
                   &others))
        better = others.uses.count < solution->uses.count &&
                 others.height <= r->cap &&
                 qci_solution_covers(&others, r->model);
    if (better && !r->failed && !qci_solution_copy(solution, &others))
        r->failed = true;
    qci_solution_clear(&others);
    qci_free(left);
    return better && !r->failed;
}

/* All groups of `count` uses, those of few strips first. */
static bool try_groups(reducer *r, qci_solution *solution, size_t count)
{
    size_t n = solution->uses.count, group[GROUP_LIMIT];

    if (count > n)
        return false;
    qci_group_begin(solution, group, count);
    do {
        if (r->calls <= 0 || r->failed || qci_master_stopped(r->master))
            return false;
        if (try_group(r, solution, group, count))
            return true;
    } while (qci_group_next(group, count, n));
    return false;
}

qc_status qci_setups_reduce(qci_master *master, int64_t cap, int32_t calls,
                            qci_solution *solution, qc_error *err)
{
    reducer r;
    size_t count = 2;

    if (!begin(&r, master, cap, calls))
        r.failed = true;
    while (!r.failed && count <= GROUP_LIMIT && r.calls > 0 &&
           !qci_master_stopped(master))
        count = try_groups(&r, solution, count) ? 2 : count + 1;
    end(&r);
    return r.failed ? qci_no_memory(err) : QC_STATUS_OK;
}

/* Is it proved that no pattern of the class, cut `times` times, does it all? */
static bool none_does(reducer *r, int32_t cls, int64_t times)
{
    bool open = false;
    qci_pattern *p = one_pattern(r, r->model->demand, times, cls, &open);
    bool none = !p && !open;

    qci_pattern_destroy(p);
    return none;
}

/* The same where stacks must fill their strip: it may have to hold more of a
 * type than that type's share, and what is too much be left out of the last
 * strip by sections. So a pattern gets the area of each share that it holds in
 * full, and nothing else. */
static bool none_shares(reducer *r, int32_t cls, int64_t times)
{
    const qci_model *model = r->model;
    qci_prices prices = {.value = r->nothing,
                         .limit = model->demand,
                         .bonus = r->share,
                         .bonus_count = model->row_count,
                         .threshold = r->threshold,
                         .node_limit = 3000};
    int64_t area = 0, room = QUARTERS * model->width * model->height[cls];

    if (!times)
        return true;
    for (int32_t row = 0; row < model->row_count; row++) {
        int64_t at = (model->demand[row] + times - 1) / times;

        if (at > (room - area) / r->area[row])
            return true;
        r->share[row] = (qci_bonus){row, (int32_t)at, at * r->area[row]};
        area += at * r->area[row];
    }
    r->threshold[cls] = area - 1;
    area -= qci_oracle_price_class(r->master->oracle, &prices, cls,
                                   catch_pattern, r);
    qci_pattern_destroy(r->caught);
    r->caught = NULL;
    return area > 0;
}

qc_status qci_setups_need_two(qci_master *master, int64_t cap, bool *proved,
                              qc_error *err)
{
    const qci_model *model = master->model;
    reducer r;

    *proved = true;
    if (!begin(&r, master, cap, 1))
        r.failed = true;
    for (int32_t k = 0; k < model->class_count && *proved && !r.failed; k++)
        *proved = model->exact ? none_shares(&r, k, cap / model->cost[k])
                               : none_does(&r, k, cap / model->cost[k]);
    end(&r);
    return r.failed ? qci_no_memory(err) : QC_STATUS_OK;
}
