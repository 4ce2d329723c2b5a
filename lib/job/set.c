/* Strip sets: strips sewn side by side, each end stepped along from its lower
 * neighbour's, then cut across into segments.
 *
 * x runs along the strips from the first one's left end, y up from its lower
 * raw edge. A seam takes its allowance from both strips, so an outer strip
 * shows its cut width less one allowance and an inner one its width less two. A
 * cut must run over all that shows within the cloth: where it begins at x, it
 * is at x + lean * y / height when it has come to y. That gives the first place
 * where a cut may begin, and how far from the far end the last one must stay;
 * between the two, segments lie a pitch apart. As many as fit the narrowest
 * fabric make a full set; what is left is one shorter set. Rounded once, so
 * that every cut stays on cloth. */
#include "job/set.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/text.h"
#include "base/wide.h"
#include "length/ruler.h"
#include "shape/fixed.h"
#include "shape/shape.h"

static const qci_range width_range = {1, QC_MAX_WIDTH,
                                      "more than 0, up to 10 m"};
static const qci_range step_range = {0, QC_MAX_WIDTH, "0 to 10 m"};
static const qci_range segment_range = {1, QC_MAX_COUNT, "1 to 1000000000"};

/* Names are compared pair by pair. */
#define MOST_PIECES 8000

typedef struct entry {
    const qci_check *check;
    const qc_strip_set_spec *spec;
    size_t index;
    int32_t angle; /* at most 90 degrees */
    bool left;     /* it was given as more: what is right leans left */
    qc_length spacing;
    int64_t segments;                   /* spares included */
    qc_length width[QC_MAX_SET_STRIPS]; /* cut */
    uint32_t fabric[QC_MAX_SET_STRIPS];
    qc_length narrowest; /* usable width of their fabrics */
} entry;

static qci_path path_of(const entry *e, const char *member)
{
    return qci_path_of("strip_sets", e->index, member);
}

static qci_path strip_path(const entry *e, size_t strip, const char *member)
{
    char name[40];

    snprintf(name, sizeof name, "strips[%zu].%s", strip, member);
    return path_of(e, name);
}

static qc_status fail(const entry *e, const char *member, const char *allowed,
                      const char *problem)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){path_of(e, member).text, NULL}, allowed, "%s",
                    problem);
}

static qc_status check_id(const entry *e)
{
    qci_path path = path_of(e, "id");
    const qc_job_spec *job = e->check->spec;
    qc_status status = qci_check_text(e->check, path.text, e->spec->id, 1);
    bool taken = false;

    if (status)
        return status;
    for (size_t i = 0; i < e->index; i++)
        taken = taken || strcmp(e->spec->id, job->strip_sets[i].id) == 0;
    for (size_t i = 0; i < job->piece_count && job->pieces; i++)
        taken = taken || strcmp(e->spec->id, job->pieces[i].id) == 0;
    if (!taken)
        return QC_STATUS_OK;
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){path.text, e->spec->id},
                    "an id of its own among pieces and strip sets",
                    "is also the id of another one");
}

static qc_status check_strip(entry *e, size_t i)
{
    const qc_job *job = e->check->job;
    const qc_set_strip_spec *strip = &e->spec->strips[i];
    qci_path path = strip_path(e, i, strip->is_cut ? "cut" : "finished");
    qc_length seams = 2 * job->seam, cut = strip->width;
    qc_status status =
        qci_find_fabric(e->check, strip_path(e, i, "fabric").text,
                        strip->fabric, &e->fabric[i]);

    if (!status)
        status =
            qci_check_length(e->check, path.text, strip->width, width_range);
    if (status)
        return status;
    if (!strip->is_cut)
        cut = qci_ruler_up(cut + seams, job->ruler);
    if (cut <= seams)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path.text, qci_show(cut, job->units).text},
                        "more than two seam allowances",
                        "leaves nothing between its seams");
    e->width[i] = cut;
    if (job->fabrics[e->fabric[i]].width < e->narrowest)
        e->narrowest = job->fabrics[e->fabric[i]].width;
    return QC_STATUS_OK;
}

static qc_status check_strips(entry *e)
{
    size_t count = e->spec->strips ? e->spec->strip_count : 0;

    if (count < 2 || count > QC_MAX_SET_STRIPS)
        return fail(e, "strips", "2 to 40 strips",
                    count == 1 ? "is one strip: there is nothing to sew"
                               : "is no list of strips");
    e->narrowest = QC_MAX_WIDTH;
    for (size_t i = 0; i < count; i++) {
        qc_status status = check_strip(e, i);

        if (status)
            return status;
    }
    return QC_STATUS_OK;
}

static qc_status check_angle(entry *e)
{
    int32_t angle = e->spec->angle;

    e->angle = angle == QC_DEFAULT ? 90 * QC_DEGREE : angle;
    if (e->angle <= 0 || e->angle >= 180 * QC_DEGREE)
        return fail(e, "angle", "more than 0 and less than 180 degrees",
                    "is no angle to cut across at");
    if ((int)e->spec->hands < QC_SET_RIGHT || e->spec->hands > QC_SET_PAIRS)
        return fail(e, "hand", "right, left or pairs", "is no hand");
    e->left = e->angle > 90 * QC_DEGREE;
    if (e->left && e->spec->second_angle)
        return fail(e, "second", "an angle of at most 90 degrees",
                    "is told by the segment that leans right");
    if (e->left)
        e->angle = 180 * QC_DEGREE - e->angle;
    if (e->angle == 90 * QC_DEGREE && e->spec->hands != QC_SET_RIGHT)
        return fail(e, "hand", "left out, or an angle that is not 90",
                    "is asked of square cuts, which have none");
    return QC_STATUS_OK;
}

static qc_status check_spacing(entry *e)
{
    e->spacing = e->spec->spacing;
    if (e->spacing == QC_DEFAULT) {
        for (size_t i = 1; i < e->spec->strip_count; i++)
            if (e->width[i] != e->width[0])
                return fail(e, "spacing", "a length",
                            "is left open, but the strips differ in width");
        e->spacing = e->width[0];
    }
    return qci_check_length(e->check, path_of(e, "spacing").text, e->spacing,
                            width_range);
}

static qc_status check_stagger(const entry *e)
{
    if ((int)e->spec->stagger < QC_STAGGER_AUTO ||
        e->spec->stagger > QC_STAGGER_LENGTH)
        return fail(e, "stagger", "auto, none, cut width or a length",
                    "is no stagger");
    if (e->spec->stagger != QC_STAGGER_LENGTH)
        return QC_STATUS_OK;
    return qci_check_length(e->check, path_of(e, "stagger").text,
                            e->spec->stagger_by, step_range);
}

static qc_status check_segments(entry *e)
{
    const qc_job_spec *job = e->check->spec;
    qc_status status = qci_check_number(e->check, path_of(e, "segments").text,
                                        e->spec->segments, segment_range);

    e->segments = e->spec->segments;
    if (job->spare_count > 0)
        e->segments += job->spare_count;
    if (job->spare_percent > 0)
        e->segments += (e->spec->segments * job->spare_percent + 9999) / 10000;
    if (!status && e->segments > QC_MAX_COUNT)
        return fail(e, "segments", segment_range.allowed,
                    "is too large with its spares");
    return status;
}

static qc_length magnitude(qc_length length)
{
    return length < 0 ? -length : length;
}

static qc_length step_of(const entry *e, size_t strip)
{
    qc_length width = e->width[strip];

    switch (e->spec->stagger) {
    case QC_STAGGER_NONE:
        return 0;
    case QC_STAGGER_LENGTH:
        return e->spec->stagger_by;
    case QC_STAGGER_WIDTH:
        return magnitude(qci_lean_of(width, e->angle));
    case QC_STAGGER_AUTO:
        break;
    }
    return magnitude(qci_lean_of(width - 2 * e->check->job->seam, e->angle));
}

static qc_length floor_part(qc_length lean, qc_length y, qc_length height)
{
    qci_wide run = (qci_wide)lean * y;

    return (qc_length)(run / height - (run % height < 0));
}

/* Raises first and tail so that cuts stay on a strip at height y. */
static void keep_on(qc_plan_set *set, qc_length offset, qc_length y)
{
    qc_length low = floor_part(set->lean, y, set->height);
    qc_length high = -floor_part(-set->lean, y, set->height);

    if (offset - low > set->first)
        set->first = offset - low;
    if (high - offset > set->tail)
        set->tail = high - offset;
}

static void lay_strips(const entry *e, bool left, qci_set *set)
{
    size_t count = e->spec->strip_count;
    qc_length seam = e->check->job->seam, y = 0, sign = left ? -1 : 1;

    set->info.height = -2 * seam * (qc_length)(count - 1);
    for (size_t i = 0; i < count; i++)
        set->info.height += e->width[i];
    set->info.lean = sign * magnitude(qci_lean_of(set->info.height, e->angle));
    for (size_t i = 0; i < count; i++) {
        qc_set_strip *strip = &set->strips[i];

        *strip = (qc_set_strip){.fabric = e->fabric[i],
                                .width = e->width[i],
                                .full_piece = QC_NONE,
                                .part_piece = QC_NONE};
        if (i)
            strip->offset =
                set->strips[i - 1].offset + sign * step_of(e, i - 1);
        keep_on(&set->info, strip->offset, y);
        y += strip->width - seam * ((i > 0) + (i + 1 < count));
        keep_on(&set->info, strip->offset, y);
    }
}

/* Length of the strips for so many segments: on the ruler where that fits. */
static qc_length length_for(const entry *e, const qc_plan_set *set,
                            int64_t segments)
{
    qc_length needed = set->first + segments * set->pitch + set->tail;
    qc_length marked = qci_ruler_up(needed, e->check->job->ruler);

    return marked < e->narrowest ? marked : e->narrowest;
}

static qc_status fail_short(const entry *e, const qc_plan_set *set)
{
    qc_units units = e->check->job->units;
    qc_length needed =
        qci_ruler_up(set->first + set->pitch + set->tail, e->check->job->ruler);

    return qci_fail(e->check->err, QC_STATUS_IMPOSSIBLE,
                    (qci_place){path_of(e, NULL).text, e->spec->id},
                    "wider fabric, fewer or narrower strips, or another "
                    "stagger",
                    "strip set %s needs about %s of length for its first "
                    "slanted cut and one segment; the narrowest of its fabrics "
                    "has %s",
                    qci_short_of(e->spec->id).text,
                    qci_show(needed, units).text,
                    qci_show(e->narrowest, units).text);
}

static qc_status share_out(const entry *e, qc_plan_set *set)
{
    set->pitch = qci_pitch_of(e->spacing, e->angle);
    set->spacing = e->spacing;
    set->angle = e->angle;
    set->usable = e->narrowest;
    set->segments = e->segments;
    set->per_set = (e->narrowest - set->first - set->tail) / set->pitch;
    if (set->per_set < 1 || e->narrowest < set->first + set->tail)
        return fail_short(e, set);
    set->sets = e->segments / set->per_set;
    set->part_segments = e->segments % set->per_set;
    if (set->sets)
        set->full_length = length_for(e, set, set->per_set);
    if (set->part_segments)
        set->part_length = length_for(e, set, set->part_segments);
    return QC_STATUS_OK;
}

/* On which side of the second cut a point lies: it begins `at` up the first
 * side, which is `side` long. */
static int side_of(const qc_plan_set *set, qc_length lean, qc_length side,
                   qc_point p)
{
    qci_dir cut = qci_dir_at(set->second_angle);
    qci_wide x = (qci_wide)p.x * side - (qci_wide)lean * set->second_at;
    qci_wide y = (qci_wide)p.y * side - (qci_wide)set->height * set->second_at;
    qci_wide turn = y * cut.x - x * cut.y;
    /* A corner that is meant to be met may be missed by a few units. */
    qci_wide slack = ((qci_wide)4 * side) << QCI_ONE_BITS;

    return (turn > slack) - (turn < -slack);
}

/* The second cut goes from the left side of a segment to its right side. */
static qc_status check_second(const entry *e, qc_plan_set *set)
{
    qc_length lean = qci_lean_of(set->height, e->angle);
    qc_length side = (qc_length)qci_root((qci_wide)lean * lean +
                                         (qci_wide)set->height * set->height);
    qc_point low = {set->pitch, 0}, high = {set->pitch + lean, set->height};

    if (!e->spec->second_angle)
        return QC_STATUS_OK;
    if (e->spec->second_angle < 0 || e->spec->second_angle >= 180 * QC_DEGREE)
        return fail(e, "second.angle", "more than 0 and less than 180 degrees",
                    "is no angle to cut at");
    if (e->spec->second_at < 0 || e->spec->second_at > side + 1)
        return qci_fail(
            e->check->err, QC_STATUS_INVALID,
            (qci_place){
                path_of(e, "second.at").text,
                qci_show(e->spec->second_at, e->check->job->units).text},
            "a point of the segment's left side",
            "lies beyond the side, which is about %s long",
            qci_show(side - side % e->check->job->ruler, e->check->job->units)
                .text);
    set->second_at = e->spec->second_at;
    set->second_angle = e->spec->second_angle;
    if (side_of(set, lean, side, low) * side_of(set, lean, side, high) > 0)
        return fail(e, "second",
                    "a cut from the segment's left side to its right side",
                    "does not reach the right side of the segment");
    return QC_STATUS_OK;
}

static char *name_of(const entry *e, const char *hand, size_t strip,
                     const char *end)
{
    qci_text name = {0};

    qci_text_printf(&name, "%s%s%s", e->spec->id, *hand ? " " : "", hand);
    if (strip)
        qci_text_printf(&name, " strip %zu%s%s", strip, *end ? " " : "", end);
    return qci_text_take(&name);
}

/* Strips of one length for one place in the sets; their index in the job. */
static qc_status add_strips(const entry *e, const char *hand, size_t strip,
                            qc_length length, int64_t count, uint32_t *index)
{
    bool part = *index == 1;
    qc_job *job = e->check->job;
    qci_piece piece = {.fabric = e->fabric[strip],
                       .shape = QC_SHAPE_RECTANGLE,
                       .twin = (uint32_t)job->piece_count,
                       .cut = {length, e->width[strip]},
                       .grain = QC_GRAIN_CROSSWISE,
                       .count = count,
                       .strip_set = (uint32_t)job->set_count};

    *index = QC_NONE;
    if (!count)
        return QC_STATUS_OK;
    piece.finished_area = length * (e->width[strip] - 2 * job->seam);
    piece.id = name_of(e, hand, strip + 1, part ? "end" : "");
    piece.job_id = qci_strdup(e->spec->id);
    if (!piece.id || !piece.job_id) {
        qci_piece_clear(&piece);
        return qci_no_memory(e->check->err);
    }
    if (job->piece_count >= MOST_PIECES) {
        qci_piece_clear(&piece);
        return fail(e, "strips", "fewer strip sets",
                    "make more than 8000 kinds of strips and pieces");
    }
    if (qci_job_has_name(job, piece.id)) {
        qci_piece_clear(&piece);
        return fail(e, "id", "another id",
                    "makes a name that another piece has");
    }
    *index = (uint32_t)job->piece_count;
    return qci_job_add_piece(e->check, piece);
}

static qc_status add_pieces(const entry *e, const char *hand, qci_set *set)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < e->spec->strip_count && !status; i++) {
        set->strips[i].full_piece = 0;
        set->strips[i].part_piece = 1;
        status = add_strips(e, hand, i, set->info.full_length, set->info.sets,
                            &set->strips[i].full_piece);
        if (!status)
            status = add_strips(e, hand, i, set->info.part_length,
                                set->info.part_segments ? 1 : 0,
                                &set->strips[i].part_piece);
    }
    return status;
}

/* The run of a cut over all strips must stay within what is reckoned with. */
static bool is_steep(const entry *e)
{
    qci_dir cut = qci_dir_at(e->angle);
    qci_wide height = 0;

    for (size_t i = 0; i < e->spec->strip_count; i++)
        height += e->width[i];
    return height > QC_MAX_WIDTH ||
           height * cut.x > (qci_wide)2 * QC_MAX_WIDTH * cut.y;
}

static qc_status fill_set(const entry *e, bool left, const char *hand,
                          qci_set *set)
{
    qc_status status;

    set->info.id = name_of(e, hand, 0, "");
    set->info.job_id = qci_strdup(e->spec->id);
    set->strips = qci_calloc(e->spec->strip_count, sizeof *set->strips);
    if (!set->info.id || !set->info.job_id || !set->strips)
        return qci_no_memory(e->check->err);
    set->info.strip_count = e->spec->strip_count;
    if (is_steep(e))
        return fail(e, "angle", "a steeper angle, or fewer or narrower strips",
                    "makes cuts that run on for more than 20 m");
    lay_strips(e, left, set);
    if (set->info.lean)
        set->info.hand = left ? QC_HAND_LEFT : QC_HAND_RIGHT;
    status = share_out(e, &set->info);
    if (!status)
        status = check_second(e, &set->info);
    return status ? status : add_pieces(e, hand, set);
}

static qc_status add_set(const entry *e, bool left, const char *hand)
{
    qc_job *job = e->check->job;
    qci_set *grown =
        qci_realloc(job->sets, job->set_count + 1, sizeof *job->sets);
    qc_status status;

    if (!grown)
        return qci_no_memory(e->check->err);
    job->sets = grown;
    memset(&job->sets[job->set_count], 0, sizeof *job->sets);
    status = fill_set(e, left, hand, &job->sets[job->set_count]);
    job->set_count++;
    return status;
}

/* A set of fabrics that differ in width is as long as the narrowest allows. */
static qc_status note_width(const entry *e)
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

static qc_status note_spacing(const entry *e)
{
    qci_text text = {0};

    if (e->spec->spacing != QC_DEFAULT)
        return QC_STATUS_OK;
    qci_text_printf(&text, "spacing of set %s: the width of its strips, %s",
                    e->spec->id,
                    qci_show(e->spacing, e->check->job->units).text);
    return qci_note_sentence(e->check, &text);
}

static qc_status make_sets(const entry *e)
{
    bool pairs = e->spec->hands == QC_SET_PAIRS;
    qc_status status = QC_STATUS_OK;
    qc_set_hands mine = e->left ? QC_SET_LEFT : QC_SET_RIGHT;

    if (pairs || e->spec->hands == mine)
        status = add_set(e, false, pairs ? "right" : "");
    if (!status && (pairs || e->spec->hands != mine))
        status = add_set(e, true, pairs ? "left" : "");
    if (!status)
        status = note_spacing(e);
    return status ? status : note_width(e);
}

qc_status qci_check_sets(const qci_check *check)
{
    size_t count = check->spec->strip_sets ? check->spec->strip_set_count : 0;

    if (count > QC_MAX_STRIP_SETS)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"strip_sets", NULL}, "at most 200",
                        "has %zu entries", count);
    for (size_t i = 0; i < count; i++) {
        entry e = {
            .check = check, .spec = &check->spec->strip_sets[i], .index = i};
        qc_status status;

        if ((status = check_id(&e)) || (status = check_strips(&e)) ||
            (status = check_angle(&e)) || (status = check_spacing(&e)) ||
            (status = check_stagger(&e)) || (status = check_segments(&e)) ||
            (status = make_sets(&e)))
            return status;
    }
    return QC_STATUS_OK;
}
