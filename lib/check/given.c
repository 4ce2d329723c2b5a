/* Steps that cut cloth: what they say, checked field by field.
 *
 * Each kind of step has fields of its own; what is not for it is refused, so
 * that nothing is read and then left unused. */
#include "check/given.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/nearest.h"

static const qci_range size_range = {1, QC_MAX_WIDTH,
                                     "more than 0, up to 10 m"};
static const qci_range count_range = {1, QC_MAX_COUNT, "1 to 1000000000"};

qci_path qci_given_path(const qci_given *e, const char *member)
{
    return qci_path_of("steps", e->index, member);
}

qc_status qci_given_fail(const qci_given *e, const char *member,
                         const char *value, const char *allowed,
                         const char *problem)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_given_path(e, member).text, value}, allowed,
                    "%s", problem);
}

qc_status qci_given_unknown(const qci_given *e, const char *member,
                            const char *word, const char *const *known,
                            size_t count, const char *what)
{
    const char *near = qci_nearest(word, known, count);

    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_given_path(e, member).text, word}, NULL,
                    "%s%s%s%s", what, near ? "; did you mean " : "",
                    near ? qci_short_of(near).text : "", near ? "?" : "");
}

static qc_status find_fabric(const qci_given *e)
{
    const char *id = e->spec->fabric;

    if (!id)
        return qci_given_fail(e, "fabric", NULL, "the id of a fabric",
                              "is missing");
    return qci_find_fabric(e->check, qci_given_path(e, "fabric").text, id,
                           &e->step->fabric);
}

/* What a plan calls it, or its id in the job where that is cut in one way. */
static uint32_t piece_of(const qc_job *job, const char *id)
{
    uint32_t found = QC_NONE;

    for (size_t i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].id, id) == 0)
            return (uint32_t)i;
    for (size_t i = 0; i < job->piece_count; i++) {
        if (strcmp(job->pieces[i].job_id, id) != 0)
            continue;
        if (found != QC_NONE)
            return QC_NONE;
        found = (uint32_t)i;
    }
    return found;
}

static qc_status find_piece(const qci_given *e)
{
    const qc_job *job = e->made->job;
    const char *known[QC_MAX_PIECES];
    size_t count =
        job->piece_count < QC_MAX_PIECES ? job->piece_count : QC_MAX_PIECES;

    if (!e->spec->piece)
        return QC_STATUS_OK;
    if (e->spec->name)
        return qci_given_fail(
            e, "piece", e->spec->piece, "a piece or a name",
            "is given beside a name, which is for what is cut on");
    e->step->piece = piece_of(job, e->spec->piece);
    if (e->step->piece == QC_NONE) {
        for (size_t i = 0; i < count; i++)
            known[i] = job->pieces[i].id;
        return qci_given_unknown(e, "piece", e->spec->piece, known, count,
                                 "there is no such piece");
    }
    return QC_STATUS_OK;
}

static qc_status check_number(const qci_given *e, const char *member,
                              int64_t value)
{
    return value == QC_DEFAULT
               ? QC_STATUS_OK
               : qci_check_number(e->check, qci_given_path(e, member).text,
                                  value, count_range);
}

static qc_status check_counts(const qci_given *e)
{
    const qc_instruction_spec *spec = e->spec;
    bool some = spec->kind == QC_INSTRUCTION_SUBCUT ||
                spec->kind == QC_INSTRUCTION_CROSSCUT;
    qc_status status;

    if (spec->kind == QC_INSTRUCTION_STRIPS && spec->count == QC_DEFAULT)
        return qci_given_fail(e, "count", NULL, count_range.allowed,
                              "is missing");
    if (spec->each != QC_DEFAULT && !some)
        return qci_given_fail(e, "each", NULL, NULL,
                              "is for sections and segments alone");
    if (spec->each != QC_DEFAULT && spec->count != QC_DEFAULT)
        return qci_given_fail(e, "each", NULL, "count or each",
                              "is given beside count");
    status = check_number(e, "count", spec->count);
    if (!status)
        status = check_number(e, "each", spec->each);
    e->step->count = spec->count;
    e->step->each = spec->each;
    return status;
}

static qc_status set_direction(const qci_given *e)
{
    bool strips = e->spec->kind == QC_INSTRUCTION_STRIPS;
    const qci_named *names = e->made->names;

    if (qci_is_whole(e->spec->kind))
        return QC_STATUS_OK;
    switch (e->spec->direction) {
    case QC_DIRECTION_DEFAULT:
        e->step->along =
            strips || names[e->step->from].kind != QCI_NAMED_STRIPS;
        return QC_STATUS_OK;
    case QC_DIRECTION_ACROSS:
    case QC_DIRECTION_ALONG:
        if (strips)
            return qci_given_fail(e, "direction", NULL, NULL,
                                  "is not for strips");
        e->step->along = e->spec->direction == QC_DIRECTION_ALONG;
        return QC_STATUS_OK;
    }
    return qci_given_fail(e, "direction", NULL, "across or along",
                          "is no direction");
}

/* A slant, and what goes with it; on strips, across their width. */
static qc_status set_slant(const qci_given *e)
{
    const qc_instruction_spec *spec = e->spec;
    bool square = spec->angle == QC_DEFAULT;

    e->step->angle = square ? 90 * QC_DEGREE : spec->angle;
    e->step->along_edge = spec->along_edge;
    e->step->alternate = spec->alternate;
    if (square && (spec->along_edge || spec->alternate))
        return qci_given_fail(
            e, "angle", NULL, "a number of degrees, such as 45",
            "is missing: only slanted cuts are measured along the "
            "edge, or turn every second section");
    if (square)
        return QC_STATUS_OK;
    if (spec->kind != QC_INSTRUCTION_SUBCUT || e->step->along)
        return qci_given_fail(e, "angle", NULL, NULL,
                              "is for cuts across strips");
    return qci_given_angle(e);
}

qc_status qci_given_angle(const qci_given *e)
{
    e->step->angle = e->spec->angle;
    return qci_is_angle(e->spec->angle)
               ? QC_STATUS_OK
               : qci_given_fail(e, "angle", NULL, "1 to 179 degrees",
                                "is too flat to be cut");
}

qc_status qci_given_size(const qci_given *e, const char *member)
{
    return e->spec->size
               ? qci_check_length(e->check, qci_given_path(e, member).text,
                                  e->spec->size, size_range)
               : qci_given_fail(e, member, NULL, size_range.allowed,
                                "is missing, or 0");
}

/* What takes cloths whole, or makes triangles, needs no size. */
static bool needs_no_size(const qc_instruction_spec *spec)
{
    return !spec->size && (qci_is_whole(spec->kind) || spec->alternate);
}

static qc_status set_times(const qci_given *e)
{
    e->step->times = e->spec->times;
    if (e->spec->kind == QC_INSTRUCTION_DIAGONAL && e->spec->times != 1 &&
        e->spec->times != 2)
        return qci_given_fail(e, "times", NULL, "1 or 2",
                              "is no number of diagonals");
    return QC_STATUS_OK;
}

/* What is cut: a fabric, or what has a name. */
static qc_status find_cloth(const qci_given *e)
{
    bool strips = e->spec->kind == QC_INSTRUCTION_STRIPS;
    qc_status status;

    if (strips && e->spec->from)
        return qci_given_fail(e, "from", NULL, NULL,
                              "is not for strips, which are cut from a fabric");
    if (!strips && e->spec->fabric)
        return qci_given_fail(e, "fabric", NULL, NULL,
                              "is for strips alone: say from what it is cut");
    if (strips)
        return find_fabric(e);
    status = qci_given_name(e, "from", e->spec->from, &e->step->from);
    if (status)
        return status;
    e->step->fabric = e->made->names[e->step->from].fabric;
    if (e->made->names[e->step->from].kind == QCI_NAMED_SETS)
        return qci_given_fail(
            e, "from", e->spec->from, "strips, or what is cut from them",
            "is the name of sewn sets, which are cut by crosscut");
    return QC_STATUS_OK;
}

/* A step that cuts cloth; counts are read. */
static qc_status make_cut(const qci_given *e)
{
    const char *size =
        e->spec->kind == QC_INSTRUCTION_STRIPS ? "width" : "size";
    qc_status status;

    if (e->spec->strip_count || e->spec->stagger || e->spec->steps_left)
        return qci_given_fail(e, "strips", NULL, NULL,
                              "are sewn: this is a cut");
    if ((status = find_cloth(e)) || (status = set_direction(e)) ||
        (status = set_slant(e)))
        return status;
    if (!needs_no_size(e->spec) && (status = qci_given_size(e, size)))
        return status;
    status = set_times(e);
    return status ? status : find_piece(e);
}

qc_status qci_given_make(const qci_given *e)
{
    qc_status status;

    *e->step = (qci_instruction){.kind = e->spec->kind,
                                 .fabric = QC_NONE,
                                 .from = QC_NONE,
                                 .gives = QC_NONE,
                                 .piece = QC_NONE,
                                 .set = QC_NONE,
                                 .angle = 90 * QC_DEGREE,
                                 .size = e->spec->size};
    if (e->spec->kind < QC_INSTRUCTION_STRIPS ||
        e->spec->kind > QC_INSTRUCTION_TRIM)
        return qci_given_fail(e, "do", NULL,
                              "strips, subcut, diagonal, sew, crosscut or trim",
                              "is no instruction");
    status = check_counts(e);
    if (status)
        return status;
    switch (e->spec->kind) {
    case QC_INSTRUCTION_SEW:
        status = qci_given_sew(e);
        break;
    case QC_INSTRUCTION_CROSSCUT:
        status = qci_given_crosscut(e);
        break;
    default:
        status = make_cut(e);
    }
    return status ? status : qci_given_give_name(e);
}
