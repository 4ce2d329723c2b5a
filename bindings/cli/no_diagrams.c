/* In place of diagrams.c where the diagram library was not built. */
#include "compare.h"

static int refuse(void)
{
    complain("this quiltcut was built without diagrams");
    return CLI_USAGE;
}

int stage_diagrams(const qc_plan *plan, const char *format, const char *prefix,
                   outputs *set)
{
    (void)plan;
    (void)format;
    (void)prefix;
    (void)set;
    return refuse();
}

int stage_blocks(const qc_block *const *blocks, size_t count, const char *path,
                 outputs *set)
{
    (void)blocks;
    (void)count;
    (void)path;
    (void)set;
    return refuse();
}

int stage_plot(const kept_rows *rows, const char *path, outputs *set)
{
    (void)rows;
    (void)path;
    (void)set;
    return refuse();
}

int stage_chart(const qc_chart_row *rows, size_t count,
                const qc_chart_options *chart, const char *title,
                const char *path, outputs *set)
{
    (void)rows;
    (void)count;
    (void)chart;
    (void)title;
    (void)path;
    (void)set;
    return refuse();
}
