/* Structs that a caller fills, from a program built for another version. */
#ifndef QCI_BASE_KNOWN_H
#define QCI_BASE_KNOWN_H

#include <stddef.h>

#include <quiltcut/status.h>

/* Takes `given`, which begins with its uint32_t struct_size, into `known`, the
 * struct of `size` bytes that this version has. What an older program lacks
 * stays as `known` had it; what a newer one has beyond must be zero, since this
 * version would not do it. A struct_size below `least` was never set. `field`
 * names struct_size in a refusal. */
qc_status qci_take_known(const void *given, size_t least, void *known,
                         size_t size, const char *field, qc_error *err);

#endif
