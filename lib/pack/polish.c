/* Candidates are the first solution, if it is short enough, as it cuts plainly;
 * that of the length search and dives that take other turns; each is given
 * fewer set-ups where set-ups are a goal. The candidate whose goal values come
 * first in the demand's order wins, the earliest of equals, so that the result
 * does not depend on chance. */
#include "pack/polish.h"

#include "base/error.h"
#include "pack/covers.h"
#include "pack/dive.h"
#include "pack/fewest.h"
#include "pack/regroup.h"
#include "pack/result.h"
#include "pack/setups.h"

/* Dives beside the best solution, and pricings for each candidate. */
#define CANDIDATES 6
#define REDUCE_CALLS 12000
/* Linear programs for a dive. */
#define DIVE_ROUNDS 60

typedef struct polish {
    qci_master *master;
    const qci_demand *demand;
    int64_t cap; /* height that the length goals leave */
    bool setups;
    qci_packing *packing; /* the best so far */
    qci_solution kept;    /* what it was built from */
} polish;

int64_t qci_free_height(const qci_demand *demand, const qci_model *model,
                        int64_t height)
{
    qc_length bought = qci_purchase_bought(
        demand->purchase, qci_result_used(demand, model, height));
    int64_t room = INT64_MAX;

    for (size_t i = 0; i < demand->goal_count; i++) {
        qc_goal goal = demand->goals[i];

        if (goal == QC_GOAL_USED)
            return height;
        if (goal != QC_GOAL_BOUGHT && goal != QC_GOAL_MONEY)
            break;
        room = qci_result_room(demand, model, bought);
    }
    if (room < INT64_MAX)
        return room;
    /* No limit: a strip of the highest class for every piece. */
    room = 0;
    for (int32_t row = 0; row < model->row_count; row++)
        room += model->demand[row] * model->height[model->class_count - 1];
    return room;
}

static bool is_better(const qci_demand *demand, const qci_packing *a,
                      const qci_packing *b)
{
    for (size_t i = 0; i < demand->goal_count; i++) {
        qc_goal goal = demand->goals[i];
        int64_t va = qci_result_value(demand, a, goal);
        int64_t vb = qci_result_value(demand, b, goal);

        if (va != vb)
            return (va < vb) != (goal == QC_GOAL_LEFTOVER);
    }
    return false;
}

/* Keeps a candidate if it is the best so far. */
static qc_status keep_best(polish *p, const qci_solution *candidate,
                           qc_error *err)
{
    qci_packing packing = *p->packing;
    qc_status status;

    packing.strips = NULL;
    packing.strip_count = 0;
    status =
        qci_result_build(p->demand, p->master->model, candidate, &packing, err);
    if (!status && (!p->packing->strip_count ||
                    is_better(p->demand, &packing, p->packing))) {
        qci_packing worse = *p->packing;

        *p->packing = packing;
        packing = worse;
        if (!qci_solution_copy(&p->kept, candidate))
            status = qci_no_memory(err);
    }
    qci_result_clear(&packing);
    return status;
}

/* A candidate as it is, since strips that are cut in pairs are one set-up
 * already; and with fewer patterns. */
static qc_status consider(polish *p, qci_solution *candidate, qc_error *err)
{
    qc_status status = keep_best(p, candidate, err);

    if (status || !p->setups)
        return status;
    status = qci_setups_reduce(p->master, p->cap, REDUCE_CALLS, candidate, err);
    return status ? status : keep_best(p, candidate, err);
}

/* The linear program without bounds. */
static qc_status relax(polish *p, qc_error *err)
{
    int64_t bound = 0;
    qci_cg_end end;
    qc_status status = qci_master_apply(p->master, err);

    if (!status)
        status =
            qci_master_generate(p->master, INT64_MAX, 100, &bound, &end, err);
    return status;
}

static qc_status try_dive(polish *p, int32_t turn, qc_error *err)
{
    qci_solution candidate = {0};
    qc_status status = relax(p, err);

    if (!status)
        status = qci_dive(p->master,
                          (qci_dive_plan){.cap = p->cap,
                                          .hold = turn % 3,
                                          .turn = turn,
                                          .rounds = DIVE_ROUNDS},
                          &candidate, err);
    if (!status && candidate.height)
        status = consider(p, &candidate, err);
    qci_solution_clear(&candidate);
    return status;
}

static int64_t set_ups_of(const polish *p)
{
    return qci_result_value(p->demand, p->packing, QC_GOAL_SETUPS);
}

/* The solution of fewest set-ups, where that can be found. *setups is raised to
 * what is proved. */
static qc_status try_fewest(polish *p, int64_t *setups, qc_error *err)
{
    qci_solution candidate = {0};
    qc_status status = relax(p, err);

    if (!status)
        status = qci_fewest(p->master, p->cap, set_ups_of(p), setups,
                            &candidate, err);
    if (!status && candidate.height)
        status = keep_best(p, &candidate, err);
    qci_solution_clear(&candidate);
    return status;
}

/* The best solution with groups of set-ups replaced. */
static qc_status try_regroup(polish *p, qc_error *err)
{
    qci_solution candidate = {0};
    qc_status status = relax(p, err);

    if (!status && !qci_solution_copy(&candidate, &p->kept))
        status = qci_no_memory(err);
    if (!status)
        status = qci_regroup(p->master, p->cap, &candidate, err);
    if (!status)
        status = keep_best(p, &candidate, err);
    qci_solution_clear(&candidate);
    return status;
}

/* No packing has fewer set-ups than this, where not all can be tried. */
static qc_status bound_setups(polish *p, int64_t *setups, qc_error *err)
{
    bool two = false;
    qc_status status = qci_setups_need_two(p->master, p->cap, &two, err);

    if (two)
        *setups = 2;
    if (!status)
        status = qci_covers_bound(p->master, p->cap, &p->kept, setups, err);
    return status;
}

bool qci_polish_wanted(const qci_demand *demand)
{
    return qci_demand_wants(demand, QC_GOAL_SETUPS) ||
           qci_demand_wants(demand, QC_GOAL_CUTS) ||
           qci_demand_wants(demand, QC_GOAL_LEFTOVER);
}

qc_status qci_polish(qci_master *master, const qci_demand *demand,
                     qci_solution *first, qci_solution *best,
                     qci_packing *packing, int64_t *setups, qc_error *err)
{
    polish p = {.master = master,
                .demand = demand,
                .cap = qci_free_height(demand, master->model, best->height),
                .setups = qci_demand_wants(demand, QC_GOAL_SETUPS),
                .packing = packing};
    bool more = qci_polish_wanted(demand);
    qc_status status = QC_STATUS_OK;

    if (first->height && first->height <= p.cap)
        status = consider(&p, first, err);
    if (!status)
        status = consider(&p, best, err);

    *setups = 1;
    if (!status && p.setups && !qci_master_stopped(master))
        status = try_fewest(&p, setups, err);
    if (!status && p.setups && set_ups_of(&p) > *setups &&
        !qci_master_stopped(master))
        status = try_regroup(&p, err);
    for (int32_t turn = 0;
         turn < CANDIDATES && more && !status && !qci_master_stopped(master);
         turn++)
        status = try_dive(&p, turn, err);
    if (!status && p.setups && *setups == 1)
        status = bound_setups(&p, setups, err);
    qci_solution_clear(&p.kept);
    return status;
}
