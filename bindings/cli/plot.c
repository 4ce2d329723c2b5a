/* Pictures of blocks, the page of a chart and the plot of a comparison, to a
 * file whose ending is the format. */
#include "compare.h"
#include "receiver.h"

#include <quiltcut/draw.h>

#include <stdlib.h>
#include <string.h>

static int read_format(const char *option, const char *path,
                       qc_draw_format *out)
{
    static const char *const endings[] = {".svg", ".pdf", ".png"};
    size_t length = strlen(path);

    for (int i = 0; i < 3; i++)
        if (length > 4 && strcmp(path + length - 4, endings[i]) == 0) {
            *out = (qc_draw_format)i;
            return CLI_DONE;
        }
    complain("%s: '%s' does not end in .svg, .pdf or .png", option, path);
    return CLI_USAGE;
}

int stage_blocks(const qc_block *const *blocks, size_t count, const char *path,
                 outputs *set)
{
    receiver to = {stage_file, set, path, CLI_DONE};
    qc_draw_format format;
    qc_status status;
    qc_error err;

    if (read_format("--picture", path, &format) != CLI_DONE)
        return CLI_USAGE;
    qc_error_init(&err);
    status = qc_block_draw(blocks, count, format, receive, &to, &err);
    return end_receiving(&to, status, &err);
}

int stage_chart(const qc_chart_row *rows, size_t count,
                const qc_chart_options *chart, const char *title,
                const char *path, outputs *set)
{
    receiver to = {stage_file, set, path, CLI_DONE};
    qc_block *block = NULL;
    qc_draw_format format;
    qc_status status;
    qc_error err;

    if (read_format("--page", path, &format) != CLI_DONE)
        return CLI_USAGE;
    qc_error_init(&err);
    status = chart->drawing
                 ? qc_block_create(chart->drawing, chart->to, &block, &err)
                 : qc_block_find(chart->block, chart->to, &block, &err);
    if (status == QC_STATUS_OK)
        status = qc_chart_draw(rows, count, block, title, chart->units, format,
                               receive, &to, &err);
    qc_block_destroy(block);
    return end_receiving(&to, status, &err);
}

int stage_plot(const kept_rows *rows, const char *path, outputs *set)
{
    receiver to = {stage_file, set, path, CLI_DONE};
    qc_compare_row *list;
    qc_draw_format format;
    qc_status status;
    qc_error err;

    if (read_format("--plot", path, &format) != CLI_DONE)
        return CLI_USAGE;
    list = calloc(rows->count, sizeof *list);
    if (!list) {
        complain("out of memory");
        return CLI_FAILED;
    }
    for (size_t i = 0; i < rows->count; i++)
        list[i] = rows->at[i].row;
    qc_error_init(&err);
    status = qc_compare_draw(list, rows->count, rows->title, rows->units,
                             format, receive, &to, &err);
    free(list);
    return end_receiving(&to, status, &err);
}
