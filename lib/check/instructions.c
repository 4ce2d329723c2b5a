/* From a spec of instructions to instructions.
 *
 * The job within is made by the job room, twice: as it is, and with a ruler
 * that shows every length, which tells how small a piece may be at the least.
 * Steps are read in order, so that a name can only mean what an earlier step
 * has cut. Names are compared one by one: at most QC_MAX_INSTRUCTIONS of them.
 */
#include "check/instructions.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/known.h"
#include "base/nearest.h"
#include "check/right.h"
#include "job/check.h"

static const qci_range size_range = {1, QC_MAX_WIDTH,
                                     "more than 0, up to 10 m"};
static const qci_range claim_range = {1, QC_LENGTH_MAX,
                                      "more than 0, up to 4294.967296 m"};
static const qci_range count_range = {1, QC_MAX_COUNT, "1 to 1000000000"};

/* What is read, and what has been made of it so far. */
typedef struct maker {
    const qc_instructions_spec *spec;
    qc_instructions *made;
    qci_check check; /* for the job room's checks of single values */
} maker;

/* One step of it. */
typedef struct entry {
    maker *m;
    const qc_instruction_spec *spec;
    size_t index;
    qci_instruction *step;
} entry;

void qc_instructions_spec_init(qc_instructions_spec *spec)
{
    memset(spec, 0, sizeof *spec);
    spec->struct_size = (uint32_t)sizeof *spec;
}

void qc_instruction_spec_init(qc_instruction_spec *spec)
{
    memset(spec, 0, sizeof *spec);
    spec->count = QC_DEFAULT;
    spec->each = QC_DEFAULT;
    spec->direction = QC_DIRECTION_DEFAULT;
    spec->angle = QC_DEFAULT;
    spec->times = 1;
}

static qci_path path_of(const entry *e, const char *member)
{
    return qci_path_of("steps", e->index, member);
}

static qc_status fail(const entry *e, const char *member, const char *value,
                      const char *allowed, const char *problem)
{
    return qci_fail(e->m->check.err, QC_STATUS_INVALID,
                    (qci_place){path_of(e, member).text, value}, allowed, "%s",
                    problem);
}

/* `given` is not among the known names, of which there may be none. */
static qc_status fail_unknown(const entry *e, const char *member,
                              const char *given, const char *const *known,
                              size_t count, const char *what)
{
    const char *near = qci_nearest(given, known, count);

    return qci_fail(e->m->check.err, QC_STATUS_INVALID,
                    (qci_place){path_of(e, member).text, given}, NULL,
                    "%s%s%s%s", what, near ? "; did you mean " : "",
                    near ? qci_short_of(near).text : "", near ? "?" : "");
}

static qc_status find_fabric(const entry *e)
{
    const char *id = e->spec->fabric;

    if (!id)
        return fail(e, "fabric", NULL, "the id of a fabric", "is missing");
    return qci_find_fabric(&e->m->check, path_of(e, "fabric").text, id,
                           &e->step->fabric);
}

/* The index of a name that an earlier step gave; QC_NONE. */
static uint32_t index_of(const qc_instructions *made, const char *name)
{
    for (size_t i = 0; i < made->name_count; i++)
        if (strcmp(made->names[i].name, name) == 0)
            return (uint32_t)i;
    return QC_NONE;
}

static qc_status find_from(const entry *e)
{
    const qc_instructions *made = e->m->made;
    const char *known[QC_MAX_INSTRUCTIONS];

    if (!e->spec->from)
        return fail(e, "from", NULL, "a name that a step before it gave",
                    "is missing");
    e->step->from = index_of(made, e->spec->from);
    if (e->step->from != QC_NONE) {
        e->step->fabric = made->names[e->step->from].fabric;
        return QC_STATUS_OK;
    }
    for (size_t i = 0; i < made->name_count; i++)
        known[i] = made->names[i].name;
    return fail_unknown(e, "from", e->spec->from, known, made->name_count,
                        "no step before it gave this name");
}

static qc_status check_named(const entry *e, const qci_named *known)
{
    if (known->fabric != e->step->fabric)
        return fail(e, "name", e->spec->name, "a name of its own",
                    "is already the name of what is cut from another fabric");
    if (known->strips != (e->step->kind == QC_INSTRUCTION_STRIPS))
        return fail(e, "name", e->spec->name, "a name of its own",
                    known->strips ? "is already the name of whole strips"
                                  : "is already the name of what is cut from "
                                    "strips");
    if (e->step->from == e->step->gives)
        return fail(e, "name", e->spec->name, "a name of its own",
                    "is also the name of what is cut");
    return QC_STATUS_OK;
}

static qc_status give_name(const entry *e)
{
    qc_instructions *made = e->m->made;
    const char *name = e->spec->name;
    qci_named *new = &made->names[made->name_count];
    qc_status status;

    if (!name)
        return QC_STATUS_OK;
    status = qci_check_text(&e->m->check, path_of(e, "name").text, name, 1);
    if (status)
        return status;
    e->step->gives = index_of(made, name);
    if (e->step->gives != QC_NONE)
        return check_named(e, &made->names[e->step->gives]);
    new->name = qci_strdup(name);
    if (!new->name)
        return qci_no_memory(e->m->check.err);
    new->fabric = e->step->fabric;
    new->origin = (uint32_t)e->index;
    new->strips = e->step->kind == QC_INSTRUCTION_STRIPS;
    e->step->gives = (uint32_t)made->name_count++;
    return QC_STATUS_OK;
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

/* Shapes whose cuts instructions can tell. */
static qc_status check_shape(const entry *e)
{
    const qci_piece *piece = &e->m->made->job->pieces[e->step->piece];

    switch (piece->shape) {
    case QC_SHAPE_HEXAGON:
    case QC_SHAPE_KITE:
        break;
    case QC_SHAPE_POLYGON:
        if (qci_right_is(piece))
            return QC_STATUS_OK;
        break;
    default:
        if (!piece->blunt)
            return QC_STATUS_OK;
    }
    return fail(e, "piece", e->spec->piece,
                "all shapes but hexagons, kites, blunt tips, and polygons that "
                "are not half of a rectangle",
                "has a shape whose cuts instructions cannot tell yet");
}

static qc_status find_piece(const entry *e)
{
    const qc_job *job = e->m->made->job;
    const char *known[QC_MAX_PIECES];
    size_t count =
        job->piece_count < QC_MAX_PIECES ? job->piece_count : QC_MAX_PIECES;

    if (!e->spec->piece)
        return QC_STATUS_OK;
    if (e->spec->name)
        return fail(e, "piece", e->spec->piece, "a piece or a name",
                    "is given beside a name, which is for what is cut on");
    e->step->piece = piece_of(job, e->spec->piece);
    if (e->step->piece == QC_NONE) {
        for (size_t i = 0; i < count; i++)
            known[i] = job->pieces[i].id;
        return fail_unknown(e, "piece", e->spec->piece, known, count,
                            "there is no such piece");
    }
    return check_shape(e);
}

static qc_status check_number(const entry *e, const char *member, int64_t value)
{
    return value == QC_DEFAULT
               ? QC_STATUS_OK
               : qci_check_number(&e->m->check, path_of(e, member).text, value,
                                  count_range);
}

static qc_status check_counts(const entry *e)
{
    const qc_instruction_spec *spec = e->spec;
    bool strips = spec->kind == QC_INSTRUCTION_STRIPS;
    qc_status status;

    if (strips && spec->count == QC_DEFAULT)
        return fail(e, "count", NULL, count_range.allowed, "is missing");
    if (spec->each != QC_DEFAULT && (strips || spec->count != QC_DEFAULT))
        return fail(e, "each", NULL, "of subcuts: count or each",
                    strips ? "is not for strips" : "is given beside count");
    if (spec->each != QC_DEFAULT && spec->kind == QC_INSTRUCTION_DIAGONAL)
        return fail(e, "each", NULL, NULL, "is not for diagonal cuts");
    status = check_number(e, "count", spec->count);
    if (!status)
        status = check_number(e, "each", spec->each);
    e->step->count = spec->count;
    e->step->each = spec->each;
    return status;
}

static qc_status set_direction(const entry *e)
{
    bool strips = e->spec->kind == QC_INSTRUCTION_STRIPS;
    const qci_named *names = e->m->made->names;

    if (e->spec->kind == QC_INSTRUCTION_DIAGONAL)
        return QC_STATUS_OK;
    switch (e->spec->direction) {
    case QC_DIRECTION_DEFAULT:
        e->step->along = strips || !names[e->step->from].strips;
        return QC_STATUS_OK;
    case QC_DIRECTION_ACROSS:
    case QC_DIRECTION_ALONG:
        if (strips)
            return fail(e, "direction", NULL, NULL, "is not for strips");
        e->step->along = e->spec->direction == QC_DIRECTION_ALONG;
        return QC_STATUS_OK;
    }
    return fail(e, "direction", NULL, "across or along", "is no direction");
}

/* A slant, and what goes with it; on strips, across their width. */
static qc_status set_slant(const entry *e)
{
    const qc_instruction_spec *spec = e->spec;
    bool square = spec->angle == QC_DEFAULT;

    e->step->angle = square ? 90 * QC_DEGREE : spec->angle;
    e->step->along_edge = spec->along_edge;
    e->step->alternate = spec->alternate;
    if (square && (spec->along_edge || spec->alternate))
        return fail(e, "angle", NULL, "a number of degrees, such as 45",
                    "is missing: only slanted cuts are measured along the "
                    "edge, or turn every second section");
    if (square)
        return QC_STATUS_OK;
    if (spec->kind != QC_INSTRUCTION_SUBCUT || e->step->along)
        return fail(e, "angle", NULL, NULL, "is for cuts across strips");
    if (spec->angle < QC_DEGREE || spec->angle > 179 * QC_DEGREE)
        return fail(e, "angle", NULL, "1 to 179 degrees",
                    "is too flat to be cut");
    return QC_STATUS_OK;
}

static qc_status check_size(const entry *e)
{
    const qc_instruction_spec *spec = e->spec;
    const char *name = spec->kind == QC_INSTRUCTION_STRIPS ? "width" : "size";

    if (spec->size)
        return qci_check_length(&e->m->check, path_of(e, name).text, spec->size,
                                size_range);
    if (spec->kind == QC_INSTRUCTION_DIAGONAL || spec->alternate)
        return QC_STATUS_OK;
    return fail(e, name, NULL, size_range.allowed, "is missing, or 0");
}

static qc_status set_times(const entry *e)
{
    e->step->times = e->spec->times;
    if (e->spec->kind == QC_INSTRUCTION_DIAGONAL && e->spec->times != 1 &&
        e->spec->times != 2)
        return fail(e, "times", NULL, "1 or 2", "is no number of diagonals");
    return QC_STATUS_OK;
}

/* What is cut: a fabric, or what has a name. */
static qc_status find_cloth(const entry *e)
{
    bool strips = e->spec->kind == QC_INSTRUCTION_STRIPS;

    if (strips && e->spec->from)
        return fail(e, "from", NULL, NULL,
                    "is not for strips, which are cut from a fabric");
    if (!strips && e->spec->fabric)
        return fail(e, "fabric", NULL, NULL,
                    "is for strips alone: say from what it is cut");
    return strips ? find_fabric(e) : find_from(e);
}

static qc_status make_step(const entry *e)
{
    qc_status status;

    *e->step = (qci_instruction){.kind = e->spec->kind,
                                 .from = QC_NONE,
                                 .gives = QC_NONE,
                                 .piece = QC_NONE,
                                 .size = e->spec->size};
    if (e->spec->kind < QC_INSTRUCTION_STRIPS ||
        e->spec->kind > QC_INSTRUCTION_DIAGONAL)
        return fail(e, "do", NULL, "strips, subcut or diagonal",
                    "is no instruction");
    if ((status = find_cloth(e)) || (status = check_counts(e)) ||
        (status = set_direction(e)) || (status = set_slant(e)) ||
        (status = check_size(e)) || (status = set_times(e)) ||
        (status = find_piece(e)))
        return status;
    return give_name(e);
}

static qc_status make_steps(maker *m)
{
    size_t count = m->spec->steps ? m->spec->step_count : 0;
    qc_instructions *made = m->made;
    qc_status status = QC_STATUS_OK;

    if (count < 1 || count > QC_MAX_INSTRUCTIONS)
        return qci_fail(m->check.err, QC_STATUS_INVALID,
                        (qci_place){"steps", NULL}, "1 to 500 steps",
                        "has %zu entries", count);
    made->steps = qci_calloc(count, sizeof *made->steps);
    made->names = qci_calloc(count, sizeof *made->names);
    if (!made->steps || !made->names)
        return qci_no_memory(m->check.err);
    made->step_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        entry e = {m, &m->spec->steps[i], i, &made->steps[i]};

        status = make_step(&e);
    }
    return status;
}

static qc_status make_claim(maker *m, size_t index)
{
    const qc_claim_spec *claim = &m->spec->claims[index];
    qci_path fabric = qci_path_of("claimed", index, "fabric");
    qci_path length = qci_path_of("claimed", index, "length");
    uint32_t at = 0;
    qc_status status;

    if (!claim->fabric)
        return qci_fail(m->check.err, QC_STATUS_INVALID,
                        (qci_place){fabric.text, NULL}, "the id of a fabric",
                        "is missing");
    status = qci_find_fabric(&m->check, fabric.text, claim->fabric, &at);
    if (!status)
        status = qci_check_length(&m->check, length.text, claim->length,
                                  claim_range);
    if (!status && m->made->claimed[at] != QC_DEFAULT)
        status = qci_fail(m->check.err, QC_STATUS_INVALID,
                          (qci_place){fabric.text, claim->fabric},
                          "one length of each fabric", "is claimed twice");
    m->made->claimed[at] = claim->length;
    return status;
}

static qc_status make_claims(maker *m)
{
    size_t fabrics = m->made->job->fabric_count;
    size_t count = m->spec->claims ? m->spec->claim_count : 0;
    qc_status status = QC_STATUS_OK;

    m->made->claimed = qci_calloc(fabrics, sizeof *m->made->claimed);
    if (!m->made->claimed)
        return qci_no_memory(m->check.err);
    for (size_t i = 0; i < fabrics; i++)
        m->made->claimed[i] = QC_DEFAULT;
    for (size_t i = 0; i < count && !status; i++)
        status = make_claim(m, i);
    return status;
}

static qc_status make_jobs(maker *m)
{
    const qc_job_spec *given = m->spec->job;
    qc_job_spec fine = {0};
    qc_status status = qc_job_create(given, &m->made->job, m->check.err);

    if (status)
        return status;
    status = qci_take_known(given, sizeof given->struct_size, &fine,
                            sizeof fine, "struct_size", m->check.err);
    fine.struct_size = (uint32_t)sizeof fine;
    fine.ruler = 1;
    fine.strip_sets = NULL;
    fine.strip_set_count = 0;
    if (!status && (fine.piece_count || fine.block_count))
        status = qc_job_create(&fine, &m->made->exact, m->check.err);
    return status;
}

qc_status qc_instructions_create(const qc_instructions_spec *spec,
                                 qc_instructions **out, qc_error *err)
{
    qc_instructions_spec known = {0};
    maker m = {.spec = &known};
    qc_status status;

    *out = NULL;
    status = qci_take_known(spec, sizeof known, &known, sizeof known,
                            "struct_size", err);
    if (status)
        return status;
    if (!known.job)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, NULL,
                        "there is no job among the instructions");
    m.made = qci_calloc(1, sizeof *m.made);
    if (!m.made)
        return qci_no_memory(err);
    m.check = (qci_check){.spec = known.job, .err = err};
    status = make_jobs(&m);
    m.check.job = m.made->job;
    if (!status)
        status = make_claims(&m);
    if (!status)
        status = make_steps(&m);
    if (!status) {
        *out = m.made;
        m.made = NULL;
    }
    qc_instructions_destroy(m.made);
    return status;
}

qc_status qci_instructions_of_plan(qc_plan *plan, qc_instructions **out,
                                   qc_error *err)
{
    *out = qci_calloc(1, sizeof **out);
    if (!*out) {
        qc_plan_destroy(plan);
        return qci_no_memory(err);
    }
    (*out)->plan = plan;
    return QC_STATUS_OK;
}

void qc_instructions_destroy(qc_instructions *instructions)
{
    if (!instructions)
        return;
    for (size_t i = 0; i < instructions->name_count; i++)
        qci_free(instructions->names[i].name);
    qci_free(instructions->names);
    qci_free(instructions->steps);
    qci_free(instructions->claimed);
    qc_plan_destroy(instructions->plan);
    qc_job_destroy(instructions->job);
    qc_job_destroy(instructions->exact);
    qci_free(instructions);
}
