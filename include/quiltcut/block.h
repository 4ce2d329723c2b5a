/**
 * Blocks: what the traditional ones are made of, and what they take at any
 * finished size.
 *
 * A block is drawn on a grid of its own as convex patches, each with a role
 * that a fabric takes. Coordinates are exact: whole numbers and fractions, and
 * multiples of the square root of 2 or of 3. A qc_block is such a drawing at a
 * finished size: its patches are checked to tile it, with no gap and no
 * overlap, and are sorted into groups that are cut alike.
 *
 * Curved seams are beyond this library.
 */
#ifndef QUILTCUT_BLOCK_H
#define QUILTCUT_BLOCK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/export.h>
#include <quiltcut/job.h>
#include <quiltcut/length.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** The most patches that a block may have, copies counted. */
#define QC_MAX_PATCHES 512

/** A patch as it is drawn, and its copies. */
typedef struct qc_drawn_patch {
    const char *role; /**< such as "star"; at most QC_MAX_TEXT_BYTES */
    /** 3 to QC_MAX_CORNERS corners, counter-clockwise, x to the right and y up
     *  from the block's lower left corner: "0,0 2,0 1,1". A coordinate is a sum
     *  of numbers such as 3, 1/2, 0.25, and multiples of a root such as r2 or
     *  3/2r3: "1+1/2r2,0". */
    const char *corners;
    /** It is drawn so many times, each turned about the block's centre by a
     *  further equal part of a full turn: 1, 2 or 4; in blocks with r2 also 8,
     *  with r3 also 3, 6 or 12. 0 means 1. */
    int32_t turns;
    bool mirrored; /**< and the mirror image, left for right, of each as well */
} qc_drawn_patch;

/** A block as it is drawn. */
typedef struct qc_block_drawing {
    const char *name;
    const char *width;  /**< of its grid, as a coordinate: "3", "2+r2" */
    const char *height; /**< NULL: it is a square */
    const qc_drawn_patch *patches;
    size_t patch_count;
} qc_block_drawing;

/** The traditional blocks that the library knows, by their traditional names;
 *  NULL beyond the last. Static. */
QC_API const qc_block_drawing *qc_block_builtin_at(size_t index);

/** The exact number (whole + root x sqrt(qc_block_summary.radicand)) /
 *  qc_block_summary.denominator, in widths of the block. */
typedef struct qc_block_number {
    int64_t whole, root;
} qc_block_number;

typedef struct qc_block_point {
    qc_block_number x, y;
} qc_block_point;

typedef struct qc_block_summary {
    const char *name;
    qc_length width;  /**< finished */
    qc_length height; /**< finished; rounded up where it is no whole length */
    bool height_rounded;
    int64_t radicand;    /**< 2 or 3 */
    int64_t denominator; /**< more than 0 */
    qc_block_number height_exact;
    size_t role_count, patch_count, group_count;
    size_t unit_count;
} qc_block_summary;

/** One patch, where it lies in the block. */
typedef struct qc_block_patch {
    uint32_t drawn; /**< index of what it was drawn by, or is a copy of */
    uint32_t role;
    uint32_t group;
    /** QC_HAND_NONE where its shape is its own mirror image. */
    qc_hand hand;
    size_t corner_count;
    const qc_block_point *corners; /**< counter-clockwise; the first two are
                                        the ends of its base */
} qc_block_patch;

/** Patches of one role that are cut alike, in one block. */
typedef struct qc_block_group {
    const char *id; /**< "A", "B", ... in the order of the drawing */
    uint32_t role;
    qc_shape shape;
    /** Finished, as qc_piece_spec.size; rounded up where they are no whole
     *  lengths. */
    qc_length size[3];
    bool rounded;
    int32_t angle; /**< as qc_piece_spec.angle; of diamonds and parallelograms
                        the sharp one */
    /** Of polygons: finished corners, to the nearest whole lengths, the base
     *  first; as qc_piece_spec.points. Else none. */
    size_t point_count;
    const qc_point *points;
    int64_t count;       /**< of both hands together */
    int64_t left, right; /**< of each; 0 where the shape has no hands */
    int64_t area;        /**< finished, of one, in square qc_length, rounded
                              down */
} qc_block_group;

/**
 * Patches that may be sewn together first, and then into the block, and how:
 * what a method of qc_block_spec may be chosen for. They are told by their
 * geometry.
 *
 * Two triangles that make a square along and across the block: two or eight at
 * a time. A triangle with two that make it a rectangle: four at a time. A patch
 * with triangles at its corners that make it a rectangle along and across the
 * block: stitch and flip. Patches side by side between two parallel lines, and
 * a 45-degree diamond with half of the square that is set in beside it: strip
 * set. A square or triangle that is set in between two such diamonds, cut in
 * two so that no seam is set in: half-square triangles.
 */
typedef struct qc_block_unit {
    const char *id;   /**< of the letters of its groups: "A+B", "A+4B" */
    uint32_t methods; /**< bit 1 << method of each qc_method that it offers */
    int64_t count;    /**< in one block; of both hands */
    int64_t left, right; /**< of rows whose sides slant; else 0 */
    /** Finished {width, height}; of rows {between their sides, square to them;
     *  along all seams, square to these}; of a patch that is cut in two the
     *  equal legs of a half, twice. Rounded up where they are no whole
     *  lengths. */
    qc_length size[2];
} qc_block_unit;

/** "two at a time"; NULL for what is no method. Static. */
QC_API const char *qc_method_name(qc_method method);

/** A block at a finished size. Immutable; may be read by many threads. */
typedef struct qc_block qc_block;

/**
 * Checks a drawing and works out what it takes at a finished size.
 *
 * Shapes are named as the trade cuts them. A right-angled triangle with equal
 * legs is a half-square triangle, so that its legs lie on the straight grain;
 * where its long side lies along or across the block, it is a quarter-square
 * triangle.
 *
 * @param width     Finished width, more than 0, up to QC_MAX_WIDTH; the height
 *                  follows.
 * @param out_block Receives a block that the caller ends with
 *                  qc_block_destroy(); NULL on failure. It copies the drawing.
 * @param err       Filled on failure; its field is a path in the drawing, such
 *                  as "patches[3].corners". May be NULL.
 * @return QC_STATUS_OK; QC_STATUS_INVALID for what is no coordinate, a patch
 *         that is not convex or reaches beyond the block, patches that overlap
 *         or leave a gap; QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_block_create(const qc_block_drawing *drawing,
                                 qc_length width, qc_block **out_block,
                                 qc_error *err);

/** The same for a built-in block; upper and lower case count as one. The error
 *  names the nearest name there is, and says so of blocks with curved seams. */
QC_API qc_status qc_block_find(const char *name, qc_length width,
                               qc_block **out_block, qc_error *err);

/** Ends a block; NULL is fine. */
QC_API void qc_block_destroy(qc_block *block);

/** All of these live as long as the block; NULL for an index there is not. */
QC_API const qc_block_summary *qc_block_describe(const qc_block *block);
QC_API const char *qc_block_role_at(const qc_block *block, size_t index);
QC_API const qc_block_patch *qc_block_patch_at(const qc_block *block,
                                               size_t index);
QC_API const qc_block_group *qc_block_group_at(const qc_block *block,
                                               size_t index);
QC_API const qc_block_unit *qc_block_unit_at(const qc_block *block,
                                             size_t index);

#ifdef __cplusplus
}
#endif

#endif
