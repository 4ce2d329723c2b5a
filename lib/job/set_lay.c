/* How the strips of a set lie, and where they are cut across.
 *
 * x runs along the strips from the first one's left end, y up from its lower
 * raw edge. A seam takes its allowance from both strips, and the two allowances
 * lie on each other: a strip begins two of them below the upper edge of the one
 * before. A cut must run through every strip from raw edge to raw edge, also
 * where its allowance is hidden, or a seam would lack cloth at the segment's
 * side: where it begins at x, it is at x + lean * y / height when it has come
 * to y. That gives the first place where a cut may begin, and how far from the
 * far end the last one must stay; between the two, segments lie a pitch apart.
 * As many as fit the narrowest fabric make a full set; what is left is one
 * shorter set. Rounded once, so that every cut stays on cloth.
 *
 * A set whose cuts lean left is the mirror image, but x still runs from the
 * left end: its lean and its steps are negative (each strip begins further
 * left than the one below), the first cut needs the room that the last one
 * needs in the right-leaning set, and the other way round. */
#include <stdio.h>

#include "base/alloc.h"
#include "base/wide.h"
#include "job/set.h"
#include "length/ruler.h"
#include "shape/fixed.h"
#include "shape/shape.h"

static qc_length magnitude(qc_length length)
{
    return length < 0 ? -length : length;
}

static qc_length step_of(const qci_set_entry *e, size_t strip)
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

static void lay_strips(const qci_set_entry *e, bool left, qci_set *set)
{
    size_t count = e->spec->strip_count;
    qc_length seams = 2 * e->check->job->seam, y = 0, sign = left ? -1 : 1;

    set->info.strip_count = count;
    set->info.height = -seams * (qc_length)(count - 1);
    for (size_t i = 0; i < count; i++)
        set->info.height += e->width[i];
    set->info.lean = sign * qci_lean_of(set->info.height, e->angle);
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
        keep_on(&set->info, strip->offset, y + strip->width);
        y += strip->width - seams;
    }
}

/* Length of the strips for so many segments: on the ruler where that fits. */
static qc_length length_for(const qci_set_entry *e, const qc_plan_set *set,
                            int64_t segments)
{
    qc_length needed = set->first + segments * set->pitch + set->tail;
    qc_length marked = qci_ruler_up(needed, e->check->job->ruler);

    return marked < e->narrowest ? marked : e->narrowest;
}

static qc_status fail_short(const qci_set_entry *e, const qc_plan_set *set)
{
    qc_units units = e->check->job->units;
    qc_length needed =
        qci_ruler_up(set->first + set->pitch + set->tail, e->check->job->ruler);

    return qci_fail(
        e->check->err, QC_STATUS_IMPOSSIBLE,
        (qci_place){qci_set_path(e, NULL).text, e->spec->id},
        e->method   ? "wider fabric, or smaller blocks"
        : set->lean ? "wider fabric, fewer or narrower strips, a smaller "
                      "spacing, or another stagger"
                    : "wider fabric, a smaller spacing, or another stagger",
        "strip set %s needs about %s of length for its first %scut and one "
        "segment; the narrowest of its fabrics has %s",
        qci_short_of(e->spec->id).text, qci_show(needed, units).text,
        set->lean ? "slanted " : "", qci_show(e->narrowest, units).text);
}

static qc_status share_out(const qci_set_entry *e, qc_plan_set *set)
{
    set->pitch = qci_pitch_of(e->spacing, e->angle);
    set->spacing = e->spacing;
    set->angle = e->spec->angle == QC_DEFAULT ? 90 * QC_DEGREE : e->spec->angle;
    set->usable = e->narrowest;
    set->segments = e->segments;
    if (e->narrowest - set->first - set->tail < set->pitch)
        return fail_short(e, set);
    set->per_set = (e->narrowest - set->first - set->tail) / set->pitch;
    set->sets = e->segments / set->per_set;
    set->part_segments = e->segments % set->per_set;
    if (set->sets)
        set->full_length = length_for(e, set, set->per_set);
    if (set->part_segments)
        set->part_length = length_for(e, set, set->part_segments);
    return QC_STATUS_OK;
}

/* A segment that does not lean left, for its second cut. */
typedef struct segment {
    qc_length lean, height, pitch;
    qc_length side; /* length of its left side */
    qc_length at;   /* where up that side the cut begins */
} segment;

/* On which side of a cut at that angle a corner lies. */
static int side_of(const segment *s, int32_t angle, qc_point corner)
{
    qci_dir cut = qci_dir_at(angle);
    qci_wide x = (qci_wide)corner.x * s->side - (qci_wide)s->lean * s->at;
    qci_wide y = (qci_wide)corner.y * s->side - (qci_wide)s->height * s->at;
    qci_wide turn = y * cut.x - x * cut.y;
    /* A corner that is meant to be met may be missed by a few units. */
    qci_wide slack = ((qci_wide)4 * s->side) << QCI_ONE_BITS;

    return (turn > slack) - (turn < -slack);
}

/* Does the cut leave the segment on its right side, with cloth on both sides of
 * it? One along the lower or the upper edge cuts nothing off. */
static bool reaches_over(const segment *s, int32_t angle)
{
    int low = side_of(s, angle, (qc_point){s->pitch, 0});
    int high = side_of(s, angle, (qc_point){s->pitch + s->lean, s->height});

    if (low == 0)
        return side_of(s, angle, (qc_point){0, 0}) != 0;
    if (high == 0)
        return side_of(s, angle, (qc_point){s->lean, s->height}) != 0;
    return low != high;
}

/* The whole degrees, from `from` up to below `to`, that reach over; they are
 * one after the other. */
static void add_degrees(const segment *s, int32_t from, int32_t to,
                        qci_text *text)
{
    int32_t first = 0, last = 0;

    for (int32_t angle = from; angle < to; angle++) {
        if (!reaches_over(s, angle * QC_DEGREE))
            continue;
        first = first ? first : angle;
        last = angle;
    }
    if (!first)
        return;
    qci_text_printf(text, "%s%d", text->size ? " or " : "", (int)first);
    if (last > first)
        qci_text_printf(text, " to %d", (int)last);
}

/* Cuts that rise less than the left side, and those that fall to the right. */
static qc_status fail_second(const qci_set_entry *e, const segment *s)
{
    qci_text text = {0};
    char allowed[64] = "a cut from the left side to the right side";
    char *degrees;

    add_degrees(s, 1, (e->angle + QC_DEGREE - 1) / QC_DEGREE, &text);
    add_degrees(s, e->angle / QC_DEGREE + 1, 180, &text);
    degrees = qci_text_take(&text);
    if (!degrees)
        return qci_no_memory(e->check->err);
    if (*degrees)
        snprintf(allowed, sizeof allowed, "from there, about %s degrees",
                 degrees);
    qci_free(degrees);
    return qci_set_fail(e, "second.angle", allowed,
                        "makes a cut that does not go from the segment's left "
                        "side to its right side");
}

/* The second cut goes from the left side of a segment to its right side. */
static qc_status set_second(const qci_set_entry *e, qc_plan_set *set)
{
    segment s = {.lean = magnitude(set->lean),
                 .height = set->height,
                 .pitch = set->pitch,
                 .at = e->spec->second_at};
    qc_units units = e->check->job->units;
    int32_t angle = e->spec->second_angle;

    if (!angle)
        return QC_STATUS_OK;
    if (!qci_is_angle(angle))
        return qci_set_fail(e, "second.angle", "1 to 179 degrees",
                            "is no angle to cut at");
    s.side =
        qci_root((qci_wide)s.lean * s.lean + (qci_wide)s.height * s.height);
    if (s.at < 0 || s.at > s.side + 1)
        return qci_fail(
            e->check->err, QC_STATUS_INVALID,
            (qci_place){qci_set_path(e, "second.at").text,
                        qci_show(s.at, units).text},
            "a point of the segment's left side",
            "lies beyond the side, which is about %s long",
            qci_show(s.side - s.side % e->check->job->ruler, units).text);
    if (!reaches_over(&s, angle))
        return fail_second(e, &s);
    set->second_at = s.at;
    set->second_angle = angle;
    return QC_STATUS_OK;
}

/* The run of a cut over all strips must stay within what is reckoned with. */
static bool is_long(const qci_set_entry *e)
{
    qci_dir cut = qci_dir_at(e->angle);
    const int64_t most = QC_MAX_WIDTH;
    qci_wide height = 0;

    for (size_t i = 0; i < e->spec->strip_count; i++)
        height += e->width[i];
    return height > most || height * cut.x > (qci_wide)2 * most * cut.y;
}

qc_status qci_set_lay(const qci_set_entry *e, bool left, qci_set *set)
{
    qc_status status;

    if (is_long(e))
        return qci_set_fail(e, "angle",
                            "a steeper angle, or fewer or narrower strips",
                            "makes cuts that run over more than 10 m of strips "
                            "or more than 20 m along them");
    lay_strips(e, left, set);
    if (set->info.lean)
        set->info.hand = left ? QC_HAND_LEFT : QC_HAND_RIGHT;
    status = share_out(e, &set->info);
    return status ? status : set_second(e, &set->info);
}
