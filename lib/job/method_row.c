/* Strip sets for patches in a row: each strip is as high as its patch is square
 * to the seams, and the crosscuts lie as far apart as the patches' sides, both
 * with seams. To be trimmed, the two outer strips are cut higher and the
 * crosscuts set farther apart; what lies between two seams cannot be trimmed.
 * Segments of both hands, as many of each, are a set in pairs; else each hand
 * is a set of its own. */
#include "base/alloc.h"
#include "base/text.h"
#include "job/set.h"
#include "job/use.h"
#include "length/ruler.h"

typedef struct row_set {
    const qci_making *making;
    qci_set_entry entry;
    qc_strip_set_spec spec;
    qc_set_strip_spec strips[QC_MAX_SET_STRIPS];
    qci_path path;
} row_set;

static void set_strip(row_set *r, size_t i)
{
    const qci_making *m = r->making;
    const qci_unit_part *part = &m->unit->parts[i];
    const qci_use *u = m->use;
    const qc_job *job = u->check->job;
    bool outer = i == 0 || i + 1 == m->unit->part_count;
    qc_length finished = qci_fine_up(part->high) + (outer ? m->trim : 0);
    qc_length exact = finished + 2 * job->seam;
    const qc_block_group *group = &u->block->groups[part->group].info;

    r->strips[i].width = finished;
    r->entry.fabric[i] = u->fabric[group->role];
    r->entry.shows[i] = part->half ? group->area / 2 : group->area;
    r->entry.width[i] = qci_ruler_up(exact, job->ruler);
    r->entry.rounded[i] =
        r->entry.width[i] != exact || !qci_fine_whole(part->high);
    if (job->fabrics[r->entry.fabric[i]].width < r->entry.narrowest)
        r->entry.narrowest = job->fabrics[r->entry.fabric[i]].width;
}

/* Of so many segments in each block, of one hand or of each. */
static qc_status add_set(row_set *r, qc_set_hands hands, int64_t each,
                         const char *suffix)
{
    const qci_making *m = r->making;
    const qci_use *u = m->use;
    int64_t needed = u->spec->count * each;
    qci_text text = {0};
    qc_status status;
    char *id;

    if (u->check->job->set_count >= QC_MAX_STRIP_SETS)
        return qci_use_fail(u, "methods", NULL, "fewer strip sets",
                            "make more than 200 strip sets");
    qci_text_printf(&text, "%s %s%s", qci_use_id(u), m->unit->id, suffix);
    id = qci_text_take(&text);
    if (!id)
        return qci_no_memory(u->check->err);
    r->spec.id = id;
    r->spec.hands = hands;
    r->spec.segments = needed;
    r->entry.segments = needed + qci_spares_of(u->check->spec, needed);
    status = qci_set_make(&r->entry);
    qci_free(id);
    return status;
}

qc_status qci_make_row(const qci_making *m)
{
    const qc_job *job = m->use->check->job;
    const qc_block_unit *info = &m->unit->info;
    row_set r = {.making = m,
                 .entry = {.check = m->use->check,
                           .block = (uint32_t)m->use->index,
                           .unit = m->made,
                           .angle = m->unit->angle,
                           .narrowest = QC_MAX_WIDTH},
                 .path = qci_method_path(m->use, m->method, NULL)};
    qc_status status;

    qc_strip_set_spec_init(&r.spec);
    r.spec.strips = r.strips;
    r.spec.strip_count = m->unit->part_count;
    r.spec.angle = m->unit->angle;
    r.spec.spacing = qci_ruler_up(
        qci_fine_up(m->unit->size[0]) + 2 * job->seam + m->trim, job->ruler);
    r.entry.spec = &r.spec;
    r.entry.spacing = r.spec.spacing;
    r.entry.method = &r.path;
    for (size_t i = 0; i < m->unit->part_count; i++)
        set_strip(&r, i);
    if (info->left == info->right && info->left)
        return add_set(&r, QC_SET_PAIRS, info->left, "");
    if (!info->left || !info->right)
        return add_set(&r, info->left ? QC_SET_LEFT : QC_SET_RIGHT, info->count,
                       "");
    status = add_set(&r, QC_SET_RIGHT, info->right, " right");
    return status ? status : add_set(&r, QC_SET_LEFT, info->left, " left");
}
