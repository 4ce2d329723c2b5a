/* The text plan: whole against a text that was read and agreed to line by line,
 * and single facts of other plans. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/report.h>

#include "base/alloc.h"
#include "hand_plan.h"
#include "order/order.h"
#include "replay/replay.h"
#include "text_expect.h"

static qc_plan_fabric *info_of(qc_plan *plan, size_t fabric)
{
    return &plan->fabrics[fabric].info;
}

static void level(qc_plan *plan, size_t fabric, qc_level added)
{
    qci_plan_fabric *to = &plan->fabrics[fabric];

    to->levels =
        qci_realloc(to->levels, to->info.level_count + 1, sizeof *to->levels);
    to->levels[to->info.level_count++] = added;
}

static void taken(qc_plan *plan, const char *sentence)
{
    plan->defaults = qci_realloc(plan->defaults, plan->default_count + 1,
                                 sizeof *plan->defaults);
    plan->defaults[plan->default_count++] = qci_strdup(sentence);
}

static void retitle(qc_plan *plan, const char *title)
{
    qci_free(plan->title);
    plan->title = qci_strdup(title);
}

/* Steps by the order room, and the replay's word that the plan is sound. */
static void finish(qc_plan *plan, qc_length keep)
{
    hand_finish(plan, keep);
    for (size_t i = 0; i < plan->fabric_count; i++) {
        info_of(plan, i)->hand_method = info_of(plan, i)->bought;
        info_of(plan, i)->narrowest_width = info_of(plan, i)->usable_width;
    }
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_int_equal(qci_replay_plan(plan, NULL), QC_STATUS_OK);
}

/* A small throw from two fabrics. Strips, steps, areas and leftovers are true;
 * what the search is said to have found (add_throw_results) is made up. */
static qc_plan *throw_plan(void)
{
    qc_plan *plan = hand_plan();
    qc_plan_piece *piece;
    uint32_t a, b, c, d;

    retitle(plan, "Gull Point throw");
    hand_fabric(plan, "Harbour blue", INCHES(42), EIGHTHS(4));
    a = hand_piece(plan, "centre", EIGHTHS(52), EIGHTHS(52));
    b = hand_piece(plan, "bar", EIGHTHS(20), EIGHTHS(36));
    hand_strip(plan, EIGHTHS(52), 5);
    hand_row(plan, 6, a, QC_TURN_NONE);
    hand_strip(plan, EIGHTHS(20), 9);
    hand_row(plan, 9, b, QC_TURN_QUARTER);
    hand_strip(plan, EIGHTHS(20), 1)->cut_short = true;
    hand_row(plan, 3, b, QC_TURN_QUARTER);
    hand_fabric(plan, "Sand stripe", INCHES(40), EIGHTHS(4));
    c = hand_piece(plan, "rail", INCHES(10), INCHES(4));
    d = hand_piece(plan, "corner", INCHES(6), INCHES(3));
    hand_strip(plan, INCHES(10), 2);
    hand_subcut(plan, 4);
    hand_stack(plan, c, 1, QC_TURN_HALF);
    hand_stack(plan, d, 2, QC_TURN_NONE);
    plan->fabrics[1].info.print = QC_PRINT_TWO_WAY;
    piece = &plan->pieces[a];
    piece->finished[0] = piece->finished[1] = INCHES(6);
    piece = &plan->pieces[b];
    piece->finished[0] = INCHES(2);
    piece->finished[1] = INCHES(4);
    piece->spares = 4;
    piece = &plan->pieces[c];
    piece->rounded = true;
    piece->finished[0] = QC_INCH * 151 / 16;
    piece->finished[1] = QC_INCH * 55 / 16;
    plan->pieces[d].trim_to[0] = EIGHTHS(46);
    plan->pieces[d].trim_to[1] = EIGHTHS(22);
    finish(plan, EIGHTHS(12));
    return plan;
}

static void add_throw_results(qc_plan *plan)
{
    qc_plan_fabric *blue = info_of(plan, 0);
    qc_plan_fabric *sand = info_of(plan, 1);

    blue->hand_method = blue->bought + 2 * blue->step;
    blue->narrowest_width = EIGHTHS(324);
    blue->price = 120000;
    blue->cost = 195000;
    blue->setups = 2;
    level(plan, 0,
          (qc_level){QC_GOAL_BOUGHT, QC_OUTCOME_OPTIMAL, blue->bought,
                     blue->bought});
    level(plan, 0, (qc_level){QC_GOAL_SETUPS, QC_OUTCOME_OPTIMAL, 2, 2});
    level(plan, 0,
          (qc_level){QC_GOAL_CUTS, QC_OUTCOME_OPTIMAL, blue->cuts, blue->cuts});
    level(plan, 0,
          (qc_level){QC_GOAL_LEFTOVER, QC_OUTCOME_OPTIMAL,
                     EIGHTHS(228) * EIGHTHS(20), EIGHTHS(228) * EIGHTHS(20)});
    sand->bound = sand->bought - sand->step;
    sand->outcome = sand->narrowest_outcome = QC_OUTCOME_FEASIBLE;
    level(plan, 1,
          (qc_level){QC_GOAL_BOUGHT, QC_OUTCOME_FEASIBLE, sand->bought,
                     sand->bound});
    level(plan, 1,
          (qc_level){QC_GOAL_CUTS, QC_OUTCOME_FEASIBLE, sand->cuts,
                     sand->cuts - 3});
    taken(plan, "ruler grid: 1/8 in");
    taken(plan, "usable width of Sand stripe: 40 in");
}

/* What shows of the throw, in square inches: 30 x 36 + 84 x 8; and
 * 8 x 9 7/16 x 3 7/16 + 16 x 5 1/2 x 2 1/2, the corners losing half an inch
 * each way to seams. */
static void add_areas(qc_plan *plan)
{
    const int64_t shown_256ths[] = {1752 * 256, 8 * 151 * 55 + 220 * 256};

    for (size_t i = 0; i < 2; i++) {
        qc_area *area = &info_of(plan, i)->area;

        area->finished = shown_256ths[i] * (QC_INCH / 16) * (QC_INCH / 16);
        area->seams -= area->finished;
    }
}

static qc_plan *complete_throw(void)
{
    qc_plan *plan = throw_plan();

    add_throw_results(plan);
    add_areas(plan);
    return plan;
}

/* The golden text; QUILTCUT_WRITE_GOLDEN=1 writes it anew, to be read before it
 * is kept. */
#define GOLDEN QC_SOURCE_DIR "/tests/golden/plan_text.txt"

static void equals_the_golden_text(void **state)
{
    qc_plan *plan = complete_throw();
    char *text = text_of(plan);
    char golden[16384];
    FILE *file;
    size_t size;

    (void)state;
    if (getenv("QUILTCUT_WRITE_GOLDEN")) {
        file = fopen(GOLDEN, "wb");
        assert_non_null(file);
        fputs(text, file);
        fclose(file);
    }
    file = fopen(GOLDEN, "rb");
    assert_non_null(file);
    size = fread(golden, 1, sizeof golden - 1, file);
    golden[size] = '\0';
    fclose(file);
    assert_string_equal(text, golden);
    qci_free(text);
    qc_plan_destroy(plan);
}

/* One piece from one strip: everything in the singular. */
static qc_plan *single(qc_units units)
{
    qc_length one = units == QC_UNITS_IN ? QC_INCH : 2 * QC_CM;
    qc_plan *plan = hand_plan();
    uint32_t a;

    plan->units = units;
    plan->layers = 1;
    hand_fabric(plan, "fog", 40 * one, one);
    if (units != QC_UNITS_IN)
        info_of(plan, 0)->step = 10 * QC_CM;
    a = hand_piece(plan, "A", 39 * one, 4 * one);
    hand_strip(plan, 4 * one, 1);
    hand_row(plan, 1, a, QC_TURN_NONE);
    info_of(plan, 0)->setups = 1;
    finish(plan, 2 * one);
    return plan;
}

static void says_one_of_each_in_the_singular(void **state)
{
    qc_plan *plan = single(QC_UNITS_IN);
    char *text = text_of(plan);

    (void)state;
    check_lines(text);
    expect(text, "Quilt Cutting plan: 1 piece of 1 kind from 1 fabric. The "
                 "length to buy is proved minimal.");
    expect(text, " fog: 1/4 yd (9 in) proof minimal");
    expect(text, "minimal: no plan of this kind buys less");
    expect(text, "40 in between the selvages; a narrower fabric takes more");
    expect(text, "by hand the same,");
    expect(text, " fog: 4 cuts, 2.5 yd of cutting 1. ");
    expect(text, "uncut end of the bolt");
    expect_none(text, "deeper than");
    expect_none(text, "shrinkage");
    expect_none(text, "print");
    expect_none(text, " cost");
    expect_none(text, "DEFAULTS");
    expect_none(text, "seam allowance of");
    qci_free(text);
    qc_plan_destroy(plan);
}

static void writes_metric_plans_in_metres(void **state)
{
    qc_plan *plan = single(QC_UNITS_CM);
    qc_plan_fabric *info = info_of(plan, 0);
    char *text;

    (void)state;
    info->hand_method = 2 * info->bought;
    info->narrowest_width = 785 * QC_MM;
    info->narrowest_outcome = QC_OUTCOME_FEASIBLE;
    info->price = 179900;
    info->cost = 17990;
    info->shrink_length = 325;
    level(plan, 0,
          (qc_level){QC_GOAL_LEFTOVER, QC_OUTCOME_FEASIBLE,
                     80 * QC_CM * (125 * QC_MM), 81 * QC_CM * (125 * QC_MM)});
    level(plan, 0, (qc_level){QC_GOAL_MONEY, QC_OUTCOME_FEASIBLE, 17990, 9995});
    text = text_of(plan);
    check_lines(text);
    expect(text, " fog: 0.1 m (10 cm) ");
    expect(text, "0.2 m (20 cm), each size cut from strips of its own: this "
                 "plan saves 0.1 m (10 cm)");
    expect(text, "planned on 80 cm between the selvages; this length is enough "
                 "down to 78.5 cm, perhaps to less");
    expect(text, "cost 1.799 at 17.99 a metre");
    expect(text, "3.25 % of the length is allowed for: wash the fabric");
    expect(text, "10 cm of the length after washing, squaring-up included");
    expect(text, "A 1 78 x 8 ");
    expect(text, "largest leftover 1000 sq cm best found; no plan is above "
                 "1012.5 sq cm");
    expect(text, "cost 1.799 best found; no plan is below 0.9995");
    expect_none(text, " yd");
    expect_none(text, "8 in");
    qci_free(text);
    qc_plan_destroy(plan);
}

static void adds_costs_and_verdicts_up(void **state)
{
    qc_plan *plan = throw_plan();
    char *text;

    (void)state;
    add_throw_results(plan);
    for (size_t i = 0; i < 2; i++) {
        info_of(plan, i)->price = 85000;
        info_of(plan, i)->cost = 127550;
    }
    text = text_of(plan);
    expect(text, "12.755 at 8.50 a yard");
    expect(text, " Cost of all fabrics: 25.51 ");
    qci_free(text);
    info_of(plan, 1)->bound = info_of(plan, 1)->bought;
    text = text_of(plan);
    expect(text, "All lengths to buy are proved minimal.");
    qci_free(text);
    info_of(plan, 0)->bound--;
    info_of(plan, 1)->bound--;
    text = text_of(plan);
    expect(text, "0 are proved minimal");
    expect(text, "(gap 0.1 %)");
    qci_free(text);
    qc_plan_destroy(plan);
}

/* A fabric that the job defines and no piece uses. */
static void passes_over_an_idle_fabric(void **state)
{
    qc_plan *plan = single(QC_UNITS_IN);
    char *text;

    (void)state;
    hand_fabric(plan, "idle", INCHES(40), 0);
    text = text_of(plan);
    check_lines(text);
    expect(text, " idle: nothing, no piece is cut from it ");
    expect(text, "from 2 fabrics. The length to buy is proved");
    expect_none(text, " idle 0");
    qci_free(text);
    qc_plan_destroy(plan);
}

/* Names as long as a job may make them, wide scripts among them. */
static void keeps_long_names_within_the_page(void **state)
{
    static const char *const names[] = {"x", "\xC3\xA9", "\xE7\xB5\xB9",
                                        "ab cd "};

    (void)state;
    for (size_t n = 0; n < sizeof names / sizeof names[0]; n++) {
        qc_plan *plan = complete_throw();
        char name[201] = "";
        char *text;

        for (size_t at = 0; at + strlen(names[n]) <= 200;
             at += strlen(names[n]))
            strcat(name, names[n]);
        retitle(plan, name);
        qci_free((void *)plan->fabrics[0].info.name);
        plan->fabrics[0].info.name = qci_strdup(name);
        qci_free((void *)plan->pieces[0].id);
        plan->pieces[0].id = qci_strdup(name);
        text = text_of(plan);
        check_lines(text);
        qci_free(text);
        qc_plan_destroy(plan);
    }
}

/* Every share is a whole number of tenths and a row adds up to 100. */
static void shares_add_up_to_a_hundred(void **state)
{
    qc_plan *plan = single(QC_UNITS_IN);
    qc_area *area = &info_of(plan, 0)->area;
    int64_t third =
        (info_of(plan, 0)->bought * info_of(plan, 0)->usable_width) / 3;
    char *text;

    (void)state;
    *area = (qc_area){third, third, third, 0};
    text = text_of(plan);
    expect(text, " fog 33.4 % 33.3 % 33.3 % 0.0 %");
    qci_free(text);
    *area = (qc_area){0, 0, 3 * third, 0};
    text = text_of(plan);
    expect(text, " fog 0.0 % 0.0 % 100.0 % 0.0 %");
    qci_free(text);
    qc_plan_destroy(plan);
}

static void reports_when_memory_is_out(void **state)
{
    (void)state;
    check_text_out_of_memory(complete_throw());
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equals_the_golden_text),
        cmocka_unit_test(says_one_of_each_in_the_singular),
        cmocka_unit_test(writes_metric_plans_in_metres),
        cmocka_unit_test(adds_costs_and_verdicts_up),
        cmocka_unit_test(passes_over_an_idle_fabric),
        cmocka_unit_test(keeps_long_names_within_the_page),
        cmocka_unit_test(shares_add_up_to_a_hundred),
        cmocka_unit_test(reports_when_memory_is_out),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
