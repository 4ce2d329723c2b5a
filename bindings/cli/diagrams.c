/* Diagrams to files: one for each fabric that is cut, then one for each strip
 * set. */
#include "cli.h"

#include <quiltcut/draw.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where the bytes of a diagram go. */
typedef struct receiver {
    outputs *set;
    const char *path;
    bool named; /* the path is the user's own */
    int status;
} receiver;

static int receive(const void *bytes, size_t size, void *user)
{
    receiver *to = user;

    to->status = to->named ? stage_file(to->set, to->path, bytes, size)
                           : stage_inside(to->set, to->path, bytes, size);
    return to->status;
}

/* What went wrong before there was anything to stage. */
static void tell(receiver *to, qc_status status, const qc_error *err)
{
    if (status == QC_STATUS_OK || to->status != CLI_DONE)
        return;
    complain("%s: cannot be drawn: %s", to->path, err->problem);
    to->status = CLI_FAILED;
}

/* The id as part of a file name: what is not a letter, digit, '-', '_' or '.'
 * becomes '-'. */
static void put_plain(char *to, size_t size, const char *id)
{
    size_t n = 0;

    for (; id[n] && n + 1 < size; n++) {
        char c = id[n];
        bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                     (c >= '0' && c <= '9') || c == '_' || c == '.';

        to[n] = plain ? c : '-';
    }
    to[n] = '\0';
}

static qc_draw_format format_of(const char *name)
{
    if (strcmp(name, "pdf") == 0)
        return QC_DRAW_PDF;
    return strcmp(name, "png") == 0 ? QC_DRAW_PNG : QC_DRAW_SVG;
}

typedef qc_status (*draw_fn)(const qc_plan *plan, size_t index,
                             qc_draw_format format, qc_write_fn write,
                             void *user, qc_error *err);

/* Stages PREFIX-NUMBER-NAME.FORMAT. */
static int stage_diagram(const qc_plan *plan, draw_fn draw, size_t index,
                         size_t number, const char *name, const char *format,
                         const char *prefix, outputs *set)
{
    receiver to = {.set = set, .status = CLI_DONE};
    size_t room = strlen(prefix) + 100;
    char *path = malloc(room), id[48];
    qc_status status;
    qc_error err;

    if (!path) {
        complain("out of memory");
        return CLI_FAILED;
    }
    put_plain(id, sizeof id, name);
    snprintf(path, room, "%s-%zu-%s.%s", prefix, number, id, format);
    to.path = path;
    qc_error_init(&err);
    status = draw(plan, index, format_of(format), receive, &to, &err);
    tell(&to, status, &err);
    free(path);
    return to.status;
}

int stage_diagrams(const qc_plan *plan, const char *format, const char *prefix,
                   outputs *set)
{
    size_t fabrics = qc_plan_fabric_count(plan);
    int status = CLI_DONE;

    for (size_t i = 0; i < fabrics && status == CLI_DONE; i++) {
        const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, i);

        if (fabric->strip_count)
            status = stage_diagram(plan, qc_plan_draw, i, i + 1, fabric->id,
                                   format, prefix, set);
    }
    for (size_t i = 0; i < qc_plan_set_count(plan) && status == CLI_DONE; i++)
        status =
            stage_diagram(plan, qc_plan_draw_set, i, fabrics + i + 1,
                          qc_plan_set_at(plan, i)->id, format, prefix, set);
    return status;
}

int stage_blocks(const qc_block *const *blocks, size_t count, const char *path,
                 outputs *set)
{
    receiver to = {.set = set, .path = path, .named = true, .status = CLI_DONE};
    const char *dot = strrchr(path, '.');
    const char *ending = dot ? dot + 1 : "";
    qc_status status;
    qc_error err;

    if (strcmp(ending, "svg") != 0 && strcmp(ending, "pdf") != 0 &&
        strcmp(ending, "png") != 0) {
        complain("--picture: '%s' does not end in .svg, .pdf or .png", path);
        return CLI_USAGE;
    }
    qc_error_init(&err);
    status =
        qc_block_draw(blocks, count, format_of(ending), receive, &to, &err);
    tell(&to, status, &err);
    return to.status;
}
