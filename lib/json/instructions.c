/* Instructions from JSON: a job with two lists more, what the pattern claims
 * and the steps; or a plan as the library has written it. */
#include <quiltcut/check.h>

#include <stddef.h>
#include <string.h>

#include "base/error.h"
#include "check/instructions.h"
#include "json/draft.h"
#include "json/plan_read.h"

/* The job's draft comes first, so that its fields and these fill one struct. */
typedef struct draft {
    qci_draft job;
    QCI_VEC(qc_claim_spec) claims;
    QCI_VEC(qc_instruction_spec) steps;
} draft;

static draft *whole(qci_draft *job)
{
    return (draft *)job;
}

QCI_WORD_READER(read_kind, qc_instruction_kind, "strips", "subcut", "diagonal",
                "sew", "crosscut", "trim")
QCI_WORD_READER(read_direction, qc_direction, "across", "along")

static qc_status read_claim(qci_reader *reader, const json_t *value, void *user)
{
    qci_draft *to = user;
    static const qci_field fields[] = {
        {"fabric", qci_read_text, offsetof(qc_claim_spec, fabric),
         .required = true},
        {"length", qci_read_length, offsetof(qc_claim_spec, length),
         .required = true},
    };
    qc_claim_spec claim = {NULL, 0};
    qc_status status =
        qci_read_object(reader, value, fields, QCI_COUNT(fields), &claim);

    if (status)
        return status;
    return qci_vec_push(&whole(to)->claims, claim) ? QC_STATUS_OK
                                                   : qci_no_memory(reader->err);
}

/* A word of two, the second of which is true. */
static qc_status read_second_word(qci_reader *reader, const json_t *value,
                                  const qci_words *words, bool *to)
{
    int index = 0;
    qc_status status = qci_read_word(reader, value, words, &index);

    *to = index == 1;
    return status;
}

static qc_status read_measured(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    static const char *const words[] = {"square", "edge"};
    static const qci_words choice = {words, 2};

    (void)field;
    return read_second_word(reader, value, &choice, to);
}

static qc_status read_hand(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    static const char *const words[] = {"right", "left"};
    static const qci_words choice = {words, 2};

    (void)field;
    return read_second_word(reader, value, &choice, to);
}

/* A step while it is being read. */
typedef struct step_draft {
    qc_instruction_spec spec;
    qci_draft *draft;
} step_draft;

static qc_status read_names(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    step_draft *step = to;
    size_t count = json_array_size(value);
    const char **names;

    if (!json_is_array(value))
        return qci_read_wrong_type(reader, value, "a list: [...]");
    names = qci_draft_list(step->draft, count, sizeof *names);
    if (!names)
        return qci_no_memory(reader->err);
    step->spec.strips = names;
    step->spec.strip_count = count;
    return qci_read_elements(reader, value, qci_read_text, field, names,
                             sizeof *names);
}

/* The length, or "none". */
static qc_status read_stagger(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    const char *text = json_string_value(value);

    if (text && strcmp(text, "none") == 0)
        return QC_STATUS_OK;
    return qci_read_length(reader, value, field, to);
}

#define PART(member) offsetof(qc_instruction_spec, member)

/* Strips and sets have a width, all else a size; segments are of a strip set,
 * all else of pieces: each two are the same member. */
static const qci_field strips_fields[] = {
    {"do", read_kind, PART(kind), .required = true},
    {"fabric", qci_read_text, PART(fabric), .required = true},
    {"count", qci_read_int64, PART(count), .required = true, .lo = 1,
     .hi = QC_MAX_COUNT},
    {"width", qci_read_length, PART(size), .required = true},
    {"name", qci_read_text, PART(name), .required = false},
    {"piece", qci_read_text, PART(piece), .required = false},
};
static const qci_field subcut_fields[] = {
    {"do", read_kind, PART(kind), .required = true},
    {"from", qci_read_text, PART(from), .required = true},
    {"size", qci_read_length, PART(size), .required = false},
    {"count", qci_read_int64, PART(count), .lo = 1, .hi = QC_MAX_COUNT},
    {"each", qci_read_int64, PART(each), .lo = 1, .hi = QC_MAX_COUNT},
    {"direction", read_direction, PART(direction), .required = false},
    {"angle", qci_read_angle, PART(angle), .required = false},
    {"measured", read_measured, PART(along_edge), .required = false},
    {"alternate", qci_read_flag, PART(alternate), .required = false},
    {"name", qci_read_text, PART(name), .required = false},
    {"piece", qci_read_text, PART(piece), .required = false},
};
static const qci_field diagonal_fields[] = {
    {"do", read_kind, PART(kind), .required = true},
    {"from", qci_read_text, PART(from), .required = true},
    {"times", qci_read_int32, PART(times), .lo = 1, .hi = 2},
    {"count", qci_read_int64, PART(count), .lo = 1, .hi = QC_MAX_COUNT},
    {"piece", qci_read_text, PART(piece), .required = true},
};
static const qci_field trim_fields[] = {
    {"do", read_kind, PART(kind), .required = true},
    {"from", qci_read_text, PART(from), .required = true},
    {"count", qci_read_int64, PART(count), .lo = 1, .hi = QC_MAX_COUNT},
    {"piece", qci_read_text, PART(piece), .required = true},
};
static const qci_field sew_fields[] = {
    {"do", read_kind, PART(kind), .required = true},
    {"strips", read_names, .required = true},
    {"count", qci_read_int64, PART(count), .lo = 1, .hi = QC_MAX_COUNT},
    {"stagger", read_stagger, PART(stagger), .required = false},
    {"hand", read_hand, PART(steps_left), .required = false},
    {"width", qci_read_length, PART(size), .required = false},
    {"name", qci_read_text, PART(name), .required = true},
};
static const qci_field crosscut_fields[] = {
    {"do", read_kind, PART(kind), .required = true},
    {"from", qci_read_text, PART(from), .required = true},
    {"size", qci_read_length, PART(size), .required = true},
    {"count", qci_read_int64, PART(count), .lo = 1, .hi = QC_MAX_COUNT},
    {"each", qci_read_int64, PART(each), .lo = 1, .hi = QC_MAX_COUNT},
    {"angle", qci_read_angle, PART(angle), .required = false},
    {"measured", read_measured, PART(along_edge), .required = false},
    {"segment", qci_read_text, PART(piece), .required = true},
};

static qc_status read_step(qci_reader *reader, const json_t *value, void *user)
{
    static const struct {
        const qci_field *fields;
        size_t count;
    } forms[] = {
        [QC_INSTRUCTION_STRIPS] = {strips_fields, QCI_COUNT(strips_fields)},
        [QC_INSTRUCTION_SUBCUT] = {subcut_fields, QCI_COUNT(subcut_fields)},
        [QC_INSTRUCTION_DIAGONAL] = {diagonal_fields,
                                     QCI_COUNT(diagonal_fields)},
        [QC_INSTRUCTION_TRIM] = {trim_fields, QCI_COUNT(trim_fields)},
        [QC_INSTRUCTION_SEW] = {sew_fields, QCI_COUNT(sew_fields)},
        [QC_INSTRUCTION_CROSSCUT] = {crosscut_fields,
                                     QCI_COUNT(crosscut_fields)},
    };
    qci_draft *to = user;
    const json_t *kind = json_object_get(value, "do");
    step_draft step = {.draft = to};
    qc_status status = QC_STATUS_OK;

    qc_instruction_spec_init(&step.spec);
    if (kind) { /* first: it tells which fields there are */
        qci_read_enter_key(reader, "do");
        status = read_kind(reader, kind, &strips_fields[0], &step.spec.kind);
        qci_read_leave(reader);
    }
    if (status)
        return status;
    status = qci_read_object(reader, value, forms[step.spec.kind].fields,
                             forms[step.spec.kind].count, &step);
    if (status)
        return status;
    return qci_vec_push(&whole(to)->steps, step.spec)
               ? QC_STATUS_OK
               : qci_no_memory(reader->err);
}

static qc_status read_claims(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, read_claim);
}

static qc_status read_steps(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, read_step);
}

static qc_status read_steps_of_job(qci_job_text *text, draft *made,
                                   qc_instructions **out)
{
    static const qci_field more[] = {
        {"claimed", read_claims, .required = false},
        {"steps", read_steps, .required = true},
    };
    qc_status status =
        qci_job_text_read(text, more, QCI_COUNT(more), &made->job);
    qc_instructions_spec spec;

    if (status)
        return status;
    qc_instructions_spec_init(&spec);
    spec.job = &made->job.spec;
    spec.claims = made->claims.at;
    spec.claim_count = made->claims.count;
    spec.steps = made->steps.at;
    spec.step_count = made->steps.count;
    status = qc_instructions_create(&spec, out, &text->own);
    if (status)
        qci_read_place_error(&text->reader);
    return status;
}

static qc_status read_plan(qci_job_text *text, qc_instructions **out)
{
    qc_plan *plan = NULL;
    qc_status status = qci_plan_read(&text->reader, text->root, &plan);

    return status ? status : qci_instructions_of_plan(plan, out, &text->own);
}

qc_status qc_instructions_parse(const char *text, size_t size,
                                qc_instructions **out, qc_error *err)
{
    draft made = {.job = {.fabrics = {0}}};
    qci_job_text read;
    qc_status status;

    *out = NULL;
    status = qci_job_text_load(&read, text, size);
    if (!status)
        status = qci_plan_is(read.root) ? read_plan(&read, out)
                                        : read_steps_of_job(&read, &made, out);
    qci_vec_clear(&made.claims);
    qci_vec_clear(&made.steps);
    return qci_job_text_end(&read, &made.job, status, err);
}
