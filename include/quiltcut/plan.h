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

/** No part, piece, fabric or strip set. */
#define QC_NONE UINT32_MAX

/** What is known about a value: proved best, or the best found. */
typedef enum qc_outcome {
    QC_OUTCOME_OPTIMAL = 0,
    QC_OUTCOME_FEASIBLE = 1
} qc_outcome;

/** How a piece lies, against the way its size was given. */
typedef enum qc_turn {
    QC_TURN_NONE = 0,
    QC_TURN_QUARTER = 1, /**< counter-clockwise, where that matters */
    QC_TURN_HALF = 2,
    QC_TURN_THREE_QUARTERS = 3
} qc_turn;

/** One goal of one fabric. Lengths in qc_length; setups and cuts as counts;
 *  money in ten-thousandths; the leftover as an area in square qc_length. */
typedef struct qc_level {
    qc_goal goal;
    qc_outcome outcome;
    int64_t value;
    int64_t bound; /**< no plan does better, given the levels before */
} qc_level;

/** A piece type, as it is cut. A piece of the job that is wanted in both hands,
 *  and a long strip that is joined, are two of them. */
typedef struct qc_plan_piece {
    const char *id;  /**< what it is called in the plan: "D right", "F end" */
    uint32_t fabric; /**< index of its fabric in the plan */
    qc_shape shape;
    /** 0 when the job gave cut sizes; as qc_piece_spec.size. Of triangles from
     *  squares: the square that the 2 or 4 triangles of one square make when
     *  sewn together again, twice. Of polygons 0. */
    qc_length finished[3];
    /** Across, along. Of triangles from squares: the square that is cut corner
     *  to corner. Of shapes cut at an angle: diamond and parallelogram {spacing
     *  square to the slanted cut, height}; others {width of the box round the
     *  outline, height}, lying on the base. */
    qc_length cut[2];
    qc_length trim_to[2]; /**< the same after trimming back; 0 = not trimmed
                               back; of triangles that of the sewn square */
    bool rounded;         /**< the cut size was rounded up to the ruler */
    int64_t count;        /**< pieces cut, spares included; triangles, not
                               squares */
    int64_t spares;       /**< of these, spares */
    int64_t extra; /**< of the spares, triangles that only fall out because a
                        square gives 2 or 4 */
    const char *job_id; /**< its id in the job */
    qc_hand hand;       /**< NONE: it is its own mirror image, or hands do not
                             matter on its fabric */
    uint32_t twin; /**< the piece that is its mirror image: itself where hand is
                        NONE; QC_NONE where that is not wanted */
    int32_t angle; /**< of diamonds and parallelograms, millionths of a degree;
                        else 0 */
    bool blunt;    /**< its sharp tips are cut off */
    /** The cut shape's corners, counter-clockwise; every x is an even number.
     * 0: a rectangle, cut[0] x cut[1]. Triangles have one: they may also be cut
     *  from strips. outline_count corners for each of `base_count` sides that
     *  may lie on the strip's edge, one list after the other; each list begins
     *  at (0, 0) with the side from there to (x, 0) on that edge. */
    size_t outline_count;
    size_t base_count;
    const qc_point *outline;
    uint32_t strip_set; /**< index of the strip set that it is sewn into, of a
                             pair the first, or QC_NONE */
    bool facing_kept; /**< of triangles: the print must face the same way in all
                           of them */
    uint32_t block;   /**< index of the blocks it is for, or QC_NONE */
    const char *role; /**< its role there; else NULL */
    int64_t in_each;  /**< how many of it each block takes; else 0, also of
                           squares and strips that units are made of */
    uint32_t unit;    /**< index of the units it is for, or QC_NONE */
    uint32_t patches; /**< that each of them becomes: of the squares and
                           rectangles that units are sewn of 1, 2, 4 or 8; else
                           0 */
} qc_plan_piece;

/** `count` equal blocks. */
typedef struct qc_plan_block {
    const char *id;   /**< what the plan calls them */
    const char *name; /**< of the block */
    qc_length width;  /**< finished */
    qc_length height; /**< finished; rounded up where it is no whole length */
    bool height_rounded;
    int64_t count;
} qc_plan_block;

/** Units of blocks that are made by a method; qc_block_unit tells of what. */
typedef struct qc_plan_unit {
    uint32_t block; /**< index of the blocks they are for */
    const char *id; /**< as in the block: "A+B" */
    qc_method method;
    int64_t count;     /**< that the blocks take */
    int64_t made;      /**< that fall out: with spares, and with those that only
                            fall out because several are made at once */
    qc_length size[2]; /**< as qc_block_unit.size, in these blocks */
    qc_length trim;    /**< as qc_method_spec.trim; 0: none */
    /** What the sewn unit measures from raw edge to raw edge once it is
     * trimmed; of segments as qc_block_unit.size, with seams; {0, 0}: nothing
     * is. */
    qc_length trim_to[2];
    /** Of segments: from the first seam to the raw edge before it, and from the
     *  last one to that behind it, both once they are trimmed. */
    qc_length outer[2];
} qc_plan_unit;

/** A run of equal pieces in a section, stacked from the lower edge up. Where
 *  the piece is a triangle and `yields` is 2 or 4, these are the squares that
 * it is cut from. A section with slanted sides, or one that is trimmed to an
 *  outline, holds one piece. */
typedef struct qc_stack {
    uint32_t piece; /**< index of the piece in the plan */
    uint32_t count;
    qc_turn turn;
    qc_length width;  /**< of one piece as it lies, across the fabric */
    qc_length height; /**< of one piece as it lies, along the length */
    /** Pieces that each of them becomes: 2 or 4 for a square that is cut corner
     *  to corner into triangles; else 1. */
    uint32_t yields;
    uint32_t base; /**< which side of the outline lies on the strip's edge */
    bool mirrored; /**< it lies as its mirror image, which is first taken of the
                        outline left for right, then turned: only of shapes that
                        are their own mirror image, and on reversible cloth */
} qc_stack;

/** `count` equal sections side by side in a strip.
 *
 * Sides may slant: a side's *lean* is how far it runs from the strip's lower to
 * its upper edge, positive away from the end that is worked from. Where a
 * section's first lean differs from the lean of what lies before it (0 at the
 * squared end), a wedge of scrap lies between, as wide at half the strip's
 * height as half the difference. */
typedef struct qc_subcut {
    uint32_t count;
    qc_length width; /**< of one section: that of its widest piece; at half the
                          strip's height */
    size_t stack_count;
    const qc_stack *stacks;
    qc_length lean[2]; /**< first and last side of the first section */
    bool alternate;    /**< every second section is turned by half, its leans
                            exchanged; the piece of the first is described */
    uint32_t corners;  /**< cuts that trim a section to its piece's outline */
} qc_subcut;

/** `repeat` equal strips across the width. */
typedef struct qc_strip {
    qc_length height;
    uint32_t repeat;
    /** One strip: the last of the set-up that the entries before it belong to,
     *  cut short once enough pieces have been cut. It has some of the sections
     *  of those, as wide, perhaps with fewer pieces above the first, for pieces
     *  of the same sizes: no new set-up. */
    bool cut_short;
    /** The strips are piled in twos, right sides together, so that every piece
     *  that falls out of the lower one has its mirror image in the upper one:
     *  `repeat` is even, and half the pieces of each section are `piece`, half
     *  its `twin`. */
    bool paired;
    qc_length used_width; /**< what the sections take of the width, with the
                               wedges between them and at both ends */
    size_t subcut_count;
    const qc_subcut *subcuts; /**< from the squared end on, which is the left
                                   one, in a left-handed plan the right one */
    bool alike; /**< cut as the entry before it, section by section, for other
                     pieces of the same sizes: no new set-up */
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
    int64_t price;   /**< ten-thousandths per yard or metre; QC_DEFAULT: none */
    int64_t cost;    /**< ten-thousandths; QC_DEFAULT: no price was given */
    uint32_t setups; /**< strip heights, each with its cuts: of strip entries
                          that are neither `cut_short` nor `alike` */
    int64_t cuts; /**< in the cut order, every repeat; the squared-up end too */
    qc_area area;
    size_t level_count;
    size_t strip_count;
    size_t leftover_count;
    int64_t blade; /**< lengths of all its cuts together, as qc_step.blade */
} qc_plan_fabric;

/** A strip of a strip set, from the lower edge up. */
typedef struct qc_set_strip {
    uint32_t fabric;
    qc_length width;     /**< cut */
    qc_length offset;    /**< of its end, from the first strip's end */
    uint32_t full_piece; /**< plan piece of its strips for full sets; QC_NONE */
    uint32_t part_piece; /**< plan piece of its strip for the last, shorter set;
                              QC_NONE */
} qc_set_strip;

/** Strips sewn side by side and cut across into segments. A strip set of the
 *  job that is wanted in pairs is two of them. x runs along the strips from the
 *  first strip's worked end, y up from the raw lower edge of the first strip.
 */
typedef struct qc_plan_set {
    const char *id;     /**< what it is called: "S1", "S1 right" */
    const char *job_id; /**< its id in the job */
    qc_hand hand;       /**< of the segments; NONE: the cuts are square */
    qc_length height;   /**< sewn, from raw edge to raw edge */
    int32_t angle;      /**< of the cuts, as the job gave it */
    qc_length lean;     /**< of the cuts over the height; left leans are < 0 */
    qc_length spacing;  /**< of the cuts, square to them */
    qc_length pitch;    /**< the same, measured along the strips; rounded up */
    qc_length first;    /**< lower end of the first cut, from x = 0 */
    qc_length usable;   /**< length that strips for full sets can have: the
                             narrowest fabric's width */
    int64_t segments;   /**< that fall out: sets x per_set + part_segments */
    int64_t sets;       /**< full ones */
    int64_t per_set;    /**< segments of each full set */
    qc_length full_length;
    int64_t part_segments; /**< of the last, shorter set; 0: there is none */
    qc_length part_length;
    /** How far the last cut's lower end must stay from the first strip's far
     *  end; what `first` is for the first cut. */
    qc_length tail;
    /** The second cut through every segment, as it is seen in segments that do
     *  not lean left: from a point of the left side, so far up that side from
     * its lower end. Segments that lean left are cut as its mirror image. */
    qc_length second_at;
    int32_t second_angle; /**< 0: no second cut */
    size_t strip_count;
    int64_t blade; /**< lengths of all cuts through its sets and segments */
    uint32_t unit; /**< index of the units that its segments are, or QC_NONE */
} qc_plan_set;

/** What a step does. */
typedef enum qc_step_kind {
    QC_STEP_SQUARE_UP = 0, /**< straighten the end of the bolt */
    QC_STEP_STRIP,         /**< cut strips across the width */
    QC_STEP_SQUARE_END,    /**< straighten the left end of strips */
    QC_STEP_SUBCUT,        /**< cut sections off strips */
    QC_STEP_SPLIT,         /**< cut a stack's pieces off a section */
    QC_STEP_TRIM,          /**< cut a section down to the width of a piece */
    QC_STEP_KEEP,          /**< a leftover is named and put away */
    QC_STEP_DIAGONAL,      /**< cut squares corner to corner */
    QC_STEP_SLANT,         /**< cut a wedge off, so that the end slants */
    QC_STEP_OUTLINE,       /**< trim sections to a piece's outline */
    QC_STEP_SEW,           /**< sew strips into sets */
    QC_STEP_CROSSCUT,      /**< cut sets across into segments */
    QC_STEP_HALVE,         /**< cut segments a second time */
    QC_STEP_TRIM_BACK      /**< trim what was sewn oversize to its exact size */
} qc_step_kind;

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
 * Cuts may slant. `lean` is how far a cut runs from the strip's lower to its
 * upper edge, positive away from the worked end; `along` is how far its lower
 * end lies from the lower end of the edge that the last cut has left, measured
 * along the strip's lower edge. For square cuts lean is 0 and along equals
 * distance. SLANT cuts a wedge of scrap off the end of strips, with one of its
 * ends on the corner of the edge before: along is 0, or as much as the lean
 * shrinks; its distance is 0. A slanted SUBCUT has in `distance` the
 * ruler's setting square to the cut when that is parallel to the edge before,
 * else 0. With `alternate` it takes sections of which every second one is
 * turned by half: the second cut has the lean that the edge had before the
 * step, `along` + `lean` less that from the first one's lower end, the third is
 * as the first, and so on. Then `turn` is that of the first.
 *
 * OUTLINE trims every section of `part_in`, which becomes one piece lying by
 * `turn`, `base` and `mirrored`: along every side of the outline that is not a
 * side of the section already (to within 2 units) runs one straight cut;
 * `repeat` is their number, distance 0, and all that they take off is scrap.
 *
 * With `paired`, SQUARE_END piles strips in twos, right sides together, and
 * what is cut from them stays so: of the pieces that fall out half are `piece`,
 * half its `twin`; `yield` counts both, `total` `piece` alone.
 *
 * In a left-handed plan all is measured from the right end instead of the left
 * one: the cloth is seen in a mirror, and so are the pieces that fall out of
 * it.
 *
 * Steps of strip sets come after those of all fabrics; `fabric` is QC_NONE and
 * `set` the index. SEW: `copies` sets of `distance` length are sewn of their
 * strips; yield is copies. CROSSCUT: `part_in` is 0 for the full sets, 1 for
 * the last one; the first of repeat + 1 cuts has its lower end `along` from the
 * first strip's end, the others follow at the set's pitch; distance is the
 * spacing; yield is copies x repeat, total the segments so far; cuts = piles x
 * (repeat + 1). HALVE: one cut through each of `copies` segments, as the set
 * says; yield is 2 x copies. TRIM_BACK: no cloth falls out that counts; it
 * names `piece`, distance is the first of its trim_to, copies the number of
 * units to trim; cuts, yield, total and repeat 0. It comes after the fabric's
 * other steps.
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
    uint32_t fabric; /**< QC_NONE: the step is one of a strip set */
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
    int64_t yield;   /**< pieces, or cloths of part_out, that fall out in all:
                          copies x (repeat + rest_is_piece); KEEP: copies;
                          SQUARE_UP, SQUARE_END: 0; DIAGONAL: copies x repeat x
                          2 */
    int64_t total;   /**< pieces of this type so far, these included; 0 when
                          no pieces fall out; squares for triangles count
                          apart from these */
    qc_length lean;  /**< of a slanted cut; else 0 */
    qc_length along; /**< SUBCUT, SLANT, CROSSCUT: see above; else 0 */
    bool alternate;  /**< SUBCUT: every second section is turned by half */
    bool paired;     /**< done to strips that lie right sides together, or to
                          what is cut from them */
    bool mirrored;   /**< how the piece lies, as qc_stack */
    uint32_t base;   /**< the same */
    uint32_t set;    /**< index of the strip set, or QC_NONE */
    const char *source; /**< name of the part cut, such as "bolt", "strip 3" */
    const char *text;   /**< the instruction as a sentence */
    /** How far the blade runs through cloth: the lengths of all `cuts` together
     *  in qc_length, each rounded to a unit. A pile is as long as one of its
     *  layers, so the folded bolt is half as wide. OUTLINE counts every cut
     *  through the whole section, as if no other had been made. */
    int64_t blade;
} qc_step;

QC_API const char *qc_plan_title(const qc_plan *plan); /**< "" if none */
QC_API qc_units qc_plan_units(const qc_plan *plan);
/** Whether the steps are for someone who cuts with the left hand. */
QC_API bool qc_plan_left_handed(const qc_plan *plan);
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

QC_API size_t qc_plan_block_count(const qc_plan *plan);
QC_API const qc_plan_block *qc_plan_block_at(const qc_plan *plan, size_t block);
QC_API size_t qc_plan_unit_count(const qc_plan *plan);
QC_API const qc_plan_unit *qc_plan_unit_at(const qc_plan *plan, size_t unit);
QC_API size_t qc_plan_set_count(const qc_plan *plan);
QC_API const qc_plan_set *qc_plan_set_at(const qc_plan *plan, size_t set);
QC_API const qc_set_strip *qc_plan_set_strip_at(const qc_plan *plan, size_t set,
                                                size_t strip);

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
