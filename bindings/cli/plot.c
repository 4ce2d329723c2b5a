/* The picture of a comparison and the page of a chart, to a file. */
#include "compare.h"

#include <quiltcut/draw.h>

#include <stdlib.h>
#include <string.h>

typedef struct receiver {
    outputs *set;
    const char *path;
    int status;
} receiver;

static int receive(const void *bytes, size_t size, void *user)
{
    receiver *to = user;

    to->status = stage_file(to->set, to->path, bytes, size);
    return to->status;
}

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

/* What went wrong before there was anything to stage. */
static int tell(receiver *to, qc_status status, const qc_error *err)
{
    if (status != QC_STATUS_OK && to->status == CLI_DONE) {
        complain("%s: cannot be drawn: %s", to->path, err->problem);
        to->status = CLI_FAILED;
    }
    return to->status;
}

int stage_chart(const qc_chart_row *rows, size_t count,
                const qc_chart_options *chart, const char *title,
                const char *path, outputs *set)
{
    receiver to = {set, path, CLI_DONE};
    qc_block *block = NULL;
    qc_draw_format format;
    qc_status status;
    qc_error err;

    if (read_format("--page", path, &format) != CLI_DONE)
        return CLI_USAGE;
    qc_error_init(&err);
    status = qc_block_find(chart->block, chart->to, &block, &err);
    if (status == QC_STATUS_OK)
        status = qc_chart_draw(rows, count, block, title, chart->units, format,
                               receive, &to, &err);
    qc_block_destroy(block);
    return tell(&to, status, &err);
}

int stage_plot(const kept_rows *rows, const char *path, outputs *set)
{
    receiver to = {set, path, CLI_DONE};
    qc_compare_row *list = calloc(rows->count, sizeof *list);
    qc_draw_format format;
    qc_status status;
    qc_error err;

    if (read_format("--plot", path, &format) != CLI_DONE) {
        free(list);
        return CLI_USAGE;
    }
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
    return tell(&to, status, &err);
}
