/* Instructions from JSON: a job with two lists more, what the pattern claims
 * and the steps; or a plan as the library has written it. */
#include <quiltcut/check.h>

#include <stddef.h>

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

QCI_WORD_READER(read_kind, qc_instruction_kind, 3, "strips", "subcut",
                "diagonal")
QCI_WORD_READER(read_direction, qc_direction, 2, "across", "along")

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

static qc_status read_measured(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    static const char *const words[] = {"square", "edge"};
    static const qci_words choice = {words, 2, 2};
    int index = 0;
    qc_status status = qci_read_word(reader, value, &choice, &index);

    (void)field;
    *(bool *)to = index == 1;
    return status;
}

/* Strips have a width, all else a size; both are the same member. */
static qc_status read_step(qci_reader *reader, const json_t *value, void *user)
{
    qci_draft *to = user;
    static const qci_field strips[] = {
        {"do", read_kind, offsetof(qc_instruction_spec, kind),
         .required = true},
        {"fabric", qci_read_text, offsetof(qc_instruction_spec, fabric),
         .required = true},
        {"count", qci_read_int64, offsetof(qc_instruction_spec, count),
         .required = true, .lo = 1, .hi = QC_MAX_COUNT},
        {"width", qci_read_length, offsetof(qc_instruction_spec, size),
         .required = true},
        {"name", qci_read_text, offsetof(qc_instruction_spec, name),
         .required = false},
        {"piece", qci_read_text, offsetof(qc_instruction_spec, piece),
         .required = false},
    };
    static const qci_field subcut[] = {
        {"do", read_kind, offsetof(qc_instruction_spec, kind),
         .required = true},
        {"from", qci_read_text, offsetof(qc_instruction_spec, from),
         .required = true},
        {"size", qci_read_length, offsetof(qc_instruction_spec, size),
         .required = false},
        {"count", qci_read_int64, offsetof(qc_instruction_spec, count), .lo = 1,
         .hi = QC_MAX_COUNT},
        {"each", qci_read_int64, offsetof(qc_instruction_spec, each), .lo = 1,
         .hi = QC_MAX_COUNT},
        {"direction", read_direction, offsetof(qc_instruction_spec, direction),
         .required = false},
        {"angle", qci_read_angle, offsetof(qc_instruction_spec, angle),
         .required = false},
        {"measured", read_measured, offsetof(qc_instruction_spec, along_edge),
         .required = false},
        {"alternate", qci_read_flag, offsetof(qc_instruction_spec, alternate),
         .required = false},
        {"name", qci_read_text, offsetof(qc_instruction_spec, name),
         .required = false},
        {"piece", qci_read_text, offsetof(qc_instruction_spec, piece),
         .required = false},
    };
    static const qci_field diagonal[] = {
        {"do", read_kind, offsetof(qc_instruction_spec, kind),
         .required = true},
        {"from", qci_read_text, offsetof(qc_instruction_spec, from),
         .required = true},
        {"times", qci_read_int32, offsetof(qc_instruction_spec, times), .lo = 1,
         .hi = 2},
        {"count", qci_read_int64, offsetof(qc_instruction_spec, count), .lo = 1,
         .hi = QC_MAX_COUNT},
        {"piece", qci_read_text, offsetof(qc_instruction_spec, piece),
         .required = true},
    };
    static const struct {
        const qci_field *fields;
        size_t count;
    } forms[] = {
        [QC_INSTRUCTION_STRIPS] = {strips, QCI_COUNT(strips)},
        [QC_INSTRUCTION_SUBCUT] = {subcut, QCI_COUNT(subcut)},
        [QC_INSTRUCTION_DIAGONAL] = {diagonal, QCI_COUNT(diagonal)},
    };
    const json_t *kind = json_object_get(value, "do");
    qc_instruction_spec step;
    qc_status status = QC_STATUS_OK;

    qc_instruction_spec_init(&step);
    if (kind) { /* first: it tells which fields there are */
        qci_read_enter_key(reader, "do");
        status = read_kind(reader, kind, &strips[0], &step.kind);
        qci_read_leave(reader);
    }
    if (status)
        return status;
    status = qci_read_object(reader, value, forms[step.kind].fields,
                             forms[step.kind].count, &step);
    if (status)
        return status;
    return qci_vec_push(&whole(to)->steps, step) ? QC_STATUS_OK
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
