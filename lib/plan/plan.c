/* Reading a plan, and ending it.
 *
 * The plan is one tree: a plan owns its fabrics, a fabric its strips, a strip
 * its subcuts, a subcut its stacks, a piece its outline, a strip set its
 * strips, and every node its texts. Nothing is
 * shared, so ending a plan is one walk. Rooms fill the tree from the top:
 * a count is trusted only where its array exists, and an array's elements are
 * zero until they are filled, so that a plan whose making failed half way is
 * ended by the same walk.
 */
#include "plan/plan.h"

#include "base/alloc.h"

/* Texts and lists are read-only for the caller, yet the plan's own. */
static void free_owned(const void *block)
{
    qci_free((void *)block);
}

static void clear_subcut(const qc_subcut *subcut)
{
    free_owned(subcut->stacks);
}

static void clear_strip(const qc_strip *strip)
{
    if (strip->subcuts) {
        for (size_t i = 0; i < strip->subcut_count; i++)
            clear_subcut(&strip->subcuts[i]);
    }
    free_owned(strip->subcuts);
}

static void clear_fabric(qci_plan_fabric *fabric)
{
    if (fabric->strips) {
        for (size_t i = 0; i < fabric->info.strip_count; i++)
            clear_strip(&fabric->strips[i]);
    }
    qci_free(fabric->strips);
    qci_free(fabric->levels);
    qci_free(fabric->leftovers);
    qci_proof_destroy(fabric->proof);
    free_owned(fabric->info.id);
    free_owned(fabric->info.name);
}

static void clear_piece(const qc_plan_piece *piece)
{
    free_owned(piece->id);
    free_owned(piece->job_id);
    free_owned(piece->role);
    free_owned(piece->outline);
}

static void clear_set(const qci_plan_set *set)
{
    qci_free(set->strips);
    free_owned(set->info.id);
    free_owned(set->info.job_id);
}

size_t qci_strip_setup(const qc_strip *strips, size_t index)
{
    while (index > 0 && (strips[index].cut_short || strips[index].alike))
        index--;
    return index;
}

bool qci_strip_has_hand(const qc_plan *plan, const qc_strip *strip)
{
    for (size_t i = 0; i < strip->subcut_count; i++) {
        const qc_subcut *subcut = &strip->subcuts[i];

        for (size_t k = 0; k < subcut->stack_count; k++)
            if (plan->pieces[subcut->stacks[k].piece].hand != QC_HAND_NONE)
                return true;
    }
    return false;
}

void qci_plan_clear_steps(qc_plan *plan)
{
    if (plan->steps) {
        for (size_t i = 0; i < plan->step_count; i++) {
            free_owned(plan->steps[i].source);
            free_owned(plan->steps[i].text);
        }
    }
    qci_free(plan->steps);
    plan->steps = NULL;
    plan->step_count = 0;
}

void qc_plan_destroy(qc_plan *plan)
{
    if (!plan)
        return;
    qci_plan_clear_steps(plan);
    if (plan->fabrics) {
        for (size_t i = 0; i < plan->fabric_count; i++)
            clear_fabric(&plan->fabrics[i]);
    }
    qci_free(plan->fabrics);
    if (plan->pieces) {
        for (size_t i = 0; i < plan->piece_count; i++)
            clear_piece(&plan->pieces[i]);
    }
    qci_free(plan->pieces);
    if (plan->blocks) {
        for (size_t i = 0; i < plan->block_count; i++) {
            free_owned(plan->blocks[i].id);
            free_owned(plan->blocks[i].name);
        }
    }
    qci_free(plan->blocks);
    for (size_t i = 0; plan->made && i < plan->made_count; i++)
        free_owned(plan->made[i].id);
    qci_free(plan->made);
    if (plan->sets) {
        for (size_t i = 0; i < plan->set_count; i++)
            clear_set(&plan->sets[i]);
    }
    qci_free(plan->sets);
    if (plan->defaults) {
        for (size_t i = 0; i < plan->default_count; i++)
            qci_free(plan->defaults[i]);
    }
    qci_free(plan->defaults);
    qci_free(plan->title);
    qci_free(plan);
}

const char *qc_plan_title(const qc_plan *plan)
{
    return plan->title ? plan->title : "";
}

qc_units qc_plan_units(const qc_plan *plan)
{
    return plan->units;
}

bool qc_plan_left_handed(const qc_plan *plan)
{
    return plan->left_handed;
}

qc_outcome qc_plan_outcome(const qc_plan *plan)
{
    for (size_t i = 0; i < plan->fabric_count; i++) {
        if (plan->fabrics[i].info.outcome != QC_OUTCOME_OPTIMAL)
            return QC_OUTCOME_FEASIBLE;
    }
    return QC_OUTCOME_OPTIMAL;
}

size_t qc_plan_fabric_count(const qc_plan *plan)
{
    return plan->fabric_count;
}

static const qci_plan_fabric *fabric_at(const qc_plan *plan, size_t fabric)
{
    return fabric < plan->fabric_count ? &plan->fabrics[fabric] : NULL;
}

const qc_plan_fabric *qc_plan_fabric_at(const qc_plan *plan, size_t fabric)
{
    const qci_plan_fabric *found = fabric_at(plan, fabric);

    return found ? &found->info : NULL;
}

const qc_level *qc_plan_level_at(const qc_plan *plan, size_t fabric,
                                 size_t level)
{
    const qci_plan_fabric *found = fabric_at(plan, fabric);

    return found && level < found->info.level_count ? &found->levels[level]
                                                    : NULL;
}

const qc_strip *qc_plan_strip_at(const qc_plan *plan, size_t fabric,
                                 size_t strip)
{
    const qci_plan_fabric *found = fabric_at(plan, fabric);

    return found && strip < found->info.strip_count ? &found->strips[strip]
                                                    : NULL;
}

const qc_leftover *qc_plan_leftover_at(const qc_plan *plan, size_t fabric,
                                       size_t leftover)
{
    const qci_plan_fabric *found = fabric_at(plan, fabric);

    return found && leftover < found->info.leftover_count
               ? &found->leftovers[leftover]
               : NULL;
}

size_t qc_plan_piece_count(const qc_plan *plan)
{
    return plan->piece_count;
}

const qc_plan_piece *qc_plan_piece_at(const qc_plan *plan, size_t piece)
{
    return piece < plan->piece_count ? &plan->pieces[piece] : NULL;
}

size_t qc_plan_unit_count(const qc_plan *plan)
{
    return plan->made_count;
}

const qc_plan_unit *qc_plan_unit_at(const qc_plan *plan, size_t unit)
{
    return unit < plan->made_count ? &plan->made[unit] : NULL;
}

size_t qc_plan_block_count(const qc_plan *plan)
{
    return plan->block_count;
}

const qc_plan_block *qc_plan_block_at(const qc_plan *plan, size_t block)
{
    return block < plan->block_count ? &plan->blocks[block] : NULL;
}

size_t qc_plan_set_count(const qc_plan *plan)
{
    return plan->set_count;
}

static const qci_plan_set *set_at(const qc_plan *plan, size_t set)
{
    return set < plan->set_count ? &plan->sets[set] : NULL;
}

const qc_plan_set *qc_plan_set_at(const qc_plan *plan, size_t set)
{
    const qci_plan_set *found = set_at(plan, set);

    return found ? &found->info : NULL;
}

const qc_set_strip *qc_plan_set_strip_at(const qc_plan *plan, size_t set,
                                         size_t strip)
{
    const qci_plan_set *found = set_at(plan, set);

    return found && strip < found->info.strip_count ? &found->strips[strip]
                                                    : NULL;
}

size_t qc_plan_step_count(const qc_plan *plan)
{
    return plan->step_count;
}

const qc_step *qc_plan_step_at(const qc_plan *plan, size_t step)
{
    return step < plan->step_count ? &plan->steps[step] : NULL;
}

size_t qc_plan_default_count(const qc_plan *plan)
{
    return plan->default_count;
}

const char *qc_plan_default_at(const qc_plan *plan, size_t index)
{
    return index < plan->default_count ? plan->defaults[index] : NULL;
}
