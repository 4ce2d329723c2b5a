/* Demand: which rows and forms a fabric's pieces give. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "demand/demand.h"
#include "shape/shape.h"

static qc_job *make(qc_print print, qc_grain grain, const qc_length size[2],
                    bool square)
{
    qc_job_spec spec;
    qc_fabric_spec fabrics[2];
    qc_piece_spec pieces[3];
    qc_job *job = NULL;

    qc_job_spec_init(&spec, QC_UNITS_IN);
    for (int i = 0; i < 2; i++) {
        qc_fabric_spec_init(&fabrics[i]);
        fabrics[i].id = i ? "sand" : "night";
        fabrics[i].print = print;
    }
    for (int i = 0; i < 3; i++) {
        qc_piece_spec_init(&pieces[i]);
        pieces[i].id = i == 0 ? "A" : i == 1 ? "B" : "C";
        pieces[i].fabric = i == 1 ? "sand" : "night";
        pieces[i].shape = square ? QC_SHAPE_SQUARE : QC_SHAPE_RECTANGLE;
        pieces[i].is_cut = true;
        pieces[i].size[0] = size[0];
        pieces[i].size[1] = size[1];
        pieces[i].grain = grain;
        pieces[i].count = 5 + i;
    }
    spec.fabrics = fabrics;
    spec.fabric_count = 2;
    spec.pieces = pieces;
    spec.piece_count = 3;
    assert_int_equal(qc_job_create(&spec, &job, NULL), QC_STATUS_OK);
    return job;
}

/* The forms of every row: `first` turned so, and `second` unless QC_TURN_HALF,
 * which stands for none. */
static void assert_forms(qc_job *job, qc_turn first, qc_turn second)
{
    size_t each = second == QC_TURN_HALF ? 1 : 2;
    qci_demand *demand = NULL;

    assert_int_equal(qci_demand_create(job, 0, &demand, NULL), QC_STATUS_OK);
    assert_int_equal(demand->row_count, 2);
    assert_int_equal(demand->form_count, 2 * each);
    for (size_t i = 0; i < demand->form_count; i++) {
        const qci_form *form = &demand->forms[i];
        const qci_piece *piece = &job->pieces[demand->piece[form->row]];
        qc_turn turn = i % each ? second : first;

        assert_int_equal(form->row, i / each);
        assert_int_equal(form->turn, turn);
        assert_int_equal(form->width, piece->cut[turn == QC_TURN_QUARTER]);
        assert_int_equal(form->height, piece->cut[turn != QC_TURN_QUARTER]);
    }
    qci_demand_destroy(demand);
    qc_job_destroy(job);
}

static void test_forms(void **state)
{
    static const qc_length small[] = {2 * QC_INCH, 4 * QC_INCH};
    static const qc_length equal[] = {3 * QC_INCH, 3 * QC_INCH};
    static const qc_length wide[] = {60 * QC_INCH, 4 * QC_INCH};
    static const qc_length tall[] = {4 * QC_INCH, 60 * QC_INCH};
    static const struct {
        qc_print print;
        qc_grain grain;
        const qc_length *size;
        bool square;
        qc_turn first, second; /* QC_TURN_HALF: none */
    } rows[] = {
        {QC_PRINT_PLAIN, QC_GRAIN_ANY, small, 0, QC_TURN_NONE, QC_TURN_QUARTER},
        {QC_PRINT_REVERSIBLE, QC_GRAIN_ANY, small, 0, QC_TURN_NONE,
         QC_TURN_QUARTER},
        {QC_PRINT_ONE_WAY, QC_GRAIN_ANY, small, 0, QC_TURN_NONE, QC_TURN_HALF},
        {QC_PRINT_TWO_WAY, QC_GRAIN_ANY, small, 0, QC_TURN_NONE, QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_LENGTHWISE, small, 0, QC_TURN_QUARTER,
         QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_CROSSWISE, small, 0, QC_TURN_NONE,
         QC_TURN_HALF},
        {QC_PRINT_ONE_WAY, QC_GRAIN_CROSSWISE, small, 0, QC_TURN_NONE,
         QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_ANY, equal, 1, QC_TURN_NONE, QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_ANY, equal, 0, QC_TURN_NONE, QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_LENGTHWISE, equal, 1, QC_TURN_NONE,
         QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_ANY, wide, 0, QC_TURN_QUARTER, QC_TURN_HALF},
        {QC_PRINT_PLAIN, QC_GRAIN_ANY, tall, 0, QC_TURN_NONE, QC_TURN_HALF},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_forms(
            make(rows[i].print, rows[i].grain, rows[i].size, rows[i].square),
            rows[i].first, rows[i].second);
}

static void test_rest(void **state)
{
    static const qc_length size[] = {2 * QC_INCH, 4 * QC_INCH};
    qc_job *job = make(QC_PRINT_PLAIN, QC_GRAIN_ANY, size, false);
    qci_demand *demand = NULL;

    (void)state;
    assert_int_equal(qci_demand_create(job, 0, &demand, NULL), QC_STATUS_OK);
    assert_int_equal(demand->width, 40 * QC_INCH);
    assert_int_equal(demand->count[0], 5);
    assert_int_equal(demand->count[1], 7);
    assert_int_equal(demand->piece[0], 0);
    assert_int_equal(demand->piece[1], 2);
    assert_true(demand->stacks);
    assert_true(demand->trim);
    assert_int_equal(demand->square_up, QC_INCH / 2);
    assert_int_equal(demand->purchase.step, QC_YARD / 8);
    assert_int_equal(demand->purchase.shrink_length, 0);
    assert_int_equal(demand->keep, QC_INCH * 3 / 2);
    assert_int_equal(demand->ruler, QC_INCH / 8);
    assert_int_equal(demand->layers, 4);
    assert_int_equal(demand->goal_count, 4);
    assert_int_equal(demand->goals[0], QC_GOAL_BOUGHT);
    qci_demand_destroy(demand);
    /* A fabric that nothing is cut from. */
    job->pieces[1].fabric = 0;
    assert_int_equal(qci_demand_create(job, 1, &demand, NULL), QC_STATUS_OK);
    assert_int_equal(demand->row_count, 0);
    assert_int_equal(demand->form_count, 0);
    qci_demand_destroy(demand);
    /* Options reach the packing. */
    job->stages = 2;
    job->no_trim = true;
    assert_int_equal(qci_demand_create(job, 0, &demand, NULL), QC_STATUS_OK);
    assert_false(demand->stacks);
    assert_false(demand->trim);
    qci_demand_destroy(demand);
    qci_demand_destroy(NULL);
    qc_job_destroy(job);
}

/* A checked job of one fabric, filled in by hand. */
typedef struct hand_job {
    qc_job job;
    qci_fabric fabric;
    qci_piece pieces[3];
    qci_cut_shape cut[3];
    qci_demand *demand;
} hand_job;

static void start(hand_job *h, qc_print print)
{
    memset(h, 0, sizeof *h);
    h->fabric.width = 42 * QC_INCH;
    h->fabric.print = print;
    h->job.fabrics = &h->fabric;
    h->job.fabric_count = 1;
    h->job.pieces = h->pieces;
    h->job.stages = 3;
    h->job.ruler = QC_INCH / 8;
}

static qci_piece *add(hand_job *h, qci_patch patch, int64_t count)
{
    size_t i = h->job.piece_count++, at;
    qci_piece *piece = &h->pieces[i];

    patch.ruler = QC_INCH / 8;
    patch.seam = QC_INCH / 4;
    assert_int_equal(qci_shape_make(&patch, &h->cut[i], &at), QCI_PATCH_FINE);
    *piece = (qci_piece){.shape = patch.shape,
                         .twin = (uint32_t)i,
                         .cut = {h->cut[i].cut[0], h->cut[i].cut[1]},
                         .outline = h->cut[i].outline,
                         .outline_count = h->cut[i].outline_count,
                         .base_count = h->cut[i].base_count,
                         .count = count,
                         .strip_set = QC_NONE};
    return piece;
}

static void finish(hand_job *h)
{
    assert_int_equal(qci_demand_create(&h->job, 0, &h->demand, NULL),
                     QC_STATUS_OK);
    for (size_t i = 1; i < h->demand->form_count; i++)
        assert_true(h->demand->forms[i - 1].row <= h->demand->forms[i].row);
}

static void end(hand_job *h)
{
    qci_demand_destroy(h->demand);
}

/* The turns and mirror images in the order of the forms: S square, then 0 1 2 3
 * quarter turns, m before those that are mirrored. */
static void assert_turns(const qci_demand *demand, const char *expected)
{
    char found[64] = "";
    size_t n = 0;

    for (size_t i = 0; i < demand->form_count; i++) {
        const qci_form *form = &demand->forms[i];

        if (form->mirrored)
            found[n++] = 'm';
        found[n++] = form->yields > 1 ? 'S' : (char)('0' + (int)form->turn);
    }
    assert_string_equal(found, expected);
}

/* A square turns its triangles every way; singly they turn as the print lets
 * them. As one square's corner lies at each end of a strip, a quarter turn
 * makes another form of a half-square triangle only. */
static void test_triangles(void **state)
{
    static const struct {
        qc_print print;
        qc_facing facing;
        const char *half, *quarter;
        int64_t counts[2]; /* of 7 */
    } rows[] = {
        {QC_PRINT_PLAIN, QC_FACING_ANY, "S0123", "S02", {7, 7}},
        {QC_PRINT_PLAIN, QC_FACING_KEPT, "S0123", "S02", {7, 7}},
        {QC_PRINT_REVERSIBLE, QC_FACING_KEPT, "S0123", "S02", {7, 7}},
        {QC_PRINT_ONE_WAY, QC_FACING_ANY, "S0123", "S02", {7, 7}},
        {QC_PRINT_TWO_WAY, QC_FACING_ANY, "S0123", "S02", {7, 7}},
        {QC_PRINT_ONE_WAY, QC_FACING_KEPT, "0", "0", {7, 7}},
        {QC_PRINT_TWO_WAY, QC_FACING_KEPT, "02", "02", {7, 7}},
    };
    static hand_job h;

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        for (int quarter = 0; quarter < 2; quarter++) {
            qci_patch patch = {.shape = QC_SHAPE_HALF_SQUARE_TRIANGLE,
                               .size = {3 * QC_INCH}};

            if (quarter)
                patch.shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
            start(&h, rows[i].print);
            add(&h, patch, 7)->facing = rows[i].facing;
            finish(&h);
            assert_turns(h.demand, quarter ? rows[i].quarter : rows[i].half);
            assert_int_equal(h.demand->count[0], rows[i].counts[quarter]);
            assert_int_equal(h.demand->twin[0], 0);
            end(&h);
        }
    }
}

/* The square is first, and the triangle as wide at half its height as half its
 * base. */
static void test_triangle_sizes(void **state)
{
    static hand_job h;
    const qci_form *form;

    (void)state;
    start(&h, QC_PRINT_PLAIN);
    add(&h,
        (qci_patch){.shape = QC_SHAPE_HALF_SQUARE_TRIANGLE,
                    .size = {3 * QC_INCH}},
        7);
    finish(&h);
    form = h.demand->forms;
    assert_int_equal(form[0].yields, 2);
    assert_int_equal(form[0].width, QC_INCH * 31 / 8);
    assert_int_equal(form[0].height, QC_INCH * 31 / 8);
    assert_true(!form[0].left && !form[0].right && !form[0].corners);
    for (int i = 1; i < 5; i++) {
        assert_int_equal(form[i].yields, 1);
        assert_int_equal(form[i].width, QC_INCH * 31 / 16);
        assert_int_equal(form[i].height, QC_INCH * 31 / 8);
        assert_int_equal(llabs(form[i].right - form[i].left), QC_INCH * 31 / 8);
        assert_int_equal(form[i].corners, 0);
    }
    end(&h);
    /* No strip of its height on the ruler: squares only, and four at a time. */
    start(&h, QC_PRINT_PLAIN);
    add(&h,
        (qci_patch){.shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE,
                    .size = {QC_INCH * 25 / 8}},
        7);
    finish(&h);
    assert_turns(h.demand, "S");
    assert_int_equal(h.demand->count[0], 8);
    end(&h);
}

static const qci_patch star = {
    .shape = QC_SHAPE_DIAMOND, .angle = 45 * QC_DEGREE, .size = {QC_INCH * 3}};
static const qci_patch kite = {.shape = QC_SHAPE_PARALLELOGRAM,
                               .angle = 50 * QC_DEGREE,
                               .size = {QC_INCH * 3, QC_INCH * 2}};
static const qci_patch sail = {.shape = QC_SHAPE_EQUILATERAL_TRIANGLE,
                               .size = {QC_INCH * 3}};

/* A diamond is its own mirror image where the print has no direction; a
 * parallelogram only where the cloth has no wrong side. Turned by half both
 * look the same, a triangle does not; mirrored it does. */
static void test_turns(void **state)
{
    static const struct {
        qc_print print;
        const qci_patch *patch;
        qc_hand hand;
        const char *turns;
    } rows[] = {
        {QC_PRINT_PLAIN, &star, QC_HAND_NONE, "0m0"},
        {QC_PRINT_REVERSIBLE, &star, QC_HAND_NONE, "0m0"},
        {QC_PRINT_ONE_WAY, &star, QC_HAND_NONE, "0"},
        {QC_PRINT_TWO_WAY, &star, QC_HAND_NONE, "0"},
        {QC_PRINT_PLAIN, &kite, QC_HAND_RIGHT, "0"},
        {QC_PRINT_REVERSIBLE, &kite, QC_HAND_NONE, "0m0"},
        {QC_PRINT_PLAIN, &sail, QC_HAND_NONE, "02"},
        {QC_PRINT_ONE_WAY, &sail, QC_HAND_NONE, "0"},
        {QC_PRINT_TWO_WAY, &sail, QC_HAND_NONE, "02"},
    };
    static hand_job h;

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        start(&h, rows[i].print);
        add(&h, *rows[i].patch, 7)->hand = rows[i].hand;
        finish(&h);
        assert_turns(h.demand, rows[i].turns);
        assert_int_equal(h.demand->count[0], 7);
        end(&h);
    }
}

/* On any of its sides a parallelogram is as high as its cuts are apart, or lies
 * as given; a hexagon always lies alike. */
static void test_bases(void **state)
{
    static hand_job h;
    qci_patch patch = kite;
    size_t forms;

    (void)state;
    patch.any_base = true;
    start(&h, QC_PRINT_PLAIN);
    add(&h, patch, 7)->hand = QC_HAND_RIGHT;
    finish(&h);
    assert_turns(h.demand, "00");
    assert_int_equal(h.demand->forms[0].base, 0);
    assert_int_equal(h.demand->forms[1].base, 1);
    assert_int_equal(h.demand->forms[0].height, h.pieces[0].cut[1]);
    assert_int_equal(h.demand->forms[1].height, h.pieces[0].cut[0]);
    assert_true(h.demand->forms[0].left > 0);
    assert_true(h.demand->forms[1].left < 0);
    end(&h);
    patch = (qci_patch){.shape = QC_SHAPE_HEXAGON, .size = {QC_INCH * 2}};
    start(&h, QC_PRINT_PLAIN);
    add(&h, patch, 7);
    finish(&h);
    forms = h.demand->form_count;
    assert_int_equal(h.demand->forms[0].corners, 2);
    end(&h);
    patch.any_base = true;
    start(&h, QC_PRINT_PLAIN);
    add(&h, patch, 7);
    finish(&h);
    assert_int_equal(h.demand->form_count, forms);
    end(&h);
}

static void test_twins(void **state)
{
    static hand_job h;

    (void)state;
    start(&h, QC_PRINT_PLAIN);
    add(&h, sail, 3);
    add(&h, kite, 5)->hand = QC_HAND_LEFT;
    add(&h, kite, 6)->hand = QC_HAND_RIGHT;
    h.pieces[1].twin = 2;
    h.pieces[2].twin = 1;
    finish(&h);
    assert_int_equal(h.demand->twin[0], 0);
    assert_int_equal(h.demand->twin[1], 2);
    assert_int_equal(h.demand->twin[2], 1);
    end(&h);
    h.pieces[1].twin = QC_NONE;
    finish(&h);
    assert_int_equal(h.demand->twin[1], -1);
    end(&h);
}

/* A slanted end needs half its lean of the strip. */
static void test_too_wide(void **state)
{
    static hand_job h;
    qc_length room;
    size_t all;

    (void)state;
    start(&h, QC_PRINT_PLAIN);
    add(&h, kite, 3)->hand = QC_HAND_RIGHT;
    finish(&h);
    all = h.demand->form_count;
    room = h.demand->forms[0].width + h.demand->forms[0].left;
    end(&h);
    h.fabric.width = room;
    finish(&h);
    assert_int_equal(h.demand->form_count, all);
    end(&h);
    h.fabric.width = room - 1;
    finish(&h);
    assert_int_equal(h.demand->form_count, 0);
    end(&h);
}

/* The forms grow as they are found: every allocation may fail. */
static void test_no_memory(void **state)
{
    static hand_job h;
    long live = qci_alloc_live();
    long n;

    (void)state;
    start(&h, QC_PRINT_PLAIN);
    add(&h, (qci_patch){.shape = QC_SHAPE_HEXAGON, .size = {QC_INCH}}, 3);
    add(&h, star, 3);
    for (n = 1;; n++) {
        qc_error err;
        qc_status status;

        qc_error_init(&err);
        qci_alloc_fail_at(n, 0);
        status = qci_demand_create(&h.job, 0, &h.demand, &err);
        qci_alloc_fail_at(0, 0);
        if (status == QC_STATUS_OK)
            break;
        assert_int_equal(status, QC_STATUS_NO_MEMORY);
        assert_null(h.demand);
        assert_int_equal(qci_alloc_live(), live);
    }
    assert_int_equal(n, 7);
    end(&h);
    assert_int_equal(qci_alloc_live(), live);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_forms),     cmocka_unit_test(test_rest),
        cmocka_unit_test(test_triangles), cmocka_unit_test(test_triangle_sizes),
        cmocka_unit_test(test_turns),     cmocka_unit_test(test_bases),
        cmocka_unit_test(test_twins),     cmocka_unit_test(test_too_wide),
        cmocka_unit_test(test_no_memory),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
