/* Branch and bound, best bound first. With pieces that lie alone, from there on
 * down for some nodes: dives from deep nodes, each in another place, find plans
 * that those from nodes of the best bound do not. (Rectangles alone fare worse
 * so.)
 *
 * Branching is on C_k, the number of strips of class k or higher, since the
 * total height is sum (H_k - H_(k-1)) C_k; then, with all C_k whole, on the
 * number of strips that hold at least q pieces of one type. Both leave the
 * pricing as it is. A node is closed only by a safe bound above the cap. A node
 * that can be neither closed nor branched stays open, and its bound counts. */
#include "pack/search.h"

#include <math.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/choose.h"
#include "pack/dive.h"
#include "pack/line.h"

#define NODE_ROUNDS 400
#define FRACTION 1e-5
/* Nodes of GLPK's for a restricted program. */
#define RESTRICT_NODES 100
/* Linear programs for a dive. */
#define ROOT_ROUNDS 100
#define LEAF_ROUNDS 60
/* Dives with one class of strips before branching. */
#define LINE_DIVES 400

typedef struct node {
    int64_t bound;
    int32_t depth;
    int32_t trace;    /* its node of the trace */
    int64_t *lo, *hi; /* per class; hi follows lo in one block */
    QCI_VEC(qci_count_row) counts;
} node;

typedef struct search {
    qci_master *master;
    const qci_aim *aim;
    qci_solution *best;
    int64_t cap;
    int64_t floor; /* least bound of nodes given up */
    int64_t end_round;
    int32_t visited;
    int32_t plunge; /* nodes since one of the best bound */
    size_t parked;  /* open nodes but the children of the one in hand */
    QCI_VEC(node) nodes;
} search;

static void clear_node(node *n)
{
    qci_free(n->lo);
    qci_vec_clear(&n->counts);
}

static bool make_node(const search *s, const node *from, node *out)
{
    size_t classes = (size_t)s->master->model->class_count;

    *out = (node){.bound = from->bound, .depth = from->depth + 1};
    out->lo = qci_copy(from->lo, 2 * classes, sizeof(int64_t));
    if (!out->lo)
        return false;
    out->hi = out->lo + classes;
    for (size_t i = 0; i < from->counts.count; i++)
        if (!qci_vec_push(&out->counts, from->counts.at[i])) {
            clear_node(out);
            return false;
        }
    return true;
}

static bool make_root(const search *s, node *out)
{
    const qci_master *m = s->master;
    size_t classes = (size_t)m->model->class_count;

    *out = (node){0};
    out->lo = qci_calloc(2 * classes, sizeof(int64_t));
    if (!out->lo)
        return false;
    out->hi = out->lo + classes;
    memcpy(out->lo, m->class_lo, classes * sizeof(int64_t));
    memcpy(out->hi, m->class_hi, classes * sizeof(int64_t));
    return true;
}

/* Hands a node's bounds to the master. Count rows of other branches are free.
 */
static qc_status enter(search *s, const node *n, qc_error *err)
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

static void tell(const search *s, int64_t bound)
{
    if (s->aim->news)
        s->aim->news(s->best->height, bound, s->aim->user);
}

static qc_status offer(search *s, const qci_solution *solution, qc_error *err)
{
    if (!solution->height || solution->height > s->cap)
        return QC_STATUS_OK;
    if (!qci_solution_copy(s->best, solution))
        return qci_no_memory(err);
    s->cap = s->aim->cap(s->best->height, s->aim->user);
    return QC_STATUS_OK;
}

static bool over(const search *s)
{
    return s->master->rounds >= s->end_round || qci_master_stopped(s->master);
}

/* One dive; the LP must be that of the node, and is solved again after. */
static qc_status try_dive(search *s, int64_t hold, int32_t turn, qc_error *err)
{
    qci_solution found = {0};
    int32_t rounds = s->visited == 1 ? ROOT_ROUNDS : LEAF_ROUNDS;
    qc_status status = qci_dive(
        s->master, (qci_dive_plan){s->cap, hold, turn, rounds}, &found, err);

    if (!status)
        status = offer(s, &found, err);
    qci_solution_clear(&found);
    return status;
}

static qc_status try_restrict(search *s, qc_error *err)
{
    qci_solution found = {0};
    qc_status status =
        qci_restrict(s->master, s->cap, RESTRICT_NODES, &found, err);

    if (!status)
        status = offer(s, &found, err);
    qci_solution_clear(&found);
    return status;
}

/* What the master's bound rests on belongs to a node of the trace. */
static qc_status note_bound(search *s, const node *n, qc_error *err)
{
    if (s->aim->trace &&
        !qci_trace_bound(s->aim->trace, n->trace, s->master, n->bound))
        return qci_no_memory(err);
    return QC_STATUS_OK;
}

static qc_status settle(search *s, int64_t *bound, qci_cg_end *end,
                        qc_error *err)
{
    return qci_master_generate(s->master, s->cap, NODE_ROUNDS, bound, end, err);
}

/* Offers the LP's solution as it stands, if it is a whole one. */
static qc_status take_whole(search *s, qc_error *err)
{
    const qci_master *m = s->master;
    qci_solution found = {0};
    qc_status status = QC_STATUS_OK;
    bool whole = qci_master_shortfall(m) < 1e-6;

    for (size_t j = 0; j < m->columns.count && whole; j++) {
        double x = qci_master_use(m, j);

        if (fabs(x - round(x)) > FRACTION)
            whole = false;
        else if (x > 0.5 && !qci_solution_add(&found, qci_master_pattern(m, j),
                                              (int64_t)llround(x)))
            status = qci_no_memory(err);
    }
    if (!status && whole && qci_solution_covers(&found, m->model)) {
        status = qci_lower(s->master, &found, err);
        if (!status)
            status = offer(s, &found, err);
    }
    qci_solution_clear(&found);
    return status;
}

/* Adds the bounds of a count to a node's; false when memory is out. */
static bool bound_count(node *n, qci_count_row count)
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
static bool is_empty(const search *s, const node *n)
{
    for (int32_t k = 0; k < s->master->model->class_count; k++)
        if (n->lo[k] > n->hi[k])
            return true;
    for (size_t i = 0; i < n->counts.count; i++)
        if (n->counts.at[i].lo > n->counts.at[i].hi)
            return true;
    return false;
}

/* The same question as branch() asks, in the trace; children[] are its nodes.
 */
static qc_status trace_branch(search *s, const node *n, int32_t cls,
                              qci_count_row count, double at,
                              int32_t children[2], qc_error *err)
{
    qci_trace *trace = s->aim->trace;

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

/* Two children: below and above `at`. `cls` >= 0: a class, else `count`. */
static qc_status branch(search *s, const node *n, int32_t cls,
                        qci_count_row count, double at, qc_error *err)
{
    int32_t children[2] = {0, 0};
    qc_status status = trace_branch(s, n, cls, count, at, children, err);

    if (status)
        return status;
    for (int upper = 0; upper < 2; upper++) {
        node child;
        int64_t edge = (int64_t)floor(at) + upper;

        if (!make_node(s, n, &child))
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
                clear_node(&child);
                return qci_no_memory(err);
            }
        }
        if (is_empty(s, &child)) {
            clear_node(&child);
            if (s->aim->trace && !qci_trace_empty(s->aim->trace, child.trace,
                                                  s->master->model->row_count))
                return qci_no_memory(err);
        } else if (!qci_vec_push(&s->nodes, child)) {
            clear_node(&child);
            return qci_no_memory(err);
        }
    }
    return QC_STATUS_OK;
}

static void give_up(search *s, const node *n)
{
    if (n->bound < s->floor)
        s->floor = n->bound;
}

/* Is there still something to look for at a node of this bound? */
static bool go_on(const search *s, int64_t bound)
{
    return bound <= s->cap && !over(s);
}

/* At the root several dives; below it a dive and a restricted program where
 * class counts have just become whole, and else now and then. */
static bool is_due(const search *s, const node *n)
{
    double at;

    return s->visited == 1 || s->visited % 8 == 0 ||
           (!n->counts.count && qci_choose_class(s->master, &at) < 0);
}

/* A dive, and the node's LP again if there is still something to look for. */
static qc_status dive_and_settle(search *s, const node *n, int64_t hold,
                                 int32_t turn, qc_error *err)
{
    int64_t bound = 0;
    qci_cg_end end;
    qc_status status = try_dive(s, hold, turn, err);

    if (!status && go_on(s, n->bound))
        status = settle(s, &bound, &end, err);
    return status;
}

/* Bounds one class count of the node at its nearest whole number, that which
 * is nearest to one first; on the other side where the bound passes the cap so.
 * *bound: the node's, above the cap where neither side leaves anything. */
static qc_status round_class(search *s, node *n, int32_t cls, double count,
                             int64_t *bound, qc_error *err)
{
    int64_t whole = (int64_t)llround(count);
    int64_t other = (double)whole > count ? whole - 1 : whole + 1;
    qc_status status = QC_STATUS_OK;

    for (int side = 0; side < 2 && !status; side++) {
        qci_cg_end end;

        n->lo[cls] = n->hi[cls] = side ? other : whole;
        *bound = 0;
        status = enter(s, n, err);
        if (!status)
            status = settle(s, bound, &end, err);
        if (*bound <= s->cap)
            break;
    }
    return status;
}

/* Rounds all class counts; *whole: there is something left within the cap. */
static qc_status round_classes(search *s, node *n, bool *whole, qc_error *err)
{
    qc_status status = QC_STATUS_OK;
    int64_t bound = 0;

    *whole = false;
    while (!status && bound <= s->cap && !over(s)) {
        double count;
        int32_t cls = qci_choose_nearest(s->master, &count);

        *whole = cls < 0;
        if (*whole)
            break;
        status = round_class(s, n, cls, count, &bound, err);
    }
    return status;
}

/* A dive that has to make at least the rounded numbers of strips of each class
 * or higher; the node's LP again after. */
static qc_status dive_rounded(search *s, const node *from, int64_t hold,
                              qc_error *err)
{
    size_t classes = (size_t)s->master->model->class_count;
    int64_t bound = 0;
    bool whole;
    qci_cg_end end;
    qc_status status;
    node n;

    if (!make_node(s, from, &n))
        return qci_no_memory(err);
    status = round_classes(s, &n, &whole, err);
    memcpy(n.hi, from->hi, classes * sizeof *n.hi);
    if (!status && whole)
        status = enter(s, &n, err);
    if (!status && whole)
        status = settle(s, &bound, &end, err);
    if (!status && whole && bound <= s->cap)
        status = try_dive(s, hold, 0, err);
    clear_node(&n);
    if (!status)
        status = enter(s, from, err);
    if (!status && go_on(s, from->bound))
        status = settle(s, &bound, &end, err);
    return status;
}

static qc_status look_for_plans(search *s, const node *n, qc_error *err)
{
    bool root = s->visited == 1;
    int64_t holds = root ? 3 : 1, rounded = root ? 2 : 0;
    int32_t turns = root ? 4 : 0;
    qc_status status = QC_STATUS_OK;

    for (int64_t hold = 0; hold < holds && !status && go_on(s, n->bound);
         hold++)
        status = dive_and_settle(s, n, hold, 0, err);
    for (int64_t hold = 0; hold < rounded && !status && go_on(s, n->bound);
         hold++)
        status = dive_rounded(s, n, hold, err);
    for (int32_t turn = 1; turn < turns && !status && go_on(s, n->bound);
         turn++)
        status = dive_and_settle(s, n, 0, turn, err);
    if (!root && !status && go_on(s, n->bound))
        status = try_restrict(s, err);
    return status;
}

/* Solves a node's LP. *done: the node is closed by its bound, or given up. */
static qc_status solve_node(search *s, node *n, bool *done, qc_error *err)
{
    qci_cg_end end = QCI_CG_STOPPED;
    int64_t before = n->bound;
    qc_status status = enter(s, n, err);

    if (!status)
        status = settle(s, &n->bound, &end, err);
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
static qc_status insist(search *s, node *n, qc_error *err)
{
    int64_t before = n->bound;
    qci_cg_end end;
    qc_status status;

    s->master->longest_walk = QCI_LONGEST_WALK;
    status = settle(s, &n->bound, &end, err);
    s->master->longest_walk = QCI_LONG_WALK;
    if (!status && n->bound > before)
        status = note_bound(s, n, err);
    return status ? status : take_whole(s, err);
}

/* What to branch on: a class, else a count; false when all is whole. */
static bool choose(const search *s, int32_t *cls, qci_count_row *count,
                   double *at)
{
    *cls = qci_choose_class(s->master, at);
    return *cls >= 0 || qci_choose_count(s->master, count, at);
}

/* Closes a node, branches on it, or gives it up. */
static qc_status visit(search *s, node *n, qc_error *err)
{
    qci_count_row count = {0, 0, 0, QCI_MANY};
    double at = 0.0;
    int32_t cls;
    bool done;
    qc_status status;

    s->visited++;
    status = solve_node(s, n, &done, err);
    if (!status && !done)
        status = take_whole(s, err);
    if (status || done || n->bound > s->cap)
        return status;
    if (is_due(s, n)) {
        status = look_for_plans(s, n, err);
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
    return branch(s, n, cls, count, at, err);
}

/* Nodes from one of the best bound straight down, with pieces that lie alone.
 */
#define PLUNGE 20

/* Index of the upper child of the node before, for as long as a plunge goes on;
 * else of the open node of least bound, the deepest of equals. */
static size_t next_node(search *s)
{
    size_t best = 0, last = s->nodes.count - 1;

    if (s->master->model->alone_count && s->nodes.count > s->parked &&
        s->nodes.at[last].bound <= s->cap && s->plunge++ < PLUNGE)
        return last;
    s->plunge = 0;
    for (size_t i = 1; i < s->nodes.count; i++) {
        const node *n = &s->nodes.at[i], *b = &s->nodes.at[best];

        if (n->bound < b->bound ||
            (n->bound == b->bound && n->depth > b->depth))
            best = i;
    }
    return best;
}

/* No solution is below the least bound of all that is open. */
static int64_t least_bound(const search *s)
{
    int64_t least = s->floor <= s->cap ? s->floor : s->cap + 1;

    for (size_t i = 0; i < s->nodes.count; i++)
        if (s->nodes.at[i].bound < least)
            least = s->nodes.at[i].bound;
    return least;
}

static qc_status run(search *s, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    while (!status && s->nodes.count && !over(s) && s->cap >= 0) {
        size_t at = next_node(s);
        node n = s->nodes.at[at];

        if (n.bound > s->cap) {
            while (s->nodes.count)
                clear_node(&s->nodes.at[--s->nodes.count]);
            break;
        }
        s->nodes.at[at] = s->nodes.at[--s->nodes.count];
        s->parked = s->nodes.count;
        status = visit(s, &n, err);
        clear_node(&n);
        if (!status)
            tell(s, least_bound(s));
    }
    return status;
}

/* Is it a job with one class of strips, and nothing said of how many? */
static bool is_line(const search *s, const node *root)
{
    return qci_line_fits(s->master->model) && !root->lo[0] &&
           root->hi[0] == QCI_MANY;
}

static qc_status try_line(search *s, qci_line_turns turns, int64_t *bound,
                          qc_error *err)
{
    qc_status status =
        qci_line_search(s->master, s->aim, turns, s->best, bound, err);

    if (!status)
        s->cap = s->aim->cap(s->best->height, s->aim->user);
    return status;
}

/* With one class of strips nearly all is done without branching. */
static qc_status begin_line(search *s, qc_error *err)
{
    node *root = &s->nodes.at[0];
    qc_status status =
        try_line(s, (qci_line_turns){0, LINE_DIVES}, &root->bound, err);

    if (status)
        return status;
    tell(s, least_bound(s));
    return note_bound(s, root, err);
}

/* Where branching ends with nothing proved, only a plan can end the search. */
static qc_status end_line(search *s, qc_error *err)
{
    int64_t bound;

    if (least_bound(s) > s->cap || over(s))
        return QC_STATUS_OK;
    return try_line(s, (qci_line_turns){LINE_DIVES, INT32_MAX}, &bound, err);
}

qc_status qci_search(qci_master *master, const qci_aim *aim, qci_solution *best,
                     int64_t *bound, qc_error *err)
{
    search s = {.master = master,
                .aim = aim,
                .best = best,
                .cap = aim->cap(best->height, aim->user),
                .floor = INT64_MAX,
                .end_round = master->rounds + aim->rounds};
    node root;
    bool line;
    qc_status status = QC_STATUS_OK;

    if (aim->trace && qci_trace_add(aim->trace, -1) < 0)
        return qci_no_memory(err);
    if (!make_root(&s, &root))
        return qci_no_memory(err);
    if (!qci_vec_push(&s.nodes, root)) {
        clear_node(&root);
        return qci_no_memory(err);
    }
    if (!make_root(&s, &root))
        status = qci_no_memory(err);
    line = !status && is_line(&s, &root);
    if (line)
        status = begin_line(&s, err);
    if (!status)
        status = run(&s, err);
    if (!status && line)
        status = end_line(&s, err);
    *bound = least_bound(&s);
    if (!status)
        status = enter(&s, &root, err); /* as the caller's it was */
    clear_node(&root);
    for (size_t i = 0; i < s.nodes.count; i++)
        clear_node(&s.nodes.at[i]);
    qci_vec_clear(&s.nodes);
    return status;
}
