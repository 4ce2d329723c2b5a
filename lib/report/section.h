/* The parts of the text plan, each written below the other. They only read the
 * plan; nothing is computed that it does not hold but sums and shares. */
#ifndef QCI_REPORT_SECTION_H
#define QCI_REPORT_SECTION_H

#include "base/text.h"
#include "plan/plan.h"

void qci_put_heading(qci_text *out, const char *heading);

/* What to buy, for how wide a fabric, and how it compares. */
void qci_put_shopping(qci_text *out, const qc_plan *plan);
/* Every piece type with its count and sizes. */
void qci_put_pieces(qci_text *out, const qc_plan *plan);
/* Whether any piece of the fabric, or of the whole plan (NULL), is a triangle.
 */
bool qci_any_triangle(const qc_plan *plan, const qc_plan_fabric *fabric);
/* The rectangles that are put away. */
void qci_put_leftovers(qci_text *out, const qc_plan *plan);
/* Where the bought area goes. */
void qci_put_areas(qci_text *out, const qc_plan *plan);
/* Goal by goal: value, bound, proved or not. */
void qci_put_goals(qci_text *out, const qc_plan *plan);

#endif
