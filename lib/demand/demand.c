/* The demand of one fabric. Rows stay in the order of the job's pieces, one for
 * each; forms come in two passes, counted first, so that each list is one
 * block. Turning rules are the job room's; here they only become forms. */
#include "demand/demand.h"

#include "base/alloc.h"
#include "base/error.h"
#include "job/turn.h"

/* The ways a piece may lie, 1 or 2; none look alike. A piece as long as wide
 * has one, which nobody would call turned. */
static int list_turns(const qci_piece *piece, const qci_fabric *fabric,
                      qc_turn turns[2])
{
    int n = 0;

    if (qci_piece_fits(piece, fabric, QC_TURN_NONE))
        turns[n++] = QC_TURN_NONE;
    if (qci_piece_fits(piece, fabric, QC_TURN_QUARTER))
        turns[n++] = QC_TURN_QUARTER;
    if (piece->cut[0] != piece->cut[1])
        return n;
    turns[0] = QC_TURN_NONE;
    return 1;
}

static void count_lists(qci_demand *demand, const qc_job *job, uint32_t fabric)
{
    qc_turn turns[2];

    for (size_t i = 0; i < job->piece_count; i++) {
        const qci_piece *piece = &job->pieces[i];

        if (piece->fabric != fabric)
            continue;
        demand->row_count++;
        demand->form_count +=
            (size_t)list_turns(piece, &job->fabrics[fabric], turns);
    }
}

static void fill_lists(qci_demand *demand, const qc_job *job, uint32_t fabric)
{
    qci_form *form = demand->forms;
    int32_t row = 0;
    qc_turn turns[2];

    for (size_t i = 0; i < job->piece_count; i++) {
        const qci_piece *piece = &job->pieces[i];
        int n;

        if (piece->fabric != fabric)
            continue;
        demand->count[row] = piece->count / piece->yields;
        demand->yield[row] = piece->yields;
        demand->piece[row] = (uint32_t)i;
        n = list_turns(piece, &job->fabrics[fabric], turns);
        for (int k = 0; k < n; k++)
            *form++ = (qci_form){row, qci_piece_across(piece, turns[k]),
                                 qci_piece_along(piece, turns[k]), turns[k]};
        row++;
    }
}

qc_status qci_demand_create(const qc_job *job, uint32_t fabric,
                            qci_demand **out, qc_error *err)
{
    const qci_fabric *cloth = &job->fabrics[fabric];
    qci_demand *demand = qci_calloc(1, sizeof *demand);

    *out = NULL;
    if (!demand)
        return qci_no_memory(err);
    demand->width = cloth->width;
    demand->stacks = job->stages == 3;
    demand->trim = !job->no_trim;
    demand->square_up = cloth->square_up;
    demand->purchase = (qci_purchase){cloth->step, cloth->shrink_length};
    demand->keep = job->keep;
    demand->ruler = job->ruler;
    demand->layers = job->layers;
    demand->goals = job->goals;
    demand->goal_count = job->goal_count;
    count_lists(demand, job, fabric);
    demand->count = qci_calloc(demand->row_count, sizeof *demand->count);
    demand->yield = qci_calloc(demand->row_count, sizeof *demand->yield);
    demand->piece = qci_calloc(demand->row_count, sizeof *demand->piece);
    demand->forms = qci_calloc(demand->form_count, sizeof *demand->forms);
    if (!demand->count || !demand->yield || !demand->piece || !demand->forms) {
        qci_demand_destroy(demand);
        return qci_no_memory(err);
    }
    fill_lists(demand, job, fabric);
    *out = demand;
    return QC_STATUS_OK;
}

void qci_demand_destroy(qci_demand *demand)
{
    if (!demand)
        return;
    qci_free(demand->count);
    qci_free(demand->yield);
    qci_free(demand->piece);
    qci_free(demand->forms);
    qci_free(demand);
}

bool qci_demand_wants(const qci_demand *demand, qc_goal goal)
{
    for (size_t i = 0; i < demand->goal_count; i++)
        if (demand->goals[i] == goal)
            return true;
    return false;
}
