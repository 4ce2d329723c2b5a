/* What a piece may hold. Its size depends on its shape: one length, two or
 * three, or a polygon's corners; and a finished size may lie between two
 * lengths. All else is plain fields. */
#include <stddef.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "shape/shape.h"
#include "json/items.h"
#include "json/number.h"

/* A piece while it is being read: the spec, and which sizes were given. */
typedef struct piece_draft {
    qc_piece_spec spec;
    qci_draft *draft;
    bool finished, cut;
} piece_draft;

QCI_WORD_READER(read_grain, qc_grain, "any", "lengthwise", "crosswise", "base")
QCI_WORD_READER(read_facing, qc_facing, "any", "kept")
QCI_WORD_READER(read_tips, qc_tips, "sharp", "blunt")
QCI_WORD_READER(read_joins, qc_joins, "none", "straight", "diagonal")
QCI_WORD_READER_OF(read_shape, qc_shape, qci_shape_words)

/* How each shape's sizes are listed; NULL: it has one. */
static const char *list_of(qc_shape shape)
{
    switch (shape) {
    case QC_SHAPE_RECTANGLE:
        return "[across, along]";
    case QC_SHAPE_PARALLELOGRAM:
        return "[along the strip, slanted]; of cut sizes [spacing, height]";
    case QC_SHAPE_TRAPEZOID:
        return "[long side, short side, height]";
    case QC_SHAPE_KITE:
        return "[length, width, distance of the widest line]";
    case QC_SHAPE_STRIP:
        return "[width, length]";
    default:
        return NULL;
    }
}

static qc_status read_side(qci_reader *reader, const json_t *value,
                           qc_piece_spec *piece, size_t side)
{
    if (piece->is_cut)
        return qci_read_length(reader, value, NULL, &piece->size[side]);
    return qci_read_length_up(reader, value, &piece->size[side],
                              &piece->size_rounded);
}

static qc_status read_sides(qci_reader *reader, const json_t *value,
                            qc_piece_spec *piece)
{
    const char *form = list_of(piece->shape);
    bool three =
        piece->shape == QC_SHAPE_TRAPEZOID || piece->shape == QC_SHAPE_KITE;
    size_t count = three ? 3 : 2;
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value) || json_array_size(value) != count)
        return qci_read_fail(reader, form,
                             "is not the list of %s lengths that this shape "
                             "has",
                             three ? "three" : "two");
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_side(reader, json_array_get(value, i), piece, i);
        qci_read_leave(reader);
    }
    return status;
}

/* A coordinate may be below 0: a length with a sign before it. `rounded` NULL:
 * it must be a whole length. */
static qc_status read_coordinate(qci_reader *reader, const json_t *value,
                                 qc_length *to, bool *rounded)
{
    char number[QCI_NUMBER_ROOM];
    const char *text = json_string_value(value);
    bool below;
    qc_error local;

    if (!text && !json_is_number(value))
        return qci_read_wrong_type(reader, value,
                                   "a length such as \"2 1/2\" or -2.5");
    if (!text) {
        qci_number_text(value, number);
        text = number;
    }
    while (*text == ' ')
        text++;
    below = *text == '-';
    qc_error_init(&local);
    if (qc_length_parse(text + below, reader->units, QC_PARSE_EXACT, to,
                        &local)) {
        if (!rounded ||
            qc_length_parse(text + below, reader->units, QC_PARSE_UP, to, NULL))
            return qci_read_fail(reader, local.allowed, "%s", local.problem);
        *rounded = true;
    }
    if (below)
        *to = -*to;
    return QC_STATUS_OK;
}

/* Point `index` of a piece. */
static qc_status read_point(qci_reader *reader, const json_t *value,
                            qc_piece_spec *piece, size_t index, qc_point *to)
{
    qc_length at[2] = {0, 0};
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value) || json_array_size(value) != 2)
        return qci_read_fail(reader, "[x, y]", "is not a point");
    for (size_t i = 0; i < 2 && !status; i++) {
        bool rounded = false;

        qci_read_enter_index(reader, i);
        status = read_coordinate(reader, json_array_get(value, i), &at[i],
                                 piece->is_cut ? NULL : &rounded);
        qci_read_leave(reader);
        piece->points_rounded |= (uint32_t)rounded << (2 * index + i);
    }
    *to = (qc_point){at[0], at[1]};
    return status;
}

static qc_status read_points(qci_reader *reader, const json_t *value,
                             piece_draft *piece)
{
    size_t count = json_array_size(value);
    qc_point *points;
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value) || count < 3 || count > QC_MAX_CORNERS)
        return qci_read_fail(reader, "3 to 12 points: [[x, y], ...]",
                             "is no list of a polygon's corners");
    points = qci_draft_list(piece->draft, count, sizeof *points);
    if (!points)
        return qci_no_memory(reader->err);
    piece->spec.points = points;
    piece->spec.point_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_point(reader, json_array_get(value, i), &piece->spec, i,
                            &points[i]);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_size(qci_reader *reader, const json_t *value,
                           piece_draft *piece)
{
    qc_piece_spec *spec = &piece->spec;

    if (spec->shape == QC_SHAPE_POLYGON)
        return read_points(reader, value, piece);
    if (list_of(spec->shape))
        return read_sides(reader, value, spec);
    if (json_is_array(value))
        return qci_read_fail(reader, "one length, such as \"2 1/2\"",
                             "is a list; this shape has one length");
    return read_side(reader, value, spec, 0);
}

static qc_status read_finished(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    piece_draft *piece = to;

    (void)field;
    piece->finished = true;
    return read_size(reader, value, piece);
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
    return read_size(reader, value, piece);
}

/* A hand that is not named is not wanted. */
static qc_status read_hands(qci_reader *reader, const json_t *value,
                            qc_piece_spec *spec)
{
    static const qci_field fields[] = {
        {"left", qci_read_int64, offsetof(qc_piece_spec, left), .lo = 0,
         .hi = QC_MAX_COUNT},
        {"right", qci_read_int64, offsetof(qc_piece_spec, right), .lo = 0,
         .hi = QC_MAX_COUNT},
    };

    spec->left = spec->right = 0;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), spec);
}

static qc_status read_count(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    piece_draft *piece = to;

    if (json_is_object(value))
        return read_hands(reader, value, &piece->spec);
    return qci_read_int64(reader, value, field, &piece->spec.count);
}

static bool needs_angle(qc_shape shape)
{
    return shape == QC_SHAPE_DIAMOND || shape == QC_SHAPE_PARALLELOGRAM;
}

static qc_status fail_no_angle(qci_reader *reader)
{
    qc_status status;

    qci_read_enter_key(reader, "angle");
    status = qci_read_fail(reader, "a number of degrees, such as 45",
                           "is missing: diamonds and parallelograms need one");
    qci_read_leave(reader);
    return status;
}

qc_status qci_read_piece(qci_reader *reader, const json_t *value, void *user)
{
    qci_draft *to = user;
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_piece_spec, id), .required = true},
        {"fabric", qci_read_text, offsetof(qc_piece_spec, fabric),
         .required = true},
        {"shape", read_shape, offsetof(qc_piece_spec, shape), .required = true},
        {"angle", qci_read_angle, offsetof(qc_piece_spec, angle),
         .required = false},
        {"finished", read_finished, .required = false},
        {"cut", read_cut, .required = false},
        {"trim", qci_read_length, offsetof(qc_piece_spec, trim),
         .required = false},
        {"tips", read_tips, offsetof(qc_piece_spec, tips), .required = false},
        {"joins", read_joins, offsetof(qc_piece_spec, joins),
         .required = false},
        {"grain", read_grain, offsetof(qc_piece_spec, grain),
         .required = false},
        {"count", read_count, .required = true, .lo = 1, .hi = QC_MAX_COUNT},
        {"facing", read_facing, offsetof(qc_piece_spec, facing),
         .required = false},
    };
    piece_draft piece = {.draft = to};
    qc_status status;

    qc_piece_spec_init(&piece.spec);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &piece);
    if (status)
        return status;
    if (!piece.finished && !piece.cut)
        return qci_read_fail(reader, "exactly one of finished and cut",
                             "the piece has no size");
    if (needs_angle(piece.spec.shape) && !json_object_get(value, "angle"))
        return fail_no_angle(reader);
    return qci_vec_push(&to->pieces, piece.spec) ? QC_STATUS_OK
                                                 : qci_no_memory(reader->err);
}
