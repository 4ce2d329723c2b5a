/* Follows a path through JSON text that is known to be valid. Values that are
 * not on the way are skipped by counting brackets, so the walk is iterative
 * whatever the nesting, and every byte is read at most twice: linear time.
 * Keys are compared as they mean, not as they are spelled: "\u0063ut" is cut.
 */
#include "json/locate.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "json/scan.h"

typedef struct text_view {
    const char *text;
    size_t size;
} text_view;

static qci_token next(text_view view, size_t at)
{
    return qci_token_next(view.text, view.size, at);
}

/* The offset behind the value that begins with `first`. */
static size_t value_end(text_view view, qci_token first)
{
    size_t depth = 0;
    qci_token token = first;

    for (;;) {
        if (token.kind == '{' || token.kind == '[')
            depth++;
        else if ((token.kind == '}' || token.kind == ']') && depth)
            depth--;
        if (!depth || token.kind == '\0')
            return token.end;
        token = next(view, token.end);
    }
}

static uint32_t hex4(const char *at)
{
    char digits[5];

    memcpy(digits, at, 4);
    digits[4] = '\0';
    return (uint32_t)strtoul(digits, NULL, 16);
}

static size_t utf8(uint32_t code, char out[4])
{
    if (code < 0x80) {
        out[0] = (char)code;
        return 1;
    }
    if (code < 0x800) {
        out[0] = (char)(0xC0 | code >> 6);
        out[1] = (char)(0x80 | (code & 0x3F));
        return 2;
    }
    if (code < 0x10000) {
        out[0] = (char)(0xE0 | code >> 12);
        out[1] = (char)(0x80 | (code >> 6 & 0x3F));
        out[2] = (char)(0x80 | (code & 0x3F));
        return 3;
    }
    out[0] = (char)(0xF0 | code >> 18);
    out[1] = (char)(0x80 | (code >> 12 & 0x3F));
    out[2] = (char)(0x80 | (code >> 6 & 0x3F));
    out[3] = (char)(0x80 | (code & 0x3F));
    return 4;
}

/* Decodes the escape after a backslash at `at`; returns the bytes it spans. */
static size_t escape(const char *at, size_t left, char out[4], size_t *out_size)
{
    static const char from[] = "bfnrt", to[] = "\b\f\n\r\t";
    const char *known = strchr(from, at[0]);
    uint32_t code, low;

    if (at[0] != 'u' || left < 5) {
        out[0] = known && at[0] ? to[known - from] : at[0];
        *out_size = 1;
        return 1;
    }
    code = hex4(at + 1);
    if (code >= 0xD800 && code < 0xDC00 && left >= 11) {
        low = hex4(at + 7);
        *out_size =
            utf8(0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00), out);
        return 11;
    }
    *out_size = utf8(code, out);
    return 5;
}

/* Whether the string token spells `key`. */
static bool spells(text_view view, qci_token token, const char *key)
{
    const char *at = view.text + token.start + 1;
    const char *end = view.text + token.end - 1;
    char bytes[4];
    size_t size;

    while (at < end) {
        if (*at == '\\' && at + 1 < end) {
            at++;
            at += escape(at, (size_t)(end - at), bytes, &size);
        } else {
            bytes[0] = *at++;
            size = 1;
        }
        if (!bytes[0] || strncmp(key, bytes, size) != 0)
            return false;
        key += size;
    }
    return *key == '\0';
}

/* Moves from an object's "{" to the value of a key. */
static bool enter_member(text_view view, const char *key, qci_token *value,
                         size_t *key_start)
{
    qci_token name = next(view, value->end), found, comma;

    while (name.kind == '"') {
        found = next(view, next(view, name.end).end);
        if (spells(view, name, key)) {
            *key_start = name.start;
            *value = found;
            return true;
        }
        comma = next(view, value_end(view, found));
        if (comma.kind != ',')
            return false;
        name = next(view, comma.end);
    }
    return false;
}

/* Moves from a list's "[" to one of its items. */
static bool enter_item(text_view view, size_t index, qci_token *value)
{
    qci_token item = next(view, value->end), comma;

    if (item.kind == ']' || item.kind == '\0')
        return false;
    for (; index; index--) {
        comma = next(view, value_end(view, item));
        if (comma.kind != ',')
            return false;
        item = next(view, comma.end);
    }
    *value = item;
    return true;
}

qci_spot qci_locate(const char *text, size_t size, const qci_json_path *path)
{
    text_view view = {text, size};
    qci_token value = next(view, 0);
    qci_spot spot = {0, value.start, 0, 0};

    for (; spot.matched < path->depth; spot.matched++) {
        const qci_json_step *step = &path->steps[spot.matched];
        bool there = false;

        if (step->key && value.kind == '{')
            there = enter_member(view, step->key, &value, &spot.key_start);
        else if (!step->key && value.kind == '[')
            there = enter_item(view, step->index, &value);
        if (!there)
            break;
    }
    spot.start = value.start;
    spot.end = value_end(view, value);
    return spot;
}

/* Reads "12]" and steps behind it. */
static bool split_index(char **at, qci_json_step *step)
{
    size_t digits = strspn(*at, "0123456789");

    if (!digits || digits > 9 || (*at)[digits] != ']')
        return false;
    *step = (qci_json_step){NULL, strtoul(*at, NULL, 10)};
    *at += digits + 1;
    return true;
}

bool qci_json_path_split(char *copy, qci_json_path *path)
{
    char *at = copy;
    char mark = '.'; /* what announced the step: a name or an index */

    path->depth = 0;
    for (;;) {
        qci_json_step *step = &path->steps[path->depth];

        if (path->depth == QCI_PATH_DEPTH)
            return false;
        if (mark == '[') {
            if (!split_index(&at, step))
                return false;
        } else {
            *step = (qci_json_step){at, 0};
            at += strcspn(at, ".[");
            if (at == step->key)
                return false;
        }
        path->depth++;
        mark = *at;
        if (mark == '\0')
            return true;
        if (mark != '.' && mark != '[')
            return false;
        *at++ = '\0';
    }
}

void qci_json_path_text(const qci_json_path *path, char *out, size_t size)
{
    size_t used = 0;

    out[0] = '\0';
    for (int i = 0; i < path->depth && used < size; i++) {
        const qci_json_step *step = &path->steps[i];
        int n = step->key
                    ? snprintf(out + used, size - used, "%s%s", i ? "." : "",
                               step->key)
                    : snprintf(out + used, size - used, "[%zu]", step->index);

        if (n < 0)
            return;
        used += (size_t)n;
    }
}
