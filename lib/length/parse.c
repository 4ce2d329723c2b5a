/* Lengths from text, exactly.
 *
 * The form is NUMBER [UNIT]. NUMBER is whole ("4"), decimal ("4.5", ".5"), a
 * fraction ("1/2", "½") or whole and fraction ("4 1/2", "4-1/2", "4½"). It is
 * kept as whole + fraction, and the fraction is multiplied by the unit in
 * integers: a quotient on the lattice, and whether anything remained. Decimals
 * of any length are multiplied digit by digit, from the last to the first, as
 * on paper, so no place is ever dropped.
 *
 * Digits beyond DIGITS_MAX saturate: any such whole is too long for every unit,
 * and DIGITS_MAX x QC_M still fits in 64 bits. */
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/utf8.h"
#include "length/units.h"

#define DIGITS_MAX UINT64_C(1000000000000)

#define FORMS                                                                  \
    "a length such as 2 1/2, 2.5, 2 1/2 in, 63.5 mm, 6.35 cm, 1 3/8 yd or "    \
    "1.25 m"
#define LONGEST "up to 4294.967296 m (169093 in)"

typedef struct number {
    uint64_t whole;
    const char *decimals; /* after the point; NULL: a fraction instead */
    size_t decimal_count;
    uint64_t top, bottom;
} number;

/* Why a text is no length; NULL: it is one. */
typedef const char *complaint;

typedef struct mark {
    const char *text;
    unsigned top, bottom;
} mark;

/* The fractions of Unicode, except 0/3. */
static const mark marks[] = {
    {"\xC2\xBC", 1, 4},     {"\xC2\xBD", 1, 2},     {"\xC2\xBE", 3, 4},
    {"\xE2\x85\x90", 1, 7}, {"\xE2\x85\x91", 1, 9}, {"\xE2\x85\x92", 1, 10},
    {"\xE2\x85\x93", 1, 3}, {"\xE2\x85\x94", 2, 3}, {"\xE2\x85\x95", 1, 5},
    {"\xE2\x85\x96", 2, 5}, {"\xE2\x85\x97", 3, 5}, {"\xE2\x85\x98", 4, 5},
    {"\xE2\x85\x99", 1, 6}, {"\xE2\x85\x9A", 5, 6}, {"\xE2\x85\x9B", 1, 8},
    {"\xE2\x85\x9C", 3, 8}, {"\xE2\x85\x9D", 5, 8}, {"\xE2\x85\x9E", 7, 8},
};

/* Longer names first where one begins another. */
static const struct {
    const char *name;
    qc_length one;
} unit_names[] = {
    {"inches", QC_INCH},
    {"inch", QC_INCH},
    {"in", QC_INCH},
    {"\"", QC_INCH},
    {"\xE2\x80\xB3", QC_INCH}, /* double prime */
    {"mm", QC_MM},
    {"cm", QC_CM},
    {"m", QC_M},
    {"yards", QC_YARD},
    {"yard", QC_YARD},
    {"yd", QC_YARD},
};

#define COUNT(list) (sizeof(list) / sizeof *(list))

static bool take(const char **at, const char *text)
{
    size_t size = strlen(text);

    if (strncmp(*at, text, size) != 0)
        return false;
    *at += size;
    return true;
}

/* Spaces, tabs, and the no-break spaces that text copied from a page has. */
static bool take_spaces(const char **at)
{
    const char *from = *at;

    while (take(at, " ") || take(at, "\t") || take(at, "\xC2\xA0") ||
           take(at, "\xE2\x80\xAF"))
        continue;
    return *at != from;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool take_digits(const char **at, uint64_t *value)
{
    const char *from = *at;

    for (*value = 0; is_digit(**at); ++*at)
        if (*value < DIGITS_MAX)
            *value = *value * 10 + (uint64_t)(**at - '0');
    return *at != from;
}

static bool take_slash(const char **at)
{
    return take(at, "/") || take(at, "\xE2\x81\x84") ||
           take(at, "\xE2\x88\x95");
}

/* "1/2" or "½"; leaves `at` where it was when there is none. */
static bool take_fraction(const char **at, number *n)
{
    const char *from = *at;

    for (size_t i = 0; i < COUNT(marks); i++) {
        if (take(at, marks[i].text)) {
            n->top = marks[i].top;
            n->bottom = marks[i].bottom;
            return true;
        }
    }
    if (take_digits(at, &n->top) && take_slash(at) &&
        take_digits(at, &n->bottom))
        return true;
    *at = from;
    return false;
}

static complaint check_fraction(const number *n, bool mixed)
{
    if (n->bottom == 0)
        return "has a fraction with 0 below the line";
    if (n->top >= DIGITS_MAX || n->bottom >= DIGITS_MAX)
        return "has a fraction of more than 12 digits";
    if (mixed && n->top >= n->bottom)
        return "has a whole number and a fraction that is not below 1";
    return NULL;
}

static complaint take_number(const char **at, number *n)
{
    const char *rest;
    bool whole;

    *n = (number){0, NULL, 0, 0, 1};
    if (take_fraction(at, n))
        return check_fraction(n, false);
    whole = take_digits(at, &n->whole);
    if (take(at, ".")) {
        n->decimals = *at;
        while (is_digit(**at))
            ++*at;
        n->decimal_count = (size_t)(*at - n->decimals);
        return whole || n->decimal_count ? NULL : "is not a length";
    }
    if (!whole)
        return "is not a length";
    rest = *at;
    if (!take(&rest, "-"))
        take_spaces(&rest);
    if (!take_fraction(&rest, n)) {
        n->top = 0;
        n->bottom = 1;
        return NULL;
    }
    *at = rest;
    return check_fraction(n, true);
}

static bool take_unit(const char **at, qc_length *one)
{
    for (size_t i = 0; i < COUNT(unit_names); i++) {
        if (take(at, unit_names[i].name)) {
            *one = unit_names[i].one;
            return true;
        }
    }
    return false;
}

/* 0.DIGITS x one, rounded down; *exact tells whether nothing was dropped. */
static uint64_t multiply_decimals(const number *n, uint64_t one, bool *exact)
{
    uint64_t carry = 0;

    *exact = true;
    for (size_t i = n->decimal_count; i > 0; i--) {
        uint64_t product = (uint64_t)(n->decimals[i - 1] - '0') * one + carry;

        *exact = *exact && product % 10 == 0;
        carry = product / 10;
    }
    return carry;
}

/* The number as lattice units, rounded down. False: too long. */
static bool to_lattice(const number *n, qc_length one, qc_length *down,
                       bool *exact)
{
    uint64_t unit = (uint64_t)one;
    uint64_t part, total;

    if (n->whole > (uint64_t)QC_LENGTH_MAX / unit)
        return false;
    if (n->decimals) {
        part = multiply_decimals(n, unit, exact);
    } else {
        part = n->top * unit / n->bottom;
        *exact = n->top * unit % n->bottom == 0;
    }
    total = n->whole * unit + part;
    if (total > (uint64_t)QC_LENGTH_MAX)
        return false;
    *down = (qc_length)total;
    return total < (uint64_t)QC_LENGTH_MAX || *exact;
}

/* The two lengths next to an off-lattice number. In inches and yards they have
 * no end as decimals, so they are given in millimetres, with the two nearest
 * marks of a ruler in 64ths beside them. */
static qc_status fail_between(const char *text, qc_length down, qc_length one,
                              qc_error *err)
{
    bool metric = one == QC_MM || one == QC_CM || one == QC_M;
    const char *name = one == QC_M ? "m" : one == QC_CM ? "cm" : "mm";
    qc_length mark64 = down - down % (QC_INCH / 64);
    char low[QCI_LENGTH_TEXT], high[QCI_LENGTH_TEXT];
    char ruler_low[QCI_LENGTH_TEXT], ruler_high[QCI_LENGTH_TEXT];
    char allowed[sizeof err->allowed];

    one = metric ? one : QC_MM;
    qci_length_format_metric(down, one, low, sizeof low);
    qci_length_format_metric(down + 1, one, high, sizeof high);
    qc_length_format(mark64, QC_UNITS_IN, ruler_low, sizeof ruler_low);
    qc_length_format(mark64 + QC_INCH / 64, QC_UNITS_IN, ruler_high,
                     sizeof ruler_high);
    if (metric)
        snprintf(allowed, sizeof allowed, "%s %s or %s %s", low, name, high,
                 name);
    else
        snprintf(allowed, sizeof allowed,
                 "%s mm or %s mm; on a ruler, %s in or %s in", low, high,
                 ruler_low, ruler_high);
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, text}, allowed,
                    "lies between two lengths (whole 1/8 micrometres)");
}

static qc_status fail_form(const char *text, const char *at, complaint why,
                           qc_error *err)
{
    const char *allowed = FORMS;

    if (*text == '\0') {
        why = "is empty";
    } else if (!why && *at == ',') {
        why = "has a decimal comma; only a point is read";
    } else if (!why && !is_digit(*at)) {
        why = "has a unit that is not known";
        allowed = "in, inch, inches, \", mm, cm, m, yd, yard, yards, or none";
    }
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, text}, allowed,
                    "%s", why ? why : "is not a length");
}

qc_status qc_length_parse(const char *text, qc_units units,
                          qc_parse_rounding rounding, qc_length *out,
                          qc_error *err)
{
    const char *at = text;
    qc_length one = qci_units_one(units);
    qc_length down;
    complaint why;
    number n;
    bool exact;

    if (!text)
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, NULL}, FORMS,
                        "the length is missing");
    if (!qci_utf8_valid(text, strlen(text)))
        return fail_form(text, at, "is not valid UTF-8", err);
    take_spaces(&at);
    text = at;
    if (*at == '-')
        return fail_form(text, at, "is negative", err);
    why = take_number(&at, &n);
    if (why)
        return fail_form(text, at, why, err);
    take_spaces(&at);
    take_unit(&at, &one);
    take_spaces(&at);
    if (*at)
        return fail_form(text, at, NULL, err);
    if (!to_lattice(&n, one, &down, &exact))
        return qci_fail(err, QC_STATUS_INVALID, (qci_place){NULL, text},
                        LONGEST, "is too long");
    if (!exact && rounding == QC_PARSE_EXACT)
        return fail_between(text, down, one, err);
    *out = exact ? down : down + 1;
    return QC_STATUS_OK;
}
