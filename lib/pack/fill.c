/* Fillings: how many of each row's squares and rectangles the square sections
 * of a strip can hold together.
 *
 * As with what lies alone (bunch.c), the arrangement decides only how much
 * width is taken. Where a walk over the sections of a class comes to no end,
 * all fillings of it are listed once: the least width of each is that of a
 * section and of what the filling lacks without what the section holds. It is
 * enough to look at sections that nothing more fits into; of a section less may
 * be cut. The best filling with the best bunch beside it is then exact. Where
 * too many fit, or stacks must fill their strip, nothing is listed. Cost:
 * fillings x sections x rows, once; fillings x rows for each pricing. */
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/vec.h"
#include "pack/oracle_inner.h"

#define BOX_LIMIT 200000
#define SECTION_LIMIT 200
/* Sections looked at: to list them; for all fillings together. */
#define STACK_LIMIT 20000
#define WORK_LIMIT 2000000
#define FAR (INT64_MAX / 4)

/* Pieces are counted in cloths here: each becomes `yield` of them. */
typedef struct fill_row {
    int32_t row; /* of the model */
    int32_t yield;
    int32_t most;
    int32_t digit; /* one more of it, in the box */
    int64_t *worth;
} fill_row;

typedef struct fill_section {
    int64_t width;
    int32_t first, length; /* of `sequence`; its lays, from the widest down */
    int32_t *holds;        /* per row */
} fill_section;

struct qci_fillings {
    const qci_model *model;
    int32_t cls;
    fill_row *rows;
    int32_t row_count;
    int32_t *row_of; /* per row of the model: its fill_row; -1: none */
    int32_t box;
    int64_t *least; /* [box]: least width; FAR: more than there is */
    QCI_VEC(fill_section) sections;
    QCI_VEC(int32_t) sequence;
    int32_t *stack;       /* scratch of a section in hand: its lays, */
    int32_t *holds;       /* and what they hold per row */
    int32_t looked;       /* sections */
    int64_t *worth;       /* the rows' lines */
    qci_by_width *places; /* `at`: in the box */
    int32_t place_count;
    int32_t *held; /* [place][row] */
};

/* Most cloths of a lay in a strip of the class. */
static int64_t most_of(const qci_fillings *f, const qci_lay *lay)
{
    const qci_model *model = f->model;
    int64_t up = model->stacks ? model->height[f->cls] / lay->height : 1;
    int64_t fit = model->width / lay->width * up;
    int64_t wanted = (model->demand[lay->row] + lay->yield - 1) / lay->yield;

    return fit < wanted ? fit : wanted;
}

/* Lists the rows; false where one comes in cloths of different yields, there
 * are too many fillings, or too many pieces in a strip to walk. Two lays of a
 * row side by side may be more than either alone: both count. */
static bool list_rows(qci_fillings *f)
{
    int64_t box = 1, pieces = 0;

    for (int32_t row = 0; row < f->model->row_count; row++)
        f->row_of[row] = -1;
    for (int32_t i = 0; i < qci_square_count(f->model); i++) {
        const qci_lay *lay = &f->model->lays[i];
        int64_t wanted =
            (f->model->demand[lay->row] + lay->yield - 1) / lay->yield;
        int64_t most;
        fill_row *row;

        if (!qci_lay_fits(f->model, lay, f->cls))
            continue;
        if (f->row_of[lay->row] < 0) {
            f->row_of[lay->row] = f->row_count;
            f->rows[f->row_count++] =
                (fill_row){.row = lay->row, .yield = lay->yield};
        }
        row = &f->rows[f->row_of[lay->row]];
        most = row->most + most_of(f, lay);
        row->most = (int32_t)(most < wanted ? most : wanted);
        if (row->yield != lay->yield)
            return false;
    }
    for (int32_t r = 0; r < f->row_count; r++) {
        f->rows[r].digit = (int32_t)box;
        box *= f->rows[r].most + 1;
        pieces += f->rows[r].most;
        if (box > BOX_LIMIT || pieces > QCI_SEQUENCE_LIMIT / 2)
            return false;
    }
    f->box = (int32_t)box;
    return true;
}

static bool may_stack(const qci_fillings *f, int32_t lay, int64_t rest)
{
    const qci_lay *l = &f->model->lays[lay];
    int32_t r = f->row_of[l->row];

    return qci_lay_fits(f->model, l, f->cls) && l->height <= rest &&
           f->holds[r] < f->rows[r].most;
}

/* Does a section no wider hold as much of every row? */
static bool is_worse(const qci_fillings *f, int64_t width)
{
    for (size_t i = 0; i < f->sections.count; i++) {
        const fill_section *s = &f->sections.at[i];
        bool all = s->width <= width;

        for (int32_t r = 0; r < f->row_count && all; r++)
            all = s->holds[r] >= f->holds[r];
        if (all)
            return true;
    }
    return false;
}

static bool add_section(qci_fillings *f, int32_t length)
{
    fill_section s = {.width = f->model->lays[f->stack[0]].width,
                      .first = (int32_t)f->sequence.count,
                      .length = length};

    if (is_worse(f, s.width))
        return true;
    s.holds = qci_copy(f->holds, (size_t)f->row_count, sizeof *f->holds);
    if (!s.holds)
        return false;
    if (!qci_vec_push(&f->sections, s)) {
        qci_free(s.holds);
        return false;
    }
    for (int32_t i = 0; i < length; i++)
        if (!qci_vec_push(&f->sequence, f->stack[i]))
            return false;
    return true;
}

/* All sections that go on from the stack in hand with lays from `from` on, and
 * that no lay from the opener on fits into any more. */
static bool stack_up(qci_fillings *f, int32_t length, int32_t from,
                     int64_t rest)
{
    bool full = true, ok = true;

    if (++f->looked > STACK_LIMIT || f->sections.count > SECTION_LIMIT)
        return true;
    for (int32_t i = f->stack[0]; i < qci_square_count(f->model) && ok; i++) {
        if (!f->model->stacks || !may_stack(f, i, rest))
            continue;
        full = false;
        if (i < from)
            continue;
        f->stack[length] = i;
        f->holds[f->row_of[f->model->lays[i].row]]++;
        ok = stack_up(f, length + 1, i, rest - f->model->lays[i].height);
        f->holds[f->row_of[f->model->lays[i].row]]--;
    }
    return ok && full ? add_section(f, length) : ok;
}

/* The narrowest openers first, so that worse sections come later. */
static bool list_sections(qci_fillings *f)
{
    int64_t top = f->model->height[f->cls];
    bool ok = true;

    for (int32_t i = qci_square_count(f->model); i-- > 0 && ok;) {
        const qci_lay *lay = &f->model->lays[i];

        if (!qci_lay_fits(f->model, lay, f->cls) || !may_stack(f, i, top))
            continue;
        f->stack[0] = i;
        f->holds[f->row_of[lay->row]]++;
        ok = stack_up(f, 1, i, top - lay->height);
        f->holds[f->row_of[lay->row]]--;
    }
    return ok;
}

static int32_t cloths(const qci_fillings *f, int32_t at, int32_t r)
{
    return at / f->rows[r].digit % (f->rows[r].most + 1);
}

/* What is lacking of `holds` once a section is cut: the place itself when the
 * section holds nothing of it. */
static int32_t without(const qci_fillings *f, const fill_section *section)
{
    int32_t rest = 0;

    for (int32_t r = 0; r < f->row_count; r++) {
        int32_t n = f->holds[r] - section->holds[r];

        rest += n > 0 ? n * f->rows[r].digit : 0;
    }
    return rest;
}

static void unfold(const qci_fillings *f, int32_t at)
{
    for (int32_t r = 0; r < f->row_count; r++)
        f->holds[r] = cloths(f, at, r);
}

static int64_t least_width(const qci_fillings *f, int32_t at)
{
    int64_t least = FAR;

    unfold(f, at);
    for (int32_t r = 0; r < f->row_count; r++)
        if (f->holds[r] && f->least[at - f->rows[r].digit] == FAR)
            return FAR;
    for (size_t i = 0; i < f->sections.count; i++) {
        int32_t rest = without(f, &f->sections.at[i]);

        if (rest < at && f->least[rest] + f->sections.at[i].width < least)
            least = f->least[rest] + f->sections.at[i].width;
    }
    return least <= f->model->width ? least : FAR;
}

static bool list_places(qci_fillings *f)
{
    size_t rows = (size_t)f->row_count, n = (size_t)f->place_count;

    f->places = qci_calloc(n, sizeof *f->places);
    f->held = qci_calloc(n * rows, sizeof *f->held);
    if (!f->places || !f->held)
        return false;
    n = 0;
    for (int32_t at = 0; at < f->box; at++)
        if (f->least[at] < FAR)
            f->places[n++] = (qci_by_width){f->least[at], at};
    qsort(f->places, n, sizeof *f->places, qci_by_width_compare);
    for (size_t i = 0; i < n; i++)
        for (size_t r = 0; r < rows; r++)
            f->held[i * rows + r] = cloths(f, f->places[i].at, (int32_t)r);
    return true;
}

/* *fits: there are not too many. */
static bool list_fillings(qci_fillings *f, bool *fits)
{
    *fits = f->looked <= STACK_LIMIT && f->sections.count <= SECTION_LIMIT;
    f->least = qci_calloc((size_t)f->box, sizeof *f->least);
    if (!f->least)
        return false;
    f->place_count = 1;
    for (int32_t at = 1; at < f->box && *fits; at++) {
        f->least[at] = least_width(f, at);
        f->place_count += f->least[at] < FAR;
        *fits = f->place_count * (int64_t)f->sections.count <= WORK_LIMIT;
    }
    return !*fits || list_places(f);
}

static bool make_lines(qci_fillings *f)
{
    size_t n = 0;
    int64_t *line;

    for (int32_t r = 0; r < f->row_count; r++)
        n += (size_t)f->rows[r].most + 1;
    line = f->worth = qci_calloc(n, sizeof *f->worth);
    for (int32_t r = 0; r < f->row_count && line; r++) {
        f->rows[r].worth = line;
        line += f->rows[r].most + 1;
    }
    return f->worth;
}

static bool make_room(qci_fillings *f)
{
    const qci_model *model = f->model;
    size_t rows = (size_t)model->row_count;
    int64_t most = 1;

    for (int32_t i = 0; i < qci_square_count(model); i++)
        if (model->height[f->cls] / model->lays[i].height > most)
            most = model->height[f->cls] / model->lays[i].height;
    f->rows = qci_calloc(rows, sizeof *f->rows);
    f->row_of = qci_calloc(rows, sizeof *f->row_of);
    f->holds = qci_calloc(rows, sizeof *f->holds);
    f->stack = qci_calloc((size_t)most, sizeof *f->stack);
    return f->rows && f->row_of && f->holds && f->stack;
}

qc_status qci_fillings_create(const qci_model *model, int32_t cls,
                              qci_fillings **out, qc_error *err)
{
    qci_fillings *f = qci_calloc(1, sizeof *f);
    bool fits = false, ok = f;

    *out = NULL;
    if (ok) {
        f->model = model;
        f->cls = cls;
        ok = make_room(f);
    }
    if (ok && !model->exact && list_rows(f))
        ok = list_sections(f) && list_fillings(f, &fits);
    if (ok && fits)
        ok = make_lines(f);
    if (ok && fits) {
        *out = f;
        return QC_STATUS_OK;
    }
    qci_fillings_destroy(f);
    return ok ? QC_STATUS_OK : qci_no_memory(err);
}

void qci_fillings_destroy(qci_fillings *f)
{
    if (!f)
        return;
    for (size_t i = 0; i < f->sections.count; i++)
        qci_free(f->sections.at[i].holds);
    qci_vec_clear(&f->sections);
    qci_vec_clear(&f->sequence);
    qci_free(f->rows);
    qci_free(f->row_of);
    qci_free(f->holds);
    qci_free(f->stack);
    qci_free(f->least);
    qci_free(f->worth);
    qci_free(f->places);
    qci_free(f->held);
    qci_free(f);
}

/* A row is worth nothing beyond its limit, and not allowed there. */
static void fill_worth(const qci_fillings *f, const qci_oracle *oracle,
                       int32_t r, bool shared)
{
    const fill_row *row = &f->rows[r];

    for (int32_t n = 0; n <= row->most; n++) {
        int64_t pieces = (int64_t)n * row->yield;

        if (pieces - row->yield >= oracle->prices->limit[row->row] && n)
            row->worth[n] = QCI_NEVER;
        else
            row->worth[n] = shared ? pieces * oracle->amortised[row->row]
                                   : qci_row_worth(oracle, row->row, pieces);
    }
}

/* What the filling and the best bunch beside it are worth at most. */
static int64_t worth_at(const qci_fillings *f, const qci_oracle *oracle,
                        int32_t place)
{
    const int32_t *held = f->held + (int64_t)place * f->row_count;
    int64_t worth = 0;

    for (int32_t r = 0; r < f->row_count; r++) {
        worth += f->rows[r].worth[held[r]];
        if (worth < QCI_NEVER / 2)
            return QCI_NEVER;
    }
    if (!qci_alone_any(oracle, f->cls))
        return worth;
    return worth + qci_bunches_worth(oracle->bunches[f->cls],
                                     f->model->width - f->places[place].width);
}

/* The section of a best arrangement of what `holds` says; *at receives the
 * place without it. */
static const fill_section *next_section(const qci_fillings *f, int32_t *at)
{
    size_t i = 0;
    int32_t rest = without(f, &f->sections.at[0]);

    while (rest == *at ||
           f->least[rest] + f->sections.at[i].width != f->least[*at])
        rest = without(f, &f->sections.at[++i]);
    *at = rest;
    return &f->sections.at[i];
}

/* Lays out what `holds` says and the section holds. */
static void put_section(const qci_fillings *f, qci_oracle *oracle,
                        const fill_section *section, qci_spot *spot)
{
    int32_t flag = QCI_OPEN;

    for (int32_t i = 0; i < section->length; i++) {
        int32_t lay = f->sequence.at[section->first + i];
        int32_t r = f->row_of[f->model->lays[lay].row];

        if (!f->holds[r])
            continue;
        f->holds[r]--;
        qci_walk_put(oracle, spot, lay | flag);
        flag = 0;
    }
}

/* Walks to a filling and on to the best bunch beside it. */
static void lay_out(const qci_fillings *f, qci_oracle *oracle, int32_t place)
{
    qci_spot spot = {.width = f->model->width - f->places[place].width};
    int32_t at = f->places[place].at;

    while (at) {
        const fill_section *section;

        unfold(f, at);
        section = next_section(f, &at);
        put_section(f, oracle, section, &spot);
    }
    if (spot.worth > oracle->best_value)
        qci_walk_keep(oracle, spot.worth);
    qci_alone_walk(oracle, spot, f->cls);
    while (oracle->walk_length)
        qci_walk_drop(oracle);
}

/* A row that lies alone too is worth less than its share, it may be, beside a
 * bunch: then all that promise more are laid out. */
void qci_fillings_price(const qci_fillings *f, qci_oracle *oracle)
{
    int64_t most = oracle->best_value;
    int32_t best = -1;
    bool shared = false;

    for (int32_t r = 0; r < f->row_count; r++) {
        bool also =
            qci_row_fits(f->model, f->rows[r].row, qci_square_count(f->model),
                         f->model->lay_count, f->cls);

        fill_worth(f, oracle, r, also);
        shared = shared || also;
    }
    for (int32_t i = 0; i < f->place_count; i++) {
        int64_t worth = worth_at(f, oracle, i);

        if (worth > most) {
            most = worth;
            best = i;
        }
    }
    if (best >= 0)
        lay_out(f, oracle, best);
    for (int32_t i = 0; i < f->place_count && best >= 0 && shared; i++)
        if (worth_at(f, oracle, i) > oracle->best_value)
            lay_out(f, oracle, i);
}
