/* Writing a plan as JSON: what its parts share. */
#ifndef QCI_JSON_PLAN_WRITE_H
#define QCI_JSON_PLAN_WRITE_H

#include "plan/plan.h"
#include "json/write.h"

typedef struct qci_output {
    qci_writer writer;
    const qc_plan *plan;
    qc_units units;
    int64_t one; /* of the units */
} qci_output;

/* --- plan_values.c ------------------------------------------------------- */

/* A length as a number of the units, exact to nine places; may be negative. */
void qci_output_number(qci_output *out, const char *key, qc_length length);
/* The same, and under KEY_text as it is read on a ruler. */
void qci_output_length(qci_output *out, const char *key, qc_length length);
/* A length that is asked for in a shop; null when negative. */
void qci_output_purchase(qci_output *out, const char *key, qc_length length);
/* Lists of lengths on one line: numbers under KEY, texts under KEY_text. */
void qci_output_sizes(qci_output *out, const char *key, const qc_length *sizes,
                      size_t count);
void qci_output_area(qci_output *out, const char *key, int64_t area);
/* Millionths of a degree, as degrees. */
void qci_output_angle(qci_output *out, const char *key, int32_t angle);
/* "left" or "right"; nothing for what has no hand. */
void qci_output_hand(qci_output *out, qc_hand hand);
/* How a piece lies; of sections that are turned in turns, how the first does.
 */
void qci_output_turned(qci_output *out, qc_turn turn, bool alternate);
/* How an outline lies besides its turn; nothing for a rectangle's. */
void qci_output_lie(qci_output *out, uint32_t piece, uint32_t base,
                    bool mirrored);

const char *qci_output_piece_id(const qci_output *out, uint32_t piece);
const char *qci_output_fabric_id(const qci_output *out, uint32_t fabric);

/* --- plan_pieces.c: members of an object or list that is open ------------- */

void qci_output_piece(qci_output *out, const qc_plan_piece *piece);
void qci_output_block(qci_output *out, const qc_plan_block *block);
void qci_output_unit(qci_output *out, const qc_plan_unit *unit);
void qci_output_strip(qci_output *out, const qc_strip *strip);
void qci_output_set(qci_output *out, size_t set);

#endif
