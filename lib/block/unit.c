/* Units that are alike, counted; what they are called, offer and measure.
 *
 * A unit is called by the letters of its groups: "A+B" of a pair and of a row,
 * from one end to the other, "A+4B" of a patch with four corners. A row that is
 * turned by half is the same; in a mirror it is the other hand. */
#include "block/unit.h"

#include <inttypes.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/text.h"
#include "base/vec.h"
#include "block/group.h"

static uint32_t group_of(const qc_block *block, const qci_sighting *seen,
                         size_t i)
{
    return block->patches[seen->patch[i]].group;
}

static qc_block_point edge_at(const qc_block_patch *patch, size_t edge)
{
    return qci_from_to(patch->corners[edge % patch->corner_count],
                       patch->corners[(edge + 1) % patch->corner_count]);
}

/* Is a row to be read from its other end? Then the first group that differs
 * comes first. */
static bool is_backwards(const qc_block *block, const qci_sighting *seen)
{
    for (size_t i = 0; i < seen->count; i++) {
        uint32_t here = group_of(block, seen, i);
        uint32_t there = group_of(block, seen, seen->count - 1 - i);

        if (here != there)
            return there < here;
    }
    return false;
}

/* The parts that a sighting has, in a list with room for them. */
static size_t parts_of(const qc_block *block, const qci_sighting *seen,
                       qci_unit_part *parts)
{
    bool backwards =
        seen->kind != QCI_UNIT_FLIPPED && is_backwards(block, seen);
    size_t count = 0;

    for (size_t i = 0; i < seen->count; i++) {
        size_t from = backwards ? seen->count - 1 - i : i;
        uint32_t group = group_of(block, seen, from);
        size_t at = seen->kind == QCI_UNIT_FLIPPED ? 0 : count;

        while (at < count && parts[at].group != group)
            at++;
        if (at == count)
            parts[count++] =
                (qci_unit_part){.group = group, .half = seen->half[from]};
        parts[at].each++;
    }
    return count;
}

static bool are_same(const qci_unit_part *a, const qci_unit_part *b,
                     size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (a[i].group != b[i].group || a[i].half != b[i].half ||
            a[i].each != b[i].each)
            return false;
    return true;
}

static qci_block_unit *find_alike(qc_block *block, const qci_sighting *seen,
                                  const qci_unit_part *parts, size_t count,
                                  qc_block_number seam)
{
    for (size_t i = 0; i < block->info.unit_count; i++) {
        qci_block_unit *unit = &block->units[i];

        if (unit->kind == seen->kind && unit->part_count == count &&
            qci_same(unit->seam, seam) && are_same(unit->parts, parts, count))
            return unit;
    }
    return NULL;
}

static qci_fine leg_of(const qc_block *block, const qci_sighting *seen,
                       uint32_t group)
{
    const qc_block_summary *info = &block->info;
    const qc_block_patch *patch = NULL;
    qci_fine shortest = QCI_FINE_MAX;

    for (size_t i = 0; i < seen->count && !patch; i++)
        if (group_of(block, seen, i) == group)
            patch = &block->patches[seen->patch[i]];
    for (size_t i = 0; patch && i < patch->corner_count; i++) {
        qc_block_point edge = edge_at(patch, i);
        qci_fine length =
            qci_block_length(info, qci_dot(edge, edge, info->radicand));

        shortest = qci_fine_min(shortest, length);
    }
    return shortest;
}

static qc_block_number positive(qc_block_number n, int64_t radicand)
{
    return qci_sign(n, radicand) < 0 ? qci_minus((qc_block_number){0, 0}, n)
                                     : n;
}

/* The height of each part square to the seams, and of all; the distance of the
 * sides square to them. */
static void measure_row(const qc_block *block, const qci_sighting *seen,
                        qci_block_unit *unit)
{
    const qc_block_summary *info = &block->info;
    const qc_block_patch *patch = &block->patches[seen->patch[0]];
    qc_block_point seam = edge_at(patch, seen->side);
    qc_block_point side = edge_at(patch, seen->side + 1);
    qc_block_number area =
        positive(qci_cross(seam, side, info->radicand), info->radicand);

    unit->angle = block->groups[patch->group].info.angle;
    unit->angle = unit->angle ? unit->angle : 90 * QC_DEGREE;
    unit->size[0] = qci_block_over(
        info, area,
        qci_block_length(info, qci_dot(side, side, info->radicand)));
    for (size_t i = 0; i < unit->part_count; i++) {
        qci_unit_part *part = &unit->parts[i];
        const qc_block_patch *own = patch;

        for (size_t k = 0; k < seen->count; k++)
            if (group_of(block, seen, k) == part->group)
                own = &block->patches[seen->patch[k]];
        part->high = 0;
        for (size_t k = 0; k < own->corner_count; k++)
            part->high = qci_fine_max(
                part->high,
                qci_block_over(
                    info,
                    positive(qci_cross(seam, edge_at(own, k), info->radicand),
                             info->radicand),
                    qci_block_length(info,
                                     qci_dot(seam, seam, info->radicand))));
        unit->size[1] += part->high;
    }
}

static void measure_unit(const qc_block *block, const qci_sighting *seen,
                         qci_block_unit *unit)
{
    const qc_block_summary *info = &block->info;

    if (unit->kind == QCI_UNIT_ROW) {
        measure_row(block, seen, unit);
        return;
    }
    for (size_t i = 0; i < unit->part_count; i++)
        unit->parts[i].high = leg_of(block, seen, unit->parts[i].group);
    if (unit->kind == QCI_UNIT_HALVED && seen->side != QC_NONE) {
        qc_block_point longest =
            edge_at(&block->patches[seen->patch[0]], seen->side);

        /* Its long side halved is the legs of both halves. */
        unit->parts[0].high =
            qci_block_length(info, qci_dot(longest, longest, info->radicand)) /
            2;
    }
    unit->size[0] = unit->size[1] = unit->parts[0].high;
    if (unit->kind == QCI_UNIT_FLIPPED) {
        unit->size[0] = qci_number_fine(seen->size.x, info->radicand,
                                        info->width, info->denominator);
        unit->size[1] = qci_number_fine(seen->size.y, info->radicand,
                                        info->width, info->denominator);
    }
}

static qci_block_unit *add_kind(qc_block *block, const qci_sighting *seen,
                                const qci_unit_part *parts, size_t count,
                                qc_block_number seam)
{
    qci_block_unit *unit;

    if (!qci_vec_grow((void **)&block->units, block->info.unit_count,
                      &block->unit_room, sizeof *block->units))
        return NULL;
    unit = &block->units[block->info.unit_count];
    *unit =
        (qci_block_unit){.kind = seen->kind, .part_count = count, .seam = seam};
    block->info.unit_count++;
    unit->parts = qci_copy(parts, count, sizeof *parts);
    if (!unit->parts)
        return NULL;
    measure_unit(block, seen, unit);
    return unit;
}

qc_status qci_unit_add(qc_block *block, const qci_sighting *seen, qc_error *err)
{
    qci_unit_part parts[QC_MAX_SET_STRIPS];
    size_t count = parts_of(block, seen, parts);
    qc_block_number seam = {0, 0};
    qci_block_unit *unit;

    if (seen->side != QC_NONE) {
        qc_block_point edge =
            edge_at(&block->patches[seen->patch[0]], seen->side);

        seam = qci_dot(edge, edge, block->info.radicand);
    }
    unit = find_alike(block, seen, parts, count, seam);
    if (!unit)
        unit = add_kind(block, seen, parts, count, seam);
    if (!unit)
        return qci_no_memory(err);
    unit->info.count++;
    unit->info.left += seen->hand == QC_HAND_LEFT;
    unit->info.right += seen->hand == QC_HAND_RIGHT;
    for (size_t i = 0; i < seen->count; i++) {
        if (!qci_vec_grow((void **)&unit->members, unit->member_count,
                          &unit->member_room, sizeof *unit->members))
            return qci_no_memory(err);
        unit->members[unit->member_count++] = seen->patch[i];
    }
    return QC_STATUS_OK;
}

/* --- once all are found ----------------------------------------------------
 */

static uint32_t bit(qc_method method)
{
    return UINT32_C(1) << method;
}

/* A triangle between two equal ones is a flying goose. */
static bool is_goose(const qc_block *block, const qci_block_unit *unit)
{
    qc_shape base = block->groups[unit->parts[0].group].info.shape;

    return (base == QC_SHAPE_HALF_SQUARE_TRIANGLE ||
            base == QC_SHAPE_QUARTER_SQUARE_TRIANGLE) &&
           unit->part_count == 2 && unit->parts[1].each == 2;
}

static uint32_t methods_of(const qc_block *block, const qci_block_unit *unit)
{
    switch (unit->kind) {
    case QCI_UNIT_PAIR:
        return bit(QC_METHOD_TWO_AT_A_TIME) | bit(QC_METHOD_EIGHT_AT_A_TIME);
    case QCI_UNIT_FLIPPED:
        return bit(QC_METHOD_STITCH_AND_FLIP) |
               (is_goose(block, unit) ? bit(QC_METHOD_FOUR_AT_A_TIME) : 0);
    case QCI_UNIT_ROW:
        return bit(QC_METHOD_STRIP_SET);
    case QCI_UNIT_HALVED:
        break;
    }
    return bit(QC_METHOD_HALF_SQUARE_TRIANGLES);
}

static bool is_named(const qc_block *block, size_t before, const char *id)
{
    for (size_t i = 0; i < before; i++)
        if (!strcmp(block->units[i].id, id))
            return true;
    return false;
}

/* Units of the same groups that are joined otherwise get a number. */
static char *name_of(const qc_block *block, size_t index)
{
    const qci_block_unit *unit = &block->units[index];
    char *name = NULL;

    for (size_t number = 1; !name; number++) {
        qci_text text = {0};

        for (size_t i = 0; i < unit->part_count; i++) {
            const qci_unit_part *part = &unit->parts[i];

            qci_text_printf(&text, "%s", i ? "+" : "");
            if (part->each > 1)
                qci_text_printf(&text, "%" PRId64, part->each);
            qci_text_printf(&text, "%s%s", part->half ? "1/2" : "",
                            block->groups[part->group].id);
        }
        if (number > 1)
            qci_text_printf(&text, " %zu", number);
        name = qci_text_take(&text);
        if (!name || !is_named(block, index, name))
            return name;
        qci_free(name);
        name = NULL;
    }
    return name;
}

qc_status qci_units_finish(qc_block *block, qc_error *err)
{
    for (size_t i = 0; i < block->info.unit_count; i++) {
        qci_block_unit *unit = &block->units[i];

        unit->id = name_of(block, i);
        if (!unit->id)
            return qci_no_memory(err);
        unit->info.id = unit->id;
        unit->info.methods = methods_of(block, unit);
        for (int k = 0; k < 2; k++)
            unit->info.size[k] = qci_fine_up(unit->size[k]);
    }
    return QC_STATUS_OK;
}

void qci_units_clear(qc_block *block)
{
    for (size_t i = 0; i < block->info.unit_count; i++) {
        qci_free(block->units[i].id);
        qci_free(block->units[i].parts);
        qci_free(block->units[i].members);
    }
    qci_free(block->units);
}

const qc_block_unit *qc_block_unit_at(const qc_block *block, size_t index)
{
    return index < block->info.unit_count ? &block->units[index].info : NULL;
}

const char *const qci_method_words[QC_METHOD_COUNT] = {
    [QC_METHOD_TWO_AT_A_TIME] = "two at a time",
    [QC_METHOD_EIGHT_AT_A_TIME] = "eight at a time",
    [QC_METHOD_FOUR_AT_A_TIME] = "four at a time",
    [QC_METHOD_STITCH_AND_FLIP] = "stitch and flip",
    [QC_METHOD_STRIP_SET] = "strip set",
    [QC_METHOD_HALF_SQUARE_TRIANGLES] = "half-square triangles",
};

const char *qc_method_name(qc_method method)
{
    return (unsigned)method < QC_METHOD_COUNT ? qci_method_words[method] : NULL;
}
