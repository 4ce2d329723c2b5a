/* From a packing made by hand to a plan whose every number is worked out here
 * on paper: strips, leftovers, areas, cost. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"
#include "job/job.h"
#include "solve/assemble.h"

#define IN(n) ((qc_length)((n)*203200.0))

/* One fabric, 42 in wide: twenty squares of finished 4 in, cut 4 1/2 in, as two
 * full strips of nine and one of two, 1/2 in of squaring-up: 14 in are used and
 * four steps of 4 1/2 in bought. */
typedef struct scene {
    qci_fabric fabric;
    qci_piece pieces[2];
    char *defaults[1];
    qc_job job;
    int64_t count[2];
    int32_t twin[2];
    uint32_t piece[2];
    qci_form forms[3];
    qc_goal goals[1];
    qci_demand demand;
    qci_stack stacks[4];
    qci_section sections[2];
    qci_strip strips[2];
    qci_packing packing;
    qci_found found;
    qc_error err;
    qc_plan *plan;
} scene;

static void set_job(scene *s)
{
    s->fabric = (qci_fabric){.id = (char *)"moss",
                             .name = (char *)"Moss green",
                             .width = IN(42),
                             .print = QC_PRINT_PLAIN,
                             .step = IN(4.5),
                             .square_up = IN(0.5),
                             .price = 135000};
    s->pieces[0] = (qci_piece){.id = (char *)"A",
                               .job_id = (char *)"A",
                               .strip_set = QC_NONE,
                               .finished_area = IN(4) * IN(4),
                               .finished = {IN(4), IN(4)},
                               .cut = {IN(4.5), IN(4.5)},
                               .count = 20,
                               .spares = 2};
    s->defaults[0] = (char *)"ruler 1/8 in";
    s->job = (qc_job){.title = (char *)"Scene",
                      .units = QC_UNITS_IN,
                      .ruler = IN(0.125),
                      .seam = IN(0.25),
                      .fabrics = &s->fabric,
                      .fabric_count = 1,
                      .pieces = s->pieces,
                      .piece_count = 1,
                      .keep = IN(1.5),
                      .layers = 4,
                      .defaults = s->defaults,
                      .default_count = 1};
}

static void set_packing(scene *s)
{
    s->count[0] = 20;
    s->twin[1] = 1;
    s->forms[0] = (qci_form){.width = IN(4.5), .height = IN(4.5), .yields = 1};
    s->goals[0] = QC_GOAL_BOUGHT;
    s->demand = (qci_demand){.width = IN(42),
                             .count = s->count,
                             .twin = s->twin,
                             .piece = s->piece,
                             .row_count = 1,
                             .forms = s->forms,
                             .form_count = 1,
                             .goals = s->goals,
                             .goal_count = 1};
    s->stacks[0] = s->stacks[1] = (qci_stack){0, 1};
    s->sections[0] = (qci_section){9, false, 1, &s->stacks[0]};
    s->sections[1] = (qci_section){2, false, 1, &s->stacks[1]};
    s->strips[0] =
        (qci_strip){IN(4.5), 2, false, false, false, 1, &s->sections[0]};
    s->strips[1] =
        (qci_strip){IN(4.5), 1, false, true, false, 1, &s->sections[1]};
    s->packing = (qci_packing){
        .strips = s->strips,
        .strip_count = 2,
        .levels = {{QC_GOAL_BOUGHT, QC_OUTCOME_OPTIMAL, IN(18), IN(18)}},
        .used = IN(14),
        .bought = IN(18),
        .bound = IN(18),
        .hand_method = IN(18),
        .narrowest_width = IN(31.5)};
    s->found = (qci_found){&s->demand, &s->packing};
}

static int set_up(void **state)
{
    scene *s = calloc(1, sizeof *s);

    if (!s)
        return -1;
    set_job(s);
    set_packing(s);
    qc_error_init(&s->err);
    *state = s;
    return 0;
}

static int tear_down(void **state)
{
    scene *s = *state;

    qc_plan_destroy(s->plan);
    free(s);
    return 0;
}

static const qc_plan_fabric *assemble(scene *s)
{
    assert_int_equal(
        qci_plan_assemble(&s->job, &s->found, false, &s->plan, &s->err), 0);
    return qc_plan_fabric_at(s->plan, 0);
}

static void copies_the_job(void **state)
{
    scene *s = *state;
    const qc_plan_fabric *moss = assemble(s);
    const qc_plan_piece *a = qc_plan_piece_at(s->plan, 0);

    assert_string_equal(qc_plan_title(s->plan), "Scene");
    assert_string_equal(qc_plan_default_at(s->plan, 0), "ruler 1/8 in");
    assert_string_equal(moss->name, "Moss green");
    assert_ptr_not_equal(moss->name, s->fabric.name);
    assert_string_equal(a->id, "A");
    assert_int_equal(a->count, 20);
    assert_int_equal(a->spares, 2);
    assert_int_equal(a->trim_to[0], 0);
    assert_int_equal(moss->outcome, QC_OUTCOME_OPTIMAL);
    assert_int_equal(qc_plan_level_at(s->plan, 0, 0)->value, IN(18));
    assert_null(qc_plan_level_at(s->plan, 0, 1));
}

static void strips_speak_of_pieces(void **state)
{
    scene *s = *state;
    const qc_plan_fabric *moss = assemble(s);
    const qc_strip *strip = qc_plan_strip_at(s->plan, 0, 0);

    assert_int_equal(moss->strip_count, 2);
    assert_int_equal(moss->setups, 1); /* the last repeat is cut short */
    assert_int_equal(strip->used_width, IN(40.5));
    assert_int_equal(strip->subcuts[0].count, 9);
    assert_int_equal(strip->subcuts[0].width, IN(4.5));
    assert_int_equal(strip->subcuts[0].stacks[0].height, IN(4.5));
    assert_true(qc_plan_strip_at(s->plan, 0, 1)->cut_short);
}

/* Bolt end 4 x 42 in, strip ends 2 of 4 1/2 x 1 1/2 in and one of 4 1/2 x 33
 * in; scrap is the squaring-up, 1/2 x 42 in. */
static void areas_add_up(void **state)
{
    scene *s = *state;
    const qc_plan_fabric *moss = assemble(s);
    const qc_leftover *end = qc_plan_leftover_at(s->plan, 0, 0);
    const qc_leftover *first = qc_plan_leftover_at(s->plan, 0, 1);

    assert_int_equal(moss->leftover_count, 3);
    assert_int_equal(end->length, IN(4));
    assert_int_equal(end->width, IN(42));
    assert_int_equal(end->strip, UINT32_MAX);
    assert_int_equal(first->length, IN(4.5));
    assert_int_equal(first->width, IN(1.5));
    assert_int_equal(first->count, 2);
    assert_int_equal(first->strip, 0);
    assert_int_equal(moss->area.finished, 20 * IN(4) * IN(4));
    assert_int_equal(moss->area.seams,
                     20 * (IN(4.5) * IN(4.5) - IN(4) * IN(4)));
    assert_int_equal(moss->area.leftover,
                     IN(4) * IN(42) + 2 * IN(4.5) * IN(1.5) + IN(4.5) * IN(33));
    assert_int_equal(moss->area.scrap, IN(0.5) * IN(42));
}

static void keep_leaves_small_ends(void **state)
{
    scene *s = *state;

    s->job.keep = IN(1.5) + 1;
    assert_int_equal(assemble(s)->leftover_count, 2);
}

/* 3 % of 18 in is 0.54 in: the bolt's end is that much shorter and the scrap
 * that much more. */
static void what_shrinks_away_is_scrap(void **state)
{
    scene *s = *state;
    const qc_plan_fabric *moss;
    const qc_leftover *end;

    s->fabric.shrink_length = 300;
    moss = assemble(s);
    end = qc_plan_leftover_at(s->plan, 0, 0);
    assert_int_equal(end->length, IN(3.46));
    assert_int_equal(moss->area.scrap, IN(1.04) * IN(42));
}

static void stacks_lie_as_their_forms(void **state)
{
    scene *s = *state;
    const qc_subcut *mixed;

    s->pieces[1] = (qci_piece){.id = (char *)"B",
                               .job_id = (char *)"B",
                               .strip_set = QC_NONE,
                               .cut = {IN(1.5), IN(4)},
                               .count = 1};
    s->job.piece_count = 2;
    s->count[1] = 1;
    s->piece[1] = 1;
    s->forms[1] = (qci_form){.row = 1,
                             .width = IN(4),
                             .height = IN(1.5),
                             .yields = 1,
                             .turn = QC_TURN_QUARTER};
    s->demand.row_count = s->demand.form_count = 2;
    s->stacks[1] = (qci_stack){1, 3};
    s->stacks[2] = (qci_stack){0, 1};
    s->sections[1] = (qci_section){2, false, 2, &s->stacks[1]};
    assemble(s);
    mixed = &qc_plan_strip_at(s->plan, 0, 1)->subcuts[0];
    assert_int_equal(mixed->stack_count, 2);
    assert_int_equal(mixed->width, IN(4.5)); /* of the wider of the two */
    assert_int_equal(mixed->stacks[0].piece, 1);
    assert_int_equal(mixed->stacks[0].count, 3);
    assert_int_equal(mixed->stacks[0].turn, QC_TURN_QUARTER);
    assert_int_equal(mixed->stacks[0].width, IN(4));
    assert_int_equal(mixed->stacks[0].height, IN(1.5));
    assert_int_equal(mixed->stacks[1].piece, 0);
}

/* What is seen of a piece is the job room's to know. */
static void seen_areas_are_the_jobs(void **state)
{
    scene *s = *state;

    s->pieces[0].finished_area = IN(4) * IN(3);
    assert_int_equal(assemble(s)->area.finished, 20 * IN(4) * IN(3));
}

static void trimmed_pieces_tell_their_size(void **state)
{
    scene *s = *state;

    s->pieces[0].trim_to[0] = IN(4.25);
    s->pieces[0].trim_to[1] = IN(4.5);
    assemble(s);
    assert_int_equal(qc_plan_piece_at(s->plan, 0)->trim_to[0], IN(4.25));
    assert_int_equal(qc_plan_piece_at(s->plan, 0)->trim_to[1], IN(4.5));
}

/* 20 squares of 4 1/2 cut twice: 80 triangles whose long side finishes 3 1/4.
 * Each shows 3.25 x 3.25 / 4 square inches, 211.25 in all; the squares have
 * 405. */
static void triangles_are_parts_of_squares(void **state)
{
    scene *s = *state;
    const qc_plan_fabric *moss;

    s->pieces[0].shape = QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
    s->pieces[0].finished[0] = s->pieces[0].finished[1] = IN(3.25);
    s->pieces[0].count = 78; /* 20 squares give 80 */
    s->pieces[0].spares = 1;
    s->pieces[0].finished_area = IN(3.25) * IN(3.25) / 4;
    s->forms[0].yields = 4;
    moss = assemble(s);
    assert_int_equal(qc_plan_piece_at(s->plan, 0)->count, 80);
    assert_int_equal(qc_plan_piece_at(s->plan, 0)->spares, 3);
    assert_int_equal(qc_plan_piece_at(s->plan, 0)->extra, 2);
    assert_int_equal(
        qc_plan_strip_at(s->plan, 0, 0)->subcuts[0].stacks[0].yields, 4);
    assert_int_equal(moss->area.finished, IN(211.25) * IN(1));
    assert_int_equal(moss->area.seams, IN(405 - 211.25) * IN(1));
}

static void cost_follows_the_units(void **state)
{
    scene *s = *state;

    assert_int_equal(assemble(s)->cost, 67500); /* half a yard at 13.50 */
    qc_plan_destroy(s->plan);
    s->job.units = QC_UNITS_CM; /* 0.4572 m at 13.50 = 6.1722 */
    assert_int_equal(assemble(s)->cost, 61722);
    qc_plan_destroy(s->plan);
    s->fabric.price = QC_DEFAULT;
    assert_int_equal(assemble(s)->cost, QC_DEFAULT);
}

static void money_levels_are_lengths_paid_for(void **state)
{
    scene *s = *state;

    s->packing.levels[0] =
        (qc_level){QC_GOAL_MONEY, QC_OUTCOME_FEASIBLE, IN(18), IN(13.5)};
    assert_int_equal(assemble(s)->outcome, QC_OUTCOME_FEASIBLE);
    assert_int_equal(qc_plan_level_at(s->plan, 0, 0)->value, 67500);
    assert_int_equal(qc_plan_level_at(s->plan, 0, 0)->bound, 50625);
}

static void every_failed_allocation_is_survived(void **state)
{
    scene *s = *state;
    long live = qci_alloc_live();
    qc_status status = QC_STATUS_NO_MEMORY;
    long n = 0;

    while (status == QC_STATUS_NO_MEMORY) {
        qc_error_init(&s->err);
        qci_alloc_fail_at(++n, 0);
        status =
            qci_plan_assemble(&s->job, &s->found, false, &s->plan, &s->err);
        qci_alloc_fail_at(0, 0);
        if (status) {
            assert_null(s->plan);
            assert_int_equal(s->err.code, QC_STATUS_NO_MEMORY);
            assert_int_equal(qci_alloc_live(), live);
        }
    }
    assert_int_equal(status, QC_STATUS_OK);
    assert_true(n > 15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(copies_the_job, set_up, tear_down),
        cmocka_unit_test_setup_teardown(strips_speak_of_pieces, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(areas_add_up, set_up, tear_down),
        cmocka_unit_test_setup_teardown(keep_leaves_small_ends, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(what_shrinks_away_is_scrap, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(stacks_lie_as_their_forms, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(seen_areas_are_the_jobs, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(trimmed_pieces_tell_their_size, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(triangles_are_parts_of_squares, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(cost_follows_the_units, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(money_levels_are_lengths_paid_for,
                                        set_up, tear_down),
        cmocka_unit_test_setup_teardown(every_failed_allocation_is_survived,
                                        set_up, tear_down),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
