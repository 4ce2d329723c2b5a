#include "step_number.h"

const char *const step_number_names[NUMBERS] = {
    "number", "fabric",        "kind",     "part_in", "part_out", "piece",
    "turn",   "rest_is_piece", "distance", "copies",  "layers",   "repeat",
    "cuts",   "yield",         "total",    "lean",    "along",    "alternate",
    "paired", "mirrored",      "base",     "set"};

int64_t step_number_get(const qc_step *step, step_number which)
{
    switch (which) {
    case NUMBER:
        return step->number;
    case FABRIC:
        return step->fabric;
    case KIND:
        return step->kind;
    case PART_IN:
        return step->part_in;
    case PART_OUT:
        return step->part_out;
    case PIECE:
        return step->piece;
    case TURN:
        return step->turn;
    case REST_IS_PIECE:
        return step->rest_is_piece;
    case DISTANCE:
        return step->distance;
    case COPIES:
        return step->copies;
    case LAYERS:
        return step->layers;
    case REPEAT:
        return step->repeat;
    case CUTS:
        return step->cuts;
    case YIELD:
        return step->yield;
    case TOTAL:
        return step->total;
    case LEAN:
        return step->lean;
    case ALONG:
        return step->along;
    case ALTERNATE:
        return step->alternate;
    case PAIRED:
        return step->paired;
    case MIRRORED:
        return step->mirrored;
    case BASE:
        return step->base;
    case SET:
    case NUMBERS:
        break;
    }
    return step->set;
}

void step_number_set(qc_step *step, step_number which, int64_t value)
{
    switch (which) {
    case NUMBER:
        step->number = (uint32_t)value;
        break;
    case FABRIC:
        step->fabric = (uint32_t)value;
        break;
    case KIND:
        step->kind = (qc_step_kind)value;
        break;
    case PART_IN:
        step->part_in = (uint32_t)value;
        break;
    case PART_OUT:
        step->part_out = (uint32_t)value;
        break;
    case PIECE:
        step->piece = (uint32_t)value;
        break;
    case TURN:
        step->turn = (qc_turn)value;
        break;
    case REST_IS_PIECE:
        step->rest_is_piece = value != 0;
        break;
    case DISTANCE:
        step->distance = value;
        break;
    case COPIES:
        step->copies = value;
        break;
    case LAYERS:
        step->layers = (uint32_t)value;
        break;
    case REPEAT:
        step->repeat = (uint32_t)value;
        break;
    case CUTS:
        step->cuts = value;
        break;
    case YIELD:
        step->yield = value;
        break;
    case TOTAL:
        step->total = value;
        break;
    case LEAN:
        step->lean = value;
        break;
    case ALONG:
        step->along = value;
        break;
    case ALTERNATE:
        step->alternate = value != 0;
        break;
    case PAIRED:
        step->paired = value != 0;
        break;
    case MIRRORED:
        step->mirrored = value != 0;
        break;
    case BASE:
        step->base = (uint32_t)value;
        break;
    case SET:
    case NUMBERS:
        step->set = (uint32_t)value;
        break;
    }
}
