/* Values out of bytes. Small steps in the bytes are small steps in the values,
 * so that what the fuzzer found can be bent; an input that ends early goes on
 * with zeros, so that every input is a whole one. */
#include "fuzz.h"

uint8_t fuzz_byte(fuzz_bytes *from)
{
    if (!from->left)
        return 0;
    from->left--;
    return *from->at++;
}

unsigned fuzz_choice(fuzz_bytes *from, unsigned n)
{
    return fuzz_byte(from) % n;
}

int64_t fuzz_number(fuzz_bytes *from, int bytes)
{
    uint64_t value = 0;
    int shift = 64 - 8 * bytes;

    for (int i = 0; i < bytes; i++)
        value = value << 8 | fuzz_byte(from);
    /* The sign is that of the bytes' first bit. */
    return (int64_t)(value << shift) / ((int64_t)1 << shift);
}

qc_length fuzz_length(fuzz_bytes *from)
{
    switch (fuzz_choice(from, 16)) {
    default: /* an eighth of an inch to 32 in */
        return (1 + (qc_length)fuzz_byte(from)) * (QC_INCH / 8);
    case 10: /* in 64ths */
        return (fuzz_number(from, 2) & 0x7FF) * (QC_INCH / 64);
    case 11:
        return (fuzz_number(from, 2) & 0x3FF) * QC_MM;
    case 12:
        return fuzz_number(from, 3) & 0xFFFFFF;
    case 13:
        return fuzz_number(from, 5);
    case 14:
        return fuzz_number(from, 8);
    case 15:
        return 0;
    }
}
