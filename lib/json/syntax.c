/* jansson finds out whether the bytes are JSON; here its verdict is put into
 * plain words and given a place in bytes. jansson says how many bytes it had
 * read when it stopped, which is the end of the token that it stumbled over;
 * the place reported is where that token begins. */
#include "json/syntax.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include <quiltcut/job.h>

#include "base/error.h"
#include "json/scan.h"

#define MAX_TOKEN 4096 /* bytes */

typedef struct json_text {
    const char *text;
    size_t size;
    qc_error *err;
} json_text;

static qc_status fail_at(const json_text *source, size_t offset,
                         const char *value, const char *allowed,
                         const char *problem)
{
    qc_error *err = source->err;

    if (err && err->code == QC_STATUS_OK)
        qci_line_column(source->text, offset, &err->line, &err->column);
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, value}, allowed,
                    "%s", problem);
}

/* The token that holds the byte before `position`; *before is what stands in
 * front of it. */
static qci_token token_before(const json_text *source, size_t position,
                              char *before)
{
    qci_token token = qci_token_next(source->text, source->size, 0);

    *before = '\0';
    while (token.kind && token.end < position) {
        *before = token.kind;
        token = qci_token_next(source->text, source->size, token.end);
    }
    return token;
}

static void token_text(const json_text *source, qci_token token, char *out,
                       size_t size)
{
    size_t length = token.end - token.start;

    /* Longer than the error's value, so that it shows that it was cut. */
    if (length >= size)
        length = size - 1;
    memcpy(out, source->text + token.start, length);
    out[length] = '\0';
}

static bool starts(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

/* What is wrong with a token, from jansson's message about it. */
static const char *plain_words(const char *message, qci_token token,
                               char before)
{
    static const struct {
        const char *jansson, *plain;
    } phrases[] = {
        {"string or '}'", "a field name in double quotes is expected"},
        {"'}' expected", "',' or '}' is expected before it"},
        {"']' expected", "',' or ']' is expected before it"},
        {"':' expected", "':' is expected before it"},
        {"invalid token", "it is neither a number nor a text in double quotes"},
        {"unexpected token", "a value is expected"},
        {"unexpected newline", "the text is not closed on its line"},
        {"control character", "a control character in it is not escaped"},
        {"invalid Unicode", "half of a surrogate pair stands alone"},
        {"invalid escape", "no such character may stand behind a backslash"},
    };

    if (before == ',' && (token.kind == '}' || token.kind == ']'))
        return "there is a comma too many before it";
    for (size_t i = 0; i < sizeof phrases / sizeof *phrases; i++)
        if (starts(message, phrases[i].jansson))
            return phrases[i].plain;
    return message;
}

static qc_status fail_early_end(const json_text *source)
{
    size_t end = source->size;

    while (end && strchr(" \t\r\n", source->text[end - 1]))
        end--;
    return fail_at(source, end, NULL, NULL,
                   "the text ends too early: a bracket or quotation mark is "
                   "not closed, or a value is missing");
}

static qc_status fail_grammar(const json_text *source,
                              const json_error_t *error, qci_token token,
                              char before, const char *value)
{
    char problem[sizeof error->text + 24];

    /* Memory was out if it takes a good text for something else. */
    if (token.kind == '"' && (starts(error->text, "invalid token") ||
                              starts(error->text, "string or '}'")))
        return qci_no_memory(source->err);
    snprintf(problem, sizeof problem, "not valid JSON: %s",
             plain_words(error->text, token, before));
    return fail_at(source, token.start, value, NULL, problem);
}

static qc_status explain(const json_text *source, const json_error_t *error)
{
    size_t position = error->position > 0 ? (size_t)error->position : 0;
    char value[160], problem[96], before;
    qci_token token = token_before(source, position, &before);

    /* A failed allocation: jansson says nothing, and leaves the code unset. */
    if (!error->text[0])
        return qci_no_memory(source->err);
    token_text(source, token, value, sizeof value);
    switch (json_error_code(error)) {
    case json_error_premature_end_of_input:
        return fail_early_end(source);
    case json_error_end_of_input_expected:
        return fail_at(source, token.start, value, NULL,
                       "there is more text behind its end");
    case json_error_stack_overflow:
        return fail_at(source, token.start, NULL, "at most 2048 levels",
                       "lists and objects are nested too deeply");
    case json_error_invalid_utf8:
        snprintf(problem, sizeof problem, "byte 0x%02x is not UTF-8 text",
                 (unsigned char)source->text[position]);
        return fail_at(source, position, NULL, "UTF-8", problem);
    case json_error_null_character:
    case json_error_null_byte_in_key:
        return fail_at(source, token.start, value, NULL,
                       "the character \\u0000 is not allowed");
    case json_error_duplicate_key:
        return fail_at(source, token.start, value, NULL,
                       "the field is given twice");
    case json_error_numeric_overflow:
        return fail_at(source, token.start, value, NULL,
                       "the number is too large");
    case json_error_invalid_syntax:
        return fail_grammar(source, error, token, before, value);
    default:
        return qci_no_memory(source->err);
    }
}

/* No token may be long. No job needs that; and jansson (2.14) does not notice
 * when the memory to hold a long one cannot be had, so that a large growth must
 * not be asked of it. */
static qc_status refuse_long_tokens(const json_text *source)
{
    qci_token token = qci_token_next(source->text, source->size, 0);

    while (token.kind && token.end - token.start <= MAX_TOKEN)
        token = qci_token_next(source->text, source->size, token.end);
    if (!token.kind)
        return QC_STATUS_OK;
    return fail_at(source, token.start, NULL, "at most 4096 bytes",
                   "a text or a number is too long");
}

/* What jansson need not be asked about. */
static qc_status refuse_at_once(const json_text *source)
{
    const char *nul;
    char value[32];

    if (!source->text || !source->size)
        return qci_fail(source->err, QC_STATUS_INVALID, (qci_place){NULL, NULL},
                        "a JSON object: {...}", "the text is empty");
    if (source->size > QC_MAX_JSON_BYTES) {
        snprintf(value, sizeof value, "%zu bytes", source->size);
        return qci_fail(source->err, QC_STATUS_INVALID,
                        (qci_place){NULL, value}, "at most 16 MiB",
                        "the text is too long");
    }
    if (!qci_token_next(source->text, source->size, 0).kind)
        return fail_at(source, 0, NULL, "a JSON object: {...}",
                       "the text is empty");
    nul = memchr(source->text, '\0', source->size);
    if (nul)
        return fail_at(source, (size_t)(nul - source->text), NULL, "UTF-8",
                       "a zero byte is not text");
    return refuse_long_tokens(source);
}

qc_status qci_json_load(const char *text, size_t size, json_t **out,
                        qc_error *err)
{
    json_text source = {text, size, err};
    json_error_t error;
    qc_status status = refuse_at_once(&source);

    *out = NULL;
    if (status)
        return status;
    *out = json_loadb(text, size, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY,
                      &error);
    return *out ? QC_STATUS_OK : explain(&source, &error);
}

void qci_json_skip_mark(const char **text, size_t *size)
{
    if (*text && *size >= 3 && memcmp(*text, "\xEF\xBB\xBF", 3) == 0) {
        *text += 3;
        *size -= 3;
    }
}
