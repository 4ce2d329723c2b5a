/* From one strip entry to steps: square its ends, cut its sections, and cut,
 * trim or shape what those hold.
 *
 * An entry's cloths are piled once and stay piled, so the piles of a part
 * follow from those of the part it was cut from, and so do the cuts. Along a
 * strip goes the lean of the edge that the last cut has left; where a section
 * begins with another one, a wedge of scrap is cut off first. Of sections that
 * slant differently at their two ends and are not turned by turns, every one
 * needs its wedge, so they are cut one by one.
 */
#include "order/bench.h"
#include "order/measure.h"

/* Sections that go on to be cut, and which subcut they are of. */
typedef struct batch {
    qci_lot lot;
    size_t subcut;
} batch;

typedef struct row {
    qci_lot strips;
    const qc_strip *strip;
    qci_origin origin;
    QCI_VEC(batch) batches;
} row;

static bool trim_slices(qci_bench *b, qci_lot slices, const qc_stack *run,
                        qci_origin origin)
{
    qc_step step = qci_step_on(b, QC_STEP_TRIM, slices);

    step.piece = run->piece;
    step.turn = run->turn;
    step.distance = run->width;
    step.repeat = 1;
    return qci_take_up(b, step, slices.piles, origin);
}

/* Cuts one run of a section's stack; with `fills` it ends at the section's
 * upper edge. */
static bool split_run(qci_bench *b, qci_lot sections, const qc_stack *run,
                      bool fills, bool too_wide, qci_origin origin)
{
    qc_step step = qci_step_on(b, QC_STEP_SPLIT, sections);
    qci_lot slices = {0};

    step.distance = run->height;
    step.repeat = run->count - (fills ? 1 : 0);
    step.rest_is_piece = fills;
    if (too_wide) {
        slices = qci_lot_of(b, sections, run->count);
        step.part_out = slices.part;
    } else {
        step.piece = run->piece;
        step.turn = run->turn;
    }
    return qci_take_up(b, step, sections.piles, origin) &&
           (!too_wide || trim_slices(b, slices, run, origin));
}

static bool cut_stacks(qci_bench *b, const row *r, qci_lot sections,
                       qci_origin origin)
{
    const qc_subcut *subcut = &r->strip->subcuts[origin.subcut];
    qc_length top = 0;

    for (size_t i = 0; i < subcut->stack_count; i++) {
        const qc_stack *run = &subcut->stacks[i];

        top += run->count * run->height;
        origin.stack = i;
        origin.yields = run->yields;
        if (!split_run(b, sections, run,
                       i + 1 == subcut->stack_count && top == r->strip->height,
                       run->width < subcut->width, origin))
            return false;
        origin.slice += run->width < subcut->width;
    }
    return true;
}

/* How the one piece of a section lies. */
static void name_piece(qc_step *step, const qc_stack *run)
{
    step->piece = run->piece;
    step->turn = run->turn;
    step->base = run->base;
    step->mirrored = run->mirrored;
}

static bool trim_to_outline(qci_bench *b, const row *r, qci_lot sections,
                            qci_origin origin)
{
    const qc_subcut *subcut = &r->strip->subcuts[origin.subcut];
    qc_step step = qci_step_on(b, QC_STEP_OUTLINE, sections);

    name_piece(&step, &subcut->stacks[0]);
    step.repeat = subcut->corners;
    step.yield = sections.copies;
    origin.yields = 1;
    return qci_take_up(b, step, sections.piles, origin);
}

/* One piece as high as its strip needs no cut but the section's own. */
static bool is_whole(const qc_strip *strip, const qc_subcut *subcut)
{
    return subcut->corners == 0 && subcut->stack_count == 1 &&
           subcut->stacks[0].count == 1 &&
           subcut->stacks[0].height == strip->height;
}

/* Cuts a wedge of scrap off, where the next section does not begin as the last
 * one ended. */
static bool cut_wedge(qci_bench *b, row *r, qc_length lean)
{
    qc_step step = qci_step_on(b, QC_STEP_SLANT, r->strips);
    qc_length edge = r->origin.edge;

    if (lean == edge)
        return true;
    step.lean = lean;
    step.along = lean < edge ? edge - lean : 0;
    step.repeat = 1;
    if (!qci_take_up(b, step, r->strips.piles, r->origin))
        return false;
    r->origin.edge = lean;
    return true;
}

/* What the ruler is set to for a section with parallel sides: the spacing of a
 * piece that has one, else what the sides lie apart. */
static qc_length spacing_of(const qci_bench *b, const qc_subcut *subcut,
                            qc_length height)
{
    const qc_plan_piece *piece = &b->plan->pieces[subcut->stacks[0].piece];
    qc_length apart = qci_spacing_of(subcut->width, height, subcut->lean[0]);

    if (subcut->lean[0] == 0)
        return subcut->width;
    if ((piece->shape == QC_SHAPE_DIAMOND ||
         piece->shape == QC_SHAPE_PARALLELOGRAM) &&
        qci_is_near(apart, piece->cut[0]))
        return piece->cut[0];
    return apart;
}

/* Cuts `count` of a subcut's sections off the strips. With `ends` nothing comes
 * after them; when they end at the usable width they are cut off too, since
 * they still hang on the selvage. */
static bool cut_sections(qci_bench *b, row *r, uint32_t count, bool ends)
{
    const qc_subcut *subcut = &r->strip->subcuts[r->origin.subcut];
    qc_length first = subcut->lean[0], last = subcut->lean[1];
    qc_length edge = subcut->alternate && count % 2 == 0 ? first : last;
    qc_step step = qci_step_on(b, QC_STEP_SUBCUT, r->strips);
    batch further = {.subcut = r->origin.subcut};

    if (!cut_wedge(b, r, first))
        return false;
    r->origin.selvage =
        ends && edge == 0 &&
        r->strip->used_width == b->plan->fabrics[b->fabric].info.usable_width;
    step.along = subcut->width - (last - first) / 2;
    step.lean = last;
    step.distance = first == last ? spacing_of(b, subcut, r->strip->height) : 0;
    step.alternate = subcut->alternate;
    step.repeat = count;
    r->origin.yields = subcut->stacks[0].yields;
    if (is_whole(r->strip, subcut)) {
        name_piece(&step, &subcut->stacks[0]);
    } else {
        further.lot = qci_lot_of(b, r->strips, count);
        step.part_out = further.lot.part;
    }
    if (!qci_take_up(b, step, r->strips.piles, r->origin))
        return false;
    r->origin.edge = edge;
    if (step.part_out == QC_NONE)
        return true;
    r->origin.section++;
    return qci_vec_push(&r->batches, further);
}

static bool cut_subcut(qci_bench *b, row *r)
{
    const qc_subcut *subcut = &r->strip->subcuts[r->origin.subcut];
    bool apart = subcut->lean[0] != subcut->lean[1] && !subcut->alternate;
    uint32_t at_once = apart ? 1 : subcut->count;

    for (uint32_t done = 0; done < subcut->count; done += at_once) {
        if (!cut_sections(b, r, at_once,
                          r->origin.subcut + 1 == r->strip->subcut_count &&
                              done + at_once == subcut->count))
            return false;
    }
    return true;
}

/* What the sections still need, in the order in which they were cut. Those of
 * one subcut are trimmed alike. */
static bool finish_sections(qci_bench *b, const row *r)
{
    qci_origin origin = r->origin;
    uint32_t first = 0;

    for (size_t i = 0; i < r->batches.count; i++) {
        const batch *further = &r->batches.at[i];
        bool again = i > 0 && further[-1].subcut == further->subcut;

        if (!again)
            first = (uint32_t)b->steps.count + 1;
        origin.subcut = further->subcut;
        origin.selvage = false;
        origin.section = i;
        origin.like = again ? first : 0;
        if (r->strip->subcuts[further->subcut].corners
                ? !trim_to_outline(b, r, further->lot, origin)
                : !cut_stacks(b, r, further->lot, origin))
            return false;
    }
    return true;
}

bool qci_order_strip(qci_bench *b, size_t index)
{
    const qc_strip *strip = &b->plan->fabrics[b->fabric].strips[index];
    row r = {.strips = qci_lot_piled(b, (uint32_t)index + 1, strip->repeat,
                                     strip->paired),
             .strip = strip,
             .origin = {.strip = index}};
    qc_step step = qci_step_on(b, QC_STEP_SQUARE_END, r.strips);
    bool ok;

    step.repeat = 1;
    ok = qci_take_up(b, step, r.strips.piles, r.origin);
    for (size_t i = 0; ok && i < strip->subcut_count; i++) {
        r.origin.subcut = i;
        ok = cut_subcut(b, &r);
    }
    ok = ok && finish_sections(b, &r);
    qci_vec_clear(&r.batches);
    return ok;
}
