/* Do the patches tile the block?
 *
 * They do when each is convex and lies within the block, no two overlap, and
 * their areas add up to the block's. Two convex polygons do not overlap if and
 * only if a side of one of them has the other wholly on its outer side. All of
 * it is decided by signs of exact numbers. Where area is missing, a side of
 * some patch has a stretch that neither another patch nor the block's edge
 * lies against, and the message names it. Pairs of patches times the square of
 * their corners; the search for a gap, a corner more. */
#include "block/drawing.h"

static const qc_block_point *next_of(const qci_patch_draft *patch, size_t i)
{
    return &patch->at[(i + 1) % patch->count];
}

static int side_of(const qci_block_draft *draft, const qci_patch_draft *patch,
                   size_t side, qc_block_point p)
{
    return qci_side_of(patch->at[side], *next_of(patch, side), p,
                       draft->radicand);
}

/* How many corners turn right, or go straight on; *first is the first. */
static size_t wrong_turns(const qci_block_draft *draft,
                          const qci_patch_draft *patch, size_t *first)
{
    size_t wrong = 0;

    for (size_t i = patch->count; i-- > 0;) {
        size_t side = (i + patch->count - 1) % patch->count;

        if (side_of(draft, patch, side, *next_of(patch, i)) > 0)
            continue;
        *first = i;
        wrong++;
    }
    return wrong;
}

/* With left turns only, and every side having all corners on its left, it does
 * not wind round twice. */
static qc_status check_convex(const qci_block_draft *draft,
                              const qci_patch_draft *patch)
{
    size_t first = 0, wrong = wrong_turns(draft, patch, &first);

    if (wrong == patch->count)
        return qci_draft_fail(draft, patch->drawn, "corners",
                              "corners counter-clockwise",
                              "lists the corners clockwise: give them in the "
                              "opposite order");
    if (wrong)
        return qci_draft_fail(draft, patch->drawn, "corners",
                              "a convex polygon",
                              "has a corner that points inwards, or is none: "
                              "corner %zu",
                              first + 1);
    for (size_t side = 0; side < patch->count; side++)
        for (size_t k = 0; k < patch->count; k++)
            if (side_of(draft, patch, side, patch->at[k]) < 0)
                return qci_draft_fail(draft, patch->drawn, "corners",
                                      "a convex polygon",
                                      "is a polygon whose sides cross");
    return QC_STATUS_OK;
}

static qc_status check_inside(const qci_block_draft *draft,
                              const qci_patch_draft *patch)
{
    int64_t r = draft->radicand;

    for (size_t i = 0; i < patch->count; i++) {
        qc_block_point p = patch->at[i];

        if (qci_sign(p.x, r) < 0 || qci_sign(p.y, r) < 0 ||
            qci_order(p.x, draft->size.x, r) > 0 ||
            qci_order(p.y, draft->size.y, r) > 0)
            return qci_draft_fail(draft, patch->drawn, "corners",
                                  "corners within the block, in every copy",
                                  "reaches beyond the block with corner %zu",
                                  i + 1);
    }
    return QC_STATUS_OK;
}

/* Does a side of a have b wholly on its outer side? */
static bool is_apart(const qci_block_draft *draft, const qci_patch_draft *a,
                     const qci_patch_draft *b)
{
    for (size_t side = 0; side < a->count; side++) {
        size_t k = 0;

        while (k < b->count && side_of(draft, a, side, b->at[k]) <= 0)
            k++;
        if (k == b->count)
            return true;
    }
    return false;
}

qc_block_number qci_doubled_area(const qci_patch_draft *patch, int64_t radicand)
{
    qc_block_number sum = {0, 0};

    for (size_t i = 1; i + 1 < patch->count; i++)
        sum =
            qci_plus(sum, qci_cross(qci_from_to(patch->at[0], patch->at[i]),
                                    qci_from_to(patch->at[0], patch->at[i + 1]),
                                    radicand));
    return sum;
}

/* Is p between a and b, all three on a line, or at b? */
static bool is_beyond(const qci_block_draft *draft, qc_block_point a,
                      qc_block_point p, qc_block_point b)
{
    int64_t r = draft->radicand;
    qc_block_point along = qci_from_to(a, b);

    return qci_sign(qci_dot(along, qci_from_to(a, p), r), r) > 0 &&
           qci_sign(qci_dot(along, qci_from_to(p, b), r), r) >= 0;
}

/* The next corner of any patch on the way from `from` to `to`. */
static qc_block_point next_stop(const qci_block_draft *draft,
                                qc_block_point from, qc_block_point to)
{
    for (size_t i = 0; i < draft->patch_count; i++)
        for (size_t k = 0; k < draft->patches[i].count; k++) {
            qc_block_point p = draft->patches[i].at[k];

            if (!qci_side_of(from, to, p, draft->radicand) &&
                is_beyond(draft, from, p, to))
                to = p;
        }
    return to;
}

/* Does another patch's side run along all of the stretch, the other way? */
static bool is_covered(const qci_block_draft *draft, qc_block_point from,
                       qc_block_point to)
{
    int64_t r = draft->radicand;

    for (size_t i = 0; i < draft->patch_count; i++) {
        const qci_patch_draft *patch = &draft->patches[i];

        for (size_t k = 0; k < patch->count; k++)
            if (!side_of(draft, patch, k, from) &&
                !side_of(draft, patch, k, to) &&
                is_beyond(draft, *next_of(patch, k), to, patch->at[k]) &&
                qci_sign(qci_dot(qci_from_to(from, to),
                                 qci_from_to(*next_of(patch, k), from), r),
                         r) >= 0)
                return true;
    }
    return false;
}

/* The block's own edges. */
static bool is_on_edge(const qci_block_draft *draft, qc_block_point from,
                       qc_block_point to)
{
    const qc_block_number zero = {0, 0};

    return (qci_same(from.x, to.x) &&
            (qci_same(from.x, zero) || qci_same(from.x, draft->size.x))) ||
           (qci_same(from.y, to.y) &&
            (qci_same(from.y, zero) || qci_same(from.y, draft->size.y)));
}

static bool has_gap(const qci_block_draft *draft, qc_block_point from,
                    qc_block_point to)
{
    while (!qci_same(from.x, to.x) || !qci_same(from.y, to.y)) {
        qc_block_point stop = next_stop(draft, from, to);

        if (!is_on_edge(draft, from, stop) && !is_covered(draft, from, stop))
            return true;
        from = stop;
    }
    return false;
}

static qc_status fail_gap(const qci_block_draft *draft)
{
    for (size_t i = 0; i < draft->patch_count; i++) {
        const qci_patch_draft *patch = &draft->patches[i];

        for (size_t k = 0; k < patch->count; k++)
            if (has_gap(draft, patch->at[k], *next_of(patch, k)))
                return qci_draft_fail(
                    draft, patch->drawn, "corners",
                    "patches that fill the block, copies counted",
                    "leaves a gap: nothing lies against its side from corner "
                    "%zu to corner %zu",
                    k + 1, (k + 1) % patch->count + 1);
    }
    return qci_draft_fail(draft, QC_NONE, "patches",
                          "patches that fill the block", "leave a gap");
}

qc_status qci_draft_check(const qci_block_draft *draft)
{
    qc_block_number sum = {0, 0}, whole;
    qc_status status;

    for (size_t i = 0; i < draft->patch_count; i++) {
        const qci_patch_draft *patch = &draft->patches[i];

        if ((status = check_convex(draft, patch)) ||
            (status = check_inside(draft, patch)))
            return status;
        for (size_t k = 0; k < i; k++)
            if (!is_apart(draft, patch, &draft->patches[k]) &&
                !is_apart(draft, &draft->patches[k], patch))
                return qci_draft_fail(draft, patch->drawn, "corners",
                                      "patches that do not overlap, copies "
                                      "counted",
                                      "overlaps %s patches[%u]",
                                      patch->drawn == draft->patches[k].drawn
                                          ? "another copy of"
                                          : "a copy of",
                                      (unsigned)draft->patches[k].drawn);
        sum = qci_plus(sum, qci_doubled_area(patch, draft->radicand));
    }
    whole = qci_product(draft->size.x, draft->size.y, draft->radicand);
    whole = qci_plus(whole, whole);
    return qci_same(sum, whole) ? QC_STATUS_OK : fail_gap(draft);
}
