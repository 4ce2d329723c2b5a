/* Bunches: how many of each row lie alone side by side in a strip.
 *
 * What lies alone may lie in any order; the order decides only how much width
 * is lost between. So all bunches that fit a strip of a class are listed once,
 * each with the least width of its orders, by the edge that they end with: a
 * bunch of n pieces from those of n - 1. Leaving a piece out never takes more
 * width, so that what fits is reached through what fits. What the best bunch in
 * so much width is worth, limits and bonuses included, is then exact and found
 * by looking at each, for any prices. Where too many fit, nothing is listed,
 * and a walk has to do (alone.c). Cost: bunches x leans x lays, once; bunches x
 * rows for each pricing. */
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/vec.h"
#include "pack/oracle_inner.h"

/* More edges of bunches than this are not listed for a class. */
#define EDGE_LIMIT 200000
#define KEY_LIMIT (UINT64_MAX / 2)
#define FAR (INT64_MAX / 4)

typedef struct bunch_row {
    int32_t row; /* of the model */
    int32_t most;
    uint64_t digit; /* one piece of it, in a key */
    int64_t *worth; /* of 0 to most pieces */
    bool shared;    /* lies square in the class, too */
} bunch_row;

typedef struct bunch_lay {
    int32_t lay; /* of the model */
    int32_t r;   /* its bunch_row */
    int32_t right;
} bunch_lay;

/* A bunch that is worth more than all that are narrower. */
typedef struct bunch_step {
    int64_t width, worth;
    int32_t place;
} bunch_step;

struct qci_bunches {
    const qci_model *model;
    int32_t row_count, lay_count, lean_count;
    bunch_row *rows;
    bunch_lay *lays;
    int64_t *lean;
    int64_t *takes; /* [lean][lay]: width of a lay beside such an edge */
    int64_t *worth; /* the rows' lines */
    bool shared;    /* some row is */
    QCI_VEC(uint64_t) key;
    QCI_VEC(int64_t) edge; /* [bunch][lean]: least width that ends so */
    int32_t *slots;        /* by key: bunch + 1 */
    size_t slot_mask;
    qci_by_width *places; /* `at`: the bunch */
    int32_t *held;        /* [place][row] */
    int64_t *valued;      /* [place]: at the prices in hand, gains shared out */
    bunch_step *steps;
    int32_t step_count;
};

static int32_t lean_of(qci_bunches *b, int64_t lean)
{
    int32_t a = 0;

    while (a < b->lean_count && b->lean[a] != lean)
        a++;
    if (a == b->lean_count)
        b->lean[b->lean_count++] = lean;
    return a;
}

static int32_t row_of(qci_bunches *b, const qci_lay *lay)
{
    int64_t most = b->model->width / lay->width;
    int32_t r = 0;

    if (most > b->model->demand[lay->row])
        most = b->model->demand[lay->row];
    while (r < b->row_count && b->rows[r].row != lay->row)
        r++;
    if (r == b->row_count)
        b->rows[b->row_count++].row = lay->row;
    if (most > b->rows[r].most)
        b->rows[r].most = (int32_t)most;
    return r;
}

static void list_lays(qci_bunches *b, int32_t cls)
{
    const qci_model *model = b->model;

    lean_of(b, 0);
    for (int32_t i = qci_square_count(model); i < model->lay_count; i++) {
        const qci_lay *lay = &model->lays[i];

        if (qci_lay_fits(model, lay, cls))
            b->lays[b->lay_count++] =
                (bunch_lay){i, row_of(b, lay), lean_of(b, lay->right)};
    }
    for (int32_t a = 0; a < b->lean_count; a++)
        for (int32_t i = 0; i < b->lay_count; i++) {
            const qci_lay *lay = &model->lays[b->lays[i].lay];

            b->takes[a * b->lay_count + i] =
                lay->width + qci_wedge(b->lean[a], lay->left);
        }
}

/* Gives every row its digit and its line; false where keys would be too large,
 * a strip would hold too many pieces to walk, or they come in twos. */
static bool make_digits(qci_bunches *b, int32_t cls, size_t *worths)
{
    uint64_t digit = 1;

    *worths = 0;
    for (int32_t i = 0; i < b->lay_count; i++)
        if (b->model->lays[b->lays[i].lay].yield != 1)
            return false;
    for (int32_t r = 0; r < b->row_count; r++) {
        b->rows[r].digit = digit;
        b->rows[r].shared = qci_row_fits(b->model, b->rows[r].row, 0,
                                         qci_square_count(b->model), cls);
        b->shared = b->shared || b->rows[r].shared;
        if (digit > KEY_LIMIT / (uint64_t)(b->rows[r].most + 1))
            return false;
        digit *= (uint64_t)(b->rows[r].most + 1);
        *worths += (size_t)b->rows[r].most + 1;
    }
    return *worths < QCI_SEQUENCE_LIMIT / 2;
}

static int32_t held(const qci_bunches *b, uint64_t key, int32_t r)
{
    return (int32_t)(key / b->rows[r].digit % (uint64_t)(b->rows[r].most + 1));
}

static size_t slot_of(const qci_bunches *b, uint64_t key)
{
    size_t slot = (size_t)((key * 0x9E3779B97F4A7C15) >> 32) & b->slot_mask;

    while (b->slots[slot] && b->key.at[b->slots[slot] - 1] != key)
        slot = (slot + 1) & b->slot_mask;
    return slot;
}

static bool grow_slots(qci_bunches *b)
{
    size_t room = b->slots ? 2 * (b->slot_mask + 1) : 64;
    int32_t *grown;

    if (b->slots && 2 * b->key.count < room / 2)
        return true;
    grown = qci_calloc(room, sizeof *grown);
    if (!grown)
        return false;
    qci_free(b->slots);
    b->slots = grown;
    b->slot_mask = room - 1;
    for (size_t i = 0; i < b->key.count; i++)
        b->slots[slot_of(b, b->key.at[i])] = (int32_t)i + 1;
    return true;
}

/* The bunch of a key, listed if it was not; -1 when memory is out. */
static int32_t find(qci_bunches *b, uint64_t key)
{
    size_t slot;

    if (!grow_slots(b))
        return -1;
    slot = slot_of(b, key);
    if (b->slots[slot])
        return b->slots[slot] - 1;
    for (int32_t a = 0; a < b->lean_count; a++)
        if (!qci_vec_push(&b->edge, FAR))
            return -1;
    if (!qci_vec_push(&b->key, key))
        return -1;
    b->slots[slot] = (int32_t)b->key.count;
    return (int32_t)b->key.count - 1;
}

static int64_t *edge(const qci_bunches *b, int32_t bunch, int32_t lean)
{
    return &b->edge.at[bunch * b->lean_count + lean];
}

/* Least width of the bunch with one more lay at its end. */
static int64_t width_with(const qci_bunches *b, int32_t bunch, int32_t i)
{
    int64_t least = FAR;

    for (int32_t a = 0; a < b->lean_count; a++) {
        int64_t width = *edge(b, bunch, a) + b->takes[a * b->lay_count + i];

        least = width < least ? width : least;
    }
    return least;
}

/* All that the bunch becomes by one more piece. */
static bool go_on_from(qci_bunches *b, int32_t bunch)
{
    for (int32_t i = 0; i < b->lay_count; i++) {
        const bunch_lay *lay = &b->lays[i];
        uint64_t key = b->key.at[bunch];
        int64_t width = width_with(b, bunch, i);
        int32_t next;

        if (held(b, key, lay->r) == b->rows[lay->r].most ||
            width + qci_wedge(b->lean[lay->right], 0) > b->model->width)
            continue;
        next = find(b, key + b->rows[lay->r].digit);
        if (next < 0)
            return false;
        if (width < *edge(b, next, lay->right))
            *edge(b, next, lay->right) = width;
    }
    return true;
}

static int64_t width_of(const qci_bunches *b, int32_t bunch)
{
    int64_t least = FAR;

    for (int32_t a = 0; a < b->lean_count; a++) {
        int64_t width = *edge(b, bunch, a) + qci_wedge(b->lean[a], 0);

        least = width < least ? width : least;
    }
    return least;
}

static bool sort_bunches(qci_bunches *b)
{
    size_t n = b->key.count, rows = (size_t)b->row_count;

    b->places = qci_calloc(n, sizeof *b->places);
    b->held = qci_calloc(n * rows, sizeof *b->held);
    b->valued = qci_calloc(n, sizeof *b->valued);
    b->steps = qci_calloc(n, sizeof *b->steps);
    if (!b->places || !b->held || !b->valued || !b->steps)
        return false;
    for (size_t i = 0; i < n; i++)
        b->places[i] = (qci_by_width){width_of(b, (int32_t)i), (int32_t)i};
    qsort(b->places, n, sizeof *b->places, qci_by_width_compare);
    for (size_t i = 0; i < n; i++)
        for (size_t r = 0; r < rows; r++)
            b->held[i * rows + r] =
                held(b, b->key.at[b->places[i].at], (int32_t)r);
    return true;
}

/* Lists all bunches; *fits: there are not too many. */
static bool list_bunches(qci_bunches *b, bool *fits)
{
    int32_t none = find(b, 0);

    *fits = true;
    if (none < 0)
        return false;
    *edge(b, none, 0) = 0;
    for (size_t i = 0; i < b->key.count; i++) {
        *fits = b->edge.count <= EDGE_LIMIT;
        if (!*fits)
            return true;
        if (!go_on_from(b, (int32_t)i))
            return false;
    }
    return sort_bunches(b);
}

static bool make_room(qci_bunches *b)
{
    size_t lays = (size_t)b->model->alone_count;

    b->rows = qci_calloc(lays, sizeof *b->rows);
    b->lays = qci_calloc(lays, sizeof *b->lays);
    b->lean = qci_calloc(lays + 1, sizeof *b->lean);
    b->takes = qci_calloc((lays + 1) * lays, sizeof *b->takes);
    return b->rows && b->lays && b->lean && b->takes;
}

qc_status qci_bunches_create(const qci_model *model, int32_t cls,
                             qci_bunches **out, qc_error *err)
{
    qci_bunches *b = qci_calloc(1, sizeof *b);
    bool fits = false, ok = b;
    size_t worths;

    *out = NULL;
    if (ok) {
        b->model = model;
        ok = make_room(b);
    }
    if (ok) {
        list_lays(b, cls);
        fits = make_digits(b, cls, &worths);
    }
    if (ok && fits) {
        b->worth = qci_calloc(worths, sizeof *b->worth);
        ok = b->worth && list_bunches(b, &fits);
    }
    if (ok && fits) {
        int64_t *line = b->worth;

        for (int32_t r = 0; r < b->row_count; r++) {
            b->rows[r].worth = line;
            line += b->rows[r].most + 1;
        }
        *out = b;
        return QC_STATUS_OK;
    }
    qci_bunches_destroy(b);
    return ok ? QC_STATUS_OK : qci_no_memory(err);
}

void qci_bunches_destroy(qci_bunches *b)
{
    if (!b)
        return;
    qci_free(b->rows);
    qci_free(b->lays);
    qci_free(b->lean);
    qci_free(b->takes);
    qci_free(b->worth);
    qci_vec_clear(&b->key);
    qci_vec_clear(&b->edge);
    qci_free(b->slots);
    qci_free(b->places);
    qci_free(b->held);
    qci_free(b->valued);
    qci_free(b->steps);
    qci_free(b);
}

/* What a row's pieces are worth on top of `before` of it. */
static int64_t gain(const qci_oracle *oracle, const bunch_row *row,
                    int32_t before, int32_t count)
{
    int64_t all = before + (int64_t)count;

    if (!count)
        return 0;
    if (all > oracle->prices->limit[row->row])
        return QCI_NEVER;
    return qci_row_worth(oracle, row->row, all) -
           qci_row_worth(oracle, row->row, before);
}

/* A row that lies square too shares its gains out, as the tables do. */
static void fill_worth(const qci_bunches *b, const qci_oracle *oracle)
{
    for (int32_t r = 0; r < b->row_count; r++) {
        const bunch_row *row = &b->rows[r];

        for (int32_t n = 0; n <= row->most; n++)
            row->worth[n] = row->shared && n <= oracle->prices->limit[row->row]
                                ? n * oracle->amortised[row->row]
                                : gain(oracle, row, 0, n);
    }
}

static int64_t worth_at(const qci_bunches *b, int32_t place)
{
    const int32_t *pieces = b->held + (int64_t)place * b->row_count;
    int64_t worth = 0;

    /* At most three rows more before a number could leave its range. */
    for (int32_t r = 0; r < b->row_count && worth > QCI_NEVER / 2; r++)
        worth += b->rows[r].worth[pieces[r]];
    return worth;
}

void qci_bunches_price(qci_bunches *b, const qci_oracle *oracle)
{
    int32_t n = (int32_t)b->key.count;
    int64_t most = -1;

    fill_worth(b, oracle);
    b->step_count = 0;
    for (int32_t i = 0; i < n; i++) {
        int64_t worth = b->valued[i] = worth_at(b, i);

        if (worth > most)
            b->steps[b->step_count++] =
                (bunch_step){b->places[i].width, worth, i};
        most = worth > most ? worth : most;
    }
}

/* The last step no wider; the first one is nothing. */
static const bunch_step *step_for(const qci_bunches *b, int64_t width)
{
    int32_t low = 0, high = b->step_count - 1;

    while (low < high) {
        int32_t mid = (low + high + 1) / 2;

        if (b->steps[mid].width <= width)
            low = mid;
        else
            high = mid - 1;
    }
    return &b->steps[low];
}

int64_t qci_bunches_worth(const qci_bunches *b, int64_t width)
{
    return step_for(b, width)->worth;
}

/* What the bunch is worth beside the pieces of the walk. */
static int64_t gain_at(const qci_bunches *b, const qci_oracle *oracle,
                       int32_t place)
{
    const int32_t *pieces = b->held + (int64_t)place * b->row_count;
    int64_t worth = 0;

    for (int32_t r = 0; r < b->row_count && worth > QCI_NEVER / 2; r++)
        worth +=
            gain(oracle, &b->rows[r], oracle->held[b->rows[r].row], pieces[r]);
    return worth;
}

/* The lay that the bunch's best order with this edge ends with; *before
 * receives the bunch without it, and *lean the edge before it. */
static int32_t last_lay(qci_bunches *b, int32_t bunch, int32_t *before,
                        int32_t *lean)
{
    for (int32_t i = 0; i < b->lay_count; i++) {
        const bunch_lay *lay = &b->lays[i];

        if (lay->right != *lean || !held(b, b->key.at[bunch], lay->r))
            continue;
        *before =
            b->slots[slot_of(b, b->key.at[bunch] - b->rows[lay->r].digit)] - 1;
        for (int32_t a = 0; a < b->lean_count; a++)
            if (*edge(b, *before, a) + b->takes[a * b->lay_count + i] ==
                *edge(b, bunch, *lean)) {
                *lean = a;
                return lay->lay;
            }
    }
    return -1; /* does not happen */
}

/* Notes the walk with the bunch at its end. */
static void keep(qci_bunches *b, qci_oracle *oracle, int32_t place,
                 int64_t value)
{
    int32_t bunch = b->places[place].at, lean = 0, n = 0;
    int32_t *end = oracle->walk + oracle->walk_length;

    while (*edge(b, bunch, lean) + qci_wedge(b->lean[lean], 0) !=
           b->places[place].width)
        lean++;
    for (int32_t r = 0; r < b->row_count; r++)
        n += held(b, b->key.at[bunch], r);
    oracle->capped |= oracle->walk_length + n > QCI_SEQUENCE_LIMIT;
    if (oracle->capped)
        return;
    for (int32_t i = n; i-- > 0;)
        end[i] = last_lay(b, bunch, &bunch, &lean) | QCI_OPEN;
    oracle->walk_length += n;
    qci_walk_keep(oracle, value);
    oracle->walk_length -= n;
}

void qci_bunches_end(qci_bunches *b, qci_oracle *oracle, const qci_spot *spot)
{
    const bunch_step *step = step_for(b, spot->width);

    if (spot->promise + step->worth <= oracle->best_value)
        return;
    if (!b->shared) {
        if (spot->worth + step->worth > oracle->best_value)
            keep(b, oracle, step->place, spot->worth + step->worth);
        return;
    }
    for (int32_t i = 0;
         i < (int32_t)b->key.count && b->places[i].width <= spot->width; i++) {
        int64_t value;

        if (spot->promise + b->valued[i] <= oracle->best_value)
            continue;
        value = spot->worth + gain_at(b, oracle, i);
        if (value > oracle->best_value)
            keep(b, oracle, i, value);
    }
}
