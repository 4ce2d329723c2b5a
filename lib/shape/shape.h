/* From a patch of the sewn quilt to the shape that is cut for it, and from that
 * to the room it takes in a strip. */
#ifndef QCI_SHAPE_SHAPE_H
#define QCI_SHAPE_SHAPE_H

#include <quiltcut/plan.h>

#include "shape/fixed.h"

#define QCI_SHAPES 12

extern const char *const qci_shape_words[QCI_SHAPES];

/* The length whole + root x sqrt2: what the sides of patches with angles of 45
 * and 90 degrees measure. */
typedef struct qci_surd {
    qc_length whole;
    qc_length root;
} qci_surd;

/* The least whole length that is not below it. Both parts within
 * +-4 QC_LENGTH_MAX. */
qc_length qci_surd_up(qci_surd length);

/* Pieces that what is cut square becomes: 2 or 4 when it is cut once or twice
 * corner to corner; else 1. */
int32_t qci_shape_yields(qc_shape shape);

/* Is it cut at an angle, or may it be: has it an outline? */
bool qci_shape_is_angled(qc_shape shape);

/* What is cut for a patch that finishes `finished` on its side (square,
 * rectangle), leg (half-square triangle) or long side (quarter-square
 * triangle): the side of a square, or of a rectangle that way, exactly. A
 * finished size of 0 gives what the seams add to any. */
qci_surd qci_shape_cut(qc_shape shape, qci_surd finished, qc_length seam);

/* qci_shape_cut() of a whole length, rounded up. */
qc_length qci_shape_cut_up(qc_shape shape, qc_length finished, qc_length seam);

/* Corners of an outline: those of a patch, and one more for every tip that is
 * cut off. */
#define QCI_CORNERS_MAX (2 * QC_MAX_CORNERS)

/* A patch, by the rules of qc_piece_spec. */
typedef struct qci_patch {
    qc_shape shape;
    bool is_cut;
    qc_length size[3];
    /* Finished sizes that are no whole lengths: by so much less than 1 they are
     * smaller than `size`. */
    qci_fine below[3];
    int32_t angle;
    const qc_point *points;
    size_t point_count;
    const qci_fine_point *fine; /* the points, where they are not whole; of a
                                   polygon that is known to be one */
    uint32_t points_rounded;    /* as qc_piece_spec */
    bool blunt;
    bool mirrored; /* its mirror image is wanted: left for right */
    bool any_base; /* every side may lie on the strip's edge */
    bool singly;   /* triangles: never from squares */
    qc_length seam, trim, ruler;
} qci_patch;

/* What is cut for it. */
typedef struct qci_cut_shape {
    qc_length cut[2];      /* as qc_plan_piece.cut; of triangles the square */
    qc_length trim_to[2];  /* as qc_plan_piece.trim_to; 0 without trim */
    bool rounded;          /* a cut dimension went up to the ruler grid */
    int64_t finished_area; /* of one, rounded down; of a cut size, as qc_area
                              says: without the seams, where they fit */
    size_t outline_count;  /* 0 of squares, rectangles and strips, and of
                              quarter-square triangles whose strip would have
                              a height that is not on the ruler */
    size_t base_count;
    qc_point outline[QCI_CORNERS_MAX * QCI_CORNERS_MAX]; /* base by base, as
                                                            qc_plan_piece */
} qci_cut_shape;

/* What is wrong with a patch; in the order in which it is looked for. */
typedef enum qci_patch_fault {
    QCI_PATCH_FINE = 0,
    QCI_PATCH_DEGENERATE, /* a corner twice, or three in a line, to within a 300
                             000th of a degree; *at is the one that is none */
    QCI_PATCH_CROSSING,   /* its sides cross, or it winds round twice */
    QCI_PATCH_CLOCKWISE,  /* the corners run clockwise */
    QCI_PATCH_NOT_CONVEX, /* *at is the first corner that points inwards */
    QCI_PATCH_SIZES,      /* trapezoid: short side not below the long one; kite:
                             the widest line lies outside it, or so that it is
                             not convex; *at is the wrong one of the sizes */
    QCI_PATCH_TOO_SHARP,  /* a corner of less than a degree; *at is that one */
    QCI_PATCH_TRIM,       /* trimming leaves nothing */
    QCI_PATCH_TOO_LARGE,  /* it is longer or wider than QC_MAX_WIDTH */
    QCI_PATCH_TOO_NARROW  /* less than QCI_NARROWEST wide at half its height */
} qci_patch_fault;

/* A piece that is cut at an angle is at least so wide at half its height. */
#define QCI_NARROWEST QC_MM

/* The cut shape of any patch; sizes are > 0, the angle within its bounds. *at
 * as above, else 0. */
qci_patch_fault qci_shape_make(const qci_patch *patch, qci_cut_shape *out,
                               size_t *at);

/* Is a patch its own mirror image, by its shape? Polygons as they are drawn. */
bool qci_shape_is_symmetric(const qci_patch *patch);

/* Is a polygon its own mirror image, left for right, as it stands on its first
 * side? */
bool qci_shape_stands_even(const qci_patch *polygon);

/* The outline as it lies: mirrored left for right first, then turned, then
 * moved so that its lowest corners have y = 0. May be done in place. */
void qci_outline_lay(const qc_point *outline, size_t count, qc_turn turn,
                     bool mirrored, qc_point *out);

/* Room that an outline takes in a strip of its own height, as it lies. */
typedef struct qci_footprint {
    qc_length width; /* at half the height */
    qc_length height;
    qc_length left, right; /* leans; even */
    int32_t corners;       /* cuts that trim it to the outline */
} qci_footprint;
#define QCI_FOOTPRINT_MAX 16

/* How wide a wedge between two facing sides of these leans is, at half the
 * height. */
static inline qc_length qci_lean_gap(qc_length a, qc_length b)
{
    return (a < b ? b - a : a - b) / 2;
}

/* All ways to enclose an outline, as it lies, between two straight cuts across
 * a strip of this height, that are square or follow a side which rises at least
 * an eighth of it; but those that never save room against another one.
 * The first is the one with the fewest corners; of more than
 * QCI_FOOTPRINT_MAX the narrowest. Returns their number. */
int32_t qci_shape_footprints(const qc_point *lying, size_t count,
                             qc_length height, qci_footprint *out);

/* How far a cut at `angle` (millionths of a degree against the strip, the angle
 * at the left end of the lower edge) runs from the lower to the upper edge:
 * height x cotangent, to the next even number away from 0. */
qc_length qci_lean_of(qc_length height, int32_t angle);

/* How far apart along the strip cuts at `angle` lie, whose distance square to
 * them is `spacing`: spacing / sine, up to an even number; where that is not
 * exact, 2 units more, which covers what the leans were rounded by. */
qc_length qci_pitch_of(qc_length spacing, int32_t angle);

#endif
