/* Sets and strips of the job, made of what a strip set of the spec asks for.
 *
 * A set that is wanted in pairs is two, named by their hands. The strips of a
 * set are rectangles that lie across the fabric: those of the full sets, and
 * those of the shorter set at the end. Strips that are alike are one kind of
 * piece, in whatever places and of whichever hand the sets they are for. Of
 * each counts as finished what its segments show of it. */
#include <string.h>

#include "base/alloc.h"
#include "job/set.h"

/* Names are compared pair by pair. */
#define MOST_PIECES 8000

/* Strips of one kind: where the first of them lies, and how many are cut. */
typedef struct strips {
    size_t place;
    bool end; /* for the shorter set */
    qc_length length;
    int64_t count;
    int64_t segments; /* that one is cut into */
} strips;

static char *set_name(const qci_set_entry *e, const char *hand)
{
    qci_text name = {0};

    qci_text_printf(&name, "%s%s%s", e->spec->id, *hand ? " " : "", hand);
    return qci_text_take(&name);
}

static bool are_alike(const qci_set_entry *e, size_t a, size_t b)
{
    return e->fabric[a] == e->fabric[b] && e->width[a] == e->width[b];
}

/* "S1 strip 2", or "S1 strip 1+3" where these are alike. */
static char *strip_name(const qci_set_entry *e, const strips *s)
{
    qci_text name = {0};

    qci_text_printf(&name, "%s strip %zu", e->spec->id, s->place + 1);
    for (size_t i = s->place + 1; i < e->spec->strip_count; i++)
        if (are_alike(e, s->place, i))
            qci_text_printf(&name, "+%zu", i + 1);
    qci_text_printf(&name, "%s", s->end ? " end" : "");
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
    qci_piece piece = {.fabric = e->fabric[s->place],
                       .shape = QC_SHAPE_RECTANGLE,
                       .twin = next,
                       .cut = {s->length, e->width[s->place]},
                       .finished_area = s->segments * e->shows[s->place],
                       .rounded = e->rounded[s->place],
                       .grain = QC_GRAIN_CROSSWISE,
                       .count = s->count,
                       .strip_set = (uint32_t)(set - job->sets),
                       .block = e->block,
                       .unit = e->unit};
    qc_status status;

    if (!s->count)
        return QC_STATUS_OK;
    piece.id = strip_name(e, s);
    piece.job_id = qci_strdup(e->spec->id);
    status = add_piece(e, piece);
    if (!status)
        *index = next;
    return status;
}

/* Strips that are alike, in all their places. */
static qc_status add_kind(const qci_set_entry *e, qci_set *set, size_t place)
{
    const qc_plan_set *info = &set->info;
    qc_set_strip *first = &set->strips[place];
    strips full = {place, false, info->full_length, 0, info->per_set};
    strips part = {place, true, info->part_length, 0, info->part_segments};
    qc_status status;

    for (size_t i = place; i < info->strip_count; i++)
        if (are_alike(e, place, i)) {
            full.count += info->sets;
            part.count += info->part_segments ? 1 : 0;
        }
    status = add_strips(e, set, &full, &first->full_piece);
    if (!status)
        status = add_strips(e, set, &part, &first->part_piece);
    return status;
}

static size_t first_alike(const qci_set_entry *e, size_t place)
{
    size_t first = 0;

    while (!are_alike(e, first, place))
        first++;
    return first;
}

static qc_status add_all_strips(const qci_set_entry *e, qci_set *set)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < set->info.strip_count && !status; i++) {
        const qc_set_strip *first = &set->strips[first_alike(e, i)];

        set->strips[i].full_piece = first->full_piece;
        set->strips[i].part_piece = first->part_piece;
        if (first == &set->strips[i])
            status = add_kind(e, set, i);
    }
    return status;
}

/* The other hand's set is as long, and has as many of the same strips. */
static void share_strips(qc_job *job, const qci_set *from, qci_set *to)
{
    for (size_t i = 0; i < to->info.strip_count; i++) {
        qc_set_strip *strip = &to->strips[i];

        strip->full_piece = from->strips[i].full_piece;
        strip->part_piece = from->strips[i].part_piece;
        if (strip->full_piece != QC_NONE)
            job->pieces[strip->full_piece].count += to->info.sets;
        if (strip->part_piece != QC_NONE)
            job->pieces[strip->part_piece].count++;
    }
}

/* Does a piece or another set have that name? */
static bool is_taken(const qc_job *job, const qci_set *set, const char *name)
{
    for (const qci_set *other = job->sets; other < set; other++)
        if (!strcmp(other->info.id, name))
            return true;
    return qci_job_has_name(job, name);
}

static qc_status fill_set(const qci_set_entry *e, bool left, const char *hand,
                          qci_set *set)
{
    qc_status status;

    set->info.id = set_name(e, hand);
    set->info.job_id = qci_strdup(e->spec->id);
    set->info.unit = e->unit;
    set->strips = qci_calloc(e->spec->strip_count, sizeof *set->strips);
    set->finished = qci_calloc(e->spec->strip_count, sizeof *set->finished);
    if (!set->info.id || !set->info.job_id || !set->strips || !set->finished)
        return qci_no_memory(e->check->err);
    for (size_t i = 0; i < e->spec->strip_count; i++)
        if (!e->spec->strips[i].is_cut)
            set->finished[i] = e->spec->strips[i].width;
    if (is_taken(e->check->job, set, set->info.id))
        return fail_name(e, set->info.id);
    status = qci_set_lay(e, left, set);
    if (status)
        return status;
    if (left && e->spec->hands == QC_SET_PAIRS)
        share_strips(e->check->job, set - 1, set);
    else
        status = add_all_strips(e, set);
    return status;
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
