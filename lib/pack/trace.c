/* From the duals of the branch and bound to the values of a certificate.
 *
 * A bound's class duals and bonuses belong to rows of the program, and each is
 * held by the tightest answer on the way to the node that bounds it: the last
 * one. A dual whose side of its row no answer bounds is left out, which only
 * strengthens what is proved. Nothing here is trusted: the proof is checked
 * before it is shown. */
#include "pack/trace.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"

/* Values stay below this, so that every reader of JSON holds them exactly. */
#define LARGEST (INT64_C(1) << 52)
/* Areas are below 2^65: no piece is wider than a fabric can be, or longer. */
#define AREA_SHIFT 14

int32_t qci_trace_add(qci_trace *trace, int32_t parent)
{
    if (!qci_vec_push(&trace->nodes, (qci_trace_node){.parent = parent}))
        return -1;
    return (int32_t)trace->nodes.count - 1;
}

void qci_trace_split(qci_trace *trace, int32_t node, bool by_class,
                     qci_count_row split, int32_t below, int32_t above)
{
    qci_trace_node *n = &trace->nodes.at[node];

    n->by_class = by_class;
    n->split = split;
    n->below = below;
    n->above = above;
}

static int32_t depth_of(const qci_trace *trace, int32_t node)
{
    int32_t depth = 0;

    for (; trace->nodes.at[node].parent >= 0; depth++)
        node = trace->nodes.at[node].parent;
    return depth;
}

/* A node's values and weights, zeroed; false when memory is out. */
static bool make_room(qci_trace_node *n, int32_t rows, int32_t depth)
{
    if (!n->values)
        n->values = qci_calloc((size_t)rows, sizeof(int64_t));
    if (!n->weights)
        n->weights = qci_calloc((size_t)depth, sizeof(int64_t));
    if (!n->values || !n->weights)
        return false;
    memset(n->weights, 0, (size_t)depth * sizeof(int64_t));
    return true;
}

static bool same_question(const qci_trace_node *n, bool by_class,
                          qci_count_row row)
{
    return n->by_class == by_class && n->split.at == row.at &&
           (by_class || n->split.row == row.row);
}

/* Gives a dual to the last answer that bounds its row on the dual's side. */
static void give(qci_trace *trace, int32_t node, int32_t depth, bool by_class,
                 qci_count_row row, int64_t dual)
{
    int64_t *weights = trace->nodes.at[node].weights;

    for (int32_t i = node, d = depth; dual && d-- > 0;) {
        int32_t up = trace->nodes.at[i].parent;
        const qci_trace_node *n = &trace->nodes.at[up];

        if (same_question(n, by_class, row) && (n->above == i) == (dual > 0)) {
            weights[d] = dual;
            return;
        }
        i = up;
    }
}

bool qci_trace_bound(qci_trace *trace, int32_t node, const qci_master *master,
                     int64_t bound)
{
    const qci_model *model = master->model;
    const qci_noted *noted = &master->noted;
    int32_t depth = depth_of(trace, node);
    qci_trace_node *n = &trace->nodes.at[node];

    if (!make_room(n, model->row_count, depth))
        return false;
    n->bound = bound;
    memcpy(n->values, noted->value, (size_t)model->row_count * sizeof(int64_t));
    for (int32_t k = 0; k < model->class_count; k++)
        give(trace, node, depth, true, (qci_count_row){.at = k},
             noted->gain[k] - (k ? noted->gain[k - 1] : 0));
    for (size_t i = 0; i < noted->bonus.count; i++) {
        const qci_bonus *b = &noted->bonus.at[i];

        give(trace, node, depth, false,
             (qci_count_row){.row = b->row, .at = b->at}, b->value);
    }
    return true;
}

bool qci_trace_empty(qci_trace *trace, int32_t node, int32_t row_count)
{
    int32_t depth = depth_of(trace, node);
    qci_trace_node *n = &trace->nodes.at[node], *last;

    if (!make_room(n, row_count, depth))
        return false;
    last = &trace->nodes.at[n->parent];
    n->bound = INT64_MAX;
    give(trace, node, depth, last->by_class, last->split, 1);
    give(trace, node, depth, last->by_class, last->split, -1);
    return true;
}

void qci_trace_clear(qci_trace *trace)
{
    for (size_t i = 0; i < trace->nodes.count; i++) {
        qci_free(trace->nodes.at[i].values);
        qci_free(trace->nodes.at[i].weights);
    }
    qci_vec_clear(&trace->nodes);
}

/* --- the proof ----------------------------------------------------------- */

static bool fill_job(qci_proof *proof, const qci_demand *demand,
                     const qci_model *model)
{
    bool done = true;

    proof->step = demand->purchase.step;
    proof->shrink = demand->purchase.shrink_length;
    proof->square_up = demand->square_up;
    proof->width = demand->width;
    proof->stacks = demand->stacks;
    proof->trim = demand->trim;
    proof->kind_count = model->row_count;
    for (size_t row = 0; row < demand->row_count && done; row++)
        done = qci_vec_push(&proof->pieces,
                            (qci_proof_piece){.kind = model->row_of[row],
                                              .piece = demand->piece[row],
                                              .count = demand->count[row]});
    for (int32_t k = 0; k < model->class_count && done; k++)
        done =
            qci_vec_push(&proof->heights, model->cost[k] * model->height_unit);
    return done;
}

/* The forms of the first row of each kind; those of the others are alike. */
static bool fill_forms(qci_proof *proof, const qci_demand *demand,
                       const qci_model *model)
{
    for (size_t i = 0; i < demand->form_count; i++) {
        const qci_form *form = &demand->forms[i];
        int32_t kind = model->row_of[form->row], first = 0;

        while (model->row_of[first] != kind)
            first++;
        if (first == form->row &&
            !qci_vec_push(&proof->forms,
                          (qci_proof_form){kind, form->width, form->height,
                                           form->left, form->right,
                                           form->yields, form->corners > 0}))
            return false;
    }
    return true;
}

/* A row's demand may be one of cloths, that of a kind is one of pieces. */
static int64_t most_pieces(const qci_model *model)
{
    int64_t most = 1;

    for (int32_t row = 0; row < model->row_count; row++)
        if (model->unit[row] > most)
            most = model->unit[row];
    return most;
}

static int64_t largest_of(const int64_t *numbers, int32_t count, int64_t most)
{
    for (int32_t i = 0; i < count; i++) {
        int64_t size = numbers[i] < 0 ? -numbers[i] : numbers[i];

        if (size > most)
            most = size;
    }
    return most;
}

/* Weights and values, all divided alike. */
static bool fill_leaf(qci_proof_node *to, const qci_trace *trace, int32_t node,
                      const qci_model *model)
{
    const qci_trace_node *n = &trace->nodes.at[node];
    int32_t depth = depth_of(trace, node);
    int64_t times = most_pieces(model), over = 1, most;

    most = largest_of(n->values, model->row_count, 0);
    most = largest_of(n->weights, depth, most);
    while (most / over * times >= LARGEST)
        over *= 2;
    for (int32_t row = 0; row < model->row_count; row++)
        if (!qci_vec_push(&to->values,
                          n->values[row] / over * (times / model->unit[row])))
            return false;
    for (int32_t i = 0; i < depth; i++)
        if (!qci_vec_push(&to->weights, n->weights[i] / over * times))
            return false;
    return true;
}

static qci_proof_node question(const qci_trace_node *n, const qci_model *model)
{
    qci_proof_node to = {
        .by_height = n->by_class, .at = n->split.at, .most = n->split.hi};

    if (!n->by_class) {
        to.kind = n->split.row;
        to.at *= model->unit[n->split.row];
    }
    return to;
}

/* Nodes breadth first: those of a node stand behind it. *proved is false when a
 * node is neither closed nor split. */
static bool fill_nodes(qci_proof *proof, const qci_trace *trace,
                       const qci_model *model, int64_t cap, bool *proved)
{
    QCI_VEC(int32_t) from = {0};
    bool done = qci_vec_push(&from, 0) &&
                qci_vec_push(&proof->nodes, (qci_proof_node){0});

    *proved = true;
    for (size_t i = 0; i < from.count && done && *proved; i++) {
        const qci_trace_node *n = &trace->nodes.at[from.at[i]];

        if (n->values && n->bound > cap) {
            done = fill_leaf(&proof->nodes.at[i], trace, from.at[i], model);
            continue;
        }
        *proved = n->below > 0;
        if (!*proved)
            break;
        proof->nodes.at[i] = question(n, model);
        proof->nodes.at[i].below = (int64_t)from.count;
        proof->nodes.at[i].above = (int64_t)from.count + 1;
        done = qci_vec_push(&from, n->below) && qci_vec_push(&from, n->above) &&
               qci_vec_push(&proof->nodes, (qci_proof_node){0}) &&
               qci_vec_push(&proof->nodes, (qci_proof_node){0});
    }
    qci_vec_clear(&from);
    return done;
}

/* Where the search has not come to its end, area alone may show as much: every
 * piece is worth the least that it takes. */
static bool fill_area(qci_proof *proof)
{
    qci_proof_node leaf = {.below = 0};
    bool done = true;

    for (int64_t kind = 0; kind < proof->kind_count && done; kind++) {
        qci_wide least = 0;

        for (size_t i = 0; i < proof->forms.count; i++) {
            const qci_proof_form *f = &proof->forms.at[i];
            qci_wide area = (qci_wide)f->width * f->height / f->yields;

            if (f->kind == kind && (!least || area < least))
                least = area;
        }
        done = qci_vec_push(&leaf.values, (int64_t)(least >> AREA_SHIFT));
    }
    if (done && qci_vec_push(&proof->nodes, leaf))
        return true;
    qci_vec_clear(&leaf.values);
    return false;
}

static void clear_nodes(qci_proof *proof)
{
    for (size_t i = 0; i < proof->nodes.count; i++) {
        qci_vec_clear(&proof->nodes.at[i].values);
        qci_vec_clear(&proof->nodes.at[i].weights);
    }
    proof->nodes.count = 0;
}

qc_status qci_trace_proof(const qci_trace *trace, const qci_demand *demand,
                          const qci_model *model, int64_t cap, qci_proof **out,
                          qc_error *err)
{
    qci_proof *proof = qci_calloc(1, sizeof *proof);
    bool proved = false, done;

    *out = NULL;
    if (!proof)
        return qci_no_memory(err);
    done = fill_job(proof, demand, model) && fill_forms(proof, demand, model);
    if (done && cap >= 0 && trace->nodes.count)
        done = fill_nodes(proof, trace, model, cap, &proved);
    if (done && cap >= 0 && !proved) {
        clear_nodes(proof);
        done = fill_area(proof);
    }
    if (done) {
        *out = proof;
        return QC_STATUS_OK;
    }
    qci_proof_destroy(proof);
    return qci_no_memory(err);
}
