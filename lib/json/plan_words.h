/* The words of a plan's JSON, by the numbers that they stand for. */
#ifndef QCI_JSON_PLAN_WORDS_H
#define QCI_JSON_PLAN_WORDS_H

#define QCI_STEPS 14

extern const char *const qci_step_words[QCI_STEPS];
extern const char *const qci_print_words[4];
extern const char *const qci_outcome_words[2];

#endif
