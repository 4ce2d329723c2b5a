/* A double is turned into the shortest decimal that round-trips (15 to 17
 * digits), which for every number written with up to 15 digits is the number
 * as written. printf and strtod are used under whatever locale the host has
 * set, but only against each other, and the decimal mark is skipped, not
 * matched; so the text is the same in every locale. */
#include "json/number.h"

#include <inttypes.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The number as d.ddd x 10^exponent: its digits without trailing zeros. */
typedef struct decimal {
    bool negative;
    char digits[20];
    int count;
    int exponent;
} decimal;

static decimal decimal_of(double value)
{
    decimal d = {0};
    char text[48];
    const char *at = text;

    for (int places = 14; places <= 16; places++) {
        snprintf(text, sizeof text, "%.*e", places, value);
        if (!(strtod(text, NULL) < value) && !(strtod(text, NULL) > value))
            break;
    }
    if (*at == '-') {
        d.negative = true;
        at++;
    }
    for (; *at != 'e'; at++)
        if (*at >= '0' && *at <= '9')
            d.digits[d.count++] = *at;
    d.exponent = (int)strtol(at + 1, NULL, 10);
    while (d.count > 1 && d.digits[d.count - 1] == '0')
        d.count--;
    return d;
}

static void write_out(const decimal *d, char *out)
{
    int before = d->exponent + 1; /* digits before the point */

    if (d->negative)
        *out++ = '-';
    if (before <= 0) {
        *out++ = '0';
        *out++ = '.';
        for (int i = before; i < 0; i++)
            *out++ = '0';
    }
    for (int i = 0; i < d->count || i < before; i++) {
        if (i == before && i > 0)
            *out++ = '.';
        *out++ = i < d->count ? d->digits[i] : '0';
    }
    *out = '\0';
}

void qci_number_text(const json_t *number, char out[QCI_NUMBER_ROOM])
{
    double value = json_real_value(number);
    decimal d;

    if (json_is_integer(number)) {
        snprintf(out, QCI_NUMBER_ROOM, "%" JSON_INTEGER_FORMAT,
                 json_integer_value(number));
        return;
    }
    if (!(value < 0) && !(value > 0)) { /* also -0.0 */
        memcpy(out, "0", 2);
        return;
    }
    d = decimal_of(value);
    write_out(&d, out);
}

/* value * 10 + digit, or false. */
static bool append_digit(int64_t *value, int digit)
{
    if (*value > (INT64_MAX - digit) / 10)
        return false;
    *value = *value * 10 + digit;
    return true;
}

qci_scaled qci_decimal_scaled(const char *text, int decimals, int64_t *out)
{
    bool negative = *text == '-';
    bool point = false, any = false;
    int64_t value = 0;
    int places = 0;

    for (text += negative; *text; text++) {
        if (*text == '.' && !point) {
            point = true;
            continue;
        }
        if (*text < '0' || *text > '9')
            return QCI_SCALED_NOT_A_NUMBER;
        any = true;
        if (point && places == decimals) {
            if (*text != '0')
                return QCI_SCALED_TOO_FINE;
            continue;
        }
        places += point;
        if (!append_digit(&value, *text - '0'))
            return QCI_SCALED_TOO_LARGE;
    }
    for (; places < decimals; places++)
        if (!append_digit(&value, 0))
            return QCI_SCALED_TOO_LARGE;
    *out = negative ? -value : value;
    return any ? QCI_SCALED_OK : QCI_SCALED_NOT_A_NUMBER;
}

void qci_ratio_text(int64_t over, int64_t under, int places,
                    char out[QCI_RATIO_ROOM])
{
    int64_t whole = over / under, rest = over % under;
    int64_t fraction = 0, scale = 1;

    for (int i = 0; i < places; i++) {
        rest *= 10;
        fraction = fraction * 10 + rest / under;
        rest %= under;
        scale *= 10;
    }
    if (2 * rest >= under && ++fraction == scale) {
        fraction = 0;
        whole++;
    }
    while (fraction && fraction % 10 == 0) {
        fraction /= 10;
        places--;
    }
    if (fraction)
        snprintf(out, QCI_RATIO_ROOM, "%" PRId64 ".%0*" PRId64, whole, places,
                 fraction);
    else
        snprintf(out, QCI_RATIO_ROOM, "%" PRId64, whole);
}
