/* Units that strips are sewn for, and what is set in between diamonds.
 *
 * A row is patches with two pairs of parallel sides that share whole sides, one
 * behind the other, between two parallel lines; the longest first, and no patch
 * in two. Rows times patches. */
#include "block/finder.h"

static qc_block_point corner(const qc_block_patch *patch, size_t at)
{
    return patch->corners[at % patch->corner_count];
}

static bool are_parallel(const qci_finder *f, qc_block_point a,
                         qc_block_point b)
{
    return qci_sign(qci_cross(a, b, f->block->info.radicand),
                    f->block->info.radicand) == 0;
}

/* --- rows ------------------------------------------------------------------
 */

static bool is_slanted(const qci_finder *f, uint32_t patch)
{
    return f->block->groups[qci_finder_patch(f, patch)->group].info.angle != 0;
}

/* May it be a section of a strip? */
static bool is_section(const qci_finder *f, uint32_t patch)
{
    qc_shape shape =
        f->block->groups[qci_finder_patch(f, patch)->group].info.shape;

    return shape == QC_SHAPE_SQUARE || shape == QC_SHAPE_RECTANGLE ||
           is_slanted(f, patch);
}

/* The next section of a row that leaves a patch by a side, and the side it
 * leaves that one by; false: the row ends. */
static bool go_on(const qci_finder *f, qci_patch_side *at)
{
    qci_patch_side next = qci_finder_facing(f, at->patch, at->edge);

    if (next.patch == QC_NONE || f->taken[next.patch] ||
        !is_section(f, next.patch) ||
        !are_parallel(
            f, qci_patch_edge(qci_finder_patch(f, at->patch), at->edge + 1),
            qci_patch_edge(qci_finder_patch(f, next.patch), next.edge + 1)))
        return false;
    *at = (qci_patch_side){next.patch, (next.edge + 2) % 4};
    return true;
}

/* A row, from its first patch on. */
typedef struct row {
    qci_patch_side first;
    size_t length;
    bool mixed; /* of several roles */
} row;

static row row_from(const qci_finder *f, qci_patch_side first)
{
    row r = {first, 1, false};
    qci_patch_side at = first;

    while (r.length <= QC_MAX_SET_STRIPS && go_on(f, &at)) {
        r.length++;
        r.mixed |= qci_roles_differ(f, first.patch, at.patch);
    }
    return r;
}

/* Of two rows as long the one across the block is sewn; of diamonds the one
 * whose seams are the base's side, so that all turn alike. */
static bool is_natural(const qci_finder *f, qci_patch_side first)
{
    qc_block_point seam =
        qci_patch_edge(qci_finder_patch(f, first.patch), first.edge);

    if (qci_edge_is_straight(seam) && !is_slanted(f, first.patch))
        return qci_same(seam.x, (qc_block_number){0, 0});
    return first.edge % 2 == 0;
}

/* The longest row that is left. */
static row best_row(const qci_finder *f)
{
    row best = {{QC_NONE, 0}, 1, false};

    for (uint32_t i = 0; i < f->block->info.patch_count; i++) {
        if (f->taken[i] || !is_section(f, i))
            continue;
        for (uint32_t k = 0; k < 4; k++) {
            qci_patch_side first = {i, k}, back = {i, (k + 2) % 4};
            row r;

            if (go_on(f, &back))
                continue; /* it begins further back */
            r = row_from(f, first);
            if (!r.mixed || r.length > QC_MAX_SET_STRIPS)
                continue;
            if (r.length > best.length ||
                (r.length == best.length && best.length > 1 &&
                 is_natural(f, first) && !is_natural(f, best.first)))
                best = r;
        }
    }
    return best;
}

/* Which way the sides lean, seen with the row going up. */
static qc_hand hand_of(const qci_finder *f, qci_patch_side first)
{
    const qc_block_patch *own = qci_finder_patch(f, first.patch);
    qc_block_point seam = qci_patch_edge(own, first.edge);
    qc_block_point side = qci_patch_edge(own, first.edge + 1);
    int sign = qci_sign(qci_dot(seam, side, f->block->info.radicand),
                        f->block->info.radicand);

    return sign > 0 ? QC_HAND_RIGHT : sign < 0 ? QC_HAND_LEFT : QC_HAND_NONE;
}

qc_status qci_find_rows(qci_finder *f)
{
    qc_status status = QC_STATUS_OK;
    row best;

    while (!status && (best = best_row(f)).length > 1) {
        qci_sighting seen = {.kind = QCI_UNIT_ROW,
                             .count = best.length,
                             .side = best.first.edge,
                             .hand = hand_of(f, best.first)};
        qci_patch_side at = best.first;

        seen.patch[0] = at.patch;
        for (size_t i = 1; i < best.length && go_on(f, &at); i++)
            seen.patch[i] = at.patch;
        for (size_t i = 0; i < best.length; i++)
            f->taken[seen.patch[i]] = true;
        status = qci_unit_add(f->block, &seen, f->err);
    }
    return status;
}

/* --- diamonds round a square or a triangle ---------------------------------
 */

/* A diamond or parallelogram of 45 degrees that shares a side. */
static qci_patch_side diamond_at(const qci_finder *f, uint32_t patch,
                                 size_t edge)
{
    qci_patch_side at = qci_finder_facing(f, patch, edge);

    if (at.patch == QC_NONE || !qci_roles_differ(f, patch, at.patch) ||
        f->block->groups[qci_finder_patch(f, at.patch)->group].info.angle !=
            45 * QC_DEGREE)
        at.patch = QC_NONE;
    return at;
}

static bool is_square(const qci_finder *f, uint32_t patch)
{
    return f->block->groups[qci_finder_patch(f, patch)->group].info.shape ==
           QC_SHAPE_SQUARE;
}

/* Half a square, cut from corner `at` to the one across, goes on where a
 * diamond ends: its side lies along that cut. */
static bool goes_on_in(const qci_finder *f, qci_patch_side diamond,
                       uint32_t square, size_t at)
{
    const qc_block_patch *own = qci_finder_patch(f, square);
    qc_block_point cut = qci_from_to(corner(own, at), corner(own, at + 2));

    return diamond.patch != QC_NONE && !f->taken[diamond.patch] &&
           are_parallel(f, cut,
                        qci_patch_edge(qci_finder_patch(f, diamond.patch),
                                       diamond.edge + 1));
}

static qc_status add_half(qci_finder *f, qci_patch_side diamond,
                          uint32_t square)
{
    qci_sighting seen = {.kind = QCI_UNIT_ROW,
                         .count = 2,
                         .patch = {diamond.patch, square},
                         .half = {false, true},
                         .side = diamond.edge,
                         .hand = hand_of(f, diamond)};

    f->taken[diamond.patch] = true;
    return qci_unit_add(f->block, &seen, f->err);
}

/* A square between two diamonds: each takes half of it along, or it is sewn of
 * two triangles. */
qc_status qci_find_set_in_square(qci_finder *f, uint32_t patch)
{
    qc_status status = QC_STATUS_OK;

    if (!is_square(f, patch) ||
        !qci_edge_is_straight(qci_patch_edge(qci_finder_patch(f, patch), 0)))
        return status;
    for (uint32_t i = 0; i < 4; i++) {
        qci_patch_side one = diamond_at(f, patch, i);
        qci_patch_side two = diamond_at(f, patch, i + 3);
        qci_sighting halves = {.kind = QCI_UNIT_HALVED,
                               .count = 1,
                               .patch = {patch},
                               .side = QC_NONE};

        if (one.patch == QC_NONE || two.patch == QC_NONE)
            continue;
        status = qci_unit_add(f->block, &halves, f->err);
        if (status || !goes_on_in(f, one, patch, i) ||
            !goes_on_in(f, two, patch, i))
            return status;
        status = add_half(f, one, patch);
        return status ? status : add_half(f, two, patch);
    }
    return status;
}

/* A triangle between two diamonds, its long side along or across the block. */
qc_status qci_find_set_in_triangle(qci_finder *f, uint32_t patch)
{
    uint32_t side = qci_long_side(f, patch);
    qci_sighting halves = {
        .kind = QCI_UNIT_HALVED, .count = 1, .patch = {patch}, .side = side};

    if (side == QC_NONE ||
        !qci_edge_is_straight(
            qci_patch_edge(qci_finder_patch(f, patch), side)) ||
        diamond_at(f, patch, side + 1).patch == QC_NONE ||
        diamond_at(f, patch, side + 2).patch == QC_NONE)
        return QC_STATUS_OK;
    return qci_unit_add(f->block, &halves, f->err);
}
