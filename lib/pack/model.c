/* Normal form of one fabric's demand.
 *
 * Rows whose forms are equal are one row of the program; the pieces are dealt
 * back to their types when the plan is written. Widths are divided by their
 * gcd, and the fabric's width with them, rounded down: no sum of widths lies
 * between. Heights likewise.
 *
 * Rows of which some form yields several pieces are not merged: what falls out
 * of one square belongs together. */
#include "pack/model.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/gcd.h"
#include "pack/classes.h"

static int compare_lays(const void *a, const void *b)
{
    const qci_lay *p = a, *q = b;

    if (p->alone != q->alone)
        return p->alone ? 1 : -1;
    if (p->width != q->width)
        return p->width < q->width ? 1 : -1;
    if (p->height != q->height)
        return p->height < q->height ? 1 : -1;
    if (p->row != q->row)
        return p->row > q->row ? 1 : -1;
    if (p->left != q->left)
        return p->left < q->left ? 1 : -1;
    return (p->right < q->right) - (p->right > q->right);
}

/* The forms of a demand row; they stand in the order of the rows. */
static const qci_form *row_forms(const qci_demand *demand, size_t row,
                                 size_t *count)
{
    size_t from = 0, high = demand->form_count, to;

    while (from < high) {
        size_t mid = (from + high) / 2;

        if (demand->forms[mid].row < (int32_t)row)
            from = mid + 1;
        else
            high = mid;
    }
    for (to = from; to < demand->form_count; to++)
        if (demand->forms[to].row != (int32_t)row)
            break;
    *count = to - from;
    return demand->forms + from;
}

static bool same_form(const qci_form *a, const qci_form *b)
{
    return a->width == b->width && a->height == b->height &&
           a->left == b->left && a->right == b->right &&
           a->yields == b->yields && a->corners == b->corners;
}

static bool has_form(const qci_form *forms, size_t count, const qci_form *form)
{
    for (size_t i = 0; i < count; i++)
        if (same_form(&forms[i], form))
            return true;
    return false;
}

/* Both rows may lie in exactly the same ways, and every piece is cut singly. */
static bool same_forms(const qci_demand *demand, size_t a, size_t b)
{
    size_t na, nb;
    const qci_form *fa = row_forms(demand, a, &na);
    const qci_form *fb = row_forms(demand, b, &nb);

    if (na != nb)
        return false;
    for (size_t i = 0; i < na; i++)
        if (fa[i].yields > 1 || !has_form(fb, nb, &fa[i]))
            return false;
    return true;
}

static void merge_rows(const qci_demand *demand, qci_model *model)
{
    for (size_t row = 0; row < demand->row_count; row++) {
        size_t first = 0;

        while (first < row && !same_forms(demand, first, row))
            first++;
        model->row_of[row] =
            first == row ? model->row_count++ : model->row_of[first];
    }
}

/* A merged row and what it is sorted by: its largest form, and in place of a
 * row how many forms it has. */
typedef struct rank {
    qci_lay key;
    int32_t merged;
} rank;

static int compare_ranks(const void *a, const void *b)
{
    return compare_lays(&((const rank *)a)->key, &((const rank *)b)->key);
}

static qci_lay lay_of(const qci_demand *demand, const qci_form *form,
                      int32_t row)
{
    return (qci_lay){.row = row,
                     .yield = form->yields,
                     .width = form->width,
                     .height = form->height,
                     .left = form->left / 2,
                     .right = form->right / 2,
                     .alone = qci_form_is_alone(form),
                     .form = (int32_t)(form - demand->forms)};
}

static rank rank_row(const qci_demand *demand, const qci_model *model,
                     size_t row)
{
    size_t count;
    const qci_form *forms = row_forms(demand, row, &count);
    rank r = {{.row = (int32_t)count}, model->row_of[row]};

    for (size_t i = 0; i < count; i++) {
        qci_lay lay = lay_of(demand, &forms[i], (int32_t)count);

        if (!r.key.width || compare_lays(&lay, &r.key) < 0)
            r.key = lay;
    }
    return r;
}

/* Numbers the merged rows by size, so that the order of the job's pieces does
 * not matter. */
static qc_status sort_rows(const qci_demand *demand, qci_model *model,
                           qc_error *err)
{
    size_t n = (size_t)model->row_count;
    rank *ranks = qci_calloc(n, sizeof *ranks);
    int32_t *place = qci_calloc(n, sizeof *place);
    qc_status status = QC_STATUS_OK;

    if (!ranks || !place) {
        status = qci_no_memory(err);
        goto done;
    }
    for (size_t row = 0; row < demand->row_count; row++)
        ranks[model->row_of[row]] = rank_row(demand, model, row);
    qsort(ranks, n, sizeof *ranks, compare_ranks);
    for (size_t i = 0; i < n; i++)
        place[ranks[i].merged] = (int32_t)i;
    memset(model->demand, 0, n * sizeof *model->demand);
    for (size_t row = 0; row < demand->row_count; row++) {
        model->row_of[row] = place[model->row_of[row]];
        model->demand[model->row_of[row]] += demand->count[row];
    }
done:
    qci_free(ranks);
    qci_free(place);
    return status;
}

static void find_twins(const qci_demand *demand, qci_model *model)
{
    for (size_t row = 0; row < demand->row_count; row++)
        model->twin[model->row_of[row]] =
            demand->twin[row] < 0 ? -1 : model->row_of[demand->twin[row]];
}

static bool is_half(const qci_model *model, const qci_lay *lay)
{
    for (int32_t i = 0; i < model->lay_count && lay->alone; i++)
        if (model->lays[i].row == lay->row && model->lays[i].yield == 2 &&
            model->lays[i].height == lay->height &&
            model->lays[i].width == 2 * lay->width)
            return true;
    return false;
}

/* Halves of squares save nothing over the squares where an even number is
 * needed of every type that lies alone in strips of their height, and all of
 * them are such halves: k of them take the room of k / 2 squares, rounded up,
 * and the squares of all types can share these places. */
static bool needs_halves(const qci_model *model, int64_t height)
{
    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];

        if (lay->alone && lay->height == height &&
            (model->demand[lay->row] % 2 || !lay->half))
            return true;
    }
    return false;
}

/* Moving lays up as we go is safe: the one that makes a height need its halves
 * is always kept, so the answer for a height never changes. */
static void drop_halves(qci_model *model)
{
    int32_t n = 0;

    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];

        if (!lay->alone || needs_halves(model, lay->height))
            model->lays[n++] = *lay;
    }
    model->lay_count = n;
}

/* Where every cloth of a row yields the same, its demand is one of cloths. */
static void count_cloths(qci_model *model, int32_t row)
{
    int32_t unit = 0;

    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];

        if (lay->row == row)
            unit = !unit || unit == lay->yield ? lay->yield : 1;
    }
    model->unit[row] = unit > 1 ? unit : 1; /* a row without lays has none */
    if (unit <= 1)
        return;
    model->demand[row] /= unit;
    for (int32_t i = 0; i < model->lay_count; i++)
        if (model->lays[i].row == row)
            model->lays[i].yield /= unit;
}

static void settle_lays(qci_model *model)
{
    for (int32_t i = 0; i < model->lay_count; i++)
        model->lays[i].half = is_half(model, &model->lays[i]);
    drop_halves(model);
    for (int32_t row = 0; row < model->row_count; row++)
        count_cloths(model, row);
    for (int32_t i = 0; i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];

        model->alone_count += lay->alone;
        model->mixed = model->mixed || lay->alone || lay->yield > 1;
        if (lay->yield > model->surplus[lay->row] + 1)
            model->surplus[lay->row] = lay->yield - 1;
    }
}

/* One lay per form of each merged row, taken from the first demand row that
 * belongs to it; forms that are wider than the fabric are left out. */
static void take_lays(const qci_demand *demand, qc_length fabric_width,
                      qci_model *model)
{
    for (int32_t merged = 0; merged < model->row_count; merged++) {
        size_t count, row = 0;
        const qci_form *forms;

        while (model->row_of[row] != merged)
            row++;
        forms = row_forms(demand, row, &count);
        for (size_t i = 0; i < count; i++)
            if (qci_form_room(&forms[i]) <= fabric_width)
                model->lays[model->lay_count++] =
                    lay_of(demand, &forms[i], merged);
    }
    settle_lays(model);
}

static void scale(qci_model *model, qc_length fabric_width)
{
    int64_t gw = 0, gh = 0;

    for (int32_t i = 0; i < model->lay_count; i++) {
        gw = qci_gcd(model->lays[i].width, gw);
        gw = qci_gcd(qci_wedge(model->lays[i].left, 0), gw);
        gw = qci_gcd(qci_wedge(model->lays[i].right, 0), gw);
        gh = qci_gcd(model->lays[i].height, gh);
    }
    model->width_unit = gw ? gw : 1;
    model->height_unit = gh ? gh : 1;
    for (int32_t i = 0; i < model->lay_count; i++) {
        model->lays[i].width /= model->width_unit;
        model->lays[i].left /= model->width_unit;
        model->lays[i].right /= model->width_unit;
        model->lays[i].height /= model->height_unit;
    }
    model->width = fabric_width / model->width_unit;
}

qc_status qci_model_create(const qci_demand *demand, qc_length fabric_width,
                           qci_model **out, qc_error *err)
{
    qci_model *model = qci_calloc(1, sizeof *model);
    qc_status status = QC_STATUS_OK;

    *out = NULL;
    if (!model)
        return qci_no_memory(err);
    model->stacks = demand->stacks;
    model->trim = demand->trim;
    model->exact = demand->stacks && !demand->trim;
    model->demand = qci_calloc(demand->row_count, sizeof *model->demand);
    model->row_of = qci_calloc(demand->row_count, sizeof *model->row_of);
    model->lays = qci_calloc(demand->form_count, sizeof *model->lays);
    model->surplus = qci_calloc(demand->row_count, sizeof *model->surplus);
    model->unit = qci_calloc(demand->row_count, sizeof *model->unit);
    model->twin = qci_calloc(demand->row_count, sizeof *model->twin);
    if (!model->demand || !model->row_of || !model->lays || !model->unit ||
        !model->surplus || !model->twin) {
        status = qci_no_memory(err);
        goto done;
    }
    merge_rows(demand, model);
    status = sort_rows(demand, model, err);
    if (status)
        goto done;
    find_twins(demand, model);
    take_lays(demand, fabric_width, model);
    scale(model, fabric_width);
    qsort(model->lays, (size_t)model->lay_count, sizeof *model->lays,
          compare_lays);
    status = qci_classes_make(model, err);
    if (status)
        goto done;
    *out = model;
    model = NULL;
done:
    qci_model_destroy(model);
    return status;
}

void qci_model_destroy(qci_model *model)
{
    if (!model)
        return;
    qci_free(model->demand);
    qci_free(model->row_of);
    qci_free(model->lays);
    qci_free(model->surplus);
    qci_free(model->unit);
    qci_free(model->twin);
    qci_free(model->height);
    qci_free(model->cost);
    qci_free(model);
}

int32_t qci_model_form(const qci_demand *demand, const qci_model *model,
                       int32_t row, int32_t lay)
{
    const qci_form *like = &demand->forms[model->lays[lay].form];
    size_t i = 0;

    while (demand->forms[i].row != row || !same_form(&demand->forms[i], like))
        i++;
    return (int32_t)i;
}

bool qci_lay_fits(const qci_model *model, const qci_lay *lay, int32_t cls)
{
    bool lower = !lay->alone && (model->trim || model->stacks);
    int64_t height = model->height[cls];

    return lay->width <= model->width &&
           (lower ? lay->height <= height : lay->height == height);
}

bool qci_row_fits(const qci_model *model, int32_t row, int32_t from, int32_t to,
                  int32_t cls)
{
    for (int32_t i = from; i < to; i++)
        if (model->lays[i].row == row &&
            qci_lay_fits(model, &model->lays[i], cls))
            return true;
    return false;
}

int32_t qci_model_class(const qci_model *model, int64_t height)
{
    int32_t low = 0, high = model->class_count - 1;

    while (low < high) {
        int32_t mid = (low + high) / 2;

        if (model->height[mid] < height)
            low = mid + 1;
        else
            high = mid;
    }
    return low;
}
