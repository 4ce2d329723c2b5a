#include "base/alloc.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#ifdef QCI_TESTING
#include <stdatomic.h>

static atomic_long calls, fail_at, live;
static atomic_int fail_onwards;

void qci_alloc_fail_at(long n, int onwards)
{
    atomic_store(&calls, 0);
    atomic_store(&fail_at, n);
    atomic_store(&fail_onwards, onwards);
}

long qci_alloc_count(void)
{
    return atomic_load(&calls);
}

long qci_alloc_live(void)
{
    return atomic_load(&live);
}

static int must_fail(void)
{
    long n = atomic_fetch_add(&calls, 1) + 1;
    long at = atomic_load(&fail_at);

    return at > 0 && (n == at || (n > at && atomic_load(&fail_onwards)));
}

static void count_block(const void *block, int change)
{
    if (block)
        atomic_fetch_add(&live, change);
}
#else
#define must_fail() 0
#define count_block(block, change) ((void)(block))
#endif

void *qci_calloc(size_t count, size_t size)
{
    void *block;

    if (size && count > SIZE_MAX / size)
        return NULL;
    block = must_fail() ? NULL : calloc(count ? count : 1, size);
    count_block(block, 1);
    return block;
}

void *qci_realloc(void *block, size_t count, size_t size)
{
    void *grown;

    if (size && count > SIZE_MAX / size)
        return NULL;
    if (must_fail())
        return NULL;
    grown = realloc(block, size && count ? count * size : 1);
    if (!block)
        count_block(grown, 1);
    return grown;
}

void *qci_copy(const void *from, size_t count, size_t size)
{
    void *copy = qci_calloc(count, size);

    if (copy && count)
        memcpy(copy, from, count * size);
    return copy;
}

char *qci_strdup(const char *text)
{
    return qci_copy(text, strlen(text) + 1, 1);
}

void qci_free(void *block)
{
    count_block(block, -1);
    free(block);
}
