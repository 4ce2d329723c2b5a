/* The conductor: one fabric's goals, in their order.
 *
 * Lengths first: branch and bound on the purchase step, then on the exact
 * length where it is a goal. What comes after them (set-ups, cuts, leftover) is
 * improved by local search among packings that keep what was reached before.
 * Every level ends with a value and a bound that holds for any packing. */
#include "pack/pack.h"

#include <string.h>

#include "base/alloc.h"
#include "base/clock.h"
#include "base/error.h"
#include "pack/bounds.h"
#include "pack/greedy.h"
#include "pack/polish.h"
#include "pack/result.h"
#include "pack/search.h"

/* Linear programs that a length goal may take. */
#define LENGTH_ROUNDS 40000
/* Per cent of the time that the lengths may take where goals come after them.
 */
#define LENGTH_SHARE 70

typedef struct job {
    const qci_demand *demand;
    const qci_watch *watch;
    qci_model *model;
    qci_master *master;
    qci_solution first; /* the greedy one */
    qci_solution best;
    int64_t bound;   /* on the total height, scaled */
    int64_t setups;  /* no packing has fewer set-ups */
    qci_trace trace; /* of the search for the length */
    qci_watch phase; /* the watch, with the deadline of the present goals */
    qci_packing *packing;
} job;

/* Lengths that take too long leave some time to the goals after them. */
static void limit_lengths(job *j)
{
    int64_t now = qci_clock_ms(), left = j->watch->deadline_ms - now;

    j->phase = *j->watch;
    if (qci_polish_wanted(j->demand))
        j->phase.deadline_ms =
            now + left / 100 * LENGTH_SHARE + left % 100 * LENGTH_SHARE / 100;
}

static qc_length bought_for(const job *j, int64_t height)
{
    return qci_purchase_bought(j->demand->purchase,
                               qci_result_used(j->demand, j->model, height));
}

/* The greatest height that a purchase step less would cover. */
static int64_t cap_bought(int64_t height, void *user)
{
    const job *j = user;
    qc_length less = bought_for(j, height) - j->demand->purchase.step;

    return less <= 0 ? -1 : qci_result_room(j->demand, j->model, less);
}

static int64_t cap_used(int64_t height, void *user)
{
    (void)user;
    return height - 1;
}

static void news(int64_t height, int64_t bound, void *user)
{
    const job *j = user;

    if (j->watch->progress)
        j->watch->progress(bought_for(j, height),
                           bought_for(j, bound > height ? height : bound),
                           j->watch->user);
}

bool qci_watch_ended(const qci_watch *watch)
{
    return qci_clock_ms() >= watch->deadline_ms ||
           (watch->cancelled && watch->cancelled(watch->user));
}

/* The bought length is always proved, asked for or not; then the exact one,
 * where it is a goal. */
static qc_status search_length(job *j, qc_error *err)
{
    bool exact = qci_demand_wants(j->demand, QC_GOAL_USED);
    qci_aim aim = {.cap = cap_bought,
                   .then = exact ? cap_used : NULL,
                   .news = news,
                   .user = j,
                   .rounds = LENGTH_ROUNDS,
                   .trace = &j->trace};
    int64_t bound = 0, cap;
    qc_status status = qci_search(j->master, &aim, &j->best, &bound, err);

    if (status)
        return status;
    /* A proof that nothing is at or below the cap is worth no more than that;
     * and no bound is above a solution. */
    cap = (exact ? cap_used : cap_bought)(j->best.height, j);
    if (bound > cap + 1)
        bound = cap + 1;
    if (bound > j->bound)
        j->bound = bound;
    return QC_STATUS_OK;
}

static qc_status solve_lengths(job *j, qc_error *err)
{
    qc_status status = qci_greedy(j->master, &j->best, err);

    if (!status && !qci_solution_copy(&j->first, &j->best))
        status = qci_no_memory(err);
    if (!status)
        status = search_length(j, err);
    return status;
}

static qc_status too_long(qc_error *err)
{
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){"fabrics", NULL}, NULL,
                    "%s", "more fabric than the longest length allowed");
}

static void fill_levels(job *j)
{
    for (size_t i = 0; i < j->demand->goal_count; i++) {
        qc_level *level = &j->packing->levels[i];
        qc_goal goal = j->demand->goals[i];

        level->goal = goal;
        level->value = qci_result_value(j->demand, j->packing, goal);
        level->bound =
            qci_bound_goal(j->demand, j->model, j->packing, j->bound, goal);
        if (goal == QC_GOAL_SETUPS && level->bound < j->setups)
            level->bound = j->setups;
        level->outcome = level->value == level->bound ? QC_OUTCOME_OPTIMAL
                                                      : QC_OUTCOME_FEASIBLE;
    }
}

/* Why nothing less is enough, where that is so: a proof of the exact length, or
 * else one of what is bought. */
static qc_status keep_proof(job *j, qc_error *err)
{
    qci_packing *packing = j->packing;
    qc_length less = packing->bought - j->demand->purchase.step;
    qc_status status = QC_STATUS_OK;

    if (packing->bound < packing->bought)
        return QC_STATUS_OK;
    if (qci_demand_wants(j->demand, QC_GOAL_USED))
        status = qci_trace_proof(&j->trace, j->demand, j->model,
                                 j->best.height - 1, &packing->proof, err);
    if (packing->proof)
        packing->proof->used = packing->used;
    else if (!status)
        status = qci_trace_proof(
            &j->trace, j->demand, j->model,
            less <= 0 ? -1 : qci_result_room(j->demand, j->model, less),
            &packing->proof, err);
    if (!status && !packing->proof)
        status = qci_area_proof(j->demand, j->model, &packing->proof, err);
    if (packing->proof)
        packing->proof->bought = packing->bought;
    return status;
}

static qc_status solve(job *j, qc_error *err)
{
    qc_status status =
        qci_model_create(j->demand, j->demand->width, &j->model, err);

    if (status)
        return status;
    j->packing->hand_method = qci_hand_method(j->demand, j->model);
    if (j->packing->hand_method < 0)
        return too_long(err);
    j->bound = qci_bound_area(j->model);
    limit_lengths(j);
    status = qci_master_create(j->model, &j->phase, &j->master, err);
    if (!status)
        status = solve_lengths(j, err);
    j->phase = *j->watch;
    if (!status)
        status = qci_polish(j->master, j->demand, &j->first, &j->best,
                            j->packing, &j->setups, err);
    if (status)
        return status;
    fill_levels(j);
    j->packing->bound = qci_bound_goal(j->demand, j->model, j->packing,
                                       j->bound, QC_GOAL_BOUGHT);
    return keep_proof(j, err);
}

/* Nothing to cut: every goal is met by nothing. */
static void fill_empty(const qci_demand *demand, qci_packing *packing)
{
    for (size_t i = 0; i < demand->goal_count; i++)
        packing->levels[i] =
            (qc_level){demand->goals[i], QC_OUTCOME_OPTIMAL, 0, 0};
}

qc_status qci_pack(const qci_demand *demand, const qci_watch *watch,
                   qci_packing **out, qc_error *err)
{
    job j = {.demand = demand, .watch = watch};
    qc_status status = QC_STATUS_OK;

    *out = NULL;
    j.packing = qci_calloc(1, sizeof *j.packing);
    if (!j.packing)
        return qci_no_memory(err);
    if (demand->row_count)
        status = solve(&j, err);
    else
        fill_empty(demand, j.packing);
    if (!status) {
        *out = j.packing;
        j.packing = NULL;
    }
    qci_solution_clear(&j.first);
    qci_solution_clear(&j.best);
    qci_trace_clear(&j.trace);
    qci_master_destroy(j.master);
    qci_model_destroy(j.model);
    qci_packing_destroy(j.packing);
    return status;
}

void qci_packing_destroy(qci_packing *packing)
{
    if (!packing)
        return;
    qci_result_clear(packing);
    qci_proof_destroy(packing->proof);
    qci_free(packing);
}
