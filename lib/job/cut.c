/* What is cut for a piece: the geometry of the shape room, and its faults in
 * the words of the job. A finished size that lay between two lattice lengths
 * came in rounded up to the next; since the grid is a whole number of lattice
 * units, rounding up again gives the same as rounding the exact value once. */
#include <string.h>

#include "base/alloc.h"
#include "job/piece.h"
#include "job/turn.h"
#include "shape/shape.h"

qci_patch qci_entry_patch(const qci_entry *e)
{
    const qc_piece_spec *spec = e->spec;
    const qc_job *job = e->check->job;
    qc_print print = job->fabrics[e->piece->fabric].print;
    qci_patch patch = {.shape = spec->shape,
                       .is_cut = spec->is_cut,
                       .size = {spec->size[0], spec->size[1], spec->size[2]},
                       .angle = spec->angle,
                       .points = spec->points,
                       .point_count = spec->point_count,
                       .points_rounded = spec->points_rounded,
                       .blunt = e->piece->blunt,
                       .any_base = e->piece->grain == QC_GRAIN_ANY &&
                                   qci_shape_is_angled(spec->shape),
                       .singly = qci_piece_keeps_facing(e->piece, print),
                       .seam = job->seam,
                       .trim = e->piece->trim,
                       .ruler = job->ruler};

    if (!e->group)
        return patch;
    patch.fine = spec->point_count ? e->group->at : NULL;
    for (int i = 0; i < 3; i++)
        if (!qci_fine_whole(e->group->size[i]))
            patch.below[i] = qci_fine_of(spec->size[i]) - e->group->size[i];
    return patch;
}

static qc_status fail_at(const qci_entry *e, size_t at, const char *allowed,
                         const char *problem)
{
    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_size_path(e, at).text, NULL}, allowed, "%s",
                    problem);
}

static qc_status fail_trim(const qci_entry *e)
{
    qc_units units = e->check->job->units;

    return qci_fail(e->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_entry_path(e, "trim").text,
                                qci_show(e->piece->trim, units).text},
                    "less than the cut size", "trims the whole piece away");
}

/* The corner of a polygon, or what makes the corner of another shape. */
static qc_status fail_sharp(const qci_entry *e, size_t at)
{
    const char *name = e->spec->is_cut ? "cut" : "finished";

    if (e->spec->shape == QC_SHAPE_POLYGON)
        return fail_at(e, at, "1 degree or more",
                       "is a corner that is too sharp to cut and sew");
    return qci_entry_fail(e, name, "corners of 1 degree or more",
                          "makes a corner that is too sharp to cut and sew");
}

static qc_status explain(const qci_entry *e, qci_patch_fault fault, size_t at)
{
    const char *name = e->spec->is_cut ? "cut" : "finished";

    switch (fault) {
    case QCI_PATCH_FINE:
        break;
    case QCI_PATCH_DEGENERATE:
        return fail_at(e, at, "corners that differ, no three in a line",
                       "is no corner: it lies in a line with its neighbours, "
                       "or where another one is");
    case QCI_PATCH_CROSSING:
        return qci_entry_fail(e, name, "a convex polygon",
                              "is a polygon whose sides cross");
    case QCI_PATCH_CLOCKWISE:
        return qci_entry_fail(e, name, "corners counter-clockwise",
                              "lists the corners clockwise: give them in the "
                              "opposite order");
    case QCI_PATCH_NOT_CONVEX:
        return fail_at(e, at, "a convex polygon",
                       "is a corner that points inwards; such a piece cannot "
                       "be cut with straight cuts from edge to edge");
    case QCI_PATCH_SIZES:
        return fail_at(e, at, "less than the first size",
                       e->spec->shape == QC_SHAPE_KITE
                           ? "puts the widest line beyond the kite's end"
                           : "makes the short side as long as the long one, or "
                             "longer");
    case QCI_PATCH_TOO_SHARP:
        return fail_sharp(e, at);
    case QCI_PATCH_TRIM:
        return fail_trim(e);
    case QCI_PATCH_TOO_LARGE:
        return qci_entry_fail(e, name, "up to 10 m with slanted ends",
                              "makes a piece that is too large to be cut at "
                              "an angle, or whose angle is too flat");
    case QCI_PATCH_TOO_NARROW:
        return qci_entry_fail(e, name,
                              "1 mm or more at half the strip's height",
                              "makes a piece that is too narrow to be cut at "
                              "an angle");
    }
    return QC_STATUS_OK;
}

/* A cut size has the trim within it, and something must be left. */
static qc_status check_trim(const qci_entry *e, const qci_piece *out)
{
    if (qci_shape_yields(e->spec->shape) > 1 && e->spec->is_cut && out->trim)
        return qci_entry_fail(e, "trim", "a finished size",
                              "needs the size that the sewn triangles are "
                              "trimmed back to, which a cut size does not "
                              "tell");
    return out->trim < out->cut[0] && out->trim < out->cut[1] ? QC_STATUS_OK
                                                              : fail_trim(e);
}

static void set_finished(const qci_entry *e, qci_piece *out)
{
    int count = qci_shape_sizes(e->spec->shape);

    if (e->spec->is_cut)
        return;
    for (int i = 0; i < count; i++)
        out->finished[i] = e->spec->size[i];
    if (count == 1 && (e->spec->shape == QC_SHAPE_SQUARE ||
                       qci_shape_yields(e->spec->shape) > 1))
        out->finished[1] = e->spec->size[0];
}

/* Corners of a shape whose tips are whole. */
static size_t corners_of(const qc_piece_spec *spec)
{
    switch (spec->shape) {
    case QC_SHAPE_POLYGON:
        return spec->point_count;
    case QC_SHAPE_HEXAGON:
        return 6;
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
        return 3;
    default:
        return 4;
    }
}

static qc_status copy_cut(const qci_entry *e, const qci_cut_shape *cut,
                          qci_piece *out)
{
    size_t corners = cut->outline_count * cut->base_count;

    for (int i = 0; i < 2; i++) {
        out->cut[i] = cut->cut[i];
        out->trim_to[i] = cut->trim_to[i];
    }
    out->blunt = e->piece->blunt && cut->outline_count > corners_of(e->spec);
    out->rounded =
        cut->rounded || e->spec->size_rounded || e->spec->points_rounded;
    out->finished_area = cut->finished_area;
    if (!corners)
        return QC_STATUS_OK;
    out->outline = qci_copy(cut->outline, corners, sizeof *cut->outline);
    if (!out->outline)
        return qci_no_memory(e->check->err);
    out->outline_count = cut->outline_count;
    out->base_count = cut->base_count;
    return QC_STATUS_OK;
}

qc_status qci_piece_cut(const qci_entry *e, bool mirrored, qci_piece *out)
{
    qci_patch patch = qci_entry_patch(e);
    qci_cut_shape cut = {.cut = {0}};
    qci_patch_fault fault;
    qc_status status;
    size_t at = 0;

    patch.mirrored = mirrored;
    fault = qci_shape_make(&patch, &cut, &at);
    status = explain(e, fault, at);
    if (status)
        return status;
    if (e->group)
        cut.finished_area = e->group->info.area;
    *out = *e->piece;
    set_finished(e, out);
    status = copy_cut(e, &cut, out);
    if (!status)
        status = check_trim(e, out);
    if (!status)
        return QC_STATUS_OK;
    qci_free(out->outline);
    out->outline = NULL;
    return status;
}
