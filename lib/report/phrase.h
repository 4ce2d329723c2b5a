/* Values as a sewist reads them. */
#ifndef QCI_REPORT_PHRASE_H
#define QCI_REPORT_PHRASE_H

#include "plan/plan.h"

typedef struct qci_phrase {
    char text[128];
} qci_phrase;

/* "4 1/2 in" */
qci_phrase qci_phrase_length(const qc_plan *plan, qc_length length);
/* The same of a length that may lie between two marks: "about 2 13/16 in", to
 * the nearest 1/16 in or mm, unless the job's ruler shows it. */
qci_phrase qci_phrase_about(const qc_plan *plan, qc_length length);
/* "45 degrees", "53.13 degrees" */
qci_phrase qci_phrase_angle(int32_t angle);
/* "2 1/2 x 4 1/2", and with its unit "2 1/2 x 4 1/2 in" */
qci_phrase qci_phrase_size(const qc_plan *plan, const qc_length size[2]);
qci_phrase qci_phrase_size_unit(const qc_plan *plan, const qc_length size[2]);
/* What to ask for in a shop: "3 1/2 yd (126 in)" */
qci_phrase qci_phrase_buy(const qc_plan *plan, qc_length length);
/* "189 sq in", rounded to hundredths */
qci_phrase qci_phrase_area(const qc_plan *plan, int64_t area);
/* How far a blade runs: "12.4 yd", "0.4 m", up to the next tenth. */
qci_phrase qci_phrase_blade(const qc_plan *plan, int64_t blade);
/* Ten-thousandths, with two decimals or as many as are needed: "47.25" */
qci_phrase qci_phrase_money(int64_t amount);
/* Hundredths of a per cent: "3 %", "2.5 %" */
qci_phrase qci_phrase_percent(int64_t hundredths);
/* "1 piece", "12 pieces" */
qci_phrase qci_phrase_count(int64_t count, const char *noun);
/* A value of a goal; 'the value' is a length, a sum, a number or an area. */
qci_phrase qci_phrase_goal(const qc_plan *plan, qc_goal goal, int64_t value);

/* part / whole in tenths of a per cent, rounded down, and what that leaves in
 * `rest` for comparison. whole > 0, 0 <= part <= whole. */
int64_t qci_tenths(int64_t part, int64_t whole, int64_t *rest);

#endif
