/* Classes are the heights a strip may have. A strip can always be lowered to
 * its highest section, so only heights of pieces, and with stacks sums of them
 * up to the highest piece, are needed. */
#include "pack/classes.h"

#include <stdlib.h>

#include "base/alloc.h"
#include "base/error.h"

/* reach[y] for every height y that a stack of pieces, or a piece that lies
 * alone, can have. */
static void mark_heights(const qci_model *model, bool *reach, int64_t top)
{
    reach[0] = true;
    for (int32_t i = 0; i < model->lay_count; i++) {
        int64_t h = model->lays[i].height;

        if (model->lays[i].alone)
            continue;
        for (int64_t y = h; y <= top; y++)
            if (reach[y - h])
                reach[y] = true;
    }
    for (int32_t i = 0; i < model->lay_count; i++)
        reach[model->lays[i].height] = true;
}

static bool is_alone_height(const qci_model *model, int64_t height)
{
    for (int32_t i = 0; i < model->lay_count; i++)
        if (model->lays[i].alone && model->lays[i].height == height)
            return true;
    return false;
}

/* More classes than this are thinned out: a class then stands for all strips
 * between the next lower class and its height, at the cost of the lowest of
 * them. Bounds stay bounds; plans are costed at their true heights. */
#define CLASS_LIMIT 240
/* Where stacks must fill their strips exactly, classes cannot be thinned out:
 * with more than this the job is refused. */
#define EXACT_LIMIT 4000
/* Above this a table of heights is not made. */
#define REACH_CELLS (INT64_C(1) << 24)

static int compare_heights(const void *a, const void *b)
{
    const int64_t *p = a, *q = b;

    return (*p > *q) - (*p < *q);
}

/* Takes every `stride`-th of n rising heights, the last one among them, and all
 * at which some piece must lie. */
static void thin_out(qci_model *model, int64_t n)
{
    int64_t most = model->trim ? (n + CLASS_LIMIT - 1) / CLASS_LIMIT : 1;
    int64_t stride = most > 1 ? most : 1;
    int64_t first = (n - 1) % stride, lowest = 0;
    int32_t k = 0;

    for (int64_t i = 0; i < n; i++) {
        if (i % stride != first && !is_alone_height(model, model->height[i]))
            continue;
        model->cost[k] = model->height[lowest];
        model->height[k++] = model->height[i];
        lowest = i + 1;
    }
    model->class_count = k;
}

/* Sorts n heights and drops what is there twice; returns how many are left. */
static int64_t sort_heights(qci_model *model, int64_t n)
{
    int64_t kept = 0;

    qsort(model->height, (size_t)n, sizeof(int64_t), compare_heights);
    for (int64_t i = 0; i < n; i++)
        if (!kept || model->height[kept - 1] != model->height[i])
            model->height[kept++] = model->height[i];
    return kept;
}

/* Only the pieces' own heights. */
static int64_t own_heights(qci_model *model)
{
    for (int32_t i = 0; i < model->lay_count; i++)
        model->height[i] = model->lays[i].height;
    return sort_heights(model, model->lay_count);
}

static bool make_room(qci_model *model, int64_t n)
{
    model->height = qci_calloc((size_t)n, sizeof(int64_t));
    model->cost = qci_calloc((size_t)n, sizeof(int64_t));
    return model->height && model->cost;
}

static qc_status plain_classes(qci_model *model, qc_error *err)
{
    if (!make_room(model, model->lay_count))
        return qci_no_memory(err);
    thin_out(model, own_heights(model));
    return QC_STATUS_OK;
}

static qc_status too_fine(qc_error *err)
{
    return qci_fail(err, QC_STATUS_INVALID,
                    (qci_place){"options.trim", "false"},
                    "stages 2, trim true, or cut sizes on a coarser grid", "%s",
                    "stacks of these cut sizes can have too many heights");
}

static qc_status stack_classes(qci_model *model, int64_t top, qc_error *err)
{
    bool *reach = qci_calloc((size_t)top + 1, sizeof *reach);
    int64_t n = 0;

    if (!reach)
        return qci_no_memory(err);
    mark_heights(model, reach, top);
    for (int64_t y = 1; y <= top; y++)
        n += reach[y];
    if ((model->exact && n > EXACT_LIMIT) || !make_room(model, n)) {
        qci_free(reach);
        return model->exact && n > EXACT_LIMIT ? too_fine(err)
                                               : qci_no_memory(err);
    }
    n = 0;
    for (int64_t y = 1; y <= top; y++)
        if (reach[y])
            model->height[n++] = y;
    qci_free(reach);
    thin_out(model, n);
    return QC_STATUS_OK;
}

/* Heights too fine for a table: evenly spaced classes. */
static qc_status even_classes(qci_model *model, int64_t top, qc_error *err)
{
    int64_t n = 0;

    if (!make_room(model, CLASS_LIMIT + model->alone_count))
        return qci_no_memory(err);
    for (int64_t k = 1; k < CLASS_LIMIT; k++)
        model->height[n++] = top / CLASS_LIMIT * k;
    model->height[n++] = top;
    for (int32_t i = 0; i < model->lay_count; i++)
        if (model->lays[i].alone)
            model->height[n++] = model->lays[i].height;
    model->class_count = (int32_t)sort_heights(model, n);
    for (int32_t k = 0; k < model->class_count; k++)
        model->cost[k] = k ? model->height[k - 1] + 1 : 1;
    return QC_STATUS_OK;
}

qc_status qci_classes_make(qci_model *model, qc_error *err)
{
    int64_t top = 0;

    for (int32_t i = 0; i < model->lay_count; i++)
        if (model->lays[i].height > top)
            top = model->lays[i].height;
    if (!model->stacks)
        return plain_classes(model, err);
    if (top < REACH_CELLS)
        return stack_classes(model, top, err);
    return model->exact ? too_fine(err) : even_classes(model, top, err);
}
