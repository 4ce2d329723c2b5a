/* From a plan to a file: the scene is laid out, painted on a cairo surface that
 * writes into memory, and handed over whole, so that a caller never receives
 * half a file.
 *
 * Equal plans give equal bytes: no date is written, and what cairo counts
 * through a process (the number in an SVG's surface id) is taken out. Pages
 * beyond what PDF viewers (200 in) and PNG surfaces hold are drawn smaller. */
#include <quiltcut/draw.h>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "draw/block.h"
#include "draw/page.h"
#include "draw/paint.h"
#include "draw/plot.h"
#include "draw/sheet.h"

#define LONGEST_PAGE 14400.0 /* points */
#define PNG_SCALE 2.0        /* pixels per point */
#define PNG_LONGEST 32000.0  /* pixels */

/* The core's own way to fill an error record stays inside the core. */
static qc_status fail(qc_error *err, qc_status code, const char *field,
                      const char *allowed, const char *problem)
{
    if (!err || err->code != QC_STATUS_OK)
        return code;
    err->code = code;
    snprintf(err->field, sizeof err->field, "%s", field);
    snprintf(err->allowed, sizeof err->allowed, "%s", allowed);
    snprintf(err->problem, sizeof err->problem, "%s", problem);
    return code;
}

static qc_status no_memory(qc_error *err)
{
    return fail(err, QC_STATUS_NO_MEMORY, "", "", "out of memory");
}

static cairo_status_t collect(void *closure, const unsigned char *bytes,
                              unsigned size)
{
    qci_text *file = closure;

    qci_text_add(file, (const char *)bytes, size);
    return file->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

static void paint_scaled(cairo_surface_t *surface, const qci_scene *scene,
                         double scale)
{
    cairo_t *cr = cairo_create(surface);

    cairo_scale(cr, scale, scale);
    qci_paint_scene(cr, scene);
    cairo_destroy(cr);
}

/* Page after page. */
static void paint_pages(cairo_surface_t *surface, const qci_scene *scene)
{
    for (int i = 0; i * scene->page < scene->height; i++) {
        cairo_t *cr = cairo_create(surface);

        qci_paint_page(cr, scene, i);
        cairo_show_page(cr);
        cairo_destroy(cr);
    }
}

static double page_scale(const qci_scene *scene)
{
    return scene->height > LONGEST_PAGE ? LONGEST_PAGE / scene->height : 1;
}

static cairo_status_t make_png(const qci_scene *scene, qci_text *file)
{
    double scale = PNG_SCALE;
    cairo_surface_t *surface;
    cairo_status_t status;

    if (scene->height * scale > PNG_LONGEST)
        scale = PNG_LONGEST / scene->height;
    surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                         (int)(scene->width * scale + 0.5),
                                         (int)(scene->height * scale + 0.5));
    paint_scaled(surface, scene, scale);
    status = cairo_surface_status(surface);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_write_to_png_stream(surface, collect, file);
    cairo_surface_destroy(surface);
    return status;
}

static cairo_status_t make_pages(const qci_scene *scene, qc_draw_format format,
                                 const char *title, qci_text *file)
{
    bool paged = format == QC_DRAW_PDF && scene->page > 0;
    double scale = paged ? 1 : page_scale(scene);
    double w = scene->width * scale;
    double h = (paged ? scene->page : scene->height) * scale;
    cairo_surface_t *surface;
    cairo_status_t status;

    if (format == QC_DRAW_PDF) {
        surface = cairo_pdf_surface_create_for_stream(collect, file, w, h);
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                       "");
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE,
                                       title);
    } else {
        surface = cairo_svg_surface_create_for_stream(collect, file, w, h);
    }
    if (paged)
        paint_pages(surface, scene);
    else
        paint_scaled(surface, scene, scale);
    cairo_surface_finish(surface);
    status = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    return status;
}

static void add_escaped(qci_text *out, const char *text)
{
    for (; *text; text++) {
        if (*text == '&')
            qci_text_add(out, "&amp;", 5);
        else if (*text == '<')
            qci_text_add(out, "&lt;", 4);
        else if (*text == '>')
            qci_text_add(out, "&gt;", 4);
        else if ((unsigned char)*text < 0x20)
            qci_text_add(out, " ", 1);
        else
            qci_text_add(out, text, 1);
    }
}

/* Gives an SVG a title for screen readers and takes the counters out of its
 * ids: id="surface12" becomes id="surface". */
static void tidy_svg(qci_text *file, const char *title)
{
    static const char id[] = "id=\"surface";
    qci_text out = {0};
    const char *at = file->bytes, *root = strstr(at, "<svg");
    const char *end = root ? strchr(root, '>') : NULL;

    if (end) {
        qci_text_add(&out, at, (size_t)(end + 1 - at));
        qci_text_printf(&out, "\n<title>");
        add_escaped(&out, title);
        qci_text_printf(&out, "</title>");
        at = end + 1;
    }
    for (const char *next; (next = strstr(at, id)) != NULL;) {
        next += sizeof id - 1;
        qci_text_add(&out, at, (size_t)(next - at));
        at = next + strspn(next, "0123456789");
    }
    qci_text_add(&out, at, strlen(at));
    qci_text_clear(file);
    *file = out;
}

static qc_status make_file(const qci_scene *scene, qc_draw_format format,
                           const char *title, qci_text *file, qc_error *err)
{
    cairo_status_t status = format == QC_DRAW_PNG
                                ? make_png(scene, file)
                                : make_pages(scene, format, title, file);

    if (format == QC_DRAW_SVG && status == CAIRO_STATUS_SUCCESS && file->bytes)
        tidy_svg(file, title);
    if (file->failed || status == CAIRO_STATUS_NO_MEMORY)
        return no_memory(err);
    if (status != CAIRO_STATUS_SUCCESS)
        return fail(err, QC_STATUS_INVALID, "", "",
                    cairo_status_to_string(status));
    return QC_STATUS_OK;
}

/* Paints a scene, if it could be laid, hands the file over, and ends it. */
static qc_status hand_over(qci_scene *scene, bool laid, const char *title,
                           qc_draw_format format, qc_write_fn write, void *user,
                           qc_error *err)
{
    qc_status status = QC_STATUS_OK;
    qci_text file = {0};

    if (format != QC_DRAW_SVG && format != QC_DRAW_PDF &&
        format != QC_DRAW_PNG) {
        status =
            fail(err, QC_STATUS_INVALID, "format",
                 "QC_DRAW_SVG, QC_DRAW_PDF or QC_DRAW_PNG", "no such format");
        goto done;
    }
    if (!laid) {
        status = no_memory(err);
        goto done;
    }
    status = make_file(scene, format, title, &file, err);
    if (status != QC_STATUS_OK)
        goto done;
    if (write(file.bytes, file.size, user) != 0)
        status = fail(err, QC_STATUS_INVALID, "", "",
                      "the receiver of the diagram refused it");
done:
    qci_text_clear(&file);
    qci_scene_clear(scene);
    return status;
}

qc_status qc_plan_draw(const qc_plan *plan, size_t fabric,
                       qc_draw_format format, qc_write_fn write, void *user,
                       qc_error *err)
{
    const qc_plan_fabric *info = qc_plan_fabric_at(plan, fabric);
    qci_scene scene;
    bool laid;

    if (!info)
        return fail(err, QC_STATUS_INVALID, "fabric",
                    "an index below qc_plan_fabric_count()",
                    "the plan has no such fabric");
    laid = qci_scene_begin(&scene) && qci_sheet_lay(plan, fabric, &scene);
    return hand_over(&scene, laid, info->name, format, write, user, err);
}

qc_status qc_plan_draw_set(const qc_plan *plan, size_t set,
                           qc_draw_format format, qc_write_fn write, void *user,
                           qc_error *err)
{
    const qc_plan_set *info = qc_plan_set_at(plan, set);
    qci_scene scene;
    bool laid;

    if (!info)
        return fail(err, QC_STATUS_INVALID, "set",
                    "an index below qc_plan_set_count()",
                    "the plan has no such strip set");
    laid = qci_scene_begin(&scene) && qci_sets_lay(plan, set, &scene);
    return hand_over(&scene, laid, info->id, format, write, user, err);
}

qc_status qc_block_draw(const qc_block *const *blocks, size_t count,
                        qc_draw_format format, qc_write_fn write, void *user,
                        qc_error *err)
{
    const char *title = "Blocks";
    qci_scene scene;
    bool laid;

    if (!blocks || !count)
        return fail(err, QC_STATUS_INVALID, "blocks", "at least one block",
                    "there is nothing to draw");
    if (count == 1)
        title = qc_block_describe(blocks[0])->name;
    laid = qci_scene_begin(&scene) && qci_blocks_lay(blocks, count, &scene);
    return hand_over(&scene, laid, title, format, write, user, err);
}

qc_status qc_compare_draw(const qc_compare_row *rows, size_t count,
                          const char *title, qc_units units,
                          qc_draw_format format, qc_write_fn write, void *user,
                          qc_error *err)
{
    qci_scene scene;
    bool laid;

    if (!count || count > QC_MAX_COMPARED)
        return fail(err, QC_STATUS_INVALID, "count", "1 to QC_MAX_COMPARED",
                    "wrong number of rows");
    laid = qci_scene_begin(&scene) &&
           qci_plot_lay(rows, count, title, units, &scene);
    return hand_over(&scene, laid, title && title[0] ? title : "Comparison",
                     format, write, user, err);
}

qc_status qc_chart_draw(const qc_chart_row *rows, size_t count,
                        const qc_block *block, const char *title,
                        qc_units units, qc_draw_format format,
                        qc_write_fn write, void *user, qc_error *err)
{
    qci_scene scene;
    bool laid;

    if (!rows || !count)
        return fail(err, QC_STATUS_INVALID, "rows", "at least one row",
                    "there is nothing to draw");
    laid = qci_scene_begin(&scene) &&
           qci_page_lay(rows, count, block, title, units, &scene);
    return hand_over(&scene, laid, title && title[0] ? title : "Chart", format,
                     write, user, err);
}
