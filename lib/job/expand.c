/* From one piece of the spec to what is cut alike: the left ones and the right
 * ones of a shape that has hands; the whole pieces of a joined strip and their
 * end. On cloth without a wrong side hands are the same piece. */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/text.h"
#include "job/piece.h"
#include "length/ruler.h"
#include "shape/shape.h"

static const qci_range count_range = {1, QC_MAX_COUNT, "1 to 1000000000"};
static const qci_range hand_range = {0, QC_MAX_COUNT, "0 to 1000000000"};

/* Adds spares to a count. */
static qc_status set_count(const qci_entry *e, const char *member,
                           int64_t count, qci_piece *out)
{
    char shown[32];

    out->spares = qci_spares_of(e->check->spec, count);
    out->count = count + out->spares;
    if (out->count <= QC_MAX_COUNT)
        return QC_STATUS_OK;
    snprintf(shown, sizeof shown, "%" PRId64, count);
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_entry_path(e, member).text, shown},
                    count_range.allowed,
                    "is too large with its %" PRId64 " spares", out->spares);
}

/* Names a piece, and hands it to the job. `suffix` is "" or a word. */
static qc_status add(const qci_entry *e, const char *suffix, qci_piece piece)
{
    qci_text name = {0};

    qci_text_printf(&name, "%s%s%s", e->spec->id, *suffix ? " " : "", suffix);
    piece.id = qci_text_take(&name);
    piece.job_id = qci_strdup(e->spec->id);
    piece.role = e->role ? qci_strdup(e->role) : NULL;
    if (!piece.id || !piece.job_id || (e->role && !piece.role)) {
        qci_piece_clear(&piece);
        return qci_no_memory(e->check->err);
    }
    if (qci_job_has_name(e->check->job, piece.id)) {
        qc_status status = qci_fail(
            e->check->err, QC_STATUS_INVALID,
            (qci_place){qci_entry_path(e, "id").text, piece.id},
            e->group ? "an \"id\" that leaves all names different"
                     : "ids that stay different when \"left\", \"right\", "
                       "\"long\" or \"end\" is added",
            "makes \"%s\", which is also what another piece is called",
            qci_short_of(piece.id).text);

        qci_piece_clear(&piece);
        return status;
    }
    return qci_job_add_piece(e->check, piece);
}

static bool is_symmetric(const qci_entry *e)
{
    qci_patch patch = qci_entry_patch(e);

    return qci_shape_is_symmetric(&patch);
}

/* As drawn, a parallelogram of more than a right angle leans left. */
static bool is_drawn_left(const qci_entry *e)
{
    return e->spec->shape == QC_SHAPE_PARALLELOGRAM &&
           e->spec->angle > 90 * QC_DEGREE;
}

/* A piece that is cut as drawn or as its mirror image. */
static qc_status add_cut(const qci_entry *e, qc_hand hand, bool mirrored,
                         int64_t count, const char *member, const char *suffix)
{
    qci_piece piece;
    qc_status status = qci_piece_cut(e, mirrored, &piece);

    if (status)
        return status;
    piece.hand = hand;
    if (e->group && hand != QC_HAND_NONE)
        piece.in_each =
            hand == QC_HAND_LEFT ? e->group->info.left : e->group->info.right;
    piece.twin =
        hand == QC_HAND_NONE ? (uint32_t)e->check->job->piece_count : QC_NONE;
    status = set_count(e, member, count, &piece);
    if (!status)
        return add(e, suffix, piece);
    qci_free(piece.outline);
    return status;
}

static qc_status add_hand(const qci_entry *e, qc_hand hand, int64_t count,
                          const char *member, const char *suffix)
{
    bool mirrored = (hand == QC_HAND_LEFT) != is_drawn_left(e);

    return add_cut(e, hand, mirrored, count, member, suffix);
}

/* Counts of both hands, each 0 or more, not both 0. */
static qc_status check_hands(const qci_entry *e)
{
    const qc_piece_spec *spec = e->spec;
    qci_piece drawn;
    qc_status status = qci_piece_cut(e, false, &drawn);

    /* What is wrong with the shape comes first. */
    if (status)
        return status;
    qci_free(drawn.outline);
    if (spec->count)
        return qci_entry_fail(e, "count", "a number, or both hands",
                              "is given beside the counts of both hands");
    if (is_symmetric(e))
        return qci_entry_fail(e, "count", "a number",
                              "asks for hands of a shape that is its own "
                              "mirror image; parallelograms with two lengths "
                              "of sides and unsymmetric polygons have hands");
    status = qci_check_number(e->check, qci_entry_path(e, "count.left").text,
                              spec->left, hand_range);
    if (!status)
        status =
            qci_check_number(e->check, qci_entry_path(e, "count.right").text,
                             spec->right, hand_range);
    if (!status && !spec->left && !spec->right)
        return qci_entry_fail(e, "count", "at least one piece",
                              "asks for no piece of either hand");
    return status;
}

static qc_status add_both(const qci_entry *e)
{
    int64_t left = e->spec->left, right = e->spec->right;
    qc_job *job = e->check->job;
    qc_status status = QC_STATUS_OK;

    if (left)
        status =
            add_hand(e, QC_HAND_LEFT, left, "count.left", right ? "left" : "");
    if (!status && right)
        status = add_hand(e, QC_HAND_RIGHT, right, "count.right",
                          left ? "right" : "");
    if (!status && left && right) {
        uint32_t last = (uint32_t)job->piece_count - 1;

        job->pieces[last].twin = last - 1;
        job->pieces[last - 1].twin = last;
    }
    return status;
}

/* What of a strip's length every join takes. */
static qc_length loss_of(const qci_entry *e, const qci_piece *strip)
{
    return e->spec->joins == QC_JOINS_DIAGONAL ? strip->cut[0]
                                               : 2 * e->check->job->seam;
}

/* Pieces of a joined strip, `times` of each: across the fabric, `length` long.
 */
static qc_status add_part(const qci_entry *e, const qci_piece *strip,
                          qc_length length, int64_t times, const char *suffix)
{
    qci_piece part = *strip;
    qc_length seams = 2 * e->check->job->seam;

    part.shape = QC_SHAPE_RECTANGLE;
    part.cut[0] = length;
    part.cut[1] = strip->cut[0];
    part.finished[0] = part.finished[1] = 0;
    part.trim_to[0] = part.trim_to[1] = 0;
    part.finished_area =
        (length > seams ? length - seams : length) *
        (strip->cut[0] > seams ? strip->cut[0] - seams : strip->cut[0]);
    part.grain = QC_GRAIN_CROSSWISE;
    part.twin = (uint32_t)e->check->job->piece_count;
    part.count = strip->count * times;
    part.spares = strip->spares * times;
    return add(e, suffix, part);
}

/* The fewest pieces whose lengths, less what the joins take, are enough: all of
 * the fabric's width but the last. */
static qc_status add_joined(const qci_entry *e, const qci_piece *strip)
{
    qc_length width = e->check->job->fabrics[strip->fabric].width;
    qc_length loss = loss_of(e, strip), length = strip->cut[1];
    int64_t joins;
    qc_status status;

    if (length <= width) {
        qci_piece whole = *strip;

        whole.twin = (uint32_t)e->check->job->piece_count;
        return add(e, "", whole);
    }
    if (width <= loss)
        return qci_fail(e->check->err, QC_STATUS_IMPOSSIBLE,
                        (qci_place){qci_entry_path(e, "joins").text, NULL},
                        "a narrower strip",
                        "take as much as the fabric is wide");
    joins = (length - width + width - loss - 1) / (width - loss);
    if (strip->count > QC_MAX_COUNT / joins)
        return qci_entry_fail(e, "count", "fewer or shorter strips",
                              "needs more than 1000000000 pieces");
    status = add_part(e, strip, width, joins, "long");
    if (status)
        return status;
    length =
        qci_ruler_up(length - joins * (width - loss), e->check->job->ruler);
    return add_part(e, strip, length < width ? length : width, 1, "end");
}

static qc_status add_strip(const qci_entry *e)
{
    qci_piece strip;
    qc_status status = qci_piece_cut(e, false, &strip);

    if (!status)
        status = set_count(e, "count", e->spec->count, &strip);
    if (status)
        return status;
    if (e->spec->joins != QC_JOINS_NONE)
        return add_joined(e, &strip);
    strip.twin = (uint32_t)e->check->job->piece_count;
    return add(e, "", strip);
}

qc_status qci_piece_expand(const qci_entry *e)
{
    const qc_piece_spec *spec = e->spec;
    bool handed = spec->left != QC_DEFAULT || spec->right != QC_DEFAULT;
    qc_print print = e->check->job->fabrics[e->piece->fabric].print;
    int64_t count = spec->count;
    qc_status status;

    if (handed) {
        status = check_hands(e);
        if (!status) /* else their sum may not be a number */
            count = spec->left + spec->right;
    } else {
        status = qci_check_number(e->check, qci_entry_path(e, "count").text,
                                  count, count_range);
    }
    if (status)
        return status;
    if (spec->shape == QC_SHAPE_STRIP)
        return add_strip(e);
    if (is_symmetric(e) || print == QC_PRINT_REVERSIBLE)
        return add_cut(e, QC_HAND_NONE, false, count, "count", "");
    if (handed)
        return add_both(e);
    return add_hand(e, is_drawn_left(e) ? QC_HAND_LEFT : QC_HAND_RIGHT, count,
                    "count", "");
}
