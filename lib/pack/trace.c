/* From the duals of the branch and bound to the values of a certificate.
 *
 * A bound's class duals and bonuses belong to rows of the program, and each is
 * held by the tightest answer on the way to the node that bounds it: the last
 * one. A dual whose side of its row no answer bounds is left out, which only
 * strengthens what is proved. Nothing here is trusted: the proof is checked
 * before it is shown. */
#include "pack/trace.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/gcd.h"
#include "base/wide.h"

/* Cells across that the checker counts in: more make its promises closer. */
#define SLANT_CELLS 2000
#define MOST_CELLS 20000

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
    return done;
}

static int compare_forms(const void *a, const void *b)
{
    const qci_proof_form *p = a, *q = b;

    if (qci_proof_alone(p) != qci_proof_alone(q))
        return qci_proof_alone(p) ? 1 : -1;
    if (p->width != q->width)
        return p->width < q->width ? 1 : -1;
    return p->kind != q->kind
               ? (p->kind < q->kind ? -1 : 1)
               : (p->height > q->height) - (p->height < q->height);
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
    qsort(proof->forms.at, proof->forms.count, sizeof *proof->forms.at,
          compare_forms);
    return true;
}

/* Classes as they are in the model, up to the highest form. */
static bool fill_heights(qci_proof *proof, const qci_model *model)
{
    int64_t top = 0;
    bool done = true;

    for (size_t i = 0; i < proof->forms.count; i++)
        if (proof->forms.at[i].height > top)
            top = proof->forms.at[i].height;
    for (int32_t k = 0; k < model->class_count && done; k++)
        done =
            qci_vec_push(&proof->heights, model->cost[k] * model->height_unit);
    return done && qci_vec_push(&proof->heights, top + 1);
}

/* Cells of what square forms measure; across, finer where pieces slant, whose
 * widths have no measure in common. */
static void choose_cells(qci_proof *proof)
{
    /* The checker's tables have a line for each form and one more. */
    int64_t room = (int64_t)(QCI_PROOF_CELLS / (proof->forms.count + 1)) - 1;
    int64_t most = room < MOST_CELLS ? room : MOST_CELLS;
    int64_t narrow = proof->width, across = 0, along = 0;
    bool slants = false;

    for (size_t i = 0; i < proof->forms.count; i++) {
        const qci_proof_form *f = &proof->forms.at[i];

        if (f->width < narrow)
            narrow = f->width;
        if (qci_proof_alone(f)) {
            slants = true;
            continue;
        }
        across = qci_gcd(f->width, across);
        along = qci_gcd(f->height, along);
    }
    if (!across || across > narrow)
        across = narrow;
    if (across < 1)
        across = 1;
    while (slants && proof->width / across < SLANT_CELLS && across % 2 == 0)
        across /= 2;
    if (proof->width / across > most)
        across = (proof->width + most - 1) / most;
    proof->cell_across = across;
    proof->cell_along = along ? along : proof->forms.at[0].height;
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

static int64_t size_of(int64_t number)
{
    return number < 0 ? -number : number;
}

/* Weights and values, all divided alike: no value, and not all weights
 * together, may be too large for a proof. */
static bool fill_leaf(qci_proof_node *to, const qci_trace *trace, int32_t node,
                      const qci_model *model)
{
    const qci_trace_node *n = &trace->nodes.at[node];
    int32_t depth = depth_of(trace, node);
    int64_t times = most_pieces(model), over = 1, most = 0;

    for (int32_t i = 0; i < depth; i++)
        most += size_of(n->weights[i]);
    for (int32_t row = 0; row < model->row_count; row++)
        if (size_of(n->values[row]) > most)
            most = size_of(n->values[row]);
    while (most / over * times >= QCI_PROOF_VALUE)
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
    if (n->by_class)
        return (qci_proof_node){
            .ask = QCI_ASK_CLASS, .at = n->split.at, .most = n->split.hi};
    return (qci_proof_node){.ask = QCI_ASK_KIND,
                            .kind = n->split.row,
                            .at = (int64_t)n->split.at *
                                  model->unit[n->split.row],
                            .most = n->split.hi};
}

/* A node, then all below it, then all above. *proved is false when one is
 * neither closed nor split. */
static bool fill_nodes(qci_proof *proof, const qci_trace *trace,
                       const qci_model *model, int64_t cap, bool *proved)
{
    QCI_VEC(int32_t) left = {0};
    bool done = qci_vec_push(&left, 0);

    *proved = true;
    while (left.count && done && *proved) {
        int32_t at = left.at[--left.count];
        const qci_trace_node *n = &trace->nodes.at[at];

        if (n->values && n->bound > cap) {
            done = qci_vec_push(&proof->nodes, (qci_proof_node){0}) &&
                   fill_leaf(&proof->nodes.at[proof->nodes.count - 1], trace,
                             at, model);
        } else if (n->below > 0) {
            done = qci_vec_push(&proof->nodes, question(n, model)) &&
                   qci_vec_push(&left, n->above) &&
                   qci_vec_push(&left, n->below);
        } else {
            *proved = false;
        }
    }
    qci_vec_clear(&left);
    return done;
}

/* The least area that a piece of the kind takes. */
static qci_wide area_of(const qci_proof *proof, int64_t kind)
{
    qci_wide least = 0;

    for (size_t i = 0; i < proof->forms.count; i++) {
        const qci_proof_form *f = &proof->forms.at[i];
        qci_wide area = (qci_wide)f->width * f->height / f->yields;

        if (f->kind == kind && (!least || area < least))
            least = area;
    }
    return least;
}

/* Every piece is worth what it takes. */
static bool fill_area(qci_proof *proof)
{
    qci_proof_node leaf = {.ask = QCI_ASK_NOTHING};
    qci_wide over = 1;
    bool done = true;

    for (int64_t kind = 0; kind < proof->kind_count; kind++)
        while (area_of(proof, kind) / over > QCI_PROOF_VALUE)
            over *= 2;
    for (int64_t kind = 0; kind < proof->kind_count && done; kind++)
        done =
            qci_vec_push(&leaf.values, (int64_t)(area_of(proof, kind) / over));
    if (done && qci_vec_push(&proof->nodes, leaf))
        return true;
    qci_vec_clear(&leaf.values);
    return false;
}

/* All but the nodes; NULL without memory. */
static qci_proof *begin_proof(const qci_demand *demand, const qci_model *model)
{
    qci_proof *proof = qci_calloc(1, sizeof *proof);

    if (proof && fill_job(proof, demand, model) &&
        fill_forms(proof, demand, model) && fill_heights(proof, model)) {
        choose_cells(proof);
        return proof;
    }
    qci_proof_destroy(proof);
    return NULL;
}

qc_status qci_trace_proof(const qci_trace *trace, const qci_demand *demand,
                          const qci_model *model, int64_t cap, qci_proof **out,
                          qc_error *err)
{
    qci_proof *proof = begin_proof(demand, model);
    bool proved = cap < 0, done = proof;

    *out = NULL;
    if (done && cap >= 0 && trace->nodes.count)
        done = fill_nodes(proof, trace, model, cap, &proved);
    if (done && proved)
        *out = proof;
    else
        qci_proof_destroy(proof);
    return done ? QC_STATUS_OK : qci_no_memory(err);
}

qc_status qci_area_proof(const qci_demand *demand, const qci_model *model,
                         qci_proof **out, qc_error *err)
{
    qci_proof *proof = begin_proof(demand, model);

    *out = NULL;
    if (!proof || !fill_area(proof)) {
        qci_proof_destroy(proof);
        return qci_no_memory(err);
    }
    *out = proof;
    return QC_STATUS_OK;
}
