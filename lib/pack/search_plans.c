/* What looks for plans at a node: its program's solution where that is whole,
 * dives, dives for rounded numbers of strips, restricted programs, the program
 * made whole (search_corner.c), and strips cut anew in the lowest solution
 * known. Nothing here bears on what is proved. */
#include <math.h>
#include <string.h>

#include "base/error.h"
#include "pack/choose.h"
#include "pack/dive.h"
#include "pack/renew.h"
#include "pack/search_inner.h"

#define FRACTION 1e-5
/* Patterns and nodes of GLPK's for a restricted program. */
#define RESTRICT_COLUMNS 160
#define RESTRICT_NODES 100
/* The same for wide ones, and the most strips of a pattern that one holds back.
 * They are tried below the root at once, again after twice so many nodes, and
 * then whenever the nodes have doubled. */
#define WIDE_COLUMNS 500
#define WIDE_NODES 300
#define WIDE_HOLD 4
#define WIDE_AFTER 40
/* Nodes without stacks before strips are cut anew. */
#define RENEW_AFTER 100
/* Linear programs for the program without rules, and for a dive. */
#define FREE_ROUNDS 400
#define ROOT_ROUNDS 100
#define LEAF_ROUNDS 60

qc_status qci_search_offer(qci_searching *s, const qci_solution *solution,
                           qc_error *err)
{
    if (!solution->height)
        return QC_STATUS_OK;
    if (solution->height < s->near.height &&
        !qci_solution_copy(&s->near, solution))
        return qci_no_memory(err);
    if (solution->height > s->cap)
        return QC_STATUS_OK;
    if (!qci_solution_copy(s->best, solution))
        return qci_no_memory(err);
    s->cap = s->aim.cap(s->best->height, s->aim.user);
    return QC_STATUS_OK;
}

/* One dive; the LP must be that of the node, and is solved again after. */
static qc_status try_dive(qci_searching *s, int64_t hold, int32_t turn,
                          qc_error *err)
{
    qci_solution found = {0};
    int32_t rounds = s->visited == 1 ? ROOT_ROUNDS : LEAF_ROUNDS;
    qc_status status = qci_dive(
        s->master,
        (qci_dive_plan){
            .cap = s->cap, .hold = hold, .turn = turn, .rounds = rounds},
        &found, err);

    if (!status)
        status = qci_search_offer(s, &found, err);
    qci_solution_clear(&found);
    return status;
}

static qc_status try_restrict(qci_searching *s, qci_restrict_plan plan,
                              qc_error *err)
{
    qci_solution found = {0};
    qc_status status = qci_restrict(s->master, plan, &found, err);

    if (!status)
        status = qci_search_offer(s, &found, err);
    qci_solution_clear(&found);
    return status;
}

qc_status qci_search_take_whole(qci_searching *s, qc_error *err)
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
            status = qci_search_offer(s, &found, err);
    }
    qci_solution_clear(&found);
    return status;
}

bool qci_search_go_on(const qci_searching *s, int64_t bound)
{
    return bound <= s->cap && !qci_search_over(s);
}

/* The LP of the node that was entered again, if there is still something to
 * look for. */
static qc_status settle_again(qci_searching *s, const qci_node *n,
                              qc_error *err)
{
    int64_t bound = 0;
    qci_cg_end end;

    if (!qci_search_go_on(s, n->bound))
        return QC_STATUS_OK;
    return qci_search_settle(s, &bound, &end, err);
}

/* Back to a node from another. */
static qc_status come_back(qci_searching *s, const qci_node *n, qc_error *err)
{
    qc_status status = qci_node_enter(s, n, err);

    return status ? status : settle_again(s, n, err);
}

static qc_status dive_and_settle(qci_searching *s, const qci_node *n,
                                 int64_t hold, int32_t turn, qc_error *err)
{
    qc_status status = try_dive(s, hold, turn, err);

    return status ? status : settle_again(s, n, err);
}

/* Bounds one class count of the node at its nearest whole number, that which
 * is nearest to one first; on the other side where the bound passes the cap so.
 * *bound: the node's, above the cap where neither side leaves anything. */
static qc_status round_class(qci_searching *s, qci_node *n, int32_t cls,
                             double count, int64_t *bound, qc_error *err)
{
    int64_t whole = (int64_t)llround(count);
    int64_t other = (double)whole > count ? whole - 1 : whole + 1;
    qc_status status = QC_STATUS_OK;

    for (int side = 0; side < 2 && !status; side++) {
        qci_cg_end end;

        n->lo[cls] = n->hi[cls] = side ? other : whole;
        *bound = 0;
        status = qci_node_enter(s, n, err);
        if (!status)
            status = qci_search_settle(s, bound, &end, err);
        if (*bound <= s->cap)
            break;
    }
    return status;
}

/* Rounds all class counts; *whole: there is something left within the cap. */
static qc_status round_classes(qci_searching *s, qci_node *n, bool *whole,
                               qc_error *err)
{
    qc_status status = QC_STATUS_OK;
    int64_t bound = 0;

    *whole = false;
    while (!status && bound <= s->cap && !qci_search_over(s)) {
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
static qc_status dive_rounded(qci_searching *s, const qci_node *from,
                              int64_t hold, qc_error *err)
{
    size_t classes = (size_t)s->master->model->class_count;
    int64_t bound = 0;
    bool whole;
    qci_cg_end end;
    qc_status status;
    qci_node n;

    if (!qci_node_child(s, from, &n))
        return qci_no_memory(err);
    status = round_classes(s, &n, &whole, err);
    memcpy(n.hi, from->hi, classes * sizeof *n.hi);
    if (!status && whole)
        status = qci_node_enter(s, &n, err);
    if (!status && whole)
        status = qci_search_settle(s, &bound, &end, err);
    if (!status && whole && bound <= s->cap)
        status = try_dive(s, hold, 0, err);
    qci_node_clear(&n);
    return status ? status : come_back(s, from, err);
}

/* Wide programs, where pieces lie alone. What is left of the whole part is few
 * strips, which often cannot be done within the cap; with some strips of each
 * pattern held back there are more ways. Each takes far longer than a narrow
 * one, so they come ever more rarely. */
static qc_status try_wide(qci_searching *s, const qci_node *n, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    if (!s->master->model->alone_count || s->visited < s->wide_at)
        return QC_STATUS_OK;
    s->wide_at = 2 * (s->visited > WIDE_AFTER ? s->visited : WIDE_AFTER);
    for (int64_t hold = 1;
         hold <= WIDE_HOLD && !status && qci_search_go_on(s, n->bound);
         hold *= 2)
        status = try_restrict(
            s, (qci_restrict_plan){s->cap, hold, WIDE_COLUMNS, WIDE_NODES},
            err);
    return status;
}

/* The lowest solution known, as far as it is needed: where only one that is
 * much lower would do, no dive so far has ended, and one that may now end
 * anywhere comes near. */
static qc_status come_near(qci_searching *s, qc_error *err)
{
    qci_solution found = {0};
    qc_status status = QC_STATUS_OK;
    bool first = !s->near.height;

    if ((first || s->near.height > s->best->height) &&
        !qci_solution_copy(&s->near, s->best))
        return qci_no_memory(err);
    if (!first || s->near.height - 1 <= s->cap)
        return QC_STATUS_OK;
    status = qci_dive(
        s->master,
        (qci_dive_plan){.cap = s->near.height - 1, .rounds = ROOT_ROUNDS},
        &found, err);
    if (!status)
        status = qci_search_offer(s, &found, err);
    qci_solution_clear(&found);
    return status;
}

/* Renews the lowest solution again and again, for as many linear programs as
 * all else took, the program made whole apart. One without any, and with
 * nothing found, is the last. */
static qc_status renew(qci_searching *s, const qci_node *n, qc_error *err)
{
    const qci_master *m = s->master;
    int64_t begin = m->rounds, before = -1;
    int64_t most = begin - s->cornering - 2 * s->renewing;
    qc_status status = come_near(s, err);

    while (!status && qci_search_go_on(s, n->bound) && m->rounds > before &&
           m->rounds - begin < most) {
        qci_solution found = {0};

        before = m->rounds;
        status = qci_renew(s->master, &s->near, s->near.height - 1, &s->seed,
                           &found, err);
        if (!status)
            status = qci_search_offer(s, &found, err);
        if (found.height)
            before--;
        qci_solution_clear(&found);
    }
    s->renewing += m->rounds - begin;
    return status;
}

/* Not where pieces lie alone. Without stacks few nodes mostly do, and sooner.
 */
static bool may_renew(const qci_searching *s)
{
    const qci_model *model = s->master->model;

    return !model->alone_count && (model->stacks || s->visited > RENEW_AFTER);
}

/* Without the rules of the node, whose LP is solved again after: the program
 * made whole, and strips cut anew. */
static qc_status search_freely(qci_searching *s, const qci_node *n,
                               qc_error *err)
{
    bool whole = s->master->model->stacks && s->visited >= s->corner_at;
    int64_t bound = 0;
    qci_cg_end end = QCI_CG_STOPPED;
    qc_status status;
    qci_node free;

    if (!whole && !may_renew(s))
        return QC_STATUS_OK;
    if (!qci_node_child(s, n, &free))
        return qci_no_memory(err);
    free.counts.count = 0;
    for (int32_t k = 0; k < s->master->model->class_count; k++) {
        free.lo[k] = 0;
        free.hi[k] = QCI_MANY;
    }
    status = qci_node_enter(s, &free, err);
    if (!status && whole)
        status = qci_master_generate(s->master, QCI_MANY, FREE_ROUNDS, &bound,
                                     &end, err);
    if (!status && end == QCI_CG_CONVERGED)
        status = qci_search_corners(s, n, err);
    if (!status && may_renew(s) && qci_search_go_on(s, n->bound))
        status = renew(s, n, err);
    qci_node_clear(&free);
    return status ? status : come_back(s, n, err);
}

qc_status qci_search_for_plans(qci_searching *s, const qci_node *n,
                               qc_error *err)
{
    bool root = s->visited == 1;
    int64_t holds = root ? 3 : 1, rounded = root ? 2 : 0;
    int32_t turns = root ? 4 : 0;
    qc_status status = QC_STATUS_OK;

    for (int64_t hold = 0;
         hold < holds && !status && qci_search_go_on(s, n->bound); hold++) {
        status = dive_and_settle(s, n, hold, 0, err);
        if (!status && !n->depth && !hold && qci_search_go_on(s, n->bound))
            status = qci_search_corner(s, err);
    }
    for (int64_t hold = 0;
         hold < rounded && !status && qci_search_go_on(s, n->bound); hold++)
        status = dive_rounded(s, n, hold, err);
    for (int32_t turn = 1;
         turn < turns && !status && qci_search_go_on(s, n->bound); turn++)
        status = dive_and_settle(s, n, 0, turn, err);
    if (!root && !status && qci_search_go_on(s, n->bound))
        status = try_restrict(
            s, (qci_restrict_plan){s->cap, 0, RESTRICT_COLUMNS, RESTRICT_NODES},
            err);
    if (!root && !status && qci_search_go_on(s, n->bound))
        status = try_wide(s, n, err);
    if (!status && qci_search_go_on(s, n->bound))
        status = search_freely(s, n, err);
    return status;
}
