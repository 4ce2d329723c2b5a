/* Equal strips are one group with a count, so that demand hardly matters: a
 * piece type fills whole groups, and splits at most one. */
#include "pack/greedy.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

typedef struct group {
    int32_t lay; /* the lay that opened it: its height */
    int64_t strips;
    int64_t left;            /* width */
    QCI_VEC(qci_count) lays; /* in place of a row: the lay */
} group;

typedef struct shelf {
    const qci_model *model;
    QCI_VEC(group) groups;
} shelf;

static void clear_shelf(shelf *s)
{
    for (size_t i = 0; i < s->groups.count; i++)
        qci_vec_clear(&s->groups.at[i].lays);
    qci_vec_clear(&s->groups);
}

/* Splits off the strips of group g beyond `keep` as a group behind it. */
static bool split(shelf *s, size_t g, int64_t keep)
{
    group rest = s->groups.at[g];

    memset(&rest.lays, 0, sizeof rest.lays);
    rest.strips -= keep;
    for (size_t i = 0; i < s->groups.at[g].lays.count; i++)
        if (!qci_vec_push(&rest.lays, s->groups.at[g].lays.at[i])) {
            qci_vec_clear(&rest.lays);
            return false;
        }
    if (!qci_vec_push(&s->groups, rest)) {
        qci_vec_clear(&rest.lays);
        return false;
    }
    s->groups.at[g].strips = keep;
    for (size_t i = s->groups.count - 1; i > g + 1; i--) {
        group moved = s->groups.at[i];

        s->groups.at[i] = s->groups.at[i - 1];
        s->groups.at[i - 1] = moved;
    }
    return true;
}

/* Puts pieces into the strips of group g, each as full as it goes. */
static bool fill_group(shelf *s, size_t g, int32_t lay, int64_t *need)
{
    int64_t width = s->model->lays[lay].width;
    int64_t each = s->groups.at[g].left / width;

    if (each > *need)
        each = *need;
    if (!each)
        return true;
    if (*need / each < s->groups.at[g].strips && !split(s, g, *need / each))
        return false;
    s->groups.at[g].left -= each * width;
    *need -= each * s->groups.at[g].strips;
    return qci_vec_push(&s->groups.at[g].lays, (qci_count){lay, (int32_t)each});
}

static bool may_join(const shelf *s, const group *g, int32_t lay)
{
    return s->model->trim ||
           s->model->lays[g->lay].height == s->model->lays[lay].height;
}

static bool place_row(shelf *s, int32_t lay, int64_t need)
{
    for (size_t g = 0; g < s->groups.count && need; g++)
        if (may_join(s, &s->groups.at[g], lay) && !fill_group(s, g, lay, &need))
            return false;
    while (need) {
        group fresh = {.lay = lay, .strips = need, .left = s->model->width};

        if (!qci_vec_push(&s->groups, fresh) ||
            !fill_group(s, s->groups.count - 1, lay, &need))
            return false;
        /* A last strip that was split off empty is not wanted yet. */
        if (!s->groups.at[s->groups.count - 1].lays.count) {
            qci_vec_clear(&s->groups.at[s->groups.count - 1].lays);
            s->groups.count--;
        }
    }
    return true;
}

/* The order of first-fit decreasing height: one lay per row, highest first;
 * rows that lie only alone are not among them. */
static int32_t list_lays(const qci_model *model, bool flat, int32_t *list)
{
    int32_t n = 0;

    for (int32_t row = 0; row < model->row_count; row++) {
        int32_t chosen = -1, at;

        for (int32_t i = 0; i < qci_square_count(model); i++)
            if (model->lays[i].row == row &&
                (chosen < 0 ||
                 (model->lays[i].height < model->lays[chosen].height) == flat))
                chosen = i;
        if (chosen < 0)
            continue;
        for (at = n++; at > 0; at--) {
            const qci_lay *before = &model->lays[list[at - 1]];

            if (before->height > model->lays[chosen].height ||
                (before->height == model->lays[chosen].height &&
                 before->width >= model->lays[chosen].width))
                break;
            list[at] = list[at - 1];
        }
        list[at] = chosen;
    }
    return n;
}

static int compare_entries(const void *a, const void *b)
{
    const int32_t *p = a, *q = b;

    return (*p > *q) - (*p < *q);
}

/* Lays are numbered from the widest on: sorted, a sequence is canonical. */
static qc_status take_group(qci_master *master, const group *g,
                            qci_solution *out, qc_error *err)
{
    const qci_pattern *kept;
    qci_pattern *pattern;
    int32_t *sequence, n = 0;
    int64_t pieces = 0;
    qc_status status;

    for (size_t i = 0; i < g->lays.count; i++)
        pieces += g->lays.at[i].count;
    sequence = qci_calloc((size_t)pieces, sizeof *sequence);
    if (!sequence)
        return qci_no_memory(err);
    for (size_t i = 0; i < g->lays.count; i++)
        for (int32_t c = 0; c < g->lays.at[i].count; c++)
            sequence[n++] = g->lays.at[i].row | QCI_OPEN;
    qsort(sequence, (size_t)n, sizeof *sequence, compare_entries);
    pattern = qci_pattern_create(
        master->model,
        qci_model_class(master->model, master->model->lays[g->lay].height),
        sequence, n);
    qci_free(sequence);
    if (!pattern)
        return qci_no_memory(err);
    status = qci_master_add(master, pattern, &kept, err);
    if (!status && out && !qci_solution_add(out, kept, g->strips))
        status = qci_no_memory(err);
    return status;
}

/* Cloths of a lay that give all pieces of its row. */
static int64_t cloths_of(const qci_model *model, int32_t lay)
{
    int32_t each = model->lays[lay].yield;

    return (model->demand[model->lays[lay].row] + each - 1) / each;
}

static qc_status shelve(qci_master *master, bool flat, qci_solution *out,
                        qc_error *err)
{
    const qci_model *model = master->model;
    int32_t *list = qci_calloc((size_t)model->row_count, sizeof *list);
    shelf s = {.model = model};
    qc_status status = QC_STATUS_OK;
    int32_t n;

    if (!list)
        return qci_no_memory(err);
    n = list_lays(model, flat, list);
    for (int32_t i = 0; i < n && !status; i++)
        if (!place_row(&s, list[i], cloths_of(model, list[i])))
            status = qci_no_memory(err);
    for (size_t g = 0; g < s.groups.count && !status; g++)
        status = take_group(master, &s.groups.at[g], out, err);
    clear_shelf(&s);
    qci_free(list);
    return status;
}

/* One full strip of each lay. */
static qc_status add_full(qci_master *master, qc_error *err)
{
    const qci_model *model = master->model;
    qc_status status = QC_STATUS_OK;

    for (int32_t i = 0; i < qci_square_count(model) && !status; i++) {
        int64_t each = model->width / model->lays[i].width;
        group g = {.lay = i, .strips = 1};

        if (each > cloths_of(model, i))
            each = cloths_of(model, i);
        if (!qci_vec_push(&g.lays, (qci_count){i, (int32_t)each}))
            return qci_no_memory(err);
        status = take_group(master, &g, NULL, err);
        qci_vec_clear(&g.lays);
    }
    return status;
}

static bool add_all(qci_solution *to, const qci_solution *from)
{
    for (size_t i = 0; i < from->uses.count; i++)
        if (!qci_solution_add(to, from->uses.at[i].pattern,
                              from->uses.at[i].times))
            return false;
    return true;
}

qc_status qci_greedy(qci_master *master, qci_solution *out, qc_error *err)
{
    qci_solution flat = {0}, upright = {0};
    qc_status status = add_full(master, err);
    qci_solution alone = {0};

    if (!status)
        status = shelve(master, true, &flat, err);
    if (!status)
        status = shelve(master, false, &upright, err);
    if (!status)
        status = qci_greedy_alone(master, &alone, err);
    if (!status && (!qci_solution_copy(
                        out, upright.height < flat.height ? &upright : &flat) ||
                    !add_all(out, &alone)))
        status = qci_no_memory(err);
    qci_solution_clear(&alone);
    qci_solution_clear(&flat);
    qci_solution_clear(&upright);
    return status;
}

/* Pieces of a row in a strip of nothing else, cut as its first form is. */
static int64_t hand_count(const qci_demand *demand, const qci_model *model,
                          const qci_form *form)
{
    if (qci_form_is_alone(form))
        return qci_alone_row(model, model->row_of[form->row],
                             form->height / model->height_unit, NULL);
    return demand->width / form->width * form->yields;
}

qc_length qci_hand_method(const qci_demand *demand, const qci_model *model)
{
    qc_length used = demand->square_up;
    int32_t row = -1;

    for (size_t i = 0; i < demand->form_count; i++) {
        const qci_form *form = &demand->forms[i];
        int64_t strips, each;

        if (form->row == row)
            continue; /* the first form is the size as it was given */
        row = form->row;
        each = hand_count(demand, model, form);
        strips = (demand->count[row] + each - 1) / each;
        if (strips > (QC_LENGTH_MAX - used) / form->height)
            return -1;
        used += strips * form->height;
    }
    return row < 0 ? 0 : qci_purchase_bought(demand->purchase, used);
}
