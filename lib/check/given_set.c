/* Steps that sew strips into sets, and that cut the sets across: what they say,
 * checked field by field. Which way a set's ends are stepped is told by a hand,
 * as that of its segments is. */
#include "check/given.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

static const qci_range stagger_range = {0, QC_MAX_WIDTH, "0 to 10 m"};

/* What is sewn must lie as a strip does: cut squarely. */
static qc_status find_strip(const qci_given *e, size_t i)
{
    const qc_instructions *made = e->made;
    const char *word = e->spec->strips[i];
    uint32_t name = QC_NONE;
    qc_status status = qci_given_name(e, "strips", word, &name);

    if (status)
        return status;
    e->step->strips[i] = name;
    if (made->names[name].kind == QCI_NAMED_SETS)
        return qci_given_fail(e, "strips", word, "names of strips",
                              "is the name of sets that are sewn already");
    if (made->steps[made->names[name].origin].angle != 90 * QC_DEGREE)
        return qci_given_fail(e, "strips", word,
                              "names of strips, or of what is cut squarely",
                              "is cut at an angle");
    return QC_STATUS_OK;
}

static qc_status find_strips(const qci_given *e)
{
    size_t count = e->spec->strips ? e->spec->strip_count : 0;
    qc_status status = QC_STATUS_OK;

    if (count < 2 || count > QC_MAX_SET_STRIPS)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){qci_given_path(e, "strips").text, NULL},
                        "2 to 40 names", "has %zu entries", count);
    e->step->strips = qci_calloc(count, sizeof *e->step->strips);
    if (!e->step->strips)
        return qci_no_memory(e->check->err);
    e->step->strip_count = count;
    for (size_t i = 0; i < count && !status; i++)
        status = find_strip(e, i);
    return status;
}

/* What is for cuts of cloth alone. */
static qc_status refuse_others(const qci_given *e)
{
    const qc_instruction_spec *spec = e->spec;

    if (spec->fabric)
        return qci_given_fail(e, "fabric", NULL, NULL,
                              "is for strips alone: strips are sewn by their "
                              "names");
    if (spec->direction != QC_DIRECTION_DEFAULT)
        return qci_given_fail(e, "direction", NULL, NULL,
                              "is for cuts of strips");
    if (spec->alternate)
        return qci_given_fail(e, "alternate", NULL, NULL,
                              "is for cuts of strips");
    return QC_STATUS_OK;
}

qc_status qci_given_sew(const qci_given *e)
{
    const qc_instruction_spec *spec = e->spec;
    qc_status status = refuse_others(e);

    if (status)
        return status;
    if (spec->from || spec->piece || spec->angle != QC_DEFAULT)
        return qci_given_fail(e,
                              spec->from    ? "from"
                              : spec->piece ? "piece"
                                            : "angle",
                              NULL, NULL, "is not for sewing");
    if (!spec->name)
        return qci_given_fail(e, "name", NULL, "a name for the sets",
                              "is missing: there is no other way to cut them");
    status = find_strips(e);
    if (!status)
        status = qci_check_length(e->check, qci_given_path(e, "stagger").text,
                                  spec->stagger, stagger_range);
    if (!status && spec->size)
        status = qci_given_size(e, "width");
    e->step->stagger = spec->steps_left ? -spec->stagger : spec->stagger;
    return status;
}

/* A set of the job by the name that a plan gives it, or by its id there; of
 * both hands that which the cuts lean to. */
static uint32_t set_of(const qc_job *job, const char *id, bool left)
{
    uint32_t found = QC_NONE;

    for (size_t i = 0; i < job->set_count; i++)
        if (strcmp(job->sets[i].info.id, id) == 0)
            return (uint32_t)i;
    for (size_t i = 0; i < job->set_count; i++) {
        const qc_plan_set *set = &job->sets[i].info;

        if (strcmp(set->job_id, id) == 0 &&
            (found == QC_NONE || left == (set->hand == QC_HAND_LEFT)))
            found = (uint32_t)i;
    }
    return found;
}

static qc_status find_set(const qci_given *e)
{
    const qc_job *job = e->made->job;
    const char *id = e->spec->piece;
    const char *known[2 * QC_MAX_STRIP_SETS];

    if (!id)
        return qci_given_fail(e, "segment", NULL, "the id of a strip set",
                              "is missing");
    e->step->set = set_of(job, id, e->step->angle > 90 * QC_DEGREE);
    if (e->step->set == QC_NONE) {
        for (size_t i = 0; i < job->set_count; i++)
            known[i] = job->sets[i].info.job_id;
        return qci_given_unknown(e, "segment", id, known, job->set_count,
                                 "there is no such strip set");
    }
    return QC_STATUS_OK;
}

qc_status qci_given_crosscut(const qci_given *e)
{
    const qc_instruction_spec *spec = e->spec;
    qc_status status = refuse_others(e);

    if (!status)
        status = qci_given_name(e, "from", spec->from, &e->step->from);
    if (status)
        return status;
    if (e->made->names[e->step->from].kind != QCI_NAMED_SETS)
        return qci_given_fail(e, "from", spec->from, "a name that sew gave",
                              "is not sewn");
    if (spec->name)
        return qci_given_fail(e, "name", spec->name, NULL,
                              "is not for segments, which are cut no further");
    status = qci_given_size(e, "size");
    if (status)
        return status;
    e->step->along_edge = spec->along_edge;
    if (spec->angle == QC_DEFAULT && spec->along_edge)
        return qci_given_fail(e, "angle", NULL,
                              "a number of degrees, such as 45",
                              "is missing: only slanted cuts are measured "
                              "along the edge");
    if (spec->angle != QC_DEFAULT)
        status = qci_given_angle(e);
    return status ? status : find_set(e);
}
