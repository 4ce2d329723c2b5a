/**
 * Exact lengths.
 *
 * Every length is a whole number of 1/8 micrometre, so that 1/64 in (3 175),
 * 0.01 in (2 032) and 0.1 mm (800) are exact. Basis: 1 yd = 0.9144 m exactly
 * (international yard and pound agreement, 1959), so 1 in = 25.4 mm.
 */
#ifndef QUILTCUT_LENGTH_H
#define QUILTCUT_LENGTH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/export.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** A length in units of 1/8 micrometre. */
typedef int64_t qc_length;

#define QC_MM INT64_C(8000)
#define QC_CM INT64_C(80000)
#define QC_M INT64_C(8000000)
#define QC_INCH INT64_C(203200)
#define QC_YARD INT64_C(7315200)

/** The longest length that any call accepts or returns (4 294.967296 m). */
#define QC_LENGTH_MAX (INT64_C(1) << 35)

/** A point on cloth: x across the fabric, y along its length. */
typedef struct qc_point {
    qc_length x, y;
} qc_point;

/** What bare numbers mean, and how lengths are written. */
typedef enum qc_units {
    QC_UNITS_IN = 0,
    QC_UNITS_CM = 1,
    QC_UNITS_MM = 2
} qc_units;

/** How qc_length_parse() treats a number that lies between two lengths. */
typedef enum qc_parse_rounding {
    QC_PARSE_EXACT = 0, /**< refuse it; the error names the nearest two */
    QC_PARSE_UP = 1     /**< take the next length above it */
} qc_parse_rounding;

/**
 * Reads a length such as "2 1/2", "2-1/2", "2½", "2.5", "2 1/2 in",
 * "63.5 mm", "6.35 cm", "1 3/8 yd" or "1.25 m". Units: in, inch, inches, ",
 * the double prime, mm, cm, m, yd, yard, yards. After a whole number a fraction
 * must be below 1.
 *
 * @param text     NUL-terminated UTF-8; spaces round it are ignored.
 * @param units    What a bare number is in.
 * @param out      Receives the length; untouched on failure.
 * @param err      Filled on failure (value, problem, allowed); may be NULL.
 * @return QC_STATUS_OK or QC_STATUS_INVALID (not a length, negative, longer
 *         than QC_LENGTH_MAX, or off the lattice under QC_PARSE_EXACT).
 */
QC_API qc_status qc_length_parse(const char *text, qc_units units,
                                 qc_parse_rounding rounding, qc_length *out,
                                 qc_error *err);

/**
 * Writes a length as it is read on a ruler: inches as a mixed fraction
 * ("4 1/2") with the smallest denominator up to 64, otherwise as the shortest
 * exact decimal ("4.53"); centimetres and millimetres as decimals. A metric
 * length that has no end as inches (1 cm = 50/127 in) is rounded to four places
 * and begins with the sign for "about": "≈0.3937". No unit is appended.
 *
 * @return the length of the whole text, as snprintf does.
 */
QC_API int qc_length_format(qc_length length, qc_units units, char *buffer,
                            size_t size);

/**
 * Writes what to ask for in a shop: "3 1/2 yd", "2 1/3 yd", "1.35 m".
 * Inches print yards, the others metres. What has no plain fraction of a yard
 * is written in inches, or in metres when it has no end as inches.
 *
 * @return the length of the whole text, as snprintf does.
 */
QC_API int qc_length_format_purchase(qc_length length, qc_units units,
                                     char *buffer, size_t size);

/** A length as a number of `units`, for charts; exact lengths stay integers. */
QC_API double qc_length_value(qc_length length, qc_units units);

#ifdef __cplusplus
}
#endif

#endif
