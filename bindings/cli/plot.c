/* The picture of a comparison, to a file. */
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

static bool format_of(const char *path, qc_draw_format *out)
{
    static const char *const endings[] = {".svg", ".pdf", ".png"};
    size_t length = strlen(path);

    for (int i = 0; i < 3; i++)
        if (length > 4 && strcmp(path + length - 4, endings[i]) == 0) {
            *out = (qc_draw_format)i;
            return true;
        }
    return false;
}

int stage_plot(const kept_rows *rows, const char *path, outputs *set)
{
    receiver to = {set, path, CLI_DONE};
    qc_compare_row *list = calloc(rows->count, sizeof *list);
    qc_draw_format format;
    qc_status status;
    qc_error err;

    if (!format_of(path, &format)) {
        complain("--plot: '%s' does not end in .svg, .pdf or .png", path);
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
    if (status != QC_STATUS_OK && to.status == CLI_DONE) {
        complain("%s: cannot be drawn: %s", path, err.problem);
        to.status = CLI_FAILED;
    }
    free(list);
    return to.status;
}
