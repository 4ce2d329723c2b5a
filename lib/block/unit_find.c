/* Units by their geometry: which patches share whole sides, and what they make
 * together.
 *
 * All lies along and across the block but rows of diamonds, so that what is
 * sewn alone can be sewn into the block with straight seams. Patches times
 * sides, squared, for the table of which sides face each other. */
#include "base/alloc.h"
#include "base/error.h"
#include "block/unit.h"

/* Side `edge` of a patch, from corner `edge` to the next. */
typedef struct place {
    uint32_t patch, edge;
} place;

typedef struct finder {
    qc_block *block;
    qc_error *err;
    place (*facing)[QC_MAX_CORNERS]; /* what lies at each side, by the whole of
                                        it; QC_NONE: nothing */
    bool taken[QC_MAX_PATCHES];      /* by a row */
} finder;

static const qc_block_patch *patch_of(const finder *f, uint32_t patch)
{
    return &f->block->patches[patch];
}

static qc_block_point corner(const qc_block_patch *patch, size_t at)
{
    return patch->corners[at % patch->corner_count];
}

static qc_block_point edge_of(const qc_block_patch *patch, size_t edge)
{
    return qci_from_to(corner(patch, edge), corner(patch, edge + 1));
}

static bool is_zero(qc_block_number n)
{
    return !n.whole && !n.root;
}

static bool is_straight(qc_block_point edge)
{
    return is_zero(edge.x) || is_zero(edge.y);
}

static bool same_point(qc_block_point a, qc_block_point b)
{
    return qci_same(a.x, b.x) && qci_same(a.y, b.y);
}

static bool are_parallel(const finder *f, qc_block_point a, qc_block_point b)
{
    return is_zero(qci_cross(a, b, f->block->info.radicand));
}

static place find_facing(const finder *f, uint32_t patch, size_t edge)
{
    const qc_block_patch *own = patch_of(f, patch);

    for (uint32_t i = 0; i < f->block->info.patch_count; i++) {
        const qc_block_patch *other = patch_of(f, i);

        for (uint32_t k = 0; k < other->corner_count; k++)
            if (same_point(corner(other, k), corner(own, edge + 1)) &&
                same_point(corner(other, k + 1), corner(own, edge)))
                return (place){i, k};
    }
    return (place){QC_NONE, 0};
}

static place at_side(const finder *f, uint32_t patch, size_t edge)
{
    return f->facing[patch][edge % patch_of(f, patch)->corner_count];
}

static bool roles_differ(const finder *f, uint32_t a, uint32_t b)
{
    return patch_of(f, a)->role != patch_of(f, b)->role;
}

/* --- pairs and corners ---------------------------------------------------- */

/* The long side of a triangle with a right angle and equal legs; QC_NONE of
 * another patch. */
static uint32_t long_side(const finder *f, uint32_t patch)
{
    const qc_block_patch *own = patch_of(f, patch);
    qc_shape shape = f->block->groups[own->group].info.shape;

    if (shape != QC_SHAPE_HALF_SQUARE_TRIANGLE &&
        shape != QC_SHAPE_QUARTER_SQUARE_TRIANGLE)
        return QC_NONE;
    for (uint32_t i = 0; i < 3; i++)
        if (is_zero(qci_dot(edge_of(own, i), edge_of(own, i + 1),
                            f->block->info.radicand)))
            return (i + 2) % 3;
    return QC_NONE;
}

static qc_status find_pair(finder *f, uint32_t patch)
{
    uint32_t side = long_side(f, patch);
    place other;
    qci_sighting seen = {.kind = QCI_UNIT_PAIR, .count = 2, .side = side};

    if (side == QC_NONE)
        return QC_STATUS_OK;
    other = at_side(f, patch, side);
    if (other.patch == QC_NONE || other.patch < patch ||
        long_side(f, other.patch) != other.edge ||
        !roles_differ(f, patch, other.patch) ||
        !is_straight(edge_of(patch_of(f, patch), side + 1)))
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
static bool is_rectangle(const finder *f, const outline *o,
                         qc_block_point *size)
{
    size_t turns = 0;
    int64_t radicand = f->block->info.radicand;

    for (size_t i = 0; i < o->count; i++) {
        qc_block_point in = qci_from_to(o->at[i], o->at[(i + 1) % o->count]);
        qc_block_point out =
            qci_from_to(o->at[(i + 1) % o->count], o->at[(i + 2) % o->count]);

        if (!is_straight(in))
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
static uint32_t corner_at(const finder *f, uint32_t base, size_t edge)
{
    place at = at_side(f, base, edge);

    return at.patch != QC_NONE && long_side(f, at.patch) == at.edge &&
                   long_side(f, base) != edge && roles_differ(f, base, at.patch)
               ? at.patch
               : QC_NONE;
}

/* Every triangle that lies at the patch becomes a corner; together they must
 * make a rectangle. */
static qc_status find_flipped(finder *f, uint32_t base)
{
    const qc_block_patch *own = patch_of(f, base);
    qci_sighting seen = {
        .kind = QCI_UNIT_FLIPPED, .count = 1, .patch = {base}, .side = QC_NONE};
    outline o = {0};

    for (uint32_t i = 0; i < own->corner_count; i++) {
        uint32_t triangle = corner_at(f, base, i);

        o.at[o.count++] = own->corners[i];
        if (triangle == QC_NONE)
            continue;
        seen.patch[seen.count++] = triangle;
        o.at[o.count++] =
            corner(patch_of(f, triangle), (size_t)long_side(f, triangle) + 2);
    }
    if (seen.count == 1 || !is_rectangle(f, &o, &seen.size))
        return QC_STATUS_OK;
    return qci_unit_add(f->block, &seen, f->err);
}

/* --- rows ------------------------------------------------------------------
 */

static bool is_slanted(const finder *f, uint32_t patch)
{
    return f->block->groups[patch_of(f, patch)->group].info.angle != 0;
}

/* May it be a section of a strip? */
static bool is_section(const finder *f, uint32_t patch)
{
    qc_shape shape = f->block->groups[patch_of(f, patch)->group].info.shape;

    return shape == QC_SHAPE_SQUARE || shape == QC_SHAPE_RECTANGLE ||
           is_slanted(f, patch);
}

/* The next section of a row that leaves a patch by a side, and the side it
 * leaves that one by; false: the row ends. */
static bool go_on(const finder *f, place *at)
{
    place next = at_side(f, at->patch, at->edge);

    if (next.patch == QC_NONE || f->taken[next.patch] ||
        !is_section(f, next.patch) ||
        !are_parallel(f, edge_of(patch_of(f, at->patch), at->edge + 1),
                      edge_of(patch_of(f, next.patch), next.edge + 1)))
        return false;
    *at = (place){next.patch, (next.edge + 2) % 4};
    return true;
}

/* A row, from its first patch on. */
typedef struct row {
    place first;
    size_t length;
    bool mixed; /* of several roles */
} row;

static row row_from(const finder *f, place first)
{
    row r = {first, 1, false};
    place at = first;

    while (r.length <= QC_MAX_SET_STRIPS && go_on(f, &at)) {
        r.length++;
        r.mixed |= roles_differ(f, first.patch, at.patch);
    }
    return r;
}

/* Of two rows as long the one across the block is sewn; of diamonds the one
 * whose seams are the base's side, so that all turn alike. */
static bool is_natural(const finder *f, place first)
{
    qc_block_point seam = edge_of(patch_of(f, first.patch), first.edge);

    if (is_straight(seam) && !is_slanted(f, first.patch))
        return is_zero(seam.x);
    return first.edge % 2 == 0;
}

/* The longest row that is left. */
static row best_row(const finder *f)
{
    row best = {{QC_NONE, 0}, 1, false};

    for (uint32_t i = 0; i < f->block->info.patch_count; i++) {
        if (f->taken[i] || !is_section(f, i))
            continue;
        for (uint32_t k = 0; k < 4; k++) {
            place first = {i, k}, back = {i, (k + 2) % 4};
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
static qc_hand hand_of(const finder *f, place first)
{
    const qc_block_patch *own = patch_of(f, first.patch);
    qc_block_point seam = edge_of(own, first.edge);
    qc_block_point side = edge_of(own, first.edge + 1);
    int sign = qci_sign(qci_dot(seam, side, f->block->info.radicand),
                        f->block->info.radicand);

    return sign > 0 ? QC_HAND_RIGHT : sign < 0 ? QC_HAND_LEFT : QC_HAND_NONE;
}

static qc_status find_rows(finder *f)
{
    qc_status status = QC_STATUS_OK;
    row best;

    while (!status && (best = best_row(f)).length > 1) {
        qci_sighting seen = {.kind = QCI_UNIT_ROW,
                             .count = best.length,
                             .side = best.first.edge,
                             .hand = hand_of(f, best.first)};
        place at = best.first;

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
static place diamond_at(const finder *f, uint32_t patch, size_t edge)
{
    place at = at_side(f, patch, edge);

    if (at.patch == QC_NONE || !roles_differ(f, patch, at.patch) ||
        f->block->groups[patch_of(f, at.patch)->group].info.angle !=
            45 * QC_DEGREE)
        at.patch = QC_NONE;
    return at;
}

static bool is_square(const finder *f, uint32_t patch)
{
    return f->block->groups[patch_of(f, patch)->group].info.shape ==
           QC_SHAPE_SQUARE;
}

/* Half a square, cut from corner `at` to the one across, goes on where a
 * diamond ends: its side lies along that cut. */
static bool goes_on_in(const finder *f, place diamond, uint32_t square,
                       size_t at)
{
    const qc_block_patch *own = patch_of(f, square);
    qc_block_point cut = qci_from_to(corner(own, at), corner(own, at + 2));

    return diamond.patch != QC_NONE && !f->taken[diamond.patch] &&
           are_parallel(f, cut,
                        edge_of(patch_of(f, diamond.patch), diamond.edge + 1));
}

static qc_status add_half(finder *f, place diamond, uint32_t square)
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
static qc_status find_set_in_square(finder *f, uint32_t patch)
{
    qc_status status = QC_STATUS_OK;

    if (!is_square(f, patch) || !is_straight(edge_of(patch_of(f, patch), 0)))
        return status;
    for (uint32_t i = 0; i < 4; i++) {
        place one = diamond_at(f, patch, i);
        place two = diamond_at(f, patch, i + 3);
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
static qc_status find_set_in_triangle(finder *f, uint32_t patch)
{
    uint32_t side = long_side(f, patch);
    qci_sighting halves = {
        .kind = QCI_UNIT_HALVED, .count = 1, .patch = {patch}, .side = side};

    if (side == QC_NONE || !is_straight(edge_of(patch_of(f, patch), side)) ||
        diamond_at(f, patch, side + 1).patch == QC_NONE ||
        diamond_at(f, patch, side + 2).patch == QC_NONE)
        return QC_STATUS_OK;
    return qci_unit_add(f->block, &halves, f->err);
}

/* --- all --------------------------------------------------------------------
 */

static qc_status each_patch(finder *f, qc_status (*find)(finder *, uint32_t))
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < f->block->info.patch_count && !status; i++)
        status = find(f, i);
    return status;
}

qc_status qci_units_find(qc_block *block, qc_error *err)
{
    finder f = {.block = block, .err = err};
    qc_status status;

    f.facing = qci_calloc(block->info.patch_count, sizeof *f.facing);
    if (!f.facing)
        return qci_no_memory(err);
    for (uint32_t i = 0; i < block->info.patch_count; i++)
        for (size_t k = 0; k < block->patches[i].corner_count; k++)
            f.facing[i][k] = find_facing(&f, i, k);
    if (!(status = each_patch(&f, find_pair)) &&
        !(status = each_patch(&f, find_flipped)) && !(status = find_rows(&f)) &&
        !(status = each_patch(&f, find_set_in_square)) &&
        !(status = each_patch(&f, find_set_in_triangle)))
        status = qci_units_finish(block, err);
    qci_free(f.facing);
    return status;
}
