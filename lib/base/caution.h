/* What a person is told before the first cut with a rotary cutter. */
#ifndef QCI_BASE_CAUTION_H
#define QCI_BASE_CAUTION_H

#define QCI_CAUTION_COUNT 5

/* Whole sentences in the order in which they matter, each short enough for one
 * line of a diagram. */
extern const char *const qci_cautions[QCI_CAUTION_COUNT];

#endif
