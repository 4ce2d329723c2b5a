/* What a strip set may hold: its strips from the lower edge up, and how it is
 * sewn and cut across. */
#include <stddef.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/nearest.h"
#include "json/items.h"

/* A strip while it is being read. */
typedef struct strip_draft {
    qc_set_strip_spec spec;
    bool finished, cut;
} strip_draft;

QCI_WORD_READER(read_hand, qc_set_hands, "right", "left", "pairs")

qc_status qci_read_angle(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to)
{
    static const qci_field degrees = {
        .decimals = 6, .lo = 1, .hi = 180 * QC_DEGREE - 1};

    (void)field;
    return qci_read_int32(reader, value, &degrees, to);
}

static qc_status read_finished(qci_reader *reader, const json_t *value,
                               const qci_field *field, void *to)
{
    strip_draft *strip = to;

    (void)field;
    strip->finished = true;
    return qci_read_length_up(reader, value, &strip->spec.width,
                              &strip->spec.width_rounded);
}

static qc_status read_cut(qci_reader *reader, const json_t *value,
                          const qci_field *field, void *to)
{
    strip_draft *strip = to;

    if (strip->finished)
        return qci_read_fail(reader, "exactly one of finished and cut",
                             "the strip has a finished width as well");
    strip->cut = true;
    strip->spec.is_cut = true;
    return qci_read_length(reader, value, field, &strip->spec.width);
}

static qc_status read_strip(qci_reader *reader, const json_t *value,
                            qc_set_strip_spec *to)
{
    static const qci_field fields[] = {
        {"fabric", qci_read_text, offsetof(qc_set_strip_spec, fabric),
         .required = true},
        {"finished", read_finished, .required = false},
        {"cut", read_cut, .required = false},
    };
    strip_draft strip = {.finished = false};
    qc_status status =
        qci_read_object(reader, value, fields, QCI_COUNT(fields), &strip);

    if (!status && !strip.finished && !strip.cut)
        return qci_read_fail(reader, "exactly one of finished and cut",
                             "the strip has no width");
    *to = strip.spec;
    return status;
}

/* A strip set while it is being read. */
typedef struct set_draft {
    qc_strip_set_spec spec;
    qci_draft *draft;
} set_draft;

static qc_status read_strips(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    set_draft *set = to;
    size_t count = json_array_size(value);
    qc_set_strip_spec *strips;
    qc_status status = QC_STATUS_OK;

    (void)field;
    if (!json_is_array(value))
        return qci_read_wrong_type(reader, value, "a list: [...]");
    strips = qci_draft_list(set->draft, count, sizeof *strips);
    if (!strips)
        return qci_no_memory(reader->err);
    set->spec.strips = strips;
    set->spec.strip_count = count;
    for (size_t i = 0; i < count && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read_strip(reader, json_array_get(value, i), &strips[i]);
        qci_read_leave(reader);
    }
    return status;
}

static const char staggers[] = "auto, none, cut width or a length";

/* Rather than a length that is misspelt. */
static bool is_word(const char *text)
{
    text += strspn(text, " ");
    return strspn(text, "abcdefghijklmnopqrstuvwxyz"
                        "ABCDEFGHIJKLMNOPQRSTUVWXYZ") > 0;
}

static qc_status fail_stagger(qci_reader *reader, const char *near)
{
    return qci_read_fail(reader, staggers, "is no stagger%s%s%s",
                         near ? "; did you mean " : "", near ? near : "",
                         near ? "?" : "");
}

/* A word, or a length. */
static qc_status read_stagger(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    static const char *const words[] = {
        [QC_STAGGER_AUTO] = "auto",
        [QC_STAGGER_NONE] = "none",
        [QC_STAGGER_WIDTH] = "cut width",
    };
    set_draft *set = to;
    const char *text = json_string_value(value);

    (void)field;
    if (!text && !json_is_number(value))
        return qci_read_wrong_type(reader, value, staggers);
    for (size_t i = 0; text && i < QCI_COUNT(words); i++)
        if (strcmp(text, words[i]) == 0) {
            set->spec.stagger = (qc_stagger)i;
            return QC_STATUS_OK;
        }
    if (text && is_word(text))
        return fail_stagger(reader, qci_nearest(text, words, QCI_COUNT(words)));
    set->spec.stagger = QC_STAGGER_LENGTH;
    return qci_read_length(reader, value, NULL, &set->spec.stagger_by);
}

static qc_status read_second(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    static const qci_field fields[] = {
        {"at", qci_read_length, offsetof(qc_strip_set_spec, second_at),
         .required = true},
        {"angle", qci_read_angle, offsetof(qc_strip_set_spec, second_angle),
         .required = true},
    };

    (void)field;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

void *qci_draft_list(qci_draft *draft, size_t count, size_t size)
{
    void *list = qci_calloc(count, size);

    if (list && !qci_vec_push(&draft->lists, list)) {
        qci_free(list);
        return NULL;
    }
    return list;
}

qc_status qci_read_strip_set(qci_reader *reader, const json_t *value,
                             void *user)
{
    qci_draft *to = user;
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_strip_set_spec, id),
         .required = true},
        {"strips", read_strips, .required = true},
        {"angle", qci_read_angle, offsetof(qc_strip_set_spec, angle),
         .required = false},
        {"hand", read_hand, offsetof(qc_strip_set_spec, hands),
         .required = false},
        {"stagger", read_stagger, .required = false},
        {"spacing", qci_read_length, offsetof(qc_strip_set_spec, spacing),
         .required = false},
        {"segments", qci_read_int64, offsetof(qc_strip_set_spec, segments),
         .required = true, .lo = 1, .hi = QC_MAX_COUNT},
        {"second", read_second, .required = false},
    };
    set_draft set = {.draft = to};
    qc_status status;

    qc_strip_set_spec_init(&set.spec);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &set);
    if (status)
        return status;
    /* A hand that is not named is that of the angle as it is drawn. */
    if (!json_object_get(value, "hand") && set.spec.angle > 90 * QC_DEGREE)
        set.spec.hands = QC_SET_LEFT;
    return qci_vec_push(&to->sets, set.spec) ? QC_STATUS_OK
                                             : qci_no_memory(reader->err);
}
