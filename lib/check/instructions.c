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
#include "check/given.h"

static const qci_range claim_range = {1, QC_LENGTH_MAX,
                                      "more than 0, up to 4294.967296 m"};

/* What is read, and what has been made of it so far. */
typedef struct maker {
    const qc_instructions_spec *spec;
    qc_instructions *made;
    qci_check check; /* for the job room's checks of single values */
} maker;

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
        qci_given e = {&m->spec->steps[i], i, made, &m->check, &made->steps[i]};

        status = qci_given_make(&e);
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
    for (size_t i = 0; i < instructions->step_count; i++)
        qci_free(instructions->steps[i].strips);
    qci_free(instructions->steps);
    qci_free(instructions->claimed);
    qc_plan_destroy(instructions->plan);
    qc_job_destroy(instructions->job);
    qc_job_destroy(instructions->exact);
    qci_free(instructions);
}
