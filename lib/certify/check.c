/* The checker: does a proof hold?
 *
 * A plan that needed less would have strips of `cap` height together at most:
 * what a step less covers, or one unit less than is used, without the
 * squaring-up. Take a leaf, and add up
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
 * section and hold no form that could be left out; strips no higher than the
 * highest form. All in integers, 128 bits where products need them. */
#include "certify/check.h"

#include <stdio.h>

#include "base/error.h"
#include "base/gcd.h"

#define LARGEST_SUM ((qci_wide)1 << 90)

/* The first thing that is wrong, with its place. */
static bool refuse(qci_checking *c, size_t node, const char *problem)
{
    snprintf(c->reason, QCI_REASON_ROOM, "nodes[%zu]: %s", node, problem);
    return false;
}

/* Height that the strips of a plan may have together which needs less; less
 * than `used` must be all that less than `bought` could be. */
static bool find_cap(const qci_proof *p, int64_t *cap)
{
    int64_t less = (p->bought - p->step) * (10000 - p->shrink) / 10000;
    int64_t measure = 0;

    for (size_t i = 0; i < p->forms.count; i++)
        measure = qci_gcd(p->forms.at[i].height, measure);
    *cap = (p->used ? p->used - 1 : less) - p->square_up;
    if (measure)
        *cap -= *cap % measure;
    return !p->used || less < p->used;
}

/* Most pieces of a kind in a plan that holds no form that could be left out. */
static int64_t most_cut(qci_checking *c, int64_t kind)
{
    int64_t yields = 1;

    c->work += c->all;
    for (int32_t i = 0; i < c->all; i++)
        if (c->forms[i].kind == kind && c->forms[i].yields > yields)
            yields = c->forms[i].yields;
    return c->needed[kind] + yields - 1;
}

/* D; 0 where a number does not fit its question. */
static qci_wide add_up(qci_checking *c)
{
    qci_wide sum = 0;
    int64_t left = QCI_PROOF_VALUE;

    if (c->leaf->weights.count != c->depth)
        return 0;
    for (size_t i = 0; i < c->depth; i++) {
        int64_t above = c->way[i].above, weight = c->leaf->weights.at[i];
        int64_t size = above ? weight : -weight;

        if (size < 0 || size > left)
            return 0;
        left -= size;
        sum += (qci_wide)weight * (c->way[i].node->most + above);
    }
    for (int64_t k = 0; k < c->proof->kind_count; k++) {
        int64_t value = c->leaf->values.at[k];

        if (value < 0 && !c->exact)
            return 0;
        sum += (qci_wide)value * (value < 0 ? most_cut(c, k) : c->needed[k]);
    }
    return sum > LARGEST_SUM ? 0 : sum;
}

/* Is no strip of class k worth D h / cap, its answers' weights included? */
static bool good_class(qci_checking *c, qci_wide sum, int64_t cap, size_t k)
{
    const int64_t *h = c->proof->heights.at;

    c->limit = (h[k] * sum - 1) / cap;
    c->work += (int64_t)c->depth + 1;
    for (size_t i = 0; i < c->depth; i++)
        if (c->way[i].node->ask == QCI_ASK_CLASS &&
            c->way[i].node->at <= (int64_t)k)
            c->limit -= c->leaf->weights.at[i];
    return c->limit >= 0 && qci_price_within(c, h[k], h[k + 1] - 1);
}

static bool good_leaf(qci_checking *c, size_t at, int64_t cap)
{
    qci_wide sum;

    c->leaf = &c->proof->nodes.at[at];
    sum = add_up(c);
    if (sum <= 0)
        return refuse(c, at,
                      "values and weights do not fit the questions, "
                      "or show nothing");
    qci_price_leaf(c);
    for (size_t k = 0; k + 1 < c->proof->heights.count; k++)
        if (!good_class(c, sum, cap, k))
            return refuse(c, at,
                          c->work > QCI_MOST_WORK
                              ? "from here on it takes too long to check"
                              : "a strip can be worth too much");
    return true;
}

/* Every question is answered below, then above; each answer ends in leaves. */
static bool good_tree(qci_checking *c, int64_t cap)
{
    bool open = true;

    for (size_t i = 0; i < c->proof->nodes.count; i++) {
        if (!open)
            return refuse(c, i, "no question leads to it");
        if (c->proof->nodes.at[i].ask) {
            c->way[c->depth++] = (qci_answer){&c->proof->nodes.at[i], false};
            continue;
        }
        if (!good_leaf(c, i, cap))
            return false;
        while (c->depth && c->way[c->depth - 1].above)
            c->depth--;
        open = c->depth;
        if (open)
            c->way[c->depth - 1].above = true;
    }
    return !open || refuse(c, c->proof->nodes.count, "is missing");
}

qc_status qci_certify(const qci_proof *proof, int64_t *work, bool *holds,
                      char reason[QCI_REASON_ROOM], qc_error *err)
{
    qci_checking c = {.proof = proof, .reason = reason, .work = *work};
    const char *fault = qci_proof_fault(proof);
    qc_status status = QC_STATUS_OK;
    int64_t cap = 0;

    reason[0] = '\0';
    if (!fault && !find_cap(proof, &cap))
        fault = "used: a step less than is bought covers it";
    *holds = !fault && cap < proof->heights.at[0]; /* not one strip */
    if (fault) {
        snprintf(reason, QCI_REASON_ROOM, "%s", fault);
    } else if (!*holds) {
        c.way = qci_calloc(proof->nodes.count, sizeof *c.way);
        status = c.way ? qci_price_begin(&c, err) : qci_no_memory(err);
        *holds = !status && good_tree(&c, cap);
    }
    *work = c.work;
    qci_free(c.room);
    qci_free(c.way);
    return status;
}
