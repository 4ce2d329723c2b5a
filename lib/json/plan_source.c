/* What the parts of a plan's JSON share: members of an object, the numbers that
 * plans hold, words, references by id.
 *
 * Numbers are decimals of the plan's units with as many places as tell one
 * whole length from the next, so the nearest whole one is the one that was
 * written. */
#include "json/plan_source.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "length/units.h"
#include "json/items.h"
#include "json/number.h"

#define PLACES 9
#define PLACES_ONE INT64_C(1000000000)

const qci_field qci_source_counts = {.lo = 0, .hi = INT64_MAX};
const qci_field qci_source_indices = {.lo = 0, .hi = UINT32_MAX - 1};

qc_status qci_source_get(const qci_source *s, const char *key, bool required,
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

qc_status qci_source_number(qci_reader *reader, const json_t *value,
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

qc_status qci_source_index(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    int64_t number = 0;
    qc_status status = qci_read_int64(reader, value, field, &number);

    *(uint32_t *)to = (uint32_t)number;
    return status;
}

qc_status qci_source_text(qci_reader *reader, const json_t *value,
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

qc_status qci_source_word(const qci_source *s, const char *key, bool required,
                          qci_words words, int *out)
{
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

static size_t count_of(const qc_plan *plan, qci_id_kind of)
{
    return of == QCI_ID_FABRICS  ? plan->fabric_count
           : of == QCI_ID_PIECES ? plan->piece_count
                                 : plan->set_count;
}

static const char *id_of(const qc_plan *plan, qci_id_kind of, size_t i)
{
    return of == QCI_ID_FABRICS  ? plan->fabrics[i].info.id
           : of == QCI_ID_PIECES ? plan->pieces[i].id
           : of == QCI_ID_SETS   ? plan->sets[i].info.id
                                 : plan->sets[i].info.job_id;
}

qc_status qci_source_reference(const qci_source *s, const char *key,
                               qci_id_kind of, uint32_t *to)
{
    const char *id = NULL;
    qc_status status = qci_source_get(s, key, false, qci_read_text, NULL, &id);

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

qc_status qci_source_hand(const qci_source *s, qc_hand *to)
{
    static const char *const words[] = {"none", "left", "right"};
    int hand = QC_HAND_NONE;
    qc_status status =
        qci_source_word(s, "hand", false, (qci_words){words, 3}, &hand);

    *to = (qc_hand)hand;
    return status;
}

qc_status qci_source_angle(const qci_source *s, const char *key, int32_t *to)
{
    return qci_source_get(s, key, false, qci_read_angle, NULL, to);
}
