/* The demand of one fabric. Rows stay in the order of the job's pieces, one for
 * each; their forms are listed in forms.c, the size as given first. What a form
 * may look like was settled when the job was made; only how often one counts is
 * decided here: where all forms of a row yield several pieces, the count goes
 * up to what they can add up to. */
#include "demand/demand.h"

#include "base/alloc.h"
#include "base/error.h"
#include "base/gcd.h"
#include "demand/forms.h"

static size_t count_rows(const qc_job *job, uint32_t fabric)
{
    size_t rows = 0;

    for (size_t i = 0; i < job->piece_count; i++)
        rows += job->pieces[i].fabric == fabric;
    return rows;
}

/* The row of a piece's mirror image; -1: there is none in this fabric. */
static int32_t find_twin(const qci_demand *demand, uint32_t twin)
{
    for (size_t row = 0; row < demand->row_count; row++)
        if (demand->piece[row] == twin)
            return (int32_t)row;
    return -1;
}

static int64_t rounded_count(const qci_form *forms, size_t count,
                             int64_t pieces)
{
    int64_t step = 0;

    for (size_t i = 0; i < count; i++)
        step = qci_gcd(step, forms[i].yields);
    return step > 1 ? (pieces + step - 1) / step * step : pieces;
}

static bool fill_rows(qci_demand *demand, const qc_job *job, uint32_t fabric)
{
    qci_forms forms = {0};
    size_t row = 0;
    bool ok = true;

    for (size_t i = 0; i < job->piece_count && ok; i++) {
        const qci_piece *piece = &job->pieces[i];
        size_t from = forms.count;

        if (piece->fabric != fabric)
            continue;
        demand->piece[row] = (uint32_t)i;
        ok = qci_forms_add(&forms, piece, &job->fabrics[fabric], (int32_t)row,
                           job->ruler);
        if (ok)
            demand->count[row] = rounded_count(
                forms.at + from, forms.count - from, piece->count);
        row++;
    }
    demand->forms = forms.at;
    demand->form_count = forms.count;
    for (row = 0; row < demand->row_count; row++)
        demand->twin[row] =
            find_twin(demand, job->pieces[demand->piece[row]].twin);
    return ok;
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
    demand->row_count = count_rows(job, fabric);
    demand->count = qci_calloc(demand->row_count, sizeof *demand->count);
    demand->twin = qci_calloc(demand->row_count, sizeof *demand->twin);
    demand->piece = qci_calloc(demand->row_count, sizeof *demand->piece);
    if (!demand->count || !demand->twin || !demand->piece ||
        !fill_rows(demand, job, fabric)) {
        qci_demand_destroy(demand);
        return qci_no_memory(err);
    }
    *out = demand;
    return QC_STATUS_OK;
}

void qci_demand_destroy(qci_demand *demand)
{
    if (!demand)
        return;
    qci_free(demand->count);
    qci_free(demand->twin);
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
