/* The parts of the text plan, each written below the other. They only read the
 * plan; nothing is computed that it does not hold but sums and shares. */
#ifndef QCI_REPORT_SECTION_H
#define QCI_REPORT_SECTION_H

#include "base/text.h"
#include "plan/plan.h"

void qci_put_heading(qci_text *out, const char *heading);

/* What to buy, for how wide a fabric, and how it compares. */
void qci_put_shopping(qci_text *out, const qc_plan *plan);
/* What blocks there are, and which pieces each takes; nothing without any. */
void qci_put_blocks(qci_text *out, const qc_plan *plan);
/* How units of one entry of blocks are sewn. */
void qci_put_units(qci_text *out, const qc_plan *plan, uint32_t block);
/* Every piece type with its count and sizes. */
void qci_put_pieces(qci_text *out, const qc_plan *plan);
/* What a piece is called for, comes from and becomes, in a few words; nothing
 * of a plain rectangle. */
void qci_add_piece_notes(qci_text *notes, const qc_plan *plan, uint32_t piece);
/* What each strip is cut into. */
void qci_put_strips(qci_text *out, const qc_plan *plan);
/* What strip sets are sewn of, and how they are cut; nothing without any. */
void qci_put_sets(qci_text *out, const qc_plan *plan);
/* The rectangles that are put away. */
void qci_put_leftovers(qci_text *out, const qc_plan *plan);
/* Where the bought area goes. */
void qci_put_areas(qci_text *out, const qc_plan *plan);
/* Goal by goal: value, bound, proved or not. */
void qci_put_goals(qci_text *out, const qc_plan *plan);

/* What the plan's strips hold. */
typedef struct qci_contents {
    bool squares; /* that are cut corner to corner into triangles */
    bool single;  /* triangles that are cut from strips */
    bool slanted; /* sections with slanted sides */
    bool paired;
} qci_contents;

qci_contents qci_contents_of(const qc_plan *plan);

#endif
