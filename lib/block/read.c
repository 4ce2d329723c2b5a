/* The text of a drawing: a coordinate is a sum of terms, each a whole number, a
 * fraction or a decimal, with "r2" or "r3" behind it for a multiple of that
 * root. All become whole numbers of a fixed part of the grid's unit, so that
 * nothing is rounded; a fraction that is none is refused. */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "block/drawing.h"

/* Of a grid unit, whole and root part each. */
#define MOST 1000

qc_status qci_draft_fail(const qci_block_draft *draft, uint32_t drawn,
                         const char *member, const char *allowed,
                         const char *problem, ...)
{
    char path[96], words[sizeof draft->err->problem];
    va_list args;

    if (drawn == QC_NONE)
        snprintf(path, sizeof path, "%s", member);
    else
        snprintf(path, sizeof path, "patches[%u].%s", (unsigned)drawn, member);
    va_start(args, problem);
    vsnprintf(words, sizeof words, problem, args);
    va_end(args);
    return qci_fail(draft->err, QC_STATUS_INVALID, (qci_place){path, NULL},
                    allowed, "%s", words);
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Digits, and more of them behind a decimal point; false: none, or too many. */
static bool read_digits(const char **text, int64_t *value, int64_t *parts)
{
    const char *from = *text;
    bool point = false;

    *value = 0;
    *parts = 1;
    for (; is_digit(**text) || (**text == '.' && !point); ++*text) {
        if (**text == '.') {
            point = true;
            continue;
        }
        *value = *value * 10 + (**text - '0');
        *parts *= point ? 10 : 1;
        if (*value > 1000000 || *parts > 1000000)
            return false;
    }
    return *text > from + (point ? 1 : 0);
}

/* One term; the sign before it was read. */
static const char *read_term(qci_block_draft *draft, const char **text,
                             int64_t sign, qc_block_number *sum)
{
    int64_t value = 1, parts = 1, below = 1, one = 1;
    int64_t *to = &sum->whole;

    if (**text != 'r' && !read_digits(text, &value, &parts))
        return "is no list of coordinates";
    if (**text == '/') {
        ++*text;
        if (!read_digits(text, &below, &one) || !below || one > 1)
            return "has a fraction without a whole number below its line";
    }
    if (**text == 'r') {
        int64_t radicand = (*text)[1] - '0';

        if (radicand != 2 && radicand != 3)
            return "has a root that is neither r2 nor r3";
        if (draft->radicand && draft->radicand != radicand)
            return "has roots of 2 and of 3 in one block";
        draft->radicand = radicand;
        to = &sum->root;
        *text += 2;
    }
    if (value * QCI_GRID % (parts * below))
        return "has a fraction that is too fine";
    *to += sign * (value * QCI_GRID / (parts * below)) * QCI_TURNED;
    return *to > MOST * QCI_GRID * QCI_TURNED ||
                   *to < -MOST * QCI_GRID * QCI_TURNED
               ? "lies more than 1000 grid units away"
               : NULL;
}

qc_status qci_read_coordinate(qci_block_draft *draft, uint32_t drawn,
                              const char *member, const char **text,
                              qc_block_number *out)
{
    const char *fault;

    *out = (qc_block_number){0, 0};
    do {
        int64_t sign = **text == '-' ? -1 : 1;

        if (**text == '-' || **text == '+')
            ++*text;
        fault = read_term(draft, text, sign, out);
        if (fault)
            return qci_draft_fail(draft, drawn, member,
                                  "sums of numbers such as 3, 1/2, 0.25, r2 "
                                  "and 3/2r2, to 1/64 or 1/9 of a unit: "
                                  "\"0,0 1+1/2r2,0 1,1\"",
                                  "%s", fault);
    } while (**text == '+' || **text == '-');
    return QC_STATUS_OK;
}
