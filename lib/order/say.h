/* What sentences are made of: lengths, counts, the names of parts. */
#ifndef QCI_ORDER_SAY_H
#define QCI_ORDER_SAY_H

#include "base/text.h"
#include "order/words.h"

/* "4 1/2 in" */
void qci_say_length(qci_text *text, qc_length length, const qci_origin *from);
/* "2 1/2 x 4 1/2 in" */
void qci_say_size(qci_text *text, qc_length across, qc_length along,
                  const qci_origin *from);
/* "1 strip", "12 strips" */
void qci_say_count(qci_text *text, int64_t count, const char *noun);

/* "section 3b"; "slice 3b2" */
void qci_say_section(qci_text *text, const qci_origin *from);
void qci_say_slice(qci_text *text, const qci_origin *from);
/* What the step is done to: "bolt", "strip 3", "section 3b", "slice 3b2",
 * "squares for B". */
void qci_say_source(qci_text *text, const qc_step *step,
                    const qci_origin *from);

/* QC_STEP_DIAGONAL, but for the name of what it is done to. */
void qci_say_diagonal(qci_text *text, const qc_step *step,
                      const qci_origin *from);

#endif
