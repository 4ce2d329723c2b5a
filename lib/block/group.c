/* Patches of one role that are cut alike: turned onto each other, or mirrored
 * where the shape has hands, which are counted apart. Patches times groups,
 * times the square of their corners. */
#include "block/group.h"

#include <string.h>

#include "base/alloc.h"
#include "base/vec.h"

static void begin_with(qci_patch_draft *patch, size_t first)
{
    qc_block_point from[QC_MAX_CORNERS];

    memcpy(from, patch->at, patch->count * sizeof *from);
    for (size_t i = 0; i < patch->count; i++)
        patch->at[i] = from[(first + i) % patch->count];
}

/* "A" to "Z", then "AA", "AB", ...: 512 groups at most. */
static void name_group(char *id, size_t index)
{
    if (index >= 26)
        *id++ = (char)('A' + index / 26 - 1);
    *id++ = (char)('A' + index % 26);
    *id = '\0';
}

/* Has the shape hands, and which of them is the patch, base first? A polygon is
 * right as it is drawn first. */
static qc_hand own_hand(const qci_kind *kind, const qci_marks *marks,
                        int64_t radicand)
{
    if (kind->shape == QC_SHAPE_PARALLELOGRAM)
        return qci_sign(marks->dot[0], radicand) > 0 ? QC_HAND_RIGHT
                                                     : QC_HAND_LEFT;
    if (kind->shape == QC_SHAPE_POLYGON &&
        qci_marks_match(marks, marks, true) == QC_NONE)
        return QC_HAND_RIGHT;
    return QC_HAND_NONE;
}

/* The patch's group, if there is one already, and where it lies in it. */
static qci_block_group *find(const qc_block *block,
                             const qci_block_draft *draft,
                             const qci_patch_draft *patch, qci_kind *kind,
                             bool *mirrored)
{
    qci_marks marks = qci_marks_of(patch, draft->radicand);

    for (size_t i = 0; i < block->info.group_count; i++) {
        qci_block_group *group = &block->groups[i];
        qci_marks first =
            qci_marks_of(&draft->patches[group->first], draft->radicand);
        uint32_t base;

        if (group->info.role != patch->role || group->info.shape != kind->shape)
            continue;
        base = qci_marks_match(&first, &marks, false);
        *mirrored = base == QC_NONE;
        if (*mirrored)
            base = qci_marks_match(&first, &marks, true);
        if (base == QC_NONE)
            continue;
        kind->base = base;
        return group;
    }
    return NULL;
}

static qci_block_group *add_group(qc_block *block, uint32_t first,
                                  const qci_patch_draft *patch, qci_kind kind)
{
    qci_block_group *group;

    if (!qci_vec_grow((void **)&block->groups, block->info.group_count,
                      &block->group_room, sizeof *block->groups))
        return NULL;
    group = &block->groups[block->info.group_count];
    memset(group, 0, sizeof *group);
    group->first = first;
    group->info.role = patch->role;
    group->info.shape = kind.shape;
    group->info.angle = kind.angle;
    name_group(group->id, block->info.group_count++);
    return group;
}

static qc_hand opposite(qc_hand hand)
{
    return hand == QC_HAND_RIGHT  ? QC_HAND_LEFT
           : hand == QC_HAND_LEFT ? QC_HAND_RIGHT
                                  : hand;
}

static qc_status sort_patch(qc_block *block, qci_block_draft *draft,
                            uint32_t index)
{
    qci_patch_draft *patch = &draft->patches[index];
    qci_marks marks = qci_marks_of(patch, draft->radicand);
    qci_kind kind = qci_recognise(&marks, draft->radicand);
    bool mirrored = false;
    qci_block_group *group = find(block, draft, patch, &kind, &mirrored);
    qc_block_patch *to = &block->patches[index];

    begin_with(patch, kind.base);
    if (!group) {
        group = add_group(block, index, patch, kind);
        if (!group)
            return qci_no_memory(draft->err);
        marks = qci_marks_of(patch, draft->radicand);
        to->hand = own_hand(&kind, &marks, draft->radicand);
    } else {
        to->hand = block->patches[group->first].hand;
        if (mirrored)
            to->hand = opposite(to->hand);
    }
    to->group = (uint32_t)(group - block->groups);
    group->info.count++;
    group->info.left += to->hand == QC_HAND_LEFT;
    group->info.right += to->hand == QC_HAND_RIGHT;
    return QC_STATUS_OK;
}

qc_status qci_block_sort(qc_block *block, qci_block_draft *draft)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < draft->patch_count && !status; i++)
        status = sort_patch(block, draft, i);
    return status;
}
