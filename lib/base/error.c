#include "base/error.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

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

/* Copies what fits, and never ends inside a UTF-8 character. */
static void copy_text(char *to, size_t size, const char *from)
{
    size_t n = from ? strlen(from) : 0;

    if (n >= size) {
        n = size - 4;
        while (n && ((unsigned char)from[n] & 0xC0) == 0x80)
            n--;
        memcpy(to, from, n);
        memcpy(to + n, "...", 4);
        return;
    }
    if (n)
        memcpy(to, from, n);
    to[n] = '\0';
}

qc_status qci_fail(qc_error *err, qc_status code, qci_place place,
                   const char *allowed, const char *problem, ...)
{
    va_list args;

    if (!err || err->code != QC_STATUS_OK)
        return code;
    err->code = code;
    copy_text(err->field, sizeof err->field, place.field);
    copy_text(err->value, sizeof err->value, place.value);
    copy_text(err->allowed, sizeof err->allowed, allowed);
    va_start(args, problem);
    vsnprintf(err->problem, sizeof err->problem, problem, args);
    va_end(args);
    return code;
}

qc_status qci_no_memory(qc_error *err)
{
    return qci_fail(err, QC_STATUS_NO_MEMORY, (qci_place){NULL, NULL}, NULL,
                    "%s", "out of memory");
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
        for (size_t i = 0; i < size && buffer[i]; i++)
            if ((unsigned char)buffer[i] < 0x20 || buffer[i] == 0x7F)
                buffer[i] = '?';
    return n;
}
