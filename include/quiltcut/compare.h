/**
 * One job at many sizes: of its blocks, or of the quilt they cover.
 */
#ifndef QUILTCUT_COMPARE_H
#define QUILTCUT_COMPARE_H

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

#define QC_MAX_COMPARED 1000

/** What blocks are to cover, sewn: its width and length. */
typedef struct qc_quilt_size {
    const char *name; /**< NULL: none */
    qc_length width, length;
} qc_quilt_size;

/** What is compared: block sizes, or quilt sizes. */
typedef struct qc_compare_options {
    uint32_t struct_size; /**< set by qc_compare_options_init() */
    /** Finished widths that all blocks of the job take in turn. What they cover
     *  stays: `quilt`, or where that is NULL what the job's blocks cover. */
    const qc_length *block_sizes;
    size_t block_size_count;
    const qc_quilt_size *quilt;
    /** Or quilts, each covered by blocks of the job's own one size. */
    const qc_quilt_size *quilts;
    size_t quilt_count;
    const qc_solve_options
        *solve; /**< as of qc_batch_solve(); NULL: defaults */
} qc_compare_options;

QC_API void qc_compare_options_init(qc_compare_options *options);

/** The job at one size. Sums run over all fabrics and strip sets. */
typedef struct qc_compare_row {
    size_t index;               /**< in the list of sizes */
    qc_length block_size;       /**< finished width of the blocks */
    const qc_quilt_size *quilt; /**< what is covered; NULL: as much as the job
                                     as given does */
    int64_t columns, rows;      /**< of blocks in the quilt; 0 without one */
    int64_t blocks;             /**< of all kinds */
    const qc_plan *plan; /**< NULL: this size failed; ends with the call */
    const qc_error *err; /**< why; its code is QC_STATUS_OK beside a plan */
    qc_outcome outcome;
    qc_length bought; /**< of all fabrics */
    int64_t cloth;    /**< bought x usable width, in square qc_length */
    int64_t cost;     /**< ten-thousandths; QC_DEFAULT: a fabric has no price */
    /** Where the cloth goes. `finished` is without what blocks cover beyond the
     *  quilt, since their number is whole: that is `beyond`, and the five add
     *  up to `cloth`. */
    qc_area area;
    int64_t beyond;
    int64_t setups, cuts;
    int64_t blade; /**< as qc_plan_fabric.blade */
    /** 1 for the least waste, which is the share of the cloth that does not
     *  become part of the wanted quilt; among equals for the fewest cuts, then
     *  the shortest way of the blade, then the first in the list. 0: no plan.
     */
    uint32_t rank;
    /** Of block sizes: no other one needs less cloth without more cuts, nor
     *  fewer cuts without more cloth. */
    bool efficient;
} qc_compare_row;

/** Takes a row, which lives during the call. */
typedef void (*qc_compare_fn)(const qc_compare_row *row, void *user);

/**
 * Plans a job at many sizes and compares what they take.
 *
 * All blocks of the job get the size in question. With a quilt there are
 * ceil(width / block width) x ceil(length / block height) of them, shared out
 * among the kinds of blocks in proportion to their counts, the largest
 * remainders first; all kinds must be equally high. Without one each kind gets
 * ceil(count x own size^2 / size^2). Pieces and strip sets stay as they are,
 * whatever the size.
 *
 * The plans are those of qc_batch_solve(), and so those of single runs. A size
 * at which the job is impossible fails alone.
 *
 * @param spec As for qc_job_create(), with at least one block.
 * @param each Called for every size, in the order of the list, on the calling
 *             thread, once all are planned.
 * @return QC_STATUS_OK once `each` was called for all sizes;
 *         QC_STATUS_INVALID (options, or no blocks to compare; nothing was
 *         planned), QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_compare(const qc_job_spec *spec,
                            const qc_compare_options *options,
                            qc_compare_fn each, void *user, qc_error *err);

#ifdef __cplusplus
}
#endif

#endif
