/* Sets and strips of the job, made of what a strip set of the spec asks for.
 *
 * A set that is wanted in pairs is two, named by their hands. The strips of a
 * set are rectangles that lie across the fabric: for every place in the set,
 * those of the full sets, and one for the shorter set at the end. Of each
 * counts as finished what is left between its two seams, over its whole length;
 * the sections that are cut of it lose seams at their ends as well, but a
 * strip does not tell how many. */
#include <string.h>

#include "base/alloc.h"
#include "job/set.h"

/* Names are compared pair by pair. */
#define MOST_PIECES 8000

/* Strips of one kind: where they lie, and how many are cut. */
typedef struct strips {
    size_t place;
    bool end; /* for the shorter set */
    qc_length length;
    int64_t count;
} strips;

static char *set_name(const qci_set_entry *e, const char *hand)
{
    qci_text name = {0};

    qci_text_printf(&name, "%s%s%s", e->spec->id, *hand ? " " : "", hand);
    return qci_text_take(&name);
}

static char *strip_name(const qci_set *set, const strips *s)
{
    qci_text name = {0};

    qci_text_printf(&name, "%s strip %zu%s", set->info.id, s->place + 1,
                    s->end ? " end" : "");
    return qci_text_take(&name);
}

static qc_status fail_name(const qci_set_entry *e, const char *name)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_set_path(e, "id").text, e->spec->id},
                    "another id", "makes the name \"%s\", which is taken",
                    qci_short_of(name).text);
}

/* Hands a piece that has its names on to the job; ends it otherwise. */
static qc_status add_piece(const qci_set_entry *e, qci_piece piece)
{
    const qc_job *job = e->check->job;
    qc_status status = QC_STATUS_OK;

    if (!piece.id || !piece.job_id)
        status = qci_no_memory(e->check->err);
    else if (job->piece_count >= MOST_PIECES)
        status = qci_set_fail(e, "strips", "fewer strip sets",
                              "make more than 8000 kinds of strips and pieces");
    else if (qci_job_has_name(job, piece.id))
        status = fail_name(e, piece.id);
    if (!status)
        return qci_job_add_piece(e->check, piece);
    qci_piece_clear(&piece);
    return status;
}

/* *index: of the piece that they are in the job; as it was when there are none.
 */
static qc_status add_strips(const qci_set_entry *e, const qci_set *set,
                            const strips *s, uint32_t *index)
{
    const qc_job *job = e->check->job;
    uint32_t next = (uint32_t)job->piece_count;
    qc_length width = e->width[s->place];
    qci_piece piece = {.fabric = e->fabric[s->place],
                       .shape = QC_SHAPE_RECTANGLE,
                       .twin = next,
                       .cut = {s->length, width},
                       .rounded = e->rounded[s->place],
                       .grain = QC_GRAIN_CROSSWISE,
                       .count = s->count,
                       .strip_set = (uint32_t)(set - job->sets),
                       .block = QC_NONE};
    qc_status status;

    if (!s->count)
        return QC_STATUS_OK;
    piece.finished_area = s->length * (width - 2 * job->seam);
    piece.id = strip_name(set, s);
    piece.job_id = qci_strdup(e->spec->id);
    status = add_piece(e, piece);
    if (!status)
        *index = next;
    return status;
}

static qc_status add_all_strips(const qci_set_entry *e, qci_set *set)
{
    const qc_plan_set *info = &set->info;
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < info->strip_count && !status; i++) {
        strips full = {i, false, info->full_length, info->sets};
        strips part = {i, true, info->part_length, info->part_segments ? 1 : 0};

        status = add_strips(e, set, &full, &set->strips[i].full_piece);
        if (!status)
            status = add_strips(e, set, &part, &set->strips[i].part_piece);
    }
    return status;
}

static qc_status fill_set(const qci_set_entry *e, bool left, const char *hand,
                          qci_set *set)
{
    qc_status status;

    set->info.id = set_name(e, hand);
    set->info.job_id = qci_strdup(e->spec->id);
    set->strips = qci_calloc(e->spec->strip_count, sizeof *set->strips);
    if (!set->info.id || !set->info.job_id || !set->strips)
        return qci_no_memory(e->check->err);
    if (qci_job_has_name(e->check->job, set->info.id))
        return fail_name(e, set->info.id);
    status = qci_set_lay(e, left, set);
    return status ? status : add_all_strips(e, set);
}

static qc_status add_set(const qci_set_entry *e, bool left, const char *hand)
{
    qc_job *job = e->check->job;
    qci_set *grown =
        qci_realloc(job->sets, job->set_count + 1, sizeof *job->sets);

    if (!grown)
        return qci_no_memory(e->check->err);
    job->sets = grown;
    memset(&job->sets[job->set_count], 0, sizeof *job->sets);
    job->set_count++;
    return fill_set(e, left, hand, &job->sets[job->set_count - 1]);
}

/* A set of fabrics that differ in width is as long as the narrowest allows. */
static qc_status note_width(const qci_set_entry *e)
{
    const qc_job *job = e->check->job;
    qci_text text = {0};
    bool differ = false;

    for (size_t i = 0; i < e->spec->strip_count; i++)
        differ = differ || job->fabrics[e->fabric[i]].width != e->narrowest;
    if (!differ)
        return QC_STATUS_OK;
    qci_text_printf(&text,
                    "strips of set %s: as long as its narrowest fabric "
                    "allows, %s",
                    e->spec->id, qci_show(e->narrowest, job->units).text);
    return qci_note_sentence(e->check, &text);
}

static qc_status note_spacing(const qci_set_entry *e)
{
    qci_text text = {0};

    if (e->spec->spacing != QC_DEFAULT)
        return QC_STATUS_OK;
    qci_text_printf(&text, "spacing of set %s: the width of its strips, %s",
                    e->spec->id,
                    qci_show(e->spacing, e->check->job->units).text);
    return qci_note_sentence(e->check, &text);
}

qc_status qci_set_make(const qci_set_entry *e)
{
    bool pairs = e->spec->hands == QC_SET_PAIRS;
    qc_status status = QC_STATUS_OK;

    if (e->spec->hands != QC_SET_LEFT)
        status = add_set(e, false, pairs ? "right" : "");
    if (!status && e->spec->hands != QC_SET_RIGHT)
        status = add_set(e, true, pairs ? "left" : "");
    if (!status)
        status = note_spacing(e);
    return status ? status : note_width(e);
}
