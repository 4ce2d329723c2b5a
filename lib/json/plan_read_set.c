/* A strip set of a plan from JSON. */
#include "json/plan_source.h"

#include "base/alloc.h"
#include "base/error.h"

static qc_status read_set_strips(qci_reader *reader, const json_t *value,
                                 const qci_source *whole, qci_plan_set *set)
{
    size_t count = json_array_size(value);
    qc_status status = QC_STATUS_OK;

    set->strips = qci_calloc(count, sizeof *set->strips);
    if (!set->strips)
        return qci_no_memory(reader->err);
    set->info.strip_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        const qci_source s = {reader, json_array_get(value, i), whole->plan};
        qc_set_strip *strip = &set->strips[i];

        strip->full_piece = strip->part_piece = QC_NONE;
        qci_read_enter_index(reader, i);
        if (!(status = qci_source_reference(&s, "fabric", QCI_ID_FABRICS,
                                            &strip->fabric)) &&
            !(status = qci_source_get(&s, "width", true, qci_source_number,
                                      NULL, &strip->width)) &&
            !(status = qci_source_get(&s, "offset", true, qci_source_number,
                                      NULL, &strip->offset)) &&
            !(status = qci_source_reference(&s, "full_piece", QCI_ID_PIECES,
                                            &strip->full_piece)))
            status = qci_source_reference(&s, "part_piece", QCI_ID_PIECES,
                                          &strip->part_piece);
        qci_read_leave(reader);
    }
    return status;
}

static qc_status read_set_cuts(const qci_source *s, qc_plan_set *set)
{
    qc_status status;

    if ((status = qci_source_get(s, "height", true, qci_source_number, NULL,
                                 &set->height)) ||
        (status = qci_source_angle(s, "angle", &set->angle)) ||
        (status = qci_source_get(s, "lean", true, qci_source_number, NULL,
                                 &set->lean)) ||
        (status = qci_source_get(s, "spacing", true, qci_source_number, NULL,
                                 &set->spacing)) ||
        (status = qci_source_get(s, "pitch", true, qci_source_number, NULL,
                                 &set->pitch)) ||
        (status = qci_source_get(s, "first", true, qci_source_number, NULL,
                                 &set->first)) ||
        (status = qci_source_get(s, "usable_length", true, qci_source_number,
                                 NULL, &set->usable)) ||
        (status = qci_source_get(s, "blade", true, qci_source_number, NULL,
                                 &set->blade)) ||
        (status = qci_source_get(s, "second_at", false, qci_source_number, NULL,
                                 &set->second_at)))
        return status;
    return qci_source_angle(s, "second_angle", &set->second_angle);
}

qc_status qci_source_set(const qci_source *s, size_t i)
{
    qci_plan_set *set = &s->plan->sets[i];
    qc_plan_set *info = &set->info;
    const json_t *strips = json_object_get(s->object, "strips");
    qc_status status = read_set_cuts(s, info);

    if (status || (status = qci_source_hand(s, &info->hand)) ||
        (status = qci_source_get(s, "segments", true, qci_read_int64,
                                 &qci_source_counts, &info->segments)) ||
        (status = qci_source_get(s, "sets", true, qci_read_int64,
                                 &qci_source_counts, &info->sets)) ||
        (status = qci_source_get(s, "segments_of_each", true, qci_read_int64,
                                 &qci_source_counts, &info->per_set)) ||
        (status = qci_source_get(s, "full_length", false, qci_source_number,
                                 NULL, &info->full_length)) ||
        (status = qci_source_get(s, "part_segments", false, qci_read_int64,
                                 &qci_source_counts, &info->part_segments)) ||
        (status = qci_source_get(s, "part_length", false, qci_source_number,
                                 NULL, &info->part_length)))
        return status;
    qci_read_enter_key(s->reader, "strips");
    status = read_set_strips(s->reader, strips, s, set);
    qci_read_leave(s->reader);
    return status;
}
