/* Plans as JSON: read back with jansson, every member is what the plan says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include <quiltcut/quiltcut.h>

#include "base/alloc.h"
#include "base/caution.h"
#include "hand_plan.h"
#include "json_expect.h"
#include "order/order.h"
#include "sample_plan.h"
#include "json/write.h"

static qc_plan *plan;
static json_t *root;

static int set_up(void **state)
{
    char *text = NULL;

    (void)state;
    plan = sample_plan();
    if (qc_plan_json(plan, &text, NULL))
        return 1;
    root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    qc_text_destroy(text);
    return root == NULL;
}

static int tear_down(void **state)
{
    (void)state;
    json_decref(root);
    qc_plan_destroy(plan);
    return 0;
}

static void the_head_is_written(void **state)
{
    (void)state;
    expect_number(root, "quiltcut", 1);
    expect_text(root, "title", "");
    expect_text(root, "units", "in");
    expect_text(root, "status", "feasible");
    expect_number(root, "ruler", 0.125);
    expect_text(root, "seam_text", "1/4 in");
    assert_string_equal(json_string_value(at(root, "defaults", "[0]", NULL)),
                        "seam allowance: 1/4 in");
}

static void every_caution_is_written(void **state)
{
    const json_t *list = at(root, "cautions", NULL);

    (void)state;
    assert_int_equal(json_array_size(list), QCI_CAUTION_COUNT);
    for (size_t i = 0; i < QCI_CAUTION_COUNT; i++)
        assert_string_equal(json_string_value(json_array_get(list, i)),
                            qci_cautions[i]);
}

static void pieces_are_written(void **state)
{
    const json_t *a = at(root, "pieces", "[0]", NULL);
    const json_t *b = at(root, "pieces", "[1]", NULL);

    (void)state;
    assert_int_equal(json_array_size(at(root, "pieces", NULL)), 3);
    expect_text(a, "id", "A \"tall\"\\\t\xC2\xBD");
    expect_text(a, "fabric", "night");
    expect_text(a, "shape", "rectangle");
    expect_number(at(a, "finished", NULL), "[1]", 4);
    expect_number(at(a, "cut", NULL), "[0]", 2.5);
    expect_text(at(a, "cut_text", NULL), "[1]", "4 1/2 in");
    assert_true(json_is_true(at(a, "rounded", NULL)));
    expect_number(a, "count", 3 * 12 + 1);
    expect_number(a, "spares", 2);
    assert_null(json_object_get(a, "trim_to"));
    assert_null(json_object_get(b, "finished"));
    expect_number(at(b, "trim_to", NULL), "[0]", 3.375);
}

/* 21 quarter-square triangles from 6 squares, one of them in a stack. */
static void triangles_are_written(void **state)
{
    qc_plan *of_triangles = hand_plan();
    const json_t *piece, *first, *stack, *step;
    char *text = NULL;
    json_t *all;

    (void)state;
    hand_fabric(of_triangles, "night", INCHES(40), 0);
    hand_triangle(of_triangles, "T", INCHES(4),
                  QC_SHAPE_QUARTER_SQUARE_TRIANGLE);
    hand_strip(of_triangles, INCHES(8), 1);
    hand_row(of_triangles, 4, 0, QC_TURN_NONE);
    hand_subcut(of_triangles, 1);
    hand_stack(of_triangles, 0, 2, QC_TURN_NONE);
    of_triangles->pieces[0].extra = of_triangles->pieces[0].spares = 3;
    hand_finish(of_triangles, INCHES(30));
    assert_int_equal(qci_order_make(of_triangles, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_json(of_triangles, &text, NULL), QC_STATUS_OK);
    all = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(all);
    piece = at(all, "pieces", "[0]", NULL);
    expect_text(piece, "shape", "quarter-square triangle");
    expect_number(piece, "count", 24);
    expect_number(piece, "extra", 3);
    first = at(all, "fabrics", "[0]", "strips", "[0]", "subcuts", "[0]", NULL);
    expect_number(first, "yields", 4);
    stack = at(all, "fabrics", "[0]", "strips", "[0]", "subcuts", "[1]",
               "stack", "[0]", NULL);
    expect_number(stack, "yields", 4);
    expect_number(stack, "count", 2);
    step = at(all, "steps", NULL);
    step = json_array_get(step, json_array_size(step) - 1);
    expect_text(step, "do", "diagonal");
    expect_text(step, "source", "squares for T");
    expect_text(step, "piece", "T");
    assert_null(json_object_get(step, "part"));
    expect_number(step, "copies", 6);
    expect_number(step, "repeat", 2);
    expect_number(step, "cuts", 4);
    expect_number(step, "total", 24);
    /* Nothing else becomes more than it is. */
    assert_null(json_object_get(at(root, "pieces", "[0]", NULL), "extra"));
    assert_null(json_object_get(
        at(root, "fabrics", "[0]", "strips", "[0]", "subcuts", "[0]", NULL),
        "yields"));
    json_decref(all);
    qc_text_destroy(text);
    qc_plan_destroy(of_triangles);
}

static void a_fabric_is_written(void **state)
{
    const json_t *night = at(root, "fabrics", "[0]", NULL);
    const json_t *fog = at(root, "fabrics", "[1]", NULL);

    (void)state;
    expect_text(night, "id", "night");
    expect_text(night, "status", "feasible");
    expect_text(night, "print", "plain");
    expect_number(night, "usable_width", 42);
    expect_number(night, "used", 0.5 + 3 * 4.5 + 7);
    expect_text(night, "used_text", "21 in");
    expect_number(night, "bought", 22.5);
    expect_text(night, "bought_text", "5/8 yd");
    expect_number(night, "bound", 18);
    expect_number(night, "gap", 0.2);
    expect_text(night, "hand_method_text", "2 yd");
    expect_text(night, "narrowest_width_text", "41 1/4 in");
    expect_text(night, "narrowest_width_status", "optimal");
    expect_number(night, "shrink_length", 2.5);
    expect_number(night, "price", 13.5);
    expect_text(fog, "print", "reversible");
    expect_number(fog, "gap", 0);
    assert_true(json_is_null(at(fog, "hand_method", NULL)));
    assert_true(json_is_null(at(fog, "hand_method_text", NULL)));
    expect_text(fog, "narrowest_width_status", "feasible");
    assert_null(json_object_get(fog, "price"));
    assert_null(json_object_get(fog, "cost"));
}

static void levels_are_in_the_measure_of_their_goal(void **state)
{
    const json_t *levels = at(root, "fabrics", "[0]", "levels", NULL);

    (void)state;
    assert_int_equal(json_array_size(levels), 6);
    expect_text(at(levels, "[0]", NULL), "goal", "bought");
    expect_number(at(levels, "[0]", NULL), "bound", 31.5);
    expect_text(at(levels, "[0]", NULL), "value_text", "1 yd");
    expect_text(at(levels, "[0]", NULL), "status", "feasible");
    expect_text(at(levels, "[1]", NULL), "goal", "used");
    expect_text(at(levels, "[1]", NULL), "value_text", "31 in");
    expect_text(at(levels, "[2]", NULL), "goal", "money");
    expect_number(at(levels, "[2]", NULL), "bound", 11.8125);
    expect_text(at(levels, "[3]", NULL), "goal", "setups");
    expect_number(at(levels, "[3]", NULL), "value", 2);
    expect_text(at(levels, "[4]", NULL), "goal", "cuts");
    expect_text(at(levels, "[5]", NULL), "goal", "leftover");
    expect_number(at(levels, "[5]", NULL), "value", 1.0 / 64);
    expect_number(at(levels, "[5]", NULL), "bound", 210);
}

static void strips_and_stacks_are_written(void **state)
{
    const json_t *strips = at(root, "fabrics", "[0]", "strips", NULL);
    const json_t *first = at(strips, "[0]", NULL);
    const json_t *stack = at(strips, "[1]", "subcuts", "[0]", "stack", NULL);

    (void)state;
    assert_int_equal(json_array_size(strips), 2);
    expect_number(first, "height", 4.5);
    expect_number(first, "repeat", 3);
    expect_text(first, "source", "bolt");
    assert_true(json_is_false(at(first, "cut_short", NULL)));
    expect_number(first, "used_width", 12 * 2.5 + 3.5);
    expect_number(at(first, "subcuts", "[0]", NULL), "count", 12);
    assert_true(json_is_false(at(first, "subcuts", "[0]", "turned", NULL)));
    expect_text(at(first, "subcuts", "[1]", NULL), "piece", "B");
    assert_true(json_is_true(at(first, "subcuts", "[1]", "turned", NULL)));
    assert_int_equal(json_array_size(stack), 1);
    expect_text(at(stack, "[0]", NULL), "piece", "B");
    expect_number(at(stack, "[0]", NULL), "count", 2);
    expect_number(at(stack, "[0]", NULL), "height", 3.5);
    expect_text(at(strips, "[1]", "subcuts", "[1]", NULL), "turned", "quarter");
    expect_number(at(strips, "[1]", "subcuts", "[1]", NULL), "width", 4.5);
    assert_true(json_is_true(
        at(root, "fabrics", "[1]", "strips", "[1]", "cut_short", NULL)));
}

/* What a program computes from the file must agree with what the file says. */
static void areas_add_up_and_pieces_are_all_there(void **state)
{
    static const char *const parts[] = {"finished", "seams", "leftover",
                                        "scrap"};

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        const json_t *fabric = json_array_get(at(root, "fabrics", NULL), i);
        double sum = 0;

        for (size_t k = 0; k < 4; k++)
            sum += json_number_value(at(fabric, "area", parts[k], NULL));
        expect_near(sum,
                    json_number_value(at(fabric, "bought", NULL)) *
                        json_number_value(at(fabric, "usable_width", NULL)));
    }
}

static void every_step_is_written_whole(void **state)
{
    static const char *const kinds[] = {[QC_STEP_SQUARE_UP] = "square up",
                                        [QC_STEP_STRIP] = "strip",
                                        [QC_STEP_SQUARE_END] = "square end",
                                        [QC_STEP_SUBCUT] = "subcut",
                                        [QC_STEP_SPLIT] = "split",
                                        [QC_STEP_TRIM] = "trim",
                                        [QC_STEP_KEEP] = "keep",
                                        [QC_STEP_TRIM_BACK] = "trim back"};
    const json_t *steps = at(root, "steps", NULL);

    (void)state;
    assert_int_equal(json_array_size(steps), qc_plan_step_count(plan));
    for (size_t i = 0; i < qc_plan_step_count(plan); i++) {
        const qc_step *step = qc_plan_step_at(plan, i);
        const json_t *written = json_array_get(steps, i);

        expect_number(written, "n", step->number);
        expect_text(written, "do", kinds[step->kind]);
        expect_text(written, "fabric", step->fabric ? "fog" : "night");
        expect_text(written, "source", step->source);
        expect_text(written, "text", step->text);
        assert_true((json_object_get(written, "part") != NULL) ==
                    (step->part_in != QC_NONE));
        if (step->part_in != QC_NONE)
            expect_number(written, "part", step->part_in);
        expect_number(written, "distance",
                      qc_length_value(step->distance, QC_UNITS_IN));
        expect_number(written, "copies", (double)step->copies);
        expect_number(written, "layers", step->layers);
        expect_number(written, "repeat", step->repeat);
        expect_number(written, "cuts", (double)step->cuts);
        expect_number(written, "blade",
                      qc_length_value(step->blade, QC_UNITS_IN));
        expect_number(written, "yield", (double)step->yield);
        expect_number(written, "total", (double)step->total);
        assert_true((json_object_get(written, "piece") != NULL) ==
                    (step->piece != QC_NONE));
        assert_true((json_object_get(written, "part_out") != NULL) ==
                    (step->part_out != QC_NONE));
    }
}

/* Each "..._text" of a length, read by the library, is the number beside it. */
static void check_texts(const json_t *value, size_t *checked)
{
    json_t *object = (json_t *)(uintptr_t)value, *member;
    const char *key;
    size_t i;

    json_array_foreach(value, i, member) check_texts(member, checked);
    json_object_foreach(object, key, member)
    {
        char number_key[64];
        qc_length length;
        size_t size = strlen(key);

        check_texts(member, checked);
        if (size < 6 || strcmp(key + size - 5, "_text") != 0 ||
            !json_is_string(member))
            continue;
        memcpy(number_key, key, size - 5);
        number_key[size - 5] = '\0';
        assert_int_equal(qc_length_parse(json_string_value(member), QC_UNITS_MM,
                                         QC_PARSE_EXACT, &length, NULL),
                         QC_STATUS_OK);
        expect_near(json_number_value(at(value, number_key, NULL)),
                    qc_length_value(length, QC_UNITS_IN));
        ++*checked;
    }
}

static void texts_say_what_the_numbers_say(void **state)
{
    size_t checked = 0;

    (void)state;
    check_texts(root, &checked);
    assert_true(checked > 60);
}

static void metric_plans_are_metric(void **state)
{
    qc_plan *metric = hand_plan();
    char *text = NULL;

    (void)state;
    metric->units = QC_UNITS_CM;
    metric->ruler = QC_MM;
    hand_fabric(metric, "f", 102 * QC_CM, 12 * QC_MM);
    hand_strip(metric, 65 * QC_MM, 1);
    hand_row(metric, 1, hand_piece(metric, "p", 65 * QC_MM, 65 * QC_MM),
             QC_TURN_NONE);
    hand_finish(metric, QC_M);
    assert_int_equal(qc_plan_json(metric, &text, NULL), QC_STATUS_OK);
    assert_non_null(strstr(text, "\"ruler\": 0.1,"));
    assert_non_null(strstr(text, "\"usable_width\": 102,"));
    assert_non_null(strstr(text, "\"usable_width_text\": \"102 cm\""));
    assert_non_null(strstr(text, "\"height\": 6.5,"));
    qc_text_destroy(text);
    qc_plan_destroy(metric);
}

static void two_writings_are_the_same_bytes(void **state)
{
    char *one = NULL, *two = NULL;

    (void)state;
    assert_int_equal(qc_plan_json(plan, &one, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_json(plan, &two, NULL), QC_STATUS_OK);
    assert_string_equal(one, two);
    assert_string_equal(one + strlen(one) - 2, "}\n");
    qc_text_destroy(one);
    qc_text_destroy(two);
    qc_text_destroy(NULL);
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    check_json_out_of_memory(plan);
}

/* The writer alone, down to the byte. */
static void the_writer_indents_and_escapes(void **state)
{
    qci_writer writer = {.depth = 0};
    char *text;

    (void)state;
    qci_write_open(&writer, NULL, '{');
    qci_write_text(&writer, "a\"b", "\\ \x01 \x7F \xE2\x9C\x82 \"");
    qci_write_open(&writer, "empty", '[');
    qci_write_close(&writer, ']');
    qci_write_open_line(&writer, "pair");
    qci_write_ratio(&writer, NULL, 1, 8, 9);
    qci_write_ratio(&writer, NULL, -9, 4, 9);
    qci_write_integer(&writer, NULL, -2);
    qci_write_close(&writer, ']');
    qci_write_open(&writer, "list", '[');
    qci_write_null(&writer, NULL);
    qci_write_bool(&writer, NULL, true);
    qci_write_close(&writer, ']');
    qci_write_close(&writer, '}');
    text = qci_text_take(&writer.text);
    assert_string_equal(text, "{\n"
                              "  \"a\\\"b\": \"\\\\ \\u0001 \\u007f "
                              "\xE2\x9C\x82 \\\"\",\n"
                              "  \"empty\": [],\n"
                              "  \"pair\": [0.125, -2.25, -2],\n"
                              "  \"list\": [\n"
                              "    null,\n"
                              "    true\n"
                              "  ]\n"
                              "}");
    qc_text_destroy(text);
}

static void schemas_are_json_and_only_known_ones_exist(void **state)
{
    static const char *const names[] = {"job", "plan"};

    (void)state;
    for (size_t i = 0; i < 2; i++) {
        json_t *schema =
            json_loads(qc_schema_text(names[i]), JSON_REJECT_DUPLICATES, NULL);

        assert_non_null(schema);
        expect_text(schema, "$schema",
                    "https://json-schema.org/draft/2020-12/schema");
        json_decref(schema);
    }
    assert_null(qc_schema_text("jobs"));
    assert_null(qc_schema_text(""));
    assert_null(qc_schema_text(NULL));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_head_is_written),
        cmocka_unit_test(every_caution_is_written),
        cmocka_unit_test(pieces_are_written),
        cmocka_unit_test(triangles_are_written),
        cmocka_unit_test(a_fabric_is_written),
        cmocka_unit_test(levels_are_in_the_measure_of_their_goal),
        cmocka_unit_test(strips_and_stacks_are_written),
        cmocka_unit_test(areas_add_up_and_pieces_are_all_there),
        cmocka_unit_test(every_step_is_written_whole),
        cmocka_unit_test(texts_say_what_the_numbers_say),
        cmocka_unit_test(metric_plans_are_metric),
        cmocka_unit_test(two_writings_are_the_same_bytes),
        cmocka_unit_test(every_allocation_may_fail),
        cmocka_unit_test(the_writer_indents_and_escapes),
        cmocka_unit_test(schemas_are_json_and_only_known_ones_exist),
    };

    return cmocka_run_group_tests(tests, set_up, tear_down);
}
