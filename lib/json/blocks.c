/* What an entry of the blocks may hold. Which roles there are is the block's to
 * say, so the fabrics are an object of any names. A drawing stays text: the
 * block room reads its coordinates. */
#include <stddef.h>

#include <quiltcut/block.h>

#include "base/error.h"
#include "block/unit.h"
#include "json/items.h"
#include "json/number.h"

/* An entry while it is being read. */
typedef struct block_draft {
    qc_block_spec spec;
    qci_draft *draft;
} block_draft;

static qc_status read_fabrics(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    block_draft *block = to;
    qc_status status = QC_STATUS_OK;
    qc_role_spec *roles;
    const char *role;
    json_t *fabric;
    size_t at = 0;

    if (!json_is_object(value))
        return qci_read_wrong_type(reader, value,
                                   "an object: {\"role\": \"fabric\", ...}");
    roles =
        qci_draft_list(block->draft, json_object_size(value), sizeof *roles);
    if (!roles)
        return qci_no_memory(reader->err);
    block->spec.fabrics = roles;
    block->spec.fabric_count = json_object_size(value);
    json_object_foreach((json_t *)value, role, fabric)
    {
        roles[at].role = role;
        qci_read_enter_key(reader, role);
        status = qci_read_text(reader, fabric, field, &roles[at++].fabric);
        qci_read_leave(reader);
        if (status)
            break;
    }
    return status;
}

QCI_WORD_READER_OF(read_method_word, qc_method, qci_method_words)

static qc_status read_method(qci_reader *reader, const json_t *value,
                             qc_method_spec *to)
{
    static const qci_field fields[] = {
        {"unit", qci_read_text, offsetof(qc_method_spec, unit),
         .required = false},
        {"method", read_method_word, offsetof(qc_method_spec, method),
         .required = true},
        {"trim", qci_read_length, offsetof(qc_method_spec, trim),
         .required = false},
    };

    to->trim = QC_DEFAULT;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

static qc_status read_methods(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    block_draft *block = to;
    size_t count = json_array_size(value);
    qc_method_spec *methods;
    qc_status status = QC_STATUS_OK;

    (void)field;
    if (!json_is_array(value))
        return qci_read_wrong_type(reader, value, "a list: [...]");
    methods = qci_draft_list(block->draft, count, sizeof *methods);
    if (!methods)
        return qci_no_memory(reader->err);
    block->spec.methods = methods;
    block->spec.method_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_method(reader, json_array_get(value, i), &methods[i]);
        qci_read_leave(reader);
    }
    return status;
}

/* A drawing while it is being read. */
typedef struct drawing_draft {
    qc_block_drawing spec;
    qci_draft *draft;
} drawing_draft;

/* A side of the grid: a text, or a number, which becomes one. */
static qc_status read_side(qci_reader *reader, const json_t *value,
                           qci_draft *draft, const char **out)
{
    char *text;

    if (json_is_string(value))
        return qci_read_text(reader, value, NULL, out);
    if (!json_is_number(value))
        return qci_read_wrong_type(reader, value,
                                   "a number, or a text such as \"2+r2\"");
    text = qci_draft_list(draft, QCI_NUMBER_ROOM, 1);
    if (!text)
        return qci_no_memory(reader->err);
    qci_number_text(value, text);
    *out = text;
    return QC_STATUS_OK;
}

static qc_status read_width(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    drawing_draft *drawing = to;

    (void)field;
    return read_side(reader, value, drawing->draft, &drawing->spec.width);
}

static qc_status read_height(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    drawing_draft *drawing = to;

    (void)field;
    return read_side(reader, value, drawing->draft, &drawing->spec.height);
}

static qc_status read_patch(qci_reader *reader, const json_t *value,
                            const qci_field *field,
                            void *to) /* qc_drawn_patch */
{
    static const qci_field fields[] = {
        {"role", qci_read_text, offsetof(qc_drawn_patch, role),
         .required = true},
        {"corners", qci_read_text, offsetof(qc_drawn_patch, corners),
         .required = true},
        {"turns", qci_read_int32, offsetof(qc_drawn_patch, turns), .lo = 1,
         .hi = 12},
        {"mirrored", qci_read_flag, offsetof(qc_drawn_patch, mirrored),
         .required = false},
    };

    (void)field;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

static qc_status read_patches(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    drawing_draft *drawing = to;
    size_t count = json_array_size(value);
    qc_drawn_patch *patches;

    if (!json_is_array(value))
        return qci_read_wrong_type(reader, value, "a list: [...]");
    patches = qci_draft_list(drawing->draft, count, sizeof *patches);
    if (!patches)
        return qci_no_memory(reader->err);
    drawing->spec.patches = patches;
    drawing->spec.patch_count = count;
    return qci_read_elements(reader, value, read_patch, field, patches,
                             sizeof *patches);
}

static qc_status read_drawing(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    static const qci_field fields[] = {
        {"name", qci_read_text, offsetof(drawing_draft, spec.name),
         .required = true},
        {"width", read_width, .required = true},
        {"height", read_height, .required = false},
        {"patches", read_patches, .required = true},
    };
    block_draft *block = to;
    drawing_draft drawing = {.draft = block->draft};
    qc_block_drawing *kept;
    qc_status status;

    (void)field;
    if (block->spec.block)
        return qci_read_fail(reader, "exactly one of block and drawing",
                             "the entry names a built-in block as well");
    kept = qci_draft_list(block->draft, 1, sizeof *kept);
    if (!kept)
        return qci_no_memory(reader->err);
    status =
        qci_read_object(reader, value, fields, QCI_COUNT(fields), &drawing);
    *kept = drawing.spec;
    block->spec.drawing = kept;
    return status;
}

qc_status qci_read_block(qci_reader *reader, const json_t *value, void *user)
{
    qci_draft *to = user;
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_block_spec, id), .required = false},
        {"block", qci_read_text, offsetof(block_draft, spec.block),
         .required = false},
        {"drawing", read_drawing, .required = false},
        {"size", qci_read_length, offsetof(qc_block_spec, size),
         .required = true},
        {"count", qci_read_int64, offsetof(qc_block_spec, count),
         .required = true, .lo = 1, .hi = QC_MAX_COUNT},
        {"fabrics", read_fabrics, .required = true},
        {"methods", read_methods, .required = false},
    };
    block_draft block = {.draft = to};
    qc_status status;

    qc_block_spec_init(&block.spec);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &block);
    if (status)
        return status;
    if (!block.spec.block && !block.spec.drawing)
        return qci_read_fail(reader, "exactly one of block and drawing",
                             "the entry names no block and draws none");
    return qci_vec_push(&to->blocks, block.spec) ? QC_STATUS_OK
                                                 : qci_no_memory(reader->err);
}
