/* The plan as JSON. Everything is read off the plan, in a fixed order of
 * members. A length appears as a number of the job's units, exact to nine
 * places (that is exact for every multiple of 1/64 in and for all metric
 * lengths, and names the length beyond doubt for all others), and, under the
 * same name with "_text" behind it, as it is read on a ruler. */
#include <quiltcut/report.h>

#include <stdio.h>
#include <string.h>

#include "base/caution.h"
#include "base/error.h"
#include "length/units.h"
#include "plan/plan.h"
#include "json/write.h"

#define LENGTH_PLACES 9
#define AREA_PLACES 12 /* a square of 1/64 in has that many */
#define GAP_PLACES 9
#define MONEY 10000

static const char *const print_words[] = {"plain", "one-way", "two-way",
                                          "reversible"};
static const char *const shape_words[] = {
    "square", "rectangle", "half-square triangle", "quarter-square triangle"};
static const char *const goal_words[] = {"bought", "used", "money",
                                         "setups", "cuts", "leftover"};
static const char *const step_words[] = {"square up", "strip",   "square end",
                                         "subcut",    "split",   "trim",
                                         "keep",      "diagonal"};

typedef struct output {
    qci_writer writer;
    const qc_plan *plan;
    qc_units units;
    int64_t one; /* of the units */
} output;

static const char *outcome_word(qc_outcome outcome)
{
    return outcome == QC_OUTCOME_OPTIMAL ? "optimal" : "feasible";
}

static const char *piece_id(const output *out, uint32_t piece)
{
    return qc_plan_piece_at(out->plan, piece)->id;
}

static const char *fabric_id(const output *out, uint32_t fabric)
{
    return qc_plan_fabric_at(out->plan, fabric)->id;
}

static void write_number(output *out, const char *key, qc_length length)
{
    qci_write_ratio(&out->writer, key, length, out->one, LENGTH_PLACES);
}

static void write_length_text(output *out, const char *key, qc_length length)
{
    char text[QCI_LENGTH_TEXT];

    qci_length_format_unit(length, out->units, text, sizeof text);
    qci_write_text(&out->writer, key, text);
}

static void write_length(output *out, const char *key, qc_length length)
{
    char text_key[48];

    snprintf(text_key, sizeof text_key, "%s_text", key);
    write_number(out, key, length);
    write_length_text(out, text_key, length);
}

/* A length that is asked for in a shop. */
static void write_purchase(output *out, const char *key, qc_length length)
{
    char text_key[48], text[QCI_LENGTH_TEXT];

    snprintf(text_key, sizeof text_key, "%s_text", key);
    if (length < 0) {
        qci_write_null(&out->writer, key);
        qci_write_null(&out->writer, text_key);
        return;
    }
    qc_length_format_purchase(length, out->units, text, sizeof text);
    write_number(out, key, length);
    qci_write_text(&out->writer, text_key, text);
}

static void write_size(output *out, const char *key, const qc_length size[2])
{
    char text_key[48];

    snprintf(text_key, sizeof text_key, "%s_text", key);
    qci_write_open_line(&out->writer, key);
    for (int i = 0; i < 2; i++)
        write_number(out, NULL, size[i]);
    qci_write_close(&out->writer, ']');
    qci_write_open_line(&out->writer, text_key);
    for (int i = 0; i < 2; i++)
        write_length_text(out, NULL, size[i]);
    qci_write_close(&out->writer, ']');
}

static void write_area(output *out, const char *key, int64_t area)
{
    qci_write_ratio(&out->writer, key, area, out->one * out->one, AREA_PLACES);
}

static void write_turned(output *out, qc_turn turn)
{
    if (turn == QC_TURN_QUARTER)
        qci_write_text(&out->writer, "turned", "quarter");
    else
        qci_write_bool(&out->writer, "turned", turn == QC_TURN_HALF);
}

static void write_piece(output *out, const qc_plan_piece *piece)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "id", piece->id);
    qci_write_text(writer, "fabric", fabric_id(out, piece->fabric));
    qci_write_text(writer, "shape", shape_words[piece->shape]);
    if (piece->finished[0])
        write_size(out, "finished", piece->finished);
    write_size(out, "cut", piece->cut);
    if (piece->trim_to[0])
        write_size(out, "trim_to", piece->trim_to);
    qci_write_bool(writer, "rounded", piece->rounded);
    qci_write_integer(writer, "count", piece->count);
    qci_write_integer(writer, "spares", piece->spares);
    if (piece->extra)
        qci_write_integer(writer, "extra", piece->extra);
    qci_write_close(writer, '}');
}

static void write_level_value(output *out, const char *key, qc_goal goal,
                              int64_t value)
{
    switch (goal) {
    case QC_GOAL_BOUGHT:
        write_purchase(out, key, value);
        break;
    case QC_GOAL_USED:
        write_length(out, key, value);
        break;
    case QC_GOAL_MONEY:
        qci_write_ratio(&out->writer, key, value, MONEY, 4);
        break;
    case QC_GOAL_LEFTOVER:
        write_area(out, key, value);
        break;
    case QC_GOAL_SETUPS:
    case QC_GOAL_CUTS:
        qci_write_integer(&out->writer, key, value);
        break;
    }
}

static void write_level(output *out, const qc_level *level)
{
    qci_write_open(&out->writer, NULL, '{');
    qci_write_text(&out->writer, "goal", goal_words[level->goal]);
    write_level_value(out, "value", level->goal, level->value);
    write_level_value(out, "bound", level->goal, level->bound);
    qci_write_text(&out->writer, "status", outcome_word(level->outcome));
    qci_write_close(&out->writer, '}');
}

/* Only squares that are cut on become more than one piece. */
static void write_yields(output *out, const qc_stack *stack)
{
    if (stack->yields > 1)
        qci_write_integer(&out->writer, "yields", stack->yields);
}

static void write_stack(output *out, const qc_stack *stack)
{
    qci_write_open(&out->writer, NULL, '{');
    qci_write_text(&out->writer, "piece", piece_id(out, stack->piece));
    qci_write_integer(&out->writer, "count", stack->count);
    write_turned(out, stack->turn);
    write_length(out, "width", stack->width);
    write_length(out, "height", stack->height);
    write_yields(out, stack);
    qci_write_close(&out->writer, '}');
}

static void write_subcut(output *out, const qc_subcut *subcut)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_integer(writer, "count", subcut->count);
    write_length(out, "width", subcut->width);
    qci_write_open_line(writer, "leans");
    qci_write_integer(writer, NULL, 0);
    qci_write_integer(writer, NULL, 0);
    qci_write_close(writer, ']');
    if (subcut->stack_count == 1 && subcut->stacks[0].count == 1) {
        qci_write_text(writer, "piece", piece_id(out, subcut->stacks[0].piece));
        write_turned(out, subcut->stacks[0].turn);
        write_yields(out, &subcut->stacks[0]);
    } else {
        qci_write_open(writer, "stack", '[');
        for (size_t i = 0; i < subcut->stack_count; i++)
            write_stack(out, &subcut->stacks[i]);
        qci_write_close(writer, ']');
    }
    qci_write_close(writer, '}');
}

static void write_strip(output *out, const qc_strip *strip)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    write_length(out, "height", strip->height);
    qci_write_integer(writer, "repeat", strip->repeat);
    qci_write_bool(writer, "cut_short", strip->cut_short);
    qci_write_text(writer, "source", "bolt");
    write_length(out, "used_width", strip->used_width);
    qci_write_open(writer, "subcuts", '[');
    for (size_t i = 0; i < strip->subcut_count; i++)
        write_subcut(out, &strip->subcuts[i]);
    qci_write_close(writer, ']');
    qci_write_close(writer, '}');
}

static void write_leftover(output *out, const qc_leftover *leftover)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    write_length(out, "length", leftover->length);
    write_length(out, "width", leftover->width);
    qci_write_integer(writer, "count", leftover->count);
    qci_write_text(writer, "source", "bolt");
    if (leftover->strip != QC_NONE)
        qci_write_integer(writer, "strip", (int64_t)leftover->strip + 1);
    qci_write_close(writer, '}');
}

static void write_fabric_head(output *out, const qc_plan_fabric *fabric)
{
    qci_writer *writer = &out->writer;

    qci_write_text(writer, "id", fabric->id);
    qci_write_text(writer, "name", fabric->name);
    qci_write_text(writer, "status", outcome_word(fabric->outcome));
    qci_write_text(writer, "print", print_words[fabric->print]);
    write_length(out, "usable_width", fabric->usable_width);
    write_length(out, "square_up", fabric->square_up);
    write_purchase(out, "step", fabric->step);
    qci_write_ratio(writer, "shrink_length", fabric->shrink_length, 100, 2);
    write_length(out, "used", fabric->used);
    write_purchase(out, "bought", fabric->bought);
    write_purchase(out, "bound", fabric->bound);
    if (fabric->bought)
        qci_write_ratio(writer, "gap", fabric->bought - fabric->bound,
                        fabric->bought, GAP_PLACES);
    else
        qci_write_integer(writer, "gap", 0);
    write_purchase(out, "hand_method", fabric->hand_method);
    write_length(out, "narrowest_width", fabric->narrowest_width);
    qci_write_text(writer, "narrowest_width_status",
                   outcome_word(fabric->narrowest_outcome));
    if (fabric->price != QC_DEFAULT)
        qci_write_ratio(writer, "price", fabric->price, MONEY, 4);
    if (fabric->cost != QC_DEFAULT)
        qci_write_ratio(writer, "cost", fabric->cost, MONEY, 4);
    qci_write_integer(writer, "setups", fabric->setups);
    qci_write_integer(writer, "cuts", fabric->cuts);
}

static void write_area_account(output *out, const qc_area *area)
{
    qci_write_open(&out->writer, "area", '{');
    write_area(out, "finished", area->finished);
    write_area(out, "seams", area->seams);
    write_area(out, "leftover", area->leftover);
    write_area(out, "scrap", area->scrap);
    qci_write_close(&out->writer, '}');
}

static void write_fabric(output *out, size_t index)
{
    const qc_plan_fabric *fabric = qc_plan_fabric_at(out->plan, index);
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    write_fabric_head(out, fabric);
    qci_write_open(writer, "levels", '[');
    for (size_t i = 0; i < fabric->level_count; i++)
        write_level(out, qc_plan_level_at(out->plan, index, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "strips", '[');
    for (size_t i = 0; i < fabric->strip_count; i++)
        write_strip(out, qc_plan_strip_at(out->plan, index, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "leftovers", '[');
    for (size_t i = 0; i < fabric->leftover_count; i++)
        write_leftover(out, qc_plan_leftover_at(out->plan, index, i));
    qci_write_close(writer, ']');
    write_area_account(out, &fabric->area);
    qci_write_close(writer, '}');
}

static void write_step(output *out, const qc_step *step)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_integer(writer, "n", step->number);
    qci_write_text(writer, "fabric", fabric_id(out, step->fabric));
    qci_write_text(writer, "do", step_words[step->kind]);
    qci_write_text(writer, "source", step->source);
    if (step->part_in != QC_NONE)
        qci_write_integer(writer, "part", step->part_in);
    if (step->part_out != QC_NONE)
        qci_write_integer(writer, "part_out", step->part_out);
    if (step->piece != QC_NONE) {
        qci_write_text(writer, "piece", piece_id(out, step->piece));
        write_turned(out, step->turn);
    }
    qci_write_bool(writer, "rest_is_piece", step->rest_is_piece);
    write_length(out, "distance", step->distance);
    qci_write_integer(writer, "copies", step->copies);
    qci_write_integer(writer, "layers", step->layers);
    qci_write_integer(writer, "repeat", step->repeat);
    qci_write_integer(writer, "cuts", step->cuts);
    qci_write_integer(writer, "yield", step->yield);
    qci_write_integer(writer, "total", step->total);
    qci_write_text(writer, "text", step->text);
    qci_write_close(writer, '}');
}

static void write_head(output *out)
{
    qci_writer *writer = &out->writer;
    const qc_plan *plan = out->plan;

    qci_write_integer(writer, "quiltcut", 1);
    qci_write_text(writer, "title", qc_plan_title(plan));
    qci_write_text(writer, "units", qci_units_name(out->units));
    qci_write_text(writer, "status", outcome_word(qc_plan_outcome(plan)));
    write_length(out, "ruler", plan->ruler);
    write_length(out, "seam", plan->seam);
    qci_write_integer(writer, "layers", plan->layers);
    qci_write_open(writer, "defaults", '[');
    for (size_t i = 0; i < qc_plan_default_count(plan); i++)
        qci_write_text(writer, NULL, qc_plan_default_at(plan, i));
    qci_write_close(writer, ']');
}

static void write_plan(output *out)
{
    qci_writer *writer = &out->writer;
    const qc_plan *plan = out->plan;

    qci_write_open(writer, NULL, '{');
    write_head(out);
    qci_write_open(writer, "pieces", '[');
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        write_piece(out, qc_plan_piece_at(plan, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "fabrics", '[');
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++)
        write_fabric(out, i);
    qci_write_close(writer, ']');
    qci_write_open(writer, "cautions", '[');
    for (size_t i = 0; i < QCI_CAUTION_COUNT; i++)
        qci_write_text(writer, NULL, qci_cautions[i]);
    qci_write_close(writer, ']');
    qci_write_open(writer, "steps", '[');
    for (size_t i = 0; i < qc_plan_step_count(plan); i++)
        write_step(out, qc_plan_step_at(plan, i));
    qci_write_close(writer, ']');
    qci_write_close(writer, '}');
    qci_text_add(&writer->text, "\n", 1);
}

qc_status qc_plan_json(const qc_plan *plan, char **out_text, qc_error *err)
{
    output out = {.plan = plan};

    out.units = qc_plan_units(plan);
    out.one = qci_units_one(out.units);
    write_plan(&out);
    *out_text = qci_text_take(&out.writer.text);
    return *out_text ? QC_STATUS_OK : qci_no_memory(err);
}
