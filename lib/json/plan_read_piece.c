/* A piece of a plan from JSON: sizes, outlines, what it refers to. */
#include "json/plan_source.h"

#include "base/alloc.h"
#include "base/error.h"
#include "shape/shape.h"

/* Reads a list of two lengths or three. */
static qc_status read_lengths(qci_reader *reader, const json_t *value,
                              size_t most, qc_length *to)
{
    size_t count = json_array_size(value);

    if (!json_is_array(value) || count < 1 || count > most)
        return qci_read_fail(reader, "a list of lengths", "is no size");
    return qci_read_elements(reader, value, qci_source_number, NULL, to,
                             sizeof *to);
}

static qc_status read_size(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    (void)field;
    return read_lengths(reader, value, 2, to);
}

static qc_status read_finished(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    (void)field;
    return read_lengths(reader, value, 3, to);
}

static qc_status read_corner(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    qc_length at[2] = {0, 0};
    qc_status status = json_array_size(value) == 2
                           ? read_lengths(reader, value, 2, at)
                           : qci_read_fail(reader, "[x, y]", "is not a point");

    (void)field;
    *(qc_point *)to = (qc_point){at[0], at[1]};
    return status;
}

static qc_status read_outline(qci_reader *reader, const json_t *value,
                              size_t count, qc_point *to)
{
    if (json_array_size(value) != count)
        return qci_read_fail(reader, "lists of 3 to 24 points, equally long",
                             "is no outline");
    return qci_read_elements(reader, value, read_corner, NULL, to, sizeof *to);
}

static qc_status read_outlines(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    qc_plan_piece *piece = to;
    size_t bases = json_array_size(value);
    size_t corners = json_array_size(json_array_get(value, 0));
    qc_status status = QC_STATUS_OK;
    qc_point *points;

    (void)field;
    if (bases < 1 || bases > 24 || corners < 3 || corners > 24)
        return qci_read_fail(reader, "1 to 24 lists of 3 to 24 points",
                             "are no outlines");
    points = qci_calloc(bases * corners, sizeof *points);
    piece->outline = points;
    if (!points)
        return qci_no_memory(reader->err);
    piece->base_count = bases;
    piece->outline_count = corners;
    for (size_t i = 0; i < bases && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_outline(reader, json_array_get(value, i), corners,
                              points + i * corners);
        qci_read_leave(reader);
    }
    return status;
}

qc_status qci_source_piece(const qci_source *s, size_t i)
{
    static const char *const facing[] = {"kept"};
    qc_plan_piece *piece = &s->plan->pieces[i];
    int shape = 0, kept = -1;
    qc_status status;

    piece->strip_set = piece->twin = QC_NONE;
    if ((status = qci_source_get(s, "job_id", false, qci_source_text, NULL,
                                 &piece->job_id)) ||
        (status = qci_source_reference(s, "fabric", QCI_ID_FABRICS,
                                       &piece->fabric)) ||
        (status = qci_source_word(s, "shape", true,
                                  (qci_words){qci_shape_words, QCI_SHAPES},
                                  &shape)) ||
        (status = qci_source_angle(s, "angle", &piece->angle)) ||
        (status = qci_source_hand(s, &piece->hand)) ||
        (status =
             qci_source_reference(s, "twin", QCI_ID_PIECES, &piece->twin)) ||
        (status = qci_source_get(s, "blunt", false, qci_read_flag, NULL,
                                 &piece->blunt)) ||
        (status = qci_source_word(s, "facing", false, (qci_words){facing, 1},
                                  &kept)) ||
        (status = qci_source_get(s, "outlines", false, read_outlines, NULL,
                                 piece)) ||
        (status = qci_source_get(s, "finished", false, read_finished, NULL,
                                 piece->finished)) ||
        (status =
             qci_source_get(s, "cut", true, read_size, NULL, piece->cut)) ||
        (status = qci_source_get(s, "trim_to", false, read_size, NULL,
                                 piece->trim_to)) ||
        (status = qci_source_get(s, "count", true, qci_read_int64,
                                 &qci_source_counts, &piece->count)) ||
        (status = qci_source_get(s, "spares", true, qci_read_int64,
                                 &qci_source_counts, &piece->spares)))
        return status;
    piece->shape = (qc_shape)shape;
    piece->facing_kept = kept == 0;
    /* Its own mirror image is its twin, which goes without saying. */
    if (piece->twin == QC_NONE && piece->hand == QC_HAND_NONE)
        piece->twin = (uint32_t)i;
    return qci_source_reference(s, "strip_set", QCI_ID_SETS_OF_JOB,
                                &piece->strip_set);
}
