/* Pieces, the strips that they are cut from, and the strip sets that strips
 * are sewn into, as JSON. `piece` is always the id that the piece has in
 * `pieces`, which tells left from right; `hand` repeats that for programs. */
#include <quiltcut/block.h>

#include "json/plan_words.h"
#include "json/plan_write.h"

/* Sizes are as many as the shape has; the rest are 0. */
static void write_finished(qci_output *out, const qc_plan_piece *piece)
{
    if (piece->finished[0])
        qci_output_sizes(out, "finished", piece->finished,
                         piece->finished[2]   ? 3
                         : piece->finished[1] ? 2
                                              : 1);
}

static void write_outline(qci_output *out, const qc_point *corners,
                          size_t count)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '[');
    for (size_t i = 0; i < count; i++) {
        qci_write_open_line(writer, NULL);
        qci_output_number(out, NULL, corners[i].x);
        qci_output_number(out, NULL, corners[i].y);
        qci_write_close(writer, ']');
    }
    qci_write_close(writer, ']');
}

static void write_shape(qci_output *out, const qc_plan_piece *piece)
{
    qci_writer *writer = &out->writer;

    qci_write_text(writer, "shape", qc_shape_name(piece->shape));
    if (piece->angle)
        qci_output_angle(out, "angle", piece->angle);
    qci_output_hand(out, piece->hand);
    if (piece->twin != QC_NONE &&
        qc_plan_piece_at(out->plan, piece->twin) != piece)
        qci_write_text(writer, "twin", qci_output_piece_id(out, piece->twin));
    if (piece->blunt)
        qci_write_bool(writer, "blunt", true);
    if (piece->facing_kept)
        qci_write_text(writer, "facing", "kept");
    if (!piece->outline_count)
        return;
    qci_write_open(writer, "outlines", '[');
    for (size_t i = 0; i < piece->base_count; i++)
        write_outline(out, piece->outline + i * piece->outline_count,
                      piece->outline_count);
    qci_write_close(writer, ']');
}

/* The unit that pieces or segments are for. */
static void write_unit(qci_output *out, uint32_t unit)
{
    const qc_plan_unit *info = qc_plan_unit_at(out->plan, unit);

    if (info)
        qci_write_text(&out->writer, "unit", info->id);
}

void qci_output_piece(qci_output *out, const qc_plan_piece *piece)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "id", piece->id);
    if (piece->job_id)
        qci_write_text(writer, "job_id", piece->job_id);
    qci_write_text(writer, "fabric", qci_output_fabric_id(out, piece->fabric));
    write_shape(out, piece);
    write_finished(out, piece);
    qci_output_sizes(out, "cut", piece->cut, 2);
    if (piece->trim_to[0])
        qci_output_sizes(out, "trim_to", piece->trim_to, 2);
    qci_write_bool(writer, "rounded", piece->rounded);
    qci_write_integer(writer, "count", piece->count);
    qci_write_integer(writer, "spares", piece->spares);
    if (piece->extra)
        qci_write_integer(writer, "extra", piece->extra);
    if (piece->strip_set != QC_NONE)
        qci_write_text(writer, "strip_set",
                       qc_plan_set_at(out->plan, piece->strip_set)->job_id);
    if (piece->role) {
        qci_write_text(writer, "block",
                       qc_plan_block_at(out->plan, piece->block)->id);
        qci_write_text(writer, "role", piece->role);
        if (piece->in_each)
            qci_write_integer(writer, "in_each", piece->in_each);
    }
    write_unit(out, piece->unit);
    if (piece->patches)
        qci_write_integer(writer, "patches", piece->patches);
    qci_write_close(writer, '}');
}

void qci_output_unit(qci_output *out, const qc_plan_unit *unit)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "block",
                   qc_plan_block_at(out->plan, unit->block)->id);
    qci_write_text(writer, "unit", unit->id);
    qci_write_text(writer, "method", qc_method_name(unit->method));
    qci_write_integer(writer, "count", unit->count);
    qci_write_integer(writer, "made", unit->made);
    qci_output_sizes(out, "finished", unit->size, 2);
    if (unit->trim)
        qci_output_length(out, "trim", unit->trim);
    if (unit->trim_to[0])
        qci_output_sizes(out, "trim_to", unit->trim_to, 2);
    if (unit->outer[0])
        qci_output_sizes(out, "outer", unit->outer, 2);
    qci_write_close(writer, '}');
}

void qci_output_block(qci_output *out, const qc_plan_block *block)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "id", block->id);
    qci_write_text(writer, "name", block->name);
    qci_output_length(out, "width", block->width);
    qci_output_length(out, "height", block->height);
    qci_write_integer(writer, "count", block->count);
    qci_write_close(writer, '}');
}

/* Only squares that are cut on become more than one piece. */
static void write_yields(qci_output *out, const qc_stack *stack)
{
    if (stack->yields > 1)
        qci_write_integer(&out->writer, "yields", stack->yields);
}

static void write_named(qci_output *out, const qc_stack *stack, bool alternate)
{
    qci_write_text(&out->writer, "piece",
                   qci_output_piece_id(out, stack->piece));
    qci_output_hand(out, qc_plan_piece_at(out->plan, stack->piece)->hand);
    qci_output_turned(out, stack->turn, alternate);
    /* A square that becomes triangles lies as a square. */
    if (stack->yields == 1)
        qci_output_lie(out, stack->piece, stack->base, stack->mirrored);
    write_yields(out, stack);
}

static void write_stack(qci_output *out, const qc_stack *stack)
{
    qci_write_open(&out->writer, NULL, '{');
    write_named(out, stack, false);
    qci_write_integer(&out->writer, "count", stack->count);
    qci_output_length(out, "width", stack->width);
    qci_output_length(out, "height", stack->height);
    qci_write_close(&out->writer, '}');
}

static void write_subcut(qci_output *out, const qc_subcut *subcut)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_integer(writer, "count", subcut->count);
    qci_output_length(out, "width", subcut->width);
    qci_write_open_line(writer, "leans");
    qci_output_number(out, NULL, subcut->lean[0]);
    qci_output_number(out, NULL, subcut->lean[1]);
    qci_write_close(writer, ']');
    if (subcut->corners)
        qci_write_integer(writer, "corners", subcut->corners);
    if (subcut->stack_count == 1 && subcut->stacks[0].count == 1) {
        write_named(out, &subcut->stacks[0], subcut->alternate);
    } else {
        qci_write_open(writer, "stack", '[');
        for (size_t i = 0; i < subcut->stack_count; i++)
            write_stack(out, &subcut->stacks[i]);
        qci_write_close(writer, ']');
    }
    qci_write_close(writer, '}');
}

void qci_output_strip(qci_output *out, const qc_strip *strip)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_output_length(out, "height", strip->height);
    qci_write_integer(writer, "repeat", strip->repeat);
    qci_write_bool(writer, "cut_short", strip->cut_short);
    qci_write_bool(writer, "alike", strip->alike);
    qci_write_bool(writer, "paired", strip->paired);
    qci_write_text(writer, "source", "bolt");
    qci_output_length(out, "used_width", strip->used_width);
    qci_write_open(writer, "subcuts", '[');
    for (size_t i = 0; i < strip->subcut_count; i++)
        write_subcut(out, &strip->subcuts[i]);
    qci_write_close(writer, ']');
    qci_write_close(writer, '}');
}

static void write_set_strip(qci_output *out, const qc_set_strip *strip)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "fabric", qci_output_fabric_id(out, strip->fabric));
    qci_output_length(out, "width", strip->width);
    qci_output_length(out, "offset", strip->offset);
    if (strip->full_piece != QC_NONE)
        qci_write_text(writer, "full_piece",
                       qci_output_piece_id(out, strip->full_piece));
    if (strip->part_piece != QC_NONE)
        qci_write_text(writer, "part_piece",
                       qci_output_piece_id(out, strip->part_piece));
    qci_write_close(writer, '}');
}

static void write_set_head(qci_output *out, const qc_plan_set *set)
{
    qci_writer *writer = &out->writer;

    qci_write_text(writer, "id", set->id);
    if (set->job_id)
        qci_write_text(writer, "job_id", set->job_id);
    qci_output_hand(out, set->hand);
    qci_output_length(out, "height", set->height);
    qci_output_angle(out, "angle", set->angle);
    qci_output_length(out, "lean", set->lean);
    qci_output_length(out, "spacing", set->spacing);
    qci_output_length(out, "pitch", set->pitch);
    qci_output_length(out, "first", set->first);
    qci_output_length(out, "usable_length", set->usable);
    qci_write_integer(writer, "segments", set->segments);
    qci_write_integer(writer, "sets", set->sets);
    qci_write_integer(writer, "segments_of_each", set->per_set);
    qci_output_number(out, "blade", set->blade);
    if (set->sets)
        qci_output_length(out, "full_length", set->full_length);
    if (set->part_segments) {
        qci_write_integer(writer, "part_segments", set->part_segments);
        qci_output_length(out, "part_length", set->part_length);
    }
    if (qc_plan_unit_at(out->plan, set->unit))
        qci_write_text(
            writer, "block",
            qc_plan_block_at(out->plan,
                             qc_plan_unit_at(out->plan, set->unit)->block)
                ->id);
    write_unit(out, set->unit);
    if (set->second_angle) {
        qci_output_length(out, "second_at", set->second_at);
        qci_output_angle(out, "second_angle", set->second_angle);
    }
}

void qci_output_set(qci_output *out, size_t set)
{
    const qc_plan_set *info = qc_plan_set_at(out->plan, set);
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    write_set_head(out, info);
    qci_write_open(writer, "strips", '[');
    for (size_t i = 0; i < info->strip_count; i++)
        write_set_strip(out, qc_plan_set_strip_at(out->plan, set, i));
    qci_write_close(writer, ']');
    qci_write_close(writer, '}');
}
