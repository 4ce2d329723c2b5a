/* A step of a plan from JSON. */
#include "json/plan_source.h"

#include "json/plan_words.h"

static qc_status read_turned(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    static const char *const words[] = {"alternate", "quarter",
                                        "three quarters"};
    static const qci_words choice = {words, 3};
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

static qc_status read_step_place(const qci_source *s, qc_step *step)
{
    int kind = 0;
    qc_status status;

    step->fabric = step->set = step->piece = QC_NONE;
    step->part_in = step->part_out = QC_NONE;
    if ((status = qci_source_get(s, "n", true, qci_source_index,
                                 &qci_source_indices, &step->number)) ||
        (status = qci_source_reference(s, "fabric", QCI_ID_FABRICS,
                                       &step->fabric)) ||
        (status =
             qci_source_reference(s, "strip_set", QCI_ID_SETS, &step->set)) ||
        (status = qci_source_word(
             s, "do", true, (qci_words){qci_step_words, QCI_STEPS}, &kind)) ||
        (status = qci_source_get(s, "part", false, qci_source_index,
                                 &qci_source_indices, &step->part_in)) ||
        (status = qci_source_get(s, "part_out", false, qci_source_index,
                                 &qci_source_indices, &step->part_out)))
        return status;
    step->kind = (qc_step_kind)kind;
    return qci_source_reference(s, "piece", QCI_ID_PIECES, &step->piece);
}

static qc_status read_step_cuts(const qci_source *s, qc_step *step)
{
    qc_status status;

    if ((status = qci_source_get(s, "paired", true, qci_read_flag, NULL,
                                 &step->paired)) ||
        (status = qci_source_get(s, "rest_is_piece", true, qci_read_flag, NULL,
                                 &step->rest_is_piece)) ||
        (status = qci_source_get(s, "distance", true, qci_source_number, NULL,
                                 &step->distance)) ||
        (status = qci_source_get(s, "lean", false, qci_source_number, NULL,
                                 &step->lean)) ||
        (status = qci_source_get(s, "along", false, qci_source_number, NULL,
                                 &step->along)) ||
        (status = qci_source_get(s, "blade", true, qci_source_number, NULL,
                                 &step->blade)))
        return status;
    if ((status = qci_source_get(s, "copies", true, qci_read_int64,
                                 &qci_source_counts, &step->copies)) ||
        (status = qci_source_get(s, "layers", true, qci_source_index,
                                 &qci_source_indices, &step->layers)) ||
        (status = qci_source_get(s, "repeat", true, qci_source_index,
                                 &qci_source_indices, &step->repeat)) ||
        (status = qci_source_get(s, "cuts", true, qci_read_int64,
                                 &qci_source_counts, &step->cuts)) ||
        (status = qci_source_get(s, "yield", true, qci_read_int64,
                                 &qci_source_counts, &step->yield)))
        return status;
    return qci_source_get(s, "total", true, qci_read_int64, &qci_source_counts,
                          &step->total);
}

qc_status qci_source_step(const qci_source *s, size_t i)
{
    qc_step *step = &s->plan->steps[i];
    qc_status status = read_step_place(s, step);

    if (status || (status = read_step_cuts(s, step)) ||
        (status =
             qci_source_get(s, "turned", false, read_turned, NULL, step)) ||
        (status = qci_source_get(s, "first_turned", false, read_turned, NULL,
                                 step)) ||
        (status = qci_source_get(s, "base", false, qci_source_index,
                                 &qci_source_indices, &step->base)))
        return status;
    return qci_source_get(s, "mirrored", false, qci_read_flag, NULL,
                          &step->mirrored);
}
