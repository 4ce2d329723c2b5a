/**
 * Checking cutting instructions that a person wrote.
 *
 * Instructions are a job (what must come out, of which fabrics), what the
 * pattern tells people to buy, and steps. The steps are carried out on bare
 * cloth, at the stated usable width and at a row of others, and what falls out
 * is held against the job.
 */
#ifndef QUILTCUT_CHECK_H
#define QUILTCUT_CHECK_H

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

#define QC_MAX_INSTRUCTIONS 500

/** What an instruction says to do. */
typedef enum qc_instruction_kind {
    QC_INSTRUCTION_STRIPS = 0, /**< cut strips across the width of fabric */
    QC_INSTRUCTION_SUBCUT = 1, /**< cut what was cut before into sections */
    /** Cut squares, or rectangles, corner to corner into triangles. */
    QC_INSTRUCTION_DIAGONAL = 2,
    QC_INSTRUCTION_SEW = 3,      /**< sew strips side by side into sets */
    QC_INSTRUCTION_CROSSCUT = 4, /**< cut such sets across into segments */
    /** Trim sections to the outline of a piece, one from each. */
    QC_INSTRUCTION_TRIM = 5
} qc_instruction_kind;

/** Which way the ruler is moved from cut to cut. */
typedef enum qc_direction {
    QC_DIRECTION_DEFAULT = -1, /**< of strips across, of sections along */
    QC_DIRECTION_ACROSS = 0,   /**< across the width of fabric */
    QC_DIRECTION_ALONG = 1     /**< along the fabric's length */
} qc_direction;

/** One instruction. Cloth that is cut further has a name; several steps may
 *  add to one name. */
typedef struct qc_instruction_spec {
    qc_instruction_kind kind;
    const char *fabric; /**< STRIPS: required, the id of a fabric; else NULL */
    const char *from;   /**< all but STRIPS and SEW: required, a name that a
                             step before it gave; else NULL */
    /** Width of a strip; ruler setting of a subcut. With `alternate` the length
     *  of a section's long side along the strip's edge; 0: as long as the slant
     *  makes it, so that triangles come out. DIAGONAL, TRIM: 0. SEW: what the
     * set is said to measure from raw edge to raw edge; 0: not said. CROSSCUT:
     *  as of a subcut. */
    qc_length size;
    /** Strips, or sections in all, which are cut from one cloth after the
     *  other. SUBCUT, CROSSCUT, QC_DEFAULT: as `each` says, or as many as fit.
     *  DIAGONAL, TRIM: of cloths; SEW: of sets; QC_DEFAULT: all that the cloth
     *  gives. */
    int64_t count;
    int64_t each; /**< SUBCUT, CROSSCUT, instead of count: from every cloth */
    qc_direction direction; /**< SUBCUT */
    /** SUBCUT, CROSSCUT: of the cuts against the strip's length, at the left
     * end of the lower edge; millionths of a degree, more than 0, less than
     * 180. */
    int32_t angle;
    bool along_edge; /**< SUBCUT, CROSSCUT at an angle: `size` is measured along
                        the strip's edge, not square to the cut */
    bool alternate;  /**< the same: every second section is turned by half */
    int32_t times;   /**< DIAGONAL: 1 or 2 cuts */
    const char *name;  /**< what is cut is called so; NULL: not cut on */
    const char *piece; /**< what is cut is this piece of the job; NULL.
                            CROSSCUT: required, the strip set of the job whose
                            segments are cut */
    /** SEW: the names of the strips, from the lower edge up; 2 to
     *  QC_MAX_SET_STRIPS. They may be sections that were cut squarely. */
    const char *const *strips;
    size_t strip_count;
    qc_length stagger; /**< SEW: how far each strip begins from where the one
                            below it begins */
    bool steps_left;   /**< SEW: to the left of it, not to the right */
} qc_instruction_spec;

/** What the pattern says to buy. */
typedef struct qc_claim_spec {
    const char *fabric; /**< the id of a fabric */
    qc_length length;   /**< along the selvage */
} qc_claim_spec;

typedef struct qc_instructions_spec {
    uint32_t struct_size; /**< set by qc_instructions_spec_init() */
    const qc_job_spec *job;
    const qc_claim_spec *claims; /**< at most one of a fabric */
    size_t claim_count;
    const qc_instruction_spec *steps;
    size_t step_count; /**< 1 to QC_MAX_INSTRUCTIONS */
} qc_instructions_spec;

QC_API void qc_instructions_spec_init(qc_instructions_spec *spec);
/** An instruction in which everything optional is left open. */
QC_API void qc_instruction_spec_init(qc_instruction_spec *spec);

/** Immutable, checked instructions. */
typedef struct qc_instructions qc_instructions;

/**
 * Checks that a spec makes sense, and copies it. Whether the instructions are
 * right is another question: qc_instructions_check().
 *
 * @param out Receives instructions that the caller ends with
 *            qc_instructions_destroy(); NULL on failure.
 * @param err Filled on failure; its field is a path such as "steps[3].from".
 * @return as qc_job_create().
 */
QC_API qc_status qc_instructions_create(const qc_instructions_spec *spec,
                                        qc_instructions **out, qc_error *err);

/** Reads them from JSON text (`quiltcut schema instructions`), as
 *  qc_job_parse() reads a job. The text may also be a plan, as qc_plan_json()
 *  writes it: then its own steps are checked against all that it says, and
 *  carried out at other usable widths too. */
QC_API qc_status qc_instructions_parse(const char *text, size_t size,
                                       qc_instructions **out, qc_error *err);

/**
 * Reads a plain cutting list: comma-separated values (RFC 4180) below a line of
 * headings, which are, in any order, fabric, cut width, cut length and count,
 * and if wanted piece, strips, usable width and claimed. A row asks for `count`
 * pieces: strips as wide as its cut width are cut across the fabric, and pieces
 * of its cut length from them. Without `strips` there are as many as that
 * takes. All else is as a job has it by default.
 *
 * @param units What bare numbers are in.
 * @param err   As qc_instructions_parse(); the field is a heading.
 */
QC_API qc_status qc_instructions_parse_table(const char *text, size_t size,
                                             qc_units units,
                                             qc_instructions **out,
                                             qc_error *err);

/** Ends instructions; NULL is fine. Checks made from them stay valid. */
QC_API void qc_instructions_destroy(qc_instructions *instructions);

/** What was found. Those from OVER_PIECES on are no faults. */
typedef enum qc_finding_kind {
    QC_FINDING_SHORT_STEP = 0, /**< a step's cloth does not give what it asks */
    QC_FINDING_SHORT_FABRIC,   /**< more is used than is bought */
    QC_FINDING_SHORT_PIECES,   /**< fewer pieces are asked for than needed */
    QC_FINDING_SIZE,           /**< a piece has a wrong size */
    QC_FINDING_FABRIC,         /**< a piece is cut from another fabric */
    QC_FINDING_SHAPE,          /**< such a cut does not give such a piece */
    QC_FINDING_ANGLE,       /**< it is cut at another angle, or leans wrongly */
    QC_FINDING_TURNED,      /**< a piece lies as its print or grain forbids */
    QC_FINDING_PLAN,        /**< a plan is not as it says: its steps do not
                                 carry it out */
    QC_FINDING_OVER_PIECES, /**< more pieces fall out than are needed */
    QC_FINDING_OVER_STRIPS, /**< strips of which nothing is cut */
    QC_FINDING_OVER_FABRIC  /**< a purchase step less would do */
} qc_finding_kind;

typedef struct qc_finding {
    qc_finding_kind kind;
    bool is_fault;
    uint32_t step;      /**< number of the instruction, from 1; 0: none */
    const char *fabric; /**< id; NULL: of several, or of a plan as a whole */
    const char *piece;  /**< piece or strip set, as a plan calls it; NULL */
    int64_t count;      /**< pieces, sections or strips short or over, or of a
                             wrong size; 0: does not apply */
    /** SHORT_FABRIC, OVER_FABRIC: {length short or over, 0}. SIZE: by how much
     *  the piece is too large {across, along}, too small below 0; of triangles
     *  their square; of slanted pieces {between the cuts, height}; of what is
     *  trimmed its section {along the strip, height}; of strips of a set
     *  {0, width}; of segments {between the cuts, 0}. Else 0. */
    qc_length by[2];
    const char *text; /**< one sentence: what, how much, what would be right */
} qc_finding;

/** How the instructions do at one usable width. */
typedef struct qc_check_width {
    qc_length width;
    int64_t missing;  /**< pieces and sections that steps ask for in vain */
    qc_length used;   /**< as written, squaring-up included */
    qc_length needed; /**< the same with the strips that are missing;
                         QC_DEFAULT: no number of strips is enough */
    qc_length bought; /**< what to buy for `needed`; QC_DEFAULT: as needed */
    const char *text; /**< what is missing; "" if nothing is */
} qc_check_width;

typedef struct qc_check_fabric {
    const char *id;
    const char *name;
    qc_length claimed; /**< QC_DEFAULT: nothing was claimed */
    qc_length square_up;
    qc_check_width stated; /**< at the stated usable width */
    bool solved;           /**< the rest is known */
    qc_length optimum;     /**< least to buy, by the library's own plan */
    qc_length bound;       /**< no plan of its kind buys less */
    qc_outcome outcome;
    /** Bought when every size has strips of its own; below 0: longer than any
     *  length. */
    qc_length hand_method;
    size_t width_count;
    /** The steps are those of a plan, to which nothing is added: at a width at
     *  which they are short, `needed` and `bought` are QC_DEFAULT, and
     *  `missing` counts what the first of the steps that are short lacks. */
    bool of_plan;
} qc_check_fabric;

typedef struct qc_check_options {
    uint32_t struct_size;          /**< set by qc_check_options_init() */
    bool skip_optimum;             /**< do not compute the least to buy */
    const qc_solve_options *solve; /**< NULL: defaults */
} qc_check_options;

QC_API void qc_check_options_init(qc_check_options *options);

/** The result. Owns all it points to; read only. */
typedef struct qc_check qc_check;

/**
 * Carries the instructions out and computes the least to buy beside them.
 *
 * Widths tried are those from 38 to 44 in by the inch, or from 96 to 112 cm by
 * 2 cm where the job has metric units, for every fabric that is cut.
 *
 * @param options NULL for defaults.
 * @param out     Receives a check that the caller ends with
 *                qc_check_destroy(); NULL on failure.
 * @return QC_STATUS_OK, whether or not there are faults; QC_STATUS_INVALID
 *         (more than 1000000000 pieces from one step, or too long a strip in
 *         all), QC_STATUS_NO_MEMORY, or what qc_job_solve() returns.
 */
QC_API qc_status qc_instructions_check(const qc_instructions *instructions,
                                       const qc_check_options *options,
                                       qc_check **out, qc_error *err);

QC_API const char *qc_check_title(const qc_check *check); /**< "" if none */
QC_API qc_units qc_check_units(const qc_check *check);
/** No finding is a fault. */
QC_API bool qc_check_is_clean(const qc_check *check);
QC_API size_t qc_check_finding_count(const qc_check *check);
/** Faults first, each kind of finding by step. NULL beyond the last. */
QC_API const qc_finding *qc_check_finding_at(const qc_check *check,
                                             size_t finding);
QC_API size_t qc_check_fabric_count(const qc_check *check);
QC_API const qc_check_fabric *qc_check_fabric_at(const qc_check *check,
                                                 size_t fabric);
QC_API const qc_check_width *qc_check_width_at(const qc_check *check,
                                               size_t fabric, size_t width);
QC_API void qc_check_destroy(qc_check *check);

#ifdef __cplusplus
}
#endif

#endif
