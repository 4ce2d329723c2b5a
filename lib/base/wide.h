/* Products of two 64-bit lengths, and other numbers beyond 64 bits. */
#ifndef QCI_BASE_WIDE_H
#define QCI_BASE_WIDE_H

#include <stddef.h>
#include <stdint.h>

__extension__ typedef __int128 qci_wide;

/* Where a number belongs in a table of 2^bits slots. */
static inline size_t qci_wide_slot(qci_wide key, int bits)
{
    uint64_t mixed = (uint64_t)key ^ (uint64_t)(key >> 64) * 0x9E3779B97F4A7C15;

    return (size_t)(mixed * 0xD6E8FEB86659FD93 >> (64 - bits));
}

#endif
