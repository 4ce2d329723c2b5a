/* The greatest common divisor of two lengths; that of 0 and b is b. */
#ifndef QCI_BASE_GCD_H
#define QCI_BASE_GCD_H

#include <stdint.h>

static inline int64_t qci_gcd(int64_t a, int64_t b)
{
    while (b) {
        int64_t rest = a % b;

        a = b;
        b = rest;
    }
    return a;
}

#endif
