/* The plan as JSON. Everything is read off the plan, in a fixed order of
 * members. */
#include <quiltcut/report.h>

#include "base/caution.h"
#include "base/error.h"
#include "length/units.h"
#include "json/plan_words.h"
#include "json/plan_write.h"

#define GAP_PLACES 9
#define MONEY 10000

const char *const qci_print_words[4] = {"plain", "one-way", "two-way",
                                        "reversible"};
static const char *const goal_words[] = {"bought", "used", "money",
                                         "setups", "cuts", "leftover"};
const char *const qci_step_words[QCI_STEPS] = {
    [QC_STEP_SQUARE_UP] = "square up",
    [QC_STEP_STRIP] = "strip",
    [QC_STEP_SQUARE_END] = "square end",
    [QC_STEP_SUBCUT] = "subcut",
    [QC_STEP_SPLIT] = "split",
    [QC_STEP_TRIM] = "trim",
    [QC_STEP_KEEP] = "keep",
    [QC_STEP_DIAGONAL] = "diagonal",
    [QC_STEP_SLANT] = "slant",
    [QC_STEP_OUTLINE] = "outline",
    [QC_STEP_SEW] = "sew",
    [QC_STEP_CROSSCUT] = "crosscut",
    [QC_STEP_HALVE] = "halve",
    [QC_STEP_TRIM_BACK] = "trim back"};

const char *const qci_outcome_words[2] = {
    [QC_OUTCOME_OPTIMAL] = "optimal", [QC_OUTCOME_FEASIBLE] = "feasible"};

static const char *outcome_word(qc_outcome outcome)
{
    return qci_outcome_words[outcome];
}

static void write_level_value(qci_output *out, const char *key, qc_goal goal,
                              int64_t value)
{
    switch (goal) {
    case QC_GOAL_BOUGHT:
        qci_output_purchase(out, key, value);
        break;
    case QC_GOAL_USED:
        qci_output_length(out, key, value);
        break;
    case QC_GOAL_MONEY:
        qci_write_ratio(&out->writer, key, value, MONEY, 4);
        break;
    case QC_GOAL_LEFTOVER:
        qci_output_area(out, key, value);
        break;
    case QC_GOAL_SETUPS:
    case QC_GOAL_CUTS:
        qci_write_integer(&out->writer, key, value);
        break;
    }
}

static void write_level(qci_output *out, const qc_level *level)
{
    qci_write_open(&out->writer, NULL, '{');
    qci_write_text(&out->writer, "goal", goal_words[level->goal]);
    write_level_value(out, "value", level->goal, level->value);
    write_level_value(out, "bound", level->goal, level->bound);
    qci_write_text(&out->writer, "status", outcome_word(level->outcome));
    qci_write_close(&out->writer, '}');
}

static void write_leftover(qci_output *out, const qc_leftover *leftover)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_output_length(out, "length", leftover->length);
    qci_output_length(out, "width", leftover->width);
    qci_write_integer(writer, "count", leftover->count);
    qci_write_text(writer, "source", "bolt");
    if (leftover->strip != QC_NONE)
        qci_write_integer(writer, "strip", (int64_t)leftover->strip + 1);
    qci_write_close(writer, '}');
}

static void write_fabric_head(qci_output *out, const qc_plan_fabric *fabric)
{
    qci_writer *writer = &out->writer;

    qci_write_text(writer, "id", fabric->id);
    qci_write_text(writer, "name", fabric->name);
    qci_write_text(writer, "status", outcome_word(fabric->outcome));
    qci_write_text(writer, "print", qci_print_words[fabric->print]);
    qci_output_length(out, "usable_width", fabric->usable_width);
    qci_output_length(out, "square_up", fabric->square_up);
    qci_output_purchase(out, "step", fabric->step);
    qci_write_ratio(writer, "shrink_length", fabric->shrink_length, 100, 2);
    qci_output_length(out, "used", fabric->used);
    qci_output_purchase(out, "bought", fabric->bought);
    qci_output_purchase(out, "bound", fabric->bound);
    if (fabric->bought)
        qci_write_ratio(writer, "gap", fabric->bought - fabric->bound,
                        fabric->bought, GAP_PLACES);
    else
        qci_write_integer(writer, "gap", 0);
    qci_output_purchase(out, "hand_method", fabric->hand_method);
    qci_output_length(out, "narrowest_width", fabric->narrowest_width);
    qci_write_text(writer, "narrowest_width_status",
                   outcome_word(fabric->narrowest_outcome));
    if (fabric->price != QC_DEFAULT)
        qci_write_ratio(writer, "price", fabric->price, MONEY, 4);
    if (fabric->cost != QC_DEFAULT)
        qci_write_ratio(writer, "cost", fabric->cost, MONEY, 4);
    qci_write_integer(writer, "setups", fabric->setups);
    qci_write_integer(writer, "cuts", fabric->cuts);
    qci_output_number(out, "blade", fabric->blade);
}

static void write_area_account(qci_output *out, const qc_area *area)
{
    qci_write_open(&out->writer, "area", '{');
    qci_output_area(out, "finished", area->finished);
    qci_output_area(out, "seams", area->seams);
    qci_output_area(out, "leftover", area->leftover);
    qci_output_area(out, "scrap", area->scrap);
    qci_write_close(&out->writer, '}');
}

static void write_fabric(qci_output *out, size_t index)
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
        qci_output_strip(out, qc_plan_strip_at(out->plan, index, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "leftovers", '[');
    for (size_t i = 0; i < fabric->leftover_count; i++)
        write_leftover(out, qc_plan_leftover_at(out->plan, index, i));
    qci_write_close(writer, ']');
    write_area_account(out, &fabric->area);
    qci_write_close(writer, '}');
}

/* Only cuts that may slant have a direction. */
static void write_slant(qci_output *out, const qc_step *step)
{
    if (step->kind != QC_STEP_SUBCUT && step->kind != QC_STEP_SLANT &&
        step->kind != QC_STEP_CROSSCUT)
        return;
    qci_output_length(out, "lean", step->lean);
    qci_output_length(out, "along", step->along);
}

static void write_step_piece(qci_output *out, const qc_step *step)
{
    qci_writer *writer = &out->writer;

    if (step->piece == QC_NONE) {
        if (step->alternate)
            qci_output_turned(out, step->turn, true);
        return;
    }
    qci_write_text(writer, "piece", qci_output_piece_id(out, step->piece));
    if (step->kind == QC_STEP_TRIM_BACK)
        return;
    qci_output_hand(out, qc_plan_piece_at(out->plan, step->piece)->hand);
    qci_output_turned(out, step->turn, step->alternate);
    qci_output_lie(out, step->piece, step->base, step->mirrored);
}

static void write_step_place(qci_output *out, const qc_step *step)
{
    qci_writer *writer = &out->writer;

    if (step->fabric != QC_NONE)
        qci_write_text(writer, "fabric",
                       qci_output_fabric_id(out, step->fabric));
    if (step->set != QC_NONE)
        qci_write_text(writer, "strip_set",
                       qc_plan_set_at(out->plan, step->set)->id);
    qci_write_text(writer, "do", qci_step_words[step->kind]);
    qci_write_text(writer, "source", step->source);
    if (step->part_in != QC_NONE)
        qci_write_integer(writer, "part", step->part_in);
    if (step->part_out != QC_NONE)
        qci_write_integer(writer, "part_out", step->part_out);
}

static void write_step(qci_output *out, const qc_step *step)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_integer(writer, "n", step->number);
    write_step_place(out, step);
    write_step_piece(out, step);
    qci_write_bool(writer, "paired", step->paired);
    qci_write_bool(writer, "rest_is_piece", step->rest_is_piece);
    qci_output_length(out, "distance", step->distance);
    write_slant(out, step);
    qci_write_integer(writer, "copies", step->copies);
    qci_write_integer(writer, "layers", step->layers);
    qci_write_integer(writer, "repeat", step->repeat);
    qci_write_integer(writer, "cuts", step->cuts);
    qci_output_number(out, "blade", step->blade);
    qci_write_integer(writer, "yield", step->yield);
    qci_write_integer(writer, "total", step->total);
    qci_write_text(writer, "text", step->text);
    qci_write_close(writer, '}');
}

static void write_head(qci_output *out)
{
    qci_writer *writer = &out->writer;
    const qc_plan *plan = out->plan;

    qci_write_integer(writer, "quiltcut", 1);
    qci_write_text(writer, "title", qc_plan_title(plan));
    qci_write_text(writer, "units", qci_units_name(out->units));
    qci_write_text(writer, "status", outcome_word(qc_plan_outcome(plan)));
    qci_output_length(out, "ruler", plan->ruler);
    qci_output_length(out, "seam", plan->seam);
    qci_write_integer(writer, "layers", plan->layers);
    qci_write_bool(writer, "left_handed", qc_plan_left_handed(plan));
    qci_write_open(writer, "defaults", '[');
    for (size_t i = 0; i < qc_plan_default_count(plan); i++)
        qci_write_text(writer, NULL, qc_plan_default_at(plan, i));
    qci_write_close(writer, ']');
}

static void write_plan(qci_output *out)
{
    qci_writer *writer = &out->writer;
    const qc_plan *plan = out->plan;

    qci_write_open(writer, NULL, '{');
    write_head(out);
    qci_write_open(writer, "blocks", '[');
    for (size_t i = 0; i < qc_plan_block_count(plan); i++)
        qci_output_block(out, qc_plan_block_at(plan, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "block_units", '[');
    for (size_t i = 0; i < qc_plan_unit_count(plan); i++)
        qci_output_unit(out, qc_plan_unit_at(plan, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "pieces", '[');
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        qci_output_piece(out, qc_plan_piece_at(plan, i));
    qci_write_close(writer, ']');
    qci_write_open(writer, "fabrics", '[');
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++)
        write_fabric(out, i);
    qci_write_close(writer, ']');
    qci_write_open(writer, "strip_sets", '[');
    for (size_t i = 0; i < qc_plan_set_count(plan); i++)
        qci_output_set(out, i);
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
    qci_output out = {.plan = plan};

    out.units = qc_plan_units(plan);
    out.one = qci_units_one(out.units);
    write_plan(&out);
    *out_text = qci_text_take(&out.writer.text);
    return *out_text ? QC_STATUS_OK : qci_no_memory(err);
}
