/* A job from JSON: jansson reads the text, the tables below say what each
 * object may hold, and qc_job_create() checks what it means. The spec points
 * into the JSON values, which are kept until the job has copied them. Errors of
 * all three get the same shape: field, value, line and column. */
#include <quiltcut/job.h>

#include <jansson.h>
#include <stddef.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "json/draft.h"
#include "json/read.h"
#include "json/syntax.h"

#define MAX_SECONDS INT64_C(86400)

QCI_WORD_READER(read_goal, qc_goal, "bought", "used", "money", "setups", "cuts",
                "leftover")

static qc_status read_fabrics(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, qci_read_fabric);
}

static qc_status read_pieces(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, qci_read_piece);
}

static qc_status read_strip_sets(qci_reader *reader, const json_t *value,
                                 const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, qci_read_strip_set);
}

static qc_status read_blocks(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, qci_read_block);
}

static qc_status read_objective(qci_reader *reader, const json_t *value,
                                const qci_field *field, void *to)
{
    qc_job_spec *spec = to;
    size_t count = json_array_size(value);
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value))
        return qci_read_wrong_type(reader, value, "a list of goals");
    if (count < 1 || count > QC_GOAL_COUNT)
        return qci_read_fail(reader, "1 to 6 different goals", "has %zu goals",
                             count);
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status =
            read_goal(reader, json_array_get(value, i), field, &spec->goals[i]);
        qci_read_leave(reader);
    }
    spec->goal_count = count;
    return status;
}

static qc_status read_trim(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    (void)field;
    if (!json_is_boolean(value))
        return qci_read_wrong_type(reader, value, "true or false");
    *(bool *)to = json_is_false(value);
    return QC_STATUS_OK;
}

/* 2 is two pieces more of each kind; "2 %" is two in a hundred. */
static qc_status read_spare(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    static const qci_field per_cent = {
        .decimals = 2, .lo = 0, .hi = INT64_C(10) * 10000};
    qc_job_spec *spec = to;
    const char *text = json_string_value(value);
    size_t length = text ? strspn(text, "0123456789.") : 0;
    char number[24];
    int64_t scaled = 0;
    qc_status status;

    if (!text)
        return qci_read_int64(reader, value, field, &spec->spare_count);
    if (!length || length >= sizeof number ||
        (strcmp(text + length, "%") != 0 && strcmp(text + length, " %") != 0))
        return qci_read_fail(reader, "a number of pieces, or \"5 %\"",
                             "is not a number of spares");
    memcpy(number, text, length);
    number[length] = '\0';
    status = qci_read_scaled(reader, number, &per_cent, &scaled);
    spec->spare_percent = (int32_t)scaled;
    return status;
}

static qc_status read_options(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    static const qci_field fields[] = {
        {"objective", read_objective, .required = false},
        {"stages", qci_read_int32, offsetof(qc_job_spec, stages), .lo = 2,
         .hi = 3},
        {"trim", read_trim, offsetof(qc_job_spec, no_trim), .required = false},
        {"keep", qci_read_length, offsetof(qc_job_spec, keep),
         .required = false},
        {"layers", qci_read_int32, offsetof(qc_job_spec, layers), .lo = 1,
         .hi = 8},
        {"spare", read_spare, .lo = 0, .hi = QC_MAX_COUNT},
        {"time_limit", qci_read_int32, offsetof(qc_job_spec, time_limit_ms),
         .decimals = 3, .lo = 1, .hi = MAX_SECONDS * 1000},
    };

    (void)field;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

static qc_status read_job_units(qci_reader *reader, const json_t *value,
                                const qci_field *field, void *to)
{
    qc_status status = qci_read_units(reader, value, field, to);

    if (!status)
        reader->units = *(qc_units *)to;
    return status;
}

/* The job's fields, and those that a larger form has besides. */
#define JOB_FIELDS 11
#define MORE_FIELDS 4

static qc_status read_job(qci_reader *reader, const json_t *root,
                          const qci_field *more, size_t more_count,
                          qci_draft *to)
{
    /* `units` stands first, since bare numbers are in them. */
    static const qci_field own[JOB_FIELDS] = {
        {"quiltcut", qci_read_version, .required = true},
        {"title", qci_read_text, offsetof(qc_job_spec, title),
         .required = false},
        {"units", read_job_units, offsetof(qc_job_spec, units),
         .required = false},
        {"ruler", qci_read_length, offsetof(qc_job_spec, ruler),
         .required = false},
        {"seam", qci_read_length, offsetof(qc_job_spec, seam),
         .required = false},
        {"fabrics", read_fabrics, .required = true},
        {"pieces", read_pieces, .required = false},
        {"strip_sets", read_strip_sets, .required = false},
        {"blocks", read_blocks, .required = false},
        {"options", read_options, .required = false},
        {.name = "quilt"},
    };
    qci_field fields[JOB_FIELDS + MORE_FIELDS];
    const json_t *version = json_object_get(root, own[0].name);
    qc_status status = QC_STATUS_OK;

    memcpy(fields, own, sizeof own);
    if (more_count)
        memcpy(fields + JOB_FIELDS, more, more_count * sizeof *more);
    /* Before all else: another version may well have other fields. */
    if (version) {
        qci_read_enter_key(reader, own[0].name);
        status = qci_read_version(reader, version, &own[0], NULL);
        qci_read_leave(reader);
    }
    return status ? status
                  : qci_read_object(reader, root, fields,
                                    JOB_FIELDS + more_count, to);
}

qc_status qci_job_text_load(qci_job_text *text, const char *bytes, size_t size)
{
    *text = (qci_job_text){.reader = {.units = QC_UNITS_IN}};
    qc_error_init(&text->own);
    qci_json_skip_mark(&bytes, &size);
    text->reader.text = bytes;
    text->reader.size = size;
    text->reader.err = &text->own;
    return qci_json_load(bytes, size, &text->root, &text->own);
}

qc_status qci_job_text_read(qci_job_text *text, const qci_field *more,
                            size_t more_count, qci_draft *draft)
{
    qc_status status;

    qc_job_spec_init(&draft->spec, QC_UNITS_DEFAULT);
    status = read_job(&text->reader, text->root, more, more_count, draft);
    if (status)
        return status;
    draft->spec.fabrics = draft->fabrics.at;
    draft->spec.fabric_count = draft->fabrics.count;
    draft->spec.pieces = draft->pieces.at;
    draft->spec.piece_count = draft->pieces.count;
    draft->spec.strip_sets = draft->sets.at;
    draft->spec.strip_set_count = draft->sets.count;
    draft->spec.blocks = draft->blocks.at;
    draft->spec.block_count = draft->blocks.count;
    return QC_STATUS_OK;
}

qc_status qci_job_text_end(qci_job_text *text, qci_draft *draft,
                           qc_status status, qc_error *err)
{
    if (status && err && err->code == QC_STATUS_OK)
        *err = text->own;
    qci_vec_clear(&draft->fabrics);
    qci_vec_clear(&draft->pieces);
    qci_vec_clear(&draft->sets);
    qci_vec_clear(&draft->blocks);
    for (size_t i = 0; i < draft->lists.count; i++)
        qci_free(draft->lists.at[i]);
    qci_vec_clear(&draft->lists);
    json_decref(text->root);
    return status;
}

qc_status qc_job_parse(const char *text, size_t size, qc_job **out_job,
                       qc_error *err)
{
    qci_draft draft = {.fabrics = {0}};
    qci_job_text read;
    qc_status status;

    *out_job = NULL;
    status = qci_job_text_load(&read, text, size);
    if (!status)
        status = qci_job_text_read(&read, NULL, 0, &draft);
    if (!status) {
        status = qc_job_create(&draft.spec, out_job, &read.own);
        if (status)
            qci_read_place_error(&read.reader);
    }
    return qci_job_text_end(&read, &draft, status, err);
}
