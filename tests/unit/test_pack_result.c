/* From patterns to strips: surplus left out, merged rows dealt back; and the
 * goals' bounds. QC_SEED sets the first seed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pack/bounds.h"
#include "pack/result.h"
#include "pack/sections.h"
#include "pack_every.h"

#define JOBS 400
#define PATTERNS 64

static uint64_t first_seed = 11001;

/* A job in work: its patterns are its own. */
typedef struct work {
    tiny t;
    qci_model *model;
    qci_pattern *patterns[PATTERNS];
    int pattern_count;
    qci_solution solution;
    qci_packing packing;
} work;

static void open_work(work *w)
{
    w->model = NULL;
    w->pattern_count = 0;
    memset(&w->solution, 0, sizeof w->solution);
    memset(&w->packing, 0, sizeof w->packing);
    assert_int_equal(
        qci_model_create(&w->t.demand, w->t.demand.width, &w->model, NULL), 0);
}

static void clear_solution(work *w)
{
    qci_solution_clear(&w->solution);
    for (int i = 0; i < w->pattern_count; i++)
        qci_pattern_destroy(w->patterns[i]);
    w->pattern_count = 0;
}

static void close_work(work *w)
{
    clear_solution(w);
    qci_result_clear(&w->packing);
    qci_model_destroy(w->model);
}

static void use(work *w, const int32_t *sequence, int32_t length, int64_t times)
{
    qci_pattern *p = qci_pattern_create(w->model, 0, sequence, length);

    assert_non_null(p);
    assert_true(w->pattern_count < PATTERNS);
    p->cls = qci_model_class(w->model, p->height);
    w->patterns[w->pattern_count++] = p;
    assert_true(qci_solution_add(&w->solution, p, times));
}

static void build(work *w)
{
    assert_int_equal(qci_result_build(&w->t.demand, w->model, &w->solution,
                                      &w->packing, NULL),
                     0);
}

/* A random full strip, as high as `first` at most (and where pieces may not be
 * trimmed just so high, by sections of that lay alone). */
static int32_t draw_pattern(const qci_model *m, mini_random *r, int32_t first,
                            int32_t *sequence)
{
    int64_t height = m->lays[first].height, across = 0;
    int32_t n = 0, lay = first;

    while (across + m->lays[lay].width <= m->width) {
        int64_t up = m->lays[lay].height;

        across += m->lays[lay].width;
        sequence[n++] = lay | QCI_OPEN;
        for (int32_t on = lay; m->stacks && m->trim && on < m->lay_count; on++)
            while (up + m->lays[on].height <= height && mini_between(r, 0, 2)) {
                up += m->lays[on].height;
                sequence[n++] = on;
            }
        for (int tries = 0; tries < 4; tries++) {
            int32_t next = (int32_t)mini_between(r, 0, m->lay_count - 1);

            if (m->trim && m->lays[next].height <= height)
                lay = next;
        }
    }
    return n;
}

static int64_t lacking(const work *w, int32_t row)
{
    int64_t left = w->model->demand[row];

    for (size_t i = 0; i < w->solution.uses.count; i++)
        left -= w->solution.uses.at[i].times *
                qci_pattern_yield(w->solution.uses.at[i].pattern, row);
    return left;
}

/* Covers the demand, with surplus of some size. */
static void draw_solution(work *w, mini_random *r)
{
    const qci_model *m = w->model;

    for (int32_t row = 0; row < m->row_count; row++)
        while (lacking(w, row) > 0) {
            int32_t lay, length, sequence[400];
            int64_t each, most;

            do
                lay = (int32_t)mini_between(r, 0, m->lay_count - 1);
            while (m->lays[lay].row != row);
            length = draw_pattern(m, r, lay, sequence);
            use(w, sequence, length, 1);
            each = qci_pattern_yield(w->patterns[w->pattern_count - 1], row);
            most = lacking(w, row) / each;
            if (most > 0)
                assert_true(qci_solution_add(
                    &w->solution, w->patterns[w->pattern_count - 1],
                    w->pattern_count > 40 ? most + 1
                                          : mini_between(r, 0, most)));
        }
}

/* Pieces of every merged row, and of every demand row, in one strip. */
static void count_strip(const work *w, const qci_strip *s, int64_t *merged,
                        int64_t *rows)
{
    memset(merged, 0, TINY_ROWS * sizeof *merged);
    memset(rows, 0, TINY_ROWS * sizeof *rows);
    for (size_t i = 0; i < s->section_count; i++)
        for (int32_t j = 0; j < s->sections[i].stack_count; j++) {
            const qci_stack *stack = &s->sections[i].stacks[j];
            int32_t row = w->t.forms[stack->form].row;
            int64_t n = (int64_t)s->sections[i].count * stack->count;

            rows[row] += n;
            merged[w->model->row_of[row]] += n;
        }
}

static void assert_strip_fits(const work *w, const qci_strip *s)
{
    int64_t across = 0;

    assert_true(s->repeat > 0);
    assert_true(s->section_count > 0);
    for (size_t i = 0; i < s->section_count; i++) {
        int64_t width = 0, up = 0;

        assert_true(s->sections[i].count > 0);
        assert_true(w->t.demand.stacks || s->sections[i].stack_count == 1);
        for (int32_t j = 0; j < s->sections[i].stack_count; j++) {
            const qci_stack *stack = &s->sections[i].stacks[j];
            const qci_form *form = &w->t.forms[stack->form];

            assert_true(stack->count > 0);
            assert_true(w->t.demand.stacks || stack->count == 1);
            width = form->width > width ? form->width : width;
            up += stack->count * form->height;
        }
        assert_true(w->t.demand.trim ? up <= s->height : up == s->height);
        across += s->sections[i].count * width;
    }
    assert_true(across <= w->t.demand.width);
}

static bool is_whole(const work *w, const qci_strip *s)
{
    int64_t merged[TINY_ROWS], rows[TINY_ROWS];

    count_strip(w, s, merged, rows);
    for (size_t i = 0; i < w->solution.uses.count; i++) {
        const qci_pattern *p = w->solution.uses.at[i].pattern;
        bool same = p->height * w->model->height_unit == s->height;

        for (int32_t row = 0; row < w->model->row_count; row++)
            same = same && qci_pattern_yield(p, row) == merged[row];
        if (same)
            return true;
    }
    return false;
}

/* The same sizes from the lower edge up, whichever rows they are for. */
static bool same_cuts(const work *w, const qci_section *a, const qci_section *b)
{
    int32_t i = 0, j = 0, in_a = 0, in_b = 0;

    while (i < a->stack_count && j < b->stack_count) {
        const qci_form *f = &w->t.forms[a->stacks[i].form];
        const qci_form *g = &w->t.forms[b->stacks[j].form];

        if (f->width != g->width || f->height != g->height)
            return false;
        if (++in_a == a->stacks[i].count) {
            in_a = 0;
            i++;
        }
        if (++in_b == b->stacks[j].count) {
            in_b = 0;
            j++;
        }
    }
    return i == a->stack_count && j == b->stack_count;
}

static int32_t count_same(const work *w, const qci_strip *strip,
                          const qci_section *section)
{
    int32_t n = 0;

    for (size_t i = 0; i < strip->section_count; i++)
        if (same_cuts(w, &strip->sections[i], section))
            n += strip->sections[i].count;
    return n;
}

static int32_t count_sections(const qci_strip *strip)
{
    int32_t n = 0;

    for (size_t i = 0; i < strip->section_count; i++)
        n += strip->sections[i].count;
    return n;
}

static qc_length width_of(const work *w, const qci_section *s)
{
    return qci_section_width(&w->t.demand, s);
}

/* No more sections of any width than the whole has, nor pieces of any row. */
static void assert_part(const work *w, const qci_strip *part,
                        const qci_strip *whole)
{
    int64_t mine[TINY_ROWS], others[TINY_ROWS], rows[TINY_ROWS];

    assert_int_equal(part->height, whole->height);
    count_strip(w, part, mine, rows);
    count_strip(w, whole, others, rows);
    for (int32_t row = 0; row < w->model->row_count; row++)
        assert_true(mine[row] <= others[row]);
    for (size_t i = 0; i < part->section_count; i++) {
        qc_length width = width_of(w, &part->sections[i]);
        int32_t more = 0;

        for (size_t j = 0; j < part->section_count; j++)
            if (width_of(w, &part->sections[j]) == width)
                more += part->sections[j].count;
        for (size_t j = 0; j < whole->section_count; j++)
            if (width_of(w, &whole->sections[j]) == width)
                more -= whole->sections[j].count;
        assert_true(more <= 0);
    }
}

static void assert_alike(const work *w, const qci_strip *a, const qci_strip *b)
{
    assert_int_equal(a->height, b->height);
    assert_int_equal(count_sections(a), count_sections(b));
    for (size_t i = 0; i < a->section_count; i++)
        assert_int_equal(count_same(w, a, &a->sections[i]),
                         count_same(w, b, &a->sections[i]));
}

static void check_set_up(const work *w, size_t i)
{
    const qci_strip *s = &w->packing.strips[i], *before = s - 1;

    if (qci_strip_is_setup(s))
        return;
    assert_true(i && s->alike != s->cut_short && !before->cut_short);
    if (s->alike) {
        assert_alike(w, s, before);
        return;
    }
    assert_part(w, s, before);
    assert_int_equal(s->repeat, 1);
}

static void check_packing(const work *w)
{
    const qci_packing *p = &w->packing;
    int64_t total[TINY_ROWS] = {0}, times = 0, strips = 0, odd = 0;
    int64_t merged[TINY_ROWS], rows[TINY_ROWS];
    qc_length used = 0;
    bool one_each = true;

    for (size_t i = 0; i < p->strip_count; i++) {
        const qci_strip *s = &p->strips[i];

        assert_strip_fits(w, s);
        assert_true(!i || s->height <= p->strips[i - 1].height);
        check_set_up(w, i);
        count_strip(w, s, merged, rows);
        for (size_t row = 0; row < w->t.demand.row_count; row++)
            total[row] += s->repeat * rows[row];
        odd += is_whole(w, s) ? 0 : s->repeat;
        strips += s->repeat;
        used += s->repeat * s->height;
    }
    for (size_t row = 0; row < w->t.demand.row_count; row++)
        assert_int_equal(total[row], w->t.count[row]);
    assert_int_equal(p->used, used + w->t.demand.square_up);
    assert_int_equal(p->bought,
                     qci_purchase_bought(w->t.demand.purchase, p->used));
    /* Where one strip of every pattern can hold all that is too much, no
     * pattern has more than one that is not whole. */
    for (int32_t row = 0; row < w->model->row_count; row++) {
        int64_t room = 0;

        for (size_t i = 0; i < w->solution.uses.count; i++)
            room += qci_pattern_yield(w->solution.uses.at[i].pattern, row);
        one_each = one_each && -lacking(w, row) <= room;
    }
    for (size_t i = 0; i < w->solution.uses.count; i++)
        times += w->solution.uses.at[i].times;
    assert_true(strips <= times);
    if (one_each)
        assert_true(odd + times - strips <= (int64_t)w->solution.uses.count);
}

static void draw_work(work *w, mini_random *r)
{
    tiny_random(&w->t, r, 4, 9, 20);
    if (!w->t.demand.trim)
        w->t.demand.stacks = false; /* a surplus can only be left out then */
    w->t.demand.square_up = mini_between(r, 0, 3);
    w->t.demand.purchase.step = mini_between(r, 1, 40);
    w->t.demand.layers = (int32_t)mini_between(r, 1, 6);
    w->t.demand.keep = mini_between(r, 0, 4);
    open_work(w);
}

static void test_random(void **state)
{
    static work w;
    int cut_short = 0, alike = 0;

    (void)state;
    for (uint64_t i = 0; i < JOBS; i++) {
        mini_random r = {first_seed + i};

        draw_work(&w, &r);
        draw_solution(&w, &r);
        build(&w);
        check_packing(&w);
        for (size_t s = 0; s < w.packing.strip_count; s++) {
            cut_short += w.packing.strips[s].cut_short;
            alike += w.packing.strips[s].alike;
        }
        close_work(&w);
    }
    print_message("%d strips cut short, %d alike\n", cut_short, alike);
    assert_true(cut_short > JOBS / 10);
    assert_true(alike > 0);
}

/* Ten places a strip, 27 pieces: two whole strips, and the third cut short. */
static void test_cut_short(void **state)
{
    int32_t sequence[10] = {0};
    const qci_packing *p;
    static work w;

    (void)state;
    tiny_init(&w.t, 40, false, true);
    tiny_add(&w.t, 4, 5, 27, false);
    open_work(&w);
    for (int i = 0; i < 10; i++)
        sequence[i] = QCI_OPEN;
    use(&w, sequence, 10, 3);
    build(&w);
    check_packing(&w);
    p = &w.packing;
    assert_int_equal(p->strip_count, 2);
    assert_int_equal(p->strips[0].repeat, 2);
    assert_int_equal(p->strips[0].sections[0].count, 10);
    assert_false(p->strips[0].cut_short);
    assert_true(p->strips[1].cut_short);
    assert_int_equal(p->strips[1].sections[0].count, 7);
    assert_int_equal(qci_result_value(&w.t.demand, p, QC_GOAL_SETUPS), 1);
    close_work(&w);
}

/* Two types of one size, 5 and 4, three to a strip: a strip keeps to one type,
 * and only the middle one holds both. All are cut alike: one set-up. */
static void test_dealt(void **state)
{
    static const int32_t sequence[] = {QCI_OPEN, QCI_OPEN, QCI_OPEN};
    int64_t merged[TINY_ROWS], rows[TINY_ROWS];
    static work w;

    (void)state;
    tiny_init(&w.t, 12, false, true);
    tiny_add(&w.t, 4, 5, 5, false);
    tiny_add(&w.t, 4, 5, 4, false);
    open_work(&w);
    use(&w, sequence, 3, 3);
    build(&w);
    check_packing(&w);
    assert_int_equal(w.packing.strip_count, 3);
    for (int i = 0; i < 3; i++) {
        count_strip(&w, &w.packing.strips[i], merged, rows);
        assert_int_equal(rows[0], 3 - i - (i == 2));
        assert_int_equal(rows[1], i + (i == 2));
        assert_int_equal(w.packing.strips[i].alike, i > 0);
    }
    assert_int_equal(qci_result_value(&w.t.demand, &w.packing, QC_GOAL_SETUPS),
                     1);
    close_work(&w);
}

typedef struct packing_value {
    qc_length bought;
    int64_t value[QC_GOAL_COUNT], bound[QC_GOAL_COUNT];
} packing_value;

/* Many packings of one job: what is bounded for one holds for all that buy the
 * same; what is bounded for lengths holds for all. */
static void test_bounds(void **state)
{
    enum { EACH = 12 };
    static work w;
    packing_value all[EACH];

    (void)state;
    for (uint64_t i = 0; i < JOBS / 4; i++) {
        mini_random r = {first_seed + i};
        int64_t least;

        do {
            tiny_random(&w.t, &r, 3, 7, 4);
            if (!w.t.demand.trim)
                w.t.demand.stacks = false;
            w.t.demand.square_up = mini_between(&r, 0, 3);
            w.t.demand.purchase.step = mini_between(&r, 1, 40);
            w.t.demand.layers = (int32_t)mini_between(&r, 1, 6);
            w.t.demand.keep = mini_between(&r, 0, 4);
        } while (w.t.demand.row_count > 3);
        open_work(&w);
        least = every_least(w.model, every_free());
        for (int n = 0; n < EACH; n++) {
            draw_solution(&w, &r);
            assert_true(w.solution.height >= least);
            build(&w);
            all[n].bought = w.packing.bought;
            for (qc_goal g = QC_GOAL_BOUGHT; g < QC_GOAL_COUNT; g++) {
                all[n].value[g] = qci_result_value(&w.t.demand, &w.packing, g);
                all[n].bound[g] =
                    qci_bound_goal(&w.t.demand, w.model, &w.packing, least, g);
            }
            clear_solution(&w);
        }
        for (int n = 0; n < EACH * EACH; n++) {
            const packing_value *a = &all[n / EACH], *b = &all[n % EACH];

            assert_true(a->bound[QC_GOAL_BOUGHT] <= b->value[QC_GOAL_BOUGHT]);
            assert_true(a->bound[QC_GOAL_MONEY] <= b->value[QC_GOAL_MONEY]);
            assert_true(a->bound[QC_GOAL_USED] <= b->value[QC_GOAL_USED]);
            if (a->bought != b->bought)
                continue;
            assert_true(a->bound[QC_GOAL_SETUPS] <= b->value[QC_GOAL_SETUPS]);
            assert_true(a->bound[QC_GOAL_CUTS] <= b->value[QC_GOAL_CUTS]);
            assert_true(a->bound[QC_GOAL_LEFTOVER] >=
                        b->value[QC_GOAL_LEFTOVER]);
        }
        close_work(&w);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random),
        cmocka_unit_test(test_cut_short),
        cmocka_unit_test(test_dealt),
        cmocka_unit_test(test_bounds),
    };

    first_seed = every_seed(first_seed);
    return cmocka_run_group_tests(tests, NULL, NULL);
}
