/**
 * The plan: strips, subcuts, leftovers and the cut order. Read only.
 *
 * Everything is owned by the plan and lives as long as it. Elements are fetched
 * one by one through functions, so that their structs may grow at the end
 * without breaking programs already built. A function given an index that does
 * not exist returns NULL.
 */
#ifndef QUILTCUT_PLAN_H
#define QUILTCUT_PLAN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/export.h>
#include <quiltcut/job.h>
#include <quiltcut/length.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct qc_plan qc_plan;

/** What is known about a value: proved best, or the best found. */
typedef enum qc_outcome {
    QC_OUTCOME_OPTIMAL = 0,
    QC_OUTCOME_FEASIBLE = 1
} qc_outcome;

/** How a piece lies, against the way its size was given. */
typedef enum qc_turn {
    QC_TURN_NONE = 0,
    QC_TURN_QUARTER = 1,
    QC_TURN_HALF = 2
} qc_turn;

/** One goal of one fabric. Lengths in qc_length; setups and cuts as counts;
 *  money in ten-thousandths; the leftover as an area in square qc_length. */
typedef struct qc_level {
    qc_goal goal;
    qc_outcome outcome;
    int64_t value;
    int64_t bound; /**< no plan does better, given the levels before */
} qc_level;

/** A piece type of the job, as it is cut. */
typedef struct qc_plan_piece {
    const char *id;
    uint32_t fabric; /**< index of its fabric in the plan */
    qc_shape shape;
    /** Both 0 when the job gave cut sizes. Of triangles: the square that the 2
     *  or 4 triangles of one square make when sewn together again. */
    qc_length finished[2];
    /** Across, along. Of triangles: the square that is cut corner to corner. */
    qc_length cut[2];
    qc_length trim_to[2]; /**< size after trimming back; 0 = not trimmed back;
                               of triangles that of the sewn square */
    bool rounded;         /**< the cut size was rounded up to the ruler */
    int64_t count;        /**< pieces cut, spares included; triangles, not
                               squares: a multiple of 2 or 4 */
    int64_t spares;       /**< of these, spares */
    int64_t extra; /**< of the spares, triangles that only fall out because a
                        square gives 2 or 4 */
} qc_plan_piece;

/** A run of equal pieces in a section, stacked from the lower edge up. Where
 *  the piece is a triangle, these are the squares that it is cut from. */
typedef struct qc_stack {
    uint32_t piece; /**< index of the piece in the plan */
    uint32_t count;
    qc_turn turn;
    qc_length width;  /**< of one piece as it lies, across the fabric */
    qc_length height; /**< of one piece as it lies, along the length */
    /** Pieces that each of them becomes: 2 or 4 for a square that is cut corner
     *  to corner into triangles; else 1. */
    uint32_t yields;
} qc_stack;

/** `count` equal sections side by side in a strip. */
typedef struct qc_subcut {
    uint32_t count;
    qc_length width; /**< of one section: that of its widest piece */
    size_t stack_count;
    const qc_stack *stacks;
} qc_subcut;

/** `repeat` equal strips across the width. */
typedef struct qc_strip {
    qc_length height;
    uint32_t repeat;
    /** One strip: the last of the entry before it, cut short once enough pieces
     *  have been cut. Its sections are among that entry's: no new set-up. */
    bool cut_short;
    qc_length used_width; /**< what the sections take of the width */
    size_t subcut_count;
    const qc_subcut *subcuts; /**< from the squared left end on */
} qc_strip;

/** `count` equal rectangles worth keeping. */
typedef struct qc_leftover {
    qc_length length; /**< along the selvage */
    qc_length width;  /**< across */
    uint32_t count;
    uint32_t strip; /**< index of the strip entry it is the end of; UINT32_MAX:
                         the uncut end of the bolt */
} qc_leftover;

/** Where the bought area goes, in square qc_length; the four add up to
 *  bought x usable width, so cloth that shrinks away in the length is in
 *  `scrap`. */
typedef struct qc_area {
    int64_t finished; /**< finished size x count, spares included; where the job
                           gives cut sizes, each side less two seams (of a
                           triangle's square, less what seams add to it) if it
                           is longer than that. All triangles of a square
                           together are counted as that square */
    int64_t seams;    /**< the rest of the cut pieces: seam and trimming
                           allowances, rounding up to the ruler */
    int64_t leftover; /**< kept, measured after shrinkage */
    int64_t scrap;    /**< all else: squaring-up, trimmings, small ends */
} qc_area;

typedef struct qc_plan_fabric {
    const char *id;
    const char *name;
    qc_outcome outcome; /**< that of the first level */
    qc_length usable_width;
    qc_length square_up;
    qc_length step;
    int32_t shrink_length; /**< hundredths of a per cent */
    qc_print print;
    qc_length used;   /**< strips and squaring-up */
    qc_length bought; /**< what to buy: used, shrinkage, rounded to steps */
    qc_length bound;  /**< no plan buys less */
    qc_length hand_method; /**< bought when every size has strips of its own */
    qc_length narrowest_width;    /**< least usable width, on the ruler grid, at
                                       which `bought` was found to suffice */
    qc_outcome narrowest_outcome; /**< OPTIMAL: proved the least */
    int64_t price; /**< ten-thousandths per yard or metre; QC_DEFAULT: none */
    int64_t cost;  /**< ten-thousandths; QC_DEFAULT: no price was given */
    uint32_t setups;
    int64_t cuts; /**< in the cut order, every repeat; the squared-up end too */
    qc_area area;
    size_t level_count;
    size_t strip_count;
    size_t leftover_count;
} qc_plan_fabric;

/** What a step does. */
typedef enum qc_step_kind {
    QC_STEP_SQUARE_UP = 0, /**< straighten the end of the bolt */
    QC_STEP_STRIP,         /**< cut strips across the width */
    QC_STEP_SQUARE_END,    /**< straighten the left end of strips */
    QC_STEP_SUBCUT,        /**< cut sections off strips */
    QC_STEP_SPLIT,         /**< cut a stack's pieces off a section */
    QC_STEP_TRIM,          /**< cut a section down to the width of a piece */
    QC_STEP_KEEP,          /**< a leftover is named and put away */
    QC_STEP_DIAGONAL       /**< cut squares corner to corner */
} qc_step_kind;

/** No part or piece. */
#define QC_NONE UINT32_MAX

/**
 * One step of the cut order: an instruction for a person that is also complete
 * for a machine.
 *
 * Fabric in hand is in *parts*, numbered from 0 within a fabric. A part stands
 * for `copies` equal cloths. Part 0 is one cloth, the bolt: its usable width by
 * the bought length, less shrinkage. Every other part comes into being once, as
 * the `part_out` of a step, and has that step's `yield` as its copies. A step
 * is done to all the copies of its part (KEEP: to as many as it says).
 *
 * A cutting step, on every cloth of `part_in`, measures `distance` from the
 * working edge and cuts straight through, `repeat` times one after the other,
 * each time from the edge that the last cut has left. SQUARE_UP, STRIP and
 * SPLIT measure upwards from the lower edge (along the selvage); SQUARE_END,
 * SUBCUT and TRIM from the left edge (across). A cut frees the cloth between
 * edge and cut: a piece of type `piece`, or a cloth of `part_out`, or, with
 * neither, scrap. The rest keeps the part's number. With `rest_is_piece`, in
 * SPLIT and TRIM only, the rest after the last cut, which then measures exactly
 * `distance`, is one more of what the cuts freed, and nothing is left of the
 * part; `repeat` may then be 0. KEEP cuts nothing: it puts the rest of
 * `part_in` away, as it lies; `distance` is how much is left, along the selvage
 * for the bolt, across for a strip. What is left of a part and never kept is
 * scrap.
 *
 * SQUARE_UP and STRIP are done to the bolt; SQUARE_END and SUBCUT to strips, a
 * strip's end being squared once, before any section is cut off it; SPLIT and
 * TRIM to what was cut off strips.
 *
 * A cut lies inside its cloth, with three exceptions on the cloth's edge.
 * SQUARE_END at distance 0, and SUBCUT when its last section ends where the
 * strip ends, take off selvages, which lie outside the usable width; STRIP,
 * when its last strip ends where the bolt ends, straightens that end. In the
 * latter two nothing is left of the part.
 *
 * A triangle comes from a square. Where SUBCUT, SPLIT and TRIM name a triangle
 * as their `piece`, what they free is its square, `cut` wide and high; its
 * `yield` and `total` count squares, and squares wait. DIAGONAL is done to all
 * squares of `piece` that wait, from whatever parts they were cut: `part_in` is
 * QC_NONE, `distance` 0, `copies` their number. They are piled anew, into
 * ceil(copies / layers) piles. `repeat` is 1 for half-square triangles: one cut
 * from the lower left corner to the upper right one; and 2 for quarter-square
 * triangles: with all lying as it is, a second one from the lower right corner
 * to the upper left one. `yield` and `total` count the triangles that fall out,
 * 2 or 4 from a square.
 *
 * Cloths are cut in piles. The bolt is one pile, folded selvage to selvage when
 * `layers` is 2. Strips of a part are piled once, into
 * ceil(copies / layers) piles; what is cut from a pile stays a pile, so that
 * `part_out` has repeat + rest_is_piece times the piles of a `part_in` that is
 * not the bolt.
 */
typedef struct qc_step {
    uint32_t number; /**< from 1, through all fabrics */
    uint32_t fabric;
    qc_step_kind kind;
    uint32_t part_in;   /**< DIAGONAL: QC_NONE */
    uint32_t part_out;  /**< QC_NONE when pieces or scrap fall out */
    uint32_t piece;     /**< piece type that falls out, or QC_NONE */
    qc_turn turn;       /**< how that piece lies; NONE without a piece */
    bool rest_is_piece; /**< after the last cut the rest of the part is one more
                             piece (or part_out) of the same size */
    qc_length distance; /**< ruler setting */
    int64_t copies;     /**< how many equal cloths the step is done to */
    uint32_t layers;    /**< most layers that one cut goes through; the bolt: 2
                             folded, 1 not; strips and what is cut of them: the
                             highest pile; DIAGONAL: of the piles made for
                             it; KEEP: 1 */
    uint32_t repeat;    /**< cuts on each cloth; KEEP: 0; DIAGONAL: 1 or 2 */
    int64_t cuts;       /**< cuts in all: repeat x number of piles */
    int64_t yield; /**< pieces, or cloths of part_out, that fall out in all:
                        copies x (repeat + rest_is_piece); KEEP: copies;
                        SQUARE_UP, SQUARE_END: 0; DIAGONAL: copies x repeat x
                        2 */
    int64_t total; /**< pieces of this type so far, these included; 0 when
                        no pieces fall out; squares for triangles count
                        apart from these */
    const char *source; /**< name of the part cut, such as "bolt", "strip 3" */
    const char *text;   /**< the instruction as a sentence */
} qc_step;

QC_API const char *qc_plan_title(const qc_plan *plan); /**< "" if none */
QC_API qc_units qc_plan_units(const qc_plan *plan);
/** The weakest outcome of all fabrics. */
QC_API qc_outcome qc_plan_outcome(const qc_plan *plan);

QC_API size_t qc_plan_fabric_count(const qc_plan *plan);
QC_API const qc_plan_fabric *qc_plan_fabric_at(const qc_plan *plan,
                                               size_t fabric);
QC_API const qc_level *qc_plan_level_at(const qc_plan *plan, size_t fabric,
                                        size_t level);
QC_API const qc_strip *qc_plan_strip_at(const qc_plan *plan, size_t fabric,
                                        size_t strip);
QC_API const qc_leftover *qc_plan_leftover_at(const qc_plan *plan,
                                              size_t fabric, size_t leftover);

QC_API size_t qc_plan_piece_count(const qc_plan *plan);
QC_API const qc_plan_piece *qc_plan_piece_at(const qc_plan *plan, size_t piece);

QC_API size_t qc_plan_step_count(const qc_plan *plan);
QC_API const qc_step *qc_plan_step_at(const qc_plan *plan, size_t step);

/** Defaults that the job left to the library, such as "seam 1/4 in". */
QC_API size_t qc_plan_default_count(const qc_plan *plan);
QC_API const char *qc_plan_default_at(const qc_plan *plan, size_t index);

/** Ends a plan; NULL is fine. */
QC_API void qc_plan_destroy(qc_plan *plan);

#ifdef __cplusplus
}
#endif

#endif
