/* Branch and bound, best bound first. With pieces that lie alone, from there on
 * down for some nodes: dives from deep nodes, each in another place, find plans
 * that those from nodes of the best bound do not. (Rectangles alone fare worse
 * so.) What comes of a node whose program is past the cap, though no bound
 * proves it, is left for last: no plan is there, and since its bound stays low
 * the search would go on with nothing else.
 *
 * A node is closed only by a safe bound above the cap. A node that can be
 * neither closed nor branched stays open, and its bound counts. */
#include "pack/search.h"

#include "base/error.h"
#include "pack/choose.h"
#include "pack/line.h"
#include "pack/probe.h"
#include "pack/search_inner.h"

#define NODE_ROUNDS 400
/* Dives with one class of strips before branching. */
#define LINE_DIVES 400
/* Nodes from one of the best bound straight down, with pieces that lie alone.
 */
#define PLUNGE 20
/* Height by which a program is past the cap beyond its noise. */
#define HOPELESS 1e-3

static void tell(const qci_searching *s, int64_t bound)
{
    if (s->aim.news)
        s->aim.news(s->best->height, bound, s->aim.user);
}

bool qci_search_over(const qci_searching *s)
{
    return s->master->rounds >= s->end_round || qci_master_stopped(s->master);
}

/* What the master's bound rests on belongs to a node of the trace. */
static qc_status note_bound(qci_searching *s, const qci_node *n, qc_error *err)
{
    if (s->aim.trace &&
        !qci_trace_bound(s->aim.trace, n->trace, s->master, n->bound))
        return qci_no_memory(err);
    return QC_STATUS_OK;
}

qc_status qci_search_settle(qci_searching *s, int64_t *bound, qci_cg_end *end,
                            qc_error *err)
{
    return qci_master_generate(s->master, s->cap, NODE_ROUNDS, bound, end, err);
}

static void give_up(qci_searching *s, const qci_node *n)
{
    if (n->bound < s->floor)
        s->floor = n->bound;
}

/* At the root several dives; below it a dive and a restricted program where
 * class counts have just become whole, and else now and then. */
static bool is_due(const qci_searching *s, const qci_node *n)
{
    double at;

    return s->visited == 1 || s->visited % 8 == 0 ||
           (!n->counts.count && qci_choose_class(s->master, &at) < 0);
}

/* Solves a node's LP. *done: the node is closed by its bound, or given up. */
static qc_status solve_node(qci_searching *s, qci_node *n, bool *done,
                            qc_error *err)
{
    qci_cg_end end = QCI_CG_STOPPED;
    int64_t before = n->bound;
    qc_status status = qci_node_enter(s, n, err);

    if (!status)
        status = qci_search_settle(s, &n->bound, &end, err);
    if (!status && n->bound > before)
        status = note_bound(s, n, err);
    *done = n->bound > s->cap || end == QCI_CG_STOPPED;
    if (n->bound <= s->cap && end == QCI_CG_STOPPED)
        give_up(s, n);
    return status;
}

/* Nothing is left to branch on, so that only a better bound can close the node:
 * walks may take long now. New patterns may leave something to branch on after
 * all. */
static qc_status insist(qci_searching *s, qci_node *n, qc_error *err)
{
    int64_t before = n->bound;
    qci_cg_end end;
    qc_status status;

    s->master->longest_walk = QCI_LONGEST_WALK;
    status = qci_search_settle(s, &n->bound, &end, err);
    s->master->longest_walk = QCI_LONG_WALK;
    if (!status && n->bound > before)
        status = note_bound(s, n, err);
    return status ? status : qci_search_take_whole(s, err);
}

/* What to branch on: a class, else a count; false when all is whole. */
static bool choose(const qci_searching *s, int32_t *cls, qci_count_row *count,
                   double *at)
{
    *cls = qci_choose_class(s->master, at);
    return *cls >= 0 || qci_choose_count(s->master, count, at);
}

/* Closes a node, branches on it, or gives it up. */
static qc_status visit(qci_searching *s, qci_node *n, qc_error *err)
{
    qci_count_row count = {0, 0, 0, QCI_MANY};
    double at = 0.0;
    int32_t cls;
    bool done;
    qc_status status;

    s->visited++;
    status = solve_node(s, n, &done, err);
    if (!status && !done)
        status = qci_search_take_whole(s, err);
    if (status || done || n->bound > s->cap)
        return status;
    if (is_due(s, n)) {
        status = qci_search_for_plans(s, n, err);
        if (status || n->bound > s->cap)
            return status;
        status = solve_node(s, n, &done, err);
        if (status || done)
            return status;
    }
    if (!choose(s, &cls, &count, &at)) {
        status = insist(s, n, err);
        if (status || n->bound > s->cap)
            return status;
        if (!choose(s, &cls, &count, &at)) {
            give_up(s, n);
            return QC_STATUS_OK;
        }
    }
    n->hopeless = qci_lp_objective(s->master->lp) > (double)s->cap + HOPELESS;
    if (cls >= 0 && !s->master->model->stacks) {
        qci_class_count best;

        status = qci_probe_classes(s->master, s->cap, &best, err);
        cls = best.cls;
        at = best.count;
    }
    return status ? status : qci_node_branch(s, n, cls, count, at, err);
}

/* Is a to be visited before b? */
static bool comes_first(const qci_node *a, const qci_node *b)
{
    if (a->hopeless != b->hopeless)
        return b->hopeless;
    if (a->bound != b->bound)
        return a->bound < b->bound;
    return a->depth > b->depth;
}

/* Index of the upper child of the node before, for as long as a plunge goes on;
 * else of the open node of least bound, the deepest of equals. */
static size_t next_node(qci_searching *s)
{
    size_t best = 0, last = s->nodes.count - 1;

    if (s->master->model->alone_count && s->nodes.count > s->parked &&
        s->nodes.at[last].bound <= s->cap && s->plunge++ < PLUNGE)
        return last;
    s->plunge = 0;
    for (size_t i = 1; i < s->nodes.count; i++)
        if (comes_first(&s->nodes.at[i], &s->nodes.at[best]))
            best = i;
    return best;
}

/* No solution is below the least bound of all that is open. */
static int64_t least_bound(const qci_searching *s)
{
    int64_t least = s->floor <= s->cap ? s->floor : s->cap + 1;

    for (size_t i = 0; i < s->nodes.count; i++)
        if (s->nodes.at[i].bound < least)
            least = s->nodes.at[i].bound;
    return least;
}

/* Keeps a closed node for the next cap. Others have become branches. */
static qc_status put_away(qci_searching *s, qci_node *n, qc_error *err)
{
    if (n->bound <= s->cap || !s->aim.then)
        return QC_STATUS_OK;
    if (!qci_vec_push(&s->later, *n))
        return qci_no_memory(err);
    *n = (qci_node){0};
    return QC_STATUS_OK;
}

static qc_status run(qci_searching *s, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    while (!status && s->nodes.count && !qci_search_over(s) && s->cap >= 0) {
        size_t at = next_node(s);
        qci_node n = s->nodes.at[at];

        s->nodes.at[at] = s->nodes.at[--s->nodes.count];
        s->parked = s->nodes.count;
        if (n.bound <= s->cap)
            status = visit(s, &n, err);
        if (!status)
            status = put_away(s, &n, err);
        qci_node_clear(&n);
        if (!status)
            tell(s, least_bound(s));
    }
    return status;
}

/* Is it a job with one class of strips, and nothing said of how many? */
static bool is_line(const qci_searching *s, const qci_node *root)
{
    return qci_line_fits(s->master->model) && !root->lo[0] &&
           root->hi[0] == QCI_MANY;
}

static qc_status try_line(qci_searching *s, qci_line_turns turns,
                          int64_t *bound, qc_error *err)
{
    qc_status status =
        qci_line_search(s->master, &s->aim, turns, s->best, bound, err);

    if (!status)
        s->cap = s->aim.cap(s->best->height, s->aim.user);
    return status;
}

/* With one class of strips nearly all is done without branching. */
static qc_status begin_line(qci_searching *s, qc_error *err)
{
    qci_node *root = &s->nodes.at[0];
    int64_t bound = 0;
    qc_status status =
        try_line(s, (qci_line_turns){0, LINE_DIVES}, &bound, err);

    if (status || bound <= root->bound)
        return status;
    root->bound = bound;
    tell(s, least_bound(s));
    return note_bound(s, root, err);
}

/* Where branching ends with nothing proved, only a plan can end the search. */
static qc_status end_line(qci_searching *s, qc_error *err)
{
    int64_t bound;

    if (least_bound(s) > s->cap || qci_search_over(s))
        return QC_STATUS_OK;
    return try_line(s, (qci_line_turns){LINE_DIVES, INT32_MAX}, &bound, err);
}

/* From the open nodes to an end, of the search or of its time. */
static qc_status pursue(qci_searching *s, bool line, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    s->end_round = s->master->rounds + s->aim.rounds;
    s->visited = s->corner_at = 0;
    if (line && s->nodes.count == 1 && !s->nodes.at[0].depth)
        status = begin_line(s, err);
    if (!status)
        status = run(s, err);
    if (!status && line)
        status = end_line(s, err);
    return status;
}

/* One that is not good enough for the aim is a better start for the next. */
static qc_status settle_for_near(qci_searching *s, qc_error *err)
{
    if (s->near.height && s->near.height < s->best->height &&
        !qci_solution_copy(s->best, &s->near))
        return qci_no_memory(err);
    return QC_STATUS_OK;
}

/* Takes up what the first cap closed. */
static qc_status go_further(qci_searching *s, qc_error *err)
{
    qc_status status = settle_for_near(s, err);

    if (status)
        return status;
    s->aim.cap = s->aim.then;
    s->aim.then = NULL;
    s->cap = s->aim.cap(s->best->height, s->aim.user);
    while (s->later.count) {
        if (!qci_vec_push(&s->nodes, s->later.at[s->later.count - 1]))
            return qci_no_memory(err);
        s->later.count--;
    }
    return QC_STATUS_OK;
}

static void clear_nodes(qci_searching *s)
{
    for (size_t i = 0; i < s->nodes.count; i++)
        qci_node_clear(&s->nodes.at[i]);
    for (size_t i = 0; i < s->later.count; i++)
        qci_node_clear(&s->later.at[i]);
    qci_vec_clear(&s->nodes);
    qci_vec_clear(&s->later);
}

qc_status qci_search(qci_master *master, const qci_aim *aim, qci_solution *best,
                     int64_t *bound, qc_error *err)
{
    qci_searching s = {.master = master,
                       .aim = *aim,
                       .best = best,
                       .cap = aim->cap(best->height, aim->user),
                       .floor = INT64_MAX};
    qci_node root;
    bool line;
    qc_status status = QC_STATUS_OK;

    if (aim->trace && qci_trace_add(aim->trace, -1) < 0)
        return qci_no_memory(err);
    if (!qci_node_root(&s, &root))
        return qci_no_memory(err);
    if (!qci_vec_push(&s.nodes, root)) {
        qci_node_clear(&root);
        return qci_no_memory(err);
    }
    if (!qci_node_root(&s, &root))
        status = qci_no_memory(err);
    line = !status && is_line(&s, &root);
    if (!status)
        status = pursue(&s, line, err);
    if (!status && aim->then)
        status = go_further(&s, err);
    if (!status && aim->then)
        status = pursue(&s, line, err);
    *bound = least_bound(&s);
    if (!status)
        status = settle_for_near(&s, err);
    if (!status)
        status = qci_node_enter(&s, &root, err); /* as the caller's it was */
    qci_node_clear(&root);
    clear_nodes(&s);
    qci_solution_clear(&s.near);
    return status;
}
