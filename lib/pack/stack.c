/* The stack oracle: a section is opened by its widest piece and filled upwards
 * with pieces no wider.
 *
 * up[i][y] bounds what lays i.. can still gain in y cells of height; section[i]
 * what a section opened by lay i is worth at most; across[i][x] what sections
 * opened by lays i.. can gain in x cells of width. The tables let a row be used
 * beyond its limit; the walk does not, and prunes with them. Without trimming a
 * stack must fill its strip exactly. Cost: lays x (width x classes + height).
 */
#include "base/wide.h"
#include "pack/oracle_inner.h"

#define NO_CLASS (-2)
/* A walk that is given so many nodes should come to its end. */
#define LONG_WALK 1000

static const int64_t *across(const qci_oracle *oracle, int32_t lay)
{
    return oracle->line[lay];
}

/* The lay's own place in the table. */
static int64_t *own_line(const qci_oracle *oracle, int32_t lay)
{
    return oracle->across + (int64_t)lay * (oracle->cells_x + 1);
}

static int64_t *up(const qci_oracle *oracle, int32_t lay)
{
    return oracle->up + (int64_t)lay * (oracle->cells_y + 1);
}

static bool must_fill(const qci_oracle *oracle)
{
    return oracle->model->exact && oracle->unit_y == 1;
}

/* Most pieces of a lay in one stack. */
static int64_t most_up(const qci_oracle *oracle, const qci_lay *lay)
{
    const qci_model *model = oracle->model;
    int64_t limit =
        (oracle->prices->limit[lay->row] + lay->yield - 1) / lay->yield;
    int64_t room = model->height[model->class_count - 1] / lay->height;

    return room < limit ? room : limit;
}

/* One more lay for a section's rest. A piece below one cell of a coarse table
 * takes no room in it, and is then counted as often as it may come. Values are
 * negative only where the demand is met exactly, and heights are then too few
 * for such tables. */
static void add_up(const qci_oracle *oracle, int32_t lay, const int64_t *from,
                   int64_t *to)
{
    int64_t cells = oracle->model->lays[lay].height / oracle->unit_y;
    int64_t limit = most_up(oracle, &oracle->model->lays[lay]);
    int64_t value = qci_lay_worth(oracle, lay);

    for (int64_t y = 0; y <= oracle->cells_y; y++) {
        to[y] = from[y];
        if (!cells)
            to[y] += limit * value;
        else if (limit && y >= cells && to[y - cells] + value > to[y])
            to[y] = to[y - cells] + value;
    }
}

void qci_stack_tables(qci_oracle *oracle)
{
    int32_t n = qci_square_count(oracle->model);
    int64_t *end = up(oracle, n);

    oracle->last_class = NO_CLASS;
    for (int64_t y = 0; y <= oracle->cells_y; y++)
        end[y] = y && must_fill(oracle) ? QCI_NEVER : 0;
    for (int32_t i = n - 1; i >= 0; i--)
        add_up(oracle, i, up(oracle, i + 1), up(oracle, i));
}

/* Where pieces may be left out, one that is worth nothing is; what stands above
 * it then opens the section. (Without bonuses the tables promise little that is
 * not there, and such pieces make patterns fuller.) */
static bool is_idle(const qci_oracle *oracle, const qci_lay *lay)
{
    return !oracle->prices->limit[lay->row] ||
           (oracle->model->trim && oracle->prices->bonus_count &&
            oracle->amortised[lay->row] <= 0);
}

/* What a section opened by `lay` is worth at most in a strip of this height. */
static int64_t section_worth(const qci_oracle *oracle, int32_t lay, int32_t cls)
{
    const qci_model *model = oracle->model;
    const qci_lay *l = &model->lays[lay];
    int64_t above = model->height[cls] - l->height;

    if (is_idle(oracle, l) || !qci_lay_fits(model, l, cls))
        return QCI_NEVER;
    if (!model->stacks)
        return qci_lay_worth(oracle, lay);
    return qci_lay_worth(oracle, lay) + up(oracle, lay)[above / oracle->unit_y];
}

/* Sections opened by `lay`, which are worth something, joined to those of the
 * lays after it. */
static void add_across(const qci_oracle *oracle, int32_t lay)
{
    int64_t width = oracle->model->lays[lay].width;
    int64_t cells = width / oracle->unit_x, last = oracle->cells_x;
    int64_t most = oracle->model->width / width;
    int64_t gain = oracle->section[lay];
    const int64_t *from = across(oracle, lay + 1);
    int64_t *to = own_line(oracle, lay);

    for (int64_t x = 0; x <= last && (!cells || x < cells); x++)
        to[x] = cells ? from[x] : from[x] + most * gain;
    for (int64_t x = cells; cells && x <= last; x++) {
        int64_t with = to[x - cells] + gain;

        to[x] = with > from[x] ? with : from[x];
    }
}

/* Fills section[] for a class, and notes the last lay whose lines that makes
 * stale; says whether anything changed. */
static bool fill_sections(qci_oracle *oracle, int32_t cls)
{
    bool changed = false;

    for (int32_t i = 0; i < qci_square_count(oracle->model); i++) {
        int64_t worth = section_worth(oracle, i, cls);

        if (worth == oracle->section[i])
            continue;
        changed = true;
        oracle->section[i] = worth;
        oracle->stale = i > oracle->stale ? i : oracle->stale;
    }
    return changed;
}

/* Do sections opened by lay `by`, as many as fit, take the place of one opened
 * by `lay` at no loss? */
static bool is_replaced(const qci_oracle *oracle, int32_t lay, int32_t by)
{
    const qci_model *model = oracle->model;
    int64_t cells = by < 0 ? 0 : model->lays[by].width / oracle->unit_x;

    if (oracle->section[lay] <= 0)
        return true;
    return cells &&
           (qci_wide)(model->lays[lay].width / oracle->unit_x / cells) *
                   oracle->section[by] >=
               oracle->section[lay];
}

static bool is_denser(const qci_oracle *oracle, int32_t lay, int32_t than)
{
    const qci_lay *lays = oracle->model->lays;

    if (oracle->section[lay] <= 0)
        return false;
    return than < 0 || (qci_wide)oracle->section[lay] * lays[than].width >
                           (qci_wide)oracle->section[than] * lays[lay].width;
}

/* A lay that others replace has their line. */
static void fill_line(qci_oracle *oracle, int32_t lay, int32_t densest)
{
    if (is_replaced(oracle, lay, densest)) {
        oracle->line[lay] = oracle->line[lay + 1];
        return;
    }
    add_across(oracle, lay);
    oracle->line[lay] = own_line(oracle, lay);
}

/* What lies alone comes after all else. Lines of lays after the stale ones
 * still hold. */
static void fill(qci_oracle *oracle, int32_t cls)
{
    int32_t n = qci_square_count(oracle->model), densest = -1;
    int64_t *end = own_line(oracle, n);
    bool alone = qci_alone_any(oracle, cls);

    if (alone)
        qci_alone_table(oracle, cls);
    for (int64_t x = 0; x <= oracle->cells_x; x++)
        end[x] = alone ? qci_alone_worth(oracle, cls, x) : 0;
    oracle->line[n] = end;
    for (int32_t i = n - 1; i >= 0; i--) {
        if (i <= oracle->stale)
            fill_line(oracle, i, densest);
        if (is_denser(oracle, i, densest))
            densest = i;
    }
    /* Beside what lies alone every class has lines of its own. */
    oracle->stale = oracle->model->alone_count ? n : -1;
}

static void next_section(qci_oracle *oracle, const qci_spot *p, int32_t cls);
static void next_piece(qci_oracle *oracle, const qci_spot *p, int32_t from,
                       int32_t cls);

/* Adds a piece to the walk, goes on from there, and takes it off again. */
static void put(qci_oracle *oracle, const qci_spot *p, int32_t lay, bool opens,
                int32_t cls)
{
    const qci_lay *l = &oracle->model->lays[lay];
    int64_t rest = opens ? oracle->model->height[cls] : p->rest;
    qci_spot next = {.open = opens ? lay : p->open,
                     .lean = p->lean,
                     .width = opens ? p->width - l->width : p->width,
                     .rest = rest - l->height,
                     .worth = p->worth,
                     .promise = p->promise};

    qci_walk_put(oracle, &next, lay | (opens ? QCI_OPEN : 0));
    if (oracle->model->stacks)
        next_piece(oracle, &next, lay, cls);
    else
        next_section(oracle, &next, cls);
    qci_walk_drop(oracle);
}

static int64_t opening_bound(const qci_oracle *oracle, const qci_spot *p,
                             int32_t lay)
{
    const qci_lay *l = &oracle->model->lays[lay];

    if (oracle->section[lay] <= QCI_NEVER / 2 || l->width > p->width ||
        !qci_lay_left(oracle, lay))
        return QCI_NEVER;
    return p->promise + oracle->section[lay] +
           across(oracle, lay)[(p->width - l->width) / oracle->unit_x];
}

static void next_section(qci_oracle *oracle, const qci_spot *p, int32_t cls)
{
    int32_t n = qci_square_count(oracle->model), first = -1, others = 0;
    int64_t most = oracle->best_value;

    if (p->worth > oracle->best_value)
        qci_walk_keep(oracle, p->worth);
    if (!qci_walk_can(oracle, p->promise,
                      across(oracle, p->open)[p->width / oracle->unit_x],
                      p->width * oracle->room_per_width) ||
        qci_seen(oracle, p, false) || !qci_walk_on(oracle))
        return;
    for (int32_t i = p->open; i < n; i++) {
        int64_t bound = opening_bound(oracle, p, i);

        others += bound > oracle->best_value;
        if (bound > most) {
            most = bound;
            first = i;
        }
    }
    if (first >= 0)
        put(oracle, p, first, true, cls);
    for (int32_t i = p->open; i < n && others > 1 && !oracle->capped; i++)
        if (i != first && opening_bound(oracle, p, i) > oracle->best_value)
            put(oracle, p, i, true, cls);
    if (!oracle->capped)
        qci_alone_walk(oracle, *p, cls);
}

static int64_t stacking_bound(const qci_oracle *oracle, const qci_spot *p,
                              int32_t lay)
{
    const qci_lay *l = &oracle->model->lays[lay];

    if (l->height > p->rest || is_idle(oracle, l) || !qci_lay_left(oracle, lay))
        return QCI_NEVER;
    return p->promise + qci_lay_worth(oracle, lay) +
           up(oracle, lay)[(p->rest - l->height) / oracle->unit_y] +
           across(oracle, p->open)[p->width / oracle->unit_x];
}

static void next_piece(qci_oracle *oracle, const qci_spot *p, int32_t from,
                       int32_t cls)
{
    int32_t n = qci_square_count(oracle->model), first = -1, others = 0;
    int64_t most = oracle->best_value;
    bool may_close = oracle->model->trim || p->rest == 0;

    if (!qci_walk_can(oracle, p->promise,
                      up(oracle, from)[p->rest / oracle->unit_y] +
                          across(oracle, p->open)[p->width / oracle->unit_x],
                      p->width * oracle->room_per_width +
                          p->rest * oracle->model->lays[p->open].width) ||
        !qci_walk_on(oracle))
        return;
    for (int32_t i = from; i < n; i++) {
        int64_t bound = stacking_bound(oracle, p, i);

        others += bound > oracle->best_value;
        if (bound > most) {
            most = bound;
            first = i;
        }
    }
    if (first >= 0)
        put(oracle, p, first, false, cls);
    for (int32_t i = from; i < n && others > 1 && !oracle->capped; i++)
        if (i != first && stacking_bound(oracle, p, i) > oracle->best_value)
            put(oracle, p, i, false, cls);
    if (may_close && !oracle->capped)
        next_section(oracle, p, cls);
}

/* The width filled with the section worth most for its width: above what any
 * pattern is worth, and found without a table. */
static int64_t fractional_worth(const qci_oracle *oracle)
{
    int64_t width = oracle->model->width, worth = 0, per = 1;

    for (int32_t i = 0; i < oracle->model->lay_count; i++) {
        int64_t w = oracle->model->lays[i].width;
        int64_t gain = oracle->model->lays[i].alone ? qci_lay_worth(oracle, i)
                                                    : oracle->section[i];

        if (gain > 0 && (qci_wide)gain * per > (qci_wide)worth * w) {
            worth = gain;
            per = w;
        }
    }
    return (int64_t)(((qci_wide)worth * width + per - 1) / per);
}

/* Does the class before bound this one? A higher strip in which no section can
 * gain more is only dearer. But what a walk found out about the class before
 * says nothing here: pieces that run out there may be joined by others. */
static bool goes_on(const qci_oracle *oracle, int32_t cls)
{
    const int64_t *threshold = oracle->prices->threshold;

    return oracle->model->trim && cls == oracle->last_class + 1 &&
           threshold[cls] >= threshold[cls - 1] &&
           !qci_alone_any(oracle, cls) && !qci_alone_any(oracle, cls - 1);
}

/* What is known of a class by the limits of its rows says nothing of the next:
 * other rows may lie there. */
static int64_t forget(qci_oracle *oracle, int64_t best)
{
    oracle->last_class = NO_CLASS;
    return best;
}

/* Lists the fillings of a class in which a walk of some length came to no end;
 * false where that cannot be done. Only for jobs with pieces that lie alone:
 * they have few rows of squares. */
static bool list_fillings(qci_oracle *oracle, int32_t cls)
{
    bool listed = !qci_alone_any(oracle, cls) || oracle->bunches[cls];

    if (oracle->tried[cls] || oracle->prices->node_limit < LONG_WALK ||
        !oracle->model->alone_count)
        return false;
    oracle->tried[cls] = true;
    if (listed)
        oracle->failed = qci_fillings_create(oracle->model, cls,
                                             &oracle->fillings[cls], NULL);
    return oracle->fillings[cls];
}

static int64_t price_fillings(qci_oracle *oracle, int32_t cls)
{
    if (qci_alone_any(oracle, cls))
        qci_alone_table(oracle, cls);
    qci_fillings_price(oracle->fillings[cls], oracle);
    return forget(oracle, oracle->best_value);
}

int64_t qci_stack_price(qci_oracle *oracle, int32_t cls)
{
    int64_t promise, rest;
    bool same = !fill_sections(oracle, cls) && goes_on(oracle, cls);

    oracle->last_class = cls;
    if (same && !oracle->last_walked)
        return oracle->last_best;
    /* What the class before holds is known already, and cheaper there. */
    if (same && oracle->last_best > oracle->best_value)
        oracle->best_value = oracle->last_best;
    oracle->last_walked = false;
    oracle->last_best = fractional_worth(oracle);
    if (oracle->last_best <= oracle->best_value)
        return oracle->last_best;
    qci_rest_prepare(oracle, cls);
    rest =
        qci_rest_worth(oracle, oracle->model->width * oracle->room_per_width);
    if (rest <= oracle->best_value)
        return forget(oracle, rest);
    qci_seen_prepare(oracle);
    if (oracle->fillings[cls])
        return price_fillings(oracle, cls);
    if (!same)
        fill(oracle, cls);
    promise = across(oracle, 0)[oracle->cells_x];
    oracle->last_best = promise;
    if (promise <= oracle->best_value)
        return promise;
    next_section(oracle, &(qci_spot){.width = oracle->model->width}, cls);
    if (oracle->capped && list_fillings(oracle, cls))
        return price_fillings(oracle, cls);
    oracle->last_walked = !oracle->capped && oracle->best_value < promise;
    if (oracle->last_walked)
        oracle->last_best = oracle->best_value;
    else if (rest < promise)
        return forget(oracle, rest);
    return oracle->last_best;
}
