/* Objects are read by tables, so that what is known of a field (its name,
 * reader, place, limits) stands on one line, and the list of names that an
 * error offers is the list that is read. The reader keeps the path from the
 * root on a small stack; only when something is wrong is the text searched for
 * the place. */
#include "json/read.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/nearest.h"
#include "json/number.h"
#include "json/scan.h"

#define MAX_WORDS 32
#define LIST_ROOM 256

void qci_read_enter_key(qci_reader *reader, const char *key)
{
    reader->path.steps[reader->path.depth++] = (qci_json_step){key, 0};
}

void qci_read_enter_index(qci_reader *reader, size_t index)
{
    reader->path.steps[reader->path.depth++] = (qci_json_step){NULL, index};
}

void qci_read_leave(qci_reader *reader)
{
    reader->path.depth--;
}

/* The value as it stands; an object or list that is long is only hinted at.
 * Never ends inside a UTF-8 character. */
static void show_value(const qci_reader *reader, const qci_spot *spot,
                       char *out, size_t size)
{
    const char *at = reader->text + spot->start;
    size_t length = spot->end - spot->start;
    bool many = *at == '{' || *at == '[';
    size_t n = length;

    if (many && (length > 40 || memchr(at, '\n', length))) {
        snprintf(out, size, "%s", *at == '{' ? "{...}" : "[...]");
        return;
    }
    if (n >= size)
        for (n = size - 4; n && ((unsigned char)at[n] & 0xC0) == 0x80;)
            n--;
    snprintf(out, size, "%.*s%s", (int)n, at, n < length ? "..." : "");
}

static void set_place(const qci_reader *reader, size_t offset)
{
    qc_error *err = reader->err;

    if (err)
        qci_line_column(reader->text, offset, &err->line, &err->column);
}

/* Reports the value at the path; the place is that of its key or its own. */
static qc_status fail_at(qci_reader *reader, bool at_key, const char *allowed,
                         const char *problem)
{
    qci_spot spot = qci_locate(reader->text, reader->size, &reader->path);
    bool there = spot.matched == reader->path.depth;
    char field[sizeof reader->err->field * 2];
    char value[sizeof reader->err->value] = "";

    qci_json_path_text(&reader->path, field, sizeof field);
    if (there && reader->path.depth)
        show_value(reader, &spot, value, sizeof value);
    set_place(reader, at_key ? spot.key_start : spot.start);
    return qci_fail(reader->err, QC_STATUS_INVALID, (qci_place){field, value},
                    allowed, "%s", problem);
}

qc_status qci_read_fail(qci_reader *reader, const char *allowed,
                        const char *problem, ...)
{
    char text[sizeof reader->err->problem];
    va_list args;

    va_start(args, problem);
    vsnprintf(text, sizeof text, problem, args);
    va_end(args);
    return fail_at(reader, false, allowed, text);
}

void qci_read_place_error(const qci_reader *reader)
{
    qc_error *err = reader->err;
    char field[sizeof err->field], value[sizeof err->value];
    qci_json_path path;
    qci_spot spot;

    if (!err || !err->field[0])
        return;
    memcpy(field, err->field, sizeof field);
    if (!qci_json_path_split(field, &path))
        return;
    spot = qci_locate(reader->text, reader->size, &path);
    set_place(reader, spot.start);
    if (spot.matched < path.depth)
        return;
    /* Of an object or list, the check may have said what matters. */
    if (err->value[0] && strchr("{[", reader->text[spot.start]))
        return;
    show_value(reader, &spot, value, sizeof value);
    memcpy(err->value, value, sizeof value);
}

static const char *type_name(const json_t *value)
{
    switch (json_typeof(value)) {
    case JSON_OBJECT:
        return "an object";
    case JSON_ARRAY:
        return "a list";
    case JSON_STRING:
        return "a text";
    case JSON_INTEGER:
    case JSON_REAL:
        return "a number";
    case JSON_TRUE:
    case JSON_FALSE:
        return "true or false";
    case JSON_NULL:
        break;
    }
    return "null";
}

qc_status qci_read_wrong_type(qci_reader *reader, const json_t *value,
                              const char *allowed)
{
    return qci_read_fail(reader, allowed, "is %s: wrong type",
                         type_name(value));
}

/* "a, b, c" */
static void join(const char *const *words, size_t count, char out[LIST_ROOM])
{
    size_t used = 0;

    out[0] = '\0';
    for (size_t i = 0; i < count && used < LIST_ROOM; i++)
        used += (size_t)snprintf(out + used, LIST_ROOM - used, "%s%s",
                                 i ? ", " : "", words[i]);
}

/* `given`, which is the name of the field or its value, is not among `words`,
 * the first `built` of which are more than known. */
static qc_status fail_unknown(qci_reader *reader, bool is_field,
                              const char *given, const qci_words *words,
                              size_t built)
{
    const char *near = qci_nearest(given, words->words, words->count);
    char allowed[LIST_ROOM], problem[128] = "";
    size_t at = 0;

    while (near && words->words[at] != near)
        at++;
    join(words->words, built, allowed);
    snprintf(problem, sizeof problem, "no such %s%s%s%s",
             is_field ? "field" : "choice", near ? "; did you mean " : "",
             near ? near : "",
             !near        ? ""
             : at < built ? "?"
                          : " (not supported by this version)?");
    return fail_at(reader, is_field, allowed, problem);
}

qc_status qci_read_word(qci_reader *reader, const json_t *value,
                        const qci_words *words, int *index)
{
    char allowed[LIST_ROOM];
    const char *given = json_string_value(value);
    size_t i = 0;

    join(words->words, words->count, allowed);
    if (!given)
        return qci_read_wrong_type(reader, value, allowed);
    while (i < words->count && strcmp(given, words->words[i]) != 0)
        i++;
    if (i == words->count)
        return fail_unknown(reader, false, given, words, words->count);
    *index = (int)i;
    return QC_STATUS_OK;
}

/* The names of a table's fields; those that are built come first. */
typedef struct field_names {
    qci_words all;
    size_t built;
} field_names;

static field_names names_of(const qci_field *fields, size_t count,
                            const char *list[MAX_WORDS])
{
    field_names names = {{list, 0}, 0};

    for (size_t i = 0; i < count; i++)
        if (fields[i].read)
            list[names.all.count++] = fields[i].name;
    names.built = names.all.count;
    for (size_t i = 0; i < count; i++)
        if (!fields[i].read)
            list[names.all.count++] = fields[i].name;
    return names;
}

static qc_status refuse_unknown(qci_reader *reader, const json_t *value,
                                const field_names *names)
{
    /* jansson's iterators want an object that is not const, to no purpose. */
    json_t *object = (json_t *)(uintptr_t)value;
    const char *key;
    json_t *member;

    json_object_foreach(object, key, member)
    {
        size_t i = 0;

        while (i < names->all.count && strcmp(key, names->all.words[i]) != 0)
            i++;
        if (i < names->all.count)
            continue;
        qci_read_enter_key(reader, key);
        return fail_unknown(reader, true, key, &names->all, names->built);
    }
    return QC_STATUS_OK;
}

static qc_status read_field(qci_reader *reader, const json_t *member,
                            const qci_field *field, const field_names *names,
                            void *to)
{
    char allowed[LIST_ROOM];
    qc_status status = QC_STATUS_OK;

    if (!member && !field->required)
        return QC_STATUS_OK;
    qci_read_enter_key(reader, field->name);
    if (!member) {
        status = qci_read_fail(reader, NULL, "is missing");
    } else if (!field->read) {
        join(names->all.words, names->built, allowed);
        status =
            qci_read_fail(reader, allowed, "is not supported by this version");
    } else {
        status = field->read(reader, member, field, (char *)to + field->offset);
    }
    qci_read_leave(reader);
    return status;
}

qc_status qci_read_object(qci_reader *reader, const json_t *value,
                          const qci_field *fields, size_t count, void *to)
{
    const char *list[MAX_WORDS];
    field_names names = names_of(fields, count, list);
    qc_status status;

    if (!json_is_object(value))
        return qci_read_wrong_type(reader, value, "an object: {...}");
    status = refuse_unknown(reader, value, &names);
    for (size_t i = 0; i < count && !status; i++)
        status = read_field(reader, json_object_get(value, fields[i].name),
                            &fields[i], &names, to);
    return status;
}

qc_status qci_read_text(qci_reader *reader, const json_t *value,
                        const qci_field *field, void *to)
{
    const char *text = json_string_value(value);

    (void)field;
    if (!text)
        return qci_read_wrong_type(reader, value, "a text");
    *(const char **)to = text;
    return QC_STATUS_OK;
}

/* Reads a length one way; in `local` the reason when it is none. */
static qc_status parse_length(const qci_reader *reader, const json_t *value,
                              qc_parse_rounding rounding, qc_length *length,
                              qc_error *local)
{
    char number[QCI_NUMBER_ROOM];
    const char *text = json_string_value(value);

    if (!text) {
        qci_number_text(value, number);
        text = number;
    }
    qc_error_init(local);
    return qc_length_parse(text, reader->units, rounding, length, local);
}

static bool is_length(const json_t *value)
{
    return json_is_string(value) || json_is_number(value);
}

static const char length_forms[] = "a length such as \"2 1/2\" or 2.5";

qc_status qci_read_length(qci_reader *reader, const json_t *value,
                          const qci_field *field, void *to)
{
    qc_error local;

    (void)field;
    if (!is_length(value))
        return qci_read_wrong_type(reader, value, length_forms);
    if (!parse_length(reader, value, QC_PARSE_EXACT, to, &local))
        return QC_STATUS_OK;
    return qci_read_fail(reader, local.allowed, "%s", local.problem);
}

qc_status qci_read_units(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to)
{
    static const char *const words[] = {"in", "cm", "mm"};
    static const qci_words units = {words, 3};
    int index = 0;
    qc_status status = qci_read_word(reader, value, &units, &index);

    (void)field;
    if (!status)
        *(qc_units *)to = (qc_units)index;
    return status;
}

qc_status qci_read_flag(qci_reader *reader, const json_t *value,
                        const qci_field *field, void *to)
{
    (void)field;
    if (!json_is_boolean(value))
        return qci_read_wrong_type(reader, value, "true or false");
    *(bool *)to = json_is_true(value);
    return QC_STATUS_OK;
}

qc_status qci_read_elements(qci_reader *reader, const json_t *list,
                            qci_read_fn read, const qci_field *field, void *to,
                            size_t size)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < json_array_size(list) && !status; i++) {
        qci_read_enter_index(reader, i);
        status =
            read(reader, json_array_get(list, i), field, (char *)to + i * size);
        qci_read_leave(reader);
    }
    return status;
}

qc_status qci_read_list(qci_reader *reader, const json_t *value, void *to,
                        qci_read_item_fn read)
{
    qc_status status = QC_STATUS_OK;

    if (!json_is_array(value))
        return qci_read_wrong_type(reader, value, "a list: [...]");
    for (size_t i = 0; i < json_array_size(value) && !status; i++) {
        qci_read_enter_index(reader, i);
        status = read(reader, json_array_get(value, i), to);
        qci_read_leave(reader);
    }
    return status;
}

qc_status qci_read_length_up(qci_reader *reader, const json_t *value,
                             qc_length *length, bool *rounded)
{
    qc_error local;

    if (!is_length(value))
        return qci_read_wrong_type(reader, value, length_forms);
    if (!parse_length(reader, value, QC_PARSE_EXACT, length, &local))
        return QC_STATUS_OK;
    if (parse_length(reader, value, QC_PARSE_UP, length, &local))
        return qci_read_fail(reader, local.allowed, "%s", local.problem);
    *rounded = true;
    return QC_STATUS_OK;
}

qc_status qci_read_scaled(qci_reader *reader, const char *decimal,
                          const qci_field *field, int64_t *out)
{
    char lo[QCI_RATIO_ROOM], hi[QCI_RATIO_ROOM], places[48] = "", allowed[192];
    int64_t value = 0, scale = 1;
    qci_scaled read = qci_decimal_scaled(decimal, field->decimals, &value);

    if (read == QCI_SCALED_OK && value >= field->lo && value <= field->hi) {
        *out = value;
        return QC_STATUS_OK;
    }
    for (int i = 0; i < field->decimals; i++)
        scale *= 10;
    qci_ratio_text(field->lo, scale, field->decimals, lo);
    qci_ratio_text(field->hi, scale, field->decimals, hi);
    if (field->decimals)
        snprintf(places, sizeof places, " with at most %d decimals",
                 field->decimals);
    snprintf(allowed, sizeof allowed, "%s from %s to %s%s",
             field->decimals ? "a number" : "a whole number", lo, hi, places);
    if (read == QCI_SCALED_NOT_A_NUMBER)
        return qci_read_fail(reader, allowed, "is not a number");
    if (read == QCI_SCALED_TOO_FINE)
        return qci_read_fail(reader, allowed, "%s",
                             field->decimals ? "has too many decimals"
                                             : "is not a whole number");
    if (read == QCI_SCALED_OK && value < field->lo)
        return qci_read_fail(reader, allowed, "%s",
                             value < 0    ? "is negative"
                             : value == 0 ? "must not be 0"
                                          : "is too small");
    return qci_read_fail(reader, allowed, "is too large");
}

qc_status qci_read_int64(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to)
{
    char decimal[QCI_NUMBER_ROOM];

    if (!json_is_number(value))
        return qci_read_wrong_type(
            reader, value, field->decimals ? "a number" : "a whole number");
    qci_number_text(value, decimal);
    return qci_read_scaled(reader, decimal, field, to);
}

qc_status qci_read_int32(qci_reader *reader, const json_t *value,
                         const qci_field *field, void *to)
{
    int64_t wide = 0;
    qc_status status = qci_read_int64(reader, value, field, &wide);

    if (!status)
        *(int32_t *)to = (int32_t)wide;
    return status;
}

qc_status qci_read_version(qci_reader *reader, const json_t *value,
                           const qci_field *field, void *to)
{
    char text[QCI_NUMBER_ROOM] = "";

    (void)field;
    (void)to;
    if (json_is_number(value))
        qci_number_text(value, text);
    if (strcmp(text, "1") != 0)
        return qci_read_fail(reader, "1",
                             "is not a form that this version reads");
    return QC_STATUS_OK;
}
