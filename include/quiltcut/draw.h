/**
 * Cutting diagrams to scale, through cairo. In a library of its own
 * (quiltcut-draw), so that linking the core stays light.
 */
#ifndef QUILTCUT_DRAW_H
#define QUILTCUT_DRAW_H

#include <quiltcut/block.h>
#include <quiltcut/chart.h>
#include <quiltcut/compare.h>
#include <quiltcut/draw_export.h>
#include <quiltcut/plan.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** Receives a part of the file; returns 0, or non-zero to stop. */
typedef int (*qc_write_fn)(const void *bytes, size_t size, void *user);

typedef enum qc_draw_format {
    QC_DRAW_SVG = 0,
    QC_DRAW_PDF = 1,
    QC_DRAW_PNG = 2
} qc_draw_format;

/**
 * Draws the cutting diagram of one fabric.
 *
 * @param fabric Index of the fabric in the plan.
 * @return QC_STATUS_OK; QC_STATUS_INVALID (no such fabric, or `write` refused);
 *         QC_STATUS_NO_MEMORY.
 */
QC_DRAW_API qc_status qc_plan_draw(const qc_plan *plan, size_t fabric,
                                   qc_draw_format format, qc_write_fn write,
                                   void *user, qc_error *err);

/**
 * Draws a strip set: its strips as they are sewn, and the cuts across them.
 *
 * @param set Index of the strip set in the plan.
 * @return as qc_plan_draw().
 */
QC_DRAW_API qc_status qc_plan_draw_set(const qc_plan *plan, size_t set,
                                       qc_draw_format format, qc_write_fn write,
                                       void *user, qc_error *err);

/**
 * Draws blocks as they look when sewn, every role in a tint of its own: one
 * large, with the names of its pieces and roles, or many side by side.
 *
 * @param blocks `count` blocks, at least one; their sizes do not matter.
 * @return as qc_plan_draw().
 */
QC_DRAW_API qc_status qc_block_draw(const qc_block *const *blocks, size_t count,
                                    qc_draw_format format, qc_write_fn write,
                                    void *user, qc_error *err);

/**
 * Draws a comparison: for every size the shares of the cloth that are waste,
 * and below how much fabric is to buy; the size of least waste and the
 * efficient ones are marked.
 *
 * @param rows  `count` rows as qc_compare() gives them, in the order in which
 *              they are to stand; their plans and errors are not read.
 * @param title NULL: none.
 * @return as qc_plan_draw(); QC_STATUS_INVALID also for no rows, or more than
 *         QC_MAX_COMPARED.
 */
QC_DRAW_API qc_status qc_compare_draw(const qc_compare_row *rows, size_t count,
                                      const char *title, qc_units units,
                                      qc_draw_format format, qc_write_fn write,
                                      void *user, qc_error *err);

/**
 * Lays a chart out as a table to print, with the cautions: on Letter paper for
 * inches, else on A4, the long side across. A PDF has as many pages as it
 * takes; in SVG and PNG they hang below one another.
 *
 * @param rows  `count` rows, at least one, as qc_chart() gives them, with their
 *              texts; in the same order.
 * @param block Drawn beside the heading, whatever its size; NULL: none.
 * @param title NULL: none.
 * @return as qc_plan_draw(); QC_STATUS_INVALID also for no rows.
 */
QC_DRAW_API qc_status qc_chart_draw(const qc_chart_row *rows, size_t count,
                                    const qc_block *block, const char *title,
                                    qc_units units, qc_draw_format format,
                                    qc_write_fn write, void *user,
                                    qc_error *err);

#ifdef __cplusplus
}
#endif

#endif
