/* jansson would write numbers as doubles; a plan's numbers are exact quotients
 * and are written digit by digit from integers instead. Commas and indentation
 * follow from the depth and from whether a member has been written. */
#include "json/write.h"

#include <inttypes.h>
#include <string.h>

#include "json/number.h"

static void add(qci_writer *writer, const char *bytes)
{
    qci_text_add(&writer->text, bytes, strlen(bytes));
}

static void new_line(qci_writer *writer)
{
    add(writer, "\n");
    for (int i = 0; i < writer->depth; i++)
        add(writer, "  ");
}

static void quote(qci_writer *writer, const char *text)
{
    add(writer, "\"");
    for (; *text; text++) {
        size_t plain = 0;

        while ((unsigned char)text[plain] >= 0x20 && text[plain] != '"' &&
               text[plain] != '\\' && text[plain] != 0x7F)
            plain++;
        qci_text_add(&writer->text, text, plain);
        text += plain;
        if (!*text)
            break;
        if (*text == '"' || *text == '\\')
            qci_text_printf(&writer->text, "\\%c", *text);
        else
            qci_text_printf(&writer->text, "\\u%04x", (unsigned char)*text);
    }
    add(writer, "\"");
}

/* What comes before a member's value. */
static void begin(qci_writer *writer, const char *key)
{
    if (writer->begun)
        add(writer, writer->one_line ? ", " : ",");
    if (writer->depth && !writer->one_line)
        new_line(writer);
    writer->begun = true;
    if (key) {
        quote(writer, key);
        add(writer, ": ");
    }
}

void qci_write_open(qci_writer *writer, const char *key, char bracket)
{
    begin(writer, key);
    qci_text_add(&writer->text, &bracket, 1);
    writer->depth++;
    writer->begun = false;
}

void qci_write_open_line(qci_writer *writer, const char *key)
{
    qci_write_open(writer, key, '[');
    writer->one_line = true;
}

void qci_write_close(qci_writer *writer, char bracket)
{
    writer->depth--;
    if (writer->begun && !writer->one_line)
        new_line(writer);
    writer->one_line = false;
    qci_text_add(&writer->text, &bracket, 1);
    writer->begun = true;
}

void qci_write_text(qci_writer *writer, const char *key, const char *text)
{
    begin(writer, key);
    quote(writer, text);
}

void qci_write_integer(qci_writer *writer, const char *key, int64_t value)
{
    begin(writer, key);
    qci_text_printf(&writer->text, "%" PRId64, value);
}

void qci_write_bool(qci_writer *writer, const char *key, bool value)
{
    begin(writer, key);
    add(writer, value ? "true" : "false");
}

void qci_write_null(qci_writer *writer, const char *key)
{
    begin(writer, key);
    add(writer, "null");
}

void qci_write_ratio(qci_writer *writer, const char *key, int64_t over,
                     int64_t under, int places)
{
    char text[QCI_RATIO_ROOM];

    qci_ratio_text(over < 0 ? -over : over, under, places, text);
    begin(writer, key);
    if (over < 0)
        add(writer, "-");
    add(writer, text);
}
