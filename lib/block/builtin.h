/* The blocks that the library knows by name. */
#ifndef QCI_BLOCK_BUILTIN_H
#define QCI_BLOCK_BUILTIN_H

#include <quiltcut/block.h>

extern const qc_block_drawing qci_builtins[];
extern const size_t qci_builtin_count;

/* By name; the error says what is nearest, or that it has curves. */
qc_status qci_block_lookup(const char *name, const qc_block_drawing **out,
                           qc_error *err);

#endif
