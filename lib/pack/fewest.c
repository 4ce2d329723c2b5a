/* Are two set-ups enough, three, four? Each question is answered by trying all
 * (exhaust.c), from a list of every pattern (every.c). */
#include "pack/fewest.h"

#include "base/alloc.h"
#include "base/error.h"
#include "pack/exhaust.h"

/* Patterns listed, and what may be done with them: the deterministic limits. */
#define LIST_LIMIT 100000
#define WORK_LIMIT (INT64_C(1) << 30)
/* Work for a question that a "no" to leaves more open than one other. */
#define FAR_WORK (INT64_C(1) << 28)

qc_status qci_take_setups(qci_master *master, const qci_every *every,
                          const qci_setup *setups, int64_t count,
                          qci_solution *out, qc_error *err)
{
    for (int64_t i = 0; i < count; i++) {
        const qci_pattern *p, *kept;
        qc_status status;

        if (!setups[i].times)
            continue;
        p = every->list.at[setups[i].at].pattern;
        status = qci_master_add(
            master,
            qci_pattern_create(master->model, p->cls, p->sequence, p->length),
            &kept, err);
        if (status)
            return status;
        if (!qci_solution_add(out, kept, setups[i].times))
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

static qc_status ask(qci_master *master, const qci_every *every, int64_t most,
                     int64_t *bound, qci_solution *out, qc_error *err)
{
    qci_setup setups[QCI_SETUPS_LIMIT];
    qci_task task = {.left = master->model->demand,
                     .whole = master->model->demand,
                     .spare = every->spare};
    qci_answer answer = QCI_ANSWER_NO;
    int64_t work = WORK_LIMIT;
    qc_status status = QC_STATUS_OK;

    while (!status && answer == QCI_ANSWER_NO && *bound < most) {
        int64_t part = most - *bound > 2 && work > FAR_WORK ? FAR_WORK : work;

        work -= part;
        task.count = (int32_t)*bound;
        status = qci_exhaust(every, master, &task, &part, setups, &answer, err);
        work += part;
        if (!status && answer == QCI_ANSWER_NO)
            ++*bound;
    }
    if (!status && answer == QCI_ANSWER_YES)
        status = qci_take_setups(master, every, setups, *bound, out, err);
    return status;
}

qc_status qci_fewest(qci_master *master, int64_t cap, int64_t most,
                     int64_t *bound, qci_solution *out, qc_error *err)
{
    qci_every every;
    qc_status status;

    if (most > QCI_SETUPS_LIMIT)
        most = QCI_SETUPS_LIMIT;
    if (*bound >= most)
        return QC_STATUS_OK;
    status = qci_every_create(&every, master, cap, INT64_MAX, LIST_LIMIT, err);
    if (!status && every.whole)
        status = ask(master, &every, most, bound, out, err);
    if (status || out->height > cap || !qci_solution_covers(out, master->model))
        qci_solution_clear(out);
    qci_every_clear(&every);
    return status;
}
