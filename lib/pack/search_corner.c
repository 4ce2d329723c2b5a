/* Looks for plans by making the program without rules whole (corner.c): with
 * the patterns that are known, which takes little time, and with all that waste
 * little. Where that finds something the cap is lower, and fewer patterns are
 * worth a look; where not, more work may. */
#include <math.h>

#include "pack/corner.h"
#include "pack/search_inner.h"

/* The program is made whole at the root, at few levels, and again whenever the
 * nodes have doubled, from so many on. */
#define CORNER_ROOT 3
#define CORNER_AFTER 8
/* Patterns for it, and what they waste at first. */
#define CORNER_LIST 8000
#define CORNER_WASTE (QCI_PARTS / 2)

/* The program made whole, once. */
static qc_status try_corner(qci_searching *s, qci_corner_plan plan,
                            qc_error *err)
{
    qci_solution found = {0};
    int64_t begin = s->master->rounds;
    qc_status status;

    plan.cap = s->cap;
    status = qci_corner(s->master, plan, &found, err);
    s->cornering += s->master->rounds - begin;
    if (!status)
        status = qci_search_offer(s, &found, err);
    qci_solution_clear(&found);
    return status;
}

/* Patterns that waste little, ever more, up to what can be spared, for as long
 * as there are not too many. */
static qc_status list_thrifty(const qci_searching *s, qci_every *every,
                              qc_error *err)
{
    double spare = (double)s->cap - qci_lp_objective(s->master->lp);
    int64_t most = (int64_t)(fmax(spare, 0.0) * QCI_PARTS), waste;
    qc_status status = QC_STATUS_OK;

    *every = (qci_every){0};
    for (waste = CORNER_WASTE;
         !status && waste < 2 * most && !qci_search_over(s); waste *= 2) {
        qci_every more;

        status =
            qci_every_create(&more, s->master, s->cap,
                             waste < most ? waste : most, CORNER_LIST, err);
        if (status || !more.whole)
            break;
        qci_every_clear(every);
        *every = more;
        if (every->list.count > CORNER_LIST / 2)
            break;
    }
    return status;
}

qc_status qci_search_corner(qci_searching *s, qc_error *err)
{
    return try_corner(s, (qci_corner_plan){0}, err);
}

qc_status qci_search_corners(qci_searching *s, const qci_node *n, qc_error *err)
{
    int32_t levels = n->depth ? QCI_CORNER_LEVELS : CORNER_ROOT;
    qc_status status = QC_STATUS_OK;
    qci_corner_plan plan = {.turn = (uint64_t)s->visited};

    s->corner_at =
        2 * s->visited > CORNER_AFTER ? 2 * s->visited : CORNER_AFTER;
    while (plan.level < levels && !status && qci_search_go_on(s, n->bound)) {
        int64_t before = s->cap;
        qci_every every;

        status = list_thrifty(s, &every, err);
        plan.every = &every;
        if (!status)
            status = try_corner(s, plan, err);
        qci_every_clear(&every);
        plan.level += s->cap == before;
    }
    return status;
}
