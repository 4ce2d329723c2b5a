/**
 * The job: what is to be cut, from which fabrics, by which rules.
 *
 * Fill a qc_job_spec (or write it as JSON and call qc_job_parse()), and turn it
 * into a qc_job. A job is checked whole when it is made and never changes
 * afterwards; any number of threads may read one.
 */
#ifndef QUILTCUT_JOB_H
#define QUILTCUT_JOB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/export.h>
#include <quiltcut/length.h>
#include <quiltcut/status.h>

#ifdef __cplusplus
extern "C" {
#endif

/** In a length or count of a spec: "take the default". */
#define QC_DEFAULT (-1)
/** The same for the units (inches) and a fabric's print (plain), so that the
 *  plan can say that nobody stated them. */
#define QC_UNITS_DEFAULT ((qc_units)QC_DEFAULT)
#define QC_PRINT_DEFAULT ((qc_print)QC_DEFAULT)

/** Limits that a job is checked against. */
#define QC_MAX_FABRICS 200
#define QC_MAX_PIECES 2000
#define QC_MAX_STRIP_SETS 200
#define QC_MAX_BLOCKS 200
#define QC_MAX_SET_STRIPS 40
#define QC_MAX_CORNERS 12
/** A degree in the unit of angles. */
#define QC_DEGREE 1000000
#define QC_MAX_COUNT 1000000000
#define QC_MAX_TEXT_BYTES 200
#define QC_MAX_WIDTH (10 * QC_M)
/** In ten-thousandths, such that the cost of any length fits in 64 bits. */
#define QC_MAX_PRICE INT64_C(100000000)
/** The longest JSON text that qc_job_parse() reads. */
#define QC_MAX_JSON_BYTES ((size_t)16 << 20)

/** What the print asks of the pieces. */
typedef enum qc_print {
    QC_PRINT_PLAIN = 0,     /**< pieces may be turned any way */
    QC_PRINT_ONE_WAY = 1,   /**< an up direction along the length: no turning */
    QC_PRINT_TWO_WAY = 2,   /**< a stripe: half turns only */
    QC_PRINT_REVERSIBLE = 3 /**< no wrong side: turned and turned over */
} qc_print;

typedef enum qc_shape {
    QC_SHAPE_SQUARE = 0,
    QC_SHAPE_RECTANGLE = 1,
    /** Right-angled, with two equal legs: half of a square that is cut once
     *  corner to corner. Its legs lie along and across the fabric. */
    QC_SHAPE_HALF_SQUARE_TRIANGLE = 2,
    /** Of the same form: a quarter of a square that is cut twice corner to
     *  corner. Its long side lies along or across the fabric. */
    QC_SHAPE_QUARTER_SQUARE_TRIANGLE = 3,
    /** Four equal sides; `angle` is that between the base and the side at the
     *  base's left end. Cut from strips at that angle. */
    QC_SHAPE_DIAMOND = 4,
    /** As the diamond, with two lengths of sides. */
    QC_SHAPE_PARALLELOGRAM = 5,
    /** With two equal slanted sides; it stands on its long side. */
    QC_SHAPE_TRAPEZOID = 6,
    QC_SHAPE_EQUILATERAL_TRIANGLE = 7,
    /** Regular, with six sides. */
    QC_SHAPE_HEXAGON = 8,
    /** Two pairs of equal sides that meet; one of the two at the sharp end is
     *  its base. */
    QC_SHAPE_KITE = 9,
    /** Any convex one; its base is the side from the first point to the next.
     */
    QC_SHAPE_POLYGON = 10,
    /** A rectangle that is longer than it is wide, and may be joined of several
     *  pieces. */
    QC_SHAPE_STRIP = 11
} qc_shape;

/** "half-square triangle"; NULL for what is no shape. Static. */
QC_API const char *qc_shape_name(qc_shape shape);

/** Which of a shape and its mirror image, seen from the fabric's right side. */
typedef enum qc_hand {
    QC_HAND_NONE = 0, /**< the shape is its own mirror image, or (in a spec) is
                           wanted as drawn */
    QC_HAND_LEFT = 1, /**< leans to the left going up; of a polygon: the mirror
                           image of what is drawn */
    QC_HAND_RIGHT = 2
} qc_hand;

/** What becomes of the tips that are sharper than a right angle. */
typedef enum qc_tips {
    QC_TIPS_SHARP = 0,
    /** Cut off square to the tip, one seam allowance beyond the finished point,
     *  as what lies beyond is trimmed from the seam in any case. */
    QC_TIPS_BLUNT = 1
} qc_tips;

/** How the pieces of a long strip are joined. */
typedef enum qc_joins {
    QC_JOINS_NONE = 0,     /**< not at all: it is cut in one piece */
    QC_JOINS_STRAIGHT = 1, /**< square across: a join costs two seams */
    QC_JOINS_DIAGONAL = 2  /**< at 45 degrees: a join costs the strip's width */
} qc_joins;

/** Which way the print must face in the triangles of one piece. */
typedef enum qc_facing {
    QC_FACING_ANY = 0, /**< as they fall out of squares */
    QC_FACING_KEPT = 1 /**< the same way in all; on one-way and two-way prints
                            they are then cut from strips, not from squares */
} qc_facing;

/** Where the first dimension of a square or rectangle must lie, or which side
 *  of another shape may lie on the strip's edge. */
typedef enum qc_grain {
    QC_GRAIN_DEFAULT = -1,   /**< any for squares and rectangles, else base */
    QC_GRAIN_ANY = 0,        /**< wherever the print allows; any side */
    QC_GRAIN_LENGTHWISE = 1, /**< along the selvage */
    QC_GRAIN_CROSSWISE = 2,  /**< across the width */
    QC_GRAIN_BASE = 3        /**< the base, on either edge of the strip */
} qc_grain;

/** What a plan makes small (or, for the leftover, large), in order. */
typedef enum qc_goal {
    QC_GOAL_BOUGHT = 0, /**< purchase steps of the bolt */
    QC_GOAL_USED,       /**< exact length of strips and squaring-up */
    QC_GOAL_MONEY,      /**< price of what is bought */
    QC_GOAL_SETUPS,     /**< different strips (height and pattern) */
    QC_GOAL_CUTS,       /**< straight cuts */
    QC_GOAL_LEFTOVER    /**< area of the largest single leftover */
} qc_goal;
#define QC_GOAL_COUNT 6

typedef struct qc_fabric_spec {
    const char *id;      /**< required, unique */
    const char *name;    /**< NULL: the id */
    qc_length width;     /**< usable width as it will be cut */
    qc_length raw_width; /**< before washing; instead of width */
    qc_print print;
    qc_length step;        /**< purchase step */
    qc_length square_up;   /**< length lost once to straighten the bolt's end */
    int32_t shrink_length; /**< hundredths of a per cent; 0 = none */
    int32_t shrink_width;  /**< hundredths of a per cent; used with raw_width */
    int64_t price; /**< ten-thousandths of a currency unit per yard (inches) or
                        metre; QC_DEFAULT = none given */
} qc_fabric_spec;

typedef struct qc_piece_spec {
    const char *id;     /**< required, unique */
    const char *fabric; /**< required: the id of a fabric */
    qc_shape shape;
    bool
        is_cut; /**< size is a cut size, taken as it is; else a finished size */
    /** As finished sizes. Square: {side}. Rectangle: {across the width, along
     *  the length}. Half-square triangle: {leg}; quarter-square triangle: {long
     *  side}. Diamond: {side}. Parallelogram: {side along the strip, slanted
     *  side}. Trapezoid: {long side, short side, height}. Equilateral triangle,
     *  hexagon: {side}. Kite: {length, width, distance of the widest line from
     *  the sharp end}. Strip: {width, length}. Polygon: none.
     *  As cut sizes the same, but: triangles from squares {side of the square
     *  to cut}; diamond {height of its strip, which is the spacing of its
     *  cuts}; parallelogram {spacing square to the slanted cut, height of its
     *  strip}; equilateral triangle, hexagon {height of its strip}. */
    qc_length size[3];
    /** A finished size as given was between two lengths and was rounded up. */
    bool size_rounded;
    int32_t angle; /**< of diamonds and parallelograms; millionths of a degree,
                        1 to 179 degrees */
    const qc_point *points; /**< of a polygon: its corners, counter-clockwise */
    size_t point_count;     /**< 3 to QC_MAX_CORNERS */
    qc_tips tips;           /**< of shapes that are cut at an angle */
    qc_joins joins;         /**< of strips */
    qc_length
        trim; /**< each dimension is made this much larger, then trimmed */
    qc_grain grain;
    int64_t count; /**< pieces needed: triangles, not squares */
    /** Pieces of each hand, in place of `count`; either may be 0. QC_DEFAULT:
     *  `count` is meant. */
    int64_t left, right;
    qc_facing facing; /**< of triangles only */
    /** Of a polygon's finished corners: bit 2 i says that the x of points[i]
     * was rounded to the next whole length, bit 2 i + 1 the same of its y. The
     *  sides that this may have moved are cut 2 lengths further out. */
    uint32_t points_rounded;
} qc_piece_spec;

/** One strip of a strip set. */
typedef struct qc_set_strip_spec {
    const char *fabric; /**< required: the id of a fabric */
    bool is_cut;        /**< width is a cut width; else finished */
    qc_length width;
    bool width_rounded; /**< as qc_piece_spec.size_rounded */
} qc_set_strip_spec;

/** Which segments a strip set is cut into. */
typedef enum qc_set_hands {
    QC_SET_RIGHT = 0, /**< cuts lean to the right going up; square ones too */
    QC_SET_LEFT = 1,
    QC_SET_PAIRS = 2 /**< as many of each */
} qc_set_hands;

/** How far each strip's end is stepped along from its lower neighbour's. */
typedef enum qc_stagger {
    QC_STAGGER_AUTO = 0,  /**< what wastes least: the neighbour's finished width
                               times the cotangent of the angle */
    QC_STAGGER_NONE = 1,  /**< ends are even */
    QC_STAGGER_WIDTH = 2, /**< by the neighbour's cut width: common practice */
    QC_STAGGER_LENGTH = 3 /**< by a length that is given */
} qc_stagger;

/** Strips sewn side by side, then cut across into segments. */
typedef struct qc_strip_set_spec {
    const char *id; /**< required, unique among pieces and strip sets */
    const qc_set_strip_spec *strips; /**< from the lower edge up; two or more */
    size_t strip_count;
    int32_t angle; /**< of the crosscuts; millionths of a degree, 1 to 179
                        degrees; QC_DEFAULT = square across */
    qc_set_hands hands;
    qc_stagger stagger;
    qc_length stagger_by; /**< with QC_STAGGER_LENGTH */
    qc_length spacing; /**< of the crosscuts, square to them; QC_DEFAULT = the
                            strips' cut width, where they are all alike */
    int64_t segments;  /**< needed of each hand */
    /** A second straight cut through every segment: from the point that lies
     *  `second_at` up the segment's left side (along the cut, from its lower
     *  end), at `second_angle` against the strips, as `angle` is measured.
     *  second_angle 0: none. Both parts are counted as pieces. */
    qc_length second_at;
    int32_t second_angle;
} qc_strip_set_spec;

/** How patches of a block are cut and sewn that are not cut one by one. Which
 *  of them offer it tells qc_block_unit. */
typedef enum qc_method {
    /** Half-square triangles: two squares, right sides together, sewn on both
     *  sides of a diagonal and cut along it. */
    QC_METHOD_TWO_AT_A_TIME = 0,
    /** The same of squares twice as large and both diagonals. */
    QC_METHOD_EIGHT_AT_A_TIME = 1,
    /** Flying geese: one large square and four small ones. */
    QC_METHOD_FOUR_AT_A_TIME = 2,
    /** A rectangle, and a square for every corner, sewn on along its diagonal
     *  and turned over. */
    QC_METHOD_STITCH_AND_FLIP = 3,
    /** Strips, sewn side by side and cut across. */
    QC_METHOD_STRIP_SET = 4,
    /** A patch that would be set in is sewn of two triangles. */
    QC_METHOD_HALF_SQUARE_TRIANGLES = 5
} qc_method;
#define QC_METHOD_COUNT 6
/** The most methods of one entry of blocks. */
#define QC_MAX_METHODS 40

/** A method for some of a block's patches. */
typedef struct qc_method_spec {
    const char *unit; /**< id of a qc_block_unit; NULL: all that offer the
                           method and have none yet */
    qc_method method;
    qc_length trim; /**< each dimension of the unit is made so much larger, then
                         trimmed; of flying geese the height, and the width
                         twice that; QC_DEFAULT: 0 */
} qc_method_spec;

/** The fabric that one role of a block takes. */
typedef struct qc_role_spec {
    const char *role;   /**< as the block names it: "star" */
    const char *fabric; /**< the id of a fabric */
} qc_role_spec;

struct qc_block_drawing; /* quiltcut/block.h */

/** Blocks of one kind and size; what they take is added to the pieces, one
 *  piece for each group of the block: "nine patch A". */
typedef struct qc_block_spec {
    const char *id;    /**< unique among blocks; NULL: the block's name */
    const char *block; /**< the name of a built-in block, as qc_block_find() */
    /** A block of the caller's own, instead of `block`. */
    const struct qc_block_drawing *drawing;
    qc_length size;              /**< finished width; the height follows */
    int64_t count;               /**< blocks needed */
    const qc_role_spec *fabrics; /**< one for each role, in any order */
    size_t fabric_count;
    /** For its units; patches that no method takes are cut one by one. The
     *  first comes first. */
    const qc_method_spec *methods;
    size_t method_count;
} qc_block_spec;

typedef struct qc_job_spec {
    /** Set by qc_job_spec_init(). A size this library does not know is accepted
     *  when every byte beyond the known ones is 0. */
    uint32_t struct_size;
    const char *title; /**< NULL: none */
    qc_units units;
    qc_length ruler; /**< grid that cut sizes are rounded up to */
    qc_length seam;  /**< seam allowance */
    const qc_fabric_spec *fabrics;
    size_t fabric_count;
    const qc_piece_spec *pieces;
    size_t piece_count;
    const qc_strip_set_spec *strip_sets;
    size_t strip_set_count;
    qc_goal goals[QC_GOAL_COUNT];
    size_t goal_count;     /**< 0: bought, setups, cuts, leftover */
    int32_t stages;        /**< 2 or 3; QC_DEFAULT = 3 */
    bool no_trim;          /**< pieces must be as high as their strip */
    qc_length keep;        /**< least side of a leftover worth keeping */
    int32_t layers;        /**< most strips cut at once, 1 to 8; default 4 */
    int64_t spare_count;   /**< extra pieces of every kind */
    int32_t spare_percent; /**< hundredths of a per cent, rounded up */
    int32_t time_limit_ms; /**< QC_DEFAULT = 10 000 */
    const qc_block_spec *blocks;
    size_t block_count;
} qc_job_spec;

/** Fills a spec with "take the default" everywhere; lists stay empty, and what
 *  is required (ids, a piece's fabric, size and count) stays NULL or 0. */
QC_API void qc_job_spec_init(qc_job_spec *spec, qc_units units);
QC_API void qc_fabric_spec_init(qc_fabric_spec *spec);
QC_API void qc_piece_spec_init(qc_piece_spec *spec);
QC_API void qc_strip_set_spec_init(qc_strip_set_spec *spec);
QC_API void qc_block_spec_init(qc_block_spec *spec);

/** An immutable, checked job. */
typedef struct qc_job qc_job;

/**
 * Checks a spec and makes a job of it. All text and lists are copied.
 *
 * @param out_job Receives a job that the caller ends with qc_job_destroy();
 *                NULL on failure.
 * @param err     Filled on failure; its field is a path such as
 *                "pieces[3].cut[0]". May be NULL.
 * @return QC_STATUS_OK; QC_STATUS_INVALID for wrong values;
 *         QC_STATUS_IMPOSSIBLE when a piece does not fit its fabric;
 *         QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_job_create(const qc_job_spec *spec, qc_job **out_job,
                               qc_error *err);

/**
 * Reads a job from JSON text (the form `quiltcut schema job` describes).
 *
 * @param text   `size` bytes of UTF-8; need not end with NUL.
 * @param err    As qc_job_create(), with line and column of the value.
 * @return as qc_job_create().
 */
QC_API qc_status qc_job_parse(const char *text, size_t size, qc_job **out_job,
                              qc_error *err);

/** A job as it was read and not checked yet, to be changed before it is made or
 *  compared at other sizes. */
typedef struct qc_job_draft qc_job_draft;

/**
 * Reads a job from JSON text without making it: fields and their types are
 * checked, not what they mean together, as qc_job_create() does.
 *
 * @param out_draft Receives a draft that the caller ends with
 *                  qc_job_draft_destroy(); NULL on failure.
 * @return QC_STATUS_OK, QC_STATUS_INVALID, QC_STATUS_NO_MEMORY.
 */
QC_API qc_status qc_job_draft_parse(const char *text, size_t size,
                                    qc_job_draft **out_draft, qc_error *err);
/** What was read; lives as long as the draft. */
QC_API const qc_job_spec *qc_job_draft_spec(const qc_job_draft *draft);
/** NULL is fine. */
QC_API void qc_job_draft_destroy(qc_job_draft *draft);

/** Ends a job; NULL is fine. Plans made from it stay valid. */
QC_API void qc_job_destroy(qc_job *job);

#ifdef __cplusplus
}
#endif

#endif
