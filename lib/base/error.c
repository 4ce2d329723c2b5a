/* The error record, and one line out of it. All that is put in is made valid
 * UTF-8 first, whatever bytes the caller's input had, so that a message can be
 * shown or put into JSON as it is. The first error stays: a later one is nearly
 * always its consequence. */
#include "base/error.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/utf8.h"

void qc_error_init(qc_error *err)
{
    memset(err, 0, sizeof *err);
    err->struct_size = (uint32_t)sizeof *err;
}

const char *qc_status_text(qc_status status)
{
    switch (status) {
#define QC_STATUS_CASE(name, number, text)                                     \
    case QC_STATUS_##name:                                                     \
        return text;
        QC_STATUS_LIST(QC_STATUS_CASE)
#undef QC_STATUS_CASE
    }
    return "unknown status";
}

/* Copies what fits as valid UTF-8: bytes that are none become '?', and a text
 * that is cut off ends in "...", between two characters. */
static void copy_text(char *to, size_t size, const char *from)
{
    size_t left = from ? strlen(from) : 0;
    size_t at = 0, whole = 0; /* whole: where "..." would still fit */

    while (left) {
        size_t n = qci_utf8_step(from, left);
        size_t step = n ? n : 1;

        if (at + step >= size) {
            memcpy(to + whole, "...", 4);
            return;
        }
        if (n)
            memcpy(to + at, from, n);
        else
            to[at] = '?';
        at += step;
        from += step;
        left -= step;
        if (at + 4 <= size)
            whole = at;
    }
    to[at] = '\0';
}

qc_status qci_fail(qc_error *err, qc_status code, qci_place place,
                   const char *allowed, const char *problem, ...)
{
    char text[2 * sizeof(((qc_error *)NULL)->problem)];
    va_list args;

    if (!err || err->code != QC_STATUS_OK)
        return code;
    err->code = code;
    copy_text(err->field, sizeof err->field, place.field);
    copy_text(err->value, sizeof err->value, place.value);
    copy_text(err->allowed, sizeof err->allowed, allowed);
    va_start(args, problem);
    vsnprintf(text, sizeof text, problem, args);
    va_end(args);
    copy_text(err->problem, sizeof err->problem, text);
    return code;
}

void qci_note_no_memory(qc_error *err)
{
    qci_fail(err, QC_STATUS_NO_MEMORY, (qci_place){NULL, NULL}, NULL, "%s",
             "out of memory");
}

/* A terminal obeys control characters; a message must not command it. As long
 * as before: each byte becomes a mark. */
static void hide_controls(char *text, size_t size)
{
    size_t left = size ? strlen(text) : 0;

    while (left) {
        size_t n = qci_utf8_step(text, left);
        size_t step = n ? n : 1;

        if (qci_utf8_is_control(text, left))
            memset(text, '?', step);
        text += step;
        left -= step;
    }
}

int qc_error_format(const qc_error *err, const char *file, char *buffer,
                    size_t size)
{
    char where[64] = "";
    char line[sizeof err->field + sizeof err->value + sizeof err->problem +
              sizeof err->allowed + 64];
    int n;

    if (err->line)
        snprintf(where, sizeof where, ":%u:%u", err->line, err->column);
    snprintf(line, sizeof line, "%s%s%s%s%s%s%s%s", err->field,
             err->field[0] ? ": " : "", err->value, err->value[0] ? ": " : "",
             err->problem, err->allowed[0] ? " (allowed: " : "", err->allowed,
             err->allowed[0] ? ")" : "");
    n = snprintf(buffer, size, "%s%s%s%s", file ? file : "", where,
                 file || where[0] ? ": " : "", line);
    if (n >= 0)
        hide_controls(buffer, size);
    return n;
}
