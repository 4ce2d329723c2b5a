/* Pieces that lie alone in a section, because their sides slant or they are
 * trimmed to an outline: a path over (position, lean).
 *
 * They lie only in strips of their own height, after all square sections, since
 * squares among them save nothing. What fits is listed, as a rule (bunch.c).
 * Where that would be too much: beside an edge of lean a, a lay whose first
 * side leans l takes its width and |a - l| in halved leans; at the strip's end
 * the edge counts as lean 0. path[a][x] bounds what can still be gained beside
 * such an edge in x cells of width, every lay as often as it fits; the walk
 * keeps to the limits and prunes with it.
 *
 * Of sequences that are alike but for their order the walk takes one (seen.c).
 * Cost: classes that have such pieces x cells x leans of the class x lays. */
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/oracle_inner.h"

static int32_t lean_index(const qci_oracle *oracle, int64_t lean)
{
    int32_t a = 0;

    while (a < oracle->lean_count && oracle->lean[a] != lean)
        a++;
    return a;
}

static int32_t note_lean(qci_oracle *oracle, int64_t lean)
{
    int32_t a = lean_index(oracle, lean);

    if (a == oracle->lean_count)
        oracle->lean[oracle->lean_count++] = lean;
    return a;
}

static void list_leans(qci_oracle *oracle)
{
    const qci_model *model = oracle->model;

    note_lean(oracle, 0);
    for (int32_t i = 0; i < model->lay_count; i++) {
        oracle->left_lean[i] = note_lean(oracle, model->lays[i].left);
        oracle->right_lean[i] = note_lean(oracle, model->lays[i].right);
    }
}

static void list_alone(qci_oracle *oracle)
{
    const qci_model *model = oracle->model;
    int32_t n = 0, from = qci_square_count(model);

    for (int32_t k = 0; k < model->class_count; k++) {
        oracle->alone_first[k] = n;
        for (int32_t i = from; i < model->lay_count; i++)
            if (model->lays[i].height == model->height[k])
                oracle->alone[n++] = i;
    }
    oracle->alone_first[model->class_count] = n;
}

bool qci_alone_any(const qci_oracle *oracle, int32_t cls)
{
    return oracle->alone_first[cls] < oracle->alone_first[cls + 1];
}

static int64_t *path_line(const qci_oracle *oracle, int32_t lean)
{
    return oracle->path + (int64_t)lean * (oracle->cells_x + 1);
}

/* Width that a lay takes beside an edge. */
static int64_t takes(const qci_oracle *oracle, int32_t lean, int32_t lay)
{
    const qci_lay *l = &oracle->model->lays[lay];

    return l->width + qci_wedge(oracle->lean[lean], l->left);
}

/* Can an edge in a strip of the class have this lean? */
static bool has_lean(const qci_oracle *oracle, int32_t cls, int32_t lean)
{
    return oracle->has_lean[cls * oracle->lean_count + lean];
}

/* Cells that a lay takes beside an edge. */
static int64_t cells_of(const qci_oracle *oracle, int32_t lean, int32_t lay)
{
    return oracle->alone_cells[lean * oracle->model->lay_count + lay];
}

/* So many cells at least every lay of the class takes: one or more. */
static int64_t least_cells(const qci_oracle *oracle, int32_t cls)
{
    int64_t least = oracle->cells_x + 1;

    for (int32_t i = oracle->alone_first[cls]; i < oracle->alone_first[cls + 1];
         i++)
        for (int32_t a = 0; a < oracle->lean_count; a++)
            if (has_lean(oracle, cls, a) &&
                cells_of(oracle, a, oracle->alone[i]) < least)
                least = cells_of(oracle, a, oracle->alone[i]);
    return least;
}

/* One lay more beside an edge, in the cells from..to. */
static void add_lay(const qci_oracle *oracle, int32_t lean, int32_t lay,
                    int64_t from, int64_t to)
{
    int64_t cells = cells_of(oracle, lean, lay), gain = oracle->section[lay];
    const int64_t *rest = path_line(oracle, oracle->right_lean[lay]);
    int64_t *best = path_line(oracle, lean);

    for (int64_t x = from > cells ? from : cells; x <= to; x++) {
        int64_t with = gain + rest[x - cells];

        best[x] = with > best[x] ? with : best[x];
    }
}

/* The best beside an edge, in the cells from..to: so few that all it looks at
 * lies before them. */
static void fill_line(const qci_oracle *oracle, int32_t cls, int32_t lean,
                      int64_t from, int64_t to)
{
    int64_t wedge = qci_wedge(oracle->lean[lean], 0) / oracle->unit_x;

    for (int64_t x = from; x <= to; x++)
        path_line(oracle, lean)[x] = x >= wedge ? 0 : QCI_NEVER;
    for (int32_t i = oracle->alone_first[cls]; i < oracle->alone_first[cls + 1];
         i++)
        if (oracle->section[oracle->alone[i]] > 0)
            add_lay(oracle, lean, oracle->alone[i], from, to);
}

static void fill_has_lean(qci_oracle *oracle)
{
    for (int32_t k = 0; k < oracle->model->class_count; k++) {
        bool *has = oracle->has_lean + (int64_t)k * oracle->lean_count;

        has[0] = true;
        for (int32_t i = oracle->alone_first[k]; i < oracle->alone_first[k + 1];
             i++)
            has[oracle->right_lean[oracle->alone[i]]] = true;
    }
}

static void fill_cells(qci_oracle *oracle)
{
    int32_t lays = oracle->model->lay_count;

    for (int32_t a = 0; a < oracle->lean_count; a++)
        for (int32_t i = lays - oracle->model->alone_count; i < lays; i++)
            oracle->alone_cells[a * lays + i] =
                takes(oracle, a, i) / oracle->unit_x;
}

static qc_status list_bunches(qci_oracle *oracle, qc_error *err)
{
    int32_t classes = oracle->model->class_count;
    qc_status status = QC_STATUS_OK;

    oracle->bunches = qci_calloc((size_t)classes, sizeof *oracle->bunches);
    if (!oracle->bunches)
        return qci_no_memory(err);
    for (int32_t k = 0; k < classes && !status; k++)
        if (qci_alone_any(oracle, k))
            status =
                qci_bunches_create(oracle->model, k, &oracle->bunches[k], err);
    return status;
}

qc_status qci_alone_prepare(qci_oracle *oracle, qc_error *err)
{
    size_t lays = (size_t)oracle->model->lay_count;
    size_t classes = (size_t)oracle->model->class_count;
    size_t leans, cells = (size_t)oracle->cells_x + 1;

    oracle->alone = qci_calloc(lays, sizeof(int32_t));
    oracle->alone_first = qci_calloc(classes + 1, sizeof(int32_t));
    oracle->lean = qci_calloc(2 * lays + 1, sizeof(int64_t));
    oracle->left_lean = qci_calloc(lays, sizeof(int32_t));
    oracle->right_lean = qci_calloc(lays, sizeof(int32_t));
    if (!oracle->alone || !oracle->alone_first || !oracle->lean ||
        !oracle->left_lean || !oracle->right_lean)
        return qci_no_memory(err);
    list_alone(oracle);
    if (!oracle->model->alone_count)
        return QC_STATUS_OK;
    list_leans(oracle);
    leans = (size_t)oracle->lean_count;
    oracle->path = qci_calloc(leans * cells, sizeof(int64_t));
    oracle->alone_cells = qci_calloc(leans * lays, sizeof(int64_t));
    oracle->has_lean = qci_calloc(classes * leans, sizeof(bool));
    if (!oracle->path || !oracle->alone_cells || !oracle->has_lean)
        return qci_no_memory(err);
    fill_has_lean(oracle);
    fill_cells(oracle);
    return list_bunches(oracle, err);
}

void qci_alone_clear(qci_oracle *oracle)
{
    for (int32_t k = 0; k < oracle->model->class_count && oracle->bunches; k++)
        qci_bunches_destroy(oracle->bunches[k]);
    qci_free(oracle->bunches);
    qci_free(oracle->alone);
    qci_free(oracle->alone_first);
    qci_free(oracle->lean);
    qci_free(oracle->left_lean);
    qci_free(oracle->right_lean);
    qci_free(oracle->has_lean);
    qci_free(oracle->path);
    qci_free(oracle->alone_cells);
}

static void fill_path(qci_oracle *oracle, int32_t cls)
{
    int64_t step;

    for (int32_t i = oracle->alone_first[cls]; i < oracle->alone_first[cls + 1];
         i++) {
        int32_t lay = oracle->alone[i];

        oracle->section[lay] =
            qci_lay_left(oracle, lay) ? qci_lay_worth(oracle, lay) : QCI_NEVER;
    }
    step = least_cells(oracle, cls);
    for (int64_t x = 0; x <= oracle->cells_x; x += step) {
        int64_t to = x + step - 1;

        for (int32_t a = 0; a < oracle->lean_count; a++)
            if (has_lean(oracle, cls, a))
                fill_line(oracle, cls, a, x,
                          to < oracle->cells_x ? to : oracle->cells_x);
    }
}

void qci_alone_table(qci_oracle *oracle, int32_t cls)
{
    if (oracle->bunches[cls])
        qci_bunches_price(oracle->bunches[cls], oracle);
    else
        fill_path(oracle, cls);
}

/* Square sections take whole cells at least, and what is left of the last cell
 * of the strip besides: it is never lost to the table. */
int64_t qci_alone_worth(const qci_oracle *oracle, int32_t cls, int64_t cells)
{
    int64_t taken = (oracle->cells_x - cells) * oracle->unit_x;

    return oracle->bunches[cls]
               ? qci_bunches_worth(oracle->bunches[cls],
                                   oracle->model->width - taken)
               : path_line(oracle, 0)[cells];
}

/* What the walk can come to with this lay next. */
static int64_t bound_with(const qci_oracle *oracle, const qci_spot *p,
                          int32_t lay)
{
    int64_t width = p->width - takes(oracle, p->lean, lay);
    int32_t next = oracle->right_lean[lay];

    if (!qci_lay_left(oracle, lay) || width < qci_wedge(oracle->lean[next], 0))
        return QCI_NEVER;
    return p->promise + qci_lay_worth(oracle, lay) +
           path_line(oracle, next)[width / oracle->unit_x];
}

static void go_on(qci_oracle *oracle, qci_spot p, int32_t cls);

static void put(qci_oracle *oracle, qci_spot p, int32_t lay, int32_t cls)
{
    qci_walk_put(oracle, &p, lay | QCI_OPEN);
    p.width -= takes(oracle, p.lean, lay);
    p.lean = oracle->right_lean[lay];
    go_on(oracle, p, cls);
    qci_walk_drop(oracle);
}

/* The lay that promises most first, then the others. */
static void go_on(qci_oracle *oracle, qci_spot p, int32_t cls)
{
    int32_t from = oracle->alone_first[cls], to = oracle->alone_first[cls + 1];
    int32_t first = -1;
    int64_t most = oracle->best_value;

    if (p.worth > oracle->best_value)
        qci_walk_keep(oracle, p.worth);
    if (!qci_walk_can(oracle, p.promise,
                      path_line(oracle, p.lean)[p.width / oracle->unit_x],
                      p.width * oracle->room_per_width) ||
        qci_seen(oracle, &p, true) || !qci_walk_on(oracle))
        return;
    for (int32_t i = from; i < to; i++) {
        int64_t bound = bound_with(oracle, &p, oracle->alone[i]);

        if (bound > most) {
            most = bound;
            first = oracle->alone[i];
        }
    }
    if (first >= 0)
        put(oracle, p, first, cls);
    for (int32_t i = from; i < to && !oracle->capped; i++)
        if (oracle->alone[i] != first &&
            bound_with(oracle, &p, oracle->alone[i]) > oracle->best_value)
            put(oracle, p, oracle->alone[i], cls);
}

void qci_alone_walk(qci_oracle *oracle, qci_spot spot, int32_t cls)
{
    spot.lean = 0;
    if (!qci_alone_any(oracle, cls))
        return;
    if (oracle->bunches[cls])
        qci_bunches_end(oracle->bunches[cls], oracle, &spot);
    else
        go_on(oracle, spot, cls);
}
