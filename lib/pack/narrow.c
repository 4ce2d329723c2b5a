/* A bisection: more width never costs more, so the widths that suffice are all
 * above those that do not. The plan's own widest strip is where it begins. Each
 * question is a small search of its own that ends at the first packing that is
 * short enough, or at a proof that there is none. A question left open counts
 * as "does not suffice", and is remembered.
 *
 * The answer is an extra, so its cost is held: questions that are quickly
 * answered are all asked, but once a fabric has taken its share of linear
 * programs, only those whose bound leaves room for what dives usually waste,
 * and in the end none. */
#include "pack/narrow.h"

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "pack/greedy.h"
#include "pack/line.h"
#include "pack/result.h"
#include "pack/search.h"
#include "pack/sections.h"

/* Linear programs spent on one width, and on all widths of a fabric; that is
 * the fabric's share of those for the whole job, but within limits. */
#define WIDTH_ROUNDS 250
#define JOB_ROUNDS 4000
#define MOST_ROUNDS 1600
#define LEAST_ROUNDS 100
/* Beyond so many, hopeless questions are left open. Measured: where the bound
 * is less than a sixteenth of the highest strip below the length, dives all but
 * never find a packing. */
#define EASY_ROUNDS 40
#define HOPELESS 16
/* The same from the first on, where a fabric's share is small: a dive or two
 * must do. Measured: with a fifth of the highest strip left they nearly always
 * do; below a sixth the share is better spent on a wider question. */
#define SMALL_SHARE 200
#define HASTY 6

typedef enum answer { NO, YES, OPEN } answer;

typedef struct narrowing {
    const qci_demand *demand;
    const qci_watch *watch;
    qc_length room; /* for the strips */
    int64_t rounds; /* that may still be spent */
    bool hasty;     /* they are few */
    int64_t spent;
} narrowing;

static int64_t cap_of(int64_t height, void *user)
{
    int64_t cap = *(const int64_t *)user;

    return height <= cap ? -1 : cap;
}

/* Is it not worth while to look for a packing? *out: what is known then. */
static qc_status is_hopeless(const narrowing *n, qci_master *master,
                             int64_t cap, bool *hopeless, answer *out,
                             qc_error *err)
{
    const qci_model *model = master->model;
    int64_t bound = 0;
    qci_cg_end end;
    qc_status status;

    *hopeless = false;
    if (qci_line_fits(model))
        return QC_STATUS_OK;
    status = qci_master_generate(master, cap, WIDTH_ROUNDS, &bound, &end, err);
    *out = bound > cap ? NO : OPEN;
    *hopeless = bound > cap || ((n->hasty || n->spent > EASY_ROUNDS) &&
                                (cap - bound) * (n->hasty ? HASTY : HOPELESS) <
                                    model->height[model->class_count - 1]);
    return status;
}

static qc_status ask_program(const narrowing *n, qci_master *master,
                             int64_t cap, answer *out, qc_error *err)
{
    qci_aim aim = {.cap = cap_of,
                   .user = &cap,
                   .rounds =
                       n->rounds < WIDTH_ROUNDS ? n->rounds : WIDTH_ROUNDS};
    qci_solution best = {0};
    int64_t bound = 0;
    qc_status status = qci_greedy(master, &best, err);
    bool done = best.height <= cap || n->rounds <= 0;

    *out = OPEN;
    if (!status && !done)
        status = is_hopeless(n, master, cap, &done, out, err);
    if (!status && !done) {
        status = qci_search(master, &aim, &best, &bound, err);
        *out = bound > cap ? NO : OPEN;
    }
    if (best.height <= cap)
        *out = YES;
    qci_solution_clear(&best);
    return status;
}

static qc_status ask(narrowing *n, qc_length width, answer *out, qc_error *err)
{
    qci_model *model = NULL;
    qci_master *master = NULL;
    qc_status status = qci_model_create(n->demand, width, &model, err);

    if (!status)
        status = qci_master_create(model, n->watch, &master, err);
    if (!status)
        status = ask_program(n, master, n->room / model->height_unit, out, err);
    if (master) {
        n->spent += master->rounds;
        n->rounds -= master->rounds;
    }
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

static qc_length widest_strip(const qci_demand *demand,
                              const qci_packing *packing)
{
    qc_length widest = 1;

    for (size_t i = 0; i < packing->strip_count; i++) {
        qc_length width = qci_sections_width(demand, &packing->strips[i]);

        widest = width > widest ? width : widest;
    }
    return widest;
}

static int64_t share_of(const qci_watch *watch)
{
    int64_t share = JOB_ROUNDS / (watch->fabrics ? watch->fabrics : 1);

    return share > MOST_ROUNDS    ? MOST_ROUNDS
           : share < LEAST_ROUNDS ? LEAST_ROUNDS
                                  : share;
}

/* Bisects between the least width and the plan's widest strip. */
static qc_status bisect(narrowing *n, qci_packing *packing, qc_error *err)
{
    const qci_demand *demand = n->demand;
    qc_length grid = demand->ruler, least = least_width(demand, n->room);
    /* In grid steps: `no` does not suffice or is not known to, `yes` does. */
    int64_t no = (least + grid - 1) / grid - 1;
    int64_t yes = (widest_strip(demand, packing) + grid - 1) / grid;
    int64_t open_from = INT64_MAX;

    while (yes - no > 1) {
        int64_t middle = no + (yes - no) / 2;
        answer a = OPEN;
        qc_status status = ask(n, middle * grid, &a, err);

        if (status)
            return status;
        if (a == YES)
            yes = middle;
        else
            no = middle;
        if (a == OPEN && middle < open_from)
            open_from = middle;
    }
    packing->narrowest_width =
        yes * grid < demand->width ? yes * grid : demand->width;
    packing->narrowest_outcome =
        open_from <= no ? QC_OUTCOME_FEASIBLE : QC_OUTCOME_OPTIMAL;
    return QC_STATUS_OK;
}

qc_status qci_narrowest(const qci_demand *demand, const qci_watch *watch,
                        qci_packing *packing, qc_error *err)
{
    narrowing n = {.demand = demand,
                   .watch = watch,
                   .room =
                       qci_purchase_covers(demand->purchase, packing->bought) -
                       demand->square_up,
                   .rounds = share_of(watch)};

    n.hasty = n.rounds <= SMALL_SHARE;
    return demand->row_count ? bisect(&n, packing, err) : QC_STATUS_OK;
}
