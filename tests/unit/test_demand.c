/* Demand: which rows and forms a fabric's pieces give. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "demand/demand.h"

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

/* Of triangles the squares are asked for, each in one form. */
static void test_triangles(void **state)
{
    qc_job_spec spec;
    qc_fabric_spec fabric;
    qc_piece_spec pieces[3];
    qc_job *job = NULL;
    qci_demand *demand = NULL;
    static const int64_t squares[] = {4, 2, 7};
    static const int32_t yields[] = {2, 4, 1};

    (void)state;
    qc_job_spec_init(&spec, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    fabric.id = "night";
    fabric.print = QC_PRINT_ONE_WAY;
    for (int i = 0; i < 3; i++) {
        qc_piece_spec_init(&pieces[i]);
        pieces[i].id = i == 0 ? "A" : i == 1 ? "B" : "C";
        pieces[i].fabric = "night";
        pieces[i].size[0] = 3 * QC_INCH;
        pieces[i].count = 7;
    }
    pieces[0].shape = QC_SHAPE_HALF_SQUARE_TRIANGLE;
    pieces[1].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.pieces = pieces;
    spec.piece_count = 3;
    assert_int_equal(qc_job_create(&spec, &job, NULL), QC_STATUS_OK);
    assert_int_equal(qci_demand_create(job, 0, &demand, NULL), QC_STATUS_OK);
    assert_int_equal(demand->form_count, 3);
    for (size_t i = 0; i < 3; i++) {
        assert_int_equal(demand->count[i], squares[i]);
        assert_int_equal(demand->yield[i], yields[i]);
        assert_int_equal(demand->forms[i].width, job->pieces[i].cut[0]);
        assert_int_equal(demand->forms[i].height, job->pieces[i].cut[0]);
        assert_int_equal(demand->forms[i].turn, QC_TURN_NONE);
    }
    qci_demand_destroy(demand);
    qc_job_destroy(job);
}

static void test_no_memory(void **state)
{
    static const qc_length size[] = {2 * QC_INCH, 4 * QC_INCH};
    qc_job *job = make(QC_PRINT_PLAIN, QC_GRAIN_ANY, size, false);
    long live = qci_alloc_live();
    qci_demand *demand = NULL;
    long n;

    (void)state;
    for (n = 1;; n++) {
        qc_error err;
        qc_status status;

        qc_error_init(&err);
        qci_alloc_fail_at(n, 0);
        status = qci_demand_create(job, 0, &demand, &err);
        qci_alloc_fail_at(0, 0);
        if (status == QC_STATUS_OK)
            break;
        assert_int_equal(status, QC_STATUS_NO_MEMORY);
        assert_null(demand);
        assert_int_equal(qci_alloc_live(), live);
    }
    assert_int_equal(n, 6);
    qci_demand_destroy(demand);
    qc_job_destroy(job);
    assert_int_equal(qci_alloc_live(), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_forms),
        cmocka_unit_test(test_rest),
        cmocka_unit_test(test_triangles),
        cmocka_unit_test(test_no_memory),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
