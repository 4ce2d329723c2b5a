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
#include "pack/sections.h"
#include "solve/area.h"
#include "solve/left.h"

static bool copy_text(const char **to, const char *from)
{
    *to = qci_strdup(from);
    return *to != NULL;
}

static qc_status copy_head(qc_plan *plan, const qc_job *job, bool left_handed,
                           qc_error *err)
{
    plan->units = job->units;
    plan->ruler = job->ruler;
    plan->seam = job->seam;
    plan->layers = job->layers;
    plan->left_handed = left_handed;
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

static qc_plan_piece plan_piece(const qci_piece *piece)
{
    qc_plan_piece out = {.fabric = piece->fabric,
                         .shape = piece->shape,
                         .rounded = piece->rounded,
                         .spares = piece->spares,
                         .hand = piece->hand,
                         .twin = piece->twin,
                         .angle = piece->angle,
                         .blunt = piece->blunt,
                         .facing_kept = piece->facing == QC_FACING_KEPT,
                         .strip_set = piece->strip_set,
                         .block = piece->block,
                         .in_each = piece->in_each,
                         .unit = piece->unit,
                         .patches = piece->patches};

    for (int side = 0; side < 3; side++)
        out.finished[side] = piece->finished[side];
    for (int side = 0; side < 2; side++) {
        out.cut[side] = piece->cut[side];
        out.trim_to[side] = piece->trim_to[side];
    }
    return out;
}

static qc_status copy_piece(qc_plan_piece *to, const qci_piece *from,
                            qc_error *err)
{
    size_t corners = from->outline_count * from->base_count;

    *to = plan_piece(from);
    if (!copy_text(&to->id, from->id) ||
        !copy_text(&to->job_id, from->job_id) ||
        (from->role && !copy_text(&to->role, from->role)))
        return qci_no_memory(err);
    if (!corners)
        return QC_STATUS_OK;
    to->outline = qci_copy(from->outline, corners, sizeof *from->outline);
    if (!to->outline)
        return qci_no_memory(err);
    to->outline_count = from->outline_count;
    to->base_count = from->base_count;
    return QC_STATUS_OK;
}

static qc_status copy_pieces(qc_plan *plan, const qc_job *job, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    plan->pieces = qci_calloc(job->piece_count, sizeof *plan->pieces);
    if (!plan->pieces)
        return qci_no_memory(err);
    plan->piece_count = job->piece_count;
    for (size_t i = 0; i < job->piece_count && !status; i++)
        status = copy_piece(&plan->pieces[i], &job->pieces[i], err);
    return status;
}

static qc_status copy_blocks(qc_plan *plan, const qc_job *job, qc_error *err)
{
    plan->blocks = qci_calloc(job->block_count, sizeof *plan->blocks);
    if (!plan->blocks)
        return qci_no_memory(err);
    plan->block_count = job->block_count;
    for (size_t i = 0; i < job->block_count; i++) {
        qc_plan_block *to = &plan->blocks[i];

        *to = job->blocks[i];
        to->id = to->name = NULL;
        if (!copy_text(&to->id, job->blocks[i].id) ||
            !copy_text(&to->name, job->blocks[i].name))
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

static qc_status copy_units(qc_plan *plan, const qc_job *job, qc_error *err)
{
    plan->made = qci_calloc(job->made_count, sizeof *plan->made);
    if (!plan->made)
        return qci_no_memory(err);
    plan->made_count = job->made_count;
    for (size_t i = 0; i < job->made_count; i++) {
        plan->made[i] = job->made[i];
        plan->made[i].id = NULL;
        if (!copy_text(&plan->made[i].id, job->made[i].id))
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

/* Seen from the other end: what leaned one way leans the other. */
static void mirror_set(qci_plan_set *set)
{
    qc_length first = set->info.first;

    set->info.first = set->info.tail;
    set->info.tail = first;
    set->info.lean = -set->info.lean;
    for (size_t i = 0; i < set->info.strip_count; i++)
        set->strips[i].offset = -set->strips[i].offset;
}

static qc_status copy_sets(qc_plan *plan, const qc_job *job, qc_error *err)
{
    plan->sets = qci_calloc(job->set_count, sizeof *plan->sets);
    if (!plan->sets)
        return qci_no_memory(err);
    plan->set_count = job->set_count;
    for (size_t i = 0; i < job->set_count; i++) {
        const qci_set *from = &job->sets[i];
        qci_plan_set *to = &plan->sets[i];

        to->info = from->info;
        to->info.id = to->info.job_id = NULL;
        to->info.strip_count = 0;
        to->strips = qci_copy(from->strips, from->info.strip_count,
                              sizeof *from->strips);
        if (!to->strips || !copy_text(&to->info.id, from->info.id) ||
            !copy_text(&to->info.job_id, from->info.job_id))
            return qci_no_memory(err);
        to->info.strip_count = from->info.strip_count;
        if (plan->left_handed)
            mirror_set(to);
    }
    return QC_STATUS_OK;
}

/* Leans are told away from the end that is worked from; the forms know them
 * from the left end on. */
static void fill_leans(qc_subcut *subcut, const qci_form *form,
                       bool left_handed)
{
    subcut->lean[0] = left_handed ? -form->right : form->left;
    subcut->lean[1] = left_handed ? -form->left : form->right;
    subcut->corners = (uint32_t)form->corners;
}

static qc_status fill_subcut(qc_subcut *subcut, const qci_section *section,
                             const qci_demand *demand, bool left_handed,
                             qc_error *err)
{
    qc_stack *stacks = qci_calloc((size_t)section->stack_count, sizeof *stacks);

    subcut->stacks = stacks;
    if (!stacks)
        return qci_no_memory(err);
    subcut->count = (uint32_t)section->count;
    subcut->alternate = section->alternate;
    subcut->stack_count = (size_t)section->stack_count;
    fill_leans(subcut, &demand->forms[section->stacks[0].form], left_handed);
    for (size_t i = 0; i < subcut->stack_count; i++) {
        const qci_stack *stack = &section->stacks[i];
        const qci_form *form = &demand->forms[stack->form];

        stacks[i] = (qc_stack){.piece = demand->piece[form->row],
                               .count = (uint32_t)stack->count,
                               .turn = form->turn,
                               .width = form->width,
                               .height = form->height,
                               .yields = (uint32_t)form->yields,
                               .base = form->base,
                               .mirrored = form->mirrored};
        if (form->width > subcut->width)
            subcut->width = form->width;
    }
    return QC_STATUS_OK;
}

static qc_status fill_subcuts(qc_strip *strip, const qci_section *sections,
                              const qci_demand *demand, bool left_handed,
                              qc_error *err)
{
    size_t count = strip->subcut_count;
    qc_subcut *subcuts = qci_calloc(count, sizeof *subcuts);
    qc_status status = QC_STATUS_OK;

    strip->subcuts = subcuts;
    if (!subcuts) {
        strip->subcut_count = 0;
        return qci_no_memory(err);
    }
    for (size_t i = 0; i < count && !status; i++)
        status =
            fill_subcut(&subcuts[i], &sections[i], demand, left_handed, err);
    return status;
}

static qc_status fill_strip(qc_strip *strip, const qci_strip *packed,
                            const qci_demand *demand, bool left_handed,
                            qc_error *err)
{
    qci_section *sections = packed->sections;
    qc_status status;

    if (left_handed)
        sections = qci_left_sections(demand, packed);
    if (!sections)
        return qci_no_memory(err);
    strip->subcut_count = packed->section_count;
    strip->height = packed->height;
    strip->repeat = (uint32_t)packed->repeat;
    strip->cut_short = packed->cut_short;
    strip->alike = packed->alike;
    strip->paired = packed->paired;
    strip->used_width = qci_sections_width(demand, packed);
    status = fill_subcuts(strip, sections, demand, left_handed, err);
    if (left_handed)
        qci_sections_destroy(sections, packed->section_count);
    return status;
}

static qc_status fill_strips(qci_plan_fabric *fabric, qci_found found,
                             bool left_handed, qc_error *err)
{
    size_t count = found.packing->strip_count;
    qc_status status = QC_STATUS_OK;

    fabric->strips = qci_calloc(count, sizeof *fabric->strips);
    if (!fabric->strips)
        return qci_no_memory(err);
    fabric->info.strip_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        status = fill_strip(&fabric->strips[i], &found.packing->strips[i],
                            found.demand, left_handed, err);
        fabric->info.setups += qci_strip_is_setup(&found.packing->strips[i]);
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

/* Pieces of a section's stack, over all copies of the strip. */
static int64_t fallen(const qc_strip *strip, const qc_subcut *subcut,
                      const qc_stack *stack)
{
    return (int64_t)strip->repeat * subcut->count * stack->count *
           stack->yields;
}

static void count_strip(qc_plan *plan, const qc_strip *strip)
{
    for (size_t i = 0; i < strip->subcut_count; i++)
        for (size_t k = 0; k < strip->subcuts[i].stack_count; k++) {
            const qc_stack *stack = &strip->subcuts[i].stacks[k];
            int64_t n = fallen(strip, &strip->subcuts[i], stack);
            uint32_t twin = plan->pieces[stack->piece].twin;

            if (strip->paired && twin != stack->piece) {
                plan->pieces[twin].count += n / 2;
                n /= 2;
            }
            plan->pieces[stack->piece].count += n;
        }
}

/* How many pieces fall out, which may be more than were asked for where a
 * square gives several. */
static void count_pieces(qc_plan *plan, const qc_job *job, uint32_t index)
{
    const qci_plan_fabric *fabric = &plan->fabrics[index];

    for (size_t i = 0; i < fabric->info.strip_count; i++)
        count_strip(plan, &fabric->strips[i]);
    for (size_t i = 0; i < plan->piece_count; i++) {
        qc_plan_piece *piece = &plan->pieces[i];

        if (piece->fabric != index)
            continue;
        piece->extra = piece->count - job->pieces[i].count;
        piece->spares += piece->extra;
    }
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
        status = fill_strips(fabric, found, plan->left_handed, err);
    if (!status)
        status = qci_leftovers_find(fabric, job->keep, err);
    if (status)
        return status;
    count_pieces(plan, job, index);
    fabric->info.area = qci_area_account(plan, job, index);
    return QC_STATUS_OK;
}

qc_status qci_plan_assemble(const qc_job *job, const qci_found *found,
                            bool left_handed, qc_plan **out, qc_error *err)
{
    qc_plan *plan = qci_calloc(1, sizeof *plan);
    qc_status status;

    *out = NULL;
    if (!plan)
        return qci_no_memory(err);
    status = copy_head(plan, job, left_handed, err);
    if (!status)
        status = copy_pieces(plan, job, err);
    if (!status)
        status = copy_blocks(plan, job, err);
    if (!status)
        status = copy_units(plan, job, err);
    if (!status)
        status = copy_sets(plan, job, err);
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
