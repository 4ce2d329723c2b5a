/* A price for each piece, and all pieces together are worth at most the least
 * height. A solution of that height or little more wastes little: its strips
 * are higher than what they hold is worth by no more than the difference, all
 * together. So a pattern that wastes more is in none of them, and one that
 * wastes half as much at most twice. That leaves few enough to be listed where
 * pieces are large. Any prices are right; duals of the linear program leave the
 * fewest patterns.
 *
 * Sections first: every stack of lays, of those with the same pieces the ones
 * that are narrower or lower than the others. Then, for each class, a walk over
 * its sections, those of most worth for their width first, with a table of what
 * the rest of the width can gain. All that it does is counted. */
#include "pack/every.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"

#define SECTION_LIMIT 1500
#define CELL_LIMIT 2000000 /* of a table; there is one for each class */
#define ALL_CELLS 100000000
#define NODE_LIMIT 2000000
#define SECTION_LENGTH 64
#define PATTERN_LENGTH 512

typedef struct section {
    int64_t width, height, worth;
    int32_t *held; /* per row; owned */
    int32_t length;
    int32_t *lays; /* owned */
} section;

typedef struct walk {
    qci_every *every;
    const qci_model *model;
    int64_t cap;
    size_t limit;
    QCI_VEC(section) sections;
    int32_t *use; /* sections of the class, best first */
    int32_t use_count;
    int64_t *gain; /* [place in use][width]: what those from there on can add */
    int32_t *held; /* per row: in what is being put together */
    int32_t *stack; /* lays */
    int32_t length;
    int32_t *sequence;
    int32_t sequence_length;
    int32_t cls;
    int64_t least; /* worth that counts */
    int64_t nodes;
    int32_t *slots; /* of found patterns: index + 1, by hash */
    size_t slot_count;
    bool over; /* a limit was met */
    bool failed;
} walk;

static int64_t worth_of(const walk *w)
{
    int64_t worth = 0;

    for (int32_t row = 0; row < w->model->row_count; row++)
        worth += w->held[row] * w->every->price[row];
    return worth;
}

static bool same_held(const walk *w, const int32_t *a)
{
    return !memcmp(a, w->held, (size_t)w->model->row_count * sizeof *a);
}

/* Is there a section with the same pieces, no wider and no higher? */
static bool is_idle(const walk *w, int64_t width, int64_t height)
{
    for (size_t i = 0; i < w->sections.count; i++) {
        const section *s = &w->sections.at[i];

        if (s->width <= width && s->height <= height && same_held(w, s->held))
            return true;
    }
    return false;
}

static void add_section(walk *w, int64_t width, int64_t height)
{
    section s = {width, height, worth_of(w), NULL, w->length, NULL};

    if (is_idle(w, width, height))
        return;
    if (w->sections.count == SECTION_LIMIT) {
        w->over = true;
        return;
    }
    s.held = qci_copy(w->held, (size_t)w->model->row_count, sizeof *w->held);
    s.lays = qci_copy(w->stack, (size_t)w->length, sizeof *w->stack);
    if (s.held && s.lays && qci_vec_push(&w->sections, s))
        return;
    qci_free(s.held);
    qci_free(s.lays);
    w->failed = true;
}

/* Stacks on what is there; lays come by width falling, so the first is the
 * widest. */
static void grow(walk *w, int32_t from, int64_t height)
{
    const qci_model *model = w->model;

    for (int32_t i = from; i < model->lay_count && !w->over && !w->failed;
         i++) {
        const qci_lay *lay = &model->lays[i];

        if (height + lay->height > model->height[model->class_count - 1] ||
            w->held[lay->row] >= model->demand[lay->row])
            continue;
        if (w->length == SECTION_LENGTH || ++w->nodes > NODE_LIMIT) {
            w->over = true;
            return;
        }
        w->held[lay->row]++;
        w->stack[w->length++] = i;
        add_section(w, model->lays[w->stack[0]].width, height + lay->height);
        if (model->stacks)
            grow(w, i, height + lay->height);
        w->length--;
        w->held[lay->row]--;
    }
}

static int compare_sections(const section *a, const section *b)
{
    qci_wide p = (qci_wide)a->worth * b->width;
    qci_wide q = (qci_wide)b->worth * a->width;

    if (p != q)
        return p > q ? -1 : 1;
    return 0;
}

/* Those that may stand in the class, sorted; ties by their number. */
static void choose_sections(walk *w)
{
    w->use_count = 0;
    for (size_t i = 0; i < w->sections.count; i++) {
        const section *s = &w->sections.at[i];
        int32_t at = w->use_count;

        if (s->height > w->model->height[w->cls] || s->width > w->model->width)
            continue;
        for (;
             at > 0 && compare_sections(&w->sections.at[w->use[at - 1]], s) > 0;
             at--)
            w->use[at] = w->use[at - 1];
        w->use[at] = (int32_t)i;
        w->use_count++;
    }
}

static void fill_gain(walk *w)
{
    int64_t cells = w->model->width + 1;

    memset(w->gain + w->use_count * cells, 0, (size_t)cells * sizeof *w->gain);
    for (int32_t i = w->use_count - 1; i >= 0; i--) {
        const section *s = &w->sections.at[w->use[i]];
        int64_t *line = w->gain + i * cells;

        for (int64_t x = 0; x < cells; x++) {
            line[x] = line[x + cells];
            if (x >= s->width && line[x - s->width] + s->worth > line[x])
                line[x] = line[x - s->width] + s->worth;
        }
    }
}

static int64_t most_times(const walk *w, const qci_pattern *p, int64_t worth)
{
    int64_t waste = p->height * QCI_PARTS - worth, most = w->cap / p->height;

    for (int32_t i = 0; i < p->row_count; i++) {
        int64_t last = w->model->demand[p->rows[i].row] / p->rows[i].count + 1;

        if (last < most)
            most = last;
    }
    if (waste > 0 && w->every->spare / waste < most)
        most = w->every->spare / waste;
    return most;
}

static bool holds(const walk *w, const qci_pattern *p)
{
    for (int32_t row = 0; row < w->model->row_count; row++)
        if (qci_pattern_yield(p, row) != w->held[row])
            return false;
    return true;
}

/* The slot of a pattern with these pieces, or where one would go. */
static int32_t *find_slot(const walk *w)
{
    uint64_t hash = 1469598103934665603u;
    size_t at;

    for (int32_t row = 0; row < w->model->row_count; row++)
        hash = (hash ^ (uint64_t)w->held[row]) * 1099511628211u;
    for (at = hash % w->slot_count; w->slots[at]; at = (at + 1) % w->slot_count)
        if (holds(w, w->every->list.at[w->slots[at] - 1].pattern))
            break;
    return &w->slots[at];
}

/* Classes come rising, so what is known is as low as this. */
static void note(walk *w, int64_t worth)
{
    int32_t *slot = find_slot(w);
    qci_listed listed;

    if (*slot)
        return;
    if (w->every->list.count == w->limit) {
        w->over = true;
        return;
    }
    listed.pattern =
        qci_pattern_create(w->model, w->cls, w->sequence, w->sequence_length);
    if (!listed.pattern) {
        w->failed = true;
        return;
    }
    listed.most = most_times(w, listed.pattern, worth);
    if (listed.most > 0 && qci_vec_push(&w->every->list, listed)) {
        *slot = (int32_t)w->every->list.count;
        return;
    }
    w->failed = listed.most > 0;
    qci_pattern_destroy(listed.pattern);
}

/* Puts a section down (by 1) or takes it up again (by -1). */
static bool put(walk *w, const section *s, int32_t by)
{
    bool fits = true;

    for (int32_t row = 0; row < w->model->row_count; row++) {
        w->held[row] += by * s->held[row];
        fits = fits && w->held[row] <= w->model->demand[row];
    }
    if (by < 0) {
        w->sequence_length -= s->length;
        return true;
    }
    for (int32_t i = 0; i < s->length; i++)
        w->sequence[w->sequence_length++] = s->lays[i] | (i ? 0 : QCI_OPEN);
    return fits;
}

static void step(walk *w, int32_t from, int64_t width, int64_t worth)
{
    if (worth >= w->least)
        note(w, worth);
    for (int32_t i = from; i < w->use_count && !w->over && !w->failed; i++) {
        const section *s = &w->sections.at[w->use[i]];

        if (worth + w->gain[i * (w->model->width + 1) + width] < w->least)
            return;
        if (s->width > width)
            continue;
        if (++w->nodes > NODE_LIMIT ||
            w->sequence_length + s->length > PATTERN_LENGTH) {
            w->over = true;
            return;
        }
        if (put(w, s, 1))
            step(w, i, width - s->width, worth + s->worth);
        put(w, s, -1);
    }
}

static void take_prices(qci_every *every, const qci_master *master, int64_t cap)
{
    every->spare = cap * QCI_PARTS;
    for (int32_t row = 0; row < master->model->row_count; row++) {
        double dual = qci_lp_row_dual(master->lp, row);

        every->price[row] = dual > 0.0 ? (int64_t)(dual * QCI_PARTS) : 0;
        every->spare -= every->price[row] * master->model->demand[row];
    }
}

static bool can_list(const qci_model *model)
{
    for (int32_t row = 0; row < model->row_count; row++)
        if (model->twin[row] >= 0 && model->twin[row] != row)
            return false;
    for (int32_t k = 0; k < model->class_count; k++)
        if (model->cost[k] != model->height[k])
            return false;
    return model->trim && !model->exact && !model->mixed;
}

static bool make_room(walk *w)
{
    size_t rows = (size_t)w->model->row_count;
    size_t cells = (size_t)w->model->width + 1;

    w->slot_count = 2 * w->limit + 1;
    w->held = qci_calloc(rows, sizeof *w->held);
    w->stack = qci_calloc(SECTION_LENGTH, sizeof *w->stack);
    w->sequence = qci_calloc(PATTERN_LENGTH, sizeof *w->sequence);
    w->slots = qci_calloc(w->slot_count, sizeof *w->slots);
    if (!w->held || !w->stack || !w->sequence || !w->slots)
        return false;
    grow(w, 0, 0);
    w->use = qci_calloc(w->sections.count, sizeof *w->use);
    cells *= w->sections.count + 1;
    if (cells > CELL_LIMIT || cells * (size_t)w->model->class_count > ALL_CELLS)
        w->over = true;
    else
        w->gain = qci_calloc(cells, sizeof *w->gain);
    return w->use && (w->over || w->gain) && !w->failed;
}

static void clear(walk *w)
{
    for (size_t i = 0; i < w->sections.count; i++) {
        qci_free(w->sections.at[i].held);
        qci_free(w->sections.at[i].lays);
    }
    qci_vec_clear(&w->sections);
    qci_free(w->use);
    qci_free(w->gain);
    qci_free(w->held);
    qci_free(w->stack);
    qci_free(w->sequence);
    qci_free(w->slots);
}

qc_status qci_every_create(qci_every *every, const qci_master *master,
                           int64_t cap, int64_t waste, size_t limit,
                           qc_error *err)
{
    walk w = {.every = every, .model = master->model, .cap = cap};

    *every = (qci_every){0};
    if (!can_list(w.model))
        return QC_STATUS_OK;
    w.limit = limit;
    every->price = qci_calloc((size_t)w.model->row_count, sizeof *every->price);
    if (every->price)
        take_prices(every, master, cap);
    w.failed = !every->price;
    w.over = every->spare < 0; /* some pattern wastes less than nothing */
    if (!w.failed && !w.over)
        w.failed = !make_room(&w);
    if (waste > every->spare)
        waste = every->spare;
    for (w.cls = 0; w.cls < w.model->class_count && !w.failed && !w.over;
         w.cls++) {
        choose_sections(&w);
        fill_gain(&w);
        w.least = w.model->cost[w.cls] * QCI_PARTS - waste;
        if (w.least < 1)
            w.least = 1;
        step(&w, 0, w.model->width, 0);
    }
    every->whole = !w.over && !w.failed;
    clear(&w);
    if (!every->whole)
        qci_every_clear(every);
    return w.failed ? qci_no_memory(err) : QC_STATUS_OK;
}

void qci_every_clear(qci_every *every)
{
    for (size_t i = 0; i < every->list.count; i++)
        qci_pattern_destroy(every->list.at[i].pattern);
    qci_vec_clear(&every->list);
    qci_free(every->price);
    *every = (qci_every){0};
}
