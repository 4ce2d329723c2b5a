/* Making, finding and reading blocks.
 *
 * The draft, with room for every patch there may be, is a quarter of a megabyte
 * and lives only while a block is made. */
#include "block/block.h"

#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/words.h"
#include "block/builtin.h"
#include "block/group.h"
#include "block/unit.h"

/* The groups come last: they turn the corners so that a base is first. */
static qc_status fill(qc_block *block, qci_block_draft *draft)
{
    size_t corners = 0;
    qc_status status;

    block->info.role_count = draft->role_count;
    block->info.patch_count = draft->patch_count;
    for (size_t i = 0; i < draft->patch_count; i++)
        corners += draft->patches[i].count;
    block->name = qci_strdup(draft->drawing->name);
    block->roles = qci_calloc(draft->role_count, sizeof *block->roles);
    block->patches = qci_calloc(draft->patch_count, sizeof *block->patches);
    block->corners = qci_calloc(corners, sizeof *block->corners);
    if (!block->name || !block->roles || !block->patches || !block->corners)
        return qci_no_memory(draft->err);
    for (size_t i = 0; i < draft->role_count; i++)
        if (!(block->roles[i] = qci_strdup(draft->roles[i])))
            return qci_no_memory(draft->err);
    status = qci_block_sort(block, draft);
    if (status)
        return status;
    corners = 0;
    for (size_t i = 0; i < draft->patch_count; i++) {
        const qci_patch_draft *from = &draft->patches[i];
        qc_block_patch *to = &block->patches[i];

        to->drawn = from->drawn;
        to->role = from->role;
        to->corner_count = from->count;
        to->corners = block->corners + corners;
        memcpy(block->corners + corners, from->at,
               from->count * sizeof *from->at);
        corners += from->count;
    }
    block->info.name = block->name;
    block->info.radicand = draft->radicand;
    block->info.denominator = draft->denominator;
    block->info.height_exact = draft->size.y;
    qci_block_measure(block, draft);
    return qci_units_find(block, draft->err);
}

static qc_status check_call(const qc_block_drawing *drawing, qc_length width,
                            qc_error *err)
{
    const char *name = drawing ? drawing->name : NULL;

    if (!drawing)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, NULL,
                        "no drawing of a block was given");
    if (!name || !*name || strlen(name) > QC_MAX_TEXT_BYTES)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){"name", NULL},
                        "1 to 200 bytes", "is no name of a block");
    if (qci_words_check(err, (qci_place){"name", name}, 1))
        return QC_STATUS_INVALID;
    if (width <= 0 || width > QC_MAX_WIDTH)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){"size", NULL},
                        "more than 0, up to 10 m", "is no size of a block");
    return QC_STATUS_OK;
}

qc_status qc_block_create(const qc_block_drawing *drawing, qc_length width,
                          qc_block **out_block, qc_error *err)
{
    qc_status status = check_call(drawing, width, err);
    qci_block_draft *draft = NULL;
    qc_block *block = NULL;

    *out_block = NULL;
    if (status)
        return status;
    draft = qci_calloc(1, sizeof *draft);
    block = qci_calloc(1, sizeof *block);
    if (draft)
        draft->patches = qci_calloc(QC_MAX_PATCHES, sizeof *draft->patches);
    if (!draft || !block || !draft->patches) {
        status = qci_no_memory(err);
        goto done;
    }
    draft->drawing = drawing;
    draft->err = err;
    block->info.width = width;
    if ((status = qci_draw(draft)) || (status = qci_draft_scale(draft)) ||
        (status = qci_draft_check(draft)) || (status = fill(block, draft)))
        goto done;
    *out_block = block;
    block = NULL;
done:
    qc_block_destroy(block);
    if (draft)
        qci_free(draft->patches);
    qci_free(draft);
    return status;
}

qc_status qc_block_find(const char *name, qc_length width, qc_block **out_block,
                        qc_error *err)
{
    const qc_block_drawing *drawing = NULL;
    qc_status status = qci_block_lookup(name, &drawing, err);

    *out_block = NULL;
    return status ? status : qc_block_create(drawing, width, out_block, err);
}

void qc_block_destroy(qc_block *block)
{
    if (!block)
        return;
    for (size_t i = 0; block->roles && i < block->info.role_count; i++)
        qci_free(block->roles[i]);
    qci_free(block->roles);
    qci_free(block->name);
    qci_free(block->patches);
    qci_free(block->corners);
    qci_free(block->groups);
    qci_units_clear(block);
    qci_free(block);
}

const qc_block_summary *qc_block_describe(const qc_block *block)
{
    return &block->info;
}

const char *qc_block_role_at(const qc_block *block, size_t index)
{
    return index < block->info.role_count ? block->roles[index] : NULL;
}

const qc_block_patch *qc_block_patch_at(const qc_block *block, size_t index)
{
    return index < block->info.patch_count ? &block->patches[index] : NULL;
}

const qc_block_group *qc_block_group_at(const qc_block *block, size_t index)
{
    return index < block->info.group_count ? &block->groups[index].info : NULL;
}
