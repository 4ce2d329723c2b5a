/* Lengths as text, in integers only: the host's locale never shows through.
 *
 * Every length is an exact decimal of a metric unit, since 1 mm is 8 000
 * lattice units and 8 000 x 125 = 10^6. An inch is 203 200 = 2^6 x 5^2 x 127
 * units, so a length is an exact decimal of it only when 127 divides it; then 1
 * 600 x 625 = 10^6 gives at most six places. Other lengths, such as 1 cm, have
 * no end in inches; they are written rounded, behind a sign that says so. */
#include "length/units.h"

#include <inttypes.h>
#include <stdio.h>

#include "base/gcd.h"

#define INCH_64TH (QC_INCH / 64)
#define INCH_PRIME 127

qc_length qci_units_one(qc_units units)
{
    return units == QC_UNITS_IN   ? QC_INCH
           : units == QC_UNITS_CM ? QC_CM
                                  : QC_MM;
}

const char *qci_units_name(qc_units units)
{
    return units == QC_UNITS_IN ? "in" : units == QC_UNITS_CM ? "cm" : "mm";
}

/* The sign apart, so that the rest works on what is not negative. */
static const char *take_sign(qc_length length, uint64_t *size)
{
    *size = length < 0 ? 0 - (uint64_t)length : (uint64_t)length;
    return length < 0 ? "-" : "";
}

/* `mark`, the whole, and `part` in units of 10^-places without its last 0s. */
static int write_decimal(const char *mark, uint64_t whole, uint64_t part,
                         int places, char *buffer, size_t size)
{
    if (part == 0)
        return snprintf(buffer, size, "%s%" PRIu64, mark, whole);
    while (part % 10 == 0) {
        part /= 10;
        places--;
    }
    return snprintf(buffer, size, "%s%" PRIu64 ".%0*" PRIu64, mark, whole,
                    places, part);
}

static int write_fraction(const char *mark, uint64_t whole, uint64_t top,
                          uint64_t bottom, char *buffer, size_t size)
{
    if (top == 0)
        return snprintf(buffer, size, "%s%" PRIu64, mark, whole);
    if (whole == 0)
        return snprintf(buffer, size, "%s%" PRIu64 "/%" PRIu64, mark, top,
                        bottom);
    return snprintf(buffer, size, "%s%" PRIu64 " %" PRIu64 "/%" PRIu64, mark,
                    whole, top, bottom);
}

int qci_length_format_metric(qc_length length, qc_length one, char *buffer,
                             size_t size)
{
    uint64_t n;
    const char *mark = take_sign(length, &n);
    int places = one == QC_MM ? 6 : one == QC_CM ? 7 : 9;

    return write_decimal(mark, n / (uint64_t)one, n % (uint64_t)one * 125,
                         places, buffer, size);
}

/* To four places, a tenth of what the finest ruler mark shows. */
static int write_rounded(const char *mark, uint64_t n, char *buffer,
                         size_t size)
{
    uint64_t whole = n / QC_INCH;
    uint64_t part = (n % QC_INCH * 10000 + QC_INCH / 2) / QC_INCH;
    char about[8];

    snprintf(about, sizeof about, "\xE2\x89\x88%s", mark);
    return write_decimal(about, whole + part / 10000, part % 10000, 4, buffer,
                         size);
}

static int format_inches(qc_length length, char *buffer, size_t size)
{
    uint64_t n;
    const char *mark = take_sign(length, &n);
    uint64_t rest = n % QC_INCH;
    uint64_t top = rest / INCH_64TH, bottom = 64;

    if (rest % INCH_64TH == 0) {
        while (top && top % 2 == 0) {
            top /= 2;
            bottom /= 2;
        }
        return write_fraction(mark, n / QC_INCH, top, bottom, buffer, size);
    }
    if (rest % INCH_PRIME)
        return write_rounded(mark, n, buffer, size);
    return write_decimal(mark, n / QC_INCH, rest / INCH_PRIME * 625, 6, buffer,
                         size);
}

int qc_length_format(qc_length length, qc_units units, char *buffer,
                     size_t size)
{
    if (units == QC_UNITS_IN)
        return format_inches(length, buffer, size);
    return qci_length_format_metric(length, qci_units_one(units), buffer, size);
}

int qci_length_format_unit(qc_length length, qc_units units, char *buffer,
                           size_t size)
{
    char number[QCI_LENGTH_TEXT];

    qc_length_format(length, units, number, sizeof number);
    return snprintf(buffer, size, "%s %s", number, qci_units_name(units));
}

/* The fractions of a yard that a shop's yardstick shows, and their halves. */
static bool is_shop_fraction(uint64_t bottom)
{
    return bottom <= 4 || bottom == 6 || bottom == 8 || bottom == 16;
}

int qc_length_format_purchase(qc_length length, qc_units units, char *buffer,
                              size_t size)
{
    char number[QCI_LENGTH_TEXT];
    uint64_t n, part, divisor, bottom;
    const char *mark = take_sign(length, &n);

    part = n % QC_YARD;
    divisor = (uint64_t)qci_gcd(QC_YARD, (int64_t)part);
    bottom = QC_YARD / divisor;
    if (units == QC_UNITS_IN && is_shop_fraction(bottom)) {
        write_fraction(mark, n / QC_YARD, part / divisor, bottom, number,
                       sizeof number);
        return snprintf(buffer, size, "%s yd", number);
    }
    /* A tenth of a yard has an end as a decimal; 41 in has none. */
    if (units == QC_UNITS_IN && 1000 % bottom == 0) {
        write_decimal(mark, n / QC_YARD, part / divisor * (1000 / bottom), 3,
                      number, sizeof number);
        return snprintf(buffer, size, "%s yd", number);
    }
    if (units == QC_UNITS_IN && n % INCH_PRIME == 0)
        return qci_length_format_unit(length, units, buffer, size);
    qci_length_format_metric(length, QC_M, number, sizeof number);
    return snprintf(buffer, size, "%s m", number);
}

double qc_length_value(qc_length length, qc_units units)
{
    return (double)length / (double)qci_units_one(units);
}
