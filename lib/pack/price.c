/* One round of pricing.
 *
 * With integer duals pi >= 0 (pieces; of either sign where the demand must be
 * met exactly), mu (classes) and sigma (counts), scaled
 * by 2^shift, every pattern of class k must satisfy
 *     sum a_i pi_i + sum of sigma earned + sum_{j <= k} mu_j <= cost_k.
 * V_k, the most that the left side can be without the mu, comes from the oracle
 * exactly. Where it is too large, all duals are scaled by
 * theta = min cost_k / (V_k + mu...), which is Farley's bound (A. A. Farley,
 * Oper. Res. 38:922-923, 1990; from memory):
 *     bound = theta * (sum pi_i d_i + sum mu+ lo + sum mu- hi + ...).
 * All of it in integers, 128 bits where products need them. */
#include "pack/price.h"
#include "pack/spare.h"

#include <math.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"

typedef qci_wide wide;

/* Most pieces that a strip can hold. */
static double most_pieces(const qci_model *model)
{
    int64_t narrow = INT64_MAX, low = INT64_MAX;
    int32_t most = 1;
    int64_t top = model->height[model->class_count - 1], across, up;

    for (int32_t i = 0; i < model->lay_count; i++) {
        if (model->lays[i].width < narrow)
            narrow = model->lays[i].width;
        if (model->lays[i].height < low)
            low = model->lays[i].height;
        if (model->lays[i].yield > most)
            most = model->lays[i].yield;
    }
    across = model->width / narrow;
    up = model->stacks ? top / low : 1;
    return (double)across * (double)up * most;
}

/* The largest power of two at which no value can leave 2^58. */
static int32_t choose_shift(const qci_master *master)
{
    const qci_model *model = master->model;
    int rows = qci_lp_row_count(master->lp);
    double top = (double)model->height[model->class_count - 1], sum = 0.0;
    double largest = top;
    int exponent;

    for (int i = 0; i < rows; i++) {
        double dual = fabs(qci_lp_row_dual(master->lp, i));

        if (i >= model->row_count + model->class_count)
            sum += dual;
        if (dual > largest)
            largest = dual;
    }
    frexp(largest * most_pieces(model) + sum + top, &exponent);
    exponent = 58 - exponent;
    return exponent > 36 ? 36 : exponent < 0 ? 0 : exponent;
}

static int64_t to_integer(const qci_master *master, int row)
{
    double dual = qci_lp_row_dual(master->lp, row);

    return (int64_t)llround(ldexp(dual, master->shift));
}

/* A dual only counts where its side of the row has a bound. */
static int64_t bounded(int64_t dual, int64_t hi)
{
    return dual < 0 && hi >= QCI_MANY ? 0 : dual;
}

static wide side(int64_t dual, int64_t lo, int64_t hi)
{
    return (wide)dual * (dual > 0 ? lo : hi);
}

/* Fills value and gain; returns the dual value of rows and classes. */
static wide read_duals(qci_master *master)
{
    const qci_model *model = master->model;
    int64_t gain = 0, before = 0;
    wide sum = 0;

    master->shift = choose_shift(master);
    for (int i = 0; i < model->row_count; i++) {
        int64_t dual = to_integer(master, i);

        master->value[i] = dual > 0 || model->exact ? dual : 0;
        sum += (wide)master->value[i] * master->need[i];
    }
    for (int k = 0; k < model->class_count; k++) {
        int64_t row = to_integer(master, model->row_count + k);
        int64_t dual = bounded(row - before, master->class_hi[k]);

        before = row;
        gain += dual;
        master->gain[k] = gain;
        if (dual)
            sum += side(dual, master->class_lo[k], master->class_hi[k]);
    }
    return sum;
}

/* Fills the bonuses, by row and then count; adds their dual value. */
static bool read_bonuses(qci_master *master, int32_t *count, wide *sum)
{
    int first = master->model->row_count + master->model->class_count;
    int32_t n = 0;

    if (master->bonus_room < master->counts.count) {
        qci_bonus *grown = qci_realloc(master->bonus, master->counts.count,
                                       sizeof *master->bonus);

        if (!grown)
            return false;
        master->bonus = grown;
        master->bonus_room = master->counts.count;
    }
    for (size_t i = 0; i < master->counts.count; i++) {
        const qci_count_row *row = &master->counts.at[i];
        int64_t dual = bounded(to_integer(master, first + (int)i), row->hi);
        int32_t at = n;

        if (!dual)
            continue;
        *sum += side(dual, row->lo, row->hi);
        for (; at > 0 && (master->bonus[at - 1].row > row->row ||
                          (master->bonus[at - 1].row == row->row &&
                           master->bonus[at - 1].at > row->at));
             at--)
            master->bonus[at] = master->bonus[at - 1];
        master->bonus[at] = (qci_bonus){row->row, row->at, dual};
        n++;
    }
    *count = n;
    return true;
}

static wide ceil_div(wide a, wide b)
{
    return a / b + (a % b > 0);
}

/* theta as cost / value, the smallest over the classes that break the duals. */
static int64_t scaled_bound(const qci_master *master, wide sum)
{
    const qci_model *model = master->model;
    wide cost = 1, value = 1;

    if (sum <= 0)
        return 0;
    for (int k = 0; k < model->class_count; k++) {
        wide v = (wide)master->best[k] + master->gain[k];
        wide c = (wide)model->cost[k] << master->shift;

        /* c / v < cost / value without dividing: all are below 2^60. */
        if (v > c && c * value < cost * v) {
            cost = c;
            value = v;
        }
    }
    /* Products stay within 128 bits: a smaller sum and theta rounded down to
     * 2^-40 only weaken the bound. */
    if (sum > (wide)1 << 86)
        sum = (wide)1 << 86;
    return (int64_t)ceil_div(sum * ((cost << 40) / value),
                             (wide)1 << (40 + master->shift));
}

static bool take_pattern(int32_t cls, int64_t value, const int32_t *sequence,
                         int32_t length, void *user)
{
    qci_master *master = user;
    qci_pattern *pattern =
        qci_pattern_create(master->model, cls, sequence, length);

    (void)value;
    if (!pattern || qci_master_add(master, pattern, NULL, NULL)) {
        master->failed = true;
        return false;
    }
    return true;
}

/* Nodes of a walk: longer walks are for when shorter ones found nothing, yet
 * some class was not walked to its end, and that costs the bound something.
 * Tables for slanted pieces take long to fill, and are filled anew for each. */
#define SHORT_WALK 60
#define SHORT_SLANTED_WALK 300
#define WALK_GROWTH 10
/* With so many new patterns the program is solved again, before the other
 * classes are priced; the next round begins with these. */
#define ENOUGH 8

/* What the bound would be if no pattern were worth more than is known. */
static int64_t lp_rounded_up(const qci_master *master)
{
    return (int64_t)ceil(qci_lp_objective(master->lp) - 1e-6);
}

static bool promises_more(const qci_master *master)
{
    for (int k = 0; k < master->model->class_count; k++)
        if (master->best[k] > master->threshold[k])
            return true;
    return false;
}

/* Prices class after class; *all: every one of them. */
static bool price_classes(qci_master *master, const qci_prices *prices,
                          bool *all)
{
    int32_t classes = master->model->class_count;

    *all = false;
    qci_oracle_begin(master->oracle, prices);
    for (int32_t i = 0; i < classes && master->found < ENOUGH; i++) {
        int32_t k = master->next_class;

        if (!qci_oracle_class(master->oracle, k, &master->best[k], take_pattern,
                              master))
            return false;
        *all = i == classes - 1;
        master->next_class = (k + 1) % classes;
    }
    return true;
}

qc_status qci_price_round(qci_master *master, int64_t *bound, qc_error *err)
{
    const qci_model *model = master->model;
    wide sum = read_duals(master);
    int64_t noise = INT64_C(1) << (master->shift > 24 ? master->shift - 24 : 0);
    qci_prices prices = {.value = master->value,
                         .limit = master->limit,
                         .threshold = master->threshold,
                         .node_limit = model->alone_count ? SHORT_SLANTED_WALK
                                                          : SHORT_WALK,
                         .watch = master->watch};

    bool all;
    qc_status status;

    if (!read_bonuses(master, &master->bonus_count, &sum))
        return qci_no_memory(err);
    prices.bonus = master->bonus;
    prices.bonus_count = master->bonus_count;
    for (int k = 0; k < model->class_count; k++)
        master->threshold[k] =
            (model->cost[k] << master->shift) - master->gain[k] + noise;
    master->found = 0;
    master->failed = false;
    *bound = 0;
    status = qci_spare_in(master, err);
    if (status || master->found)
        return status;
    do {
        *bound = 0;
        if (!price_classes(master, &prices, &all))
            return qci_no_memory(err);
        if (!all)
            return QC_STATUS_OK;
        *bound = scaled_bound(master, sum);
        prices.node_limit *= WALK_GROWTH;
    } while (!master->found && prices.node_limit <= master->longest_walk &&
             promises_more(master) && *bound < lp_rounded_up(master) &&
             !qci_master_stopped(master));
    return QC_STATUS_OK;
}
