#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"

static bool make_room(qci_text *text, size_t more)
{
    size_t room = text->room ? text->room : 256;
    char *grown;

    if (text->failed)
        return false;
    while (room - text->size <= more)
        room *= 2;
    if (room == text->room)
        return true;
    grown = qci_realloc(text->bytes, room, 1);
    if (!grown) {
        text->failed = true;
        return false;
    }
    text->bytes = grown;
    text->room = room;
    return true;
}

void qci_text_add(qci_text *text, const char *bytes, size_t size)
{
    if (!make_room(text, size))
        return;
    memcpy(text->bytes + text->size, bytes, size);
    text->size += size;
    text->bytes[text->size] = '\0';
}

void qci_text_printf(qci_text *text, const char *format, ...)
{
    va_list args;
    int n;

    va_start(args, format);
    n = vsnprintf(NULL, 0, format, args);
    va_end(args);
    if (n < 0 || !make_room(text, (size_t)n))
        return;
    va_start(args, format);
    vsnprintf(text->bytes + text->size, (size_t)n + 1, format, args);
    va_end(args);
    text->size += (size_t)n;
}

void qci_text_clear(qci_text *text)
{
    qci_free(text->bytes);
    memset(text, 0, sizeof *text);
}

char *qci_text_take(qci_text *text)
{
    char *bytes;

    qci_text_add(text, "", 0);
    if (text->failed) {
        qci_text_clear(text);
        return NULL;
    }
    bytes = text->bytes;
    memset(text, 0, sizeof *text);
    return bytes;
}
