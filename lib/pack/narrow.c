/* A bisection: more width never costs more, so the widths that suffice are all
 * above those that do not. Each question is a small search of its own that ends
 * at the first packing that is short enough, or at a proof that there is none.
 * A question left open counts as "does not suffice", and is remembered. */
#include "pack/narrow.h"

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "pack/greedy.h"
#include "pack/result.h"
#include "pack/search.h"

/* Linear programs spent on one width. */
#define WIDTH_ROUNDS 200

typedef enum answer { NO, YES, OPEN } answer;

static int64_t cap_of(int64_t height, void *user)
{
    int64_t cap = *(const int64_t *)user;

    return height <= cap ? -1 : cap;
}

static qc_status ask_program(qci_master *master, int64_t cap, answer *out,
                             qc_error *err)
{
    qci_aim aim = {.cap = cap_of, .user = &cap, .rounds = WIDTH_ROUNDS};
    qci_solution best = {0};
    int64_t bound = 0;
    qc_status status = qci_greedy(master, &best, err);

    if (!status && best.height > cap)
        status = qci_search(master, &aim, &best, &bound, err);
    if (!status)
        *out = best.height <= cap ? YES : bound > cap ? NO : OPEN;
    qci_solution_clear(&best);
    return status;
}

static qc_status ask(const qci_demand *demand, const qci_watch *watch,
                     qc_length width, qc_length room, answer *out,
                     qc_error *err)
{
    qci_model *model = NULL;
    qci_master *master = NULL;
    qc_status status = qci_model_create(demand, width, &model, err);

    if (!status)
        status = qci_master_create(model, watch, &master, err);
    if (!status)
        status = ask_program(master, room / model->height_unit, out, err);
    qci_master_destroy(master);
    qci_model_destroy(model);
    return status;
}

/* Every piece must fit across in one of its forms, and all must fit by area. */
static qc_length least_width(const qci_demand *demand, qc_length height)
{
    qc_length least = 1, narrowest = 0;
    qci_wide area = 0, smallest = 0;
    int32_t row = -1;

    for (size_t i = 0; i < demand->form_count; i++) {
        const qci_form *form = &demand->forms[i];
        qc_length room = qci_form_room(form);
        qci_wide takes = (qci_wide)form->width * form->height *
                         demand->count[form->row] / form->yields;

        if (form->row != row || room < narrowest)
            narrowest = room;
        if (form->row != row || takes < smallest)
            smallest = takes;
        row = form->row;
        if (i + 1 == demand->form_count || demand->forms[i + 1].row != row) {
            least = narrowest > least ? narrowest : least;
            area += smallest;
        }
    }
    if (height > 0 && (area + height - 1) / height > least)
        least = (qc_length)((area + height - 1) / height);
    return least;
}

qc_status qci_narrowest(const qci_demand *demand, const qci_watch *watch,
                        qc_length bought, qc_length *width, qc_outcome *outcome,
                        qc_error *err)
{
    qc_length room =
        qci_purchase_covers(demand->purchase, bought) - demand->square_up;
    qc_length grid = demand->ruler, least = least_width(demand, room);
    /* In grid steps: `no` does not suffice or is not known to, `yes` does. */
    int64_t no = (least + grid - 1) / grid - 1;
    int64_t yes = demand->width / grid;
    bool on_grid = demand->width % grid == 0;
    int64_t open_from = INT64_MAX;

    *width = demand->width;
    if (!on_grid)
        yes++; /* stands for the width itself */
    while (yes - no > 1) {
        int64_t middle = no + (yes - no) / 2;
        answer a = OPEN;
        qc_status status = ask(demand, watch, middle * grid, room, &a, err);

        if (status)
            return status;
        if (a == YES) {
            yes = middle;
            *width = middle * grid;
        } else {
            no = middle;
            if (a == OPEN && middle < open_from)
                open_from = middle;
        }
    }
    *outcome = open_from <= no ? QC_OUTCOME_FEASIBLE : QC_OUTCOME_OPTIMAL;
    return QC_STATUS_OK;
}
