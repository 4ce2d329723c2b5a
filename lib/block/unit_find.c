/* Units by their geometry: which patches share whole sides, and what they make
 * together.
 *
 * All lies along and across the block but rows of diamonds, so that what is
 * sewn alone can be sewn into the block with straight seams. Patches times
 * sides, squared, for the table of which sides face each other. */
#include "base/alloc.h"
#include "base/error.h"
#include "block/finder.h"

const qc_block_patch *qci_finder_patch(const qci_finder *f, uint32_t patch)
{
    return &f->block->patches[patch];
}

/* Round the patch, once or twice. */
static qc_block_point corner(const qc_block_patch *patch, size_t at)
{
    while (at >= patch->corner_count)
        at -= patch->corner_count;
    return patch->corners[at];
}

qc_block_point qci_patch_edge(const qc_block_patch *patch, size_t edge)
{
    return qci_from_to(corner(patch, edge), corner(patch, edge + 1));
}

static bool is_zero(qc_block_number n)
{
    return !n.whole && !n.root;
}

bool qci_edge_is_straight(qc_block_point edge)
{
    return is_zero(edge.x) || is_zero(edge.y);
}

static bool same_point(qc_block_point a, qc_block_point b)
{
    return qci_same(a.x, b.x) && qci_same(a.y, b.y);
}

static qci_patch_side find_facing(const qci_finder *f, uint32_t patch,
                                  size_t edge)
{
    const qc_block_patch *own = qci_finder_patch(f, patch);

    for (uint32_t i = 0; i < f->block->info.patch_count; i++) {
        const qc_block_patch *other = qci_finder_patch(f, i);

        for (uint32_t k = 0; k < other->corner_count; k++)
            if (same_point(corner(other, k), corner(own, edge + 1)) &&
                same_point(corner(other, k + 1), corner(own, edge)))
                return (qci_patch_side){i, k};
    }
    return (qci_patch_side){QC_NONE, 0};
}

qci_patch_side qci_finder_facing(const qci_finder *f, uint32_t patch,
                                 size_t edge)
{
    return f->facing[patch][edge % qci_finder_patch(f, patch)->corner_count];
}

bool qci_roles_differ(const qci_finder *f, uint32_t a, uint32_t b)
{
    return qci_finder_patch(f, a)->role != qci_finder_patch(f, b)->role;
}

/* --- pairs and corners ---------------------------------------------------- */

uint32_t qci_long_side(const qci_finder *f, uint32_t patch)
{
    const qc_block_patch *own = qci_finder_patch(f, patch);
    qc_shape shape = f->block->groups[own->group].info.shape;

    if (shape != QC_SHAPE_HALF_SQUARE_TRIANGLE &&
        shape != QC_SHAPE_QUARTER_SQUARE_TRIANGLE)
        return QC_NONE;
    for (uint32_t i = 0; i < 3; i++)
        if (is_zero(qci_dot(qci_patch_edge(own, i), qci_patch_edge(own, i + 1),
                            f->block->info.radicand)))
            return (i + 2) % 3;
    return QC_NONE;
}

static qc_status find_pair(qci_finder *f, uint32_t patch)
{
    uint32_t side = qci_long_side(f, patch);
    qci_patch_side other;
    qci_sighting seen = {.kind = QCI_UNIT_PAIR, .count = 2, .side = side};

    if (side == QC_NONE)
        return QC_STATUS_OK;
    other = qci_finder_facing(f, patch, side);
    if (other.patch == QC_NONE || other.patch < patch ||
        qci_long_side(f, other.patch) != other.edge ||
        !qci_roles_differ(f, patch, other.patch) ||
        !qci_edge_is_straight(
            qci_patch_edge(qci_finder_patch(f, patch), side + 1)))
        return QC_STATUS_OK;
    seen.patch[0] = patch;
    seen.patch[1] = other.patch;
    return qci_unit_add(f->block, &seen, f->err);
}

/* An outline that grows by corners. */
typedef struct outline {
    size_t count;
    qc_block_point at[2 * QC_MAX_CORNERS];
} outline;

/* Is it a rectangle along and across the block, but for corners that lie in a
 * line? */
static bool is_rectangle(const qci_finder *f, const outline *o,
                         qc_block_point *size)
{
    size_t turns = 0;
    int64_t radicand = f->block->info.radicand;

    for (size_t i = 0; i < o->count; i++) {
        qc_block_point in = qci_from_to(o->at[i], o->at[(i + 1) % o->count]);
        qc_block_point out =
            qci_from_to(o->at[(i + 1) % o->count], o->at[(i + 2) % o->count]);

        if (!qci_edge_is_straight(in))
            return false;
        turns += !is_zero(qci_cross(in, out, radicand));
        for (size_t k = 0; k < i; k++) {
            qc_block_point across = qci_from_to(o->at[k], o->at[i]);

            if (qci_order(across.x, size->x, radicand) > 0)
                size->x = across.x;
            if (qci_order(across.y, size->y, radicand) > 0)
                size->y = across.y;
            across = qci_from_to(o->at[i], o->at[k]);
            if (qci_order(across.x, size->x, radicand) > 0)
                size->x = across.x;
            if (qci_order(across.y, size->y, radicand) > 0)
                size->y = across.y;
        }
    }
    return turns == 4;
}

/* The triangle whose long side lies at a side of the base; QC_NONE: none does.
 */
static uint32_t corner_at(const qci_finder *f, uint32_t base, size_t edge)
{
    qci_patch_side at = qci_finder_facing(f, base, edge);

    return at.patch != QC_NONE && qci_long_side(f, at.patch) == at.edge &&
                   qci_long_side(f, base) != edge &&
                   qci_roles_differ(f, base, at.patch)
               ? at.patch
               : QC_NONE;
}

/* Every triangle that lies at the patch becomes a corner; together they must
 * make a rectangle. */
static qc_status find_flipped(qci_finder *f, uint32_t base)
{
    const qc_block_patch *own = qci_finder_patch(f, base);
    qci_sighting seen = {
        .kind = QCI_UNIT_FLIPPED, .count = 1, .patch = {base}, .side = QC_NONE};
    outline o = {0};

    for (uint32_t i = 0; i < own->corner_count; i++) {
        uint32_t triangle = corner_at(f, base, i);

        o.at[o.count++] = own->corners[i];
        if (triangle == QC_NONE)
            continue;
        seen.patch[seen.count++] = triangle;
        o.at[o.count++] = corner(qci_finder_patch(f, triangle),
                                 (size_t)qci_long_side(f, triangle) + 2);
    }
    if (seen.count == 1 || !is_rectangle(f, &o, &seen.size))
        return QC_STATUS_OK;
    return qci_unit_add(f->block, &seen, f->err);
}

/* --- all --------------------------------------------------------------------
 */

static qc_status each_patch(qci_finder *f,
                            qc_status (*find)(qci_finder *, uint32_t))
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < f->block->info.patch_count && !status; i++)
        status = find(f, i);
    return status;
}

qc_status qci_units_find(qc_block *block, qc_error *err)
{
    qci_finder f = {.block = block, .err = err};
    qc_status status;

    f.facing = qci_calloc(block->info.patch_count, sizeof *f.facing);
    if (!f.facing)
        return qci_no_memory(err);
    for (uint32_t i = 0; i < block->info.patch_count; i++)
        for (size_t k = 0; k < block->patches[i].corner_count; k++)
            f.facing[i][k] = find_facing(&f, i, k);
    if (!(status = each_patch(&f, find_pair)) &&
        !(status = each_patch(&f, find_flipped)) &&
        !(status = qci_find_rows(&f)) &&
        !(status = each_patch(&f, qci_find_set_in_square)) &&
        !(status = each_patch(&f, qci_find_set_in_triangle)))
        status = qci_units_finish(block, err);
    qci_free(f.facing);
    return status;
}
