/**
 * What to cut for a block at many finished sizes, and what rounding up to the
 * marks of the ruler adds.
 */
#ifndef QUILTCUT_CHART_H
#define QUILTCUT_CHART_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/export.h>
#include <quiltcut/job.h>
#include <quiltcut/plan.h>
#include <quiltcut/solve.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The most sizes of one chart. */
#define QC_MAX_CHARTED 200

/** What is charted: a built-in block at `from`, `from` + `step`, ... up to
 *  `to`, each role a fabric of its own. Exactly one of block and drawing. */
typedef struct qc_chart_options {
    uint32_t struct_size; /**< set by qc_chart_options_init() */
    qc_units units;       /**< tell the ruler and the steps fabric is sold in */
    const char *block;    /**< name of a built-in block */
    qc_length from, to;   /**< finished widths; more than 0 */
    qc_length step;       /**< more than 0 */
    int64_t count;        /**< blocks of each size */
    qc_length width;      /**< usable width of the fabrics */
    const qc_solve_options
        *solve; /**< as of qc_batch_solve(); NULL: defaults */
    /** A block of the caller's own, instead of `block`. */
    const struct qc_block_drawing *drawing;
    const qc_method_spec *methods; /**< as of qc_block_spec */
    size_t method_count;
    qc_length seam, ruler; /**< as of qc_job_spec; QC_DEFAULT */
} qc_chart_options;

/** One block; 3 to 12 in by 1 in from fabric of 40 in, or 8 to 30 cm by 1 cm
 *  from fabric of 102 cm. The block is left to the caller. */
QC_API void qc_chart_options_init(qc_chart_options *options, qc_units units);

/** One piece of the block at one size. */
typedef struct qc_chart_row {
    qc_length size;       /**< finished width of the block */
    bool on_ruler;        /**< no cut size of any of its pieces is rounded */
    bool first_of_size;   /**< the first row of its size */
    bool first_of_fabric; /**< the row before is of another fabric or size */
    const char *piece;    /**< as in the plan; ends with the call */
    const char *fabric;   /**< the role; ends with the call */
    int64_t count;        /**< of the piece, in all blocks */
    qc_length strip;      /**< height of the strip it is cut from */
    qc_length across;     /**< from one cut across the strip to the next: of
                               diamonds, parallelograms and strip sets square
                               to the cuts, of other slanted pieces half-way up
                             */
    qc_length lean;       /**< how far a cut runs along the strip, or along all
                               strips of a set; 0: square */
    uint32_t yields;      /**< pieces that one section of the strip becomes: of
                               triangles cut corner to corner 2 or 4; of squares
                               for units the patches; else 1 */
    int64_t each_strip;   /**< pieces that a strip of this one alone holds;
                               segments, of a strip of a set */
    qc_length excess_strip;   /**< what rounding up adds to the strip */
    qc_length excess_across;  /**< and to the spacing */
    qc_length trim_to;        /**< side of the sewn unit, trimmed; 0: none is;
                                   of segments between the crosscuts */
    int64_t strips;           /**< of the whole fabric */
    qc_length bought;         /**< of the whole fabric */
    qc_outcome outcome;       /**< of the fabric */
    qc_length trim_to_height; /**< of that unit; of segments across all seams */
    qc_length stagger;  /**< of strips of a set: how far one's end is stepped
                             along from that of the one below it; of the lowest,
                             and where cuts are square, 0 */
    const char *method; /**< that makes the unit it is for; NULL: it is cut by
                             itself; static */
} qc_chart_row;

/** Takes a row, which lives during the call. */
typedef void (*qc_chart_fn)(const qc_chart_row *row, void *user);

/**
 * Plans so many blocks at every size, and reads off the plans what is cut, of
 * strip sets for all of them together.
 *
 * Every size is a job of its own; a second one with the finest ruler there is
 * tells the exact cut sizes. All are planned as by qc_batch_solve().
 *
 * @param options With a block or a drawing.
 * @param each    Called for every piece of every size, in the order of sizes
 *                and of the plan's pieces, on the calling thread, once all are
 *                planned.
 * @return QC_STATUS_OK once `each` was called for all rows. Else it was never
 *         called: QC_STATUS_INVALID (options, or no such block),
 *         QC_STATUS_NO_MEMORY, or what qc_job_create() or qc_job_solve() said
 *         of the first size that has no plan.
 */
QC_API qc_status qc_chart(const qc_chart_options *options, qc_chart_fn each,
                          void *user, qc_error *err);

#ifdef __cplusplus
}
#endif

#endif
