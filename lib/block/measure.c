/* What the groups of a block measure at its finished width: lengths as square
 * roots of exact squares, heights as exact areas over lengths, with 32 binary
 * places below a qc_length. Sizes are handed out as the least whole lengths
 * that are not below them. */
#include "block/group.h"

qci_fine qci_block_length(const qc_block_summary *r, qc_block_number square)
{
    return qci_root_fine(square, r->radicand, r->width, r->denominator);
}

qci_fine qci_block_over(const qc_block_summary *r, qc_block_number product,
                        qci_fine length)
{
    qci_fine value = qci_number_fine(product, r->radicand, r->width,
                                     r->denominator * r->denominator);

    return qci_fine_scaled(value, qci_fine_of(r->width), length);
}

static void measure_kite(const qc_block_summary *r,
                         const qci_patch_draft *patch, qci_fine size[3])
{
    qc_block_point axis = qci_from_to(patch->at[0], patch->at[2]);
    qc_block_point side = qci_from_to(patch->at[0], patch->at[1]);
    qc_block_point across = qci_from_to(patch->at[1], patch->at[3]);

    size[0] = qci_block_length(r, qci_dot(axis, axis, r->radicand));
    size[1] = qci_block_length(r, qci_dot(across, across, r->radicand));
    size[2] = qci_block_over(r, qci_dot(axis, side, r->radicand), size[0]);
}

/* The base comes first. */
static void measure_sizes(const qc_block_summary *r,
                          const qci_patch_draft *patch, qc_shape shape,
                          qci_fine size[3])
{
    qci_marks m = qci_marks_of(patch, r->radicand);

    if (shape == QC_SHAPE_POLYGON)
        return;
    if (shape == QC_SHAPE_KITE) {
        measure_kite(r, patch, size);
        return;
    }
    size[0] = qci_block_length(r, m.square[0]);
    if (shape == QC_SHAPE_RECTANGLE || shape == QC_SHAPE_PARALLELOGRAM)
        size[1] = qci_block_length(r, m.square[1]);
    if (shape == QC_SHAPE_TRAPEZOID) {
        size[1] = qci_block_length(r, m.square[2]);
        size[2] = qci_block_over(
            r, qci_cross(m.edge[0], m.edge[1], r->radicand), size[0]);
    }
}

static void measure_points(const qc_block_summary *r,
                           const qci_patch_draft *patch, qci_block_group *group)
{
    for (size_t i = 0; i < patch->count; i++) {
        qc_block_point d = qci_from_to(patch->at[0], patch->at[i]);
        qci_fine x =
            qci_number_fine(d.x, r->radicand, r->width, r->denominator);
        qci_fine y =
            qci_number_fine(d.y, r->radicand, r->width, r->denominator);

        group->at[i] = (qci_fine_point){x, y};
        group->points[i] = (qc_point){(x + QCI_FINE / 2) >> QCI_FINE_BITS,
                                      (y + QCI_FINE / 2) >> QCI_FINE_BITS};
        group->info.rounded |= !qci_fine_whole(x) || !qci_fine_whole(y);
    }
    group->info.point_count = patch->count;
}

static int64_t area_of(const qc_block_summary *r, const qci_patch_draft *patch)
{
    qc_block_number doubled = qci_doubled_area(patch, r->radicand);
    qci_fine over_width = qci_number_fine(doubled, r->radicand, r->width,
                                          r->denominator * r->denominator);

    return (int64_t)(((qci_wide)over_width * r->width) >> (QCI_FINE_BITS + 1));
}

void qci_block_measure(qc_block *block, const qci_block_draft *draft)
{
    const qc_block_summary *r = &block->info;
    qci_fine height =
        qci_number_fine(draft->size.y, r->radicand, r->width, r->denominator);

    block->info.height = qci_fine_up(height);
    block->info.height_rounded = !qci_fine_whole(height);
    for (size_t i = 0; i < block->info.group_count; i++) {
        qci_block_group *group = &block->groups[i];
        const qci_patch_draft *patch = &draft->patches[group->first];

        group->info.id = group->id;
        measure_sizes(r, patch, group->info.shape, group->size);
        for (int k = 0; k < 3; k++) {
            group->info.size[k] = qci_fine_up(group->size[k]);
            group->info.rounded |= !qci_fine_whole(group->size[k]);
        }
        if (group->info.shape == QC_SHAPE_POLYGON)
            measure_points(r, patch, group);
        group->info.points = group->info.point_count ? group->points : NULL;
        group->info.area = area_of(r, patch);
    }
}
