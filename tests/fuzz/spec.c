/* A job's spec out of bytes, by the C door: what enums, counts and lengths a
 * host program may set by mistake. Fabrics and pieces refer to each other by
 * ids that mostly exist. */
#include "fuzz.h"

#include <string.h>

static const char *const fabric_ids[] = {"a", "b", "c"};
static const char *const piece_ids[] = {"P", "Q", "R", "S", "T", "U"};
static const char *const set_ids[] = {"X", "Y"};

/* One byte in eight asks for something other than the default. */
static bool now_and_then(fuzz_bytes *from)
{
    return fuzz_choice(from, 8) == 7;
}

static void fill_fabric(fuzz_bytes *from, qc_fabric_spec *fabric, size_t index)
{
    qc_fabric_spec_init(fabric);
    fabric->id = fabric_ids[index];
    fabric->width = (16 + (qc_length)fuzz_choice(from, 48)) * QC_INCH;
    fabric->print = (qc_print)((int)fuzz_choice(from, 6) - 1);
    if (!now_and_then(from))
        return;
    fabric->name = "Blue <&> \"\xC2\xBD\"";
    fabric->width = fuzz_length(from);
    fabric->raw_width = now_and_then(from) ? fuzz_length(from) : QC_DEFAULT;
    fabric->step = fuzz_length(from);
    fabric->square_up = fuzz_length(from);
    fabric->shrink_length = (int32_t)fuzz_number(from, 2);
    fabric->shrink_width = (int32_t)fuzz_number(from, 2);
    fabric->price = fuzz_number(from, 1 + (int)fuzz_choice(from, 8));
}

static int64_t count(fuzz_bytes *from)
{
    switch (fuzz_choice(from, 16)) {
    default:
        return fuzz_choice(from, 64);
    case 14:
        return fuzz_number(from, 4);
    case 15:
        return fuzz_number(from, 8);
    }
}

static int32_t angle(fuzz_bytes *from)
{
    static const int32_t usual[] = {45, 60, 30, 120, 135, 75, 90, 15};

    if (now_and_then(from))
        return (int32_t)fuzz_number(from, 4);
    return usual[fuzz_choice(from, 8)] * QC_DEGREE;
}

void fuzz_polygon(fuzz_bytes *from, qc_piece_spec *piece,
                  qc_point points[QC_MAX_CORNERS])
{
    static const qc_length scales[] = {QC_INCH / 4, QC_INCH / 64, QC_MM, 1};
    unsigned scale = fuzz_choice(from, 8);
    int bytes = scale < 4 ? 1 + (int)(scale > 0) : (int)scale;

    piece->points = points;
    piece->point_count = 1 + fuzz_choice(from, QC_MAX_CORNERS + 1);
    for (size_t i = 0; i < piece->point_count && i < QC_MAX_CORNERS; i++) {
        qc_length each = scale < 4 ? scales[scale] : 1;

        points[i].x = fuzz_number(from, bytes) * each;
        points[i].y = fuzz_number(from, bytes) * each;
    }
}

static void fill_piece(fuzz_bytes *from, fuzz_spec *spec, size_t index)
{
    qc_piece_spec *piece = &spec->pieces[index];

    qc_piece_spec_init(piece);
    piece->id = piece_ids[now_and_then(from) ? 0 : index];
    piece->fabric =
        fabric_ids[fuzz_choice(from, FUZZ_FABRICS) % spec->spec.fabric_count];
    piece->shape = (qc_shape)fuzz_choice(from, QC_SHAPE_STRIP + 2);
    piece->is_cut = fuzz_choice(from, 2);
    for (int i = 0; i < 3; i++)
        piece->size[i] = fuzz_length(from);
    if (piece->shape == QC_SHAPE_DIAMOND ||
        piece->shape == QC_SHAPE_PARALLELOGRAM)
        piece->angle = angle(from);
    if (piece->shape == QC_SHAPE_POLYGON)
        fuzz_polygon(from, piece, spec->points[index]);
    piece->count = count(from);
    if (fuzz_choice(from, 4) == 3) {
        piece->count = QC_DEFAULT;
        piece->left = count(from);
        piece->right = count(from);
    }
    if (!now_and_then(from))
        return;
    piece->size_rounded = fuzz_choice(from, 2);
    piece->tips = (qc_tips)fuzz_choice(from, 3);
    piece->joins = (qc_joins)fuzz_choice(from, 4);
    piece->trim = fuzz_length(from);
    piece->grain = (qc_grain)((int)fuzz_choice(from, 6) - 1);
    piece->facing = (qc_facing)fuzz_choice(from, 3);
}

static void fill_set(fuzz_bytes *from, fuzz_spec *spec, size_t index)
{
    qc_strip_set_spec *set = &spec->sets[index];

    qc_strip_set_spec_init(set);
    set->id = set_ids[index];
    set->strips = spec->strips[index];
    set->strip_count = fuzz_choice(from, FUZZ_SET_STRIPS + 1);
    for (size_t i = 0; i < set->strip_count; i++) {
        qc_set_strip_spec *strip = &spec->strips[index][i];

        memset(strip, 0, sizeof *strip);
        strip->fabric = fabric_ids[fuzz_choice(from, FUZZ_FABRICS) %
                                   spec->spec.fabric_count];
        strip->is_cut = fuzz_choice(from, 2);
        strip->width = fuzz_length(from);
    }
    set->angle = angle(from);
    set->hands = (qc_set_hands)fuzz_choice(from, 4);
    set->stagger = (qc_stagger)fuzz_choice(from, 5);
    if (set->stagger == QC_STAGGER_LENGTH)
        set->stagger_by = fuzz_length(from);
    set->spacing = now_and_then(from) ? QC_DEFAULT : fuzz_length(from);
    set->segments = count(from);
    if (now_and_then(from)) {
        set->second_at = fuzz_length(from);
        set->second_angle = angle(from);
    }
}

static void fill_options(fuzz_bytes *from, qc_job_spec *spec)
{
    spec->ruler = fuzz_length(from);
    spec->seam = fuzz_length(from);
    spec->goal_count = fuzz_choice(from, QC_GOAL_COUNT + 1);
    for (size_t i = 0; i < spec->goal_count; i++)
        spec->goals[i] = (qc_goal)fuzz_choice(from, QC_GOAL_COUNT + 1);
    spec->stages = (int32_t)fuzz_choice(from, 4);
    spec->no_trim = fuzz_choice(from, 2);
    spec->keep = fuzz_length(from);
    spec->layers = (int32_t)fuzz_choice(from, 10);
    spec->spare_count = now_and_then(from) ? fuzz_number(from, 8) : 0;
    spec->spare_percent =
        now_and_then(from) ? (int32_t)fuzz_number(from, 4) : 0;
}

void fuzz_fill_spec(fuzz_bytes *from, fuzz_spec *spec)
{
    qc_job_spec *job = &spec->spec;

    memset(spec, 0, sizeof *spec);
    qc_job_spec_init(job, (qc_units)((int)fuzz_choice(from, 5) - 1));
    job->title = "Fuzz";
    job->fabrics = spec->fabrics;
    job->pieces = spec->pieces;
    job->strip_sets = spec->sets;
    job->fabric_count = 1 + fuzz_choice(from, FUZZ_FABRICS);
    job->piece_count = fuzz_choice(from, FUZZ_PIECES + 1);
    job->strip_set_count = fuzz_choice(from, 4) == 3 ? fuzz_choice(from, 3) : 0;
    if (now_and_then(from))
        fill_options(from, job);
    for (size_t i = 0; i < job->fabric_count; i++)
        fill_fabric(from, &spec->fabrics[i], i);
    for (size_t i = 0; i < job->piece_count; i++)
        fill_piece(from, spec, i);
    for (size_t i = 0; i < job->strip_set_count; i++)
        fill_set(from, spec, i);
}
