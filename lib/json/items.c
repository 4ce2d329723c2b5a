/* The tables of what a fabric and a piece may hold. A piece's size depends on
 * its shape, and a finished size may lie between two lengths; all else is plain
 * fields. */
#include "json/items.h"

#include <stddef.h>
#include <string.h>

#include "base/error.h"

/* A piece while it is being read: the spec, and which sizes were given. */
typedef struct piece_draft {
    qc_piece_spec spec;
    bool finished, cut;
} piece_draft;

QCI_WORD_READER(read_print, qc_print, 4, "plain", "one-way", "two-way",
                "reversible")
QCI_WORD_READER(read_grain, qc_grain, 3, "any", "lengthwise", "crosswise")
QCI_WORD_READER(read_facing, qc_facing, 2, "any", "kept")
/* Those from the fifth on belong to the form; pieces of them are not cut yet.
 */
QCI_WORD_READER(read_shape, qc_shape, 4, "square", "rectangle",
                "half-square triangle", "quarter-square triangle", "diamond",
                "parallelogram", "trapezoid", "equilateral triangle", "hexagon",
                "kite", "polygon", "strip")

static qc_status read_side(qci_reader *reader, const json_t *value,
                           qc_piece_spec *piece, size_t side)
{
    if (piece->is_cut)
        return qci_read_length(reader, value, NULL, &piece->size[side]);
    return qci_read_length_up(reader, value, &piece->size[side],
                              &piece->size_rounded);
}

static qc_status read_rectangle(qci_reader *reader, const json_t *value,
                                qc_piece_spec *piece)
{
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value) || json_array_size(value) != 2)
        return qci_read_fail(reader, "[across, along]",
                             "is not two lengths; a rectangle has two");
    for (size_t i = 0; i < 2 && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_side(reader, json_array_get(value, i), piece, i);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_size(qci_reader *reader, const json_t *value,
                           qc_piece_spec *piece)
{
    if (piece->shape == QC_SHAPE_RECTANGLE)
        return read_rectangle(reader, value, piece);
    if (json_is_array(value))
        return qci_read_fail(reader, "one length, such as \"2 1/2\"",
                             "is a list; only a rectangle has two lengths");
    return read_side(reader, value, piece, 0);
}

static qc_status read_finished(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    piece_draft *piece = to;

    (void)field;
    piece->finished = true;
    return read_size(reader, value, &piece->spec);
}

static qc_status read_cut(qci_reader *reader, const json_t *value,
                          const qci_field *field, void *to)
{
    piece_draft *piece = to;

    (void)field;
    if (piece->finished)
        return qci_read_fail(reader, "exactly one of finished and cut",
                             "the piece has a finished size as well");
    piece->cut = true;
    piece->spec.is_cut = true;
    return read_size(reader, value, &piece->spec);
}

static qc_status read_count(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    if (json_is_object(value))
        return qci_read_fail(reader, "a whole number",
                             "left and right counts are not supported by this "
                             "version");
    return qci_read_int64(reader, value, field, to);
}

qc_status qci_read_piece(qci_reader *reader, const json_t *value, qci_draft *to)
{
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_piece_spec, id), .required = true},
        {"fabric", qci_read_text, offsetof(qc_piece_spec, fabric),
         .required = true},
        {"shape", read_shape, offsetof(qc_piece_spec, shape), .required = true},
        {"finished", read_finished, .required = false},
        {"cut", read_cut, .required = false},
        {"trim", qci_read_length, offsetof(qc_piece_spec, trim),
         .required = false},
        {"grain", read_grain, offsetof(qc_piece_spec, grain),
         .required = false},
        {"count", read_count, offsetof(qc_piece_spec, count), .required = true,
         .lo = 1, .hi = QC_MAX_COUNT},
        {"facing", read_facing, offsetof(qc_piece_spec, facing),
         .required = false},
        {.name = "angle"},
        {.name = "joins"},
    };
    piece_draft piece = {.finished = false};
    qc_status status;

    qc_piece_spec_init(&piece.spec);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &piece);
    if (status)
        return status;
    if (!piece.finished && !piece.cut)
        return qci_read_fail(reader, "exactly one of finished and cut",
                             "the piece has no size");
    return qci_vec_push(&to->pieces, piece.spec) ? QC_STATUS_OK
                                                 : qci_no_memory(reader->err);
}

static qc_status read_shrink(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    static const qci_field fields[] = {
        {"length", qci_read_int32, offsetof(qc_fabric_spec, shrink_length),
         .decimals = 2, .lo = 0, .hi = 9999},
        {"width", qci_read_int32, offsetof(qc_fabric_spec, shrink_width),
         .decimals = 2, .lo = 0, .hi = 9999},
    };

    (void)field;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

qc_status qci_read_fabric(qci_reader *reader, const json_t *value,
                          qci_draft *to)
{
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_fabric_spec, id), .required = true},
        {"name", qci_read_text, offsetof(qc_fabric_spec, name),
         .required = false},
        {"width", qci_read_length, offsetof(qc_fabric_spec, width),
         .required = false},
        {"raw_width", qci_read_length, offsetof(qc_fabric_spec, raw_width),
         .required = false},
        {"print", read_print, offsetof(qc_fabric_spec, print),
         .required = false},
        {"step", qci_read_length, offsetof(qc_fabric_spec, step),
         .required = false},
        {"square_up", qci_read_length, offsetof(qc_fabric_spec, square_up),
         .required = false},
        {"shrink", read_shrink, .required = false},
        {"price", qci_read_int64, offsetof(qc_fabric_spec, price),
         .decimals = 4, .lo = 0, .hi = QC_MAX_PRICE},
        {.name = "stock"},
    };
    qc_fabric_spec fabric;
    qc_status status;

    qc_fabric_spec_init(&fabric);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &fabric);
    if (status)
        return status;
    return qci_vec_push(&to->fabrics, fabric) ? QC_STATUS_OK
                                              : qci_no_memory(reader->err);
}
