/* The pieces of a job, each turned into the size it is cut at.
 *
 * A finished size becomes a cut size once: plus what the seam allowances take
 * (an irrational number for triangles), plus what the piece is made larger to
 * be trimmed back, then up to the ruler grid. A
 * finished size that lay between two lattice lengths came in rounded up to the
 * next; since the grid is a whole number of lattice units, rounding up again
 * gives the same as rounding the exact value once. Cut sizes are taken as they
 * are. Ids are compared pair by pair: 2 million comparisons at most. */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/nearest.h"
#include "job/check.h"
#include "length/ruler.h"
#include "shape/shape.h"

static const qci_range size_range = {1, QC_LENGTH_MAX,
                                     "more than 0, up to 4294.967296 m"};
static const qci_range trim_range = {0, QC_M, "0 to 1 m"};
static const qci_range count_range = {1, QC_MAX_COUNT, "1 to 1000000000"};

typedef struct entry {
    const qci_check *check;
    const qc_piece_spec *spec;
    size_t index;
    qci_piece *piece;
} entry;

static qci_path path_of(const entry *e, const char *member)
{
    return qci_path_of("pieces", e->index, member);
}

static qc_status copy_id(const entry *e)
{
    qci_path path = path_of(e, "id");
    qc_status status = qci_check_text(e->check, path.text, e->spec->id, 1);

    if (status)
        return status;
    for (size_t i = 0; i < e->index; i++)
        if (strcmp(e->spec->id, e->check->spec->pieces[i].id) == 0)
            return qci_fail(e->check->err, QC_STATUS_INVALID,
                            (qci_place){path.text, e->spec->id},
                            "an id of its own for every piece",
                            "is also the id of pieces[%zu]", i);
    e->piece->id = qci_strdup(e->spec->id);
    return e->piece->id ? QC_STATUS_OK : qci_no_memory(e->check->err);
}

/* The message names the nearest id, and the first few there are. */
static qc_status fail_no_fabric(const entry *e)
{
    const char *known[QC_MAX_FABRICS];
    char allowed[sizeof e->check->err->allowed] = "";
    const qc_job *job = e->check->job;
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
    nearest = qci_nearest(e->spec->fabric, known, job->fabric_count);
    return qci_fail(
        e->check->err, QC_STATUS_INVALID,
        (qci_place){path_of(e, "fabric").text, e->spec->fabric}, allowed,
        "is the id of no fabric%s%s%s", nearest ? "; the nearest is \"" : "",
        nearest ? qci_short_of(nearest).text : "", nearest ? "\"" : "");
}

static qc_status find_fabric(const entry *e)
{
    const qc_job *job = e->check->job;
    qc_status status =
        qci_check_text(e->check, path_of(e, "fabric").text, e->spec->fabric, 1);

    if (status)
        return status;
    for (size_t i = 0; i < job->fabric_count; i++) {
        if (strcmp(job->fabrics[i].id, e->spec->fabric) == 0) {
            e->piece->fabric = (uint32_t)i;
            return QC_STATUS_OK;
        }
    }
    return fail_no_fabric(e);
}

static qc_status fail_kind(const entry *e, const char *member,
                           const char *allowed, const char *problem)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){path_of(e, member).text, NULL}, allowed, "%s",
                    problem);
}

static qc_status check_shape(const entry *e)
{
    switch (e->spec->shape) {
    case QC_SHAPE_SQUARE:
    case QC_SHAPE_RECTANGLE:
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
        e->piece->shape = e->spec->shape;
        e->piece->yields = qci_shape_yields(e->piece->shape);
        return QC_STATUS_OK;
    }
    return fail_kind(e, "shape",
                     "square, rectangle, half-square triangle or "
                     "quarter-square triangle",
                     "is no shape");
}

static bool is_triangle(const entry *e)
{
    return e->piece->yields > 1;
}

static qc_status check_grain(const entry *e)
{
    qc_grain grain = e->spec->grain;

    if (grain != QC_GRAIN_ANY && grain != QC_GRAIN_LENGTHWISE &&
        grain != QC_GRAIN_CROSSWISE)
        return fail_kind(e, "grain", "any, lengthwise or crosswise",
                         "is no grain");
    if (is_triangle(e) && grain != QC_GRAIN_ANY)
        return fail_kind(e, "grain", "left out",
                         "is for squares and rectangles; of triangles it is "
                         "not supported by this version");
    e->piece->grain = grain;
    return QC_STATUS_OK;
}

/* A square cut corner to corner gives triangles that face different ways. */
static qc_status check_facing(const entry *e)
{
    qc_facing facing = e->spec->facing;
    qc_print print = e->check->job->fabrics[e->piece->fabric].print;

    if (facing != QC_FACING_ANY && facing != QC_FACING_KEPT)
        return fail_kind(e, "facing", "any or kept", "is no facing");
    if (facing == QC_FACING_ANY)
        return QC_STATUS_OK;
    if (!is_triangle(e))
        return fail_kind(e, "facing", "left out", "is for triangles");
    if (print == QC_PRINT_ONE_WAY || print == QC_PRINT_TWO_WAY)
        return fail_kind(e, "facing", "any, or a plain or reversible fabric",
                         "triangles that keep the way the print faces are not "
                         "supported by this version");
    return QC_STATUS_OK;
}

static qc_status check_kinds(const entry *e)
{
    qc_status status;

    if ((status = check_shape(e)) || (status = check_grain(e)) ||
        (status = check_facing(e)))
        return status;
    return QC_STATUS_OK;
}

/* "cut", or "cut[1]" where the JSON form has a list. */
static qci_path size_path(const entry *e, int dimension)
{
    char member[32];

    snprintf(member, sizeof member, "%s", e->spec->is_cut ? "cut" : "finished");
    if (e->spec->shape == QC_SHAPE_RECTANGLE)
        snprintf(member, sizeof member, "%s[%d]",
                 e->spec->is_cut ? "cut" : "finished", dimension);
    return path_of(e, member);
}

static qc_status check_sizes(const entry *e)
{
    int dimensions = e->spec->shape == QC_SHAPE_RECTANGLE ? 2 : 1;
    qc_status status;

    for (int i = 0; i < dimensions; i++) {
        status = qci_check_length(e->check, size_path(e, i).text,
                                  e->spec->size[i], size_range);
        if (status)
            return status;
    }
    if (e->spec->is_cut && e->spec->size_rounded)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path_of(e, "cut").text, NULL}, NULL,
                        "is taken as it is and must not have been rounded");
    e->piece->trim = e->spec->trim == QC_DEFAULT ? 0 : e->spec->trim;
    return qci_check_length(e->check, path_of(e, "trim").text, e->piece->trim,
                            trim_range);
}

/* A cut size has the trim within it, and something must be left. */
static qc_status check_trim(const entry *e)
{
    const qci_piece *piece = e->piece;
    qc_units units = e->check->job->units;

    if (is_triangle(e) && e->spec->is_cut && piece->trim)
        return fail_kind(e, "trim", "a finished size",
                         "needs the size that the sewn triangles are trimmed "
                         "back to, which a cut size does not tell");
    if (piece->trim < piece->cut[0] && piece->trim < piece->cut[1])
        return QC_STATUS_OK;
    return qci_fail(
        e->check->err, QC_STATUS_INVALID,
        (qci_place){path_of(e, "trim").text, qci_show(piece->trim, units).text},
        "less than the cut size", "trims the whole piece away");
}

/* Fills finished and cut, which check_sizes() and the job's own ranges keep far
 * from overflow. */
static void set_sizes(const entry *e)
{
    const qc_piece_spec *spec = e->spec;
    const qc_job *job = e->check->job;
    qci_piece *piece = e->piece;

    piece->rounded = spec->size_rounded;
    for (int i = 0; i < 2; i++) {
        qc_length size = spec->size[spec->shape == QC_SHAPE_RECTANGLE ? i : 0];
        qc_length exact =
            qci_shape_cut_up(spec->shape, size, job->seam) + piece->trim;

        piece->finished[i] = spec->is_cut ? 0 : size;
        piece->cut[i] = spec->is_cut ? size : qci_ruler_up(exact, job->ruler);
        piece->rounded |= !spec->is_cut && (piece->cut[i] != exact ||
                                            (is_triangle(e) && job->seam));
    }
}

static qc_status set_count(const entry *e)
{
    const qc_job_spec *job = e->check->spec;
    int64_t count = e->spec->count;
    qci_path path = path_of(e, "count");
    qc_status status =
        qci_check_number(e->check, path.text, count, count_range);
    char shown[32];

    if (status)
        return status;
    if (job->spare_count > 0)
        e->piece->spares = job->spare_count;
    if (job->spare_percent > 0)
        e->piece->spares = (count * job->spare_percent + 9999) / 10000;
    e->piece->count = count + e->piece->spares;
    e->piece->extra = (e->piece->yields - e->piece->count % e->piece->yields) %
                      e->piece->yields;
    e->piece->spares += e->piece->extra;
    e->piece->count += e->piece->extra;
    if (e->piece->count <= QC_MAX_COUNT)
        return QC_STATUS_OK;
    snprintf(shown, sizeof shown, "%" PRId64, count);
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){path.text, shown}, count_range.allowed,
                    "is too large with its %" PRId64 " spares",
                    e->piece->spares);
}

static qc_status check_piece(const entry *e)
{
    qc_status status;

    if ((status = copy_id(e)) || (status = find_fabric(e)) ||
        (status = check_kinds(e)) || (status = check_sizes(e)))
        return status;
    set_sizes(e);
    if ((status = check_trim(e)) || (status = set_count(e)))
        return status;
    return QC_STATUS_OK;
}

qc_status qci_check_pieces(const qci_check *check)
{
    size_t count = check->spec->piece_count;
    qc_job *job = check->job;

    if (!check->spec->pieces)
        count = 0;
    if (count == 0 || count > QC_MAX_PIECES)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"pieces", NULL}, "1 to 2000 pieces",
                        "has %zu entries", count);
    job->pieces = qci_calloc(count, sizeof *job->pieces);
    if (!job->pieces)
        return qci_no_memory(check->err);
    job->piece_count = count;
    for (size_t i = 0; i < count; i++) {
        entry e = {check, &check->spec->pieces[i], i, &job->pieces[i]};
        qc_status status = check_piece(&e);

        if (status)
            return status;
    }
    return QC_STATUS_OK;
}
