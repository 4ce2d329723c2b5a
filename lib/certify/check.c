/* The checker: does a proof hold?
 *
 * A plan that bought less would have strips of `cap` height together at most:
 * what a step less covers, without the squaring-up. Take a leaf, and add up
 *     D = sum of value x pieces needed, over all kinds
 *       + sum of weight x most (weight <= 0) or x (most + 1) (weight >= 0),
 *         over the answers on the way to it.
 * The strips of a plan in this leaf, each worth its pieces' values and the
 * weights of the answers in which it is counted, are worth D at least. If no
 * strip of height h is worth D h / cap or more, then strips of `cap` height
 * together are worth less than D: there is no such plan. Since every plan is in
 * some leaf, there is none at all.
 *
 * It is enough to look at plans whose strips are as high as their highest
 * section and hold no piece that could be left out; strips no higher than the
 * highest form. All in integers, 128 bits where products need them. */
#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>

#include "base/error.h"
#include "base/gcd.h"
#include "base/wide.h"
#include "certify/pricer.h"

#define LONGEST (INT64_C(1) << 35)
#define MANY (INT64_C(1) << 40)
#define LARGEST (INT64_C(1) << 53)
#define LARGEST_SUM ((qci_wide)1 << 90)
#define LARGEST_WORTH (INT64_C(1) << 60)

typedef struct checking {
    const qci_proof *proof;
    qci_pricer *pricer;
    int64_t *parent; /* per node; -1: none yet */
    int64_t *gain;   /* per class */
    int64_t least;   /* height of the lowest form */
    int64_t measure; /* all heights are multiples of it */
    QCI_VEC(qci_prize) prizes;
    int64_t cap;
    qci_wide sum, weights; /* weights without their signs */
    bool holds, memory_out;
    char *reason;
} checking;

/* The first thing that is wrong. */
static bool refuse(checking *c, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

static bool refuse(checking *c, const char *format, ...)
{
    va_list args;

    va_start(args, format);
    vsnprintf(c->reason, QCI_REASON_ROOM, format, args);
    va_end(args);
    return false;
}

static bool within(int64_t value, int64_t lo, int64_t hi)
{
    return value >= lo && value <= hi;
}

static bool good_form(checking *c, const qci_proof_form *f)
{
    int64_t slant =
        f->left < f->right ? f->right - f->left : f->left - f->right;

    if (!within(f->kind, 0, c->proof->kind_count - 1) ||
        !within(f->width, 1, LONGEST) || !within(f->height, 1, LONGEST) ||
        !within(f->left, -LONGEST, LONGEST) || f->left % 2 ||
        !within(f->right, -LONGEST, LONGEST) || f->right % 2 ||
        slant > 2 * f->width || !within(f->yields, 1, 64))
        return false;
    if (!c->least || f->height < c->least)
        c->least = f->height;
    c->measure = qci_gcd(f->height, c->measure);
    return true;
}

static bool good_job(checking *c)
{
    const qci_proof *p = c->proof;

    if (!within(p->step, 1, LONGEST) || !within(p->bought, 1, LONGEST) ||
        p->bought % p->step || !within(p->shrink, 0, 9999) ||
        !within(p->square_up, 0, LONGEST) || !within(p->width, 1, LONGEST))
        return refuse(c, "a length is not possible, or bought is not a "
                         "multiple of step");
    for (size_t i = 0; i < p->pieces.count; i++)
        if (!within(p->pieces.at[i].kind, 0, p->kind_count - 1) ||
            !within(p->pieces.at[i].count, 1, MANY))
            return refuse(c, "a count of pieces is not possible");
    for (size_t i = 0; i < p->forms.count; i++)
        if (!good_form(c, &p->forms.at[i]))
            return refuse(c, "a form is not possible");
    if (!p->kind_count || !p->pieces.count || !p->forms.count)
        return refuse(c, "nothing is to be cut");
    return true;
}

/* Every class begins above the one before it; together they hold every strip.
 */
static bool good_heights(checking *c)
{
    const qci_proof *p = c->proof;

    if (!p->heights.count || p->heights.at[0] < 1 ||
        p->heights.at[0] > c->least)
        return refuse(c, "heights: begin above the lowest form");
    for (size_t i = 1; i < p->heights.count; i++)
        if (p->heights.at[i] <= p->heights.at[i - 1])
            return refuse(c, "heights[%zu]: does not rise", i);
    if (p->heights.at[p->heights.count - 1] > c->pricer->top)
        return refuse(c, "heights: end above the highest form");
    return true;
}

static bool good_split(checking *c, size_t at)
{
    const qci_proof_node *n = &c->proof->nodes.at[at];
    int64_t next[2] = {n->below, n->above};
    int64_t last = n->by_height ? (int64_t)c->proof->heights.count - 1 : MANY;

    if (!within(n->at, n->by_height ? 0 : 1, last) ||
        !within(n->most, 0, MANY) ||
        (!n->by_height && !within(n->kind, 0, c->proof->kind_count - 1)))
        return refuse(c, "nodes[%zu]: asks what cannot be", at);
    for (int i = 0; i < 2; i++) {
        if (!within(next[i], (int64_t)at + 1,
                    (int64_t)c->proof->nodes.count - 1) ||
            c->parent[next[i]] >= 0)
            return refuse(c,
                          "nodes[%zu]: does not lead to two nodes of its "
                          "own behind it",
                          at);
        c->parent[next[i]] = (int64_t)at;
    }
    return true;
}

static bool is_leaf(const qci_proof_node *node)
{
    return !node->below && !node->above;
}

static bool good_tree(checking *c)
{
    for (size_t i = 0; i < c->proof->nodes.count; i++)
        c->parent[i] = -1;
    for (size_t i = 0; i < c->proof->nodes.count; i++)
        if (!is_leaf(&c->proof->nodes.at[i]) && !good_split(c, i))
            return false;
    return c->proof->nodes.count || refuse(c, "nodes: there is none");
}

/* One answer on the way to a leaf, and its weight. */
static bool weigh(checking *c, const qci_proof_node *node, bool above,
                  int64_t weight)
{
    if (!within(weight, above ? 0 : -LARGEST, above ? LARGEST : 0))
        return false;
    c->sum += (qci_wide)weight * (node->most + above);
    c->weights += above ? weight : -weight;
    if (c->weights > LARGEST_WORTH || c->sum > LARGEST_SUM ||
        c->sum < -LARGEST_SUM)
        return false;
    if (!weight)
        return true;
    if (!node->by_height) {
        c->memory_out = !qci_vec_push(
            &c->prizes, (qci_prize){node->kind, node->at, weight});
        return !c->memory_out;
    }
    for (size_t k = (size_t)node->at; k < c->proof->heights.count; k++)
        c->gain[k] += weight;
    return true;
}

/* Takes a leaf's values and weights: fills sum, gain and prizes. */
static bool take_leaf(checking *c, size_t at)
{
    const qci_proof_node *leaf = &c->proof->nodes.at[at];
    size_t left = leaf->weights.count;

    c->sum = c->weights = 0;
    c->prizes.count = 0;
    for (size_t k = 0; k < c->proof->heights.count; k++)
        c->gain[k] = 0;
    for (int64_t i = (int64_t)at; c->parent[i] >= 0; i = c->parent[i]) {
        const qci_proof_node *node = &c->proof->nodes.at[c->parent[i]];

        if (!left--)
            return false;
        if (!weigh(c, node, node->above == i, leaf->weights.at[left]))
            return false;
    }
    if (left || leaf->values.count != (size_t)c->proof->kind_count)
        return false;
    for (size_t k = 0; k < leaf->values.count; k++) {
        if (!within(leaf->values.at[k], c->pricer->exact ? -LARGEST : 0,
                    LARGEST))
            return false;
        c->sum += (qci_wide)leaf->values.at[k] * c->pricer->needed[k];
        if (c->sum > LARGEST_SUM || c->sum < -LARGEST_SUM)
            return false;
    }
    return true;
}

/* No sum over a strip may leave 64 bits. */
static bool is_small(checking *c)
{
    const qci_pricer *p = c->pricer;
    qci_wide room = p->proof->stacks ? p->top / c->least : 1, worth = 0;

    for (int32_t i = 0; i < p->all; i++) {
        qci_wide fit = p->proof->width / p->forms[i]->width * room + 1;

        if (fit > MANY)
            return false;
        fit *= (qci_wide)p->share[p->forms[i]->kind] * p->forms[i]->yields;
        fit = fit < 0 ? -fit : fit;
        worth = fit > worth ? fit : worth;
    }
    return worth + c->weights < LARGEST_WORTH;
}

/* The most that a strip of class k may be worth, its gain left out. */
static qci_wide limit_of(const checking *c, size_t k)
{
    qci_wide limit =
        (c->proof->heights.at[k] * c->sum - 1) / c->cap - c->gain[k];

    return limit > LARGEST_WORTH ? LARGEST_WORTH : limit;
}

static bool good_class(checking *c, size_t at, size_t k)
{
    const int64_t *h = c->proof->heights.at;
    int64_t high =
        k + 1 < c->proof->heights.count ? h[k + 1] - 1 : c->pricer->top;
    qci_wide limit = limit_of(c, k);
    qci_worth worth = QCI_WORTH_ABOVE;

    if (limit >= 0)
        worth = qci_pricer_ask(c->pricer, h[k], high, (int64_t)limit);
    if (worth == QCI_WORTH_UNKNOWN)
        return refuse(c,
                      "nodes[%zu]: strips from heights[%zu] on can be cut "
                      "in too many ways to check",
                      at, k);
    if (worth == QCI_WORTH_ABOVE)
        return refuse(c,
                      "nodes[%zu]: a strip from heights[%zu] on can be "
                      "worth too much",
                      at, k);
    return true;
}

static bool good_leaf(checking *c, size_t at)
{
    const qci_proof_node *leaf = &c->proof->nodes.at[at];

    if (!take_leaf(c, at) || c->sum <= 0)
        return c->memory_out ||
               refuse(c,
                      "nodes[%zu]: values and weights do not fit the "
                      "questions, or show nothing",
                      at);
    qci_pricer_take(c->pricer, leaf->values.at, c->prizes.at, c->prizes.count);
    if (!is_small(c))
        return refuse(c, "nodes[%zu]: values are too large", at);
    for (size_t k = 0; k < c->proof->heights.count; k++)
        if (!good_class(c, at, k))
            return false;
    return true;
}

/* Strips of this height together are too few: proved by the tree. */
static bool good_leaves(checking *c)
{
    for (size_t i = 0; i < c->proof->nodes.count && !c->memory_out; i++) {
        if (i && c->parent[i] < 0)
            return refuse(c, "nodes[%zu]: no node leads to it", i);
        if (is_leaf(&c->proof->nodes.at[i]) && !good_leaf(c, i))
            return false;
    }
    return true;
}

static qc_status check(checking *c, qc_error *err)
{
    const qci_proof *p = c->proof;
    qc_status status;

    if (!good_job(c))
        return QC_STATUS_OK;
    c->cap = (p->bought - p->step) * (10000 - p->shrink) / 10000 - p->square_up;
    c->cap -= c->cap % c->measure;
    c->holds = c->cap < c->least; /* not one strip */
    if (c->holds)
        return QC_STATUS_OK;
    status = qci_pricer_create(p, &c->pricer, err);
    if (status || !c->pricer) {
        refuse(c, "its lengths are too fine to be checked");
        return status;
    }
    c->parent = qci_calloc(p->nodes.count, sizeof *c->parent);
    c->gain = qci_calloc(p->heights.count, sizeof *c->gain);
    if (!c->parent || !c->gain)
        return qci_no_memory(err);
    c->holds = good_heights(c) && good_tree(c) && good_leaves(c);
    return c->memory_out ? qci_no_memory(err) : QC_STATUS_OK;
}

qc_status qci_certify(const qci_proof *proof, bool *holds,
                      char reason[QCI_REASON_ROOM], qc_error *err)
{
    checking c = {.proof = proof, .reason = reason};
    qc_status status;

    reason[0] = '\0';
    status = check(&c, err);
    *holds = !status && c.holds;
    qci_pricer_destroy(c.pricer);
    qci_free(c.parent);
    qci_free(c.gain);
    qci_vec_clear(&c.prizes);
    return status;
}
