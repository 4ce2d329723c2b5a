/* The pieces of a job: what is asked for, checked field by field.
 *
 * What is cut for them is in cut.c; which of the two hands are wanted, and how
 * long strips are joined, in expand.c, which hands the pieces on to the job.
 * Ids are compared pair by pair: 2 million comparisons at most. */
#include "job/piece.h"

#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/nearest.h"
#include "shape/shape.h"

static const qci_range size_range = {1, QC_LENGTH_MAX,
                                     "more than 0, up to 4294.967296 m"};
static const qci_range trim_range = {0, QC_M, "0 to 1 m"};

/* Blocks have one size for all of their pieces. */
qci_path qci_entry_path(const qci_entry *e, const char *member)
{
    if (!e->group)
        return qci_path_of("pieces", e->index, member);
    if (strncmp(member, "count", 5) == 0)
        member = "count";
    else if (strcmp(member, "id") != 0)
        member = "size";
    return qci_path_of("blocks", e->index, member);
}

qc_status qci_entry_fail(const qci_entry *e, const char *member,
                         const char *allowed, const char *problem)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_entry_path(e, member).text, NULL}, allowed,
                    "%s", problem);
}

static qc_status check_id(const qci_entry *e)
{
    qci_path path = qci_entry_path(e, "id");
    qc_status status = qci_check_text(e->check, path.text, e->spec->id, 1);

    if (status)
        return status;
    for (size_t i = 0; i < e->index; i++)
        if (strcmp(e->spec->id, e->check->spec->pieces[i].id) == 0)
            return qci_fail(e->check->err, QC_STATUS_INVALID,
                            (qci_place){path.text, e->spec->id},
                            "an id of its own for every piece",
                            "is also the id of pieces[%zu]", i);
    return QC_STATUS_OK;
}

/* The message names the nearest id, and the first few there are. */
static qc_status fail_no_fabric(const qci_check *check, const char *path,
                                const char *id)
{
    const char *known[QC_MAX_FABRICS];
    char allowed[sizeof check->err->allowed] = "";
    const qc_job *job = check->job;
    const char *nearest;
    size_t at = 0;

    for (size_t i = 0; i < job->fabric_count; i++) {
        known[i] = job->fabrics[i].id;
        if (i < 4)
            at += (size_t)snprintf(allowed + at, sizeof allowed - at, "%s%s",
                                   i ? ", " : "", qci_short_of(known[i]).text);
    }
    if (job->fabric_count > 4)
        snprintf(allowed + at, sizeof allowed - at, ", ...");
    nearest = qci_nearest(id, known, job->fabric_count);
    return qci_fail(
        check->err, QC_STATUS_INVALID, (qci_place){path, id}, allowed,
        "is the id of no fabric%s%s%s", nearest ? "; the nearest is \"" : "",
        nearest ? qci_short_of(nearest).text : "", nearest ? "\"" : "");
}

qc_status qci_find_fabric(const qci_check *check, const char *path,
                          const char *id, uint32_t *fabric)
{
    const qc_job *job = check->job;
    qc_status status = qci_check_text(check, path, id, 1);

    if (status)
        return status;
    for (size_t i = 0; i < job->fabric_count; i++)
        if (strcmp(job->fabrics[i].id, id) == 0) {
            *fabric = (uint32_t)i;
            return QC_STATUS_OK;
        }
    return fail_no_fabric(check, path, id);
}

static bool is_triangle(const qci_entry *e)
{
    return qci_shape_yields(e->spec->shape) > 1;
}

static bool is_slanted(const qci_entry *e)
{
    return e->spec->shape == QC_SHAPE_DIAMOND ||
           e->spec->shape == QC_SHAPE_PARALLELOGRAM;
}

static qc_status check_shape(const qci_entry *e)
{
    if ((int)e->spec->shape < QC_SHAPE_SQUARE ||
        e->spec->shape > QC_SHAPE_STRIP)
        return qci_entry_fail(e, "shape",
                              "square, rectangle, half-square triangle, "
                              "quarter-square triangle, diamond, "
                              "parallelogram, trapezoid, equilateral "
                              "triangle, hexagon, kite, polygon or strip",
                              "is no shape");
    return QC_STATUS_OK;
}

static qc_status check_angle(const qci_entry *e)
{
    int32_t angle = e->spec->angle;

    if (!is_slanted(e))
        return angle ? qci_entry_fail(e, "angle", "left out",
                                      "is for diamonds and parallelograms")
                     : QC_STATUS_OK;
    if (!qci_is_angle(angle))
        return qci_entry_fail(e, "angle", "1 to 179 degrees",
                              "makes no corner that can be cut and sewn");
    return QC_STATUS_OK;
}

/* Of rectangles where they lie, of others which side lies on the strip's edge.
 */
static qc_status check_grain(const qci_entry *e)
{
    qc_grain grain = e->spec->grain;
    bool angled = qci_shape_is_angled(e->spec->shape);

    if (grain == QC_GRAIN_DEFAULT)
        grain = angled ? QC_GRAIN_BASE : QC_GRAIN_ANY;
    if ((int)grain < QC_GRAIN_ANY || grain > QC_GRAIN_BASE)
        return qci_entry_fail(e, "grain", "any, lengthwise, crosswise or base",
                              "is no grain");
    if (is_triangle(e) && grain == QC_GRAIN_ANY)
        grain = QC_GRAIN_BASE; /* squares face every way in any case */
    if (is_triangle(e) && grain != QC_GRAIN_BASE)
        return qci_entry_fail(e, "grain", "base, or left out",
                              "is not for triangles, whose grain follows from "
                              "their squares");
    if (angled && grain != QC_GRAIN_ANY && grain != QC_GRAIN_BASE)
        return qci_entry_fail(e, "grain", "base or any",
                              "is for squares, rectangles and strips");
    if (!angled && grain == QC_GRAIN_BASE)
        return qci_entry_fail(e, "grain", "any, lengthwise or crosswise",
                              "is for shapes that are cut at an angle");
    e->piece->grain = grain;
    return QC_STATUS_OK;
}

static qc_status check_facing(const qci_entry *e)
{
    qc_facing facing = e->spec->facing;

    if (facing != QC_FACING_ANY && facing != QC_FACING_KEPT)
        return qci_entry_fail(e, "facing", "any or kept", "is no facing");
    if (facing == QC_FACING_KEPT && !is_triangle(e))
        return qci_entry_fail(e, "facing", "left out",
                              "is for half- and quarter-square triangles");
    e->piece->facing = facing;
    return QC_STATUS_OK;
}

static qc_status check_ends(const qci_entry *e)
{
    qc_tips tips = e->spec->tips;
    qc_joins joins = e->spec->joins;

    if (tips != QC_TIPS_SHARP && tips != QC_TIPS_BLUNT)
        return qci_entry_fail(e, "tips", "sharp or blunt", "are no tips");
    if (tips == QC_TIPS_BLUNT &&
        (!qci_shape_is_angled(e->spec->shape) || is_triangle(e)))
        return qci_entry_fail(e, "tips", "left out",
                              "are blunted only of shapes that are cut from "
                              "strips at an angle");
    if ((int)joins < QC_JOINS_NONE || joins > QC_JOINS_DIAGONAL)
        return qci_entry_fail(e, "joins", "none, straight or diagonal",
                              "are no joins");
    if (joins && e->spec->shape != QC_SHAPE_STRIP)
        return qci_entry_fail(e, "joins", "left out", "are for strips");
    if (joins && e->spec->grain != QC_GRAIN_DEFAULT &&
        e->spec->grain != QC_GRAIN_ANY)
        return qci_entry_fail(e, "grain", "left out",
                              "is settled: joined strips are cut across the "
                              "width");
    if (joins && e->spec->trim > 0)
        return qci_entry_fail(e, "trim", "left out",
                              "is not for strips that are joined");
    e->piece->blunt = tips == QC_TIPS_BLUNT;
    return QC_STATUS_OK;
}

int qci_shape_sizes(qc_shape shape)
{
    switch (shape) {
    case QC_SHAPE_RECTANGLE:
    case QC_SHAPE_PARALLELOGRAM:
    case QC_SHAPE_STRIP:
        return 2;
    case QC_SHAPE_TRAPEZOID:
    case QC_SHAPE_KITE:
        return 3;
    case QC_SHAPE_POLYGON:
        return 0;
    default:
        return 1;
    }
}

/* "cut", or "cut[1]" where the JSON form has a list. */
qci_path qci_size_path(const qci_entry *e, size_t dimension)
{
    const char *name = e->spec->is_cut ? "cut" : "finished";
    char member[32];

    snprintf(member, sizeof member, "%s", name);
    if (qci_shape_sizes(e->spec->shape) != 1)
        snprintf(member, sizeof member, "%s[%zu]", name, dimension);
    return qci_entry_path(e, member);
}

static qc_status check_sizes(const qci_entry *e)
{
    int count = qci_shape_sizes(e->spec->shape);
    qc_status status;

    for (int i = 0; i < count; i++) {
        status = qci_check_length(e->check, qci_size_path(e, (size_t)i).text,
                                  e->spec->size[i], size_range);
        if (status)
            return status;
    }
    if (e->spec->shape == QC_SHAPE_STRIP && e->spec->size[0] > e->spec->size[1])
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){qci_size_path(e, 0).text, NULL},
                        "the width first, then a length not below it",
                        "is a strip that is wider than long");
    if (e->spec->is_cut && (e->spec->size_rounded || e->spec->points_rounded))
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){qci_entry_path(e, "cut").text, NULL}, NULL,
                        "is taken as it is and must not have been rounded");
    e->piece->trim = e->spec->trim == QC_DEFAULT ? 0 : e->spec->trim;
    return qci_check_length(e->check, qci_entry_path(e, "trim").text,
                            e->piece->trim, trim_range);
}

static bool is_far(qc_length at)
{
    return at > QC_MAX_WIDTH || at < -QC_MAX_WIDTH;
}

static qc_status check_points(const qci_entry *e)
{
    size_t count = e->spec->point_count;
    const char *name = e->spec->is_cut ? "cut" : "finished";

    if (e->spec->shape != QC_SHAPE_POLYGON)
        return QC_STATUS_OK;
    if (!e->spec->points || count < 3 || count > QC_MAX_CORNERS)
        return qci_entry_fail(e, name, "3 to 12 corners",
                              "is no list of a polygon's corners");
    for (size_t i = 0; i < count; i++)
        if (is_far(e->spec->points[i].x) || is_far(e->spec->points[i].y))
            return qci_fail(e->check->err, QC_STATUS_INVALID,
                            (qci_place){qci_size_path(e, i).text, NULL},
                            "coordinates from -10 m to 10 m",
                            "lies too far away");
    return QC_STATUS_OK;
}

static qc_status check_piece(const qci_entry *e)
{
    qc_status status;

    if ((status = check_id(e)) ||
        (status = qci_find_fabric(e->check, qci_entry_path(e, "fabric").text,
                                  e->spec->fabric, &e->piece->fabric)) ||
        (status = check_shape(e)) || (status = check_angle(e)) ||
        (status = check_grain(e)) || (status = check_facing(e)) ||
        (status = check_ends(e)) || (status = check_sizes(e)) ||
        (status = check_points(e)))
        return status;
    e->piece->shape = e->spec->shape;
    e->piece->angle = e->spec->angle;
    e->piece->strip_set = QC_NONE;
    return qci_piece_expand(e);
}

bool qci_job_has_name(const qc_job *job, const char *name)
{
    for (size_t i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].id, name) == 0)
            return true;
    return false;
}

void qci_piece_clear(qci_piece *piece)
{
    qci_free(piece->id);
    qci_free(piece->job_id);
    qci_free(piece->outline);
    qci_free(piece->role);
}

qc_status qci_job_add_piece(const qci_check *check, qci_piece piece)
{
    qc_job *job = check->job;
    qci_piece *grown =
        qci_realloc(job->pieces, job->piece_count + 1, sizeof *job->pieces);

    if (!grown) {
        qci_piece_clear(&piece);
        return qci_no_memory(check->err);
    }
    job->pieces = grown;
    job->pieces[job->piece_count++] = piece;
    return QC_STATUS_OK;
}

qc_status qci_check_pieces(const qci_check *check)
{
    size_t count = check->spec->pieces ? check->spec->piece_count : 0;
    bool sets = check->spec->strip_sets && check->spec->strip_set_count;
    bool blocks = check->spec->blocks && check->spec->block_count;

    if (count == 0 && !sets && !blocks)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"pieces", NULL},
                        "1 to 2000 pieces, or blocks, or a strip set",
                        "there is nothing to cut");
    if (count > QC_MAX_PIECES)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"pieces", NULL}, "at most 2000 pieces",
                        "has %zu entries", count);
    for (size_t i = 0; i < count; i++) {
        qci_piece piece = {.twin = QC_NONE, .block = QC_NONE, .unit = QC_NONE};
        qci_entry e = {check, &check->spec->pieces[i], i, &piece, NULL, NULL};
        qc_status status = check_piece(&e);

        if (status)
            return status;
    }
    return QC_STATUS_OK;
}
