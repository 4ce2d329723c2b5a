/* Plans from JSON. Numbers are decimals of the plan's units with as many places
 * as tell one whole length from the next, so the nearest whole one is the one
 * that was written. Areas have more digits than a double holds and are read off
 * the text itself. Ids come first, since pieces, sets and steps refer to each
 * other in every direction. */
#include "json/plan_read.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "length/units.h"
#include "shape/shape.h"
#include "json/items.h"
#include "json/number.h"
#include "json/plan_words.h"

#define PLACES 9
#define PLACES_ONE INT64_C(1000000000)
#define AREA_PLACES 12

static const qci_field counts = {.lo = 0, .hi = INT64_MAX};
static const qci_field indices = {.lo = 0, .hi = UINT32_MAX - 1};
static const qci_field percents = {.decimals = 2, .lo = 0, .hi = 9999};

typedef struct source {
    qci_reader *reader;
    const json_t *object;
    qc_plan *plan;
} source;

/* Reads the member `key` of the object, if it has one. */
static qc_status get(const source *s, const char *key, bool required,
                     qci_read_fn read, const qci_field *field, void *to)
{
    const json_t *value = json_object_get(s->object, key);
    qc_status status;

    if (!value && !required)
        return QC_STATUS_OK;
    qci_read_enter_key(s->reader, key);
    status = value ? read(s->reader, value, field, to)
                   : qci_read_fail(s->reader, NULL, "is missing");
    qci_read_leave(s->reader);
    return status;
}

static qc_status read_number(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    char text[QCI_NUMBER_ROOM];
    int64_t scaled = 0;
    qci_wide size;

    (void)field;
    if (!json_is_number(value))
        return qci_read_wrong_type(reader, value, "a number");
    qci_number_text(value, text);
    if (qci_decimal_scaled(text, PLACES, &scaled) != QCI_SCALED_OK)
        return qci_read_fail(reader, "up to 9 decimals", "is no length");
    size = (qci_wide)(scaled < 0 ? -scaled : scaled) *
           qci_units_one(reader->units);
    size = (size + PLACES_ONE / 2) / PLACES_ONE;
    if (size > QC_LENGTH_MAX)
        return qci_read_fail(reader, NULL, "is too large");
    *(qc_length *)to = scaled < 0 ? -(qc_length)size : (qc_length)size;
    return QC_STATUS_OK;
}

/* null: -1 */
static qc_status read_or_null(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    if (!json_is_null(value))
        return read_number(reader, value, field, to);
    *(qc_length *)to = -1;
    return QC_STATUS_OK;
}

/* The digits at *at as a whole number, of at most `most` digits. */
static int64_t digits(const char **at, const char *end, int most)
{
    int64_t value = 0;

    for (; *at < end && **at >= '0' && **at <= '9'; ++*at)
        if (most-- > 0)
            value = 10 * value + (**at - '0');
    return value;
}

static qc_status read_area(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    qci_spot spot = qci_locate(reader->text, reader->size, &reader->path);
    const char *at = reader->text + spot.start;
    const char *end = reader->text + spot.end, *point;
    qci_wide one = qci_units_one(reader->units);
    int64_t whole, part = 0, scale = 1;
    qci_wide area;

    (void)field;
    if (!json_is_number(value))
        return qci_read_wrong_type(reader, value, "a number");
    whole = digits(&at, end, 18);
    if (at < end && *at == '.') {
        point = ++at;
        part = digits(&at, end, AREA_PLACES);
        for (const char *digit = point; digit < at; digit++)
            scale *= digit - point < AREA_PLACES ? 10 : 1;
    }
    area = (qci_wide)whole * one * one + (part * one * one + scale / 2) / scale;
    if (at != end || area > INT64_MAX)
        return qci_read_fail(reader, "a plain number", "is no area");
    *(int64_t *)to = (int64_t)area;
    return QC_STATUS_OK;
}

static qc_status read_index(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    int64_t number = 0;
    qc_status status = qci_read_int64(reader, value, field, &number);

    *(uint32_t *)to = (uint32_t)number;
    return status;
}

static qc_status read_bool(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    (void)field;
    if (!json_is_boolean(value))
        return qci_read_wrong_type(reader, value, "true or false");
    *(bool *)to = json_is_true(value);
    return QC_STATUS_OK;
}

/* A copy, which is owned. */
static qc_status read_owned(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    const char *text = json_string_value(value);
    char *copy;

    (void)field;
    if (!text)
        return qci_read_wrong_type(reader, value, "a text");
    copy = qci_strdup(text);
    *(const char **)to = copy;
    return copy ? QC_STATUS_OK : qci_no_memory(reader->err);
}

/* Reads a list of two lengths or three. */
static qc_status read_lengths(qci_reader *reader, const json_t *value,
                              size_t most, qc_length *to)
{
    size_t count = json_array_size(value);
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value) || count < 1 || count > most)
        return qci_read_fail(reader, "a list of lengths", "is no size");
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_number(reader, json_array_get(value, i), NULL, &to[i]);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_size(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    (void)field;
    return read_lengths(reader, value, 2, to);
}

static qc_status read_finished(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    (void)field;
    return read_lengths(reader, value, 3, to);
}

/* Words. */
typedef struct word_list {
    const char *const *words;
    size_t count;
} word_list;

static qc_status get_word(const source *s, const char *key, bool required,
                          word_list list, int *out)
{
    const qci_words words = {list.words, list.count, list.count};
    const json_t *value = json_object_get(s->object, key);
    qc_status status;

    if (!value && !required)
        return QC_STATUS_OK;
    qci_read_enter_key(s->reader, key);
    status = value ? qci_read_word(s->reader, value, &words, out)
                   : qci_read_fail(s->reader, NULL, "is missing");
    qci_read_leave(s->reader);
    return status;
}

/* What an id may be one of. A piece names the strip set of the job, which may
 * have become two: the first is meant. */
typedef enum id_kind { FABRICS, PIECES, SETS, SETS_OF_JOB } id_kind;

static size_t count_of(const qc_plan *plan, id_kind of)
{
    return of == FABRICS  ? plan->fabric_count
           : of == PIECES ? plan->piece_count
                          : plan->set_count;
}

static const char *id_of(const qc_plan *plan, id_kind of, size_t i)
{
    return of == FABRICS  ? plan->fabrics[i].info.id
           : of == PIECES ? plan->pieces[i].id
           : of == SETS   ? plan->sets[i].info.id
                          : plan->sets[i].info.job_id;
}

/* References by id; `to` stays as it is when there is none. */
static qc_status get_reference(const source *s, const char *key, id_kind of,
                               uint32_t *to)
{
    const char *id = NULL;
    qc_status status = get(s, key, false, qci_read_text, NULL, &id);

    if (status || !id)
        return status;
    for (size_t i = 0; i < count_of(s->plan, of); i++) {
        const char *known = id_of(s->plan, of, i);

        if (known && strcmp(known, id) == 0) {
            *to = (uint32_t)i;
            return QC_STATUS_OK;
        }
    }
    qci_read_enter_key(s->reader, key);
    status = qci_read_fail(s->reader, NULL, "there is none of that id");
    qci_read_leave(s->reader);
    return status;
}

/* Calls `read` for each element of a list. */
static qc_status each(const source *s, const char *key,
                      qc_status (*read)(const source *, size_t))
{
    const json_t *list = json_object_get(s->object, key);
    qc_status status = QC_STATUS_OK;

    qci_read_enter_key(s->reader, key);
    for (size_t i = 0; i < json_array_size(list) && !status; i++) {
        source one = {s->reader, json_array_get(list, i), s->plan};

        qci_read_enter_index(s->reader, i);
        status = json_is_object(one.object)
                     ? read(&one, i)
                     : qci_read_wrong_type(s->reader, one.object,
                                           "an object: {...}");
        qci_read_leave(s->reader);
    }
    qci_read_leave(s->reader);
    return status;
}

/* Makes zeroed room for the elements of a list. */
static qc_status make_room(const source *s, const char *key, size_t size,
                           void **at, size_t *count)
{
    const json_t *list = json_object_get(s->object, key);

    if (!json_is_array(list)) {
        qc_status status;

        qci_read_enter_key(s->reader, key);
        status = list ? qci_read_wrong_type(s->reader, list, "a list: [...]")
                      : qci_read_fail(s->reader, NULL, "is missing");
        qci_read_leave(s->reader);
        return status;
    }
    *at = qci_calloc(json_array_size(list), size);
    if (!*at)
        return qci_no_memory(s->reader->err);
    *count = json_array_size(list);
    return QC_STATUS_OK;
}

static qc_status read_fabric_id(const source *s, size_t i)
{
    qc_plan_fabric *info = &s->plan->fabrics[i].info;
    qc_status status = get(s, "id", true, read_owned, NULL, &info->id);

    return status ? status
                  : get(s, "name", true, read_owned, NULL, &info->name);
}

static qc_status read_piece_id(const source *s, size_t i)
{
    return get(s, "id", true, read_owned, NULL, &s->plan->pieces[i].id);
}

static qc_status read_set_id(const source *s, size_t i)
{
    qc_plan_set *info = &s->plan->sets[i].info;
    qc_status status = get(s, "id", true, read_owned, NULL, &info->id);

    return status ? status
                  : get(s, "job_id", false, read_owned, NULL, &info->job_id);
}

static qc_status read_corner(qci_reader *reader, const json_t *value,
                             qc_point *to)
{
    qc_length at[2] = {0, 0};
    qc_status status = json_array_size(value) == 2
                           ? read_lengths(reader, value, 2, at)
                           : qci_read_fail(reader, "[x, y]", "is not a point");

    *to = (qc_point){at[0], at[1]};
    return status;
}

static qc_status read_outline(qci_reader *reader, const json_t *value,
                              size_t count, qc_point *to)
{
    qc_status status = QC_STATUS_OK;

    if (json_array_size(value) != count)
        return qci_read_fail(reader, "lists of 3 to 24 points, equally long",
                             "is no outline");
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_corner(reader, json_array_get(value, i), &to[i]);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_outlines(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    qc_plan_piece *piece = to;
    size_t bases = json_array_size(value);
    size_t corners = json_array_size(json_array_get(value, 0));
    qc_status status = QC_STATUS_OK;
    qc_point *points;

    (void)field;
    if (bases < 1 || bases > 24 || corners < 3 || corners > 24)
        return qci_read_fail(reader, "1 to 24 lists of 3 to 24 points",
                             "are no outlines");
    points = qci_calloc(bases * corners, sizeof *points);
    piece->outline = points;
    if (!points)
        return qci_no_memory(reader->err);
    piece->base_count = bases;
    piece->outline_count = corners;
    for (size_t i = 0; i < bases && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_outline(reader, json_array_get(value, i), corners,
                              points + i * corners);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status get_hand(const source *s, qc_hand *to)
{
    static const char *const words[] = {"none", "left", "right"};
    int hand = QC_HAND_NONE;
    qc_status status = get_word(s, "hand", false, (word_list){words, 3}, &hand);

    *to = (qc_hand)hand;
    return status;
}

static qc_status get_angle(const source *s, const char *key, int32_t *to)
{
    return get(s, key, false, qci_read_angle, NULL, to);
}

static qc_status read_piece(const source *s, size_t i)
{
    static const char *const facing[] = {"kept"};
    qc_plan_piece *piece = &s->plan->pieces[i];
    int shape = 0, kept = -1;
    qc_status status;

    piece->strip_set = piece->twin = QC_NONE;
    if ((status = get(s, "job_id", false, read_owned, NULL, &piece->job_id)) ||
        (status = get_reference(s, "fabric", FABRICS, &piece->fabric)) ||
        (status = get_word(s, "shape", true,
                           (word_list){qci_shape_words, QCI_SHAPES}, &shape)) ||
        (status = get_angle(s, "angle", &piece->angle)) ||
        (status = get_hand(s, &piece->hand)) ||
        (status = get_reference(s, "twin", PIECES, &piece->twin)) ||
        (status = get(s, "blunt", false, read_bool, NULL, &piece->blunt)) ||
        (status =
             get_word(s, "facing", false, (word_list){facing, 1}, &kept)) ||
        (status = get(s, "outlines", false, read_outlines, NULL, piece)) ||
        (status =
             get(s, "finished", false, read_finished, NULL, piece->finished)) ||
        (status = get(s, "cut", true, read_size, NULL, piece->cut)) ||
        (status = get(s, "trim_to", false, read_size, NULL, piece->trim_to)) ||
        (status =
             get(s, "count", true, qci_read_int64, &counts, &piece->count)) ||
        (status =
             get(s, "spares", true, qci_read_int64, &counts, &piece->spares)))
        return status;
    piece->shape = (qc_shape)shape;
    piece->facing_kept = kept == 0;
    /* Its own mirror image is its twin, which goes without saying. */
    if (piece->twin == QC_NONE && piece->hand == QC_HAND_NONE)
        piece->twin = (uint32_t)i;
    return get_reference(s, "strip_set", SETS_OF_JOB, &piece->strip_set);
}

static qc_status read_areas(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    const source s = {reader, value, NULL};
    qc_area *area = to;
    qc_status status;

    (void)field;
    if ((status =
             get(&s, "finished", true, read_area, NULL, &area->finished)) ||
        (status = get(&s, "seams", true, read_area, NULL, &area->seams)) ||
        (status = get(&s, "leftover", true, read_area, NULL, &area->leftover)))
        return status;
    return get(&s, "scrap", true, read_area, NULL, &area->scrap);
}

static qc_status read_leftovers(qci_reader *reader, const json_t *value,
                                const qci_field *field, void *to)
{
    qci_plan_fabric *fabric = to;
    size_t count = json_array_size(value);
    qc_status status = QC_STATUS_OK;

    (void)field;
    fabric->leftovers = qci_calloc(count, sizeof *fabric->leftovers);
    if (!fabric->leftovers)
        return qci_no_memory(reader->err);
    fabric->info.leftover_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        const source s = {reader, json_array_get(value, i), NULL};
        qc_leftover *left = &fabric->leftovers[i];

        left->strip = 0;
        qci_read_enter_index(reader, i);
        if (!(status =
                  get(&s, "length", true, read_number, NULL, &left->length)) &&
            !(status =
                  get(&s, "width", true, read_number, NULL, &left->width)) &&
            !(status =
                  get(&s, "count", true, read_index, &indices, &left->count)))
            status =
                get(&s, "strip", false, read_index, &indices, &left->strip);
        left->strip--; /* none: QC_NONE */
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_fabric(const source *s, size_t i)
{
    qci_plan_fabric *fabric = &s->plan->fabrics[i];
    qc_plan_fabric *info = &fabric->info;
    int print = 0, outcome = 0;
    qc_status status;

    info->price = info->cost = QC_DEFAULT;
    info->strip_count = json_array_size(json_object_get(s->object, "strips"));
    if ((status = get_word(s, "status", true, (word_list){qci_outcome_words, 2},
                           &outcome)) ||
        (status = get_word(s, "print", true, (word_list){qci_print_words, 4},
                           &print)) ||
        (status = get(s, "usable_width", true, read_number, NULL,
                      &info->usable_width)) ||
        (status =
             get(s, "square_up", true, read_number, NULL, &info->square_up)) ||
        (status = get(s, "step", true, read_number, NULL, &info->step)) ||
        (status = get(s, "shrink_length", true, qci_read_int32, &percents,
                      &info->shrink_length)) ||
        (status = get(s, "used", true, read_number, NULL, &info->used)) ||
        (status = get(s, "bought", true, read_number, NULL, &info->bought)) ||
        (status = get(s, "bound", true, read_number, NULL, &info->bound)) ||
        (status = get(s, "hand_method", true, read_or_null, NULL,
                      &info->hand_method)) ||
        (status = get(s, "cuts", true, qci_read_int64, &counts, &info->cuts)) ||
        (status = get(s, "blade", true, read_number, NULL, &info->blade)) ||
        (status = get(s, "leftovers", true, read_leftovers, NULL, fabric)))
        return status;
    info->print = (qc_print)print;
    info->outcome = (qc_outcome)outcome;
    return get(s, "area", true, read_areas, NULL, &info->area);
}

static qc_status read_set_strips(qci_reader *reader, const json_t *value,
                                 const source *whole, qci_plan_set *set)
{
    size_t count = json_array_size(value);
    qc_status status = QC_STATUS_OK;

    set->strips = qci_calloc(count, sizeof *set->strips);
    if (!set->strips)
        return qci_no_memory(reader->err);
    set->info.strip_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        const source s = {reader, json_array_get(value, i), whole->plan};
        qc_set_strip *strip = &set->strips[i];

        strip->full_piece = strip->part_piece = QC_NONE;
        qci_read_enter_index(reader, i);
        if (!(status = get_reference(&s, "fabric", FABRICS, &strip->fabric)) &&
            !(status =
                  get(&s, "width", true, read_number, NULL, &strip->width)) &&
            !(status =
                  get(&s, "offset", true, read_number, NULL, &strip->offset)) &&
            !(status =
                  get_reference(&s, "full_piece", PIECES, &strip->full_piece)))
            status =
                get_reference(&s, "part_piece", PIECES, &strip->part_piece);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_set_cuts(const source *s, qc_plan_set *set)
{
    qc_status status;

    if ((status = get(s, "height", true, read_number, NULL, &set->height)) ||
        (status = get_angle(s, "angle", &set->angle)) ||
        (status = get(s, "lean", true, read_number, NULL, &set->lean)) ||
        (status = get(s, "spacing", true, read_number, NULL, &set->spacing)) ||
        (status = get(s, "pitch", true, read_number, NULL, &set->pitch)) ||
        (status = get(s, "first", true, read_number, NULL, &set->first)) ||
        (status =
             get(s, "usable_length", true, read_number, NULL, &set->usable)) ||
        (status = get(s, "blade", true, read_number, NULL, &set->blade)) ||
        (status =
             get(s, "second_at", false, read_number, NULL, &set->second_at)))
        return status;
    return get_angle(s, "second_angle", &set->second_angle);
}

static qc_status read_set(const source *s, size_t i)
{
    qci_plan_set *set = &s->plan->sets[i];
    qc_plan_set *info = &set->info;
    const json_t *strips = json_object_get(s->object, "strips");
    qc_status status = read_set_cuts(s, info);

    if (status || (status = get_hand(s, &info->hand)) ||
        (status = get(s, "segments", true, qci_read_int64, &counts,
                      &info->segments)) ||
        (status = get(s, "sets", true, qci_read_int64, &counts, &info->sets)) ||
        (status = get(s, "segments_of_each", true, qci_read_int64, &counts,
                      &info->per_set)) ||
        (status = get(s, "full_length", false, read_number, NULL,
                      &info->full_length)) ||
        (status = get(s, "part_segments", false, qci_read_int64, &counts,
                      &info->part_segments)) ||
        (status = get(s, "part_length", false, read_number, NULL,
                      &info->part_length)))
        return status;
    qci_read_enter_key(s->reader, "strips");
    status = read_set_strips(s->reader, strips, s, set);
    qci_read_leave(s->reader);
    return status;
}

static qc_status read_turned(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    static const char *const words[] = {"alternate", "quarter",
                                        "three quarters"};
    static const qci_words choice = {words, 3, 3};
    qc_step *step = to;
    int word = 0;
    qc_status status;

    (void)field;
    if (json_is_boolean(value)) {
        step->turn = json_is_true(value) ? QC_TURN_HALF : QC_TURN_NONE;
        return QC_STATUS_OK;
    }
    status = qci_read_word(reader, value, &choice, &word);
    if (status || word == 0) {
        step->alternate = !status;
        return status;
    }
    step->turn = word == 1 ? QC_TURN_QUARTER : QC_TURN_THREE_QUARTERS;
    return QC_STATUS_OK;
}

static qc_status read_step_place(const source *s, qc_step *step)
{
    int kind = 0;
    qc_status status;

    step->fabric = step->set = step->piece = QC_NONE;
    step->part_in = step->part_out = QC_NONE;
    if ((status = get(s, "n", true, read_index, &indices, &step->number)) ||
        (status = get_reference(s, "fabric", FABRICS, &step->fabric)) ||
        (status = get_reference(s, "strip_set", SETS, &step->set)) ||
        (status = get_word(s, "do", true,
                           (word_list){qci_step_words, QCI_STEPS}, &kind)) ||
        (status =
             get(s, "part", false, read_index, &indices, &step->part_in)) ||
        (status =
             get(s, "part_out", false, read_index, &indices, &step->part_out)))
        return status;
    step->kind = (qc_step_kind)kind;
    return get_reference(s, "piece", PIECES, &step->piece);
}

static qc_status read_step_cuts(const source *s, qc_step *step)
{
    qc_status status;

    if ((status = get(s, "paired", true, read_bool, NULL, &step->paired)) ||
        (status = get(s, "rest_is_piece", true, read_bool, NULL,
                      &step->rest_is_piece)) ||
        (status =
             get(s, "distance", true, read_number, NULL, &step->distance)) ||
        (status = get(s, "lean", false, read_number, NULL, &step->lean)) ||
        (status = get(s, "along", false, read_number, NULL, &step->along)) ||
        (status = get(s, "blade", true, read_number, NULL, &step->blade)))
        return status;
    if ((status =
             get(s, "copies", true, qci_read_int64, &counts, &step->copies)) ||
        (status =
             get(s, "layers", true, read_index, &indices, &step->layers)) ||
        (status =
             get(s, "repeat", true, read_index, &indices, &step->repeat)) ||
        (status = get(s, "cuts", true, qci_read_int64, &counts, &step->cuts)) ||
        (status = get(s, "yield", true, qci_read_int64, &counts, &step->yield)))
        return status;
    return get(s, "total", true, qci_read_int64, &counts, &step->total);
}

static qc_status read_step(const source *s, size_t i)
{
    qc_step *step = &s->plan->steps[i];
    qc_status status = read_step_place(s, step);

    if (status || (status = read_step_cuts(s, step)) ||
        (status = get(s, "turned", false, read_turned, NULL, step)) ||
        (status = get(s, "first_turned", false, read_turned, NULL, step)) ||
        (status = get(s, "base", false, read_index, &indices, &step->base)))
        return status;
    return get(s, "mirrored", false, read_bool, NULL, &step->mirrored);
}

static qc_status read_head(const source *s)
{
    static const qci_field layers = {.lo = 0, .hi = INT32_MAX};
    qc_plan *plan = s->plan;
    qc_status status =
        get(s, "units", true, qci_read_units, NULL, &plan->units);

    s->reader->units = plan->units;
    if (status ||
        (status = get(s, "title", true, read_owned, NULL, &plan->title)) ||
        (status = get(s, "ruler", true, read_number, NULL, &plan->ruler)) ||
        (status = get(s, "seam", true, read_number, NULL, &plan->seam)) ||
        (status =
             get(s, "layers", true, qci_read_int32, &layers, &plan->layers)))
        return status;
    return get(s, "left_handed", true, read_bool, NULL, &plan->left_handed);
}

static qc_status make_lists(const source *s)
{
    qc_plan *plan = s->plan;
    qc_status status;

    if ((status = make_room(s, "fabrics", sizeof *plan->fabrics,
                            (void **)&plan->fabrics, &plan->fabric_count)) ||
        (status = make_room(s, "pieces", sizeof *plan->pieces,
                            (void **)&plan->pieces, &plan->piece_count)) ||
        (status = make_room(s, "strip_sets", sizeof *plan->sets,
                            (void **)&plan->sets, &plan->set_count)))
        return status;
    return make_room(s, "steps", sizeof *plan->steps, (void **)&plan->steps,
                     &plan->step_count);
}

bool qci_plan_is(const json_t *root)
{
    return json_object_get(root, "status") && json_object_get(root, "cautions");
}

qc_status qci_plan_read(qci_reader *reader, const json_t *root, qc_plan **out)
{
    source s = {reader, root, qci_calloc(1, sizeof(qc_plan))};
    qc_status status;

    *out = NULL;
    if (!s.plan)
        return qci_no_memory(reader->err);
    if (!(status = read_head(&s)) && !(status = make_lists(&s)) &&
        !(status = each(&s, "fabrics", read_fabric_id)) &&
        !(status = each(&s, "pieces", read_piece_id)) &&
        !(status = each(&s, "strip_sets", read_set_id)) &&
        !(status = each(&s, "fabrics", read_fabric)) &&
        !(status = each(&s, "pieces", read_piece)) &&
        !(status = each(&s, "strip_sets", read_set)))
        status = each(&s, "steps", read_step);
    if (!status) {
        *out = s.plan;
        s.plan = NULL;
    }
    qc_plan_destroy(s.plan);
    return status;
}
