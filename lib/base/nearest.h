/* The known word that a misspelt one was probably meant to be. */
#ifndef QCI_BASE_NEAREST_H
#define QCI_BASE_NEAREST_H

#include <stdbool.h>
#include <stddef.h>

/* The known word with the fewest slips (a letter wrong, missing, too many, or
 * two swapped; upper and lower case count as one) from `word`; the first of
 * equals; NULL when more than about a third of the letters would be wrong. */
const char *qci_nearest(const char *word, const char *const *known, size_t n);

/* The same word, but for upper and lower case? */
bool qci_same_word(const char *a, const char *b);

#endif
