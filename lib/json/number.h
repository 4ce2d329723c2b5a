/* Exact decimals. JSON numbers come out of jansson as integers or doubles;
 * here they become decimal text again, and whole numbers of a small part. */
#ifndef QCI_JSON_NUMBER_H
#define QCI_JSON_NUMBER_H

#include <jansson.h>
#include <stdint.h>

/* Room for any double written out without an exponent. */
#define QCI_NUMBER_ROOM 384

/* Writes the shortest decimal that reads back as the same number, such as
 * "0.125", without an exponent, whatever the locale. */
void qci_number_text(const json_t *number, char out[QCI_NUMBER_ROOM]);

typedef enum qci_scaled {
    QCI_SCALED_OK,
    QCI_SCALED_NOT_A_NUMBER,
    QCI_SCALED_TOO_FINE, /* more decimals than are kept */
    QCI_SCALED_TOO_LARGE
} qci_scaled;

/* Reads "12.5" with `decimals` places as 1250 (two places). */
qci_scaled qci_decimal_scaled(const char *text, int decimals, int64_t *out);

/* Room for any 64-bit quotient to 15 places. */
#define QCI_RATIO_ROOM 48

/* Writes over / under as a decimal of at most `places` (0 to 15) places, exact
 * where that many suffice, else rounded half up; no zeros at the end. `over`
 * is not negative; `under` is from 1 to 2^36. */
void qci_ratio_text(int64_t over, int64_t under, int places,
                    char out[QCI_RATIO_ROOM]);

#endif
