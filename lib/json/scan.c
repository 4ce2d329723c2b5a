/* The scanner knows just enough of JSON to find where tokens begin and end. It
 * is run only once an error is to be reported, so nothing is kept from it and
 * the good path pays nothing. Linear time, no memory. */
#include "json/scan.h"

#include <string.h>

static size_t string_end(const char *text, size_t size, size_t at)
{
    for (at++; at < size && text[at] != '\n'; at++) {
        if (text[at] == '"')
            return at + 1;
        if (text[at] == '\\' && at + 1 < size && text[at + 1] != '\n')
            at++;
    }
    return at;
}

static int among(char c, const char *set)
{
    return c != '\0' && strchr(set, c) != NULL;
}

qci_token qci_token_next(const char *text, size_t size, size_t at)
{
    qci_token token;

    while (at < size && among(text[at], " \t\r\n"))
        at++;
    token = (qci_token){'\0', at, at};
    if (at == size)
        return token;
    if (among(text[at], "{}[]:,")) {
        token.kind = text[at];
        token.end = at + 1;
    } else if (text[at] == '"') {
        token.kind = '"';
        token.end = string_end(text, size, at);
    } else {
        token.kind = 'v';
        while (token.end < size && !among(text[token.end], "{}[]:,\" \t\r\n"))
            token.end++;
    }
    return token;
}

void qci_line_column(const char *text, size_t offset, uint32_t *line,
                     uint32_t *column)
{
    size_t begin = 0;

    *line = 1;
    for (size_t i = 0; i < offset; i++)
        if (text[i] == '\n') {
            ++*line;
            begin = i + 1;
        }
    *column = (uint32_t)(offset - begin) + 1;
}
