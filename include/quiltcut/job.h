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
#define QC_MAX_COUNT 1000000000
#define QC_MAX_TEXT_BYTES 200
#define QC_MAX_WIDTH (10 * QC_M)
/** In ten-thousandths, such that the cost of any length fits in 64 bits. */
#define QC_MAX_PRICE INT64_C(100000000)
/** The longest JSON text that qc_job_parse() reads. */
#define QC_MAX_JSON_BYTES (16 * 1024 * 1024)

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
    QC_SHAPE_QUARTER_SQUARE_TRIANGLE = 3
} qc_shape;

/** Which way the print must face in the triangles of one piece. */
typedef enum qc_facing {
    QC_FACING_ANY = 0, /**< as they fall out of squares */
    QC_FACING_KEPT = 1 /**< the same way in all; not supported by this version
                            on one-way and two-way prints */
} qc_facing;

/** Where the first dimension of a square or rectangle must lie. */
typedef enum qc_grain {
    QC_GRAIN_ANY = 0,        /**< wherever the print allows */
    QC_GRAIN_LENGTHWISE = 1, /**< along the selvage */
    QC_GRAIN_CROSSWISE = 2   /**< across the width */
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
    /** {across the width, along the length}; all shapes but the rectangle use
     *  the first only: the side of a square, the leg of a half-square triangle,
     *  the long side of a quarter-square triangle, as finished sizes; as cut
     *  size of a triangle, the side of the square to cut. */
    qc_length size[2];
    /** A finished size as given was between two lengths and was rounded up. */
    bool size_rounded;
    qc_length
        trim; /**< each dimension is made this much larger, then trimmed */
    qc_grain grain;
    int64_t count;    /**< pieces needed: triangles, not squares */
    qc_facing facing; /**< of triangles only */
} qc_piece_spec;

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
    qc_goal goals[QC_GOAL_COUNT];
    size_t goal_count;     /**< 0: bought, setups, cuts, leftover */
    int32_t stages;        /**< 2 or 3; QC_DEFAULT = 3 */
    bool no_trim;          /**< pieces must be as high as their strip */
    qc_length keep;        /**< least side of a leftover worth keeping */
    int32_t layers;        /**< most strips cut at once, 1 to 8; default 4 */
    int64_t spare_count;   /**< extra pieces of every kind */
    int32_t spare_percent; /**< hundredths of a per cent, rounded up */
    int32_t time_limit_ms; /**< QC_DEFAULT = 10 000 */
} qc_job_spec;

/** Fills a spec with "take the default" everywhere; lists stay empty, and what
 *  is required (ids, a piece's fabric, size and count) stays NULL or 0. */
QC_API void qc_job_spec_init(qc_job_spec *spec, qc_units units);
QC_API void qc_fabric_spec_init(qc_fabric_spec *spec);
QC_API void qc_piece_spec_init(qc_piece_spec *spec);

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

/** Ends a job; NULL is fine. Plans made from it stay valid. */
QC_API void qc_job_destroy(qc_job *job);

#ifdef __cplusplus
}
#endif

#endif
