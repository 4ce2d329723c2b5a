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
    static const qci_field any = {.lo = -QCI_PROOF_VALUE,
                                  .hi = QCI_PROOF_VALUE};
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
        {"kind", qci_read_int64, offsetof(qci_proof_piece, kind),
         .required = true, .lo = 0, .hi = QCI_PROOF_LIST - 1},
        {"count", qci_read_int64, offsetof(qci_proof_piece, count),
         .required = true, .lo = 1, .hi = QCI_PROOF_COUNT},
    };
    qci_proof *proof = to;
    qci_proof_piece piece = {.id = NULL};
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
            .required = true, .lo = (least), .hi = QCI_PROOF_LENGTH            \
    }
    static const qci_field fields[] = {
        {"kind", qci_read_int64, offsetof(qci_proof_form, kind),
         .required = true, .lo = 0, .hi = QCI_PROOF_LIST - 1},
        LENGTH(width, 1),
        LENGTH(height, 1),
        LENGTH(left, -QCI_PROOF_LENGTH),
        LENGTH(right, -QCI_PROOF_LENGTH),
        {"yields", qci_read_int64, offsetof(qci_proof_form, yields),
         .required = true, .lo = 1, .hi = QCI_PROOF_YIELDS},
        {"outline", qci_read_flag, offsetof(qci_proof_form, outline),
         .required = true},
    };
#undef LENGTH
    qci_proof *proof = to;
    qci_proof_form form = {.kind = 0};
    qc_status status =
        qci_read_object(reader, value, fields, QCI_COUNT(fields), &form);

    if (!status && !qci_vec_push(&proof->forms, form))
        status = qci_no_memory(reader->err);
    return status;
}

/* A list that is not empty. */
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
            .required = true, .lo = (least), .hi = QCI_PROOF_COUNT             \
    }
static const qci_field class_fields[] = {NODE("from_class", at, 0),
                                         NODE("most", most, 0)};
static const qci_field kind_fields[] = {
    NODE("of_kind", kind, 0), NODE("pieces", at, 1), NODE("most", most, 0)};
#undef NODE

static qc_status read_node(qci_reader *reader, const json_t *value, void *to)
{
    static const struct {
        const qci_field *fields;
        size_t count;
    } tables[] = {{leaf_fields, QCI_COUNT(leaf_fields)},
                  {class_fields, QCI_COUNT(class_fields)},
                  {kind_fields, QCI_COUNT(kind_fields)}};
    qci_proof *proof = to;
    qci_proof_node node = {
        .ask = json_object_get(value, "from_class") ? QCI_ASK_CLASS
               : json_object_get(value, "of_kind")  ? QCI_ASK_KIND
                                                    : QCI_ASK_NOTHING};
    qc_status status = qci_read_object(reader, value, tables[node.ask].fields,
                                       tables[node.ask].count, &node);

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
            .required = true, .lo = (least), .hi = QCI_PROOF_LENGTH            \
    }
static const qci_field proof_fields[] = {
    {"id", read_owned, offsetof(qci_proof, fabric), .required = true},
    LENGTH(bought, 1),
    {"used", qci_read_int64, offsetof(qci_proof, used), .lo = 1,
     .hi = QCI_PROOF_LENGTH},
    LENGTH(step, 1),
    {"shrink", qci_read_int64, offsetof(qci_proof, shrink), .required = true,
     .lo = 0, .hi = 9999},
    LENGTH(square_up, 0),
    LENGTH(width, 1),
    {"stacks", qci_read_flag, offsetof(qci_proof, stacks), .required = true},
    {"trim", qci_read_flag, offsetof(qci_proof, trim), .required = true},
    {"kinds", qci_read_int64, offsetof(qci_proof, kind_count), .required = true,
     .lo = 1, .hi = QCI_PROOF_LIST},
    {"pieces", read_pieces, .required = true},
    {"forms", read_forms, .required = true},
    {"heights", read_numbers, offsetof(qci_proof, heights), .required = true},
    LENGTH(cell_across, 1),
    LENGTH(cell_along, 1),
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
    {"units", qci_read_units, offsetof(qci_certificate, units),
     .required = true},
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
