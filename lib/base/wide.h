/* Products of two 64-bit lengths. */
#ifndef QCI_BASE_WIDE_H
#define QCI_BASE_WIDE_H

__extension__ typedef __int128 qci_wide;

#endif
