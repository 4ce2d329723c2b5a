/* Plans from JSON. Ids come first, since pieces, sets and steps refer to each
 * other in every direction. Areas have more digits than a double holds and are
 * read off the text itself. */
#include "json/plan_read.h"

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "length/units.h"
#include "json/plan_source.h"
#include "json/plan_words.h"

#define AREA_PLACES 12

static const qci_field percents = {.decimals = 2, .lo = 0, .hi = 9999};

/* null: -1 */
static qc_status read_or_null(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    if (!json_is_null(value))
        return qci_source_number(reader, value, field, to);
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

/* Calls `read` for each element of a list. */
static qc_status each(const qci_source *s, const char *key,
                      qc_status (*read)(const qci_source *, size_t))
{
    const json_t *list = json_object_get(s->object, key);
    qc_status status = QC_STATUS_OK;

    qci_read_enter_key(s->reader, key);
    for (size_t i = 0; i < json_array_size(list) && !status; i++) {
        qci_source one = {s->reader, json_array_get(list, i), s->plan};

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
static qc_status make_room(const qci_source *s, const char *key, size_t size,
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

static qc_status read_fabric_id(const qci_source *s, size_t i)
{
    qc_plan_fabric *info = &s->plan->fabrics[i].info;
    qc_status status =
        qci_source_get(s, "id", true, qci_source_text, NULL, &info->id);

    return status ? status
                  : qci_source_get(s, "name", true, qci_source_text, NULL,
                                   &info->name);
}

static qc_status read_piece_id(const qci_source *s, size_t i)
{
    return qci_source_get(s, "id", true, qci_source_text, NULL,
                          &s->plan->pieces[i].id);
}

static qc_status read_set_id(const qci_source *s, size_t i)
{
    qc_plan_set *info = &s->plan->sets[i].info;
    qc_status status =
        qci_source_get(s, "id", true, qci_source_text, NULL, &info->id);

    return status ? status
                  : qci_source_get(s, "job_id", false, qci_source_text, NULL,
                                   &info->job_id);
}

static qc_status read_areas(qci_reader *reader, const json_t *value,
                            const qci_field *field, void *to)
{
    const qci_source s = {reader, value, NULL};
    qc_area *area = to;
    qc_status status;

    (void)field;
    if ((status = qci_source_get(&s, "finished", true, read_area, NULL,
                                 &area->finished)) ||
        (status = qci_source_get(&s, "seams", true, read_area, NULL,
                                 &area->seams)) ||
        (status = qci_source_get(&s, "leftover", true, read_area, NULL,
                                 &area->leftover)))
        return status;
    return qci_source_get(&s, "scrap", true, read_area, NULL, &area->scrap);
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
        const qci_source s = {reader, json_array_get(value, i), NULL};
        qc_leftover *left = &fabric->leftovers[i];

        left->strip = 0;
        qci_read_enter_index(reader, i);
        if (!(status = qci_source_get(&s, "length", true, qci_source_number,
                                      NULL, &left->length)) &&
            !(status = qci_source_get(&s, "width", true, qci_source_number,
                                      NULL, &left->width)) &&
            !(status = qci_source_get(&s, "count", true, qci_source_index,
                                      &qci_source_indices, &left->count)))
            status = qci_source_get(&s, "strip", false, qci_source_index,
                                    &qci_source_indices, &left->strip);
        left->strip--; /* none: QC_NONE */
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_fabric(const qci_source *s, size_t i)
{
    qci_plan_fabric *fabric = &s->plan->fabrics[i];
    qc_plan_fabric *info = &fabric->info;
    int print = 0, outcome = 0;
    qc_status status;

    info->price = info->cost = QC_DEFAULT;
    info->strip_count = json_array_size(json_object_get(s->object, "strips"));
    if ((status = qci_source_word(
             s, "status", true, (qci_words){qci_outcome_words, 2}, &outcome)) ||
        (status = qci_source_word(s, "print", true,
                                  (qci_words){qci_print_words, 4}, &print)) ||
        (status = qci_source_get(s, "usable_width", true, qci_source_number,
                                 NULL, &info->usable_width)) ||
        (status = qci_source_get(s, "square_up", true, qci_source_number, NULL,
                                 &info->square_up)) ||
        (status = qci_source_get(s, "step", true, qci_source_number, NULL,
                                 &info->step)) ||
        (status = qci_source_get(s, "shrink_length", true, qci_read_int32,
                                 &percents, &info->shrink_length)) ||
        (status = qci_source_get(s, "used", true, qci_source_number, NULL,
                                 &info->used)) ||
        (status = qci_source_get(s, "bought", true, qci_source_number, NULL,
                                 &info->bought)) ||
        (status = qci_source_get(s, "bound", true, qci_source_number, NULL,
                                 &info->bound)) ||
        (status = qci_source_get(s, "hand_method", true, read_or_null, NULL,
                                 &info->hand_method)) ||
        (status = qci_source_get(s, "cuts", true, qci_read_int64,
                                 &qci_source_counts, &info->cuts)) ||
        (status = qci_source_get(s, "blade", true, qci_source_number, NULL,
                                 &info->blade)) ||
        (status = qci_source_get(s, "leftovers", true, read_leftovers, NULL,
                                 fabric)))
        return status;
    info->print = (qc_print)print;
    info->outcome = (qc_outcome)outcome;
    return qci_source_get(s, "area", true, read_areas, NULL, &info->area);
}

static qc_status read_head(const qci_source *s)
{
    static const qci_field layers = {.lo = 0, .hi = INT32_MAX};
    qc_plan *plan = s->plan;
    qc_status status =
        qci_source_get(s, "units", true, qci_read_units, NULL, &plan->units);

    s->reader->units = plan->units;
    if (status ||
        (status = qci_source_get(s, "title", true, qci_source_text, NULL,
                                 &plan->title)) ||
        (status = qci_source_get(s, "ruler", true, qci_source_number, NULL,
                                 &plan->ruler)) ||
        (status = qci_source_get(s, "seam", true, qci_source_number, NULL,
                                 &plan->seam)) ||
        (status = qci_source_get(s, "layers", true, qci_read_int32, &layers,
                                 &plan->layers)))
        return status;
    return qci_source_get(s, "left_handed", true, qci_read_flag, NULL,
                          &plan->left_handed);
}

static qc_status make_lists(const qci_source *s)
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
    qci_source s = {reader, root, qci_calloc(1, sizeof(qc_plan))};
    qc_status status;

    *out = NULL;
    if (!s.plan)
        return qci_no_memory(reader->err);
    if (!(status = read_head(&s)) && !(status = make_lists(&s)) &&
        !(status = each(&s, "fabrics", read_fabric_id)) &&
        !(status = each(&s, "pieces", read_piece_id)) &&
        !(status = each(&s, "strip_sets", read_set_id)) &&
        !(status = each(&s, "fabrics", read_fabric)) &&
        !(status = each(&s, "pieces", qci_source_piece)) &&
        !(status = each(&s, "strip_sets", qci_source_set)))
        status = each(&s, "steps", qci_source_step);
    if (!status) {
        *out = s.plan;
        s.plan = NULL;
    }
    qc_plan_destroy(s.plan);
    return status;
}
