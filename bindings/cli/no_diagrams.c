/* In place of diagrams.c where the diagram library was not built. */
#include "cli.h"

int stage_diagrams(const qc_plan *plan, const char *format, const char *prefix,
                   outputs *set)
{
    (void)plan;
    (void)format;
    (void)prefix;
    (void)set;
    complain("this quiltcut was built without diagrams");
    return CLI_USAGE;
}

int stage_blocks(const qc_block *const *blocks, size_t count, const char *path,
                 outputs *set)
{
    (void)blocks;
    (void)count;
    return stage_diagrams(NULL, NULL, path, set);
}
