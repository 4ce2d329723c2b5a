/* Wrapping and columns.
 *
 * Text is handled in chunks that must stay on one line: a word, or words that
 * belong together. A reader who finds "4" at the end of a line and "1/2 in" at
 * the beginning of the next sets the ruler wrong, so a mixed number, its unit
 * and both sides of a size are one chunk, and so is "strip 3". A chunk longer
 * than a whole line is broken anywhere, between characters.
 *
 * Display width follows the ranges of Unicode's East Asian Width (UAX 11) in
 * coarse blocks; it only decides where columns stand. */
#include "report/layout.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"

typedef struct range {
    uint32_t first, last;
} range;

static const range no_width[] = {
    {0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x0610, 0x061A},
    {0x064B, 0x065F}, {0x093A, 0x093C}, {0x0E34, 0x0E3A}, {0x1AB0, 0x1AFF},
    {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F},
};

static const range two_wide[] = {
    {0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0xA4CF},
    {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},
    {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},   {0x1F300, 0x1F64F},
    {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD},
};

static bool is_in(uint32_t code, const range *ranges, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (code >= ranges[i].first && code <= ranges[i].last)
            return true;
    }
    return false;
}

/* The bytes of the character that begins at `text`. */
static size_t character(const char *text, size_t size)
{
    size_t n = 1;

    while (n < size && ((unsigned char)text[n] & 0xC0) == 0x80)
        n++;
    return n;
}

static size_t character_width(const char *text, size_t size)
{
    static const unsigned char lead[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    uint32_t code = (unsigned char)text[0] & lead[size < 5 ? size : 4];

    for (size_t i = 1; i < size; i++)
        code = code << 6 | ((unsigned char)text[i] & 0x3F);
    if (is_in(code, no_width, sizeof no_width / sizeof no_width[0]))
        return 0;
    return is_in(code, two_wide, sizeof two_wide / sizeof two_wide[0]) ? 2 : 1;
}

size_t qci_display_width(const char *text, size_t size)
{
    size_t width = 0;

    for (size_t at = 0; at < size;) {
        size_t n = character(text + at, size - at);

        width += character_width(text + at, n);
        at += n;
    }
    return width;
}

static void put_spaces(qci_text *out, size_t count)
{
    qci_text_printf(out, "%*s", (int)count, "");
}

static void put_newline(qci_text *out, size_t indent)
{
    qci_text_add(out, "\n", 1);
    put_spaces(out, indent);
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* `text` begins with this word, and it ends there. */
static bool begins_with(const char *text, const char *word)
{
    size_t n = strlen(word);

    return strncmp(text, word, n) == 0 && !isalnum((unsigned char)text[n]);
}

/* `word` is the last word before the space at `space`. */
static bool ends_with(const char *begin, const char *space, const char *word)
{
    size_t n = strlen(word);

    return (size_t)(space - begin) >= n && strncmp(space - n, word, n) == 0;
}

/* The space before `next` may not become the end of a line. */
static bool belongs_together(const char *begin, const char *next)
{
    static const char *const names[] = {"strip", "section", "slice",
                                        "leftover"};
    static const char *const units[] = {"in", "cm", "mm", "m",      "yd",
                                        "%",  "sq", "x",  "degrees"};
    const char *before = next - 1; /* the space */

    if (before - begin >= 2 && before[-1] == 'x' && before[-2] == ' ')
        return true;
    if (begins_with(next, "x"))
        return true;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (is_digit(*next) && ends_with(begin, before, names[i]))
            return true;
    }
    if (before == begin || !is_digit(before[-1]))
        return false;
    if (is_digit(*next))
        return true;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (begins_with(next, units[i]))
            return true;
    }
    return false;
}

/* The bytes up to the next place where a line may end. */
static size_t chunk(const char *words)
{
    size_t n = strcspn(words, " ");

    while (words[n] && belongs_together(words, words + n + 1))
        n += 1 + strcspn(words + n + 1, " ");
    return n;
}

/* Writes a chunk that is longer than a line, as far as lines go. */
static size_t put_broken(qci_text *out, size_t at, size_t indent,
                         const char *text, size_t size)
{
    for (size_t done = 0; done < size;) {
        size_t n = character(text + done, size - done);
        size_t width = character_width(text + done, n);

        if (at + width > QCI_PAGE_WIDTH) {
            put_newline(out, indent);
            at = indent;
        }
        qci_text_add(out, text + done, n);
        at += width;
        done += n;
    }
    return at;
}

void qci_put_wrapped(qci_text *out, size_t at, size_t indent, const char *words)
{
    bool begun = false;

    while (*words) {
        size_t size = chunk(words);
        size_t width = qci_display_width(words, size);
        size_t space = begun ? 1 : 0;

        if (at + space + width > QCI_PAGE_WIDTH && at > indent) {
            put_newline(out, indent);
            at = indent;
        } else {
            put_spaces(out, space);
            at += space;
        }
        at = put_broken(out, at, indent, words, size);
        begun = true;
        words += size;
        words += *words == ' ';
    }
}

void qci_put_paragraph(qci_text *out, size_t indent, const char *words)
{
    put_spaces(out, indent);
    qci_put_wrapped(out, indent, indent, words);
    qci_text_add(out, "\n", 1);
}

void qci_put_collected(qci_text *out, size_t indent, qci_text *words)
{
    if (words->bytes)
        qci_put_paragraph(out, indent, words->bytes);
    out->failed |= words->failed;
    qci_text_clear(words);
}

void qci_table_add(qci_table *table, const char *format, ...)
{
    va_list args;
    char cell[1024];

    va_start(args, format);
    vsnprintf(cell, sizeof cell, format, args);
    va_end(args);
    qci_text_add(&table->cells, cell, strlen(cell) + 1);
}

/* Where each column begins. */
static void place_columns(const qci_table *table, size_t columns, size_t indent,
                          size_t *start)
{
    size_t width[QCI_TABLE_COLUMNS] = {0};
    size_t column = 0;

    for (size_t at = 0; at < table->cells.size;) {
        const char *cell = table->cells.bytes + at;
        size_t size = strlen(cell);
        size_t wide = qci_display_width(cell, size);

        if (wide > width[column] && wide <= QCI_CELL_WIDTH)
            width[column] = wide;
        column = (column + 1) % columns;
        at += size + 1;
    }
    start[0] = indent;
    for (column = 1; column <= columns; column++)
        start[column] = start[column - 1] + width[column - 1] + 2;
    /* Too little room beside the others: the last column goes below them. */
    if (columns && start[columns - 1] > QCI_PAGE_WIDTH - QCI_CELL_WIDTH)
        start[columns - 1] = indent + 4;
}

/* Writes one cell of a column that ends before `end`, and moves the cursor,
 * which is 0 as long as the line is empty. */
static void put_cell(qci_text *out, const char *cell, bool right, size_t start,
                     size_t end, size_t *cursor)
{
    size_t wide = qci_display_width(cell, strlen(cell));
    size_t begin = right && wide < end - start ? end - wide : start;

    if (!wide)
        return;
    if (*cursor && *cursor + 2 > begin)
        put_newline(out, begin);
    else
        put_spaces(out, begin - *cursor);
    qci_put_wrapped(out, begin, begin, cell);
    *cursor = begin + wide;
}

void qci_table_put(qci_table *table, qci_text *out, size_t indent)
{
    size_t columns = strlen(table->align);
    size_t start[QCI_TABLE_COLUMNS + 1];
    size_t column = 0;
    size_t cursor = 0;

    place_columns(table, columns, indent, start);
    for (size_t at = 0; at < table->cells.size;) {
        const char *cell = table->cells.bytes + at;

        put_cell(out, cell, table->align[column] == 'r', start[column],
                 start[column + 1] - 2, &cursor);
        at += strlen(cell) + 1;
        column = (column + 1) % columns;
        if (column == 0) {
            qci_text_add(out, "\n", 1);
            cursor = 0;
        }
    }
    out->failed |= table->cells.failed;
    qci_text_clear(&table->cells);
}
