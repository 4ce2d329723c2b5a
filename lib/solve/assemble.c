/* The plan's tree, copied out of a job and of what was packed for it.
 *
 * The packing speaks of rows and forms, the plan of pieces and turns; nothing
 * is decided here and no number is found anew except what follows from the
 * strips by adding up (used width, set-ups, leftovers, areas, cost). Everything
 * is copied, since a plan outlives its job. Each list is allocated before its
 * count is set, as qc_plan_destroy() expects of a half-built plan.
 */
#include "solve/assemble.h"

#include "base/alloc.h"
#include "base/error.h"
#include "solve/area.h"

static bool copy_text(const char **to, const char *from)
{
    *to = qci_strdup(from);
    return *to != NULL;
}

static qc_status copy_head(qc_plan *plan, const qc_job *job, qc_error *err)
{
    plan->units = job->units;
    plan->ruler = job->ruler;
    plan->seam = job->seam;
    plan->layers = job->layers;
    plan->title = qci_strdup(job->title);
    plan->defaults = qci_calloc(job->default_count, sizeof *plan->defaults);
    if (!plan->title || !plan->defaults)
        return qci_no_memory(err);
    plan->default_count = job->default_count;
    for (size_t i = 0; i < job->default_count; i++) {
        plan->defaults[i] = qci_strdup(job->defaults[i]);
        if (!plan->defaults[i])
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

static qc_plan_piece plan_piece(const qc_job *job, const qci_piece *piece)
{
    qc_plan_piece out = {.fabric = piece->fabric,
                         .shape = piece->shape,
                         .rounded = piece->rounded,
                         .count = piece->count,
                         .spares = piece->spares,
                         .extra = piece->extra};

    for (int side = 0; side < 2; side++) {
        out.finished[side] = piece->finished[side];
        out.cut[side] = piece->cut[side];
        if (piece->trim)
            out.trim_to[side] = piece->finished[side]
                                    ? piece->finished[side] + 2 * job->seam
                                    : piece->cut[side] - piece->trim;
    }
    return out;
}

static qc_status copy_pieces(qc_plan *plan, const qc_job *job, qc_error *err)
{
    plan->pieces = qci_calloc(job->piece_count, sizeof *plan->pieces);
    if (!plan->pieces)
        return qci_no_memory(err);
    plan->piece_count = job->piece_count;
    for (size_t i = 0; i < job->piece_count; i++) {
        plan->pieces[i] = plan_piece(job, &job->pieces[i]);
        if (!copy_text(&plan->pieces[i].id, job->pieces[i].id))
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

static qc_status fill_subcut(qc_subcut *subcut, const qci_section *section,
                             const qci_demand *demand, qc_error *err)
{
    qc_stack *stacks = qci_calloc((size_t)section->stack_count, sizeof *stacks);

    subcut->stacks = stacks;
    if (!stacks)
        return qci_no_memory(err);
    subcut->count = (uint32_t)section->count;
    subcut->stack_count = (size_t)section->stack_count;
    for (size_t i = 0; i < subcut->stack_count; i++) {
        const qci_stack *stack = &section->stacks[i];
        const qci_form *form = &demand->forms[stack->form];

        stacks[i] = (qc_stack){.piece = demand->piece[form->row],
                               .count = (uint32_t)stack->count,
                               .turn = form->turn,
                               .width = form->width,
                               .height = form->height,
                               .yields = (uint32_t)demand->yield[form->row]};
        if (form->width > subcut->width)
            subcut->width = form->width;
    }
    return QC_STATUS_OK;
}

static qc_status fill_strip(qc_strip *strip, const qci_strip *packed,
                            const qci_demand *demand, qc_error *err)
{
    qc_subcut *subcuts = qci_calloc(packed->section_count, sizeof *subcuts);
    qc_status status = QC_STATUS_OK;

    strip->subcuts = subcuts;
    if (!subcuts)
        return qci_no_memory(err);
    strip->subcut_count = packed->section_count;
    strip->height = packed->height;
    strip->repeat = (uint32_t)packed->repeat;
    strip->cut_short = packed->cut_short;
    for (size_t i = 0; i < packed->section_count && !status; i++) {
        status = fill_subcut(&subcuts[i], &packed->sections[i], demand, err);
        strip->used_width += subcuts[i].width * subcuts[i].count;
    }
    return status;
}

static qc_status fill_strips(qci_plan_fabric *fabric, qci_found found,
                             qc_error *err)
{
    size_t count = found.packing->strip_count;
    qc_status status = QC_STATUS_OK;

    fabric->strips = qci_calloc(count, sizeof *fabric->strips);
    if (!fabric->strips)
        return qci_no_memory(err);
    fabric->info.strip_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        status = fill_strip(&fabric->strips[i], &found.packing->strips[i],
                            found.demand, err);
        fabric->info.setups += !fabric->strips[i].cut_short;
    }
    return status;
}

/* What `bought` costs, to the nearest ten-thousandth; the job keeps prices so
 * small that the product fits. */
static int64_t cost_of(const qci_fabric *cloth, qc_units units,
                       qc_length bought)
{
    qc_length unit = units == QC_UNITS_IN ? QC_YARD : QC_M;

    if (cloth->price == QC_DEFAULT)
        return QC_DEFAULT;
    return (bought * cloth->price + unit / 2) / unit;
}

/* The packing knows no prices: to it, money is the length bought. */
static qc_status fill_levels(qci_plan_fabric *fabric, const qci_fabric *cloth,
                             qc_units units, qci_found found, qc_error *err)
{
    size_t count = found.demand->goal_count;

    fabric->levels =
        qci_copy(found.packing->levels, count, sizeof *fabric->levels);
    if (!fabric->levels)
        return qci_no_memory(err);
    fabric->info.level_count = count;
    fabric->info.outcome = fabric->levels[0].outcome;
    for (size_t i = 0; i < count; i++) {
        qc_level *level = &fabric->levels[i];

        if (level->goal != QC_GOAL_MONEY)
            continue;
        level->value = cost_of(cloth, units, level->value);
        level->bound = cost_of(cloth, units, level->bound);
    }
    return QC_STATUS_OK;
}

static qc_plan_fabric plan_fabric(const qci_fabric *cloth, qc_units units,
                                  const qci_packing *packing)
{
    return (qc_plan_fabric){.usable_width = cloth->width,
                            .square_up = cloth->square_up,
                            .step = cloth->step,
                            .shrink_length = cloth->shrink_length,
                            .print = cloth->print,
                            .used = packing->used,
                            .bought = packing->bought,
                            .bound = packing->bound,
                            .hand_method = packing->hand_method,
                            .narrowest_width = packing->narrowest_width,
                            .narrowest_outcome = packing->narrowest_outcome,
                            .price = cloth->price,
                            .cost = cost_of(cloth, units, packing->bought)};
}

static qc_status fill_fabric(qc_plan *plan, const qc_job *job, uint32_t index,
                             qci_found found, qc_error *err)
{
    qci_plan_fabric *fabric = &plan->fabrics[index];
    const qci_fabric *cloth = &job->fabrics[index];
    qc_status status;

    fabric->info = plan_fabric(cloth, job->units, found.packing);
    if (!copy_text(&fabric->info.id, cloth->id) ||
        !copy_text(&fabric->info.name, cloth->name))
        return qci_no_memory(err);
    status = fill_levels(fabric, cloth, job->units, found, err);
    if (!status)
        status = fill_strips(fabric, found, err);
    if (!status)
        status = qci_leftovers_find(fabric, job->keep, err);
    if (!status)
        fabric->info.area = qci_area_account(plan, index);
    return status;
}

qc_status qci_plan_assemble(const qc_job *job, const qci_found *found,
                            qc_plan **out, qc_error *err)
{
    qc_plan *plan = qci_calloc(1, sizeof *plan);
    qc_status status;

    *out = NULL;
    if (!plan)
        return qci_no_memory(err);
    status = copy_head(plan, job, err);
    if (!status)
        status = copy_pieces(plan, job, err);
    if (status)
        goto done;
    plan->fabrics = qci_calloc(job->fabric_count, sizeof *plan->fabrics);
    if (!plan->fabrics) {
        status = qci_no_memory(err);
        goto done;
    }
    plan->fabric_count = job->fabric_count;
    for (uint32_t i = 0; i < job->fabric_count && !status; i++)
        status = fill_fabric(plan, job, i, found[i], err);
    if (status)
        goto done;
    *out = plan;
    plan = NULL;
done:
    qc_plan_destroy(plan);
    return status;
}
