/* Every allocation of the library passes here, so that tests can make any one
 * of them fail. Sizes are checked before they are multiplied. */
#ifndef QCI_BASE_ALLOC_H
#define QCI_BASE_ALLOC_H

#include <stddef.h>

/* As calloc; NULL also when count * size overflows. A zero count gives a
 * non-NULL block. */
void *qci_calloc(size_t count, size_t size);
/* As realloc to count * size bytes. */
void *qci_realloc(void *block, size_t count, size_t size);
/* A copy of a NUL-terminated text. */
char *qci_strdup(const char *text);
/* A copy of `count` elements. */
void *qci_copy(const void *from, size_t count, size_t size);
void qci_free(void *block);

#ifdef QCI_TESTING
/* Makes the n-th allocation from now on (from 1) fail, and all after it when
 * `onwards`; 0 turns failing off. */
void qci_alloc_fail_at(long n, int onwards);
/* Allocations since the last call of qci_alloc_fail_at(). */
long qci_alloc_count(void);
/* Blocks that are allocated and not yet freed. */
long qci_alloc_live(void);
#endif

#endif
