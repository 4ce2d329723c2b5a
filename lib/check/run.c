/* Carrying instructions out.
 *
 * Cloth is cut with the replay's own straight cuts on polygons; nothing is
 * taken from the rooms that plan. A person cuts one cloth after the other until
 * there is enough, so a name stands for lots of equal cloths in the order in
 * which they come to hand, those already begun first. Where the cloth gives out
 * the run goes on with what there is; with `adds` it takes as many strips more
 * as are needed, and so finds how much fabric the instructions really take. The
 * cost of a step grows with the lots of its name, of which each step adds two
 * at the most. */
#include "check/run.h"

#include <stdio.h>

#include "base/alloc.h"
#include "base/error.h"
#include "check/slant.h"

int64_t qci_run_yields(const qci_instruction *step)
{
    return step->kind == QC_INSTRUCTION_DIAGONAL ? 2 * step->times : 1;
}

static bool is_slanted(const qci_instruction *step)
{
    return step->angle != 90 * QC_DEGREE;
}

qc_length qci_run_width(const qci_run *run, uint32_t fabric)
{
    return run->width == QC_DEFAULT ? run->of->job->fabrics[fabric].width
                                    : run->width;
}

static qci_ruler ruler_of(const qci_instruction *step)
{
    return (qci_ruler){step->along ? QCI_MEASURE_UP : QCI_MEASURE_ACROSS,
                       step->size, 0};
}

/* How many slices the step takes off one cloth at the most. */
static int64_t slices_of(const qci_instruction *step, const qci_polygon *cloth)
{
    int64_t most;

    if (qci_is_whole(step->kind))
        return 1;
    most = is_slanted(step)
               ? qci_slant_fits(qci_slant_of(step, cloth), cloth)
               : qci_cloth_extent(cloth, ruler_of(step).measure) / step->size;
    return step->each != QC_DEFAULT && step->each < most ? step->each : most;
}

/* Takes `count` slices off `cloth`, of which nothing may be left. What is cut
 * corner to corner, or trimmed, is taken whole. */
static bool slice(const qci_instruction *step, int64_t count,
                  qci_polygon *cloth, qci_polygon *freed, bool *gone)
{
    qci_ruler ruler = ruler_of(step);

    *gone = false;
    if (qci_is_whole(step->kind)) {
        *gone = true;
        *freed = *cloth;
        return true;
    }
    if (is_slanted(step))
        return qci_slant_cut(qci_slant_of(step, cloth), count, cloth, freed);
    *gone = qci_cloth_extent(cloth, ruler.measure) == step->size * count;
    return qci_cloth_slice(cloth, ruler, count, *gone, freed) == QCI_SLICE_DONE;
}

qc_status qci_run_fail(const qci_run *run, size_t step, const char *allowed,
                       const char *problem)
{
    char field[32];

    snprintf(field, sizeof field, "steps[%zu]", step);
    return qci_fail(run->err, QC_STATUS_INVALID, (qci_place){field, NULL},
                    allowed, "%s", problem);
}

static bool push(qci_heap *heap, const qci_polygon *cloth, int64_t copies)
{
    qci_lot lot = {*cloth, copies, false};

    heap->cloths += copies;
    return qci_vec_push(&heap->lots, lot);
}

/* `count` equal cloths fall out of a step. */
static qc_status drop(qci_run *run, size_t index, const qci_polygon *cloth,
                      int64_t count)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_done *done = &run->done[index];

    if (!done->fell)
        done->cloth = *cloth;
    done->fell = true;
    done->got += count;
    if (done->got > QC_MAX_COUNT)
        return qci_run_fail(run, index, "up to 1000000000",
                            "cuts too many pieces");
    if (step->gives != QC_NONE && !push(&run->heaps[step->gives], cloth, count))
        return qci_no_memory(run->err);
    return QC_STATUS_OK;
}

/* A strip as the step that gives this name first cuts it, or what is cut from
 * such a strip in turn; false when none can be. */
bool qci_run_fresh(const qci_run *run, uint32_t name, qci_polygon *cloth)
{
    const qci_named *named = &run->of->names[name];
    const qci_instruction *step = &run->of->steps[named->origin];
    qci_polygon whole;
    bool gone;

    if (step->kind == QC_INSTRUCTION_STRIPS) {
        *cloth = qci_polygon_rectangle(qci_run_width(run, named->fabric),
                                       step->size);
        return true;
    }
    return qci_run_fresh(run, step->from, &whole) &&
           slices_of(step, &whole) > 0 && slice(step, 1, &whole, cloth, &gone);
}

/* Adds strips so that there are `count` cloths more of a name. */
qc_status qci_run_supply(qci_run *run, size_t index, uint32_t name,
                         int64_t count)
{
    qci_polygon cloth;

    if (!qci_run_fresh(run, name, &cloth)) {
        run->done[index].hopeless = true;
        return QC_STATUS_OK;
    }
    if (!push(&run->heaps[name], &cloth, count))
        return qci_no_memory(run->err);
    while (run->of->names[name].kind != QCI_NAMED_STRIPS) {
        const qci_instruction *cut =
            &run->of->steps[run->of->names[name].origin];
        int64_t per;

        name = cut->from;
        qci_run_fresh(run, name, &cloth);
        per = slices_of(cut, &cloth);
        count = (count + per - 1) / per;
    }
    run->done[index].added += count;
    run->taken[run->of->names[name].fabric] +=
        (qci_wide)count * run->of->steps[run->of->names[name].origin].size;
    return QC_STATUS_OK;
}

/* Cuts `per` slices off each of the first `copies` cloths of a lot, which
 * becomes two when others are left as they are. */
static qc_status cut_lot(qci_run *run, size_t index, size_t at, int64_t per,
                         int64_t copies)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_heap *heap = &run->heaps[step->from];
    qci_lot lot = heap->lots.at[at];
    qci_polygon freed;
    bool gone;

    if (!slice(step, per, &lot.cloth, &freed, &gone))
        return qci_run_fail(run, index, NULL, "cuts through a corner");
    lot.touched = true;
    if (copies == lot.copies) {
        heap->lots.at[at] = lot;
        if (gone)
            heap->lots.at[at].copies = 0;
    } else {
        qci_lot others = heap->lots.at[at];

        others.copies -= copies;
        lot.copies = gone ? 0 : copies;
        heap->lots.at[at] = lot;
        if (!qci_vec_push(&heap->lots, others))
            return qci_no_memory(run->err);
        /* They come next. */
        for (size_t i = heap->lots.count - 1; i > at + 1; i--)
            heap->lots.at[i] = heap->lots.at[i - 1];
        heap->lots.at[at + 1] = others;
    }
    return drop(run, index, &freed, per * copies);
}

/* Cuts what is still wanted from the lots of the step's cloth. */
static qc_status cut_lots(qci_run *run, size_t index, int64_t wanted)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_heap *heap = &run->heaps[step->from];
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < heap->lots.count && wanted > 0 && !status; i++) {
        int64_t copies = heap->lots.at[i].copies;
        int64_t per = copies ? slices_of(step, &heap->lots.at[i].cloth) : 0;
        int64_t full = per ? wanted / per : 0;

        if (!per)
            continue;
        if (full > copies)
            full = copies;
        if (!full) { /* one cloth, and not all that it would give */
            status = cut_lot(run, index, i, wanted, 1);
            return status;
        }
        status = cut_lot(run, index, i, per, full);
        wanted -= full * per;
    }
    return status;
}

qc_status qci_run_asked(qci_run *run, size_t index, int64_t *asked)
{
    const qci_instruction *step = &run->of->steps[index];
    int64_t cloths;

    *asked = step->count != QC_DEFAULT ? step->count : INT64_MAX;
    if (step->each == QC_DEFAULT)
        return QC_STATUS_OK;
    cloths = run->heaps[step->from].cloths;
    if (cloths && step->each > QC_MAX_COUNT / cloths)
        return qci_run_fail(run, index, "up to 1000000000",
                            "cuts too many pieces");
    *asked = step->each * cloths;
    return QC_STATUS_OK;
}

/* Cuts the rest of what the step asks for from strips that are added. */
static qc_status add_strips(qci_run *run, size_t index, int64_t missing)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_polygon cloth;
    int64_t per =
        qci_run_fresh(run, step->from, &cloth) ? slices_of(step, &cloth) : 0;
    qc_status status;

    if (!per) {
        run->done[index].hopeless = true;
        return QC_STATUS_OK;
    }
    status = qci_run_supply(run, index, step->from, (missing + per - 1) / per);
    return status ? status : cut_lots(run, index, missing);
}

static qc_status subcut(qci_run *run, size_t index)
{
    qci_done *done = &run->done[index];
    qc_status status = qci_run_asked(run, index, &done->asked);
    bool as_many = done->asked == INT64_MAX;

    if (!status)
        status = cut_lots(run, index, done->asked);
    if (as_many)
        done->asked = done->got ? done->got : 1;
    if (!status && done->got < done->asked && run->adds)
        status = add_strips(run, index, done->asked - done->got);
    return status;
}

static qc_status cut_strips(qci_run *run, size_t index)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_polygon strip =
        qci_polygon_rectangle(qci_run_width(run, step->fabric), step->size);

    run->done[index].asked = step->count;
    run->taken[step->fabric] += (qci_wide)step->count * step->size;
    if (!run->adds && run->taken[step->fabric] > QC_LENGTH_MAX / 2)
        return qci_run_fail(run, index, "up to 2147.483648 m of a fabric",
                            "makes the strips too long in all");
    return drop(run, index, &strip, step->count);
}

static qc_status carry_out(qci_run *run, size_t index)
{
    switch (run->of->steps[index].kind) {
    case QC_INSTRUCTION_STRIPS:
        return cut_strips(run, index);
    case QC_INSTRUCTION_SEW:
        return qci_run_sew(run, index);
    case QC_INSTRUCTION_CROSSCUT:
        return qci_run_crosscut(run, index);
    default:
        return subcut(run, index);
    }
}

qc_status qci_run_all(qci_run *run)
{
    const qc_instructions *of = run->of;
    qc_status status = QC_STATUS_OK;

    run->heaps = qci_calloc(of->name_count, sizeof *run->heaps);
    run->done = qci_calloc(of->step_count, sizeof *run->done);
    run->taken = qci_calloc(of->job->fabric_count, sizeof *run->taken);
    if (!run->heaps || !run->done || !run->taken)
        return qci_no_memory(run->err);
    for (size_t i = 0; i < of->step_count && !status; i++)
        status = carry_out(run, i);
    return status;
}

void qci_run_clear(qci_run *run)
{
    if (run->heaps)
        for (size_t i = 0; i < run->of->name_count; i++) {
            qci_vec_clear(&run->heaps[i].lots);
            qci_vec_clear(&run->heaps[i].sets);
        }
    qci_free(run->heaps);
    qci_free(run->done);
    qci_free(run->taken);
}

int64_t qci_run_untouched(const qci_run *run, uint32_t name)
{
    const qci_heap *heap = &run->heaps[name];
    int64_t count = 0;

    for (size_t i = 0; i < heap->lots.count; i++)
        if (!heap->lots.at[i].touched)
            count += heap->lots.at[i].copies;
    for (size_t i = 0; i < heap->sets.count; i++)
        if (!heap->sets.at[i].set.begun)
            count += heap->sets.at[i].copies;
    return count;
}
