/* Nodes: what a branch asks of the strips, and how the master is held to it.
 *
 * Branching is on C_k, the number of strips of class k or higher, since the
 * total height is sum (H_k - H_(k-1)) C_k; then, with all C_k whole, on the
 * number of strips that hold at least q pieces of one type. Both leave the
 * pricing as it is. */
#include <math.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/search_inner.h"

void qci_node_clear(qci_node *n)
{
    qci_free(n->lo);
    qci_vec_clear(&n->counts);
}

bool qci_node_child(const qci_searching *s, const qci_node *from, qci_node *out)
{
    size_t classes = (size_t)s->master->model->class_count;

    *out = (qci_node){.bound = from->bound,
                      .depth = from->depth + 1,
                      .hopeless = from->hopeless};
    out->lo = qci_copy(from->lo, 2 * classes, sizeof(int64_t));
    if (!out->lo)
        return false;
    out->hi = out->lo + classes;
    for (size_t i = 0; i < from->counts.count; i++)
        if (!qci_vec_push(&out->counts, from->counts.at[i])) {
            qci_node_clear(out);
            return false;
        }
    return true;
}

bool qci_node_root(const qci_searching *s, qci_node *out)
{
    const qci_master *m = s->master;
    size_t classes = (size_t)m->model->class_count;

    *out = (qci_node){0};
    out->lo = qci_calloc(2 * classes, sizeof(int64_t));
    if (!out->lo)
        return false;
    out->hi = out->lo + classes;
    memcpy(out->lo, m->class_lo, classes * sizeof(int64_t));
    memcpy(out->hi, m->class_hi, classes * sizeof(int64_t));
    return true;
}

qc_status qci_node_enter(qci_searching *s, const qci_node *n, qc_error *err)
{
    qci_master *m = s->master;
    size_t classes = (size_t)m->model->class_count;

    memcpy(m->class_lo, n->lo, classes * sizeof(int64_t));
    memcpy(m->class_hi, n->hi, classes * sizeof(int64_t));
    for (size_t i = 0; i < m->counts.count; i++) {
        m->counts.at[i].lo = 0;
        m->counts.at[i].hi = QCI_MANY;
    }
    for (size_t i = 0; i < n->counts.count; i++) {
        const qci_count_row *c = &n->counts.at[i];
        int32_t at;
        qc_status status = qci_master_count_row(m, c->row, c->at, &at, err);

        if (status)
            return status;
        m->counts.at[at].lo = c->lo;
        m->counts.at[at].hi = c->hi;
    }
    return qci_master_apply(m, err);
}

/* Adds the bounds of a count to a node's; false when memory is out. */
static bool bound_count(qci_node *n, qci_count_row count)
{
    for (size_t i = 0; i < n->counts.count; i++) {
        qci_count_row *c = &n->counts.at[i];

        if (c->row != count.row || c->at != count.at)
            continue;
        if (count.lo > c->lo)
            c->lo = count.lo;
        if (count.hi < c->hi)
            c->hi = count.hi;
        return true;
    }
    return qci_vec_push(&n->counts, count);
}

/* A child whose bounds exclude each other holds no solution. */
static bool is_empty(const qci_searching *s, const qci_node *n)
{
    for (int32_t k = 0; k < s->master->model->class_count; k++)
        if (n->lo[k] > n->hi[k])
            return true;
    for (size_t i = 0; i < n->counts.count; i++)
        if (n->counts.at[i].lo > n->counts.at[i].hi)
            return true;
    return false;
}

/* The same question as qci_node_branch() asks, in the trace; children[] are its
 * nodes.
 */
static qc_status trace_branch(qci_searching *s, const qci_node *n, int32_t cls,
                              qci_count_row count, double at,
                              int32_t children[2], qc_error *err)
{
    qci_trace *trace = s->aim.trace;

    for (int i = 0; i < 2 && trace; i++) {
        children[i] = qci_trace_add(trace, n->trace);
        if (children[i] < 0)
            return qci_no_memory(err);
    }
    if (cls >= 0)
        count.at = cls;
    count.hi = (int64_t)floor(at);
    if (trace)
        qci_trace_split(trace, n->trace, cls >= 0, count, children[0],
                        children[1]);
    return QC_STATUS_OK;
}

qc_status qci_node_branch(qci_searching *s, const qci_node *n, int32_t cls,
                          qci_count_row count, double at, qc_error *err)
{
    int32_t children[2] = {0, 0};
    qc_status status = trace_branch(s, n, cls, count, at, children, err);

    if (status)
        return status;
    for (int upper = 0; upper < 2; upper++) {
        qci_node child;
        int64_t edge = (int64_t)floor(at) + upper;

        if (!qci_node_child(s, n, &child))
            return qci_no_memory(err);
        child.trace = children[upper];
        if (cls >= 0 && upper) {
            child.lo[cls] = edge > child.lo[cls] ? edge : child.lo[cls];
        } else if (cls >= 0) {
            child.hi[cls] = edge < child.hi[cls] ? edge : child.hi[cls];
        } else {
            count.lo = upper ? edge : 0;
            count.hi = upper ? QCI_MANY : edge;
            if (!bound_count(&child, count)) {
                qci_node_clear(&child);
                return qci_no_memory(err);
            }
        }
        if (is_empty(s, &child)) {
            qci_node_clear(&child);
            if (s->aim.trace && !qci_trace_empty(s->aim.trace, child.trace,
                                                 s->master->model->row_count))
                return qci_no_memory(err);
        } else if (!qci_vec_push(&s->nodes, child)) {
            qci_node_clear(&child);
            return qci_no_memory(err);
        }
    }
    return QC_STATUS_OK;
}
