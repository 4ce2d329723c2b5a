/* Diagrams to files: one for each fabric that is cut, then one for each strip
 * set. */
#include "receiver.h"

#include <quiltcut/draw.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

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
    receiver to = {.stage = stage_inside, .set = set};
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
    end_receiving(&to, status, &err);
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
