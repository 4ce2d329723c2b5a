/* The strip sets of a job: what is asked for, checked field by field.
 *
 * The hand says which way the cuts lean, so that an angle and what is left of
 * two right angles beside it mean the same set. Spares are segments, not
 * strips. Fabrics may differ in width: the narrowest rules. */
#include "job/set.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "length/ruler.h"
#include "shape/shape.h"

static const qci_range width_range = {1, QC_MAX_WIDTH,
                                      "more than 0, up to 10 m"};
static const qci_range step_range = {0, QC_MAX_WIDTH, "0 to 10 m"};
static const qci_range segment_range = {1, QC_MAX_COUNT, "1 to 1000000000"};

qci_path qci_set_path(const qci_set_entry *e, const char *member)
{
    if (e->method)
        return *e->method;
    return qci_path_of("strip_sets", e->index, member);
}

static qci_path strip_path(const qci_set_entry *e, size_t strip,
                           const char *member)
{
    char name[40];

    snprintf(name, sizeof name, "strips[%zu].%s", strip, member);
    return qci_set_path(e, name);
}

qc_status qci_set_fail(const qci_set_entry *e, const char *member,
                       const char *allowed, const char *problem)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_set_path(e, member).text, NULL}, allowed,
                    "%s", problem);
}

static qc_status fail_taken(const qci_set_entry *e, const char *list,
                            size_t index)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_set_path(e, "id").text, e->spec->id},
                    "an id of its own among pieces and strip sets",
                    "is also the id of %s[%zu]", list, index);
}

static qc_status check_id(const qci_set_entry *e)
{
    const qc_job_spec *job = e->check->spec;
    qc_status status =
        qci_check_text(e->check, qci_set_path(e, "id").text, e->spec->id, 1);

    if (status)
        return status;
    for (size_t i = 0; i < e->index; i++)
        if (strcmp(e->spec->id, job->strip_sets[i].id) == 0)
            return fail_taken(e, "strip_sets", i);
    for (size_t i = 0; i < job->piece_count && job->pieces; i++)
        if (strcmp(e->spec->id, job->pieces[i].id) == 0)
            return fail_taken(e, "pieces", i);
    return QC_STATUS_OK;
}

/* A finished width takes a seam on both sides and goes up to the ruler. */
static void set_width(qci_set_entry *e, size_t i)
{
    const qc_job *job = e->check->job;
    const qc_set_strip_spec *strip = &e->spec->strips[i];
    qc_length exact = strip->width + 2 * job->seam;

    e->width[i] = strip->width;
    e->rounded[i] = false;
    if (strip->is_cut)
        return;
    e->width[i] = qci_ruler_up(exact, job->ruler);
    e->rounded[i] = strip->width_rounded || e->width[i] != exact;
}

static qc_status check_strip(qci_set_entry *e, size_t i)
{
    const qc_job *job = e->check->job;
    const qc_set_strip_spec *strip = &e->spec->strips[i];
    qci_path path = strip_path(e, i, strip->is_cut ? "cut" : "finished");
    qc_status status =
        qci_find_fabric(e->check, strip_path(e, i, "fabric").text,
                        strip->fabric, &e->fabric[i]);

    if (!status)
        status =
            qci_check_length(e->check, path.text, strip->width, width_range);
    if (status)
        return status;
    if (strip->is_cut && strip->width_rounded)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path.text, NULL}, NULL,
                        "is taken as it is and must not have been rounded");
    set_width(e, i);
    if (e->width[i] <= 2 * job->seam)
        return qci_fail(
            e->check->err, QC_STATUS_INVALID,
            (qci_place){path.text, qci_show(e->width[i], job->units).text},
            "more than two seam allowances",
            "leaves nothing between its seams, which take %s",
            qci_show(2 * job->seam, job->units).text);
    if (job->fabrics[e->fabric[i]].width < e->narrowest)
        e->narrowest = job->fabrics[e->fabric[i]].width;
    return QC_STATUS_OK;
}

static qc_status check_strips(qci_set_entry *e)
{
    size_t count = e->spec->strips ? e->spec->strip_count : 0;

    if (count == 1)
        return qci_set_fail(e, "strips", "2 to 40 strips",
                            "is one strip: there is nothing to sew");
    if (count < 2 || count > QC_MAX_SET_STRIPS)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){qci_set_path(e, "strips").text, NULL},
                        "2 to 40 strips", "has %zu entries", count);
    e->narrowest = QC_MAX_WIDTH;
    for (size_t i = 0; i < count; i++) {
        qc_status status = check_strip(e, i);

        if (status)
            return status;
    }
    return QC_STATUS_OK;
}

static qc_status check_angle(qci_set_entry *e)
{
    const int32_t square = 90 * QC_DEGREE;
    int32_t angle = e->spec->angle;

    if (angle == QC_DEFAULT)
        angle = square;
    if (!qci_is_angle(angle))
        return qci_set_fail(e, "angle", "1 to 179 degrees",
                            "is no angle to cut across at");
    if ((int)e->spec->hands < QC_SET_RIGHT || e->spec->hands > QC_SET_PAIRS)
        return qci_set_fail(e, "hand", "right, left or pairs", "is no hand");
    if (angle == square && e->spec->hands != QC_SET_RIGHT)
        return qci_set_fail(e, "hand", "left out, or an angle that is not 90",
                            "is asked of square cuts, which have none");
    e->angle = angle > square ? 2 * square - angle : angle;
    if (angle > square && e->spec->second_angle)
        return qci_set_fail(e, "second",
                            "an angle of at most 90 degrees for the first "
                            "cuts; hand then says which way they lean",
                            "is told for segments that lean to the right, "
                            "but the first cuts are given as leaning left");
    return QC_STATUS_OK;
}

static qc_status check_spacing(qci_set_entry *e)
{
    e->spacing = e->spec->spacing;
    if (e->spacing == QC_DEFAULT) {
        for (size_t i = 1; i < e->spec->strip_count; i++)
            if (e->width[i] != e->width[0])
                return qci_set_fail(e, "spacing", "a length",
                                    "is left open, but the strips differ in "
                                    "cut width, so that none is the usual one");
        e->spacing = e->width[0];
    }
    return qci_check_length(e->check, qci_set_path(e, "spacing").text,
                            e->spacing, width_range);
}

static qc_status check_stagger(const qci_set_entry *e)
{
    if ((int)e->spec->stagger < QC_STAGGER_AUTO ||
        e->spec->stagger > QC_STAGGER_LENGTH)
        return qci_set_fail(e, "stagger", "auto, none, cut width or a length",
                            "is no stagger");
    if (e->spec->stagger != QC_STAGGER_LENGTH)
        return QC_STATUS_OK;
    return qci_check_length(e->check, qci_set_path(e, "stagger").text,
                            e->spec->stagger_by, step_range);
}

static qc_status check_segments(qci_set_entry *e)
{
    int64_t wanted = e->spec->segments;
    qc_status status = qci_check_number(
        e->check, qci_set_path(e, "segments").text, wanted, segment_range);
    char shown[32];

    if (status)
        return status;
    e->segments = wanted + qci_spares_of(e->check->spec, wanted);
    if (e->segments <= QC_MAX_COUNT)
        return QC_STATUS_OK;
    snprintf(shown, sizeof shown, "%" PRId64, wanted);
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_set_path(e, "segments").text, shown},
                    segment_range.allowed,
                    "is too large with its %" PRId64 " spares",
                    e->segments - wanted);
}

/* Within the seams on all four sides. */
static void note_shown(qci_set_entry *e)
{
    qc_length seams = 2 * e->check->job->seam;
    qc_length across =
        e->spacing > seams ? qci_pitch_of(e->spacing - seams, e->angle) : 0;

    for (size_t i = 0; i < e->spec->strip_count; i++)
        if (e->width[i] > seams)
            e->shows[i] = across * (e->width[i] - seams);
}

qc_status qci_check_sets(const qci_check *check)
{
    size_t count = check->spec->strip_sets ? check->spec->strip_set_count : 0;

    if (count > QC_MAX_STRIP_SETS)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"strip_sets", NULL}, "at most 200",
                        "has %zu entries", count);
    for (size_t i = 0; i < count; i++) {
        qci_set_entry e = {.check = check,
                           .spec = &check->spec->strip_sets[i],
                           .index = i,
                           .block = QC_NONE,
                           .unit = QC_NONE};
        qc_status status;

        if ((status = check_id(&e)) || (status = check_strips(&e)) ||
            (status = check_angle(&e)) || (status = check_spacing(&e)) ||
            (status = check_stagger(&e)) || (status = check_segments(&e)))
            return status;
        note_shown(&e);
        status = qci_set_make(&e);
        if (status)
            return status;
    }
    return QC_STATUS_OK;
}
