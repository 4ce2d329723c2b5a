/* Monotonic milliseconds, for deadlines only. */
#ifndef QCI_BASE_CLOCK_H
#define QCI_BASE_CLOCK_H

#include <stdint.h>

int64_t qci_clock_ms(void);

#endif
