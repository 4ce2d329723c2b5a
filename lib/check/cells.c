/* One pass over the text; a cell's text is a copy that shrinks in place. */
#include "check/cells.h"

#include <string.h>

typedef struct cursor {
    const char *at, *end;
    uint32_t line;
    const char *line_start;
} cursor;

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static void trim(char *text)
{
    size_t from = 0, size = strlen(text);

    while (is_blank(text[from]))
        from++;
    while (size > from && is_blank(text[size - 1]))
        size--;
    memmove(text, text + from, size - from);
    text[size - from] = '\0';
}

static void skip_blanks(cursor *c)
{
    while (c->at < c->end && is_blank(*c->at))
        c->at++;
}

static bool at_break(const cursor *c)
{
    return c->at == c->end || *c->at == '\n' || *c->at == '\r';
}

/* What stands between quotes; a doubled one is one. False without an end. */
static bool take_quoted(cursor *c, char *to)
{
    for (c->at++; c->at < c->end; c->at++) {
        if (*c->at == '\n') {
            c->line++;
            c->line_start = c->at + 1;
        }
        if (*c->at == '"' && (c->at + 1 == c->end || c->at[1] != '"')) {
            c->at++;
            *to = '\0';
            skip_blanks(c);
            return at_break(c) || *c->at == ',';
        }
        c->at += *c->at == '"';
        *to++ = *c->at;
    }
    *to = '\0';
    return false;
}

static void take_plain(cursor *c, char *to)
{
    while (!at_break(c) && *c->at != ',')
        *to++ = *c->at++;
    *to = '\0';
}

/* One cell; at its end the cursor is behind the comma or the line. */
static qci_cells_end take_cell(qci_cells *cells, cursor *c)
{
    qci_cell cell = {.line = c->line};
    bool good = true;

    skip_blanks(c);
    cell.column = (uint32_t)(c->at - c->line_start) + 1;
    cell.text = qci_calloc((size_t)(c->end - c->at) + 1, 1);
    if (!cell.text)
        return QCI_CELLS_NO_MEMORY;
    if (c->at < c->end && *c->at == '"') {
        good = take_quoted(c, cell.text);
    } else {
        take_plain(c, cell.text);
    }
    trim(cell.text);
    cell.last = at_break(c);
    if (c->at < c->end && *c->at == '\r')
        c->at++;
    if (c->at < c->end) {
        c->line += *c->at == '\n';
        c->at++;
        if (cell.last)
            c->line_start = c->at;
    }
    if (!qci_vec_push(&cells->list, cell)) {
        qci_free(cell.text);
        return QCI_CELLS_NO_MEMORY;
    }
    return good ? QCI_CELLS_READ : QCI_CELLS_OPEN;
}

qci_cells_end qci_cells_read(qci_cells *cells, const char *text, size_t size)
{
    cursor c = {text, text + size, 1, text};
    qci_cells_end end = QCI_CELLS_READ;
    bool begins = true; /* a row */

    while (c.at < c.end && end == QCI_CELLS_READ) {
        end = take_cell(cells, &c);
        if (end == QCI_CELLS_READ) {
            qci_cell *last = &cells->list.at[cells->list.count - 1];
            bool empty = begins && last->last && !last->text[0];

            begins = last->last;
            if (empty)
                qci_free(cells->list.at[--cells->list.count].text);
        }
    }
    if (cells->list.count)
        cells->list.at[cells->list.count - 1].last = true;
    return end;
}

void qci_cells_end_all(qci_cells *cells)
{
    for (size_t i = 0; i < cells->list.count; i++)
        qci_free(cells->list.at[i].text);
    qci_vec_clear(&cells->list);
}
