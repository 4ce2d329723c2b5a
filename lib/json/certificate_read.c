/* A certificate from JSON, by tables of fields, with the place of what is
 * wrong. Only the form is read here: numbers are kept within bounds that let
 * the checker count with them, and what they mean is the checker's. */
#include <stddef.h>
#include <string.h>

#include "base/error.h"
#include "base/utf8.h"
#include "json/certificate.h"
#include "json/items.h"
#include "json/read.h"
#include "json/syntax.h"

#define MANY (INT64_C(1) << 40)
#define LARGEST (INT64_C(1) << 53)

QCI_WORD_READER(read_units, qc_units, 3, "in", "cm", "mm")

static qc_status read_owned(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    const char *text;
    qc_status status = qci_read_text(reader, value, field, &text);
    size_t size;

    if (status)
        return status;
    size = strlen(text);
    for (size_t i = 0; i < size; i++)
        if (qci_utf8_is_control(text + i, size - i))
            return qci_read_fail(reader, NULL, "has a control character");
    *(char **)to = qci_strdup(text);
    return *(char **)to ? QC_STATUS_OK : qci_no_memory(reader->err);
}

static qc_status read_number(qci_reader *reader, const json_t *value, void *to)
{
    static const qci_field any = {.lo = -LARGEST, .hi = LARGEST};
    int64_t number = 0;
    qc_status status = qci_read_int64(reader, value, &any, &number);

    if (!status && !qci_vec_push((qci_numbers *)to, number))
        return qci_no_memory(reader->err);
    return status;
}

static qc_status read_numbers(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, read_number);
}

static qc_status read_piece(qci_reader *reader, const json_t *value, void *to)
{
    static const qci_field fields[] = {
        {"id", read_owned, offsetof(qci_proof_piece, id), .required = true},
        {"count", qci_read_int64, offsetof(qci_proof_piece, count),
         .required = true, .lo = 1, .hi = MANY},
    };
    qci_proof *proof = to;
    qci_proof_piece piece = {.kind = proof->kind_count - 1};
    qc_status status;

    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &piece);
    if (!status && !qci_vec_push(&proof->pieces, piece))
        status = qci_no_memory(reader->err);
    if (status)
        qci_free(piece.id);
    return status;
}

static qc_status read_form(qci_reader *reader, const json_t *value, void *to)
{
#define LENGTH(name, least)                                                    \
    {                                                                          \
#name, qci_read_int64, offsetof(qci_proof_form, name),                 \
            .required = true, .lo = least, .hi = QC_LENGTH_MAX                 \
    }
    static const qci_field fields[] = {
        LENGTH(width, 1),
        LENGTH(height, 1),
        LENGTH(left, -QC_LENGTH_MAX),
        LENGTH(right, -QC_LENGTH_MAX),
        {"yields", qci_read_int64, offsetof(qci_proof_form, yields),
         .required = true, .lo = 1, .hi = 64},
        {"outline", qci_read_flag, offsetof(qci_proof_form, outline),
         .required = true},
    };
#undef LENGTH
    qci_proof *proof = to;
    qci_proof_form form = {.kind = proof->kind_count - 1};
    qc_status status =
        qci_read_object(reader, value, fields, QCI_COUNT(fields), &form);

    if (!status && !qci_vec_push(&proof->forms, form))
        status = qci_no_memory(reader->err);
    return status;
}

/* Lists of a kind; at least one of each. */
static qc_status read_some(qci_reader *reader, const json_t *value, void *to,
                           qci_read_item_fn read)
{
    if (json_is_array(value) && !json_array_size(value))
        return qci_read_fail(reader, "one or more", "is empty");
    return qci_read_list(reader, value, to, read);
}

static qc_status read_pieces(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    (void)field;
    return read_some(reader, value, to, read_piece);
}

static qc_status read_forms(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    (void)field;
    return read_some(reader, value, to, read_form);
}

static qc_status read_kind(qci_reader *reader, const json_t *value, void *to)
{
    static const qci_field fields[] = {
        {"pieces", read_pieces, .required = true},
        {"forms", read_forms, .required = true},
    };

    ((qci_proof *)to)->kind_count++;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

static qc_status read_kinds(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    (void)field;
    return read_some(reader, value, to, read_kind);
}

/* A leaf has values and weights; another node asks for a class or a kind. */
static const qci_field leaf_fields[] = {
    {"values", read_numbers, offsetof(qci_proof_node, values),
     .required = true},
    {"weights", read_numbers, offsetof(qci_proof_node, weights),
     .required = true},
};
#define NODE(key, member, least)                                               \
    {                                                                          \
        key, qci_read_int64, offsetof(qci_proof_node, member),                 \
            .required = true, .lo = least, .hi = MANY                          \
    }
static const qci_field class_fields[] = {
    NODE("from_class", at, 0), NODE("most", most, 0), NODE("below", below, 1),
    NODE("above", above, 1)};
static const qci_field kind_fields[] = {
    NODE("of_kind", kind, 0), NODE("pieces", at, 1), NODE("most", most, 0),
    NODE("below", below, 1), NODE("above", above, 1)};
#undef NODE

static qc_status read_node(qci_reader *reader, const json_t *value, void *to)
{
    qci_proof *proof = to;
    qci_proof_node node = {.by_height = json_object_get(value, "from_class")};
    qc_status status;

    if (node.by_height)
        status = qci_read_object(reader, value, class_fields,
                                 QCI_COUNT(class_fields), &node);
    else if (json_object_get(value, "of_kind"))
        status = qci_read_object(reader, value, kind_fields,
                                 QCI_COUNT(kind_fields), &node);
    else
        status = qci_read_object(reader, value, leaf_fields,
                                 QCI_COUNT(leaf_fields), &node);
    if (!status && !qci_vec_push(&proof->nodes, node))
        status = qci_no_memory(reader->err);
    if (status) {
        qci_vec_clear(&node.values);
        qci_vec_clear(&node.weights);
    }
    return status;
}

static qc_status read_nodes(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    (void)field;
    return qci_read_list(reader, value, to, read_node);
}

static const qci_field missing_fields[] = {
    {"id", read_owned, offsetof(qci_proof, fabric), .required = true},
    {"missing", read_owned, offsetof(qci_proof, missing), .required = true},
};
#define LENGTH(name, least)                                                    \
    {                                                                          \
#name, qci_read_int64, offsetof(qci_proof, name),                      \
            .required = true, .lo = least, .hi = QC_LENGTH_MAX                 \
    }
static const qci_field proof_fields[] = {
    {"id", read_owned, offsetof(qci_proof, fabric), .required = true},
    LENGTH(bought, 1),
    LENGTH(step, 1),
    {"shrink", qci_read_int64, offsetof(qci_proof, shrink), .required = true,
     .lo = 0, .hi = 9999},
    LENGTH(square_up, 0),
    LENGTH(width, 1),
    {"stacks", qci_read_flag, offsetof(qci_proof, stacks), .required = true},
    {"trim", qci_read_flag, offsetof(qci_proof, trim), .required = true},
    {"kinds", read_kinds, .required = true},
    {"heights", read_numbers, offsetof(qci_proof, heights), .required = true},
    {"nodes", read_nodes, .required = true},
};
#undef LENGTH

static qc_status read_fabric(qci_reader *reader, const json_t *value, void *to)
{
    qci_certificate *certificate = to;
    bool missing = json_object_get(value, "missing");
    qci_proof proof = {.fabric = NULL};
    qc_status status = qci_read_object(
        reader, value, missing ? missing_fields : proof_fields,
        missing ? QCI_COUNT(missing_fields) : QCI_COUNT(proof_fields), &proof);

    if (!status && !qci_vec_push(&certificate->proofs, proof))
        status = qci_no_memory(reader->err);
    if (status)
        qci_proof_clear(&proof);
    return status;
}

static qc_status read_fabrics(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    (void)field;
    return read_some(reader, value, to, read_fabric);
}

static const qci_field root_fields[] = {
    {"quiltcut", qci_read_version, .required = true},
    {"title", qci_read_text, offsetof(qci_certificate, title),
     .required = true},
    {"units", read_units, offsetof(qci_certificate, units), .required = true},
    {"fabrics", read_fabrics, .required = true},
};

qc_status qci_certificate_read(const char *text, size_t size,
                               qci_certificate *out, qc_error *err)
{
    qci_reader reader = {.err = err};
    json_t *root;
    qc_status status;

    qci_json_skip_mark(&text, &size);
    reader.text = text;
    reader.size = size;
    status = qci_json_load(text, size, &root, err);
    if (!status)
        status = qci_read_object(&reader, root, root_fields,
                                 QCI_COUNT(root_fields), out);
    out->title = NULL; /* the JSON value's */
    json_decref(root);
    return status;
}

void qci_certificate_clear(qci_certificate *certificate)
{
    for (size_t i = 0; i < certificate->proofs.count; i++)
        qci_proof_clear(&certificate->proofs.at[i]);
    qci_vec_clear(&certificate->proofs);
}
